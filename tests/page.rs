//! The page as a maker uses it, in a real browser: by pointer, by keyboard, with wrong files and a worker that dies.

mod support;

use dappledome::recipe::{demo, file};
use serde_json::{Value, json};
use support::browser::{Browser, key};
use support::page::{
    GLASS, drop_file, nothing_went_wrong, opened, press, saved_text, saves_into, says, settled,
};
use support::site::page_url;

#[test]
fn a_newcomer_sees_a_finished_piece() {
    let browser = opened();
    let colors = browser.run(
        "const canvas = document.querySelector('[role=application] canvas');
        const data = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data;
        return new Set(new Uint32Array(data.buffer)).size;",
    );
    assert!(colors.as_u64().unwrap() > 1000, "{colors} colors");
    for words in ["This is Ember Walk", "143 mm across, 38.3 mm high", "6.7 g", "2 discs"] {
        says(&browser, words);
    }
    browser.screenshot("newcomer-1280");
    for (width, height) in [(390, 844), (820, 1180), (1920, 1080)] {
        browser.set_viewport(width, height, 1.0);
        settled(&browser);
        browser.screenshot(&format!("newcomer-{width}"));
        let wide = browser.run("return document.documentElement.scrollWidth - innerWidth");
        assert_eq!(wide, json!(0), "at {width} the page is wider than the screen");
    }
    nothing_went_wrong(&browser);
}

#[test]
fn a_rule_moved_by_keys_changes_the_glass_and_undo_brings_it_back() {
    let browser = opened();
    press(&browser, "Rust");
    let first = settled(&browser);
    let deeper = "[role=slider]";
    let value =
        |browser: &Browser| browser.run("return document.querySelector('[role=slider]').ariaValueText");
    let was = value(&browser);
    browser.keys(deeper, &key::RIGHT.repeat(12));
    let deep = settled(&browser);
    assert_ne!(value(&browser), was);
    assert_ne!(deep, first);
    browser.keys(deeper, &format!("{}z", key::CONTROL));
    browser.wait_for(&format!("return document.querySelector('[role=slider]').ariaValueText === {was}"));
    // The welcome has gone and the picture with it grown: compare with the same way once more.
    let again = settled(&browser);
    browser.keys(deeper, &format!("{}y", key::CONTROL));
    settled(&browser);
    browser.keys(deeper, &format!("{}z", key::CONTROL));
    assert_eq!(settled(&browser), again);
    nothing_went_wrong(&browser);
}

#[test]
fn the_next_seed_is_a_sister_and_the_one_before_the_same_again() {
    let browser = opened();
    press(&browser, "42");
    let sister = settled(&browser);
    press(&browser, "43");
    assert_ne!(settled(&browser), sister);
    press(&browser, "‹ 42");
    assert_eq!(settled(&browser), sister);
    browser.set_value(".seed-number", "7");
    says(&browser, "8 ›");
    assert_ne!(settled(&browser), sister);
    nothing_went_wrong(&browser);
}

#[test]
fn the_welcome_is_closed_and_what_seeds_are_is_said_until_one_is_taken() {
    let browser = opened();
    let explained = "A seed is one fall of the powder";
    says(&browser, explained);
    press(&browser, "Close");
    browser.wait_for("return document.querySelector('.welcome') === null");
    says(&browser, explained);
    press(&browser, "Roll");
    let gone = format!("return !document.body.innerText.includes('{explained}')");
    browser.wait_for(&gone);
    browser.open(&page_url());
    says(&browser, "A forecast.");
    browser.wait_for(&gone);
    nothing_went_wrong(&browser);
}

/// Red, green and blue of the picture at a place, in hundredths of its side.
fn color_at(browser: &Browser, x: u32, y: u32) -> Vec<i64> {
    let color = browser.run_with(
        "const canvas = document.querySelector('[role=application] canvas');
        const [x, y] = [...arguments].map((share) => Math.floor(share / 100 * canvas.width));
        return [...canvas.getContext('2d').getImageData(x, y, 1, 1).data];",
        &json!([x, y]),
    );
    color.as_array().unwrap().iter().take(3).map(|part| part.as_i64().unwrap()).collect()
}

#[test]
fn lit_darkens_the_table_and_fused_lies_flat() {
    let browser = opened();
    let (by_day, above_the_dome) = (color_at(&browser, 2, 2), color_at(&browser, 50, 12));
    assert!(by_day.iter().zip(&above_the_dome).all(|(a, b)| (a - b).abs() < 12), "{above_the_dome:?}");
    press(&browser, "Fused");
    says(&browser, "mm thick");
    settled(&browser);
    let on_the_disc = color_at(&browser, 50, 12);
    assert!(by_day.iter().zip(&on_the_disc).any(|(a, b)| (a - b).abs() > 24), "{on_the_disc:?}");
    press(&browser, "Lit");
    settled(&browser);
    let lit = color_at(&browser, 2, 2);
    assert!(lit.iter().zip(&by_day).all(|(lit, day)| lit * 2 < *day), "{lit:?} against {by_day:?}");
    nothing_went_wrong(&browser);
}

#[test]
fn every_way_to_move_a_rule() {
    let browser = opened();
    press(&browser, "Rust");
    let slider = "[role=slider]";
    let reads = |value: &str| {
        browser.wait_for(&format!("return document.querySelector('{slider}').ariaValueNow === '{value}'"));
    };
    for (keys, value) in [
        (key::RIGHT, "0.46"),
        (key::PAGE_UP, "0.56"),
        (key::PAGE_DOWN, "0.46"),
        (key::HOME, "0.03"),
        (key::END, "3"),
    ] {
        browser.keys(slider, keys);
        reads(value);
    }
    browser.run("document.querySelector('.rule .label').dispatchEvent(new MouseEvent('dblclick'))");
    reads("0.45");
    let drag = "const [scale, needle] = ['.scale', '[role=slider]'].map((one) => document.querySelector(one));
        const at = (kind, clientX) => scale.dispatchEvent(new PointerEvent(kind, { clientX, clientY: scale.getBoundingClientRect().top + 5, pointerId: 1 }));
        at('pointerdown', 150); at('pointermove', 190);
        return needle.ariaValueNow";
    browser.run(drag);
    browser.wait_for("return document.querySelector('[role=slider]').ariaValueNow !== '0.45'");
    browser.keys(slider, key::ESCAPE);
    reads("0.45");
}

#[test]
fn the_focus_is_never_lost() {
    let browser = opened();
    browser.run("window.focused = () => document.activeElement !== document.body");
    for words in [
        "Heather",
        "Undo",
        "Rust",
        "Coat",
        "Move earlier",
        "Copy",
        "Take out",
        "Sponge",
        "None",
        "Blank",
        "Take out",
        "Keep as is",
        "accents",
    ] {
        let found = browser.run_with(
            "const button = [...document.querySelectorAll('button')].find((button) =>
                button.textContent.trim().startsWith(arguments[0]) && button.offsetParent);
            button?.focus();
            button?.click();
            return button !== undefined;",
            &json!([words]),
        );
        assert_eq!(found, Value::Bool(true), "no button says {words}");
        browser.run_async("await new Promise((done) => setTimeout(done, 150))");
        assert_eq!(browser.run("return focused()"), Value::Bool(true), "after {words}");
    }
    browser.keys(".add .word:last-of-type", key::TAB);
    let ring = "const glass = document.querySelector('[role=application]');
        return glass.matches(':focus-visible') && getComputedStyle(glass, '::after').outlineStyle === 'solid'";
    browser.wait_for(ring);
    browser.keys(".row-button", key::ESCAPE);
    browser.wait_for("return document.querySelector('[aria-expanded=true].row-button') === null");
    nothing_went_wrong(&browser);
}

#[test]
fn on_a_phone_the_totals_open_the_ticket() {
    let browser = opened();
    browser.set_viewport(390, 844, 1.0);
    press(&browser, "42");
    browser.run("document.querySelector('.list').scrollTop = 1000");
    browser.click(".foot-whole");
    browser.wait_for(
        "const [ticket, list] = ['.ticket-step', '.list'].map((one) =>
            document.querySelector(one)?.getBoundingClientRect());
        return ticket && ticket.height > 100 && ticket.top >= list.top - 1 && ticket.top < list.bottom;",
    );
    browser.screenshot("phone-ticket");
    nothing_went_wrong(&browser);
}

#[test]
fn a_saved_recipe_can_be_opened_again() {
    let browser = opened();
    let folder = saves_into(&browser, "saved-recipes");
    press(&browser, "Share");
    press(&browser, "Save recipe");
    let saved = file::read(&saved_text(&folder, "ember-walk.json")).unwrap();
    assert_eq!(saved, demo::ember_walk());
}

#[test]
fn the_glass_obeys_keys_and_pointer() {
    let browser = opened();
    press(&browser, "42");
    let mut before = settled(&browser);
    for keys in [key::LEFT, key::UP, "+", "0", "2", "1", "3", " "] {
        browser.keys(GLASS, keys);
        let now = settled(&browser);
        assert_ne!(now, before, "after {keys:?}");
        before = now;
    }
    browser.drag((900, 400), (960, 420));
    assert_ne!(settled(&browser), before, "after a drag");
    browser.screenshot("lit-and-turned");
    nothing_went_wrong(&browser);
}

#[test]
fn a_disc_too_wide_is_said_and_mended() {
    let browser = opened();
    press(&browser, "Blank");
    let slider = "[role=slider]";
    browser.keys(slider, "300mm\u{e007}");
    says(&browser, "Too wide for its mold.");
    says(&browser, "300 mm hangs over a rim of 160 mm and folds");
    says(&browser, "Shown as it last worked.");
    browser.screenshot("notice");
    let last_worked = settled(&browser);
    press(&browser, "Lit");
    assert_ne!(settled(&browser), last_worked, "what cannot be made can still be looked at");
    press(&browser, "Day");
    assert_eq!(settled(&browser), last_worked, "and stays as it last worked");
    press(&browser, "Cut 160 mm");
    browser.wait_for("return !document.body.innerText.includes('Too wide for its mold.')");
    browser.keys(slider, "6 in\u{e007}");
    browser.wait_for("return document.querySelector('[role=slider]').ariaValueText.startsWith('152.4 mm')");
    browser.keys(slider, "6 yd\u{e007}");
    says(&browser, "Write a length, such as 152 mm or 6 in.");
    nothing_went_wrong(&browser);
}

#[test]
fn wrong_files_are_refused_and_the_piece_stays() {
    let browser = opened();
    press(&browser, "42");
    let good = include_str!("../examples/recipes/heather.json");
    let before = settled(&browser);
    drop_file(&browser, "harbor-prices.xlsx", "PK\u{3}\u{4}\u{0}");
    says(&browser, "harbor-prices.xlsx");
    browser.screenshot("wrong-file");
    press(&browser, "Leave it");
    for (name, contents, said) in [
        ("half.json", good[..good.len() / 2].to_owned(), "ends too early"),
        ("newer.json", good.replace("\"version\": 1", "\"version\": 99"), "another version"),
        ("vast.json", good.replace("\"diameter\": 160", "\"diameter\": 1000000000"), "1000000000 mm"),
        ("heavy.json", format!("{good}{}", " ".repeat(2 << 20)), "Too large for a recipe"),
    ] {
        drop_file(&browser, name, &contents);
        says(&browser, said);
        browser.screenshot(&format!("refused-{name}"));
        assert_eq!(browser.run("return document.querySelector('h1 input').value"), "Ember Walk");
        press(&browser, "Leave it");
    }
    assert_eq!(settled(&browser), before, "the piece after them all");
    drop_file(&browser, "heather.json", good);
    browser.wait_for("return document.querySelector('h1 input').value === 'Heather'");
    assert_ne!(settled(&browser), before);
    nothing_went_wrong(&browser);
}

fn says_now(browser: &Browser, words: &str) -> bool {
    browser.run_with("return document.body.innerText.includes(arguments[0])", &json!([words])) == true
}

#[test]
fn a_worker_that_dies_is_replaced() {
    let browser = opened();
    press(&browser, "42");
    let before = settled(&browser);
    browser.run("workers.at(-1).terminate(); workers.at(-1).dispatchEvent(new ErrorEvent('error'))");
    press(&browser, "43");
    assert_ne!(settled(&browser), before);
    press(&browser, "‹ 42");
    assert_eq!(settled(&browser), before);
    assert!(browser.run("return workers.length").as_u64().unwrap() >= 2);
    press(&browser, "43");
    // Two of three in a row: the third draws.
    for _ in 0..2 {
        browser.run("window.broken = workers.length; workers.at(-1).dispatchEvent(new ErrorEvent('error'))");
        browser.wait_for("return workers.length > broken");
    }
    assert_ne!(settled(&browser), before);
    assert!(!says_now(&browser, "The picture stopped."));
    // All in a row: it is given up, and the recipe is kept.
    browser.run(
        "window.Worker = class extends Worker { constructor(...given) { super(...given);
            if (given[1].name === 'piece' && !window.healed) setTimeout(() => this.onerror(new ErrorEvent('error')), 20); } };
        workers.at(-1).dispatchEvent(new ErrorEvent('error'));",
    );
    press(&browser, "44");
    says(&browser, "The picture stopped. Your recipe is safe.");
    browser.screenshot("stopped");
    browser.run("window.healed = true");
    press(&browser, "Draw it again");
    browser.wait_for("return !document.body.innerText.includes('The picture stopped.')");
    assert_ne!(settled(&browser), before);
    assert_eq!(browser.run("return document.querySelector('.seed-number').value"), "44");
}
