//! The usual dome in closed form: a disc of 160 mm and 6 mm on a bowl of 160 mm, 48 mm deep, is part of a sphere with a rounded
//! rim. Distances are exact, so that a line of sight can be followed to it.

use dappledome::base::scalar::{asin, sin_cos};
use dappledome::picture::shell::Shell;
use dappledome::picture::vec3::Vec3;
use dappledome::recipe::Mold;
use dappledome::slump::dome::{Dome, DomeInputs};

/// Radius on the disc at which the middle of the glass ends: the outermost half thickness is the round edge.
pub const FLAT: f64 = 80.0 - HALF;
/// Half of its thickness, mm.
pub const HALF: f64 = 3.0;
/// Radius of the middle of the glass: of the bowl, (80² + 48²) / (2 x 48), less half the thickness.
pub const RADIUS: f64 = (80.0 * 80.0 + 48.0 * 48.0) / 96.0 - HALF;

/// A place or a direction.
pub type V = [f64; 3];

pub fn dot(a: V, b: V) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub fn sum(a: V, b: V, times: f64) -> V {
    [a[0] + b[0] * times, a[1] + b[1] * times, a[2] + b[2] * times]
}

pub fn unit(a: V) -> V {
    a.map(|x| x / dot(a, a).sqrt())
}

pub fn wide(v: Vec3) -> V {
    [v.x, v.y, v.z].map(f64::from)
}

pub fn narrow(v: V) -> Vec3 {
    Vec3::new(v[0] as f32, v[1] as f32, v[2] as f32)
}

/// The engine's solid of it.
pub fn shell() -> Shell {
    Shell::new(&Dome::new(&DomeInputs { mold: Mold::default(), radius: 80.0, thickness: 6.0 }))
}

/// Cosine of the angle at the sphere's middle between the axis and a place of the disc: a cap of that angle has the area
/// 2 pi R² (1 - cos), the flat disc pi s².
pub fn cosine(s: f64) -> f64 {
    1.0 - s * s / (2.0 * RADIUS * RADIUS)
}

/// Radius and height of the middle of the rim, which stands on the table by its round.
pub fn rim() -> (f64, f64) {
    let cosine = cosine(FLAT);
    (RADIUS * (1.0 - cosine * cosine).sqrt(), HALF)
}

/// Height of the sphere's middle.
pub fn middle() -> f64 {
    HALF - RADIUS * cosine(FLAT)
}

/// What lies nearest to a place: distance from the glass (negative inside), its radius on the flat disc, the normal in the plane
/// of the axis, how far around the rim.
#[derive(Clone, Copy, Debug)]
pub struct Near {
    pub distance: f64,
    pub s: f64,
    pub out: f64,
    pub up: f64,
    pub around: f64,
}

pub fn near(r: f64, z: f64) -> Near {
    let (dr, dz) = (r, z - middle());
    let from_middle = (dr * dr + dz * dz).sqrt();
    let (sine, cosine) = (dr / from_middle, dz / from_middle);
    let outside = from_middle >= RADIUS;
    let side = if outside { 1.0 } else { -1.0 };
    if cosine >= self::cosine(FLAT) {
        let s = (2.0 * RADIUS * RADIUS * (1.0 - cosine)).sqrt();
        let distance = (from_middle - RADIUS).abs() - HALF;
        return Near {
            distance,
            s,
            out: side * sine,
            up: side * cosine,
            around: if outside { 0.0 } else { 2.0 },
        };
    }
    let (er, ez) = (r - rim().0, z - rim().1);
    let away = (er * er + ez * ez).sqrt();
    let (out, up) = (er / away, ez / away);
    // The sheet's own direction at the rim.
    let along = out * self::cosine(FLAT) - up * rim().0 / RADIUS;
    let around = if outside { along } else { 2.0 - along };
    Near { distance: away - HALF, s: FLAT + HALF * around.min(1.0), out, up, around }
}

pub fn near_place(p: V) -> Near {
    near((p[0] * p[0] + p[1] * p[1]).sqrt(), p[2])
}

/// Where a line of sight first meets the glass from `t` on, before it meets the table; the least of distance over way gone, and where
/// that is, if it does not.
pub fn meets(from: V, toward: V, start: f64) -> Result<f64, (f64, f64)> {
    let (mut t, mut least) = (start, (f64::INFINITY, start));
    for _ in 0..4000 {
        let p = sum(from, toward, t);
        if p[2] < 0.0 && toward[2] < 0.0 || t > 3000.0 {
            break;
        }
        let distance = near_place(p).distance;
        if distance / t < least.0 {
            least = (distance / t, t);
        }
        if distance < 1e-6 {
            return Ok(t);
        }
        t += distance.max(1e-4);
    }
    Err(least)
}

/// How a look that meets the outer face goes on inside the ball: where it leaves the glass, and whither; nothing if it never does. In the
/// plane of the look and the ball's middle, by the angles alone: a ray's distance from the middle is the same outside and inside, and
/// 1/1.52 of it in the glass (Bouguer's formula).
pub fn inside(place: V, sight: V) -> Option<(V, V)> {
    let (outer, inner) = (RADIUS + HALF, RADIUS - HALF);
    let ball = [0.0, 0.0, middle()];
    let u = unit(sum(place, ball, -1.0));
    let across = sum(sight, u, -dot(sight, u));
    let passes = outer * dot(across, across).sqrt();
    if passes >= inner {
        return None;
    }
    let v = if passes > 1e-9 { unit(across) } else { [0.0; 3] };
    let turned = asin(passes / (1.52 * inner)) - asin(passes / (1.52 * outer));
    let (sin, cos) = sin_cos(turned);
    let (out, along) = (sum(u.map(|x| x * cos), v, sin), sum(u.map(|x| -x * sin), v, cos));
    let sine = passes / inner;
    let toward = sum(along.map(|x| x * sine), out, -(1.0 - sine * sine).sqrt());
    Some((sum(ball, out, inner), toward))
}
