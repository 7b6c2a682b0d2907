//! Notices under their step: a bar for how much they matter, what, why, and what to do.

use super::choice::{button, main_button};
use super::dom::{El, el, memo};
use super::state::Bench;
use super::words;
use dappledome::base::notice::{Notice, Severity, Step};
use dappledome::recipe::mend;
use leptos::prelude::*;

/// The notices of one step.
pub fn notices(bench: Bench, step: Step) -> El {
    let here = memo(move || {
        let belongs = |notice: &&Notice| notice.step == step;
        bench.board.with(|board| board.notices.iter().filter(belongs).cloned().collect::<Vec<_>>())
    });
    el("div", "notices").holds(move || here.get().into_iter().map(|one| notice(bench, one)).collect())
}

/// Notices that ask for a look: faults and risks that have not been folded.
pub fn pressing(bench: Bench) -> Vec<Notice> {
    let folded = bench.folded.get();
    bench.board.with(|board| {
        let presses = |notice: &&Notice| {
            notice.severity != Severity::Note
                && (notice.severity == Severity::Fault || !folded.contains(&mark(notice)))
        };
        board.notices.iter().filter(presses).cloned().collect()
    })
}

fn mark(notice: &Notice) -> (Step, String) {
    (notice.step, notice.what.clone())
}

fn notice(bench: Bench, notice: Notice) -> El {
    let class = match notice.severity {
        Severity::Fault => "notice fault",
        Severity::Risk => "notice risk",
        Severity::Note => "notice note",
    };
    let mark = mark(&notice);
    let place = el("div", class);
    let itself = place.clone();
    let keep = (notice.severity != Severity::Fault).then(|| {
        let mark = mark.clone();
        button(words::KEEP_AS_IS, move || {
            itself.leave_focus();
            bench.folded.update(|folded| folded.push(mark.clone()));
        })
    });
    let Notice { severity, step, what, why, remedy, mend: advised } = notice;
    let do_it = advised.map(|advised| {
        main_button(&bench.shown(&words::mend(&advised)), move || {
            bench.edit(words::REMEDY, &|recipe| mend::apply(recipe, step, advised));
        })
    });
    // What the button says need not be said twice.
    let why = if do_it.is_some() { why } else { format!("{why} {remedy}") };
    let said = el("p", "")
        .with(el("span", "unseen").says(words::severity(severity)))
        .with(el("b", "").says(&bench.shown(&what)))
        .with(el("span", "why").says(" ").says(&bench.shown(&why)));
    place
        .class_when("folded", move || bench.folded.with(|folded| folded.contains(&mark)))
        .with(said)
        .with(el("div", "buttons").with_all(do_it).with_all(keep))
}
