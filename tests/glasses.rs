//! The maker's own glasses in a real browser: copied, changed, put into a piece, retired, kept, and brought by a file.

mod support;

use dappledome::base::units::Mm;
use dappledome::color::typed;
use dappledome::glass::catalogue;
use dappledome::glass::kind::Glass;
use dappledome::recipe::shelf::Shelf;
use dappledome::tiles::fit::fit;
use dappledome::tiles::tile::{Bases, Over, Powder, Sifted, Tile};
use serde_json::json;
use support::browser::{Browser, key};
use support::page::{
    drop_file, nothing_went_wrong, opened, press, saved_text, saves_into, says, settled as drawn,
};

/// Opens the glass that is called so.
fn open_glass(browser: &Browser, name: &str) {
    browser.wait_for("return document.querySelector('.glass-disc') !== null");
    let opened = browser.run_with(
        "const disc = [...document.querySelectorAll('.glass-disc')].find((disc) => disc.querySelector('b').innerText === arguments[0]);
        disc?.click(); return disc !== undefined",
        &json!([name]),
    );
    assert_eq!(opened, json!(true), "{name} is not on the shelf");
    browser.wait_for("return document.querySelector('.glass-paper') !== null");
}

fn names(browser: &Browser) -> Vec<String> {
    let names =
        browser.run("return [...document.querySelectorAll('.glass-disc b')].map((name) => name.innerText)");
    names.as_array().unwrap().iter().map(|name| name.as_str().unwrap().to_owned()).collect()
}

fn number(name: &str) -> String {
    format!(".glass-paper [role=spinbutton][aria-label='{name}']")
}

#[test]
fn a_copy_is_changed_put_into_a_piece_and_kept() {
    let browser = opened();
    press(&browser, "Shelf");
    says(&browser, "No glasses of your own.");
    open_glass(&browser, "Rust");
    says(&browser, "nobody measured it");
    browser.screenshot("glass-invented-1280");
    press(&browser, "Copy");
    browser.wait_for("return document.querySelector('input.glass-name')?.value === 'Rust, mine'");
    browser.set_value("input.glass-name", "Rust, jar of May");
    browser.wait_for("return document.querySelector('.glass-disc b').innerText === 'Rust, jar of May'");
    browser.click(&number("Density, g/cm³"));
    browser.press_keys("5");
    browser.press_keys(key::ENTER);
    browser.click(&number("Softening point"));
    browser.press_keys("520");
    browser.press_keys(key::ENTER);
    says(&browser, "Rust, jar of May:");
    press(&browser, "Put it in a coat");
    browser.wait_for("return document.querySelectorAll('.coat').length === 4");
    browser.wait_for(
        "return document.querySelector('.coat.open .row-button').innerText.includes('Rust, jar of May')",
    );
    browser.screenshot("glass-own-1280");
    browser.keys(".coat.open .row-button", &format!("{}z", key::CONTROL));
    browser.wait_for("return document.querySelectorAll('.coat').length === 3");
    // It is there again when the page is opened anew, and offered where powders are.
    browser.open(&support::site::page_url());
    drawn(&browser);
    press(&browser, "Rust");
    press(&browser, "Powder");
    browser.wait_for(
        "return [...document.querySelectorAll('.coat.open .option')].some((option) => option.innerText === 'Rust, jar of May')",
    );
    press(&browser, "Shelf");
    open_glass(&browser, "Rust, jar of May");
    assert_eq!(browser.text(&number("Density, g/cm³")), "5");
    browser.set_viewport(390, 844, 1.0);
    drawn(&browser);
    browser.run("document.querySelector('.glass-paper').scrollIntoView()");
    assert_eq!(
        browser.run("return document.documentElement.scrollWidth <= innerWidth"),
        json!(true),
        "nothing is cut off"
    );
    browser.screenshot("glass-own-390");
    nothing_went_wrong(&browser);
}

#[test]
fn a_retired_glass_is_not_offered_and_one_taken_off_can_be_put_back() {
    let browser = opened();
    press(&browser, "Shelf");
    open_glass(&browser, "Moss");
    press(&browser, "Copy");
    browser.wait_for("return document.querySelector('input.glass-name') !== null");
    press(&browser, "Retire");
    says(&browser, "Offer it again");
    press(&browser, "Close the shelf");
    press(&browser, "Rust");
    press(&browser, "Powder");
    browser.wait_for("return document.querySelectorAll('.coat.open .option').length > 8");
    let offered = browser.text(".coat.open");
    assert!(offered.contains("Moss") && !offered.contains("Moss, mine"), "{offered}");
    press(&browser, "Shelf");
    open_glass(&browser, "Moss, mine");
    press(&browser, "Take it off the shelf");
    says(&browser, "Moss, mine is off the shelf.");
    assert!(!names(&browser).contains(&"Moss, mine".to_owned()));
    browser.click(".glasses [role=status] .word");
    browser.wait_for(
        "return [...document.querySelectorAll('.glass-disc b')].some((name) => name.innerText === 'Moss, mine')",
    );
    nothing_went_wrong(&browser);
}

#[test]
fn a_file_of_glasses_comes_in_once_and_goes_out_whole() {
    let browser = opened();
    let rust = catalogue::find("rust").unwrap();
    let mut shelf = Shelf::default();
    for (id, name) in [("may", "Rust, May"), ("june", "Rust, June")] {
        shelf.put(Glass { id: id.into(), name: name.into(), ..rust.clone() });
    }
    drop_file(&browser, "glasses.json", shelf.write());
    says(&browser, "2 glasses came onto the shelf.");
    drop_file(&browser, "glasses.json", shelf.write());
    says(&browser, "All its glasses are on the shelf already.");
    assert_eq!(names(&browser)[..2], ["Rust, May", "Rust, June"]);
    let folder = saves_into(&browser, "glasses");
    press(&browser, "Your glasses as a file");
    assert_eq!(Shelf::read(&saved_text(&folder, ".json")), Ok(shelf.clone()));
    let broken = shelf.write().replace("\"density\": 2.5", "\"density\": -1.0");
    drop_file(&browser, "broken.json", &broken);
    says(&browser, "Out of range.");
    says(&browser, "The density of Rust, May is -1 g/cm³.");
    nothing_went_wrong(&browser);
}

/// Types a tile's color, as one does.
fn type_color(browser: &Browser, tile: usize, color: &str) {
    let field = format!("[aria-label='Color of tile {tile}']");
    browser.set_value(&field, color);
    browser.run_with(
        "document.querySelector(arguments[0]).dispatchEvent(new Event('change', { bubbles: true }))",
        &json!([field]),
    );
}

#[test]
fn two_tiles_become_a_glass_that_says_how_sure_it_is() {
    let browser = opened();
    press(&browser, "Shelf");
    press(&browser, "Make a glass from a fired tile");
    says(&browser, "Two tiles of different depth tell far more than one");
    let ready = "return !document.querySelector('.tile-name .button').disabled";
    assert_eq!(browser.run(ready), json!(false), "nothing is read yet");
    type_color(&browser, 1, "brick");
    says(&browser, "This is no color. Type it as #9A5F4C");
    type_color(&browser, 1, "#CC9055");
    says(&browser, "near the tile");
    type_color(&browser, 2, "Lab 42.5 27 50.5");
    says(&browser, "between the tiles");
    // What the page says is what the engine fits.
    let tile = |depth: f64, color: &str| Tile {
        sifted: Sifted::Loose(Mm(depth)),
        over: Over::White,
        color: typed::read(color).unwrap().lab(),
        spread: None,
    };
    let tiles = [tile(0.15, "#CC9055"), tile(0.45, "Lab 42.5 27 50.5")];
    let powder = Powder { packing: 0.45, density: 2.5, milkiness: 0.0 };
    let fitted = fit(&tiles, &Bases::default(), &powder).unwrap();
    for apart in &fitted.apart {
        says(&browser, &format!("apart by {apart:.1}"));
    }
    browser.screenshot("tile-two-1280");
    type_color(&browser, 2, "#FFFFFF");
    says(&browser, "Brighter than its base.");
    says(&browser, "These two disagree");
    browser.screenshot("tile-doubt-1280");
    type_color(&browser, 2, "Lab 42.5 27 50.5");
    // What is written down stays while one is elsewhere.
    press(&browser, "Leave it");
    press(&browser, "Make a glass from a fired tile");
    says(&browser, "between the tiles");
    browser.set_value(".tile-name input", "Rust, jar of May");
    browser.wait_for(ready);
    browser.set_viewport(390, 844, 1.0);
    drawn(&browser);
    assert_eq!(browser.run("return document.documentElement.scrollWidth <= innerWidth"), json!(true));
    browser.screenshot("tile-two-390");
    browser.set_viewport(1280, 800, 1.0);
    press(&browser, "Put it on the shelf");
    browser.wait_for("return document.querySelector('.glass-disc b').innerText === 'Rust, jar of May'");
    open_glass(&browser, "Rust, jar of May");
    says(&browser, "Fitted to 2 fired tiles. About ±");
    browser.screenshot("tile-shelved-1280");
    nothing_went_wrong(&browser);
}
