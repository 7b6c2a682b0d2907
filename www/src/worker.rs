//! The worker's side of the drawing hand: takes jobs, does them a step at a time, and looks up between two steps.

use crate::words;
use dappledome::picture::Pixmap;
use dappledome::worker::jobs::{Desk, Said};
use dappledome::worker::protocol::{Answer, read, written};
use js_sys::{Array, Uint8Array};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{DedicatedWorkerGlobalScope, MessageChannel, MessageEvent, MessagePort};

/// The desk, and the little bell that calls for its next step.
struct Room {
    desk: RefCell<Desk>,
    bell: MessagePort,
    /// Whether the bell has been rung and not been heard yet.
    rung: Cell<bool>,
}

/// Begins to take jobs.
#[wasm_bindgen]
pub fn start_worker() {
    std::panic::set_hook(Box::new(|panic| post(&Answer::Broke { text: panic.to_string() }, None)));
    let channel = MessageChannel::new().expect("every browser with workers has message channels");
    let room =
        Rc::new(Room { desk: RefCell::new(Desk::new()), bell: channel.port2(), rung: Cell::new(false) });
    let at_the_bell = {
        let room = Rc::clone(&room);
        Closure::<dyn Fn()>::new(move || room.step())
    };
    channel.port1().set_onmessage(Some(at_the_bell.as_ref().unchecked_ref()));
    at_the_bell.forget();
    let at_the_door = Closure::<dyn Fn(MessageEvent)>::new(move |message: MessageEvent| room.take(&message));
    scope().set_onmessage(Some(at_the_door.as_ref().unchecked_ref()));
    at_the_door.forget();
    post(&Answer::Ready, None);
}

impl Room {
    fn take(&self, message: &MessageEvent) {
        match read(&Uint8Array::new(&message.data()).to_vec()) {
            Ok(job) => {
                self.desk.borrow_mut().put(job);
                self.ring();
            }
            Err(fault) => post(&Answer::Broke { text: words::unreadable_job(&fault) }, None),
        }
    }

    /// A message to ourselves queues behind those of the page, so a newer job is seen before the next step.
    fn ring(&self) {
        if !self.rung.replace(true) {
            // Fails only when the worker is being closed, and then nobody waits.
            let _ = self.bell.post_message(&JsValue::NULL);
        }
    }

    fn step(&self) {
        self.rung.set(false);
        let said = self.desk.borrow_mut().step();
        match said {
            Said::Idle => {}
            Said::Working => self.ring(),
            Said::Answer(answer, picture) => {
                post(&answer, picture.as_ref());
                self.ring();
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
