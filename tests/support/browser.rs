//! A browser with a page in it, and what a test does with one: look, click, type, wait, measure.

use super::driver::{self, Driver};
use super::proxy::Proxy;
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use std::{fs, thread};

/// Runs in every page before its own scripts: keeps what the page did against the rules, how long it blocked, and
/// what broke.
const WITNESS: &str = "
    const seen = window.__seen = { violations: [], long_tasks: [], faults: [] };
    addEventListener('securitypolicyviolation', (event) =>
        seen.violations.push(event.effectiveDirective + ' ' + event.blockedURI + ' ' + event.sample));
    addEventListener('error', (event) => seen.faults.push(String(event.message)));
    addEventListener('unhandledrejection', (event) => seen.faults.push(String(event.reason)));
    new PerformanceObserver((list) => {
        for (const task of list.getEntries()) seen.long_tasks.push(task.duration);
    }).observe({ type: 'longtask', buffered: true });
";

/// How long [`Browser::wait_for`] waits.
const PATIENCE: Duration = Duration::from_secs(30);

/// A browser of its own for one test: nothing is shared with another, and nothing is left when it is dropped.
#[derive(Debug)]
pub struct Browser {
    driver: Driver,
    proxy: Proxy,
}

impl Browser {
    /// Starts one.
    pub fn start() -> Self {
        Self::start_with(Vec::new())
    }

    /// Starts one that goes on with what another has kept in this folder.
    pub fn start_in(folder: &Path) -> Self {
        Self::start_with(vec![driver::profile(folder)])
    }

    fn start_with(mut flags: Vec<String>) -> Self {
        let proxy = Proxy::start();
        flags.push(format!("--proxy-server=http://{}", proxy.address()));
        let driver = Driver::start(&flags);
        let browser = Self { driver, proxy };
        browser.run_first(WITNESS);
        browser
    }

    /// Opens an address and returns when it has loaded (its modules may still be at work).
    pub fn open(&self, url: &str) {
        self.driver.post("/url", &json!({ "url": url }));
    }

    /// Runs a script: the body of a function, whose `arguments` are these and whose `return` value is the result.
    pub fn run_with(&self, script: &str, arguments: &Value) -> Value {
        self.driver.post("/execute/sync", &json!({ "script": script, "args": arguments }))
    }

    /// Runs a script without arguments.
    pub fn run(&self, script: &str) -> Value {
        self.run_with(script, &json!([]))
    }

    /// Runs the body of an `async` function, waits for it and gives what it returns. A fault in it fails the test.
    pub fn run_async(&self, script: &str) -> Value {
        self.run_async_with(script, &json!([]))
    }

    /// The same with `arguments`.
    pub fn run_async_with(&self, script: &str, arguments: &Value) -> Value {
        let wrapped = format!(
            "const done = arguments[arguments.length - 1];
            (async () => {{ {script} }})().then((value) => done({{ value }}), (fault) => done({{ fault: String(fault) }}));"
        );
        let mut result = self.driver.post("/execute/async", &json!({ "script": wrapped, "args": arguments }));
        assert!(result["fault"].is_null(), "{script}: {}", result["fault"]);
        result["value"].take()
    }

    /// Runs a script in every page from now on, before the page's own.
    pub fn run_first(&self, script: &str) {
        self.driver.cdp("Page.addScriptToEvaluateOnNewDocument", &json!({ "source": script }));
    }

    /// Waits until a script returns something true, and gives it. Fails the test after half a minute, with what the
    /// page has on it and in its console.
    pub fn wait_for(&self, script: &str) -> Value {
        let start = Instant::now();
        loop {
            let value = self.run(script);
            if !matches!(value, Value::Null | Value::Bool(false)) {
                return value;
            }
            assert!(start.elapsed() < PATIENCE, "waited in vain for: {script}\n{}", self.state());
            thread::sleep(Duration::from_millis(20));
        }
    }

    /// The text of the first element that a CSS selector finds.
    pub fn text(&self, selector: &str) -> String {
        let script = "return document.querySelector(arguments[0])?.textContent";
        let text = self.run_with(script, &json!([selector]));
        text.as_str().unwrap_or_else(|| panic!("no {selector}\n{}", self.state())).to_owned()
    }

    /// Clicks in the middle of the first element that a CSS selector finds, scrolled into view first.
    pub fn click(&self, selector: &str) {
        let element = self.element(selector);
        self.driver.post(&format!("/element/{element}/click"), &json!({}));
    }

    /// Types text into the first element that a CSS selector finds; keys such as arrows are code points of
    /// [`key`].
    pub fn keys(&self, selector: &str, text: &str) {
        let element = self.element(selector);
        self.driver.post(&format!("/element/{element}/value"), &json!({ "text": text }));
    }

    /// Presses the pointer at one point of the page, moves it to another and lets go.
    pub fn drag(&self, from: (i32, i32), to: (i32, i32)) {
        let go = |(x, y): (i32, i32)| json!({ "type": "pointerMove", "duration": 50, "x": x, "y": y });
        let (down, up) =
            (json!({ "type": "pointerDown", "button": 0 }), json!({ "type": "pointerUp", "button": 0 }));
        let steps = json!([go(from), down, go(to), up]);
        let pointer = json!({ "type": "pointer", "id": "hand", "actions": steps });
        self.driver.post("/actions", &json!({ "actions": [pointer] }));
    }

    /// Sets the value of an input as its rule or field would, with the events that come with it.
    pub fn set_value(&self, selector: &str, value: &str) {
        self.wait_for(&format!("return document.querySelector({}) !== null", json!(selector)));
        let script = "const input = document.querySelector(arguments[0]);
            input.value = arguments[1];
            for (const kind of ['input', 'change']) input.dispatchEvent(new Event(kind, { bubbles: true }));";
        self.run_with(script, &json!([selector, value]));
    }

    /// Gives the page another size in CSS pixels, with so many device pixels to each.
    pub fn set_viewport(&self, width: u32, height: u32, pixel_ratio: f64) {
        self.driver.cdp(
            "Emulation.setDeviceMetricsOverride",
            &json!({ "width": width, "height": height, "deviceScaleFactor": pixel_ratio, "mobile": false }),
        );
    }

    /// Opens another tab of the same browser and turns to it. What [`Self::run_first`] was told does not go with it.
    pub fn new_tab(&self) -> String {
        let tab =
            self.driver.post("/window/new", &json!({ "type": "tab" }))["handle"].as_str().unwrap().to_owned();
        self.turn_to(&tab);
        self.run_first(WITNESS);
        tab
    }

    /// The tab that is turned to.
    pub fn tab(&self) -> String {
        self.driver.get("/window").as_str().unwrap().to_owned()
    }

    /// Turns to another tab.
    pub fn turn_to(&self, tab: &str) {
        self.driver.post("/window", &json!({ "handle": tab }));
    }

    /// Ends the process of the tab that is turned to, without a word to the page. Then another is to be turned to.
    pub fn crash(&self) {
        self.driver.try_post("/url", &json!({ "url": "chrome://crash" }));
    }

    /// Lets what the page saves as a file go into this folder.
    pub fn save_into(&self, folder: &Path) {
        self.cdp("Browser.setDownloadBehavior", &json!({ "behavior": "allow", "downloadPath": folder }));
    }

    /// Presses keys wherever the focus is.
    pub fn press_keys(&self, keys: &str) {
        let steps: Vec<Value> = keys
            .chars()
            .flat_map(|key| {
                [json!({ "type": "keyDown", "value": key }), json!({ "type": "keyUp", "value": key })]
            })
            .collect();
        let keyboard = json!({ "type": "key", "id": "keyboard", "actions": steps });
        self.driver.post("/actions", &json!({ "actions": [keyboard] }));
    }

    /// Sends a command of the browser's own protocol.
    pub fn cdp(&self, command: &str, parameters: &Value) -> Value {
        self.driver.cdp(command, parameters)
    }

    /// Writes what is on the screen to `target/screenshots/<name>.png`, for a person to look at.
    pub fn screenshot(&self, name: &str) -> PathBuf {
        let picture = self.cdp("Page.captureScreenshot", &json!({ "format": "png" }));
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("screenshots");
        fs::create_dir_all(&folder).unwrap();
        let path = folder.join(format!("{name}.png"));
        fs::write(&path, BASE64_STANDARD.decode(picture["data"].as_str().unwrap()).unwrap()).unwrap();
        path
    }

    /// The page as it would be printed, as a PDF; also written to `target/screenshots/<name>.pdf`.
    pub fn pdf(&self, name: &str) -> Vec<u8> {
        self.pdf_with(name, &json!({ "preferCSSPageSize": true, "printBackground": true }))
    }

    /// The same on paper and with settings of one's own.
    pub fn pdf_with(&self, name: &str, printed: &Value) -> Vec<u8> {
        let pdf = self.cdp("Page.printToPDF", printed);
        let bytes = BASE64_STANDARD.decode(pdf["data"].as_str().unwrap()).unwrap();
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("screenshots");
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join(format!("{name}.pdf")), &bytes).unwrap();
        bytes
    }

    /// What the page did against its content security policy, since it was opened.
    pub fn violations(&self) -> Vec<String> {
        strings(&self.run("return __seen.violations"))
    }

    /// Errors and promises that nobody caught in the page, since it was opened.
    pub fn faults(&self) -> Vec<String> {
        strings(&self.run("return __seen.faults"))
    }

    /// How long the page's own thread was busy at a stretch, ms, where it was longer than 50.
    pub fn long_tasks(&self) -> Vec<f64> {
        let tasks = self.run("return __seen.long_tasks");
        tasks.as_array().unwrap().iter().filter_map(Value::as_f64).collect()
    }

    /// What the console has said since it was last asked, workers' words included.
    pub fn console(&self) -> Vec<String> {
        let log = self.driver.post("/se/log", &json!({ "type": "browser" }));
        let lines = log.as_array().unwrap().iter();
        lines.map(|line| format!("{}: {}", line["level"], line["message"])).collect()
    }

    /// The hosts that the browser tried to reach outside this machine. Some it calls by itself: compare with a
    /// browser that has a blank page open.
    pub fn called(&self) -> Vec<String> {
        self.proxy.called().into_iter().collect()
    }

    /// The page in words, for the message of a test that fails.
    fn state(&self) -> String {
        let mut state = String::new();
        let page = self.run("return location.href + '\\n' + document.body?.innerText.slice(0, 2000)");
        write!(state, "The page: {}\nIts faults: {:?}", page.as_str().unwrap_or_default(), self.faults())
            .unwrap();
        write!(state, "\nIts violations: {:?}\nThe console: {:#?}", self.violations(), self.console())
            .unwrap();
        state
    }

    fn element(&self, selector: &str) -> String {
        let found = self.driver.post("/element", &json!({ "using": "css selector", "value": selector }));
        found.as_object().and_then(|found| found.values().next()).and_then(Value::as_str).unwrap().to_owned()
    }
}

/// Keys for [`Browser::keys`], as WebDriver numbers them.
pub mod key {
    /// Tab.
    pub const TAB: &str = "\u{e004}";
    /// Enter.
    pub const ENTER: &str = "\u{e007}";
    /// Escape.
    pub const ESCAPE: &str = "\u{e00c}";
    /// Control, held until the end of the text.
    pub const CONTROL: &str = "\u{e009}";
    /// Page up.
    pub const PAGE_UP: &str = "\u{e00e}";
    /// Page down.
    pub const PAGE_DOWN: &str = "\u{e00f}";
    /// End.
    pub const END: &str = "\u{e010}";
    /// Home.
    pub const HOME: &str = "\u{e011}";
    /// Arrow to the left.
    pub const LEFT: &str = "\u{e012}";
    /// Arrow up.
    pub const UP: &str = "\u{e013}";
    /// Arrow to the right.
    pub const RIGHT: &str = "\u{e014}";
    /// Delete.
    pub const DELETE: &str = "\u{e017}";
    /// Arrow down.
    pub const DOWN: &str = "\u{e015}";
}

fn strings(list: &Value) -> Vec<String> {
    list.as_array().unwrap().iter().map(|item| item.as_str().unwrap_or_default().to_owned()).collect()
}
