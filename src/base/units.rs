//! Lengths, masses, angles and temperatures as types of their own, and how a maker writes them.

use serde::{Deserialize, Serialize};
use std::fmt;

macro_rules! unit {
    ($(#[$doc:meta])* $name:ident, $suffix:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
        #[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
        #[serde(transparent)]
        pub struct $name(pub f64);

        impl $name {
            /// The bare number, in single precision, as the engine's grids hold it.
            pub fn f32(self) -> f32 {
                self.0 as f32
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{} {}", plain(self.0), $suffix)
            }
        }
    };
}

unit!(
    /// A length in millimeters.
    Mm, "mm"
);
unit!(
    /// A mass in grams.
    Grams, "g"
);
unit!(
    /// A temperature in degrees Celsius.
    Celsius, "°C"
);
unit!(
    /// A time in minutes.
    Minutes, "min"
);
unit!(
    /// An angle in degrees, counterclockwise seen from above.
    Degrees, "°"
);

/// Millimeters in one inch, exactly.
pub const MM_PER_INCH: f64 = 25.4;

/// A number with at most two decimals and no trailing zeros: `160`, `0.45`, `42.5`.
pub fn plain(value: f64) -> String {
    short(value, 2)
}

/// A number with at most so many decimals and no trailing zeros.
pub fn short(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    let text = if decimals > 0 { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    text.into()
}

/// A number with just so many decimals. Halves go away from zero, as a maker rounds (formatting alone takes them to even),
/// and a zero has no sign.
pub fn fixed(value: impl Into<f64>, decimals: usize) -> String {
    let value = value.into();
    if value.is_nan() {
        return "–".into();
    }
    let scale = 10_u64.pow(decimals as u32) as f64;
    let rounded = (value * scale).round() / scale + 0.0;
    format!("{rounded:.decimals$}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_written_to_the_nearest() {
        for n in 0..20_000 {
            let value = f64::from(n) * 0.0371 - 250.0;
            for (decimals, unit) in [1.0, 0.1, 0.01, 0.001, 0.0001].into_iter().enumerate() {
                let text = fixed(value, decimals);
                let off = text.parse::<f64>().unwrap() - value;
                assert!(off.abs() <= 0.5 * unit + 1e-9, "{value} is written {text}");
                assert_eq!(text.len(), format!("{:.decimals$}", text.parse::<f64>().unwrap()).len());
            }
        }
        assert_eq!(fixed(f64::NAN, 2), "–");
        for (value, decimals, text) in [
            (0.005, 2, "0.01"),
            (12.5, 0, "13"),
            (0.125, 2, "0.13"),
            (-0.125, 2, "-0.13"),
            (-0.004, 2, "0.00"),
            (f64::INFINITY, 2, "inf"),
        ] {
            assert_eq!(fixed(value, decimals), text);
        }
    }
}
