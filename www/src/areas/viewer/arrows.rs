//! The arrow keys as ways.

use web_sys::KeyboardEvent;

/// The way that an arrow key means, as it is seen, up being up: `step` long, or `fine` with Shift; none for other keys.
pub fn arrow(event: &KeyboardEvent, step: f32, fine: f32) -> Option<[f32; 2]> {
    way(&event.key(), if event.shift_key() { fine } else { step })
}

fn way(key: &str, by: f32) -> Option<[f32; 2]> {
    match key {
        "ArrowLeft" => Some([-by, 0.0]),
        "ArrowRight" => Some([by, 0.0]),
        "ArrowUp" => Some([0.0, by]),
        "ArrowDown" => Some([0.0, -by]),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::way;

    #[test]
    fn arrows_point_where_they_are_seen_to() {
        let ways = ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown"].map(|key| way(key, 2.0));
        assert_eq!(ways, [[-2.0, 0.0], [2.0, 0.0], [0.0, 2.0], [0.0, -2.0]].map(Some));
        assert_eq!(way("a", 2.0), None);
    }
}
