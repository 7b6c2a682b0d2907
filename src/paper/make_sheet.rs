//! The make sheet: one page for each line of an order, to work from at the bench.

mod firing;
mod seeds;
mod steps;

use super::block::{Block, bold, plain, quiet};
use super::content::{Content, OneLine};
use super::frame::{AFTER_RULE, Frame, MARGIN, stack};
use super::sheet::{Item, Look, Picture, Sheet};
use crate::base::text::lower;
use crate::base::units::fixed;
use crate::kiln::cautions::{CAUTIONS, MAKERS_WIN};
use crate::orders::dates::day;
use crate::picture::view::{Light, Stage};
use crate::recipe::said::{form, side};

/// How high the pictures are, mm: the least at which they are worth their place, and the most.
const PICTURES: (f64, f64) = (18.0, 46.0);
/// The gap between two blocks, mm: at least and at most.
const GAP: (f64, f64) = (1.0, 4.4);

/// The make sheets of an order: one for each line. What is too much for one page, a dozen blends or hundreds of seeds, has its firings
/// on a second one.
pub fn sheets(content: &Content) -> Vec<Sheet> {
    let frame = Frame::on(content.paper);
    let pages: Vec<(OneLine, Vec<Item>)> = content
        .lines()
        .flat_map(|line| pages(content, line, frame).into_iter().map(move |items| (line, items)))
        .collect();
    let of = pages.len();
    let numbered = pages.into_iter().enumerate();
    numbered
        .map(|(at, (line, items))| {
            let right = format!("{}, {}   page {} of {of}", line_short(&line), day(content.today), at + 1);
            let mut sheet = frame.sheet("A forecast: two hands never sift alike.", &right);
            sheet.items.extend(items);
            sheet
        })
        .collect()
}

fn pages(content: &Content, line: OneLine, frame: Frame) -> Vec<Vec<Item>> {
    let head = head(content, line, frame);
    let note = next_time(line, frame);
    let (cut, sift) = (steps::cut(line, frame), steps::sift(line, frame));
    let mut lower = vec![firing::firings(content, line, frame)];
    lower.extend(steps::mount(content, line, frame));
    lower.push(steps::came_out(frame));
    let cautions = cautions(frame);
    let upper = high(&note) + cut.high + sift.high;
    let gaps = |blocks: usize| (blocks + 2) as f64 * GAP.0;
    let room = frame.high - head.high - cautions.high - upper;
    let free = room - high(&lower) - gaps(3 + lower.len());
    let seeds = seeds::seeds(line, frame, free);
    if seeds.high <= free {
        let mut blocks = vec![cut, sift.over(seeds)];
        blocks.extend(lower);
        return vec![page(line, frame, head, note, blocks, cautions)];
    }
    let seeds = seeds::seeds(line, frame, room - gaps(3));
    let first = page(line, frame, head.clone(), note, vec![cut, sift.over(seeds)], cautions.clone());
    vec![first, page(line, frame, head, None, lower, cautions)]
}

fn high<'a>(blocks: impl IntoIterator<Item = &'a Block>) -> f64 {
    blocks.into_iter().map(|block| block.high).sum()
}

/// A page: what is free goes to the pictures first, then between the blocks.
fn page(
    line: OneLine,
    frame: Frame,
    head: Block,
    note: Option<Block>,
    blocks: Vec<Block>,
    cautions: Block,
) -> Vec<Item> {
    let count = blocks.len() + 2;
    let free = frame.high - head.high - cautions.high - high(&note) - high(&blocks) - count as f64 * GAP.0;
    let pictures = (free >= PICTURES.0).then(|| pictures(line, frame, free.min(PICTURES.1)));
    let free = free - high(&pictures);
    let gap = (GAP.0 + free.max(0.0) / (count + 1) as f64).min(GAP.1);
    let (top, mut items) = (head.high, Vec::new());
    head.put(&mut items, MARGIN, MARGIN);
    let all = note.into_iter().chain(pictures).chain(blocks).collect();
    stack(&mut items, all, top, gap);
    let at = frame.high - cautions.high;
    cautions.put(&mut items, MARGIN, MARGIN + at);
    items
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
    // An order that is called like its piece need not say so twice.
    let whose: Vec<&str> = [&order.title, &order.customer]
        .into_iter()
        .map(|name| name.trim())
        .filter(|name| !name.is_empty() && *name != line.title())
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
    let note = line.piece.next_time.as_ref()?;
    let mut block = Block::default();
    let (label, kind) = (plain(9.5), bold(9.5));
    let said = "Next time:";
    let left = label.width(said) + 2.0;
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
    let size = line.size();
    // Under a low picture its caption is the wider of the two.
    let left = (side_long * 2.15 + 14.0).max(side_long + 4.0 + caption.width(&size) + 6.0);
    block.write((side_long + 4.0, y), caption, size);
    drawn_stack(&mut block, line, (left, top), (frame.wide - left, side_long.min(36.0)));
    block.high = high;
    block
}

/// The stack, not to scale, with what each layer is.
fn drawn_stack(block: &mut Block, line: OneLine, (x, y): (f64, f64), (wide, high): (f64, f64)) {
    let (sheets, glasses) = (&line.line.recipe.blank.sheets, &line.line.recipe.glasses);
    let glass_high: f64 = sheets.iter().map(|sheet| sheet.thickness.0).sum();
    let powder = line.piece.fused.0 - glass_high * fused_share(line);
    let mut layers: Vec<(String, f64, u8)> = Vec::new();
    if !line.line.recipe.coats.is_empty() {
        layers.push((format!("powder, {} mm fused", fixed(powder.max(0.0), 2)), 0.0, 190));
    }
    layers.extend(sheets.iter().rev().map(|sheet| {
        let shade = if sheet.glass == "clear" { 236 } else { 255 };
        (format!("{}, {}", lower(&glasses.name(&sheet.glass)), sheet.thickness), sheet.thickness.0, shade)
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
