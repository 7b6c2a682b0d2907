//! The page in a real browser: it opens, keeps its own rules, and calls nobody.

mod support;

use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use support::browser::Browser;
use support::site::{BLANK, BROKEN_PATH, SUB_PATH, app_path, bundle, page_url};

/// True when the page has replaced the first words by its own.
const OPENED: &str =
    "return document.querySelector('#opening') === null && document.querySelector('main') !== null";

const NONE: Vec<String> = Vec::new();

#[test]
fn it_opens_and_keeps_its_own_rules() {
    let browser = Browser::start();
    browser.open(&page_url());
    browser.wait_for(OPENED);
    browser.screenshot("opened");
    assert_eq!(browser.run("return document.title.startsWith('Dappledome')"), Value::Bool(true));
    assert_eq!(browser.violations(), NONE);
    assert_eq!(browser.faults(), NONE);
    assert_eq!(browser.console(), NONE);
}

#[test]
fn it_opens_further_down_the_path_too() {
    let browser = Browser::start();
    browser.open(&format!("{}{SUB_PATH}/", page_url()));
    browser.wait_for(OPENED);
    let loaded = browser.run("return performance.getEntriesByType('resource').map((file) => file.name)");
    let here = format!("{}{SUB_PATH}/", page_url());
    for file in loaded.as_array().unwrap() {
        let path = file.as_str().unwrap().strip_prefix(&here).unwrap_or_default();
        assert!(
            path.starts_with("app-") || ["manifest.webmanifest", "mend.js"].contains(&path),
            "{file} is not below {here}"
        );
    }
    assert_eq!(browser.faults(), NONE);
}

#[test]
fn it_calls_nobody() {
    // What the browser calls by itself is subtracted: the same browser, as long, with nothing on the page.
    let (with_page, alone) = (Browser::start(), Browser::start());
    with_page.open(&page_url());
    alone.open(&format!("{}{BLANK}", page_url()));
    with_page.wait_for(OPENED);
    let wait = "await new Promise((done) => setTimeout(done, 3000))";
    with_page.run_async(wait);
    alone.run_async(wait);
    let alone: BTreeSet<_> = alone.called().into_iter().collect();
    let calls: Vec<_> = with_page.called().into_iter().filter(|host| !alone.contains(host)).collect();
    assert_eq!(calls, NONE);
}

#[test]
fn the_witness_of_calls_is_awake() {
    // A page without rules, so that only the proxy stands between its worker and the world.
    let browser = Browser::start();
    browser.open("data:text/html,<title>free</title>");
    browser.run(
        "const script = 'fetch(\"http://canary.example/\").catch(() => 0)';
        window.worker = new Worker(URL.createObjectURL(new Blob([script])));",
    );
    for _ in 0..100 {
        if browser.called().contains(&"canary.example".to_owned()) {
            return;
        }
        browser.run_async("await new Promise((done) => setTimeout(done, 50))");
    }
    panic!("the call of a worker was not seen: {:?}", browser.called());
}

#[test]
fn the_witness_of_violations_is_awake() {
    let browser = Browser::start();
    browser.open(&format!("{}{BLANK}", page_url()));
    browser.run("new Image().src = 'http://canary.example/'; setTimeout('1')");
    browser.wait_for("return __seen.violations.length === 2");
    let mut violations = browser.violations();
    violations.sort_unstable();
    assert!(violations[0].starts_with("img-src http://canary.example/"), "{violations:?}");
    assert!(violations[1].starts_with("script-src eval"), "{violations:?}");
}

#[test]
fn the_rules_hold_in_workers() {
    let browser = Browser::start();
    browser.open(&format!("{}{BLANK}", page_url()));
    let tried = browser.run_async(
        "const worker = new Worker('probe.js', { type: 'module' });
        return new Promise((done) => { worker.onmessage = ({ data }) => done(data); });",
    );
    assert_eq!(tried, json!({ "eval": "EvalError", "elsewhere": "TypeError", "own": "ok" }));
}

#[test]
fn what_keeps_it_from_opening_is_said() {
    let browser = Browser::start();
    browser.open(&format!("{}{BROKEN_PATH}/", page_url()));
    browser.wait_for("return document.querySelector('#opening').textContent.includes('did not arrive')");

    browser.run_first("delete window.WebAssembly");
    browser.open(&page_url());
    browser.wait_for("return document.querySelector('#opening').textContent.includes('WebAssembly')");
}

#[test]
fn its_style_sheet_says_what_ours_says() {
    let browser = Browser::start();
    browser.open(&format!("{}{BLANK}", page_url()));
    let shipped = std::str::from_utf8(bundle().get(&app_path("style.css")).unwrap()).unwrap();
    // Each file is read by itself, so that one that does not end properly cannot swallow rules of the next.
    let files: Vec<_> = ["base", "controls", "areas", "app"].into_iter().flat_map(style_files).collect();
    let rules = browser.run_with(
        "const rules = (text) => {
            const sheet = new CSSStyleSheet();
            sheet.replaceSync(text);
            // A custom property keeps its blanks as they are written; about a comma or a slash they say nothing.
            return [...sheet.cssRules].map((rule) => rule.cssText.replace(/ ?([,\\/]) ?/g, '$1'));
        };
        return [arguments[0].flatMap(rules), rules(arguments[1])];",
        &json!([files, shipped]),
    );
    let [ours, shipped] = [&rules[0], &rules[1]].map(|rules| rules.as_array().unwrap());
    assert!(ours.len() > 100, "{} rules", ours.len());
    for (ours, shipped) in ours.iter().zip(shipped) {
        assert_eq!(ours, shipped);
    }
    assert_eq!(ours.len(), shipped.len());
}

/// The texts of the style sheet's files in a folder of `www/public/style` and below, by path.
fn style_files(folder: &str) -> Vec<String> {
    let mut paths = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("www/public/style").join(folder)];
    let mut files = Vec::new();
    while let Some(path) = paths.pop() {
        if path.is_dir() {
            paths.extend(fs::read_dir(path).unwrap().map(|entry| entry.unwrap().path()));
        } else {
            files.push(path);
        }
    }
    files.sort_by_key(|path| path.to_str().unwrap().to_owned());
    files.into_iter().map(|path| fs::read_to_string(path).unwrap()).collect()
}
