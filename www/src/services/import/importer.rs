//! Opens what the maker chooses, drops or pastes.

use super::address;
use super::intake::Intake;
use super::sort::{self, Arrived};
use crate::dom::window::listen;
use crate::services::backup::Backups;
use crate::services::keeper::Keeper;
use crate::state::against::Against;
use crate::state::nav::Nav;
use js_sys::Uint8Array;
use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{ClipboardEvent, DragEvent, File, FileList, HtmlInputElement, HtmlTextAreaElement};

/// Opens what the maker brings.
#[derive(Clone, Copy)]
pub struct Importer {
    /// The field through which the browser lets a file be chosen.
    pub field: NodeRef<html::Input>,
    intake: Intake,
    backups: Backups,
    keeper: Keeper,
    against: Against,
    nav: Nav,
}

impl Importer {
    /// Begins to accept what is dropped, pasted, or in the address, as long as the present owner lives. Takes the contexts of
    /// the page, the keeper and the back-ups.
    pub fn start() -> Self {
        let intake = Intake::of_contexts();
        let (backups, keeper) = (expect_context(), expect_context());
        let (against, nav) = (expect_context(), expect_context());
        let importer = Self { field: NodeRef::new(), intake, backups, keeper, against, nav };
        listen(ev::dragover, |event| event.prevent_default());
        listen(ev::drop, move |event| importer.take_dropped(&event));
        listen(ev::paste, move |event| importer.take_pasted(&event));
        listen(ev::hashchange, move |_| address::open_into(intake));
        importer
    }

    /// Lets the maker choose a file.
    pub fn choose(&self) {
        if let Some(field) = self.field.get_untracked() {
            field.click();
        }
    }

    /// Opens the file that was chosen.
    pub fn take_chosen(&self) {
        let Some(field) = self.field.get_untracked() else { return };
        self.read_first(field.files());
        // Else choosing the same file twice would go unnoticed.
        field.set_value("");
    }

    fn take_dropped(&self, event: &DragEvent) {
        event.prevent_default();
        self.read_first(event.data_transfer().and_then(|dropped| dropped.files()));
    }

    fn take_pasted(&self, event: &ClipboardEvent) {
        let typing = event.target().is_some_and(|target| {
            target.has_type::<HtmlInputElement>() || target.has_type::<HtmlTextAreaElement>()
        });
        let Some(pasted) = event.clipboard_data().filter(|_| !typing) else { return };
        event.prevent_default();
        if !self.read_first(pasted.files()) {
            self.take_in(sort::pasted(&pasted.get_data("text/plain").unwrap_or_default()));
        }
    }

    /// Reads the first of some files and takes in what it holds; whether there is one.
    fn read_first(&self, files: Option<FileList>) -> bool {
        let file = files.and_then(|files| files.get(0));
        let found = file.is_some();
        if let Some(file) = file {
            spawn_local((*self).read(file));
        }
        found
    }

    async fn read(self, file: File) {
        if sort::is_photo(&file.name()) {
            return self.against.open(None, Some(file), self.nav);
        }
        let name = file.name();
        if let Some(refused) = sort::too_large(&name, file.size()) {
            return self.take_in(refused);
        }
        self.take_in(match JsFuture::from(file.array_buffer()).await {
            Ok(bytes) => sort::file(&name, &Uint8Array::new(&bytes).to_vec()),
            Err(_) => sort::unreadable(&name),
        });
    }

    fn take_in(&self, arrived: Arrived) {
        match arrived {
            Arrived::Backup(text) => self.backups.bring_in(text),
            Arrived::Piece(piece, origin) => self.intake.take_up(&piece, origin),
            Arrived::Order(order) => self.keeper.offer_bench(self.intake.take_order(*order)),
            Arrived::Glasses(shelf) => self.intake.take_glasses(&shelf),
            Arrived::Refused(refused) => self.intake.refuse(refused),
        }
    }
}
