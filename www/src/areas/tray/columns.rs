//! How large the discs are, how many of them stand in a row, and which.

use dappledome::base::seed::Seed;

/// Fewest and most discs in a row.
const COLUMNS: (usize, usize) = (2, 12);
/// Room for a scroll bar, px.
const SCROLL_BAR: f64 = 10.0;
/// Largest disc, rem: as large as it is drawn.
const MOST: f64 = 14.0;
/// What a row takes above its discs' size for their names, rem.
const NAMES: f64 = 2.375;

/// How the discs stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// Discs in a row.
    pub columns: usize,
    /// Width of a disc, px.
    pub disc: f64,
    /// From one disc to the next, px.
    pub pitch: f64,
}

/// The room that the discs stand in, px.
#[derive(Clone, Copy, Debug)]
pub struct Room {
    /// Its width.
    pub width: f64,
    /// Its height; none if it grows with its discs.
    pub height: Option<f64>,
    /// The size of the text.
    pub rem: f64,
}

impl Fit {
    /// The largest discs with which all of so many are in sight; the smallest that are used if not even those are. Every
    /// second row stands half a disc in. Nothing while the grid is not laid out.
    pub fn new(room: Room, count: usize) -> Option<Self> {
        let width = room.width - SCROLL_BAR;
        if width <= 0.0 {
            return None;
        }
        let least = least(room);
        let all_in_sight = (COLUMNS.0..=COLUMNS.1).filter_map(|columns| {
            let rows = count.div_ceil(columns).max(1);
            let high = room.height? / rows as f64 - NAMES * room.rem;
            let disc = across(room, width, columns, rows).min(high);
            (disc >= least).then_some((columns, disc))
        });
        let largest = all_in_sight.reduce(|best, next| if next.1 > best.1 { next } else { best });
        let (columns, disc) = largest.unwrap_or_else(|| {
            let fit = (width / (least + gap(room)) - 0.5) as usize;
            let columns = fit.clamp(COLUMNS.0, COLUMNS.1);
            (columns, across(room, width, columns, 2))
        });
        let disc = disc.floor();
        Some(Self { columns, disc, pitch: disc + gap(room) })
    }
}

/// The smallest disc, px: a narrow page has a smaller one, a very wide one a larger.
fn least(room: Room) -> f64 {
    let width = room.width / room.rem;
    room.rem
        * if width < 37.5 {
            5.25
        } else if width < 90.0 {
            6.125
        } else {
            8.0
        }
}

/// Between two discs of a row, px.
fn gap(room: Room) -> f64 {
    room.rem * if room.width < 37.5 * room.rem { 0.875 } else { 1.375 }
}

/// How wide so many discs in each of so many rows can be, px.
fn across(room: Room, width: f64, columns: usize, rows: usize) -> f64 {
    let half = if rows > 1 { 0.5 } else { 0.0 };
    (width / (columns as f64 + half) - gap(room)).clamp(1.0, MOST * room.rem)
}

/// The sisters in a row, counted from 0; none behind the last row.
pub fn row_of(seeds: &[Seed], columns: usize, row: usize) -> &[Seed] {
    seeds.chunks(columns.max(1)).nth(row).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fit(width: f64, height: Option<f64>, count: usize) -> Option<Fit> {
        Fit::new(Room { width, height, rem: 16.0 }, count)
    }

    #[test]
    fn a_dozen_fills_the_table() {
        let Some(Fit { columns, disc, pitch }) = fit(800.0, Some(590.0), 12) else {
            panic!("it is laid out")
        };
        assert!((3..=5).contains(&columns) && disc > 140.0, "{columns} of {disc} px");
        assert!((columns as f64 + 0.5) * pitch <= 800.0);
        assert!(12_usize.div_ceil(columns) as f64 * (disc + 38.0) <= 590.0, "all are in sight");
    }

    #[test]
    fn more_than_fit_are_small_and_run_on_below() {
        let fit = fit(800.0, Some(590.0), 120).unwrap();
        assert_eq!(fit.columns, 6);
        assert!(fit.disc >= 98.0 && 6.5 * fit.pitch <= 800.0);
    }

    #[test]
    fn no_disc_is_larger_than_it_is_drawn() {
        assert_eq!(fit(2000.0, Some(1200.0), 2).unwrap().disc, 224.0);
    }

    #[test]
    fn a_phone_has_three_in_a_row() {
        let fit = fit(374.0, None, 12).unwrap();
        assert_eq!(fit.columns, 3);
        assert!(fit.disc > 80.0 && 3.5 * fit.pitch <= 374.0);
    }

    #[test]
    fn what_is_not_laid_out_has_none() {
        assert_eq!((fit(0.0, None, 12), fit(10.0, Some(0.0), 1)), (None, None));
        assert!(fit(200.0, Some(0.0), 0).is_some());
    }

    #[test]
    fn rows_are_filled_one_after_another() {
        let seeds: Vec<Seed> = (0..5).map(Seed).collect();
        assert_eq!(row_of(&seeds, 3, 0), [Seed(0), Seed(1), Seed(2)]);
        assert_eq!(row_of(&seeds, 3, 1), [Seed(3), Seed(4)]);
        assert!(row_of(&seeds, 3, 2).is_empty() && row_of(&[], 3, 0).is_empty());
    }
}
