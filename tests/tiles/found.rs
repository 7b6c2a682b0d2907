//! Colors found among jars, against trying everything on a fine grid.

use super::glasses::{Colorants, between, scatter};
use super::study::summed;
use dappledome::base::scalar::{exp, ln};
use dappledome::color::difference::{Lab, de2000, to_lab};
use dappledome::color::spectrum::to_linear;
use dappledome::color::srgb::decode;
use dappledome::glass::catalogue;
use dappledome::glass::material::Material;
use dappledome::optics::layer::Layer;
use dappledome::optics::stack::{Lit, Seen};
use dappledome::tiles::find::{DEPTHS, Found, Jar, PARTS, Under, Way, find};
use dappledome::tiles::sureness::Sureness;
use dappledome::tiles::tile::{Bases, Over};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

const PACKING: f64 = 0.45;

fn white() -> Under {
    Under::Day(Bases::default().under(Over::White))
}

fn jars(materials: &[Material]) -> Vec<Jar<'_>> {
    materials.iter().map(|material| Jar { material, sureness: &Sureness::Invented }).collect()
}

/// Seven invented transparent glasses and two opals.
fn shelf() -> Vec<Material> {
    let mut rng = ChaCha8Rng::seed_from_u64(17);
    let colorants = Colorants::read();
    (0..9)
        .map(|number| {
            let peak = between(&mut rng, 1.0, 12.0);
            let mut glass = colorants.transparent(&mut rng, peak);
            if number >= 7 {
                glass.scatter = scatter(&mut rng, 2.5);
            }
            glass
        })
        .collect()
}

/// A fine grid of depths, a sixth of an octave apart.
fn depths() -> Vec<f64> {
    let (least, most) = (ln(DEPTHS.0), ln(DEPTHS.1));
    (0..40).map(|at| exp(least + (most - least) * f64::from(at) / 39.0)).collect()
}

/// The colors of everything that the shelf can be sifted to on white: layers laid as a swatch lays them.
fn everything(materials: &[Material], base: Seen) -> Vec<Lab> {
    let layers = |material: &Material| -> Vec<Layer> {
        depths().iter().map(|depth| Layer::of(material, PACKING * depth)).collect()
    };
    let each: Vec<Vec<Layer>> = materials.iter().map(layers).collect();
    let on = |mut base: Seen, layer: &Layer, scatters: bool| {
        base.lay((layer, layer, 0.0), scatters);
        base
    };
    let color = |seen: Seen| to_lab(to_linear(&seen.shows()));
    let mut colors = Vec::new();
    for (one, lower) in materials.iter().zip(&each) {
        for layer in lower {
            let ground = on(base, layer, one.scatters());
            colors.push(color(ground));
            for (other, upper) in materials.iter().zip(&each) {
                colors.extend(upper.iter().map(|layer| color(on(ground, layer, other.scatters()))));
            }
        }
        for other in materials {
            for [first, second] in PARTS {
                let share = f32::from(first) / f32::from(first + second);
                let blend = Material::blend([(one, share), (other, 1.0 - share)]);
                colors.extend(layers(&blend).iter().map(|layer| color(on(base, layer, blend.scatters()))));
            }
        }
    }
    colors
}

fn wanted(rng: &mut ChaCha8Rng) -> Lab {
    to_lab(decode([rng.random(), rng.random(), rng.random()]))
}

/// 200 random colors of sRGB: never more than 0.1 further than the best of a fine grid of everything.
#[test]
fn nothing_nearer_is_overlooked() {
    let materials = shelf();
    let base = Bases::default().under(Over::White);
    let everything = everything(&materials, base);
    println!("held against {} ways", everything.len());
    let mut rng = ChaCha8Rng::seed_from_u64(23);
    let mut behind = Vec::new();
    for _ in 0..200 {
        let wanted = wanted(&mut rng);
        let best = everything.iter().map(|color| de2000(*color, wanted)).fold(f64::INFINITY, f64::min);
        let found = find(wanted, &jars(&materials), &white(), PACKING, true);
        behind.push(found[0].apart - best);
        assert!(found[0].apart <= best + 0.1, "{wanted:?}: {:?}, but {best} can be had", found[0]);
    }
    let (mean, p95, worst) = summed(&behind);
    println!("behind a fine grid by mean {mean:.3}, p95 {p95:.3}, worst {worst:.3}");
}

/// A color made of the shelf itself is found again, by day and lit.
#[test]
fn what_was_made_of_the_shelf_is_found() {
    let materials = shelf();
    let lamp = [1.0, 0.8, 0.6];
    for under in [white(), Under::Lit(Lit::lamp(), lamp)] {
        for (lower, upper, depths) in [(0, 3, [0.2, 0.5]), (8, 1, [0.1, 0.3]), (2, 7, [0.4, 0.05])] {
            let layers = [(lower, depths[0]), (upper, depths[1])];
            let laid = layers.map(|(jar, depth)| (Layer::of(&materials[jar], PACKING * depth), jar));
            let spectrum = match under {
                Under::Day(mut seen) => {
                    laid.iter()
                        .for_each(|(layer, jar)| seen.lay((layer, layer, 0.0), materials[*jar].scatters()));
                    to_linear(&seen.shows())
                }
                Under::Lit(mut lit, lamp) => {
                    laid.iter()
                        .for_each(|(layer, jar)| lit.lay((layer, layer, 0.0), materials[*jar].scatters()));
                    let passed = to_linear(&lit.shows());
                    [0, 1, 2].map(|i| passed[i] * lamp[i])
                }
            };
            let found = find(to_lab(spectrum), &jars(&materials), &under, PACKING, true);
            assert!(found[0].apart < 0.1, "{:?}", found[0]);
        }
    }
}

#[test]
fn what_is_found_is_in_order_and_says_what_it_is() {
    let names = ["straw", "rust", "coral", "lagoon", "moss", "chalk"];
    let glasses = names.map(|name| catalogue::find(name).expect("it is on the shelf"));
    let measured = Sureness::Measured(3.0);
    let jars: Vec<Jar> =
        glasses.iter().map(|glass| Jar { material: &glass.material, sureness: &measured }).collect();
    let brick = to_lab(decode([154, 95, 76]));
    let one = find(brick, &jars, &white(), PACKING, false);
    assert_eq!(one.len(), jars.len());
    assert!(one.iter().all(|found| matches!(found.way, Way::Alone { .. }) && found.sure == Some(3.0)));
    let found = find(brick, &jars, &white(), PACKING, true);
    assert!(found[0].apart <= one[0].apart && found.len() > one.len());
    for pair in found.windows(2) {
        assert!((10.0 * pair[0].apart).round() <= (10.0 * pair[1].apart).round(), "{pair:?}");
    }
    for Found { way, sure, apart, color, .. } in &found {
        assert!((de2000(*color, brick) - apart).abs() < 1e-12);
        let two = way.jars().len() == 2;
        assert!((sure.expect("none is made up") - if two { 6.0 } else { 3.0 }).abs() < 1e-5);
        assert!(way.each().iter().all(|(_, depth)| (0.003..=DEPTHS.1 + 1e-9).contains(depth)), "{way:?}");
    }
    // With one glass made up nothing is sure.
    let invented = [Jar { sureness: &Sureness::Invented, ..jars[0] }];
    assert_eq!(find(brick, &invented, &white(), PACKING, true)[0].sure, None);
}

#[test]
fn what_cannot_be_looked_for_finds_nothing() {
    let materials = shelf();
    let jars = jars(&materials);
    assert!(find([f64::NAN, 0.0, 0.0], &jars, &white(), PACKING, true).is_empty());
    assert!(find([50.0, 0.0, 0.0], &jars, &white(), f64::NAN, true).is_empty());
    assert!(find([50.0, 0.0, 0.0], &[], &white(), PACKING, true).is_empty());
    assert_eq!(find([500.0, -900.0, 0.0], &jars[..1], &white(), PACKING, true).len(), 1, "as near as can be");
}
