//! A page of the option sheet as a picture: the same as on the table, drawn on a canvas.

use super::layout::{Layout, MARGIN, WORDS};
use super::pen::{Pen, Weight};
use super::types::{ON_A_PAGE, OptionSheet, SheetOption};
use crate::words;
use dappledome::recipe::sisters::letter;
use web_sys::HtmlCanvasElement;

/// A page by its number, counted from 0; nothing behind the last one, or if the browser cannot draw it.
pub fn page(sheet: &OptionSheet, number: usize) -> Option<HtmlCanvasElement> {
    let options = sheet.options.chunks(ON_A_PAGE).nth(number)?;
    let layout = Layout::on(sheet.paper);
    let pen = Pen::on_new_page(sheet.paper)?;
    draw_head(&pen, layout, sheet);
    for (row, option) in options.iter().enumerate() {
        let top = layout.rows + layout.row * row as f64;
        draw_words(&pen, layout, top, option, &letter(number * ON_A_PAGE + row));
        draw_pictures(&pen, layout, top, option)?;
        pen.line((MARGIN, layout.right), top + layout.row - 1.0);
    }
    pen.write(words::SHEET_CAUTION, (MARGIN, layout.foot), 3.5, Weight::Plain);
    pen.write_up_to(words::DAPPLEDOME, (layout.right, layout.foot), 3.5, Weight::Plain);
    Some(pen.page())
}

fn draw_head(pen: &Pen, layout: Layout, sheet: &OptionSheet) {
    let Layout { right, rows, columns, .. } = layout;
    pen.write(&sheet.title, (MARGIN, 19.0), 7.0, Weight::Bold);
    pen.write(&sheet.finished_size, (MARGIN, 25.0), 4.0, Weight::Plain);
    for (word, y) in [(words::FOR, 18.0), (words::DATE, 25.0)] {
        pen.write(word, (right - 60.0, y), 4.0, Weight::Plain);
        pen.line((right - 48.0, right), y + 1.0);
    }
    for (word, x) in [words::BY_DAY, words::LIT_FROM_WITHIN].into_iter().zip(columns) {
        pen.write(word, (x, rows - 3.0), 3.5, Weight::Plain);
    }
    pen.line((MARGIN, right), rows - 1.5);
}

fn draw_words(pen: &Pen, layout: Layout, top: f64, option: &SheetOption, letter: &str) {
    let bottom = top + layout.row;
    pen.write(letter, (MARGIN, top + 14.0), 15.5, Weight::Bold);
    pen.write(&words::seed(option.seed), (MARGIN, bottom - 20.0), 4.0, Weight::Plain);
    pen.write(&option.size, (MARGIN, bottom - 14.0), 3.0, Weight::Plain);
    pen.write(words::PRICE, (MARGIN, bottom - 5.0), 4.0, Weight::Plain);
    pen.line((MARGIN + 11.0, MARGIN + WORDS - 5.0), bottom - 4.0);
}

/// Draws what there is of an option's pictures; nothing if the browser cannot.
fn draw_pictures(pen: &Pen, layout: Layout, top: f64, option: &SheetOption) -> Option<()> {
    for (picture, x) in option.pictures.iter().zip(layout.columns) {
        if let Some(picture) = picture {
            pen.picture(picture, (x, top), layout.picture)?;
        }
    }
    Some(())
}
