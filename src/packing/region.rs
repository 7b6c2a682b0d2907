//! Where the centers of discs may lie, reckoned in the distance that two of them keep.

use super::shelf::Shelf;

/// A place, from the left and from the front.
pub type Place = [f64; 2];

/// The discs that are laid, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Discs {
    /// Diameter.
    pub across: f64,
    /// Distance kept between two of them.
    pub gap: f64,
    /// Distance kept from the edge.
    pub edge: f64,
}

/// Where centers may lie if two of them are at least 1 apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Region {
    /// Within this radius of a middle, which is the origin.
    Round(f64),
    /// From the origin to here.
    Square(f64, f64),
}

/// Lengths that differ by less than this share of the discs' distance are the same: some 1e-7 mm.
pub const SAME: f64 = 1e-9;

impl Region {
    /// Where the centers of these discs may lie in a room; none if not even one of them goes in.
    pub fn of(room: Shelf, discs: Discs) -> Option<Self> {
        let apart = discs.across + discs.gap;
        let within = |side: f64| {
            let free = (side - 2.0 * discs.edge - discs.across) / apart;
            (free >= -SAME).then_some(free.max(0.0))
        };
        match room {
            Shelf::Round { across } => within(across.0).map(|wide| Self::Round(wide / 2.0)),
            Shelf::Square { wide, deep } => {
                within(wide.0).zip(within(deep.0)).map(|(w, d)| Self::Square(w, d))
            }
        }
    }

    /// A place of the region in mm, from the left and the front end of the room.
    pub fn in_mm(self, place: Place, discs: Discs) -> Place {
        let corner = match self {
            Self::Round(radius) => radius,
            Self::Square(..) => 0.0,
        };
        place.map(|at| (at + corner) * (discs.across + discs.gap) + discs.edge + discs.across / 2.0)
    }

    /// The same region, so many times as large.
    pub fn times(self, by: f64) -> Self {
        match self {
            Self::Round(radius) => Self::Round(radius * by),
            Self::Square(wide, deep) => Self::Square(wide * by, deep * by),
        }
    }

    /// The place of the region nearest to this one.
    pub fn nearest(self, [x, y]: Place) -> Place {
        match self {
            Self::Square(wide, deep) => [x.clamp(0.0, wide), y.clamp(0.0, deep)],
            Self::Round(radius) => {
                let far = (x * x + y * y).sqrt();
                if far <= radius { [x, y] } else { [x * radius / far, y * radius / far] }
            }
        }
    }

    /// The place that is this share of the width and of the depth away from the region's first corner (of a circle: that share of
    /// its turns and of its area).
    pub fn at_share(self, across: f64, along: f64) -> Place {
        match self {
            Self::Square(wide, deep) => [across * wide, along * deep],
            Self::Round(radius) => {
                let far = radius * along.sqrt();
                let (sin, cos) = crate::base::scalar::sin_cos(across * std::f64::consts::TAU);
                [far * cos, far * sin]
            }
        }
    }

    /// More centers than this lie in no region of its area and outline: 2/√3 times the area, half the outline and 1 (N. Oler, *An
    /// inequality in the geometry of numbers*, Acta Math. 105, 1961; from memory).
    pub fn most(self) -> usize {
        let (area, outline) = match self {
            Self::Round(radius) => (std::f64::consts::PI * radius * radius, std::f64::consts::TAU * radius),
            Self::Square(wide, deep) => (wide * deep, 2.0 * (wide + deep)),
        };
        (2.0 / 3.0_f64.sqrt() * area + outline / 2.0 + 1.0 + SAME).floor() as usize
    }
}

/// Square of the distance of two places.
pub fn apart_squared(a: Place, b: Place) -> f64 {
    let (x, y) = (a[0] - b[0], a[1] - b[1]);
    x * x + y * y
}

/// Whether all these places keep their distance and lie within the region.
pub fn sound(region: Region, places: &[Place]) -> bool {
    let least = (1.0 - SAME) * (1.0 - SAME);
    let free = |at: usize| places[..at].iter().all(|other| apart_squared(*other, places[at]) >= least);
    let inside = |place: Place| apart_squared(region.nearest(place), place) <= SAME * SAME;
    (0..places.len()).all(|at| free(at) && inside(places[at]))
}
