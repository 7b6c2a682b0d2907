//! A color that is looked for, in a real browser: typed, tried by keys and by pointer, put into the piece, put back.

mod support;

use dappledome::base::seed::Seed;
use dappledome::base::units::fixed;
use dappledome::color::typed;
use dappledome::glass::catalogue;
use dappledome::glass::glasses::Glasses;
use dappledome::preview::Preview;
use dappledome::recipe::demo;
use dappledome::worker::asked::{AtDesk, DeskJob, FindJob, Said, SeenOn};
use dappledome::worker::desk::Desk;
use dappledome::worker::protocol::{read, written};
use serde_json::{Value, json};
use support::browser::{Browser, key};
use support::page::{nothing_went_wrong, opened, press, says, settled};

const BRICK: &str = "#9A5F4C";
const SRGB: &str = "[aria-label='This color in sRGB']";
const LAB: &str = "[aria-label='This color in Lab']";
const ROWS: &str = "return document.querySelectorAll('.find-row').length";

/// The page with nothing under the piece, and its picture.
fn opened_bare() -> (Browser, Value) {
    let browser = opened();
    // The welcome.
    browser.press_keys(key::ESCAPE);
    browser.wait_for("return !document.querySelector('.slip')");
    let picture = settled(&browser);
    (browser, picture)
}

/// Opens the area for the coat of rust.
fn open_for_rust(browser: &Browser) {
    press(browser, "Rust");
    press(browser, "Powder");
    press(browser, "Find a color");
    browser.wait_for(&format!("return document.activeElement === document.querySelector(\"{SRGB}\")"));
}

fn type_color(browser: &Browser, field: &str, color: &str) {
    browser.set_value(field, color);
    browser.run_with(
        "document.querySelector(arguments[0]).dispatchEvent(new Event('change', { bubbles: true }))",
        &json!([field]),
    );
}

/// Types the color of a brick and waits for its rows; gives what each says to sift.
fn look_for_brick(browser: &Browser) -> Vec<String> {
    type_color(browser, SRGB, BRICK);
    browser.wait_for(&format!("{ROWS} === 5"));
    let whats =
        browser.run("return [...document.querySelectorAll('.find-what b')].map((what) => what.innerText)");
    whats.as_array().unwrap().iter().map(|what| what.as_str().unwrap().to_owned()).collect()
}

fn is_trying(browser: &Browser, what: &str) {
    browser.wait_for(&format!(
        "return document.querySelector('.state-line').innerText.startsWith({})",
        json!(format!("Trying {what}"))
    ));
}

/// Waits until the area is gone and nothing is tried.
fn is_put_back(browser: &Browser) {
    browser.wait_for(
        "return !document.querySelector('.find-area') && !document.querySelector('.state-line').innerText.includes('Trying')",
    );
}

fn coats(browser: &Browser) -> Value {
    browser.run("return document.querySelectorAll('.step.coat').length")
}

/// What the engine finds for the coat of rust of Ember Walk on what it lies on, asked as the page asks it.
fn as_found_by_the_engine() -> Vec<String> {
    let recipe = demo::ember_walk();
    let powders = catalogue::all().iter().filter(|glass| glass.powder).cloned().collect();
    let job = DeskJob::Find(Box::new(FindJob {
        coat: recipe.coats[1].id,
        recipe,
        seed: Seed(41),
        jars: Glasses(powders),
        wanted: typed::read(BRICK).unwrap().lab(),
        seen: SeenOn::Coat,
        two: true,
    }));
    let (said, _) = Desk::default().step(&mut Preview::new(), 1, &written(&job)).unwrap().unwrap();
    let Ok(Said::Found(Some(finds))) = read(&said) else { panic!("nothing was found") };
    finds.ways.iter().take(5).map(|found| fixed(found.apart, 1)).collect()
}

#[test]
fn a_typed_color_is_tried_by_keys_put_back_and_put_in_as_one_step() {
    let (browser, before) = opened_bare();
    open_for_rust(&browser);
    says(&browser, "Type the color you want");
    type_color(&browser, SRGB, "brick");
    says(&browser, "This is no color. Type it as #9A5F4C");
    let whats = look_for_brick(&browser);
    let value = |field: &str| browser.run(&format!("return document.querySelector(\"{field}\").value"));
    assert_eq!([value(SRGB), value(LAB)], [json!(BRICK), json!("Lab 46 22 21")], "both say the same");
    let aparts =
        browser.run("return [...document.querySelectorAll('.find-apart b')].map((apart) => apart.innerText)");
    assert_eq!(aparts, json!(as_found_by_the_engine()));
    is_trying(&browser, &whats[0]);
    let first = settled(&browser);
    assert_ne!(first, before, "the dome shows what is tried");
    browser.screenshot("find-1280");
    browser.keys(SRGB, key::DOWN);
    is_trying(&browser, &whats[1]);
    assert_ne!(settled(&browser), first);
    browser.press_keys(key::ESCAPE);
    is_put_back(&browser);
    assert_eq!(settled(&browser), before, "nothing of it is left");
    assert_eq!(
        browser.run(
            "return [...document.querySelectorAll('button')].some((one) => one.innerText.startsWith('Undo'))"
        ),
        json!(false),
        "nothing was done"
    );
    // The color is still written there; a row of its own is put in by Enter.
    press(&browser, "Find a color");
    browser.wait_for(&format!("{ROWS} === 5"));
    browser.click("#find-way-0");
    browser.press_keys(key::DOWN);
    browser.wait_for("return document.activeElement.id === 'find-way-1'");
    is_trying(&browser, &whats[1]);
    browser.press_keys(key::ENTER);
    is_put_back(&browser);
    says(&browser, "Undo: a color found");
    assert_ne!(settled(&browser), before, "it stays in the piece");
    browser.keys(".step.open .row-button", &format!("{}z", key::CONTROL));
    browser.wait_for(
        "return [...document.querySelectorAll('.row-words b')].some((name) => name.innerText === 'Rust')",
    );
    assert_eq!(settled(&browser), before, "one step takes all of it back");
    nothing_went_wrong(&browser);
}

#[test]
fn one_jar_over_another_becomes_two_coats_that_move_as_one() {
    let browser = opened();
    open_for_rust(&browser);
    let whats = look_for_brick(&browser);
    let over =
        whats.iter().position(|what| what.contains(" on ")).expect("one jar over another is among them");
    browser.click(&format!("#find-way-{over}"));
    is_trying(&browser, &whats[over]);
    assert_eq!(coats(&browser), json!(4), "the sheet shows both");
    press(&browser, "Put it in Rust");
    is_put_back(&browser);
    says(&browser, "Lies together with");
    assert_eq!(coats(&browser), json!(4));
    browser.screenshot("find-overlay-1280");
    let coverage = "return [...document.querySelectorAll('.step.coat .summary')].map((words) => words.textContent.match(/on (\\d+) %/)?.[1]).filter(Boolean)";
    let covered = browser.run(coverage);
    assert_eq!((&covered[0], covered.as_array().unwrap().len()), (&covered[1], 3));
    browser.click(".step.open .fields [role=slider], .step.open [role=slider][aria-label^='How much']");
    browser.press_keys(key::RIGHT);
    browser.wait_for(&format!(
        "const now = (() => {{ {coverage} }})(); return now[0] === now[1] && now[0] !== {}",
        covered[0]
    ));
    browser.keys(".step.open .row-button", &format!("{}z", key::CONTROL));
    browser.keys(".step.open .row-button", &format!("{}z", key::CONTROL));
    browser.wait_for("return document.querySelectorAll('.step.coat').length === 3");
    nothing_went_wrong(&browser);
}

#[test]
fn without_a_glass_of_ones_own_that_is_said_and_nothing_is_tried() {
    let (browser, before) = opened_bare();
    open_for_rust(&browser);
    let bare = settled(&browser);
    look_for_brick(&browser);
    assert_ne!(settled(&browser), bare);
    press(&browser, "only my own");
    says(&browser, "No glass of your own is a powder.");
    browser.wait_for(&format!("{ROWS} === 0"));
    assert_eq!(settled(&browser), bare);
    press(&browser, "all jars");
    browser.wait_for(&format!("{ROWS} === 5"));
    press(&browser, "one jar");
    browser.wait_for("return [...document.querySelectorAll('.find-what b')].every((what) => what.innerText.endsWith(' alone'))");
    type_color(&browser, LAB, "Lab 50 100 -100");
    says(&browser, "No jar of yours reaches it");
    browser.screenshot("find-far-1280");
    press(&browser, "on white");
    press(&browser, "on clear, lit");
    browser.wait_for(&format!("{ROWS} === 5"));
    press(&browser, "Close");
    is_put_back(&browser);
    assert_eq!(settled(&browser), before);
    nothing_went_wrong(&browser);
}

#[test]
fn on_a_phone_the_dome_stays_in_sight_and_a_row_is_put_in_by_a_finger() {
    let browser = opened();
    browser.set_viewport(390, 844, 1.0);
    settled(&browser);
    open_for_rust(&browser);
    let whats = look_for_brick(&browser);
    is_trying(&browser, &whats[0]);
    settled(&browser);
    browser.screenshot("find-390");
    let seen = browser.run(
        "const [glass, area] = ['.glass', '.find-area'].map((one) => document.querySelector(one).getBoundingClientRect());
        const least = [...document.querySelectorAll('.find-area button, .find-area input')].map((one) => one.getBoundingClientRect());
        return [document.documentElement.scrollWidth <= innerWidth, glass.bottom <= area.top + 60,
            least.every((one) => one.left >= 0 && one.right <= innerWidth + 0.5)];",
    );
    assert_eq!(seen, json!([true, true, true]), "nothing is cut off, and the dome is seen");
    browser.click("#find-way-2");
    is_trying(&browser, &whats[2]);
    press(&browser, "Put it in Rust");
    is_put_back(&browser);
    says(&browser, "Undo");
    nothing_went_wrong(&browser);
}

/// A photo of one color: what is ringed is looked for, and beside a white it is taken for paper.
#[test]
fn a_color_is_ringed_in_a_photo() {
    let (browser, _) = opened_bare();
    open_for_rust(&browser);
    browser.run_async(
        "const canvas = new OffscreenCanvas(300, 200);
        const drawn = canvas.getContext('2d');
        drawn.fillStyle = '#9A5F4C';
        drawn.fillRect(0, 0, 300, 200);
        const chosen = new DataTransfer();
        chosen.items.add(new File([await canvas.convertToBlob({ type: 'image/png' })], 'wall.png'));
        const field = document.querySelector('.find-area .photo-field');
        field.files = chosen.files;
        field.dispatchEvent(new Event('change', { bubbles: true }));",
    );
    browser.wait_for(&format!("return document.querySelector(\"{SRGB}\").value.toUpperCase() === '{BRICK}'"));
    says(&browser, "as the camera wrote it; spread 0.0");
    browser.wait_for(&format!("{ROWS} === 5"));
    browser.screenshot("find-ringed-1280");
    browser.keys("[aria-label^='Frame this color']", key::RIGHT);
    press(&browser, "Mark a white in it");
    says(&browser, "beside the white, taken for paper");
    // A wall that is as bright as its white is as bright as paper: 0.86 is #EFEFEF (IEC 61966-2-1, by hand 238.6).
    browser.wait_for(&format!("return document.querySelector(\"{SRGB}\").value.toUpperCase() === '#EFEFEF'"));
    press(&browser, "No photo: type the color");
    browser.wait_for("return !document.querySelector('.find-area .photo-frame')");
    nothing_went_wrong(&browser);
}
