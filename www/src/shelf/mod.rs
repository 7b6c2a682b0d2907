//! The shelf: the maker's pieces as small domes, the newest first, and the recipes to start from.

mod grid;
mod item;

use super::choice::{table_word, word};
use super::dom::{El, always, el, memo};
use super::keeping::{self, Gone};
use super::state::{Area, Bench, PieceId};
use super::store::{self, Card, Fault};
use super::{backing, files, words};
use dappledome::recipe::piece::Piece;
use grid::Grid;
use js_sys::Date;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::{Event, HtmlInputElement, IntersectionObserver, KeyboardEvent};

/// So many pieces come on the page at once.
const AT_ONCE: usize = 120;

/// What the parts of the shelf share.
#[derive(Clone, Copy)]
struct Shelf {
    bench: Bench,
    /// The cards, once they are read.
    cards: RwSignal<Option<Result<Vec<Card>, Fault>>>,
    /// What is searched, in small letters.
    search: RwSignal<String>,
    /// The keys of the cards that are found: a card that was changed is another one.
    found: Memo<Vec<(PieceId, u64)>>,
    /// How many of them are on the page so far; more come as the end of the list comes into sight.
    shown: RwSignal<usize>,
    /// Fills the items that come into sight.
    sight: StoredValue<Option<IntersectionObserver>, LocalStorage>,
}

/// The shelf; `demos` are the canvases on which the recipes to start from are drawn.
pub fn shelf(bench: Bench, demos: &[El]) -> El {
    let (cards, search) = (RwSignal::new(None), RwSignal::new(String::new()));
    let found = memo(move || search.with(|search| cards.with(|cards| found(cards, search))));
    let shown = RwSignal::new(AT_ONCE);
    let sight = StoredValue::new_local(item::sight(bench, move || {
        if found.with_untracked(Vec::len) > shown.get_untracked() {
            shown.update(|shown| *shown += AT_ONCE);
        }
    }));
    let shelf = Shelf { bench, cards, search, found, shown, sight };
    let pieces = grid::grid(shelf, words::SHELF);
    always(move || {
        bench.keep.news.track();
        spawn_local(shelf.read(pieces));
    });
    always(move || {
        let pictured = bench.keep.pictured.get();
        if let Some(item) = pictured.and_then(|id| pieces.item(id)) {
            item::fill(bench, &item);
        }
    });
    on_cleanup(give_the_focus_back);
    let field = search_field(shelf, pieces);
    let keys = memo(move || found.with(|found| found.iter().take(shown.get()).copied().collect()));
    let list = pieces.list().each(keys, move |key| item::item(shelf, key));
    let more = el("div", "more").is("aria-hidden", "true");
    item::watch(shelf, more.element());
    el("section", "shelf")
        .is("id", "shelf")
        .is("aria-label", words::SHELF)
        .is("tabindex", "-1")
        .with(head(bench, field))
        .with(notes(bench))
        .with(
            el("div", "shelf-list")
                .with(shelf.count())
                .with(place(list))
                .with(more)
                .with(starts(shelf, demos)),
        )
}

impl Shelf {
    /// Reads the cards; the first time the focus goes to the piece on the table, or else to the first one.
    async fn read(self, pieces: Grid) {
        let cards = store::cards().await;
        // The shelf may have been closed meanwhile.
        let Some(first) = self.cards.try_with_untracked(Option::is_none) else { return };
        let _ = self.cards.try_set(Some(cards));
        request_animation_frame(move || {
            pieces.mend_tab_stop(self.bench.id.get_untracked());
            if first {
                pieces.focus();
            }
        });
        self.say_found();
    }

    fn card(self, id: PieceId) -> Option<Card> {
        self.cards
            .with_untracked(|cards| cards.iter().flatten().flatten().find(|card| card.id == id).cloned())
    }

    /// How many pieces there are, or why none.
    fn count(self) -> El {
        let words = move || {
            let searched = self.search.with(|search| !search.is_empty());
            let count = self.found.with(Vec::len);
            self.cards.with(|cards| match cards {
                None => words::READING.into(),
                Some(Err(fault)) => words::not_kept(*fault).into(),
                Some(Ok(cards)) if cards.is_empty() => words::NO_PIECES.into(),
                Some(Ok(_)) => words::found(count, searched),
            })
        };
        el("p", "shelf-count").reads(words)
    }

    fn say_found(self) {
        let searched = self.search.with_untracked(|search| !search.is_empty());
        self.bench.said.set(words::found(self.found.with_untracked(Vec::len), searched));
    }

    /// Says something on the shelf.
    fn note(self, words: String) {
        self.bench.keep.note.set(words);
    }

    /// Puts a piece on the table.
    fn take_up(self, id: PieceId) {
        let bench = self.bench;
        if bench.id.get_untracked() == Some(id) {
            return bench.area.set(Area::Piece);
        }
        spawn_local(async move {
            let read = |stored: store::Stored| {
                Piece::read(&stored.text, bench.seed.get_untracked()).ok().map(|piece| (stored, piece))
            };
            match store::piece(id).await.map(|stored| stored.and_then(read)) {
                Ok(Some((stored, piece))) => keeping::take_up(bench, id, &stored, &piece),
                Ok(None) => self.note(words::cannot_be_read(&self.title(id))),
                Err(fault) => self.note(words::not_kept(fault).into()),
            }
        });
    }

    fn title(self, id: PieceId) -> String {
        self.card(id).map(|card| card.title).unwrap_or_default()
    }

    /// Another piece like this one, under the next number.
    fn copy(self, id: PieceId) {
        spawn_local(async move {
            let Ok((Some(stored), picture)) = store::look(id).await else { return };
            let Ok(mut piece) = Piece::read(&stored.text, self.bench.seed.get_untracked()) else {
                return self.note(words::cannot_be_read(&self.title(id)));
            };
            let taken = |title: &str| {
                self.cards
                    .with_untracked(|cards| cards.iter().flatten().flatten().any(|card| card.title == title))
            };
            piece.recipe.title = words::numbered(&piece.recipe.title, taken);
            let fresh = PieceId::fresh();
            match store::add(fresh, &piece, Date::now(), picture.as_ref()).await {
                Ok(_) => {
                    self.bench.keep.tell(fresh);
                    self.note(words::copied_as(&piece.recipe.title));
                }
                Err(fault) => self.note(words::not_kept(fault).into()),
            }
        });
    }

    /// Off the shelf with it; until the page is closed it can be put back.
    fn take_away(self, id: PieceId) {
        let (bench, title) = (self.bench, self.title(id));
        spawn_local(async move {
            match store::take_away(id).await {
                Ok(whole) => {
                    bench.keep.note.set(String::new());
                    bench.said.set(words::taken_away(&title));
                    bench.keep.away.update(|away| away.push(Gone { id, title, whole }));
                    keeping::forget(bench, id);
                }
                Err(fault) => self.note(words::not_kept(fault).into()),
            }
        });
    }

    /// Writes what is left of a damaged piece as a file.
    fn save_what_is_there(self, id: PieceId) {
        spawn_local(async move {
            let Ok(Some(stored)) = store::piece(id).await else { return };
            let name = words::file_name(&self.title(id), "json");
            let saved = files::download_text(&name, "application/json", &stored.text);
            self.note(words::saved_as(&name, saved.is_ok()));
        });
    }
}

/// The keys of the cards that have all words that are searched.
fn found(cards: &Option<Result<Vec<Card>, Fault>>, search: &str) -> Vec<(PieceId, u64)> {
    let all = cards.iter().flatten().flatten();
    let found = all.filter(|card| search.is_empty() || matches(card, search));
    found.map(|card| (card.id, card.changed as u64)).collect()
}

fn matches(card: &Card, search: &str) -> bool {
    let text = format!("{} {}", card.title, card.glasses).to_lowercase();
    search.split_whitespace().all(|word| text.contains(word))
}

/// What the list measures its rows by.
fn place(list: El) -> El {
    el("div", "pieces-place").with(list)
}

fn head(bench: Bench, field: El) -> El {
    let back_up = move || backing::back_up(bench, move |said| bench.keep.note.set(said));
    el("div", "shelf-head")
        .with(el("h2", "shelf-title").says(words::SHELF))
        .with(field)
        .with(el("span", "gap"))
        .with(table_word(words::BACK_UP_ALL, back_up))
        .with(table_word(words::BRING_BACK_UP, files::choose))
        .with(table_word(words::CLOSE_SHELF, move || bench.area.set(Area::Piece)))
}

fn search_field(shelf: Shelf, pieces: Grid) -> El {
    let field = el("input", "shelf-search")
        .is("type", "search")
        .is("placeholder", words::SEARCH)
        .is("aria-label", words::SEARCH)
        .is("autocomplete", "off")
        .is("spellcheck", "false");
    let typed: HtmlInputElement = field.cast();
    field
        .on("input", move |_: &Event| {
            shelf.search.set(typed.value().to_lowercase());
            shelf.say_found();
            request_animation_frame(move || pieces.mend_tab_stop(None));
        })
        .on("keydown", move |event: &KeyboardEvent| {
            if event.key() == "ArrowDown" {
                pieces.focus();
                event.prevent_default();
            }
        })
}

/// What the shelf has to say, and what can be put back.
fn notes(bench: Bench) -> El {
    let note = move || bench.keep.note.get();
    let away =
        move || bench.keep.away.with(|away| away.iter().rev().map(|gone| one_gone(bench, gone)).collect());
    el("div", "shelf-notes")
        .with(el("p", "shelf-note").is("role", "status").reads(note))
        .with(el("ul", "gone").holds(away))
}

fn one_gone(bench: Bench, gone: &Gone) -> El {
    let id = gone.id;
    let put_back = move || {
        let mut found = None;
        // Off the list at once: a second press must not put it back twice.
        bench.keep.away.update(|away| {
            let at = away.iter().rposition(|gone| gone.id == id);
            found = at.map(|at| away.remove(at));
        });
        let Some(gone) = found else { return };
        spawn_local(async move {
            match store::put_back(id, &gone.whole).await {
                Ok(there) => {
                    bench.keep.note.set(words::back_again(&gone.title));
                    keeping::back_again(bench, there);
                }
                Err(fault) => {
                    bench.keep.away.update(|away| away.push(gone));
                    bench.keep.note.set(words::not_kept(fault).into());
                }
            }
        });
    };
    el("li", "").says(&words::taken_away(&gone.title)).says(" ").with(word(words::PUT_BACK, put_back))
}

/// The recipes that come with the program, in a row of their own.
fn starts(shelf: Shelf, demos: &[El]) -> El {
    let grid = grid::grid(shelf, words::STARTS);
    let recipes = shelf.bench.demos.get_value();
    let items = recipes.into_iter().zip(demos).map(|(recipe, canvas)| {
        let title = recipe.title.clone();
        let button = item::dome(&title)
            .press(move || shelf.bench.take_up_demo(&words::opening(&recipe.title), &recipe))
            .with(el("span", "round").with(canvas.clone()))
            .with(el("b", "").says(&title));
        el("li", "kept-piece").with(button)
    });
    let list = grid.list().with_all(items);
    request_animation_frame(move || grid.mend_tab_stop(None));
    el("div", "starts").with(el("h3", "").says(words::STARTS)).with(place(list))
}

/// The focus, which went with the shelf, goes to the piece.
fn give_the_focus_back() {
    set_timeout(
        || {
            let active = document().active_element();
            if active.is_none_or(|active| active.tag_name() == "BODY") {
                super::go_to_area("piece");
            }
        },
        std::time::Duration::ZERO,
    );
}
