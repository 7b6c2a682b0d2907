//! Putting pixels on canvases.

use dappledome::optics::test_tile::Color;
use futures::channel::oneshot;
use js_sys::{ArrayBuffer, Uint8Array, Uint8ClampedArray};
use leptos::prelude::document;
use leptos::task::spawn_local;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{Clamped, JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, CanvasRenderingContext2d, HtmlCanvasElement, ImageData};

/// Shows a square picture. Its bytes stay outside our memory.
pub fn show(canvas: &HtmlCanvasElement, side: u32, pixels: &ArrayBuffer) {
    let bytes = Uint8ClampedArray::new(pixels);
    if let Ok(picture) = ImageData::new_with_js_u8_clamped_array(&bytes, side) {
        put(canvas, side, side, &picture);
    }
}

/// A canvas off the page that shows a square picture; none if the browser makes none.
pub fn with_picture(side: u32, pixels: &ArrayBuffer) -> Option<HtmlCanvasElement> {
    let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.unchecked_into();
    show(&canvas, side, pixels);
    Some(canvas)
}

/// Shows a photo of this width and height: rows of red, green, blue and alpha.
pub fn show_photo(canvas: &HtmlCanvasElement, (wide, high): (i32, i32), rgba: &[u8]) {
    let (wide, high) = (wide.unsigned_abs(), high.unsigned_abs());
    if let Ok(picture) = ImageData::new_with_u8_clamped_array_and_sh(Clamped(rgba), wide, high) {
        put(canvas, wide, high, &picture);
    }
}

/// Shows nothing any more.
pub fn clear(canvas: &HtmlCanvasElement) {
    for size in ["width", "height"] {
        // Taking away what is not there does no harm.
        let _ = canvas.remove_attribute(size);
    }
}

/// Shows a row of colors, which the style sheet draws out to a strip.
pub fn show_strip(canvas: &HtmlCanvasElement, colors: &[Color]) {
    let bytes: Vec<u8> = colors.iter().flat_map(|[r, g, b]| [*r, *g, *b, 255]).collect();
    let width = colors.len() as u32;
    if let Ok(picture) = ImageData::new_with_u8_clamped_array(Clamped(&bytes), width) {
        put(canvas, width, 1, &picture);
    }
}

fn put(canvas: &HtmlCanvasElement, width: u32, height: u32, picture: &ImageData) {
    // Setting a size clears the canvas, so only a new size is set.
    if canvas.width() != width || canvas.height() != height {
        canvas.set_width(width);
        canvas.set_height(height);
    }
    let context = canvas.get_context("2d").ok().flatten();
    if let Some(context) = context.and_then(|context| context.dyn_into::<CanvasRenderingContext2d>().ok()) {
        // Fails only for a picture without pixels.
        let _ = context.put_image_data(picture, 0.0, 0.0);
    }
}

/// Gives the bytes of a canvas as a PNG, or none if the browser cannot.
pub fn as_png(canvas: &HtmlCanvasElement, give: impl FnOnce(Option<Vec<u8>>) + 'static) {
    as_file(canvas, "image/png", 1.0, give);
}

/// Gives the bytes of a canvas as a small file, in a format that browsers show: a fifth of a PNG where the browser
/// writes such a one, else a PNG.
pub fn as_small_file(canvas: &HtmlCanvasElement, give: impl FnOnce(Option<Vec<u8>>) + 'static) {
    as_file(canvas, "image/webp", 0.85, give);
}

/// The bytes of a canvas as a JPEG; none if the browser cannot.
pub async fn as_jpeg(canvas: &HtmlCanvasElement, quality: f64) -> Option<Uint8Array> {
    blob(canvas, "image/jpeg", quality).await
}

fn as_file(
    canvas: &HtmlCanvasElement,
    media_type: &'static str,
    quality: f64,
    give: impl FnOnce(Option<Vec<u8>>) + 'static,
) {
    let canvas = canvas.clone();
    spawn_local(async move {
        give(blob(&canvas, media_type, quality).await.map(|bytes| bytes.to_vec()));
    });
}

async fn blob(canvas: &HtmlCanvasElement, media_type: &str, quality: f64) -> Option<Uint8Array> {
    let (tell, told) = oneshot::channel();
    let taken = Closure::once_into_js(move |blob: Option<Blob>| {
        // Whoever does not wait any more need not be told.
        let _ = tell.send(blob);
    });
    // Fails only for a canvas that holds another page's pictures.
    canvas
        .to_blob_with_type_and_encoder_options(taken.unchecked_ref(), media_type, &JsValue::from_f64(quality))
        .ok()?;
    let bytes = JsFuture::from(told.await.ok()??.array_buffer()).await.ok()?;
    Some(Uint8Array::new(&bytes))
}
