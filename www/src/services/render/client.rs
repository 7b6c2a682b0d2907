//! The page's side of one worker. A worker that breaks, or is silent for too long, is replaced and asked once more.

use super::program::Program;
use super::queue::RequestQueue;
use super::request::{Item, Request, Response};
use crate::dom::clock;
use crate::state::pictures::Picture;
use dappledome::worker::protocol::{Answer, Job, read, written};
use js_sys::{Array, ArrayBuffer, Uint8Array};
use leptos::prelude::set_timeout;
use std::cell::RefCell;
use std::rc::{Rc, Weak};
use std::time::Duration;
use wasm_bindgen::prelude::*;
use web_sys::{ErrorEvent, MessageEvent, Worker};

/// No word for so long, ms, while a request is under way, means that the worker is gone: the slowest single step takes a
/// hundredth of it.
const SILENCE: f64 = 20_000.0;

/// The page's side of one worker.
#[derive(Clone)]
pub struct RenderClient(Rc<RefCell<Inner>>);

struct Inner {
    name: &'static str,
    program: Program,
    bring: Rc<dyn Fn(Response)>,
    worker: Option<Live>,
    queue: RequestQueue,
    /// When the worker was last heard of.
    heard: f64,
}

/// A worker and the closures it calls, which live as long as it.
struct Live {
    worker: Worker,
    ready: bool,
    _message: Closure<dyn Fn(MessageEvent)>,
    _error: Closure<dyn Fn(ErrorEvent)>,
}

impl Drop for Live {
    fn drop(&mut self) {
        self.worker.set_onmessage(None);
        self.worker.set_onerror(None);
        self.worker.terminate();
    }
}

impl RenderClient {
    /// A client whose worker the browser calls `name`. `bring` gets what it brings.
    pub fn new(name: &'static str, program: Program, bring: Rc<dyn Fn(Response)>) -> Self {
        let (queue, heard) = (RequestQueue::default(), clock::now());
        let client = Self(Rc::new(RefCell::new(Inner { name, program, bring, worker: None, queue, heard })));
        client.start_worker();
        client
    }

    /// Asks for something; what was waiting is forgotten.
    pub fn ask(&self, request: Request) {
        self.0.borrow_mut().queue.ask(request);
        self.go_on();
    }

    /// Asks for a core sample as soon as nothing else is to be done, instead of any that was asked for before.
    pub fn ask_sample(&self, request: Request) {
        self.0.borrow_mut().queue.ask_sample(request);
        self.go_on();
    }

    /// Asks for something when nothing else is to be done.
    pub fn ask_some_time(&self, request: Request) {
        self.0.borrow_mut().queue.ask_some_time(request);
        self.go_on();
    }

    /// Replaces the worker if it has not been heard of for too long; to be called now and then.
    pub fn look_after(&self) {
        let silent = {
            let inner = self.0.borrow();
            inner.queue.is_busy() && clock::now() - inner.heard > SILENCE
        };
        if silent {
            self.replace();
        }
    }

    fn start_worker(&self) {
        let mut inner = self.0.borrow_mut();
        inner.worker = None;
        inner.heard = clock::now();
        let Ok(worker) = inner.program.start_worker(inner.name) else { return };
        let weak = Rc::downgrade(&self.0);
        let message = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| hear(&weak, &event));
        let weak = Rc::downgrade(&self.0);
        let error = Closure::<dyn Fn(ErrorEvent)>::new(move |_| {
            if let Some(inner) = weak.upgrade() {
                Self(inner).replace();
            }
        });
        worker.set_onmessage(Some(message.as_ref().unchecked_ref()));
        worker.set_onerror(Some(error.as_ref().unchecked_ref()));
        inner.worker = Some(Live { worker, ready: false, _message: message, _error: error });
    }

    /// Takes a new worker for one that broke, and asks it the same once more, after growing pauses; gives up at last.
    fn replace(&self) {
        let (bring, pause) = {
            let mut inner = self.0.borrow_mut();
            inner.worker = None;
            (Rc::clone(&inner.bring), inner.queue.broke())
        };
        match pause {
            None => bring(Response::Stopped),
            Some(0) => self.go_on(),
            Some(pause) => {
                let weak = Rc::downgrade(&self.0);
                let go_on = move || weak.upgrade().into_iter().for_each(|inner| Self(inner).go_on());
                set_timeout(go_on, Duration::from_millis(pause.into()));
            }
        }
    }

    /// Sends what may be sent.
    fn go_on(&self) {
        if self.0.borrow().worker.is_none() {
            self.start_worker();
        }
        let mut inner = self.0.borrow_mut();
        let Inner { worker, queue, heard, .. } = &mut *inner;
        let ready = worker.as_ref().is_some_and(|live| live.ready);
        let (Some(next), Some(live)) = (queue.next(ready), worker) else { return };
        let job = written(&Job {
            id: next.id,
            recipe: next.request.recipe.clone(),
            seed: next.request.seed,
            wanted: next.request.items.iter().map(Item::wanted).collect(),
        });
        // Bytes can always be posted.
        let _ = live.worker.post_message(&Uint8Array::from(job.as_slice()));
        *heard = clock::now();
    }

    fn answer(&self, answer: Answer, pixels: Option<ArrayBuffer>) {
        if let Answer::Broke { .. } = answer {
            return self.replace();
        }
        let (bring, response) = {
            let mut inner = self.0.borrow_mut();
            inner.heard = clock::now();
            (Rc::clone(&inner.bring), inner.receive(answer, pixels))
        };
        response.into_iter().for_each(|response| bring(response));
        self.go_on();
    }
}

impl Inner {
    /// What an answer brings; nothing if it belongs to a request that was given up.
    fn receive(&mut self, answer: Answer, pixels: Option<ArrayBuffer>) -> Option<Response> {
        match answer {
            Answer::Ready => {
                self.worker.iter_mut().for_each(|live| live.ready = true);
                None
            }
            Answer::Ticket { id, ticket } => Some(Response::Ticket(self.queue.current(id)?.seed, ticket)),
            Answer::Features { id, features } => {
                let slot = self.queue.current(id)?.items.iter().find_map(|item| match item {
                    Item::Features(slot) => Some(*slot),
                    _ => None,
                });
                Some(Response::Features(slot?, features))
            }
            Answer::HowSure { id, how } => {
                self.queue.current(id)?;
                Some(Response::HowSure(how))
            }
            Answer::Sample { id, sample } => {
                let point = self.queue.current(id)?.items.iter().find_map(|item| match item {
                    Item::Sample(_, point) => Some(*point),
                    _ => None,
                });
                Some(Response::Sample(point?, sample.map(Box::new)))
            }
            Answer::Picture { id, at, width, .. } => {
                let item = self.queue.current(id)?.items.get(at).cloned();
                self.queue.seen();
                match (item?, pixels?) {
                    (Item::Picture(slot, _), pixels) => {
                        Some(Response::Picture(slot, Picture { side: width, pixels }))
                    }
                    _ => None,
                }
            }
            Answer::Desk { id, said, .. } => {
                self.queue.current(id)?;
                Some(Response::Desk(said))
            }
            Answer::Done { id } => Some(Response::AllOf(Box::new(self.queue.finish(id)?))),
            Answer::Broke { .. } => None,
        }
    }
}

fn hear(inner: &Weak<RefCell<Inner>>, event: &MessageEvent) {
    let Some(inner) = inner.upgrade() else { return };
    let message: Array = event.data().unchecked_into();
    let Ok(answer) = read(&Uint8Array::new(&message.get(0)).to_vec()) else { return };
    let pixels = message.get(1).dyn_into::<ArrayBuffer>().ok();
    RenderClient(inner).answer(answer, pixels);
}
