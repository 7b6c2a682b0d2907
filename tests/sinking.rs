//! Watching the slump in a real browser: the joint opens the slip, keys and the pointer move the needle, the dome follows, and
//! the slump can be stopped there.

mod support;

use dappledome::kiln::sinking::Sinking;
use dappledome::recipe::demo;
use dappledome::recipe::plan::Plan;
use serde_json::{Value, json};
use support::browser::{Browser, key};
use support::page::{GLASS, nothing_went_wrong, opened, press, says, settled};

/// The needle on the joint, and that of the sink rule.
const JOINT: &str = ".sink-thumb";
const NEEDLE: &str = ".sink-needle";

/// How the first piece sinks, by the engine.
fn course() -> Sinking {
    Sinking::of(&Plan::new(&demo::ember_walk()).unwrap().plan).unwrap()
}

/// What a needle says: its least, present and most value, and its text.
fn said(browser: &Browser, needle: &str) -> (f64, f64, f64, String) {
    let script = "const one = document.querySelector(arguments[0]);
        return [one.ariaValueMin, one.ariaValueNow, one.ariaValueMax, one.ariaValueText];";
    let said = browser.run_with(script, &json!([needle]));
    let [least, now, most] = [0, 1, 2].map(|at| said[at].as_str().unwrap().parse().unwrap());
    (least, now, most, said[3].as_str().unwrap().to_owned())
}

/// The page with the slip open and no welcome under the piece.
fn watched() -> Browser {
    let browser = opened();
    press(&browser, "slump");
    browser.wait_for(&format!("return document.querySelector('{NEEDLE}') !== null"));
    browser
}

/// Where the needle goes to, waits until it is there.
fn at_minute(browser: &Browser, minute: &str) {
    browser.wait_for(&format!("return document.querySelector('{NEEDLE}').ariaValueNow === '{minute}'"));
}

/// Nothing is wider than the page, and nothing of the slip lies outside of it.
fn fits(browser: &Browser) {
    let outside = browser.run(
        "const wide = document.documentElement.clientWidth;
        const all = [...document.querySelectorAll('.sinking, .sinking *, .sink-joint, .sink-joint *')]
            .filter((one) => !one.closest('.unseen') && !(one instanceof SVGElement))
            .filter((one) => { const box = one.getBoundingClientRect(); return box.left < -0.5 || box.right > wide + 0.5; });
        return [document.documentElement.scrollWidth > wide, all.map((one) => one.className + ' ' + one.textContent)];",
    );
    assert_eq!(outside, json!([false, []]));
}

#[test]
fn the_needle_moves_dome_section_and_words() {
    let browser = watched();
    let first = settled(&browser);
    let course = course();
    let (least, now, most, text) = said(&browser, NEEDLE);
    let end = course.times().minutes_at(course.end()).unwrap();
    assert!((now - end).abs() < 0.051, "the needle at {now}, the recipe ends at {end}");
    assert!(least < 0.0 && most > end, "{least} to {most}");
    assert!(text.contains(" mm sunk, touches"), "{text}");
    assert_eq!(said(&browser, JOINT).3, text, "joint and rule are one");
    browser.screenshot("sinking-full-1280");

    let glass = || browser.run("return document.querySelector('.sink-glass').getAttribute('d')");
    let before = glass();
    browser.keys(NEEDLE, &format!("{}{}", key::HOME, key::PAGE_UP));
    browser.keys(NEEDLE, key::PAGE_UP);
    let minutes = least + 20.0;
    at_minute(&browser, &format!("{minutes:.1}"));
    browser.keys(NEEDLE, key::LEFT);
    at_minute(&browser, &format!("{:.1}", minutes - 1.0));
    let dome = course.dome_at(minutes - 1.0);
    let depth = course.way().at(course.times().tau_at(minutes - 1.0)).depth();
    let text = said(&browser, NEEDLE).3;
    assert!(text.contains(&format!("{depth:.1} mm sunk")), "{text}, {depth} mm");
    says(&browser, &format!("{:.1} mm high", dome.high().0));
    assert_ne!(glass(), before);
    assert_ne!(settled(&browser), first, "the dome follows");
    browser.screenshot("sinking-shallow-1280");
    fits(&browser);
    nothing_went_wrong(&browser);
}

#[test]
fn shift_goes_a_tenth_and_home_and_end_to_flat_and_full() {
    let browser = watched();
    let course = course();
    let full = course.full_at().unwrap().ceil();
    browser.keys(NEEDLE, key::HOME);
    let (least, now, _, text) = said(&browser, NEEDLE);
    assert_eq!(now, least);
    let heat = course.times().heat_at(least).0.round();
    assert!(text.starts_with(&format!("{heat} °C, 0.")) && text.ends_with("touches at the rim"), "{text}");
    browser.keys(NEEDLE, key::END);
    at_minute(&browser, &format!("{full:.1}"));
    assert!(course.way().at(course.times().tau_at(full)).widest_gap() < 1.0);
    browser.run("document.querySelector('.sink-needle').dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowLeft', shiftKey: true, bubbles: true }))");
    at_minute(&browser, &format!("{:.1}", full - 0.1));
    nothing_went_wrong(&browser);
}

/// The ticket's height, and what the recipe says of its hold.
fn finished(browser: &Browser) -> Value {
    browser.run("return [...document.querySelectorAll('.foot dd')].map((one) => one.textContent)")
}

#[test]
fn stopping_here_is_one_step_and_full_takes_it_back() {
    let browser = watched();
    settled(&browser);
    let before = finished(&browser);
    let full = course().full_at().unwrap().ceil();
    browser.keys(NEEDLE, key::END);
    for _ in 0..6 {
        browser.keys(NEEDLE, key::LEFT);
    }
    at_minute(&browser, &format!("{:.1}", full - 6.0));
    press(&browser, "Stop here");
    says(&browser, "hold of the slump");
    let changed =
        "return JSON.stringify([...document.querySelectorAll('.foot dd')].map((one) => one.textContent))";
    browser.wait_for(&format!("return (() => {{ {changed} }})() !== {}", json!(before.to_string())));
    settled(&browser);
    let hold = course().hold_for(full - 6.0).unwrap().0;
    says(&browser, &format!("held {hold}"));
    browser.screenshot("sinking-stopped-1280");
    let height = |finished: &Value| {
        let text = finished
            .as_array()
            .unwrap()
            .iter()
            .find_map(|one| one.as_str().filter(|one| one.contains('×')))
            .unwrap();
        text.split('×').nth(1).unwrap().trim().trim_end_matches(" mm").parse::<f64>().unwrap()
    };
    let after = finished(&browser);
    assert!(height(&after) < height(&before) - 0.5, "{after} after {before}");
    press(&browser, "Undo");
    browser.wait_for(&format!("return (() => {{ {changed} }})() === {}", json!(before.to_string())));
    press(&browser, "Redo");
    settled(&browser);
    press(&browser, "full at");
    browser.wait_for(&format!("return (() => {{ {changed} }})() === {}", json!(before.to_string())));
    nothing_went_wrong(&browser);
}

/// In every mold the drawing holds all of the glass, and nothing runs out of the slip.
#[test]
fn every_mold_is_drawn_whole() {
    let browser = watched();
    press(&browser, "Slump");
    for form in ["Hump", "Flat bottom", "Flare", "Bowl"] {
        press(&browser, form);
        browser.wait_for("return document.querySelector('.sink-glass')?.getAttribute('d')?.length > 100");
        let script = "const svg = document.querySelector('.sink-drawing svg').viewBox.baseVal;
            const glass = document.querySelector('.sink-glass').getBBox();
            return glass.x > 0 && glass.y > 0 && glass.x + glass.width < svg.width && glass.y + glass.height < svg.height;";
        for to in [key::HOME, key::END] {
            browser.keys(NEEDLE, to);
            assert_eq!(browser.run(script), json!(true), "{form}");
        }
        browser.keys(NEEDLE, &key::LEFT.repeat(3));
        fits(&browser);
        browser.screenshot(&format!("sinking-{}-1280", form.to_lowercase().replace(' ', "-")));
    }
    nothing_went_wrong(&browser);
}

#[test]
fn the_joint_is_dragged_along_time() {
    let browser = opened();
    browser.keys(GLASS, key::ESCAPE);
    let first = settled(&browser);
    let script = "const box = document.querySelector(arguments[0]).getBoundingClientRect();
        return [Math.round(box.x + box.width / 2), Math.round(box.y), Math.round(box.height)];";
    let line = browser.run_with(script, &json!([".sink-way"]));
    let [x, y, height] = [0, 1, 2].map(|at| line[at].as_i64().unwrap() as i32);
    browser.drag((x, y + height * 3 / 4), (x, y + height * 2 / 5));
    browser.wait_for(&format!("return document.querySelector('{NEEDLE}') !== null"));
    let (least, now, most, text) = said(&browser, NEEDLE);
    let spoken = "return [...document.querySelectorAll('[role=status]')].filter((one) => one.textContent.includes(' mm sunk')).map((one) => one.textContent)";
    assert_eq!(browser.run(spoken), json!([text]), "where a drag ended is said once");
    let want = least + 0.4 * (most - least);
    assert!((now - want).abs() <= 0.03 * (most - least), "{now} for {want}");
    assert_ne!(settled(&browser), first);
    press(&browser, "Close");
    assert_eq!(settled(&browser), first, "it only watches");
    nothing_went_wrong(&browser);
}

#[test]
fn those_who_do_not_see_it_have_names_and_a_table() {
    let browser = watched();
    let faults = browser.run(
        "const sliders = [...document.querySelectorAll('.sinking [role=slider], .sink-joint [role=slider]')];
        const faults = sliders.filter((one) => !one.ariaLabel || one.tabIndex !== 0 || !one.ariaValueText ||
            !(Number(one.ariaValueMin) <= Number(one.ariaValueNow) && Number(one.ariaValueNow) <= Number(one.ariaValueMax)));
        const buttons = [...document.querySelectorAll('.sinking button, .sink-joint button')];
        faults.push(...buttons.filter((one) => !(one.ariaLabel ?? one.textContent).trim()));
        const drawings = [...document.querySelectorAll('.sinking svg')];
        faults.push(...drawings.filter((one) => one.getAttribute('aria-hidden') !== 'true'));
        return [sliders.length, buttons.length > 3, drawings.length, faults.length];",
    );
    assert_eq!(faults, json!([2, true, 2, 0]));
    assert_eq!(browser.run("return document.querySelector('.sink-word').ariaExpanded"), json!("true"));
    let rows = browser.run(
        "return [...document.querySelectorAll('.sinking tr')].map((row) => row.innerText ?? row.textContent)",
    );
    let rows: Vec<&str> = rows.as_array().unwrap().iter().map(|row| row.as_str().unwrap()).collect();
    let (least, _, most, _) = said(&browser, NEEDLE);
    assert_eq!(rows.len(), ((most - least) / 5.0) as usize + 1);
    let course = course();
    let depth = course.way().at(course.times().tau_at(5.0)).depth();
    let row = rows.iter().find(|row| row.starts_with("5 min")).expect("five minutes have a row");
    assert!(row.contains(&format!("{depth:.1} mm sunk")) && row.contains("640 °C"), "{row}, {depth} mm");
    browser.keys(NEEDLE, key::ESCAPE);
    browser.wait_for("return document.querySelector('.sinking') === null");
    browser.keys(JOINT, key::ENTER);
    browser.wait_for(&format!("return document.querySelector('{NEEDLE}') !== null"));
    nothing_went_wrong(&browser);
}

#[test]
fn on_a_phone_nothing_lies_over_anything() {
    let browser = opened();
    browser.cdp("Emulation.setTouchEmulationEnabled", &json!({ "enabled": true }));
    browser.cdp(
        "Emulation.setDeviceMetricsOverride",
        &json!({ "width": 390, "height": 844, "deviceScaleFactor": 1, "mobile": true }),
    );
    browser.keys(GLASS, key::ESCAPE);
    settled(&browser);
    browser.screenshot("sinking-joint-390");
    browser.keys(JOINT, key::ENTER);
    browser.wait_for(&format!("return document.querySelector('{NEEDLE}') !== null"));
    browser.keys(NEEDLE, &key::LEFT.repeat(7));
    settled(&browser);
    browser.screenshot("sinking-390");
    fits(&browser);
    let room = browser.run(
        "const slip = document.querySelector('.sinking');
        const button = document.querySelector('.sink-stop button').getBoundingClientRect();
        return [slip.scrollHeight - slip.clientHeight, slip.getBoundingClientRect().top, button.height];",
    );
    assert!(room[0].as_f64().unwrap() <= 1.0, "the slip scrolls: {room}");
    assert!(room[1].as_f64().unwrap() >= 364.0 && room[2].as_f64().unwrap() >= 44.0, "{room}");
    nothing_went_wrong(&browser);
}
