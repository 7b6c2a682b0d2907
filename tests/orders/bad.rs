//! Orders that cannot be: told, each with what, why and what to do.

use dappledome::base::notice::{Notice, Severity};
use dappledome::base::units::{Grams, Minutes, Mm};
use dappledome::orders::checks::{check, today};
use dappledome::orders::file;
use dappledome::orders::model::{Card, Gain, Jar, Order, OwnedMold, Prices, Sheets};
use dappledome::recipe::{Mold, Recipe, Stem};
use jiff::civil::date;

fn sound() -> Order {
    let mut order = Order::of(Recipe::bare(), 12);
    let sheets = Sheets {
        glass: "white".into(),
        thickness: Mm(3.0),
        wide: Mm(500.0),
        deep: Mm(500.0),
        count: 2,
        price: Some(20.0),
    };
    order.stock.sheets.push(sheets);
    order.stock.jars.push(Jar { glass: "rust".into(), grams: Some(Grams(40.0)), price: Some(9.5) });
    order.molds = Some(vec![OwnedMold { mold: Mold::default(), across: Mm(180.0), count: 5 }]);
    order.prices = Some(Prices {
        hour: 24.0,
        overhead: 2.0,
        consumables: 0.5,
        stem: 3.65,
        breakage: 0.08,
        gain: Gain::Margin(0.45),
        retail: 2.0,
        card: Some(Card { rate: 0.029, fixed: 0.3 }),
        fair: None,
        tax: None,
        to_begin: 0.3,
    });
    order
}

fn explained(notice: &Notice) {
    for part in [&notice.what, &notice.why, &notice.remedy] {
        assert!(part.chars().count() > 3 && part.ends_with(['.', '?']), "{notice:?}");
        assert!(!part.contains("NaN") && !part.contains("inf"), "{notice:?}");
    }
}

#[test]
fn a_sound_order_has_no_fault() {
    assert!(check(&sound()).is_ok());
}

/// Each spoils a sound order in one way.
type Spoil = fn(&mut Order);

#[test]
fn every_fault_is_told() {
    let spoils: [(&str, Spoil); 33] = [
        ("version", |order| order.version = 2),
        ("title", |order| order.title = "a".repeat(81)),
        ("no line", |order| order.lines.clear()),
        ("too many lines", |order| order.lines = vec![order.lines[0].clone(); 25]),
        ("no piece", |order| order.lines[0].count = 0),
        ("a million pieces", |order| order.lines[0].count = 1_000_000),
        ("too many with spares", |order| (order.lines[0].count, order.spare_per_ten) = (190, 1)),
        ("no seed", |order| order.lines[0].seeds.clear()),
        ("a negative price asked", |order| order.lines[0].asked = Some(-1.0)),
        ("spares", |order| order.spare_per_ten = 6),
        ("a far day", |order| order.due = Some(date(9999, 12, 31))),
        ("no workday", |order| order.work.days.clear()),
        ("no time", |order| order.work.a_day = Minutes(0.0)),
        ("minutes", |order| order.work.minutes.sift = Minutes(-1.0)),
        ("rest", |order| order.work.cure_days = 1000),
        ("an unknown sheet", |order| order.stock.sheets[0].glass = "rust".into()),
        ("a tiny sheet", |order| order.stock.sheets[0].wide = Mm(1.0)),
        ("a sheet's price", |order| order.stock.sheets[0].price = Some(-5.0)),
        ("an unknown powder", |order| order.stock.jars[0].glass = "white".into()),
        ("a jar", |order| order.stock.jars[0].grams = Some(Grams(f64::NAN))),
        ("edge", |order| order.cutting.edge = Mm(1e9)),
        ("no molds", |order| order.molds.as_mut().unwrap()[0].count = 0),
        ("a narrow mold", |order| order.molds.as_mut().unwrap()[0].across = Mm(150.0)),
        ("breakage", |order| order.prices.as_mut().unwrap().breakage = 1.0),
        ("margin", |order| order.prices.as_mut().unwrap().gain = Gain::Margin(1.0)),
        ("a stopper that fits no such pipe", |order| {
            order.lines[0].recipe.stem = Some(Stem { stopper: 9, ..Stem::default() });
        }),
        ("a pipe longer than pipes are", |order| {
            order.lines[0].recipe.stem =
                Some(Stem { length: Mm(2500.0), in_ground: Mm(900.0), ..Stem::default() });
        }),
        ("work on a piece that is not made", |order| order.progress.piece_mut(0, 99).sponged = true),
        ("work on no line", |order| order.progress.piece_mut(7, 0).sponged = true),
        ("work told of twice", |order| order.progress.pieces = vec![order.progress.piece(0, 0); 2]),
        ("a jar lighter than none", |order| {
            order.progress.piece_mut(0, 0).coat_mut(1).after = Some(Grams(-1.0));
        }),
        ("everything broke", |order| {
            (0..200).for_each(|piece| order.progress.piece_mut(0, piece).broken = true)
        }),
        ("an hour", |order| order.prices.as_mut().unwrap().hour = -24.0),
    ];
    for (name, spoil) in spoils {
        let mut order = sound();
        spoil(&mut order);
        let faults = check(&order).map(|_| ()).expect_err(name);
        assert!(
            !faults.is_empty() && faults.iter().any(|notice| notice.severity == Severity::Fault),
            "{name}"
        );
        faults.iter().for_each(explained);
    }
}

#[test]
fn all_faults_come_at_once_and_name_their_piece() {
    let mut order = sound();
    order.lines[0].recipe.title = "Shoal".into();
    order.lines[0].recipe.blank.diameter = Mm(1.0);
    order.lines[0].count = 0;
    order.cutting.between = Mm(0.0);
    let faults = check(&order).map(|_| ()).unwrap_err();
    assert!(faults.len() >= 3, "{faults:?}");
    assert!(faults.iter().any(|notice| notice.what.starts_with("Shoal: ")), "{faults:?}");
}

#[test]
fn a_broken_file_is_told() {
    let whole = file::write(&sound());
    for (text, told) in [
        ("", "An order file with a mistake in it."),
        ("{\"version\": 7}", "An order of another version."),
        (&whole[..whole.len() / 2], "An order file with a mistake in it."),
        (&whole.replace("\"count\"", "\"cuont\""), "An order file with a mistake in it."),
        (
            &whole.replace("\"version\": 1,", "\"version\": 1, \"due\": \"2026-02-30\","),
            "An order file with a mistake in it.",
        ),
        (&" ".repeat(file::MOST_BYTES + 1), "Too large for an order."),
    ] {
        let notice = file::read(text).unwrap_err();
        assert_eq!(notice.what, told);
        explained(&notice);
    }
}

#[test]
fn a_day_far_away_is_no_today() {
    assert!(today(date(2026, 11, 30)).is_ok());
    assert!(today(date(1, 1, 1)).is_err() && today(date(9999, 1, 1)).is_err());
}
