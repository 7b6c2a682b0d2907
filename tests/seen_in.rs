//! *Seen in*: other lights and other eyes, by pointer and keys, on the table and on a phone.

mod support;

use serde_json::json;
use support::browser::Browser;
use support::page::{GLASS, PICTURE, nothing_went_wrong, opened, press, says, settled};

const CAPTION: &str = "return document.querySelector('.forecast').innerText";
const SLIP: &str = ".slip.seen-in";

fn has_slip(browser: &Browser) -> bool {
    browser.run(&format!("return document.querySelector({}) !== null", json!(SLIP))) == json!(true)
}

/// Presses an option of the slip, and gives the picture that comes of it.
fn choose(browser: &Browser, word: &str) -> serde_json::Value {
    let before = browser.run(PICTURE);
    press(browser, word);
    browser.wait_for(&format!("return (() => {{ {PICTURE} }})() !== {before}"));
    settled(browser)
}

#[test]
fn the_chosen_light_pressed_again_opens_other_lights_and_eyes() {
    let browser = opened();
    let by_day = settled(&browser);
    press(&browser, "Day");
    browser.wait_for(&format!("return document.querySelector({}) !== null", json!(SLIP)));
    assert!(!browser.run(CAPTION).to_string().contains("Seen"));

    let by_lamp = choose(&browser, "Incandescent lamp");
    assert_ne!(by_lamp, by_day);
    says(&browser, "Seen by an incandescent lamp.");
    browser.screenshot("seen_in_lamp");
    let by_others = choose(&browser, "Green-blind");
    assert_ne!(by_others, by_lamp);
    says(&browser, "Seen by an incandescent lamp, by green-blind eyes.");
    browser.screenshot("seen_in_eyes");

    press(&browser, "Lit");
    says(&browser, "Garden lamp");
    assert!(!browser.text(SLIP).contains("Overcast"), "no sky is a lamp");
    press(&browser, "Day");
    settled(&browser);
    choose(&browser, "Most");
    assert_eq!(choose(&browser, "Daylight"), by_day, "back by daylight to the last pixel");
    assert!(!browser.run(CAPTION).to_string().contains("Seen"));
    assert_ne!(choose(&browser, "On a lawn"), by_day);
    says(&browser, "Seen on a lawn.");
    browser.screenshot("seen_in_lawn");
    choose(&browser, "Against the sky");
    says(&browser, "Seen against the sky.");
    browser.screenshot("seen_in_sky");
    assert_eq!(choose(&browser, "On the table"), by_day);
    press(&browser, "Gray");
    settled(&browser);
    assert!(!browser.text(SLIP).contains("On a lawn"), "flat color stands nowhere");
    press(&browser, "Day");
    settled(&browser);
    press(&browser, "Day");
    browser.wait_for(&format!("return document.querySelector({}) === null", json!(SLIP)));
    nothing_went_wrong(&browser);
}

#[test]
fn a_key_opens_it_and_a_phone_has_a_word_for_it() {
    let browser = opened();
    browser.keys(GLASS, "l");
    browser.wait_for(&format!("return document.querySelector({}) !== null", json!(SLIP)));
    browser.keys(GLASS, "l");
    browser.wait_for(&format!("return document.querySelector({}) === null", json!(SLIP)));
    let narrow =
        "return [...document.querySelectorAll('.narrow-only button')].some((one) => one.checkVisibility())";
    assert_eq!(browser.run(narrow), json!(false));

    browser.set_viewport(390, 844, 2.0);
    settled(&browser);
    press(&browser, "More");
    press(&browser, "Seen in");
    browser.wait_for(&format!("return document.querySelector({}) !== null", json!(SLIP)));
    assert!(has_slip(&browser));
    choose(&browser, "Overcast sky");
    browser.screenshot("seen_in_phone");
    press(&browser, "Close");
    says(&browser, "Seen under an overcast sky.");
    let word = "return document.querySelector('.next-light').innerText";
    assert_eq!(browser.run(word), json!("Day, overcast"));
    nothing_went_wrong(&browser);
}
