//! What sets the pace of an order, and what would make it ready earlier: found by planning all anew with that one change.

use super::calendar::Day;
use super::schedule::Task;
use super::tasks::Tasks;
use crate::orders::loads::in_loads;
use crate::orders::model::Workday;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// What sets the pace.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Pace {
    /// The kiln: with one for every load it were ready earlier by so many days.
    Kiln(i64),
    /// Hand work: with any number of hands it were ready earlier by so many days.
    Hands(i64),
    /// Neither of them by itself.
    Neither,
}

/// A change that makes an order ready earlier.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Earlier {
    /// What to do.
    pub change: Change,
    /// The day on which it is ready then.
    pub ready: Date,
    /// Days earlier.
    pub days: i64,
}

/// What to do otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Change {
    /// Fire by day as well.
    FireByDay,
    /// Work on Saturdays as well.
    Saturdays,
    /// Work two hours more a day.
    LongerDays,
    /// Have one more mold of each kind.
    OneMoreMold,
    /// Make it before all other orders.
    BeforeOthers,
}

impl Change {
    /// The same for the maker.
    pub fn words(self) -> &'static str {
        match self {
            Self::FireByDay => "Fire by day as well",
            Self::Saturdays => "Work on Saturdays as well",
            Self::LongerDays => "Work two hours more a day",
            Self::OneMoreMold => "Get one more mold",
            Self::BeforeOthers => "Make it before the other orders",
        }
    }
}

/// Minutes of work added to a day.
const LONGER: f64 = 120.0;
/// The longest day of work, minutes.
const LONGEST: f64 = 960.0;

/// What makes it ready earlier than on this day, most first.
pub fn earlier(tasks: &Tasks, ready: Day) -> Vec<Earlier> {
    let now = &tasks.tasks[0];
    let all =
        [Change::FireByDay, Change::Saturdays, Change::LongerDays, Change::OneMoreMold, Change::BeforeOthers];
    let mut earlier = Vec::new();
    for change in all {
        let Some(task) = changed(now, change) else { continue };
        let then = tasks.plan(&task, change == Change::BeforeOthers)[0].ready;
        if then < ready {
            earlier.push(Earlier { change, ready: now.calendar.date(then), days: ready - then });
        }
    }
    earlier.sort_by_key(|earlier| std::cmp::Reverse(earlier.days));
    earlier
}

/// The task with a change; none where there is nothing to change.
fn changed(task: &Task, change: Change) -> Option<Task> {
    let mut other = task.clone();
    match change {
        Change::FireByDay if task.work.fires_by_day => return None,
        Change::FireByDay => other.work.fires_by_day = true,
        Change::Saturdays if task.work.days.contains(&Workday::Saturday) => return None,
        Change::Saturdays => {
            other.work.days.push(Workday::Saturday);
            other.calendar = task.calendar.with(&other.work.days);
        }
        Change::LongerDays if task.work.a_day.0 + LONGER > LONGEST => return None,
        Change::LongerDays => other.work.a_day.0 += LONGER,
        Change::OneMoreMold => {
            for batch in other.batches.iter_mut().filter(|batch| batch.molds_limit) {
                batch.holds += 1;
                let pieces: Vec<_> = batch.loads.iter().flatten().copied().collect();
                batch.loads = in_loads(&pieces, batch.holds);
            }
        }
        Change::BeforeOthers => {}
    }
    Some(other)
}

/// What sets the pace.
pub fn pace(tasks: &Tasks, ready: Day) -> Pace {
    let now = &tasks.tasks[0];
    let gains = |task: Task| ready - tasks.plan(&task, false)[0].ready;
    let kiln = gains(Task { kiln_to_itself: true, ..now.clone() });
    let mut hands = now.clone();
    hands.work.a_day.0 = f64::INFINITY;
    let hands = gains(hands);
    match kiln.cmp(&hands) {
        std::cmp::Ordering::Greater => Pace::Kiln(kiln),
        std::cmp::Ordering::Less => Pace::Hands(hands),
        std::cmp::Ordering::Equal => Pace::Neither,
    }
}
