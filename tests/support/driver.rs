//! A small WebDriver client: starts chromedriver with a folder of its own, and leaves nothing behind.

use serde_json::{Value, json};
use std::io::{BufRead, BufReader};
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::Duration;
use std::{env, fs, process, thread};

/// Starts the driver and ends it, with the browser it started, as soon as the pipe to it closes: also when the test
/// program is killed and can no longer see to it. The shell lets go of the driver's output, so that a driver that ends by
/// itself ends that too: whoever waits for its words would wait for ever.
const WATCHED_DRIVER: &str = "chromedriver --port=0 & exec >/dev/null; cat
    trap '' TERM; kill -TERM 0; sleep 0.3; rm -rf \"$TMPDIR\"; kill -KILL 0";

/// How often the driver is started until it is given up.
const STARTS: usize = 3;
/// How long a script may take in the page.
const SCRIPT_PATIENCE: Duration = Duration::from_secs(120);
/// How long a command may take.
const PATIENCE: Duration = Duration::from_secs(130);

/// A running chromedriver with one session.
#[derive(Debug)]
pub struct Driver {
    watched: Child,
    folder: PathBuf,
    agent: ureq::Agent,
    /// Address of the session.
    session: String,
}

impl Driver {
    /// Starts the driver and a headless browser with these further flags.
    pub fn start(flags: &[String]) -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let name = format!("dappledome-test-{}-{}", process::id(), COUNT.fetch_add(1, Ordering::Relaxed));
        let folder = env::temp_dir().join(name);
        let started = (0..STARTS).find_map(|_| start_watched(&folder));
        let (watched, port) = started.expect("chromedriver starts; `make test` installs it");
        let agent = ureq::Agent::config_builder()
            .http_status_as_error(false)
            .proxy(None)
            .timeout_global(Some(PATIENCE))
            .build()
            .new_agent();
        let mut driver = Self { watched, folder, agent, session: format!("http://127.0.0.1:{port}/session") };
        let session = driver.post("", &driver.capabilities(flags));
        driver.session = format!("{}/{}", driver.session, session["sessionId"].as_str().unwrap());
        driver
    }

    fn capabilities(&self, flags: &[String]) -> Value {
        let mut args: Vec<String> = FLAGS.iter().map(|flag| (*flag).to_owned()).collect();
        // Of two flags of one name the later one holds.
        args.push(profile(&self.folder.join("profile")));
        args.extend_from_slice(flags);
        json!({ "capabilities": { "alwaysMatch": {
            "browserName": "chrome",
            "timeouts": { "script": SCRIPT_PATIENCE.as_millis() as u64 },
            "goog:chromeOptions": { "args": args },
            "goog:loggingPrefs": { "browser": "ALL" },
        } } })
    }

    /// Sends a command of the session that takes arguments, and gives its result.
    pub fn post(&self, command: &str, arguments: &Value) -> Value {
        let address = format!("{}{command}", self.session);
        let answer = self.agent.post(&address).content_type("application/json").send(arguments.to_string());
        result(command, answer)
    }

    /// Sends a command of the session that takes none, and gives its result.
    pub fn get(&self, command: &str) -> Value {
        result(command, self.agent.get(format!("{}{command}", self.session)).call())
    }

    /// Sends a command that the browser need not answer properly.
    pub fn try_post(&self, command: &str, arguments: &Value) {
        let address = format!("{}{command}", self.session);
        // It may be the end of the one who would answer.
        drop(self.agent.post(&address).content_type("application/json").send(arguments.to_string()));
    }

    /// Sends a command of the browser's own protocol.
    pub fn cdp(&self, command: &str, parameters: &Value) -> Value {
        self.post("/goog/cdp/execute", &json!({ "cmd": command, "params": parameters }))
    }
}

/// Without a display, as root, and with as little talk of the browser's own as it can be kept to.
const FLAGS: [&str; 13] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--disable-dev-shm-usage",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-domain-reliability",
    "--disable-features=AutofillServerCommunication,OptimizationHints,MediaRouter",
    "--disable-sync",
    "--window-size=1366,900",
];

impl Drop for Driver {
    fn drop(&mut self) {
        // Asked kindly first, so that the browser closes its files; it does not matter if it cannot any more.
        drop(self.agent.delete(&self.session).call());
        drop(self.watched.stdin.take());
        drop(self.watched.wait());
        drop(fs::remove_dir_all(&self.folder));
    }
}

/// The flag that has the browser keep what it keeps in this folder.
pub fn profile(folder: &Path) -> String {
    format!("--user-data-dir={}", folder.display())
}

/// Starts the driver and learns where it listens; none if it ended by itself.
fn start_watched(folder: &Path) -> Option<(Child, u16)> {
    // What watched a driver before has cleared it away.
    fs::create_dir_all(folder).unwrap();
    let mut watched = Command::new("sh")
        .args(["-c", WATCHED_DRIVER])
        .env("TMPDIR", folder)
        .process_group(0)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("a shell starts");
    let port = read_port(&mut watched);
    if port.is_none() {
        drop(watched.stdin.take());
        drop(watched.wait());
    }
    Some((watched, port?))
}

/// Reads the driver's output until it says where it listens, and goes on reading so that it is never blocked.
fn read_port(watched: &mut Child) -> Option<u16> {
    let mut lines = BufReader::new(watched.stdout.take().unwrap()).lines();
    let said =
        lines.by_ref().map_while(Result::ok).find(|line| line.contains("started successfully on port"))?;
    thread::spawn(move || lines.for_each(drop));
    said.trim_end_matches('.').rsplit(' ').next().unwrap().parse().ok()
}

fn result(command: &str, answer: Result<ureq::http::Response<ureq::Body>, ureq::Error>) -> Value {
    let mut answer =
        answer.unwrap_or_else(|fault| panic!("the driver does not answer to {command}: {fault}"));
    let text = answer.body_mut().with_config().limit(256 << 20).read_to_string().unwrap();
    let mut value: Value = serde_json::from_str(&text).unwrap_or_else(|_| panic!("{command}: {text}"));
    let value = value["value"].take();
    assert!(value["error"].is_null(), "{command}: {}: {}", value["error"], value["message"]);
    value
}
