//! Things that are done a moment later, and not when they were to be done before.

use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;
use std::time::Duration;

/// A clock that runs out once. It ends with its owner.
#[derive(Clone, Copy, Debug)]
pub struct Timer(StoredValue<Option<TimeoutHandle>, LocalStorage>);

impl Timer {
    /// One that does not run.
    pub fn new() -> Self {
        Self(StoredValue::new_local(None))
    }

    /// Has something done after so long, instead of what was to be done before.
    pub fn start(&self, time: Duration, act: impl FnOnce() + 'static) {
        self.set(set_timeout_with_handle(act, time).ok());
    }

    /// What was to be done is not.
    pub fn stop(&self) {
        self.set(None);
    }

    fn set(&self, timer: Option<TimeoutHandle>) {
        // The page may be going with it.
        let before = self.0.try_update_value(|before| std::mem::replace(before, timer)).flatten();
        if let Some(before) = before {
            before.clear();
        }
    }
}

/// What `reckon` gives, worked out in a task of its own whenever something of what `reads` reads has changed; none before the first time.
pub fn a_task_later<T: Send + Sync + 'static>(
    reads: impl Fn() + 'static,
    reckon: impl Fn() -> T + Copy + 'static,
) -> ReadSignal<Option<T>> {
    let (there, put) = signal(None);
    let timer = Timer::new();
    Effect::new(move || {
        reads();
        timer.start(Duration::ZERO, move || {
            // The place may have gone meanwhile, and with it what is read.
            if !put.is_disposed() {
                put.set(Some(untrack(reckon)));
            }
        });
    });
    there
}
