//! The back-up of everything to one file, and back again. Both go line by line, so that neither holds the page up.

use super::autosave::Autosave;
use super::keeper::Keeper;
use super::{download, storage};
use crate::dom::clock;
use crate::model::faults::StorageFault;
use crate::model::ids::{AreaId, PieceId};
use crate::model::records::{Kinds, Stored, Version};
use crate::state::announcer::Announcer;
use crate::state::nav::Nav;
use crate::state::saving::Saving;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::keep::backup::{self, Kept};
use dappledome::keep::content::{Content, Kind};
use dappledome::keep::open::MOST_BYTES;
use dappledome::recipe::piece::Piece;
use js_sys::{Array, Uint8Array};
use leptos::prelude::*;
use leptos::task::spawn_local;

/// From so many bytes on the pictures of pieces stay at home, so that the file can be opened again; they are drawn anew.
const MOST_WITH_PICTURES: usize = MOST_BYTES / 2;
/// And from so many on the photos of the log, which is said.
const MOST_WITH_PHOTOS: usize = MOST_BYTES / 8 * 7;

/// Saves everything as one file and brings it back.
#[derive(Clone, Copy)]
pub struct Backups {
    piece: Workpiece,
    nav: Nav,
    saving: Saving,
    announcer: Announcer,
    autosave: Autosave,
    keeper: Keeper,
}

impl Backups {
    /// Takes the contexts of the page and what keeps its pieces.
    pub fn start() -> Self {
        Self {
            piece: expect_context(),
            nav: expect_context(),
            saving: expect_context(),
            announcer: expect_context(),
            autosave: expect_context(),
            keeper: expect_context(),
        }
    }

    /// Saves everything that is kept as one file, with what lies on the table even if it is not kept. What came of it is told,
    /// and said to those who do not see the page.
    pub fn back_up(&self, tell: impl FnOnce(String) + 'static) {
        let backups = *self;
        spawn_local(async move {
            let file = backups.everything().await;
            let name = words::back_up_name(&clock::local(clock::now()));
            let saved = download::parts(&name, "application/json", &file.finished());
            let said = words::backed_up(&name, file.count, saved, file.all);
            backups.announcer.say(said.clone());
            tell(said);
        });
    }

    /// Brings what is in a back-up in, beside what is there, and shows them on the shelf with a word of what came of it.
    pub fn bring_in(&self, text: String) {
        self.nav.close_panel();
        self.nav.open_area(AreaId::SHELF);
        let backups = *self;
        spawn_local(async move {
            let Count { new, known, unreadable, unkept } = backups.bring_all(&text).await;
            backups.autosave.many_on_shelf();
            backups.saving.note.set(words::brought_in(new, known, unreadable, unkept));
        });
    }

    async fn everything(&self) -> BackupFile {
        let Version { id, piece } = self.piece.version();
        let (mut on_table, text) = (id, piece.write());
        let mut file = BackupFile::new();
        self.papers(&mut file).await;
        let cards = storage::cards().await;
        if matches!(&cards, Err(fault) if fault.leaves_doubt()) {
            let held = self.autosave.held_pieces();
            file.all = !held.is_empty();
            for (id, stored) in held {
                file.add(Kind::Piece, &backup::line(Kind::Piece, id.0, stored.changed, &stored.text, None));
                if on_table == Some(id) && stored.text == text {
                    on_table = None;
                }
            }
        }
        // Where nothing can be read and nothing is held, what lies on the table is all there is.
        for card in cards.unwrap_or_default() {
            let look = storage::look(card.id).await;
            file.all &= look.is_ok();
            let Ok((Some(stored), picture)) = look else { continue };
            let picture = picture.filter(|_| file.bytes < MOST_WITH_PICTURES).map(|picture| picture.to_vec());
            let line = backup::line(Kind::Piece, card.id.0, stored.changed, &stored.text, picture.as_deref());
            file.add(Kind::Piece, &line);
            if on_table == Some(card.id) && stored.text == text {
                on_table = None;
            }
        }
        if let Some(id) = on_table {
            file.add(Kind::Piece, &backup::line(Kind::Piece, id.0, clock::now(), &text, None));
        }
        file
    }

    /// Orders, the bench and the log as they stand, with photos; and what of them cannot be read, as it is.
    async fn papers(&self, file: &mut BackupFile) {
        for (kind, id, text) in self.keeper.texts() {
            let photo = match kind {
                Kind::Entry => storage::photo(id).await,
                _ => Ok(None),
            };
            file.all &= photo.is_ok();
            let photo = photo.ok().flatten().map(|photo| photo.to_vec());
            let fits = file.bytes < MOST_WITH_PHOTOS;
            file.all &= fits || photo.is_none();
            let photo = photo.filter(|_| fits);
            file.add(kind, &backup::line(kind, id, clock::now(), &text, photo.as_deref()));
        }
    }

    async fn bring_all(&self, text: &str) -> Count {
        let mut count = Count::default();
        let Some(Ok(lines)) = backup::read(text) else { return count };
        for line in lines {
            let Some(kept) = line else {
                count.unreadable += 1;
                continue;
            };
            let kind = kept.content.kind();
            match self.bring_one(kept).await {
                Ok(true) => count.new.add(kind),
                Ok(false) => count.known += 1,
                Err(fault) => {
                    count.unkept = Some(fault);
                    break;
                }
            }
        }
        count
    }

    /// Brings one line in; whether it is new here. Nothing that is here is overwritten.
    async fn bring_one(&self, kept: Kept) -> Result<bool, StorageFault> {
        let Kept { id, changed, content, picture } = kept;
        let picture = picture.map(|bytes| Uint8Array::from(bytes.as_slice()));
        match content {
            Content::Piece(piece) => bring_piece(id, changed, *piece, picture.as_ref()).await,
            content => self.keeper.bring(id, content, picture.as_ref()).await,
        }
    }
}

/// A back-up that grows line by line. Its text stays outside our memory.
struct BackupFile {
    parts: Array,
    count: Kinds,
    bytes: usize,
    /// Whether everything that is kept could be read.
    all: bool,
}

impl BackupFile {
    fn new() -> Self {
        Self { parts: Array::of1(&backup::HEAD.into()), count: Kinds::default(), bytes: 0, all: true }
    }

    fn add(&mut self, kind: Kind, line: &str) {
        if self.bytes > 0 {
            self.parts.push(&backup::BETWEEN.into());
        }
        self.parts.push(&line.into());
        self.count.add(kind);
        self.bytes += line.len();
    }

    /// Its parts with the end.
    fn finished(&self) -> Array {
        self.parts.concat(&Array::of1(&backup::TAIL.into()))
    }
}

/// What came of the lines of a back-up.
#[derive(Default)]
struct Count {
    new: Kinds,
    known: usize,
    unreadable: usize,
    unkept: Option<StorageFault>,
}

/// Brings one piece in; whether it is new here.
async fn bring_piece(
    id: u64,
    changed: f64,
    mut piece: Piece,
    picture: Option<&Uint8Array>,
) -> Result<bool, StorageFault> {
    // The clock of another machine may go before ours.
    let changed = changed.min(clock::now());
    if storage::add(PieceId(id), &piece, changed, picture).await? {
        return Ok(true);
    }
    let same = |there: &Stored| Piece::read(&there.text, piece.seed).is_ok_and(|there| there == piece);
    if storage::piece(PieceId(id)).await?.as_ref().is_some_and(same) {
        return Ok(false);
    }
    let other = PieceId(backup::other_id(id, &Content::Piece(piece.clone().into())));
    piece.recipe.title = words::from_back_up(&piece.recipe.title);
    storage::add(other, &piece, changed, picture).await
}
