//! Notices under their step: a bar for how much they matter, what, why, and what to do.

use crate::dom::focus;
use crate::state::fired::Fired;
use crate::state::nav::{Nav, key_of};
use crate::state::notices;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::notice::{Mend, Notice, Severity, Step};
use dappledome::recipe::mend;
use leptos::html;
use leptos::prelude::*;

/// The notices of one step.
#[component]
pub fn StepNotices(
    /// Which step.
    step: Step,
) -> impl IntoView {
    let (piece, fired) = (expect_context::<Workpiece>(), expect_context::<Fired>());
    let here = Memo::new(move |_| {
        let here = notices::all(piece, fired).into_iter().filter(|notice| notice.step == step);
        here.enumerate().collect::<Vec<_>>()
    });
    view! {
        <div class="notices">
            <For each=move || here.get() key=|(at, notice)| (*at, everything(notice)) let((_, notice))>
                <NoticeBar notice />
            </For>
        </div>
    }
}

/// Everything that is shown of a notice: one that says anything else is another one.
fn everything(notice: &Notice) -> String {
    let mend = notice.mend.as_ref().map(words::mend).unwrap_or_default();
    format!("{}{notice} {mend}", words::severity(notice.severity))
}

/// One notice.
#[component]
fn NoticeBar(
    /// What it says.
    notice: Notice,
) -> impl IntoView {
    let (nav, preferences) = (expect_context::<Nav>(), expect_context::<Preferences>());
    let class = match notice.severity {
        Severity::Fault => "notice fault",
        Severity::Risk => "notice risk",
        Severity::Note => "notice note",
    };
    let key = StoredValue::new(key_of(&notice));
    let folded = move || nav.folded.with(|folded| key.with_value(|key| folded.contains(key)));
    let bar = NodeRef::<html::Div>::new();
    let fold = move |_| {
        if let Some(bar) = bar.get_untracked() {
            focus::leave(&bar);
        }
        nav.folded.update(|folded| folded.push(key.get_value()));
    };
    let Notice { severity, step, what, why, remedy, mend } = notice;
    // What the button says need not be said twice.
    let why = if mend.is_some() { why } else { format!("{why} {remedy}") };
    view! {
        <div class=class class:folded=folded node_ref=bar>
            <p>
                <span class="unseen">{words::severity(severity)}</span>
                <b>{move || preferences.text(&what)}</b>
                <span class="why">" "{move || preferences.text(&why)}</span>
            </p>
            <div class="buttons">
                {mend.map(|mend| view! { <DoIt step mend /> })}
                {(severity != Severity::Fault)
                    .then(|| {
                        view! {
                            <button class="button" on:click=fold>
                                {words::KEEP_AS_IS}
                            </button>
                        }
                    })}
            </div>
        </div>
    }
}

/// Does what a notice advises.
#[component]
fn DoIt(
    /// The notice's step.
    step: Step,
    /// What it advises.
    mend: Mend,
) -> impl IntoView {
    let (piece, preferences) = (expect_context::<Workpiece>(), expect_context::<Preferences>());
    let press = move |_| piece.edit(words::REMEDY, |recipe| mend::apply(recipe, step, mend));
    view! {
        <button class="button main" on:click=press>
            {move || preferences.text(&words::mend(&mend))}
        </button>
    }
}
