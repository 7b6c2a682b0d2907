//! What a skin of glass mirrors, by Fresnel's formula written down once more.

use super::ball::{V, dot, narrow, sum};
use dappledome::base::scalar::{acos, asin, sin_cos};
use dappledome::picture::vec3::Vec3;

/// Fresnel's formula by the two angles (Hecht, Optics, the sine and tangent laws), index 1.52.
pub fn mirrored_share(cosine: f64) -> f64 {
    let outside = acos(cosine);
    let inside = asin(sin_cos(outside).0 / 1.52);
    if outside < 1e-4 {
        return (0.52 / 2.52) * (0.52 / 2.52);
    }
    let square = |x: f64| x * x;
    let tan = |x: f64| sin_cos(x).0 / sin_cos(x).1;
    let across = square(sin_cos(outside - inside).0 / sin_cos(outside + inside).0);
    let along = square(tan(outside - inside) / tan(outside + inside));
    0.5 * (across + along)
}

/// What a skin with this normal mirrors of a studio to a look along `sight`, and its share.
pub fn gloss(sight: V, n: V, studio: impl Fn(Vec3) -> f64) -> (f64, f64) {
    let share = mirrored_share((-dot(sight, n)).clamp(0.02, 1.0));
    let thrown = sum(sight, n, -2.0 * dot(sight, n));
    (share * studio(narrow(thrown)), share)
}
