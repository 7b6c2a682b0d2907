//! The option sheet as a picture: the same page drawn on a canvas, with the piece inside the file.

use super::{ON_A_PAGE, Size};
use crate::state::Bench;
use crate::tray::Tray;
use crate::{files, words};
use dappledome::base::seed::Seed;
use dappledome::picture::view::Light;
use dappledome::recipe::piece::letter;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// Pixels per mm: 200 to the inch.
const PER_MM: f64 = 200.0 / 25.4;
/// Margin of the page, mm.
const MARGIN: f64 = 12.0;
/// Where the pictures begin and how far apart they are, mm.
const PICTURES: (f64, f64) = (42.0, 3.0);
/// Where the first row begins, and what is left for the foot, mm.
const ROWS: (f64, f64) = (39.0, 9.0);

/// Saves each page as a PNG, one after another; opened again, any of them brings back the piece with its shortlist.
pub fn save(bench: Bench, tray: Tray, seeds: Vec<Seed>, size: Size, said: RwSignal<String>) {
    save_from(0, bench, tray, seeds, size, said);
}

fn save_from(number: usize, bench: Bench, tray: Tray, seeds: Vec<Seed>, size: Size, said: RwSignal<String>) {
    let Some(some) = seeds.chunks(ON_A_PAGE).nth(number) else { return };
    let Some(page) = draw(bench, tray, number, some, size) else { return };
    let piece = bench.standing().piece;
    let (text, seed) = (piece.write(), piece.seed.to_string());
    let part = if seeds.len() > ON_A_PAGE { format!(" {}", number + 1) } else { String::new() };
    let name = words::file_name(&format!("{} options{part}", piece.recipe.title), "png");
    files::save_picture(&page, name, (text, seed), move |words| {
        // The paper may have been laid aside meanwhile.
        let _ = said.try_set(words);
        save_from(number + 1, bench, tray, seeds, size, said);
    });
}

fn draw(bench: Bench, tray: Tray, number: usize, seeds: &[Seed], size: Size) -> Option<HtmlCanvasElement> {
    let (width, height) = size.mm();
    let page: HtmlCanvasElement = document().create_element("canvas").ok()?.unchecked_into();
    page.set_width((width * PER_MM) as u32);
    page.set_height((height * PER_MM) as u32);
    let pen: CanvasRenderingContext2d = page.get_context("2d").ok()??.unchecked_into();
    pen.set_fill_style_str("#ffffff");
    pen.fill_rect(0.0, 0.0, page.width().into(), page.height().into());
    // From here on in mm.
    pen.scale(PER_MM, PER_MM).ok()?;
    pen.set_fill_style_str("#000000");
    let right = width - MARGIN;
    let title = bench.recipe.with_untracked(|recipe| recipe.title.clone());
    let size = untrack(|| bench.size());
    write(&pen, &title, (MARGIN, 19.0), 7.0, true);
    write(&pen, &size, (MARGIN, 25.0), 4.0, false);
    for (word, y) in [(words::FOR, 18.0), (words::DATE, 25.0)] {
        write(&pen, word, (right - 60.0, y), 4.0, false);
        line(&pen, (right - 48.0, right), y + 1.0);
    }
    let picture = (right - MARGIN - PICTURES.0 - PICTURES.1) / 2.0;
    let columns = [MARGIN + PICTURES.0, MARGIN + PICTURES.0 + picture + PICTURES.1];
    for (word, x) in [words::BY_DAY, words::LIT_FROM_WITHIN].into_iter().zip(columns) {
        write(&pen, word, (x, ROWS.0 - 3.0), 3.5, false);
    }
    line(&pen, (MARGIN, right), ROWS.0 - 1.5);
    let row = (height - MARGIN - ROWS.0 - ROWS.1) / ON_A_PAGE as f64;
    for (at, seed) in seeds.iter().enumerate() {
        let top = ROWS.0 + row * at as f64;
        write(&pen, &letter(number * ON_A_PAGE + at), (MARGIN, top + 14.0), 15.5, true);
        write(&pen, &words::seed(*seed), (MARGIN, top + row - 14.0), 4.0, false);
        write(&pen, words::PRICE, (MARGIN, top + row - 5.0), 4.0, false);
        line(&pen, (MARGIN + 11.0, MARGIN + PICTURES.0 - 5.0), top + row - 4.0);
        for (light, x) in [Light::Day, Light::Within].into_iter().zip(columns) {
            let glass: HtmlCanvasElement = tray.option(*seed, light).cast();
            place(&pen, &glass, (x, top), (picture, row - 3.0))?;
        }
        line(&pen, (MARGIN, right), top + row - 1.0);
    }
    let foot = height - MARGIN - 2.0;
    write(&pen, words::SHEET_CAUTION, (MARGIN, foot), 3.5, false);
    pen.set_text_align("right");
    write(&pen, words::DAPPLEDOME, (right, foot), 3.5, false);
    Some(page)
}

fn write(pen: &CanvasRenderingContext2d, text: &str, (x, y): (f64, f64), size: f64, bold: bool) {
    pen.set_font(&format!("{} {size}px sans-serif", if bold { 600 } else { 400 }));
    // Text that cannot be drawn is missing on the picture, not on the page.
    let _ = pen.fill_text(text, x, y);
}

fn line(pen: &CanvasRenderingContext2d, (from, to): (f64, f64), y: f64) {
    pen.fill_rect(from, y, to - from, 0.25);
}

/// The middle of a square picture, cut to a wide frame.
fn place(
    pen: &CanvasRenderingContext2d,
    picture: &HtmlCanvasElement,
    (x, y): (f64, f64),
    (width, height): (f64, f64),
) -> Option<()> {
    let side = f64::from(picture.width());
    // The picture fills the frame's width and as much of its height as the dome needs.
    let scale = (side / width).min(side / height);
    let (cut_width, cut_height) = (width * scale, height * scale);
    let (left, top) = ((side - cut_width) / 2.0, (side - cut_height) * 0.47);
    pen.draw_image_with_html_canvas_element_and_sw_and_sh_and_dx_and_dy_and_dw_and_dh(
        picture, left, top, cut_width, cut_height, x, y, width, height,
    )
    .ok()
}
