//! Four numbers at once: the arithmetic that loops over cells, bands and pixels are written in.
//!
//! A formula that is asked for one place as well as for four is written once, over [`Number`], and done for an `f32` or
//! for [`Four`] neighbors. Each lane comes out as the single number would, bit for bit, natively (SSE2) and in the browser (simd128):
//! `tests/lanes.rs` holds this file to that. What the `wide` crate does otherwise on the two is banned in `clippy.toml`; the two
//! differences that are left, bounds of zeros of either sign and of what is not a number, are evened out here and nowhere else.

#![allow(clippy::disallowed_methods, reason = "here and nowhere else: evened out, or bounded before")]

use std::ops::{Add, Div, Mul, Neg, Sub};
pub use wide::f32x4 as Four;
use wide::i32x4;

/// How many numbers are computed at once.
pub const LANES: usize = 4;

/// Bounds by one comparison each. In wasm the library's `max` and `min` of single precision are calls of a function:
/// 0.85 ns against 2.8 in a sum, 0.1 against 3 where the loop could take four numbers at once. (`clamp` is as fast.)
pub trait Bounds: Copy {
    /// This, or `least` if that is larger or this is not a number.
    #[must_use]
    fn at_least(self, least: Self) -> Self;

    /// This, or `most` if that is smaller or this is not a number.
    #[must_use]
    fn at_most(self, most: Self) -> Self;
}

impl Bounds for f32 {
    #[inline]
    fn at_least(self, least: Self) -> Self {
        if self > least { self } else { least }
    }

    #[inline]
    fn at_most(self, most: Self) -> Self {
        if self < most { self } else { most }
    }
}

/// One number, or four at once.
pub trait Number:
    Bounds
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
    + Add<f32, Output = Self>
    + Sub<f32, Output = Self>
    + Mul<f32, Output = Self>
    + Div<f32, Output = Self>
{
    /// This number, in every lane.
    fn of(x: f32) -> Self;

    /// The square root.
    #[must_use]
    fn root(self) -> Self;

    /// Without its sign.
    #[must_use]
    fn size(self) -> Self;

    /// `then` where this is more than `limit`, `otherwise` where it is not, or either is not a number.
    #[must_use]
    fn above(self, limit: Self, then: Self, otherwise: Self) -> Self;

    /// Whether this is more than a limit in any lane.
    fn any_above(self, limit: f32) -> bool;

    /// The whole part of a number toward zero. It must be smaller than 2³¹: elsewhere SSE2 and simd128 differ.
    #[must_use]
    fn whole(self) -> Self;

    /// The next whole number below, within the same bounds as [`Self::whole`].
    #[must_use]
    fn floor_of(self) -> Self {
        let whole = self.whole();
        whole - whole.above(self, Self::of(1.0), Self::of(0.0))
    }

    /// 2 to a whole power of -126 to 127.
    #[must_use]
    fn two_to(power: Self) -> Self;

    /// Of a number of at least the least normal one: the exponent of 2, and what it is multiplied by, 1 up to 2.
    fn exponent(self) -> (Self, Self);

    /// A table, interpolated at a [`Self::point`] of it and the share of the way to the next one.
    fn along(table: &[f32], place: (Self, Self)) -> Self;

    /// The point before a place in a table, which is bounded, and how far beyond it the place lies.
    #[inline]
    fn point(self) -> (Self, Self) {
        let whole = self.whole();
        (whole, self - whole)
    }

    /// The same of any place in a table of so many points: beyond it, almost its last one.
    #[inline]
    fn point_among(self, points: usize) -> (Self, Self) {
        self.at_least(Self::of(0.0)).at_most(Self::of(points as f32 - 1.001)).point()
    }

    /// `N` tables in rows of `n` points, interpolated at a [`Self::point`] across and another one down.
    ///
    /// Places are told by single numbers, so a table may have 2²⁴ points; lanes look up tables of 1, 2 or 4 values.
    fn between<const N: usize>(
        table: &[[f32; N]],
        n: usize,
        across: (Self, Self),
        down: (Self, Self),
    ) -> [Self; N];
}

/// Linear interpolation from `a` to `b`.
#[inline]
pub fn lerp<N: Number>(a: N, b: N, t: N) -> N {
    a + (b - a) * t
}

/// The place in a table of rows of `n` points.
#[inline]
fn place<T: Number>(n: usize, column: T, row: T) -> T {
    row * n as f32 + column
}

impl Number for f32 {
    #[inline]
    fn of(x: f32) -> Self {
        x
    }

    #[inline]
    fn root(self) -> Self {
        self.sqrt()
    }

    #[inline]
    fn size(self) -> Self {
        self.abs()
    }

    #[inline]
    fn above(self, limit: Self, then: Self, otherwise: Self) -> Self {
        if self > limit { then } else { otherwise }
    }

    #[inline]
    fn any_above(self, limit: f32) -> bool {
        self > limit
    }

    #[inline]
    fn whole(self) -> Self {
        self as i32 as f32
    }

    #[inline]
    fn two_to(power: Self) -> Self {
        f32::from_bits(((power as i32 + 127) as u32) << 23)
    }

    #[inline]
    fn exponent(self) -> (Self, Self) {
        let bits = self.to_bits() as i32;
        (((bits >> 23) - 127) as f32, f32::from_bits((bits & 0x007f_ffff | 0x3f80_0000) as u32))
    }

    #[inline]
    fn along(table: &[f32], (at, t): (Self, Self)) -> Self {
        let i = at as usize;
        lerp(table[i], table[i + 1], t)
    }

    #[inline]
    fn between<const N: usize>(
        table: &[[f32; N]],
        n: usize,
        across: (Self, Self),
        down: (Self, Self),
    ) -> [Self; N] {
        let at = place(n, across.0, down.0) as usize;
        let (upper, lower) = (&table[at..at + 2], &table[at + n..at + n + 2]);
        std::array::from_fn(|k| {
            let column = |i: usize| lerp(upper[i][k], lower[i][k], down.1);
            lerp(column(0), column(1), across.1)
        })
    }
}

impl Bounds for Four {
    #[inline]
    fn at_least(self, least: Self) -> Self {
        // SSE2 gives its second argument where the two do not compare, simd128 its first; others have it their own way.
        if cfg!(target_feature = "sse2") {
            self.fast_max(least)
        } else if cfg!(target_arch = "wasm32") {
            least.fast_max(self)
        } else {
            self.above(least, self, least)
        }
    }

    #[inline]
    fn at_most(self, most: Self) -> Self {
        if cfg!(target_feature = "sse2") {
            self.fast_min(most)
        } else if cfg!(target_arch = "wasm32") {
            most.fast_min(self)
        } else {
            most.above(self, self, most)
        }
    }
}

impl Number for Four {
    #[inline]
    fn of(x: f32) -> Self {
        Self::splat(x)
    }

    #[inline]
    fn root(self) -> Self {
        self.sqrt()
    }

    #[inline]
    fn size(self) -> Self {
        self.abs()
    }

    #[inline]
    fn above(self, limit: Self, then: Self, otherwise: Self) -> Self {
        self.simd_gt(limit).select(then, otherwise)
    }

    #[inline]
    fn any_above(self, limit: f32) -> bool {
        self.simd_gt(Self::splat(limit)).any()
    }

    #[inline]
    fn whole(self) -> Self {
        Self::from_i32x4(self.fast_trunc_int())
    }

    #[inline]
    fn two_to(power: Self) -> Self {
        let bits: i32x4 = (power.fast_trunc_int() + i32x4::splat(127)) << 23;
        wide::bytemuck::cast(bits)
    }

    #[inline]
    fn exponent(self) -> (Self, Self) {
        let bits: i32x4 = wide::bytemuck::cast(self);
        let mantissa = bits & i32x4::splat(0x007f_ffff) | i32x4::splat(0x3f80_0000);
        (Self::from_i32x4((bits >> 23) - i32x4::splat(127)), wide::bytemuck::cast(mantissa))
    }

    #[inline]
    fn along(table: &[f32], (at, t): (Self, Self)) -> Self {
        let [a, b, c, d] = places(at).map(|i| (table[i], table[i + 1]));
        let (before, after) = (Self::new([a.0, b.0, c.0, d.0]), Self::new([a.1, b.1, c.1, d.1]));
        lerp(before, after, t)
    }

    #[inline]
    fn between<const N: usize>(
        table: &[[f32; N]],
        n: usize,
        across: (Self, Self),
        down: (Self, Self),
    ) -> [Self; N] {
        const { assert!(matches!(N, 1 | 2 | 4), "tables of 1, 2 or 4 values") };
        let t = (across.1, down.1);
        let at = places(place(n, across.0, down.0));
        let (flat, down) = (table.as_flattened(), t.1.to_array());
        let point = |at: usize| {
            let Some(four) = flat[N * at..].first_chunk() else { unreachable!("a place beyond its table") };
            Self::new(*four)
        };
        // What lies in a row is loaded at once, and turned so that each lane has its own place's.
        let values = match N {
            1 => {
                let corners = |lane: usize| {
                    let (upper, lower) =
                        (&flat[at[lane]..at[lane] + 2], &flat[at[lane] + n..at[lane] + n + 2]);
                    Self::new([upper[0], upper[1], lower[0], lower[1]])
                };
                let [a, b, c, d] = Self::transpose([corners(0), corners(1), corners(2), corners(3)]);
                [lerp(lerp(a, c, t.1), lerp(b, d, t.1), t.0), a, b, c]
            }
            2 => {
                let row = |lane: usize| lerp(point(at[lane]), point(at[lane] + n), Self::splat(down[lane]));
                let [a, b, c, d] = Self::transpose([row(0), row(1), row(2), row(3)]);
                [lerp(a, c, t.0), lerp(b, d, t.0), c, d]
            }
            _ => {
                let across = t.0.to_array();
                let place = |lane: usize| {
                    let column = |at: usize| lerp(point(at), point(at + n), Self::splat(down[lane]));
                    lerp(column(at[lane]), column(at[lane] + 1), Self::splat(across[lane]))
                };
                Self::transpose([place(0), place(1), place(2), place(3)])
            }
        };
        std::array::from_fn(|k| values[k])
    }
}

/// The first four numbers of a row, zeros where it ends before.
#[inline]
pub fn load(row: &[f32]) -> Four {
    match row.first_chunk() {
        Some(four) => Four::new(*four),
        None => last(row),
    }
}

/// The first `4 N` numbers of a row, if it has so many.
#[inline]
pub fn fours<const N: usize>(row: &[f32]) -> Option<[Four; N]> {
    row.as_chunks().0.first_chunk::<N>().map(|fours| fours.map(Four::new))
}

/// Out of line, or the numbers of every row would be put together one by one.
#[cold]
#[inline(never)]
fn last(row: &[f32]) -> Four {
    Four::new(std::array::from_fn(|lane| row.get(lane).copied().unwrap_or(0.0)))
}

/// Writes to the first four places of a row, or to as many as it has.
#[inline]
pub fn store(row: &mut [f32], four: Four) {
    match row.first_chunk_mut::<LANES>() {
        Some(out) => *out = four.to_array(),
        None => row.iter_mut().zip(four.to_array()).for_each(|(out, x)| *out = x),
    }
}

/// All four together, in the same order on every machine.
#[inline]
pub fn sum(four: Four) -> f32 {
    let [a, b, c, d] = four.to_array();
    (a + b) + (c + d)
}

/// 1 in lanes that are told to be so, 0 in the others.
#[inline]
pub fn flagged(lanes: [bool; LANES]) -> Four {
    Four::new(lanes.map(|lane| f32::from(u8::from(lane))))
}

/// `from`, and one more in every next lane.
#[inline]
pub fn counted(from: f32) -> Four {
    Four::new([from, from + 1.0, from + 2.0, from + 3.0])
}

/// Places in a table from whole numbers: below 2²⁴, where single precision still tells them apart.
#[inline]
pub fn places(at: Four) -> [usize; LANES] {
    at.fast_trunc_int().to_array().map(|at| at as usize)
}

/// Places in a square of `side` points a side that repeats, by whole numbers of either sign; `side` is a power of two.
#[inline]
pub fn wrapped_places(column: Four, row: Four, side: usize) -> [usize; LANES] {
    let mask = i32x4::splat(side as i32 - 1);
    let (column, row) = (column.fast_trunc_int() & mask, row.fast_trunc_int() & mask);
    let (column, row) = (column.to_array(), row.to_array());
    std::array::from_fn(|lane| row[lane] as usize * side + column[lane] as usize)
}
