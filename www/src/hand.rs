//! The page's side of the drawing hand: one job under way, one waiting, the latest wins. A hand that breaks is
//! replaced, and asked once more.

use super::state::PieceId;
use dappledome::base::seed::Seed;
use dappledome::picture::View;
use dappledome::picture::view::{Light, Stage};
use dappledome::preview::{Point, Sampled};
use dappledome::recipe::Recipe;
use dappledome::shop::sisters::Features;
use dappledome::shop::ticket::Ticket;
use dappledome::worker::protocol::{Answer, Job, Wanted, read, written};
use js_sys::{Array, ArrayBuffer, Uint8Array};
use std::cell::RefCell;
use std::collections::VecDeque;
use std::rc::{Rc, Weak};
use wasm_bindgen::prelude::*;
use web_sys::{ErrorEvent, MessageEvent, Worker, WorkerOptions, WorkerType};

/// Where a picture belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Frame {
    /// The large one.
    Glass,
    /// The thumbnail of a stage.
    Thumbnail(Stage),
    /// A demo recipe on the welcome slip.
    Demo(usize),
    /// A sister on the tray, at its edge, or on the shortlist.
    Sister(Seed),
    /// A sister lifted to be compared.
    Lifted(Seed),
    /// A sister shown to the customer or printed, by day or lit.
    Option(Seed, Light),
    /// A demo recipe on the shelf.
    Start(usize),
    /// One of the maker's pieces on the shelf.
    Kept(PieceId),
    /// None: it is only drawn so that the worker remembers how.
    Ahead,
}

/// One thing asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Want {
    /// A picture, and where it belongs.
    Picture(Frame, View),
    /// The ticket.
    Ticket,
    /// What tells the seed from its sisters.
    Features,
    /// A core sample of what a view shows.
    Sample(View, Point),
}

impl Want {
    /// The same for the worker, to which it is all one where a picture belongs.
    fn put(&self) -> Wanted {
        match *self {
            Self::Picture(_, view) => Wanted::Picture(view),
            Self::Ticket => Wanted::Ticket,
            Self::Features => Wanted::Features,
            Self::Sample(view, point) => Wanted::Sample(view, point),
        }
    }
}

/// What is asked of the hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Ask {
    /// The recipe; one that can be made.
    pub recipe: Recipe,
    /// The seed.
    pub seed: Seed,
    /// What is wanted, most wanted first.
    pub wanted: Vec<Want>,
}

impl Ask {
    /// The pictures among what is wanted, in order.
    pub fn pictures(&self) -> impl DoubleEndedIterator<Item = (Frame, View)> {
        self.wanted.iter().filter_map(|want| match want {
            Want::Picture(frame, view) => Some((*frame, *view)),
            _ => None,
        })
    }
}

/// What the hand brings.
pub enum Brought {
    /// A picture: its side in pixels and its bytes.
    Picture(Frame, u32, ArrayBuffer),
    /// The ticket.
    Ticket(Box<Ticket>),
    /// What tells a seed from its sisters.
    Features(Seed, Features),
    /// The core sample that was asked for at a point; none beside the glass.
    Sample(Point, Option<Box<Sampled>>),
    /// Everything that was asked.
    AllOf(Box<Ask>),
    /// It broke twice over one job.
    Stopped,
}

/// No word for so long, ms, while a job is under way, means that the worker is gone: the slowest single step takes
/// a hundredth of it.
const SILENCE: f64 = 20_000.0;

/// A drawing hand.
#[derive(Clone)]
pub struct Hand(Rc<RefCell<Inner>>);

struct Inner {
    name: &'static str,
    module: JsValue,
    url: String,
    bring: Rc<dyn Fn(Brought)>,
    worker: Option<Live>,
    last_id: u32,
    under_way: Option<UnderWay>,
    waiting: Option<Ask>,
    /// Small work for when there is nothing else to do.
    some_time: VecDeque<Ask>,
    /// When the worker was last heard of.
    heard: f64,
    /// Workers that broke since the last finished job.
    breaks: u32,
}

struct UnderWay {
    id: u32,
    ask: Ask,
    /// Whether the worker has it already (it may still be loading).
    sent: bool,
    /// Whether its first picture has come, so that a newer job may end it.
    seen: bool,
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

impl Hand {
    /// A hand whose workers run `module` from the script at `url`. `bring` gets what they draw; `name` is what the browser
    /// calls them.
    pub fn new(name: &'static str, module: JsValue, url: String, bring: Rc<dyn Fn(Brought)>) -> Self {
        let hand = Self(Rc::new(RefCell::new(Inner {
            name,
            module,
            url,
            bring,
            worker: None,
            last_id: 0,
            under_way: None,
            waiting: None,
            some_time: VecDeque::new(),
            heard: js_sys::Date::now(),
            breaks: 0,
        })));
        hand.hire();
        hand
    }

    /// Asks for something; what was waiting is forgotten.
    pub fn ask(&self, ask: Ask) {
        self.0.borrow_mut().waiting = Some(ask);
        self.go_on();
    }

    /// Asks for a core sample as soon as nothing else is to be done, instead of any that was asked for before.
    pub fn ask_sample(&self, ask: Ask) {
        let is_sample = |ask: &Ask| matches!(ask.wanted[..], [Want::Sample(..)]);
        let mut inner = self.0.borrow_mut();
        inner.some_time.retain(|ask| !is_sample(ask));
        inner.some_time.push_front(ask);
        drop(inner);
        self.go_on();
    }

    /// Asks for something when nothing else is to be done.
    pub fn ask_some_time(&self, ask: Ask) {
        self.0.borrow_mut().some_time.push_back(ask);
        self.go_on();
    }

    /// Replaces the worker if it has not been heard of for too long; to be called now and then.
    pub fn look_after(&self) {
        let silent = {
            let inner = self.0.borrow();
            inner.under_way.is_some() && js_sys::Date::now() - inner.heard > SILENCE
        };
        if silent {
            self.replace();
        }
    }

    fn hire(&self) {
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        let mut inner = self.0.borrow_mut();
        options.set_name(inner.name);
        inner.worker = None;
        inner.heard = js_sys::Date::now();
        let Ok(worker) = Worker::new_with_options(&inner.url, &options) else { return };
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
        // A module that cannot be cloned would have failed the page itself before.
        let _ = worker.post_message(&inner.module);
        inner.worker = Some(Live { worker, ready: false, _message: message, _error: error });
    }

    /// Takes a new worker for one that broke, and asks it the same once more; gives up if that one breaks too.
    fn replace(&self) {
        let bring = {
            let mut inner = self.0.borrow_mut();
            inner.worker = None;
            inner.breaks += 1;
            if let Some(job) = &mut inner.under_way {
                (job.sent, job.seen) = (false, false);
            }
            if inner.breaks > 1 {
                inner.breaks = 0;
                inner.under_way = None;
                inner.some_time.clear();
                Some(Rc::clone(&inner.bring))
            } else {
                None
            }
        };
        match bring {
            Some(bring) => bring(Brought::Stopped),
            None => self.go_on(),
        }
    }

    /// Sends what may be sent.
    fn go_on(&self) {
        if self.0.borrow().worker.is_none() {
            self.hire();
        }
        let mut inner = self.0.borrow_mut();
        let free = inner.under_way.as_ref().is_none_or(|job| job.seen || !job.sent);
        if free {
            let next = inner.waiting.take();
            let next = match next {
                None if inner.under_way.is_none() && inner.ready() => inner.some_time.pop_front(),
                next => next,
            };
            if let Some(ask) = next {
                inner.last_id += 1;
                let id = inner.last_id;
                inner.under_way = Some(UnderWay { id, ask, sent: false, seen: false });
            }
        }
        let Inner { worker: Some(live), under_way: Some(job), .. } = &mut *inner else { return };
        if live.ready && !job.sent {
            let job_in_bytes = written(&Job {
                id: job.id,
                recipe: job.ask.recipe.clone(),
                seed: job.ask.seed,
                wanted: job.ask.wanted.iter().map(Want::put).collect(),
            });
            // Bytes can always be posted.
            let _ = live.worker.post_message(&Uint8Array::from(job_in_bytes.as_slice()));
            job.sent = true;
            inner.heard = js_sys::Date::now();
        }
    }

    fn answer(&self, answer: Answer, pixels: Option<ArrayBuffer>) {
        let (bring, brought) = {
            let mut inner = self.0.borrow_mut();
            inner.heard = js_sys::Date::now();
            (Rc::clone(&inner.bring), inner.receive(answer, pixels))
        };
        match brought {
            Received::Broken => return self.replace(),
            Received::Nothing => {}
            Received::Something(brought) => bring(brought),
        }
        self.go_on();
    }
}

enum Received {
    Nothing,
    Something(Brought),
    Broken,
}

impl Inner {
    fn ready(&self) -> bool {
        self.worker.as_ref().is_some_and(|live| live.ready)
    }

    fn receive(&mut self, answer: Answer, pixels: Option<ArrayBuffer>) -> Received {
        let current = |id| self.under_way.as_ref().is_some_and(|job| job.id == id);
        match answer {
            Answer::Ready => {
                if let Some(live) = &mut self.worker {
                    live.ready = true;
                }
                Received::Nothing
            }
            Answer::Broke { .. } => Received::Broken,
            Answer::Ticket { id, ticket } if current(id) => {
                Received::Something(Brought::Ticket(Box::new(ticket)))
            }
            Answer::Features { id, features } if current(id) => {
                let job = self.under_way.as_ref().expect("checked to be the current one");
                Received::Something(Brought::Features(job.ask.seed, features))
            }
            Answer::Sample { id, sample } if current(id) => {
                let job = self.under_way.as_ref().expect("checked to be the current one");
                let asked = job.ask.wanted.iter().find_map(|want| match want {
                    Want::Sample(_, point) => Some(*point),
                    _ => None,
                });
                asked.map_or(Received::Nothing, |point| {
                    Received::Something(Brought::Sample(point, sample.map(Box::new)))
                })
            }
            Answer::Picture { id, at, width, .. } if current(id) => {
                let job = self.under_way.as_mut().expect("checked to be the current one");
                job.seen = true;
                match (job.ask.wanted.get(at), pixels) {
                    (Some(Want::Picture(frame, _)), Some(pixels)) => {
                        Received::Something(Brought::Picture(*frame, width, pixels))
                    }
                    _ => Received::Nothing,
                }
            }
            Answer::Done { id } if current(id) => {
                let job = self.under_way.take().expect("checked to be the current one");
                self.breaks = 0;
                if let Some(ahead) = ahead_of(&job.ask) {
                    self.some_time.retain(|ask| ask.pictures().all(|(frame, _)| frame != Frame::Ahead));
                    self.some_time.push_back(ahead);
                }
                Received::Something(Brought::AllOf(Box::new(job.ask)))
            }
            Answer::Ticket { .. }
            | Answer::Features { .. }
            | Answer::Sample { .. }
            | Answer::Picture { .. }
            | Answer::Done { .. } => Received::Nothing,
        }
    }
}

/// The piece just drawn by the other light, as small as can be: its colors are what a change of light waits for.
fn ahead_of(ask: &Ask) -> Option<Ask> {
    let (frame, view) = ask.pictures().next_back()?;
    let light = match view.light {
        Light::Day => Light::Within,
        Light::Within => Light::Day,
        Light::Grey => return None,
    };
    let ahead = Want::Picture(Frame::Ahead, View { light, size: 16, ..view });
    (frame == Frame::Glass).then(|| Ask { wanted: vec![ahead], ..ask.clone() })
}

fn hear(inner: &Weak<RefCell<Inner>>, event: &MessageEvent) {
    let Some(inner) = inner.upgrade() else { return };
    let message: Array = event.data().unchecked_into();
    let Ok(answer) = read(&Uint8Array::new(&message.get(0)).to_vec()) else { return };
    let pixels = message.get(1).dyn_into::<ArrayBuffer>().ok();
    Hand(inner).answer(answer, pixels);
}
