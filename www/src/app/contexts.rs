//! The contexts of the page and the services behind it.

use crate::services::autosave::Autosave;
use crate::services::back;
use crate::services::backup::Backups;
use crate::services::import::{Importer, address};
use crate::services::keeper::Keeper;
use crate::services::photo::PhotoReader;
use crate::services::render::desk::Desk;
use crate::services::render::piece::PieceRenderer;
use crate::services::render::program::Program;
use crate::services::render::sample;
use crate::services::render::sisters::SisterRenderer;
use crate::services::thumbnails::Thumbnails;
use crate::state::against::Against;
use crate::state::announcer::Announcer;
use crate::state::finding::Finding;
use crate::state::fired::Fired;
use crate::state::glasses::OwnGlasses;
use crate::state::kilns::Kilns;
use crate::state::log::Log;
use crate::state::molds::Molds;
use crate::state::nav::Nav;
use crate::state::order_paper::OrderPaper;
use crate::state::orders::Orders;
use crate::state::pictures::Pictures;
use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::state::saving::Saving;
use crate::state::sinking::Sinking;
use crate::state::tile_draft::TileDesk;
use crate::state::tray::Tray;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use dappledome::paper::sheet::PaperSize;
use leptos::prelude::*;

/// Provides what the areas take.
pub fn provide(program: Program) {
    let (nav, results) = (Nav::new(), Results::new());
    let viewing = Viewing::new(nav);
    let piece = Workpiece::new(nav);
    provide_context(nav);
    provide_context(viewing);
    provide_context(results);
    provide_context(piece);
    let kilns = Kilns::kept();
    provide_context(kilns);
    let sinking = Sinking::new(piece, kilns, viewing, nav);
    provide_context(sinking);
    provide_context(Fired::new(piece, kilns));
    provide_context(Molds::kept());
    let orders = Orders::new();
    provide_context(orders);
    provide_context(OwnGlasses::new(orders));
    provide_context(TileDesk::new());
    provide_context(Finding::new());
    provide_context(Against::new());
    let language = window().navigator().language().unwrap_or_default();
    provide_context(OrderPaper::new(nav, PaperSize::usual(&language)));
    provide_context(Log::new());
    provide_context(Tray::new(piece, nav));
    provide_context(Preferences::kept());
    provide_context(Saving::new());
    provide_context(Announcer::new());
    provide_context(Pictures::new());
    let renderer = PieceRenderer::start(program.clone());
    provide_context(renderer);
    provide_context(Desk::new(program.clone()));
    provide_context(PhotoReader::new(&program));
    provide_context(SisterRenderer::start(program));
    sample::keep_asking(renderer, piece, sinking, results, nav);
    start_keeping();
    back::keep(nav);
}

/// A piece in the address comes before the one that lay on the table last.
fn start_keeping() {
    provide_context(Thumbnails::start());
    address::open();
    provide_context(Autosave::start());
    provide_context(Keeper::start());
    provide_context(Backups::start());
    provide_context(Importer::start());
}
