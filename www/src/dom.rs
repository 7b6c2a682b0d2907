//! Elements, made by hand and kept true by leptos's effects.
//!
//! The page has one type of element on purpose. A view whose type spells out its whole tree is compiled anew for
//! every tree, and for this page that weighed as much as the whole engine. For the same reason what is not generic
//! is not copied into its callers either.

use leptos::prelude::*;
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{Element, Event, HtmlElement, Node};

/// An element under construction, or a handle to a finished one.
#[derive(Clone, Debug)]
pub struct El(HtmlElement);

/// A new element with a class, or with none if it is empty.
#[inline(never)]
pub fn el(tag: &str, class: &str) -> El {
    let element = document().create_element(tag).expect("the page's own tags are well formed");
    if !class.is_empty() {
        element.set_class_name(class);
    }
    El(element.unchecked_into())
}

/// A new element of a drawing, with a class, or with none if it is empty.
#[inline(never)]
pub fn svg(tag: &str, class: &str) -> El {
    let made = document().create_element_ns(Some("http://www.w3.org/2000/svg"), tag);
    let element = made.expect("the page's own tags are well formed");
    if !class.is_empty() {
        set(&element, "class", Some(class));
    }
    El(element.unchecked_into())
}

/// A value that is computed again when what it reads changes, and passed on only when it differs.
pub fn memo<T: PartialEq + Send + Sync + 'static>(value: impl Fn() -> T + Send + Sync + 'static) -> Memo<T> {
    boxed_memo(Box::new(value))
}

#[inline(never)]
fn boxed_memo<T: PartialEq + Send + Sync + 'static>(value: Box<dyn Fn() -> T + Send + Sync>) -> Memo<T> {
    Memo::new(move |_| value())
}

/// Runs now, and again whenever what it reads changes, for as long as its owner lives.
pub fn always(run: impl Fn() + 'static) {
    keep_true(Box::new(run));
}

#[inline(never)]
fn keep_true(run: Box<dyn Fn()>) {
    // The arena of the present owner holds the effect and drops it with the rest.
    let _held = StoredValue::new_local(RenderEffect::new(move |_| run()));
}

/// Hears an event of the whole window for as long as its owner lives.
pub fn on_window<E: JsCast + 'static>(event: &'static str, hear: impl Fn(&E) + 'static) {
    let heard = listener(Box::new(move |event| hear(event.unchecked_ref())));
    let target = window();
    // Adding a listener to the window does not fail.
    let _ = target.add_event_listener_with_callback(event, heard.unchecked_ref());
    let heard = StoredValue::new_local(heard);
    on_cleanup(move || {
        if let Some(heard) = heard.try_get_value() {
            // Nor does removing it.
            let _ = window().remove_event_listener_with_callback(event, heard.unchecked_ref());
        }
    });
}

/// A function that the browser calls. It is garbage when nobody can call it any more.
#[inline(never)]
fn listener(hear: Box<dyn Fn(&Event)>) -> JsValue {
    Closure::<dyn Fn(Event)>::new(move |event: Event| hear(&event)).into_js_value()
}

impl El {
    /// The element itself.
    pub fn element(&self) -> &HtmlElement {
        &self.0
    }

    /// The element as what its tag made it.
    pub fn cast<T: JsCast>(&self) -> T {
        self.0.clone().unchecked_into()
    }

    /// Gives an attribute its value.
    #[inline(never)]
    pub fn is(self, name: &str, value: &str) -> Self {
        set(&self.0, name, Some(value));
        self
    }

    /// Adds words.
    #[inline(never)]
    pub fn says(self, words: &str) -> Self {
        self.add(&document().create_text_node(words));
        self
    }

    /// Adds a child.
    #[inline(never)]
    pub fn with(self, child: El) -> Self {
        self.add(&child.0);
        self
    }

    /// Adds children.
    pub fn with_all(self, children: impl IntoIterator<Item = El>) -> Self {
        for child in children {
            self.add(&child.0);
        }
        self
    }

    /// Adds words that follow what they are made from.
    pub fn reads(self, words: impl Fn() -> String + 'static) -> Self {
        self.reads_boxed(Box::new(words));
        self
    }

    #[inline(never)]
    fn reads_boxed(&self, words: Box<dyn Fn() -> String>) {
        let node = document().create_text_node("");
        self.add(&node);
        follow(words, Box::new(move |words| node.set_data(words)));
    }

    /// Keeps an attribute true.
    pub fn live(self, name: &'static str, value: impl Fn() -> String + 'static) -> Self {
        self.live_boxed(name, Box::new(value));
        self
    }

    #[inline(never)]
    fn live_boxed(&self, name: &'static str, value: Box<dyn Fn() -> String>) {
        let element = self.0.clone();
        follow(value, Box::new(move |value| set(&element, name, Some(value))));
    }

    /// Keeps `true` or `false` in an attribute.
    pub fn live_flag(self, name: &'static str, value: impl Fn() -> bool + 'static) -> Self {
        self.live(name, move || value().to_string())
    }

    /// Has a class exactly while a condition holds.
    pub fn class_when(self, class: &'static str, condition: impl Fn() -> bool + 'static) -> Self {
        self.class_when_boxed(class, Box::new(condition));
        self
    }

    #[inline(never)]
    fn class_when_boxed(&self, class: &'static str, condition: Box<dyn Fn() -> bool>) {
        let classes = self.0.class_list();
        keep_true(Box::new(move || {
            // The page's own class names are well formed.
            let _ = classes.toggle_with_force(class, condition());
        }));
    }

    /// Keeps a property of the style true, by the object model, which the strict policy allows.
    pub fn style(self, property: &'static str, value: impl Fn() -> String + 'static) -> Self {
        self.style_boxed(property, Box::new(value));
        self
    }

    #[inline(never)]
    fn style_boxed(&self, property: &'static str, value: Box<dyn Fn() -> String>) {
        let style = self.0.style();
        let pass_on = move |value: &str| {
            // A value that the browser does not know leaves the style sheet's.
            let _ = style.set_property(property, value);
        };
        follow(value, Box::new(pass_on));
    }

    /// Hears an event.
    pub fn on<E: JsCast + 'static>(self, event: &str, hear: impl Fn(&E) + 'static) -> Self {
        self.hear(event, Box::new(move |event| hear(event.unchecked_ref())));
        self
    }

    /// Does something when it is pressed.
    pub fn press(self, press: impl Fn() + 'static) -> Self {
        self.hear("click", Box::new(move |_| press()));
        self
    }

    #[inline(never)]
    fn hear(&self, event: &str, hear: Box<dyn Fn(&Event)>) {
        // Adding a listener to an element does not fail.
        let _ = self.0.add_event_listener_with_callback(event, listener(hear).unchecked_ref());
    }

    /// Holds, in this place among its children, what is made anew whenever what it reads changes.
    pub fn holds(self, make: impl Fn() -> Vec<El> + 'static) -> Self {
        self.holds_boxed(Box::new(make));
        self
    }

    #[inline(never)]
    fn holds_boxed(&self, make: Box<dyn Fn() -> Vec<El>>) {
        let place = document().create_text_node("");
        self.add(&place);
        let parent = self.0.clone();
        let there: RefCell<Vec<El>> = RefCell::default();
        keep_true(Box::new(move || {
            let gone = there.take();
            let had_focus = gone.iter().any(El::has_focus);
            for one in gone {
                one.0.remove();
            }
            let made = make();
            for one in &made {
                insert(&parent, &one.0, Some(&place));
            }
            if had_focus {
                pass_focus_on(made.first(), &parent);
            }
            there.replace(made);
        }));
    }

    /// Holds something exactly while a condition holds.
    pub fn when(
        self,
        condition: impl Fn() -> bool + Send + Sync + 'static,
        make: impl Fn() -> El + 'static,
    ) -> Self {
        let condition = memo(condition);
        self.holds(move || if condition.get() { vec![make()] } else { Vec::new() })
    }

    /// Holds one child for each key, in their order; a key that stays keeps its child.
    pub fn each<K: Copy + PartialEq + Send + Sync + 'static>(
        self,
        keys: Memo<Vec<K>>,
        make: impl Fn(K) -> El + 'static,
    ) -> Self {
        let parent = self.0.clone();
        let owner = Owner::current().unwrap_or_default();
        let there: Rc<RefCell<Vec<(K, Owner, El)>>> = Rc::default();
        always(move || {
            let mut before = there.take();
            let focused = before.iter().position(|(.., child)| child.has_focus());
            let mut now = Vec::new();
            for key in keys.get() {
                let known = before.iter().position(|(other, ..)| *other == key);
                now.push(known.map_or_else(
                    || {
                        let own = owner.child();
                        let made = own.with(|| untrack(|| make(key)));
                        (key, own, made)
                    },
                    |at| before.remove(at),
                ));
            }
            let mut lost = None;
            for (_, own, gone) in before {
                lost = lost.or(focused.filter(|_| gone.has_focus()));
                own.cleanup();
                gone.0.remove();
            }
            put_in_order(&parent, &now.iter().map(|(.., child)| child.clone()).collect::<Vec<_>>());
            if let Some(at) = lost {
                pass_focus_on(now.get(at).or(now.last()).map(|(.., child)| child), &parent);
            }
            there.replace(now);
        });
        self
    }

    /// Whether it or something in it has the focus.
    pub fn has_focus(&self) -> bool {
        let active = document().active_element();
        active.is_some_and(|active| self.0.contains(Some(&active)))
    }

    /// Hands the focus on to the head of the step or area around it, because what has it is going out of sight.
    pub fn leave_focus(&self) {
        pass_focus_on(None, &self.0);
    }

    #[inline(never)]
    fn add(&self, child: &Node) {
        insert(&self.0, child, None);
    }
}

/// Puts the focus, which would fall back to the start of the page, on the first thing to press in what came instead,
/// or else in the step or area around.
#[inline(never)]
fn pass_focus_on(heir: Option<&El>, around: &Element) {
    const TO_PRESS: &str = "button, input, [tabindex='0']";
    let first = |place: &Element| match place.matches(TO_PRESS) {
        Ok(true) => Some(place.clone()),
        _ => place.query_selector(TO_PRESS).ok().flatten(),
    };
    let near = |area: &str| around.closest(area).ok().flatten().as_ref().and_then(first);
    let next = heir.and_then(|heir| first(&heir.0)).or_else(|| near("li")).or_else(|| near("section"));
    focus(next.as_ref());
}

/// Gives an element the focus, if it can have it.
pub fn focus(element: Option<&Element>) {
    if let Some(element) = element.and_then(|element| element.dyn_ref::<HtmlElement>()) {
        // What cannot be focused leaves the focus where it is.
        let _ = element.focus();
    }
}

/// Moves only the children that are not in their place, and gives one that loses the focus by it the focus again.
#[inline(never)]
fn put_in_order(parent: &Element, children: &[El]) {
    let focused = document().active_element();
    let mut next = parent.first_child();
    for El(child) in children {
        if next.as_ref().is_some_and(|next| next.is_same_node(Some(child))) {
            next = child.next_sibling();
        } else {
            insert(parent, child, next.as_ref());
        }
    }
    if document().active_element() != focused {
        focus(focused.as_ref());
    }
}

#[inline(never)]
fn insert(parent: &Node, child: &Node, before: Option<&Node>) {
    // Fails only for a node inside itself, and the page makes trees.
    let _ = parent.insert_before(child, before);
}

/// Sets an attribute, or takes it away.
#[inline(never)]
pub fn set(element: &Element, name: &str, value: Option<&str>) {
    // The page's own attribute names are well formed.
    let _ = match value {
        Some(value) => element.set_attribute(name, value),
        None => element.remove_attribute(name),
    };
}

/// Passes a text on whenever it has changed.
#[inline(never)]
fn follow(text: Box<dyn Fn() -> String>, pass_on: Box<dyn Fn(&str)>) {
    let last: RefCell<Option<String>> = RefCell::default();
    keep_true(Box::new(move || {
        let now = text();
        if last.borrow().as_deref() != Some(now.as_str()) {
            pass_on(&now);
            last.replace(Some(now));
        }
    }));
}
