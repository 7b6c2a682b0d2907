//! What the sheets say, and what they must not.

use super::orders::{Ready, TODAY, example, of_disc};
use dappledome::base::seed::Seed;
use dappledome::base::units::Mm;
use dappledome::base::units::fixed;
use dappledome::orders::model::{Gain, Line, Order, Prices};
use dappledome::paper::kind::Kind;
use dappledome::paper::pdf::each_words;
use dappledome::paper::sheet::{Item, PaperSize, Sheet};
use dappledome::paper::{labels, make_sheet, quote, sift_map};
use dappledome::recipe::{Fall, Stem};
use dappledome::worker::asked::{DeskJob, PaperJob, Said};
use dappledome::worker::protocol::{read, written};
use jiff::civil::date;

pub fn words(sheet: &Sheet) -> Vec<String> {
    let mut all = Vec::new();
    each_words(&sheet.items, &mut |words| all.push(words.text.clone()));
    all
}

fn all(sheets: &[Sheet]) -> String {
    sheets.iter().map(|sheet| words(sheet).join(" ")).collect::<Vec<_>>().join(" ")
}

fn lines_of(count: usize) -> Order {
    let mut order = of_disc(160.0, 2);
    order.lines = vec![order.lines[0].clone(); count];
    order
}

#[test]
fn six_options_fill_two_pages_evenly() {
    for (options, want) in
        [(1, vec![1]), (4, vec![4]), (5, vec![3, 2]), (6, vec![3, 3]), (7, vec![4, 3]), (9, vec![3, 3, 3])]
    {
        let ready = Ready::new(lines_of(options)).unwrap();
        for paper in [PaperSize::A4, PaperSize::Letter] {
            let sheets = quote::sheets(&ready.on(paper));
            let pictures: Vec<Vec<f64>> = sheets
                .iter()
                .map(|sheet| {
                    sheet
                        .items
                        .iter()
                        .filter_map(|item| match item {
                            Item::Picture(picture) => Some(picture.frame.1),
                            _ => None,
                        })
                        .collect()
                })
                .collect();
            let on_each: Vec<usize> =
                pictures.iter().map(|of| of.len() / 2).filter(|count| *count > 0).collect();
            assert_eq!(on_each, want, "{paper:?}");
            let first = pictures[0][0];
            assert!(
                pictures.iter().flatten().all(|high| (high - first).abs() < 1e-9),
                "as high on every page"
            );
        }
    }
}

/// What the maker pays stands nowhere that a customer reads: each sum of the worked price is looked for.
#[test]
fn a_quote_shows_prices_and_no_cost() {
    let mut order = example();
    order.stock.sheets.iter_mut().for_each(|sheet| sheet.price = Some(20.0));
    let ready = Ready::new(order).unwrap();
    let priced = ready.worked.cost.priced.as_ref().expect("the example has prices");
    let said = all(&quote::sheets(&ready.on(PaperSize::A4)));
    for price in &priced.lines {
        assert!(said.contains(&fixed(price.wholesale, 2)), "{said}");
        for cost in [price.each, price.glass, price.powder, price.energy, price.time.sift, price.breakage] {
            assert!(!said.contains(&format!(" {} ", fixed(cost, 2))), "{cost} in {said}");
        }
    }
    assert!(said.contains(&fixed(priced.with_tax.unwrap_or(priced.order), 2)), "{said}");
    assert!(!said.contains(&fixed(priced.costs, 2)) && !said.to_lowercase().contains("margin"), "{said}");
}

#[test]
fn without_prices_there_are_lines_to_write_on_and_no_zeros() {
    let ready = Ready::new(lines_of(2)).unwrap();
    let said = all(&quote::sheets(&ready.on(PaperSize::A4)));
    assert!(said.contains("Price") && said.contains("Together") && !said.contains("0.00"), "{said}");
}

#[test]
fn tax_and_what_is_paid_to_begin_are_as_entered() {
    let mut order = lines_of(1);
    let prices: Prices = serde_json::from_value(serde_json::json!({ "hour": 24.0, "tax": 0.08 })).unwrap();
    assert!(matches!(prices.gain, Gain::Margin(_)));
    order.prices = Some(prices);
    order.lines[0].asked = Some(42.0);
    order.due = Some(date(2027, 3, 1));
    let mut ready = Ready::new(order).unwrap();
    // The sums by hand, whatever jars and kiln cost: two at 42.00, 8 % of tax, a third of 90.72.
    let line = dappledome::orders::price::PiecePrice {
        wholesale: 42.0,
        asked: true,
        glass: 1.0,
        powder: 1.0,
        stem: 0.0,
        consumables: 0.0,
        energy: 1.0,
        time: dappledome::orders::price::TimePrice { cut: 1.0, sift: 1.0, load: 1.0, mount: 0.0 },
        overhead: 0.0,
        breakage: 0.0,
        each: 6.0,
        margin: None,
        markup: None,
        retail: 84.0,
        by_card: None,
    };
    ready.worked.cost.priced = Some(dappledome::orders::price::Priced {
        lines: vec![line],
        order: 84.0,
        with_tax: Some(90.72),
        costs: 12.0,
        fair: None,
    });
    let said = all(&quote::sheets(&ready.on(PaperSize::A4)));
    for words in
        ["at 42.00", "84.00", "Tax, 8 % as entered", "6.72", "90.72", "A third when we begin: 30.24."]
    {
        assert!(said.contains(words), "{words} is not in {said}");
    }
}

/// Every seed has its box where there is room, and is named where there is none.
#[test]
fn no_seed_is_lost() {
    for (count, seeds, boxed) in [(12, 12, true), (40, 40, true), (200, 7, true), (180, 180, false)] {
        let mut order = of_disc(160.0, count);
        order.spare_per_ten = u32::from(count < 100);
        order.lines[0].seeds = (0..seeds).map(|at| Seed(4_000_000_000 + at * 17)).collect();
        let ready = Ready::new(order).unwrap();
        for paper in [PaperSize::A4, PaperSize::Letter] {
            let sheets = make_sheet::sheets(&ready.on(paper));
            assert_eq!(sheets.len(), 1);
            let all = words(&sheets[0]);
            for (seed, _) in &ready.worked.lines[0].layouts {
                let name = seed.to_string();
                let beside_a_box =
                    all.iter().any(|words| *words == name || words.starts_with(&format!("{name} ×")));
                assert!(beside_a_box || all.iter().any(|words| words.contains(&name)), "{name}, {paper:?}");
                assert!(beside_a_box || !boxed, "{name} of {count} has no box, {paper:?}");
            }
        }
    }
}

#[test]
fn spare_pieces_are_told_apart() {
    let ready = Ready::new(of_disc(160.0, 12)).unwrap();
    let all = words(&make_sheet::sheets(&ready.on(PaperSize::A4))[0]);
    assert_eq!(all.iter().filter(|words| *words == "spare").count() as u32, ready.worked.spares);
    assert!(all.iter().any(|words| words.contains("Make sheet for 12, and 2 spare")), "{all:?}");
}

#[test]
fn next_times_note_stands_on_the_next_make_sheet() {
    let mut ready = Ready::new(of_disc(160.0, 2)).unwrap();
    ready.pieces[0].next_time = Some("dab lighter near the rim".into());
    let said = all(&make_sheet::sheets(&ready.on(PaperSize::A4)));
    assert!(said.contains("Next time: dab lighter near the rim"), "{said}");
}

/// No paper calls a piece safe to eat from, and the label says that it was not tested.
#[test]
fn nothing_is_called_food_safe() {
    let ready = Ready::new(example()).unwrap();
    let content = ready.on(PaperSize::A4);
    let sheets = [
        make_sheet::sheets(&content),
        quote::sheets(&content),
        sift_map::sheets(&content),
        labels::sheets(&content),
    ];
    let said = all(&sheets.concat()).to_lowercase();
    assert!(!said.contains("food safe") && !said.contains("food-safe") && !said.contains(" safe "), "{said}");
    assert!(said.contains("not for food"));
}

#[test]
fn every_wanted_piece_has_a_label() {
    let ready = Ready::new(example()).unwrap();
    let wanted: u32 = ready.order.lines.iter().map(|line: &Line| line.count).sum();
    let said = all(&labels::sheets(&ready.on(PaperSize::Letter)));
    assert_eq!(said.matches("No. ").count() as u32, wanted);
    assert_eq!(said.matches("Looking after it").count() as u32, wanted);
}

#[test]
fn coats_without_patches_have_no_map() {
    let mut order = of_disc(160.0, 1);
    order.lines[0].recipe.coats.iter_mut().for_each(|coat| coat.fall = Fall::Even { depth: Mm(0.2) });
    let ready = Ready::new(order).unwrap();
    assert!(sift_map::sheets(&ready.on(PaperSize::A4)).is_empty());
}

/// Page and worker speak of orders and their paper in bytes: what is said is what is heard, with a stem and without.
#[test]
fn what_the_worker_says_is_heard_as_it_was_said() {
    for stem in [None, Some(Stem::default())] {
        let mut order = of_disc(160.0, 12);
        order.lines[0].recipe.stem = stem;
        let ready = Ready::new(order).unwrap();
        let outcome = Ok(Box::new(ready.worked.clone()));
        let sheets = make_sheet::sheets(&ready.on(PaperSize::A4));
        for said in [Said::Order(outcome), Said::Paper(sheets)] {
            assert_eq!(read::<Said>(&written(&said)).as_ref(), Ok(&said));
        }
        let paper = PaperJob {
            order: ready.order.clone(),
            worked: ready.worked.clone(),
            next_time: vec![Some("dab lighter".into())],
            kind: Kind::Quote,
            paper: PaperSize::Letter,
            today: TODAY,
        };
        let asked = DeskJob::Paper(Box::new(paper));
        assert_eq!(read::<DeskJob>(&written(&asked)).as_ref(), Ok(&asked));
    }
}
