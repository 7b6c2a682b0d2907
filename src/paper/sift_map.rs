//! The sift map: where a coat's patches lie, at full size, to be laid under the glass. What the paper does not take is tiled.

use super::block::{Block, LINE, RULE, plain};
use super::content::{Content, OneLine};
use super::frame::{Frame, MARGIN};
use super::sheet::{Item, Look, Point, Sheet};
use crate::base::scalar::sin_cos;
use crate::base::units::fixed;
use crate::layup::outlines::{LyingPatch, lying, patch_at};
use crate::orders::dates::day;
use crate::recipe::said::blend;
use crate::recipe::sisters::letter;
use crate::recipe::{Fall, Patches};
use std::f64::consts::FRAC_PI_4;

/// Most of a map on one sheet from left to right, mm: what A4 takes.
pub const TILE: f64 = 186.0;
/// How far tiles lie over each other, mm.
pub const OVERLAP: f64 = 10.0;
/// What stands over the map and under it: head and ruler.
const OVER: f64 = 20.0;
const UNDER: f64 = 14.0;
/// What stands out over the cut line: the notch above, the ticks around.
const NOTCH: f64 = 7.0;
/// The line of an outline, mm.
const OUTLINE: f64 = 0.35;
/// A patch this large, as a share of the disc, has its depth written in it.
const LARGE: f32 = 0.03;

/// A coat that falls in patches, with where it stands.
struct Map<'a> {
    line: OneLine<'a>,
    coat: usize,
    patches: &'a Patches,
    /// Its number among the maps of its line, counted from 1, and how many there are.
    number: (usize, usize),
}

/// The maps of the first layout of every line, one coat a page; none for coats that fall without outlines.
pub fn sheets(content: &Content) -> Vec<Sheet> {
    let maps: Vec<Map> = content.lines().flat_map(maps).collect();
    let frame = Frame::on(content.paper);
    let tiles: Vec<Tiles> = maps
        .iter()
        .map(|map| Tiles::new(frame, 2.0 * f64::from(map.line.piece.plan.disc.radius())))
        .collect();
    let of: usize = tiles.iter().map(Tiles::count).sum();
    let mut sheets = Vec::new();
    for (map, tiles) in maps.iter().zip(&tiles) {
        let coat = &map.line.piece.plan.coats[map.coat].sift;
        let patches = lying(coat, map.line.seed());
        for row in 0..tiles.rows {
            for column in 0..tiles.columns {
                let page = (sheets.len() + 1, of);
                sheets.push(sheet(content, map, &patches, tiles, (column, row), page));
            }
        }
    }
    sheets
}

fn maps(line: OneLine<'_>) -> Vec<Map<'_>> {
    let coats = line.line.recipe.coats.iter().enumerate();
    let of_patches = coats.filter_map(|(at, coat)| match &coat.fall {
        Fall::Patches(patches) => Some((at, patches)),
        Fall::Even { .. } | Fall::ThickAndThin(_) => None,
    });
    let of_patches: Vec<_> = of_patches.collect();
    let of = of_patches.len();
    let numbered = of_patches.into_iter().enumerate();
    numbered.map(|(number, (coat, patches))| Map { line, coat, patches, number: (number + 1, of) }).collect()
}

/// How a map is shared out over sheets. Lengths in mm from the middle of the disc, down and to the right.
struct Tiles {
    frame: Frame,
    radius: f64,
    columns: usize,
    rows: usize,
    /// Width and height of one tile.
    size: (f64, f64),
    /// Upper left corner of the first.
    corner: Point,
}

impl Tiles {
    fn new(frame: Frame, disc: f64) -> Self {
        let size = (TILE, frame.high - OVER - UNDER);
        let count = |most: f64, disc: f64| {
            if disc <= most { 1 } else { ((disc + 4.0 - OVERLAP) / (most - OVERLAP)).ceil() as usize }
        };
        let (columns, rows) = (count(size.0, disc), count(size.1, disc + 2.0 * NOTCH));
        let whole = |count: usize, one: f64| one * count as f64 - OVERLAP * (count as f64 - 1.0);
        let corner = (-whole(columns, size.0) / 2.0, -whole(rows, size.1) / 2.0);
        Self { frame, radius: disc / 2.0, columns, rows, size, corner }
    }

    fn count(&self) -> usize {
        self.columns * self.rows
    }

    /// From the middle of the disc to a place on the sheet of a tile.
    fn shift(&self, (column, row): (usize, usize)) -> Point {
        let left = self.corner.0 + column as f64 * (self.size.0 - OVERLAP);
        let top = self.corner.1 + row as f64 * (self.size.1 - OVERLAP);
        ((self.frame.wide - self.size.0) / 2.0 - left, OVER - top)
    }

    /// The marks of a tile, from the middle of the disc.
    fn marks(&self, shift: Point) -> Vec<Point> {
        let left = (self.frame.wide - self.size.0) / 2.0;
        let edge = OVERLAP / 2.0;
        let (x, y) = ([edge, self.size.0 - edge], [edge, self.size.1 - edge]);
        y.into_iter().flat_map(|y| x.map(|x| (x + left - shift.0, y + OVER - shift.1))).collect()
    }
}

fn sheet(
    content: &Content,
    map: &Map,
    patches: &[LyingPatch],
    tiles: &Tiles,
    tile: (usize, usize),
    (page, of): (usize, usize),
) -> Sheet {
    let frame = tiles.frame;
    let line = &map.line;
    let recipe = &line.line.recipe;
    let several = tiles.count() > 1;
    let left = if several {
        format!(
            "Column {} of {}, row {} of {}: 10 mm lie over each other. Join where the same letters meet.",
            tile.0 + 1,
            tiles.columns,
            tile.1 + 1,
            tiles.rows
        )
    } else {
        "A forecast: two hands never sift alike.".into()
    };
    let mut sheet = frame.sheet(&left, &format!("{}   page {page} of {of}", day(content.today)));
    let powder = blend(&recipe.glasses, &recipe.coats[map.coat].powder);
    let (number, all) = map.number;
    let title =
        if all > 1 { format!("{powder}, sift map {number} of {all}") } else { format!("{powder}, sift map") };
    let grams = line.coats.iter().find(|need| need.line == line.at && need.coat == recipe.coats[map.coat].id);
    let grams: f64 = grams.map_or(0.0, |need| need.one.iter().map(|part| part.grams.0).sum());
    let under = format!(
        "{}, seed {}. Full size: lay it under the glass, notch to notch, before dabbing. {} % of the disc, {} deep, {} g.",
        plain(9.5).cut(line.title(), 70.0),
        line.seed(),
        fixed(map.patches.coverage * 100.0, 0),
        map.patches.depth,
        fixed(grams, 1)
    );
    frame.head(&plain(20.0).cut(&title, frame.wide * 0.8), &[], &under).put(&mut sheet.items, MARGIN, MARGIN);
    let shift = tiles.shift(tile);
    let mut drawn = disc(tiles.radius);
    drawn.items.extend(outlines(patches));
    words(&mut drawn, map, patches, tiles, shift);
    let mut inside = Vec::new();
    drawn.put(&mut inside, MARGIN + shift.0, MARGIN + shift.1);
    let window = (MARGIN + (frame.wide - tiles.size.0) / 2.0, MARGIN + OVER);
    sheet.items.push(Item::Window(window, tiles.size, inside));
    marks(tiles, tile).put(&mut sheet.items, MARGIN, MARGIN);
    ruler(frame).put(&mut sheet.items, MARGIN, MARGIN + frame.high - UNDER);
    sheet
}

/// Cut line, crown, notch and a tick at every 45 degrees.
fn disc(radius: f64) -> Block {
    let mut block = Block::default();
    block.items.push(Item::Circle((0.0, 0.0), radius, Look { line: RULE, dashed: true, fill: None }));
    block.line(&[(-4.0, 0.0), (4.0, 0.0)]);
    block.line(&[(0.0, -4.0), (0.0, 4.0)]);
    for eighth in 1..8_u8 {
        let (x, up) = sin_cos(f64::from(eighth) * FRAC_PI_4);
        let y = -up;
        let at = |r: f64| (x * r, y * r);
        block.line(&[at(radius - 1.5), at(radius + 2.0)]);
    }
    let tip = -radius - 0.6;
    block.path(
        vec![vec![(0.0, tip), (-2.2, tip - 4.0), (2.2, tip - 4.0)]],
        true,
        Look { line: 0.0, dashed: false, fill: Some(0) },
    );
    block
}

/// The outlines: on the disc up is away from the maker, on paper it is the smaller number.
fn outlines(patches: &[LyingPatch]) -> Vec<Item> {
    let mut block = Block::default();
    for patch in patches {
        let parts = patch
            .outlines
            .iter()
            .map(|outline| outline.iter().map(|[x, y]| (f64::from(*x), -f64::from(*y))).collect());
        block.path(parts.collect(), true, Look { line: OUTLINE, ..LINE });
    }
    block.items
}

/// Words on the map, the notch's and the depth in every large patch: those that stand whole on this tile, apart from each other, from
/// the crown and from the marks.
fn words(block: &mut Block, map: &Map, patches: &[LyingPatch], tiles: &Tiles, shift: Point) {
    let kind = plain(9.0);
    let left = (tiles.frame.wide - tiles.size.0) / 2.0;
    let whole = |(x, y): Point, wide: f64| {
        let (on_x, on_y) = (x + shift.0 - left, y + shift.1 - OVER);
        on_x - wide / 2.0 > 2.0
            && on_x + wide / 2.0 < tiles.size.0 - 2.0
            && on_y > 4.0
            && on_y < tiles.size.1 - 2.0
    };
    let mut taken = tiles.marks(shift);
    // Beside the notch, on the side where no mark stands with its letter.
    let notch = kind.width("notch");
    let away =
        |(x, y): Point| taken.iter().all(|(a, b)| (x - a).abs() > notch / 2.0 + 12.0 || (y - b).abs() > 6.0);
    let sides = [1.0, -1.0].map(|side| (side * (4.0 + notch / 2.0), -tiles.radius - 2.0));
    if let Some(place) = sides.into_iter().find(|place| whole(*place, notch) && away(*place)) {
        block.write_around(place, kind, "notch");
    }
    let depth = map.patches.depth.to_string();
    let wide = kind.width(&depth);
    taken.push((0.0, 0.0));
    for (at, patch) in patches.iter().enumerate().filter(|(_, patch)| patch.share >= LARGE) {
        let free = around(patch.middle).find(|place| {
            let (x, y) = (f64::from(place[0]), -f64::from(place[1]));
            let apart = taken.iter().all(|(a, b)| (x - a).abs() > wide + 3.0 || (y - b).abs() > 7.0);
            let its_own = patch_at(patches, place[0], place[1]) == Some(at);
            apart && its_own && whole((x, y), wide) && clear(patches, *place, wide)
        });
        if let Some([x, up]) = free {
            let (x, y) = (f64::from(x), -f64::from(up));
            block.write_around((x, y + 1.1), kind, depth.as_str());
            taken.push((x, y));
        }
    }
}

/// A place and others around it, ever farther, mm.
fn around([x, y]: [f32; 2]) -> impl Iterator<Item = [f32; 2]> {
    const WAYS: [(f32, f32); 8] = [
        (0.0, 1.0),
        (0.0, -1.0),
        (1.0, 0.0),
        (-1.0, 0.0),
        (0.7, 0.7),
        (0.7, -0.7),
        (-0.7, 0.7),
        (-0.7, -0.7),
    ];
    let farther = [6.0, 12.0, 18.0].into_iter();
    let farther = farther.flat_map(move |far| WAYS.map(|(a, b)| [x + a * far, y + b * far]));
    [[x, y]].into_iter().chain(farther)
}

/// Whether no outline runs through words so wide.
fn clear(patches: &[LyingPatch], [x, y]: [f32; 2], wide: f64) -> bool {
    let (half, high) = (wide as f32 / 2.0 + 1.0, 2.6);
    let through = |point: &[f32; 2]| (point[0] - x).abs() < half && (point[1] - y).abs() < high;
    !patches.iter().flat_map(|patch| &patch.outlines).flatten().any(through)
}

/// A mark at each corner of a tile, in the middle of what lies over each other, so that neighbors share it with its letter.
fn marks(tiles: &Tiles, (column, row): (usize, usize)) -> Block {
    let mut block = Block::default();
    let kind = plain(8.5);
    for (at, (x, y)) in tiles.marks((0.0, 0.0)).into_iter().enumerate() {
        let (right, down) = (at % 2, at / 2);
        block.items.push(Item::Circle((x, y), 1.8, LINE));
        block.line(&[(x - 3.2, y), (x + 3.2, y)]);
        block.line(&[(x, y - 3.2), (x, y + 3.2)]);
        let name = letter((row + down) * (tiles.columns + 1) + column + right);
        match right {
            0 => block.write((x + 4.4, y + 1.1), kind, name),
            _ => block.write_up_to((x - 4.4, y + 1.1), kind, name),
        }
    }
    block
}

/// A ruler of 100 mm.
fn ruler(frame: Frame) -> Block {
    let mut block = Block::default();
    let said = "mm. It must measure 100: print at 100 %.";
    let kind = plain(8.5);
    let left = (frame.wide - 100.0 - 5.0 - kind.width(said)) / 2.0;
    let y = 6.0;
    block.line(&[(left, y), (left + 100.0, y)]);
    for mm in 0..=100_u8 {
        let tall = match mm {
            mm if mm % 10 == 0 => 4.0,
            mm if mm % 5 == 0 => 3.0,
            _ => 1.8,
        };
        let x = left + f64::from(mm);
        block.line(&[(x, y), (x, y - tall)]);
        if mm % 20 == 0 {
            block.write_around((x, y + 3.6), kind, mm.to_string());
        }
    }
    block.write((left + 105.0, y), kind, said);
    block
}
