//! The days of an order: what is done when, beside all other open orders; when it is ready, and what would make it earlier.
//!
//! Days are counted from a day that the caller calls today: nothing here looks at a clock.

mod calendar;
mod hands;
mod kiln_book;
mod remedies;
mod schedule;
mod tasks;

pub use super::model::What;
pub use remedies::{Change, Earlier, Pace};
pub use tasks::Job;

use super::model::{Line, Order};
use crate::base::notice::{Notice, Severity, Step};
use crate::base::units::Minutes;
use calendar::Calendar;
use jiff::civil::Date;
use schedule::Schedule;
use serde::{Deserialize, Serialize};
use tasks::Tasks;

/// The days of an order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Days {
    /// Everything that is done, by day.
    pub doings: Vec<Doing>,
    /// The day on which it is ready.
    pub ready: Date,
    /// Days from then until it is due: below zero if it is late. None without a due date.
    pub in_hand: Option<i64>,
    /// What sets the pace.
    pub pace: Pace,
    /// Hand work in all.
    pub hand_work: Minutes,
    /// What would make it earlier, most first.
    pub earlier: Vec<Earlier>,
    /// When the other orders are ready.
    pub others: Vec<Other>,
    /// What the maker should know.
    pub notices: Vec<Notice>,
}

/// Something that is done on a day.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Doing {
    /// The day.
    pub day: Date,
    /// What.
    pub what: What,
    /// Pieces, of all lines.
    pub pieces: u32,
    /// Of which line how many.
    pub of: Vec<(usize, u32)>,
    /// Of a firing: the hour on the clock at which it is switched on, and the hours until it is opened.
    pub fires: Option<(f64, f64)>,
}

/// Another open order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Other {
    /// Its title.
    pub title: String,
    /// The day on which it is ready.
    pub ready: Date,
    /// Days from then until it is due.
    pub in_hand: Option<i64>,
}

/// The days of an order beside all other open ones, from today on. None if something of it cannot be fired.
pub fn days(job: &Job, others: &[Job], today: Date) -> Option<Days> {
    let fired = |job: &Job| job.loads.notices.iter().all(|notice| notice.severity != Severity::Fault);
    if !fired(job) {
        return None;
    }
    let others: Vec<Job> = others.iter().filter(|other| fired(other)).copied().collect();
    let tasks = Tasks::new(job, &others, today);
    let task = &tasks.tasks[0];
    let schedules = tasks.plan(task, false);
    let ready = task.calendar.date(schedules[0].ready);
    let in_hand =
        |order: &Order, ready: Date| order.due.map(|due| task.calendar.day(due) - task.calendar.day(ready));
    let others: Vec<Other> = others
        .iter()
        .zip(&schedules[1..])
        .map(|(other, schedule)| {
            let ready = task.calendar.date(schedule.ready);
            Other { title: other.order.title.clone(), ready, in_hand: in_hand(other.order, ready) }
        })
        .collect();
    let earlier = remedies::earlier(&tasks, schedules[0].ready);
    let in_hand = in_hand(job.order, ready);
    Some(Days {
        doings: doings(&task.calendar, &schedules[0]),
        ready,
        in_hand,
        pace: remedies::pace(&tasks, schedules[0].ready),
        hand_work: hand_work(job),
        notices: notices(job.order, today, ready, in_hand, &earlier),
        earlier,
        others,
    })
}

fn doings(calendar: &Calendar, schedule: &Schedule) -> Vec<Doing> {
    let mut doings: Vec<Doing> = schedule
        .done
        .iter()
        .map(|done| Doing {
            day: calendar.date(done.day),
            what: done.what,
            pieces: done.pieces.iter().map(|(_, count)| count).sum(),
            of: done.pieces.clone(),
            fires: done.fires,
        })
        .collect();
    doings.sort_by_key(|doing| doing.day);
    doings
}

/// Hand work for all pieces; loading counts for every firing that a piece goes into.
fn hand_work(job: &Job) -> Minutes {
    let minutes = &job.order.work.minutes;
    let made: u32 = job.made.iter().sum();
    let mounted: u32 = job.order.lines.iter().map(Line::mounted).sum();
    let loads = job.loads.batches.iter().flat_map(|batch| &batch.loads).flatten();
    let loaded: u32 = loads.map(|(_, count)| count).sum();
    let before = (minutes.cut.0 + minutes.sift.0) * f64::from(made);
    Minutes(before + minutes.load.0 * f64::from(loaded) + minutes.mount.0 * f64::from(mounted))
}

fn notices(
    order: &Order,
    today: Date,
    ready: Date,
    in_hand: Option<i64>,
    earlier: &[Earlier],
) -> Vec<Notice> {
    let mut notices = Vec::new();
    let Some((due, in_hand)) = order.due.zip(in_hand) else { return notices };
    let risk = |what: String, why: String, remedy: String| {
        Notice::new(Severity::Risk, Step::Ticket, what, why, remedy)
    };
    if due < today {
        let why = format!("It was due on {due}, and today is {today}.");
        notices.push(risk(
            "Due on a day that is past.".into(),
            why,
            format!("Agree on another day: {ready} can be kept."),
        ));
    } else if in_hand < 0 {
        let late = counted(-in_hand, "day");
        let why = format!("It is due on {due}, and ready on {ready}.");
        let does = |change: &&Earlier| change.days >= -in_hand;
        let best = earlier.iter().find(does).or(earlier.first());
        let remedy = best.map_or_else(
            || format!("Agree on {ready}."),
            |best| {
                format!("{}: then it is ready on {}. Or agree on {ready}.", best.change.words(), best.ready)
            },
        );
        notices.push(risk(format!("Ready {late} after it is due."), why, remedy));
    }
    notices
}

/// A number of things.
fn counted(count: i64, thing: &str) -> String {
    format!("{count} {thing}{}", if count == 1 { "" } else { "s" })
}
