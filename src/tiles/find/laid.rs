//! Jars laid on what lies under them, every way, and what they fire to.

use super::downhill::downhill;
use super::under::Under;
use super::way::{DEPTHS, Jar, PARTS, Way, share};
use crate::base::scalar::{exp, ln};
use crate::color::difference::{Lab, de2000, de2000_below};
use crate::glass::material::Material;
use crate::optics::baked::BakedLayer;
use crate::optics::film::Film;
use crate::optics::layer::Layer;
use crate::optics::table::Between;

/// Depths of the coarse grid: two to an octave, about, or one.
const FINE: usize = 14;
const COARSE: usize = 7;
/// Of the parts of a blend, so many are followed downhill, and so many of those to the end.
const FOLLOWED: usize = 5;
const KEPT: usize = 3;
/// Steps of the first way downhill, in the logarithm of depth.
const QUICKLY: (f64, f64) = (0.2, 0.05);

/// Jars, baked, on what lies under them.
pub struct Laid<'a> {
    jars: &'a [Jar<'a>],
    baked: Vec<BakedLayer>,
    under: Under,
}

/// A way, and how far it is off.
type Ranked = (Way, f64);

impl<'a> Laid<'a> {
    /// Bakes the jars.
    pub fn new(jars: &'a [Jar<'a>], under: &Under) -> Self {
        let bake = |jar: &Jar| BakedLayer::new(jar.material, (1.01 * DEPTHS.1 * jar.packing) as f32);
        Self { jars, baked: jars.iter().map(bake).collect(), under: *under }
    }

    /// A jar so deep, baked.
    fn layer(&self, jar: usize, depth: f64) -> Between<'_, Layer> {
        self.baked[jar].at(self.glass(jar, depth))
    }

    /// Glass of so much loose powder, mm.
    fn glass(&self, jar: usize, depth: f64) -> f32 {
        (depth * self.jars[jar].packing) as f32
    }

    /// What a way fires to, from the baked jars.
    pub fn color(&self, way: &Way) -> Lab {
        if let Way::Blended { jars, parts, depth } = *way
            && self.scatter(jars)
        {
            return self.single(self.blend(jars, parts), depth);
        }
        // What only absorbs multiplies: a blend of it is one over the other, each at its share.
        let mut under = self.under;
        for (jar, depth) in way.each() {
            under.lay(self.layer(jar, depth), self.baked[jar].scatters);
        }
        under.color(&Film::NONE)
    }

    /// The same to the last digit, nothing baked: as a swatch shows it.
    pub fn exact(&self, way: &Way) -> Lab {
        if let Way::Blended { jars, parts, depth } = *way {
            return self.single(self.blend(jars, parts), depth);
        }
        let mut under = self.under;
        for (jar, depth) in way.each() {
            let Jar { material, packing, .. } = self.jars[jar];
            let layer = Layer::of(material, depth * packing);
            under.lay((&layer, &layer, 0.0), material.scatters());
        }
        under.color(&Film::NONE)
    }

    fn single(&self, (material, packing): (Material, f64), depth: f64) -> Lab {
        let (mut under, layer) = (self.under, Layer::of(&material, depth * packing));
        under.lay((&layer, &layer, 0.0), material.scatters());
        under.color(&Film::NONE)
    }

    /// Parts of loose powder mixed: what they fire to, and how much of their bed is glass.
    fn blend(&self, jars: [usize; 2], parts: [u8; 2]) -> (Material, f64) {
        let [one, other] = jars.map(|jar| self.jars[jar]);
        let first = share(parts) * one.packing;
        let packing = first + (1.0 - share(parts)) * other.packing;
        let of_glass = (first / packing) as f32;
        (Material::blend([(one.material, of_glass), (other.material, 1.0 - of_glass)]), packing)
    }

    /// Whether either of two jars scatters.
    fn scatter(&self, jars: [usize; 2]) -> bool {
        jars.iter().any(|jar| self.baked[*jar].scatters)
    }

    /// A way followed downhill.
    fn followed(&self, way: Way, wanted: Lab) -> Ranked {
        downhill(way, QUICKLY, |way| de2000(self.color(way), wanted))
    }

    /// Each jar alone.
    pub fn alone(&self, wanted: Lab) -> Vec<Ranked> {
        let nearest = |jar: usize| {
            let ways = grid(FINE).map(|depth| Way::Alone { jar, depth });
            self.followed(nearest(ways.map(|way| (way, self.color(&way))), wanted).0, wanted)
        };
        (0..self.jars.len()).map(nearest).collect()
    }

    /// Each two jars blended, in the nearest parts.
    pub fn blended(&self, wanted: Lab) -> Vec<Ranked> {
        let mut all = Vec::new();
        for jars in self.pairs() {
            let mut ways: Vec<Ranked> =
                PARTS.iter().map(|parts| self.blended_in(jars, *parts, wanted)).collect();
            sort(&mut ways);
            ways.truncate(FOLLOWED);
            let mut ways: Vec<Ranked> = ways.into_iter().map(|(way, _)| self.followed(way, wanted)).collect();
            sort(&mut ways);
            all.extend(ways.into_iter().take(KEPT));
        }
        all
    }

    /// The nearest depth of the grid.
    fn blended_in(&self, jars: [usize; 2], parts: [u8; 2], wanted: Lab) -> Ranked {
        let way = |depth: f64| Way::Blended { jars, parts, depth };
        if !self.scatter(jars) {
            return nearest(grid(FINE).map(|depth| (way(depth), self.color(&way(depth)))), wanted);
        }
        let (blend, packing) = self.blend(jars, parts);
        let layers = Layer::doubling(&blend, DEPTHS.0 * packing, COARSE);
        let ways = layers.iter().zip(grid_doubling()).map(|(layer, depth)| {
            let mut under = self.under;
            under.lay((layer, layer, 0.0), true);
            (way(depth), under.color(&Film::NONE))
        });
        nearest(ways, wanted)
    }

    /// Each two jars one over the other, both ways round unless neither scatters: then the order does not matter.
    pub fn over(&self, wanted: Lab) -> Vec<Ranked> {
        let depths: Vec<f64> = grid(FINE).collect();
        let mut all = Vec::new();
        for lower in 0..self.jars.len() {
            let grounds: Vec<Under> = depths
                .iter()
                .map(|depth| {
                    let mut under = self.under;
                    under.lay(self.layer(lower, *depth), self.baked[lower].scatters);
                    under
                })
                .collect();
            for upper in 0..self.jars.len() {
                if lower == upper || (lower > upper && !self.scatter([lower, upper])) {
                    continue;
                }
                let each = depths.iter().flat_map(|over| {
                    let baked = &self.baked[upper];
                    let layer = baked.film().map(|film| film.at(self.glass(upper, *over)));
                    grounds.iter().zip(&depths).map(move |(ground, under)| {
                        let mut ground = *ground;
                        let mut film = Film::NONE;
                        match layer {
                            Some(layer) => ground.lay_on(&mut film, layer),
                            None => ground.lay(self.layer(upper, *over), true),
                        }
                        let way = Way::Over { jars: [lower, upper], depths: [*under, *over] };
                        (way, ground.color(&film))
                    })
                });
                all.push(self.followed(nearest(each, wanted).0, wanted));
            }
        }
        all
    }

    fn pairs(&self) -> impl Iterator<Item = [usize; 2]> {
        let count = self.jars.len();
        (0..count).flat_map(move |one| (one + 1..count).map(move |other| [one, other]))
    }
}

/// Depths even in their logarithm, mm of loose powder.
fn grid(depths: usize) -> impl Iterator<Item = f64> {
    let octaves = ln(DEPTHS.1 / DEPTHS.0);
    (0..depths).map(move |at| DEPTHS.0 * exp(octaves * at as f64 / (depths - 1) as f64))
}

/// The same, each twice the one before.
fn grid_doubling() -> impl Iterator<Item = f64> {
    std::iter::successors(Some(DEPTHS.0), |depth| Some(2.0 * depth))
}

/// The nearest of these ways, each with its color.
fn nearest(mut ways: impl Iterator<Item = (Way, Lab)>, wanted: Lab) -> Ranked {
    let (way, color) = ways.next().expect("a grid has depths");
    let mut best = (way, de2000(color, wanted));
    for (way, color) in ways {
        if let Some(off) = de2000_below(color, wanted, best.1) {
            best = (way, off);
        }
    }
    best
}

/// Nearest first.
pub fn sort(ways: &mut [Ranked]) {
    ways.sort_by(|one, other| one.1.total_cmp(&other.1));
}
