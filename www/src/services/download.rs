//! Files out: written into the maker's downloads.

use crate::dom::canvas;
use crate::words;
use dappledome::picture::png;
use js_sys::{Array, Uint8Array};
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, HtmlCanvasElement, Url};

/// A piece as it goes into a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceTexts {
    /// Its recipe as a file.
    pub recipe: String,
    /// Its seed, or seeds.
    pub seed: String,
}

/// Writes a text as a file; whether the browser did.
pub fn text(name: &str, media_type: &str, text: &str) -> bool {
    parts(name, media_type, &Array::of1(&text.into()))
}

/// Writes a text that is given in parts as a file; whether the browser did.
pub fn parts(name: &str, media_type: &str, parts: &Array) -> bool {
    download(name, Blob::new_with_str_sequence_and_options(parts, &of_type(media_type))).is_ok()
}

/// Saves what a canvas shows as a PNG with a piece inside; then says what came of it.
pub fn save_picture(
    canvas: &HtmlCanvasElement,
    name: String,
    texts: PieceTexts,
    say: impl FnOnce(String) + 'static,
) {
    canvas::as_png(canvas, move |picture| {
        let texts = [(png::RECIPE_KEYWORD, texts.recipe.as_str()), (png::SEED_KEYWORD, texts.seed.as_str())];
        let picture = picture.and_then(|picture| png::with_texts(&picture, &texts));
        let saved = picture.is_some_and(|picture| bytes(&name, "image/png", &picture));
        say(words::saved_as(&name, saved));
    });
}

fn bytes(name: &str, media_type: &str, bytes: &[u8]) -> bool {
    let parts = Array::of1(&Uint8Array::from(bytes));
    download(name, Blob::new_with_u8_array_sequence_and_options(&parts, &of_type(media_type))).is_ok()
}

fn of_type(media_type: &str) -> BlobPropertyBag {
    let options = BlobPropertyBag::new();
    options.set_type(media_type);
    options
}

fn download(name: &str, blob: Result<Blob, JsValue>) -> Result<(), JsValue> {
    let address = Url::create_object_url_with_blob(&blob?)?;
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    Url::revoke_object_url(&address)
}
