//! The page, built once and served by one server for all tests of a binary: at the root, and again further down.

use dappledome::serve::bundle;
use dappledome::serve::server::Server;
use dappledome::serve::site::Site;
use std::net::TcpListener;
use std::sync::OnceLock;

/// An empty page of the same origin, for tests that bring their own script.
pub const BLANK: &str = "blank.html";

/// A folder of the test server that has the page too.
pub const SUB_PATH: &str = "some/sub/path";

/// A folder of the test server that has the page without its program, as after a broken upload.
pub const BROKEN_PATH: &str = "broken";

/// The page as `dappledome bundle` lays it out. The first call builds it, which may take minutes.
pub fn bundle() -> &'static Site {
    static BUNDLE: OnceLock<Site> = OnceLock::new();
    BUNDLE.get_or_init(|| lay_out(parts().clone()))
}

/// The page as version `n`: its style sheet says the number, as `--version`, and nothing else differs.
pub fn version(n: u32) -> Site {
    let mut parts = parts().clone();
    let mut style = parts.remove("style.css").unwrap();
    style.extend(format!(":root {{ --version: {n}; }}").bytes());
    parts.insert("style.css", style);
    lay_out(parts)
}

fn parts() -> &'static Site {
    static PARTS: OnceLock<Site> = OnceLock::new();
    PARTS.get_or_init(|| bundle::parts().unwrap_or_else(|trouble| panic!("{trouble}")))
}

fn lay_out(parts: Site) -> Site {
    bundle::lay_out(parts).unwrap_or_else(|trouble| panic!("{trouble}"))
}

/// A worker that tries what the policy forbids, and what it allows, and says what came of it.
const PROBE: &str = "
    const outcome = async (attempt) => { try { await attempt(); return 'ok'; } catch (fault) { return fault.name; } };
    postMessage({
        eval: await outcome(() => eval('1')),
        elsewhere: await outcome(() => fetch('http://canary.example/')),
        own: await outcome(() => fetch('/blank.html')),
    });
";

/// A worker around the worker whose address is its own fragment: asked on the channel of its name, it says how large the memory of its
/// program is.
pub const WATCHED: &str = "watched_worker.js";
const WATCHED_SCRIPT: &str = "
    let memory;
    const { instantiate } = WebAssembly;
    WebAssembly.instantiate = async (...given) => {
        const made = await instantiate.apply(WebAssembly, given);
        memory ??= (made.instance ?? made).exports.memory;
        return made;
    };
    const channel = new BroadcastChannel('memory');
    channel.onmessage = ({ data }) => { if (data === 'how large') channel.postMessage(memory.buffer.byteLength); };
    const early = [];
    const wait = ({ data }) => early.push(data);
    addEventListener('message', wait);
    await import(new URL(location.hash.slice(1), location.origin));
    removeEventListener('message', wait);
    for (const data of early) dispatchEvent(new MessageEvent('message', { data }));
";

/// Where the page is, with a slash at the end.
pub fn page_url() -> String {
    static SERVER: OnceLock<Server> = OnceLock::new();
    let server = SERVER.get_or_init(|| {
        let mut site = bundle().clone();
        for (path, bytes) in bundle().clone().under(SUB_PATH).iter() {
            site.insert(path, bytes);
        }
        for (path, bytes) in bundle().iter().filter(|(path, _)| !path.ends_with(".wasm")) {
            site.insert(format!("{BROKEN_PATH}/{path}"), bytes);
        }
        site.insert(BLANK, "<!doctype html><title>blank</title><link rel=icon href=data:,>");
        site.insert("probe.js", PROBE);
        site.insert(WATCHED, WATCHED_SCRIPT);
        Server::start(TcpListener::bind("127.0.0.1:0").unwrap(), site).unwrap()
    });
    server.url()
}

/// The path of a bundled file from the root of the site: `app_path("dappledome.js")` is `app-…/dappledome.js`.
pub fn app_path(name: &str) -> String {
    let end = format!("/{name}");
    let mut paths = bundle().iter().map(|(path, _)| path);
    paths.find(|path| path.ends_with(&end)).unwrap_or_else(|| panic!("the bundle has no {name}")).to_owned()
}
