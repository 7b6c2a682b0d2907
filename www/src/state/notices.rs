//! Which notices ask for a look.

use super::nav::{Nav, key_of};
use super::workpiece::Workpiece;
use dappledome::base::notice::{Notice, Severity};
use leptos::prelude::*;

/// Notices that ask for a look: faults, and risks that have not been folded.
pub fn pressing(piece: Workpiece, nav: Nav) -> Vec<Notice> {
    nav.folded.with(|folded| {
        piece.plan.with(|plan| {
            let presses = |notice: &&Notice| match notice.severity {
                Severity::Note => false,
                Severity::Fault => true,
                Severity::Risk => !folded.contains(&key_of(notice)),
            };
            plan.notices.iter().filter(presses).cloned().collect()
        })
    })
}
