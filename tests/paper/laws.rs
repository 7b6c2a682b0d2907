//! No words leave their page or lie on anything else, whatever is ordered.

use super::orders::Ready;
use super::said::words;
use dappledome::base::seed::Seed;
use dappledome::base::units::Mm;
use dappledome::orders::model::{Line, Order, Prices};
use dappledome::paper::frame::MARGIN;
use dappledome::paper::metrics::{POINT, REACH, width};
use dappledome::paper::sheet::{Anchor, Item, PaperSize, Sheet, Words};
use dappledome::paper::{labels, make_sheet, quote, sift_map};
use dappledome::recipe::{Accents, Coat, Fall, Part, Patches, Recipe, Stem, demo};
use jiff::civil::date;
use proptest::prelude::*;

/// A box around something: left, top, right, bottom, and what it is.
type Around = ([f64; 4], String);

fn around(words: &Words) -> Around {
    let wide = width(&words.text, words.face, words.size);
    let (x, y) = words.at;
    let left = match words.anchor {
        Anchor::Start => x,
        Anchor::Middle => x - wide / 2.0,
        Anchor::End => x - wide,
    };
    let size = words.size * POINT;
    ([left, y - REACH.0 * size, left + wide, y + REACH.1 * size], words.text.clone())
}

/// Words, pictures and boxes to tick.
fn things(items: &[Item], found: &mut Vec<Around>) {
    for item in items {
        match item {
            Item::Words(words) => found.push(around(words)),
            Item::Window(_, _, items) => things(items, found),
            Item::Picture(picture) => {
                let ((x, y), (wide, high)) = (picture.at, picture.frame);
                found.push(([x, y, x + wide, y + high], "a picture".into()));
            }
            Item::Path(path) => {
                for part in path.parts.iter().filter(|part| path.closed && part.len() == 4) {
                    let ((left, top), (right, bottom)) = (part[0], part[2]);
                    if (right - left - 6.0).abs() < 1e-9 && (bottom - top - 6.0).abs() < 1e-9 {
                        found.push(([left, top, right, bottom], "a box".into()));
                    }
                }
            }
            Item::Circle(..) => {}
        }
    }
}

/// What is wrong with a sheet; by less than this it may be, mm.
const OFF: f64 = 0.06;

fn faults(sheet: &Sheet) -> Vec<String> {
    let (wide, high) = sheet.paper.mm();
    let mut all = Vec::new();
    things(&sheet.items, &mut all);
    let mut faults = Vec::new();
    for (at, ([left, top, right, bottom], what)) in all.iter().enumerate() {
        if *left < MARGIN - OFF
            || *top < MARGIN - OFF
            || *right > wide - MARGIN + OFF
            || *bottom > high - MARGIN + OFF
        {
            faults.push(format!("\"{what}\" leaves its page: {left:.1} {top:.1} {right:.1} {bottom:.1}"));
        }
        for ([a, b, c, d], other) in &all[at + 1..] {
            if left + OFF < *c && *a + OFF < *right && top + OFF < *d && *b + OFF < *bottom {
                faults.push(format!("\"{what}\" lies on \"{other}\", at {a:.1} {b:.1}"));
            }
        }
    }
    faults
}

fn name() -> impl Strategy<Value = String> {
    prop_oneof![
        Just(String::new()),
        Just("Ember Walk".to_owned()),
        "[A-Za-z]{1,12}( [A-Za-z]{1,12}){0,5}",
        Just("W".repeat(80)),
        Just("Wide Waxing Moons Woven With Willow Meadow Mist And Many More Words Of A Maker W".to_owned()),
        "[Α-Ωа-я一-三]{1,30}",
    ]
}

fn short_of(name: String) -> String {
    name.chars().take(80).collect()
}

fn coat(id: u32, patches: bool, parts: usize) -> Coat {
    let glasses = ["straw", "rust", "coral", "moss", "chalk", "white"];
    let fall = if patches { Fall::Patches(Patches::usual()) } else { Fall::Even { depth: Mm(0.1) } };
    let mut coat = Coat::new(id, "straw", fall);
    coat.powder =
        glasses.iter().take(parts).map(|glass| Part { glass: (*glass).into(), parts: 1.0 }).collect();
    coat
}

prop_compose! {
    fn recipe()(
        title in name(),
        disc in prop_oneof![Just(160.0), 80.0_f64..400.0],
        sheets in 1_usize..=4,
        coats in proptest::collection::vec((any::<bool>(), 1_usize..=6), 0..=12),
        accents in any::<bool>(),
        sponge in any::<bool>(),
    ) -> Recipe {
        let mut recipe = demo::ember_walk();
        recipe.title = short_of(title);
        let disc = f64::round(disc);
        recipe.blank.diameter = Mm(disc);
        recipe.mold.opening = Mm(disc);
        recipe.mold.depth = Mm((disc * 0.3).round());
        let sheet = recipe.blank.sheets[0].clone();
        recipe.blank.sheets = (0..sheets).map(|at| {
            let mut sheet = sheet.clone();
            sheet.thickness = Mm(2.0 + at as f64 * 0.5);
            sheet
        }).collect();
        recipe.coats = coats.into_iter().enumerate().map(|(at, (patches, parts))| coat(at as u32 + 1, patches, parts)).collect();
        recipe.accents = accents.then(Accents::default);
        if !sponge {
            recipe.sponge = None;
        }
        recipe
    }
}

prop_compose! {
    fn order()(
        title in name(),
        customer in name(),
        lines in proptest::collection::vec((recipe(), name(), 1_u32..=200, 1_usize..=200, any::<u32>()), 1..=4),
        priced in any::<bool>(),
        due in any::<bool>(),
        mount in any::<bool>(),
    ) -> Order {
        let each = 180 / lines.len() as u32;
        let lines = lines.into_iter().map(|(recipe, option, count, seeds, from)| Line {
            option: short_of(option),
            recipe,
            piece: None,
            seeds: (0..seeds as u32).map(|at| Seed(from.wrapping_add(at.wrapping_mul(7919)))).collect(),
            count: count.min(each),
            asked: priced.then_some(999_999.0),
        }).collect();
        let mut order = Order::of(Recipe::bare(), 1);
        order.title = short_of(title);
        order.customer = short_of(customer);
        order.lines = lines;
        order.due = due.then(|| date(2027, 9, 30));
        order.prices = priced.then(|| serde_json::from_value::<Prices>(serde_json::json!({ "hour": 24.0, "tax": 0.0825 })).unwrap());
        for line in &mut order.lines {
            line.recipe.stem = mount.then(Stem::default);
        }
        order
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, max_shrink_iters: 60, ..ProptestConfig::default() })]

    #[test]
    fn nothing_leaves_its_page_or_lies_on_anything_else(order in order(), noted in any::<bool>()) {
        let Some(mut ready) = Ready::new(order) else { return Ok(()) };
        if noted {
            let note = "Dab lighter near the rim, and sift the second coat from higher up. ".repeat(8);
            ready.pieces.iter_mut().for_each(|piece| piece.next_time = Some(note.clone()));
        }
        for paper in [PaperSize::A4, PaperSize::Letter] {
            let content = ready.on(paper);
            let made = make_sheet::sheets(&content);
            let said: Vec<String> = made.iter().map(|sheet| words(sheet).join(" ")).collect();
            prop_assert!((ready.order.lines.len()..=2 * ready.order.lines.len()).contains(&made.len()));
            for (seed, _) in ready.worked.lines.iter().flat_map(|line| &line.layouts) {
                prop_assert!(said.iter().any(|said| said.contains(&seed.to_string())), "seed {} is lost", seed);
            }
            for sheets in [made, quote::sheets(&content), sift_map::sheets(&content), labels::sheets(&content)] {
                for sheet in &sheets {
                    prop_assert_eq!(faults(sheet), Vec::<String>::new(), "{:?}", paper);
                }
            }
        }
    }
}
