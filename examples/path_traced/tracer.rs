//! Light followed backward from the eye, through faces and layers, until it comes from a lamp.

use super::glass::{Face, Stack, Tally};
use super::lights::{FROST, Lantern, PLATE, Room};
use super::space::{Solid, TOUCH, V3};
use dappledome::base::scalar::ln;
use rand::{Rng, RngExt};
use std::f64::consts::{PI, TAU};

/// How far a ray is set off from a face that it leaves, mm.
const OFF: f64 = 1e-4;
/// Least step across a border between two layers, mm.
const LEAST: f64 = 2e-4;
/// A path has at most so many events.
const MOST: u32 = 20_000;
/// Every so many events a path is asked whether it is worth going on.
const ASKED: u32 = 16;
/// A path of less weight than this goes on by chance.
const FAINT: f64 = 0.25;

/// A piece in its surroundings.
#[derive(Debug)]
pub struct World {
    /// Its shape.
    pub solid: Solid,
    /// Its glass.
    pub stack: Stack,
    /// The light around it.
    pub room: Room,
    /// The lantern inside.
    pub lantern: Option<Lantern>,
}

/// Light that a path has found.
#[derive(Clone, Copy, Debug)]
pub struct Found<'a> {
    /// How much, before the glass takes its share ([`Tally::weights`]).
    pub light: f64,
    /// What the path met in the glass.
    pub tally: &'a Tally,
    /// Whether it was scattered by glass, table or lantern.
    pub scattered: bool,
}

/// A path under way.
#[derive(Clone, Copy, Debug)]
struct Path {
    at: V3,
    toward: V3,
    inside: bool,
    share: f64,
    tally: Tally,
    /// How likely the table was to send it this way, since when it met nothing.
    from_table: Option<f64>,
    scattered: bool,
}

/// What a ray in air meets.
enum Met {
    Glass(V3),
    Table(V3),
    /// Place, normal and radiance.
    Lantern(V3, V3, f64),
    Nothing,
}

impl World {
    /// Follows a line of sight. What the first face reflects and what it lets in are both followed. `hero` is the band that
    /// chooses the free paths: all bands should have their turn equally often.
    pub fn look(
        &self,
        (from, toward): (V3, V3),
        hero: usize,
        chance: &mut impl Rng,
        found: &mut impl FnMut(&Found),
    ) {
        let path = Path {
            at: from,
            toward,
            inside: false,
            share: 1.0,
            tally: Tally::default(),
            from_table: None,
            scattered: false,
        };
        let Met::Glass(place) = self.met(from, toward) else {
            return self.walk(path, hero, chance, found);
        };
        let at = Path { at: place, ..path };
        let reflected = Face::at(self.cosine(&at), false).reflected;
        for (share, mirrors) in [(reflected, true), (1.0 - reflected, false)] {
            let mut path = Path { share, ..at };
            self.turn(&mut path, mirrors);
            self.walk(path, hero, chance, found);
        }
    }

    fn walk(&self, mut path: Path, hero: usize, chance: &mut impl Rng, found: &mut impl FnMut(&Found)) {
        for event in 1..MOST {
            if event % ASKED == 0 && !self.goes_on(&mut path, chance) {
                return;
            }
            if path.inside {
                if self.crosses(&mut path, hero, chance) {
                    path.toward = V3::new(0.0, 0.0, 1.0)
                        .tilted(2.0 * chance.random::<f64>() - 1.0, TAU * chance.random::<f64>());
                    path.scattered = true;
                } else {
                    let reflected = Face::at(self.cosine(&path), true).reflected;
                    let mirrors = chance.random::<f64>() < reflected;
                    self.turn(&mut path, mirrors);
                }
                continue;
            }
            match self.met(path.at, path.toward) {
                Met::Glass(place) => {
                    path.at = place;
                    path.from_table = None;
                    let reflected = Face::at(self.cosine(&path), false).reflected;
                    let mirrors = chance.random::<f64>() < reflected;
                    self.turn(&mut path, mirrors);
                }
                Met::Table(place) => self.on_table(&mut path, place, chance, found),
                Met::Lantern(place, normal, radiance) => {
                    let light = path.share * radiance;
                    found(&Found { light, tally: &path.tally, scattered: path.scattered });
                    path.share *= FROST;
                    self.scatter_from(&mut path, place, normal, chance);
                    path.from_table = None;
                }
                Met::Nothing => {
                    let light = path.share * self.room_seen(&path);
                    if light > 0.0 {
                        found(&Found { light, tally: &path.tally, scattered: path.scattered });
                    }
                    return;
                }
            }
        }
    }

    fn met(&self, from: V3, toward: V3) -> Met {
        let table = if matches!(self.room, Room::Even(..)) || toward.z >= 0.0 {
            f64::MAX
        } else {
            -from.z / toward.z
        };
        let lantern = self.lantern.and_then(|lantern| lantern.met(from, toward));
        let most = table.min(lantern.map_or(f64::MAX, |(t, ..)| t));
        if let Some(place) = self.solid.met(from, toward, most) {
            return Met::Glass(place);
        }
        match lantern {
            Some((t, normal, radiance)) if t <= table => Met::Lantern(from + toward * t, normal, radiance),
            _ if table < f64::MAX => Met::Table(from + toward * table),
            _ => Met::Nothing,
        }
    }

    /// Cosine between a path and the normal of the face it is at.
    fn cosine(&self, path: &Path) -> f64 {
        path.toward.dot(self.solid.outward(path.at)).abs()
    }

    /// Mirrors a path at the face it is at, or takes it through.
    fn turn(&self, path: &mut Path, mirrors: bool) {
        let outward = self.solid.outward(path.at);
        let against = if path.inside { outward * -1.0 } else { outward };
        let cosine = -path.toward.dot(against);
        if mirrors {
            path.toward = path.toward + against * (2.0 * cosine);
        } else {
            let face = Face::at(cosine, path.inside);
            path.toward = path.toward * face.ratio + against * (face.ratio * cosine - face.beyond);
            path.inside = !path.inside;
        }
        path.toward = path.toward.unit();
        // Exactly onto the face first, or small steps toward it would add up.
        let onto = path.at - outward * self.solid.distance(path.at);
        path.at = onto + outward * if path.inside { -OFF } else { OFF };
    }

    /// Follows a path inside the glass until it is scattered (true) or meets a face.
    fn crosses(&self, path: &mut Path, hero: usize, chance: &mut impl Rng) -> bool {
        let mut left = -ln(1.0 - chance.random::<f64>());
        loop {
            let room = -self.solid.distance(path.at);
            if room < TOUCH {
                let outward = self.solid.outward(path.at);
                if path.toward.dot(outward) > 0.0 {
                    return false;
                }
                // Scattered close to a face and away from it.
                path.at = path.at - outward * OFF;
                continue;
            }
            let (kind, border) = self.stack.at(self.solid.depth(path.at), || self.solid.flat_radius(path.at));
            let mut step = room.min(border.max(LEAST));
            let scattering = self.stack.kinds[kind].scattering[hero];
            let scatters = scattering * step >= left;
            if scatters {
                step = left / scattering;
            }
            left -= scattering * step;
            path.at = path.at + path.toward * step;
            path.tally.go(kind, step);
            if scatters {
                path.tally.scatter(kind);
                return true;
            }
        }
    }

    /// Sends a path off a matte surface.
    fn scatter_from(&self, path: &mut Path, place: V3, normal: V3, chance: &mut impl Rng) -> f64 {
        let cosine = (1.0 - chance.random::<f64>()).sqrt();
        path.toward = normal.tilted(cosine, TAU * chance.random::<f64>());
        path.at = place + normal * OFF;
        path.scattered = true;
        cosine / PI
    }

    /// The matte table: light straight from the room is looked for where it is bright, too.
    fn on_table(&self, path: &mut Path, place: V3, chance: &mut impl Rng, found: &mut impl FnMut(&Found)) {
        let up = V3::new(0.0, 0.0, 1.0);
        match &self.room {
            Room::Day(studio) => {
                path.share *= studio.table;
                let d = studio.draw(chance);
                if matches!(self.met(place + up * OFF, d), Met::Nothing) {
                    let light = path.share * studio.seen(d) * d.z / PI / (studio.likely(d) + d.z / PI);
                    found(&Found { light, tally: &path.tally, scattered: true });
                }
                path.from_table = Some(self.scatter_from(path, place, up, chance));
            }
            Room::Dark(table, plate) => {
                path.share *= if place.radius() < *plate { PLATE } else { *table };
                self.scatter_from(path, place, up, chance);
            }
            Room::Even(..) => {}
        }
    }

    /// The room at the end of a path, the share left out that the table has looked for already.
    fn room_seen(&self, path: &Path) -> f64 {
        match &self.room {
            Room::Day(studio) => {
                let share =
                    path.from_table.map_or(1.0, |likely| likely / (likely + studio.likely(path.toward)));
                share * studio.seen(path.toward)
            }
            Room::Dark(..) => 0.0,
            Room::Even(above, below) => {
                if path.toward.z > 0.0 {
                    *above
                } else {
                    *below
                }
            }
        }
    }

    /// Ends a faint path by chance, or makes up for those that were ended.
    fn goes_on(&self, path: &mut Path, chance: &mut impl Rng) -> bool {
        let weight = path.share * path.tally.weights(&self.stack.kinds).into_iter().fold(0.0, f64::max);
        if weight >= FAINT {
            return true;
        }
        let kept = weight / FAINT;
        path.share /= kept;
        chance.random::<f64>() < kept
    }
}
