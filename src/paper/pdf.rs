//! Sheets as a PDF, with the letters that they use embedded. The same sheets give the same bytes.

use super::metrics::{POINT, advance};
use super::sheet::{Anchor, Face, Item, Look, Picture, Sheet, Words, cut};
use crate::picture::pixmap::Pixmap;
use krilla::color::luma;
use krilla::geom::{Path, PathBuilder, Point, Rect, Size, Transform};
use krilla::image::Image;
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineCap, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};
use skrifa::instance::{LocationRef, Size as FontSize};
use skrifa::{FontRef, MetadataProvider};
use std::collections::HashMap;

/// The font files: Liberation Sans 2.1.5, SIL Open Font License 1.1 (its text lies beside them).
const REGULAR: &[u8] = include_bytes!("fonts/LiberationSans-Regular.ttf");
/// The same in weight.
const BOLD: &[u8] = include_bytes!("fonts/LiberationSans-Bold.ttf");

/// How dark words are that step back, 0 black to 255 white.
const QUIET: u8 = 0x52;
/// How far the middle of a quarter circle's curve is drawn out, in radii: 4/3 (sqrt(2) - 1).
const QUARTER: f32 = 0.552_284_75;

/// Letters of the sheets that the font does not have; they are printed as empty boxes.
pub fn lacking(sheets: &[Sheet]) -> Vec<char> {
    let font = Letters::new(REGULAR);
    let mut lacking = Vec::new();
    for sheet in sheets {
        each_words(&sheet.items, &mut |words| {
            lacking.extend(words.text.chars().filter(|letter| font.glyph(*letter).is_none()));
        });
    }
    lacking.sort_unstable();
    lacking.dedup();
    lacking
}

/// Goes through all words.
pub fn each_words(items: &[Item], found: &mut impl FnMut(&Words)) {
    for item in items {
        match item {
            Item::Words(words) => found(words),
            Item::Window(_, _, items) => each_words(items, found),
            Item::Path(_) | Item::Circle(..) | Item::Picture(_) => {}
        }
    }
}

/// Writes sheets as a PDF with a title. `drawn` draws each picture, as a square.
///
/// # Errors
/// What the PDF's writer says.
pub fn pdf(title: &str, sheets: &[Sheet], drawn: impl FnMut(&Picture) -> Pixmap) -> Result<Vec<u8>, String> {
    let mut document = Document::new_with(SerializeSettings::default());
    document.set_metadata(
        Metadata::new().title(title.to_owned()).creator("Dappledome".into()).language("en-US".into()),
    );
    let mut writer =
        Writer { regular: Letters::new(REGULAR), bold: Letters::new(BOLD), images: HashMap::new(), drawn };
    for sheet in sheets {
        let (wide, high) = sheet.paper.mm();
        let settings = PageSettings::from_wh(points(wide), points(high)).ok_or("A page without a size.")?;
        let mut page = document.start_page_with(settings);
        let mut surface = page.surface();
        sheet.items.iter().for_each(|item| writer.item(&mut surface, item));
        surface.finish();
        page.finish();
    }
    document.finish().map_err(|fault| format!("{fault:?}"))
}

fn points(mm: f64) -> f32 {
    (mm / POINT) as f32
}

fn at((x, y): (f64, f64)) -> Point {
    Point::from_xy(points(x), points(y))
}

/// A font's letters.
struct Letters {
    font: Font,
    file: FontRef<'static>,
}

impl Letters {
    fn new(file: &'static [u8]) -> Self {
        let font = Font::new(file.to_vec().into(), 0).expect("the font is part of this program");
        Self { font, file: FontRef::new(file).expect("the font is part of this program") }
    }

    fn glyph(&self, letter: char) -> Option<skrifa::GlyphId> {
        self.file.charmap().map(letter)
    }

    /// Letters in place, and how wide they are in sizes. A letter is as wide as the sheet's layout takes it for where that knows it.
    fn glyphs(&self, words: &Words) -> (Vec<KrillaGlyph>, f64) {
        let metrics = self.file.glyph_metrics(FontSize::unscaled(), LocationRef::default());
        let em = f64::from(self.font.units_per_em());
        let mut wide = 0.0;
        let glyphs = words.text.char_indices().map(|(from, letter)| {
            let glyph = self.glyph(letter).unwrap_or(skrifa::GlyphId::NOTDEF);
            let advance = metrics
                .advance_width(glyph)
                .map_or_else(|| advance(letter, words.face), |units| f64::from(units) / em);
            wide += advance;
            let range = from..from + letter.len_utf8();
            KrillaGlyph::new(GlyphId::new(glyph.to_u32()), advance as f32, 0.0, 0.0, 0.0, range, None)
        });
        (glyphs.collect(), wide)
    }
}

struct Writer<D> {
    regular: Letters,
    bold: Letters,
    /// Each picture is drawn and stored once.
    images: HashMap<String, Image>,
    drawn: D,
}

impl<D: FnMut(&Picture) -> Pixmap> Writer<D> {
    fn item(&mut self, surface: &mut Surface, item: &Item) {
        match item {
            Item::Words(words) => self.words(surface, words),
            Item::Path(path) => {
                let mut builder = PathBuilder::new();
                for part in &path.parts {
                    for (place, (x, y)) in part.iter().enumerate() {
                        match place {
                            0 => builder.move_to(points(*x), points(*y)),
                            _ => builder.line_to(points(*x), points(*y)),
                        }
                    }
                    if path.closed {
                        builder.close();
                    }
                }
                builder.finish().into_iter().for_each(|drawn| look(surface, &drawn, path.look));
            }
            Item::Circle(middle, radius, how) => {
                circle(*middle, *radius).into_iter().for_each(|drawn| look(surface, &drawn, *how))
            }
            Item::Picture(picture) => self.picture(surface, picture),
            Item::Window(corner, size, items) => {
                let Some(window) = rectangle(*corner, *size) else { return };
                surface.push_clip_path(&window, &FillRule::NonZero);
                items.iter().for_each(|item| self.item(surface, item));
                surface.pop();
            }
        }
    }

    fn words(&self, surface: &mut Surface, words: &Words) {
        let letters = match words.face {
            Face::Regular => &self.regular,
            Face::Bold => &self.bold,
        };
        let (glyphs, wide) = letters.glyphs(words);
        let wide = wide * words.size * POINT;
        let (x, y) = words.at;
        let left = match words.anchor {
            Anchor::Start => x,
            Anchor::Middle => x - wide / 2.0,
            Anchor::End => x - wide,
        };
        surface.set_stroke(None);
        surface.set_fill(Some(gray(if words.quiet { QUIET } else { 0 })));
        surface.draw_glyphs(
            at((left, y)),
            &glyphs,
            letters.font.clone(),
            &words.text,
            words.size as f32,
            false,
        );
    }

    fn picture(&mut self, surface: &mut Surface, picture: &Picture) {
        let key = format!("{} {} {:?} {:?}", picture.line, picture.seed, picture.stage, picture.light);
        let image = self.images.entry(key).or_insert_with(|| {
            let pixels = (self.drawn)(picture);
            Image::from_rgba8(pixels.rgba, pixels.width, pixels.height)
        });
        let side = f64::from(image.size().0);
        let [left, top, wide, _] = if picture.round {
            let disc = side * f64::from(crate::picture::flat::DISC_SHARE);
            [(side - disc) / 2.0, (side - disc) / 2.0, disc, disc]
        } else {
            cut(side, picture.frame)
        };
        let (frame, _) = picture.frame;
        let scale = frame / wide;
        let shape = if picture.round {
            circle((picture.at.0 + frame / 2.0, picture.at.1 + frame / 2.0), frame / 2.0)
        } else {
            rectangle(picture.at, picture.frame)
        };
        let (Some(shape), Some(size)) = (shape, Size::from_wh(points(side * scale), points(side * scale)))
        else {
            return;
        };
        let corner = at((picture.at.0 - left * scale, picture.at.1 - top * scale));
        surface.push_clip_path(&shape, &FillRule::NonZero);
        surface.push_transform(&Transform::from_translate(corner.x, corner.y));
        surface.draw_image(image.clone(), size);
        surface.pop();
        surface.pop();
    }
}

fn rectangle((x, y): (f64, f64), (wide, high): (f64, f64)) -> Option<Path> {
    let mut builder = PathBuilder::new();
    builder.push_rect(Rect::from_xywh(points(x), points(y), points(wide), points(high))?);
    builder.finish()
}

/// A circle in four curves, off by less than 0.03 % of its radius.
fn circle((x, y): (f64, f64), radius: f64) -> Option<Path> {
    let (x, y, r) = (points(x), points(y), points(radius));
    let k = r * QUARTER;
    let mut builder = PathBuilder::new();
    builder.move_to(x + r, y);
    builder.cubic_to(x + r, y + k, x + k, y + r, x, y + r);
    builder.cubic_to(x - k, y + r, x - r, y + k, x - r, y);
    builder.cubic_to(x - r, y - k, x - k, y - r, x, y - r);
    builder.cubic_to(x + k, y - r, x + r, y - k, x + r, y);
    builder.close();
    builder.finish()
}

fn gray(shade: u8) -> Fill {
    Fill { paint: luma::Color::new(shade).into(), opacity: NormalizedF32::ONE, rule: FillRule::EvenOdd }
}

fn look(surface: &mut Surface, path: &Path, look: Look) {
    surface.set_fill(look.fill.map(gray));
    let dash = look.dashed.then(|| StrokeDash { array: vec![points(2.0), points(1.4)], offset: 0.0 });
    let stroke = Stroke {
        paint: luma::Color::black().into(),
        width: points(look.line),
        line_cap: LineCap::Butt,
        dash,
        ..Stroke::default()
    };
    surface.set_stroke((look.line > 0.0).then_some(stroke));
    surface.draw_path(path);
}
