//! A label and a care card for each piece, 90 x 57 mm, to be cut along their marks.

use super::block::{Block, Type, bold, plain};
use super::content::{Content, OneLine};
use super::frame::{Frame, MARGIN};
use super::sheet::{Picture, Sheet};
use crate::base::seed::Seed;
use crate::orders::dates::{day, month};
use crate::picture::view::{Light, Stage};

/// Width and height of a card, mm.
pub const CARD: (f64, f64) = (90.0, 57.0);
/// Length of a cut mark, mm: it lies on the card's edge.
const MARK: f64 = 3.0;
/// From a card's edge to its words.
const INSIDE: f64 = 5.0;
/// Across the picture on a label.
const DISC: f64 = 28.0;

/// How a piece is looked after. Common practice, no source; nothing here says that anything is harmless.
const CARE: [&str; 6] = [
    "Stand it away from play and mowing. Hail, frost or a fall can break it; broken, it is sharp.",
    "Tilt or drain it: water that freezes in it may crack it.",
    "Wash it in lukewarm water. No boiling, no dishwasher.",
    "Not for food, not for children: colored glass can hold lead or cadmium, and this piece is not tested.",
    "A lamp inside: LED, cool, rated for outdoors and installed as your local code has it.",
    "Keep warm lamps and open flame away from pipe, rubber and silicone.",
];

/// One label with what it is for.
struct Label<'a> {
    line: OneLine<'a>,
    seed: Seed,
    number: usize,
}

/// Labels and care cards of all wanted pieces, side by side, as many rows as fit.
pub fn sheets(content: &Content) -> Vec<Sheet> {
    let frame = Frame::on(content.paper);
    let labels: Vec<Label> = content
        .lines()
        .flat_map(|line| {
            let wanted = line.made.wanted as usize;
            line.each_piece().into_iter().take(wanted).enumerate().map(move |(at, seed)| Label {
                line,
                seed,
                number: at + 1,
            })
        })
        .collect();
    let head = frame.head("Labels and care cards", &[], "Print at 100 %, then cut along the marks.");
    let room = frame.high - head.high - 1.0;
    let rows = (room / CARD.1).floor().max(1.0);
    let gap = ((room - rows * CARD.1) / rows).clamp(0.0, 4.0);
    let between = (frame.wide - 2.0 * CARD.0).clamp(0.0, 6.0);
    let pages: Vec<&[Label]> = labels.chunks(rows as usize).collect();
    let of = pages.len();
    let month = month(content.worked.days.as_ref().map_or(content.today, |days| days.ready));
    pages
        .into_iter()
        .enumerate()
        .map(|(page, labels)| {
            let right = format!("{}   page {} of {of}", day(content.today), page + 1);
            let mut sheet = frame.sheet("How to look after it: common practice, no source.", &right);
            head.clone().put(&mut sheet.items, MARGIN, MARGIN);
            for (row, one) in labels.iter().enumerate() {
                let y = MARGIN + head.high + 1.0 + row as f64 * (CARD.1 + gap);
                label(one, &month).put(&mut sheet.items, MARGIN, y);
                care().put(&mut sheet.items, MARGIN + CARD.0 + between, y);
            }
            sheet
        })
        .collect()
}

/// A card with its cut marks.
fn card() -> Block {
    let (wide, high) = CARD;
    let mut block = Block { high, ..Block::default() };
    for (x, inward) in [(0.0, MARK), (wide, -MARK)] {
        for (y, down) in [(0.0, MARK), (high, -MARK)] {
            block.line(&[(x + inward, y), (x, y), (x, y + down)]);
        }
    }
    block
}

const TEXT: Type = plain(8.0);

fn label(label: &Label, month: &str) -> Block {
    let Label { line, seed, number } = label;
    let mut block = card();
    let room = CARD.0 - 2.0 * INSIDE;
    let title = line.title();
    let kind =
        [15.0, 12.0].map(bold).into_iter().find(|kind| kind.width(title) <= room).unwrap_or(bold(10.0));
    let y = block.lines((INSIDE, INSIDE + 4.6), kind, &kind.wrapped_to(title, room, 2)) - kind.line() + 5.6;
    let beside = room - DISC - 3.0;
    let said = ["Powdered glass,".to_owned(), "fused and slumped by hand".into()];
    let y = block.lines((INSIDE, y), TEXT, &said);
    block.lines((INSIDE, y), TEXT, &TEXT.wrapped(&line.size(), beside));
    block.picture(Picture {
        at: (CARD.0 - INSIDE - DISC, CARD.1 - INSIDE - DISC),
        frame: (DISC, DISC),
        round: true,
        line: line.at,
        seed: *seed,
        stage: Stage::Fused,
        light: Light::Day,
    });
    block.write((INSIDE, CARD.1 - INSIDE - 4.2), TEXT, format!("No. {number} of {}", line.made.wanted));
    block.write((INSIDE, CARD.1 - INSIDE - 0.6), TEXT, format!("seed {seed}, {month}"));
    block
}

fn care() -> Block {
    let mut block = card();
    block.write((INSIDE, INSIDE + 3.6), bold(10.0), "Looking after it");
    let mut y = INSIDE + 8.4;
    for said in CARE {
        y = block.lines((INSIDE, y), plain(7.5), &plain(7.5).wrapped(said, CARD.0 - 2.0 * INSIDE)) + 0.4;
    }
    block
}
