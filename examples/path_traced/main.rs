//! A reference of the domed pictures: light followed backward through the same shell under the same studio, slowly, with no
//! shortcut that the renderer takes. `tests/path_traced.rs` compares the renderer with its pictures.
//!
//! `cargo run --release --example path_traced -- [--samples 1000] [--threads 2] [--out tests/data/path_traced] [--png] [NAME ...]`
//! (a NAME is the beginning of a file's name)
//!
//! For each scene (`scenes.rs`) it writes NAME_day.png and NAME_lamp.png: 16 bits a channel of the linear light that the
//! renderer has before `tone::shown`, 65535 standing for 2.
//! - `day`: the studio by day, so exposed that a level perfect white glass shows 0.84.
//! - `lamp`: the lantern's light alone, its radiance 1 (white; its color and brightness are the renderer's affair).
//!   What daylight there is in the dusk is `day` times 0.055.
//!
//! `--png` writes what they look like to `target/path_traced`, beside the renderer's pictures. `--wall` prints the light on the inside of the glass instead,
//! `--check` what worlds of known answer show.

mod checks;
mod glass;
mod lights;
mod scenes;
mod space;
mod tracer;
mod view;

use checks::{furnace, seen_straight, slab};
use dappledome::base::seed::Seed;
use dappledome::color::srgb::encode;
use dappledome::picture::{Light, Pixmap, Stage, View, png as pictures, tone};
use dappledome::preview::Preview;
use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;
use scenes::{SCENES, SIZE, Scene};
use space::Solid;
use std::error::Error;
use std::path::Path;
use std::sync::atomic::{AtomicU32, Ordering};
use std::{fs, thread};
use tracer::World;
use view::{camera, on_wall, pixel, world};

/// Linear light that the largest code stands for.
const FULL: f64 = 2.0;

struct Asked {
    samples: u32,
    threads: usize,
    out: String,
    png: bool,
    wall: bool,
    check: bool,
    names: Vec<String>,
}

impl Asked {
    fn read() -> Result<Self, Box<dyn Error>> {
        let mut asked = Self {
            samples: 1000,
            threads: 2,
            out: "tests/data/path_traced".into(),
            png: false,
            wall: false,
            check: false,
            names: Vec::new(),
        };
        let mut words = std::env::args().skip(1);
        while let Some(word) = words.next() {
            let mut value = || words.next().ok_or("a value is missing");
            match word.as_str() {
                "--samples" => asked.samples = value()?.parse()?,
                "--threads" => asked.threads = value()?.parse()?,
                "--out" => asked.out = value()?,
                "--png" => asked.png = true,
                "--wall" => asked.wall = true,
                "--check" => asked.check = true,
                _ => asked.names.push(word),
            }
        }
        Ok(asked)
    }

    fn wants(&self, name: &str) -> bool {
        self.names.is_empty() || self.names.iter().any(|asked| name.starts_with(asked.as_str()))
    }
}

fn main() -> Result<(), Box<dyn Error>> {
    let asked = Asked::read()?;
    if asked.check {
        print_checks(asked.samples);
        return Ok(());
    }
    for scene in &SCENES {
        if asked.wall && asked.wants(scene.name) {
            print_wall(scene, asked.samples);
        }
        for light in ["day", "lamp"] {
            let name = format!("{}_{light}.png", scene.name);
            if asked.wall || !asked.wants(&name) {
                continue;
            }
            let picture = traced(scene, &world(scene, light == "day"), &asked);
            write(&Path::new(&asked.out).join(&name), &picture)?;
            if asked.png {
                show(scene, light, &picture)?;
            }
            println!("{name}");
        }
    }
    Ok(())
}

/// Linear light of every pixel, from top left.
fn traced(scene: &Scene, world: &World, asked: &Asked) -> Vec<[f64; 3]> {
    let camera = camera(scene);
    let next = AtomicU32::new(0);
    let work = || {
        let mut rows = Vec::new();
        loop {
            let y = next.fetch_add(1, Ordering::Relaxed);
            if y >= SIZE {
                return rows;
            }
            let mut chance = ChaCha8Rng::seed_from_u64(u64::from(y));
            let row: Vec<_> =
                (0..SIZE).map(|x| pixel(world, &camera, (x, y), asked.samples, &mut chance)).collect();
            rows.push((y, row));
        }
    };
    let mut rows: Vec<_> = thread::scope(|scope| {
        let threads: Vec<_> = (0..asked.threads).map(|_| scope.spawn(work)).collect();
        threads.into_iter().flat_map(|thread| thread.join().expect("a thread traces to its end")).collect()
    });
    rows.sort_by_key(|(y, _)| *y);
    rows.into_iter().flat_map(|(_, row)| row).collect()
}

/// Prints the light that arrives at the inside of the glass, the lantern's radiance being 1.
fn print_wall(scene: &Scene, samples: u32) {
    let (world, dome) = (world(scene, false), scene.dome());
    let mut chance = ChaCha8Rng::seed_from_u64(1);
    println!("{}: s mm, direct, all (red, green, blue)", scene.name);
    for tenth in 0..=10 {
        let s = dome.flat * f64::from(tenth) / 10.0;
        let (direct, all) = on_wall(&world, &dome, s, samples, &mut chance);
        println!("{s:5.1}  {direct:.4}  {:.4} {:.4} {:.4}", all[0], all[1], all[2]);
    }
}

/// Prints what worlds of known answer show.
fn print_checks(samples: u32) {
    let mut chance = ChaCha8Rng::seed_from_u64(1);
    let dome = SCENES[0].dome();
    for scattering in [0.0, 4.0] {
        let world = furnace(Solid::Dome(dome), scattering);
        let camera = camera(&SCENES[0]);
        for at in [(48, 30), (48, 48), (20, 50), (48, 77), (12, 54)] {
            let [r, g, b] = pixel(&world, &camera, at, samples, &mut chance);
            println!("furnace, scattering {scattering} per mm, pixel {at:?}: {r:.6} {g:.6} {b:.6}");
        }
    }
    for (name, from_above) in [("sends back", true), ("lets through", false)] {
        for scene in &SCENES {
            let seen = seen_straight(&slab(scene.stack(), from_above), 16 * samples, &mut chance);
            println!("flat {} {name}: {:.4} {:.4} {:.4}", scene.name, seen[3], seen[8], seen[13]);
        }
    }
}

fn write(file: &Path, picture: &[[f64; 3]]) -> Result<(), Box<dyn Error>> {
    let mut encoder = png::Encoder::new(fs::File::create(file)?, SIZE, SIZE);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Sixteen);
    encoder.set_compression(png::Compression::High);
    let code = |c: f64| ((c / FULL).clamp(0.0, 1.0) * 65535.0).round() as u16;
    let bytes: Vec<u8> = picture.iter().flatten().flat_map(|c| code(*c).to_be_bytes()).collect();
    encoder.write_header()?.write_image_data(&bytes)?;
    Ok(())
}

/// What a picture looks like, four times as large, and the renderer's picture of the same.
fn show(scene: &Scene, light: &str, picture: &[[f64; 3]]) -> Result<(), Box<dyn Error>> {
    const TIMES: u32 = 4;
    let name = format!("{}_{light}", scene.name);
    let by = if light == "day" { Light::Day } else { Light::Within };
    let view = View::usual(Stage::Domed, by, TIMES * SIZE);
    let rendered = Preview::on_molds().picture(&scene.plan(), Seed(1), &view);
    let mut shown = Pixmap::filled(TIMES * SIZE, TIMES * SIZE, [0; 3]);
    for y in 0..TIMES * SIZE {
        for x in 0..TIMES * SIZE {
            let color = picture[(y / TIMES * SIZE + x / TIMES) as usize].map(|c| c as f32);
            let at = 4 * (y * TIMES * SIZE + x) as usize;
            shown.rgba[at..at + 3].copy_from_slice(&encode(tone::shown(color)));
        }
    }
    fs::create_dir_all("target/path_traced")?;
    fs::write(format!("target/path_traced/{name}.png"), pictures::encode(&shown, &[]))?;
    fs::write(format!("target/path_traced/{name}_rendered.png"), pictures::encode(&rendered, &[]))?;
    Ok(())
}
