//! Weighing out: grams of each powder and each part of a blend, for one disc, for each day of sifting and for all, against the jars.

use super::days::{Days, What};
use super::model::{Jar, Order};
use crate::base::units::Grams;
use crate::glass::kind::Glass;
use crate::recipe::plan::{Blend, Plan};
use crate::shop::order::shared_out;
use crate::shop::ticket::Ticket;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// What scales at the bench show, g.
const SCALE: f64 = 0.1;
/// Powder is bought, and priced, by so many grams (common practice, no source).
const BOUGHT_BY: f64 = 100.0;
/// A level measuring spoon, mL.
const SPOON: f64 = 5.0;

/// Each layout of a line with its ticket, and how many are made of it.
pub type Layouts = Vec<(Ticket, u32)>;

/// Everything that is weighed for an order. All grams are rounded to 0.1 g so that parts add up to what they are parts of.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WeighOut {
    /// The days of sifting.
    pub days: Vec<Date>,
    /// What is needed of each powder.
    pub powders: Vec<PowderNeed>,
    /// What is weighed for each coat of each line.
    pub coats: Vec<CoatNeed>,
}

/// A powder of an order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PowderNeed {
    /// Id of the glass.
    pub glass: String,
    /// For all pieces.
    pub all: Grams,
    /// For each day of sifting.
    pub by_day: Vec<Grams>,
    /// What is in its jars; none if nobody has written that down, which is not the same as nothing.
    pub on_hand: Option<Grams>,
    /// What is left in the jars after it.
    pub left: Grams,
    /// What the jars lack: all of it where nobody has written down what is in them.
    pub to_buy: Grams,
    /// The first day, counted from 0, that the jars do not last for; none where nobody knows.
    pub runs_out: Option<usize>,
    /// Money for 100 g; none if no jar has a price.
    pub price: Option<f64>,
}

impl PowderNeed {
    /// What the jars are known to lack; 0 where nobody has written down what is in them.
    pub fn short(&self) -> Grams {
        self.on_hand.map_or(Grams(0.0), |_| self.to_buy)
    }

    /// What is to be bought, in whole portions of 100 g.
    pub fn bought(&self) -> Grams {
        Grams((self.to_buy.0 / BOUGHT_BY - 1e-9).ceil().max(0.0) * BOUGHT_BY)
    }

    /// Money for that; none if no jar has a price.
    pub fn cost(&self) -> Option<f64> {
        self.price.map(|price| self.bought().0 / BOUGHT_BY * price)
    }
}

/// A coat of a line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CoatNeed {
    /// Which line, counted from 0.
    pub line: usize,
    /// The coat's id in the line's recipe.
    pub coat: u32,
    /// For one disc, the mean of its layouts: the parts of the blend.
    pub one: Vec<PartGrams>,
    /// For each day of sifting.
    pub by_day: Vec<Vec<PartGrams>>,
    /// For all pieces of the line.
    pub all: Vec<PartGrams>,
    /// What a level spoon of 5 mL holds of each part.
    pub spoons: Vec<Grams>,
}

/// A part of a blend.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PartGrams {
    /// Id of the glass.
    pub glass: String,
    /// How much.
    pub grams: Grams,
}

/// Weighs an order out. Without days all is sifted on one.
pub fn weigh(order: &Order, plans: &[Plan], lines: &[Layouts], days: Option<&Days>) -> WeighOut {
    let sifted = sifted(lines, days);
    let mut coats = Vec::new();
    for (line, (plan, layouts)) in plans.iter().zip(lines).enumerate() {
        let pieces: Vec<u32> = sifted.iter().map(|(_, of)| of[line]).collect();
        coats.extend((0..plan.coats.len()).map(|at| coat(line, plan, layouts, at, &pieces)));
    }
    WeighOut {
        days: sifted.iter().filter_map(|(day, _)| *day).collect(),
        powders: powders(&coats, &order.stock.jars, sifted.len()),
        coats,
    }
}

/// The days of sifting, and how many pieces of each line are sifted on each.
fn sifted(lines: &[Layouts], days: Option<&Days>) -> Vec<(Option<Date>, Vec<u32>)> {
    let Some(days) = days else {
        return vec![(
            None,
            lines.iter().map(|layouts| layouts.iter().map(|(_, made)| made).sum()).collect(),
        )];
    };
    let mut sifted: Vec<(Option<Date>, Vec<u32>)> = Vec::new();
    for doing in days.doings.iter().filter(|doing| doing.what == What::Sift) {
        if sifted.last().is_none_or(|(day, _)| *day != Some(doing.day)) {
            sifted.push((Some(doing.day), vec![0; lines.len()]));
        }
        if let Some((_, pieces)) = sifted.last_mut() {
            doing.of.iter().for_each(|(line, count)| pieces[*line] += count);
        }
    }
    sifted
}

fn coat(line: usize, plan: &Plan, layouts: &Layouts, at: usize, pieces: &[u32]) -> CoatNeed {
    let shares = &parts_of_weight(&plan.coats[at].blend);
    let all: f64 = layouts.iter().map(|(ticket, made)| ticket.coats[at].to_weigh.0 * f64::from(*made)).sum();
    let made: u32 = layouts.iter().map(|(_, made)| made).sum();
    let by_day: Vec<_> = shared_out(steps(all), pieces).into_iter().map(|day| parts(day, shares)).collect();
    CoatNeed {
        line,
        coat: plan.coats[at].sift.id,
        one: parts(steps(all / f64::from(made.max(1))), shares),
        all: added_up(&by_day, shares),
        by_day,
        spoons: plan.coats[at].blend.shares.iter().map(|(glass, _)| spoon(plan, glass)).collect(),
    }
}

/// What a level spoon of a powder weighs.
fn spoon(plan: &Plan, glass: &Glass) -> Grams {
    Grams(SPOON * glass.density * glass.packing.unwrap_or(plan.packing.into()))
}

/// Grams in steps of the scales.
fn steps(grams: f64) -> u32 {
    (grams / SCALE).round() as u32
}

fn grams(steps: u32) -> Grams {
    // Divided, since a tenth times a number is not the number nearest to that many tenths.
    Grams(f64::from(steps) / (1.0 / SCALE))
}

/// The glasses of a blend and their shares of its weight, in millionths.
fn parts_of_weight(blend: &Blend) -> Vec<(&str, u32)> {
    blend.shares_of_weight().map(|(id, share)| (id, (share * 1e6).round() as u32)).collect()
}

/// What is weighed of each glass of a blend, so that the parts add up.
fn parts(steps: u32, shares: &[(&str, u32)]) -> Vec<PartGrams> {
    let weights: Vec<u32> = shares.iter().map(|(_, share)| *share).collect();
    let each = shared_out(steps, &weights);
    shares
        .iter()
        .zip(each)
        .map(|((glass, _), steps)| PartGrams { glass: (*glass).into(), grams: grams(steps) })
        .collect()
}

fn added_up(by_day: &[Vec<PartGrams>], shares: &[(&str, u32)]) -> Vec<PartGrams> {
    let sum = |at: usize| by_day.iter().map(|parts| steps(parts[at].grams.0)).sum();
    let parts = shares.iter().enumerate();
    parts.map(|(at, (glass, _))| PartGrams { glass: (*glass).into(), grams: grams(sum(at)) }).collect()
}

fn powders(coats: &[CoatNeed], jars: &[Jar], days: usize) -> Vec<PowderNeed> {
    let mut glasses: Vec<&str> = Vec::new();
    for part in coats.iter().flat_map(|coat| &coat.all) {
        if !glasses.contains(&part.glass.as_str()) {
            glasses.push(&part.glass);
        }
    }
    glasses.into_iter().map(|glass| powder(glass, coats, jars, days)).collect()
}

fn powder(glass: &str, coats: &[CoatNeed], jars: &[Jar], days: usize) -> PowderNeed {
    let on = |day: usize| {
        let parts = coats.iter().flat_map(|coat| coat.by_day.get(day).into_iter().flatten());
        parts.filter(|part| part.glass == glass).map(|part| steps(part.grams.0)).sum::<u32>()
    };
    let by_day: Vec<u32> = (0..days).map(on).collect();
    let all: u32 = by_day.iter().sum();
    let of_it = || jars.iter().filter(|jar| jar.glass == glass);
    let on_hand = of_it().filter_map(|jar| jar.grams).reduce(|one, other| Grams(one.0 + other.0));
    let there = on_hand.map_or(0.0, |grams| grams.0);
    let needed = grams(all).0;
    let until = |day: usize| grams(by_day[..=day].iter().sum()).0;
    PowderNeed {
        glass: glass.into(),
        all: grams(all),
        on_hand,
        left: Grams((there - needed).max(0.0)),
        to_buy: grams(((needed - there).max(0.0) / SCALE - 1e-9).ceil() as u32),
        runs_out: on_hand.and_then(|_| (0..days).find(|day| until(*day) > there + 1e-9)),
        price: of_it().find_map(|jar| jar.price),
        by_day: by_day.into_iter().map(grams).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1:1:1 of 10.0 g is 3.4, 3.3 and 3.3: the largest remainder, the first of equal ones.
    #[test]
    fn a_blend_adds_up() {
        let third = 333_333;
        let parts = parts(100, &[("straw", third), ("rust", third), ("moss", third)]);
        let grams: Vec<f64> = parts.iter().map(|part| part.grams.0).collect();
        assert_eq!(grams, [3.4, 3.3, 3.3]);
    }

    fn need(by_day: &[f64], jars: &[(&str, Option<f64>)]) -> PowderNeed {
        let part = |grams: &f64| vec![PartGrams { glass: "rust".into(), grams: Grams(*grams) }];
        let coat = CoatNeed {
            line: 0,
            coat: 1,
            one: Vec::new(),
            by_day: by_day.iter().map(part).collect(),
            all: part(&by_day.iter().sum()),
            spoons: Vec::new(),
        };
        let jar = |(glass, grams): &(&str, Option<f64>)| Jar {
            glass: (*glass).into(),
            grams: grams.map(Grams),
            price: None,
        };
        let jars: Vec<Jar> = jars.iter().map(jar).collect();
        powders(&[coat], &jars, by_day.len()).remove(0)
    }

    #[test]
    fn what_the_jars_lack_is_bought_and_the_day_is_named() {
        let jars = [("rust", Some(30.0)), ("straw", Some(500.0)), ("rust", Some(10.0)), ("rust", None)];
        let short = need(&[25.9, 25.9], &jars);
        assert_eq!((short.all.0, short.on_hand, short.to_buy.0), (51.8, Some(Grams(40.0)), 11.8));
        assert_eq!((short.left.0, short.runs_out), (0.0, Some(1)), "on the second day");
        let enough = need(&[25.9, 25.9], &[("rust", Some(51.8))]);
        assert_eq!((enough.to_buy.0, enough.left.0, enough.runs_out), (0.0, 0.0, None));
        assert_eq!((short.bought().0, enough.bought().0), (100.0, 0.0), "by 100 g");
        let empty = need(&[25.9], &[("rust", Some(0.0))]);
        assert_eq!((empty.on_hand, empty.short().0, empty.runs_out), (Some(Grams(0.0)), 25.9, Some(0)));
    }

    /// Nobody has said what is there: all of it is to be bought, and nothing is known to be short. A price says nothing of grams.
    #[test]
    fn a_jar_that_is_not_written_down_is_not_an_empty_one() {
        for jars in [&[][..], &[("rust", None)], &[("straw", Some(5.0))]] {
            let none = need(&[25.9], jars);
            assert_eq!((none.on_hand, none.to_buy.0, none.short().0, none.runs_out), (None, 25.9, 0.0, None));
        }
    }
}
