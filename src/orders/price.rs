//! What a piece costs and what is asked for it. Without prices there is nothing to say, and nothing is taken for 0.

use super::cuts::CutList;
use super::loads::{Loads, kiln};
use super::model::{Card, Gain, Order, Prices};
use super::money;
use super::weigh::WeighOut;
use crate::base::notice::{Notice, Severity, Step};
use crate::base::units::fixed;
use crate::shop::ticket::DiscCut;
use serde::{Deserialize, Serialize};

/// What an order costs, as far as prices are known.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Cost {
    /// The prices; none before the maker has written all of them down.
    pub priced: Option<Priced>,
    /// What has no price yet; nothing where the maker reckons without prices.
    pub missing: Vec<String>,
    /// What the maker should know.
    pub notices: Vec<Notice>,
}

/// The prices of an order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Priced {
    /// Of one piece of each line.
    pub lines: Vec<PiecePrice>,
    /// What the customer pays for all that is wanted, wholesale.
    pub order: f64,
    /// The same with tax, where there is one.
    pub with_tax: Option<f64>,
    /// What all pieces cost that are wanted.
    pub costs: f64,
    /// What a fair takes.
    pub fair: Option<Fair>,
}

/// The price of one piece, and what it is made of.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PiecePrice {
    /// Whole sheets, shared out by the area of the discs.
    pub glass: f64,
    /// Powder.
    pub powder: f64,
    /// Stem and joint, if it has them.
    pub stem: f64,
    /// Paper, separator, frit.
    pub consumables: f64,
    /// Its share of the firings.
    pub energy: f64,
    /// Hand work, by step.
    pub time: TimePrice,
    /// Overhead.
    pub overhead: f64,
    /// What breaks.
    pub breakage: f64,
    /// All of it.
    pub each: f64,
    /// What is asked, wholesale.
    pub wholesale: f64,
    /// Whether the maker has set that.
    pub asked: bool,
    /// What is gained, as a share of what is asked.
    pub margin: Option<f64>,
    /// The same as a share of what it costs.
    pub markup: Option<f64>,
    /// What is asked, retail.
    pub retail: f64,
    /// The same if the card's fee comes on top of it.
    pub by_card: Option<f64>,
}

/// Money for the hand work of one piece.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TimePrice {
    /// Cutting.
    pub cut: f64,
    /// Sifting and dabbing.
    pub sift: f64,
    /// Loading, every time.
    pub load: f64,
    /// Mounting.
    pub mount: f64,
}

impl TimePrice {
    fn all(&self) -> f64 {
        self.cut + self.sift + self.load + self.mount
    }
}

/// A fair.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fair {
    /// Its fee.
    pub fee: f64,
    /// Pieces sold, retail and by card, that pay for it; none if no number does.
    pub pieces: Option<f64>,
}

/// What the prices are reckoned from.
#[derive(Clone, Copy, Debug)]
pub struct Worked<'a> {
    /// The order.
    pub order: &'a Order,
    /// Pieces made of each line.
    pub made: &'a [u32],
    /// Discs of each line.
    pub discs: &'a [Vec<DiscCut>],
    /// What is weighed.
    pub weighed: &'a WeighOut,
    /// What is cut.
    pub cuts: &'a [CutList],
    /// What is fired.
    pub loads: &'a Loads,
}

/// The prices of an order; without the maker's prices, nothing.
pub fn price(worked: &Worked) -> Cost {
    let Some(prices) = &worked.order.prices else { return Cost::default() };
    let missing = missing(worked, prices);
    if !missing.is_empty() {
        return Cost { missing, ..Cost::default() };
    }
    let all = worked.order.lines.iter().enumerate();
    let lines: Vec<PiecePrice> = all.map(|(line, _)| piece(worked, prices, line)).collect();
    let sum = |of: fn(&PiecePrice) -> f64| {
        let each = lines.iter().zip(&worked.order.lines);
        each.map(|(price, line)| of(price) * f64::from(line.count)).sum::<f64>()
    };
    let (order, costs) = (sum(|price| price.wholesale), sum(|price| price.each));
    let pieces: f64 = worked.order.lines.iter().map(|line| f64::from(line.count)).sum();
    let Card { rate, fixed } = prices.card.unwrap_or(Card { rate: 0.0, fixed: 0.0 });
    let retail = sum(|price| price.retail) / pieces.max(1.0);
    let fair = prices.fair.map(|fee| Fair {
        fee,
        pieces: money::break_even(fee, retail, (rate, fixed), costs / pieces.max(1.0)),
    });
    let notices = lines.iter().zip(&worked.order.lines).filter(|(price, _)| price.wholesale < price.each);
    let notices = notices.map(|(price, line)| below(price, &super::checks::name(line))).collect();
    let with_tax = prices.tax.map(|tax| money::to_the_hundredth(order * (1.0 + tax)));
    Cost { priced: Some(Priced { lines, order, with_tax, costs, fair }), missing, notices }
}

/// Every thing that is used and has no price.
fn missing(worked: &Worked, prices: &Prices) -> Vec<String> {
    let glasses = worked.order.glasses();
    let name = |id: &str| glasses.name(id).to_lowercase();
    let sheets = worked.cuts.iter().filter(|list| list.cost.is_none());
    let powders = worked.weighed.powders.iter().filter(|powder| powder.price.is_none());
    let unfired = worked.loads.notices.iter().any(|notice| notice.severity == Severity::Fault);
    let unfired = unfired.then(|| "a firing that the kiln cannot do".to_owned());
    let power = kiln(worked.order).price.is_none().then(|| "a kWh, in the kiln".to_owned());
    let stem = prices.stem <= 0.0 && worked.order.lines.iter().any(|line| line.mounted() > 0);
    let stem = stem.then(|| "a stem with its joint".to_owned());
    sheets
        .map(|list| format!("a sheet of {}, {}", name(&list.glass), list.thickness))
        .chain(powders.map(|powder| format!("100 g of {}", name(&powder.glass))))
        .chain(stem)
        .chain(power)
        .chain(unfired)
        .collect()
}

fn piece(worked: &Worked, prices: &Prices, line: usize) -> PiecePrice {
    let made = f64::from(worked.made[line].max(1));
    let (glass, powder, energy) = (glass(worked, line), powder(worked, line), energy(worked, line));
    let time = time(worked, prices, line);
    let Prices { consumables, overhead, .. } = *prices;
    let stem = if worked.order.lines[line].mounted() > 0 { prices.stem } else { 0.0 };
    let of_all = (glass + powder + energy) / made;
    let sum = of_all + stem + consumables + time.all() + overhead;
    let each = money::with_breakage(sum, prices.breakage);
    let asked = worked.order.lines[line].asked;
    let wholesale = money::to_the_hundredth(asked.unwrap_or_else(|| match prices.gain {
        Gain::Margin(share) => money::at_margin(each, share),
        Gain::Markup(share) => money::at_markup(each, share),
    }));
    let retail = wholesale * prices.retail;
    PiecePrice {
        glass: glass / made,
        powder: powder / made,
        stem,
        consumables,
        energy: energy / made,
        time,
        overhead,
        breakage: each - sum,
        each,
        wholesale,
        asked: asked.is_some(),
        margin: money::margin(wholesale, each),
        markup: money::markup(wholesale, each),
        retail,
        by_card: prices.card.map(|card| money::by_card(retail, card.rate, card.fixed)),
    }
}

/// A line's share of all sheets, by area.
fn glass(worked: &Worked, line: usize) -> f64 {
    let area = |discs: &[DiscCut], list: &CutList| {
        let same = discs.iter().filter(|cut| cut.glass == list.glass && cut.thickness == list.thickness);
        same.map(|cut| f64::from(cut.count) * cut.diameter.0 * cut.diameter.0).sum::<f64>()
    };
    let share = |list: &CutList| {
        let all: f64 = worked.discs.iter().map(|discs| area(discs, list)).sum();
        if all > 0.0 { area(&worked.discs[line], list) / all } else { 0.0 }
    };
    worked.cuts.iter().map(|list| list.cost.unwrap_or(0.0) * share(list)).sum()
}

fn powder(worked: &Worked, line: usize) -> f64 {
    let price = |glass: &str| {
        let known = worked.weighed.powders.iter().find(|powder| powder.glass == glass);
        known.and_then(|powder| powder.price).unwrap_or(0.0) / 100.0
    };
    let coats = worked.weighed.coats.iter().filter(|coat| coat.line == line);
    coats.flat_map(|coat| &coat.all).map(|part| part.grams.0 * price(&part.glass)).sum()
}

/// A line's share of all firings, by pieces.
fn energy(worked: &Worked, line: usize) -> f64 {
    let price = kiln(worked.order).price.unwrap_or(0.0);
    let share = |loads: &[super::loads::Load]| {
        let own = |of: &&(usize, u32)| of.0 == line;
        let count = |own_only: bool| {
            let all = loads.iter().flatten().filter(|of| !own_only || own(of));
            all.map(|(_, count)| f64::from(*count)).sum::<f64>()
        };
        count(true) / count(false).max(1.0)
    };
    let batches = worked.loads.batches.iter();
    batches.map(|batch| batch.kwh * batch.loads.len() as f64 * share(&batch.loads) * price).sum()
}

fn time(worked: &Worked, prices: &Prices, line: usize) -> TimePrice {
    let minutes = &worked.order.work.minutes;
    let money = |minutes: f64| minutes / 60.0 * prices.hour;
    let in_kiln =
        worked.loads.batches.iter().filter(|batch| batch.loads.iter().flatten().any(|of| of.0 == line));
    TimePrice {
        cut: money(minutes.cut.0),
        sift: money(minutes.sift.0),
        load: money(minutes.load.0 * in_kiln.count() as f64),
        mount: if worked.order.lines[line].mounted() > 0 { money(minutes.mount.0) } else { 0.0 },
    }
}

fn below(price: &PiecePrice, name: &str) -> Notice {
    let loses = fixed(price.each - price.wholesale, 2);
    let why = format!("{name}: at {} you pay {loses} with each.", fixed(price.wholesale, 2));
    let remedy = format!("Ask {} at least.", fixed(price.each, 2));
    Notice::new(Severity::Risk, Step::Ticket, "Below what it costs.", why, remedy)
}
