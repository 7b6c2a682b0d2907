//! Sisters side by side, in a real browser: laid, kept, put away, compared, chosen from, shown to a customer and
//! printed; by pointer and by keys.

mod support;

use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use support::browser::{Browser, key};
use support::page::{
    drop_file, nothing_went_wrong, opened, press, saved_file, saves_into, says, settled, sheets,
};

const POINTED: &str = ".sister.pointed";

/// The page with its tray open and filled.
fn with_tray() -> Browser {
    let browser = opened();
    press(&browser, "Tray");
    filled(&browser, 12);
    browser
}

/// Waits until so many sisters are drawn and none is coming.
fn filled(browser: &Browser, n: usize) {
    browser.wait_for(&format!(
        "return document.querySelectorAll('.sister').length === {n} && !document.querySelector('.sister.coming')"
    ));
}

/// The seeds on the shortlist, in order.
fn kept(browser: &Browser) -> Vec<String> {
    let names = browser.run(
        "return [...document.querySelectorAll('.option-disc')].map((disc) => disc.ariaLabel.match(/seed (\\d+)/)[1])",
    );
    names.as_array().unwrap().iter().map(|name| name.as_str().unwrap().to_owned()).collect()
}

/// Presses keys with the focus on the sister pointed at.
fn keys(browser: &Browser, keys: &str) {
    browser.run(&format!("document.querySelector('{POINTED}').focus()"));
    browser.keys(POINTED, keys);
}

#[test]
fn a_dozen_sisters_are_laid_and_more_on_demand() {
    let browser = with_tray();
    browser.screenshot("tray-1280");
    let pictures = browser.run(
        "return new Set([...document.querySelectorAll('.sister canvas')].map((canvas) => canvas.toDataURL())).size",
    );
    assert_eq!(pictures, json!(12), "no two are alike");
    press(&browser, "12 more sisters");
    filled(&browser, 24);
    browser.run("document.querySelector('.tray-top .table-word').click()");
    press(&browser, "Stop");
    browser.wait_for(
        "return !document.body.innerText.includes(' laid') && !document.querySelector('.sister.coming')",
    );
    let laid = browser.run("return document.querySelectorAll('.sister').length").as_u64().unwrap();
    assert!((24..36).contains(&laid), "{laid} are laid when it is stopped early");
    nothing_went_wrong(&browser);
}

#[test]
fn sisters_are_kept_put_away_and_taken_up_by_keys() {
    let browser = with_tray();
    keys(&browser, &format!(" {} {} ", key::RIGHT, key::DOWN));
    assert_eq!(kept(&browser).len(), 3);
    let away = browser.run(&format!("return document.querySelector('{POINTED}').dataset.seed"));
    keys(&browser, key::DELETE);
    browser
        .wait_for(&format!("return !document.querySelector('[data-seed=\"{}\"]')", away.as_str().unwrap()));
    assert_eq!(kept(&browser).len(), 2, "what is put away is not on the list");
    browser.keys("body", &format!("{}z", key::CONTROL));
    browser.wait_for(&format!("return document.querySelector('[data-seed=\"{}\"]')", away.as_str().unwrap()));
    assert_eq!(kept(&browser).len(), 3, "and comes back with one step");
    let seed = browser.run(&format!("return document.querySelector('{POINTED}').dataset.seed"));
    keys(&browser, key::ENTER);
    browser.wait_for("return !document.querySelector('.tray')");
    assert_eq!(browser.run("return document.querySelector('.seed-number').value"), seed);
    nothing_went_wrong(&browser);
}

#[test]
fn two_are_compared_beside_each_other_and_by_a_wipe() {
    let browser = with_tray();
    keys(&browser, &format!("1{}2", key::RIGHT));
    says(&browser, "of the disc against");
    browser.wait_for(
        "return [...document.querySelectorAll('.pair canvas')].every((canvas) => canvas.width > 300)",
    );
    browser.screenshot("tray-pair");
    let left = "return document.querySelector('.lifted-disc .sister-name').textContent";
    let before = browser.run(left);
    press(&browser, "Swap");
    browser.wait_for(&format!(
        "return document.querySelector('.lifted-disc .sister-name').textContent !== {before}"
    ));
    press(&browser, "Wipe");
    browser.keys(".wipe-edge", &key::RIGHT.repeat(4));
    browser.wait_for("return document.querySelector('.wipe-edge').ariaValueNow === '70'");
    let at = browser.run(
        "const disc = document.querySelector('.wipe').getBoundingClientRect();
        return [Math.round(disc.left + disc.width * 0.7), Math.round(disc.left + disc.width * 0.25),
            Math.round(disc.top + disc.height / 2)]",
    );
    let at: Vec<i32> = at.as_array().unwrap().iter().map(|n| n.as_i64().unwrap() as i32).collect();
    browser.drag((at[0], at[2]), (at[1], at[2]));
    browser.wait_for("return document.querySelector('.wipe-edge').ariaValueNow === '25'");
    browser.screenshot("tray-wipe");
    nothing_went_wrong(&browser);
}

#[test]
fn a_set_is_picked_that_matches_or_that_differs() {
    let browser = with_tray();
    press(&browser, "that belong together");
    says(&browser, "They are the shortlist now.");
    says(&browser, "Of 48 sisters, ");
    let together = kept(&browser);
    browser.screenshot("tray-set");
    browser.set_value(".set-size", "4");
    press(&browser, "as different as can be");
    says(&browser, " differ as much as can be: ");
    let different = kept(&browser);
    assert_eq!((together.len(), different.len()), (6, 4));
    browser.set_value(".set-size", "24");
    press(&browser, "that belong together");
    browser.wait_for("return document.querySelectorAll('.option-disc').length === 24");
    says(&browser, "Of 48 sisters, ");
    nothing_went_wrong(&browser);
}

#[test]
fn a_set_that_nobody_waits_for_changes_no_shortlist() {
    let browser = with_tray();
    keys(&browser, " ");
    // In one task: nothing is measured between.
    browser.run(
        "const press = (words) => [...document.querySelectorAll('button')]
            .find((button) => button.textContent.trim() === words && button.checkVisibility()).click();
        press('that belong together');
        press('Close the tray');",
    );
    browser.run_async("await new Promise((done) => setTimeout(done, 2500))");
    press(&browser, "Tray");
    browser.wait_for("return document.querySelector('.option-disc')");
    assert_eq!(kept(&browser), ["41"]);
    nothing_went_wrong(&browser);
}

#[test]
fn the_customer_chooses_with_arrows_and_the_choice_is_kept() {
    let browser = with_tray();
    keys(&browser, &format!(" {0} {0} ", key::RIGHT));
    press(&browser, "Show the customer");
    browser.wait_for("return document.querySelector('.customer-glass canvas')?.width > 500");
    browser.screenshot("customer-1280");
    let by_day = browser.run("return document.querySelector('.customer-glass canvas').toDataURL()");
    browser.keys(".customer", &format!("{} ", key::RIGHT));
    browser.wait_for("return document.querySelector('.customer.lit .customer-glass canvas')?.width > 500");
    assert_ne!(browser.run("return document.querySelector('.customer-glass canvas').toDataURL()"), by_day);
    browser.screenshot("customer-lit");
    press(&browser, "This one");
    says(&browser, "You chose B");
    browser.keys(".customer", key::ESCAPE);
    browser.wait_for("return document.querySelector('.option-disc.chosen b')?.textContent === 'B'");
    nothing_went_wrong(&browser);
}

#[test]
fn enter_on_an_option_shows_it_and_only_this_one_chooses() {
    let browser = with_tray();
    keys(&browser, &format!(" {0} {0} ", key::RIGHT));
    press(&browser, "Show the customer");
    browser.wait_for("return document.querySelectorAll('.customer-option').length === 3");
    browser.keys(".customer-options li:nth-child(3) button", key::ENTER);
    browser.wait_for("return document.querySelector('.big-letter').textContent.trim() === 'C'");
    browser.keys(".customer", key::ENTER);
    browser.run_async("await new Promise((done) => setTimeout(done, 300))");
    assert_eq!(browser.text(".customer-said").trim(), "", "nothing is chosen yet");
    browser.keys(".customer-choose .main", key::ENTER);
    says(&browser, "You chose C");
    nothing_went_wrong(&browser);
}

#[test]
fn a_customer_chooses_several_and_how_many() {
    let browser = with_tray();
    keys(&browser, &format!(" {0} {0} ", key::RIGHT));
    press(&browser, "Show the customer");
    press(&browser, "This one");
    says(&browser, "You chose A");
    browser.click(".customer-options li:nth-child(3) button");
    press(&browser, "This one too");
    says(&browser, "You chose A and C");
    browser.set_value(".how-many input", "12");
    says(&browser, "You chose A and C, 12 pieces in all");
    browser.click(".how-many .button:last-child");
    says(&browser, "13 pieces in all");
    for nonsense in ["-3", "150 cm", "0,4", "500"] {
        browser.set_value(".how-many input", nonsense);
        says(&browser, "Write how many pieces, from 1 to 200.");
        browser.wait_for("return document.querySelector('.how-many input').value === '13'");
        browser.click(".how-many .button:first-child");
        browser.click(".how-many .button:last-child");
        says(&browser, "13 pieces in all");
    }
    browser.screenshot("customer-several");
    press(&browser, "These three");
    says(&browser, "You chose A, B and C, 13 pieces in all");
    press(&browser, "Not this one");
    says(&browser, "You chose A and B");
    press(&browser, "This one instead");
    browser.wait_for("return document.querySelector('.customer-said').textContent.trim() === 'You chose C'");
    press(&browser, "Close");
    browser.wait_for("return document.querySelector('.tray') && !document.querySelector('.customer')");
    says(&browser, "Chosen: C. 1 piece, ");
    nothing_went_wrong(&browser);
}

#[test]
fn the_browsers_back_goes_back_through_areas_and_panels() {
    let browser = with_tray();
    keys(&browser, " ");
    press(&browser, "Show the customer");
    browser.wait_for("return document.querySelector('.customer')");
    browser.run("history.back()");
    browser.wait_for("return document.querySelector('.tray') && !document.querySelector('.customer')");
    press(&browser, "Option sheet");
    browser.wait_for("return document.querySelector('.paper-area')");
    press(&browser, "Close the paper");
    browser.wait_for("return document.querySelector('.tray')");
    browser.run("history.back()");
    browser.wait_for("return !document.querySelector('.tray') && document.querySelector('.seed-number')");
    press(&browser, "Set-up");
    press(&browser, "Shelf");
    browser.wait_for("return document.querySelector('.shelf')");
    assert_eq!(
        browser.run("return document.querySelectorAll('.slip').length"),
        json!(0),
        "Set-up lies there no more"
    );
    browser.run("history.back()");
    browser.wait_for("return !document.querySelector('.shelf')");
    press(&browser, "Set-up");
    browser.wait_for("return document.querySelector('.slip')");
    browser.run("history.back()");
    browser.wait_for("return !document.querySelector('.slip')");
    // Going forward opens nothing, and what is opened then is still to be gone back from.
    browser.run("history.forward()");
    press(&browser, "Tray");
    browser.wait_for("return document.querySelector('.tray')");
    browser.run("history.back()");
    browser.wait_for("return !document.querySelector('.tray') && document.querySelector('.seed-number')");
    nothing_went_wrong(&browser);
}

#[test]
fn an_option_stays_as_it_was_kept_until_the_change_is_taken() {
    let browser = with_tray();
    keys(&browser, " ");
    press(&browser, "Work on it");
    press(&browser, "Straw");
    says(&browser, "How deep");
    browser.keys("[role=slider]", &key::RIGHT.repeat(30));
    settled(&browser);
    press(&browser, "Tray");
    says(&browser, "The recipe has changed since A was kept. The customer sees it as kept.");
    browser.screenshot("tray-moved-on");
    press(&browser, "Go back to it as kept");
    browser.wait_for("return !document.querySelector('.tray')");
    press(&browser, "Tray");
    browser.wait_for("return document.querySelector('.option-disc')");
    browser.wait_for("return !document.body.innerText.includes('The recipe has changed')");
    press(&browser, "Close the tray");
    press(&browser, "Undo");
    press(&browser, "Tray");
    says(&browser, "The recipe has changed since A was kept.");
    press(&browser, "Take the change");
    browser.wait_for("return !document.body.innerText.includes('The recipe has changed')");
    nothing_went_wrong(&browser);
}

#[test]
fn the_trays_keys_work_as_soon_as_it_is_opened() {
    let browser = opened();
    press(&browser, "Tray");
    browser.wait_for("return document.activeElement.classList.contains('pointed')");
    browser.press_keys(&format!("{0}1{0}", key::RIGHT));
    browser.wait_for("return document.querySelector('.sister.lifted')?.dataset.seed === '42'");
    browser.press_keys(key::ESCAPE);
    browser.wait_for("return document.querySelector('.tray') && !document.querySelector('.sister.lifted')");
    browser.wait_for("return document.activeElement.classList.contains('pointed')");
    browser.press_keys(key::DELETE);
    browser.wait_for("return !document.querySelector('[data-seed=\"43\"]')");
    browser.wait_for("return document.activeElement.dataset.seed === '44'");
    browser.press_keys(key::ESCAPE);
    browser.wait_for("return !document.querySelector('.tray')");
    nothing_went_wrong(&browser);
}

#[test]
fn the_option_sheet_prints_on_both_papers_and_opens_again_as_a_picture() {
    let browser = with_tray();
    keys(&browser, &format!(" {0} {0} {0} {0} ", key::RIGHT));
    press(&browser, "Option sheet");
    browser.wait_for(
        "const pictures = [...document.querySelectorAll('.printed canvas')];
        return pictures.length === 10 && pictures.every((canvas) => canvas.width > 500)",
    );
    for (word, name, inches) in [("A4", "a4", (8.27, 11.69)), ("Letter", "letter", (8.5, 11.0))] {
        press(&browser, word);
        let pdf = browser.pdf(&format!("option-sheet-{name}"));
        let boxes = sheets(&pdf);
        assert_eq!(boxes.len(), 2, "five options are two sheets of {word}");
        for (width, height) in boxes {
            let off = (width / 72.0 - inches.0).abs() + (height / 72.0 - inches.1).abs();
            assert!(off < 0.03, "{word} is {width} x {height} points");
        }
    }
    browser.screenshot("paper-1280");
    let folder = saves_into(&browser, "option-sheets");
    press(&browser, "Save as picture");
    says(&browser, "Saved as ember-walk-options-2.png.");
    let sheet = saved_file(&folder, "ember-walk-options-1.png");
    let seen = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("screenshots").join("option-sheet.png");
    fs::write(seen, &sheet).unwrap();
    press(&browser, "Close the paper");
    press(&browser, "Close the tray");
    press(&browser, "Undo");
    drop_file(&browser, "sheet.png", &sheet);
    says(&browser, "From a file. Kept as a new piece.");
    press(&browser, "Tray");
    browser.wait_for("return document.querySelectorAll('.option-disc').length === 5");
    nothing_went_wrong(&browser);
}

#[test]
fn what_takes_the_tables_place_fits_every_width() {
    let browser = with_tray();
    keys(&browser, &format!(" 1{} 2", key::RIGHT));
    for (width, height) in [(390, 844), (820, 1180), (1280, 800), (2560, 1440)] {
        browser.set_viewport(width, height, 1.0);
        for (word, name, close) in [
            ("", "tray", ""),
            ("Show the customer", "customer", "Escape"),
            ("Option sheet", "paper", "Close the paper"),
        ] {
            if !word.is_empty() {
                press(&browser, word);
                browser.run_async("await new Promise((done) => setTimeout(done, 1500))");
            }
            browser.screenshot(&format!("{name}-{width}"));
            let wide = browser.run("return document.documentElement.scrollWidth - innerWidth");
            assert_eq!(wide, json!(0), "{name} at {width} is wider than the screen");
            match close {
                "" => {}
                "Escape" => browser.keys(".customer", key::ESCAPE),
                close => press(&browser, close),
            }
        }
    }
    nothing_went_wrong(&browser);
}

#[test]
fn a_core_sample_is_taken_by_tap_and_moved_by_keys() {
    let browser = opened();
    press(&browser, "42");
    settled(&browser);
    let middle = browser.run(
        "const glass = document.querySelector('[role=application]').getBoundingClientRect();
        return [Math.round(glass.left + glass.width / 2), Math.round(glass.top + glass.height * 0.45)]",
    );
    let at = |i: usize| middle[i].as_i64().unwrap() as i32;
    browser.drag((at(0), at(1)), (at(0), at(1)));
    says(&browser, "Core sample");
    says(&browser, "from the crown");
    browser.screenshot("core-sample");
    let rows = browser.run("return document.querySelectorAll('.section tbody tr').length").as_u64().unwrap();
    assert!(rows >= 2, "{rows} layers: at least the two sheets");
    let place = "return document.querySelector('.sample-place').textContent";
    let before = browser.run(place);
    browser.keys("[role=application]", &key::RIGHT.repeat(20));
    browser.wait_for(&format!("return document.querySelector('.sample-place').textContent !== {before}"));
    let ring = browser.run("return document.querySelector('.sample-ring') !== null");
    assert_eq!(ring, Value::Bool(true));
    for stage in ["Sifted", "Fused"] {
        press(&browser, stage);
        settled(&browser);
        says(&browser, "as sifted");
    }
    browser.keys("[role=application]", key::ESCAPE);
    browser.wait_for("return !document.body.innerText.includes('Core sample')");
    nothing_went_wrong(&browser);
}
