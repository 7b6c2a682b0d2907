//! One order after the other brought into the days: every step as early as what it needs, the maker's hands and the kiln allow.

use super::bench::Bench;
use super::calendar::{Calendar, Day};
use super::kiln_book::{Hours, KilnBook, clock, evening, taken_out};
use crate::base::firing::Firing;
use crate::orders::loads::{Batch, Load};
use crate::orders::model::Work;

/// What is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Discs are cut.
    Cut,
    /// Powder is sifted and dabbed.
    Sift,
    /// The kiln fires.
    Fire(Firing),
    /// Pieces are mounted.
    Mount,
}

/// Something that is done on a day.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// What.
    pub step: Step,
    /// When.
    pub day: Day,
    /// With which pieces: (line, pieces).
    pub pieces: Load,
    /// Of a firing: when it is switched on, by the clock of that day, and hours until it is opened.
    pub fires: Option<(Hours, Hours)>,
}

/// An order as it is brought into the days.
#[derive(Clone, Debug)]
pub struct Task {
    /// The maker's work.
    pub work: Work,
    /// The days that are worked on.
    pub calendar: Calendar,
    /// The first day.
    pub starts: Day,
    /// Pieces of each line that are mounted.
    pub mounted: Vec<u32>,
    /// Its loads.
    pub batches: Vec<Batch>,
    /// Which kiln it is fired in, of all.
    pub kiln: usize,
    /// Whether anything else may be in the kiln at the same time: to find out what the kiln costs in time.
    pub kiln_to_itself: bool,
}

/// What an order takes.
#[derive(Clone, Debug, Default)]
pub struct Schedule {
    /// Everything that is done, in the order in which it was planned.
    pub done: Vec<Done>,
    /// The day on which it is ready.
    pub ready: Day,
}

/// What all orders share.
#[derive(Clone, Debug, Default)]
pub struct Studio {
    kilns: Vec<KilnBook>,
    bench: Bench,
}

impl Studio {
    /// Brings an order into the days, beside those that were brought in before. One piece more never makes it ready earlier: every
    /// step begins by the latest of what it needs, and a further piece only comes behind the others.
    pub fn plan(&mut self, task: &Task) -> Schedule {
        let mut schedule = Schedule { done: Vec::new(), ready: task.starts };
        let first: Vec<usize> = first_firings(&task.batches);
        let minutes = &task.work.minutes;
        let cut = self.by_hand(
            task,
            &mut schedule,
            Step::Cut,
            minutes.cut.0,
            &first,
            &vec![task.starts; first.len()],
        );
        let sifted = self.by_hand(task, &mut schedule, Step::Sift, minutes.sift.0, &first, &cut);
        let mut ready = by_line(&first, &sifted);
        let mut opened = 0.0_f64;
        for batch in &task.batches {
            for load in &batch.loads {
                let needs = take(&mut ready, batch.firing, load);
                let from = if task.kiln_to_itself { needs } else { needs.max(opened) };
                let begins = self.fire(task, from, batch.hours);
                let out = begins + batch.hours;
                opened = opened.max(out);
                put(&mut ready, batch.firing, load, out);
                let (day, hour) = clock(begins);
                let fires = Some((hour, batch.hours));
                schedule.done.push(Done { step: Step::Fire(batch.firing), day, pieces: load.clone(), fires });
            }
        }
        let out = task.calendar.workday(taken_out(opened).max(task.starts));
        schedule.ready = self.mount(task, &mut schedule, out);
        schedule
    }

    /// Hand work piece by piece, each not before its day; gives the day on which each is done.
    fn by_hand(
        &mut self,
        task: &Task,
        schedule: &mut Schedule,
        step: Step,
        minutes: f64,
        pieces: &[usize],
        from: &[Day],
    ) -> Vec<Day> {
        let mut day = task.starts;
        let mut days = Vec::new();
        for (line, from) in pieces.iter().zip(from) {
            day = self.bench.work(&task.calendar, day.max(*from), minutes, task.work.a_day.0);
            note(&mut schedule.done, step, day, *line);
            days.push(day);
        }
        days
    }

    fn fire(&mut self, task: &Task, from: Hours, takes: Hours) -> Hours {
        if task.kiln_to_itself {
            return KilnBook::default().book(&task.calendar, from, takes, task.work.fires_by_day);
        }
        if self.kilns.len() <= task.kiln {
            self.kilns.resize_with(task.kiln + 1, KilnBook::default);
        }
        self.kilns[task.kiln].book(&task.calendar, from, takes, task.work.fires_by_day)
    }

    /// Mounts the best of what has come out, once all has, and lets it rest.
    fn mount(&mut self, task: &Task, schedule: &mut Schedule, out: Day) -> Day {
        let minutes = task.work.minutes.mount.0;
        let each = task.mounted.iter().enumerate();
        let pieces: Vec<usize> = each.flat_map(|(line, count)| vec![line; *count as usize]).collect();
        let from = vec![out; pieces.len()];
        let days = self.by_hand(task, schedule, Step::Mount, minutes, &pieces, &from);
        days.last().map_or(out, |day| day + Day::from(task.work.cure_days))
    }
}

/// The line of each piece, in the order in which they go into their first firing.
fn first_firings(batches: &[Batch]) -> Vec<usize> {
    let first = batches.iter().filter(|batch| batch.firing == Firing::FullFuse);
    let loads = first.flat_map(|batch| &batch.loads).flatten();
    loads.flat_map(|(line, count)| vec![*line; *count as usize]).collect()
}

/// When each piece of each line is ready for its next firing.
struct Ready {
    /// The firing that it comes out of, none before the first; the time, and the line.
    pieces: Vec<(Option<Firing>, Hours, usize)>,
}

fn by_line(lines: &[usize], sifted: &[Day]) -> Ready {
    let pieces = lines.iter().zip(sifted).map(|(line, day)| (None, evening(*day), *line)).collect();
    Ready { pieces }
}

/// The time from which all pieces of a load are there: the first of each line that have not been in this firing.
fn take(ready: &mut Ready, firing: Firing, load: &Load) -> Hours {
    let mut from = 0.0_f64;
    for (line, count) in load {
        let waiting = ready.pieces.iter().filter(|(done, _, of)| of == line && *done != Some(firing));
        from = waiting.take(*count as usize).map(|(_, at, _)| *at).fold(from, f64::max);
    }
    from
}

/// They come out of it.
fn put(ready: &mut Ready, firing: Firing, load: &Load, out: Hours) {
    for (line, count) in load {
        let waiting = ready.pieces.iter_mut().filter(|(done, _, of)| of == line && *done != Some(firing));
        waiting.take(*count as usize).for_each(|piece| *piece = (Some(firing), out, *line));
    }
}

/// Adds a piece to what is done on a day.
fn note(done: &mut Vec<Done>, step: Step, day: Day, line: usize) {
    if let Some(last) = done.last_mut().filter(|last| last.step == step && last.day == day) {
        match last.pieces.iter_mut().find(|(of, _)| *of == line) {
            Some((_, count)) => *count += 1,
            None => last.pieces.push((line, 1)),
        }
    } else {
        done.push(Done { step, day, pieces: vec![(line, 1)], fires: None });
    }
}
