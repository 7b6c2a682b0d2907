//! A long session costs no more than a short one: after ten times as many seeds and edits the page has the same nodes,
//! listeners and pictures, and only what can be taken back has grown.

mod support;

use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::{fs, process};
use support::browser::Browser;
use support::page::{nothing_went_wrong, opened_watched, press, settled};

/// Seeds stepped in one round, and edits made.
const SEEDS: u32 = 50;
const EDITS: u32 = 200;
/// Rounds after the first one.
const MORE: u32 = 9;

/// Nodes, and listeners, that may come and go with the words that happen to stand there, such as a graduation more.
const FEW: i64 = 12;

/// What one step that can be taken back may cost, bytes: it holds the whole piece as it stood, here with three coats,
/// and the name of what changed it. *Undo* goes back without limit, so this is the one thing that grows.
const STEP: i64 = 1_500;

/// What the memory of scripts and program together may grow by without a step, bytes: the program's grows in blocks of
/// 64 kB and never shrinks, and what waits to be collected keeps its place until then.
const LOOSE: i64 = 6 << 16;

/// What the page's process may grow by between two counts, bytes: workers and scripts go on warming up, by up to 20 MB,
/// and what was freed is not all given back. A worker that kept the layers of every seed would take more.
const UNEVEN: i64 = 32 << 20;

/// Remembers, without holding them, all canvases that ever had pixels, and the memory of the page's own program.
const WATCH_MEMORY: &str = "
    const canvases = new Set();
    const context = HTMLCanvasElement.prototype.getContext;
    HTMLCanvasElement.prototype.getContext = function (...given) {
        if (!this.counted) { this.counted = true; canvases.add(new WeakRef(this)); }
        return context.apply(this, given);
    };
    window.canvasBytes = () => {
        let bytes = 0;
        for (const one of canvases) {
            const canvas = one.deref();
            if (canvas) bytes += 4 * canvas.width * canvas.height; else canvases.delete(one);
        }
        return bytes;
    };
    let memory;
    const watched = (make) => async (...given) => {
        const made = await make.apply(WebAssembly, given);
        // A part that comes later has none of its own.
        memory ??= (made.instance ?? made).exports.memory;
        return made;
    };
    WebAssembly.instantiate = watched(WebAssembly.instantiate);
    WebAssembly.instantiateStreaming = watched(WebAssembly.instantiateStreaming);
    window.programBytes = () => memory.buffer.byteLength;
";

/// Steps so many seeds as fast as keys come, and rests until the sisters of the last one lie beside it.
const STEP_SEEDS: &str = "
    const glass = document.querySelector('[role=application]');
    const pause = (ms) => new Promise((done) => setTimeout(done, ms));
    for (let n = 0; n < arguments[0]; n++) {
        glass.dispatchEvent(new KeyboardEvent('keydown', { key: 'PageUp', bubbles: true }));
        await pause(0);
    }
    do await pause(400); while (document.querySelector('.edge-disc.coming'));
";

/// Makes so many edits: two rules in turn, so that each edit is a step of its own, up and down again. The page has a
/// moment after every other one.
const EDIT: &str = "
    const rules = [...document.querySelectorAll('[role=slider]')].slice(0, 2);
    for (let n = 0; n < arguments[0]; n++) {
        const key = n & 2 ? 'ArrowLeft' : 'ArrowRight';
        rules[n & 1].dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true }));
        if (n & 1) await new Promise((done) => setTimeout(done, 0));
    }
";

/// What the page holds when all that is garbage has gone.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Held {
    nodes: i64,
    listeners: i64,
    /// Bytes of all canvases, on the page or not.
    canvases: i64,
    /// Bytes of the scripts' objects.
    script: i64,
    /// Bytes of the program's memory.
    program: i64,
    /// Bytes of the whole process, workers and canvases included, as the system counts them.
    process: i64,
}

impl Held {
    /// Bytes of what scripts and program remember.
    fn memory(&self) -> i64 {
        self.script + self.program
    }

    /// What has grown by more than so many steps back may cost.
    fn grown_from(&self, before: &Self, steps: i64) -> Vec<String> {
        let grown = [
            ("nodes", self.nodes - before.nodes, FEW),
            ("listeners", self.listeners - before.listeners, FEW),
            ("bytes of canvases", self.canvases - before.canvases, 0),
            ("bytes of memory", self.memory() - before.memory(), LOOSE + STEP * steps),
            ("bytes of the process", self.process - before.process, UNEVEN + STEP * steps),
        ];
        let too_much = grown.into_iter().filter(|(_, more, allowed)| more > allowed);
        too_much.map(|(what, more, allowed)| format!("{more} {what} more, {allowed} allowed")).collect()
    }

    /// Collects garbage until nothing more goes: what is let go may be what held something else.
    fn count(browser: &Browser) -> Self {
        let mut last = Self::count_once(browser);
        for _ in 0..20 {
            let now = Self::count_once(browser);
            if (now.nodes, now.listeners) == (last.nodes, last.listeners) {
                return now;
            }
            last = now;
        }
        panic!("there is always more garbage: {last:?}");
    }

    fn count_once(browser: &Browser) -> Self {
        browser.cdp("HeapProfiler.collectGarbage", &json!({}));
        // The browser tells the program in its own time what has gone.
        browser.run_async("await new Promise((done) => setTimeout(done, 200))");
        browser.cdp("HeapProfiler.collectGarbage", &json!({}));
        let counters = browser.cdp("Memory.getDOMCounters", &json!({}));
        let script = browser.cdp("Runtime.getHeapUsage", &json!({}));
        let bytes = browser.run("return [canvasBytes(), programBytes()]");
        let whole = |number: &Value| number.as_f64().expect("a number") as i64;
        Self {
            nodes: whole(&counters["nodes"]),
            listeners: whole(&counters["jsEventListeners"]),
            canvases: whole(&bytes[0]),
            script: whole(&script["usedSize"]),
            program: whole(&bytes[1]),
            process: process_bytes(),
        }
    }
}

/// What the page's process holds for itself, bytes: of this test's renderers the largest.
fn process_bytes() -> i64 {
    let ours = format!("/dappledome-test-{}-", process::id());
    let of_page = |folder: &Path| {
        let command = fs::read(folder.join("cmdline")).unwrap_or_default();
        let command = String::from_utf8_lossy(&command);
        command.contains("--type=renderer") && command.contains(&ours)
    };
    let held = |folder: PathBuf| {
        let status = fs::read_to_string(folder.join("status")).ok()?;
        let kilobytes = status.lines().find_map(|line| line.strip_prefix("RssAnon:"))?;
        kilobytes.trim().trim_end_matches(" kB").parse::<i64>().ok()
    };
    let processes = fs::read_dir("/proc").unwrap().flatten().map(|entry| entry.path());
    1024 * processes.filter(|folder| of_page(folder)).filter_map(held).max().expect("the page has a process")
}

#[test]
fn ten_times_the_work_takes_no_more_memory() {
    let browser = opened_watched(WATCH_MEMORY);
    press(&browser, "Rust");
    // Between two rounds garbage goes: until it does, the program cannot use its place again.
    let rounds = |rounds: u32, script: &str, times: u32| {
        for _ in 0..rounds {
            browser.run_async_with(script, &json!([times]));
            browser.cdp("HeapProfiler.collectGarbage", &json!({}));
        }
    };
    let count = |what: &str| {
        settled(&browser);
        browser.wait_for("return document.querySelector('.edge-disc.coming') === null");
        let held = Held::count(&browser);
        println!("after {what}: {held:?}");
        held
    };
    rounds(1, STEP_SEEDS, SEEDS);
    rounds(1, EDIT, EDITS);
    let first = count("50 seeds and 200 edits");
    rounds(MORE, STEP_SEEDS, SEEDS);
    let stepped = count("500 seeds");
    rounds(MORE, EDIT, EDITS);
    let edited = count("2,000 edits");
    let steps = i64::from(MORE * EDITS);
    println!("a step that can be taken back costs {} bytes", (edited.memory() - stepped.memory()) / steps);
    let seed = browser.run("return document.querySelector('.seed-number').value");
    assert_eq!(seed, "541", "all seeds were stepped");
    press(&browser, "Steps");
    let taken = browser.run("return document.querySelectorAll('.slip li').length").as_i64().unwrap();
    assert!(taken > steps, "each edit can be taken back, and {taken} steps can");
    // Seeds that follow each other quickly are one step.
    let grown = [stepped.grown_from(&first, 0), edited.grown_from(&stepped, steps)];
    assert_eq!(grown, [Vec::<String>::new(), Vec::new()], "what grew with seeds, and with edits");
    nothing_went_wrong(&browser);
}
