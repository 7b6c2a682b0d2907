//! An order of several options: the pieces shared out over them, one spare count for all, and what they come to.

use super::ticket::{AccentCount, DiscCut, PowderGrams, Ticket};
use crate::base::order::ranked;
use crate::base::units::Grams;
use crate::recipe::Batch;

/// What an order comes to. Each option is a layout of its own, so each has its own grams.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// Pieces to make, spares included.
    pub pieces: u32,
    /// Spare ones among them: so many for every ten of the whole order, rounded up once and not for every option.
    pub spares: u32,
    /// Pieces to make of each option, in order, spares included.
    pub made: Vec<u32>,
    /// Powder to have ready, glass by glass: `one` is the mean over the pieces made.
    pub powders: Vec<PowderGrams>,
    /// Powder to weigh for one piece, all glasses together.
    pub powder_for_one: Spread,
    /// Discs to cut, by glass, thickness and diameter: `each` is the most that any option has in one piece.
    pub discs: Vec<DiscCut>,
    /// Accents for the whole order, glass by glass.
    pub accents: Vec<AccentCount>,
}

/// How far the options spread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// The least of any option.
    pub least: Grams,
    /// The mean over the pieces made.
    pub mean: Grams,
    /// The most of any option.
    pub most: Grams,
}

impl Order {
    /// The order of options, each with the pieces wanted of it (the batches of their own recipes do not count). The
    /// spares fall to the options in proportion. None if no piece is wanted.
    pub fn of(options: &[(&Ticket, u32)], spare_per_ten: u32) -> Option<Self> {
        let wanted: Vec<u32> = options.iter().map(|(_, pieces)| *pieces).collect();
        let pieces = wanted.iter().fold(0, |sum: u32, pieces| sum.saturating_add(*pieces));
        let batch = Batch { pieces, spare_per_ten };
        let made = shared_out(batch.to_make(), &wanted);
        let lines = options.iter().zip(made).map(|((ticket, _), made)| (*ticket, made));
        (pieces > 0).then(|| Self::made(lines.collect(), batch))
    }

    fn made(lines: Vec<(&Ticket, u32)>, batch: Batch) -> Self {
        let pieces = batch.to_make();
        Self {
            pieces,
            spares: pieces - batch.pieces,
            powders: powders(&lines, pieces),
            powder_for_one: spread(&lines, pieces),
            discs: discs(&lines),
            accents: accents(&lines),
            made: lines.into_iter().map(|(_, made)| made).collect(),
        }
    }
}

/// A whole shared out by weights, in whole numbers that add up to it: the largest remainders take what is left over, the
/// first of equal ones. All zeros if nothing has weight.
pub fn shared_out(whole: u32, weights: &[u32]) -> Vec<u32> {
    let sum: u64 = weights.iter().map(|weight| u64::from(*weight)).sum();
    if sum == 0 {
        return vec![0; weights.len()];
    }
    let parts = weights.iter().map(|weight| u64::from(whole) * u64::from(*weight));
    let mut shares: Vec<u64> = parts.clone().map(|part| part / sum).collect();
    let left = u64::from(whole) - shares.iter().sum::<u64>();
    let remainders: Vec<u64> = parts.map(|part| part % sum).collect();
    let by_remainder = ranked(weights.len(), &|a, b| remainders[b].cmp(&remainders[a]));
    for at in by_remainder.into_iter().take(left as usize) {
        shares[at] += 1;
    }
    shares.into_iter().map(|share| share as u32).collect()
}

fn powders(lines: &[(&Ticket, u32)], pieces: u32) -> Vec<PowderGrams> {
    let mut sum: Vec<PowderGrams> = Vec::new();
    for (ticket, made) in lines {
        for PowderGrams { glass, one, .. } in &ticket.powders {
            let ready = one.0 * f64::from(*made);
            match sum.iter_mut().find(|powder| powder.glass == *glass) {
                Some(powder) => powder.ready.0 += ready,
                None => {
                    sum.push(PowderGrams { glass: glass.clone(), one: Grams(0.0), ready: Grams(ready) });
                }
            }
        }
    }
    for powder in &mut sum {
        powder.one = Grams(powder.ready.0 / f64::from(pieces));
    }
    sum
}

fn spread(lines: &[(&Ticket, u32)], pieces: u32) -> Spread {
    let made = lines.iter().filter(|(_, made)| *made > 0);
    let each = made.map(|(ticket, made)| (ticket.powder_for_one().0, f64::from(*made)));
    let (mut least, mut most, mut sum) = (f64::INFINITY, 0.0_f64, 0.0);
    for (grams, made) in each {
        (least, most, sum) = (least.min(grams), most.max(grams), sum + grams * made);
    }
    Spread { least: Grams(least), mean: Grams(sum / f64::from(pieces)), most: Grams(most) }
}

fn discs(lines: &[(&Ticket, u32)]) -> Vec<DiscCut> {
    let mut sum: Vec<DiscCut> = Vec::new();
    for (ticket, made) in lines {
        for cut in &ticket.discs {
            let count = cut.each.saturating_mul(*made);
            let same = |there: &&mut DiscCut| {
                there.glass == cut.glass && there.thickness == cut.thickness && there.diameter == cut.diameter
            };
            match sum.iter_mut().find(same) {
                Some(there) => {
                    there.count = there.count.saturating_add(count);
                    there.each = there.each.max(cut.each);
                }
                None => sum.push(DiscCut { count, ..cut.clone() }),
            }
        }
    }
    sum
}

fn accents(lines: &[(&Ticket, u32)]) -> Vec<AccentCount> {
    let mut sum: Vec<AccentCount> = Vec::new();
    for (ticket, made) in lines {
        for AccentCount { glass, count } in &ticket.accents {
            let count = count.saturating_mul(*made);
            match sum.iter_mut().find(|accent| accent.glass == *glass) {
                Some(accent) => accent.count = accent.count.saturating_add(count),
                None => sum.push(AccentCount { glass: glass.clone(), count }),
            }
        }
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::memo::Allowance;
    use crate::base::seed::Seed;
    use crate::base::units::Mm;
    use crate::kiln::data::{Guess, Kiln};
    use crate::preview::Preview;
    use crate::recipe::plan::Plan;
    use crate::recipe::{Recipe, demo};
    use crate::shop::ticket::ticket;

    fn plan(recipe: &Recipe) -> Plan {
        Plan::new(recipe).unwrap().plan
    }

    fn of(recipe: &Recipe, seed: u32) -> Ticket {
        ticket(
            &mut Preview::new(),
            &plan(recipe),
            Seed(seed),
            &Kiln::guess(Guess::SmallBrick),
            &mut Allowance::unlimited(),
        )
        .unwrap()
    }

    fn near(one: f64, other: f64) {
        assert!((one - other).abs() < 1e-9 * other.abs().max(1.0), "{one} against {other}");
    }

    #[test]
    fn a_whole_is_shared_out_to_the_last_piece() {
        assert_eq!(shared_out(12, &[1; 5]), [3, 3, 2, 2, 2]);
        assert_eq!(shared_out(14, &[6, 6]), [7, 7]);
        assert_eq!(shared_out(7, &[4, 2]), [5, 2], "4.67 and 2.33");
        assert_eq!(shared_out(3, &[0, 1, 0]), [0, 3, 0]);
        assert_eq!(shared_out(3, &[0, 0]), [0, 0]);
        assert!(shared_out(3, &[]).is_empty());
        let most = shared_out(u32::MAX, &[u32::MAX, u32::MAX, 1]);
        assert_eq!(most.iter().map(|part| u64::from(*part)).sum::<u64>(), u64::from(u32::MAX));
    }

    #[test]
    fn spares_are_rounded_up_once_over_the_whole_order() {
        let recipe = demo::ember_walk();
        let all: Vec<Ticket> = (41..45).map(|seed| of(&recipe, seed)).collect();
        let three_each: Vec<_> = all.iter().map(|ticket| (ticket, 3)).collect();
        let order = Order::of(&three_each, 1).unwrap();
        assert_eq!((order.pieces, order.spares), (14, 2), "rounded for each option they were four");
        assert_eq!(order.made, [4, 4, 3, 3]);
        assert_eq!(Order::of(&three_each, 0).unwrap().spares, 0);
        assert_eq!(Order::of(&[], 1), None);
        assert_eq!(Order::of(&[(&all[0], 0)], 1), None);
    }

    #[test]
    fn an_order_is_the_sum_of_its_options() {
        let (ember, hedge) = (demo::ember_walk(), demo::all()[2].clone());
        let tickets = [of(&ember, 41), of(&ember, 42), of(&hedge, 41)];
        let order = Order::of(&[(&tickets[0], 3), (&tickets[1], 3), (&tickets[2], 6)], 0).unwrap();
        let all: f64 = order.powders.iter().map(|powder| powder.ready.0).sum();
        let one = |at: usize| tickets[at].powder_for_one().0;
        near(all, 3.0 * one(0) + 3.0 * one(1) + 6.0 * one(2));
        near(order.powder_for_one.mean.0, all / 12.0);
        near(order.powder_for_one.least.0, one(0).min(one(1)).min(one(2)));
        near(order.powder_for_one.most.0, one(0).max(one(1)).max(one(2)));
        assert!(order.powder_for_one.least < order.powder_for_one.most, "no two seeds weigh the same");
        let straw = |ticket: &Ticket| {
            ticket.powders.iter().find(|powder| powder.glass == "straw").map_or(0.0, |powder| powder.one.0)
        };
        let ordered = order.powders.iter().find(|powder| powder.glass == "straw").unwrap();
        near(ordered.ready.0, 3.0 * straw(&tickets[0]) + 3.0 * straw(&tickets[1]) + 6.0 * straw(&tickets[2]));
        let white = order.discs.iter().find(|cut| cut.glass == "white").unwrap();
        assert_eq!((white.each, white.count), (1, 12), "both lie on white of one size");
    }

    /// Two options with numbers of their own: 2 g of straw and 1 g of rust, three pieces; 5 g of straw, one piece.
    #[test]
    fn an_order_adds_up_by_hand() {
        let ticket = |powders: &[(&str, f64)], each: u32, accents: &[(&str, u32)]| {
            let powder = |(glass, one): &(&str, f64)| PowderGrams {
                glass: (*glass).into(),
                one: Grams(*one),
                ready: Grams(99.0),
            };
            let cut = |thickness| DiscCut {
                glass: "white".into(),
                thickness: Mm(thickness),
                diameter: Mm(160.0),
                each,
                count: 99,
            };
            Ticket {
                powders: powders.iter().map(powder).collect(),
                discs: vec![cut(3.0), DiscCut { each: 1, ..cut(2.0) }],
                accents: accents
                    .iter()
                    .map(|(glass, count)| AccentCount { glass: (*glass).into(), count: *count })
                    .collect(),
                ..of(&Recipe::bare(), 1)
            }
        };
        let one = ticket(&[("straw", 2.0), ("rust", 1.0)], 1, &[("chalk", 4), ("moss", 3)]);
        let other = ticket(&[("straw", 5.0)], 2, &[("chalk", 2)]);
        let order = Order::of(&[(&one, 3), (&other, 1)], 0).unwrap();
        let powders: Vec<_> = order.powders.iter().map(|p| (p.glass.as_str(), p.one.0, p.ready.0)).collect();
        assert_eq!(powders, [("straw", 2.75, 11.0), ("rust", 0.75, 3.0)]);
        let Spread { least, mean, most } = order.powder_for_one;
        assert_eq!((least.0, mean.0, most.0), (3.0, 3.5, 5.0));
        let discs: Vec<_> = order.discs.iter().map(|cut| (cut.thickness.0, cut.each, cut.count)).collect();
        assert_eq!(discs, [(3.0, 2, 5), (2.0, 1, 4)]);
        let accents: Vec<_> =
            order.accents.iter().map(|accent| (accent.glass.as_str(), accent.count)).collect();
        assert_eq!(accents, [("chalk", 14), ("moss", 9)]);
        // An option of which none is made does not spread.
        let spread = Order::of(&[(&one, 2), (&other, 0)], 0).unwrap().powder_for_one;
        assert_eq!((spread.least.0, spread.mean.0, spread.most.0), (3.0, 3.0, 3.0));
        // Disc, glass and thickness each make another cut.
        let mut wider = other.clone();
        wider.discs[0].diameter = Mm(150.0);
        wider.discs[1].glass = "clear".into();
        assert_eq!(Order::of(&[(&one, 1), (&wider, 1)], 0).unwrap().discs.len(), 4);
    }
}
