//! The back-up of everything: one JSON file, `{"version":2,"kept":[…]}`, in which a line is a piece, an order, the bench or an entry of
//! the log, and says which. A file of version 1 has pieces only, `{"version":1,"pieces":[…]}`.
//!
//! It is written and read a line at a time, so that a thousand pieces need neither one long task nor twice their
//! memory; and a file that was cut off or damaged in one place gives back all the others.

use super::content::{Content, Kind};
use crate::base::notice::{Notice, Severity, Step};
use crate::base::units::fixed;
use crate::recipe::piece;
use base64::Engine;
use base64::prelude::BASE64_STANDARD;

/// The version that is written, and the newest that is read.
pub const VERSION: u32 = 2;
/// What a back-up begins with.
pub const HEAD: &str = "{\"version\":2,\"kept\":[\n";
/// What stands between two lines.
pub const BETWEEN: &str = ",\n";
/// What a back-up ends with.
pub const TAIL: &str = "\n]}\n";
/// What a line begins with. Nothing inside looks like it: there a line is indented, and a text has no line ends.
const NEXT: &str = "\n{\"id\":";
/// The most lines that are read from one back-up.
pub const MOST_LINES: usize = 20_000;
/// The largest picture that a line brings along, bytes: that of a piece, which is drawn anew if it is missing, or the photo of an
/// entry of the log.
pub const MOST_PICTURE: usize = 1 << 18;
/// The greatest number that one can have: what a browser counts up to without a gap.
const MOST_ID: u64 = 1 << 53;

/// A piece, an order, the bench or an entry of the log as it is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// Its number, for good.
    pub id: u64,
    /// When it was changed last, ms since 1970.
    pub changed: f64,
    /// What it is.
    pub content: Content,
    /// Its small picture, or its photo, in whatever format the browser wrote.
    pub picture: Option<Vec<u8>>,
}

/// The last moment of the year 9999, ms since 1970.
const LATEST: f64 = 253_402_300_799_999.0;

/// A time of the calendar, ms since 1970; 0, which stands for one that is not known, if it can be none.
#[inline]
pub fn time(time: f64) -> f64 {
    if (0.0..=LATEST).contains(&time) { time } else { 0.0 }
}

/// One of them as a line of the file, from its text as it is stored. A text that cannot be read goes along as it is, under
/// another name: nothing is left out of a back-up because we cannot read it.
#[inline]
pub fn line(kind: Kind, id: u64, changed: f64, text: &str, picture: Option<&[u8]>) -> String {
    let read = Content::read(kind, text);
    let (title, name, content) = match &read {
        Ok(content) => (content.title(), kind.name(), content.write()),
        Err(_) => ("", "unreadable", quoted(text)),
    };
    let content = content.trim_end();
    let picture = match picture.filter(|bytes| bytes.len() <= MOST_PICTURE) {
        Some(bytes) => format!(",\"picture\":\"{}\"", BASE64_STANDARD.encode(bytes)),
        None => String::new(),
    };
    format!(
        "{{\"id\":{id},\"title\":{},\"changed\":{},\"{name}\":{content}{picture}}}",
        quoted(title),
        fixed(time(changed), 0)
    )
}

#[inline]
fn quoted(text: &str) -> String {
    serde_json::to_string(text).expect("a text is always written")
}

/// The lines of a back-up, one after another; none if the text is no back-up at all.
///
/// # Errors
/// A [`Notice`] of severity *fault* if it was written by a newer program.
pub fn read(text: &str) -> Option<Result<Lines<'_>, Notice>> {
    let mut rest = text.trim_start().strip_prefix('{')?;
    let mut version = VERSION;
    loop {
        let (key, after) = value(rest)?;
        rest = after.trim_start().strip_prefix(':')?.trim_start();
        if matches!(key, "\"kept\"" | "\"pieces\"") && rest.starts_with('[') {
            break;
        }
        let (found, after) = value(rest)?;
        if key == "\"version\"" {
            version = found.parse().ok()?;
        }
        rest = after.trim_start().strip_prefix(',')?;
    }
    if version > VERSION {
        let why = format!("It says version {version}; this program reads version {VERSION}.");
        let remedy = "Open it with the program that saved it, or use a newer Dappledome.";
        return Some(Err(Notice::new(
            Severity::Fault,
            Step::Recipe,
            "A back-up of another version.",
            why,
            remedy,
        )));
    }
    Some(Ok(Lines { rest: &rest[1..], left: MOST_LINES }))
}

/// The lines of a back-up. One that cannot be read is `None`; so is, at the end, what is missing of a file that was
/// cut off.
#[derive(Clone, Debug)]
pub struct Lines<'a> {
    rest: &'a str,
    left: usize,
}

impl Iterator for Lines<'_> {
    type Item = Option<Kept>;

    #[inline]
    fn next(&mut self) -> Option<Self::Item> {
        let rest = self.rest.trim_start().trim_start_matches(',').trim_start();
        self.rest = "";
        if rest.starts_with(']') || self.left == 0 {
            return None;
        }
        self.left -= 1;
        let Some((text, after)) = value(rest) else {
            // Behind a broken place the next line is known by how it begins; without one, the rest counts once.
            match rest.find(NEXT) {
                Some(at) => self.rest = &rest[at..],
                None => self.left = 0,
            }
            return Some(None);
        };
        self.rest = after;
        Some(kept(text))
    }
}

#[inline]
fn kept(text: &str) -> Option<Kept> {
    if text.len() > piece::MOST_BYTES + 2 * MOST_PICTURE {
        return None;
    }
    let (mut id, mut changed, mut kept, mut picture) = (None, 0.0, None, None);
    // Field by field: a day or a picture that is no such thing costs nothing else.
    for (name, content) in fields(text)? {
        let kind = Kind::ALL.into_iter().find(|kind| name.trim_matches('"') == kind.name());
        if let Some(kind) = kind {
            kept = Content::read(kind, content).ok();
        }
        match name {
            "\"id\"" => id = content.parse().ok().filter(|id| *id < MOST_ID),
            "\"changed\"" => changed = content.parse().map_or(0.0, time),
            "\"picture\"" => picture = picture_in(content),
            _ => {}
        }
    }
    Some(Kept { id: id?, changed, content: kept?, picture })
}

/// The names of an object's fields, as they are written, as far as it can be read.
pub(super) fn names(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = text.trim_start().strip_prefix('{');
    std::iter::from_fn(move || {
        let (name, after) = value(rest?)?;
        rest = after
            .trim_start()
            .strip_prefix(':')
            .and_then(|content| value(content)?.1.trim_start().strip_prefix(','));
        Some(name)
    })
}

/// The names and contents of an object's fields, as they are written; none if it is no object.
fn fields(text: &str) -> Option<Vec<(&str, &str)>> {
    let mut rest = text.strip_prefix('{')?.trim_start();
    let mut fields = Vec::new();
    while !rest.starts_with('}') {
        let (name, after) = value(rest)?;
        let (content, after) = value(after.trim_start().strip_prefix(':')?)?;
        fields.push((name, content));
        let after = after.trim_start();
        rest = after.strip_prefix(',').map_or(after, str::trim_start);
    }
    Some(fields)
}

fn picture_in(content: &str) -> Option<Vec<u8>> {
    let picture: String = serde_json::from_str(content).ok()?;
    let fits = !picture.is_empty() && picture.len() <= 2 * MOST_PICTURE;
    BASE64_STANDARD.decode(picture).ok().filter(|_| fits)
}

/// The first JSON value of a text and what stands behind it; none if it does not end before the next line
/// begins. What is inside is not checked.
fn value(text: &str) -> Option<(&str, &str)> {
    let text = text.trim_start();
    let (mut depth, mut quoted, mut escaped) = (0usize, false, false);
    for (at, byte) in text.bytes().enumerate() {
        let ends = match byte {
            b'\n' if text[at..].starts_with(NEXT) => return None,
            _ if escaped => {
                escaped = false;
                false
            }
            b'\\' if quoted => {
                escaped = true;
                false
            }
            b'"' => {
                quoted = !quoted;
                !quoted && depth == 0
            }
            _ if quoted => false,
            b'{' | b'[' => {
                depth += 1;
                false
            }
            b'}' | b']' if depth > 0 => {
                depth -= 1;
                depth == 0
            }
            b',' | b'}' | b']' | b':' if depth == 0 => {
                return (at > 0).then(|| (text[..at].trim_end(), &text[at..]));
            }
            _ => false,
        };
        if ends {
            return Some(text.split_at(at + 1));
        }
    }
    None
}

/// The number under which something is kept beside another of the same number: always the same for the same
/// content, so that a back-up brought in twice brings nothing twice.
#[inline]
pub fn other_id(id: u64, content: &Content) -> u64 {
    // FNV-1a, 64 bits.
    let bytes = content.write();
    let hash = bytes
        .bytes()
        .chain(id.to_le_bytes())
        .fold(0xcbf2_9ce4_8422_2325u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3));
    hash % (MOST_ID >> 1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::firing::Firing;
    use crate::base::seed::Seed;
    use crate::base::units::Mm;
    use crate::keep::log::{LogEntry, Outcome};
    use crate::orders::bench::Bench;
    use crate::orders::model::Order;
    use crate::recipe::piece::Piece;
    use crate::recipe::{Coat, Fall, Patches, Recipe, demo, file, link};
    use jiff::civil::date;

    fn all() -> Vec<Kept> {
        let pieces = demo::all().into_iter().zip(1u64..);
        pieces
            .map(|(recipe, id)| Kept {
                id,
                changed: 1.7e12 + id as f64,
                content: Content::Piece(Piece::new(recipe, Seed(id as u32))),
                picture: (id % 2 == 0).then(|| vec![id as u8; 100]),
            })
            .collect()
    }

    /// An order, the bench and an entry of the log with its photo.
    fn others() -> Vec<Kept> {
        let kept = |id, content, picture| Kept { id, changed: 1.8e12, content, picture };
        let order = Order { title: "Harborside".into(), ..Order::of(demo::ember_walk(), 12) };
        let mut bench = Bench::default();
        bench.cutting.edge = Mm(12.0);
        let entry = LogEntry {
            was: Outcome { kwh: Some(18.6), ..Outcome::default() },
            differed: "Two\nlines, {\"id\": 7}".into(),
            ..LogEntry::new(demo::ember_walk(), Seed(41), Firing::FullFuse, date(2026, 11, 30))
        };
        vec![
            kept(11, Content::Order(order), None),
            kept(0, Content::Bench(bench), None),
            kept(12, Content::Entry(entry), Some(vec![7; 300])),
        ]
    }

    fn written(all: &[Kept]) -> String {
        let line = |one: &Kept| {
            line(one.content.kind(), one.id, one.changed, &one.content.write(), one.picture.as_deref())
        };
        HEAD.to_owned() + &all.iter().map(line).collect::<Vec<_>>().join(BETWEEN) + TAIL
    }

    fn pieces(text: &str) -> Vec<Option<Kept>> {
        read(text).expect("a back-up").expect("of this version").collect()
    }

    #[test]
    fn the_fullest_shortlist_is_written_and_read_again() {
        let coat = |id| Coat::new(id, "straw", Fall::Patches(Patches::usual()));
        let recipe = Recipe { coats: (0..12).map(coat).collect(), ..Recipe::bare() };
        let mut piece = Piece::new(recipe.clone(), Seed(1));
        for seed in 0..100 {
            let mut own = Recipe { packing: 0.4 + f64::from(seed) * 1e-4, ..recipe.clone() };
            (0..20).for_each(|rub| {
                assert!(own.rub_off(Mm(5.0), &[[f64::from(rub), 3.5], [20.25, f64::from(seed)]]))
            });
            piece.sisters.keep(Seed(seed), own.into());
        }
        let text = piece.write();
        assert!(text.len() > file::MOST_BYTES, "{} bytes: more than a recipe may have", text.len());
        let all = format!("{HEAD}{}{TAIL}", line(Kind::Piece, 7, 3.0, &text, None));
        let kept: Vec<_> = read(&all).unwrap().unwrap().collect();
        assert!(
            kept.len() == 1
                && kept[0].as_ref().is_some_and(|kept| kept.content == Content::Piece(piece.clone()))
        );
        assert!(link::read(&link::write(&piece)) == Some(Ok(piece)), "a link holds it too");
    }

    #[test]
    fn what_was_written_is_read_and_is_json() {
        let all = all();
        let text = written(&all);
        assert_eq!(pieces(&text), all.into_iter().map(Some).collect::<Vec<_>>());
        let json: serde_json::Value = serde_json::from_str(&text).unwrap();
        assert_eq!(json["kept"][2]["title"], "Hedgerow");
        assert_eq!(pieces(&serde_json::to_string_pretty(&json).unwrap()).len(), 5);
        assert_eq!(pieces(&written(&[])), []);
    }

    #[test]
    fn orders_bench_and_log_go_along_and_are_told_apart() {
        let all = [others(), all()].concat();
        let text = written(&all);
        assert_eq!(pieces(&text), all.iter().cloned().map(Some).collect::<Vec<_>>());
        let json: serde_json::Value = serde_json::from_str(&text).unwrap();
        assert_eq!(json["kept"][0]["order"]["title"], "Harborside");
        for (whole, broken) in
            [("\"lines\"", "\"lynes\""), ("\"edge\": 12.0", "\"edge\": -12.0"), ("18.6", "1e9")]
        {
            let damaged = pieces(&text.replacen(whole, broken, 1));
            let rest = damaged.iter().flatten().count();
            assert_eq!((damaged.len(), rest), (all.len(), all.len() - 1), "{broken}");
        }
    }

    /// Written by the program as it was before orders were kept.
    #[test]
    fn a_back_up_of_the_first_version_is_read() {
        let text = include_str!("../../tests/data/backup_1.json");
        assert!(text.starts_with("{\"version\":1,\"pieces\":["));
        assert_eq!(pieces(text), all()[..3].iter().cloned().map(Some).collect::<Vec<_>>());
    }

    #[test]
    fn a_cut_or_damaged_back_up_gives_the_rest() {
        let text = written(&all());
        let cut = pieces(&text[..text.len() * 3 / 5]);
        assert!(cut.len() >= 3 && cut.last() == Some(&None), "{}", cut.len());
        assert!(cut[..cut.len() - 1].iter().all(Option::is_some));
        let damaged = pieces(&text.replacen("\"seed\": 2", "\"seed\": \"two\"", 1));
        assert_eq!(damaged.iter().filter(|piece| piece.is_none()).count(), 1);
        assert_eq!(damaged.len(), 5);
        for (whole, broken) in
            [("\"changed\":", "\"changed\":["), ("\"title\":\"", "\"title\":"), ("\"seed\":", "{")]
        {
            let damaged = pieces(&text.replacen(whole, broken, 1));
            assert!(damaged[0].is_none(), "{broken}");
            let others: Vec<Kept> = damaged.into_iter().flatten().collect();
            assert_eq!(others, all()[1..], "{broken}");
        }
        for at in 0..text.len().min(3000) {
            if let Some(Ok(lines)) = text.get(..at).and_then(read) {
                assert!(lines.count() <= 6);
            }
        }
    }

    #[test]
    fn a_day_that_can_be_none_costs_no_piece() {
        let text = written(&all()[..1]);
        for day in ["NaN", "-1", "-8.7e15", "9404674560000000", "1e999", "null", "\"soon\"", "[]", "Infinity"]
        {
            let damaged = text.replace("\"changed\":1700000000001", &format!("\"changed\":{day}"));
            assert_ne!(damaged, text);
            let kept = pieces(&damaged).remove(0).unwrap_or_else(|| panic!("lost for {day}"));
            assert_eq!((kept.changed, kept.content), (0.0, all()[0].content.clone()), "{day}");
        }
        for day in [f64::NAN, f64::INFINITY, -1.0, 9.4e15] {
            let written = line(Kind::Piece, 1, day, &all()[0].content.write(), None);
            assert!(written.contains("\"changed\":0,"), "{day}: {written}");
        }
    }

    #[test]
    fn what_we_cannot_read_is_backed_up_as_it_is() {
        for kind in Kind::ALL {
            let text = HEAD.to_owned() + &line(kind, 7, 0.0, "{\"half", None) + TAIL;
            assert_eq!(pieces(&text), [None]);
            let json: serde_json::Value = serde_json::from_str(&text).unwrap();
            assert_eq!(json["kept"][0]["unreadable"], "{\"half");
        }
    }

    #[test]
    fn what_is_no_back_up_is_none_and_a_newer_one_is_refused() {
        for text in ["", "{", "[]", "{\"version\":1}", "{\"pieces\":5}", demo::FILES[0]] {
            assert!(read(text).is_none(), "{text}");
        }
        assert!(read("{\"version\":3,\"kept\":[]}").unwrap().is_err());
        let vast = format!("{}{}", HEAD, "1,".repeat(MOST_LINES + 9));
        assert_eq!(pieces(&vast).len(), MOST_LINES);
    }

    #[test]
    fn the_other_number_hangs_on_the_content() {
        let [one, other] =
            [Seed(1), Seed(2)].map(|seed| Content::Piece(Piece::new(demo::ember_walk(), seed)));
        assert_eq!(other_id(5, &one), other_id(5, &one));
        assert_ne!(other_id(5, &one), other_id(5, &other));
        assert_ne!(other_id(5, &one), other_id(6, &one));
    }
}
