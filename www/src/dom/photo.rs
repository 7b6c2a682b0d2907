//! A photo made small enough to be kept.

use super::canvas;
use crate::model::photo::Photo;
use js_sys::Uint8Array;
use leptos::prelude::document;
use wasm_bindgen::JsCast;
use web_sys::HtmlCanvasElement;

/// How well it is written at first; and again, should it be too large then.
const QUALITIES: [f64; 3] = [0.85, 0.6, 0.35];

/// A photo as a JPEG of at most so many bytes; none if this browser writes none so small.
pub async fn small(photo: &Photo, most: usize) -> Option<Uint8Array> {
    let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.unchecked_into();
    canvas::show_photo(&canvas, photo.size, &photo.rgba);
    for quality in QUALITIES {
        let bytes = canvas::as_jpeg(&canvas, quality).await?;
        if bytes.length() as usize <= most {
            return Some(bytes);
        }
    }
    None
}
