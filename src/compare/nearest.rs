//! Which color of a photo is which of the forecast: each place of it belongs to the nearest one (k-means, Lloyd 1982, IEEE Trans. Inf. Theory
//! 28, 129, begun at the forecast and soon ended).

use crate::base::middle::middle;
use crate::color::difference::{Lab, de76};

/// A color of a photo.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// Its color: the median of L\*, of a\* and of b\*.
    pub color: Lab,
    /// The share of what is looked at that belongs to it.
    pub share: f64,
}

/// Rounds: one cuts off what is far from its color, and from the third on the colors of neighbors run into each other (own study of ten
/// pieces, `tests/compare.rs`).
const ROUNDS: usize = 2;
/// A color on less than this of the photo is not seen in it.
const LEAST_SHARE: f64 = 0.01;
/// A place farther than this from every color, in CIELAB's own unit, is none of them: a finger, a shadow, a glare (by eye).
const STRANGE: f64 = 30.0;

/// What belongs to each of these colors; none for one that is not seen. Begun there, each round takes the colors that were found for those
/// that are looked for.
pub fn nearest(colors: &[Lab], photo: &[Lab]) -> Vec<Option<Seen>> {
    let mut centers = colors.to_vec();
    let mut found = vec![None; colors.len()];
    for _ in 0..ROUNDS {
        found = once(&centers, photo);
        for (center, seen) in centers.iter_mut().zip(&found) {
            seen.iter().for_each(|seen: &Seen| *center = seen.color);
        }
    }
    found
}

fn once(colors: &[Lab], photo: &[Lab]) -> Vec<Option<Seen>> {
    let mut groups = vec![Vec::new(); colors.len()];
    for place in photo {
        let apart = colors.iter().map(|color| de76(*place, *color)).enumerate();
        let least = apart.min_by(|one, other| one.1.total_cmp(&other.1));
        if let Some((at, _)) = least.filter(|(_, apart)| *apart < STRANGE) {
            groups[at].push(*place);
        }
    }
    let share = |group: &Vec<Lab>| group.len() as f64 / photo.len().max(1) as f64;
    let seen = |group: Vec<Lab>| {
        (share(&group) >= LEAST_SHARE).then(|| Seen { share: share(&group), color: median(&group) })
    };
    groups.into_iter().map(seen).collect()
}

/// The median of each coordinate, of one color at least.
fn median(colors: &[Lab]) -> Lab {
    [0, 1, 2].map(|k| middle(colors.iter().map(|color| color[k]).collect()).unwrap_or(0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: of five places three are near the first color, one is near the second, and one is like neither.
    #[test]
    fn a_place_belongs_to_the_nearest_color_or_to_none() {
        let (sand, coal) = ([80.0, 5.0, 30.0], [20.0, 0.0, 0.0]);
        let photo =
            [[82.0, 5.0, 28.0], [79.0, 9.0, 31.0], [81.0, 4.0, 40.0], [24.0, 1.0, 0.0], [50.0, -60.0, 0.0]];
        let found = nearest(&[sand, coal, [50.0, 60.0, 0.0]], &photo);
        assert_eq!(found[0], Some(Seen { color: [81.0, 5.0, 31.0], share: 0.6 }));
        assert_eq!(found[1], Some(Seen { color: [24.0, 1.0, 0.0], share: 0.2 }));
        assert_eq!(found[2], None);
        assert_eq!(nearest(&[sand], &[]), [None]);
    }
}
