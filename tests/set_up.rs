//! *Set-up* in a real browser: the units of everything that is shown and typed, the frame, the keys.

mod support;

use serde_json::{Value, json};
use support::browser::{Browser, key};
use support::page::{GLASS, nothing_went_wrong, opened, press, says};
use support::site::page_url;

/// Opens the page anew in the same browser.
fn open_again(browser: &Browser) {
    browser.open(&page_url());
    says(browser, "across");
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

#[test]
fn inches_are_shown_and_typed_and_kept() {
    let browser = opened();
    press(&browser, "Set-up");
    press(&browser, "Inches");
    press(&browser, "°F");
    for words in ["6.3 in, white on clear", "1454 °F for 10 min", "bowl 6.3 × 1.89", "5.63 × 1.51 in"] {
        says(&browser, words);
    }
    press(&browser, "Close");
    says(&browser, "5.63 in across, 1.51 in high");
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
    says(&browser, "A disc of 7 1/2 in hangs over a rim of 6.3 in");
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

    press(&browser, "Rust");
    press(&browser, "Fused");
    browser.wait_for(
        "return document.querySelector('.hand-handle')?.ariaLabel.endsWith(' in from the crown') ?? false",
    );
    let keys = browser.text("#hand-keys");
    assert!(keys.contains("0.039 in") && !keys.contains("mm"), "{keys}");
    press(&browser, "Sponge off by hand");
    says(&browser, "0.63 in wide");
    press(&browser, "Done");
    browser.keys(GLASS, key::ENTER);
    says(&browser, " in from the crown, ");

    open_again(&browser);
    says(&browser, "1454 °F for 10 min");
    nothing_went_wrong(&browser);
}

#[test]
fn the_frame_is_chosen_and_kept_and_the_table_stays_gray() {
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
    let (gray, light, dark) = ("rgb(150, 150, 150)", "rgb(235, 235, 235)", "rgb(36, 36, 36)");
    press(&browser, "Set-up");
    press(&browser, "Dark");
    assert_eq!(browser.run(colors), json!([dark, gray]));
    browser.screenshot("dark-frame-1280");
    open_again(&browser);
    assert_eq!(browser.run(colors), json!([dark, gray]), "the frame is not kept");
    press(&browser, "Set-up");
    press(&browser, "Light");
    assert_eq!(browser.run(colors), json!([light, gray]));
    press(&browser, "Keys");
    says(&browser, "Enter takes a core sample");
    press(&browser, "About");
    says(&browser, "under the MIT license");
    nothing_went_wrong(&browser);
}
