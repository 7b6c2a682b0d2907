//! Places and directions in double precision, and the solids that are traced: the dome, and an endless flat slab to check by.

use dappledome::base::scalar::sin_cos;
use std::ops::{Add, Mul, Sub};

/// A place or a direction: x to the right, y away from the eye, z up; mm.
#[derive(Clone, Copy, Debug, Default)]
pub struct V3 {
    /// To the right.
    pub x: f64,
    /// Away from the eye.
    pub y: f64,
    /// Up.
    pub z: f64,
}

impl V3 {
    /// From its parts.
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// Scalar product.
    pub fn dot(self, o: Self) -> f64 {
        self.x * o.x + self.y * o.y + self.z * o.z
    }

    /// Length.
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The same direction with length 1.
    pub fn unit(self) -> Self {
        self * (1.0 / self.length())
    }

    /// Distance from the axis.
    pub fn radius(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// A direction given by its part along `self` and its angle about it.
    pub fn tilted(self, along: f64, around: f64) -> Self {
        // A frame about a normal without a special case (Duff et al. 2017, J. Comput. Graph. Tech.; from memory).
        let sign = if self.z >= 0.0 { 1.0 } else { -1.0 };
        let a = -1.0 / (sign + self.z);
        let b = self.x * self.y * a;
        let u = Self::new(1.0 + sign * self.x * self.x * a, sign * b, -sign * self.x);
        let v = Self::new(b, sign + self.y * self.y * a, -self.y);
        let across = (1.0 - along * along).max(0.0).sqrt();
        let (sin, cos) = sin_cos(around);
        u * (across * cos) + v * (across * sin) + self * along
    }
}

impl Add for V3 {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self::new(self.x + o.x, self.y + o.y, self.z + o.z)
    }
}

impl Sub for V3 {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self::new(self.x - o.x, self.y - o.y, self.z - o.z)
    }
}

impl Mul<f64> for V3 {
    type Output = Self;
    fn mul(self, k: f64) -> Self {
        Self::new(self.x * k, self.y * k, self.z * k)
    }
}

/// A piece of glass.
#[derive(Clone, Copy, Debug)]
pub enum Solid {
    /// A bowl dome, crown up on the table.
    Dome(Dome),
    /// An endless level sheet of this thickness whose lower face lies 1 mm above the table.
    Slab(f64),
}

/// A spherical cap of even thickness with a round rim, standing on the table.
#[derive(Clone, Copy, Debug)]
pub struct Dome {
    /// Radius of the middle of the glass, mm.
    pub radius: f64,
    /// Half the thickness, mm.
    pub half: f64,
    /// Height of the sphere's middle above the table, mm.
    pub center: f64,
    /// Cosine and sine of the angle at which the sheet ends, seen from the sphere's middle.
    pub end: (f64, f64),
    /// Radius on the flat disc at which the middle of the sheet ends, mm.
    pub flat: f64,
}

impl Dome {
    /// A disc of this radius slumped into a spherical bowl, every part of it keeping its area: s² = 2 R² (1 - cos). Its round edge is the
    /// outermost half thickness of it.
    pub fn new(opening: f64, depth: f64, disc: f64, thickness: f64) -> Self {
        let half = thickness / 2.0;
        let mold = (opening * opening / 4.0 + depth * depth) / (2.0 * depth);
        let radius = mold - half;
        let flat = disc - half;
        let cos = 1.0 - flat * flat / (2.0 * radius * radius);
        let end = (cos, (1.0 - cos * cos).sqrt());
        Self { radius, half, center: half - radius * cos, end, flat }
    }

    /// Greatest height, mm.
    pub fn highest(&self) -> f64 {
        self.center + self.radius + self.half
    }

    /// A place on a face at radius `s` of the flat disc, on the side of +x, and the normal of the outer face there.
    /// `side` is 1 for the outer face, -1 for the inner one.
    pub fn on_face(&self, s: f64, side: f64) -> (V3, V3) {
        let cos = 1.0 - s * s / (2.0 * self.radius * self.radius);
        let normal = V3::new((1.0 - cos * cos).sqrt(), 0.0, cos);
        (V3::new(0.0, 0.0, self.center) + normal * (self.radius + side * self.half), normal)
    }

    /// The middle of the glass nearest to a place.
    fn foot(&self, p: V3) -> V3 {
        let from = V3::new(p.x, p.y, p.z - self.center);
        let rho = from.length();
        if from.z >= rho * self.end.0 {
            V3::new(0.0, 0.0, self.center) + from * (self.radius / rho.max(1e-12))
        } else {
            let out = self.radius * self.end.1 / p.radius().max(1e-12);
            V3::new(p.x * out, p.y * out, self.center + self.radius * self.end.0)
        }
    }
}

impl Solid {
    /// Distance to the surface, negative inside, mm.
    pub fn distance(&self, p: V3) -> f64 {
        match self {
            Self::Dome(dome) => (p - dome.foot(p)).length() - dome.half,
            Self::Slab(thickness) => (p.z - 1.0 - thickness / 2.0).abs() - thickness / 2.0,
        }
    }

    /// Unit normal of the nearest face, out of the glass.
    pub fn outward(&self, p: V3) -> V3 {
        match self {
            Self::Dome(dome) => (p - dome.foot(p)).unit(),
            Self::Slab(thickness) => V3::new(0.0, 0.0, if p.z > 1.0 + thickness / 2.0 { 1.0 } else { -1.0 }),
        }
    }

    /// How deep a place lies below the upper face, mm; in the rim the sheets go on.
    pub fn depth(&self, p: V3) -> f64 {
        match self {
            Self::Dome(dome) => dome.radius + dome.half - V3::new(p.x, p.y, p.z - dome.center).length(),
            Self::Slab(thickness) => 1.0 + thickness - p.z,
        }
    }

    /// Radius on the flat disc above or below which a place lies, mm.
    pub fn flat_radius(&self, p: V3) -> f64 {
        match self {
            Self::Dome(dome) => {
                let from = V3::new(p.x, p.y, p.z - dome.center);
                dome.radius * (2.0 * (1.0 - from.z / from.length())).max(0.0).sqrt()
            }
            Self::Slab(_) => 0.0,
        }
    }

    /// Where a ray that starts outside meets the glass, if it does so before it has gone `most` mm.
    pub fn met(&self, from: V3, toward: V3, most: f64) -> Option<V3> {
        match self {
            Self::Dome(dome) => self.marched(from, toward, most, dome),
            Self::Slab(thickness) => {
                let face = if from.z > 1.0 + thickness / 2.0 { 1.0 + thickness } else { 1.0 };
                let t = (face - from.z) / toward.z;
                (t > 0.0 && t < most).then(|| from + toward * t)
            }
        }
    }

    fn marched(&self, from: V3, toward: V3, most: f64, dome: &Dome) -> Option<V3> {
        // Only within a ball about the dome is there anything to meet.
        let middle = V3::new(0.0, 0.0, dome.highest() / 2.0);
        let widest = dome.radius * dome.end.1 + dome.half;
        let ball2 = widest * widest + middle.z * middle.z + 0.1;
        let off = from - middle;
        let along = off.dot(toward);
        let root = along * along - off.dot(off) + ball2;
        if root <= 0.0 {
            return None;
        }
        let most = most.min(root.sqrt() - along);
        let mut t = (-root.sqrt() - along).max(0.0);
        while t < most {
            let p = from + toward * t;
            let distance = self.distance(p);
            if distance < TOUCH {
                return Some(p);
            }
            t += distance;
        }
        None
    }
}

/// Distance at which a ray counts as having met a face, mm.
pub const TOUCH: f64 = 1e-5;
