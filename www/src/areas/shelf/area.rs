//! The shelf as a whole.

use super::glasses::glass_section;
use super::head::ShelfHead;
use super::jumps::jumps;
use super::kiln::KilnSection;
use super::list::Pieces;
use super::molds::MoldSection;
use super::notes::ShelfNotes;
use super::orders::order_section;
use super::starts::Starts;
use super::state::ShelfState;
use super::stock::stock_section;
use crate::dom::focus;
use crate::words;
use leptos::html;
use leptos::prelude::*;
use leptos_use_intersection_observer::use_intersection_observer;
use std::time::Duration;
use web_sys::IntersectionObserverEntry;

/// The shelf.
#[component]
pub fn Shelf() -> impl IntoView {
    let shelf = ShelfState::new();
    provide_context(shelf);
    shelf.keep_read();
    on_cleanup(give_the_focus_back);
    let end = NodeRef::<html::Div>::new();
    use_intersection_observer(end, move |entries, _| {
        if entries.iter().any(IntersectionObserverEntry::is_intersecting) {
            shelf.show_more();
        }
    });
    view! {
        <section class="shelf" id="shelf" aria-label=words::SHELF tabindex="-1">
            <ShelfHead />
            {jumps()}
            <ShelfNotes />
            <div class="shelf-list">
                <p class="shelf-count" id="shelf-pieces" tabindex="-1">{move || shelf.count()}</p>
                <Pieces />
                <div class="more" aria-hidden="true" node_ref=end></div>
                {order_section()}
                <Starts />
                {glass_section()}
                <KilnSection />
                <MoldSection />
                {stock_section()}
            </div>
        </section>
    }
}

/// The focus, which went with the shelf, goes to the piece once the shelf is gone.
fn give_the_focus_back() {
    let give = || {
        if focus::is_lost() {
            focus::focus_id("piece");
        }
    };
    set_timeout(give, Duration::ZERO);
}
