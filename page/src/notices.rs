//! Notices under their step: a bar for how much they matter, what, why, and what to do.

use super::choice::main_button;
use super::state::Bench;
use super::words;
use dappledome::base::notice::{Notice, Severity, Step};
use dappledome::recipe::mend;
use leptos::prelude::*;

/// The notices of one step.
pub fn notices(bench: Bench, step: Step) -> AnyView {
    let here = Memo::new(move |_| {
        let belongs = |notice: &&Notice| notice.step == step;
        bench.board.with(|board| board.notices.iter().filter(belongs).cloned().collect::<Vec<_>>())
    });
    view! { <div class="notices">{move || here.get().into_iter().map(|n| notice(bench, n)).collect_view()}</div> }
        .into_any()
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

fn notice(bench: Bench, notice: Notice) -> AnyView {
    let class = match notice.severity {
        Severity::Fault => "notice fault",
        Severity::Risk => "notice risk",
        Severity::Note => "notice note",
    };
    let mark = mark(&notice);
    let folded = {
        let mark = mark.clone();
        Memo::new(move |_| bench.folded.with(|folded| folded.contains(&mark)))
    };
    let keep = (notice.severity != Severity::Fault).then(|| {
        view! {
            <button class="button" on:click=move |_| bench.folded.update(|folded| folded.push(mark.clone()))>
                {words::KEEP_AS_IS}
            </button>
        }
    });
    let Notice { severity, step, what, why, remedy, mend: advised } = notice;
    let do_it = advised.map(|advised| {
        main_button(words::mend(&advised), move || {
            bench.edit(words::REMEDY, &|recipe| mend::apply(recipe, step, advised));
        })
    });
    // What the button says need not be said twice.
    let remedy = if do_it.is_some() { String::new() } else { remedy };
    view! {
        <div class=class class:folded=folded>
            <p>
                <span class="unseen">{words::severity(severity)}</span>
                <b>{what}</b>
                <span class="why">" "{why}" "{remedy}</span>
            </p>
            <div class="buttons">{do_it}{keep}</div>
        </div>
    }
    .into_any()
}
