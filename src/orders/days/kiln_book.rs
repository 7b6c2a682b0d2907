//! Who has the kiln when.

use super::calendar::{Calendar, Day};

/// Hours from midnight before today.
pub type Hours = f64;

/// Between these hours the kiln may be switched on in the evening (chosen).
pub const EVENING: (Hours, Hours) = (18.0, 22.0);
/// And between these in the morning, if it is fired by day as well (chosen).
pub const MORNING: (Hours, Hours) = (8.0, 12.0);

/// A day in hours.
const DAY: Hours = 24.0;

/// The firings that are planned, as (switched on, opened).
#[derive(Clone, Debug, Default)]
pub struct KilnBook(Vec<(Hours, Hours)>);

impl KilnBook {
    /// Books the first free time from `from` on: at an evening or a morning of a workday.
    pub fn book(&mut self, calendar: &Calendar, from: Hours, takes: Hours, by_day: bool) -> Hours {
        let windows: &[_] = if by_day { &[MORNING, EVENING] } else { &[EVENING] };
        let mut day = (from / DAY).floor() as Day;
        loop {
            if calendar.works(day) {
                let midnight = midnight(day);
                let free = windows.iter().find_map(|(opens, closes)| {
                    self.free((midnight + opens).max(from), takes, midnight + closes)
                });
                if let Some(begins) = free {
                    self.0.push((begins, begins + takes));
                    return begins;
                }
            }
            day += 1;
        }
    }

    /// The first free time that begins no later than `closes`.
    fn free(&self, from: Hours, takes: Hours, closes: Hours) -> Option<Hours> {
        let mut begins = from;
        // Each round passes a firing that is in the way.
        while begins <= closes {
            let in_the_way = self.0.iter().find(|(on, opened)| *on < begins + takes && begins < *opened);
            match in_the_way {
                Some((_, opened)) => begins = *opened,
                None => return Some(begins),
            }
        }
        None
    }
}

/// The first day on whose morning something can be taken out of the kiln: it is opened before noon, or on the day before.
pub fn taken_out(opened: Hours) -> Day {
    (opened / DAY + 0.5).floor() as Day
}

/// The day of an hour, and the hour on its clock.
pub fn clock(hours: Hours) -> (Day, Hours) {
    let day = (hours / DAY).floor();
    (day as Day, hours - day * DAY)
}

/// The hour at which a day begins.
pub fn midnight(day: Day) -> Hours {
    day as f64 * DAY
}

/// The evening of a day.
pub fn evening(day: Day) -> Hours {
    midnight(day) + EVENING.0
}
