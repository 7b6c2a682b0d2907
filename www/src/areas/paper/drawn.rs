//! A sheet of the engine's as a drawing in millimeters: the very places that the PDF has.

use crate::model::slots::PictureSlot;
use crate::state::pictures::Pictures;
use dappledome::paper::frame::MARGIN;
use dappledome::paper::metrics::{POINT, width};
use dappledome::paper::sheet::{Anchor, Face, Item, Look, Picture, Point, Sheet, Words};
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlCanvasElement};

const SVG: &str = "http://www.w3.org/2000/svg";

/// A page. Its pictures are drawn because they are looked at.
#[component]
pub fn DrawnSheet(
    /// The sheet.
    sheet: Sheet,
) -> impl IntoView {
    let pictures = expect_context::<Pictures>();
    for item in &sheet.items {
        if let Item::Picture(picture) = item {
            pictures.look(slot(picture));
        }
    }
    let page = NodeRef::<html::Article>::new();
    let shown = StoredValue::new_local(Vec::new());
    page.on_load(move |page| {
        let mut drawing = Drawing { canvases: Vec::new() };
        if let Some(drawn) = drawing.sheet(&sheet) {
            // The element may have held another sheet before.
            page.replace_children_with_node_1(&drawn);
        }
        drawing.canvases.iter().for_each(|(slot, canvas)| pictures.show_on(*slot, canvas));
        shown.set_value(drawing.canvases);
    });
    on_cleanup(move || {
        for (slot, canvas) in shown.try_get_value().into_iter().flatten() {
            pictures.show_no_more(slot, &canvas);
        }
    });
    view! { <article class="printed" node_ref=page></article> }
}

fn slot(picture: &Picture) -> PictureSlot {
    PictureSlot::Printed(picture.line, picture.seed, picture.stage, picture.light)
}

/// Draws a sheet, and keeps the canvases on it.
struct Drawing {
    canvases: Vec<(PictureSlot, HtmlCanvasElement)>,
}

impl Drawing {
    /// The sheet within its margins, which the printer's page has anyway.
    fn sheet(&mut self, sheet: &Sheet) -> Option<Element> {
        let (wide, high) = sheet.paper.mm();
        // A little less than the page, lest a browser begins another one.
        let (wide, high) = (wide - 2.0 * MARGIN, high - 2.0 * MARGIN - 0.5);
        let drawn = element("svg")?;
        set(&drawn, "viewBox", &format!("{MARGIN} {MARGIN} {wide} {high}"));
        set(&drawn, "width", &format!("{wide}mm"));
        set(&drawn, "height", &format!("{high}mm"));
        self.items(&drawn, &sheet.items)?;
        Some(drawn)
    }

    fn items(&mut self, onto: &Element, items: &[Item]) -> Option<()> {
        for item in items {
            let drawn = match item {
                Item::Words(words) => written(words)?,
                Item::Path(path) => {
                    let drawn = element("path")?;
                    set(&drawn, "d", &way(&path.parts, path.closed));
                    look(&drawn, path.look);
                    drawn
                }
                Item::Circle((x, y), radius, how) => {
                    let drawn = element("circle")?;
                    numbers(&drawn, &[("cx", *x), ("cy", *y), ("r", *radius)]);
                    look(&drawn, *how);
                    drawn
                }
                Item::Picture(picture) => self.picture(picture)?,
                Item::Window(corner, size, items) => {
                    let drawn = element("svg")?;
                    place(&drawn, *corner, *size);
                    let ((x, y), (wide, high)) = (*corner, *size);
                    set(&drawn, "viewBox", &format!("{x} {y} {wide} {high}"));
                    set(&drawn, "class", "window");
                    self.items(&drawn, items)?;
                    drawn
                }
            };
            onto.append_child(&drawn).ok()?;
        }
        Some(())
    }

    fn picture(&mut self, picture: &Picture) -> Option<Element> {
        let frame = element("foreignObject")?;
        place(&frame, picture.at, picture.frame);
        let inside = document().create_element("div").ok()?;
        set(&inside, "class", if picture.round { "on-paper round" } else { "on-paper" });
        let canvas = document().create_element("canvas").ok()?;
        inside.append_child(&canvas).ok()?;
        frame.append_child(&inside).ok()?;
        self.canvases.push((slot(picture), canvas.unchecked_into()));
        Some(frame)
    }
}

fn element(name: &str) -> Option<Element> {
    document().create_element_ns(Some(SVG), name).ok()
}

fn set(element: &Element, name: &str, value: &str) {
    // Fails only for a name that is none.
    let _ = element.set_attribute(name, value);
}

fn numbers(element: &Element, all: &[(&str, f64)]) {
    all.iter().for_each(|(name, value)| set(element, name, &short(*value)));
}

/// A length to a thousandth of a millimeter.
fn short(mm: f64) -> String {
    ((mm * 1000.0).round() / 1000.0).to_string()
}

fn place(element: &Element, (x, y): Point, (wide, high): (f64, f64)) {
    numbers(element, &[("x", x), ("y", y), ("width", wide), ("height", high)]);
}

fn look(element: &Element, look: Look) {
    let fill = look.fill.map_or_else(|| "none".into(), |shade| format!("rgb({shade},{shade},{shade})"));
    set(element, "fill", &fill);
    if look.line > 0.0 {
        set(element, "stroke", "#000");
        numbers(element, &[("stroke-width", look.line)]);
    }
    if look.dashed {
        set(element, "stroke-dasharray", "2 1.4");
    }
    set(element, "fill-rule", "evenodd");
}

/// A path's parts, from point to point.
fn way(parts: &[Vec<Point>], closed: bool) -> String {
    let mut way = String::new();
    for part in parts {
        for (at, (x, y)) in part.iter().enumerate() {
            way += if at == 0 { "M" } else { "L" };
            way += &short(*x);
            way.push(' ');
            way += &short(*y);
        }
        way += if closed { "Z" } else { "" };
    }
    way
}

/// Words, as wide as the layout takes them for, whatever font the browser has.
fn written(words: &Words) -> Option<Element> {
    let drawn = element("text")?;
    let (x, y) = words.at;
    let wide = width(&words.text, words.face, words.size);
    numbers(&drawn, &[("x", x), ("y", y), ("font-size", words.size * POINT), ("textLength", wide)]);
    set(&drawn, "lengthAdjust", "spacingAndGlyphs");
    match words.anchor {
        Anchor::Start => {}
        Anchor::Middle => set(&drawn, "text-anchor", "middle"),
        Anchor::End => set(&drawn, "text-anchor", "end"),
    }
    if words.face == Face::Bold {
        set(&drawn, "font-weight", "700");
    }
    if words.quiet {
        set(&drawn, "fill", "#525252");
    }
    drawn.set_text_content(Some(&words.text));
    Some(drawn)
}
