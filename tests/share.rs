//! A piece that goes out and comes in: links, pictures, files, pastes, and hostile ones by the thousand.

mod support;

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use dappledome::base::seed::Seed;
use dappledome::glass::catalogue;
use dappledome::glass::kind::Glass;
use dappledome::keep::backup;
use dappledome::keep::open::{OpenFault, Opened, open};
use dappledome::orders::model::Order;
use dappledome::orders::{self, file as order_file};
use dappledome::picture::{Pixmap, png};
use dappledome::recipe::piece::Piece;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::shelf::Shelf;
use dappledome::recipe::{demo, file, link};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use serde_json::{Value, json};
use support::browser::Browser;
use support::page::{
    drop_file, nothing_but, nothing_went_wrong, opened, press, saved_file, saves_into, says, settled,
};
use support::site::page_url;

/// Writes down what the page copies.
const WATCH_CLIPBOARD: &str =
    "navigator.clipboard.writeText = async (text) => { window.copied = text; }; window.copied = '';";

const TITLE: &str = "return document.querySelector('h1 input').value";

#[test]
fn a_link_opens_the_whole_piece_in_a_fresh_browser() {
    let browser = opened();
    browser.run(WATCH_CLIPBOARD);
    press(&browser, "42");
    browser.set_value("h1 input", "Ember, for Ines");
    press(&browser, "Share");
    says(&browser, "A link from here opens only on this machine");
    press(&browser, "Copy link");
    says(&browser, "Copied. The link holds the whole piece");
    let link = browser.run("return window.copied");
    press(&browser, "Close");
    let picture = settled(&browser);
    browser.screenshot("share");
    let other = Browser::start();
    other.set_viewport(1280, 800, 1.0);
    other.open(link.as_str().unwrap());
    says(&other, "From a link. Kept as a new piece.");
    assert_eq!(other.run(TITLE), "Ember, for Ines");
    assert_eq!(other.run("return document.querySelector('.seed-number').value"), "42");
    assert_eq!(settled(&other), picture, "the same pixels");
    assert_eq!(other.run("return location.hash"), "", "a reload would make another copy");
    nothing_went_wrong(&browser);
    nothing_went_wrong(&other);
}

#[test]
fn a_damaged_link_is_said_and_a_forbidden_clipboard_survived() {
    let browser = opened();
    browser.run("navigator.clipboard.writeText = async () => { throw new Error('forbidden'); }");
    press(&browser, "Share");
    press(&browser, "Copy link");
    says(&browser, "Copy the link from here:");
    let link = browser.run("return document.querySelector('.link-field').value");
    let link = link.as_str().unwrap();
    browser.run(&format!("location.hash = {}", json!(&link[link.find('#').unwrap()..link.len() - 9])));
    says(&browser, "A damaged link.");
    assert_eq!(browser.run(TITLE), "Ember Walk");
    nothing_went_wrong(&browser);
}

#[test]
fn a_saved_picture_opens_its_piece_and_so_does_a_paste() {
    let browser = opened();
    let folder = saves_into(&browser, "saved-pictures");
    press(&browser, "42");
    settled(&browser);
    press(&browser, "Share");
    press(&browser, "Save picture");
    says(&browser, "Saved as ember-walk.png.");
    let picture = saved_file(&folder, "ember-walk.png");
    let Opened::Piece(inside) = open(&picture, Seed(1)).unwrap() else { panic!("a back-up") };
    assert_eq!((inside.recipe, inside.seed), (demo::ember_walk(), Seed(42)));
    paste(&browser, &file::write(&demo::all()[3]));
    browser.wait_for(&format!("{TITLE} === 'Heather'"));
    drop_file(&browser, "ember-walk.png", &picture);
    browser.wait_for(&format!("{TITLE} === 'Ember Walk'"));
    assert_eq!(browser.run("return document.querySelector('.seed-number').value"), "42");
    let shoal = Piece::new(demo::all()[1].clone(), Seed(7));
    paste(&browser, &format!("Look: {}#{}", page_url(), link::write(&shoal)));
    browser.wait_for(&format!("{TITLE} === 'Shoal'"));
    paste(&browser, "two tins of straw");
    says(&browser, "Not a piece: what was pasted.");
    drop_file(&browser, "holiday.png", png::encode(&Pixmap::filled(4, 4, [90; 3]), &[]));
    says(&browser, "A picture without a recipe in it.");
    nothing_went_wrong(&browser);
}

fn paste(browser: &Browser, text: &str) {
    browser.run_with(
        "const clipboardData = new DataTransfer();
        clipboardData.setData('text/plain', arguments[0]);
        document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));",
        &json!([text]),
    );
}

/// Good files of every sort, to be spoiled.
fn good_ones() -> Vec<Vec<u8>> {
    let mut good = Vec::new();
    for recipe in demo::all() {
        let text = file::write(&recipe);
        let texts = [(png::RECIPE_KEYWORD, text.as_str()), (png::SEED_KEYWORD, "41")];
        good.push(png::encode(&Pixmap::filled(3, 3, [7; 3]), &texts));
        good.push(text.clone().into_bytes());
        good.push(order_file::write(&Order::of(recipe.clone(), 12)).into_bytes());
        good.push(Piece::new(recipe, Seed(4)).write().into_bytes());
    }
    let rust = catalogue::find("rust").expect("it is in the catalogue");
    let mut shelf = Shelf::default();
    shelf.put(Glass { id: "of_may".into(), name: "Rust, May".into(), packing: Some(0.5), ..rust.clone() });
    let mut recipe = demo::ember_walk();
    recipe.coats[0].powder[0].glass = "of_may".into();
    shelf.lend_to(&mut recipe);
    good.push(shelf.write().into_bytes());
    good.push(file::write(&recipe).into_bytes());
    good
}

/// A few changes of a file: bytes changed, cut out, doubled, or a number blown up.
fn spoiled(good: &[u8], rng: &mut ChaCha8Rng) -> Vec<u8> {
    let mut bytes = good.to_vec();
    for _ in 0..rng.random_range(1..5) {
        let at = rng.random_range(0..bytes.len().max(1));
        match rng.random_range(0..5) {
            0 => bytes.truncate(at),
            1 => bytes.extend_from_within(at..),
            2 => {
                let digits = b"1e308 -0.0 99999999999 NaN [[[[ {\"".to_vec();
                bytes.splice(at..at, digits);
            }
            3 if !bytes.is_empty() => bytes[at] = rng.random(),
            _ => {
                let end = (at + 20).min(bytes.len());
                bytes.drain(at..end);
            }
        }
    }
    bytes
}

#[test]
fn ten_thousand_hostile_files_and_links_are_survived() {
    let mut rng = ChaCha8Rng::seed_from_u64(2026);
    let (good, mut opened, mut refused) = (good_ones(), 0, 0);
    for round in 0..10_000 {
        let bytes = spoiled(&good[round % good.len()], &mut rng);
        match open(&bytes, Seed(1)) {
            Ok(Opened::Piece(piece)) => {
                opened += 1;
                // A plan or a refusal, but never a panic.
                drop(Plan::new(&piece.recipe));
            }
            Ok(Opened::Order(order)) => {
                opened += 1;
                drop(orders::checks::check(&order));
            }
            Ok(Opened::Glasses(shelf)) => {
                opened += 1;
                assert_eq!(shelf.faults(), []);
            }
            Ok(Opened::Backup(text)) => drop(backup::read(&text).map(|read| read.map(Iterator::count))),
            Err(OpenFault::NotAPiece) => refused += 1,
            Err(OpenFault::Faulty(notice)) => {
                refused += 1;
                assert!(!notice.what.is_empty() && !notice.why.is_empty() && !notice.remedy.is_empty());
            }
        }
        let piece = Piece::new(demo::all()[round % 5].clone(), Seed(round as u32));
        let text = spoiled(link::write(&piece).as_bytes(), &mut rng);
        drop(link::read(&String::from_utf8_lossy(&text)));
    }
    println!("{opened} of 10000 spoiled files still opened, {refused} were refused");
    assert!(refused > 5000 && opened > 0);
}

#[test]
fn a_thousand_hostile_files_and_links_lose_no_piece_in_the_browser() {
    let browser = opened();
    press(&browser, "42");
    browser.set_value("h1 input", "The one to keep");
    settled(&browser);
    says(&browser, "Saved in this browser");
    let mut rng = ChaCha8Rng::seed_from_u64(1125);
    let good = good_ones();
    for batch in 0..10 {
        let files: Vec<String> = (0..100)
            .map(|n| BASE64_STANDARD.encode(spoiled(&good[(batch * 100 + n) % good.len()], &mut rng)))
            .collect();
        let piece = Piece::new(demo::all()[batch % 5].clone(), Seed(5));
        let links: Vec<Value> = (0..100)
            .map(|_| {
                let text = spoiled(link::write(&piece).as_bytes(), &mut rng);
                json!(String::from_utf8_lossy(&text))
            })
            .collect();
        browser.run_with(
            "const [files, links] = arguments;
            for (const [n, file] of files.entries()) {
                const dropped = new DataTransfer();
                const bytes = Uint8Array.from(atob(file), (letter) => letter.charCodeAt(0));
                dropped.items.add(new File([bytes], n % 2 ? 'hostile.json' : 'hostile.png'));
                window.dispatchEvent(new DragEvent('drop', { dataTransfer: dropped, bubbles: true, cancelable: true }));
                const clipboardData = new DataTransfer();
                clipboardData.setData('text/plain', 'http://localhost/#' + links[n]);
                document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
                // Browsers bear only some twenty changes of the address in a second.
                if (n % 25 === 0) location.hash = links[n];
            }",
            &json!([files, links]),
        );
        browser.run_async("await new Promise((done) => setTimeout(done, 400))");
    }
    assert_eq!(browser.faults(), Vec::<String>::new());
    // A thousand links come quicker than the browser likes.
    nothing_but(&browser, &["willReadFrequently", "Throttling navigation"]);
    // What came last may have opened an order or the shelf.
    browser.open(&support::site::page_url());
    settled(&browser);
    press(&browser, "Shelf");
    says(&browser, "The one to keep");
}
