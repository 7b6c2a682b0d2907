//! What the page keeps true around itself: the document's theme, the focus, the offer of a newer version, the keys.

use super::keys;
use crate::dom::focus;
use crate::dom::window::listen;
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use leptos::ev;
use leptos::prelude::*;

/// The attribute by which the style sheet knows the theme.
const THEME: &str = "data-frame";

/// Keeps it true for as long as the present owner lives.
pub fn keep() {
    let (nav, piece) = (expect_context::<Nav>(), expect_context::<Workpiece>());
    keys::listen(piece, nav, expect_context());
    focus::keep_focus();
    let newer = ev::Custom::<web_sys::Event>::new("new-version");
    listen(newer, move |_| nav.offer_newer());
    let theme = expect_context::<Preferences>().theme;
    Effect::new(move || {
        if let Some(root) = document().document_element() {
            // The attribute's name is well formed.
            let _ = root.set_attribute(THEME, theme.get().key());
        }
    });
}
