//! Orders, the bench and the log kept in a real browser: after a reload, in two tabs, in a back-up, with a photo; and what a firing
//! teaches, taken over only when it is pressed.

mod support;

use dappledome::orders::file;
use dappledome::orders::model::Order;
use dappledome::recipe::demo;
use serde_json::{Value, json};
use std::fs;
use support::browser::{Browser, key};
use support::page::{drop_file, nothing_went_wrong, opened, press, saved_text, saves_into, says};
use support::site::page_url;

/// An order file of this title, due in the year 2100.
fn order(title: &str) -> String {
    let mut order =
        Order { title: title.into(), customer: "Ada".into(), ..Order::of(demo::ember_walk(), 12) };
    order.due = Some("2100-12-18".parse().unwrap());
    file::write(&order)
}

/// The texts that our database has of a kind.
fn stored(browser: &Browser, store: &str) -> Vec<Value> {
    let all = browser.run_async_with(
        "const promised = (request) => new Promise((done, failed) => {
            request.onsuccess = () => done(request.result); request.onerror = () => failed(request.error); });
        const database = await promised(indexedDB.open('dappledome'));
        const all = await promised(database.transaction(arguments[0]).objectStore(arguments[0]).getAll());
        database.close();
        return all.map((one) => one.text ?? one.length);",
        &json!([store]),
    );
    let read =
        |one: &Value| one.as_str().map_or(one.clone(), |text| serde_json::from_str(text).unwrap_or_default());
    all.as_array().unwrap().iter().map(read).collect()
}

fn titles(browser: &Browser) -> Vec<String> {
    let mut titles: Vec<String> =
        stored(browser, "orders").iter().map(|one| one["title"].as_str().unwrap().into()).collect();
    titles.sort_unstable();
    titles
}

/// Waits until these orders are stored.
fn orders_are(browser: &Browser, wanted: &[&str]) {
    let start = std::time::Instant::now();
    while titles(browser) != wanted {
        assert!(start.elapsed().as_secs() < 20, "{:?} instead of {wanted:?}", titles(browser));
        pause(browser, 100);
    }
}

fn pause(browser: &Browser, time: u32) {
    browser.run_async(&format!("await new Promise((done) => setTimeout(done, {time}))"));
}

fn drawn(browser: &Browser) {
    browser.open(&page_url());
    says(browser, "mm across");
}

fn take_in(browser: &Browser, title: &str) {
    drop_file(browser, "order.json", order(title));
    browser.wait_for(&format!("return document.querySelector('.order-title')?.value === {}", json!(title)));
}

fn retitle(browser: &Browser, title: &str) {
    browser.set_value(".order-title", title);
}

fn open_shelf(browser: &Browser) {
    if browser.run("return document.querySelector('.order-title') !== null") == true {
        press(browser, "Close the order");
    }
    press(browser, "Shelf");
    browser.wait_for("return document.querySelector('.shelf-count')?.textContent.match(/shelf|Every|found/)");
}

/// The words of the orders on the shelf.
fn on_shelf(browser: &Browser) -> String {
    browser.run("return document.querySelector('#shelf-orders').innerText").as_str().unwrap().to_owned()
}

/// Writes the full fuse of the piece on the table up.
fn log_this(browser: &Browser) {
    press(browser, "Full fuse");
    press(browser, "Program");
    press(browser, "Log this firing");
    browser.wait_for("return document.querySelector('.log-entry')");
}

/// Types a number over what was.
fn was(browser: &Browser, name: &str, text: &str) {
    browser.click(&format!(".log-table [aria-label='{name}']"));
    browser.keys(&format!(".log-table input[aria-label='{name}']"), text);
    browser.press_keys(key::ENTER);
}

fn note(browser: &Browser, name: &str, text: &str) {
    browser.click(&format!("textarea[aria-label='{name}']"));
    browser.keys(&format!("textarea[aria-label='{name}']"), text);
}

/// Chooses a photo of this many pixels, as the browser's own dialog would.
fn choose_photo(browser: &Browser, wide: u32, high: u32) {
    browser.run_async_with(
        "const canvas = document.createElement('canvas');
        [canvas.width, canvas.height] = arguments;
        const context = canvas.getContext('2d');
        context.fillStyle = '#c83214';
        context.fillRect(0, 0, canvas.width, canvas.height);
        const blob = await new Promise((done) => canvas.toBlob(done, 'image/png'));
        const chosen = new DataTransfer();
        chosen.items.add(new File([blob], 'fired.png', { type: 'image/png' }));
        const field = document.querySelector('.photo-field');
        field.files = chosen.files;
        field.dispatchEvent(new Event('change', { bubbles: true }));",
        &json!([wide, high]),
    );
}

/// The color in the middle of the photo that is shown, and its size.
fn photo(browser: &Browser) -> Value {
    browser.wait_for("return document.querySelector('.log-round img')?.complete");
    browser.run(
        "const photo = document.querySelector('.log-round img');
        const canvas = document.createElement('canvas');
        [canvas.width, canvas.height] = [1, 1];
        canvas.getContext('2d').drawImage(photo, 0, 0, 1, 1);
        return [photo.naturalWidth, photo.naturalHeight, ...canvas.getContext('2d').getImageData(0, 0, 1, 1).data];",
    )
}

#[test]
fn an_order_is_there_after_a_reload_and_is_put_back_when_it_was_taken_away() {
    let browser = opened();
    open_shelf(&browser);
    says(&browser, "Nothing ordered yet");
    take_in(&browser, "Harborside");
    orders_are(&browser, &["Harborside"]);
    retitle(&browser, "Harborside garden");
    orders_are(&browser, &["Harborside garden"]);
    drawn(&browser);
    open_shelf(&browser);
    says(&browser, "Harborside garden");
    let said = on_shelf(&browser);
    assert!(said.contains("Ada, 12 pieces, due Dec 18, 2100, in "), "{said}");
    assert!(says_jump(&browser, "Orders 1"));
    browser.screenshot("shelf-orders-1280");
    let folder = saves_into(&browser, "order-file");
    press(&browser, "Save as a file");
    let saved = saved_text(&folder, ".json");
    assert_eq!(file::read(&saved).unwrap().title, "Harborside garden");
    browser.click("#shelf-orders [aria-label='Take away: Harborside garden']");
    says(&browser, "Harborside garden taken away.");
    orders_are(&browser, &[]);
    browser.run("[...document.querySelectorAll('#shelf-orders button')].find((one) => one.innerText === 'Put back').click()");
    orders_are(&browser, &["Harborside garden"]);
    browser.set_viewport(390, 844, 1.0);
    browser.run("document.querySelector('#shelf-orders').scrollIntoView()");
    browser.screenshot("shelf-orders-390");
    nothing_went_wrong(&browser);
}

fn says_jump(browser: &Browser, words: &str) -> bool {
    browser.run("return document.querySelector('.shelf-jumps').innerText").as_str().unwrap().contains(words)
}

#[test]
fn a_broken_order_is_told_and_nothing_is_lost() {
    let browser = opened();
    take_in(&browser, "Harborside");
    orders_are(&browser, &["Harborside"]);
    for (broken, told) in [
        (order("Cut")[..900].to_owned(), "An order file with a mistake in it."),
        (order("None").replace("\"count\": 12", "\"count\": 0"), "The pieces of Ember Walk is 0."),
    ] {
        drop_file(&browser, "broken.json", broken);
        says(&browser, told);
        assert_eq!(titles(&browser), ["Harborside"]);
    }
}

#[test]
fn two_tabs_follow_each_other_and_keep_both_where_both_changed() {
    let browser = opened();
    take_in(&browser, "Shared");
    orders_are(&browser, &["Shared"]);
    let first = browser.tab();
    let second = browser.new_tab();
    drawn(&browser);
    open_shelf(&browser);
    says(&browser, "Shared");
    press(&browser, "Shared");
    retitle(&browser, "Changed there");
    browser.turn_to(&first);
    browser.wait_for("return document.querySelector('.order-title').value === 'Changed there'");
    for tab in [&first, &second] {
        browser.turn_to(tab);
        browser.run("BroadcastChannel.prototype.postMessage = () => {}");
    }
    retitle(&browser, "Mine");
    orders_are(&browser, &["Mine"]);
    browser.turn_to(&first);
    retitle(&browser, "Yours");
    orders_are(&browser, &["Mine", "Yours (2)"]);
    browser.wait_for("return document.querySelector('.order-title').value === 'Yours (2)'");
    open_shelf(&browser);
    says(&browser, "Yours was changed in another tab too. Both are kept.");
    assert!(on_shelf(&browser).contains("Mine") && on_shelf(&browser).contains("Yours (2)"));
}

#[test]
fn a_damaged_order_stays_and_can_be_saved_as_it_is() {
    let browser = opened();
    take_in(&browser, "Whole");
    orders_are(&browser, &["Whole"]);
    browser.run_async(
        "const promised = (request) => new Promise((done) => { request.onsuccess = () => done(request.result); });
        const database = await promised(indexedDB.open('dappledome'));
        const deal = database.transaction(['orders', 'bench'], 'readwrite');
        deal.objectStore('orders').put({ revision: 3, changed: 5, text: '{ half an' }, 77);
        deal.objectStore('bench').put({ revision: 3, changed: 5, text: '{ a bench' }, 0);
        await new Promise((done) => { deal.oncomplete = done; });
        database.close();",
    );
    drawn(&browser);
    open_shelf(&browser);
    says(&browser, "An order is damaged and cannot be read. It stays.");
    says(&browser, "Sheets, jars and prices are damaged");
    // What is written now is kept beside it.
    browser.set_value("[aria-label='Add a jar']", "rust");
    says(&browser, "Rust, powder");
    browser.wait_for("return document.querySelectorAll('#shelf-stock .mold-item').length === 1");
    pause(&browser, 1500);
    let benches = stored(&browser, "bench");
    assert_eq!(benches.len(), 2, "{benches:?}");
    assert!(benches.iter().any(|bench| bench["stock"]["jars"][0]["glass"] == "rust"), "{benches:?}");
    let folder = saves_into(&browser, "damaged-order");
    press(&browser, "Save what is there");
    assert!(saved_text(&folder, "damaged.json").starts_with("{ "));
    drawn(&browser);
    open_shelf(&browser);
    says(&browser, "Rust, powder");
    says(&browser, "An order is damaged");
    nothing_went_wrong(&browser);
}

#[test]
fn a_firing_is_written_up_with_its_photo_found_and_remembered() {
    let browser = opened();
    log_this(&browser);
    was(&browser, "Top", "794");
    was(&browser, "Broken", "1");
    was(&browser, "Whole", "6");
    was(&browser, "Open at", "8:40");
    note(&browser, "What differed", "New jar of rust, mixed into the old.");
    note(&browser, "Next time", "Rust at 0.35 mm.");
    choose_photo(&browser, 1600, 1200);
    let seen = photo(&browser);
    assert_eq!((&seen[0], &seen[1]), (&json!(800), &json!(600)));
    let near = |at: usize, wanted: i64| (seen[at].as_i64().unwrap() - wanted).abs() < 12;
    assert!(near(2, 0xc8) && near(3, 0x32) && near(4, 0x14), "{seen}");
    browser
        .wait_for("return [...document.querySelectorAll('.log canvas')].every((canvas) => canvas.width > 1)");
    browser.screenshot("log-1280");
    pause(&browser, 1200);
    let entries = stored(&browser, "log");
    assert_eq!(entries[0]["was"]["top"], 794.0, "{entries:?}");
    assert_eq!(entries[0]["was"]["opened"], 520.0);
    assert_eq!(entries[0]["asked"]["top"], 790.0);
    drawn(&browser);
    says(&browser, "Next time: Rust at 0.35 mm.");
    browser.screenshot("log-next-time-1280");
    open_shelf(&browser);
    press(&browser, "Log 1");
    press(&browser, "Ember Walk");
    assert_eq!(photo(&browser), seen, "the same after a reload");
    let differed = "return document.querySelector(\"textarea[aria-label='What differed']\").value";
    assert_eq!(browser.run(differed), "New jar of rust, mixed into the old.");
    for (search, found) in [("mixed RUST", 1), ("794", 0), ("straw", 1), ("moss", 0), ("full fuse", 1)] {
        browser.set_value(".log .shelf-search", search);
        browser.wait_for(&format!("return document.querySelectorAll('.log-item').length === {found}"));
    }
    browser.set_value(".log .shelf-search", "");
    browser.set_viewport(390, 844, 1.0);
    browser.wait_for(
        "return [...document.querySelectorAll('.log-pictures canvas')].every((one) => one.width > 1)",
    );
    browser.screenshot("log-390");
    let wide = browser.run("return document.documentElement.scrollWidth > innerWidth");
    assert_eq!(wide, false);
    browser.set_viewport(1280, 800, 1.0);
    press(&browser, "Take away");
    says(&browser, "Ember Walk taken away.");
    pause(&browser, 1000);
    assert_eq!(stored(&browser, "log").len(), 0);
    press(&browser, "Put back");
    assert_eq!(photo(&browser), seen, "it comes back with its photo");
    nothing_went_wrong(&browser);
}

#[test]
fn what_is_no_photo_is_told() {
    let browser = opened();
    log_this(&browser);
    browser.run(
        "const chosen = new DataTransfer();
        chosen.items.add(new File(['notes'], 'notes.txt', { type: 'text/plain' }));
        const field = document.querySelector('.photo-field');
        field.files = chosen.files;
        field.dispatchEvent(new Event('change', { bubbles: true }));",
    );
    says(&browser, "Not a photo: notes.txt");
    was(&browser, "Top", "nine");
    browser.wait_for("return document.querySelector('.log-entry .refused:not(:empty)')");
    browser.press_keys(key::ESCAPE);
    nothing_went_wrong(&browser);
}

#[test]
fn what_was_is_taken_over_only_when_it_is_pressed() {
    let browser = opened();
    open_shelf(&browser);
    press(&browser, "My kiln");
    press(&browser, "Close the shelf");
    log_this(&browser);
    let asked = browser.run(
        "return parseFloat([...document.querySelectorAll('.log-table tr')].find((row) => row.innerText.startsWith('Energy')).children[1].innerText)",
    );
    let asked = asked.as_f64().unwrap();
    assert_eq!(
        browser.run("return document.querySelector('.log-offers').innerText"),
        "",
        "nothing was said yet"
    );
    let was_kwh = (asked * 12.0).round() / 10.0;
    was(&browser, "Energy", &was_kwh.to_string());
    says(&browser, &format!("Your kiln took {was_kwh:.1} kWh where {asked:.1} was reckoned."));
    let metered = "return (localStorage.getItem('dappledome.own-kiln') ?? '').includes('kwh')";
    assert_eq!(browser.run(metered), false, "it is not taken over by itself");
    press(&browser, "Take it over");
    says(&browser, "Taken over: programs and prices reckon with it.");
    assert_eq!(browser.run(metered), true);
    let opened = browser.run(
        "return [...document.querySelectorAll('.log-table tr')].find((row) => row.innerText.startsWith('Open at')).children[1].innerText.match(/(\\d+):(\\d+)/).slice(1).map(Number)",
    );
    let opened = opened[0].as_i64().unwrap() * 60 + opened[1].as_i64().unwrap();
    let later = (opened + 120) % 1440;
    was(&browser, "Open at", &format!("{:02}:{:02}", later / 60, later % 60));
    says(&browser, "Your kiln could be opened 2 h 00 later than reckoned.");
    let leaks = "return JSON.parse(localStorage.getItem('dappledome.own-kiln')).leaks";
    assert_eq!(browser.run(leaks), Value::Null, "it is not taken over by itself");
    press(&browser, "Take it over");
    says(&browser, "Taken over: your kiln cools by it now.");
    assert!(browser.run(leaks).as_f64().is_some_and(|leaks| leaks < 1.0), "it cools more slowly");
    browser.screenshot("log-taken-over-1280");
    nothing_went_wrong(&browser);
}

#[test]
fn a_back_up_brings_orders_and_log_back_and_an_old_one_its_pieces() {
    let browser = opened();
    take_in(&browser, "Harborside");
    press(&browser, "Close the order");
    log_this(&browser);
    note(&browser, "Next time", "Check the stop.");
    choose_photo(&browser, 90, 60);
    let seen = photo(&browser);
    pause(&browser, 1200);
    press(&browser, "Close the log");
    press(&browser, "Close the firings");
    open_shelf(&browser);
    browser.set_value("[aria-label='Add a jar']", "rust");
    pause(&browser, 1200);
    let folder = saves_into(&browser, "back-up-2");
    press(&browser, "Back up everything");
    says(&browser, "1 order, 1 firing and sheets, jars and prices saved as");
    let saved = saved_text(&folder, ".json");
    nothing_went_wrong(&browser);
    drop(browser);

    let browser = opened();
    drop_file(&browser, "all.json", &saved);
    says(&browser, "1 order, 1 firing and sheets, jars and prices brought in");
    orders_are(&browser, &["Harborside"]);
    says(&browser, "Rust, powder");
    drop_file(&browser, "all.json", &saved);
    says(&browser, "were here already");
    pause(&browser, 1000);
    assert_eq!((stored(&browser, "orders").len(), stored(&browser, "log").len()), (1, 1));
    press(&browser, "Log 1");
    press(&browser, "Ember Walk");
    assert_eq!(photo(&browser), seen);
    // A file of the program as it was before orders were kept.
    let old = fs::read_to_string("tests/data/backup_1.json").unwrap();
    drop_file(&browser, "old.json", &old);
    says(&browser, "3 pieces brought in.");
    nothing_went_wrong(&browser);
}
