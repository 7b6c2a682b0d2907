//! Files in and out: opened by a choice, a drop or a paste, saved as a download.

use super::dom::{El, el, on_window};
use super::state::{Bench, Slip};
use super::{backing, canvas, words};
use dappledome::base::notice::{Notice, Severity};
use dappledome::keep::open::{MOST_BYTES, NOT_A_PIECE, Opened, open};
use dappledome::picture::png;
use dappledome::recipe::link;
use dappledome::recipe::piece::Piece;
use dappledome::recipe::plan::Plan;
use js_sys::{Array, ArrayBuffer, Uint8Array};
use leptos::prelude::*;
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{
    Blob, BlobPropertyBag, ClipboardEvent, DragEvent, Event, File, FileReader, HtmlAnchorElement,
    HtmlCanvasElement, HtmlInputElement, Url,
};

/// The id of the field through which the browser lets a file be chosen.
const FIELD: &str = "recipe-file";

/// The field through which a file is chosen; it also begins to accept what is dropped, pasted, or in a link.
pub fn accept(bench: Bench) -> El {
    let field = el("input", "unseen")
        .is("id", FIELD)
        .is("type", "file")
        .is("tabindex", "-1")
        .is("aria-hidden", "true")
        .is("accept", ".json,.png,application/json,image/png");
    let chosen: HtmlInputElement = field.cast();
    accept_drops(bench);
    accept_pastes(bench);
    on_window("hashchange", move |_: &Event| open_address(bench));
    field.on("change", move |_: &Event| {
        if let Some(file) = chosen.files().and_then(|files| files.get(0)) {
            read(bench, &file);
        }
        // Else choosing the same file twice would go unnoticed.
        chosen.set_value("");
    })
}

/// Lets the maker choose a file.
pub fn choose() {
    let field = document().get_element_by_id(FIELD);
    if let Some(field) = field.and_then(|field| field.dyn_into::<HtmlInputElement>().ok()) {
        field.click();
    }
}

/// Takes up the piece that the page's address holds, if it holds one, and takes it out of the address: else every
/// reload would make another copy.
pub fn open_address(bench: Bench) {
    let location = window().location();
    let Some(found) = location.hash().ok().and_then(|fragment| link::read(&fragment)) else { return };
    let bare =
        format!("{}{}", location.pathname().unwrap_or_default(), location.search().unwrap_or_default());
    if let Ok(history) = window().history() {
        // What stays in the address does no harm.
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&bare));
    }
    take_in(bench, words::A_LINK, found, words::FROM_A_LINK);
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

fn accept_pastes(bench: Bench) {
    on_window("paste", move |event: &ClipboardEvent| {
        let typing = event.target().is_some_and(|target| target.has_type::<HtmlInputElement>());
        let Some(pasted) = event.clipboard_data().filter(|_| !typing) else { return };
        event.prevent_default();
        if let Some(file) = pasted.files().and_then(|files| files.get(0)) {
            return read(bench, &file);
        }
        let text = pasted.get_data("text/plain").unwrap_or_default();
        let in_link = text.split_once('#').and_then(|(_, fragment)| link::read(fragment.trim()));
        match in_link {
            Some(found) => take_in(bench, words::A_LINK, found, words::FROM_A_LINK),
            None => take_in_bytes(bench, words::THE_CLIPBOARD, text.as_bytes()),
        }
    });
}

/// Reads a file and takes up what it holds, or says why not; the piece on the table stays until then.
fn read(bench: Bench, file: &File) {
    let name = file.name();
    if file.size() > MOST_BYTES as f64 {
        let why = words::too_large(file.size() / 1024.0, MOST_BYTES / 1024);
        return refuse(bench, words::not_a_piece(&name), &format!("{why} {}", words::OPENS));
    }
    let Ok(reader) = FileReader::new() else { return };
    let (reading, source) = (reader.clone(), file.clone());
    // The closure owns itself until it has been called once.
    let itself: Rc<RefCell<Option<Closure<_>>>> = Rc::default();
    let owner = Rc::clone(&itself);
    let ended = Closure::<dyn Fn()>::new(move || {
        match reading.result().ok().and_then(|bytes| bytes.dyn_into::<ArrayBuffer>().ok()) {
            Some(bytes) => take_in_bytes(bench, &source.name(), &Uint8Array::new(&bytes).to_vec()),
            None => refuse(bench, words::not_a_piece(&source.name()), words::UNREADABLE_FILE),
        }
        let _spent = owner.borrow_mut().take();
    });
    reader.set_onloadend(Some(ended.as_ref().unchecked_ref()));
    *itself.borrow_mut() = Some(ended);
    if reader.read_as_array_buffer(file).is_err() {
        refuse(bench, words::not_a_piece(&name), words::UNREADABLE_FILE);
    }
}

fn take_in_bytes(bench: Bench, name: &str, bytes: &[u8]) {
    let is_recipe = bytes.trim_ascii_start().first() == Some(&b'{');
    match open(bytes, super::state::FIRST_SEED) {
        Err(fault) if fault.what == NOT_A_PIECE || (!is_recipe && !words::is_png(name)) => {
            let sort = words::sort_of_file(name);
            refuse(bench, words::not_a_piece(name), &format!("{sort} {}", words::OPENS));
        }
        Ok(Opened::Backup(text)) => backing::bring_in(bench, text),
        Ok(Opened::Piece(piece)) => take_in(bench, name, Ok(*piece), words::FROM_A_FILE),
        Err(fault) => take_in(bench, name, Err(fault), words::FROM_A_FILE),
    }
}

/// Takes up a piece that came from outside, or says why not.
fn take_in(bench: Bench, name: &str, found: Result<Piece, Notice>, origin: &'static str) {
    let piece = match found {
        Ok(piece) => piece,
        Err(fault) => return refuse(bench, fault.what, &format!("{} {}", fault.why, fault.remedy)),
    };
    match Plan::new(&piece.recipe) {
        Ok(_) => {
            bench.take_up(&words::opening(&piece.recipe.title), None, &piece);
            bench.lay_slip_aside();
            bench.origin.set(Some(origin));
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

/// Writes a text as a file into the maker's downloads.
pub fn download_text(name: &str, media_type: &str, text: &str) -> Result<(), JsValue> {
    download_parts(name, media_type, &Array::of1(&JsValue::from_str(text)))
}

/// Saves what a canvas shows as a PNG with a piece inside, its recipe and its seed as texts; then says what came of it.
pub fn save_picture(
    picture: &HtmlCanvasElement,
    name: String,
    (recipe, seed): (String, String),
    say: impl FnOnce(String) + 'static,
) {
    canvas::as_png(picture, move |bytes| {
        let texts = [(png::RECIPE_KEYWORD, recipe.as_str()), (png::SEED_KEYWORD, seed.as_str())];
        let saved = bytes
            .and_then(|bytes| png::with_texts(&bytes, &texts))
            .is_some_and(|bytes| download_bytes(&name, "image/png", &bytes).is_ok());
        say(words::saved_as(&name, saved));
    });
}

/// Writes bytes as a file into the maker's downloads.
fn download_bytes(name: &str, media_type: &str, bytes: &[u8]) -> Result<(), JsValue> {
    let sort = BlobPropertyBag::new();
    sort.set_type(media_type);
    let parts = Array::of1(&Uint8Array::from(bytes));
    download(name, &Blob::new_with_u8_array_sequence_and_options(&parts, &sort)?)
}

/// Writes a text that is given in parts as a file into the maker's downloads.
pub fn download_parts(name: &str, media_type: &str, parts: &Array) -> Result<(), JsValue> {
    let sort = BlobPropertyBag::new();
    sort.set_type(media_type);
    download(name, &Blob::new_with_str_sequence_and_options(parts, &sort)?)
}

fn download(name: &str, blob: &Blob) -> Result<(), JsValue> {
    let address = Url::create_object_url_with_blob(blob)?;
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    Url::revoke_object_url(&address)
}
