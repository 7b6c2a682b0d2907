//! How far the fired colors of a piece may be off, place by place.

use super::sureness::{By, Sureness, together};
use crate::base::grid::Grid;
use crate::color::srgb::{Linear, decode};
use crate::fuse::leveling::blur;
use crate::fuse::settle::{FusedDisc, lies_from};
use crate::glass::kind::Glass;
use crate::optics::colors::{ColorField, WHITE};
use crate::recipe::limits::{MOST_COATS, MOST_PARTS};
use crate::recipe::plan::{Plan, PlannedCoat};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// How sure the colors of a piece are, as a whole and by what lies where.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HowSure {
    /// How far colors may be off where powder lies on known glass, CIEDE2000, in the mean over its area; none if there is none.
    pub about: Option<f32>,
    /// The share of the disc of each [`Class`], in its order; they add up to 1.
    pub shares: [f32; Class::ALL.len()],
    /// By what lies there, the least sure first, glass that is made up before all. What lies on little of the disc is left out.
    pub places: Vec<Place>,
    /// How deep each glass lies that lies anywhere, in the order in which they are sifted.
    pub used: Vec<Used>,
}

/// All of a piece where the same coats lie.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Place {
    /// The coats that lie there, bottom to top, by id; at least one.
    pub coats: Vec<u32>,
    /// Its share of the disc.
    pub share: f32,
    /// How far the color may be off there, CIEDE2000, in the mean; none if a glass is made up.
    pub off: Option<f32>,
}

/// How deep a glass lies where it lies, by itself if it is blended.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Used {
    /// Its id.
    pub glass: String,
    /// mm of its own loose powder: a tenth of a coat's area has less than the first, a tenth more than the last.
    pub depths: [f32; 2],
}

/// How sure a color is, coarsely.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Class {
    /// To 1, which is not seen; or no powder lies there: what tiles are fired on is not in doubt.
    One,
    /// To 2.
    Two,
    /// To 4.
    Four,
    /// More.
    More,
    /// Nobody knows: a glass is made up.
    MadeUp,
}

/// Less of the disc than this is not told of (by eye).
const LEAST_SHARE: f32 = 0.02;
/// Stripes on glass that is made up: so many mm from one to the next, and the part that is dark (by eye).
const STRIPES: (f32, f32) = (5.0, 0.3);

impl Class {
    /// All there are, the surest first.
    pub const ALL: [Self; 5] = [Self::One, Self::Two, Self::Four, Self::More, Self::MadeUp];

    /// That of a color which may be off by so much; infinitely, if nobody knows.
    pub fn of(off: f32) -> Self {
        match off {
            off if off.is_infinite() => Self::MadeUp,
            off if off > 4.0 => Self::More,
            off if off > 2.0 => Self::Four,
            off if off > 1.0 => Self::Two,
            _ => Self::One,
        }
    }

    /// The gray that it is drawn in, 8-bit sRGB: darker is less sure. On made-up glass the lighter of its two.
    pub fn gray(self) -> u8 {
        match self {
            Self::One => 0xe2,
            Self::Two => 0xb9,
            Self::Four => 0x84,
            Self::More => 0x3d,
            Self::MadeUp => 0x6a,
        }
    }
}

/// The gray of lines between classes, and of the stripes.
const LINE: u8 = 0x14;

/// A glass of a coat: which, and how many mm of its own loose powder a mm of the fired coat holds.
struct Part {
    glass: usize,
    loose: f32,
}

/// What lies on each cell of a disc, and how far its color may be off.
struct Map {
    /// Each coat's fired thickness about each cell, with what the sponge put back, mm.
    coats: Vec<Vec<f32>>,
    parts: Vec<Vec<Part>>,
    /// From which thickness on a coat lies somewhere: less is dust, whose color is that of what it lies on.
    from: Vec<f32>,
    /// All glasses, in the order in which they are sifted: the id, and what its colors rest on.
    glasses: Vec<(String, Sureness)>,
    by: By,
}

/// A color is judged over so much of a disc, as a Gaussian's deviation, mm: not grain by grain (by eye).
const JUDGED: f32 = 1.5;

impl Map {
    fn new(plan: &Plan, disc: &FusedDisc, by: By) -> Self {
        let mut glasses = Vec::<(String, Sureness)>::new();
        let parts = plan.coats.iter().map(|coat| parts(coat, plan.packing, &mut glasses)).collect();
        let about = |(at, coat): (usize, &Vec<f32>)| {
            let mut all = coat.clone();
            if let Some(back) = disc.mixture.get(at) {
                all.iter_mut().zip(back).for_each(|(all, more)| *all += more);
            }
            blur(&disc.grid, &all, (JUDGED, 1.0), |_| |mean, _| mean)
        };
        let coats: Vec<Vec<f32>> = disc.coats.iter().enumerate().map(about).collect();
        Self { from: coats.iter().map(|coat| lies_from(coat)).collect(), parts, coats, glasses, by }
    }

    /// The coats on a cell, as bits (there are at most 12), bottom to top.
    fn coats(&self, cell: usize) -> u32 {
        let lies = |(at, coat): (usize, &Vec<f32>)| u32::from(coat[cell] > self.from[at]) << at;
        self.coats.iter().enumerate().map(lies).sum()
    }

    /// How deep each glass lies on a cell where these coats lie, mm of its own loose powder: of one glass in several coats, all of it.
    fn depths(&self, coats: u32, cell: usize) -> impl Iterator<Item = (usize, f32)> {
        let mut depths = [0.0f32; MOST_COATS * MOST_PARTS];
        for at in (0..self.coats.len()).filter(|at| coats >> at & 1 == 1) {
            for part in &self.parts[at] {
                depths[part.glass] += part.loose * self.coats[at][cell];
            }
        }
        depths.into_iter().enumerate().filter(|(_, depth)| *depth > 0.0)
    }

    /// How far the color may be off where these coats lie; infinitely, if nobody knows.
    fn off(&self, coats: u32, cell: usize) -> f32 {
        let each = self.depths(coats, cell).map(|(glass, depth)| self.glasses[glass].1.at(depth, self.by));
        together(each).unwrap_or(f32::INFINITY)
    }

    /// How deep each glass lies that lies anywhere.
    fn used(&self, grid: &Grid) -> Vec<Used> {
        let mut depths = vec![Vec::new(); self.glasses.len()];
        grid.each(|cell, _, _| {
            self.depths(self.coats(cell), cell).for_each(|(glass, depth)| depths[glass].push(depth));
        });
        let used = |((id, _), depths): (&(String, Sureness), Vec<f32>)| {
            Some(Used { glass: id.clone(), depths: tenths(depths)? })
        };
        self.glasses.iter().zip(depths).filter_map(used).collect()
    }
}

/// The glasses of a coat, each entered among all that there are.
fn parts(coat: &PlannedCoat, packing: f32, glasses: &mut Vec<(String, Sureness)>) -> Vec<Part> {
    let shares = coat.blend.shares.iter();
    let part = |(glass, share): &(Glass, f32)| {
        let known = glasses.iter().position(|(id, _)| *id == glass.id).unwrap_or_else(|| {
            glasses.push((glass.id.clone(), Sureness::of(glass)));
            glasses.len() - 1
        });
        Part { glass: known, loose: share / glass.packing.map_or(packing, |own| own as f32) }
    };
    shares.map(part).collect()
}

/// What a tenth lies below, and a tenth above; none of nothing.
fn tenths(mut values: Vec<f32>) -> Option<[f32; 2]> {
    values.sort_unstable_by(f32::total_cmp);
    let last = values.len().checked_sub(1)?;
    Some([last / 10, last - last / 10].map(|at| values[at]))
}

/// How sure the colors of a fused disc are.
pub fn how_sure(plan: &Plan, disc: &FusedDisc, by: By) -> HowSure {
    let map = Map::new(plan, disc, by);
    let mut found = BTreeMap::<u32, Sum>::new();
    let (mut all, mut shares) = (0.0, [0.0; Class::ALL.len()]);
    disc.grid.each(|cell, column, row| {
        let (coats, area) = (map.coats(cell), disc.grid.share(column, row));
        let off = map.off(coats, cell);
        all += area;
        shares[Class::of(off) as usize] += area;
        if coats != 0 {
            found.entry(coats).or_default().add(area, off);
        }
    });
    let known = found.values().filter(|sum| sum.off.is_finite());
    let sum =
        known.fold(Sum::default(), |sum, one| Sum { area: sum.area + one.area, off: sum.off + one.off });
    let told = found.into_iter().filter(|(_, sum)| sum.area >= LEAST_SHARE * all);
    let mut places: Vec<Place> = told
        .map(|(coats, sum)| Place { coats: named(plan, coats), share: sum.area / all, off: sum.mean() })
        .collect();
    let off = |place: &Place| place.off.unwrap_or(f32::INFINITY);
    places.sort_by(|one, other| off(other).total_cmp(&off(one)).then(other.share.total_cmp(&one.share)));
    HowSure { about: sum.mean(), shares: shares.map(|share| share / all), places, used: map.used(&disc.grid) }
}

/// An area and how far colors may be off on it, summed over it.
#[derive(Clone, Copy, Default)]
struct Sum {
    area: f32,
    off: f32,
}

impl Sum {
    fn add(&mut self, area: f32, off: f32) {
        (self.area, self.off) = (self.area + area, self.off + area * off);
    }

    /// None if there is no area, or nobody knows.
    fn mean(self) -> Option<f32> {
        Some(self.off / self.area).filter(|off| off.is_finite())
    }
}

fn named(plan: &Plan, coats: u32) -> Vec<u32> {
    let lie = plan.coats.iter().enumerate().filter(|(at, _)| coats >> at & 1 == 1);
    lie.map(|(_, coat)| coat.sift.id).collect()
}

/// A disc shaded by how sure its colors are: a gray for each class, with lines between them, and stripes on glass that is made up.
pub fn shaded(plan: &Plan, disc: &FusedDisc, by: By) -> ColorField {
    let (map, grid) = (Map::new(plan, disc, by), disc.grid);
    let mut classes = vec![None; grid.len()];
    grid.each(|cell, _, _| classes[cell] = Some(Class::of(map.off(map.coats(cell), cell))));
    let mut field = ColorField::black(grid);
    grid.each(|cell, column, row| {
        let Some(class) = classes[cell] else { return };
        let other = |at: usize| classes.get(at).is_some_and(|next| next.is_some_and(|next| next != class));
        let line = other(cell + 1) || other(cell + grid.n()) || striped(&grid, class, column, row);
        let [r, g, b] = shown(if line { LINE } else { class.gray() });
        field.cells[cell] = [r, g, b, 0.0];
    });
    field
}

/// The gray of the bare blank on a shaded piece, linear.
pub fn bare() -> Linear {
    shown(Class::One.gray())
}

fn striped(grid: &Grid, class: Class, column: usize, row: usize) -> bool {
    let (every, dark) = STRIPES;
    class == Class::MadeUp && ((grid.x(column) + grid.y(row)) / every).rem_euclid(1.0) < dark
}

/// What shows as this gray in full light, linear.
fn shown(gray: u8) -> Linear {
    decode([gray; 3]).map(|channel| channel / WHITE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::disc::Disc;
    use crate::base::units::Mm;
    use crate::glass::catalogue;
    use crate::glass::kind::Source;
    use crate::glass::tile::{Over, Sifted, Tile};
    use crate::recipe::{Part as RecipePart, Recipe, demo};

    /// Three even coats: two of glasses fitted from one tile of 0.4 mm each, one of glass that is made up.
    fn recipe() -> Recipe {
        let mut recipe = demo::ember_walk();
        for (coat, own) in recipe.coats.iter_mut().zip(["one", "other", "coral"]) {
            coat.powder = vec![RecipePart { glass: own.into(), parts: 1.0 }];
        }
        let color = [50.0, 10.0, 20.0];
        let tile = Tile { sifted: Sifted::Loose(Mm(0.4)), over: Over::White, color, spread: None };
        for (id, like) in [("one", "straw"), ("other", "rust")] {
            let mut glass = catalogue::find(like).expect("it is in the catalogue").clone();
            (glass.id, glass.source) = (id.into(), Source::Tiles(vec![tile.clone()]));
            recipe.glasses.0.push(glass);
        }
        recipe
    }

    /// A disc in four quarters: bare; the first coat at 0.4 mm; the same with the second; with the third. In mm of loose powder.
    fn disc(plan: &Plan) -> FusedDisc {
        // So large that the 1.5 mm over which colors are judged is next to nothing.
        let grid = Grid::new(Disc::new(Mm(800.0)), 200);
        let mut coats = vec![vec![0.0; grid.len()]; 3];
        grid.each(|cell, column, row| {
            let (right, up) = (grid.x(column) > 0.0, grid.y(row) > 0.0);
            let deep = [right || up, right && !up, !right && up];
            for at in (0..3).filter(|at| deep[*at]) {
                coats[at][cell] = 0.4 * plan.coats[at].blend.packing;
            }
        });
        FusedDisc { grid, coats, mixture: Vec::new() }
    }

    fn planned() -> Plan {
        Plan::new(&recipe()).expect("it is sound").plan
    }

    /// A quarter each, by the table of one tile read in 8 bits at its own depth (0.42 by day, 3.95 lit), two of which are never surer
    /// than 3.0.
    #[test]
    fn each_place_is_as_sure_as_what_lies_there() {
        let plan = planned();
        let how = how_sure(&plan, &disc(&plan), By::Day);
        let ids: Vec<u32> = plan.coats.iter().map(|coat| coat.sift.id).collect();
        let [made_up, two, one] = &how.places[..] else { panic!("{:?}", how.places) };
        assert_eq!((&made_up.coats[..], made_up.off), (&[ids[0], ids[2]][..], None));
        assert_eq!(two.coats, [ids[0], ids[1]]);
        assert_eq!(one.coats, [ids[0]]);
        let (two, one) = (two.off.expect("known"), one.off.expect("known"));
        assert!((two - 3.0).abs() < 0.02 && (one - 0.42).abs() < 0.02, "{two}, {one}");
        for place in &how.places {
            assert!((place.share - 0.25).abs() < 0.01, "{place:?}");
        }
        assert!((how.shares.iter().sum::<f32>() - 1.0).abs() < 1e-4, "{:?}", how.shares);
        let wanted = [0.5, 0.0, 0.25, 0.0, 0.25];
        assert!(
            how.shares.iter().zip(wanted).all(|(got, want)| (got - want).abs() < 0.015),
            "{:?}",
            how.shares
        );
        let about = how.about.expect("half of it is known");
        assert!((about - 0.5 * (two + one)).abs() < 0.02, "{about}");
        let lit = how_sure(&plan, &disc(&plan), By::Lit);
        let [_, two, one] = &lit.places[..] else { panic!("{:?}", lit.places) };
        assert!(one.off.is_some_and(|off| (off - 3.95).abs() < 0.02), "{one:?}");
        assert!(two.off.is_some_and(|off| (off - 7.9).abs() < 0.04), "the sum of both: {two:?}");
    }

    #[test]
    fn a_glass_is_used_as_deep_as_it_lies() {
        let plan = planned();
        let how = how_sure(&plan, &disc(&plan), By::Day);
        assert_eq!(how.used.len(), 3);
        for used in how.used {
            assert!(used.depths.iter().all(|depth| (depth - 0.4).abs() < 1e-3), "{used:?}");
        }
        // The first glass, once more in the second coat as the quarter of a blend that is packed less close in its own jar: in one
        // quarter of the disc both lie.
        let mut blended = recipe();
        blended.glasses.0[0].packing = Some(0.8 * blended.packing);
        blended.coats[1].powder =
            [("one", 1.0), ("other", 3.0)].map(|(id, parts)| RecipePart { glass: id.into(), parts }).into();
        let plan = Plan::new(&blended).expect("it is sound").plan;
        let used = how_sure(&plan, &disc(&plan), By::Day).used;
        let one = used.iter().find(|used| used.glass == "one").expect("it is used");
        let quarter =
            plan.coats[1].blend.packing * 0.4 * plan.coats[1].blend.shares[0].1 / (0.8 * plan.packing);
        let (thin, deep) = (one.depths[0], one.depths[1]);
        assert!((thin - 0.4).abs() < 1e-3 && (deep - 0.4 - quarter).abs() < 1e-3, "{one:?}, {quarter}");
        // One glass in two coats is one glass: nothing was ever not fired together.
        let mut same = recipe();
        same.coats[1].powder = same.coats[0].powder.clone();
        let plan = Plan::new(&same).expect("it is sound").plan;
        let how = how_sure(&plan, &disc(&plan), By::Day);
        let twice = how.places.iter().find(|place| place.coats == [1, 2]).expect("a quarter of the disc");
        let own = Sureness::of(&same.glasses.0[0]).at(0.8, By::Day).expect("it has a tile");
        assert!(twice.off.is_some_and(|off| (off - own).abs() < 0.02), "{twice:?}, {own}");
        let plan = planned();
        let mut none = disc(&plan);
        none.coats[1].fill(0.0);
        assert_eq!(how_sure(&plan, &none, By::Day).used.len(), 2);
    }

    #[test]
    fn a_disc_without_powder_is_bare_and_sure() {
        let plan = planned();
        let mut bare = disc(&plan);
        bare.coats.iter_mut().for_each(|coat| coat.fill(0.0));
        let how = how_sure(&plan, &bare, By::Day);
        assert_eq!((how.about, how.places.len(), how.shares[0]), (None, 0, 1.0));
    }

    #[test]
    fn dust_does_not_make_two_of_one() {
        let plan = planned();
        let mut dusty = disc(&plan);
        let dust = 0.02 * plan.coats[1].blend.packing;
        dusty.mixture = vec![vec![0.0; dusty.grid.len()]; 3];
        dusty.mixture[1].fill(dust);
        let how = how_sure(&plan, &dusty, By::Day);
        assert_eq!(how.places.len(), 3, "{:?}", how.places);
    }

    /// A shaded disc has the gray of each class, stripes only on what is made up, and lines only between them.
    #[test]
    fn a_shaded_disc_has_the_grays_of_its_classes() {
        let plan = planned();
        let disc = disc(&plan);
        let field = shaded(&plan, &disc, By::Day);
        let at = |x: f32, y: f32| field.color(disc.grid.cell_at(x, y));
        assert_eq!(at(-100.0, -100.0), shown(Class::One.gray()), "bare");
        assert_eq!(at(100.0, 100.0), shown(Class::One.gray()));
        assert_eq!(at(100.0, -100.0), shown(Class::Four.gray()));
        let across: Vec<_> = (0..20).map(|mm| at(-230.0 + 4.0 * mm as f32, 100.0)).collect();
        for gray in [LINE, Class::MadeUp.gray()] {
            assert!(across.contains(&shown(gray)), "stripes of {gray:#x}");
        }
        let grays: Vec<f32> = Class::ALL[..4].iter().map(|class| shown(class.gray())[0]).collect();
        assert!(grays.is_sorted_by(|one, other| one > other), "darker is less sure");
    }
}
