//! Words, lines and pictures on a canvas that is measured in mm.

use crate::dom::canvas;
use crate::state::pictures::Picture;
use dappledome::paper::sheet::{PaperSize, cut};
use leptos::prelude::document;
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// Pixels per mm: 200 to the inch.
const PER_MM: f64 = 200.0 / 25.4;
/// Thickness of a line, mm.
const LINE: f64 = 0.25;

/// How words are written.
#[derive(Clone, Copy)]
pub enum Weight {
    /// As usual.
    Plain,
    /// In weight.
    Bold,
}

/// Draws on a page.
pub struct Pen {
    page: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
}

impl Pen {
    /// A pen on an empty page; none if the browser has no such canvas.
    pub fn on_new_page(paper: PaperSize) -> Option<Self> {
        let (width, height) = paper.mm();
        let page = new_canvas()?;
        page.set_width((width * PER_MM) as u32);
        page.set_height((height * PER_MM) as u32);
        let context: CanvasRenderingContext2d = page.get_context("2d").ok()??.unchecked_into();
        context.scale(PER_MM, PER_MM).ok()?;
        context.set_fill_style_str("#ffffff");
        context.fill_rect(0.0, 0.0, width, height);
        context.set_fill_style_str("#000000");
        Some(Self { page, context })
    }

    /// The page.
    pub fn page(self) -> HtmlCanvasElement {
        self.page
    }

    /// Writes words of a size, mm, that begin at a place.
    pub fn write(&self, text: &str, place: (f64, f64), size: f64, weight: Weight) {
        self.write_aligned("left", text, place, size, weight);
    }

    /// Writes words that end at a place.
    pub fn write_up_to(&self, text: &str, place: (f64, f64), size: f64, weight: Weight) {
        self.write_aligned("right", text, place, size, weight);
    }

    fn write_aligned(&self, align: &str, text: &str, (x, y): (f64, f64), size: f64, weight: Weight) {
        let weight = match weight {
            Weight::Plain => 400,
            Weight::Bold => 600,
        };
        self.context.set_text_align(align);
        self.context.set_font(&format!("{weight} {size}px sans-serif"));
        // Text that cannot be drawn is missing on the picture, not on the page.
        let _ = self.context.fill_text(text, x, y);
    }

    /// Draws a line across.
    pub fn line(&self, (from, to): (f64, f64), y: f64) {
        self.context.fill_rect(from, y, to - from, LINE);
    }

    /// Draws the middle of a picture into a frame; nothing if it cannot be drawn.
    pub fn picture(&self, picture: &Picture, (x, y): (f64, f64), (width, height): (f64, f64)) -> Option<()> {
        let glass = new_canvas()?;
        canvas::show(&glass, picture.side, &picture.pixels);
        let [left, top, cut_width, cut_height] = cut(picture.side.into(), (width, height));
        self.context
            .draw_image_with_html_canvas_element_and_sw_and_sh_and_dx_and_dy_and_dw_and_dh(
                &glass, left, top, cut_width, cut_height, x, y, width, height,
            )
            .ok()
    }
}

fn new_canvas() -> Option<HtmlCanvasElement> {
    Some(document().create_element("canvas").ok()?.unchecked_into())
}
