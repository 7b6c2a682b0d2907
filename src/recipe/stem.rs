//! What carries a finished piece in a garden: a plastic pipe, a rubber stopper in its end, and silicone between stopper and glass.

use crate::base::data::data;
use crate::base::units::Mm;
use serde::{Deserialize, Serialize};
use std::f64::consts::PI;

data! {
    /// What carries a finished piece.
    #[derive(Copy)]
    pub struct Stem {
        /// The pipe.
        pub pipe: Pipe,
        /// Length of the pipe above the ground.
        pub length: Mm,
        /// Length of the pipe in the ground.
        pub in_ground: Mm,
        /// Number of the stopper between pipe and glass.
        pub stopper: u32,
        /// Which face of the dome is set on it.
        #[serde(default)]
        pub on: Face,
        /// What joins the stopper to the glass.
        #[serde(default)]
        pub joint: Joint,
    }
}

data! {
    /// A face of the dome.
    #[derive(Copy, Default, Eq)]
    pub enum Face {
        /// The hollow one: the dome stands over its stem.
        #[default]
        Inside,
        /// The other one: a cup that opens upward.
        Outside,
    }
}

data! {
    /// Silicone between a stopper and the glass, so that air reaches it.
    #[derive(Copy)]
    pub enum Joint {
        /// All over the face of a stopper with a hole, and in a fillet around it.
        Holed {
            /// Leg of the fillet.
            fillet: Mm,
        },
        /// Dabs in a ring on the face of a solid stopper.
        Dabs {
            /// How many.
            count: u32,
            /// Width of one as it is laid.
            across: Mm,
        },
    }
}

impl Default for Joint {
    fn default() -> Self {
        Self::Holed { fillet: Mm(5.0) }
    }
}

impl Joint {
    /// The usual ring of dabs.
    pub fn dabs() -> Self {
        Self::Dabs { count: 6, across: Mm(6.0) }
    }
}

impl Default for Stem {
    fn default() -> Self {
        Self {
            pipe: Pipe::ThreeQuarters,
            length: Mm(900.0),
            in_ground: Mm(400.0),
            stopper: 3,
            on: Face::default(),
            joint: Joint::default(),
        }
    }
}

impl Stem {
    /// Length of the pipe to cut.
    pub fn cut(&self) -> Mm {
        Mm(self.length.0 + self.in_ground.0)
    }

    /// Its stopper; none if there is none of this number.
    pub fn stopper(&self) -> Option<Stopper> {
        STOPPERS.into_iter().find(|stopper| stopper.number == self.stopper)
    }

    /// Takes another pipe, and the stopper that goes deepest into it.
    pub fn take(&mut self, pipe: Pipe) {
        self.pipe = pipe;
        self.stopper = pipe.deepest().number;
    }
}

data! {
    /// A PVC pipe of Schedule 40 by its nominal size in inches.
    #[derive(Copy, Eq)]
    pub enum Pipe {
        /// 1/2 in.
        #[serde(rename = "1/2")]
        Half,
        /// 3/4 in.
        #[serde(rename = "3/4")]
        ThreeQuarters,
        /// 1 in.
        #[serde(rename = "1")]
        One,
        /// 1 1/4 in.
        #[serde(rename = "1 1/4")]
        OneAndAQuarter,
        /// 1 1/2 in.
        #[serde(rename = "1 1/2")]
        OneAndAHalf,
        /// 2 in.
        #[serde(rename = "2")]
        Two,
    }
}

/// What a pipe is sold in, mm: lengths of 10 ft. Common practice, no source.
pub const SOLD_IN: Mm = Mm(3048.0);

impl Pipe {
    /// All of them.
    pub const ALL: [Self; 6] =
        [Self::Half, Self::ThreeQuarters, Self::One, Self::OneAndAQuarter, Self::OneAndAHalf, Self::Two];

    /// Its nominal size in inches.
    pub fn nominal(self) -> &'static str {
        match self {
            Self::Half => "1/2",
            Self::ThreeQuarters => "3/4",
            Self::One => "1",
            Self::OneAndAQuarter => "1 1/4",
            Self::OneAndAHalf => "1 1/2",
            Self::Two => "2",
        }
    }

    /// The least and the most of its outside diameter and of its wall, mm: ASTM D1785, Schedule 40, as a copy of its tables has them.
    pub fn measures(self) -> [(f64, f64); 2] {
        match self {
            Self::Half => [(21.24, 21.44), (2.77, 3.28)],
            Self::ThreeQuarters => [(26.57, 26.77), (2.87, 3.38)],
            Self::One => [(33.27, 33.53), (3.38, 3.89)],
            Self::OneAndAQuarter => [(42.03, 42.29), (3.56, 4.07)],
            Self::OneAndAHalf => [(48.11, 48.41), (3.68, 4.19)],
            Self::Two => [(60.17, 60.47), (3.91, 4.42)],
        }
    }

    /// Its mean outside diameter, mm.
    pub fn outside(self) -> f64 {
        let [(least, most), _] = self.measures();
        f64::midpoint(least, most)
    }

    /// The least, the mean and the most of its bore, mm: outside diameter less two walls. That of a steel pipe is wider.
    pub fn bore(self) -> [f64; 3] {
        let [(narrow, wide), (thin, thick)] = self.measures();
        let (least, most) = (narrow - 2.0 * thick, wide - 2.0 * thin);
        [least, f64::midpoint(least, most), most]
    }

    /// Its section modulus, mm³: that of a ring, pi (D⁴ - d⁴) / (32 D).
    pub fn section_modulus(self) -> f64 {
        let ([_, inside, _], outside) = (self.bore(), self.outside());
        let fourth = |across: f64| across * across * across * across;
        PI * (fourth(outside) - fourth(inside)) / (32.0 * outside)
    }

    /// The stoppers that fit it, whatever its tolerances.
    pub fn stoppers(self) -> impl Iterator<Item = Stopper> {
        STOPPERS.into_iter().filter(move |stopper| stopper.fits(self))
    }

    /// The stopper that goes deepest into it.
    pub fn deepest(self) -> Stopper {
        let deeper = |a: Stopper, b: Stopper| if b.inserted(self)[1] > a.inserted(self)[1] { b } else { a };
        self.stoppers().reduce(deeper).unwrap_or(STOPPERS[0])
    }
}

/// A tapered stopper by its number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stopper {
    /// Its number.
    pub number: u32,
    /// Diameter of its wide face, which bears the glass, mm.
    pub top: f64,
    /// Diameter of its narrow face, mm.
    pub bottom: f64,
}

/// Length of a stopper, mm: common practice, no source.
pub const STOPPER_LENGTH: f64 = 25.0;

const fn stopper(number: u32, top: f64, bottom: f64) -> Stopper {
    Stopper { number, top, bottom }
}

/// Numbered laboratory stoppers, as en.wikipedia.org/wiki/Laboratory_rubber_stopper lists them. No. 00 (15 to 10 mm) slips into all of
/// the pipes.
pub const STOPPERS: [Stopper; 13] = [
    stopper(0, 17.0, 13.0),
    stopper(1, 19.0, 14.0),
    stopper(2, 20.0, 16.0),
    stopper(3, 24.0, 18.0),
    stopper(4, 26.0, 20.0),
    stopper(5, 27.0, 23.0),
    stopper(6, 32.0, 26.0),
    stopper(7, 37.0, 30.0),
    stopper(8, 41.0, 33.0),
    stopper(9, 45.0, 37.0),
    stopper(10, 50.0, 42.0),
    stopper(11, 56.0, 48.0),
    stopper(12, 64.0, 54.0),
];

impl Stopper {
    /// Whether it goes into the narrowest bore of this pipe and not through the widest.
    pub fn fits(&self, pipe: Pipe) -> bool {
        let [least, _, most] = pipe.bore();
        self.bottom < least && self.top > most
    }

    /// How deep it goes into the least, the mean and the widest bore of a pipe, mm: as far as its taper lets it, rubber not yielding.
    pub fn inserted(&self, pipe: Pipe) -> [f64; 3] {
        pipe.bore().map(|bore| {
            (STOPPER_LENGTH * (bore - self.bottom) / (self.top - self.bottom)).clamp(0.0, STOPPER_LENGTH)
        })
    }
}
