//! The cut list: which discs come out of which sheet, where, and what is left of it.

use super::model::{Cutting, Order, Sheets};
use crate::base::units::Mm;
use crate::packing::{Discs, Packings, Place, Shelf};
use crate::shop::ticket::DiscCut;
use serde::{Deserialize, Serialize};

/// Side of the sheets that are reckoned with where none are written down, mm: common practice, no source.
const USUAL_SIDE: Mm = Mm(500.0);

/// Discs of one glass and thickness out of their sheets.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CutList {
    /// Id of the glass.
    pub glass: String,
    /// Thickness.
    pub thickness: Mm,
    /// The sheets, in the order in which they are cut.
    pub sheets: Vec<CutSheet>,
    /// How many of them have to be bought.
    pub to_buy: u32,
    /// Share of their glass that is no disc.
    pub waste: f64,
    /// Money for all of them, where each has a price.
    pub cost: Option<f64>,
    /// Whether a size had to be assumed.
    pub size_assumed: bool,
    /// Discs that no sheet is large enough for.
    pub without: Vec<Without>,
}

/// Discs that do not go on any sheet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Without {
    /// Diameter.
    pub diameter: Mm,
    /// How many.
    pub count: u32,
}

/// A sheet with its discs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CutSheet {
    /// From left to right.
    pub wide: Mm,
    /// From front to back.
    pub deep: Mm,
    /// Whether it has to be bought.
    pub bought: bool,
    /// Its discs.
    pub discs: Vec<CutDisc>,
    /// The largest straight strip that is left, if one as wide as a hand is.
    pub offcut: Option<Offcut>,
}

/// A disc on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CutDisc {
    /// Its center, from the left.
    pub x: Mm,
    /// Its center, from the front.
    pub y: Mm,
    /// Its diameter.
    pub diameter: Mm,
}

/// A strip that is left of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Offcut {
    /// From left to right.
    pub wide: Mm,
    /// From front to back.
    pub deep: Mm,
}

/// The narrowest strip that is worth keeping, mm (chosen: a hand's width).
const LEAST_OFFCUT: f64 = 80.0;

/// The cut lists of all discs of an order.
pub fn cut(order: &Order, discs: &[DiscCut], packings: &mut Packings) -> Vec<CutList> {
    let mut kinds: Vec<(&str, Mm)> = Vec::new();
    for disc in discs {
        let kind = (disc.glass.as_str(), disc.thickness);
        if !kinds.contains(&kind) {
            kinds.push(kind);
        }
    }
    kinds.into_iter().map(|kind| one_kind(order, discs, kind, packings)).collect()
}

fn one_kind(
    order: &Order,
    discs: &[DiscCut],
    (glass, thickness): (&str, Mm),
    packings: &mut Packings,
) -> CutList {
    let mut left: Vec<Without> = Vec::new();
    for disc in discs.iter().filter(|disc| disc.glass == glass && disc.thickness == thickness) {
        match left.iter_mut().find(|left| left.diameter == disc.diameter) {
            Some(left) => left.count = left.count.saturating_add(disc.count),
            None => left.push(Without { diameter: disc.diameter, count: disc.count }),
        }
    }
    left.sort_by(|a, b| b.diameter.0.total_cmp(&a.diameter.0));
    let stock =
        order.stock.sheets.iter().filter(|sheets| sheets.glass == glass && sheets.thickness == thickness);
    let mut stock: Vec<Sheets> = stock.cloned().collect();
    let size_assumed = stock.is_empty();
    if size_assumed {
        stock.push(usual(glass, thickness));
    }
    let (mut sheets, mut costs) = (Vec::new(), Vec::new());
    while left.iter().any(|discs| discs.count > 0) {
        let Some((sheet, price)) = next_sheet(&mut stock, &mut left, order.cutting, packings) else { break };
        sheets.push(sheet);
        costs.push(price);
    }
    left.retain(|discs| discs.count > 0);
    CutList {
        glass: glass.into(),
        thickness,
        to_buy: sheets.iter().filter(|sheet| sheet.bought).count() as u32,
        waste: waste(&sheets),
        cost: costs.into_iter().sum(),
        sheets,
        size_assumed,
        without: left,
    }
}

fn usual(glass: &str, thickness: Mm) -> Sheets {
    Sheets { glass: glass.into(), thickness, wide: USUAL_SIDE, deep: USUAL_SIDE, count: 0, price: None }
}

/// Cuts the sheet that comes next: of those on hand before any is bought, the smallest that takes all discs that are left, or else
/// the one that leaves least between them. None if no sheet takes even one.
fn next_sheet(
    stock: &mut [Sheets],
    left: &mut [Without],
    cutting: Cutting,
    packings: &mut Packings,
) -> Option<(CutSheet, Option<f64>)> {
    let on_hand = |sheets: &Sheets| sheets.count > 0;
    let mut best: Option<(usize, Vec<CutDisc>)> = None;
    for bought in [false, true] {
        for (at, sheets) in stock.iter().enumerate().filter(|(_, sheets)| bought || on_hand(sheets)) {
            let laid = lay(sheets, left, cutting, packings);
            let better = |than: &(usize, Vec<CutDisc>)| {
                gain(sheets, &laid, left) > gain(&stock[than.0], &than.1, left)
            };
            if !laid.is_empty() && best.as_ref().is_none_or(better) {
                best = Some((at, laid));
            }
        }
        if best.is_some() {
            break;
        }
    }
    let (at, discs) = best?;
    for disc in &discs {
        let of = left.iter_mut().find(|of| of.diameter == disc.diameter && of.count > 0);
        of.into_iter().for_each(|of| of.count -= 1);
    }
    let sheets = &mut stock[at];
    let bought = sheets.count == 0;
    sheets.count = sheets.count.saturating_sub(1);
    let Sheets { wide, deep, price, .. } = *sheets;
    let offcut = offcut(wide.0, deep.0, &discs, cutting);
    Some((CutSheet { wide, deep, bought, discs, offcut }, price))
}

/// How good a sheet is: one that takes all is better than any other, the smaller the better; else by the share that becomes discs.
fn gain(sheets: &Sheets, laid: &[CutDisc], left: &[Without]) -> (bool, f64) {
    let area = sheets.wide.0 * sheets.deep.0;
    let wanted: u32 = left.iter().map(|discs| discs.count).sum();
    let all = laid.len() == wanted as usize;
    (all, if all { -area } else { round(laid) / area })
}

/// Area of discs, mm².
fn round(discs: &[CutDisc]) -> f64 {
    discs.iter().map(|disc| std::f64::consts::PI / 4.0 * disc.diameter.0 * disc.diameter.0).sum()
}

fn waste(sheets: &[CutSheet]) -> f64 {
    let glass: f64 = sheets.iter().map(|sheet| sheet.wide.0 * sheet.deep.0).sum();
    let discs: f64 = sheets.iter().map(|sheet| round(&sheet.discs)).sum();
    if glass > 0.0 { 1.0 - discs / glass } else { 0.0 }
}

/// Lays the discs that are left on a sheet: as many of the widest as go on, then smaller ones where there is room beside them.
fn lay(sheets: &Sheets, left: &[Without], cutting: Cutting, packings: &mut Packings) -> Vec<CutDisc> {
    let mut laid: Vec<CutDisc> = Vec::new();
    for discs in left.iter().filter(|discs| discs.count > 0) {
        let wanted = discs.count as usize;
        if laid.is_empty() {
            let places = compact(sheets, discs.diameter, cutting, (wanted, packings));
            laid.extend(places.into_iter().map(|place| disc(place, discs.diameter)));
        } else {
            let before = laid.len();
            while laid.len() - before < wanted {
                let Some(place) = beside(sheets, &laid, discs.diameter, cutting) else { break };
                laid.push(disc(place, discs.diameter));
            }
        }
    }
    laid
}

fn disc([x, y]: Place, diameter: Mm) -> CutDisc {
    CutDisc { x: Mm(x), y: Mm(y), diameter }
}

/// Discs on a sheet; if fewer are wanted than go on, on the part of it that leaves the largest strip.
fn compact(
    sheets: &Sheets,
    diameter: Mm,
    cutting: Cutting,
    (wanted, packings): (usize, &mut Packings),
) -> Vec<Place> {
    let discs = Discs { across: diameter.0, gap: cutting.between.0, edge: cutting.edge.0 };
    let (wide, deep) = (sheets.wide.0, sheets.deep.0);
    let mut on =
        |wide: f64, deep: f64| packings.most(Shelf::Square { wide: Mm(wide), deep: Mm(deep) }, discs, wanted);
    let all = on(wide, deep);
    if all.len() < wanted {
        return all;
    }
    let narrow = narrowest(wide, |wide| on(wide, deep), wanted);
    let low = narrowest(deep, |deep| on(wide, deep), wanted);
    let strip = |places: &[Place]| {
        let cut: Vec<_> = places.iter().map(|place| disc(*place, diameter)).collect();
        offcut(wide, deep, &cut, cutting).map_or(0.0, |strip| strip.wide.0 * strip.deep.0)
    };
    [narrow, low]
        .into_iter()
        .flatten()
        .fold(all, |best, other| if strip(&other) > strip(&best) { other } else { best })
}

/// Steps in which a strip is looked for, mm.
const STEP: f64 = 10.0;

/// The layout on the narrowest part of a side that still takes all, if that part leaves a strip.
fn narrowest(side: f64, mut on: impl FnMut(f64) -> Vec<Place>, wanted: usize) -> Option<Vec<Place>> {
    let (mut none, mut enough) = (0, ((side - LEAST_OFFCUT) / STEP).floor().max(0.0) as u32);
    let mut best = Some(on(f64::from(enough) * STEP)).filter(|places| places.len() == wanted)?;
    while enough - none > 1 {
        let middle = u32::midpoint(none, enough);
        let places = on(f64::from(middle) * STEP);
        if places.len() == wanted {
            (enough, best) = (middle, places);
        } else {
            none = middle;
        }
    }
    Some(best)
}

/// The foremost place, then the leftmost, where one more disc touches what is there: two discs, a disc and an edge, or two edges.
fn beside(sheets: &Sheets, laid: &[CutDisc], diameter: Mm, cutting: Cutting) -> Option<Place> {
    let reach = cutting.edge.0 + diameter.0 / 2.0;
    let (right, back) = (sheets.wide.0 - reach, sheets.deep.0 - reach);
    let free = |[x, y]: Place| {
        let inside = x >= reach - NEAR && y >= reach - NEAR && x <= right + NEAR && y <= back + NEAR;
        inside && laid.iter().all(|there| clear(there, [x, y], diameter, cutting) >= -NEAR)
    };
    let places = touching(laid, diameter, cutting, [reach, right], [reach, back]);
    let key = |[x, y]: &Place| (*y, *x);
    places.into_iter().filter(|place| free(*place)).min_by(|a, b| {
        let (a, b) = (key(a), key(b));
        a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
    })
}

/// A nanometer, in mm.
const NEAR: f64 = 1e-6;

/// What lies between a disc and one more beyond the gap, mm.
fn clear(there: &CutDisc, [x, y]: Place, diameter: Mm, cutting: Cutting) -> f64 {
    let (across, along) = (there.x.0 - x, there.y.0 - y);
    (across * across + along * along).sqrt() - apart(there, diameter, cutting)
}

fn apart(there: &CutDisc, diameter: Mm, cutting: Cutting) -> f64 {
    f64::midpoint(there.diameter.0, diameter.0) + cutting.between.0
}

/// Every place where a disc touches two things.
fn touching(laid: &[CutDisc], diameter: Mm, cutting: Cutting, lefts: Place, fronts: Place) -> Vec<Place> {
    let mut places: Vec<Place> = lefts.iter().flat_map(|x| fronts.map(|y| [*x, y])).collect();
    for (at, one) in laid.iter().enumerate() {
        let reach = apart(one, diameter, cutting);
        for x in lefts {
            places.extend(
                on_both_sides(reach, x - one.x.0).into_iter().flatten().map(|way| [x, one.y.0 + way]),
            );
        }
        for y in fronts {
            places.extend(
                on_both_sides(reach, y - one.y.0).into_iter().flatten().map(|way| [one.x.0 + way, y]),
            );
        }
        for other in &laid[..at] {
            places.extend(between(one, other, reach, apart(other, diameter, cutting)));
        }
    }
    places
}

/// The other leg of a right triangle, both ways, if there is one.
fn on_both_sides(reach: f64, leg: f64) -> Option<[f64; 2]> {
    let squared = reach * reach - leg * leg;
    (squared >= 0.0).then(|| [-squared.sqrt(), squared.sqrt()])
}

/// The places that are so far from one disc and so far from another.
fn between(one: &CutDisc, other: &CutDisc, from_one: f64, from_other: f64) -> Vec<Place> {
    let (x, y) = (other.x.0 - one.x.0, other.y.0 - one.y.0);
    let far = (x * x + y * y).sqrt();
    if far <= 0.0 {
        return Vec::new();
    }
    let along = (far * far + from_one * from_one - from_other * from_other) / (2.0 * far);
    let ways = on_both_sides(from_one, along).into_iter().flatten();
    ways.map(|side| [one.x.0 + (along * x - side * y) / far, one.y.0 + (along * y + side * x) / far])
        .collect()
}

/// The larger of the strips behind and to the right of all discs.
fn offcut(wide: f64, deep: f64, discs: &[CutDisc], cutting: Cutting) -> Option<Offcut> {
    let ends = |at: fn(&CutDisc) -> Mm| {
        discs.iter().map(|disc| at(disc).0 + disc.diameter.0 / 2.0).fold(0.0, f64::max) + cutting.edge.0
    };
    let strips = [
        Offcut { wide: Mm(wide - ends(|disc| disc.x)), deep: Mm(deep) },
        Offcut { wide: Mm(wide), deep: Mm(deep - ends(|disc| disc.y)) },
    ];
    let area = |strip: &Offcut| strip.wide.0 * strip.deep.0;
    let worth = strips.into_iter().filter(|strip| strip.wide.0.min(strip.deep.0) >= LEAST_OFFCUT - NEAR);
    worth.max_by(|a, b| area(a).total_cmp(&area(b)))
}
