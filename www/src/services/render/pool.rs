//! As many workers as the machine has cores, and the requests that wait for one of them.

use super::client::RenderClient;
use super::program::Program;
use super::request::{Request, Response};
use crate::model::slots::PictureSlot;
use leptos::prelude::window;
use std::cell::RefCell;
use std::collections::VecDeque;
use std::rc::Rc;

/// Most workers: more than this only take memory from each other.
const MOST_WORKERS: usize = 8;

/// The workers; started when there is work for the first time.
#[derive(Clone)]
pub struct RenderPool(Rc<Inner>);

struct Inner {
    program: Program,
    bring: Rc<dyn Fn(Response)>,
    workers: RefCell<Vec<Worker>>,
    waiting: RefCell<VecDeque<(PictureSlot, Request)>>,
}

struct Worker {
    client: RenderClient,
    busy: bool,
    /// The slot that it draws for; none if that was forgotten meanwhile.
    at: Option<PictureSlot>,
}

impl RenderPool {
    /// A pool; `bring` gets what its workers bring.
    pub fn new(program: Program, bring: Rc<dyn Fn(Response)>) -> Self {
        Self(Rc::new(Inner { program, bring, workers: RefCell::default(), waiting: RefCell::default() }))
    }

    /// Asks for the picture of a slot, after all that was asked before.
    pub fn ask(&self, slot: PictureSlot, request: Request) {
        self.0.waiting.borrow_mut().push_back((slot, request));
        self.start();
        Inner::hand_out(&self.0);
    }

    /// Forgets the requests of these slots: what waits is not drawn, and what is being drawn is not brought any more.
    pub fn forget(&self, slots: &[PictureSlot]) {
        self.0.waiting.borrow_mut().retain(|(slot, _)| !slots.contains(slot));
        for worker in self.0.workers.borrow_mut().iter_mut() {
            worker.at.take_if(|slot| slots.contains(slot));
        }
    }

    fn start(&self) {
        if !self.0.workers.borrow().is_empty() {
            return;
        }
        let cores = window().navigator().hardware_concurrency() as usize;
        let workers = (0..cores.clamp(1, MOST_WORKERS)).map(|number| {
            let inner = Rc::downgrade(&self.0);
            let bring = move |response: Response| {
                let Some(inner) = inner.upgrade() else { return };
                let free = matches!(response, Response::AllOf(_) | Response::Stopped);
                let wanted = inner.workers.borrow()[number].at.is_some();
                if wanted {
                    (inner.bring)(response);
                }
                if free {
                    inner.workers.borrow_mut()[number].busy = false;
                    Inner::hand_out(&inner);
                }
            };
            let client = RenderClient::new("sisters", self.0.program.clone(), Rc::new(bring));
            Worker { client, busy: false, at: None }
        });
        let workers = workers.collect();
        *self.0.workers.borrow_mut() = workers;
    }
}

impl Inner {
    fn hand_out(inner: &Rc<Self>) {
        loop {
            let mut workers = inner.workers.borrow_mut();
            let Some(free) = workers.iter_mut().find(|worker| !worker.busy) else { return };
            let Some((slot, request)) = inner.waiting.borrow_mut().pop_front() else { return };
            (free.busy, free.at) = (true, Some(slot));
            let client = free.client.clone();
            drop(workers);
            client.ask(request);
        }
    }
}
