//! A scene by a light, and what a pixel of its picture sees.

use super::glass::to_linear;
use super::lights::{Lantern, Room, Studio};
use super::scenes::{SIZE, Scene};
use super::space::{Dome, Solid, V3};
use super::tracer::World;
use dappledome::color::spectrum::BANDS;
use dappledome::picture::View;
use dappledome::picture::cast::Camera;
use dappledome::picture::shell::Shell;
use dappledome::slump::dome::{Dome as Slumped, DomeInputs};
use rand::{Rng, RngExt};
use std::f64::consts::TAU;

/// A scene by day, or with its lantern as the only light.
pub fn world(scene: &Scene, by_day: bool) -> World {
    let dome = scene.dome();
    let studio = Box::new(Studio::new());
    let (room, lantern) = if by_day {
        (Room::Day(studio), None)
    } else {
        let rim = dome.radius * dome.end.1;
        (Room::Dark(studio.table, rim), Some(Lantern::new(&dome)))
    };
    World { solid: Solid::Dome(dome), stack: scene.stack(), room, lantern }
}

/// The eye that the renderer has for a scene.
pub fn camera(scene: &Scene) -> Camera {
    let slumped = Slumped::new(&DomeInputs::of(&scene.plan()));
    Camera::new(&Shell::new(&slumped), SIZE, View::USUAL_TILT, 1.0)
}

/// The line of sight through a place in the picture, pixels from its top left corner.
pub fn sight(camera: &Camera, x: f64, y: f64) -> (V3, V3) {
    let ray = camera.ray(x as f32, y as f32);
    let [from, toward] = [ray.from, ray.toward].map(|v| V3::new(v.x.into(), v.y.into(), v.z.into()));
    (from, toward.unit())
}

/// Linear light of a pixel, from so many lines of sight: each by chance within its cell of a grid.
pub fn pixel(
    world: &World,
    camera: &Camera,
    at: (u32, u32),
    samples: u32,
    chance: &mut impl Rng,
) -> [f64; 3] {
    let side = f64::from(samples).sqrt().ceil();
    let first = chance.random_range(0..BANDS);
    let mut sum = [0.0; 3];
    for i in 0..samples {
        let cell = (f64::from(i) % side, (f64::from(i) / side).floor());
        let x = f64::from(at.0) + (cell.0 + chance.random::<f64>()) / side;
        let y = f64::from(at.1) + (cell.1 + chance.random::<f64>()) / side;
        let hero = (first + i as usize) % BANDS;
        world.look(sight(camera, x, y), hero, chance, &mut |found| {
            let color = to_linear(&found.tally.weights(&world.stack.kinds));
            for k in 0..3 {
                sum[k] += found.light * color[k] / f64::from(samples);
            }
        });
    }
    sum
}

/// Light on the inside of a dome at a radius on the flat disc, on the side of +x: straight from the lantern, and all of it.
pub fn on_wall(world: &World, dome: &Dome, s: f64, samples: u32, chance: &mut impl Rng) -> (f64, [f32; 3]) {
    let (place, outward) = dome.on_face(s, -1.0);
    let inward = outward * -1.0;
    let from = place + inward * 1e-3;
    let (mut direct, mut all) = (0.0, [0.0; 3]);
    for i in 0..samples as usize {
        let cosine = (1.0 - chance.random::<f64>()).sqrt();
        let toward = inward.tilted(cosine, TAU * chance.random::<f64>());
        if let Some((_, _, radiance)) = world.lantern.and_then(|lantern| lantern.met(from, toward)) {
            direct += radiance / f64::from(samples);
        }
        world.look((from, toward), i % BANDS, chance, &mut |found| {
            let color = to_linear(&found.tally.weights(&world.stack.kinds));
            for k in 0..3 {
                all[k] += (found.light * color[k] / f64::from(samples)) as f32;
            }
        });
    }
    (direct, all)
}
