//! The browser's figures, printed, from the shipped program and the running page. Nothing is asserted about a time: this
//! machine is not yours. `cargo test --release --test browser_speed -- --nocapture`.

mod support;

use serde_json::Value;
use support::browser::Browser;
use support::site::page_url;

/// Pictures of the large canvas so far, and when the first one came, ms after navigation.
const WATCH: &str = "window.__first = 0;
    const put = CanvasRenderingContext2D.prototype.putImageData;
    CanvasRenderingContext2D.prototype.putImageData = function (...given) {
        if (!window.__first && this.canvas.closest('[role=application]')) window.__first = performance.now();
        return put.apply(this, given);
    };";

#[test]
fn figures_of_the_engine() {
    let browser = Browser::start();
    for size in [192, 512] {
        let text = browser.run_in_program(&format!("return program.measure({size}, 15)"));
        println!("in the browser, {size} cells, ms: name median least p95\n{}", text.as_str().unwrap());
        assert_eq!(text.as_str().unwrap().lines().count(), 8);
    }
}

#[test]
fn figures_of_the_page() {
    let browser = Browser::start();
    browser.run_first(WATCH);
    browser.open(&page_url());
    let first = browser.wait_for("return window.__first || false");
    browser.run_async("await new Promise((done) => setTimeout(done, 2500))");
    println!("first picture {:.0} ms after navigation", first.as_f64().unwrap());
    println!("tasks over 50 ms on the page's own thread while it opened: {:?}", browser.long_tasks());
    browser.click("#recipe button");
    let slider = "[role=slider]";
    browser.wait_for(&format!("return document.querySelector('{slider}') !== null"));
    let before = browser.long_tasks().len();
    for _ in 0..40 {
        browser.keys(slider, "\u{e014}");
    }
    browser.run_async("await new Promise((done) => setTimeout(done, 2500))");
    println!("and while a rule was moved 40 times: {:?}", &browser.long_tasks()[before..]);
    let memory = browser.run("return performance.memory ? performance.memory.usedJSHeapSize : 0");
    assert!(memory != Value::Null);
}

#[test]
fn figures_of_the_tray() {
    let browser = Browser::start();
    browser.open(&page_url());
    browser.wait_for("return document.querySelector('.edge-disc:not(.coming)') !== null");
    let filled = |n: usize| {
        format!(
            "const start = performance.now();
            const press = (words) => [...document.querySelectorAll('button')].find((one) => one.textContent === words)?.click();
            press('Tray');
            while (true) {{
                const laid = document.querySelectorAll('.sister').length;
                const coming = document.querySelectorAll('.sister.coming').length;
                if (laid >= {n} && !coming) return performance.now() - start;
                press('12 more sisters');
                await new Promise((done) => setTimeout(done, 4));
            }}"
        )
    };
    for n in [12, 48] {
        // Another recipe each time, so that nothing is drawn yet.
        browser.run("[...document.querySelectorAll('button')].find((one) => one.textContent === 'Close the tray')?.click()");
        browser.run(
            "[...document.querySelectorAll('button')].find((one) => one.textContent === 'Roll').click()",
        );
        browser.run_async("await new Promise((done) => setTimeout(done, 1500))");
        let before = browser.long_tasks().len();
        let ms = browser.run_async(&filled(n)).as_f64().unwrap();
        println!("a tray of {n} is laid in {ms:.0} ms; long tasks: {:?}", &browser.long_tasks()[before..]);
    }
}
