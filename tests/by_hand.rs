//! Layout by hand as a maker does it, in a real browser: patches moved by pointer and by keys, a coat turned by its
//! knob, powder rubbed off.

mod support;

use serde_json::{Value, json};
use support::browser::{Browser, key};
use support::page::{GLASS, nothing_went_wrong, opened, press, says, settled};

/// The first patch that a key reaches.
const PATCH: &str = ".hand-handle";

/// The fused disc with the rust coat open, no slip under it.
fn at_the_rust() -> (Browser, Value) {
    let browser = opened();
    press(&browser, "Rust");
    press(&browser, "Fused");
    browser.wait_for("return document.querySelector('.hand-handle') !== null");
    // The first change would take the welcome away and with it give the picture another size.
    browser.keys(GLASS, key::ESCAPE);
    let picture = settled(&browser);
    (browser, picture)
}

fn does_not_say(browser: &Browser, words: &str) {
    browser.wait_for(&format!("return !document.body.innerText.includes({})", json!(words)));
}

/// The middle of an element on the screen.
fn middle(browser: &Browser, selector: &str) -> (i32, i32) {
    let script = "const box = document.querySelector(arguments[0]).getBoundingClientRect();
        return [Math.round(box.x + box.width / 2), Math.round(box.y + box.height / 2)];";
    let place = browser.run_with(script, &json!([selector]));
    (place[0].as_i64().unwrap() as i32, place[1].as_i64().unwrap() as i32)
}

/// Puts the middle of the patch in sight that covers most on itself into the window's `held`, by its name.
fn largest_patch(browser: &Browser) -> String {
    let script = "const share = (one) => Number(/, (\\d+) %/.exec(one.ariaLabel)?.[1] ?? 0);
        const all = [...document.querySelectorAll('.hand-handle')].sort((a, b) => share(b) - share(a));
        all[0].id = 'held';
        return all[0].ariaLabel;";
    browser.run(script).as_str().expect("a patch has a name").to_owned()
}

#[test]
fn a_patch_is_moved_by_keys_and_undo_puts_it_back() {
    let (browser, first) = at_the_rust();
    let name = largest_patch(&browser);
    assert!(name.contains("patch, ") && name.contains("from the crown"), "{name}");
    does_not_say(&browser, "Back to how it fell");
    browser.keys("#held", &key::RIGHT.repeat(9));
    says(&browser, "Back to how it fell");
    says(&browser, "move of a rust patch");
    assert_ne!(settled(&browser), first);
    press(&browser, "Undo");
    does_not_say(&browser, "Back to how it fell");
    assert_eq!(settled(&browser), first);
    browser.keys(PATCH, key::DELETE);
    says(&browser, "rust patch taken off");
    press(&browser, "Back to how it fell");
    does_not_say(&browser, "Back to how it fell");
    nothing_went_wrong(&browser);
}

#[test]
fn an_added_patch_lies_free_and_is_selected() {
    let (browser, _) = at_the_rust();
    says(&browser, "Drag a patch to move it");
    let count = || browser.run("return document.querySelectorAll('.hand-handle').length").as_u64().unwrap();
    let before = count();
    let mut places = Vec::new();
    for added in 1..=3 {
        press(&browser, "Add a patch");
        browser.wait_for(&format!(
            "return document.querySelectorAll('.hand-handle').length === {}
                && document.activeElement.className === 'hand-handle'",
            before + added
        ));
        let place = browser.run("const { left, top } = document.activeElement.style; return [left, top]");
        assert!(!places.contains(&place), "on the one before: {place}");
        places.push(place);
    }
    // What is selected is what the keys move.
    let was = browser.run("return document.activeElement.style.left");
    browser.press_keys(&key::RIGHT.repeat(5));
    browser.wait_for(&format!("return document.activeElement.style.left !== {was}"));
    settled(&browser);
    browser.screenshot("added-patches-1280");
    nothing_went_wrong(&browser);
}

#[test]
fn on_a_phone_the_hands_words_lie_over_nothing() {
    let (browser, _) = at_the_rust();
    browser.cdp("Emulation.setTouchEmulationEnabled", &json!({ "enabled": true }));
    browser.cdp(
        "Emulation.setDeviceMetricsOverride",
        &json!({ "width": 390, "height": 844, "deviceScaleFactor": 1, "mobile": true }),
    );
    press(&browser, "Add a patch");
    says(&browser, "Back to how it fell");
    settled(&browser);
    browser.screenshot("by-hand-390");
    let [title, knob, undo, more, last, seed] = [
        ".title",
        ".hand-knob",
        ".top-line > button",
        ".more-word button",
        ".hand-line button:last-child",
        ".seed-number",
    ]
    .map(|selector| {
        let script = "const box = document.querySelector(arguments[0]).getBoundingClientRect();
            return [box.top, box.bottom];";
        let place = browser.run_with(script, &json!([selector]));
        [0, 1].map(|at| place[at].as_f64().unwrap())
    });
    assert!(knob[0] >= title[1], "the knob at {knob:?} lies over the name at {title:?}");
    assert_eq!(undo, more, "Undo and More stand in one line");
    assert!(last[1] <= seed[0], "the last word at {last:?} lies over the seed at {seed:?}");
    assert!(seed[1] - seed[0] >= 44.0, "the seed is {seed:?}");
    nothing_went_wrong(&browser);
}

#[test]
fn a_patch_is_dragged_in_one_step() {
    let (browser, first) = at_the_rust();
    // Where its outline is, which its middle need not be within.
    let from = browser.run(
        "const path = [...document.querySelectorAll('.hand-marks .mark')].sort((a, b) =>
            b.getBBox().width * b.getBBox().height - a.getBBox().width * a.getBBox().height)[0];
        const to_screen = path.getScreenCTM();
        const box = path.getBBox();
        for (let i = 1; i < 20; i++) for (let j = 1; j < 20; j++) {
            const point = new DOMPoint(box.x + box.width * i / 20, box.y + box.height * j / 20);
            const inside = [-2, 0, 2].every((dx) => path.isPointInFill(new DOMPoint(point.x + dx, point.y)));
            const seen = point.matrixTransform(to_screen);
            if (inside) return [Math.round(seen.x), Math.round(seen.y)];
        }",
    );
    let from = (from[0].as_i64().unwrap() as i32, from[1].as_i64().unwrap() as i32);
    browser.drag(from, (from.0 + 30, from.1 + 24));
    says(&browser, "Back to how it fell");
    says(&browser, "move of a rust patch");
    let moved = settled(&browser);
    assert_ne!(moved, first);
    // What was moved belongs to this seed: the next one falls as it would have, and this one comes back as it was left.
    press(&browser, "42");
    does_not_say(&browser, "Back to how it fell");
    let other = settled(&browser);
    assert_ne!(other, moved);
    // Two seeds in quick succession would be one step.
    browser.run_async("await new Promise((done) => setTimeout(done, 1000))");
    press(&browser, "‹ 41");
    assert_eq!(settled(&browser), moved);
    says(&browser, "Back to how it fell");
    press(&browser, "Undo");
    press(&browser, "Undo");
    press(&browser, "Undo");
    does_not_say(&browser, "Back to how it fell");
    assert_eq!(settled(&browser), first);
    nothing_went_wrong(&browser);
}

#[test]
fn the_knob_turns_the_coat() {
    let (browser, first) = at_the_rust();
    let turned = "return document.querySelector('.hand-knob').ariaValueText";
    assert_eq!(browser.run(turned), json!("rust turned 0°"));
    let from = middle(&browser, ".hand-knob");
    browser.drag(from, (from.0 + 120, from.1 + 30));
    assert_ne!(browser.run(turned), json!("rust turned 0°"));
    says(&browser, "turn of rust");
    assert_ne!(settled(&browser), first);
    press(&browser, "Undo");
    assert_eq!(settled(&browser), first);
    browser.keys(".hand-knob", key::LEFT);
    browser.wait_for("return document.querySelector('.hand-knob').ariaValueText === 'rust turned 1°'");
    nothing_went_wrong(&browser);
}

#[test]
fn powder_is_rubbed_off_by_pointer_and_by_keys() {
    let (browser, first) = at_the_rust();
    let off = |browser: &Browser| {
        let grams = browser.run("return Number(/([0-9.]+) g off/.exec(document.body.innerText)[1])");
        grams.as_f64().expect("the ticket says how much the sponge takes off")
    };
    let dabbed = off(&browser);
    press(&browser, "Sponge off by hand");
    let (x, y) = middle(&browser, GLASS);
    browser.drag((x - 60, y), (x + 60, y + 20));
    says(&browser, "sponging off");
    let rubbed = settled(&browser);
    assert_ne!(rubbed, first);
    assert!(off(&browser) > dabbed, "{} g after {dabbed} g", off(&browser));
    browser.keys(GLASS, &format!(" {} ", key::RIGHT.repeat(9)));
    assert_ne!(settled(&browser), rubbed);
    press(&browser, "Put the powder back");
    assert_eq!(settled(&browser), first);
    browser.keys(GLASS, key::ESCAPE);
    does_not_say(&browser, "Done");
    nothing_went_wrong(&browser);
}

#[test]
fn what_is_laid_by_hand_changes_no_sister_and_no_option() {
    let (browser, _) = at_the_rust();
    let pictures = "return JSON.stringify([...document.querySelectorAll(arguments[0])].map((canvas) => canvas.toDataURL()))";
    let drawn = |selector: &str| browser.run_with(pictures, &json!([selector]));
    press(&browser, "Tray");
    browser.wait_for("return document.querySelectorAll('.sister').length === 12 && !document.querySelector('.sister.coming')");
    browser.keys(".sister.pointed", &format!(" {} ", key::RIGHT));
    browser.wait_for("return [...document.querySelectorAll('.option-disc canvas')].filter((canvas) => canvas.width > 100).length === 2");
    let (sisters, options) = (drawn(".sister:not([data-seed='41']) canvas"), drawn(".option-disc canvas"));
    press(&browser, "Close the tray");
    browser.wait_for("return document.querySelector('.hand-handle') !== null");
    largest_patch(&browser);
    browser.keys("#held", &key::RIGHT.repeat(9));
    says(&browser, "Back to how it fell");
    press(&browser, "Sponge off by hand");
    let (x, y) = middle(&browser, GLASS);
    browser.drag((x - 60, y), (x + 60, y + 20));
    press(&browser, "Done");
    settled(&browser);
    press(&browser, "Tray");
    says(&browser, "The recipe has changed since A was kept.");
    browser.wait_for("return !document.querySelector('.sister.coming')");
    browser.run_async("await new Promise((done) => setTimeout(done, 1500))");
    assert_eq!(drawn(".sister:not([data-seed='41']) canvas"), sisters, "no sister was touched");
    assert_eq!(drawn(".option-disc canvas"), options, "the options are as they were kept");
    press(&browser, "Take the change");
    browser.wait_for("return !document.body.innerText.includes('The recipe has changed')");
    browser.run_async("await new Promise((done) => setTimeout(done, 1500))");
    assert_ne!(drawn(".option-disc canvas"), options, "A took the change over");
    nothing_went_wrong(&browser);
}
