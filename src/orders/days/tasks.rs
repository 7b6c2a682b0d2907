//! Open orders as tasks, and the turns in which they are brought into the days.

use super::calendar::Calendar;
use super::schedule::{Schedule, Studio, Task};
use crate::kiln::data::Kiln;
use crate::orders::loads::{Loads, kiln};
use crate::orders::model::{Line, Order};
use jiff::civil::Date;
use std::cmp::Reverse;

/// An order that is brought into the days: it, its loads, and so many pieces made of each line.
#[derive(Clone, Copy, Debug)]
pub struct Job<'a> {
    /// The order.
    pub order: &'a Order,
    /// Its loads.
    pub loads: &'a Loads,
    /// Pieces made of each line.
    pub made: &'a [u32],
}

/// The orders as tasks, the one that is asked about first, with the order in which they are brought in.
pub struct Tasks {
    /// One task for each order.
    pub tasks: Vec<Task>,
    /// In which order they are brought in.
    turns: Vec<usize>,
}

impl Tasks {
    /// The tasks of an order and of others.
    pub fn new(job: &Job, others: &[Job], today: Date) -> Self {
        let jobs: Vec<&Job> = [job].into_iter().chain(others).collect();
        let mut kilns: Vec<Kiln> = Vec::new();
        let mut tasks = Vec::new();
        for job in &jobs {
            let own = kiln(job.order);
            let at = kilns.iter().position(|other| *other == own).unwrap_or_else(|| {
                kilns.push(own);
                kilns.len() - 1
            });
            tasks.push(task(job, today, at));
        }
        let mut turns: Vec<usize> = (0..jobs.len()).collect();
        // What is due first is made first, unless the maker has said otherwise; what is not due at all comes last.
        turns.sort_by_key(|at| (Reverse(jobs[*at].order.ahead), jobs[*at].order.due.unwrap_or(Date::MAX)));
        Self { tasks, turns }
    }

    /// All orders brought into the days, with the first of them as it is given here.
    pub fn plan(&self, first: &Task, before_all: bool) -> Vec<Schedule> {
        let mut studio = Studio::default();
        let mut schedules = vec![Schedule::default(); self.tasks.len()];
        let turns = self.turns.iter().copied().filter(|at| !before_all || *at != 0);
        for at in before_all.then_some(0).into_iter().chain(turns) {
            schedules[at] = studio.plan(if at == 0 { first } else { &self.tasks[at] });
        }
        schedules
    }
}

fn task(job: &Job, today: Date, kiln: usize) -> Task {
    let calendar = Calendar::new(today, &job.order.work.days);
    let from = job.order.starts.map_or(0, |date| calendar.day(date).max(0));
    Task {
        work: job.order.work.clone(),
        starts: calendar.workday(from),
        wishes: job
            .order
            .wishes
            .iter()
            .map(|wish| (wish.what, wish.after, calendar.day(wish.not_before)))
            .collect(),
        mounted: job.order.lines.iter().map(Line::mounted).collect(),
        batches: job.loads.batches.clone(),
        kiln,
        kiln_to_itself: false,
        calendar,
    }
}
