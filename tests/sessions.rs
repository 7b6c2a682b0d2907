//! A hundred random sessions of editing, each taken back step by step to where it began.

mod support;

use serde_json::json;
use support::page::{PICTURE, nothing_went_wrong, opened, press, settled};

/// One session: a few things done at random, then undone until nothing is left to undo.
const SESSION: &str = "
    let state = arguments[0];
    const random = (n) => { state = (Math.imul(state, 1664525) + 1013904223) >>> 0; return Math.floor(state / 4294967296 * n); };
    const seen = (selector) => [...document.querySelectorAll(selector)].filter((one) => one.offsetParent);
    const any = (list) => list[random(list.length)];
    const later = () => new Promise((done) => setTimeout(done, 0));
    const says = (words) => seen('button').find((button) => button.textContent.startsWith(words));
    const done = [];
    const press = (button) => { if (button) { done.push(button.textContent.slice(0, 20)); button.click(); } };
    const actions = [
        () => press(any(seen('.row-button'))),
        () => press(any(seen('.option'))),
        () => press(any(seen('.body .button'))),
        () => press(any(seen('.add .word'))),
        () => press(any(seen('.seed .table-word'))),
        () => press(any(seen('.details'))),
        () => press(any(seen('.coat-menu .word, .unfold .word'))),
        () => press(any(seen('.notice .button'))),
        () => {
            const needle = any(seen('[role=slider]'));
            const key = any(['ArrowRight', 'ArrowLeft', 'PageUp', 'PageDown', 'Home', 'End', 'Backspace']);
            if (needle) { done.push(key); needle.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true })); }
        },
    ];
    for (let n = 4 + random(12); n > 0; n--) { any(actions)(); await later(); }
    let undone = 0;
    while (says('Undo') && undone < 200) { says('Undo').click(); undone++; await later(); }
    return [undone, done.join(', ')];
";

#[test]
fn a_hundred_sessions_are_taken_back_to_the_first_picture() {
    let browser = opened();
    // The welcome goes at the first change, and the picture grows.
    press(&browser, "42");
    press(&browser, "Undo");
    let first = settled(&browser);
    let summary = "return [...document.querySelectorAll('.summary, .number, .swatch + *')].map((one) => one.textContent).join()";
    browser
        .run("for (const open of document.querySelectorAll('.row-button[aria-expanded=true]')) open.click()");
    let recipe = browser.run(summary);
    let mut steps = 0;
    for session in 0..100u32 {
        let outcome = browser.run_async_with(SESSION, &json!([session * 7919 + 1]));
        let undone = outcome[0].as_u64().unwrap();
        assert!(undone < 200, "session {session} is never undone: {outcome}");
        steps += undone;
        browser.run(
            "for (const open of document.querySelectorAll('.row-button[aria-expanded=true]')) open.click()",
        );
        // Watching it sink is no change: its slip is laid aside by hand.
        browser.run(
            "for (const slip of document.querySelectorAll('.sinking'))
                [...slip.querySelectorAll('button')].find((one) => one.textContent === 'Close').click()",
        );
        browser.wait_for(&format!("return (() => {{ {PICTURE} }})() === {first}"));
        // The numbers come a moment after the picture.
        browser.wait_for(&format!("return (() => {{ {summary} }})() === {recipe}"));
    }
    println!("100 sessions, {steps} steps taken back");
    assert!(steps > 300);
    nothing_went_wrong(&browser);
}
