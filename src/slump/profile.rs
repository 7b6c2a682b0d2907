//! A mold as the half section that glass can lie on: straights and arcs with how far a point is from each of them.
//!
//! It runs from the axis outward with the glass on its left. Height 0 is the plane of the mold's opening: the level rim around a bowl,
//! the shelf that a hump stands on.

use super::mold::{Point, bend};
use crate::recipe::{Form, Mold};

/// Usual radius of the rounded lip of a bowl, mm. (Common practice, no source.)
pub const USUAL_LIP: f64 = 2.0;

/// A corner tighter than this share of the glass's thickness is taken as sharp: the middle of the glass cannot follow it anyway.
const TIGHT: f64 = 0.75;

/// The level rim and the shelf end here, mm: further out than any disc.
const FAR: f64 = 1e5;

/// What a point may lie beyond the end of a piece and still count as within it, mm: so that none falls between two.
const SLIVER: f64 = 1e-9;

/// How far a point is from a piece of a mold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Distance {
    /// Distance, mm; negative inside the mold.
    pub distance: f64,
    /// Its gradient: away from the mold, of length 1.
    pub away: Point,
    /// Whether the nearest point lies within the piece, not at its end.
    pub within: bool,
}

/// A straight or an arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// From a point in a direction, so far.
    Straight {
        /// Where it begins.
        from: Point,
        /// Where it goes, of length 1.
        along: Point,
        /// How far, mm.
        length: f64,
    },
    /// Less than half a circle.
    Arc {
        /// Middle of the circle.
        middle: Point,
        /// Its radius, mm.
        radius: f64,
        /// From the middle to the first point, of length 1.
        first: Point,
        /// From the middle to the last point, of length 1.
        last: Point,
        /// Whether the glass lies inside the circle.
        hollow: bool,
    },
}

impl Piece {
    /// How far a point is from it.
    pub fn distance(&self, p: Point) -> Distance {
        match *self {
            Self::Straight { from, along, length } => {
                let left = (-along.1, along.0);
                let way = minus(p, from);
                let (at, off) = (dot(way, along), dot(way, left));
                if at >= -SLIVER && at <= length + SLIVER {
                    return Distance { distance: off, away: left, within: true };
                }
                let end = if at < 0.0 { from } else { plus(from, length, along) };
                from_end(p, end, left)
            }
            Self::Arc { middle, radius, first, last, hollow } => {
                let way = minus(p, middle);
                let far = dot(way, way).sqrt();
                let out = if hollow { -1.0 } else { 1.0 };
                // A hollow arc turns left on its way outward, the other kind right.
                if -out * cross(first, way) >= -SLIVER && -out * cross(way, last) >= -SLIVER {
                    let away = if far > 0.0 { (way.0 / far, way.1 / far) } else { first };
                    let away = (out * away.0, out * away.1);
                    return Distance { distance: out * (far - radius), away, within: true };
                }
                let (a, b) = (plus(middle, radius, first), plus(middle, radius, last));
                let nearer_first = length(minus(p, a)) <= length(minus(p, b));
                let (end, normal) = if nearer_first { (a, first) } else { (b, last) };
                from_end(p, end, (out * normal.0, out * normal.1))
            }
        }
    }

    /// Its two ends, first and last.
    pub fn ends(&self) -> (Point, Point) {
        match *self {
            Self::Straight { from, along, length } => (from, plus(from, length, along)),
            Self::Arc { middle, radius, first, last, .. } => {
                (plus(middle, radius, first), plus(middle, radius, last))
            }
        }
    }
}

/// A mold's half section.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    pieces: Vec<Piece>,
    lowest: f64,
    highest: f64,
}

impl Profile {
    /// That of a mold of sound measures whose lip is rounded with radius `lip`, as glass so thick meets it, all in mm. Glass bridges a
    /// corner that is tighter than the glass is thick, and the foot of a hump, with a bend of its own thickness.
    pub fn new(mold: &Mold, lip: f64, thickness: f64) -> Self {
        let (opening, depth) = (mold.opening.0 / 2.0, mold.depth.0);
        let pieces = match &mold.form {
            Form::Bowl => bowl(opening, depth, lip),
            Form::Hump => hump(opening, depth, thickness),
            Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } => {
                walled(opening, depth, bottom.0 / 2.0, corner.0, lip, thickness)
            }
        };
        let heights = || pieces.iter().map(|piece| piece.ends().0.1);
        let lowest = heights().fold(0.0, f64::min);
        let highest = heights().fold(0.0, f64::max);
        Self { pieces, lowest, highest }
    }

    /// Its straights and arcs, from the axis outward.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Its lowest and highest heights, mm.
    pub fn heights(&self) -> (f64, f64) {
        (self.lowest, self.highest)
    }

    /// How far a point is from it.
    pub fn distance(&self, p: Point) -> Distance {
        let mut nearest = Distance { distance: f64::INFINITY, away: (0.0, 1.0), within: false };
        for piece in &self.pieces {
            let one = piece.distance(p);
            if one.distance.abs() < nearest.distance.abs() {
                nearest = one;
            }
        }
        nearest
    }
}

/// Part of a sphere, hollow, up to a rounded lip and a level rim.
fn bowl(opening: f64, depth: f64, lip: f64) -> Vec<Piece> {
    let radius = (opening * opening + depth * depth) / (2.0 * depth);
    let middle = (0.0, radius - depth);
    let turn = beside(radius, middle.1, lip);
    let lip_middle = (turn, -lip);
    let toward = unit(minus(lip_middle, middle));
    vec![
        Piece::Arc { middle, radius, first: (0.0, -1.0), last: toward, hollow: true },
        Piece::Arc {
            middle: lip_middle,
            radius: lip,
            first: (-toward.0, -toward.1),
            last: (0.0, 1.0),
            hollow: false,
        },
        level(turn),
    ]
}

/// Part of a sphere on a shelf, and the bend that the glass makes around its foot.
fn hump(opening: f64, height: f64, bend: f64) -> Vec<Piece> {
    let radius = (opening * opening + height * height) / (2.0 * height);
    let middle = (0.0, height - radius);
    let turn = beside(radius, -middle.1, bend);
    let foot = (turn, bend);
    let toward = unit(minus(foot, middle));
    vec![
        Piece::Arc { middle, radius, first: (0.0, 1.0), last: toward, hollow: false },
        Piece::Arc {
            middle: foot,
            radius: bend,
            first: (-toward.0, -toward.1),
            last: (0.0, -1.0),
            hollow: true,
        },
        level(turn),
    ]
}

/// How far from the axis the middle of a circle lies that touches a level plane on the far side of it, and a sphere from outside, whose
/// middle is so far from that plane on the other side.
fn beside(sphere: f64, away: f64, circle: f64) -> f64 {
    let (reach, across) = (sphere + circle, away + circle);
    ((reach - across) * (reach + across)).max(0.0).sqrt()
}

/// A level bottom, a rounded corner, a straight wall, a rounded lip and a level rim.
fn walled(opening: f64, depth: f64, bottom: f64, corner: f64, lip: f64, thickness: f64) -> Vec<Piece> {
    let across = opening - bottom;
    let wall = (depth * depth + across * across).sqrt();
    let up = (across / wall, depth / wall);
    // Half the turn's tangent: how much of each side an arc of radius 1 takes.
    let per_radius = depth / (wall + across);
    let lip = lip.min(0.5 * wall / per_radius);
    let room = bottom.min(wall - lip * per_radius) / per_radius;
    let corner = bend(corner, thickness, room).min(room);
    let corner = if corner < TIGHT * thickness { 0.0 } else { corner };
    let (low, high) = (corner * per_radius, lip * per_radius);
    let from = (bottom + low * up.0, low * up.1 - depth);
    let left = (-up.1, up.0);
    let mut pieces = vec![Piece::Straight { from: (0.0, -depth), along: (1.0, 0.0), length: bottom - low }];
    if corner > 0.0 {
        let middle = (bottom - low, corner - depth);
        let last = (up.1, -up.0);
        pieces.push(Piece::Arc { middle, radius: corner, first: (0.0, -1.0), last, hollow: true });
    }
    pieces.push(Piece::Straight { from, along: up, length: wall - low - high });
    let middle = (opening + high, -lip);
    pieces.push(Piece::Arc { middle, radius: lip, first: left, last: (0.0, 1.0), hollow: false });
    pieces.push(level(opening + high));
    pieces
}

/// The plane of the opening, from so far from the axis on.
fn level(from: f64) -> Piece {
    Piece::Straight { from: (from, 0.0), along: (1.0, 0.0), length: FAR }
}

/// From the end of a piece, on the side that its normal tells.
fn from_end(p: Point, end: Point, normal: Point) -> Distance {
    let way = minus(p, end);
    let far = length(way);
    let side = if dot(way, normal) < 0.0 { -1.0 } else { 1.0 };
    let away = if far > 0.0 { (side * way.0 / far, side * way.1 / far) } else { normal };
    Distance { distance: side * far, away, within: false }
}

fn minus(a: Point, b: Point) -> Point {
    (a.0 - b.0, a.1 - b.1)
}

fn plus(a: Point, k: f64, b: Point) -> Point {
    (a.0 + k * b.0, a.1 + k * b.1)
}

fn dot(a: Point, b: Point) -> f64 {
    a.0 * b.0 + a.1 * b.1
}

fn cross(a: Point, b: Point) -> f64 {
    a.0 * b.1 - a.1 * b.0
}

fn length(a: Point) -> f64 {
    dot(a, a).sqrt()
}

fn unit(a: Point) -> Point {
    let l = length(a);
    (a.0 / l, a.1 / l)
}
