//! Where glass meets air: Fresnel's reflectances for daylight, direct and diffuse, from outside and inside.

use crate::base::lanes::Number;
use crate::base::scalar::ln;
use crate::color::spectrum::{BANDS, Spectrum, WAVELENGTHS};

/// Refractive index of the glass, at 592 nm: the band next to the line that handbooks give it for (589.3 nm; 8e-5 apart).
pub const INDEX: f64 = 1.52;
/// Reflectance at normal incidence, ((n-1)/(n+1))².
pub const NORMAL: f64 = 0.042_579_995;
/// The same in each band: the index falls toward the red as that of window glass does.
pub const NORMAL_BY_BAND: Spectrum = normal_by_band();
/// Reflectance for diffuse light from outside (closed form credited to Walsh 1926 and Duntley 1942).
pub const DIFFUSE_OUTSIDE: f64 = 0.094_706_927;
/// Reflectance for diffuse light from inside, 1 - (1 - outside)/n²: most of it is total reflection.
pub const DIFFUSE_INSIDE: f64 = 0.608_166_087;

/// Share of Lambertian light inside glass that lies within the critical angle of a face, 1/n².
pub const CONE: f64 = 0.432_825_485;

/// Refractive index of soda-lime glass at a wavelength in micrometers (M. Rubin 1985, Solar Energy Materials 12, 275, in the
/// refractiveindex.info database, CC0).
const fn soda_lime(micrometers: f64) -> f64 {
    let square = micrometers * micrometers;
    1.5130 - 0.003169 * square + 0.003962 / square
}

/// Reflectance at normal incidence at a wavelength in nm.
pub const fn normal_at(nanometers: f64) -> f64 {
    let n = INDEX + soda_lime(1e-3 * nanometers) - soda_lime(0.592);
    let root = (n - 1.0) / (n + 1.0);
    root * root
}

const fn normal_by_band() -> Spectrum {
    let mut normal = [0.0; BANDS];
    let mut band = 0;
    while band < BANDS {
        normal[band] = normal_at(WAVELENGTHS[band] as f64) as f32;
        band += 1;
    }
    normal
}

/// What a sheet passes of a beam along its normal, if its glass keeps `kept` of it and each face sends back `normal`: the exact series of
/// both faces' reflections.
#[inline]
pub fn sheet_passes<N: Number>(kept: N, normal: N) -> N {
    let enters = -normal + 1.0;
    enters * enters * kept / (-(normal * normal * kept * kept) + 1.0)
}

/// Fresnel reflectance of unpolarized light going from air into glass of index `n`, `cosine` of incidence 0 to 1.
pub fn fresnel(n: f64, cosine: f64) -> f64 {
    let inside = (1.0 - (1.0 - cosine * cosine) / (n * n)).max(0.0).sqrt();
    let across = (cosine - n * inside) / (cosine + n * inside);
    let along = (n * cosine - inside) / (n * cosine + inside);
    0.5 * (across * across + along * along)
}

/// Diffuse reflectance from outside for index `n`, in closed form (credited to Walsh 1926; Duntley 1942).
pub fn diffuse_outside(n: f64) -> f64 {
    let (n2, n4) = (n * n, n * n * n * n);
    let plus = n2 + 1.0;
    0.5 + (n - 1.0) * (3.0 * n + 1.0) / (6.0 * (n + 1.0) * (n + 1.0))
        + n2 * (n2 - 1.0) * (n2 - 1.0) / (plus * plus * plus) * ln((n - 1.0) / (n + 1.0))
        - 2.0 * n * n2 * (n2 + 2.0 * n - 1.0) / (plus * (n4 - 1.0))
        + 8.0 * n4 * (n4 + 1.0) / (plus * (n4 - 1.0) * (n4 - 1.0)) * ln(n)
}

/// Diffuse reflectance from inside for index `n`.
pub fn diffuse_inside(n: f64) -> f64 {
    1.0 - (1.0 - diffuse_outside(n)) / (n * n)
}
