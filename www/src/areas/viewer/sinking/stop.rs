//! What can be done in the slip: to end the slump where the needle stands; and how sure all of it is.

use crate::state::sinking::Sinking;
use crate::words;
use leptos::prelude::*;

/// Two moments closer than this, minutes, are the same.
const SAME: f64 = 0.06;

/// The line.
#[component]
pub fn StopLine() -> impl IntoView {
    let sinking = expect_context::<Sinking>();
    let hold = Memo::new(move |_| sinking.course()?.hold_for(sinking.minutes()));
    let ends_here = Memo::new(move |_| {
        let course = sinking.course();
        course.is_none_or(|course| (sinking.minutes() - course.ends()).abs() < SAME)
    });
    let word = move || {
        if ends_here.get() {
            return words::ENDS_HERE.to_owned();
        }
        let (minutes, full) = (sinking.minutes(), sinking.course().and_then(|course| course.full_at()));
        words::stop_here(minutes, hold.get(), full.is_some_and(|full| minutes >= full))
    };
    let held = move || hold.get().filter(|_| !ends_here.get()).map(words::held_for);
    let stop = move |_| sinking.hold(words::did::SLUMP_HOLD, hold.get_untracked());
    view! {
        <div class="sink-stop">
            <button class="button" disabled=move || ends_here.get() || hold.get().is_none() on:click=stop>
                {word}
            </button>
            <p class="aside">{held} " " {words::VERIFIED}</p>
        </div>
    }
}
