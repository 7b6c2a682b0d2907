//! A box for each piece, with the seed of its layout.

use crate::base::seed::Seed;
use crate::paper::block::{BOX, Block, plain, quiet};
use crate::paper::content::OneLine;
use crate::paper::frame::Frame;

/// From one row of boxes to the next, mm.
const ROW: f64 = 7.4;
/// Between a box and its seed, and behind it.
const BESIDE: (f64, f64) = (1.4, 2.6);

/// As wide as a cell is where there is room, mm.
const ROOMY: f64 = 26.0;

/// What one box is for.
struct Cell {
    seed: Seed,
    /// How many pieces it is for.
    pieces: u32,
    spare: bool,
}

/// The boxes, in a height: one for each piece, or for each layout where that is too many. Those for which there is no room are named
/// in words.
pub fn seeds(line: OneLine, frame: Frame, high: f64) -> Block {
    let wanted = line.made.wanted as usize;
    let pieces = line.each_piece().into_iter().enumerate();
    let each: Vec<Cell> = pieces.map(|(at, seed)| Cell { seed, pieces: 1, spare: at >= wanted }).collect();
    if rows(&each, frame) as f64 * ROW <= high {
        return boxes(&each, frame);
    }
    let layouts: Vec<Cell> = line
        .made
        .layouts
        .iter()
        .map(|(seed, times)| Cell { seed: *seed, pieces: *times, spare: false })
        .collect();
    if rows(&layouts, frame) as f64 * ROW <= high {
        return boxes(&layouts, frame);
    }
    some(&layouts, frame, high)
}

fn words(cell: &Cell) -> String {
    if cell.pieces > 1 { format!("{} × {}", cell.seed, cell.pieces) } else { cell.seed.to_string() }
}

/// Width of a cell and how many there are in a row.
fn columns(cells: &[Cell], frame: Frame) -> (f64, usize) {
    let kind = plain(9.0);
    let widest =
        cells.iter().map(|cell| kind.width(&words(cell)) + if cell.spare { spare_wide() } else { 0.0 });
    let wide = BOX + BESIDE.0 + widest.fold(0.0, f64::max) + BESIDE.1;
    let columns = ((frame.wide + BESIDE.1) / wide).floor().max(1.0);
    // Few of them do not drift apart over the whole page.
    (((frame.wide + BESIDE.1) / columns).min(wide.max(ROOMY)), columns as usize)
}

fn spare_wide() -> f64 {
    quiet(7.0).width("spare") + 1.0
}

fn rows(cells: &[Cell], frame: Frame) -> usize {
    cells.len().div_ceil(columns(cells, frame).1)
}

fn boxes(cells: &[Cell], frame: Frame) -> Block {
    let (wide, columns) = columns(cells, frame);
    let (kind, small) = (plain(9.0), quiet(7.0));
    let mut block = Block::default();
    for (at, cell) in cells.iter().enumerate() {
        let (x, y) = ((at % columns) as f64 * wide, (at / columns) as f64 * ROW + 0.8);
        block.tick((x, y));
        let said = words(cell);
        let left = x + BOX + BESIDE.0;
        block.write((left, y + 4.2), kind, said.as_str());
        if cell.spare {
            block.write((left + kind.width(&said) + 1.0, y + 4.2), small, "spare");
        }
    }
    block.high = cells.len().div_ceil(columns) as f64 * ROW;
    block
}

/// Boxes for as many as there is room for, the others in words.
fn some(cells: &[Cell], frame: Frame, high: f64) -> Block {
    let kind = plain(7.0);
    let listed = |from: usize| {
        let named: Vec<String> = cells[from..].iter().map(words).collect();
        let said = format!("No room for a box each: seeds {}.", named.join(", "));
        kind.wrapped(&said, frame.wide)
    };
    let per_row = columns(cells, frame).1;
    let fits = |rows: usize| {
        let from = (rows * per_row).min(cells.len());
        rows as f64 * ROW + listed(from).len() as f64 * kind.line() + 1.0 <= high
    };
    let most = cells.len() / per_row;
    let rows = (0..=most).rev().find(|rows| fits(*rows)).unwrap_or(0);
    let from = (rows * per_row).min(cells.len());
    let mut block = boxes(&cells[..from], frame);
    let y = block.lines((0.0, block.high + 3.0), kind, &listed(from));
    block.high = y - kind.line() + 1.0;
    block
}
