//! What a key means on the grid.

use dappledome::base::seed::Seed;

/// What a key means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GridKey {
    /// Points at another sister.
    Point(Seed),
    /// Takes up the sister pointed at.
    WorkOn,
    /// Keeps her, or takes her off the shortlist.
    ToggleKeep,
    /// Lifts her to one side: 0 left, 1 right.
    Lift(usize),
    /// Puts her away.
    PutAway,
}

/// What a key means where these sisters lie in rows of so many, one of them pointed at; nothing if it means nothing.
pub fn meaning(key: &str, seeds: &[Seed], at: Seed, columns: usize) -> Option<GridKey> {
    let last = seeds.len().checked_sub(1)?;
    let here = seeds.iter().position(|seed| *seed == at).unwrap_or(0);
    let point = |to: usize| GridKey::Point(seeds[to.min(last)]);
    Some(match key {
        "ArrowRight" => point(here + 1),
        "ArrowLeft" => point(here.saturating_sub(1)),
        "ArrowDown" => point(here + columns),
        "ArrowUp" => point(here.checked_sub(columns).unwrap_or(here)),
        "Home" => point(0),
        "End" => point(last),
        "Enter" => GridKey::WorkOn,
        " " => GridKey::ToggleKeep,
        "1" => GridKey::Lift(0),
        "2" => GridKey::Lift(1),
        "Delete" => GridKey::PutAway,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Where a key leads to from the sister with this seed, of eight in rows of three.
    fn from(at: u32, key: &str) -> u32 {
        let seeds: Vec<Seed> = (0..8).map(Seed).collect();
        match meaning(key, &seeds, Seed(at), 3) {
            Some(GridKey::Point(Seed(to))) => to,
            other => panic!("{key} means {other:?}"),
        }
    }

    #[test]
    fn arrows_go_from_sister_to_sister_and_stop_at_the_ends() {
        assert_eq!([from(2, "ArrowRight"), from(3, "ArrowLeft")], [3, 2], "over the end of a row");
        assert_eq!([from(7, "ArrowRight"), from(0, "ArrowLeft")], [7, 0]);
        assert_eq!([from(1, "ArrowDown"), from(4, "ArrowUp")], [4, 1]);
        assert_eq!([from(5, "ArrowDown"), from(1, "ArrowUp")], [7, 1]);
        assert_eq!([from(5, "Home"), from(5, "End")], [0, 7]);
        assert_eq!(from(99, "ArrowRight"), 1, "from one that is not there as from the first");
    }

    #[test]
    fn other_keys_are_about_the_sister_pointed_at() {
        let seeds = [Seed(1)];
        let means = |key| meaning(key, &seeds, Seed(1), 3);
        assert_eq!(means("Enter"), Some(GridKey::WorkOn));
        assert_eq!(means(" "), Some(GridKey::ToggleKeep));
        assert_eq!([means("1"), means("2")], [Some(GridKey::Lift(0)), Some(GridKey::Lift(1))]);
        assert_eq!(means("Delete"), Some(GridKey::PutAway));
        assert_eq!(means("Escape"), None);
        assert_eq!(meaning("Enter", &[], Seed(1), 3), None, "on an empty tray");
    }
}
