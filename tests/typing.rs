//! Typing values in a real browser: over a value that was clicked or opened by key, and beyond an end of its range.

mod support;

use serde_json::{Value, json};
use support::browser::{Browser, key};
use support::page::{nothing_went_wrong, opened, press};

/// What the rule with this label says of its value.
fn reads(browser: &Browser, label: &str, value: &str) {
    let script = format!(
        "return [...document.querySelectorAll('.body [role=slider]')].find((one) => one.ariaLabel === {}).ariaValueText === {}",
        json!(label),
        json!(value)
    );
    browser.wait_for(&script);
}

/// Marks the value button and the slider of a rule, so that they can be found.
fn mark(browser: &Browser, label: &str) {
    browser.run_with(
        "for (const one of document.querySelectorAll('.marked-value, .marked-slider')) one.classList.remove('marked-value', 'marked-slider');
        const rule = [...document.querySelectorAll('.body .rule')].find((rule) => rule.querySelector('.label').textContent === arguments[0]);
        rule.querySelector('.value').classList.add('marked-value');
        rule.querySelector('[role=slider]').classList.add('marked-slider');",
        &json!([label]),
    );
}

/// Clicks on a value and types.
fn click_and_type(browser: &Browser, label: &str, text: &str) {
    mark(browser, label);
    browser.click(".marked-value");
    browser.wait_for("return document.activeElement.className === 'typed'");
    browser.press_keys(&format!("{text}{}", key::ENTER));
}

/// Goes to a slider, presses a key, and types.
fn press_and_type(browser: &Browser, label: &str, pressed: &str, text: &str) {
    mark(browser, label);
    browser.keys(".marked-slider", pressed);
    browser.wait_for("return document.activeElement.className === 'typed'");
    browser.press_keys(&format!("{text}{}", key::ENTER));
}

#[test]
fn what_is_typed_replaces_a_value_of_any_length() {
    let browser = opened();
    press(&browser, "Ticket for");
    press(&browser, "Details");
    let (pieces, spoon) = ("Pieces", "A level 5 mL spoon weighs");
    reads(&browser, pieces, "1");
    click_and_type(&browser, pieces, "6");
    reads(&browser, pieces, "6");
    press_and_type(&browser, pieces, key::ENTER, "7");
    reads(&browser, pieces, "7");
    click_and_type(&browser, pieces, "12");
    reads(&browser, pieces, "12");
    click_and_type(&browser, pieces, "6");
    reads(&browser, pieces, "6");
    press_and_type(&browser, pieces, key::ENTER, "12");
    press_and_type(&browser, pieces, key::ENTER, "9");
    reads(&browser, pieces, "9");
    click_and_type(&browser, spoon, "5,6");
    reads(&browser, spoon, "5.6 g");
    click_and_type(&browser, spoon, "6");
    reads(&browser, spoon, "6 g");
    press_and_type(&browser, spoon, key::ENTER, "5.6");
    reads(&browser, spoon, "5.6 g");
    press_and_type(&browser, spoon, key::ENTER, "5");
    reads(&browser, spoon, "5 g");
    // A digit begins a number, and the next one goes on with it.
    press_and_type(&browser, pieces, "4", "5");
    reads(&browser, pieces, "45");
    nothing_went_wrong(&browser);
}

#[test]
fn what_lies_beyond_the_range_is_said() {
    let browser = opened();
    press(&browser, "Blank");
    let disc = "Disc";
    let alert = || browser.run("return document.querySelector('.body [role=alert]')?.textContent ?? ''");
    let alerts = |words: &str| {
        browser.wait_for(&format!(
            "return (document.querySelector('.body [role=alert]')?.textContent ?? '') === {}",
            json!(words)
        ));
    };
    let smallest = "Smallest is 50 mm: kept at 50 mm.";
    for text in ["-3", "0.5", "0,4"] {
        click_and_type(&browser, disc, "160");
        alerts("");
        // What is typed in a quick run is one step back, which would lead to before the 160.
        browser.run_async("await new Promise((done) => setTimeout(done, 1000))");
        click_and_type(&browser, disc, text);
        alerts(smallest);
        reads(&browser, disc, "50 mm across");
    }
    press(&browser, "Undo");
    alerts("");
    click_and_type(&browser, disc, "150 cm");
    alerts("Largest is 400 mm: kept at 400 mm.");
    browser.screenshot("kept-at-largest-1280");
    click_and_type(&browser, disc, "6-1/2 in");
    reads(&browser, disc, "165.1 mm across");
    assert_eq!(alert(), Value::String(String::new()));
    press(&browser, "Full fuse");
    click_and_type(&browser, "Hold", "1:20");
    alerts("Longest is 1 h 00: kept at 1 h 00.");
    click_and_type(&browser, "Hold", "0:25");
    reads(&browser, "Hold", "25 min");
    press(&browser, "Set-up");
    press(&browser, "Inches");
    press(&browser, "Close");
    press(&browser, "Blank");
    click_and_type(&browser, disc, "6'");
    alerts("Largest is 15.75 in: kept at 15.75 in.");
    click_and_type(&browser, disc, "6½");
    reads(&browser, disc, "6 1/2 in across");
    // Left without Enter it is said just as well.
    mark(&browser, disc);
    browser.click(".marked-value");
    browser.press_keys("1");
    browser.run("document.activeElement.blur()");
    alerts("Smallest is 1.97 in: kept at 1.97 in.");
    nothing_went_wrong(&browser);
}
