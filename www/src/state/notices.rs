//! Which notices ask for a look.

use super::fired::Fired;
use super::nav::{Nav, key_of};
use super::workpiece::Workpiece;
use dappledome::base::notice::{Notice, Severity};
use leptos::prelude::*;

/// All notices of the piece: of its recipe, and of its firings while that can be made.
pub fn all(piece: Workpiece, fired: Fired) -> Vec<Notice> {
    let mut notices = piece.plan.with(|plan| plan.notices.clone());
    if piece.plan.with(|plan| plan.works) {
        notices.extend(fired.notices());
    }
    notices
}

/// Notices that ask for a look: faults, and risks that have not been folded.
pub fn pressing(piece: Workpiece, fired: Fired, nav: Nav) -> Vec<Notice> {
    nav.folded.with(|folded| {
        let presses = |notice: &Notice| match notice.severity {
            Severity::Note => false,
            Severity::Fault => true,
            Severity::Risk => !folded.contains(&key_of(notice)),
        };
        all(piece, fired).into_iter().filter(presses).collect()
    })
}
