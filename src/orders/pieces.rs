//! How many pieces are made: spares over the whole order, shared out over lines and layouts, and one more for each that broke.

use super::model::{Line, Order};
use crate::base::seed::Seed;
use crate::recipe::Batch;
use crate::shop::order::shared_out;

/// Pieces to make, spares and those that take the place of broken ones included: so many spares for every ten of all lines together,
/// rounded up once.
pub fn to_make(order: &Order) -> u32 {
    let broken = (0..order.lines.len()).map(|line| order.progress.broken(line).len() as u32);
    broken.fold(planned(order), u32::saturating_add)
}

/// The same before anything broke.
fn planned(order: &Order) -> u32 {
    let pieces = order.lines.iter().fold(0, |sum: u32, line| sum.saturating_add(line.count));
    Batch { pieces, spare_per_ten: order.spare_per_ten }.to_make()
}

/// The same of each line; the spares fall to the lines in proportion.
fn planned_of_each(order: &Order) -> Vec<u32> {
    let wanted: Vec<u32> = order.lines.iter().map(|line| line.count).collect();
    shared_out(planned(order), &wanted)
}

/// Pieces to make of each line, spares and those that take the place of broken ones included.
pub fn made(order: &Order) -> Vec<u32> {
    let planned = planned_of_each(order).into_iter().enumerate();
    planned.map(|(line, made)| made + order.progress.broken(line).len() as u32).collect()
}

/// How often each layout of each line is made; those that are not made are left out. What takes the place of a broken piece has its
/// layout.
pub fn layouts(order: &Order) -> Vec<Vec<(Seed, u32)>> {
    (0..order.lines.len()).map(|line| layouts_of(&each(order, line))).collect()
}

fn layouts_of(pieces: &[Seed]) -> Vec<(Seed, u32)> {
    let mut layouts: Vec<(Seed, u32)> = Vec::new();
    for seed in pieces {
        match layouts.iter_mut().find(|(of, _)| of == seed) {
            Some((_, times)) => *times += 1,
            None => layouts.push((*seed, 1)),
        }
    }
    layouts
}

/// The layout of each piece of a line, by its number; those that take the place of broken ones come last.
pub fn each(order: &Order, line: usize) -> Vec<Seed> {
    let mut pieces: Vec<Seed> = match (order.lines.get(line), planned_of_each(order).get(line)) {
        (Some(Line { seeds, .. }), Some(made)) => {
            let times = shared_out(*made, &vec![1; seeds.len()]);
            seeds.iter().zip(times).flat_map(|(seed, times)| vec![*seed; times as usize]).collect()
        }
        _ => Vec::new(),
    };
    for broken in order.progress.broken(line) {
        pieces.extend(pieces.get(broken as usize).copied());
    }
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::Recipe;

    /// Twelve and two spare of three layouts: five, five and four. When the third of the second breaks, one more of it is made; and
    /// when that one breaks, another.
    #[test]
    fn what_breaks_is_made_once_more() {
        let mut order = Order::of(Recipe::bare(), 12);
        order.lines[0].seeds = vec![Seed(7), Seed(8), Seed(9)];
        assert_eq!(
            (made(&order), layouts(&order)),
            (vec![14], vec![vec![(Seed(7), 5), (Seed(8), 5), (Seed(9), 4)]])
        );
        order.progress.piece_mut(0, 7).broken = true;
        assert_eq!((made(&order), to_make(&order), each(&order, 0)[14]), (vec![15], 15, Seed(8)));
        order.progress.piece_mut(0, 14).broken = true;
        assert_eq!(layouts(&order), [vec![(Seed(7), 5), (Seed(8), 7), (Seed(9), 4)]]);
        assert_eq!(each(&order, 1), []);
    }
}
