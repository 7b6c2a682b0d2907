//! As many drawing hands as the machine has cores, and the work that waits for one of them.

use crate::hand::{Ask, Brought, Frame, Hand, Want};
use dappledome::base::seed::Seed;
use dappledome::recipe::Recipe;
use leptos::prelude::window;
use std::cell::RefCell;
use std::collections::VecDeque;
use std::rc::Rc;
use wasm_bindgen::JsValue;

/// Most hands: more workers than this only take memory from each other.
const MOST_HANDS: usize = 8;

/// The hands; hired when there is work for the first time.
#[derive(Clone)]
pub struct Pool(Rc<Inner>);

struct Inner {
    module: JsValue,
    url: String,
    bring: Rc<dyn Fn(Brought)>,
    hands: RefCell<Vec<Worker>>,
    waiting: RefCell<VecDeque<(Frame, Ask)>>,
}

struct Worker {
    hand: Hand,
    busy: bool,
}

impl Pool {
    /// A pool whose workers run `module` from the script at `url`. `bring` gets what they draw.
    pub fn new(module: JsValue, url: String, bring: Rc<dyn Fn(Brought)>) -> Self {
        Self(Rc::new(Inner { module, url, bring, hands: RefCell::default(), waiting: RefCell::default() }))
    }

    /// Asks for one sister, after all that was asked before.
    pub fn ask(&self, recipe: &Recipe, seed: Seed, frame: Frame, wanted: Vec<Want>) {
        let ask = Ask { recipe: recipe.clone(), seed, wanted };
        self.0.waiting.borrow_mut().push_back((frame, ask));
        self.hire();
        Inner::hand_out(&self.0);
    }

    /// Forgets what waits, and tells what that was. What is being drawn will still come.
    pub fn clear(&self) -> Vec<Frame> {
        self.0.waiting.borrow_mut().drain(..).map(|(frame, _)| frame).collect()
    }

    fn hire(&self) {
        if !self.0.hands.borrow().is_empty() {
            return;
        }
        let cores = window().navigator().hardware_concurrency() as usize;
        let hands = (0..cores.clamp(1, MOST_HANDS)).map(|at| {
            let inner = Rc::downgrade(&self.0);
            let bring = move |what: Brought| {
                let Some(inner) = inner.upgrade() else { return };
                let free = matches!(what, Brought::AllOf(_) | Brought::Stopped);
                (inner.bring)(what);
                if free {
                    inner.hands.borrow_mut()[at].busy = false;
                    Inner::hand_out(&inner);
                }
            };
            let hand = Hand::new("sisters", self.0.module.clone(), self.0.url.clone(), Rc::new(bring));
            Worker { hand, busy: false }
        });
        let hands = hands.collect();
        *self.0.hands.borrow_mut() = hands;
    }
}

impl Inner {
    fn hand_out(inner: &Rc<Self>) {
        loop {
            let mut hands = inner.hands.borrow_mut();
            let Some(free) = hands.iter_mut().find(|hand| !hand.busy) else { return };
            let Some((_, ask)) = inner.waiting.borrow_mut().pop_front() else { return };
            free.busy = true;
            let hand = free.hand.clone();
            drop(hands);
            hand.ask(ask);
        }
    }
}
