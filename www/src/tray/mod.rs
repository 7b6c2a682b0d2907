//! The tray: sisters of the piece side by side, kept, put away, compared, and chosen from.

mod edge;
mod grid;
mod ledge;
mod pair;
mod panel;
mod pool;

pub use edge::edge;
pub use panel::panel;

use super::choice::table_word;
use super::dom::{El, always, el, memo};
use super::hand::{Brought, Frame, Want};
use super::state::{Area, Bench, FIRST_SEED};
use super::{canvas, paper, table, words};
use dappledome::base::seed::Seed;
use dappledome::picture::View;
use dappledome::picture::view::{Light, Stage};
use dappledome::recipe::Recipe;
use dappledome::shop::sisters::Features;
use leptos::prelude::*;
use pool::Pool;
use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::JsValue;
use web_sys::HtmlCanvasElement;

/// Sisters laid at a time.
const A_ROUND: usize = 12;
/// Sisters that peep in at the table's edge.
const AT_THE_EDGE: usize = 3;
/// Most sisters on the tray: more than anyone looks through.
const MOST: usize = 240;
/// Side of a sister's picture, pixels: twice its size on the page, for fine screens.
const SIDE: u32 = 224;
/// Side of a lifted sister's picture, pixels.
const LIFTED_SIDE: u32 = 560;
/// Side of an option's picture, pixels: 300 to the inch on paper.
const OPTION_SIDE: u32 = 800;
/// After a change of the recipe the tray waits so long, ms, before it is laid anew.
const REST: u64 = 350;

/// How two lifted sisters lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Laid {
    /// Side by side.
    Beside,
    /// One over the other, with an edge to be moved.
    Wipe,
}

/// The tray; copied freely, since it holds only handles.
#[derive(Clone, Copy)]
pub struct Tray {
    bench: Bench,
    /// The first seed laid, and how many are to be laid.
    first: RwSignal<Seed>,
    wanted: RwSignal<usize>,
    /// The sister pointed at.
    at: RwSignal<Seed>,
    /// The sisters lifted to be compared.
    lifted: RwSignal<[Option<Seed>; 2]>,
    how: RwSignal<Laid>,
    /// Where the wipe's edge is, 0 to 1.
    edge: RwSignal<f64>,
    /// How many pictures of options have come.
    options_drawn: RwSignal<u32>,
    /// What is known of each sister drawn.
    features: RwSignal<HashMap<Seed, Features>>,
    /// How many sisters a picked set has.
    set_size: RwSignal<usize>,
    /// What was answered to the last picking.
    answer: RwSignal<String>,
    /// The seeds on the tray: those laid less those put away.
    pub seeds: Memo<Vec<Seed>>,
    works: StoredValue<Works, LocalStorage>,
}

/// What does not change the page when it changes.
struct Works {
    pool: Pool,
    canvases: HashMap<Frame, El>,
    /// What the drawn sisters are sisters by.
    made: Option<(Recipe, Light)>,
    /// Pictures drawn or asked for.
    asked: Vec<Frame>,
}

impl Tray {
    /// A tray for the piece on the bench, whose workers run `module` from the script at `url`.
    pub fn new(bench: Bench, module: JsValue, url: String) -> Self {
        let first = RwSignal::new(FIRST_SEED);
        let wanted = RwSignal::new(A_ROUND);
        let seeds = memo(move || match bench.area.get() {
            Area::Tray => laid_from(bench, first.get(), wanted.get()),
            // Beside the piece lie the sisters after its own seed.
            _ => laid_from(bench, bench.seed.get(), 1 + AT_THE_EDGE),
        });
        let bring: Rc<RefCell<Option<Tray>>> = Rc::default();
        let brought = Rc::clone(&bring);
        let pool = Pool::new(
            module,
            url,
            Rc::new(move |what| {
                if let Some(tray) = *brought.borrow() {
                    tray.bring(what);
                }
            }),
        );
        let tray = Self {
            bench,
            first,
            wanted,
            at: RwSignal::new(FIRST_SEED),
            lifted: RwSignal::new([None, None]),
            how: RwSignal::new(Laid::Beside),
            edge: RwSignal::new(0.5),
            options_drawn: RwSignal::new(0),
            features: RwSignal::new(HashMap::new()),
            set_size: RwSignal::new(6),
            answer: RwSignal::new(String::new()),
            seeds,
            works: StoredValue::new_local(Works {
                pool,
                canvases: HashMap::new(),
                made: None,
                asked: Vec::new(),
            }),
        };
        *bring.borrow_mut() = Some(tray);
        tray.keep_filled();
        tray
    }

    /// The canvas of a frame, the same one each time it is asked for.
    pub fn canvas(&self, frame: Frame) -> El {
        let mut found = None;
        self.works.update_value(|works| {
            let make = || el("canvas", "").is("aria-hidden", "true");
            found = Some(works.canvases.entry(frame).or_insert_with(make).clone());
        });
        found.unwrap_or_else(|| el("canvas", ""))
    }

    /// The large picture of a sister as an option to the customer.
    pub fn option(&self, seed: Seed, light: Light) -> El {
        self.canvas(Frame::Option(seed, light))
    }

    /// A second canvas with what a frame's own one shows, whenever that is drawn.
    pub fn copy(&self, frame: Frame) -> El {
        let (tray, from, copy) = (*self, self.canvas(frame), el("canvas", "").is("aria-hidden", "true"));
        let to = copy.clone();
        always(move || {
            tray.features.track();
            tray.options_drawn.track();
            canvas::copy(&from.cast(), &to.cast());
        });
        copy
    }

    /// Opens the tray with the present seed first.
    pub fn open(&self) {
        let seed = self.bench.seed.get_untracked();
        let laid = untrack(|| laid_from(self.bench, self.first.get(), self.wanted.get()));
        if !laid.contains(&seed) {
            self.first.set(seed);
            self.wanted.set(A_ROUND);
        }
        self.at.set(seed);
        self.bench.area.set(Area::Tray);
    }

    /// Lays a dozen more.
    pub fn lay_more(&self) {
        self.wanted.update(|wanted| *wanted = (*wanted + A_ROUND).min(MOST));
    }

    /// Stops the filling: what is not drawn yet is not laid.
    pub fn stop(&self) {
        let drawn = self.drawn();
        self.works.update_value(|works| {
            let dropped = works.pool.clear();
            works.asked.retain(|frame| !dropped.contains(frame));
        });
        self.wanted.set(drawn.max(1));
    }

    /// How many of the sisters on the tray are drawn.
    pub fn drawn(&self) -> usize {
        self.features
            .with(|known| self.seeds.with(|seeds| seeds.iter().filter(|s| known.contains_key(s)).count()))
    }

    /// Takes a sister as the piece's own seed and goes back to the piece.
    pub fn work_on(&self, seed: Seed) {
        self.bench.sow(seed);
        self.bench.area.set(Area::Piece);
    }

    /// Keeps a sister, or takes her off the shortlist.
    pub fn turn_keep(&self, seed: Seed) {
        let kept = self.bench.sisters.with_untracked(|sisters| sisters.kept.contains(&seed));
        let name = if kept { words::taken_off(seed) } else { words::kept(seed) };
        self.bench.decide(&name, &|sisters| sisters.turn_keep(seed));
        self.bench.said.set(words::capital(&name));
    }

    /// Puts a sister away; the next one is pointed at.
    pub fn put_away(&self, seed: Seed) {
        let seeds = self.seeds.get_untracked();
        let at = seeds.iter().position(|one| *one == seed);
        let next = at.and_then(|at| seeds.get(at + 1).or(at.checked_sub(1).and_then(|at| seeds.get(at))));
        if let Some(next) = next {
            self.at.set(*next);
        }
        self.lifted.update(|lifted| lifted.iter_mut().for_each(|one| *one = one.filter(|one| *one != seed)));
        let name = words::put_away(seed);
        self.bench.decide(&name, &|sisters| sisters.put_away(seed));
        self.bench.said.set(words::capital(&name));
    }

    /// Lifts a sister to one side, or lays her back if she is there.
    pub fn lift(&self, seed: Seed, side: usize) {
        self.lifted.update(|lifted| {
            let there = lifted[side] == Some(seed);
            lifted.iter_mut().for_each(|one| *one = one.filter(|one| *one != seed));
            if !there {
                lifted[side] = Some(seed);
            }
        });
    }

    /// Lifts a sister to the free side, or in place of the one on the right; lays her back if she is lifted.
    pub fn lift_beside(&self, seed: Seed) {
        let lifted = self.lifted.get_untracked();
        let side = lifted.iter().position(|one| *one == Some(seed));
        let free = lifted.iter().position(Option::is_none);
        self.lift(seed, side.or(free).unwrap_or(1));
    }

    fn bring(&self, what: Brought) {
        match what {
            Brought::Picture(frame, side, pixels) => {
                let canvas: HtmlCanvasElement = self.canvas(frame).cast();
                canvas::show(&canvas, side, &pixels);
                if matches!(frame, Frame::Option(..)) {
                    self.options_drawn.update(|drawn| *drawn += 1);
                }
            }
            Brought::Features(seed, features) => self.features.update(|known| {
                known.insert(seed, features);
            }),
            Brought::Stopped => self.bench.said.set(words::STOPPED.into()),
            Brought::Ticket(_) | Brought::Sample(..) | Brought::AllOf(_) => {}
        }
    }

    /// Lays what is wanted and not drawn yet, a moment after the last change of the recipe.
    fn keep_filled(self) {
        let waiting: StoredValue<Option<TimeoutHandle>, LocalStorage> = StoredValue::new_local(None);
        always(move || {
            // Everything that is drawn depends on these.
            self.bench.board.track();
            self.bench.light.track();
            self.bench.sisters.track();
            self.seeds.track();
            self.lifted.track();
            let soon = self.bench.area.get() != Area::Piece;
            if !self.bench.drawn.get() {
                return;
            }
            if let Some(handle) = waiting.try_get_value().flatten() {
                handle.clear();
            }
            let wait = Duration::from_millis(if soon { 0 } else { REST });
            waiting.set_value(set_timeout_with_handle(move || self.fill(), wait).ok());
        });
    }

    /// Asks the pool for every picture that is wanted and neither drawn nor asked for.
    fn fill(self) {
        let bench = self.bench;
        let (recipe, light) =
            (bench.board.with_untracked(|board| board.made.0.clone()), bench.light.get_untracked());
        let key = (recipe, light);
        let stale = self.works.try_update_value(|works| {
            let stale = works.made.as_ref() != Some(&key);
            if stale {
                works.pool.clear();
                works.asked.clear();
                works.made = Some(key.clone());
            }
            stale
        });
        if stale == Some(true) {
            self.features.set(HashMap::new());
            self.answer.set(String::new());
        }
        let (recipe, light) = key;
        let frames = self.frames();
        self.works.update_value(|works| {
            // The large ones are forgotten when they are not looked at any more.
            let done_with = |frame: &Frame| {
                !matches!(frame, Frame::Sister(_)) && !frames.iter().any(|(wanted, _)| wanted == frame)
            };
            works.asked.retain(|frame| !done_with(frame));
            works.canvases.retain(|frame, _| !done_with(frame));
            for (frame, seed) in frames {
                if !works.asked.contains(&frame) {
                    works.asked.push(frame);
                    works.pool.ask(&recipe, seed, frame, wanted(frame, light));
                }
            }
        });
    }
}

impl Tray {
    /// The pictures that are looked at, or will be next.
    fn frames(&self) -> Vec<(Frame, Seed)> {
        let sisters = self.seeds.get_untracked().into_iter().map(|seed| (Frame::Sister(seed), seed));
        let kept = self.bench.sisters.with_untracked(|sisters| sisters.kept.clone());
        match self.bench.area.get_untracked() {
            Area::Piece | Area::Shelf => sisters.collect(),
            Area::Tray => {
                let lifted = self.lifted.get_untracked().into_iter().flatten();
                let lifted = lifted.map(|seed| (Frame::Lifted(seed), seed));
                lifted
                    .chain(sisters)
                    .chain(kept.into_iter().map(|seed| (Frame::Sister(seed), seed)))
                    .collect()
            }
            Area::Paper => paper::frames(self.bench),
            Area::Customer => {
                let by = |light| move |seed| (Frame::Option(seed, light), seed);
                let days: Vec<_> = kept.iter().copied().map(by(Light::Day)).collect();
                days.into_iter().chain(kept.into_iter().map(by(Light::Within))).collect()
            }
        }
    }
}

/// So many seeds from a first one on, less those put away.
fn laid_from(bench: Bench, first: Seed, wanted: usize) -> Vec<Seed> {
    let away = bench.sisters.with(|sisters| sisters.put_away.clone());
    let all = (0..).map(|at| Seed(first.0.wrapping_add(at)));
    all.filter(|seed| !away.contains(seed)).take(wanted).collect()
}

/// The pictures of one frame, and what tells a sister from the others.
fn wanted(frame: Frame, light: Light) -> Vec<Want> {
    match frame {
        Frame::Lifted(_) => vec![Want::Picture(frame, View::usual(Stage::Fused, light, LIFTED_SIDE))],
        Frame::Option(_, light) => {
            let view = View { cells: View::FINE_CELLS, ..View::usual(Stage::Domed, light, OPTION_SIDE) };
            vec![Want::Picture(frame, view)]
        }
        _ => {
            let view = View { cells: View::DRAFT_CELLS, ..View::usual(Stage::Fused, light, SIDE) };
            vec![Want::Picture(frame, view), Want::Features]
        }
    }
}

/// The tray in place of the piece.
pub fn tray(bench: Bench, tray: Tray) -> El {
    let progress = memo(move || (tray.drawn(), tray.seeds.with(Vec::len)));
    let filling = memo(move || {
        let (drawn, of) = progress.get();
        drawn < of
    });
    let more = move || table_word(words::MORE_SISTERS, move || tray.lay_more());
    let stop = move || {
        el("span", "filling")
            .with(el("span", "").reads(move || words::laid(progress.get())))
            .with(table_word(words::STOP, move || tray.stop()))
    };
    let top = el("div", "tray-top")
        .with(el("h2", "").says(words::TRAY))
        .when(move || !filling.get(), more)
        .when(move || filling.get(), stop)
        .with(el("span", "gap"))
        .with(
            table_word("", move || table::next_light(bench))
                .reads(move || words::light(bench.light.get()).into()),
        )
        .with(table_word(words::CLOSE_TRAY, move || bench.area.set(Area::Piece)));
    el("section", "area tray")
        .is("id", "tray")
        .is("aria-label", words::TRAY)
        .is("tabindex", "-1")
        .with(top)
        .with(pair::pair(tray))
        .with(grid::grid(tray))
        .with(el("div", "panel-below").with(panel(tray)))
        .with(ledge::ledge(tray))
}
