//! An order in lines for the eye.

use super::joint_lines::joint;
use dappledome::base::units::{Grams, fixed, plain};
use dappledome::glass::glasses::Glasses;
use dappledome::orders::cuts::{CutList, CutSheet};
use dappledome::orders::days::{Days, Doing, Pace, What};
use dappledome::orders::loads::{Batch, Loads};
use dappledome::orders::model::Order;
use dappledome::orders::price::{Cost, PiecePrice, Priced};
use dappledome::orders::stems::{PipeNeed, Stems};
use dappledome::orders::weigh::{CoatNeed, PartGrams, PowderNeed, WeighOut};
use dappledome::orders::worked::Worked;
use dappledome::recipe::SOLD_IN;
use dappledome::shop::stem::TUBE;
use jiff::civil::Date;

/// The whole order.
pub fn in_lines(order: &Order, worked: &Worked) -> String {
    let (mut lines, glasses) = (head(worked), order.glasses());
    lines.extend(weighed(order, &glasses, worked));
    lines.push("Discs to cut".into());
    lines.extend(worked.cuts.iter().flat_map(|list| cut(&glasses, list)));
    lines.extend(stems(worked, &worked.stems));
    lines.extend(loads(&worked.loads));
    lines.extend(worked.days.as_ref().map(|days| in_days(order, days)).unwrap_or_default());
    lines.extend(cost(worked, &worked.cost));
    lines.join("\n") + "\n"
}

fn head(worked: &Worked) -> Vec<String> {
    let title = if worked.title.is_empty() { "An order" } else { &worked.title };
    let customer =
        if worked.customer.is_empty() { String::new() } else { format!(", for {}", worked.customer) };
    let due = worked.due.map_or_else(String::new, |due| format!(", due {}", day(due)));
    let mut lines = vec![format!("{title}{customer}{due}")];
    lines.push(format!("{}, {} of them spare", counted(worked.pieces.into(), "piece"), worked.spares));
    lines.extend(worked.lines.iter().map(|line| {
        let layouts: Vec<String> = line
            .layouts
            .iter()
            .map(
                |(seed, times)| {
                    if *times == 1 { seed.to_string() } else { format!("{seed} ({times} times)") }
                },
            )
            .collect();
        format!("  {}: {} made, {} wanted, seeds {}", line.name, line.made, line.wanted, layouts.join(", "))
    }));
    lines
}

fn weighed(order: &Order, glasses: &Glasses, worked: &Worked) -> Vec<String> {
    let WeighOut { days, powders, coats } = &worked.weighed;
    let mut lines = vec!["Powder to have ready".into()];
    lines.extend(powders.iter().map(|need| powder(glasses, need)));
    let heads: Vec<String> = days.iter().map(|date| day(*date)).collect();
    lines.push(format!(
        "Powder to weigh: for one disc, {}for all",
        heads.iter().map(|head| format!("{head}, ")).collect::<String>()
    ));
    for (at, line) in worked.lines.iter().enumerate() {
        lines.push(format!("  {}", line.name));
        let of_line = coats.iter().filter(|coat| coat.line == at);
        lines.extend(of_line.map(|coat| weighed_coat(order, coat)));
    }
    lines
}

fn powder(glasses: &Glasses, need: &PowderNeed) -> String {
    let there =
        need.on_hand.map_or_else(|| "not written down".into(), |there| format!("{} in jars", grams(there)));
    let buy = if need.to_buy.0 > 0.0 {
        let runs_out = need.runs_out.filter(|_| need.on_hand.is_some_and(|there| there.0 > 0.0));
        let runs_out =
            runs_out.map_or_else(String::new, |day| format!(", runs out on day {} of sifting", day + 1));
        format!("{} to buy{runs_out}", grams(need.to_buy))
    } else {
        format!("{} left", grams(need.left))
    };
    format!("  {:<12} {}: {there}, {buy}", glasses.name(&need.glass), grams(need.all))
}

fn weighed_coat(order: &Order, coat: &CoatNeed) -> String {
    let recipe = &order.lines[coat.line].recipe;
    let at = recipe.coats.iter().position(|other| other.id == coat.coat).unwrap_or_default();
    let sums = |parts: &[PartGrams]| {
        let each: Vec<String> = parts.iter().map(|part| fixed(part.grams.0, 1)).collect();
        let sum: f64 = parts.iter().map(|part| part.grams.0).sum();
        if each.len() < 2 { each.concat() } else { format!("{} ({})", fixed(sum, 1), each.join(" + ")) }
    };
    let names: Vec<String> = coat.one.iter().map(|part| recipe.glasses.name(&part.glass)).collect();
    let all = [&coat.one].into_iter().chain(&coat.by_day).chain([&coat.all]);
    let numbers: Vec<String> = all.map(|parts| sums(parts)).collect();
    let spoons: Vec<String> = coat.spoons.iter().map(|spoon| fixed(spoon.0, 1)).collect();
    format!(
        "    coat {}, {}: {} g (a level 5 mL spoon holds {})",
        at + 1,
        names.join(" and "),
        numbers.join(", "),
        spoons.join(" and ")
    )
}

fn cut(glasses: &Glasses, list: &CutList) -> Vec<String> {
    let discs: usize = list.sheets.iter().map(|sheet| sheet.discs.len()).sum();
    let mut lines = vec![format!(
        "  {}, {}: {} out of {}, {} to buy, {} % left over",
        glasses.name(&list.glass),
        list.thickness,
        counted(discs as i64, "disc"),
        counted(list.sheets.len() as i64, "sheet"),
        list.to_buy,
        fixed(list.waste * 100.0, 0)
    )];
    lines.extend(list.sheets.iter().enumerate().map(|(at, sheet)| sheet_line(at, sheet)));
    lines.extend(
        list.without
            .iter()
            .map(|left| format!("    {} of {} do not go on any sheet", left.count, left.diameter)),
    );
    lines
}

fn sheet_line(at: usize, sheet: &CutSheet) -> String {
    let across = sheet.discs.first().map_or(0.0, |disc| disc.diameter.0);
    let mut said = across;
    let centers: Vec<String> = sheet
        .discs
        .iter()
        .map(|disc| {
            let size =
                if disc.diameter.0 == said { String::new() } else { format!("{} across at ", disc.diameter) };
            said = disc.diameter.0;
            format!("{size}{} / {}", fixed(disc.x.0, 1), fixed(disc.y.0, 1))
        })
        .collect();
    let strip = sheet
        .offcut
        .map_or_else(String::new, |strip| format!("; leaves {} × {}", plain(strip.wide.0), strip.deep));
    format!(
        "    sheet {}, {} × {}{}: {} mm across at {} mm{strip}",
        at + 1,
        plain(sheet.wide.0),
        sheet.deep,
        if sheet.bought { ", to buy" } else { "" },
        plain(across),
        centers.join(", ")
    )
}

/// What the stems take; nothing where there are none.
fn stems(worked: &Worked, stems: &Stems) -> Vec<String> {
    if stems.pipes.is_empty() {
        return Vec::new();
    }
    let mut lines = vec!["Stems and joints".into()];
    let mut said = None;
    let stemmed =
        worked.lines.iter().zip(&stems.lines).filter_map(|(line, stem)| Some((line, stem.as_ref()?)));
    for (line, (needs, count)) in stemmed {
        lines.push(format!("  {}: {}", line.name, counted((*count).into(), "stem")));
        if said.replace(needs) != Some(needs) {
            lines.extend(joint(needs).into_iter().map(|line| format!("    {line}")));
        }
    }
    lines.extend(stems.pipes.iter().map(pipe));
    lines.extend(stems.stoppers.iter().map(|need| {
        let kind = if need.holed { "holed" } else { "solid" };
        format!("  {} No. {}, {kind}, to buy", counted(need.count.into(), "stopper"), need.number)
    }));
    lines.push(format!(
        "  silicone {} mL: {} of {} mL to buy",
        fixed(stems.silicone, 0),
        counted(stems.tubes.into(), "tube"),
        plain(TUBE)
    ));
    lines
}

fn pipe(need: &PipeNeed) -> String {
    let cut: Vec<String> = need
        .bought
        .iter()
        .map(|cuts| cuts.iter().map(|cut| fixed(cut.0, 0)).collect::<Vec<_>>().join(" + "))
        .collect();
    format!(
        "  {} in pipe: {} out of {} of {SOLD_IN} to buy ({} mm)",
        need.pipe.nominal(),
        counted(need.stems() as i64, "stem"),
        counted(need.bought.len() as i64, "length"),
        cut.join("; ")
    )
}

fn loads(loads: &Loads) -> Vec<String> {
    let kiln = if loads.kiln.is_empty() { "your kiln" } else { &loads.kiln };
    let mut lines = vec![format!(
        "Kiln loads, in {kiln}: {}, {} h, {} kWh",
        counted(loads.firings() as i64, "firing"),
        fixed(loads.hours(), 0),
        fixed(loads.kwh(), 1)
    )];
    lines.extend(loads.batches.iter().map(batch));
    lines
}

fn batch(batch: &Batch) -> String {
    let loads: Vec<String> =
        batch.loads.iter().map(|load| load.iter().map(|(_, count)| count).sum::<u32>().to_string()).collect();
    let limit = if batch.molds_limit { "as many molds as there are" } else { "as many as lie on the shelf" };
    format!(
        "  {:<12} {} of {} at once, {limit}, {} each; {} h and {} kWh a load",
        batch.firing.name(),
        loads.join(", "),
        batch.holds,
        batch.across,
        fixed(batch.hours, 1),
        fixed(batch.kwh, 1)
    )
}

fn in_days(order: &Order, days: &Days) -> Vec<String> {
    let mut lines = vec!["Days".into()];
    let mut last = None;
    for doing in &days.doings {
        let head = if last == Some(doing.day) { String::new() } else { day(doing.day) };
        lines.push(format!("  {head:<12} {}", does(doing)));
        last = Some(doing.day);
    }
    let rest = if order.lines.iter().any(|line| line.mounted() > 0) {
        format!(", after {} of rest", counted(order.work.cure_days.into(), "day"))
    } else {
        String::new()
    };
    let hand = match days.in_hand {
        Some(late) if late < 0 => format!(", {} late", counted(-late, "day")),
        Some(spare) => format!(", {} in hand", counted(spare, "day")),
        None => String::new(),
    };
    lines.push(format!(
        "Ready {}{rest}{hand}. Hand work {} h in all",
        day(days.ready),
        fixed(days.hand_work.0 / 60.0, 1)
    ));
    lines.push(match days.pace {
        Pace::Kiln(gains) => {
            format!("The kiln sets the pace: it takes {} more than hand work alone", counted(gains, "day"))
        }
        Pace::Hands(gains) => {
            format!("Hand work sets the pace: it takes {} more than the kiln alone", counted(gains, "day"))
        }
        Pace::Neither => "Kiln and hand work keep pace".into(),
    });
    lines.extend(days.earlier.iter().map(|earlier| {
        format!(
            "  {}: ready {}, {} earlier",
            earlier.change.words(),
            day(earlier.ready),
            counted(earlier.days, "day")
        )
    }));
    lines.extend(days.others.iter().map(|other| {
        let late = other
            .in_hand
            .filter(|days| *days < 0)
            .map_or_else(String::new, |days| format!(", {} late", counted(-days, "day")));
        format!("Beside it, {}: ready {}{late}", other.title, day(other.ready))
    }));
    lines
}

fn does(doing: &Doing) -> String {
    let pieces = counted(doing.pieces.into(), "piece");
    match (doing.what, doing.fires) {
        (What::Cut, _) => format!("cut {pieces}"),
        (What::Sift, _) => format!("sift and dab {pieces}"),
        (What::Mount, _) => format!("mount {pieces}"),
        (What::Fire(firing), Some((at, hours))) => {
            format!("{}, {pieces}: on at {}, opened after {} h", firing.name(), clock(at), fixed(hours, 1))
        }
        (What::Fire(firing), None) => format!("{}, {pieces}", firing.name()),
    }
}

/// An hour on the clock.
fn clock(hours: f64) -> String {
    let minutes = (hours * 60.0).round() as u32;
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}

fn cost(worked: &Worked, cost: &Cost) -> Vec<String> {
    let Some(priced) = &cost.priced else {
        return vec![if cost.missing.is_empty() {
            "No prices yet. Grams, cuts and days need none".into()
        } else {
            format!("No price yet, since these have none: {}", cost.missing.join("; "))
        }];
    };
    let mut lines = Vec::new();
    for (line, price) in worked.lines.iter().zip(&priced.lines) {
        lines.push(format!("What one costs, {}", line.name));
        lines.extend(rows(price));
    }
    lines.extend(sums(priced));
    lines
}

fn rows(price: &PiecePrice) -> Vec<String> {
    let PiecePrice { glass, powder, stem, consumables, energy, time, overhead, breakage, each, .. } = *price;
    let row = |what: &str, money: f64| format!("  {what:<28} {:>9}", fixed(money, 2));
    let mut lines: Vec<String> = [
        ("glass", glass),
        ("powder", powder),
        ("stem and joint", stem),
        ("paper, separator", consumables),
        ("energy", energy),
        ("time: cutting", time.cut),
        ("time: sifting and dabbing", time.sift),
        ("time: loading", time.load),
        ("time: mounting", time.mount),
        ("overhead", overhead),
        ("breakage", breakage),
        ("each", each),
    ]
    .into_iter()
    .map(|(what, money)| row(what, money))
    .collect();
    let share = |share: Option<f64>| {
        share.map_or_else(|| "–".into(), |share| format!("{} %", fixed(share * 100.0, 1)))
    };
    let asked = if price.asked { "set by you, " } else { "" };
    lines.push(format!(
        "{} ({asked}margin {}, markup {})",
        row("wholesale", price.wholesale),
        share(price.margin),
        share(price.markup)
    ));
    lines.push(row("retail", price.retail));
    lines.extend(price.by_card.map(|money| row("retail, by card", money)));
    lines
}

fn sums(priced: &Priced) -> Vec<String> {
    let mut lines =
        vec![format!("This order: {}, and costs {}", fixed(priced.order, 2), fixed(priced.costs, 2))];
    lines.extend(priced.with_tax.map(|sum| format!("With tax: {}", fixed(sum, 2))));
    lines.extend(priced.fair.map(|fair| {
        let pays = fair.pieces.map_or_else(
            || "no number of pieces pays for it at this price".into(),
            |pieces| format!("the {} sold pays for it ({})", nth(pieces.ceil() as i64), fixed(pieces, 2)),
        );
        format!("At a fair, fee {}: {pays}", fixed(fair.fee, 2))
    }));
    lines
}

/// An ordinal number.
fn nth(number: i64) -> String {
    let end = match (number % 10, number % 100) {
        (1, tens) if tens != 11 => "st",
        (2, tens) if tens != 12 => "nd",
        (3, tens) if tens != 13 => "rd",
        _ => "th",
    };
    format!("{number}{end} piece")
}

/// A day with its name.
fn day(date: Date) -> String {
    date.strftime("%a %-d %b %Y").to_string()
}

/// A mass as scales at the bench show it.
fn grams(mass: Grams) -> String {
    format!("{} g", fixed(mass.0, 1))
}

fn counted(count: i64, thing: &str) -> String {
    format!("{count} {thing}{}", if count == 1 { "" } else { "s" })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Nobody has said what is there, and nobody can say when it runs out; an empty jar is another thing.
    #[test]
    fn a_jar_that_is_not_written_down_is_said_to_be_so() {
        let need = |on_hand: Option<f64>, runs_out| PowderNeed {
            glass: "rust".into(),
            all: Grams(13.4),
            by_day: vec![Grams(13.4)],
            on_hand: on_hand.map(Grams),
            left: Grams(0.0),
            to_buy: Grams(13.4),
            runs_out,
            price: None,
        };
        assert_eq!(
            powder(&Glasses::default(), &need(None, None)),
            "  Rust         13.4 g: not written down, 13.4 g to buy"
        );
        assert_eq!(
            powder(&Glasses::default(), &need(Some(0.0), Some(0))),
            "  Rust         13.4 g: 0.0 g in jars, 13.4 g to buy"
        );
    }

    #[test]
    fn ordinals_and_clocks_are_written_as_they_are_said() {
        let said = [1, 2, 3, 4, 11, 12, 13, 21, 102, 113].map(|number| nth(number).replace(" piece", ""));
        assert_eq!(said, ["1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "102nd", "113th"]);
        assert_eq!([clock(18.0), clock(8.25), clock(19.999)], ["18:00", "08:15", "20:00"]);
    }
}
