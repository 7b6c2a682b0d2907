//! Days counted from today, and which of them are worked on.

use crate::orders::model::Workday;
use jiff::Span;
use jiff::civil::Date;

/// A day: how many after today.
pub type Day = i64;

/// Today, and the days of the week that are worked on.
#[derive(Clone, Debug)]
pub struct Calendar {
    today: Date,
    works: [bool; 7],
}

impl Calendar {
    /// A calendar with at least one workday; without one, every day is.
    pub fn new(today: Date, workdays: &[Workday]) -> Self {
        let mut works = [workdays.is_empty(); 7];
        for day in workdays {
            works[day.weekday().to_monday_zero_offset() as usize] = true;
        }
        Self { today, works }
    }

    /// The same with other workdays.
    #[must_use]
    pub fn with(&self, workdays: &[Workday]) -> Self {
        Self::new(self.today, workdays)
    }

    /// The date of a day; the last one that there is where that is beyond it.
    pub fn date(&self, day: Day) -> Date {
        Span::new().try_days(day).map_or(Date::MAX, |days| self.today.saturating_add(days))
    }

    /// The day of a date.
    pub fn day(&self, date: Date) -> Day {
        // From one date to another there are always so many days, never more than fit.
        self.today.until(date).map_or(0, |span| i64::from(span.get_days()))
    }

    /// Whether it is worked on.
    pub fn works(&self, day: Day) -> bool {
        let first = i64::from(self.today.weekday().to_monday_zero_offset());
        self.works[(first + day).rem_euclid(7) as usize]
    }

    /// The first workday from this one on.
    pub fn workday(&self, from: Day) -> Day {
        (from..from + 7).find(|day| self.works(*day)).unwrap_or(from)
    }
}
