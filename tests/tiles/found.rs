//! Colors found among jars, against trying everything on a fine grid.

use super::glasses::{Colorants, between, scatter};
use super::study::summed;
use dappledome::base::scalar::{exp, ln};
use dappledome::color::difference::{Lab, de2000, to_lab};
use dappledome::color::spectrum::to_linear;
use dappledome::color::srgb::decode;
use dappledome::glass::catalogue;
use dappledome::glass::kind::Glass;
use dappledome::glass::material::Material;
use dappledome::optics::layer::Layer;
use dappledome::optics::stack::{Lit, Seen};
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Part, Recipe};
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
    let jar = |material| Jar { material, sureness: &Sureness::Invented, packing: PACKING };
    materials.iter().map(jar).collect()
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
        let found = find(wanted, &jars(&materials), &white(), true);
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
            let found = find(to_lab(spectrum), &jars(&materials), &under, true);
            assert!(found[0].apart < 0.1, "{:?}", found[0]);
        }
    }
}

#[test]
fn what_is_found_is_in_order_and_says_what_it_is() {
    let names = ["straw", "rust", "coral", "lagoon", "moss", "chalk"];
    let glasses = names.map(|name| catalogue::find(name).expect("it is on the shelf"));
    let measured = Sureness::Measured(3.0);
    let jars: Vec<Jar> = glasses
        .iter()
        .map(|glass| Jar { material: &glass.material, sureness: &measured, packing: PACKING })
        .collect();
    let brick = to_lab(decode([154, 95, 76]));
    let one = find(brick, &jars, &white(), false);
    assert_eq!(one.len(), jars.len());
    assert!(one.iter().all(|found| matches!(found.way, Way::Alone { .. }) && found.sure == Some(3.0)));
    let found = find(brick, &jars, &white(), true);
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
    assert_eq!(find(brick, &invented, &white(), true)[0].sure, None);
}

#[test]
fn what_cannot_be_looked_for_finds_nothing() {
    let materials = shelf();
    let jars = jars(&materials);
    assert!(find([f64::NAN, 0.0, 0.0], &jars, &white(), true).is_empty());
    let unpacked = [Jar { packing: f64::NAN, ..jars[0] }];
    assert!(find([50.0, 0.0, 0.0], &unpacked, &white(), true).is_empty());
    assert!(find([50.0, 0.0, 0.0], &[], &white(), true).is_empty());
    assert_eq!(find([500.0, -900.0, 0.0], &jars[..1], &white(), true).len(), 1, "as near as can be");
}

/// Of a jar that holds more glass in a bed, less depth is the same glass.
#[test]
fn each_jar_is_laid_at_its_own_packing() {
    let rust = &catalogue::find("rust").expect("it is on the shelf").material;
    let jar = |packing| Jar { material: rust, sureness: &Sureness::Invented, packing };
    let Under::Day(mut seen) = white() else { unreachable!("it is looked at by day") };
    let layer = Layer::of(rust, 0.2);
    seen.lay((&layer, &layer, 0.0), rust.scatters());
    let found = find(to_lab(to_linear(&seen.shows())), &[jar(0.4), jar(0.5)], &white(), false);
    for Found { way, apart, .. } in &found {
        let Way::Alone { jar, depth } = way else { panic!("one jar was allowed: {way:?}") };
        let want = [0.5, 0.4][*jar];
        assert!(*apart < 0.1 && (depth / want - 1.0).abs() < 0.02, "{depth} mm of jar {jar}, not {want}");
    }
    assert_eq!(found.len(), 2);
}

/// A blend of jars that pack unlike is what a coat of the same parts is: parts of loose powder, each with its own share of glass.
#[test]
fn a_blend_is_laid_as_a_coat_of_it_would_be() {
    let own = |id: &str, from: &str, packing: f64| Glass {
        id: id.into(),
        packing: Some(packing),
        ..catalogue::find(from).expect("it is on the shelf").clone()
    };
    let glasses = [own("close", "chalk", 0.58), own("airy", "rust", 0.34)];
    let jars = glasses.each_ref().map(|glass| Jar {
        material: &glass.material,
        sureness: &Sureness::Invented,
        packing: glass.packing.expect("it has one"),
    });
    let found = find(to_lab(decode([190, 150, 130])), &jars, &white(), true);
    let blends = found.iter().filter_map(|found| match found.way {
        Way::Blended { jars, parts, depth } => Some((found, jars, parts, depth)),
        _ => None,
    });
    let mut seen = 0;
    for (found, jars, parts, depth) in blends {
        let mut recipe = Recipe::bare();
        glasses.iter().for_each(|glass| recipe.bring(glass));
        let mut coat = recipe.next_coat("close");
        coat.powder = [0, 1]
            .map(|at| Part { glass: glasses[jars[at]].id.clone(), parts: f64::from(parts[at]) })
            .to_vec();
        recipe.coats.push(coat);
        let plan = Plan::new(&recipe).expect("the recipe is sound").plan;
        let blend = &plan.coats[0].blend;
        let Under::Day(mut base) = white() else { unreachable!("it is looked at by day") };
        let layer = Layer::of(&blend.material, depth * f64::from(blend.packing));
        base.lay((&layer, &layer, 0.0), blend.material.scatters());
        let apart = de2000(found.color, to_lab(to_linear(&base.shows())));
        assert!(apart < 0.01, "{found:?}: a coat of it is apart by {apart}");
        seen += 1;
    }
    assert!(seen > 0, "{found:?}");
}
