//! The worker: takes jobs, does them a step at a time, and looks for a newer one between two steps.

use crate::words;
use dappledome::picture::Pixmap;
use dappledome::worker::asked::AtDesk;
use dappledome::worker::desk::Desk;
use dappledome::worker::jobs::{JobRunner, Progress};
use dappledome::worker::protocol::{Answer, Job, read, written};
use js_sys::{Array, Uint8Array};
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{DedicatedWorkerGlobalScope, MessageChannel, MessageEvent, MessagePort};

/// The job under way, and the port through which the worker calls itself to its next step.
struct Worker {
    runner: RefCell<JobRunner>,
    next_step: MessagePort,
    /// Whether the next step has been called for and not come yet.
    called: Cell<bool>,
    /// The newest job that waits for the desk.
    waiting: Cell<Option<Job>>,
}

/// The desk, of the part of the program that is loaded with the first order.
#[wasm_split(order, wasm_split_path = leptos::wasm_split, fallible)]
fn desk() -> Result<Box<dyn AtDesk>, SplitLoaderError> {
    Ok(Box::new(Desk::default()))
}

/// Begins to take jobs.
#[wasm_bindgen]
pub fn start_worker() {
    std::panic::set_hook(Box::new(|panic| post(&Answer::Broke { text: panic.to_string() }, None)));
    let channel = MessageChannel::new().expect("every browser with workers has message channels");
    let (runner, called) = (RefCell::new(JobRunner::new()), Cell::new(false));
    let worker = Rc::new(Worker { runner, next_step: channel.port2(), called, waiting: Cell::default() });
    let on_step = {
        let worker = Rc::clone(&worker);
        Closure::<dyn Fn()>::new(move || worker.step())
    };
    channel.port1().set_onmessage(Some(on_step.as_ref().unchecked_ref()));
    on_step.forget();
    let on_job = Closure::<dyn Fn(MessageEvent)>::new(move |message: MessageEvent| take(&worker, &message));
    scope().set_onmessage(Some(on_job.as_ref().unchecked_ref()));
    on_job.forget();
    post(&Answer::Ready, None);
}

fn take(worker: &Rc<Worker>, message: &MessageEvent) {
    match read::<Job>(&Uint8Array::new(&message.data()).to_vec()) {
        Ok(job) if job.is_for_desk() && !worker.runner.borrow().has_desk() => {
            worker.waiting.set(Some(job));
            spawn_local(open_desk(Rc::clone(worker)));
        }
        Ok(job) => worker.put(job),
        Err(fault) => post(&Answer::Broke { text: words::unreadable_job(&fault) }, None),
    }
}

/// Loads the desk, for the job that waits for it.
async fn open_desk(worker: Rc<Worker>) {
    match desk().await {
        Ok(desk) => worker.runner.borrow_mut().open_desk(desk),
        Err(fault) => return post(&Answer::Broke { text: fault.to_string() }, None),
    }
    if let Some(job) = worker.waiting.take() {
        worker.put(job);
    }
}

impl Worker {
    fn put(&self, job: Job) {
        self.runner.borrow_mut().put(job);
        self.call_next_step();
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
