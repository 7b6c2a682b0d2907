//! Where glass meets air: Fresnel's reflectances for daylight, direct and diffuse, from outside and inside.

use crate::base::scalar::ln;

/// Refractive index of the glass.
pub const INDEX: f64 = 1.52;
/// Reflectance at normal incidence, ((n-1)/(n+1))².
pub const NORMAL: f64 = 0.042_579_995;
/// Reflectance for diffuse light from outside (closed form credited to Walsh 1926 and Duntley 1942).
pub const DIFFUSE_OUTSIDE: f64 = 0.094_706_927;
/// Reflectance for diffuse light from inside, 1 - (1 - outside)/n²: most of it is total reflection.
pub const DIFFUSE_INSIDE: f64 = 0.608_166_087;

/// Share of Lambertian light inside glass that lies within the critical angle of a face, 1/n².
pub const CONE: f64 = 0.432_825_485;

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
