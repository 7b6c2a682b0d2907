//! Worlds whose answer is known: even light around any glass that absorbs nothing, and endless flat slabs.

use super::glass::{Bands, Kind, Layer, Stack};
use super::lights::Room;
use super::space::{Solid, V3};
use super::tracer::World;
use dappledome::color::spectrum::BANDS;
use dappledome::optics::surface::NORMAL;
use rand::Rng;

/// A dome of two layers that absorb nothing, the outer one scattering, in even light of radiance 1: it shows 1 everywhere.
pub fn furnace(solid: Solid, scattering: f64) -> World {
    let kinds = [scattering, 0.0].map(|s| Kind::new([0.0; BANDS], [s; BANDS])).to_vec();
    let layers: Vec<Layer> = vec![(3.0, 0), (6.0, 1)];
    let stack = Stack { kinds, coated: layers.clone(), bare: layers, coated_to: 0.0 };
    World { solid, stack, room: Room::Even(1.0, 1.0), lantern: None }
}

/// A stack as an endless flat slab, lit evenly from above or from below.
pub fn slab(stack: Stack, from_above: bool) -> World {
    let thickness = stack.coated[stack.coated.len() - 1].0;
    let room = if from_above { Room::Even(1.0, 0.0) } else { Room::Even(0.0, 1.0) };
    World { solid: Solid::Slab(thickness), stack, room, lantern: None }
}

/// What a slab shows straight from above per band. Of light from above only what was scattered counts, a perfect white being 1.
pub fn seen_straight(world: &World, samples: u32, chance: &mut impl Rng) -> Bands {
    let from_above = matches!(world.room, Room::Even(above, _) if above > 0.0);
    let mut sum = [0.0; BANDS];
    for i in 0..samples as usize {
        let sight = (V3::new(0.0, 0.0, 100.0), V3::new(0.0, 0.0, -1.0));
        world.look(sight, i % BANDS, chance, &mut |found| {
            if found.scattered || !from_above {
                let weights = found.tally.weights(&world.stack.kinds);
                for band in 0..BANDS {
                    sum[band] += found.light * weights[band];
                }
            }
        });
    }
    let full = f64::from(samples) * if from_above { 1.0 - NORMAL } else { 1.0 };
    sum.map(|s| s / full)
}
