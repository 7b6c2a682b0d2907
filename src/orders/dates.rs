//! Days in words.

use jiff::civil::{Date, Weekday};

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];
const DAYS: [&str; 7] = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

/// The month of a day: `December`.
pub fn month_name(date: Date) -> &'static str {
    MONTHS[usize::from(date.month().unsigned_abs()).saturating_sub(1) % 12]
}

/// The day of the week: `Monday`.
pub fn weekday_name(date: Date) -> &'static str {
    DAYS[usize::from(date.weekday().to_monday_zero_offset().unsigned_abs()) % 7]
}

/// Whether a week begins with this day.
pub fn begins_a_week(date: Date) -> bool {
    date.weekday() == Weekday::Monday
}

/// A month: `December 2026`.
pub fn month(date: Date) -> String {
    format!("{} {}", month_name(date), date.year())
}

/// A day: `18 December 2026`.
pub fn day(date: Date) -> String {
    format!("{} {}", date.day(), month(date))
}

/// A day with its name: `Monday 14 December 2026`.
pub fn weekday(date: Date) -> String {
    format!("{} {}", weekday_name(date), day(date))
}

/// A day, short: `Fri 18 Dec`.
pub fn short(date: Date) -> String {
    format!("{} {} {}", &weekday_name(date)[..3], date.day(), &month_name(date)[..3])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_written_out() {
        let day = jiff::civil::date(2026, 11, 30);
        assert_eq!(weekday(day), "Monday 30 November 2026");
        assert_eq!(short(day), "Mon 30 Nov");
        assert_eq!(weekday(jiff::civil::date(2026, 12, 6)), "Sunday 6 December 2026");
    }
}
