//! The page without a network, and when a newer version comes, in a real browser. What is emulated for a page does not
//! reach its service worker: here the server itself goes, and what the browser remembers is cleared.

mod support;

use dappledome::serve::bundle::SERVICE_WORKER;
use dappledome::serve::server::Server;
use dappledome::serve::site::Site;
use serde_json::{Value, json};
use std::net::{SocketAddr, TcpListener};
use support::browser::Browser;
use support::page::{WATCH_WORKERS, says};
use support::site::{bundle, version};

/// The picture on the table, as a number; false while there is none worth the name.
const PICTURE: &str = "const canvas = document.querySelector('[role=application] canvas');
    if (!canvas || !canvas.width) return false;
    const pixels = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data.buffer;
    const colors = new Uint32Array(pixels);
    return new Set(colors).size > 1000 && colors.reduce((sum, color) => (Math.imul(sum, 31) + color) | 0, 1);";

/// True when the page is looked after by a service worker, which has then kept all of it.
const KEPT: &str = "return navigator.serviceWorker.controller !== null";

/// Lets an hour go by without the maker looking at the page.
const AN_HOUR_LATER: &str = "const now = Date.now;
    Date.now = () => now() + 2 * 3_600_000;
    document.dispatchEvent(new Event('visibilitychange'));";

/// The version that the page's style sheet says.
const STYLED_AS: &str =
    "return getComputedStyle(document.documentElement).getPropertyValue('--version').trim()";

const NOTE: &str = "A new version is ready.";

/// A server of this site on a port of its own, or on the one where another was.
fn serve(site: &Site, at: Option<SocketAddr>) -> Server {
    let address = at.unwrap_or_else(|| "127.0.0.1:0".parse().unwrap());
    Server::start(TcpListener::bind(address).unwrap(), site.clone()).unwrap()
}

/// Another site in place of the one that is served, at the same address.
fn replace(server: Server, site: &Site) -> Server {
    let address = server.address();
    drop(server);
    serve(site, Some(address))
}

/// A browser with the page drawn and kept.
fn kept(url: &str) -> Browser {
    let browser = Browser::start();
    open(&browser, url);
    browser.wait_for(KEPT);
    browser
}

fn open(browser: &Browser, url: &str) {
    browser.run_first(WATCH_WORKERS);
    browser.open(url);
    browser.wait_for(PICTURE);
}

/// Takes away the server, and what the browser remembers of it by itself.
fn go_offline(browser: &Browser, server: Server) {
    drop(server);
    browser.cdp("Network.clearBrowserCache", &json!({}));
    let there = browser.run_async("return fetch('elsewhere').then(() => true, () => false)");
    assert_eq!(there, Value::Bool(false), "the server is still there");
    // The console has said that, too.
    browser.console();
}

/// Kills the page's worker and has the next one draw.
fn the_worker_can_be_replaced(browser: &Browser) {
    let before = browser.run(
        "window.workers_before = workers.length;
        workers.at(-1).terminate();
        workers.at(-1).dispatchEvent(new ErrorEvent('error'));
        return document.querySelector('.seed-number').value;",
    );
    let seed: u32 = before.as_str().unwrap().parse().unwrap();
    let picture = browser.run(PICTURE);
    browser.set_value(".seed-number", &(seed + 1).to_string());
    browser.wait_for(&format!(
        "return workers.length > workers_before && (() => {{ {PICTURE} }})() !== {picture}"
    ));
}

/// Presses the first button whose words begin so.
fn press(browser: &Browser, words: &str) {
    browser.wait_for(&format!(
        "const button = [...document.querySelectorAll('button')].find((button) =>
            button.textContent.trim().startsWith({}));
        button?.click();
        return button !== undefined;",
        json!(words)
    ));
}

fn says_now(browser: &Browser, words: &str) -> bool {
    browser.run_with("return document.body.innerText.includes(arguments[0])", &json!([words])) == true
}

/// The version that the page's style sheet says.
fn styled_as(browser: &Browser) -> String {
    browser.run(STYLED_AS).as_str().unwrap().to_owned()
}

/// Waits until the page is of this version and drawn.
fn wait_for_version(browser: &Browser, n: u32) {
    browser.wait_for(&format!("return (() => {{ {STYLED_AS} }})() === '{n}'"));
    browser.wait_for(PICTURE);
}

/// The one folder that the root page, and everything that was loaded for it, names.
fn folder(browser: &Browser) -> String {
    let named = browser.run(
        "const named = [...document.querySelectorAll('[src], link')].map((one) => one.src ?? one.href);
        const loaded = performance.getEntriesByType('resource').map((one) => one.name);
        const folders = [...named, ...loaded].map((one) => one.match(/app-[0-9a-f]+/)?.[0]);
        return [...new Set(folders.filter(Boolean))];",
    );
    let folders = named.as_array().unwrap();
    assert_eq!(folders.len(), 1, "more than one version: {folders:?}");
    folders[0].as_str().unwrap().to_owned()
}

fn folder_of(site: &Site) -> &str {
    site.iter().next().unwrap().0.split('/').next().unwrap()
}

/// Has the browser look for a newer version now, and gives the state that this one comes to.
fn look_for_newer(browser: &Browser) -> String {
    let state = browser.run_async(
        "const registration = await navigator.serviceWorker.getRegistration();
        // The page itself looks when it is opened: what that found, or failed to keep, is over first.
        while (registration.installing) await new Promise((done) => setTimeout(done, 20));
        const found = new Promise((found) => registration.addEventListener('updatefound', found, { once: true }));
        await registration.update();
        // What the page itself has found already and waits is not found once more.
        if (!registration.waiting) await found;
        const worker = registration.installing ?? registration.waiting;
        if (!worker) return 'redundant';
        while (worker.state === 'installing') await new Promise((done) => setTimeout(done, 20));
        return worker.state;",
    );
    state.as_str().unwrap().to_owned()
}

#[test]
fn it_can_be_installed() {
    let server = serve(bundle(), None);
    let browser = kept(&server.url());
    let errors = browser.cdp("Page.getInstallabilityErrors", &json!({}));
    assert_eq!(errors["installabilityErrors"], json!([]));
    let manifest = browser.cdp("Page.getAppManifest", &json!({}));
    assert_eq!(manifest["url"], format!("{}manifest.webmanifest", server.url()));
    assert_eq!(manifest["errors"], json!([]));
    assert_eq!(manifest["manifest"]["startUrl"], server.url());
    assert_eq!((browser.violations(), browser.faults()), (Vec::new(), Vec::new()));
}

#[test]
fn it_works_without_a_network() {
    let server = serve(bundle(), None);
    let url = server.url();
    let browser = kept(&url);
    go_offline(&browser, server);
    the_worker_can_be_replaced(&browser);
    for address in [url.clone(), format!("{url}index.html"), format!("{url}?from=a-link#piece")] {
        browser.open(&address);
        browser.wait_for(PICTURE);
        the_worker_can_be_replaced(&browser);
        assert_eq!((browser.violations(), browser.faults()), (Vec::new(), Vec::new()), "{address}");
    }
    assert_eq!(
        browser
            .console()
            .into_iter()
            .filter(|words| !words.contains("willReadFrequently"))
            .collect::<Vec<_>>(),
        Vec::<String>::new()
    );
    browser.screenshot("offline");
}

#[test]
fn it_works_without_a_network_in_any_folder() {
    let mut site = version(1);
    for (path, bytes) in version(2).under("some/folder").iter() {
        site.insert(path, bytes);
    }
    let server = serve(&site, None);
    let (above, below) = (server.url(), format!("{}some/folder/", server.url()));
    // The one above keeps its hands off the one below.
    let browser = kept(&above);
    browser.open(&below);
    browser.wait_for(&format!(
        "return navigator.serviceWorker.controller?.scriptURL === '{below}{SERVICE_WORKER}'"
    ));
    let errors = browser.cdp("Page.getInstallabilityErrors", &json!({}));
    assert_eq!(errors["installabilityErrors"], json!([]));
    go_offline(&browser, server);
    for (url, version) in [(&above, "1"), (&below, "2")] {
        browser.open(url);
        browser.wait_for(PICTURE);
        assert_eq!(styled_as(&browser), version);
    }
    the_worker_can_be_replaced(&browser);
}

#[test]
fn a_newer_version_is_offered_and_the_old_page_goes_on_until_it_is_taken() {
    let (old, new) = (version(1), version(2));
    let server = serve(&old, None);
    let url = server.url();
    let browser = kept(&url);
    let first = browser.tab();
    let server = replace(server, &new);

    browser.run(AN_HOUR_LATER);
    browser.run_async(
        "const registration = await navigator.serviceWorker.getRegistration();
        while (!registration.waiting) await new Promise((done) => setTimeout(done, 20));",
    );
    assert!(
        !says_now(&browser, NOTE) && says_now(&browser, "This is Ember Walk"),
        "the welcome was there first"
    );
    the_worker_can_be_replaced(&browser);
    says(&browser, NOTE);
    browser.screenshot("new-version");

    browser.new_tab();
    open(&browser, &url);
    assert_eq!(styled_as(&browser), "1", "not before it is asked for");
    browser.set_value(".seed-number", "7");
    press(&browser, "Use it now");
    wait_for_version(&browser, 2);
    assert_eq!(folder(&browser), folder_of(&new));

    browser.turn_to(&first);
    assert_eq!(folder(&browser), folder_of(&old), "who did not ask for it is left in peace");
    go_offline(&browser, server);
    the_worker_can_be_replaced(&browser);
    assert_eq!(folder(&browser), folder_of(&old));
    press(&browser, "Use it now");
    wait_for_version(&browser, 2);
    assert_eq!(folder(&browser), folder_of(&new));
    assert_eq!((browser.violations(), browser.faults()), (Vec::new(), Vec::new()));
}

#[test]
fn the_offer_waits_for_other_slips_and_can_be_left() {
    let server = serve(&version(1), None);
    let url = server.url();
    let browser = kept(&url);
    let _server = replace(server, &version(2));
    browser.set_value(".seed-number", "7");
    assert_eq!(look_for_newer(&browser), "installed");
    says(&browser, NOTE);
    browser.run(
        "const dropped = new DataTransfer();
        dropped.items.add(new File(['no recipe'], 'wrong.txt'));
        window.dispatchEvent(new DragEvent('drop', { dataTransfer: dropped, bubbles: true, cancelable: true }));",
    );
    says(&browser, "wrong.txt");
    assert!(!says_now(&browser, NOTE));
    press(&browser, "Leave it");
    says(&browser, NOTE);
    press(&browser, "Next time");
    browser.wait_for("return document.querySelector('.slip') === null");
    assert_eq!(styled_as(&browser), "1");

    // Once the last page is closed, the next one is the newer.
    browser.open("data:text/html,<title>elsewhere</title>");
    browser.run_async("await new Promise((done) => setTimeout(done, 1000))");
    browser.open(&url);
    wait_for_version(&browser, 2);
    assert_eq!(folder(&browser), folder_of(&version(2)));
}

#[test]
fn a_broken_version_is_never_used() {
    let (old, whole) = (version(1), version(2));
    let server = serve(&old, None);
    let url = server.url();
    let browser = kept(&url);

    let mut without_a_file = whole.clone();
    without_a_file.remove(&format!("{}/worker.js", folder_of(&whole)));
    let mut half_uploaded = whole.clone();
    half_uploaded.insert("index.html", old.get("index.html").unwrap());
    let mut server = server;
    for broken in [without_a_file, half_uploaded] {
        server = replace(server, &broken);
        assert_eq!(look_for_newer(&browser), "redundant");
        browser.open(&url);
        browser.wait_for(PICTURE);
        assert_eq!(folder(&browser), folder_of(&old));
        the_worker_can_be_replaced(&browser);
        assert!(!says_now(&browser, NOTE));
    }

    let _server = replace(server, &whole);
    assert_eq!(look_for_newer(&browser), "installed", "mended, it is as good as any");
    says(&browser, NOTE);
}

/// The site with one of its version's files cut off in the middle, as by a host that was out of room; it answers 200.
fn cut_off(site: &Site, name: &str) -> Site {
    let mut cut = site.clone();
    let path = format!("{}/{name}", folder_of(site));
    let bytes = site.get(&path).unwrap_or_else(|| panic!("no {path}"));
    cut.insert(path, &bytes[..bytes.len() / 2]);
    cut
}

#[test]
fn a_version_with_half_a_file_is_never_kept() {
    let (old, whole) = (version(1), version(2));
    for name in ["style.css", "boot.js", "worker.js", "dappledome.js", "dappledome_bg.wasm"] {
        // A browser for each: the page looks by itself too, and what it fetches partly from one broken site and partly from
        // the next can be whole.
        let server = serve(&old, None);
        let url = server.url();
        let browser = kept(&url);
        let server = replace(server, &cut_off(&whole, name));
        assert_eq!(look_for_newer(&browser), "redundant", "{name}");
        browser.open(&url);
        browser.wait_for(PICTURE);
        assert_eq!(folder(&browser), folder_of(&old), "{name}");
        let _server = replace(server, &whole);
        assert_eq!(look_for_newer(&browser), "installed", "{name}: what was half is not remembered");
    }
}

/// Waits until the page says that it did not arrive, with a way out.
fn offers_to_try_again(browser: &Browser) {
    browser.wait_for(
        "return document.querySelector('#opening, body > p')?.textContent.includes('did not arrive')",
    );
    browser.wait_for("return document.querySelector('p > button')?.textContent === 'Try again'");
}

#[test]
fn a_first_opening_with_half_a_file_is_mended_once_the_file_is_whole() {
    let whole = version(1);
    for name in ["style.css", "boot.js", "dappledome.js", "dappledome_bg.wasm"] {
        let server = serve(&cut_off(&whole, name), None);
        let browser = Browser::start();
        browser.open(&server.url());
        offers_to_try_again(&browser);
        browser.screenshot(&format!("half-{}", name.split('.').next_back().unwrap()));
        let marked = "const marked = window.marked === true; window.marked = true; return marked";
        browser.run(marked);
        browser.run_async("await new Promise((done) => setTimeout(done, 700))");
        assert_eq!(browser.run(marked), true, "it goes round and round with half of {name}");
        let _server = replace(server, &whole);
        browser.click("p > button");
        browser.wait_for(PICTURE);
        assert_eq!(styled_as(&browser), "1", "{name}");
        browser.wait_for(KEPT);
    }
}

#[test]
fn what_only_helps_the_page_is_mended_behind_it() {
    let whole = version(1);
    for name in ["offline.js", "worker.js"] {
        let server = serve(&cut_off(&whole, name), None);
        let browser = Browser::start();
        browser.open(&server.url());
        says(&browser, "This is Ember Walk");
        let url = server.url();
        let _server = replace(server, &whole);
        // The first of these loads has what was half before, and sees to it.
        for _ in 0..2 {
            browser.open(&url);
            says(&browser, "This is Ember Walk");
            browser.run_async("await new Promise((done) => setTimeout(done, 1500))");
        }
        browser.wait_for(KEPT);
        browser.wait_for(PICTURE);
    }
}

/// Orders the piece on the table.
fn order(browser: &Browser) {
    press(browser, "Ticket for");
    press(browser, "Order these");
}

/// True when the order has come and was worked out, by a worker of its own.
const ORDERED: &str = "return document.querySelector('.order-bar') !== null";

#[test]
fn a_part_that_was_never_opened_opens_without_a_network() {
    let server = serve(bundle(), None);
    let url = server.url();
    let browser = kept(&url);
    go_offline(&browser, server);
    browser.open(&url);
    browser.wait_for(PICTURE);
    order(&browser);
    browser.wait_for(ORDERED);
    assert_eq!((browser.violations(), browser.faults()), (Vec::new(), Vec::new()));
}

#[test]
fn a_part_that_does_not_come_is_told_and_fetched_again_when_it_is_asked_for() {
    let whole = version(1);
    let server = serve(&cut_off(&whole, "split_order.wasm"), None);
    let browser = Browser::start();
    open(&browser, &server.url());
    browser.set_value(".seed-number", "7");
    order(&browser);
    says(&browser, "This part of the page did not arrive. Nothing is lost");
    browser.screenshot("part-missing");
    let server = replace(server, &whole);
    press(&browser, "Try again");
    browser.wait_for(ORDERED);
    assert_eq!(browser.run("return document.querySelector('.seed-number').value"), json!("7"));

    // Without a network it is told as well, and can be laid aside.
    let half = cut_off(&whole, "split_order.wasm");
    let server = replace(server, &half);
    let other = Browser::start();
    open(&other, &server.url());
    drop(server);
    order(&other);
    says(&other, "This part of the page did not arrive. Nothing is lost");
    press(&other, "Close");
    other.wait_for("return document.querySelector('.part') === null");
    assert_eq!(other.violations(), Vec::<String>::new());
}

/// Clears what the browser remembers beside what is kept: its own store, and what the tab has in memory.
fn forget_what_was_loaded(browser: &Browser) {
    browser.cdp("Network.clearBrowserCache", &json!({}));
    for disabled in [true, false] {
        browser.cdp("Network.setCacheDisabled", &json!({ "cacheDisabled": disabled }));
    }
}

/// Cuts a file in half where the browser keeps it.
fn damage_what_is_kept(browser: &Browser, version: &Site, name: &str) {
    browser.run_async_with(
        "for (const cache of await caches.keys()) {
            if (!cache.endsWith(arguments[0])) continue;
            const shelf = await caches.open(cache);
            const url = new URL(`${arguments[0]}/${arguments[1]}`, location.href.split('#')[0]);
            const file = await shelf.match(url);
            const bytes = await file.arrayBuffer();
            await shelf.put(url, new Response(bytes.slice(0, bytes.byteLength / 2), { headers: file.headers }));
        }",
        &json!([folder_of(version), name]),
    );
}

#[test]
fn a_kept_version_that_does_not_open_gives_way_to_the_one_before() {
    let (old, new) = (version(1), version(2));
    for name in ["dappledome_bg.wasm", "boot.js", "style.css"] {
        let server = serve(&old, None);
        let url = server.url();
        let browser = kept(&url);
        let server = replace(server, &new);
        browser.set_value(".seed-number", "7");
        assert_eq!(look_for_newer(&browser), "installed");
        press(&browser, "Use it now");
        wait_for_version(&browser, 2);
        damage_what_is_kept(&browser, &new, name);
        drop(server);
        forget_what_was_loaded(&browser);

        browser.open(&url);
        wait_for_version(&browser, 1);
        assert_eq!(folder(&browser), folder_of(&old), "{name}");
        says(&browser, "The new version did not arrive whole.");
        browser.screenshot("went-back");
        press(&browser, "Close");
        assert!(!says_now(&browser, "did not arrive whole"));
        browser.open(&url);
        wait_for_version(&browser, 1);
        assert!(!says_now(&browser, "did not arrive whole"), "it is said once");

        // With the host back, the newer one is fetched behind the older one's back, and opens next.
        let _server =
            serve(&new, Some(url.trim_start_matches("http://").trim_end_matches('/').parse().unwrap()));
        browser.open(&url);
        wait_for_version(&browser, 1);
        browser.run_async_with(
            "while (!await caches.match(new URL(`${arguments[0]}/boot.js`, location.href)))
                await new Promise((done) => setTimeout(done, 50));",
            &json!([folder_of(&new)]),
        );
        forget_what_was_loaded(&browser);
        browser.open(&url);
        wait_for_version(&browser, 2);
        assert_eq!(folder(&browser), folder_of(&new), "{name}");
        assert_eq!(browser.violations(), Vec::<String>::new());
    }
}

#[test]
fn without_one_before_a_damaged_version_comes_from_the_host_again() {
    let site = version(1);
    let server = serve(&site, None);
    let browser = kept(&server.url());
    damage_what_is_kept(&browser, &site, "dappledome_bg.wasm");
    browser.open(&server.url());
    wait_for_version(&browser, 1);
    assert!(!says_now(&browser, "did not arrive"));
}

#[test]
fn one_older_version_stays() {
    let mut server = serve(&version(1), None);
    let url = server.url();
    let browser = kept(&url);
    for n in 2..=3 {
        server = replace(server, &version(n));
        browser.set_value(".seed-number", "7");
        assert_eq!(look_for_newer(&browser), "installed");
        press(&browser, "Use it now");
        wait_for_version(&browser, n);
    }
    let kept = browser.run_async("return (await caches.keys()).map((name) => name.split(' ').at(-1)).sort()");
    let mut expected = [folder_of(&version(2)).to_owned(), folder_of(&version(3)).to_owned(), "notes".into()];
    expected.sort_unstable();
    assert_eq!(kept, json!(expected));
}

#[test]
fn what_is_kept_is_the_whole_bundle() {
    let script = std::str::from_utf8(bundle().get(SERVICE_WORKER).unwrap()).unwrap();
    assert!(!script.contains("{{"), "{script}");
    let (_, list) = script.split_once("const FILES = new Map(").unwrap();
    let kept: Vec<(&str, &str)> = serde_json::from_str(list.split_once(");").unwrap().0).unwrap();
    let kept: Vec<_> = kept.into_iter().map(|(path, _)| path).collect();
    let files = bundle().iter().map(|(path, _)| path).filter(|path| *path != SERVICE_WORKER);
    let expected: Vec<_> = files.map(|path| if path == "index.html" { "./" } else { path }).collect();
    assert_eq!(kept, expected);
    assert!(script.contains(&format!("const VERSION = \"{}\";", folder_of(bundle()))), "{script}");
}
