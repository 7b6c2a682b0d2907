//! What can do harm, one press away wherever the maker is.

use crate::areas::info::{PanelInfo, PanelWord};
use crate::controls::cautions::CautionList;
use crate::controls::panel::PanelHead;
use crate::dom::focus::focus;
use crate::model::ids::{AreaId, PanelId};
use crate::state::nav::Nav;
use crate::words;
use leptos::html;
use leptos::prelude::*;

/// The panel.
pub const PANEL: PanelInfo = PanelInfo {
    id: PanelId::CAUTIONS,
    word: PanelWord::AtTheEnd(words::CAUTIONS),
    view: || view! { <Cautions /> }.into_any(),
};

/// The cautions. They can be longer than their place, so that they must be reached to be scrolled by keys.
#[component]
fn Cautions() -> impl IntoView {
    view! {
        <div class="slip cautions">
            <PanelHead title=words::CAUTIONS />
            <div class="cautions-place" role="group" tabindex="0" aria-label=words::CAUTIONS>
                <CautionList />
            </div>
        </div>
    }
}

/// The same over the customer's screen, the one area that hides the place of the panels.
#[component]
pub fn CautionsOver() -> impl IntoView {
    let nav = expect_context::<Nav>();
    let over = Memo::new(move |_| nav.has_panel(PanelId::CAUTIONS) && nav.is_on(AreaId::CUSTOMER));
    view! {
        <Show when=move || over.get()>
            <OverPlace />
        </Show>
    }
}

/// The place over it. It takes the focus, so that Esc lays the cautions aside and not the area.
#[component]
fn OverPlace() -> impl IntoView {
    let place = NodeRef::<html::Section>::new();
    place.on_load(|place| focus(Some(&place)));
    view! {
        <section class="over-place" aria-label=words::CAUTIONS tabindex="-1" node_ref=place>
            <Cautions />
        </section>
    }
}
