//! An order in a real browser: begun with one press, its days moved by pointer and by keys, prices and jars written where they stand. The
//! numbers on the page are held to the engine's own.

mod support;

use dappledome::base::memo::Allowance;
use dappledome::base::seed::Seed;
use dappledome::base::units::fixed;
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::orders::begin::{Chosen, like};
use dappledome::orders::bench::Bench;
use dappledome::orders::file;
use dappledome::orders::loads::kiln;
use dappledome::orders::model::{Date, Line, Order, Prices};
use dappledome::orders::worked::{Worked, work_out};
use dappledome::preview::Preview;
use dappledome::recipe::demo;
use dappledome::shop::ticket::ticket;
use serde_json::{Value, json};
use std::time::{Duration, Instant};
use support::browser::{Browser, key};
use support::page::{drop_file, nothing_went_wrong, opened, press, says};

/// Twelve like the first piece that a newcomer has.
fn twelve() -> Order {
    like(&[Chosen { letter: String::new(), recipe: demo::ember_walk(), seed: Seed(41), piece: None }], 12)
}

/// What the engine makes of an order on the maker's bench, from the browser's today on.
fn reckoned(browser: &Browser, order: &Order, bench: &Bench) -> Worked {
    let today =
        browser.run("const now = new Date(); return [now.getFullYear(), now.getMonth() + 1, now.getDate()]");
    let part = |at: usize| today[at].as_i64().unwrap();
    let today = Date::new(part(0) as i16, part(1) as i8, part(2) as i8).unwrap();
    let whole = bench.laid_under(order, Some(Kiln::guess(Guess::SmallBrick)), None);
    let mut preview = Preview::new();
    let kiln = kiln(&whole);
    work_out(&whole, &[], today, |plan, seed| {
        ticket(&mut preview, plan, seed, &kiln, &mut Allowance::unlimited()).unwrap()
    })
    .unwrap()
}

/// Opens the ticket, asks for twelve and orders them.
fn order_twelve(browser: &Browser) {
    press(browser, "Ticket for");
    browser.keys("[aria-label='Pieces']", "12");
    browser.press_keys(key::ENTER);
    press(browser, "Order these");
    browser.wait_for("return document.querySelector('.order-bar')");
}

/// The numbers behind a step's words.
fn row(browser: &Browser, name: &str) -> Vec<String> {
    let cells = browser.run_with(
        "const row = [...document.querySelectorAll('.order-row')].find((row) => row.innerText.trim().startsWith(arguments[0]));
        return row ? [...row.querySelectorAll('.number, .on-hand, .to-buy')].map((cell) => cell.innerText.trim()) : [];",
        &json!([name]),
    );
    cells.as_array().unwrap().iter().map(|cell| cell.as_str().unwrap().to_owned()).collect()
}

/// Each doing in words, in order.
fn doings(browser: &Browser) -> Vec<String> {
    let said = browser.run("return [...document.querySelectorAll('.order-bar[role=option]')].map((bar) => bar.getAttribute('aria-label'))");
    said.as_array().unwrap().iter().map(|said| said.as_str().unwrap().to_owned()).collect()
}

/// Waits until the days are these.
fn until(browser: &Browser, wanted: &[String]) {
    browser.wait_for(&format!(
        "return JSON.stringify([...document.querySelectorAll('.order-bar[role=option]')].map((bar) => bar.getAttribute('aria-label'))) === {}",
        json!(json!(wanted).to_string())
    ));
}

/// Waits until every layout is weighed: the grams stay the same.
fn weighed(browser: &Browser, grams: &str) {
    browser.wait_for(&format!(
        "return [...document.querySelectorAll('.order-row .number')].some((cell) => cell.innerText.trim() === {})",
        json!(grams)
    ));
}

fn no_sideways_scroll(browser: &Browser) {
    let wide = browser.run(
        "const parts = [...document.querySelectorAll('.order *')];
        const out = parts.filter((part) => part.checkVisibility({ visibilityProperty: true }) && !part.closest('.order-tables')
            && part.getBoundingClientRect().right > innerWidth + 1);
        const scrolls = document.documentElement.scrollWidth > innerWidth;
        return [...(scrolls ? ['the page'] : []), ...out.map((part) => part.tagName + ' ' + part.getAttribute('class'))];",
    );
    assert_eq!(wide, json!([]), "wider than its place");
}

#[test]
fn twelve_are_ordered_with_one_press_and_worked_out_as_the_engine_does() {
    let browser = opened();
    order_twelve(&browser);
    browser.wait_for("return document.querySelectorAll('.order-disc').length === 14");
    let seeds = browser
        .run("return [...document.querySelectorAll('.order-disc')].map((disc) => parseInt(disc.innerText))");
    says(&browser, "14 made, 12 sold");
    // The layouts nearest to the first are picked as soon as they are compared.
    browser.wait_for(
        "return [...document.querySelectorAll('.order-disc')].some((disc) => parseInt(disc.innerText) > 54)",
    );
    browser.wait_for(
        "return [...document.querySelectorAll('.order-disc canvas')].every((canvas) => canvas.width > 1)",
    );
    assert_ne!(seeds, json!([]));
    let seeds = browser
        .run("return [...document.querySelectorAll('.order-disc')].map((disc) => parseInt(disc.innerText))");
    let mut order = twelve();
    order.lines[0].seeds =
        seeds.as_array().unwrap().iter().map(|seed| Seed(seed.as_u64().unwrap() as u32)).collect();
    assert_eq!(order.lines[0].seeds[0], Seed(41), "the first stays the first");
    let worked = reckoned(&browser, &order, &Bench::default());
    let rust: f64 = worked.weighed.coats[1].all.iter().map(|part| part.grams.0).sum();
    weighed(&browser, &format!("{} g", fixed(rust, 1)));
    assert_eq!(
        row(&browser, "Rust"),
        [format!("{} g", fixed(rust, 1)), "not written down".into(), format!("{} g", fixed(rust, 1))],
        "what nobody has written down is not short"
    );
    assert_eq!(
        browser.run("return document.querySelectorAll('.order .short, .order .risk').length"),
        json!(0)
    );
    let loads = worked.loads.batches[0].loads.len();
    assert_eq!(row(&browser, "Full fuse")[0], format!("{loads} loads"));
    assert_eq!(doings(&browser).len(), worked.days.as_ref().unwrap().doings.len());
    says(&browser, "No prices yet.");
    no_sideways_scroll(&browser);
    browser.screenshot("order-1280");
    for (step, name) in [("Blank", "cut"), ("Rust", "weigh"), ("Full fuse", "loads")] {
        press(&browser, step);
        browser.wait_for("return document.querySelectorAll('.order-pane').length > 0");
        browser.screenshot(&format!("order-{name}-1280"));
    }
    browser.set_viewport(2560, 1440, 1.0);
    browser.screenshot("order-loads-2560");
    browser.set_viewport(390, 844, 1.0);
    no_sideways_scroll(&browser);
    browser.screenshot("order-390");
    press(&browser, "Full fuse");
    browser.run("document.querySelector('.order-detail').scrollIntoView()");
    browser.screenshot("order-pieces-390");
    nothing_went_wrong(&browser);
}

/// Each row runs on from the recipe's: the same steps at the same heights, at 1280 by 800, and its bars with it.
#[test]
fn rows_stand_where_the_recipe_has_them() {
    let browser = opened();
    let middles = |row: &str| {
        let of = "const middle = (row) => { const box = row.getBoundingClientRect(); return Math.round(box.top + box.height / 2); };
            return [...document.querySelectorAll(arguments[0])].map((row) => [row.querySelector('b').innerText, middle(row)]);";
        browser.run_with(of, &json!([row]))
    };
    let recipe = middles(".sheet .row-button");
    assert_eq!(recipe.as_array().unwrap().len(), 7, "{recipe}");
    press(&browser, "Ticket for");
    press(&browser, "Order these");
    browser.wait_for("return document.querySelector('.order-bar')");
    assert_eq!(middles(".order-row"), recipe);
    let bars = browser.run(
        "const middle = (row) => { const box = row.getBoundingClientRect(); return Math.round(box.top + box.height / 2); };
        const rows = [...document.querySelectorAll('.order-row')].map(middle);
        return [...document.querySelectorAll('.order-bar')].map(middle).every((bar) => rows.some((row) => Math.abs(row - bar) <= 1));",
    );
    assert_eq!(bars, json!(true), "a bar lies beside its row");
    nothing_went_wrong(&browser);
}

#[test]
fn a_step_is_moved_by_keys_and_by_pointer_and_taken_back() {
    let browser = opened();
    order_twelve(&browser);
    let before = doings(&browser);
    let fuse = before.iter().position(|said| said.contains("Full fuse")).unwrap();
    browser.run("document.querySelector('.order-bars').focus()");
    for _ in 0..fuse {
        browser.press_keys(key::RIGHT);
    }
    browser.press_keys(" ");
    says(&browser, "Full fuse lifted");
    browser.press_keys(key::RIGHT);
    browser.press_keys(key::RIGHT);
    browser.press_keys(" ");
    browser.wait_for("return [...document.querySelectorAll('[role=status]')].some((said) => said.innerText.startsWith('Full fuse moved to'))");
    let moved = doings(&browser);
    assert_ne!(moved, before);
    assert_eq!(
        browser.run("return document.activeElement.className"),
        "order-bars",
        "the focus stays where it was"
    );
    press(&browser, "Undo");
    until(&browser, &before);
    press(&browser, "Redo");
    until(&browser, &moved);
    press(&browser, "As early as can be");
    until(&browser, &before);
    // Changes of one name within 0.8 s are one step back.
    std::thread::sleep(Duration::from_millis(900));
    let grip = browser.run_with(
        "const bar = document.getElementById(`doing-${arguments[0]}`).getBoundingClientRect();
        const day = document.querySelector('.order-day').getBoundingClientRect();
        return [bar.left + bar.width / 2, bar.top + bar.height / 2, day.width].map(Math.round);",
        &json!([fuse]),
    );
    let place = |at: usize| i32::try_from(grip[at].as_i64().unwrap()).unwrap();
    browser.drag((place(0), place(1)), (place(0) + 2 * place(2), place(1)));
    until(&browser, &moved);
    press(&browser, "Undo");
    until(&browser, &before);
    nothing_went_wrong(&browser);
}

#[test]
fn prices_are_written_where_they_stand_and_taken_back() {
    let browser = opened();
    order_twelve(&browser);
    press(&browser, "Write yours");
    says(&browser, "No price yet, since these have none");
    let bench = Bench { prices: Some(Prices::usual()), ..Bench::default() };
    let worked = reckoned(&browser, &twelve(), &bench);
    assert!(worked.cost.priced.is_none());
    says(&browser, "a kWh, in the kiln");
    press(&browser, "Undo");
    says(&browser, "No prices yet.");
    nothing_went_wrong(&browser);
}

#[test]
fn a_late_order_says_so_with_what_would_help() {
    let browser = opened();
    order_twelve(&browser);
    browser.run(
        "const field = document.querySelector('.order-due-field'); const today = new Date();
        today.setDate(today.getDate() + 2);
        field.value = today.toISOString().slice(0, 10);
        field.dispatchEvent(new Event('change', { bubbles: true }));",
    );
    says(&browser, "after it is due");
    browser.screenshot("order-late-1280");
    press(&browser, "Fire by day as well");
    browser.wait_for("return ![...document.querySelectorAll('.button')].some((button) => button.innerText.startsWith('Fire by day'))");
    let due = browser.run("return [...document.querySelectorAll('.order-remedies .button')].map((button) => button.innerText).find((words) => words.startsWith('Due'))");
    press(&browser, due.as_str().unwrap());
    says(&browser, "0 days in hand");
    nothing_went_wrong(&browser);
}

#[test]
fn a_short_jar_is_told_with_its_day() {
    let browser = opened();
    order_twelve(&browser);
    press(&browser, "Rust");
    browser.keys("[aria-label='100 g cost, rust']", "9.50");
    browser.press_keys(key::ENTER);
    let on_hand = "return document.querySelector(\"[aria-label='On hand, rust']\").innerText";
    assert_eq!(browser.run(on_hand), json!("not written down"), "a price says nothing of grams");
    browser.keys("[aria-label='On hand, rust']", "20");
    browser.press_keys(key::ENTER);
    says(&browser, "Rust runs out on");
    assert_eq!(browser.run("return document.querySelectorAll('.order-row .short').length"), json!(1));
    browser.screenshot("order-short-1280");
    press(&browser, "As a table file");
    nothing_went_wrong(&browser);
}

#[test]
fn an_order_file_is_opened_and_a_broken_one_is_told() {
    let browser = opened();
    drop_file(&browser, "harborside.json", include_str!("../examples/orders/harborside.json"));
    browser.wait_for("return document.querySelector('.order-bar')");
    press(&browser, "B, Hedgerow");
    browser.wait_for(
        "return [...document.querySelectorAll('.order-row')].some((row) => row.innerText.includes('Moss'))",
    );
    // Its layouts are compared by its own recipe, whatever lies on the table.
    let seeds =
        "return [...document.querySelectorAll('.order-disc')].map((disc) => parseInt(disc.innerText)).join()";
    let before = browser.run(seeds);
    press(&browser, "As different as can be");
    browser.wait_for(&format!("return (() => {{ {seeds} }})() !== {before}"));
    press(&browser, "Undo");
    browser.wait_for(&format!("return (() => {{ {seeds} }})() === {before}"));
    // Its bench is ours by now, as we had none; but the kiln is that on the shelf, which is guessed and has no price.
    says(&browser, "since these have none: a kWh, in the kiln.");
    browser.screenshot("order-two-1280");
    let text =
        include_str!("../examples/orders/harborside.json").replace("\"count\": 6", "\"count\": 1000000");
    drop_file(&browser, "million.json", text);
    says(&browser, "Use 1 to 200.");
    let order = file::write(&twelve());
    drop_file(&browser, "broken.json", &order[..order.len() / 2]);
    says(&browser, "An order file with a mistake in it.");
    assert_eq!(browser.run("return document.querySelectorAll('.order-row').length > 0"), Value::Bool(true));
    nothing_went_wrong(&browser);
}

/// 200 pieces in four colorways stand as days and discs; how long that took, and each task over 50 ms, is printed.
#[test]
fn two_hundred_pieces_are_planned() {
    let browser = opened();
    let chosen = |at: usize| {
        let mut recipe = demo::ember_walk();
        recipe.blank.diameter.0 = 100.0 + 10.0 * at as f64;
        Chosen { letter: ["A", "B", "C", "D"][at].into(), recipe, seed: Seed(41), piece: None }
    };
    let order = Order { spare_per_ten: 0, ..like(&[0, 1, 2, 3].map(chosen), 200) };
    let order =
        Order { lines: order.lines.into_iter().map(|line| Line { count: 50, ..line }).collect(), ..order };
    let before = browser.long_tasks().len();
    let start = Instant::now();
    drop_file(&browser, "many.json", file::write(&order));
    browser.wait_for("return document.querySelector('.order-bar')");
    eprintln!("days of 200 pieces stand after {:?}", start.elapsed());
    browser.wait_for("return document.querySelectorAll('.order-disc').length > 40");
    let long = &browser.long_tasks()[before..];
    eprintln!("long tasks: {long:?}");
    nothing_went_wrong(&browser);
}

/// Three presses from the ticket to the printer. On the page a millimeter is one: 96 pixels to the inch, by what the page is brought
/// nearer; no word is wider than the layout takes it for.
#[test]
fn an_orders_paper_lies_on_the_table_at_its_own_size() {
    let browser = opened();
    order_twelve(&browser);
    press(&browser, "Make sheet");
    browser.wait_for("return document.querySelector('.printed > svg canvas[width]')");
    let said = browser.run("return document.querySelector('.printed > svg').textContent");
    for words in ["Ember Walk", "Make sheet for 12, and 2 spare", "Sift and dab", "Real top", "Came out"] {
        assert!(said.as_str().unwrap().contains(words), "{words} is not in {said}");
    }
    assert_eq!(browser.run("return document.querySelectorAll('.printed').length"), json!(1));
    press(&browser, "Sift map");
    browser.wait_for("return [...document.querySelectorAll('.printed text')].some((words) => words.textContent === 'notch')");
    // A4: 186 mm within its margins; the ruler is the one line of 100 mm.
    press(&browser, "A4");
    browser.wait_for("return document.querySelector('.printed > svg')?.getAttribute('width') === '186mm'");
    let measured = browser.run(
        "const page = document.querySelector('.printed > svg');
        const scale = page.getBoundingClientRect().width / 186;
        const lines = [...page.querySelectorAll('path')].map((path) => path.getBoundingClientRect().width / scale);
        const disc = page.querySelector('circle[stroke-dasharray]').getBBox().width;
        const wide = [...page.querySelectorAll('text')].every((words) => words.getBBox().width < Number(words.getAttribute('textLength')) + 0.2);
        return [lines.filter((line) => Math.abs(line - 100) < 0.3).length, disc, wide];",
    );
    assert_eq!(measured, json!([1, 160, true]));
    press(&browser, "Quote");
    browser.wait_for("return document.querySelector('.printed')?.textContent.includes('Agreed')");
    press(&browser, "Labels and care cards");
    browser.wait_for("return document.querySelectorAll('.printed').length === 3");
    press(&browser, "Close the paper");
    browser.wait_for("return document.querySelector('.order-foot')");
    nothing_went_wrong(&browser);
}

/// The tray with the first sister kept, turned to the customer, who has chosen her.
fn chosen() -> Browser {
    let browser = opened();
    press(&browser, "Tray");
    browser.wait_for("return document.querySelectorAll('.sister').length === 12 && !document.querySelector('.sister.coming')");
    browser.keys(".sister[tabindex='0']", " ");
    press(&browser, "Show the customer");
    press(&browser, "This one");
    says(&browser, "You chose A");
    browser.set_value(".how-many input", "12");
    says(&browser, "12 pieces in all");
    browser.run("window.printed = 0; window.print = () => { printed += 1; };");
    browser
}

/// *Order 12 like A*, *Make sheet*, *Print*: and the whole order stands behind them.
#[test]
fn three_presses_lead_from_the_choice_to_the_printer() {
    let browser = chosen();
    press(&browser, "Order 12 like A");
    browser.wait_for("return document.querySelector('.order-bar')");
    press(&browser, "Make sheet");
    browser.wait_for("return document.querySelector('.printed')");
    press(&browser, "Print");
    browser.wait_for("return window.printed === 1");
    nothing_went_wrong(&browser);
}

/// The same by keys alone: each is a button that Enter presses where the focus is.
#[test]
fn three_presses_by_keys() {
    let browser = chosen();
    for words in ["Order 12 like A", "Make sheet", "Print"] {
        browser.wait_for(&format!(
            "const button = [...document.querySelectorAll('button')].find((button) => button.innerText.trim().startsWith({}));
            button?.focus();
            return button && document.activeElement === button;",
            json!(words)
        ));
        browser.press_keys(key::ENTER);
    }
    browser.wait_for("return window.printed === 1");
    nothing_went_wrong(&browser);
}
