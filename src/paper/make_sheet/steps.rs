//! The steps of hand work: cut, sift and dab, mount, and what came out.

use crate::base::text::lower;
use crate::base::units::{Mm, fixed};
use crate::glass::glasses::Glasses;
use crate::orders::weigh::PartGrams;
use crate::paper::block::{BOX, Block, Type, bold, plain, quiet};
use crate::paper::content::{Content, OneLine};
use crate::paper::frame::{AFTER_RULE, Frame};
use crate::paper::sheet::Point;
use crate::recipe::said::{blend, coat, passes};
use crate::recipe::{Coat, Fall};

/// Heads of the steps.
pub const HEAD: Type = bold(10.0);
/// Words of the steps.
const TEXT: Type = plain(9.5);

/// A block with a rule over it and its head; the number of a step goes before its name.
pub fn step(frame: Frame, step: Option<usize>, name: &str) -> Block {
    let mut block = Block::default();
    block.line(&[(0.0, 0.0), (frame.wide, 0.0)]);
    let step = step.map_or_else(String::new, |step| format!("{step}  "));
    block.write((0.0, AFTER_RULE + 3.4), HEAD, step + name);
    block.high = AFTER_RULE + 4.6;
    block
}

/// Boxes with words behind them, row by row; gives the height under the last.
pub fn boxes(block: &mut Block, (x, mut y): Point, wide: f64, entries: &[String]) -> f64 {
    let mut left = x;
    for entry in entries {
        let room = BOX + 1.6 + TEXT.width(entry);
        if left > x && left + room > x + wide {
            (left, y) = (x, y + BOX + 1.2);
        }
        block.tick((left, y));
        block.write((left + BOX + 1.6, y + 4.3), TEXT, TEXT.cut(entry, wide - BOX - 1.6));
        left += room + 4.0;
    }
    y + BOX + 1.2
}

/// 1: cut and stack.
pub fn cut(line: OneLine, frame: Frame) -> Block {
    let mut block = step(frame, Some(1), "Cut and stack");
    let recipe = &line.line.recipe;
    let mut kinds: Vec<(&str, Mm, u32)> = Vec::new();
    for sheet in &recipe.blank.sheets {
        match kinds.iter_mut().find(|(glass, thick, _)| *glass == sheet.glass && *thick == sheet.thickness) {
            Some((_, _, each)) => *each += 1,
            None => kinds.push((&sheet.glass, sheet.thickness, 1)),
        }
    }
    let entries: Vec<String> = kinds
        .into_iter()
        .map(|(id, thick, each)| {
            let across = recipe.blank.diameter;
            format!(
                "{} {}, {across} across, {thick} thick",
                each * line.made.made,
                lower(&recipe.glasses.name(id))
            )
        })
        .collect();
    let top = block.high;
    let y = boxes(&mut block, (0.0, top), frame.wide, &entries);
    let sheets = recipe.blank.sheets.iter();
    let stack: Vec<String> = sheets.map(|sheet| lower(&recipe.glasses.name(&sheet.glass))).collect();
    let said = match &stack[..] {
        [one] => format!("One sheet of {one}. Clean and dry it."),
        several => format!("From below: {}. Clean and dry them.", several.join(", ")),
    };
    block.write((0.0, y + 2.8), TEXT, TEXT.cut(&said, frame.wide));
    block.high = y + 4.2;
    block
}

/// Above so many coats they stand in two columns.
const ONE_COLUMN: usize = 5;

/// 2: sift and dab; the boxes of the seeds follow.
pub fn sift(line: OneLine, frame: Frame) -> Block {
    let recipe = &line.line.recipe;
    let name = if recipe.sponge.is_some() { "Sift and dab" } else { "Sift" };
    let mut block = step(frame, Some(2), name);
    let past = fixed(recipe.past_the_disc * 100.0, 0);
    let left = HEAD.width(&format!("2  {name}")) + 3.0;
    let said = if recipe.coats.is_empty() {
        "no powder on this one".into()
    } else {
        format!("grams to weigh for one disc, of which {past} % falls past it")
    };
    block.write((left, AFTER_RULE + 3.4), quiet(8.5), said);
    let y = if recipe.coats.len() > ONE_COLUMN {
        two_columns(&mut block, line, frame)
    } else {
        rows(&mut block, line, frame)
    };
    block.high = y;
    for said in sponged(line) {
        block.write((28.0, block.high + 3.6), TEXT, TEXT.cut(&said, frame.wide - 28.0));
        block.write((0.0, block.high + 3.6), HEAD, if said.starts_with("Rub") { "" } else { "Dab" });
        block.high += 5.0;
    }
    block
}

/// Which sift map a coat has, counted from 1; none if it falls without outlines.
fn map_of(line: &OneLine, at: usize) -> Option<usize> {
    let coats = &line.line.recipe.coats;
    let mapped = |coat: &Coat| matches!(coat.fall, Fall::Patches(_));
    mapped(&coats[at]).then(|| coats[..=at].iter().filter(|coat| mapped(coat)).count())
}

fn grams(parts: &[PartGrams]) -> String {
    format!("{} g", fixed(parts.iter().map(|part| part.grams.0).sum::<f64>(), 1))
}

/// What is weighed of each part; nothing of a single one.
fn of_parts(glasses: &Glasses, parts: &[PartGrams]) -> Option<String> {
    let name = |part: &PartGrams| lower(&glasses.name(&part.glass));
    let each = parts.iter().map(|part| format!("{} {}", fixed(part.grams.0, 1), name(part)));
    (parts.len() > 1).then(|| each.collect::<Vec<_>>().join(" + ") + " g")
}

fn does(one: &Coat) -> String {
    let wide = match &one.fall {
        Fall::Patches(patches) => format!(", {} across", patches.size),
        Fall::Even { .. } | Fall::ThickAndThin(_) => String::new(),
    };
    let hand = if one.layout.by_hand.is_empty() { "" } else { ", laid by hand" };
    format!("{}{wide}, rim bare {}{hand}", coat(one), one.bare_rim)
}

/// A coat with what is weighed of it.
struct Row<'a> {
    coat: &'a Coat,
    parts: &'a [PartGrams],
    map: String,
}

fn all<'a>(line: &OneLine<'a>) -> Vec<Row<'a>> {
    let coats = line.line.recipe.coats.iter().enumerate();
    let need = |id: u32| line.coats.iter().find(|need| need.line == line.at && need.coat == id);
    coats
        .map(|(at, coat)| Row {
            coat,
            parts: need(coat.id).map_or(&[], |need| &need.one),
            map: map_of(line, at).map_or_else(String::new, |map| format!("map {map}")),
        })
        .collect()
}

const GRAMS: Type = bold(16.0);

fn rows(block: &mut Block, line: OneLine, frame: Frame) -> f64 {
    let (name, left) = (28.0, 66.0);
    let small = plain(8.5);
    let mut y = block.high;
    for row in all(&line) {
        block.write((0.0, y + 5.6), GRAMS, grams(row.parts));
        block.write(
            (name, y + 5.4),
            HEAD,
            HEAD.cut(&blend(&line.line.recipe.glasses, &row.coat.powder), left - name - 2.0),
        );
        block.write((left, y + 5.4), TEXT, TEXT.cut(&does(row.coat), frame.wide - left - 16.0));
        block.write_up_to((frame.wide, y + 5.4), TEXT, row.map);
        y += 7.0;
        if let Some(parts) = of_parts(&line.line.recipe.glasses, row.parts) {
            let lines = small.wrapped(&parts, frame.wide - name);
            y = block.lines((name, y + 2.2), small, &lines) - 1.6;
        }
    }
    y
}

/// Many coats: name and what it does stand one under the other.
fn two_columns(block: &mut Block, line: OneLine, frame: Frame) -> f64 {
    let wide = (frame.wide - 6.0) / 2.0;
    let (name, small) = (22.0, plain(7.5));
    let all = all(&line);
    let half = all.len().div_ceil(2);
    let top = block.high;
    let mut end = top;
    for (column, rows) in all.chunks(half).enumerate() {
        let (x, mut y) = (column as f64 * (wide + 6.0), top);
        for row in rows {
            let room = wide - name;
            block.write((x, y + 5.6), GRAMS, grams(row.parts));
            let map = plain(8.0);
            block.write(
                (x + name, y + 3.4),
                bold(9.0),
                bold(9.0).cut(&blend(&line.line.recipe.glasses, &row.coat.powder), room - 12.0),
            );
            block.write_up_to((x + wide, y + 3.4), map, row.map.as_str());
            y = block.lines((x + name, y + 6.5), small, &small.wrapped_to(&does(row.coat), room, 1));
            if let Some(parts) = of_parts(&line.line.recipe.glasses, row.parts) {
                y = block.lines((x + name, y), small, &small.wrapped(&parts, room));
            }
            y -= 1.8;
        }
        end = end.max(y);
    }
    end
}

/// What the sponge and the fingers take off.
fn sponged(line: OneLine) -> Vec<String> {
    let recipe = &line.line.recipe;
    let mut said: Vec<String> = Vec::new();
    said.extend(recipe.sponge.as_ref().map(|sponge| {
        format!(
            "Damp sponge, lifts {}, pressed to {} %; {} rolls, {}. Brush it clean after each.",
            sponge.lift,
            fixed(sponge.press * 100.0, 0),
            line.piece.rolls,
            passes(sponge)
        )
    }));
    let rubs = recipe.sponged_off.len();
    said.extend((rubs > 0).then(|| format!("Rub off by hand in {rubs} strokes, as in the picture.")));
    said
}

/// Mount, where the recipe has a stem.
pub fn mount(content: &Content, line: OneLine, frame: Frame) -> Option<Block> {
    let stem = line.made.first.as_ref()?.stem?;
    let mut block = Block::default();
    block.line(&[(0.0, 0.0), (frame.wide, 0.0)]);
    let left = 28.0;
    block.write((0.0, AFTER_RULE + 4.2), HEAD, format!("{}  Mount", 3 + line.piece.programs.len()));
    let [_, deep, _] = stem.inserted.map(|depth| fixed(depth.0, 0));
    let kind = if stem.holed { "holed stopper" } else { "stopper with dabs" };
    let entry = format!(
        "{wanted} of {wanted}. No. {} {kind}, {deep} mm into {} in pipe of {}; {} mL silicone each.",
        stem.stopper,
        stem.pipe.nominal(),
        stem.cut,
        fixed(stem.silicone, 1),
        wanted = line.made.wanted,
    );
    let y = boxes(&mut block, (left, AFTER_RULE), frame.wide - left, &[entry]);
    let [first, last] = stem.cured.map(|days| fixed(days.ceil(), 0));
    let rest = content.order.work.cure_days;
    let said = format!(
        "24 h before you handle it, {rest} days before anything goes (common practice); cured through in about {first} to {last} days."
    );
    let lines = TEXT.wrapped(&said, frame.wide - left);
    block.high = block.lines((left, y + 2.4), TEXT, &lines) - TEXT.line() + 1.6;
    Some(block)
}

/// What came out: lines to write on.
pub fn came_out(frame: Frame) -> Block {
    let mut block = step(frame, None, "Came out");
    block.items.pop();
    let y = AFTER_RULE + 5.0;
    block.write((0.0, y), HEAD, "Came out");
    let mut x = 28.0;
    for (before, blank, after) in [
        ("sound", 13.0, ""),
        ("cracked", 13.0, ""),
        ("across", 14.0, "mm"),
        ("high", 14.0, "mm"),
        ("grams used", 16.0, ""),
    ] {
        block.write((x, y), TEXT, before);
        x += TEXT.width(before) + 1.2;
        block.blank((x, y), blank);
        x += blank + 1.2;
        block.write((x, y), TEXT, after);
        x += TEXT.width(after) + 2.6;
    }
    block.blank((0.0, y + 8.0), frame.wide);
    block.high = y + 10.0;
    block
}
