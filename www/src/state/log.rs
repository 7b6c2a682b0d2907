//! The log: what became of the firings, newest first, and which entry is open.

use super::fired::Fired;
use super::kilns::Kilns;
use super::results::Results;
use super::workpiece::Workpiece;
use crate::dom::clock;
use crate::model::ids::{LogId, PieceId};
use crate::model::records::{LogRecord, Version};
use dappledome::base::firing::Firing;
use dappledome::keep::log::{LogEntry, Outcome, broken};
use dappledome::orders::model::Line;
use leptos::prelude::*;

/// The log.
#[derive(Clone, Copy, Debug)]
pub struct Log {
    /// All entries, the newest first.
    pub list: RwSignal<Vec<LogRecord>>,
    /// Which is open.
    pub open: RwSignal<Option<LogId>>,
    /// Counted up whenever a photo was kept.
    pub pictured: RwSignal<u32>,
    /// The one that was taken away last.
    gone: RwSignal<Option<LogRecord>>,
}

impl Log {
    /// Nothing fired yet.
    pub fn new() -> Self {
        Self {
            list: RwSignal::new(Vec::new()),
            open: RwSignal::new(None),
            pictured: RwSignal::new(0),
            gone: RwSignal::new(None),
        }
    }

    /// Writes a firing up and opens its entry.
    pub fn write_up(&self, entry: LogEntry) {
        let id = LogId::fresh();
        self.take_in(id, entry);
        self.open.set(Some(id));
    }

    /// Writes up a firing of one piece as it lies on the table, and opens the entry; whether there is a program to write up.
    pub fn write_up_piece(
        &self,
        piece: Workpiece,
        fired: Fired,
        kilns: Kilns,
        results: Results,
        firing: Firing,
    ) -> bool {
        let Some(program) = untrack(|| fired.program(firing)) else { return false };
        let Version { id, piece } = piece.version();
        let ticket = results.ticket.get_untracked();
        let asked = Outcome::asked(&program, kilns.start.get_untracked(), ticket.as_ref(), 1);
        let entry = LogEntry::new(piece.recipe, piece.seed, firing, clock::today());
        self.write_up(LogEntry { piece: id.map(|id| id.0), asked, ..entry });
        true
    }

    /// Takes in an entry, in place of one of its number if there is one.
    pub fn take_in(&self, id: LogId, entry: LogEntry) {
        let record = LogRecord { id, text: entry.write().into(), entry };
        self.list.update(|list| {
            if let Some(same) =
                list.iter_mut().find(|other| other.id == id && other.entry.date == record.entry.date)
            {
                *same = record;
                return;
            }
            list.retain(|other| other.id != id);
            let at = list.partition_point(|other| other.entry.date > record.entry.date);
            list.insert(at, record);
        });
    }

    /// Something of an entry, followed; none if there is no such entry.
    pub fn with<T>(&self, id: LogId, look: impl FnOnce(&LogEntry) -> T) -> Option<T> {
        self.list.read().iter().find(|record| record.id == id).map(|record| look(&record.entry))
    }

    /// Changes an entry, if it still is one then.
    ///
    /// # Errors
    /// What is wrong with it, and what to do.
    pub fn edit(&self, id: LogId, change: impl FnOnce(&mut LogEntry)) -> Result<(), String> {
        let Some(mut entry) = untrack(|| self.with(id, LogEntry::clone)) else { return Ok(()) };
        change(&mut entry);
        if let Some(fault) = entry.faults().first() {
            return Err(fault.to_string());
        }
        self.take_in(id, entry);
        Ok(())
    }

    /// Takes an entry away; it can be put back.
    pub fn remove(&self, id: LogId) {
        let record = self.list.with_untracked(|list| list.iter().find(|record| record.id == id).cloned());
        self.list.update(|list| list.retain(|record| record.id != id));
        if self.open.get_untracked() == Some(id) {
            self.open.set(None);
        }
        self.gone.set(record);
    }

    /// The name of the one that was taken away last, followed.
    pub fn gone(&self) -> Option<String> {
        self.gone.read().as_ref().map(|record| record.entry.recipe.title.clone())
    }

    /// Puts the one back that was taken away last.
    pub fn put_back(&self) {
        if let Some(record) = self.gone.try_update(Option::take).flatten() {
            self.take_in(record.id, record.entry);
            self.open.set(Some(record.id));
        }
    }

    /// What the newest entry of a piece that has a note says to do next time, followed. A piece is known by its number, or else by its
    /// name.
    pub fn next_time(&self, id: Option<PieceId>, title: &str) -> Option<String> {
        let of_it = |entry: &LogEntry| match (entry.piece, id) {
            (Some(piece), Some(PieceId(id))) if piece == id => true,
            _ => !title.is_empty() && entry.recipe.title == title,
        };
        let list = self.list.read();
        let mut entries = list.iter().map(|record| &record.entry);
        entries
            .find(|entry| of_it(entry) && !entry.next_time.trim().is_empty())
            .map(|entry| entry.next_time.clone())
    }

    /// The same for a line of an order: for its make sheet.
    pub fn next_time_of(&self, line: &Line) -> Option<String> {
        self.next_time(line.piece.map(PieceId), &line.recipe.title)
    }

    /// How many pieces broke, of how many, followed.
    pub fn broken(&self) -> Option<(u32, u32)> {
        broken(self.list.read().iter().map(|record| &record.entry))
    }
}
