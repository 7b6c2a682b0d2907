//! A new order, of pieces that somebody has pointed at.

use super::model::{Line, Order};
use super::pieces;
use crate::base::seed::Seed;
use crate::recipe::Recipe;
use crate::shop::order::shared_out;

/// A piece that was pointed at.
#[derive(Clone, Debug)]
pub struct Chosen {
    /// Its letter; nothing if it has none.
    pub letter: String,
    /// Its recipe, with what was laid by hand on its seed.
    pub recipe: Recipe,
    /// Its seed.
    pub seed: Seed,
    /// The number under which it is kept; none if it never was.
    pub piece: Option<u64>,
}

/// An order of so many pieces like these, as many of each. What was laid by hand on a piece is on that one alone, so those like it are a
/// line of their own; pieces of one recipe share a line.
pub fn like(chosen: &[Chosen], pieces: u32) -> Order {
    // As many as an order usually has, or more where the recipe wants them.
    let usual = Order::of(Recipe::bare(), 1);
    let own = chosen.first().map_or(0, |first| first.recipe.batch.spare_per_ten);
    let spare_per_ten = usual.spare_per_ten.max(own);
    let title = chosen.first().map_or_else(String::new, |first| first.recipe.title.clone());
    let mut lines: Vec<Line> = Vec::new();
    for (one, count) in chosen.iter().zip(shared_out(pieces, &vec![1; chosen.len()])) {
        let common = one.recipe.without_hand_work();
        if common == one.recipe {
            add(&mut lines, one.clone(), count);
        } else {
            lines.push(line(one.clone(), 1));
            let like_it =
                Chosen { letter: like_it(&one.letter), recipe: common, seed: next(&[one.seed]), ..*one };
            add(&mut lines, like_it, count.saturating_sub(1));
        }
    }
    let mut order = Order { title, spare_per_ten, lines, ..usual };
    fill(&mut order);
    order
}

fn like_it(letter: &str) -> String {
    if letter.is_empty() { String::new() } else { format!("like {letter}") }
}

fn line(one: Chosen, count: u32) -> Line {
    let Chosen { letter, recipe, seed, piece } = one;
    Line { option: letter, recipe, piece, seeds: vec![seed], count, asked: None }
}

fn add(lines: &mut Vec<Line>, one: Chosen, count: u32) {
    match lines.iter_mut().find(|line| line.recipe == one.recipe) {
        _ if count == 0 => {}
        Some(line) => {
            line.option = format!("{}, {}", line.option, one.letter);
            line.count += count;
            line.seeds.push(one.seed);
        }
        None => lines.push(line(one, count)),
    }
}

/// Gives each line as many layouts as pieces are made of it: further ones by the seeds that follow, and none too many.
pub fn fill(order: &mut Order) {
    let made = pieces::planned_of_each(order);
    for (line, made) in order.lines.iter_mut().zip(made) {
        line.seeds.truncate(made as usize);
        while line.seeds.len() < made as usize {
            line.seeds.push(next(&line.seeds));
        }
    }
}

/// The first seed after the first of these that is none of them.
pub fn next(seeds: &[Seed]) -> Seed {
    let mut seed = seeds.first().copied().unwrap_or(Seed(0));
    while seeds.contains(&seed) {
        seed = Seed(seed.0.wrapping_add(1));
    }
    seed
}

/// Changes how many pieces of a line are wanted. Where each piece had a layout of its own, each has one still.
pub fn want(order: &mut Order, line: usize, count: u32) {
    let own = has_own_layouts(order);
    if let Some(line) = order.lines.get_mut(line) {
        line.count = count;
    }
    if own {
        fill(order);
    }
}

/// Changes how many spare pieces there are; as [`want`].
pub fn want_spares(order: &mut Order, per_ten: u32) {
    let own = has_own_layouts(order);
    order.spare_per_ten = per_ten;
    if own {
        fill(order);
    }
}

fn has_own_layouts(order: &Order) -> bool {
    let made = pieces::planned_of_each(order);
    order.lines.iter().zip(made).all(|(line, made)| line.seeds.len() >= made as usize)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::Mm;
    use crate::recipe::demo;

    fn chosen(letter: &str, recipe: Recipe, seed: u32) -> Chosen {
        Chosen { letter: letter.into(), recipe, seed: Seed(seed), piece: Some(7) }
    }

    fn told(order: &Order) -> Vec<(&str, u32, Vec<u32>)> {
        let lines = order.lines.iter();
        lines
            .map(|line| (line.option.as_str(), line.count, line.seeds.iter().map(|seed| seed.0).collect()))
            .collect()
    }

    /// Twelve and two spare of one, each a layout of its own; of two options of one recipe, one line.
    #[test]
    fn twelve_like_one_or_two() {
        let ember = demo::ember_walk;
        let one = like(&[chosen("A", ember(), 41)], 12);
        assert_eq!(told(&one), [("A", 12, (41..55).collect())]);
        let two = like(&[chosen("A", ember(), 41), chosen("C", ember(), 43)], 3);
        assert_eq!(told(&two), [("A, C", 3, vec![41, 43, 42, 44])]);
        let mut late = ember();
        late.blank.diameter = Mm(150.0);
        let colorways = like(&[chosen("A", ember(), 41), chosen("B", late, 7)], 5);
        assert_eq!(told(&colorways), [("A", 3, vec![41, 42, 43, 44]), ("B", 2, vec![7, 8])]);
    }

    #[test]
    fn what_was_laid_by_hand_is_on_its_piece_alone() {
        let mut rubbed = demo::ember_walk();
        assert!(rubbed.rub_off(Mm(8.0), &[[1.0, 2.0]]));
        let order = like(&[chosen("A", rubbed.clone(), 41)], 12);
        assert_eq!(order.lines[0].recipe, rubbed);
        assert_eq!(order.lines[1].recipe, demo::ember_walk());
        assert_eq!((order.lines[0].count, order.lines[1].count), (1, 11));
        assert!(order.lines.iter().all(|line| line.piece == Some(7)), "both are copies of one piece");
        assert!(!order.lines[1].seeds.contains(&Seed(41)), "{:?}", order.lines[1].seeds);
    }

    #[test]
    fn each_piece_keeps_a_layout_of_its_own() {
        let mut order = like(&[chosen("A", demo::ember_walk(), 41)], 12);
        want(&mut order, 0, 5);
        assert_eq!(order.lines[0].seeds.len(), 6);
        want_spares(&mut order, 0);
        assert_eq!(order.lines[0].seeds.len(), 5);
        order.lines[0].seeds = vec![Seed(41)];
        want(&mut order, 0, 9);
        assert_eq!(order.lines[0].seeds, [Seed(41)], "one layout for all stays one");
    }
}
