//! An order worked out from end to end.

use super::checks::{self, Checked, name};
use super::cuts::{CutList, cut};
use super::days::{Days, Job, days};
use super::loads::Loads;
use super::model::{Line, Order};
use super::pieces;
use super::price::{self, Cost, price};
use super::stems::Stems;
use super::weigh::{Layouts, WeighOut, weigh};
use crate::base::notice::{Notice, Severity, Step};
use crate::base::seed::Seed;
use crate::base::units::Mm;
use crate::packing::Packings;
use crate::recipe::plan::Plan;
use crate::shop::order::Order as Sum;
use crate::shop::stem::StemNeeds;
use crate::shop::ticket::{DiscCut, Ticket};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// Everything that an order comes to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Worked {
    /// What the maker calls it.
    pub title: String,
    /// Who has ordered it.
    pub customer: String,
    /// When it is due.
    pub due: Option<Date>,
    /// Pieces made, spares included.
    pub pieces: u32,
    /// Spare ones among them.
    pub spares: u32,
    /// Those that take the place of broken ones.
    pub broken: u32,
    /// Its lines.
    pub lines: Vec<WorkedLine>,
    /// What is weighed.
    pub weighed: WeighOut,
    /// What is cut.
    pub cuts: Vec<CutList>,
    /// What the stems take.
    pub stems: Stems,
    /// What is fired.
    pub loads: Loads,
    /// When; none if something cannot be fired.
    pub days: Option<Days>,
    /// What it costs.
    pub cost: Cost,
    /// What the maker should know.
    pub notices: Vec<Notice>,
}

/// A line of an order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WorkedLine {
    /// What it is called.
    pub name: String,
    /// Pieces wanted.
    pub wanted: u32,
    /// Pieces made.
    pub made: u32,
    /// How often each layout is made.
    pub layouts: Vec<(Seed, u32)>,
    /// The ticket of the first of them.
    pub first: Option<Ticket>,
}

/// Works an order out, beside other open orders, from today on. `ticket` gives the ticket of a line's plan and seed.
///
/// # Errors
/// Every fault of any of the orders.
pub fn work_out(
    order: &Order,
    others: &[Order],
    today: Date,
    mut ticket: impl FnMut(&Plan, Seed) -> Ticket,
) -> Result<Worked, Vec<Notice>> {
    let mut packings = Packings::default();
    let mut working = Working::begin(order, others, today, &mut packings)?;
    while let Some((line, seed)) = working.next() {
        let ticket = ticket(working.plan(line), seed);
        working.take(ticket);
    }
    Ok(working.worked(&mut packings))
}

/// An order that is being worked out: everything but its tickets, and those that there are by now.
#[derive(Debug)]
pub struct Working {
    order: Order,
    plans: Vec<Plan>,
    notices: Vec<Notice>,
    made: Vec<u32>,
    loads: Loads,
    days: Option<Days>,
    layouts: Vec<Vec<(Seed, u32)>>,
    /// Of each line, in the order of its layouts.
    tickets: Vec<Vec<Ticket>>,
}

impl Working {
    /// Begins with checks, loads and days.
    ///
    /// # Errors
    /// Every fault of any of the orders.
    pub fn begin(
        order: &Order,
        others: &[Order],
        today: Date,
        packings: &mut Packings,
    ) -> Result<Self, Vec<Notice>> {
        checks::today(today)?;
        let Checked { plans, notices } = checks::check(order)?;
        let made = pieces::made(order);
        let loads = Loads::new(order, &plans, &made, packings)?;
        let others = others.iter().map(|other| beside(other, packings)).collect::<Result<Vec<_>, _>>()?;
        let other_jobs: Vec<Job> =
            others.iter().map(|(order, made, loads)| Job { order, loads, made }).collect();
        let days = days(&Job { order, loads: &loads, made: &made }, &other_jobs, today);
        let layouts = pieces::layouts(order);
        let tickets = vec![Vec::new(); plans.len()];
        Ok(Self { order: order.clone(), plans, notices, made, loads, days, layouts, tickets })
    }

    /// The line and the seed whose ticket is wanted next: first one of each line, then the rest; none if all are there.
    pub fn next(&self) -> Option<(usize, Seed)> {
        let wanted = |line: &usize| Some((*line, self.layouts[*line].get(self.tickets[*line].len())?.0));
        let lines = 0..self.plans.len();
        let first =
            lines.clone().filter(|line| self.tickets[*line].is_empty()).find_map(|line| wanted(&line));
        first.or_else(|| lines.clone().find_map(|line| wanted(&line)))
    }

    /// The plan of a line.
    pub fn plan(&self, line: usize) -> &Plan {
        &self.plans[line]
    }

    /// The order.
    pub fn order(&self) -> &Order {
        &self.order
    }

    /// Takes the ticket that was wanted.
    pub fn take(&mut self, ticket: Ticket) {
        if let Some((line, _)) = self.next() {
            self.tickets[line].push(ticket);
        }
    }

    /// Whether there is a ticket for each line, so that the first stands for those that are not there yet: layouts of one recipe differ
    /// by what the sponge takes off, and hardly at all by what is weighed.
    pub fn can_be_told(&self) -> bool {
        self.tickets
            .iter()
            .zip(&self.layouts)
            .all(|(tickets, layouts)| layouts.is_empty() || !tickets.is_empty())
    }

    /// What it comes to, by the tickets that there are.
    pub fn worked(&self, packings: &mut Packings) -> Worked {
        let Self { order, plans, made, loads, days, layouts, tickets, .. } = self;
        let mut notices = self.notices.clone();
        let tickets: Vec<Layouts> =
            tickets.iter().zip(layouts).map(|(tickets, layouts)| with_the_first(tickets, layouts)).collect();
        let weighed = weigh(order, plans, &tickets, days.as_ref());
        let discs: Vec<Vec<DiscCut>> = tickets.iter().map(discs).collect();
        let all: Vec<DiscCut> = discs.iter().flatten().cloned().collect();
        let cuts = cut(order, &all, packings);
        let stems = Stems::new(order.lines.iter().zip(&tickets).map(stem_of).collect());
        let cost =
            price(&price::Worked { order, made, discs: &discs, weighed: &weighed, cuts: &cuts, loads });
        notices.extend(loads.notices.iter().cloned());
        notices.extend(days.iter().flat_map(|days| days.notices.clone()));
        notices.extend(cost.notices.iter().cloned());
        notices.extend(cuts.iter().flat_map(of_cuts));
        let pieces: u32 = made.iter().sum();
        let wanted: u32 = order.lines.iter().map(|line| line.count).sum();
        let broken = order.progress.pieces.iter().filter(|done| done.broken).count() as u32;
        let lines = order.lines.iter().zip(made).zip(layouts.iter().zip(&tickets));
        let lines = lines.map(|((line, made), (layouts, tickets))| WorkedLine {
            name: name(line),
            wanted: line.count,
            made: *made,
            layouts: layouts.clone(),
            first: tickets.first().map(|(ticket, _)| ticket.clone()),
        });
        Worked {
            title: order.title.clone(),
            customer: order.customer.clone(),
            due: order.due,
            pieces,
            spares: pieces - wanted - broken,
            broken,
            lines: lines.collect(),
            weighed,
            cuts,
            stems,
            loads: loads.clone(),
            days: days.clone(),
            cost,
            notices,
        }
    }
}

/// What the stem of one piece of a line takes, and how many are mounted.
fn stem_of((line, layouts): (&Line, &Layouts)) -> Option<(StemNeeds, u32)> {
    Some((layouts.first()?.0.stem?, line.count))
}

/// Each layout with its ticket, or with the first one where it is not there yet.
fn with_the_first(tickets: &[Ticket], layouts: &[(Seed, u32)]) -> Layouts {
    let one = |(at, (_, times)): (usize, &(Seed, u32))| {
        Some((tickets.get(at).or(tickets.first())?.clone(), *times))
    };
    layouts.iter().enumerate().filter_map(one).collect()
}

/// Another open order, as far as it shares days and kiln; its faults say that they are its own.
fn beside<'a>(
    order: &'a Order,
    packings: &mut Packings,
) -> Result<(&'a Order, Vec<u32>, Loads), Vec<Notice>> {
    let of_it = |faults: Vec<Notice>| {
        let own = |fault: Notice| Notice { what: format!("{}: {}", order.title, fault.what), ..fault };
        faults.into_iter().map(own).collect::<Vec<_>>()
    };
    let plans = checks::check(order).map_err(of_it)?.plans;
    let made = pieces::made(order);
    let loads = Loads::new(order, &plans, &made, packings).map_err(of_it)?;
    Ok((order, made, loads))
}

/// The discs of a line.
fn discs(layouts: &Layouts) -> Vec<DiscCut> {
    let options: Vec<(&Ticket, u32)> = layouts.iter().map(|(ticket, made)| (ticket, *made)).collect();
    Sum::of(&options, 0).map_or_else(Vec::new, |sum| sum.discs)
}

/// What a cut list has to say.
fn of_cuts(list: &CutList) -> Vec<Notice> {
    let thick = list.thickness;
    let assumed = list.size_assumed.then(|| {
        let why = format!(
            "No sheet of {} of {thick} is written down, so one of 500 by 500 mm is reckoned with.",
            list.glass
        );
        Notice::new(
            Severity::Note,
            Step::Blank,
            "A sheet size assumed.",
            why,
            "Write down the size that you buy.",
        )
    });
    let without = list.without.iter().map(|left| {
        let Mm(across) = left.diameter;
        let why =
            format!("{} of {across} mm do not go on any sheet of {} of {thick}.", left.count, list.glass);
        Notice::new(
            Severity::Risk,
            Step::Blank,
            "A sheet smaller than its disc.",
            why,
            "Write down a larger sheet, or cut smaller discs.",
        )
    });
    assumed.into_iter().chain(without).collect()
}
