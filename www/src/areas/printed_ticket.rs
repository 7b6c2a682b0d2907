//! The ticket as it is printed from anywhere but the paper: seen on paper alone.

use crate::areas::firings::PrintedPrograms;
use crate::controls::cautions::CautionList;
use crate::controls::ticket_table::TicketTable;
use crate::dom::canvas;
use crate::dom::window::listen;
use crate::model::slots::PictureSlot;
use crate::state::pictures::Pictures;
use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::notice::Step;
use dappledome::picture::Stage;
use leptos::prelude::*;
use leptos::{ev, html};

/// Name, picture, seed, sizes, numbers and cautions.
#[component]
pub fn PrintedTicket() -> impl IntoView {
    let (piece, viewing) = (expect_context::<Workpiece>(), expect_context::<Viewing>());
    // Made when it is about to be printed, like the picture: curves that are kept up to date would cost every frame of a drag.
    let printing = RwSignal::new(false);
    let results = expect_context::<Results>();
    let how_sure = move || {
        let about = results.how_sure.with(|how| words::about_sure(how.as_ref()?))?;
        Some(format!("{} {about}.", words::COLORS))
    };
    listen(ev::beforeprint, move |_| printing.set(true));
    listen(ev::afterprint, move |_| printing.set(false));
    view! {
        <section class="printed-ticket" aria-label=words::TICKET>
            <header>
                <div>
                    <h2>{move || piece.recipe.read().title.clone()}</h2>
                    <p>{move || words::seed(piece.seed.get())}</p>
                    <Sizes />
                </div>
                <PrintedPicture />
            </header>
            <TicketTable />
            <h3>{words::CAUTIONS}</h3>
            <CautionList />
            <footer class="page-foot">
                <span>{move || viewing.otherwise()} " " {words::FORECAST} " " {how_sure}</span>
                <span>{words::DAPPLEDOME}</span>
            </footer>
            <Show when=move || printing.get()>
                <PrintedPrograms />
            </Show>
        </section>
    }
}

/// The sizes: as finished, as fused, as cut, and of the mold.
#[component]
fn Sizes() -> impl IntoView {
    let (piece, results) = (expect_context::<Workpiece>(), expect_context::<Results>());
    let preferences = expect_context::<Preferences>();
    let size = move |stage| {
        results.ticket.read().as_ref().map(|ticket| words::dimensions(stage, ticket, preferences.units.get()))
    };
    let blank = move || preferences.text(&words::blank(&piece.recipe.read()));
    let fuse = move || preferences.text(&words::fuse(&piece.recipe.read()));
    let mold = move || preferences.text(&words::mold_size(&piece.recipe.read()));
    view! {
        <dl>
            <dt>{words::FINISHED}</dt>
            <dd>{move || size(Stage::Domed)}</dd>
            <dt>{words::FUSED_FLAT}</dt>
            <dd>{move || size(Stage::Fused)}</dd>
            <dt>{words::step(Step::Blank)}</dt>
            <dd>{blank}</dd>
            <dt>{words::step(Step::Fuse)}</dt>
            <dd>{fuse}</dd>
            <dt>{words::step(Step::Slump)}</dt>
            <dd>{mold}</dd>
        </dl>
    }
}

/// The large picture as it is seen, drawn when the page is about to be printed: a second canvas that is kept up to date
/// would cost every frame of a drag.
#[component]
fn PrintedPicture() -> impl IntoView {
    let pictures = expect_context::<Pictures>();
    let place = NodeRef::<html::Canvas>::new();
    listen(ev::beforeprint, move |_| {
        let picture = pictures.picture(PictureSlot::Glass);
        if let (Some(place), Some(picture)) = (place.get_untracked(), picture) {
            canvas::show(&place, picture.side, &picture.pixels);
        }
    });
    view! { <canvas class="printed-picture" node_ref=place aria-hidden="true" /> }
}
