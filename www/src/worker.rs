//! The worker: takes jobs, does them a step at a time, and looks for a newer one between two steps.

use crate::words;
use dappledome::picture::Pixmap;
use dappledome::worker::jobs::{JobRunner, Progress};
use dappledome::worker::protocol::{Answer, read, written};
use js_sys::{Array, Uint8Array};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{DedicatedWorkerGlobalScope, MessageChannel, MessageEvent, MessagePort};

/// The job under way, and the port through which the worker calls itself to its next step.
struct Worker {
    runner: RefCell<JobRunner>,
    next_step: MessagePort,
    /// Whether the next step has been called for and not come yet.
    called: Cell<bool>,
}

/// Begins to take jobs.
#[wasm_bindgen]
pub fn start_worker() {
    std::panic::set_hook(Box::new(|panic| post(&Answer::Broke { text: panic.to_string() }, None)));
    let channel = MessageChannel::new().expect("every browser with workers has message channels");
    let (runner, called) = (RefCell::new(JobRunner::new()), Cell::new(false));
    let worker = Rc::new(Worker { runner, next_step: channel.port2(), called });
    let on_step = {
        let worker = Rc::clone(&worker);
        Closure::<dyn Fn()>::new(move || worker.step())
    };
    channel.port1().set_onmessage(Some(on_step.as_ref().unchecked_ref()));
    on_step.forget();
    let on_job = Closure::<dyn Fn(MessageEvent)>::new(move |message: MessageEvent| worker.take(&message));
    scope().set_onmessage(Some(on_job.as_ref().unchecked_ref()));
    on_job.forget();
    post(&Answer::Ready, None);
}

impl Worker {
    fn take(&self, message: &MessageEvent) {
        match read(&Uint8Array::new(&message.data()).to_vec()) {
            Ok(job) => {
                self.runner.borrow_mut().put(job);
                self.call_next_step();
            }
            Err(fault) => post(&Answer::Broke { text: words::unreadable_job(&fault) }, None),
        }
    }

    /// A message to ourselves queues behind those of the page, so a newer job is seen before the next step.
    fn call_next_step(&self) {
        if !self.called.replace(true) {
            // Fails only when the worker is being closed, and then nobody waits.
            let _ = self.next_step.post_message(&JsValue::NULL);
        }
    }

    fn step(&self) {
        self.called.set(false);
        let progress = self.runner.borrow_mut().step();
        match progress {
            Progress::Idle => {}
            Progress::Working => self.call_next_step(),
            Progress::Answer(answer, picture) => {
                post(&answer, picture.as_ref());
                self.call_next_step();
            }
        }
    }
}

fn scope() -> DedicatedWorkerGlobalScope {
    js_sys::global().unchecked_into()
}

/// Posts an answer. Pixels are copied out of our memory once and handed over, not copied again.
fn post(answer: &Answer, picture: Option<&Pixmap>) {
    let message = Array::of1(&Uint8Array::from(written(answer).as_slice()));
    let handed_over = Array::new();
    if let Some(picture) = picture {
        let pixels = Uint8Array::from(picture.rgba.as_slice()).buffer();
        message.push(&pixels);
        handed_over.push(&pixels);
    }
    // Fails only when the worker is being closed, and then nobody waits.
    let _ = scope().post_message_with_transfer(&message, &handed_over);
}
