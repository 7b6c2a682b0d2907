//! The days of an order side by side, and what is done on each, as plain data.

use crate::words;
use dappledome::orders::bench::Bench;
use dappledome::orders::days::{Days, What};
use dappledome::orders::model::Date;

/// Days that stand there at least.
const LEAST: usize = 14;
/// And at most: what lies beyond is not drawn.
const MOST: usize = 180;
/// How many times as wide a day is on which something is done, or may be moved to.
const BUSY: f64 = 3.0;
/// Days after the last one on which something is done that are as wide.
const FREE: usize = 2;

/// A day.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Which.
    pub date: Date,
    /// Whether it is worked on.
    pub works: bool,
    /// Where it begins, of all the room 1.
    pub left: f64,
    /// How wide it is.
    pub wide: f64,
}

/// Something that is done, as it stands there.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// What.
    pub what: What,
    /// On which day, counted from the first.
    pub day: usize,
    /// Where it begins, of all the room 1.
    pub left: f64,
    /// How wide it is.
    pub wide: f64,
    /// Pieces of the shown line; in the kiln, all.
    pub pieces: u32,
    /// Pieces that are done in the same way before, of all lines.
    pub after: u32,
    /// Whether it is a firing.
    pub fires: bool,
    /// The same in words.
    pub said: String,
}

/// The days of an order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Axis {
    /// The days.
    pub columns: Vec<Column>,
    /// What is done, one after the other.
    pub bars: Vec<Bar>,
    /// Where the due day ends.
    pub due: Option<f64>,
    /// From where to where what is mounted rests.
    pub rest: Option<(f64, f64)>,
    /// The last day that stands there and what is done after it, where it is ready later than that.
    pub beyond: Option<(Date, usize)>,
}

impl Axis {
    /// The days of a worked out order from a day on, with the pieces of one line.
    pub fn new(days: &Days, due: Option<Date>, bench: &Bench, line: usize, today: Date) -> Self {
        let last_done = days.doings.iter().map(|doing| doing.day).max().unwrap_or(today);
        let end = days.ready.max(due.unwrap_or(today));
        let columns = columns(today, last_done, end, bench);
        let mut axis = Self { columns, ..Self::default() };
        let mut before: Vec<(What, u32)> = Vec::new();
        for doing in &days.doings {
            let after = before.iter().filter(|(what, _)| *what == doing.what).map(|(_, pieces)| pieces).sum();
            before.push((doing.what, doing.pieces));
            let Some(day) = axis.day(doing.day) else { continue };
            let own: u32 = doing.of.iter().filter(|(of, _)| *of == line).map(|(_, count)| count).sum();
            let Column { left, wide, .. } = axis.columns[day];
            let (from, to) = match doing.fires {
                Some((at, hours)) => (at / 24.0, axis.until(day, at + hours)),
                None => (0.1, left + 0.8 * wide),
            };
            let left = left + from * wide;
            let pieces = if doing.fires.is_some() { doing.pieces } else { own };
            let (fires, said) = (doing.fires.is_some(), words::doing(doing));
            axis.bars.push(Bar { what: doing.what, day, left, wide: to - left, pieces, after, fires, said });
        }
        axis.due = due.and_then(|due| axis.end_of(due));
        let mounted = axis.bars.iter().rev().find(|bar| bar.what == What::Mount);
        let last = axis.columns.last().map(|column| column.date).filter(|last| *last < days.ready);
        axis.beyond = last.map(|last| (last, days.doings.iter().filter(|doing| doing.day > last).count()));
        axis.rest = mounted.map(|bar| bar.left + bar.wide).zip(axis.end_of(days.ready));
        axis
    }

    /// The place of a day.
    pub fn day(&self, date: Date) -> Option<usize> {
        self.columns.iter().position(|column| column.date == date)
    }

    /// The day at a place.
    pub fn at(&self, place: f64) -> usize {
        let last = self.columns.len().saturating_sub(1);
        self.columns.iter().position(|column| place < column.left + column.wide).unwrap_or(last)
    }

    fn end_of(&self, date: Date) -> Option<f64> {
        self.day(date).map(|day| self.columns[day].left + self.columns[day].wide)
    }

    /// The place of an hour, counted from midnight before a day.
    fn until(&self, mut day: usize, mut hours: f64) -> f64 {
        while hours > 24.0 && day + 1 < self.columns.len() {
            (day, hours) = (day + 1, hours - 24.0);
        }
        self.columns.get(day).map_or(1.0, |column| column.left + column.wide * (hours / 24.0).min(1.0))
    }
}

fn columns(today: Date, last_done: Date, end: Date, bench: &Bench) -> Vec<Column> {
    let mut dates = vec![today];
    while let Some(last) = dates.last().copied()
        && (last < end || dates.len() < LEAST)
        && dates.len() < MOST
    {
        let Ok(next) = last.tomorrow() else { break };
        dates.push(next);
    }
    let done = dates.iter().position(|date| *date >= last_done).unwrap_or(dates.len()) + FREE;
    let weight = |at: usize| if at <= done { BUSY } else { 1.0 };
    let all: f64 = (0..dates.len()).map(weight).sum();
    let mut left = 0.0;
    let works = |date: Date| bench.work.days.iter().any(|day| day.weekday() == date.weekday());
    let mut columns = Vec::new();
    for (at, date) in dates.into_iter().enumerate() {
        let wide = weight(at) / all;
        columns.push(Column { date, works: works(date), left, wide });
        left += wide;
    }
    columns
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::firing::Firing;
    use dappledome::base::units::Minutes;
    use dappledome::orders::days::{Doing, Pace};

    /// A Monday.
    fn today() -> Date {
        Date::new(2026, 11, 30).unwrap()
    }

    fn days() -> Days {
        let doing = |day: i8, what, pieces, fires| Doing {
            day: Date::new(2026, 12, day).unwrap(),
            what,
            pieces,
            of: vec![(0, pieces - 2), (1, 2)],
            fires,
        };
        let fuse = What::Fire(Firing::FullFuse);
        Days {
            doings: vec![
                doing(1, What::Sift, 7, None),
                doing(1, fuse, 7, Some((18.0, 14.0))),
                doing(2, fuse, 7, Some((18.0, 14.0))),
            ],
            ready: Date::new(2026, 12, 4).unwrap(),
            in_hand: None,
            pace: Pace::Neither,
            hand_work: Minutes(0.0),
            earlier: Vec::new(),
            others: Vec::new(),
            notices: Vec::new(),
        }
    }

    #[test]
    fn days_fill_the_room_and_free_ones_are_narrow() {
        let axis = Axis::new(&days(), Date::new(2026, 12, 18).ok(), &Bench::default(), 0, today());
        assert_eq!((axis.columns.len(), axis.columns[0].date), (19, today()));
        let last = &axis.columns[18];
        assert!((last.left + last.wide - 1.0).abs() < 1e-9);
        assert!((axis.columns[0].wide / last.wide - BUSY).abs() < 1e-9);
        let works: Vec<bool> = axis.columns[..7].iter().map(|column| column.works).collect();
        assert_eq!(works, [true, true, true, true, true, false, false]);
        assert_eq!((axis.due, axis.at(0.9999), axis.at(-1.0)), (Some(last.left + last.wide), 18, 0));
    }

    /// From 30 November 180 days reach to 28 May, two days after which it is ready; the last firing is on the day before.
    #[test]
    fn what_is_not_drawn_any_more_is_counted() {
        let mut long = days();
        assert_eq!(Axis::new(&long, None, &Bench::default(), 0, today()).beyond, None);
        long.ready = Date::new(2027, 5, 30).unwrap();
        long.doings[2].day = Date::new(2027, 5, 29).unwrap();
        let axis = Axis::new(&long, None, &Bench::default(), 0, today());
        assert_eq!((axis.columns.len(), axis.bars.len()), (180, 2));
        assert_eq!(axis.beyond, Some((Date::new(2027, 5, 28).unwrap(), 1)));
    }

    /// On at 18, opened after 14 h at 8 the next morning: 14 of 24 parts of a day wide.
    #[test]
    fn a_firing_is_as_long_as_it_burns() {
        let axis = Axis::new(&days(), None, &Bench::default(), 0, today());
        let (sift, fuse, next) = (&axis.bars[0], &axis.bars[1], &axis.bars[2]);
        let day = axis.columns[1].wide;
        assert!(
            (fuse.wide / day - 14.0 / 24.0).abs() < 1e-9 && (fuse.left - axis.columns[1].left) / day > 0.74
        );
        assert_eq!((sift.pieces, fuse.pieces, fuse.after, next.after), (5, 7, 0, 7));
        assert_eq!(next.said, "Wed 2 Dec: Full fuse, 7 pieces, on at 18:00, 14.0 h");
    }
}
