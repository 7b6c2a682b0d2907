//! The example order from end to end.

use dappledome::base::memo::Allowance;
use dappledome::base::seed::Seed;
use dappledome::base::units::{Grams, Mm};
use dappledome::glass::kind::Glass;
use dappledome::orders::begin::want;
use dappledome::orders::file;
use dappledome::orders::loads::kiln;
use dappledome::orders::model::{Gain, Order};
use dappledome::orders::price::PiecePrice;
use dappledome::orders::suffice::cut_down;
use dappledome::orders::weigh::{PartGrams, WeighOut};
use dappledome::orders::worked::{Worked, work_out};
use dappledome::preview::Preview;
use dappledome::recipe::{Joint, Part, Pipe, Stem, demo};
use dappledome::shop::ticket::{Ticket, ticket};
use jiff::civil::date;

fn example() -> Order {
    file::read(include_str!("../../examples/orders/harborside.json")).unwrap()
}

/// Worked out with one ticket for each line, whatever the seed: what is not about layouts need not wait for them.
fn worked(order: &Order) -> Worked {
    let mut known: Vec<(Vec<String>, Ticket)> = Vec::new();
    let kiln = kiln(order);
    let mut preview = Preview::new();
    work_out(order, &[], date(2026, 11, 30), |plan, _| {
        let shares = plan.coats.iter().flat_map(|coat| &coat.blend.shares);
        let glasses: Vec<String> = shares.map(|(glass, _)| glass.id.clone()).collect();
        if let Some((_, ticket)) = known.iter().find(|(of, _)| *of == glasses) {
            return ticket.clone();
        }
        let made = ticket(&mut preview, plan, Seed(41), &kiln, &mut Allowance::unlimited()).unwrap();
        known.push((glasses, made.clone()));
        made
    })
    .unwrap()
}

fn steps(parts: &[PartGrams]) -> i64 {
    parts.iter().map(|part| (part.grams.0 * 10.0).round() as i64).sum()
}

/// Parts add up to coats, coats to powders, days to all, to the last tenth of a gram.
fn adds_up(weighed: &WeighOut) {
    for coat in &weighed.coats {
        assert_eq!(coat.by_day.iter().map(|parts| steps(parts)).sum::<i64>(), steps(&coat.all), "{coat:?}");
    }
    for powder in &weighed.powders {
        let parts = weighed
            .coats
            .iter()
            .flat_map(|coat| &coat.all)
            .filter(|part| part.glass == powder.glass)
            .cloned();
        let all = (powder.all.0 * 10.0).round() as i64;
        assert_eq!(steps(&parts.collect::<Vec<_>>()), all, "{powder:?}");
        assert_eq!(powder.by_day.iter().map(|day| (day.0 * 10.0).round() as i64).sum::<i64>(), all);
    }
}

#[test]
fn grams_add_up_and_are_those_of_the_tickets() {
    let mut order = example();
    // Few minutes a day: several days of sifting; a blend, so that there are parts.
    order.work.a_day = dappledome::base::units::Minutes(45.0);
    let blend = order.lines[0].recipe.coats[1].powder[0].clone();
    order.lines[0].recipe.coats[0].powder.push(blend);
    let done = worked(&order);
    assert!(done.weighed.days.len() > 2, "{:?}", done.weighed.days);
    adds_up(&done.weighed);
    let weighed: f64 = done.weighed.powders.iter().map(|powder| powder.all.0).sum();
    let mut preview = Preview::new();
    let tickets = order.lines.iter().zip(&done.lines).map(|(line, made)| {
        let plan = dappledome::recipe::plan::Plan::new(&line.recipe).unwrap().plan;
        let one = ticket(&mut preview, &plan, Seed(41), &kiln(&order), &mut Allowance::unlimited()).unwrap();
        one.powder_for_one().0 * f64::from(made.made)
    });
    let wanted: f64 = tickets.sum();
    assert!((weighed - wanted).abs() <= 0.05 * done.weighed.coats.len() as f64, "{weighed} of {wanted}");
    // A level spoon of 5 mL at the usual packing of 0.45: 5 x 2.5 x 0.45 g.
    assert!((done.weighed.coats[0].spoons[0].0 - 5.625).abs() < 1e-6);
}

/// A level spoon of 5 mL holds 5 phi rho grams of each powder by its own packing and density: 5 x 3 x 0.54 of this one.
#[test]
fn a_level_spoon_is_of_its_own_glass() {
    let rust = dappledome::glass::catalogue::find("rust").unwrap().clone();
    let own = Glass { id: "own".into(), packing: Some(0.54), density: 3.0, ..rust };
    let mut recipe = demo::ember_walk();
    recipe.bring(&own);
    recipe.coats[0].powder.push(Part { glass: own.id, parts: 1.0 });
    let spoons = worked(&Order::of(recipe, 1)).weighed.coats[0].spoons.clone();
    assert_eq!(spoons.len(), 2);
    assert!((spoons[0].0 - 5.625).abs() < 1e-6 && (spoons[1].0 - 8.1).abs() < 1e-6, "{spoons:?}");
}

#[test]
fn twelve_in_two_colors_are_fourteen_pieces_on_one_shelf() {
    let done = worked(&example());
    let made: Vec<_> = done.lines.iter().map(|line| (line.wanted, line.made, line.layouts.len())).collect();
    assert_eq!((done.pieces, done.spares, made), (14, 2, vec![(6, 7, 7), (6, 7, 7)]));
    assert_eq!(
        done.cuts.iter().map(|list| (list.sheets.len(), list.to_buy)).collect::<Vec<_>>(),
        [(2, 2), (2, 1)]
    );
    assert_eq!((done.loads.firings(), done.days.unwrap().ready), (5, date(2026, 12, 14)));
    assert!(done.notices.is_empty(), "{:?}", done.notices);
}

/// Twelve stems of 900 + 400 mm, two out of each length of 3048 mm; twelve joints out of one tube of 300 mL.
#[test]
fn stems_are_bought_for_what_is_wanted() {
    let mut order = example();
    let stems = worked(&order).stems;
    let pipes: Vec<_> =
        stems.pipes.iter().map(|need| (need.pipe.nominal(), need.stems(), need.bought.len())).collect();
    assert_eq!(pipes, [("3/4", 12, 6)]);
    assert_eq!(
        stems.stoppers.iter().map(|need| (need.number, need.holed, need.count)).collect::<Vec<_>>(),
        [(3, true, 12)]
    );
    let each = stems.lines[0].unwrap().0.silicone;
    assert!((stems.silicone - 12.0 * each).abs() < 1e-9 && stems.tubes == 1, "{stems:?}");
    // One line on stems of its own and one without any.
    let other =
        Stem { pipe: Pipe::One, stopper: 5, length: Mm(600.0), joint: Joint::dabs(), ..Stem::default() };
    order.lines[0].recipe.stem = Some(other);
    order.lines[1].recipe.stem = None;
    let done = worked(&order);
    assert_eq!(done.stems.lines[1], None);
    assert_eq!(done.stems.pipes[0].bought, [vec![Mm(1000.0); 3], vec![Mm(1000.0); 3]]);
    assert!(!done.stems.stoppers[0].holed);
    let priced = done.cost.priced.unwrap();
    // Six minutes at 24 an hour.
    let [with, without] = &priced.lines[..] else { panic!("two lines") };
    assert!(with.stem == 3.65 && (with.time.mount - 2.4).abs() < 1e-9, "{with:?}");
    assert_eq!((without.stem, without.time.mount), (0.0, 0.0));
    order.prices.as_mut().unwrap().stem = 0.0;
    assert_eq!(worked(&order).cost.missing, ["a stem with its joint"]);
    order.lines[0].recipe.stem = None;
    let none = worked(&order);
    assert!(none.cost.priced.is_some() && none.stems.pipes.is_empty() && none.stems.tubes == 0);
}

fn rows(price: &PiecePrice) -> f64 {
    let time = price.time.cut + price.time.sift + price.time.load + price.time.mount;
    price.glass + price.powder + price.stem + price.consumables + price.energy + time + price.overhead
}

#[test]
fn what_a_piece_costs_is_the_sum_of_its_rows() {
    let order = example();
    let done = worked(&order);
    let priced = done.cost.priced.as_ref().unwrap();
    let near = |got: f64, want: f64| assert!((got - want).abs() < 1e-9, "{got}, not {want}");
    for price in &priced.lines {
        near(price.each * 0.92, rows(price));
        near(price.breakage, price.each - rows(price));
        // Four sheets at 36 over 14 pieces; five firings at 0.16 a kWh; 24 an hour for 4, 8, twice 2 and 6 minutes.
        near(price.glass, 4.0 * 36.0 / 14.0);
        near(price.energy, done.loads.kwh() * 0.16 / 14.0);
        near(price.time.cut + price.time.sift + price.time.load + price.time.mount, 24.0 * 22.0 / 60.0);
        // A price is written to the hundredth, and its margin is that of what is written.
        near(price.wholesale, (price.each / 0.55 * 100.0).round() / 100.0);
        near(price.retail, 2.0 * price.wholesale);
        near(price.by_card.unwrap() * (1.0 - 0.029) - 0.30, price.retail);
        near(price.margin.unwrap(), 1.0 - price.each / price.wholesale);
        near(price.markup.unwrap(), price.wholesale / price.each - 1.0);
    }
    let powder: f64 =
        done.weighed.powders.iter().map(|powder| powder.all.0 * powder.price.unwrap() / 100.0).sum();
    near(priced.lines.iter().map(|price| price.powder * 7.0).sum(), powder);
    near(priced.order, 6.0 * (priced.lines[0].wholesale + priced.lines[1].wholesale));
}

#[test]
fn the_makers_own_price_counts_and_a_loss_is_told() {
    let mut order = example();
    order.lines[0].asked = Some(21.0);
    order.prices.as_mut().unwrap().gain = Gain::Markup(1.0);
    order.prices.as_mut().unwrap().tax = Some(0.1);
    let done = worked(&order);
    let priced = done.cost.priced.unwrap();
    assert!(
        priced.lines[0].asked && priced.lines[0].wholesale == 21.0 && priced.lines[0].margin.unwrap() < 0.0
    );
    let hundredth = |sum: f64| (sum * 100.0).round() / 100.0;
    assert_eq!(priced.lines[1].wholesale, hundredth(2.0 * priced.lines[1].each));
    assert_eq!(priced.with_tax.unwrap(), hundredth(1.1 * priced.order));
    assert!(done.notices.iter().any(|notice| notice.what == "Below what it costs."), "{:?}", done.notices);
}

#[test]
fn without_prices_there_is_none_and_never_nothing() {
    let mut order = example();
    order.stock.jars.retain(|jar| jar.glass != "moss");
    order.kiln.as_mut().unwrap().price = None;
    let done = worked(&order);
    assert_eq!(done.cost.priced, None);
    assert_eq!(done.cost.missing, ["100 g of moss", "a kWh, in the kiln"]);
    order.prices = None;
    let calm = worked(&order).cost;
    assert!(calm.priced.is_none() && calm.missing.is_empty() && calm.notices.is_empty());
}

/// 6 and 6 with two spare are seven each. Rust for four and a half of the first: 4 of it and 6 of the other with one spare, which falls
/// to the other (4.4 and 6.6 of 11).
#[test]
fn an_order_is_cut_down_to_what_its_jars_suffice_for() {
    let mut order = example();
    let jar = |order: &mut Order, grams: f64| {
        let jars = order.stock.jars.iter_mut();
        jars.filter(|jar| jar.glass == "rust").for_each(|jar| jar.grams = Some(Grams(grams)));
    };
    let need =
        |done: &Worked| done.weighed.powders.iter().find(|need| need.glass == "rust").cloned().unwrap();
    jar(&mut order, 1000.0);
    let plenty = worked(&order);
    assert_eq!(cut_down(&order, &plenty, "rust"), None, "nothing is short");
    // Rust is in the first line alone.
    let one = need(&plenty).all.0 / 7.0;
    jar(&mut order, 4.5 * one);
    let short = worked(&order);
    assert!(need(&short).short().0 > 0.0);
    let (fewer, sifted) = cut_down(&order, &short, "rust").unwrap();
    assert_eq!((sifted, fewer.lines[0].count, fewer.lines[1].count), (4, 4, 6));
    assert_eq!(need(&worked(&fewer)).short(), Grams(0.0));
    let mut one_more = fewer;
    want(&mut one_more, 0, 5);
    assert!(need(&worked(&one_more)).short().0 > 0.0, "no more than that");
    let mut begun = order.clone();
    begun.progress.piece_mut(0, 6).sponged = true;
    assert_eq!(cut_down(&begun, &short, "rust"), None, "the seventh lies there already");
    jar(&mut order, 0.5 * one);
    assert_eq!(cut_down(&order, &worked(&order), "rust"), None, "not even for one");
    order.stock.jars.retain(|jar| jar.glass != "rust");
    assert_eq!(cut_down(&order, &worked(&order), "rust"), None, "nobody knows");
}

#[test]
fn what_is_written_reads_back_the_same() {
    let order = example();
    assert_eq!(file::read(&file::write(&order)), Ok(order));
}
