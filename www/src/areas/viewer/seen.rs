//! Places in the picture, as shares of its side from its top left corner.

use dappledome::base::units::fixed;
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent};

/// A share of the picture as a length of the style.
pub fn percent(share: f32) -> String {
    format!("{}%", fixed(share * 100.0, 3))
}

/// Where in the element that hears it a pointer is; none if nothing hears it any more.
pub fn pointer(event: &PointerEvent) -> Option<(f32, f32)> {
    let bounds = event.current_target()?.dyn_into::<Element>().ok()?.get_bounding_client_rect();
    let share = |px: i32, from: f64, size: f64| ((f64::from(px) - from) / size.max(1.0)) as f32;
    Some((
        share(event.client_x(), bounds.left(), bounds.width()),
        share(event.client_y(), bounds.top(), bounds.height()),
    ))
}
