//! The table that says how sure a color is, held to glasses that it was not made from.

use super::study::{Fired, KINDS, LOOKS, PAIRED, RATIOS, READ, Read, fired, off, pairs, share_within};
use dappledome::tiles::sureness::{By, together};

const COUNT: usize = 120;
/// Glasses that are taken two by two: a share of 0.93 has a standard error of 0.8 %.
const PAIRS: usize = 1000;
const SEED: u64 = 11;
/// A draw that nothing in the engine was chosen by.
const PAIRS_SEED: u64 = 12;

/// Share of all places where a glass is within what its sureness says, by day or lit.
fn within(fired: &[Fired], by: By) -> f64 {
    let (mut within, mut all) = (0, 0);
    for one in fired {
        for ratio in RATIOS {
            let depth = one.depth * ratio;
            if !(0.03..=3.0).contains(&depth) {
                continue;
            }
            let off = off(&[(&one.truth, depth)], &[(&one.fitted.material, depth)]);
            let said = f64::from(one.fitted.sureness.at(depth as f32, by).expect("it is fitted"));
            let looks = if by == By::Day { 0..2 } else { 2..LOOKS.len() };
            let worst = looks.map(|look| off[look]).fold(0.0, f64::max);
            within += usize::from(worst <= said);
            all += 1;
        }
    }
    f64::from(u32::try_from(within).unwrap()) / f64::from(u32::try_from(all).unwrap())
}

/// Nineteen of twenty, give or take what 120 glasses leave open (one standard error of a glass's places together is 2 %).
#[test]
fn nineteen_of_twenty_places_are_within_what_is_said() {
    for (kind, from) in KINDS {
        for (read, how) in READ.into_iter().filter(|(read, _)| !matches!(read, Read::Exact)) {
            let fired = fired(kind, read, COUNT, SEED);
            for by in [By::Day, By::Lit] {
                let share = within(&fired, by);
                println!("{from}, {how}, {by:?}: {share:.3}");
                assert!((0.90..=0.99).contains(&share), "{from}, {how}, {by:?}: {share}");
            }
        }
    }
}

/// Two glasses together are within what is said of both at least nine times of ten: what is said of each adds up.
#[test]
fn two_glasses_together_are_within_what_is_said() {
    for (kind, from) in KINDS {
        for (read, how) in READ.into_iter().filter(|(read, _)| !matches!(read, Read::Exact)) {
            let pairs = pairs(&fired(kind, read, PAIRS, PAIRS_SEED));
            for (look, what) in PAIRED.iter().enumerate() {
                let share = share_within(&pairs, look, together);
                println!("{from}, {how}, {what}: {share:.3}");
                assert!(share >= 0.9, "{from}, {how}, {what}: {share}");
            }
        }
    }
}
