//! The firings, side by side: loads to tick, program, curve, and lines for what the kiln really did.

use super::steps::{HEAD, boxes};
use crate::base::firing::{Firing, SegmentName};
use crate::base::text::{capital, lower};
use crate::base::units::plain as number;
use crate::kiln::program::{Program, Run};
use crate::kiln::segment::{Choice, Segment, Source};
use crate::orders::loads::Batch;
use crate::paper::block::{Block, LINE, Type, plain, quiet};
use crate::paper::content::{Content, OneLine};
use crate::paper::frame::{AFTER_RULE, Frame};
use crate::paper::metrics::POINT;
use crate::paper::sheet::{Look, Point};
use crate::recipe::Pace;

/// The curve: 90 x 66 points.
const CURVE: (f64, f64) = (90.0 * POINT, 66.0 * POINT);
const TEXT: Type = plain(8.5);
const BETWEEN: f64 = 6.0;
/// A column as wide as this has its curve beside its table, mm.
const WIDE: f64 = 76.0;

/// All firings of a line, side by side.
pub fn firings(content: &Content, line: OneLine, frame: Frame) -> Block {
    let mut block = Block::default();
    block.line(&[(0.0, 0.0), (frame.wide, 0.0)]);
    let programs = &line.piece.programs;
    if programs.is_empty() {
        block.write((0.0, AFTER_RULE + 3.4), HEAD, "3  This kiln gets through none of the firings.");
        block.high = AFTER_RULE + 4.6;
        return block;
    }
    let columns = programs.len() as f64;
    let wide = (frame.wide - BETWEEN * (columns - 1.0)) / columns;
    let mut low = 0.0_f64;
    for (at, program) in programs.iter().enumerate() {
        let batch = content.worked.loads.batches.iter().find(|batch| {
            batch.firing == program.firing && batch.loads.iter().flatten().any(|(of, _)| *of == line.at)
        });
        let corner = (at as f64 * (wide + BETWEEN), AFTER_RULE);
        low = low.max(column(&mut block, corner, wide, (at + 3, line, program, batch)));
    }
    if wide > WIDE {
        for at in 0..programs.len() {
            real(&mut block, (at as f64 * (wide + BETWEEN), low + 4.4));
        }
        low += 6.4;
    }
    block.high = low + 1.0;
    block
}

/// Lines for what the kiln really did.
fn real(block: &mut Block, (x, y): Point) {
    let kind = plain(9.0);
    block.write((x, y), kind, "Real top");
    let mut at = x + kind.width("Real top") + 1.2;
    for (blank, after) in [(11.0, "°C, held"), (9.0, "min")] {
        block.blank((at, y), blank);
        at += blank + 1.2;
        block.write((at, y), kind, after);
        at += kind.width(after) + 1.2;
    }
}

/// The same in a narrow column, beside the curve.
fn real_beside(block: &mut Block, (x, y): Point) {
    let kind = plain(9.0);
    block.write((x, y), kind, "Real top");
    for (line, after) in [(1.0, "°C"), (2.0, "min")] {
        let low = y + 7.0 * line;
        block.blank((x, low), 15.0);
        block.write((x + 16.2, low), kind, after);
    }
}

/// One firing; gives the height under it.
fn column(
    block: &mut Block,
    (x, y): Point,
    wide: f64,
    (step, line, program, batch): (usize, OneLine, &Program, Option<&Batch>),
) -> f64 {
    let hours = batch.map_or(program.hours, |batch| batch.hours);
    let holds = batch.map_or_else(String::new, |batch| {
        let most = batch.holds;
        if batch.molds_limit { format!(", {most} molds") } else { format!(", {most} on the shelf") }
    });
    let head = format!("{step}  {}, {}{holds}", capital(program.firing.name()), clock(hours));
    block.write((x, y + 3.4), HEAD, HEAD.cut(&head, wide));
    let mut top = y + 5.0;
    if program.firing == Firing::TackFuse {
        let each = line.piece.accents.iter();
        let each: Vec<String> = each
            .map(|accent| {
                format!("{} {}", accent.count, lower(&line.line.recipe.glasses.name(&accent.glass)))
            })
            .collect();
        let said = TEXT.wrapped_to(&format!("Set {} on each.", each.join(", ")), wide, 2);
        top = block.lines((x, top + 2.4), TEXT, &said) - 1.6;
    }
    if let Some(batch) = batch {
        top = loads(block, (x, top), wide, (line.at, batch));
    }
    let beside = wide > WIDE;
    let table_wide = if beside { wide - CURVE.0 - 3.0 } else { wide };
    let low = table(block, (x, top + 3.0), table_wide, program);
    let (left, upper) = if beside { (x + wide - CURVE.0, top + 1.0) } else { (x, low) };
    curve(block, (left, upper), program);
    if !beside {
        real_beside(block, (x + CURVE.0 + 3.0, upper + 8.0));
    }
    low.max(upper + CURVE.1 + 4.4)
}

/// Rows of loads that are drawn; more are said in words.
const ROWS: usize = 2;

fn loads(block: &mut Block, (x, y): Point, wide: f64, (line, batch): (usize, &Batch)) -> f64 {
    let own = batch.loads.iter().filter_map(|load| {
        let own = load.iter().find(|(of, _)| *of == line)?.1;
        let all: u32 = load.iter().map(|(_, count)| count).sum();
        Some(if own == all { own.to_string() } else { format!("{own} of {all}") })
    });
    let own: Vec<String> = own.collect();
    let widest = own.iter().map(|said| plain(9.5).width(said)).fold(0.0, f64::max);
    let per_row = ((wide + 4.0) / (11.6 + widest)).floor().max(1.0) as usize;
    let most = per_row * ROWS;
    let drawn = if own.len() > most { most } else { own.len() };
    let mut low = boxes(block, (x, y), wide, &own[..drawn]);
    if drawn < own.len() {
        let said = format!("and {} more, {} loads in all.", own.len() - drawn, own.len());
        block.write((x, low + 2.6), TEXT, TEXT.cut(&said, wide));
        low += 3.6;
    }
    low
}

/// The program; gives the height under it.
fn table(block: &mut Block, (x, y): Point, wide: f64, program: &Program) -> f64 {
    let small = quiet(7.5);
    let columns = [x, x + wide * 0.38, x + wide * 0.72];
    for (at, word) in columns.into_iter().zip(["rate", "to", "hold"]) {
        block.write((at, y), small, word);
    }
    let mut low = y + 4.0;
    for (segment, run) in program.segments.iter().zip(&program.runs) {
        let hold = segment.hold.value;
        let hold = if hold.0 > 0.0 { marked(&segment.hold, hold.to_string()) } else { String::new() };
        let said = [
            marked(&segment.pace, pace(segment, run)),
            marked(&segment.to, segment.to.value.to_string()),
            hold,
        ];
        for (at, said) in columns.into_iter().zip(said) {
            block.write((at, low), TEXT, said);
        }
        low += TEXT.line();
    }
    low - TEXT.line() + 1.4
}

/// A number with the mark of common practice.
fn marked<T>(choice: &Choice<T>, said: String) -> String {
    if choice.source == Source::Practice && !choice.yours { said + "*" } else { said }
}

fn pace(segment: &Segment, run: &Run) -> String {
    match segment.pace.value {
        _ if segment.name == SegmentName::Anneal => "there".into(),
        Pace::PerHour(rate) => format!("{} °C/h", number(rate)),
        Pace::AsItGoes => if segment.to.value > run.from { "full" } else { "lid shut" }.into(),
    }
}

fn curve(block: &mut Block, (x, y): Point, program: &Program) {
    let (wide, high) = CURVE;
    let hottest = program.chart.iter().map(|point| point.at.0).fold(0.0, f64::max);
    let hours = program.hours.max(1e-6);
    block.line(&[(x, y), (x, y + high), (x + wide, y + high)]);
    let points = program
        .chart
        .iter()
        .map(|point| {
            (
                x + wide * (point.hours / hours).min(1.0),
                y + high * (1.0 - point.at.0 / hottest.max(1.0) * 0.97),
            )
        })
        .collect();
    block.path(vec![points], false, Look { line: 0.35, ..LINE });
    block.write_up_to((x + wide, y + high + 3.2), quiet(7.5), clock(program.hours));
}

/// Hours as the maker says them: `14 h 15`.
fn clock(hours: f64) -> String {
    let minutes = (hours * 60.0).round() as u32;
    match minutes % 60 {
        0 => format!("{} h", minutes / 60),
        rest => format!("{} h {rest:02}", minutes / 60),
    }
}
