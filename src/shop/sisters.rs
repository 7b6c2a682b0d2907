//! Sisters told apart and chosen from: what share of the disc each coat shows on, the mean color and the grams of a
//! seed, and sets of seeds that belong together or differ as much as they can.

use super::cover::COVERS;
use crate::base::memo::{Allowance, Paused};
use crate::base::order::ranked;
use crate::base::seed::Seed;
use crate::base::units::Grams;
use crate::color::difference::{Lab, de76, to_lab};
use crate::layup::powder_bed::PowderBed;
use crate::optics::colors::ColorField;
use crate::picture::View;
use crate::preview::Preview;
use crate::recipe::plan::Plan;
use serde::{Deserialize, Serialize};

/// What a maker would look at in one of many sisters.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Features {
    /// Each coat's id and the share of the disc where its powder lies on top.
    pub shows: Vec<(u32, f64)>,
    /// The share of the disc that powder does not cover.
    pub bare: f64,
    /// The mean color of the fused disc by day.
    pub mean: Lab,
    /// Powder on the disc, after the sponge.
    pub grams: Grams,
}

/// The features of a seed, at draft resolution.
///
/// # Errors
/// [`Paused`] when the allowance is spent before they are done.
pub fn features(
    preview: &mut Preview,
    plan: &Plan,
    seed: Seed,
    allowance: &mut Allowance,
) -> Result<Features, Paused> {
    let cells = View::DRAFT_CELLS as usize;
    let colors = preview.colors(plan, seed, cells, allowance)?;
    let bed = preview.beds(plan, seed, cells, allowance)?.left;
    let (shows, bare) = on_top(&bed);
    let ids = plan.coats.iter().map(|coat| coat.sift.id);
    let weights = plan.coats.iter().enumerate().map(|(at, coat)| coat.blend.weight(bed.volume(at)).0);
    Ok(Features {
        shows: ids.zip(shows).collect(),
        bare,
        mean: mean_color(&colors),
        // The library's sum of nothing is -0.
        grams: Grams(weights.fold(0.0, |sum, grams| sum + grams)),
    })
}

/// The share of the disc where each coat lies on top, and the share where none does.
fn on_top(bed: &PowderBed) -> (Vec<f64>, f64) {
    let coats = bed.coats.len();
    let (mut shares, mut bare, mut area) = (vec![0.0; coats], 0.0, 0.0);
    bed.grid.each(|cell, column, row| {
        let share = f64::from(bed.grid.share(column, row));
        area += share;
        match top_coat(bed, cell) {
            Some(coat) => shares[coat] += share,
            None => bare += share,
        }
    });
    (shares.into_iter().map(|share| share / area).collect(), bare / area)
}

/// The coat that lies on top of a cell: of the mixture that the sponge put back, the coat it holds most of.
fn top_coat(bed: &PowderBed, cell: usize) -> Option<usize> {
    let mixture = bed.put_back.iter().map(|plane| plane[cell]);
    if mixture.clone().sum::<f32>() >= COVERS {
        return mixture.enumerate().max_by(|a, b| a.1.total_cmp(&b.1)).map(|(coat, _)| coat);
    }
    (0..bed.coats.len()).rev().find(|coat| bed.coats[*coat][cell] >= COVERS)
}

fn mean_color(colors: &ColorField) -> Lab {
    let (mut sum, mut area) = ([0.0f64; 3], 0.0);
    colors.grid.each(|cell, column, row| {
        let share = f64::from(colors.grid.share(column, row));
        area += share;
        for k in 0..3 {
            sum[k] += share * f64::from(colors.cells[cell][k]);
        }
    });
    to_lab(sum.map(|sum| (sum / area) as f32))
}

/// How far apart two sisters are, in differences that a maker would just notice. The three yardsticks are judgments (no
/// source): a twentieth of the disc, a color difference of 2.3 (the usual just noticeable one, Mahy et al. 1994), a
/// twentieth of the powder.
pub fn distance(one: &Features, other: &Features) -> f64 {
    let shares = one.shows.iter().zip(&other.shows).map(|((_, a), (_, b))| a - b);
    let shares: f64 = shares.chain([one.bare - other.bare]).map(|d| d * d).sum();
    let color = de76(one.mean, other.mean) / 2.3;
    let powder = (one.grams.0 - other.grams.0) / (0.05 * (one.grams.0 + other.grams.0) / 2.0).max(0.01);
    (shares / (0.05 * 0.05) + color * color + powder * powder).sqrt()
}

/// The `n` of these that are nearest to one of them, itself first.
pub fn nearest(all: &[Features], to: usize, n: usize) -> Vec<usize> {
    let far: Vec<f64> = all.iter().map(|one| distance(one, &all[to])).collect();
    // However alike another one is, the one itself comes first.
    let key = |at: usize| if at == to { -1.0 } else { far[at] };
    let mut order = ranked(all.len(), &|a, b| key(a).total_cmp(&key(b)));
    order.truncate(n);
    order
}

/// `n` of these that belong together: of all sets made of one sister and those nearest her, the one whose two most
/// unlike members are least unlike, made better by exchange as long as that helps. Indices in rising order.
pub fn that_belong_together(all: &[Features], n: usize) -> Vec<usize> {
    let n = n.min(all.len());
    let far = Distances::new(all);
    let mut best = (0..all.len())
        .map(|middle| {
            let mut order = ranked(all.len(), &|a, b| far.of(middle, a).total_cmp(&far.of(middle, b)));
            order.truncate(n);
            order
        })
        .min_by(|a, b| far.widest(a).total_cmp(&far.widest(b)))
        .unwrap_or_default();
    while let Some(better) = better_by_one(&far, &best) {
        best = better;
    }
    best.sort_unstable();
    best
}

/// The set with one member exchanged for an outsider, if that narrows it.
fn better_by_one(far: &Distances, set: &[usize]) -> Option<Vec<usize>> {
    let now = far.widest(set);
    let outside = (0..far.n).filter(|one| !set.contains(one));
    let exchanged = outside.flat_map(|one| {
        (0..set.len()).map(move |at| {
            let mut other = set.to_vec();
            other[at] = one;
            other
        })
    });
    exchanged
        .map(|other| (far.widest(&other), other))
        .filter(|(width, _)| *width < now - 1e-12)
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, other)| other)
}

/// `n` of these that differ as much as can be: the two most unlike, then again and again the one farthest from all
/// chosen (Gonzalez 1985, Theor. Comput. Sci. 38, 293: at least half as far apart as the best set). Rising order.
pub fn as_different_as_can_be(all: &[Features], n: usize) -> Vec<usize> {
    let far = Distances::new(all);
    let pairs = (0..all.len()).flat_map(|a| (0..a).map(move |b| (a, b)));
    let widest = pairs.max_by(|a, b| far.of(a.0, a.1).total_cmp(&far.of(b.0, b.1)));
    let mut set: Vec<usize> = widest.map_or_else(|| (0..all.len()).collect(), |(a, b)| vec![b, a]);
    while set.len() < n.min(all.len()) {
        let nearest = |one: usize| set.iter().map(|there| far.of(one, *there)).fold(f64::INFINITY, f64::min);
        let outside = (0..all.len()).filter(|one| !set.contains(one));
        let next = outside.max_by(|a, b| nearest(*a).total_cmp(&nearest(*b)));
        set.extend(next);
    }
    set.truncate(n);
    set.sort_unstable();
    set
}

/// All distances, worked out once.
struct Distances {
    n: usize,
    all: Vec<f64>,
}

impl Distances {
    fn new(all: &[Features]) -> Self {
        let distances = all.iter().flat_map(|one| all.iter().map(move |other| distance(one, other)));
        Self { n: all.len(), all: distances.collect() }
    }

    fn of(&self, one: usize, other: usize) -> f64 {
        self.all[one * self.n + other]
    }

    /// The distance of the two most unlike members of a set.
    fn widest(&self, set: &[usize]) -> f64 {
        let pairs = set.iter().flat_map(|a| set.iter().map(move |b| self.of(*a, *b)));
        pairs.fold(0.0, f64::max)
    }
}

/// How far a set spreads: the coat whose share differs most, from least to most; and the powder, likewise.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {
    /// The id of that coat, its least and its greatest share; none if there are no coats.
    pub coat: Option<(u32, f64, f64)>,
    /// The least and the greatest powder.
    pub grams: (Grams, Grams),
    /// The largest color difference (CIE 1976) between two mean colors.
    pub color: f64,
    /// The [`distance`] of the two least alike.
    pub widest: f64,
}

/// Sisters farther apart than this do not look as if they belonged together: twice what a maker would just notice (a
/// judgment, no source).
const TOGETHER: f64 = 2.0;

impl Spread {
    /// Whether no two of the set are too unlike to belong together.
    pub fn belongs_together(&self) -> bool {
        self.widest <= TOGETHER
    }
}

/// How far a set spreads; none if it is empty.
pub fn spread(set: &[&Features]) -> Option<Spread> {
    let range = |of: &dyn Fn(&Features) -> f64| {
        let values = set.iter().map(|one| of(one));
        values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
    };
    let coats = set.first()?.shows.iter().enumerate().map(|(at, (id, _))| {
        let (low, high) = range(&|one| one.shows.get(at).map_or(0.0, |(_, share)| *share));
        (*id, low, high)
    });
    let coat = coats.max_by(|a, b| (a.2 - a.1).total_cmp(&(b.2 - b.1)));
    let (low, high) = range(&|one| one.grams.0);
    let most = |of: &dyn Fn(&Features, &Features) -> f64| {
        set.iter().flat_map(|a| set.iter().map(|b| of(a, b))).fold(0.0, f64::max)
    };
    let (color, widest) = (most(&|a, b| de76(a.mean, b.mean)), most(&distance));
    Some(Spread { coat, grams: (Grams(low), Grams(high)), color, widest })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::demo;

    fn sisters(n: u32) -> Vec<Features> {
        let plan = Plan::new(&demo::ember_walk()).unwrap().plan;
        let mut preview = Preview::new();
        let mut one = |seed| features(&mut preview, &plan, Seed(seed), &mut Allowance::unlimited()).unwrap();
        (0..n).map(&mut one).collect()
    }

    fn width(all: &[Features], set: &[usize]) -> f64 {
        Distances::new(all).widest(set)
    }

    fn least_apart(all: &[Features], set: &[usize]) -> f64 {
        let pairs = set.iter().flat_map(|a| set.iter().filter(move |b| *b > a).map(move |b| (a, b)));
        pairs.map(|(a, b)| distance(&all[*a], &all[*b])).fold(f64::INFINITY, f64::min)
    }

    /// All sets of `n` out of `of`.
    fn sets(n: usize, of: usize) -> Vec<Vec<usize>> {
        (0u32..1 << of)
            .filter(|bits| bits.count_ones() as usize == n)
            .map(|bits| (0..of).filter(|at| bits >> at & 1 == 1).collect())
            .collect()
    }

    #[test]
    fn shares_of_the_disc_add_up() {
        for one in sisters(4) {
            let sum: f64 = one.shows.iter().map(|(_, share)| share).sum::<f64>() + one.bare;
            assert!((sum - 1.0).abs() < 1e-9, "{sum}");
            assert!(one.bare > 0.01 && one.grams.0 > 3.0, "{one:?}");
        }
    }

    #[test]
    fn the_sets_are_as_good_as_any() {
        let all = sisters(12);
        let together = that_belong_together(&all, 4);
        let best = sets(4, 12).iter().map(|set| width(&all, set)).fold(f64::INFINITY, f64::min);
        assert!(width(&all, &together) <= best * 1.05, "{} against {best}", width(&all, &together));
        let different = as_different_as_can_be(&all, 4);
        let best = sets(4, 12).iter().map(|set| least_apart(&all, set)).fold(0.0, f64::max);
        let apart = least_apart(&all, &different);
        assert!(apart >= best / 2.0, "{apart} against {best}: Gonzalez's bound");
        assert!(apart > 1.5 * least_apart(&all, &together), "a set that differs is not one that matches");
    }

    #[test]
    fn odd_numbers_are_survived() {
        let all = sisters(3);
        for n in [0, 1, 2, 3, 9] {
            for set in [that_belong_together(&all, n), as_different_as_can_be(&all, n)] {
                assert_eq!(set.len(), n.min(3), "{n}: {set:?}");
            }
        }
        assert!(that_belong_together(&[], 3).is_empty() && as_different_as_can_be(&[], 3).is_empty());
        assert_eq!(spread(&[]), None);
    }

    #[test]
    fn a_set_belongs_together_only_when_nobody_would_tell_its_members_apart() {
        let of = |share: f64, grams: f64| Features {
            shows: vec![(1, share)],
            bare: 1.0 - share,
            mean: [50.0, 0.0, 0.0],
            grams: Grams(grams),
        };
        let together = |a: &Features, b: &Features| spread(&[a, b]).unwrap().belongs_together();
        assert!(together(&of(0.30, 5.0), &of(0.36, 5.0)), "0.06 of the disc and of what is bare: 1.7");
        assert!(!together(&of(0.30, 5.0), &of(0.38, 5.0)), "0.08 of both: 2.3");
        assert!(!together(&of(0.30, 5.0), &of(0.30, 5.6)), "0.6 g of 5.3 g: 2.3");
        let other = Features { mean: [50.0, 5.0, 0.0], ..of(0.30, 5.0) };
        assert!(!together(&of(0.30, 5.0), &other), "a color difference of 5: 2.2");
    }

    /// Eight by eight cells in four quarters: bare but for dust, one coat, a thick one on it, a mixture over both.
    #[test]
    fn what_lies_on_top_is_counted_by_hand() {
        use crate::base::disc::Disc;
        use crate::base::grid::Grid;
        use crate::base::units::Mm;
        let grid = Grid::new(Disc::new(Mm(100.0)), 8);
        let quarters = |depths: [f32; 4]| -> Vec<f32> {
            (0..grid.len())
                .map(|cell| depths[usize::from(cell % 8 > 3) + 2 * usize::from(cell / 8 > 3)])
                .collect()
        };
        let mut bed =
            PowderBed::sifted(grid, vec![quarters([0.07, 0.2, 0.3, 0.5]), quarters([0.0, 0.07, 0.2, 0.5])]);
        let near = |got: (Vec<f64>, f64), want: ([f64; 2], f64)| {
            let off = [got.0[0] - want.0[0], got.0[1] - want.0[1], got.1 - want.1];
            assert!(off.iter().all(|off| off.abs() < 1e-6), "{got:?}, not {want:?}");
        };
        near(on_top(&bed), ([0.25, 0.5], 0.25));
        // In the last quarter more was put back of the first coat than of the second, together as deep as covers.
        bed.put_back =
            [[0.0, 0.0, 0.0, 0.05], [0.0, 0.0, 0.0, 0.04]].map(|back| quarters(back).into()).to_vec();
        near(on_top(&bed), ([0.5, 0.25], 0.25));
        let colors = ColorField {
            grid,
            cells: quarters([0.1, 0.2, 0.3, 0.8]).into_iter().map(|c| [c, 0.5, 1.0 - c, 0.0]).collect(),
        };
        let want = to_lab([0.35, 0.5, 0.65]);
        assert!(de76(mean_color(&colors), want) < 1e-3, "{:?}", mean_color(&colors));
    }

    /// Grams of all that is left on the disc, as on the ticket but for what a draft's sponge takes too much (1.2 % at most over the demo's
    /// recipes, measured).
    #[test]
    fn features_weigh_what_the_ticket_says_is_left() {
        let plan = Plan::new(&demo::ember_walk()).unwrap().plan;
        let mut preview = Preview::new();
        let ticket = crate::shop::ticket::ticket(
            &mut preview,
            &plan,
            Seed(3),
            &crate::kiln::data::Kiln::guess(crate::kiln::data::Guess::SmallBrick),
            &mut Allowance::unlimited(),
        )
        .unwrap();
        let left: f64 = ticket.coats.iter().map(|coat| coat.left.0).sum();
        let features = features(&mut preview, &plan, Seed(3), &mut Allowance::unlimited()).unwrap();
        assert!((features.grams.0 - left).abs() < 0.013 * left, "{} against {left}", features.grams.0);
    }

    /// By hand: a twentieth of the disc on a coat and off the bare glass is the root of two; 2.3 of color is one; 0.5 g of 10.25 g on
    /// average is 0.5 / 0.5125.
    #[test]
    fn sisters_are_apart_by_hand() {
        let of = |share: f64, l: f64, grams: f64| Features {
            shows: vec![(4, share), (9, 0.1)],
            bare: 0.9 - share,
            mean: [l, 3.0, 4.0],
            grams: Grams(grams),
        };
        let apart = |a: &Features, b: &Features, want: f64| {
            assert!((distance(a, b) - want).abs() < 1e-9, "{} instead of {want}", distance(a, b));
        };
        let (one, more, pale, heavy) =
            (of(0.3, 50.0, 10.0), of(0.35, 50.0, 10.0), of(0.3, 52.3, 10.0), of(0.3, 50.0, 10.5));
        apart(&one, &more, 2f64.sqrt());
        apart(&one, &pale, 1.0);
        apart(&one, &heavy, 0.5 / 0.5125);
        apart(&of(0.0, 50.0, 0.02), &of(0.0, 50.0, 0.0), 2.0);
        let spread = spread(&[&one, &more, &pale, &heavy]).unwrap();
        assert_eq!(spread.coat, Some((4, 0.3, 0.35)));
        assert_eq!((spread.grams.0.0, spread.grams.1.0), (10.0, 10.5));
        assert!((spread.color - 2.3).abs() < 1e-9);
        let widest = (2.0f64 + 1.0).sqrt().max((2.0 + (0.5f64 / 0.5125) * (0.5 / 0.5125)).sqrt());
        assert!((spread.widest - widest).abs() < 1e-9, "{}", spread.widest);
        let together = that_belong_together(&[one.clone(), of(0.6, 50.0, 10.0), more, pale.clone()], 2);
        assert_eq!(together, [0, 3]);
        let different = as_different_as_can_be(&[pale, one, of(0.6, 50.0, 10.0)], 2);
        assert_eq!(different, [0, 2]);
    }

    /// Three that lie 10 apart, each with a neighbor 9 away on the far side of the others: whoever comes first brings a neighbor, which is
    /// 18 from the third; only an exchange finds the three.
    #[test]
    fn an_exchange_finds_who_belongs_together() {
        let of =
            |a: f64, b: f64| Features { shows: Vec::new(), bare: 1.0, mean: [50.0, a, b], grams: Grams(5.0) };
        let all =
            [of(0.0, 0.0), of(10.0, 0.0), of(5.0, 8.66), of(-7.794, -4.5), of(17.794, -4.5), of(5.0, 17.66)];
        assert_eq!(that_belong_together(&all, 3), [0, 1, 2]);
    }
}
