//! *How sure*: the line under the piece, the piece shaded by it, and the tile to fire, in a real browser.

mod support;

use dappledome::base::units::Mm;
use dappledome::glass::catalogue;
use dappledome::glass::kind::Source;
use dappledome::glass::tile::{Over, Sifted, Tile};
use dappledome::recipe::{Recipe, demo};
use serde_json::{Value, json};
use support::browser::Browser;
use support::page::{drop_file, nothing_went_wrong, opened, press, says, settled};

const LINE: &str = "return document.querySelector('.forecast').innerText";
const SLIP: &str = "return document.querySelector('.slip.how-sure') !== null";

/// Ember Walk with straw and coral of one fired tile each and rust of two.
fn recipe() -> Recipe {
    let mut recipe = demo::ember_walk();
    recipe.title = "Tiled".into();
    for (id, depths) in [("straw", &[0.26][..]), ("rust", &[0.15, 0.45]), ("coral", &[0.45])] {
        let tile = |mm: &f64| Tile {
            sifted: Sifted::Loose(Mm(*mm)),
            over: Over::White,
            color: [60.0, 10.0, 20.0],
            spread: None,
        };
        let mut glass = catalogue::find(id).expect("it is in the catalogue").clone();
        glass.id = format!("own_{id}");
        glass.source = Source::Tiles(depths.iter().map(tile).collect());
        for part in recipe.coats.iter_mut().flat_map(|coat| &mut coat.powder).filter(|part| part.glass == id)
        {
            part.glass.clone_from(&glass.id);
        }
        recipe.glasses.0.push(glass);
    }
    recipe
}

fn with_tiled_glass() -> Browser {
    let browser = opened();
    settled(&browser);
    let file = dappledome::recipe::file::write(&recipe());
    drop_file(&browser, "tiled.json", file);
    says(&browser, "Tiled");
    browser.wait_for(&format!("return (() => {{ {LINE} }})().includes('Colors about ±2')"));
    browser
}

fn has_slip(browser: &Browser, there: bool) {
    browser.wait_for(&format!("return (() => {{ {SLIP} }})() === {there}"));
}

/// Each row of the slip: its words.
fn rows(browser: &Browser) -> Vec<String> {
    let rows =
        browser.run("return [...document.querySelectorAll('.sure-rows li')].map((row) => row.innerText)");
    rows.as_array()
        .expect("a list")
        .iter()
        .map(|row| row.as_str().expect("words").replace('\n', " "))
        .collect()
}

#[test]
fn the_piece_is_shaded_by_how_sure_it_is_and_the_tile_to_fire_is_named() {
    let browser = with_tiled_glass();
    let in_color = settled(&browser);
    press(&browser, "about ±2");
    has_slip(&browser, true);
    says(&browser, "Darker is less sure");
    let shaded = settled(&browser);
    assert_ne!(shaded, in_color);
    let rows_by_day = rows(&browser);
    println!("{rows_by_day:#?}");
    assert!(rows_by_day[0].starts_with("Coral one tile, 0.45; used 0.0"), "{rows_by_day:?}");
    assert!(rows_by_day.iter().any(|row| row.contains("over straw") && row.contains("never fired so")));
    assert_eq!(browser.violations(), Vec::<String>::new());
    browser.screenshot("how_sure");

    press(&browser, "Fused");
    settled(&browser);
    browser.screenshot("how_sure_fused");
    press(&browser, "Slumped");
    press(&browser, "Lit");
    settled(&browser);
    // Lit from behind colors are less sure.
    let first = "return document.querySelector('.sure-rows li').innerText.replaceAll('\\n', ' ')";
    browser.wait_for(&format!("return (() => {{ {first} }})() !== {}", json!(rows_by_day[0])));
    press(&browser, "Day");
    settled(&browser);
    press(&browser, "Close");
    has_slip(&browser, false);
    assert_eq!(settled(&browser), in_color, "back in its colors to the last pixel");

    press(&browser, "about ±2");
    has_slip(&browser, true);
    let fire = browser.run("return document.querySelector('.sure-rows li button').innerText");
    assert!(fire.as_str().is_some_and(|fire| fire.starts_with("Fire a tile, 0.1")), "{fire}");
    press(&browser, fire.as_str().expect("words"));
    browser.wait_for("return document.querySelectorAll('.tile-rows > li').length === 2");
    assert_eq!(browser.run("return document.querySelector('.glass-name').value"), json!("Coral"));
    browser.screenshot("how_sure_tile");
    nothing_went_wrong(&browser);
}

#[test]
fn invented_glass_says_so_and_a_bare_blank_says_nothing() {
    let browser = opened();
    settled(&browser);
    browser.wait_for(&format!("return (() => {{ {LINE} }})().includes('Colors invented.')"));
    press(&browser, "invented");
    has_slip(&browser, true);
    says(&browser, "nobody knows how near");
    settled(&browser);
    browser.screenshot("how_sure_invented");
    let mut bare = demo::ember_walk();
    bare.coats.clear();
    bare.title = "Bare".into();
    drop_file(&browser, "bare.json", dappledome::recipe::file::write(&bare));
    says(&browser, "Bare");
    browser.wait_for(&format!("return !(() => {{ {LINE} }})().includes('Colors')"));
    nothing_went_wrong(&browser);
}

#[test]
fn on_a_phone_it_is_said_on_the_sheet() {
    let browser = with_tiled_glass();
    browser.set_viewport(390, 844, 2.0);
    settled(&browser);
    let line = browser.run("return document.querySelector('.sheet-forecast').innerText");
    assert!(matches!(&line, Value::String(line) if line.contains("Colors about ±2.")), "{line}");
    press(&browser, "about ±2");
    has_slip(&browser, true);
    settled(&browser);
    browser.screenshot("how_sure_phone");
    let wide = browser.run("return document.documentElement.scrollWidth");
    assert_eq!(wide, json!(390), "nothing hangs over");
    nothing_went_wrong(&browser);
}
