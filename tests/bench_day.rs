//! The stem in the recipe, and the bench on a day of work, in a real browser: by pointer and by keys, wide and on a phone.

mod support;

use serde_json::{Value, json};
use support::browser::{Browser, key};
use support::page::{WATCH_WORKERS, nothing_went_wrong, opened, opened_watched, press, says};

/// It is Monday: on another day of the week nobody might work.
const MONDAY: &str = "const Real = Date;
    const shift = (8 - new Real().getDay()) % 7 * 86400000;
    window.Date = class extends Real {
        constructor(...given) { if (given.length) super(...given); else super(Real.now() + shift); }
        static now() { return Real.now() + shift; }
    };";

fn pressed(browser: &Browser, group: &str) -> Value {
    browser.run_with(
        "return [...document.querySelectorAll(`.stem.open [aria-label='${arguments[0]}'] .option`)]
            .map((option) => option.innerText.trim() + (option.ariaPressed === 'true' ? ' *' : ''));",
        &json!([group]),
    )
}

#[test]
fn a_stem_is_added_changed_by_keys_and_taken_back() {
    let browser = opened();
    press(&browser, "stem");
    browser.wait_for("return document.querySelector('.stem.open .joint-drawing path')");
    // No. 3 in 3/4 in pipe, worked out elsewhere: 10.1 mm deep at the mean bore of 20.42 mm.
    says(&browser, "No. 3, 24 to 18 mm, goes 10 mm in");
    says(&browser, "an indication only");
    says(&browser, "(from memory)");
    browser.screenshot("stem-1280");
    press(&browser, "1¼");
    browser.wait_for(
        "return document.querySelectorAll(\".stem.open [aria-label='Stopper'] .option\").length === 2",
    );
    assert_eq!(pressed(&browser, "Stopper"), json!(["No. 7 *", "No. 8"]));
    browser.run("document.querySelectorAll(\".stem.open [aria-label='Stopper'] .option\")[1].focus()");
    browser.press_keys(key::ENTER);
    says(&browser, "Sits shallow.");
    press(&browser, "Take No. 7");
    browser.wait_for("return !document.body.innerText.includes('Sits shallow.')");
    for slider in ["Above the ground", "In the ground"] {
        browser.run(&format!("document.querySelector(\"[role=slider][aria-label='{slider}']\").focus()"));
        browser.press_keys(key::END);
    }
    says(&browser, "Longer than a pipe.");
    press(&browser, "Undo");
    press(&browser, "Undo");
    browser.wait_for("return !document.body.innerText.includes('Longer than a pipe.')");
    press(&browser, "Ticket for");
    says(&browser, "1¼ in pipe");
    browser.set_viewport(390, 844, 1.0);
    press(&browser, "Stem");
    browser.wait_for("return document.querySelector('.stem.open .joint-drawing')");
    browser.run("document.querySelector('.stem.open').scrollIntoView()");
    browser.screenshot("stem-390");
    press(&browser, "Take out");
    browser.wait_for("return !document.querySelector('.stem')");
    nothing_went_wrong(&browser);
}

/// Writes twelve into the ticket and orders them on a phone.
fn order_twelve(browser: &Browser) {
    press(browser, "Ticket for");
    browser.keys("[aria-label='Pieces']", "12");
    browser.press_keys(key::ENTER);
    browser.set_viewport(390, 844, 1.0);
    press(browser, "Order these");
}

#[test]
fn on_a_phone_an_order_opens_at_today_and_is_ticked_off() {
    let browser = opened_watched(&format!("{MONDAY}{WATCH_WORKERS}"));
    order_twelve(&browser);
    browser.wait_for("return document.querySelectorAll('.today-box').length === 4");
    says(&browser, "Today, Mon");
    says(&browser, "0 of 14 done");
    browser.wait_for("return document.querySelector('.today-picture canvas').width > 1");
    let boxes = browser.run("const box = document.querySelector('.today-box input').getBoundingClientRect(); return [box.width, box.height]");
    assert_eq!(boxes, json!([28, 28]), "large enough for a glove");
    browser.keys("[aria-label^='Jar weighs before, Straw']", "412.3");
    browser.press_keys(key::ENTER);
    browser.keys("[aria-label^='Jar weighs after, Straw']", "405.6");
    browser.press_keys(key::ENTER);
    says(&browser, "6.7 g used");
    browser.click(".today-box input");
    browser.run("document.querySelectorAll('.today-box input')[1].focus()");
    browser.press_keys(" ");
    browser.screenshot("today-390");
    press(&browser, "Coral done");
    press(&browser, "Sponge done");
    says(&browser, "1 of 14 done");
    says(&browser, ", 2 of 14");
    press(&browser, "This one broke");
    says(&browser, "One more of it is planned: 15 in all.");
    says(&browser, "2 of 15 done");
    press(&browser, "Undo");
    says(&browser, "1 of 14 done");
    press(&browser, "‹");
    browser.wait_for("return [...document.querySelectorAll('.today-box input')].every((box) => box.checked)");
    press(&browser, "Next piece");
    press(&browser, "Whole order");
    browser.wait_for("return document.querySelector('.order-bar')");
    browser.set_viewport(1280, 800, 1.0);
    press(&browser, "Today");
    browser.wait_for("return document.querySelector('.today')");
    browser.screenshot("today-1280");
    let wide = browser.run("return document.documentElement.scrollWidth > innerWidth");
    assert_eq!(wide, Value::Bool(false));
    nothing_went_wrong(&browser);
}

#[test]
fn a_screen_is_kept_on_where_the_browser_can() {
    let held = "window.held = 0;
        Object.defineProperty(Navigator.prototype, 'wakeLock', { value: { request: async (kind) => {
            window.held += kind === 'screen'; return { release() { window.held -= 1; } }; } } });";
    let browser = opened_watched(&format!("{MONDAY}{held}{WATCH_WORKERS}"));
    order_twelve(&browser);
    browser.wait_for("return document.querySelector('.today')");
    press(&browser, "Keep the screen on");
    browser.wait_for("return window.held === 1");
    press(&browser, "Keep the screen on");
    browser.wait_for("return window.held === 0");
    press(&browser, "Keep the screen on");
    browser.wait_for("return window.held === 1");
    press(&browser, "Whole order");
    browser.wait_for("return window.held === 0");
    let browser = opened_watched(&format!("{MONDAY}delete Navigator.prototype.wakeLock;{WATCH_WORKERS}"));
    order_twelve(&browser);
    says(&browser, "This browser cannot keep the screen on.");
    nothing_went_wrong(&browser);
}
