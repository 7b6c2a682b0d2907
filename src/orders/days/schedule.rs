//! One order after the other brought into the days: every step as early as what it needs, the maker's hands and the kiln allow.

use super::calendar::{Calendar, Day};
use super::hands::Hands;
use super::kiln_book::{Hours, KilnBook, clock, evening, midnight, taken_out};
use crate::base::firing::Firing;
use crate::orders::loads::{Batch, Load};
use crate::orders::model::{What, Work};

/// Something that is done on a day.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// What.
    pub what: What,
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
    /// Days before which a step is not begun: the step, pieces that need not wait, the day.
    pub wishes: Vec<(What, u32, Day)>,
    /// Pieces of each line that are mounted.
    pub mounted: Vec<u32>,
    /// Its loads.
    pub batches: Vec<Batch>,
    /// Which kiln it is fired in, of all.
    pub kiln: usize,
    /// Whether anything else may be in the kiln at the same time: to find out what the kiln costs in time.
    pub kiln_to_itself: bool,
}

impl Task {
    /// The day before which a step of a piece is not begun, by its place in the order of making.
    fn wished(&self, what: What, at: usize) -> Day {
        let holds = |wish: &&(What, u32, Day)| wish.0 == what && wish.1 as usize <= at;
        self.wishes.iter().filter(holds).map(|wish| wish.2).fold(self.starts, Day::max)
    }
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
    hands: Hands,
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
            What::Cut,
            minutes.cut.0,
            &first,
            &vec![task.starts; first.len()],
        );
        let sifted = self.by_hand(task, &mut schedule, What::Sift, minutes.sift.0, &first, &cut);
        let mut ready = by_line(&first, &sifted);
        let mut opened = 0.0_f64;
        let mut last = None;
        let mut before = 0;
        for batch in &task.batches {
            if last.replace(batch.firing) != Some(batch.firing) {
                before = 0;
            }
            for load in &batch.loads {
                let wished = task.wished(What::Fire(batch.firing), before);
                before += load.iter().map(|(_, count)| *count as usize).sum::<usize>();
                let needs = take(&mut ready, batch.firing, load).max(midnight(wished));
                let from = if task.kiln_to_itself { needs } else { needs.max(opened) };
                let begins = self.fire(task, from, batch.hours);
                let out = begins + batch.hours;
                opened = opened.max(out);
                put(&mut ready, batch.firing, load, out);
                let (day, hour) = clock(begins);
                let fires = Some((hour, batch.hours));
                schedule.done.push(Done { what: What::Fire(batch.firing), day, pieces: load.clone(), fires });
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
        what: What,
        minutes: f64,
        pieces: &[usize],
        from: &[Day],
    ) -> Vec<Day> {
        let mut day = task.starts;
        let mut days = Vec::new();
        for (at, (line, from)) in pieces.iter().zip(from).enumerate() {
            let from = day.max(*from).max(task.wished(what, at));
            day = self.hands.work(&task.calendar, from, minutes, task.work.a_day.0);
            note(&mut schedule.done, what, day, *line);
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
        let days = self.by_hand(task, schedule, What::Mount, minutes, &pieces, &from);
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
fn note(done: &mut Vec<Done>, what: What, day: Day, line: usize) {
    if let Some(last) = done.last_mut().filter(|last| last.what == what && last.day == day) {
        match last.pieces.iter_mut().find(|(of, _)| *of == line) {
            Some((_, count)) => *count += 1,
            None => last.pieces.push((line, 1)),
        }
    } else {
        done.push(Done { what, day, pieces: vec![(line, 1)], fires: None });
    }
}
