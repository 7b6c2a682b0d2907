//! The worker of the shipped program, driven without a page: what it answers, and how long it takes.

use super::browser::Browser;
use super::site::{BLANK, WATCHED, app_path, page_url};
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use dappledome::worker::protocol::{Answer, Job, read, written};
use serde_json::{Value, json};

/// `hire` takes a new worker in place of the one before and waits until it is ready. `ask` gives it a job and waits for
/// its last answer: the answers, each with its pixels, and the time from the job to the first of them, ms.
const OFFICE: &str = "
    let program, worker = null;
    window.hire = async (wasm, script) => {
        program ??= await WebAssembly.compileStreaming(fetch(wasm));
        worker?.terminate();
        worker = new Worker(script, { type: 'module' });
        await new Promise((ready) => { worker.onmessage = ready; worker.postMessage(program); });
    };
    window.ask = (job, last) => new Promise((done) => {
        const answers = [], start = performance.now();
        let first;
        worker.onmessage = ({ data: [answer, pixels] }) => {
            first ??= performance.now() - start;
            answers.push([answer, pixels ?? null]);
            if (String(answer) === last) done({ answers, first });
        };
        worker.postMessage(new Uint8Array(job));
    });
";

/// A worker in an empty page of the browser.
pub struct Worker<'a>(&'a Browser);

impl<'a> Worker<'a> {
    /// Hires the first.
    pub fn hired(browser: &'a Browser) -> Self {
        browser.run_first(OFFICE);
        browser.open(&format!("{}{BLANK}", page_url()));
        let worker = Self(browser);
        worker.hire_another();
        worker
    }

    /// Hires another in its place, which remembers nothing.
    pub fn hire_another(&self) {
        let addresses =
            json!([format!("/{}", app_path("dappledome_bg.wasm")), format!("/{}", app_path("worker.js"))]);
        self.0.run_async_with("await hire(arguments[0], arguments[1])", &addresses);
    }

    /// Hires another whose memory can be asked for.
    pub fn hire_watched(&self) {
        let worker = format!("/{WATCHED}#/{}", app_path("worker.js"));
        let addresses = json!([format!("/{}", app_path("dappledome_bg.wasm")), worker]);
        self.0.run_async_with("await hire(arguments[0], arguments[1])", &addresses);
    }

    /// The memory of its program, bytes; it must be watched.
    pub fn memory(&self) -> u64 {
        let ask = "return await new Promise((done) => {
            const channel = new BroadcastChannel('memory');
            channel.onmessage = ({ data }) => { channel.close(); done(data); };
            channel.postMessage('how large');
        });";
        self.0.run_async_with(ask, &json!([])).as_u64().expect("a number of bytes")
    }

    /// Everything it answers to a job, with the pixels of pictures.
    pub fn answers(&self, job: &Job) -> Vec<(Answer, Vec<u8>)> {
        let script = "const { answers } = await ask(arguments[0], arguments[1]);
            const text = (bytes) => new Uint8Array(bytes ?? 0).toBase64();
            return answers.map(([answer, pixels]) => [text(answer), text(pixels)]);";
        let answers = self.0.run_async_with(script, &asked(job));
        let bytes = |text: &Value| BASE64_STANDARD.decode(text.as_str().unwrap()).unwrap();
        let answers = answers.as_array().unwrap().iter();
        answers.map(|pair| (read(&bytes(&pair[0])).unwrap(), bytes(&pair[1]))).collect()
    }

    /// How long it takes to the first answer of each job, one after the other, ms.
    pub fn times(&self, jobs: &[Job]) -> Vec<f64> {
        let jobs: Vec<_> = jobs.iter().map(asked).collect();
        let script = "const times = [];
            for (const [job, last] of arguments[0]) times.push((await ask(job, last)).first);
            return times;";
        let times = self.0.run_async_with(script, &json!([jobs]));
        times.as_array().unwrap().iter().map(|time| time.as_f64().unwrap()).collect()
    }
}

/// A job's bytes, and those of its last answer as the page's `String` writes them.
fn asked(job: &Job) -> Value {
    let last: Vec<_> = written(&Answer::Done { id: job.id }).iter().map(u8::to_string).collect();
    json!([written(job), last.join(",")])
}
