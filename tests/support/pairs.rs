//! Recipes, seeds and views drawn at random, always the same ones.

use super::golden::recipes;
use dappledome::base::seed::Seed;
use dappledome::base::units::{Degrees, Mm};
use dappledome::color::dichromacy::Sight;
use dappledome::color::illuminant::Illuminant;
use dappledome::picture::surroundings::Surroundings;
use dappledome::picture::{Light, Stage, View};
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Coat, Fall, Recipe, Side};
use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// The glasses that powder is drawn from.
const GLASSES: [&str; 8] = ["rust", "moss", "slate", "umber", "coral", "chalk", "lagoon", "clear"];

/// A picture to be drawn.
pub struct Pair {
    pub recipe: Recipe,
    pub plan: Plan,
    pub seed: Seed,
    pub view: View,
}

/// So many, of which every hundredth is 512 pixels wide and the one after it 1,024; the others are small, of any width.
pub fn drawn(count: usize) -> Vec<Pair> {
    let mut rng = ChaCha8Rng::seed_from_u64(13);
    let recipes = recipes();
    let mut pairs = Vec::with_capacity(count);
    while pairs.len() < count {
        let mut recipe = pick(&mut rng, &recipes).clone();
        let coats = recipe.coats.iter_mut();
        coats.for_each(|coat| change(&mut rng, coat));
        if let Some(sponge) = &mut recipe.sponge {
            sponge.passes = rng.random_range(0.5..3.0);
            sponge.press = rng.random_range(0.3..1.0);
            sponge.puts_back = rng.random_range(0.0..0.6);
        }
        recipe.blank.diameter = Mm(rng.random_range(90.0..260.0));
        recipe.mold.opening = recipe.blank.diameter;
        recipe.powder_side = pick(&mut rng, &[Side::Out, Side::Out, Side::In]).to_owned();
        let size = match pairs.len() % 100 {
            98 => 512,
            99 => 1024,
            _ => rng.random_range(24..180),
        };
        let view = view(&mut rng, size);
        // What cannot be made has no picture.
        if let Ok(planned) = Plan::new(&recipe) {
            pairs.push(Pair { recipe, plan: planned.plan, seed: Seed(rng.random()), view });
        }
    }
    pairs
}

fn pick<'a, T>(rng: &mut impl Rng, list: &'a [T]) -> &'a T {
    &list[rng.random_range(0..list.len())]
}

fn change(rng: &mut impl Rng, coat: &mut Coat) {
    coat.powder[0].glass = pick(rng, &GLASSES).to_string();
    coat.layout.turned = Degrees(rng.random_range(-180.0..180.0));
    coat.layout.mirrored = rng.random();
    coat.layout.moved_right = Mm(rng.random_range(-20.0..20.0));
    match &mut coat.fall {
        Fall::Even { depth } => *depth = Mm(rng.random_range(0.05..1.0)),
        Fall::Patches(patches) => {
            patches.depth = Mm(rng.random_range(0.05..1.0));
            patches.coverage = rng.random_range(0.0..0.9);
            patches.size = Mm(rng.random_range(6.0..60.0));
            patches.raggedness = Mm(rng.random_range(0.0..4.0));
            patches.toward_rim = rng.random_range(-1.0..1.0);
        }
        Fall::ThickAndThin(range) => {
            range.thinnest = Mm(rng.random_range(0.02..0.2));
            range.thickest = Mm(rng.random_range(0.3..1.2));
        }
    }
}

fn view(rng: &mut impl Rng, size: u32) -> View {
    let stage = *pick(rng, &[Stage::Sifted, Stage::Fused, Stage::Domed, Stage::Domed]);
    let light = *pick(rng, &[Light::Day, Light::Day, Light::Within, Light::Gray]);
    View {
        cells: if size < 500 { rng.random_range(3..200) } else { size },
        turn: rng.random_range(0.0..360.0),
        tilt: rng.random_range(View::LEAST_TILT..View::MOST_TILT),
        zoom: rng.random_range(0.8..3.0),
        seen_in: *pick(rng, &[Illuminant::Daylight, Illuminant::Overcast, Illuminant::Incandescent]),
        sight: *pick(rng, &[Sight::Usual, Sight::Usual, Sight::Deutan]),
        around: *pick(rng, &Surroundings::ALL),
        ..View::usual(stage, light, size)
    }
}
