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
    if text == "-0" { "0".into() } else { text.into() }
}

/// A number with just so many decimals: the one place that knows how decimals are written.
pub fn fixed(value: f64, decimals: usize) -> String {
    format!("{value:.decimals$}")
}
