//! How far each number of an order may go.

use crate::recipe::limits::Limit;

const fn limit(least: f64, most: f64, step: f64, usual: f64) -> Limit {
    Limit { least, most, step, usual, by_ratio: false }
}

/// Most lines of an order.
pub const MOST_LINES: usize = 24;
/// Most pieces of an order, spares included.
pub const MOST_PIECES: u32 = 200;
/// Most kinds of sheets, of jars and of molds.
pub const MOST_STOCK: usize = 200;
/// Most letters in a name.
pub const MOST_NAME: usize = 80;
/// Years that a date may lie in.
pub const YEARS: (i16, i16) = (2000, 2199);

/// Pieces of one line.
pub const COUNT: Limit = limit(1.0, 200.0, 1.0, 12.0);
/// Side of a sheet, mm.
pub const SHEET_SIDE: Limit = limit(100.0, 2000.0, 1.0, 500.0);
/// Sheets of one size on hand.
pub const SHEETS: Limit = limit(0.0, 1000.0, 1.0, 0.0);
/// Powder in a jar, g.
pub const JAR: Limit = limit(0.0, 100_000.0, 1.0, 100.0);
/// Free edge of a sheet, mm.
pub const EDGE: Limit = limit(0.0, 40.0, 1.0, 10.0);
/// Distance between two discs, mm.
pub const BETWEEN: Limit = limit(2.0, 30.0, 1.0, 6.0);
/// What a mold takes up on the shelf, mm.
pub const MOLD_ACROSS: Limit = limit(50.0, 600.0, 1.0, 180.0);
/// Molds of one kind.
pub const MOLDS: Limit = limit(1.0, 200.0, 1.0, 5.0);
/// Time for hand work on one day, minutes.
pub const A_DAY: Limit = limit(15.0, 960.0, 15.0, 360.0);
/// Hand work of one step for one piece, minutes.
pub const STEP: Limit = limit(0.0, 480.0, 1.0, 8.0);
/// Days of rest.
pub const CURE: Limit = limit(0.0, 60.0, 1.0, 7.0);
/// A sum of money.
pub const MONEY: Limit = limit(0.0, 1e6, 0.01, 0.0);
/// Share that breaks.
pub const BREAKAGE: Limit = limit(0.0, 0.5, 0.01, 0.08);
/// Margin, share of the price.
pub const MARGIN: Limit = limit(0.0, 0.9, 0.01, 0.45);
/// Markup, share of the cost: up to the largest margin.
pub const MARKUP: Limit = limit(0.0, 9.0, 0.01, 1.0);
/// Retail, as a multiple of wholesale.
pub const RETAIL: Limit = limit(1.0, 4.0, 0.1, 2.0);
/// What a card takes, share.
pub const CARD: Limit = limit(0.0, 0.2, 0.001, 0.029);
/// Tax, share.
pub const TAX: Limit = limit(0.0, 0.5, 0.001, 0.0);
/// What is paid when work begins, share.
pub const TO_BEGIN: Limit = limit(0.0, 1.0, 0.05, 1.0 / 3.0);
