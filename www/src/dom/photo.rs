//! A photo made small enough to be kept.

use super::canvas;
use js_sys::Uint8Array;
use leptos::prelude::{document, window};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{CanvasRenderingContext2d, File, HtmlCanvasElement, ImageBitmap};

/// Its longest side, pixels.
const SIDE: f64 = 800.0;
/// How well it is written at first; and again, should it be too large then.
const QUALITIES: [f64; 3] = [0.85, 0.6, 0.35];

/// The photo in a file as a JPEG of at most so many bytes, decoded by the browser off the page's own thread; none if it is no picture
/// that this browser reads.
pub async fn small(file: &File, most: usize) -> Option<Uint8Array> {
    let decoded = window().create_image_bitmap_with_blob(file).ok()?;
    let picture: ImageBitmap = JsFuture::from(decoded).await.ok()?.unchecked_into();
    let canvas = drawn(&picture).ok();
    picture.close();
    let canvas = canvas?;
    for quality in QUALITIES {
        let bytes = canvas::as_jpeg(&canvas, quality).await?;
        if bytes.length() as usize <= most {
            return Some(bytes);
        }
    }
    None
}

fn drawn(picture: &ImageBitmap) -> Result<HtmlCanvasElement, JsValue> {
    let (wide, high) = (f64::from(picture.width()), f64::from(picture.height()));
    let scale = (SIDE / wide.max(high)).min(1.0);
    let [wide, high] = [wide, high].map(|side| (side * scale).round().max(1.0));
    let canvas: HtmlCanvasElement = document().create_element("canvas")?.unchecked_into();
    canvas.set_width(wide as u32);
    canvas.set_height(high as u32);
    let context = canvas.get_context("2d")?.ok_or(JsValue::NULL)?;
    let context: CanvasRenderingContext2d = context.unchecked_into();
    context.draw_image_with_image_bitmap_and_dw_and_dh(picture, 0.0, 0.0, wide, high)?;
    Ok(canvas)
}
