//! Colors read from photos whose answer is known: glass of a known color in light of a known color, fall-off, noise and code.

use dappledome::base::scalar::{exp, ln};
use dappledome::color::difference::{Lab, de2000, to_lab};
use dappledome::color::srgb::{decode_channel, encode_channel};
use dappledome::photo::frame::{Frame, Shape, Size};
use dappledome::photo::light::Light;
use dappledome::photo::pixels::Pixels;
use dappledome::photo::reading::{Reading, read};
use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

const SIZE: Size = (400, 300);
/// What the card of white sends back.
const CARD: f64 = 0.86;
/// Warm light that leaves the card below what the camera clips at.
const WARM: [f64; 3] = [0.95, 0.80, 0.58];
const RUST: [f64; 3] = [0.32, 0.12, 0.035];
const STRAW: [f64; 3] = [0.72, 0.60, 0.22];
const SLATE: [f64; 3] = [0.06, 0.07, 0.09];

/// A scene: what lies at a place, how bright the light is there, and how many codes the camera's noise has.
struct Scene {
    lies: fn(i32, i32) -> [f64; 3],
    light: fn(f64, f64) -> [f64; 3],
    noise: f64,
}

fn white() -> Frame {
    Frame { shape: Shape::Rectangle, left: 140, top: 30, wide: 120, high: 70 }
}

fn tile(at: i32) -> Frame {
    Frame { shape: Shape::Rectangle, left: 50 + 160 * at, top: 180, wide: 70, high: 60 }
}

/// A card of white with rust on its lower left and straw on its lower right.
fn card(x: i32, y: i32) -> [f64; 3] {
    let on = |frame: Frame| frame.holds((x, y));
    if on(tile(0)) {
        RUST
    } else if on(tile(1)) {
        STRAW
    } else {
        [CARD; 3]
    }
}

fn even(_: f64, _: f64) -> [f64; 3] {
    [1.0; 3]
}

/// Falls off by a quarter from the left to the right, and a tenth down.
fn from_the_left(x: f64, y: f64) -> [f64; 3] {
    let light = exp(ln(0.75) * x / f64::from(SIZE.0) + ln(0.9) * y / f64::from(SIZE.1));
    WARM.map(|channel| channel * light)
}

/// A lamp three widths of the photo above its upper left corner: by the square of the way, and the cosine on the card (Lambert).
fn from_a_lamp(x: f64, y: f64) -> [f64; 3] {
    let wide = f64::from(SIZE.0);
    let (x, y, z) = (x / wide + 0.2, y / wide + 0.2, 3.0);
    let way = (x * x + y * y + z * z).sqrt();
    WARM.map(|channel| channel * z * z * z / (way * way * way))
}

/// Two draws' sum of twelve, which is nearly normal, with a deviation of 1.
fn normal(draw: &mut impl Rng) -> f64 {
    (0..12).map(|_| draw.random_range(0.0..1.0)).sum::<f64>() - 6.0
}

impl Scene {
    fn taken(&self) -> Vec<u8> {
        let mut draw = ChaCha8Rng::seed_from_u64(7);
        let places = (0..SIZE.1).flat_map(|y| (0..SIZE.0).map(move |x| (x, y)));
        places
            .flat_map(|(x, y)| {
                let (lies, light) = ((self.lies)(x, y), (self.light)(f64::from(x) + 0.5, f64::from(y) + 0.5));
                let code = |channel: usize, draw: &mut ChaCha8Rng| {
                    let exact = 255.0 * encode_channel((lies[channel] * light[channel]).clamp(0.0, 1.0));
                    (exact + self.noise * normal(draw)).round().clamp(0.0, 255.0) as u8
                };
                [code(0, &mut draw), code(1, &mut draw), code(2, &mut draw), 255]
            })
            .collect()
    }

    /// What the frames show, the card being known.
    fn read(&self, frames: &[Frame]) -> Vec<Reading> {
        let rgba = self.taken();
        let photo = Pixels::new(SIZE, &rgba).expect("it has its bytes");
        let light = Light::on(&photo, &white()).expect("the white is sound");
        let reading = |frame| read(&photo, ("tile", frame), &light, CARD).expect("it can be read");
        frames.iter().map(reading).collect()
    }

    /// Why its white is none.
    fn refused(&self) -> String {
        let rgba = self.taken();
        let photo = Pixels::new(SIZE, &rgba).expect("it has its bytes");
        Light::on(&photo, &white()).expect_err("it is no white").what
    }
}

fn lab(light: [f64; 3]) -> Lab {
    to_lab(light.map(|channel| channel as f32))
}

/// Rust and straw come back within these, CIEDE2000.
fn held_to(scene: &Scene, bound: f64) {
    for (reading, truth) in scene.read(&[tile(0), tile(1)]).iter().zip([RUST, STRAW]) {
        let apart = de2000(reading.color, lab(truth));
        assert!(apart < bound, "off by {apart:.3}: {reading:?}");
        assert_eq!((reading.brighter, reading.clipped), (false, 0.0));
    }
}

/// In even light nothing is off but the 8-bit code, of the tile and of the card.
#[test]
fn in_even_light_a_color_comes_back_to_its_code() {
    let coded = |light: f64| decode_channel((255.0 * encode_channel(light)).round() / 255.0);
    for (reading, truth) in
        (Scene { lies: card, light: even, noise: 0.0 }).read(&[tile(0), tile(1)]).iter().zip([RUST, STRAW])
    {
        // It was read by the card's own value, its code is another by this much.
        let shown = truth.map(|channel| coded(channel) * CARD / coded(CARD));
        let apart = de2000(reading.color, lab(shown));
        assert!(apart < 1e-3 && reading.spread < 1e-3, "off by {apart}: {reading:?}");
    }
}

#[test]
fn the_color_and_the_fall_off_of_the_light_are_taken_out() {
    held_to(&Scene { lies: card, light: from_the_left, noise: 0.0 }, 0.3);
    // The camera's noise bends the mean of dark channels: 3 codes of 45 are half a percent.
    held_to(&Scene { lies: card, light: from_the_left, noise: 3.0 }, 0.5);
}

/// A real lamp does not fall off by equal shares: what a plane leaves of it.
#[test]
fn a_lamp_from_near_by_is_taken_out_within_one() {
    held_to(&Scene { lies: card, light: from_a_lamp, noise: 2.0 }, 1.0);
}

/// Without correction the same colors would be far off, or this would be no test.
#[test]
fn the_light_that_is_taken_out_is_not_small() {
    let scene = Scene { lies: card, light: from_the_left, noise: 0.0 };
    let rgba = scene.taken();
    let photo = Pixels::new(SIZE, &rgba).unwrap();
    let raw = photo.samples(&tile(1))[0].light;
    let apart = de2000(to_lab(raw), lab(STRAW));
    assert!(apart > 5.0, "{apart}");
}

/// By hand: it is brightest at the upper left of tile 1 (50, 180) and darkest at the lower right of tile 2 (280, 240).
#[test]
fn the_fall_off_over_the_frames_is_told() {
    let scene = Scene { lies: card, light: from_the_left, noise: 2.0 };
    let rgba = scene.taken();
    let light = Light::on(&Pixels::new(SIZE, &rgba).unwrap(), &white()).unwrap();
    let want = 1.0 - exp(ln(0.75) * 230.0 / 400.0 + ln(0.9) * 60.0 / 300.0);
    let got = light.falls_off(&[white(), tile(0), tile(1)]);
    assert!((got - want).abs() < 0.01, "{got}, not {want}");
    assert_eq!(light.falls_off(&[]), 0.0);
}

/// Of a normal deviation s about a gray the middle of its absolute values is 0.6745 s.
#[test]
fn the_spread_is_of_the_middle_pixel() {
    let scene = |noise| Scene { lies: |_, _| [0.4; 3], light: even, noise };
    let spread = |noise| scene(noise).read(&[tile(0)])[0].spread;
    assert!(spread(0.0) < 0.3, "{}", spread(0.0));
    let (one, two) = (spread(3.0), spread(6.0));
    assert!((two / one - 2.0).abs() < 0.25, "{one} {two}");
}

/// Glints and scratches on a tenth of the tile change nothing.
#[test]
fn specks_are_left_out() {
    let speckled = |x: i32, y: i32| {
        if y > 150 && y % 20 == 1 { [if x % 4 < 2 { 0.9 } else { 0.01 }; 3] } else { card(x, y) }
    };
    held_to(&Scene { lies: speckled, light: even, noise: 1.0 }, 0.3);
}

#[test]
fn a_white_in_shadow_says_by_how_much_and_where() {
    let shaded = |x: f64, _: f64| [if x < 180.0 { 0.62 } else { 1.0 }; 3];
    let scene = Scene { lies: card, light: shaded, noise: 2.0 };
    assert_eq!(scene.refused(), "White lies in shadow: 38 % darker at its left.");
    let corner = |x: f64, y: f64| [if x > 220.0 && y > 75.0 { 0.7 } else { 1.0 }; 3];
    let said = Scene { lies: card, light: corner, noise: 2.0 }.refused();
    assert!(said.starts_with("White lies in shadow"), "{said}");
    let steep = |_: f64, y: f64| [exp((y - 30.0) / 70.0 * ln(0.5)); 3];
    let said = Scene { lies: card, light: steep, noise: 2.0 }.refused();
    assert!(said.ends_with("at its bottom."), "{said}");
}

#[test]
fn what_is_clipped_dark_or_small_tells_no_color() {
    let scene = |light| Scene { lies: card, light, noise: 0.0 };
    assert_eq!(scene(|_, _| [1.3; 3]).refused(), "White is clipped: too bright to tell.");
    assert_eq!(scene(|_, _| [0.01; 3]).refused(), "White is too dark to tell.");
    let rgba = scene(even).taken();
    let photo = Pixels::new(SIZE, &rgba).unwrap();
    let dot = Pixels::new((1, 1), &[200, 200, 200, 255]).unwrap();
    assert_eq!(Light::on(&dot, &white()).unwrap_err().what, "White is too small to read.");
    let light = Light::on(&photo, &white()).unwrap();
    let glaring = vec![255; rgba.len()];
    let refused =
        read(&Pixels::new(SIZE, &glaring).unwrap(), ("tile 2", &tile(1)), &light, CARD).unwrap_err();
    assert_eq!(refused.what, "Tile 2 is clipped: too bright to tell.");
}

#[test]
fn what_is_brighter_than_a_perfect_white_is_doubted() {
    let scene = Scene { lies: |x, y| if y > 150 { [0.95; 3] } else { card(x, y) }, light: even, noise: 0.0 };
    assert!(!scene.read(&[tile(0)])[0].brighter);
    // The card is taken for a perfect white, which makes the tile 1.1 of one.
    let rgba = scene.taken();
    let photo = Pixels::new(SIZE, &rgba).unwrap();
    let light = Light::on(&photo, &white()).unwrap();
    assert!(read(&photo, ("tile", &tile(0)), &light, 1.0).unwrap().brighter);
}

/// Whatever frame, size and bytes: an answer or a notice, and never a color that is no number.
#[test]
fn no_photo_breaks_it() {
    let mut draw = ChaCha8Rng::seed_from_u64(3);
    for _ in 0..300 {
        let size = (draw.random_range(1..40), draw.random_range(1..40));
        let rgba: Vec<u8> = (0..size.0 * size.1 * 4).map(|_| draw.random_range(0..=255)).collect();
        let photo = Pixels::new(size, &rgba).unwrap();
        let mut side = || draw.random_range(-50..90);
        let frames = [Shape::Rectangle, Shape::Round].map(|shape| Frame {
            shape,
            left: side(),
            top: side(),
            wide: side(),
            high: side(),
        });
        if let Ok(light) = Light::on(&photo, &frames[0])
            && let Ok(reading) = read(&photo, ("tile", &frames[1]), &light, CARD)
        {
            assert!(reading.color.iter().all(|x| x.is_finite()) && reading.spread.is_finite());
        }
    }
}

/// A dark glass in light that leaves it few codes: the bound of what 8 bits can tell.
#[test]
fn a_dark_glass_is_told_within_one() {
    let scene =
        Scene { lies: |x, y| if y > 150 { SLATE } else { card(x, y) }, light: from_the_left, noise: 2.0 };
    let apart = de2000(scene.read(&[tile(0)])[0].color, lab(SLATE));
    assert!(apart < 1.0, "{apart}");
}
