//! The firings in a real browser: what the open steps say of the glass, the programs, numbers set by the maker, and the kiln. The numbers
//! on the page are held to the engine's own.

mod support;

use dappledome::base::firing::{Firing, SegmentName};
use dappledome::base::units::{Celsius, fixed};
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::kiln::firings::Firings;
use dappledome::kiln::program::Program;
use dappledome::kiln::sinking::Sinking;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Pace, Recipe, demo};
use serde_json::{Value, json};
use support::browser::{Browser, key};
use support::page::{GLASS, nothing_went_wrong, opened, press, says, settled as drawn};

/// What the engine makes of a recipe in the kiln that a newcomer has.
fn reckoned(recipe: &Recipe) -> Firings {
    let plan = Plan::new(recipe).unwrap().plan;
    Firings::new(&plan, &Kiln::guess(Guess::SmallBrick)).unwrap()
}

fn full_fuse(recipe: &Recipe) -> Program {
    reckoned(recipe).programs.into_iter().next().unwrap()
}

/// Hours as the page has them, worked out anew: to five minutes.
fn long(hours: f64) -> String {
    let fives = (hours * 12.0).round() as u32;
    format!("{} h {:02}", fives / 12, fives % 12 * 5)
}

/// The clock when a kiln switched on at six in the evening may be opened.
fn opens(hours: f64) -> String {
    let minutes = (((18.0 + hours) * 12.0).ceil() * 5.0) as u32;
    format!("{:02}:{:02}", minutes / 60 % 24, minutes % 60)
}

/// The cells of the row whose segment is called so.
fn row(browser: &Browser, name: &str) -> Vec<String> {
    let cells = browser.run_with(
        "const row = [...document.querySelectorAll('.program-table tbody tr')].find((row) => row.innerText.startsWith(arguments[0]));
        return row ? [...row.children].map((cell) => cell.innerText.trim()) : [];",
        &json!([name]),
    );
    cells.as_array().unwrap().iter().map(|cell| cell.as_str().unwrap().to_owned()).collect()
}

/// The button of a number of a segment.
fn number(name: &str) -> String {
    format!("[role=spinbutton][aria-label='{name}']")
}

fn weight(browser: &Browser, name: &str) -> Value {
    browser.run_with(
        "return getComputedStyle(document.querySelector(arguments[0])).fontWeight",
        &json!([number(name)]),
    )
}

/// Hours and energy of all firings, as the foot has them.
fn total(firings: &Firings) -> String {
    let programs = &firings.programs;
    let (hours, kwh) = programs.iter().fold((0.0, 0.0), |(h, e), one| (h + one.hours, e + one.kwh));
    format!("{}, {} kWh", long(hours), fixed(kwh, 0))
}

fn no_sideways_scroll(browser: &Browser) {
    let wide = browser.run(
        "const parts = [...document.querySelectorAll('.firings *, .kiln *, .step.open *, .foot *')];
        const out = parts.filter((part) => part.checkVisibility({ visibilityProperty: true }) && !part.closest('.unseen')
            && part.getBoundingClientRect().right > innerWidth + 1);
        const scrolls = document.documentElement.scrollWidth > innerWidth;
        return [...(scrolls ? ['the page'] : []), ...out.map((part) => part.tagName + ' ' + part.getAttribute('class'))];",
    );
    assert_eq!(wide, json!([]), "wider than its place");
}

#[test]
fn the_open_steps_say_what_becomes_of_the_glass() {
    let browser = opened();
    let firings = reckoned(&demo::ember_walk());
    let spread = firings.spread.unwrap();
    press(&browser, "Full fuse");
    says(&browser, "Holds its size.");
    let (slips, sticks) = (fixed(spread.slips.0, 0), fixed(spread.sticks.0, 0));
    says(&browser, &format!("160 mm stays {slips} to {sticks} mm."));
    assert_eq!(browser.run("return document.querySelectorAll('.edge-drawing path').length"), 3);
    no_sideways_scroll(&browser);
    browser.screenshot("firing-fuse-1280");
    press(&browser, "Slump");
    let slump = &firings.programs[1];
    let hold = fixed(slump.segment(SegmentName::Process).unwrap().hold.value.0, 0);
    says(&browser, &format!("Full after {hold} min at 640 °C."));
    says(&browser, "not yet a kiln");
    browser.keys(".slump .rule:nth-child(2) [aria-label=Hold]", "5");
    browser.press_keys(key::ENTER);
    says(&browser, "5 min at 640 °C: a shallow dome.");
    says(&browser, "Won't reach its mold.");
    browser.screenshot("firing-slump-1280");
    browser.keys(".slump .rule:nth-child(2) [aria-label=Hold]", key::END);
    says(&browser, &format!("Full after {hold} min at 640 °C."));
    press(&browser, "accents");
    says(&browser, "Tack fuse");
    says(&browser, "At 735 °C for 8 min:");
    browser.wait_for("return document.querySelectorAll('.grain').length === 4");
    browser.run("document.querySelector('.tack-fuse').scrollIntoView()");
    browser.screenshot("firing-tack-1280");
    browser.set_viewport(390, 844, 1.0);
    drawn(&browser);
    browser.run("document.querySelector('.tack-fuse').scrollIntoView()");
    no_sideways_scroll(&browser);
    browser.screenshot("firing-tack-390");
    press(&browser, "Full fuse");
    browser.wait_for("return document.querySelector('.edge-drawing')");
    browser.run("document.querySelector('.edge-drawing').scrollIntoView({ block: 'center' })");
    no_sideways_scroll(&browser);
    browser.screenshot("firing-fuse-390");
    nothing_went_wrong(&browser);
}

#[test]
fn a_newcomer_sees_two_numbers_more() {
    let browser = opened();
    let firings = reckoned(&demo::ember_walk());
    let hours: f64 = firings.programs.iter().map(|program| program.hours).sum();
    let kwh: f64 = firings.programs.iter().map(|program| program.kwh).sum();
    let foot = browser.text(".foot .total:last-child");
    assert_eq!(foot.replace('\n', ""), format!("Kiln{}, {} kWh", long(hours), fixed(kwh, 0)));
    press(&browser, "Ticket for");
    says(&browser, "Firings, one piece in the kiln");
    let rows = browser.text(".ticket-table");
    let fuse = &firings.programs[0];
    let line = format!("Full fuse {}{} kWh", long(fuse.hours), fixed(fuse.kwh, 1));
    assert!(rows.contains(&line), "{line} is not in {rows}");
    nothing_went_wrong(&browser);
}

#[test]
fn a_program_is_read_set_and_taken_back() {
    let browser = opened();
    let recipe = demo::ember_walk();
    let fuse = full_fuse(&recipe);
    press(&browser, "Full fuse");
    press(&browser, "Program");
    says(&browser, "Close the firings");
    says(&browser, &format!("open at {} the next day", opens(fuse.hours)));
    says(&browser, &format!("{} kWh, reckoned", fixed(fuse.kwh, 1)));
    let names = ["Heat", "Squeeze", "Fuse", "Fall", "Anneal", "Cool", "Second cool", "Off"];
    for (segment, name) in fuse.segments.iter().zip(names) {
        let cells = row(&browser, name);
        assert_eq!(cells[2], format!("{} °C", fixed(segment.to.value.0, 0)), "{name}");
        if let Pace::PerHour(rate) = segment.pace.value {
            assert_eq!(cells[1], format!("{} °C/h", fixed(rate, 0)), "{name}");
        }
    }
    for words in ["softening 680", "annealing 510", "strain 483", "790 °C, 10 min"] {
        says(&browser, words);
    }
    let stays = fuse.chart.last().unwrap().core;
    says(&browser, &format!("{} MPa stays in the core, for good.", fixed(stays, 2)));
    no_sideways_scroll(&browser);
    browser.screenshot("firings-1280");

    // A number of one's own: bold, and everything follows.
    let heat = "Rate of heat";
    assert_eq!(weight(&browser, heat), "400");
    browser.click(&number(heat));
    browser.press_keys("100");
    browser.press_keys(key::ENTER);
    let mut slower = recipe.clone();
    slower.programs.segment_mut(Firing::FullFuse, SegmentName::Heat).pace = Some(Pace::PerHour(100.0));
    let slow = full_fuse(&slower);
    says(&browser, &format!("open at {}", opens(slow.hours)));
    assert!(slow.hours > fuse.hours + 1.0);
    assert_eq!((row(&browser, "Heat")[1].as_str(), weight(&browser, heat)), ("100 °C/h", json!("600")));
    browser.keys(&number(heat), &format!("{}z", key::CONTROL));
    says(&browser, &format!("open at {}", opens(fuse.hours)));

    // By keys alone: a step up, and back with Backspace.
    browser.run_with("document.querySelector(arguments[0]).focus()", &json!([number(heat)]));
    browser.press_keys(key::UP);
    browser
        .wait_for(&format!("return document.querySelector(\"{}\").innerText === '145 °C/h'", number(heat)));
    assert_eq!(
        browser.run("return document.activeElement.getAttribute('aria-label')"),
        heat,
        "it keeps the focus"
    );
    browser.press_keys("\u{e003}");
    browser
        .wait_for(&format!("return document.querySelector(\"{}\").innerText === '140 °C/h'", number(heat)));

    // Beyond a limit it is told, never refused; the reasons say what is usual; a double press takes it back.
    browser.click(&number("Rate of cool"));
    browser.press_keys("160 °C/h");
    browser.press_keys(key::ENTER);
    says(&browser, "Falls too fast for");
    press(&browser, "Cool");
    says(&browser, "Yours; usually 80 °C/h.");
    says(&browser, "Soft glass bears any rate");
    browser.screenshot("firings-override-1280");
    browser.run(
        "const label = [...document.querySelectorAll('.segment-name')].find((label) => label.innerText === 'Cool');
        label.dispatchEvent(new MouseEvent('dblclick', { bubbles: true }));",
    );
    browser.wait_for("return !document.body.innerText.includes('Falls too fast')");
    assert_eq!(row(&browser, "Cool")[1], "80 °C/h");

    // What cannot be is said.
    browser.click(&number("Hold of anneal"));
    browser.press_keys("soon");
    browser.press_keys(key::ENTER);
    says(&browser, "Write a time, such as 10 min or 1 h 20.");
    browser.press_keys(key::ESCAPE);
    browser.click(&number("To of heat"));
    browser.press_keys("9999");
    browser.press_keys(key::ENTER);
    says(&browser, "Highest is 900 °C: kept at 900 °C.");
    browser.keys(&number("To of heat"), &format!("{}z", key::CONTROL));
    browser.wait_for("return !document.querySelector('.own-number.yours[aria-label=\"To of heat\"]')");
    nothing_went_wrong(&browser);
}

#[test]
fn another_start_and_another_program() {
    let browser = opened();
    let firings = reckoned(&demo::ember_walk());
    press(&browser, "Slump");
    press(&browser, "Program");
    says(&browser, &format!("open at {}", opens(firings.programs[1].hours)));
    browser.click(&number("Switched on at"));
    browser.press_keys("20");
    browser.press_keys(key::ENTER);
    says(&browser, &format!("open at {}", opens(firings.programs[1].hours + 2.0)));
    browser.click(".program.closed");
    says(&browser, &format!("open at {}", opens(firings.programs[0].hours + 2.0)));
    browser.press_keys(key::ESCAPE);
    browser.wait_for("return document.querySelector('.firings') === null");
    browser.set_viewport(390, 844, 1.0);
    drawn(&browser);
    press(&browser, "Full fuse");
    press(&browser, "Program");
    says(&browser, "Close the firings");
    no_sideways_scroll(&browser);
    browser.screenshot("firings-390");
    browser.run("document.querySelector('.program-table').scrollIntoView()");
    browser.screenshot("firings-table-390");
    nothing_went_wrong(&browser);
}

#[test]
fn the_kiln_is_taken_described_and_kept() {
    let browser = opened();
    let mut kiln = Kiln::guess(Guess::SmallBrick);
    let plan = Plan::new(&demo::ember_walk()).unwrap().plan;
    let total = |kiln: &Kiln| {
        let programs = Firings::new(&plan, kiln).unwrap().programs;
        let (hours, kwh) = programs.iter().fold((0.0, 0.0), |(h, e), one| (h + one.hours, e + one.kwh));
        format!("{}, {} kWh", long(hours), fixed(kwh, 0))
    };
    press(&browser, "Shelf");
    says(&browser, "Programs are reckoned for");
    press(&browser, "large brick");
    says(&browser, &total(&Kiln::guess(Guess::LargeBrick)));
    says(&browser, "A guess, no one’s kiln.");
    press(&browser, "My kiln");
    says(&browser, &total(&kiln));
    browser.click(&number("Power on its plate"));
    browser.press_keys("3.6 kW");
    browser.press_keys(key::ENTER);
    kiln.power = 3.6;
    browser.click(&number("Inside, front to back"));
    browser.press_keys("100");
    browser.press_keys(key::ENTER);
    says(&browser, "A shelf larger than its kiln.");
    browser.click(&number("A kWh costs"));
    browser.press_keys("0.17");
    browser.press_keys(key::ENTER);
    browser.click(".cooling summary");
    browser.set_value("[aria-label='Readings, hours and °C']", "0 500\nlater\n5 130");
    press(&browser, "Use it");
    says(&browser, "Write hours and °C in each line");
    browser.set_value("[aria-label='Readings, hours and °C']", "0 500\n2 240\n5 90");
    press(&browser, "Use it");
    says(&browser, "From 3 readings: time constant");
    kiln.cooling = [(0.0, 500.0), (2.0, 240.0), (5.0, 90.0)]
        .map(|(hours, at)| dappledome::kiln::data::Reading { hours, at: Celsius(at) })
        .to_vec();
    says(&browser, &total(&kiln));
    browser.run("document.querySelector('.kiln').scrollIntoView()");
    no_sideways_scroll(&browser);
    browser.screenshot("kiln-1280");
    // It is there again when the page is opened anew.
    browser.open(&support::site::page_url());
    drawn(&browser);
    says(&browser, &total(&kiln));
    press(&browser, "Full fuse");
    press(&browser, "Program");
    says(&browser, "costs");
    browser.set_viewport(390, 844, 1.0);
    drawn(&browser);
    press(&browser, "my kiln");
    browser.wait_for("return document.querySelector('.kiln')");
    browser.run("document.querySelector('.kiln').scrollIntoView()");
    no_sideways_scroll(&browser);
    browser.screenshot("kiln-390");
    nothing_went_wrong(&browser);
}

/// Of a kiln that cannot keep the usual rate up to the slump, by its own program.
fn late_kiln() -> Kiln {
    Kiln { name: "My kiln".into(), guess: false, power: 1.2, ..Kiln::guess(Guess::SmallBrick) }
}

/// Foot, ticket and time axis go by the kiln that is taken; pictures by none, so that a recipe and a seed look the same everywhere.
#[test]
fn one_kiln_is_reckoned_with_everywhere() {
    let browser = opened();
    // The welcome goes first: it takes room from the glass.
    browser.keys(GLASS, key::ESCAPE);
    let picture = drawn(&browser);
    let plan = Plan::new(&demo::ember_walk()).unwrap().plan;
    let late = Firings::new(&plan, &late_kiln()).unwrap();
    assert_ne!(total(&late), total(&reckoned(&demo::ember_walk())));
    press(&browser, "Shelf");
    press(&browser, "My kiln");
    browser.click(&number("Power on its plate"));
    browser.press_keys("1.2 kW");
    browser.press_keys(key::ENTER);
    says(&browser, &total(&late));
    let spoken = format!("In my kiln: {}.", total(&late));
    browser.wait_for(&format!(
        "return [...document.querySelectorAll('[role=status]')].some((one) => one.textContent.includes({}))",
        json!(spoken)
    ));
    browser.press_keys(key::ESCAPE);
    press(&browser, "Ticket for");
    let fuse = &late.programs[0];
    let line = format!("Full fuse {}{} kWh", long(fuse.hours), fixed(fuse.kwh, 1));
    browser.wait_for(&format!(
        "return document.querySelector('.ticket-table')?.textContent.includes({})",
        json!(line)
    ));
    assert_eq!(drawn(&browser), picture, "pictures are the same in every kiln");
    press(&browser, "slump");
    browser.wait_for("return document.querySelector('.sink-needle') !== null");
    let sinking = Sinking::in_kiln(&plan, &late_kiln()).unwrap();
    let usual = Sinking::of(&plan).unwrap();
    let full = |sinking: &Sinking| format!("full at {}", sinking.full_at().unwrap().max(0.0).ceil());
    assert_ne!(full(&sinking), full(&usual), "this kiln is another one");
    says(&browser, &full(&sinking));
    nothing_went_wrong(&browser);
}

/// What a kiln cannot do is told wherever its hours would stand.
#[test]
fn a_kiln_too_weak_is_told_in_words() {
    let browser = opened();
    press(&browser, "Shelf");
    press(&browser, "My kiln");
    for (name, value) in
        [("Inside, left to right", "560"), ("Inside, front to back", "560"), ("Power on its plate", "0.5")]
    {
        browser.click(&number(name));
        browser.press_keys(value);
        browser.press_keys(key::ENTER);
    }
    browser.wait_for(
        "return document.querySelector('.foot .total:last-child dd').innerText === 'not in this kiln'",
    );
    browser.press_keys(key::ESCAPE);
    press(&browser, "Ticket for");
    says(&browser, "Firings, one piece in the kiln");
    // The larger kiln alone is too weak for a full fuse; the slump follows when the power's answer is there.
    browser.wait_for(
        "return document.querySelector('.ticket-table')?.textContent.split('not in this kiln').length === 3",
    );
    press(&browser, "Slump");
    says(&browser, "A kiln too weak for its target.");
    says(&browser, "This kiln does not get through it.");
    browser.screenshot("kiln-weak-step-1280");
    press(&browser, "slump");
    browser.wait_for("return document.querySelector('.slip.sinking') !== null");
    let slip = browser.text(".slip.sinking");
    assert!(slip.contains("too weak") && slip.contains("0.5 kW"), "{slip}");
    browser.screenshot("kiln-weak-slip-1280");
    press(&browser, "Full fuse");
    press(&browser, "Program");
    says(&browser, "No firing gets through in my kiln");
    browser.screenshot("kiln-weak-firings-1280");
    nothing_went_wrong(&browser);
}

/// A mold is put into the recipe by one press and taken back by one step; the maker's own are written down, changed, deleted and kept.
#[test]
fn molds_are_used_written_down_and_kept() {
    let browser = opened();
    press(&browser, "Shelf");
    says(&browser, "Invented, no one’s molds.");
    let use_it = |name: &str| browser.click(&format!("[aria-label='Use it: {name}']"));
    use_it("Quay dish");
    let slump = "return document.querySelector('.slump .row-button').innerText.includes";
    browser.wait_for(&format!("{slump}('lat bottom 140')"));
    browser.keys("[aria-label='Use it: Harbor bowl']", &format!("{}z", key::CONTROL));
    browser.wait_for(&format!("{slump}('owl 160')"));
    use_it("Quay dish");
    press(&browser, "Write down this recipe’s mold");
    says(&browser, "Kept in this browser.");
    browser.set_value(".mold-name input", "Tide dish");
    browser.wait_for("return document.querySelector('.mold-item b').innerText === 'Tide dish'");
    browser.click(&number("Depth"));
    browser.press_keys("71 mm");
    browser.press_keys(key::ENTER);
    says(&browser, "Deeper than half its width.");
    browser.click(&number("Depth"));
    browser.press_keys("35 mm");
    browser.press_keys(key::ENTER);
    browser.click(&number("How many"));
    browser.press_keys("3");
    browser.press_keys(key::ENTER);
    says(&browser, "flat bottom 140 × 35 mm, bottom 77 mm, 3 of them");
    browser.run("document.querySelector('.molds').scrollIntoView()");
    no_sideways_scroll(&browser);
    browser.screenshot("molds-1280");
    // It is there again when the page is opened anew.
    browser.open(&support::site::page_url());
    drawn(&browser);
    press(&browser, "Shelf");
    says(&browser, "flat bottom 140 × 35 mm, bottom 77 mm, 3 of them");
    browser.click("[aria-label='Delete: Tide dish']");
    says(&browser, "Tide dish deleted.");
    says(&browser, "Invented, no one’s molds.");
    browser.click(".molds .word");
    says(&browser, "3 of them");
    browser.set_viewport(390, 844, 1.0);
    drawn(&browser);
    browser.run("document.querySelector('.molds').scrollIntoView()");
    no_sideways_scroll(&browser);
    browser.screenshot("molds-390");
    nothing_went_wrong(&browser);
}
