//! A kiln as its owner describes it, or as a guess that says so; its file.

use super::wall::Wall;
use crate::base::firing::Firing;
use crate::base::notice::{Notice, Severity, Step};
use crate::base::units::{Celsius, Mm};
pub use crate::packing::Shelf;
use serde::{Deserialize, Serialize};

/// The version of the kiln file that this program writes and reads.
pub const VERSION: u32 = 1;
/// The largest kiln file that is read, bytes.
pub const MOST_BYTES: usize = 1 << 16;
/// Temperature of the room that a kiln stands in, °C.
pub const ROOM: f64 = 20.0;

macro_rules! data {
    ($(#[$meta:meta])* pub $kind:ident $name:ident $body:tt) => {
        $(#[$meta])*
        #[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case", deny_unknown_fields)]
        pub $kind $name $body
    };
}

data! {
    /// A kiln.
    pub struct Kiln {
        /// Version of this format; must be present.
        pub version: u32,
        /// What its owner calls it.
        #[serde(default)]
        pub name: String,
        /// Whether it is a guess and no one's kiln.
        #[serde(default)]
        pub guess: bool,
        /// The room inside.
        pub inside: Inside,
        /// The shelf.
        pub shelf: Shelf,
        /// Distance from the shelf's edge that is kept free.
        #[serde(default = "edge")]
        pub edge: Mm,
        /// Distance between two pieces.
        #[serde(default = "gap")]
        pub gap: Mm,
        /// What its walls are made of.
        pub lining: Lining,
        /// How thick they are.
        pub wall: Mm,
        /// Power on its plate, kW.
        pub power: f64,
        /// The voltage it is made for and the one it gets; the same if left out.
        #[serde(default)]
        pub volts: Option<Volts>,
        /// How it cooled with the lid shut; by its size and walls if left out.
        #[serde(default)]
        pub cooling: Vec<Reading>,
        /// How many times more heat its walls let through than their size and lining say, as an opening has told; once if left out. What
        /// was read of its cooling counts before that.
        #[serde(default)]
        pub leaks: Option<f64>,
        /// What its owner's meter said about a firing.
        #[serde(default)]
        pub metered: Option<Metered>,
        /// Money for one kWh.
        #[serde(default)]
        pub price: Option<f64>,
    }
}

data! {
    /// The room inside a kiln.
    #[derive(Copy)]
    pub struct Inside {
        /// From left to right.
        pub wide: Mm,
        /// From front to back.
        pub deep: Mm,
        /// From floor to lid.
        pub high: Mm,
    }
}

data! {
    /// What the walls are made of.
    #[derive(Copy, Eq)]
    pub enum Lining {
        /// Insulating brick.
        Brick,
        /// Ceramic fiber.
        Fiber,
    }
}

data! {
    /// The supply.
    #[derive(Copy)]
    pub struct Volts {
        /// What the kiln is made for.
        pub made_for: f64,
        /// What it gets.
        pub gets: f64,
    }
}

data! {
    /// One reading of a cooling kiln, switched off, its lid shut.
    #[derive(Copy)]
    pub struct Reading {
        /// Hours on the clock.
        pub hours: f64,
        /// What the pyrometer shows.
        pub at: Celsius,
    }
}

data! {
    /// What a meter said about one firing of this very recipe.
    #[derive(Copy)]
    pub struct Metered {
        /// Which.
        pub firing: Firing,
        /// kWh.
        pub kwh: f64,
    }
}

fn edge() -> Mm {
    Mm(20.0)
}

fn gap() -> Mm {
    Mm(8.0)
}

/// A kiln to reckon with until the maker has described an own one. Invented sizes of the usual kinds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Guess {
    /// 300 mm square inside, brick.
    SmallBrick,
    /// 560 mm square inside, brick.
    LargeBrick,
    /// 400 mm square inside, fiber.
    Fiber,
}

/// Thickness of a kiln shelf, mm: common practice, no source.
const SHELF_THICK: f64 = 15.0;
/// Density times heat capacity of a cordierite shelf or a clay mold, J/(m³ K): 2000 kg/m³, 900 J/(kg K), from memory.
const CERAMIC: f64 = 2000.0 * 900.0;
/// Area between inside and outside of a wall, as a share of the inside: 1.4 for usual boxes.
const MEAN_AREA: f64 = 1.4;
/// Heat that air and radiation take off a warm wall, W/(m² K): usual in building physics, from memory.
const OUTSIDE: f64 = 10.0;

impl Kiln {
    /// A guess that says so.
    pub fn guess(guess: Guess) -> Self {
        let (name, side, high, lining, wall, power) = match guess {
            Guess::SmallBrick => ("A small brick kiln, guessed", 300.0, 150.0, Lining::Brick, 50.0, 2.4),
            Guess::LargeBrick => ("A large brick kiln, guessed", 560.0, 300.0, Lining::Brick, 75.0, 9.0),
            Guess::Fiber => ("A fiber kiln, guessed", 400.0, 200.0, Lining::Fiber, 50.0, 3.6),
        };
        Self {
            version: VERSION,
            name: name.into(),
            guess: true,
            inside: Inside { wide: Mm(side), deep: Mm(side), high: Mm(high) },
            shelf: Shelf::Square { wide: Mm(side - 40.0), deep: Mm(side - 40.0) },
            edge: edge(),
            gap: gap(),
            lining,
            wall: Mm(wall),
            power,
            volts: None,
            cooling: Vec::new(),
            leaks: None,
            metered: None,
            price: None,
        }
    }

    /// The most it can give, W: power goes with the square of the voltage.
    pub fn most_watts(&self) -> f64 {
        let share = self.volts.map_or(1.0, |volts| volts.gets / volts.made_for);
        self.power * 1e3 * share * share
    }

    /// Its wall by size and lining, before any cooling was read.
    pub fn plain_wall(&self) -> Wall {
        let Inside { wide, deep, high } = self.inside;
        let inner = 2.0 * (wide.0 * deep.0 + wide.0 * high.0 + deep.0 * high.0) * 1e-6;
        // Insulating brick 0.20 W/(m K), 550 kg/m³; fiber blanket 0.14, 130; 1000 J/(kg K): usual values, from memory.
        let (conductivity, density) = match self.lining {
            Lining::Brick => (0.20, 550.0),
            Lining::Fiber => (0.14, 130.0),
        };
        Wall {
            area: MEAN_AREA * inner,
            thick: self.wall.0 * 1e-3,
            conductivity,
            heat: density * 1000.0,
            outside: OUTSIDE,
        }
    }

    /// Heat capacity of its shelf, J/K.
    pub fn shelf_heat(&self) -> f64 {
        let area = match self.shelf {
            Shelf::Round { across } => std::f64::consts::PI / 4.0 * across.0 * across.0,
            Shelf::Square { wide, deep } => wide.0 * deep.0,
        };
        area * SHELF_THICK * 1e-9 * CERAMIC
    }

    /// Its file.
    pub fn write(&self) -> String {
        // Plain data with names for keys: nothing in it can fail to be written.
        serde_json::to_string_pretty(self).unwrap_or_default()
    }

    /// Reads a kiln, or says what is wrong with its file. Whether its numbers make sense is for [`super::checks::check`] to say.
    ///
    /// # Errors
    /// A fault if it is too long, no kiln, of another version, or lacks a field or has one that is not known.
    pub fn read(text: &str) -> Result<Self, Notice> {
        if text.len() > MOST_BYTES {
            let why = format!("It is {} bytes long; a kiln has at most {MOST_BYTES}.", text.len());
            return Err(fault("Too large for a kiln.", why, "Choose a kiln file."));
        }
        let kiln: Self = serde_json::from_str(text).map_err(|mistake| {
            let said = mistake.to_string();
            let said = said.split(" at line ").next().unwrap_or_default();
            let why = format!("At line {}: {said}.", mistake.line());
            fault(
                "A kiln file with a mistake in it.",
                why,
                "Mend it at that line, or describe the kiln again.",
            )
        })?;
        if kiln.version != VERSION {
            let why = format!("It says version {}; this program reads version {VERSION}.", kiln.version);
            return Err(fault(
                "A kiln of another version.",
                why,
                "Use a newer Dappledome, or describe it again.",
            ));
        }
        Ok(kiln)
    }
}

/// Heat capacity of a clay mold with a wall of 8 mm, J/K, by its area in mm².
pub fn mold_heat(area: f64) -> f64 {
    area * 8.0 * 1e-9 * CERAMIC
}

/// A fault of a kiln.
pub(super) fn fault(what: &str, why: String, remedy: impl Into<String>) -> Notice {
    Notice::new(Severity::Fault, Step::Recipe, what, why, remedy)
}
