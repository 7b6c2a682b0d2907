//! The order: what to weigh, cut and fire, when, and what it costs, for the eye or as JSON.

use super::arguments::Order as Arguments;
use super::order_lines::in_lines;
use super::outcome::{Outcome, print};
use super::piece;
use dappledome::base::memo::Allowance;
use dappledome::base::notice::Severity;
use dappledome::orders::file::{self, MOST_BYTES};
use dappledome::orders::loads::kiln;
use dappledome::orders::model::Order;
use dappledome::orders::worked::work_out;
use dappledome::preview::Preview;
use dappledome::serve::say::say;
use dappledome::serve::trouble::Trouble;
use dappledome::shop::ticket::ticket;
use jiff::ZonedDateTime;
use std::path::Path;

/// Prints it.
pub fn run(arguments: &Arguments) -> Outcome {
    let order = read(&arguments.order)?;
    let others = arguments.beside.iter().map(|path| read(path)).collect::<Result<Vec<_>, _>>()?;
    let today = arguments.today.unwrap_or_else(|| ZonedDateTime::now().date());
    let kiln = kiln(&order);
    let mut preview = Preview::new();
    let worked = work_out(&order, &others, today, |plan, seed| {
        ticket(&mut preview, plan, seed, &kiln, &mut Allowance::unlimited())
            .expect("an unlimited allowance never pauses")
    })
    .map_err(|notices| {
        let faults = notices.into_iter().filter(|notice| notice.severity == Severity::Fault);
        faults.map(Trouble::from).collect::<Vec<_>>()
    })?;
    for notice in &worked.notices {
        match notice.severity {
            Severity::Fault => {}
            Severity::Risk => say(&format!("Risk: {notice}")),
            Severity::Note => say(&format!("Note: {notice}")),
        }
    }
    if arguments.json {
        let json = serde_json::to_string_pretty(&worked).expect("an order has only strings and numbers");
        print(&(json + "\n"))?;
    } else {
        print(&in_lines(&order, &worked))?;
    }
    // What can be said is said first: grams and discs are right also where a firing is not.
    let faults = worked.notices.into_iter().filter(|notice| notice.severity == Severity::Fault);
    let faults: Vec<_> = faults.map(Trouble::from).collect();
    if faults.is_empty() { Ok(()) } else { Err(faults) }
}

fn read(path: &Path) -> Result<Order, Trouble> {
    file::read(&piece::text_of(path, "order", MOST_BYTES)?).map_err(|notice| {
        let trouble = Trouble::from(notice);
        Trouble { what: format!("{}: {}", path.display(), trouble.what), ..trouble }
    })
}
