//! Invented true glasses, fired as tiles, read more or less well, fitted, and held against what they truly are at every depth.

use super::glasses::{Colorants, between, gauss, scatter};
use dappledome::base::scalar::{exp, pow};
use dappledome::base::units::Mm;
use dappledome::color::difference::{Lab, de2000, from_lab, to_lab};
use dappledome::color::spectrum::to_linear;
use dappledome::color::srgb::{decode, encode};
use dappledome::glass::demo;
use dappledome::glass::material::Material;
use dappledome::optics::layer::Layer;
use dappledome::optics::stack::{Lit, Seen};
use dappledome::tiles::fit::{Fitted, fit};
use dappledome::tiles::sureness::{By, Kind};
use dappledome::tiles::tile::{Bases, Over, Powder, Sifted, Tile};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// What glasses are fitted from.
pub const KINDS: [(Kind, &str); 4] = [
    (Kind::One, "one tile over white"),
    (Kind::Several, "two tiles over white"),
    (Kind::WhiteAndBlack, "white and black"),
    (Kind::ScatterSaid, "white, scatter guessed"),
];
/// How well colors are read: typed exactly, in 8 bits, and off by so much in the mean (root of the mean square, CIEDE2000).
pub const READ: [(Read, &str); 4] = [
    (Read::Exact, "exact"),
    (Read::Codes, "8 bits"),
    (Read::Off(1.0), "off by 1"),
    (Read::Off(2.0), "off by 2"),
];
/// Depths over that of the nearest tile: powers of two.
pub const RATIOS: [f64; 9] = [0.0625, 0.125, 0.25, 0.5, 1.0, 2.0, 4.0, 8.0, 16.0];
/// How two glasses together are looked at.
pub const PAIRED: [&str; 4] = ["overlay by day", "overlay lit", "blend by day", "blend lit"];
/// How the result is looked at.
pub const LOOKS: [&str; 3] = ["white", "black", "clear, lit"];

const PACKING: f64 = 0.45;
/// Depths that anybody sifts, mm of loose powder.
pub const SIFTED: (f64, f64) = (0.03, 3.0);

/// How a color is read.
#[derive(Clone, Copy)]
pub enum Read {
    /// As it is.
    Exact,
    /// As an 8-bit sRGB color.
    Codes,
    /// From a photo, off by so much.
    Off(f64),
}

/// A true glass, what was fitted to its tiles, and the depth of its deepest tile, mm.
pub struct Fired {
    /// The truth.
    pub truth: Material,
    /// What was fitted.
    pub fitted: Fitted,
    /// Depth of the deepest tile, mm of loose powder.
    pub depth: f64,
}

/// So many glasses of one kind, read so well; the same glasses for every way to read.
pub fn fired(kind: Kind, read: Read, count: usize, seed: u64) -> Vec<Fired> {
    let colorants = Colorants::read();
    (0..count)
        .map(|number| {
            let mut rng = ChaCha8Rng::seed_from_u64(seed);
            rng.set_stream(number as u64);
            one(kind, read, &colorants, &mut rng)
        })
        .collect()
}

fn one(kind: Kind, read: Read, colorants: &Colorants, rng: &mut ChaCha8Rng) -> Fired {
    let laid: &[(f64, Over)] = match kind {
        Kind::One | Kind::ScatterSaid => &[(1.0, Over::White)],
        Kind::Several => &[(1.0, Over::White), (1.0 / 3.0, Over::White)],
        Kind::WhiteAndBlack => &[(1.0, Over::White), (1.0, Over::Black)],
    };
    let bases = Bases::default();
    let (truth, depth, guess) = loop {
        let drawn = drawn(kind, colorants, rng);
        // What sRGB cannot hold is cut off when it is read, which the fit says: such tiles are no part of this.
        let held = |(share, over): &(f64, Over)| {
            let color = seen(bases.under(*over), &[(&drawn.0, share * drawn.1)]);
            from_lab(color).iter().all(|channel| *channel > -1e-4)
        };
        if laid.iter().all(held) {
            break drawn;
        }
    };
    let powder = Powder { packing: PACKING, density: 2.5, milkiness: guess };
    let tiles: Vec<Tile> = laid
        .iter()
        .map(|(share, over)| {
            let color = as_read(seen(bases.under(*over), &[(&truth, share * depth)]), read, rng);
            let spread = if let Read::Off(by) = read { Some(2.0 * by) } else { None };
            Tile { sifted: Sifted::Loose(Mm(share * depth)), over: *over, color, spread }
        })
        .collect();
    let fitted = fit(&tiles, &bases, &powder).expect("the tiles are sound");
    Fired { truth, fitted, depth }
}

/// A true glass, the depth of its deepest tile, and what its maker takes its scatter to be, if there is nothing better.
fn drawn(kind: Kind, colorants: &Colorants, rng: &mut ChaCha8Rng) -> (Material, f64, f64) {
    let depth = between(rng, if kind == Kind::Several { 0.3 } else { 0.1 }, 1.0);
    // On its tile a glass is neither all but bare nor all but black.
    let peak = between(rng, 0.15, 3.0) / (PACKING * depth);
    let mut truth = colorants.transparent(rng, peak);
    let milky = match kind {
        Kind::One | Kind::Several => false,
        Kind::WhiteAndBlack => rng.random::<f64>() < 0.7,
        Kind::ScatterSaid => true,
    };
    if !milky {
        return (truth, depth, 0.0);
    }
    // From a haze to more than a strong opal, per mm.
    let at_550 = between(rng, 0.3, 6.0);
    truth.scatter = scatter(rng, at_550);
    let guess = if kind == Kind::ScatterSaid { (at_550 * exp(0.4 * gauss(rng))).min(20.0) } else { 0.0 };
    (truth, depth, guess)
}

fn as_read(color: Lab, read: Read, rng: &mut ChaCha8Rng) -> Lab {
    match read {
        Read::Exact => color,
        Read::Codes => to_lab(decode(encode(from_lab(color)))),
        Read::Off(by) => {
            let way = [gauss(rng), gauss(rng), gauss(rng)];
            let length = (way.iter().map(|x| x * x).sum::<f64>() / 3.0).sqrt();
            let small = [0, 1, 2].map(|i| color[i] + 0.1 * way[i]);
            let scale = 0.1 * by * length / de2000(color, small).max(1e-6);
            [0, 1, 2].map(|i| {
                if i == 0 { (color[0] + scale * way[0]).max(0.0) } else { color[i] + scale * way[i] }
            })
        }
    }
}

/// The color of layers of powder, bottom first, mm of loose powder, fired on a base.
pub fn seen(mut base: Seen, layers: &[(&Material, f64)]) -> Lab {
    for (material, depth) in layers {
        let layer = Layer::of(material, PACKING * depth);
        base.lay((&layer, &layer, 0.0), material.scatters());
    }
    to_lab(to_linear(&base.shows()))
}

/// The same on 3 mm of clear glass, lit from behind.
pub fn lit(layers: &[(&Material, f64)]) -> Lab {
    let clear = Material { absorption: demo::CLEAR.absorption, scatter: demo::CLEAR.scatter };
    let mut lit = Lit::lamp();
    let sheet = Layer::of(&clear, 3.0);
    lit.lay((&sheet, &sheet, 0.0), false);
    for (material, depth) in layers {
        let layer = Layer::of(material, PACKING * depth);
        lit.lay((&layer, &layer, 0.0), material.scatters());
    }
    to_lab(to_linear(&lit.shows()))
}

/// How far what was fitted is from the truth, by look.
pub fn off(truth: &[(&Material, f64)], fitted: &[(&Material, f64)]) -> [f64; LOOKS.len()] {
    let bases = Bases::default();
    let on = |over: Over| de2000(seen(bases.under(over), truth), seen(bases.under(over), fitted));
    [on(Over::White), on(Over::Black), de2000(lit(truth), lit(fitted))]
}

/// Two glasses together in one look: how far they are off, and what is said of each of them, CIEDE2000.
pub struct Pair {
    /// How far they are off.
    pub off: f64,
    /// What is said of each.
    pub each: [Option<f32>; 2],
}

/// Two glasses one over the other and blended in equal parts, by day and lit: as `PAIRED` names them.
pub fn pairs(fired: &[Fired]) -> Vec<[Pair; PAIRED.len()]> {
    let share = |one: &Fired, share: f64| (share * one.depth).clamp(SIFTED.0, SIFTED.1);
    let of = |lower: &Fired, upper: &Fired, number: usize| {
        let deep = pow(2.0, (number % 3) as f64 - 1.5);
        let (a, b) = (share(lower, deep), share(upper, 0.5));
        let over = off(
            &[(&lower.truth, a), (&upper.truth, b)],
            &[(&lower.fitted.material, a), (&upper.fitted.material, b)],
        );
        let blend = |one: &Material, other: &Material| Material::blend([(one, 0.5), (other, 0.5)]);
        let depth = a + b;
        let blended = off(
            &[(&blend(&lower.truth, &upper.truth), depth)],
            &[(&blend(&lower.fitted.material, &upper.fitted.material), depth)],
        );
        let pair = |off: f64, [a, b]: [f64; 2], by: By| {
            let at = |one: &Fired, depth: f64| one.fitted.sureness.at(depth as f32, by);
            Pair { off, each: [at(lower, a), at(upper, b)] }
        };
        let half = [0.5 * depth; 2];
        [
            pair(over[0].max(over[1]), [a, b], By::Day),
            pair(over[2], [a, b], By::Lit),
            pair(blended[0].max(blended[1]), half, By::Day),
            pair(blended[2], half, By::Lit),
        ]
    };
    fired.windows(2).enumerate().map(|(number, pair)| of(&pair[0], &pair[1], number)).collect()
}

/// Share of pairs in one look that are off by no more than is said of both.
pub fn share_within(
    pairs: &[[Pair; PAIRED.len()]],
    look: usize,
    said: impl Fn([Option<f32>; 2]) -> Option<f32>,
) -> f64 {
    let within = pairs.iter().filter(|pair| {
        let Pair { off, each } = pair[look];
        said(each).is_some_and(|said| off <= said.into())
    });
    within.count() as f64 / pairs.len() as f64
}

/// Mean, 95th percentile and worst.
pub fn summed(errors: &[f64]) -> (f64, f64, f64) {
    let mut sorted = errors.to_vec();
    sorted.sort_by(f64::total_cmp);
    let at = |share: f64| sorted.get((share * sorted.len() as f64) as usize).or(sorted.last()).copied();
    let mean = sorted.iter().sum::<f64>() / sorted.len().max(1) as f64;
    (mean, at(0.95).unwrap_or(0.0), at(1.0).unwrap_or(0.0))
}
