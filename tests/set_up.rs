//! *Set-up* in a real browser: the units of everything that is shown and typed, the frame, the keys.

mod support;

use serde_json::{Value, json};
use support::browser::{Browser, key};
use support::site::page_url;

fn opened() -> Browser {
    let browser = Browser::start();
    browser.set_viewport(1280, 800, 1.0);
    open(&browser);
    says(&browser, "148 mm across, 42.5 mm high");
    browser
}

fn open(browser: &Browser) {
    browser.open(&page_url());
    browser.wait_for("return document.body.innerText.includes('across')");
}

/// Presses the first button in sight whose words begin so.
fn press(browser: &Browser, words: &str) {
    let found = browser.run_with(
        "const button = [...document.querySelectorAll('button')].find((button) =>
            button.textContent.trim().startsWith(arguments[0]) && button.checkVisibility());
        if (button) button.click();
        return button !== undefined;",
        &json!([words]),
    );
    assert_eq!(found, Value::Bool(true), "no button says {words}");
}

fn says(browser: &Browser, words: &str) {
    browser.wait_for(&format!("return document.body.innerText.includes({})", json!(words)));
}

/// Types into the first value of the open step and takes it.
fn type_value(browser: &Browser, text: &str) {
    browser.run("document.querySelector('.body .value').click()");
    browser.keys(".typed", &format!("{text}{}", key::ENTER));
}

/// What the first rule of the open step says to those who do not see it: its least, present and most value.
fn slider(browser: &Browser) -> Value {
    browser.run(
        "const slider = document.querySelector('.body [role=slider]');
        return [slider.ariaValueMin, slider.ariaValueNow, slider.ariaValueMax, slider.ariaValueText];",
    )
}

fn nothing_went_wrong(browser: &Browser) {
    let none: Vec<String> = Vec::new();
    assert_eq!((browser.violations(), browser.faults()), (none.clone(), none));
}

#[test]
fn inches_are_shown_and_typed_and_kept() {
    let browser = opened();
    press(&browser, "Set-up");
    press(&browser, "Inches");
    press(&browser, "°F");
    for words in ["6.3 in, white on clear", "1454 °F for 10 min", "bowl 6.3 × 1.89", "5.83 × 1.67 in"] {
        says(&browser, words);
    }
    press(&browser, "Close");
    says(&browser, "5.83 in across, 1.67 in high");
    press(&browser, "Blank");
    says(&browser, "15.75 in");
    assert_eq!(slider(&browser), json!(["1.97", "6.3", "15.75", "6.3 in across"]));
    browser.screenshot("inches-1280");

    // Taken as it stands, a value that is not a whole hundredth of an inch is not changed by being looked at.
    type_value(&browser, "");
    press(&browser, "Set-up");
    assert_eq!(
        browser.run("return document.querySelector('.top-line').innerText.includes('Undo')"),
        json!(false)
    );
    press(&browser, "Close");

    type_value(&browser, "7 1/2");
    says(&browser, "Too wide for its mold");
    says(&browser, "A disc of 7.5 in hangs over a rim of 6.3 in");
    says(&browser, "Cut 6.3 in");
    type_value(&browser, "no length");
    says(&browser, "such as 6 in or 152 mm");
    browser.keys(".typed", key::ESCAPE);
    type_value(&browser, "6");
    says(&browser, "6 in across");
    press(&browser, "Set-up");
    press(&browser, "mm");
    assert_eq!(slider(&browser)[3], json!("152.4 mm across"));
    press(&browser, "Inches");

    open(&browser);
    says(&browser, "1454 °F for 10 min");
    nothing_went_wrong(&browser);
}

#[test]
fn the_frame_is_chosen_and_kept_and_the_table_stays_grey() {
    let browser = opened();
    let colors = "const color = (place) => getComputedStyle(document.querySelector(place)).backgroundColor;
        const of = (place, name) => {
            const probe = document.querySelector(place).appendChild(document.createElement('i'));
            probe.className = 'probe';
            const sheet = new CSSStyleSheet();
            sheet.replaceSync(`.probe { background-color: var(${name}) }`);
            document.adoptedStyleSheets = [sheet];
            const found = color('.probe');
            probe.remove();
            return found;
        };
        return [of('.sheet', '--paper'), of('.table', '--table')];";
    let (grey, light, dark) = ("rgb(150, 150, 150)", "rgb(235, 235, 235)", "rgb(36, 36, 36)");
    press(&browser, "Set-up");
    press(&browser, "Dark");
    assert_eq!(browser.run(colors), json!([dark, grey]));
    browser.screenshot("dark-frame-1280");
    open(&browser);
    assert_eq!(browser.run(colors), json!([dark, grey]), "the frame is not kept");
    press(&browser, "Set-up");
    press(&browser, "Light");
    assert_eq!(browser.run(colors), json!([light, grey]));
    press(&browser, "Keys");
    says(&browser, "Enter takes a core sample");
    press(&browser, "About");
    says(&browser, "under the MIT license");
    nothing_went_wrong(&browser);
}
