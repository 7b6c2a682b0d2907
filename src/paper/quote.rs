//! The quote: every option by day and lit from within, what it costs the customer, when it is ready, and lines to sign. What the
//! maker pays stands on none of it.

use super::block::{Block, LINE, RULE, Type, bold, plain};
use super::content::{Content, OneLine};
use super::frame::{AFTER_RULE, Frame, MARGIN, stack};
use super::sheet::{Picture, Sheet};
use crate::base::units::fixed;
use crate::orders::dates::{day, weekday};
use crate::orders::price::Priced;
use crate::picture::view::{Light, Stage};
use crate::recipe::sisters::letter;

/// Most options on a page.
const ON_A_PAGE: usize = 4;
/// How high the row of an option is, mm: at least, beside the sums on the last page, and at most.
const ROW: (f64, f64) = (36.0, 66.0);
/// Width of an option's words, and between its pictures.
const COLUMNS: (f64, f64) = (38.0, 3.0);
/// Heads of the columns.
const HEADS: f64 = 6.0;
const TEXT: Type = plain(10.0);
const STRONG: Type = bold(10.0);

/// The quote of an order: its options shared out evenly over the pages, the sums behind the last of them.
pub fn sheets(content: &Content) -> Vec<Sheet> {
    let frame = Frame::on(content.paper);
    let lines: Vec<OneLine> = content.lines().collect();
    let pages = lines.len().div_ceil(ON_A_PAGE);
    let on_each = lines.len().div_ceil(pages);
    let head = head(content, frame);
    let sums = sums(content, &lines, frame);
    let room = frame.high - head.high - HEADS;
    let with_sums = (room - sums.iter().map(|block| block.high + 3.0).sum::<f64>()) / on_each as f64;
    let apart = with_sums < ROW.0;
    let row = if apart { room / on_each as f64 } else { with_sums }.min(ROW.1);
    let of = pages + usize::from(apart);
    let foot = |page: usize| format!("{}   page {page} of {of}", day(content.today));
    let left = "Each is sifted by hand: yours will be a sister of the one you choose. Colors are a forecast.";
    let mut sheets: Vec<Sheet> = Vec::new();
    for (page, options) in lines.chunks(on_each).enumerate() {
        let mut sheet = frame.sheet(left, &foot(page + 1));
        let high = head.high;
        head.clone().put(&mut sheet.items, MARGIN, MARGIN);
        let mut blocks = vec![heads(frame)];
        blocks.extend(options.iter().map(|line| option(content, *line, frame, row)));
        stack(&mut sheet.items, blocks, high, 0.0);
        sheets.push(sheet);
    }
    if apart {
        sheets.push(frame.sheet(left, &foot(of)));
    }
    let filled = lines.len() - on_each * (pages - 1);
    if let Some(last) = sheets.last_mut() {
        let high = head.high + if apart { 0.0 } else { HEADS + row * filled as f64 };
        if apart {
            head.put(&mut last.items, MARGIN, MARGIN);
        }
        stack(&mut last.items, sums, high, 3.0);
    }
    sheets
}

fn head(content: &Content, frame: Frame) -> Block {
    let order = content.order;
    let title = order.title.trim();
    let first = content.lines().next();
    let title = match (title, &first) {
        ("", Some(line)) => line.title(),
        (title, _) => title,
    };
    let customer = order.customer.trim();
    let whom = if customer.is_empty() { String::new() } else { format!("For {customer}") };
    let under = if same_size(content) {
        first.map_or_else(String::new, |line| line.size())
    } else {
        "Sizes beside each".into()
    };
    let under = if whom.is_empty() { under } else { format!("{whom}. {under}") };
    frame.head(title, &[day(content.today)], &under)
}

/// Whether all options become as large.
fn same_size(content: &Content) -> bool {
    let mut sizes = content.lines().map(|line| line.size());
    let first = sizes.next();
    sizes.all(|size| Some(size) == first)
}

fn columns(frame: Frame) -> [f64; 2] {
    let wide = (frame.wide - COLUMNS.0 - COLUMNS.1) / 2.0;
    [COLUMNS.0, COLUMNS.0 + wide + COLUMNS.1]
}

fn heads(frame: Frame) -> Block {
    let mut block = Block::default();
    for (x, word) in columns(frame).into_iter().zip(["By day", "Lit from within"]) {
        block.write((x, 3.8), plain(8.5), word);
    }
    block.line(&[(0.0, HEADS - 0.8), (frame.wide, HEADS - 0.8)]);
    block.high = HEADS;
    block
}

/// What an option is called: its letter, or a longer name.
fn called(line: &OneLine) -> String {
    let own = line.line.option.trim();
    if own.is_empty() { letter(line.at) } else { own.to_owned() }
}

fn option(content: &Content, line: OneLine, frame: Frame, row: f64) -> Block {
    let mut block = Block::default();
    let room = COLUMNS.0 - 4.0;
    let name = called(&line);
    let large = bold(40.0);
    let y = if large.width(&name) <= room {
        block.write((0.0, 13.2), large, name);
        18.6
    } else {
        let kind = bold(12.0);
        block.lines((0.0, 5.4), kind, &kind.wrapped_to(&name, room, 2)) + 0.6
    };
    let (kind, small) = (bold(8.5), plain(8.5));
    let several = row > 44.0;
    let y = block.lines((0.0, y), kind, &kind.wrapped_to(line.title(), room, if several { 2 } else { 1 }));
    block.write((0.0, y), small, format!("Seed {}", line.seed()));
    if several && !same_size(content) {
        let size = format!("{} × {} mm", fixed(line.piece.across.0, 0), fixed(line.piece.high.0, 1));
        block.write((0.0, y + small.line()), small, size);
    }
    let each = content.worked.cost.priced.as_ref().and_then(|priced| priced.lines.get(line.at));
    match each {
        Some(price) => block.write((0.0, row - 5.0), STRONG, format!("{} each", fixed(price.wholesale, 2))),
        None => {
            block.write((0.0, row - 5.0), TEXT, "Price");
            block.blank((11.0, row - 5.0), room - 11.0);
        }
    }
    let wide = columns(frame)[1] - columns(frame)[0] - COLUMNS.1;
    for (x, light) in columns(frame).into_iter().zip([Light::Day, Light::Within]) {
        block.picture(Picture {
            at: (x, 0.8),
            frame: (wide, row - 3.2),
            round: false,
            line: line.at,
            seed: line.seed(),
            stage: Stage::Domed,
            light,
        });
    }
    block.line(&[(0.0, row - 0.8), (frame.wide, row - 0.8)]);
    block.high = row;
    block
}

/// The sums, the day and the lines to sign.
fn sums(content: &Content, lines: &[OneLine], frame: Frame) -> Vec<Block> {
    let priced = content.worked.cost.priced.as_ref();
    vec![table(content, lines, frame, priced), when(content, priced), signed(frame)]
}

const PITCH: f64 = 5.0;

fn table(content: &Content, lines: &[OneLine], frame: Frame, priced: Option<&Priced>) -> Block {
    let mut block = Block::default();
    block.write((0.0, 3.6), STRONG, "Quote");
    let (left, mut y) = (COLUMNS.0, 3.6);
    let room = frame.wide - left - 34.0;
    let sum = |block: &mut Block, y: f64, kind: Type, sum: Option<f64>| match sum {
        Some(sum) => block.write_up_to((frame.wide, y), kind, fixed(sum, 2)),
        None => block.blank((frame.wide - 28.0, y), 28.0),
    };
    for line in lines {
        let wanted = line.made.wanted;
        let each = priced.and_then(|priced| priced.lines.get(line.at)).map(|price| price.wholesale);
        let at = each.map_or_else(String::new, |each| format!(" at {}", fixed(each, 2)));
        let alike =
            if wanted > 1 && line.line.seeds.len() >= wanted as usize { ", no two alike" } else { "" };
        let said = format!(
            "{wanted} like {}, {}{alike},{at}",
            TEXT.cut(&called(line), room * 0.3),
            TEXT.cut(line.title(), room * 0.4)
        );
        block.write((left, y), TEXT, TEXT.cut(said.trim_end_matches(','), room));
        sum(&mut block, y, TEXT, each.map(|each| each * f64::from(wanted)));
        y += PITCH;
    }
    let tax = content.order.prices.as_ref().and_then(|prices| prices.tax);
    let whole = priced.map(|priced| priced.with_tax.unwrap_or(priced.order));
    if let Some(tax) = tax {
        block.write((left, y), TEXT, format!("Tax, {} % as entered", crate::base::units::plain(tax * 100.0)));
        sum(&mut block, y, TEXT, priced.and_then(|priced| Some(priced.with_tax? - priced.order)));
        y += PITCH;
    }
    block.path(vec![vec![(left, y - 3.6), (frame.wide, y - 3.6)]], false, LINE);
    block.write((left, y + 0.6), STRONG, "Together");
    sum(&mut block, y + 0.6, STRONG, whole);
    block.high = y + 1.6;
    block
}

fn when(content: &Content, priced: Option<&Priced>) -> Block {
    let mut block = Block::default();
    let left = COLUMNS.0;
    let mut y = 3.6;
    match &content.worked.days {
        Some(days) => block.write((left, y), TEXT, format!("Ready {}.", weekday(days.ready))),
        None => {
            block.write((left, y), TEXT, "Ready");
            block.blank((left + 13.0, y), 50.0);
        }
    }
    y += PITCH;
    let whole = priced.map(|priced| priced.with_tax.unwrap_or(priced.order));
    let share = content.order.prices.as_ref().map_or(0.0, |prices| prices.to_begin);
    match whole {
        Some(whole) if share > 0.0 => {
            block.write(
                (left, y),
                TEXT,
                format!("{} when we begin: {}.", part(share), fixed(whole * share, 2)),
            );
            y += PITCH;
        }
        Some(_) => {}
        None => {
            block.write((left, y), TEXT, "To begin");
            block.blank((left + 18.0, y), 45.0);
            y += PITCH;
        }
    }
    block.high = y - PITCH + 1.2;
    block
}

/// A share in words.
fn part(share: f64) -> String {
    let near = |of: f64| (share - of).abs() < 0.004;
    match () {
        () if near(1.0 / 3.0) => "A third".into(),
        () if near(0.5) => "Half".into(),
        () if near(1.0) => "All of it".into(),
        () => format!("{} %", fixed(share * 100.0, 0)),
    }
}

fn signed(frame: Frame) -> Block {
    let mut block = Block::default();
    let y = AFTER_RULE + 8.0;
    let middle = columns(frame)[1];
    block.write((0.0, y), TEXT, "Agreed");
    block.line(&[(COLUMNS.0, y + RULE), (middle - 8.0, y + RULE)]);
    block.write((middle, y), TEXT, "Date");
    block.line(&[(middle + 11.0, y + RULE), (frame.wide, y + RULE)]);
    block.high = y + 1.4;
    block
}
