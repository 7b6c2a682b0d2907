//! What all sheets have in common: margins, head and foot.

use super::block::{Block, bold, plain, quiet};
use super::sheet::{Item, PaperSize, Sheet};

/// Margin on all sides, mm.
pub const MARGIN: f64 = 12.0;
/// From a rule to what stands under it.
pub const AFTER_RULE: f64 = 1.6;

/// Where the sheet may be written on.
#[derive(Clone, Copy, Debug)]
pub struct Frame {
    /// The paper.
    pub paper: PaperSize,
    /// How wide, mm.
    pub wide: f64,
    /// How high, mm, without the foot.
    pub high: f64,
}

/// Height that the foot takes up.
const FOOT: f64 = 6.0;

impl Frame {
    /// That of a size of paper.
    pub fn on(paper: PaperSize) -> Self {
        let (wide, high) = paper.mm();
        Self { paper, wide: wide - 2.0 * MARGIN, high: high - 2.0 * MARGIN - FOOT }
    }

    /// The head of a sheet: its title, what stands beside it at the right, and a line under it.
    pub fn head(&self, title: &str, beside: &[String], under: &str) -> Block {
        const SIZES: [f64; 4] = [20.0, 17.0, 14.0, 11.0];
        let mut block = Block::default();
        let small = plain(9.5);
        let beside_wide =
            beside.iter().map(|words| small.width(words)).fold(0.0, f64::max).min(self.wide * 0.4);
        let room = self.wide - if beside.is_empty() { 0.0 } else { beside_wide + 6.0 };
        let fits = SIZES.into_iter().find(|size| bold(*size).width(title) <= room);
        let kind = bold(fits.unwrap_or(11.0));
        let mut y = block.lines((0.0, 6.6), kind, &kind.wrapped_to(title, room, 2)) - kind.line() + 5.8;
        let mut right = 6.6;
        for words in beside {
            block.write_up_to((self.wide, right), small, small.cut(words, beside_wide + 0.1));
            right += small.line() + 0.6;
        }
        // Words beside it reach as far down as they need.
        let under_room = if right > y + 0.1 && !beside.is_empty() { room } else { self.wide };
        y = block.lines((0.0, y), small, &small.wrapped_to(under, under_room, 3)).max(right) - small.line()
            + 2.2;
        block.line(&[(0.0, y), (self.wide, y)]);
        block.high = y;
        block
    }

    /// A sheet with its foot, to be filled.
    pub fn sheet(&self, left: &str, right: &str) -> Sheet {
        let mut foot = Block::default();
        let kind = quiet(8.0);
        let y = self.high + FOOT - 0.6;
        let right_wide = kind.width(right);
        foot.write((0.0, y), kind, kind.cut(left, self.wide - right_wide - 4.0));
        foot.write_up_to((self.wide, y), kind, right);
        let mut items = Vec::new();
        foot.put(&mut items, MARGIN, MARGIN);
        Sheet { paper: self.paper, items }
    }
}

/// Puts blocks one under the other, from a height on, with a gap before each.
pub fn stack(items: &mut Vec<Item>, blocks: Vec<Block>, mut y: f64, gap: f64) -> f64 {
    for block in blocks {
        y += gap;
        let high = block.high;
        block.put(items, MARGIN, MARGIN + y);
        y += high;
    }
    y
}
