//! How far fitted glasses are off at every depth.

use super::study::{Fired, LOOKS, RATIOS, SIFTED, off};
use dappledome::tiles::sureness::Kind;

/// Errors, CIEDE2000, by look and by ratio.
pub type Errors = [[Vec<f64>; RATIOS.len()]; LOOKS.len()];

/// Errors at every depth that anybody sifts.
pub fn errors(kind: Kind, fired: &[Fired]) -> Errors {
    let mut errors = Errors::default();
    for one in fired {
        for (node, ratio) in RATIOS.iter().enumerate() {
            for depth in depths(kind, one.depth, *ratio) {
                let off = off(&[(&one.truth, depth)], &[(&one.fitted.material, depth)]);
                (0..LOOKS.len()).for_each(|look| errors[look][node].push(off[look]));
            }
        }
    }
    errors
}

/// The depths that lie `ratio` outside the tiles; at 1, those between them too.
fn depths(kind: Kind, deepest: f64, ratio: f64) -> Vec<f64> {
    let thinnest = if kind == Kind::Several { deepest / 3.0 } else { deepest };
    let depths = match ratio {
        1.0 if kind == Kind::Several => vec![thinnest, (thinnest * deepest).sqrt(), deepest],
        ratio if ratio < 1.0 => vec![thinnest * ratio],
        ratio => vec![deepest * ratio],
    };
    depths.into_iter().filter(|depth| (SIFTED.0..=SIFTED.1).contains(depth)).collect()
}
