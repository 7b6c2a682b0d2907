//! Directions and places in the studio: x to the right, y away from the eye, z up; mm.

use crate::base::lanes::Number;
use crate::base::scalar::sin_cos;
use std::ops::{Add, Mul, Neg, Sub};

/// A direction or a place, or four of them.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vec3<N = f32> {
    /// To the right.
    pub x: N,
    /// Away from the eye.
    pub y: N,
    /// Up.
    pub z: N,
}

impl<N: Copy> Vec3<N> {
    /// From its parts.
    pub const fn new(x: N, y: N, z: N) -> Self {
        Self { x, y, z }
    }
}

impl<N: Number> Vec3<N> {
    /// One direction or place in every lane.
    #[inline]
    pub fn of(v: Vec3) -> Self {
        Self::new(N::of(v.x), N::of(v.y), N::of(v.z))
    }

    /// `then` where `x` is more than `limit`, `otherwise` elsewhere (see [`Number::above`]).
    #[inline]
    pub fn where_above(x: N, limit: N, then: Self, otherwise: Self) -> Self {
        let choose = |then, otherwise| x.above(limit, then, otherwise);
        Self::new(choose(then.x, otherwise.x), choose(then.y, otherwise.y), choose(then.z, otherwise.z))
    }

    /// Scalar product.
    #[inline]
    pub fn dot<M>(self, other: Vec3<M>) -> N
    where
        N: Mul<M, Output = N>,
    {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// Vector product.
    #[inline]
    pub fn cross(self, o: Self) -> Self {
        Self::new(self.y * o.z - self.z * o.y, self.z * o.x - self.x * o.z, self.x * o.y - self.y * o.x)
    }

    /// Length.
    #[inline]
    pub fn length(self) -> N {
        self.dot(self).root()
    }

    /// Distance from the axis.
    #[inline]
    pub fn from_axis(self) -> N {
        (self.x * self.x + self.y * self.y).root()
    }

    /// The same direction with length 1.
    #[inline]
    pub fn unit(self) -> Self {
        self * (N::of(1.0) / self.length().at_least(N::of(1e-12)))
    }

    /// A ray arriving along `self` and thrown back by a surface with unit normal `n`.
    #[inline]
    pub fn reflect(self, n: Self) -> Self {
        self - n * (self.dot(n) * 2.0)
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

impl<N: Number> Add for Vec3<N> {
    type Output = Self;
    #[inline]
    fn add(self, o: Self) -> Self {
        Self::new(self.x + o.x, self.y + o.y, self.z + o.z)
    }
}

impl<N: Number> Sub for Vec3<N> {
    type Output = Self;
    #[inline]
    fn sub(self, o: Self) -> Self {
        Self::new(self.x - o.x, self.y - o.y, self.z - o.z)
    }
}

impl<N: Number> Mul<N> for Vec3<N> {
    type Output = Self;
    #[inline]
    fn mul(self, k: N) -> Self {
        Self::new(self.x * k, self.y * k, self.z * k)
    }
}

impl<N: Number> Neg for Vec3<N> {
    type Output = Self;
    #[inline]
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y, -self.z)
    }
}
