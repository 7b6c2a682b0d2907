//! The make sheet: one page for each line of an order, to work from at the bench.

mod firing;
mod seeds;
mod steps;

use super::block::{Block, bold, plain, quiet};
use super::content::{Content, OneLine};
use super::dates::day;
use super::frame::{AFTER_RULE, Frame, MARGIN, stack};
use super::sheet::{Look, Picture, Sheet};
use crate::base::text::lower;
use crate::base::units::fixed;
use crate::kiln::cautions::{CAUTIONS, MAKERS_WIN};
use crate::picture::view::{Light, Stage};
use crate::recipe::said::{form, glass, side};

/// How high the pictures may be, mm: at most, and the least at which they are worth their place.
const PICTURES: (f64, f64) = (46.0, 24.0);
/// The widest gap between two blocks.
const GAP: (f64, f64) = (1.0, 4.4);

/// The make sheets of an order, one for each line.
pub fn sheets(content: &Content) -> Vec<Sheet> {
    let of = content.order.lines.len();
    content.lines().map(|line| sheet(content, line, of)).collect()
}

fn sheet(content: &Content, line: OneLine, of: usize) -> Sheet {
    let frame = Frame::on(content.paper);
    let right = format!("{}, {}   page {} of {of}", line_short(&line), day(content.today), line.at + 1);
    let mut sheet = frame.sheet("A forecast: two hands never sift alike.", &right);
    let head = head(content, line, frame);
    let mut tail = vec![steps::came_out(frame)];
    let mut upper: Vec<Block> = next_time(line, frame).into_iter().collect();
    upper.push(steps::cut(line, frame));
    upper.push(steps::sift(line, frame));
    let mut lower: Vec<Block> = vec![firing::firings(content, line, frame)];
    lower.extend(steps::mount(content, line, frame));
    let cautions = cautions(frame);
    let count = upper.len() + lower.len() + tail.len() + 3;
    let gaps = count as f64 * GAP.0;
    let fixed_high: f64 =
        [&head, &cautions].into_iter().chain(&upper).chain(&lower).chain(&tail).map(|block| block.high).sum();
    let free = frame.high - fixed_high - gaps;
    let seeds = seeds::seeds(line, frame, free);
    let free = free - seeds.high;
    let pictures = (free >= PICTURES.1).then(|| pictures(line, frame, free.min(PICTURES.0)));
    let free = free - pictures.as_ref().map_or(0.0, |block| block.high);
    let gap = (GAP.0 + free.max(0.0) / count as f64).min(GAP.1);
    let noted = usize::from(line.piece.next_time.is_some());
    let rest = upper.split_off(noted);
    let mut blocks = upper;
    blocks.extend(pictures);
    blocks.extend(rest);
    let high = head.high;
    head.put(&mut sheet.items, MARGIN, MARGIN);
    let y = stack(&mut sheet.items, blocks, high, gap);
    // The boxes belong to what stands over them.
    let y = stack(&mut sheet.items, vec![seeds], y, 0.0);
    lower.append(&mut tail);
    stack(&mut sheet.items, lower, y, gap);
    let at = frame.high - cautions.high;
    cautions.put(&mut sheet.items, MARGIN, MARGIN + at);
    sheet
}

/// A line's name where there is little room.
fn line_short(line: &OneLine) -> String {
    plain(8.0).cut(line.title(), 60.0)
}

fn head(content: &Content, line: OneLine, frame: Frame) -> Block {
    let (wanted, spare) = (line.made.wanted, line.made.made - line.made.wanted);
    let spare = if spare > 0 { format!(", and {spare} spare") } else { String::new() };
    let option = line.line.option.trim();
    let option = if option.is_empty() { String::new() } else { format!("{option}: ") };
    let order = &content.order;
    let whose: Vec<&str> = [&order.title, &order.customer]
        .into_iter()
        .map(|name| name.trim())
        .filter(|name| !name.is_empty())
        .collect();
    let whose = if whose.is_empty() { String::new() } else { format!(" {}.", whose.join(", for ")) };
    let due = order.due.map_or_else(String::new, |due| format!(" Due {}.", day(due)));
    let seeds = match line.made.layouts.len() {
        1 => format!("seed {}", line.seed()),
        _ => format!("seed {} and sisters", line.seed()),
    };
    let under = format!("{option}make sheet for {wanted}{spare}, {seeds}.{whose}{due}");
    frame.head(line.title(), &[], &crate::base::text::capital(&under))
}

fn next_time(line: OneLine, frame: Frame) -> Option<Block> {
    let (when, note) = line.piece.next_time.as_ref()?;
    let mut block = Block::default();
    let (label, kind) = (plain(9.5), bold(9.5));
    let said = format!("Next time, from {}:", day(*when));
    let left = label.width(&said) + 2.0;
    block.write((0.0, 4.0), label, said);
    let lines = kind.wrapped_to(note, frame.wide - left, 3);
    block.high = block.lines((left, 4.0), kind, &lines) - kind.line() + 1.2;
    Some(block)
}

fn pictures(line: OneLine, frame: Frame, high: f64) -> Block {
    let mut block = Block::default();
    let (side_long, top) = (high - 5.0, 0.6);
    let picture = Picture {
        at: (0.0, top),
        frame: (side_long, side_long),
        round: true,
        line: line.at,
        seed: line.seed(),
        stage: Stage::Fused,
        light: Light::Day,
    };
    let dome = Picture {
        at: (side_long + 4.0, top),
        frame: (side_long * 1.15, side_long),
        round: false,
        stage: Stage::Domed,
        ..picture
    };
    block.picture(picture);
    block.picture(dome);
    let caption = plain(8.0);
    let y = high - 0.6;
    block.write((0.0, y), caption, caption.cut(&format!("fused, seed {}", line.seed()), side_long));
    block.write((side_long + 4.0, y), caption, line.size());
    let left = side_long * 2.15 + 14.0;
    drawn_stack(&mut block, line, (left, top), (frame.wide - left, side_long.min(36.0)));
    block.high = high;
    block
}

/// The stack, not to scale, with what each layer is.
fn drawn_stack(block: &mut Block, line: OneLine, (x, y): (f64, f64), (wide, high): (f64, f64)) {
    let sheets = &line.line.recipe.blank.sheets;
    let glass_high: f64 = sheets.iter().map(|sheet| sheet.thickness.0).sum();
    let powder = line.piece.fused.0 - glass_high * fused_share(line);
    let mut layers: Vec<(String, f64, u8)> = Vec::new();
    if !line.line.recipe.coats.is_empty() {
        layers.push((format!("powder, {} mm fused", fixed(powder.max(0.0), 2)), 0.0, 190));
    }
    layers.extend(sheets.iter().rev().map(|sheet| {
        let shade = if sheet.glass == "clear" { 236 } else { 255 };
        (format!("{}, {}", lower(&glass(&sheet.glass)), sheet.thickness), sheet.thickness.0, shade)
    }));
    const LEAST: f64 = 4.4;
    let kind = plain(8.5);
    let drawn = (wide * 0.45).min(34.0);
    let over = (high.min(glass_high * 5.0 + LEAST) - LEAST * layers.len() as f64).max(0.0);
    let mut top = y;
    for (words, thick, shade) in layers {
        let tall = LEAST + over * thick / glass_high;
        let look = Look { line: 0.25, dashed: false, fill: Some(shade) };
        block.rectangle((x, top), (drawn, tall), look);
        block.write((x + drawn + 2.5, top + tall / 2.0 + 1.1), kind, kind.cut(&words, wide - drawn - 2.5));
        top += tall;
    }
    let mold = &line.line.recipe.mold;
    let said = format!(
        "{} {} × {}, powder {}",
        form(&mold.form),
        crate::base::units::plain(mold.opening.0),
        mold.depth,
        lower(side(line.line.recipe.powder_side))
    );
    if top + 6.0 < y + high + 5.0 {
        block.write((x, top + 5.0), kind, kind.cut(&said, wide));
    }
}

/// What of the sheets' thickness the fused disc has: it draws in or spreads.
fn fused_share(line: OneLine) -> f64 {
    let cut = 2.0 * f64::from(line.piece.plan.disc.radius());
    let fused = crate::preview::fused_size(&line.piece.plan).across.0;
    (cut / fused) * (cut / fused)
}

fn cautions(frame: Frame) -> Block {
    const COLUMNS: f64 = 2.0;
    let kind = quiet(6.6);
    let wide = (frame.wide - 6.0 * (COLUMNS - 1.0)) / COLUMNS;
    let each: Vec<Vec<String>> =
        CAUTIONS.iter().copied().chain([MAKERS_WIN]).map(|caution| kind.wrapped(caution, wide)).collect();
    let all: usize = each.iter().map(Vec::len).sum();
    let mut block = Block::default();
    let (mut column, mut y, mut written, first) = (0.0, AFTER_RULE + 2.0, 0, AFTER_RULE + 2.0);
    block.line(&[(0.0, 0.0), (frame.wide, 0.0)]);
    for lines in each {
        if column < 1.0 && (written + lines.len()) * 2 > all + lines.len() {
            (column, y) = (1.0, first);
        }
        written += lines.len();
        y = block.lines((column * (wide + 6.0), y), kind, &lines);
        block.high = block.high.max(y - kind.line() + 1.0);
    }
    block
}
