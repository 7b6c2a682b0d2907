//! The order: what to weigh, cut and fire, when, and what it costs, for the eye or as JSON.

use super::arguments::Order as Arguments;
use super::order_lines::in_lines;
use super::outcome::{Outcome, print};
use super::piece::{faults, tell, text_of};
use dappledome::base::memo::Allowance;
use dappledome::base::notice::Severity;
use dappledome::orders::file::{self, MOST_BYTES};
use dappledome::orders::loads::kiln;
use dappledome::orders::model::Order;
use dappledome::orders::worked::{Worked, work_out};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::serve::trouble::Trouble;
use dappledome::shop::ticket::ticket;
use jiff::ZonedDateTime;
use jiff::civil::Date;
use std::path::Path;

/// Prints it.
pub fn run(arguments: &Arguments) -> Outcome {
    let order = read(&arguments.order)?;
    let others = arguments.beside.iter().map(|path| read(path)).collect::<Result<Vec<_>, _>>()?;
    let today = arguments.today.unwrap_or_else(|| ZonedDateTime::now().date());
    let worked = worked(&order, &others, today, &mut Preview::new())?;
    worked.notices.iter().filter(|notice| notice.severity != Severity::Fault).for_each(tell);
    if arguments.json {
        let json = serde_json::to_string_pretty(&worked).expect("an order has only strings and numbers");
        print(&(json + "\n"))?;
    } else {
        print(&in_lines(&order, &worked))?;
    }
    // What can be said is said first: grams and discs are right also where a firing is not.
    let faults = faults(worked.notices);
    if faults.is_empty() { Ok(()) } else { Err(faults) }
}

/// Reads an order file.
pub fn read(path: &Path) -> Result<Order, Trouble> {
    file::read(&text_of(path, "order", MOST_BYTES)?).map_err(|notice| {
        let trouble = Trouble::from(notice);
        Trouble { what: format!("{}: {}", path.display(), trouble.what), ..trouble }
    })
}

/// Works an order out.
pub fn worked(
    order: &Order,
    others: &[Order],
    today: Date,
    preview: &mut Preview,
) -> Result<Worked, Vec<Trouble>> {
    let kiln = kiln(order);
    let one = |plan: &Plan, seed| {
        ticket(preview, plan, seed, &kiln, &mut Allowance::unlimited())
            .expect("an unlimited allowance never pauses")
    };
    work_out(order, others, today, one).map_err(faults)
}
