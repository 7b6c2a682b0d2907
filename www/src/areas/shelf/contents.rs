//! What lies behind a card: read when it is looked at.

use super::deeds::Doing;
use crate::dom::object_url::ObjectUrl;
use crate::model::ids::PieceId;
use crate::services::storage;
use crate::services::thumbnails::Thumbnails;
use crate::state::saving::Saving;
use dappledome::base::seed::Seed;
use dappledome::recipe::piece::Piece;
use leptos::prelude::*;
use leptos::task::spawn_local;

/// In which condition a piece is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Condition {
    /// It has not been read yet.
    Unknown,
    /// It can be taken up.
    Whole,
    /// It cannot be read.
    Damaged,
}

impl Condition {
    /// What can be done with a piece in this condition, by its words.
    pub fn deeds(self) -> &'static [Doing] {
        match self {
            Self::Unknown => &[],
            Self::Whole => &[Doing::Copy, Doing::TakeAway],
            Self::Damaged => &[Doing::SaveWhatIsThere],
        }
    }
}

/// What lies behind a card.
#[derive(Clone, Copy)]
pub struct Contents {
    /// Which piece.
    pub id: PieceId,
    /// In which condition it is.
    pub condition: RwSignal<Condition>,
    /// Where its small picture can be read, if it has one.
    pub picture: RwSignal<Option<ObjectUrl>>,
    thumbnails: Thumbnails,
}

impl Contents {
    /// What lies behind the card of a piece: not read yet, and read again when its small picture has been kept.
    pub fn of(id: PieceId) -> Self {
        let pictured = expect_context::<Saving>().pictured;
        let contents = Self {
            id,
            condition: RwSignal::new(Condition::Unknown),
            picture: RwSignal::new(None),
            thumbnails: expect_context(),
        };
        let read = move |pictured: &Option<PieceId>, _: Option<&Option<PieceId>>, _: Option<()>| {
            if *pictured == Some(id) {
                contents.read();
            }
        };
        Effect::watch(move || pictured.get(), read, false);
        contents
    }

    /// Reads the piece with its picture; asks for the picture if there is none.
    pub fn read(self) {
        spawn_local(async move {
            let Ok((Some(stored), picture)) = storage::look(self.id).await else { return };
            let piece = Piece::read(&stored.text, Seed::default());
            match (&piece, picture) {
                // The item may have gone meanwhile.
                (_, Some(picture)) => drop(self.picture.try_set(ObjectUrl::of_bytes(&picture))),
                (Ok(piece), None) => self.thumbnails.want(self.id, piece),
                (Err(_), None) => {}
            }
            let condition = if piece.is_ok() { Condition::Whole } else { Condition::Damaged };
            let _ = self.condition.try_set(condition);
        });
    }
}
