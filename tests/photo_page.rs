//! Colors taken from photos in a real browser: two tiles become a glass, by pointer and by keys; what is rotated, damaged, tiny, huge, in
//! shadow.

mod support;

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use dappledome::color::srgb::{decode, encode};
use dappledome::glass::catalogue;
use dappledome::tiles::ladder::{Base, ladder};
use jpeg_encoder::{ColorType, Encoder};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use serde_json::{Value, json};
use support::browser::{Browser, key};
use support::page::{drop_file, nothing_went_wrong, opened, press, says};

const WIDE: usize = 800;
const HIGH: usize = 600;
/// Light of a lamp: less blue than red.
const LAMP: [f32; 3] = [1.0, 0.9, 0.7];
/// What the card sends back.
const CARD: f32 = 0.86;
/// Where the tiles lie: middle and half a side, pixels.
const TILES: [(usize, usize); 2] = [(220, 460), (560, 460)];
const HALF: usize = 80;
/// Depths of the tiles, mm of loose powder: those that the page proposes.
const DEPTHS: [f32; 2] = [0.15, 0.45];

/// The colors of the two tiles, as they look beside a perfect white.
fn rust() -> [[u8; 3]; 2] {
    let rust = catalogue::find("rust").unwrap();
    ladder(rust, 0.45, Base::White, &DEPTHS).try_into().unwrap()
}

/// Two tiles on a white card under the lamp, a tenth darker at the right: red, green and blue of each pixel. What lies left of `shade`
/// is in shadow, at 0.62 of the light.
fn tiles(shade: usize) -> Vec<u8> {
    let colors = rust().map(decode);
    let place = |at: usize| (at % WIDE, at / WIDE);
    let lies = |x: usize, y: usize| {
        let on = |(tx, ty): (usize, usize)| x.abs_diff(tx) < HALF && y.abs_diff(ty) < HALF;
        TILES.iter().position(|tile| on(*tile)).map_or([CARD; 3], |tile| colors[tile])
    };
    let light = |x: usize| (1.0 - 0.1 * x as f32 / WIDE as f32) * if x < shade { 0.62 } else { 1.0 };
    (0..WIDE * HIGH)
        .map(place)
        .flat_map(|(x, y)| {
            let lies = lies(x, y);
            encode([0, 1, 2].map(|channel| lies[channel] * LAMP[channel] * light(x)))
        })
        .collect()
}

fn png_of(rgb: &[u8], (wide, high): (usize, usize), depth: png::BitDepth, color: png::ColorType) -> Vec<u8> {
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, wide as u32, high as u32);
    encoder.set_color(color);
    encoder.set_depth(depth);
    encoder.set_compression(png::Compression::Fast);
    encoder.write_header().unwrap().write_image_data(rgb).unwrap();
    file
}

fn photo(shade: usize) -> Vec<u8> {
    png_of(&tiles(shade), (WIDE, HIGH), png::BitDepth::Eight, png::ColorType::Rgb)
}

/// An EXIF header that says only how the camera was held (Exif 2.3, tag 0x0112).
fn held(orientation: u8) -> Vec<u8> {
    let mut exif = b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
    exif.extend([orientation, 0, 0, 0, 0, 0, 0]);
    exif
}

fn jpeg(pixels: &[u8], (wide, high): (usize, usize), color: ColorType, exif: Option<Vec<u8>>) -> Vec<u8> {
    let mut file = Vec::new();
    let mut encoder = Encoder::new(&mut file, 95);
    if let Some(exif) = exif {
        encoder.add_app_segment(1, exif).unwrap();
    }
    encoder.encode(pixels, wide as u16, high as u16, color).unwrap();
    file
}

/// The page with the area of tiles open.
fn at_tiles() -> Browser {
    let browser = opened();
    press(&browser, "Shelf");
    press(&browser, "Make a glass from a fired tile");
    says(&browser, "From a tile to a glass");
    browser
}

/// Puts a file into the field, as the browser's own dialog would; what is then heard is another matter.
fn lay_file(browser: &Browser, name: &str, bytes: &[u8]) {
    browser.wait_for("return document.querySelector('.tile-area .photo-field') !== null");
    browser.run_with(
        "const bytes = Uint8Array.from(atob(arguments[1]), (letter) => letter.charCodeAt(0));
        const chosen = new DataTransfer();
        chosen.items.add(new File([bytes], arguments[0]));
        document.querySelector('.photo-field').files = chosen.files;",
        &json!([name, BASE64_STANDARD.encode(bytes)]),
    );
}

fn choose(browser: &Browser, name: &str, bytes: &[u8]) {
    lay_file(browser, name, bytes);
    browser
        .run("document.querySelector('.photo-field').dispatchEvent(new Event('change', { bubbles: true }))");
}

fn choose_tiles(browser: &Browser, shade: usize) {
    choose(browser, "tiles.png", &photo(shade));
    browser.wait_for("return document.querySelectorAll('.photo-frame').length === 3");
}

/// Where a place of the photo is on the screen.
fn on_screen(browser: &Browser, (x, y): (usize, usize)) -> (i32, i32) {
    let place = browser.run_with(
        "const canvas = document.querySelector('.marked-photo canvas');
        const shown = canvas.getBoundingClientRect();
        return [shown.left + arguments[0] * shown.width / canvas.width, shown.top + arguments[1] * shown.height / canvas.height];",
        &json!([x, y]),
    );
    let px = |at: usize| place[at].as_f64().unwrap().round() as i32;
    (px(0), px(1))
}

/// Left, top, width and height of a frame, as it says itself, pixels of the photo.
fn frame(browser: &Browser, name: &str) -> [i32; 4] {
    let said = browser.run_with(
        "return document.querySelector(`[aria-label^='Frame ${arguments[0]},']`).ariaLabel",
        &json!([name]),
    );
    let numbers: Vec<i32> = said
        .as_str()
        .unwrap()
        .rsplit(", ")
        .take(3)
        .flat_map(|part| part.split(' ').filter_map(|word| word.parse().ok()).collect::<Vec<_>>())
        .collect();
    let [top, left, wide, high] = numbers[..] else { panic!("{said}") };
    [left, top, wide, high]
}

/// Seen and reckoned color of a tile.
fn colors(browser: &Browser, at: usize) -> Option<[Vec<i32>; 2]> {
    let both = browser.run_with(
        "const style = document.querySelectorAll('.tile-row')[arguments[0]]?.querySelector('.tile-fit .swatch')?.style;
        return style ? [style.getPropertyValue('--loose'), style.getPropertyValue('--fired')] : null;",
        &json!([at]),
    );
    let codes = |color: &Value| {
        let digits = color.as_str().unwrap().trim_start_matches("rgb(").trim_end_matches(')');
        digits.split(' ').map(|code| code.parse().unwrap()).collect()
    };
    both.as_array().map(|both| [codes(&both[0]), codes(&both[1])])
}

/// Waits until a tile is seen to be of this color, within so many codes.
fn is_seen(browser: &Browser, at: usize, truth: [u8; 3], within: i32) {
    let near =
        |seen: &[i32]| seen.iter().zip(truth).all(|(seen, code)| (seen - i32::from(code)).abs() <= within);
    let mut last = None;
    for _ in 0..100 {
        last = colors(browser, at);
        if last.as_ref().is_some_and(|[seen, _]| near(seen)) {
            return;
        }
        browser.run_async("await new Promise((done) => setTimeout(done, 50))");
    }
    panic!("tile {} is {last:?}, not {truth:?}", at + 1);
}

#[test]
fn two_tiles_become_a_glass_from_a_photo() {
    let browser = at_tiles();
    choose_tiles(&browser, 0);
    // Tile 1 by the pointer: its frame's middle to the tile's middle, and then a corner further out.
    let [left, top, wide, high] = frame(&browser, "tile 1");
    let middle = ((left + wide / 2) as usize, (top + high / 2) as usize);
    browser.drag(on_screen(&browser, middle), on_screen(&browser, TILES[0]));
    let [left, top, wide, high] = frame(&browser, "tile 1");
    assert!((left + wide / 2 - 220).abs() <= 2 && (top + high / 2 - 460).abs() <= 2, "{left} {top}");
    let corner = ((left + wide - 1) as usize, (top + high - 1) as usize);
    browser.drag(on_screen(&browser, corner), on_screen(&browser, (corner.0 + 10, corner.1 + 6)));
    let grown = frame(&browser, "tile 1");
    assert_eq!([grown[0], grown[1]], [left, top], "the other corner stays");
    assert!((grown[2] - wide - 10).abs() <= 2 && (grown[3] - high - 6).abs() <= 2, "{grown:?}");
    // Tile 2 by keys: Shift goes ten pixels at once.
    let before = frame(&browser, "tile 2");
    browser.run("document.querySelector(`[aria-label^='Frame tile 2,']`).focus()");
    let (right, down) = ((560 - before[2] / 2 - before[0]) / 10, (460 - before[3] / 2 - before[1]) / 10);
    browser.press_keys(&key::RIGHT.repeat(3));
    let shifted =
        format!("{}{}{}", "\u{e008}", key::RIGHT.repeat(right as usize), key::DOWN.repeat(down as usize));
    browser.keys("[aria-label^='Frame tile 2,']", &shifted);
    let after = frame(&browser, "tile 2");
    assert_eq!([after[0], after[1]], [before[0] + 3 + 10 * right, before[1] + 10 * down]);
    browser.keys("[aria-label^='Frame tile 2,']", &format!("{}{}", key::CONTROL, key::LEFT));
    assert_eq!(frame(&browser, "tile 2")[2], after[2] - 1);
    for (at, truth) in rust().into_iter().enumerate() {
        is_seen(&browser, at, truth, 2);
        let [_, reckoned] = colors(&browser, at).unwrap();
        let off = reckoned.iter().zip(truth).map(|(one, code)| (one - i32::from(code)).abs()).max().unwrap();
        assert!(off <= 4, "the glass is of the kind that made it: {reckoned:?}, not {truth:?}");
    }
    says(&browser, "Light falls off");
    says(&browser, "Nothing clipped.");
    says(&browser, "between the tiles");
    browser.screenshot("photo_tiles");
    browser.set_viewport(390, 844, 2.0);
    browser.run("document.querySelector('.marked-photo').scrollIntoView()");
    browser.screenshot("photo_tiles_phone");
    let within = "return document.querySelector('.tile-area').scrollWidth <= innerWidth";
    assert_eq!(browser.run(within), true, "nothing lies beside the phone");
    browser.set_viewport(1280, 800, 1.0);
    browser.run("document.querySelector('.tile-name').scrollIntoView()");
    browser.screenshot("photo_tiles_below");
    browser.set_value(".glass-name", "Rust of the photo");
    press(&browser, "Put it on the shelf");
    says(&browser, "Rust of the photo");
    nothing_went_wrong(&browser);
}

/// The lamp's white told wrongly, every color would be off by as much.
#[test]
fn the_white_has_a_value_of_its_own() {
    let browser = at_tiles();
    choose_tiles(&browser, 0);
    // Before anything is marked the frames lie on the card.
    let card = encode([CARD; 3]);
    is_seen(&browser, 0, card, 1);
    press(&browser, "0.86");
    browser.keys(".tile-side .own-typed", &format!("0.5{}", key::ENTER));
    is_seen(&browser, 0, encode([0.5; 3]), 1);
    says(&browser, "From a tile to a glass");
}

/// A camera on its side writes the pixels on their side and a note beside them; a print shop writes four inks, a scanner 16 bits.
#[test]
fn whatever_the_browser_decodes_is_read() {
    let browser = at_tiles();
    // Red above, green below, held so that red comes to the right (6: turn it by 90 degrees clockwise).
    let half = |one: [u8; 3], other: [u8; 3]| [one.repeat(300 * 100), other.repeat(300 * 100)].concat();
    let sides = half([200, 60, 50], [50, 160, 70]);
    choose(&browser, "held.jpg", &jpeg(&sides, (300, 200), ColorType::Rgb, Some(held(6))));
    browser.wait_for("return document.querySelector('.marked-photo canvas')?.height === 300");
    let shown = browser.run(
        "const canvas = document.querySelector('.marked-photo canvas');
        const at = (x) => [...canvas.getContext('2d').getImageData(x, 150, 1, 1).data].slice(0, 3);
        return [canvas.width, at(150), at(50)];",
    );
    let near = |seen: &Value, truth: [i64; 3]| {
        let off =
            seen.as_array().unwrap().iter().zip(truth).map(|(code, t)| (code.as_i64().unwrap() - t).abs());
        assert!(off.max().unwrap() <= 3, "{seen}, not {truth:?}");
    };
    assert_eq!(shown[0], 200);
    near(&shown[1], [200, 60, 50]);
    near(&shown[2], [50, 160, 70]);
    let inks = [0, 180, 200, 40].repeat(64 * 48);
    choose(&browser, "inks.jpg", &jpeg(&inks, (64, 48), ColorType::Cmyk, None));
    browser.wait_for("return document.querySelector('.marked-photo canvas')?.width === 64");
    let deep: Vec<u8> = [0x80, 0x12, 0x40, 0xff, 0xc0, 0x00].repeat(96 * 40);
    choose(&browser, "deep.png", &png_of(&deep, (96, 40), png::BitDepth::Sixteen, png::ColorType::Rgb));
    browser.wait_for("return document.querySelector('.marked-photo canvas')?.width === 96");
    near(
        &browser.run("return [...document.querySelector('.marked-photo canvas').getContext('2d').getImageData(9, 9, 1, 1).data].slice(0, 3)"),
        [0x80, 0x40, 0xc0],
    );
    nothing_went_wrong(&browser);
}

#[test]
fn what_is_no_photo_is_told_and_typed_colors_stay() {
    let browser = at_tiles();
    browser.set_value("[aria-label='Color of tile 2']", "#A05000");
    says(&browser, "near the tile");
    choose(&browser, "notes.txt", b"hello");
    says(&browser, "Not a photo: notes.txt");
    let cut = photo(0);
    choose(&browser, "cut.png", &cut[..40]);
    says(&browser, "Not a photo: cut.png");
    choose(&browser, "dot.png", &png_of(&[9, 9, 9], (1, 1), png::BitDepth::Eight, png::ColorType::Rgb));
    says(&browser, "Too small to read: dot.png has 1 × 1 pixels.");
    let typed = "return document.querySelector(`[aria-label='Color of tile 2']`)?.value";
    assert_eq!(browser.run(typed), "#A05000");
    // Dropped on the area it is a photo; afterwards it is let be.
    drop_on_area(&browser, "tiles.png", &photo(0));
    browser.wait_for("return document.querySelectorAll('.photo-frame').length === 3");
    assert_eq!(browser.run(typed), Value::Null);
    press(&browser, "No photo: type the color");
    browser.wait_for("return document.querySelectorAll('.photo-frame').length === 0");
    assert_eq!(browser.run(typed), "#A05000");
    // What is dropped beside it is still a piece or none.
    drop_file(&browser, "notes.txt", b"hello");
    says(&browser, "That is a document.");
}

fn drop_on_area(browser: &Browser, name: &str, bytes: &[u8]) {
    browser.run_with(
        "const bytes = Uint8Array.from(atob(arguments[1]), (letter) => letter.charCodeAt(0));
        const dropped = new DataTransfer();
        dropped.items.add(new File([bytes], arguments[0]));
        document.querySelector('.tile-paper').dispatchEvent(
            new DragEvent('drop', { dataTransfer: dropped, bubbles: true, cancelable: true }));",
        &json!([name, BASE64_STANDARD.encode(bytes)]),
    );
}

#[test]
fn a_white_in_shadow_is_told_and_marked_again() {
    let browser = at_tiles();
    choose_tiles(&browser, 360);
    says(&browser, "White lies in shadow: ");
    says(&browser, "darker at its left.");
    browser.screenshot("photo_shadow");
    assert!(colors(&browser, 0).is_none(), "no color is told by it");
    let mark = "[aria-label^='Frame white,']";
    browser.keys(mark, &format!("{}{}", "\u{e008}", key::RIGHT.repeat(8)));
    says(&browser, "Light falls off");
    assert!(colors(&browser, 1).is_some());
}

/// Prints how long the page's own thread is held up by a photo of 12 megapixels, opened, shown, and its frames dragged.
#[test]
fn figures_of_a_large_photo() {
    let browser = at_tiles();
    let large = noisy((4000, 3000));
    lay_file(&browser, "large.jpg", &large);
    browser.run_async("await new Promise((done) => setTimeout(done, 1500))");
    let before = browser.long_tasks().len();
    let opened = browser.run_async(
        "const start = performance.now();
        document.querySelector('.photo-field').dispatchEvent(new Event('change', { bubbles: true }));
        while (document.querySelectorAll('.photo-frame').length < 3) await new Promise((done) => setTimeout(done, 4));
        return performance.now() - start;",
    );
    println!(
        "a photo of 12 megapixels, {} kB, is shown in {:.0} ms",
        large.len() / 1024,
        opened.as_f64().unwrap()
    );
    browser.run_async("await new Promise((done) => setTimeout(done, 1000))");
    println!("tasks over 50 ms on the page's own thread: {:?}", &browser.long_tasks()[before..]);
    let before = browser.long_tasks().len();
    browser.keys("[aria-label^='Frame tile 1,']", &key::RIGHT.repeat(20));
    browser.drag(on_screen(&browser, (330, 600)), on_screen(&browser, (500, 700)));
    browser.run_async("await new Promise((done) => setTimeout(done, 1000))");
    println!("and while its frames were moved: {:?}", &browser.long_tasks()[before..]);
    says(&browser, "Made smaller to read: 12 megapixels.");
}

/// A card with noise, as a camera has it.
fn noisy((wide, high): (usize, usize)) -> Vec<u8> {
    let mut draw = ChaCha8Rng::seed_from_u64(1);
    let pixels: Vec<u8> = (0..wide * high * 3).map(|_| 180 + draw.random_range(0..24)).collect();
    jpeg(&pixels, (wide, high), ColorType::Rgb, None)
}

#[test]
fn two_hundred_megapixels_are_made_smaller() {
    let browser = at_tiles();
    let rows = vec![0xff; 20_000 / 8 * 10_000];
    let photo = png_of(&rows, (20_000, 10_000), png::BitDepth::One, png::ColorType::Grayscale);
    choose(&browser, "huge.png", &photo);
    says(&browser, "Made smaller to read: 200 megapixels.");
    says(&browser, "White is clipped: too bright to tell.");
    nothing_went_wrong(&browser);
}
