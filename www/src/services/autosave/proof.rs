//! After a write that failed: nothing counts as saved until everything was read back from a freshly opened database.
//!
//! A browser that ran out of disk has been seen to clear its database at the next opening, and to go on writing behind half
//! a record, by which all is lost when it is started the next time. So all that is kept is held here meanwhile, and what is gone
//! after the fresh opening is put back.

use super::service::Autosave;
use crate::model::faults::StorageFault;
use crate::model::records::Held;
use crate::services::storage;
use leptos::prelude::*;

/// How often the database is opened afresh before it is tried again later.
const TRIES: usize = 3;

impl Autosave {
    /// In doubt, before anything else is written: holds what is there, and puts back what was there before.
    pub(in crate::services) async fn hold(&self) -> Result<(), StorageFault> {
        if storage::doubt().is_none() {
            return Ok(());
        }
        let there = storage::all().await?;
        self.held.update_value(|held| hold(held, there));
        storage::make_good(&self.held.get_value()).await.map(drop)
    }

    /// In doubt, after everything was written: opens the database afresh until all is there, and then trusts it again.
    pub(super) async fn prove(&self) -> Result<(), StorageFault> {
        let Some(doubt) = storage::doubt() else { return Ok(()) };
        for _ in 0..TRIES {
            self.hold().await?;
            storage::close_for_long().await;
            if storage::make_good(&self.held.get_value()).await? == 0 {
                storage::trust();
                self.held.set_value(Held::new());
                return Ok(());
            }
        }
        Err(doubt)
    }
}

/// Holds what is there; what is not there any more stays held.
fn hold<T>(held: &mut Vec<(u64, T)>, there: Vec<(u64, T)>) {
    held.retain(|(id, _)| there.iter().all(|(other, _)| other != id));
    held.extend(there);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_gone_stays_held() {
        let [a, b, c] = [1, 2, 3];
        let mut held = vec![(a, "a"), (b, "b")];
        hold(&mut held, vec![(b, "b, changed"), (c, "c")]);
        assert_eq!(held, [(a, "a"), (b, "b, changed"), (c, "c")]);
        hold(&mut held, Vec::new());
        assert_eq!(held.len(), 3, "all was cleared");
    }
}
