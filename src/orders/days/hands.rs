//! Hand work: minutes of each day that are taken.

use super::calendar::{Calendar, Day};
use std::collections::BTreeMap;

/// Minutes that are taken, by day.
#[derive(Clone, Debug, Default)]
pub struct Hands(BTreeMap<Day, f64>);

/// Less than this of a day, minutes, is nothing left.
const NOTHING: f64 = 1e-6;

impl Hands {
    /// Does work of so many minutes from a day on, with so many of each workday, and gives the day on which it is done.
    pub fn work(&mut self, calendar: &Calendar, from: Day, minutes: f64, a_day: f64) -> Day {
        let (mut day, mut left) = (calendar.workday(from), minutes);
        loop {
            let taken = self.0.entry(day).or_insert(0.0);
            let some = left.min((a_day - *taken).max(0.0));
            *taken += some;
            left -= some;
            if left <= NOTHING {
                return day;
            }
            day = calendar.workday(day + 1);
        }
    }
}
