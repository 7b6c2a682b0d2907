//! Keeps the picture as fine as its place on the screen is.

use crate::dom::window::listen;
use crate::state::viewing::Viewing;
use leptos::prelude::*;
use leptos::{ev, html};
use leptos_use_resize_observer::use_resize_observer;

/// Most pixels along a side that a fine picture is asked with.
const MOST_PIXELS: f64 = 1024.0;

/// Follows the size of the glass and the fineness of the screen as long as the present owner lives. A new picture changes
/// neither, so this comes to rest.
pub fn follow(glass: NodeRef<html::Div>, viewing: Viewing) {
    let look = move || {
        // The page may be going.
        let Some(glass) = glass.try_get_untracked().flatten() else { return };
        let pixels = pixels(glass.offset_width().into(), window().device_pixel_ratio());
        if pixels.is_some() && viewing.pixels.get_untracked() != pixels {
            viewing.pixels.set(pixels);
        }
    };
    use_resize_observer(glass, move |_, _| look());
    // The observer does not hear of another fineness at the same size.
    listen(ev::resize, move |_| look());
}

/// Pixels along the side of a glass so many CSS pixels wide; none as long as it has no size.
fn pixels(width: f64, ratio: f64) -> Option<u32> {
    let side = width * ratio;
    (side >= 1.0).then(|| side.min(MOST_PIXELS).round() as u32)
}

#[cfg(test)]
mod tests {
    use super::pixels;

    #[test]
    fn the_picture_is_as_fine_as_the_screen_up_to_a_limit() {
        assert_eq!(pixels(401.0, 1.5), Some(602));
        assert_eq!(pixels(900.0, 2.0), Some(1024));
        assert_eq!(pixels(0.0, 2.0), None);
    }
}
