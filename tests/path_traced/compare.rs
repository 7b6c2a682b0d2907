//! The renderer's pictures beside the traced ones, region by region.

use super::regions::{Region, regions};
use super::scenes::{SCENES, SIZE, Scene};
use dappledome::base::seed::Seed;
use dappledome::color::difference::{de2000, to_lab};
use dappledome::color::srgb::{Linear, decode, luminance};
use dappledome::optics::colors::LAMP;
use dappledome::picture::{Light, Stage, View, tone};
use dappledome::preview::Preview;
use std::collections::HashMap;
use std::fs;
use std::sync::Mutex;

/// The folder of the traced pictures.
const FOLDER: &str = "tests/data/path_traced";
/// Pixels of the renderer's picture along one of the traced one.
const FINER: u32 = 4;
/// Side of the blocks of pixels that are compared: the noise of the traced pictures is below 2 % in one.
const BLOCK: u32 = 8;
/// What daylight is left in the dusk, as the renderer has it.
const DUSK: f32 = 0.0792;

/// How far apart a region of two pictures is.
#[derive(Clone, Debug)]
pub struct Compared {
    /// The region.
    pub region: Region,
    /// Number of blocks with enough of it.
    pub blocks: usize,
    /// Mean difference of the blocks, CIEDE2000.
    pub apart: f64,
    /// How light the traced picture is, mean L*.
    pub light: f64,
    /// How much lighter the renderer's picture is, mean L*.
    pub lighter: f64,
}

/// What a region is held to.
#[derive(Clone, Debug)]
pub struct Held {
    /// The scene.
    pub scene: String,
    /// The light.
    pub light: String,
    /// The region.
    pub region: String,
    /// Largest mean CIEDE2000.
    pub most: f64,
}

/// What `goals.csv` says.
pub fn goals() -> Vec<Held> {
    let text = fs::read_to_string(format!("{FOLDER}/goals.csv")).expect("the goals are there");
    let lines = text.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
    lines
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            let [scene, light, region] = [0, 1, 2].map(|i| cells[i].to_string());
            Held { scene, light, region, most: cells[3].parse().expect("a number") }
        })
        .collect()
}

/// The result of a region.
pub fn of(results: &[Compared], region: &str) -> Option<Compared> {
    results.iter().find(|result| result.region.name() == region).cloned()
}

/// A traced picture: linear light of every pixel, from top left.
pub fn reference(scene: &Scene, light: &str) -> Vec<Linear> {
    let file = fs::File::open(format!("{FOLDER}/{}_{light}.png", scene.name)).expect("the picture is there");
    let decoder = png::Decoder::new(std::io::BufReader::new(file));
    let mut reader = decoder.read_info().expect("a picture");
    let mut bytes = vec![0; reader.output_buffer_size().expect("a size")];
    reader.next_frame(&mut bytes).expect("its pixels");
    let code = |pair: &[u8]| f32::from(u16::from_be_bytes([pair[0], pair[1]])) / 65535.0 * 2.0;
    let picture: Vec<Linear> =
        bytes.chunks_exact(6).map(|pixel| [0, 2, 4].map(|i| code(&pixel[i..i + 2]))).collect();
    if light == "lamp" { both_sides(&picture) } else { picture }
}

/// A lit piece looks the same from its left and its right: the mean of both has less noise.
fn both_sides(picture: &[Linear]) -> Vec<Linear> {
    let row = SIZE as usize;
    let other = |i: usize| i - i % row + (row - 1 - i % row);
    let mean = |i: usize| [0, 1, 2].map(|k| 0.5 * (picture[i][k] + picture[other(i)][k]));
    (0..picture.len()).map(mean).collect()
}

/// The renderer's picture of a scene, averaged in linear light.
fn rendered(scene: &Scene, light: Light) -> Vec<Linear> {
    let view = View::usual(Stage::Domed, light, FINER * SIZE);
    let picture = Preview::on_molds().picture(&scene.plan(), Seed(1), &view);
    let mut mean = vec![[0.0; 3]; (SIZE * SIZE) as usize];
    for y in 0..FINER * SIZE {
        for x in 0..FINER * SIZE {
            let color = decode(picture.pixel(x, y));
            for k in 0..3 {
                mean[(y / FINER * SIZE + x / FINER) as usize][k] += color[k] / (FINER * FINER) as f32;
            }
        }
    }
    mean
}

/// A scene's pictures compared by `day` or `within`.
pub fn compared(scene: &Scene, light: &str) -> Vec<Compared> {
    static KNOWN: Mutex<Option<HashMap<String, Vec<Compared>>>> = Mutex::new(None);
    let key = format!("{} {light}", scene.name);
    let mut known = KNOWN.lock().expect("nothing fails while it is held");
    let known = known.get_or_insert_default();
    if let Some(results) = known.get(&key) {
        return results.clone();
    }
    let regions = regions(scene, is_clear(scene));
    let (got, want) = if light == "day" {
        (rendered(scene, Light::Day), reference(scene, "day"))
    } else {
        (rendered(scene, Light::Within), within(scene, lamp(bare(scene))))
    };
    let want: Vec<Linear> = want.into_iter().map(tone::shown).collect();
    let results: Vec<Compared> =
        Region::ALL.into_iter().filter_map(|region| over(region, &regions, &got, &want)).collect();
    known.insert(key, results.clone());
    results
}

/// Whether one sees through the sheets.
fn is_clear(scene: &Scene) -> bool {
    scene.recipe().blank.sheets.iter().all(|sheet| sheet.glass == "clear")
}

/// The bare blank of a scene.
fn bare(scene: &Scene) -> &'static Scene {
    &SCENES[usize::from(is_clear(scene))]
}

/// The traced picture by a lamp of this brightness, in the dusk.
fn within(scene: &Scene, bright: f32) -> Vec<Linear> {
    let (lamp, day) = (reference(scene, "lamp"), reference(scene, "day"));
    let pixel =
        |(lamp, day): (&Linear, &Linear)| [0, 1, 2].map(|k| bright * LAMP[k] * lamp[k] + DUSK * day[k]);
    lamp.iter().zip(&day).map(pixel).collect()
}

/// How bright the lamp is: so that the crown of the bare blank has the lightness that the renderer gives it.
fn lamp(bare: &Scene) -> f32 {
    let regions = regions(bare, is_clear(bare));
    let crown = |picture: &[Linear]| {
        let seen = picture.iter().zip(&regions).filter(|(_, region)| **region == Region::Crown);
        let (sum, many) = seen.fold((0.0, 0.0), |(sum, many), (c, _)| (sum + luminance(*c), many + 1.0));
        sum / many
    };
    let want = crown(&rendered(bare, Light::Within));
    let (mut low, mut high) = (0.0, 64.0);
    for _ in 0..24 {
        let middle = 0.5 * (low + high);
        let shown: Vec<Linear> = within(bare, middle).into_iter().map(tone::shown).collect();
        if crown(&shown) < want { low = middle } else { high = middle }
    }
    low
}

fn over(region: Region, regions: &[Region], got: &[Linear], want: &[Linear]) -> Option<Compared> {
    // Rim and outline are two or three pixels wide.
    let enough = if matches!(region, Region::Rim | Region::Outline) { 5 } else { 16 };
    let (mut blocks, mut apart, mut light, mut lighter) = (0, 0.0, 0.0, 0.0);
    for (left, top) in (0..SIZE / BLOCK).flat_map(|y| (0..SIZE / BLOCK).map(move |x| (x * BLOCK, y * BLOCK)))
    {
        let pixels: Vec<usize> = (0..BLOCK * BLOCK)
            .map(|i| ((top + i / BLOCK) * SIZE + left + i % BLOCK) as usize)
            .filter(|i| regions[*i] == region)
            .collect();
        if pixels.len() < enough {
            continue;
        }
        let mean = |picture: &[Linear]| {
            [0, 1, 2].map(|k| pixels.iter().map(|i| picture[*i][k]).sum::<f32>() / pixels.len() as f32)
        };
        let (a, b) = (to_lab(mean(got)), to_lab(mean(want)));
        blocks += 1;
        apart += de2000(a, b);
        light += b[0];
        lighter += a[0] - b[0];
    }
    let many = blocks as f64;
    (blocks > 0).then_some(Compared {
        region,
        blocks,
        apart: apart / many,
        light: light / many,
        lighter: lighter / many,
    })
}
