//! An order worked out step by step: first its loads and days, then one ticket after the other. Tickets are remembered, so that what does
//! not change a piece is worked out anew at once.

use super::asked::{OrderJob, OrderOutcome};
use crate::base::memo::Allowance;
use crate::base::seed::Seed;
use crate::orders::limits::MOST_PIECES;
use crate::orders::loads::kiln;
use crate::orders::worked::Working;
use crate::packing::Packings;
use crate::preview::Preview;
use crate::recipe::Recipe;
use crate::shop::ticket::{Ticket, ticket};

/// Orders with their memory, and the one under way.
#[derive(Debug, Default)]
pub struct Orders {
    /// The last ones, newest last. Nothing of them that an order uses hangs on the kiln.
    tickets: Vec<(Seed, Recipe, Ticket)>,
    /// Where discs lie best, which hangs on nothing but their sizes and is searched for longest.
    packings: Packings,
    /// The job under way, and whether it was told once.
    under_way: Option<(u32, Working, bool)>,
}

impl Orders {
    /// One step of a job. Gives what there is to tell, and whether that is all of it.
    pub fn step(&mut self, preview: &mut Preview, asked: &OrderJob, id: u32) -> Option<(OrderOutcome, bool)> {
        let Some((_, working, told)) = self.under_way.as_mut().filter(|(of, ..)| *of == id) else {
            return match Working::begin(&asked.order, &asked.others, asked.today, &mut self.packings) {
                Ok(working) => {
                    self.under_way = Some((id, working, false));
                    None
                }
                Err(faults) => Some((Err(faults), true)),
            };
        };
        while let Some((line, seed)) = working.next() {
            let recipe = &working.order().lines[line].recipe;
            let known = self.tickets.iter().find(|(of, by, _)| *of == seed && by == recipe);
            let known = known.map(|(.., ticket)| ticket.clone());
            let weighed = match known {
                Some(ticket) => ticket,
                None if !*told && working.can_be_told() => {
                    *told = true;
                    return Some((Ok(Box::new(working.worked(&mut self.packings))), false));
                }
                None => {
                    let kiln = kiln(working.order());
                    let mut one = Allowance::steps(1);
                    let made = ticket(preview, working.plan(line), seed, &kiln, &mut one).ok()?;
                    if self.tickets.len() == MOST_PIECES as usize {
                        self.tickets.remove(0);
                    }
                    self.tickets.push((seed, recipe.clone(), made.clone()));
                    made
                }
            };
            working.take(weighed);
        }
        let worked = Box::new(working.worked(&mut self.packings));
        self.under_way = None;
        Some((Ok(worked), true))
    }
}

#[cfg(test)]
mod tests {
    use super::super::asked::Said;
    use super::super::protocol::{read, written};
    use super::*;
    use crate::base::units::Grams;
    use crate::orders::model::{Jar, Order};
    use crate::orders::worked::{Worked, work_out};
    use crate::recipe::demo;
    use jiff::civil::date;

    fn asked() -> OrderJob {
        let mut order = Order::of(demo::ember_walk(), 6);
        order.lines[0].seeds = vec![Seed(41), Seed(43), Seed(44)];
        OrderJob { order, others: Vec::new(), today: date(2026, 11, 30) }
    }

    /// What is told, and in how many steps.
    fn told(orders: &mut Orders, asked: &OrderJob, id: u32) -> (Vec<Worked>, usize) {
        let (mut preview, mut all) = (Preview::new(), Vec::new());
        for steps in 1..1000 {
            if let Some((outcome, finished)) = orders.step(&mut preview, asked, id) {
                all.push(*outcome.expect("a sound order"));
                if finished {
                    return (all, steps);
                }
            }
        }
        panic!("it never ends");
    }

    #[test]
    fn an_order_is_told_early_and_in_the_end_as_it_is_in_one_go() {
        let (mut orders, asked) = (Orders::default(), asked());
        let (all, steps) = told(&mut orders, &asked, 1);
        let mut preview = Preview::new();
        let kiln = kiln(&asked.order);
        let whole = work_out(&asked.order, &[], asked.today, |plan, seed| {
            ticket(&mut preview, plan, seed, &kiln, &mut Allowance::unlimited()).unwrap()
        });
        assert_eq!(all.last(), whole.as_ref().ok());
        let said = Said::Order(whole.map(Box::new));
        assert_eq!(read(&written(&said)), Ok(said), "as the page reads it");
        assert_eq!((all.len(), &all[0].days), (2, &all[1].days), "the days hang on no weight");
        let first = all[0].weighed.powders[0].all.0;
        assert!((first / all[1].weighed.powders[0].all.0 - 1.0).abs() < 0.02, "{first}");
        assert!(steps > 10, "{steps}");
        let mut other = asked;
        other.order.stock.jars.push(Jar { glass: "rust".into(), grams: Some(Grams(1.0)), price: None });
        let (again, steps) = told(&mut orders, &other, 2);
        assert_eq!((again.len(), steps), (1, 2), "every ticket is remembered");
    }

    #[test]
    fn a_fault_is_told_and_a_newer_job_ends_the_older_one() {
        let (mut orders, mut preview) = (Orders::default(), Preview::new());
        assert_eq!(orders.step(&mut preview, &asked(), 1), None);
        let mut faulty = asked();
        faulty.order.lines[0].count = 1_000_000;
        let (outcome, finished) = orders.step(&mut preview, &faulty, 2).expect("at once");
        assert!(finished && outcome.is_err());
        assert_eq!(told(&mut orders, &asked(), 3).0.len(), 2);
    }
}
