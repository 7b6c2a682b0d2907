//! Days as they are written on paper.

use jiff::civil::Date;

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

/// A day: `18 December 2026`.
pub fn day(date: Date) -> String {
    format!("{} {}", date.day(), month(date))
}

/// A day with its name: `Monday 14 December 2026`.
pub fn weekday(date: Date) -> String {
    format!("{} {}", DAYS[date.weekday().to_monday_zero_offset() as usize], day(date))
}

/// A month: `December 2026`.
pub fn month(date: Date) -> String {
    format!("{} {}", MONTHS[date.month() as usize - 1], date.year())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_written_out() {
        let day = jiff::civil::date(2026, 11, 30);
        assert_eq!(weekday(day), "Monday 30 November 2026");
        assert_eq!(weekday(jiff::civil::date(2026, 12, 6)), "Sunday 6 December 2026");
    }
}
