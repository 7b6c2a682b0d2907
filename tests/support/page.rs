//! The page as a maker uses it: what tests of the page share.

use super::browser::Browser;
use super::site::page_url;
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use std::{fs, thread};

/// The picture on the table, as a number; 0 while there is none, or while it is being drawn anew.
pub const PICTURE: &str = "const canvas = document.querySelector('[role=application] canvas');
    if (!canvas || !canvas.width) return 0;
    const pixels = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data;
    let sum = canvas.width;
    for (let i = 0; i < pixels.length; i += 4)
        sum = (Math.imul(sum, 31) + pixels[i] + 256 * pixels[i + 1] + 65536 * pixels[i + 2]) | 0;
    return sum;";

/// Keeps hold of the workers that draw the piece; those of the tray have another name.
pub const WATCH_WORKERS: &str = "window.workers = [];
    window.Worker = class extends Worker { constructor(...given) { super(...given); if (given[1]?.name === 'piece') workers.push(this); } };";

/// The large picture.
pub const GLASS: &str = "[role=application]";

/// A browser with the page in it, at 1280 x 800, its first picture drawn.
pub fn opened() -> Browser {
    opened_watched(WATCH_WORKERS)
}

/// The same, with a script of the test's own run before the page's.
pub fn opened_watched(watch: &str) -> Browser {
    let browser = Browser::start();
    browser.run_first(watch);
    browser.set_viewport(1280, 800, 1.0);
    browser.open(&page_url());
    settled(&browser);
    browser
}

/// True when the large picture is as fine as its place: a draft has half as many pixels along a side.
const FINE: &str = "const canvas = document.querySelector('[role=application] canvas');
    return canvas.width + 1 >= Math.min(1024, Math.round(canvas.offsetWidth * devicePixelRatio));";

/// Waits until the fine picture has stayed the same for half a second, and gives it.
pub fn settled(browser: &Browser) -> Value {
    let mut before = browser.wait_for(&format!("return (() => {{ {PICTURE} }})() || false"));
    let mut same = 0;
    while same < 4 {
        browser.run_async("await new Promise((done) => setTimeout(done, 125))");
        browser.wait_for(FINE);
        let now = browser.run(PICTURE);
        same = if now == before { same + 1 } else { 0 };
        before = now;
    }
    before
}

/// Presses the first button whose words begin so, as soon as there is one: a part of the page may be on its way.
pub fn press(browser: &Browser, words: &str) {
    browser.wait_for(&format!(
        "const button = [...document.querySelectorAll('button')].find((button) =>
            button.textContent.trim().startsWith({}) && button.checkVisibility({{ visibilityProperty: true }}));
        button?.click();
        return button !== undefined;",
        json!(words)
    ));
}

/// Waits until the page says these words.
pub fn says(browser: &Browser, words: &str) {
    browser.wait_for(&format!("return document.body.innerText.includes({})", json!(words)));
}

/// Drops a file on the page.
pub fn drop_file(browser: &Browser, name: &str, contents: impl AsRef<[u8]>) {
    browser.run_with(
        "const dropped = new DataTransfer();
        const bytes = Uint8Array.from(atob(arguments[1]), (letter) => letter.charCodeAt(0));
        dropped.items.add(new File([bytes], arguments[0]));
        window.dispatchEvent(new DragEvent('drop', { dataTransfer: dropped, bubbles: true, cancelable: true }));",
        &json!([name, BASE64_STANDARD.encode(contents)]),
    );
}

/// An empty folder of this name, into which the page saves files from now on.
pub fn saves_into(browser: &Browser, name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    // It is there only if a test before this one left it.
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    browser.save_into(&folder);
    folder
}

/// Waits for a file whose name ends so to be saved into a folder.
pub fn saved_file(folder: &Path, ending: &str) -> Vec<u8> {
    let start = Instant::now();
    loop {
        let mut files = fs::read_dir(folder).unwrap().flatten().map(|file| file.path());
        let file = files.find(|file| file.to_string_lossy().ends_with(ending));
        if let Some(bytes) = file.map(|file| fs::read(file).unwrap()).filter(|bytes| !bytes.is_empty()) {
            return bytes;
        }
        assert!(start.elapsed() < Duration::from_secs(20), "nothing was saved");
        thread::sleep(Duration::from_millis(50));
    }
}

/// The same as text.
pub fn saved_text(folder: &Path, ending: &str) -> String {
    String::from_utf8(saved_file(folder, ending)).unwrap()
}

/// Width and height of each page of a PDF, points.
pub fn sheets(pdf: &[u8]) -> Vec<(f64, f64)> {
    let text = String::from_utf8_lossy(pdf);
    let boxes = text.split("/MediaBox").skip(1).map(|rest| {
        let inside = rest.split(['[', ']']).nth(1).unwrap();
        let numbers: Vec<f64> = inside.split_whitespace().map(|number| number.parse().unwrap()).collect();
        (numbers[2], numbers[3])
    });
    boxes.collect()
}

/// No violation of the policy, no error, nothing on the console.
pub fn nothing_went_wrong(browser: &Browser) {
    // The browser remarks that this test reads the picture back often.
    nothing_but(browser, &["willReadFrequently"]);
}

/// No violation of the policy, no error, nothing on the console but the browser's own remarks on what the test does.
pub fn nothing_but(browser: &Browser, remarks: &[&str]) {
    let none: Vec<String> = Vec::new();
    let console =
        browser.console().into_iter().filter(|words| !remarks.iter().any(|remark| words.contains(remark)));
    assert_eq!(
        (browser.violations(), browser.faults(), console.collect()),
        (none.clone(), none.clone(), none)
    );
}
