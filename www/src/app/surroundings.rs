//! What the page keeps true around itself: the document's theme, the focus, what it hears of its versions, the keys.

use super::keys;
use crate::dom::focus;
use crate::dom::window::listen;
use crate::model::ids::PanelId;
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
    keys::listen(piece, expect_context(), nav, expect_context());
    focus::keep_focus();
    let newer = ev::Custom::<web_sys::Event>::new("new-version");
    listen(newer, move |_| nav.offer(PanelId::NEW_VERSION));
    let went_back = ev::Custom::<web_sys::Event>::new("went-back");
    listen(went_back, move |_| {
        nav.offer(PanelId::WENT_BACK);
        // Whoever has had a version before is no newcomer.
        nav.begin();
    });
    let theme = expect_context::<Preferences>().theme;
    Effect::new(move || {
        if let Some(root) = document().document_element() {
            // The attribute's name is well formed.
            let _ = root.set_attribute(THEME, theme.get().key());
        }
    });
}
