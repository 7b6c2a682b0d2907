//! How many pieces are made: spares over the whole order, shared out over lines and layouts.

use super::model::{Line, Order};
use crate::base::seed::Seed;
use crate::recipe::Batch;
use crate::shop::order::shared_out;

/// Pieces to make, spares included: so many for every ten of all lines together, rounded up once.
pub fn to_make(order: &Order) -> u32 {
    let pieces = order.lines.iter().fold(0, |sum: u32, line| sum.saturating_add(line.count));
    Batch { pieces, spare_per_ten: order.spare_per_ten }.to_make()
}

/// Pieces to make of each line, spares included; they fall to the lines in proportion.
pub fn made(order: &Order) -> Vec<u32> {
    let wanted: Vec<u32> = order.lines.iter().map(|line| line.count).collect();
    shared_out(to_make(order), &wanted)
}

/// How often each layout of a line is made; those that are not made are left out.
pub fn layouts(line: &Line, made: u32) -> Vec<(Seed, u32)> {
    let each = shared_out(made, &vec![1; line.seeds.len()]);
    line.seeds.iter().copied().zip(each).filter(|(_, times)| *times > 0).collect()
}
