//! A fired piece against its forecast, in a real browser: a photo made from the engine's own piece, where it is known what differs.

mod support;

use dappledome::base::memo::Allowance;
use dappledome::base::seed::Seed;
use dappledome::color::srgb::encode;
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Fall, Recipe, demo};
use jpeg_encoder::{ColorType, Encoder};
use serde_json::json;
use support::browser::{Browser, key};
use support::page::{drop_file, nothing_went_wrong, opened, press, says};

const SIDE: usize = 900;
/// Where the page first lays its frame of the disc: in the middle, 0.7 of the side.
const RADIUS: f32 = 315.0;
/// The light on the table, as a share of what the camera can show.
const LIGHT: f32 = 0.9;
const CARD: f32 = 0.86;

/// A photo of a fused piece on a gray table, with a white card in its corner.
fn photo(recipe: &Recipe, seed: u32) -> Vec<u8> {
    let plan = Plan::new(recipe).unwrap().plan;
    let field = Preview::new().colors(&plan, Seed(seed), 256, &mut Allowance::unlimited()).unwrap();
    let scale = field.grid.disc().radius() / RADIUS;
    let pixel = |at: usize| {
        let (column, row) = (at % SIDE, at / SIDE);
        let (x, y) = (column as f32 - 449.5, 449.5 - row as f32);
        let shows = if x * x + y * y < RADIUS * RADIUS {
            field.sample(x * scale, y * scale)
        } else if column < 160 && row < 160 {
            [CARD; 3]
        } else {
            [0.35; 3]
        };
        encode(shows.map(|light| light * LIGHT))
    };
    let rgb: Vec<u8> = (0..SIDE * SIDE).flat_map(pixel).collect();
    let mut file = Vec::new();
    Encoder::new(&mut file, 95).encode(&rgb, SIDE as u16, SIDE as u16, ColorType::Rgb).unwrap();
    file
}

/// The piece that the page opens with, its rust so deep.
fn rust(depth: f64) -> Recipe {
    let mut recipe = demo::ember_walk();
    let Fall::Patches(patches) = &mut recipe.coats[1].fall else { panic!("its second coat") };
    patches.depth.0 = depth;
    recipe
}

fn compared(browser: &Browser) {
    browser.wait_for("return document.querySelectorAll('.against-rows tbody tr').length > 2");
}

fn text_of(browser: &Browser, selector: &str) -> String {
    browser
        .run(&format!("return document.querySelector('{selector}').innerText"))
        .as_str()
        .unwrap()
        .to_owned()
}

#[test]
fn a_deeper_coat_is_told_and_taken_over_and_taken_back() {
    let browser = opened();
    drop_file(&browser, "fired.jpg", photo(&rust(0.25), 41));
    says(&browser, "Fired against forecast");
    compared(&browser);
    let said = text_of(&browser, ".against-rows");
    assert!(said.contains("Rust over straw came out lighter"), "{said}");
    assert!(said.contains("As if 0.2") && said.contains("As reckoned"), "{said}");
    browser.screenshot("against-1280");
    press(&browser, "place by place");
    says(&browser, "not turned");
    browser.screenshot("against-places-1280");
    press(&browser, "wipe");
    browser.wait_for("return document.querySelector('.against-wipe input')");
    press(&browser, "I sifted less: 0.2");
    browser.wait_for("return !document.querySelector('.against-rows').innerText.includes('As if')");
    says(&browser, "It came out as it was reckoned");
    press(&browser, "Only note it");
    says(&browser, "Noted in the log.");
    press(&browser, "Close");
    press(&browser, "Undo");
    nothing_went_wrong(&browser);
}

#[test]
fn a_glass_is_fitted_to_what_came_out_by_keys() {
    let browser = opened();
    let mut other = rust(0.45);
    other.coats[1].powder[0].glass = "umber".into();
    drop_file(&browser, "fired.jpeg", photo(&other, 42));
    compared(&browser);
    let fit =
        "[...document.querySelectorAll('button')].find((button) => button.innerText.startsWith('Fit Rust'))";
    browser.wait_for(&format!("{fit}?.focus(); return document.activeElement === {fit}"));
    browser.press_keys(key::ENTER);
    browser.wait_for("return document.querySelector('.sheet').innerText.includes('Rust, ')");
    nothing_went_wrong(&browser);
}

#[test]
fn a_white_that_is_none_is_told_and_a_phone_shows_all() {
    let browser = opened();
    browser.set_viewport(390, 844, 1.0);
    drop_file(&browser, "fired.jpg", photo(&rust(0.45), 41));
    compared(&browser);
    browser.screenshot("against-390");
    assert_eq!(browser.run("return document.documentElement.scrollWidth <= 390"), json!(true));
    // Its frame is carried from the card onto the dark table and half onto the card: no even white.
    let right = format!("\u{e008}{}", key::RIGHT.repeat(9));
    browser.keys("[aria-label^='Frame white']", &right);
    browser.wait_for("return document.querySelector('.against-light .notice.fault')");
    assert_eq!(browser.run("return document.querySelectorAll('.against-rows').length"), json!(0));
    drop_file(&browser, "notes.jpg", b"no photo");
    says(&browser, "Not a photo: notes.jpg");
    nothing_went_wrong(&browser);
}
