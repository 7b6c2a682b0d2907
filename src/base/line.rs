//! Lines through many points, drawn with fewer.

/// Which points of a line it needs to stay within `tolerance` of what it was (Douglas & Peucker 1973): the first, the
/// last and those that would otherwise lie too far off.
pub fn needed(points: &[[f32; 2]], tolerance: f32) -> Vec<bool> {
    let mut kept = vec![false; points.len()];
    let Some(end) = points.len().checked_sub(1) else { return kept };
    (kept[0], kept[end]) = (true, true);
    let mut open = vec![(0, end)];
    while let Some((from, to)) = open.pop() {
        let off = |at: usize| squared_distance(points[at], points[from], points[to]);
        let worst = (from + 1..to).reduce(|worst, at| if off(at) > off(worst) { at } else { worst });
        if let Some(worst) = worst
            && off(worst) > tolerance * tolerance
        {
            kept[worst] = true;
            open.extend([(from, worst), (worst, to)]);
        }
    }
    kept
}

/// The squared distance of a point from the stretch between two others.
pub fn squared_distance(point: [f32; 2], a: [f32; 2], b: [f32; 2]) -> f32 {
    let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
    let (x, y) = (point[0] - a[0], point[1] - a[1]);
    let long = dx * dx + dy * dy;
    let along = if long > 0.0 { ((x * dx + y * dy) / long).clamp(0.0, 1.0) } else { 0.0 };
    let (x, y) = (x - along * dx, y - along * dy);
    x * x + y * y
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_stay_and_straights_go() {
        let points: Vec<[f32; 2]> =
            (0..=20).map(|i| if i < 10 { [i as f32, 0.0] } else { [10.0, (i - 10) as f32] }).collect();
        let kept = needed(&points, 0.1);
        let at: Vec<usize> = (0..points.len()).filter(|at| kept[*at]).collect();
        assert_eq!(at, [0, 10, 20]);
        assert!(needed(&[], 0.1).is_empty() && needed(&[[1.0, 2.0]], 0.1) == [true]);
    }
}
