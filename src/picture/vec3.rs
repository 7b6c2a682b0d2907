//! Directions and places in the studio: x to the right, y away from the eye, z up; mm.

use crate::base::scalar::{Bounds, sin_cos};
use std::ops::{Add, Mul, Neg, Sub};

/// A direction or a place.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vec3 {
    /// To the right.
    pub x: f32,
    /// Away from the eye.
    pub y: f32,
    /// Up.
    pub z: f32,
}

impl Vec3 {
    /// From its parts.
    pub const fn new(x: f32, y: f32, z: f32) -> Self {
        Self { x, y, z }
    }

    /// Scalar product.
    pub fn dot(self, other: Self) -> f32 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// Vector product.
    pub fn cross(self, o: Self) -> Self {
        Self::new(self.y * o.z - self.z * o.y, self.z * o.x - self.x * o.z, self.x * o.y - self.y * o.x)
    }

    /// Length.
    pub fn length(self) -> f32 {
        self.dot(self).sqrt()
    }

    /// The same direction with length 1.
    pub fn unit(self) -> Self {
        self * (1.0 / self.length().at_least(1e-12))
    }

    /// A ray arriving along `self` and thrown back by a surface with unit normal `n`.
    pub fn reflect(self, n: Self) -> Self {
        self - n * (2.0 * self.dot(n))
    }
}

/// `n` directions spread over a half space as a matte surface gathers light, by a golden spiral; z is its normal.
pub fn gathered(n: usize) -> Vec<Vec3> {
    (0..n)
        .map(|i| {
            let r2 = (i as f32 + 0.5) / n as f32;
            let (sin, cos) = sin_cos(f64::from(i as u32) * 2.399_963_229_728_653);
            let r = r2.sqrt();
            Vec3::new(r * cos as f32, r * sin as f32, (1.0 - r2).sqrt())
        })
        .collect()
}

impl Add for Vec3 {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self::new(self.x + o.x, self.y + o.y, self.z + o.z)
    }
}

impl Sub for Vec3 {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self::new(self.x - o.x, self.y - o.y, self.z - o.z)
    }
}

impl Mul<f32> for Vec3 {
    type Output = Self;
    fn mul(self, k: f32) -> Self {
        Self::new(self.x * k, self.y * k, self.z * k)
    }
}

impl Neg for Vec3 {
    type Output = Self;
    fn neg(self) -> Self {
        self * -1.0
    }
}
