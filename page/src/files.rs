//! Recipe files: opened by a choice or a drop, saved as a download.

use super::choice::table_word;
use super::dom::{El, el, on_window};
use super::state::{Bench, Slip};
use super::words;
use dappledome::base::notice::{Notice, Severity};
use dappledome::recipe::file;
use dappledome::recipe::plan::Plan;
use js_sys::Array;
use leptos::prelude::*;
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{
    Blob, BlobPropertyBag, DragEvent, Event, File, FileReader, HtmlAnchorElement, HtmlInputElement, Url,
};

/// The id of the field through which the browser lets a file be chosen.
const FIELD: &str = "recipe-file";

/// The two words on the table, and the field behind the first.
pub fn open_and_save(bench: Bench) -> [El; 3] {
    let field = el("input", "unseen")
        .is("id", FIELD)
        .is("type", "file")
        .is("tabindex", "-1")
        .is("aria-hidden", "true")
        .is("accept", ".json,application/json");
    let chosen: HtmlInputElement = field.cast();
    let field = field.on("change", move |_: &Event| {
        if let Some(file) = chosen.files().and_then(|files| files.get(0)) {
            read(bench, &file);
        }
        // Else choosing the same file twice would go unnoticed.
        chosen.set_value("");
    });
    accept_drops(bench);
    let what = || el("span", "wide-only").says(words::WHAT_IS_KEPT);
    let open = table_word(words::OPEN, choose).with(what());
    let save = table_word(words::SAVE, move || save(bench)).with(what());
    [field, open, save]
}

/// Lets the maker choose a file.
pub fn choose() {
    let field = document().get_element_by_id(FIELD);
    if let Some(field) = field.and_then(|field| field.dyn_into::<HtmlInputElement>().ok()) {
        field.click();
    }
}

fn accept_drops(bench: Bench) {
    on_window("dragover", |event: &DragEvent| event.prevent_default());
    on_window("drop", move |event: &DragEvent| {
        event.prevent_default();
        let files = event.data_transfer().and_then(|dropped| dropped.files());
        if let Some(file) = files.and_then(|files| files.get(0)) {
            read(bench, &file);
        }
    });
}

/// Reads a file and takes its recipe up, or says why not; the piece on the table stays until then.
fn read(bench: Bench, file: &File) {
    let name = file.name();
    if file.size() > file::MOST_BYTES as f64 {
        let why = words::too_large(file.size() / 1024.0, file::MOST_BYTES / 1024);
        return refuse(bench, words::not_a_piece(&name), &format!("{why} {}", words::OPENS));
    }
    let Ok(reader) = FileReader::new() else { return };
    let (reading, source) = (reader.clone(), file.clone());
    // The closure owns itself until it has been called once.
    let itself: Rc<RefCell<Option<Closure<_>>>> = Rc::default();
    let owner = Rc::clone(&itself);
    let ended = Closure::<dyn Fn()>::new(move || {
        match reading.result().ok().and_then(|text| text.as_string()) {
            Some(text) => open(bench, &source.name(), &text),
            None => refuse(bench, words::not_a_piece(&source.name()), words::UNREADABLE_FILE),
        }
        let _spent = owner.borrow_mut().take();
    });
    reader.set_onloadend(Some(ended.as_ref().unchecked_ref()));
    *itself.borrow_mut() = Some(ended);
    if reader.read_as_text(file).is_err() {
        refuse(bench, words::not_a_piece(&name), words::UNREADABLE_FILE);
    }
}

fn open(bench: Bench, name: &str, text: &str) {
    let recipe = match file::read(text) {
        Ok(recipe) => recipe,
        Err(_) if !text.trim_start().starts_with('{') => {
            let sort = words::sort_of_file(name);
            return refuse(bench, words::not_a_piece(name), &format!("{sort} {}", words::OPENS));
        }
        Err(fault) => return refuse(bench, fault.what, &format!("{} {}", fault.why, fault.remedy)),
    };
    match Plan::new(&recipe) {
        Ok(_) => {
            bench.take_up(&words::opening(&recipe.title), &recipe);
            bench.slip.set(Slip::None);
            bench.filed.set(Some(recipe));
        }
        Err(notices) => {
            let faults: Vec<&Notice> =
                notices.iter().filter(|notice| notice.severity == Severity::Fault).collect();
            refuse(bench, words::cannot_be_made(name), &words::faults(&faults));
        }
    }
}

fn refuse(bench: Bench, what: String, reason: &str) {
    let why = bench.recipe.with_untracked(|recipe| words::refused(reason, &recipe.title));
    bench.slip.set(Slip::Refused { what, why });
}

/// Writes the recipe as a file into the maker's downloads.
fn save(bench: Bench) {
    let recipe = bench.recipe.get_untracked();
    if download(&words::file_name(&recipe.title), &file::write(&recipe)).is_ok() {
        bench.filed.set(Some(recipe));
    }
}

fn download(name: &str, text: &str) -> Result<(), JsValue> {
    let sort = BlobPropertyBag::new();
    sort.set_type("application/json");
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&JsValue::from_str(text)), &sort)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    Url::revoke_object_url(&address)
}
