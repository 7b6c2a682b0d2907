//! Elementary functions that give the same bits natively and in the browser.
//!
//! The standard library's differ by a unit in the last place from platform to platform; the `libm` crate's do not.
//! This is the only file that calls it (`clippy.toml` bans the others). [`exp2`] and [`log2`] are polynomials of
//! our own for pixel loops: adds and multiplications only, so stable by construction, and they vectorize.

use super::lanes::Number;
pub use super::lanes::{Bounds, lerp};

/// The circle constant in single precision.
pub const PI: f32 = std::f32::consts::PI;

/// Natural exponential.
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// `exp(x) - 1` without cancellation near zero.
pub fn exp_m1(x: f64) -> f64 {
    libm::expm1(x)
}

/// Natural logarithm.
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

/// `ln(1 + x)` without cancellation near zero.
pub fn ln_1p(x: f64) -> f64 {
    libm::log1p(x)
}

/// `x` to the power `y`.
pub fn pow(x: f64, y: f64) -> f64 {
    libm::pow(x, y)
}

/// Cube root.
pub fn cbrt(x: f64) -> f64 {
    libm::cbrt(x)
}

/// Sine and cosine of an angle in radians.
pub fn sin_cos(x: f64) -> (f64, f64) {
    libm::sincos(x)
}

/// Tangent of an angle in radians.
pub fn tan(x: f64) -> f64 {
    libm::tan(x)
}

/// Arc cosine, in radians.
pub fn acos(x: f64) -> f64 {
    libm::acos(x)
}

/// Arc sine, in radians.
pub fn asin(x: f64) -> f64 {
    libm::asin(x)
}

/// Angle of the point (x, y), in radians.
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// Hyperbolic arc sine.
pub fn asinh(x: f64) -> f64 {
    libm::asinh(x)
}

/// `floor` as an index-like integer; a call to the library's `floor` costs more than this on plain x86-64.
pub fn floor(x: f32) -> i32 {
    let whole = x as i32;
    whole - i32::from((whole as f32) > x)
}

/// A number that goes from 0 to 1 around the origin, from the right by the top, as the share of a turn does: along a diamond, not a
/// circle, which takes a division and no trigonometry. 0 at the origin.
#[inline]
pub fn diamond_turn<N: Number>(x: N, y: N) -> N {
    let zero = N::of(0.0);
    let across = (x.size() + y.size()).at_least(N::of(1e-9));
    let (by_x, by_y) = (x / across, y / across);
    // To the right of the axis from 0 up and from 4 down, to its left from 2 both ways.
    let right = zero.above(y, by_x + 3.0, by_y);
    let left = zero.above(y, -by_y + 2.0, -by_x + 1.0);
    zero.above(x, left, right) * 0.25
}

/// The smooth step from 0 at `lo` to 1 at `hi` (cubic, flat at both ends).
#[inline]
pub fn smoothstep<N: Number>(lo: f32, hi: f32, x: N) -> N {
    eased((x - lo) * (1.0 / (hi - lo)))
}

/// The smooth step by the share of its way, 0 to 1.
#[inline]
pub fn eased<N: Number>(share: N) -> N {
    let t = within(share, 0.0, 1.0);
    t * t * (-(t + t) + 3.0)
}

/// A number between two bounds; what is not a number is the lower one.
#[inline]
pub fn within<N: Number>(x: N, least: f32, most: f32) -> N {
    x.at_least(N::of(least)).at_most(N::of(most))
}

/// 2 to the power `x` for `-126 <= x <= 126` (clamped outside), relative error below 1e-6.
#[inline]
pub fn exp2<N: Number>(x: N) -> N {
    let x = within(x, -126.0, 126.0);
    let whole = x.floor_of();
    // Taylor series of 2^f about 1/2, in f - 1/2: the largest term left out is 3e-8.
    let t = (x - whole - 0.5) * std::f32::consts::LN_2;
    let tail = t * (1.0 / 720.0) + 1.0 / 120.0;
    let poly = ((((tail * t + 1.0 / 24.0) * t + 1.0 / 6.0) * t + 0.5) * t + 1.0) * t + 1.0;
    N::two_to(whole) * (poly * std::f32::consts::SQRT_2)
}

/// Base-2 logarithm for positive normal `x` (smaller values count as the smallest normal), absolute error below 2e-6.
#[inline]
pub fn log2<N: Number>(x: N) -> N {
    let (exponent, m) = x.at_least(N::of(f32::MIN_POSITIVE)).exponent();
    let most = N::of(std::f32::consts::SQRT_2);
    let halved = m.above(most, N::of(1.0), N::of(0.0));
    let m = m * (-halved * 0.5 + 1.0);
    // ln m = 2 artanh(t) with t = (m - 1)/(m + 1), |t| < 0.172.
    let t = (m - 1.0) / (m + 1.0);
    let t2 = t * t;
    let artanh = t * (((t2 * (1.0 / 7.0) + 0.2) * t2 + 1.0 / 3.0) * t2 + 1.0);
    exponent + halved + artanh * (2.0 * std::f32::consts::LOG2_E)
}

/// `x` to the power `y` in a pixel loop, for `x >= 0`. One copy of it is enough: it is long.
#[inline(never)]
pub fn fast_pow<N: Number>(x: N, y: N) -> N {
    x.above(N::of(0.0), exp2(log2(x) * y), N::of(0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_fast_exponential_and_logarithm_follow_libm() {
        for i in -4000..4000 {
            let x = i as f32 * 0.01;
            let want = libm::exp2(f64::from(x));
            assert!((f64::from(exp2(x)) / want - 1.0).abs() < 1e-6, "exp2({x})");
            let y = exp2(x);
            assert!((f64::from(log2(y)) - libm::log2(f64::from(y))).abs() < 4e-6, "log2({y})");
        }
    }

    #[test]
    fn floor_agrees_with_the_library() {
        for i in -1000..1000 {
            let x = i as f32 * 0.37;
            assert_eq!(floor(x), libm::floorf(x) as i32);
        }
    }
}
