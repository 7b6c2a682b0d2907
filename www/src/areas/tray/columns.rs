//! How many discs stand in a row, and which.

use dappledome::base::seed::Seed;

/// Fewest and most discs in a row.
const COLUMNS: (usize, usize) = (2, 12);
/// What the discs leave of the grid's width at both sides, px.
const LEFT_OVER: i32 = 16;

/// How many discs of a pitch have room beside each other in a grid of a width, both px: half a disc less than that, for every
/// second row stands half a disc in. Nothing while the grid is not laid out.
pub fn columns_in(width: i32, pitch: i32) -> Option<usize> {
    let width = width - LEFT_OVER;
    let room = (f64::from(width) / f64::from(pitch) - 0.5) as usize;
    (pitch > 0 && width > 0).then_some(room.clamp(COLUMNS.0, COLUMNS.1))
}

/// The sisters in a row, counted from 0; none behind the last row.
pub fn row_of(seeds: &[Seed], columns: usize, row: usize) -> &[Seed] {
    seeds.chunks(columns.max(1)).nth(row).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_many_discs_as_fit_with_half_a_disc_to_spare() {
        assert_eq!(columns_in(16 + 650, 100), Some(6));
        assert_eq!(columns_in(16 + 649, 100), Some(5), "the second row would not fit");
        assert_eq!((columns_in(16 + 90, 100), columns_in(9000, 100)), (Some(2), Some(12)));
        assert_eq!((columns_in(500, 0), columns_in(16, 100), columns_in(0, 100)), (None, None, None));
    }

    #[test]
    fn rows_are_filled_one_after_another() {
        let seeds: Vec<Seed> = (0..5).map(Seed).collect();
        assert_eq!(row_of(&seeds, 3, 0), [Seed(0), Seed(1), Seed(2)]);
        assert_eq!(row_of(&seeds, 3, 1), [Seed(3), Seed(4)]);
        assert!(row_of(&seeds, 3, 2).is_empty() && row_of(&[], 3, 0).is_empty());
    }
}
