//! The log: what was asked of a firing and what became of it, as the maker wrote it down. Plain data with its checks and its file;
//! a photo is kept beside it, as small pictures are beside pieces.

use crate::base::firing::{Firing, SegmentName};
use crate::base::notice::{Notice, Severity, Step};
use crate::base::seed::Seed;
use crate::base::units::{Celsius, Grams, Minutes, Mm};
use crate::compare::hand::Told;
use crate::kiln::program::Program;
use crate::orders::limits as order_limits;
use crate::orders::loads::Batch;
use crate::orders::model::Order;
use crate::orders::pieces;
use crate::recipe::Recipe;
use crate::recipe::check::Check;
use crate::recipe::limits::{Limit, MOST_COATS, MOST_TITLE};
use crate::shop::ticket::Ticket;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// The version of the file that this program writes and reads.
pub const VERSION: u32 = 1;
/// The longest text of an entry that is read, bytes.
pub const MOST_BYTES: usize = 2 << 20;
/// Most letters of what differed, and of next time's note.
pub const MOST_LETTERS: usize = 2000;

const fn limit(least: f64, most: f64, step: f64, usual: f64) -> Limit {
    Limit { least, most, step, usual, by_ratio: false }
}

/// The top that the kiln came to, °C.
pub const TOP: Limit = limit(400.0, 1000.0, 1.0, 790.0);
/// How long it was held there, minutes.
pub const HOLD: Limit = limit(0.0, 600.0, 1.0, 10.0);
/// What the meter counted, kWh.
pub const KWH: Limit = limit(0.1, 1000.0, 0.1, 10.0);
/// The clock, minutes past midnight.
pub const CLOCK: Limit = limit(0.0, 1439.0, 5.0, 480.0);
/// How wide or high a piece came out, mm.
pub const SIZE: Limit = limit(1.0, 600.0, 0.5, 160.0);
/// Powder used for the whole firing, g.
pub const GRAMS: Limit = limit(0.0, 100_000.0, 0.1, 10.0);
/// Pieces fired together, and how many of them came out whole.
pub const PIECES: Limit = limit(0.0, 200.0, 1.0, 1.0);

/// One firing, written up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LogEntry {
    /// Version of this format; must be present.
    pub version: u32,
    /// The day on which it was fired.
    pub date: Date,
    /// The number under which the piece was kept; none if it never was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub piece: Option<u64>,
    /// What the order is called that it was fired for; empty if for none.
    #[serde(default)]
    pub order: String,
    /// The recipe as it was fired. Its title is the piece's.
    pub recipe: Recipe,
    /// The layout that was fired; the first, where there were several.
    pub seed: Seed,
    /// The further layouts in the same load.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub others: Vec<Seed>,
    /// Which firing it was.
    pub firing: Firing,
    /// What was set, and forecast.
    pub asked: Outcome,
    /// What came of it, as far as anybody looked.
    pub was: Outcome,
    /// Whether its energy was taken over into the kiln: it is offered once.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub energy_taken: bool,
    /// The same of the time at which it could be opened.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub cooling_taken: bool,
    /// What its coats told of the maker's hand, once the piece was held against its forecast.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub hand: Vec<Told>,
    /// What differed, in the maker's words.
    #[serde(default)]
    pub differed: String,
    /// What to do next time: shown when the piece is opened again, and printed on its make sheet.
    #[serde(default)]
    pub next_time: String,
}

/// What is set and read at a kiln. Whatever nobody knows is left out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Outcome {
    /// The top.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub top: Option<Celsius>,
    /// How long it was held there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hold: Option<Minutes>,
    /// Energy, kWh.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub kwh: Option<f64>,
    /// When the kiln could be opened, minutes past midnight.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub opened: Option<Minutes>,
    /// How wide a piece came out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub across: Option<Mm>,
    /// How high.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub high: Option<Mm>,
    /// Powder used for all pieces.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grams: Option<Grams>,
    /// Pieces that came out whole.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sound: Option<u32>,
    /// Pieces that cracked or broke.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cracked: Option<u32>,
}

impl Outcome {
    /// What a program asks for, switched on at `start`, minutes past midnight; and what the ticket of one piece foretells of so many.
    pub fn asked(program: &Program, start: f64, ticket: Option<&Ticket>, pieces: u32) -> Self {
        let process = program.segments.iter().find(|segment| segment.name == SegmentName::Process);
        let opened = ((start + program.hours * 60.0) / 5.0).ceil() * 5.0;
        let fused = ticket.filter(|_| program.firing == Firing::FullFuse);
        let domed = ticket.filter(|_| program.firing == Firing::Slump);
        let weighed = fused.map(|ticket| ticket.coats.iter().map(|coat| coat.to_weigh.0).sum::<f64>());
        Self {
            top: process.map(|process| process.to.value),
            hold: process.map(|process| process.hold.value),
            kwh: Some(program.kwh),
            opened: Some(Minutes(opened % 1440.0)),
            across: fused.map(|ticket| ticket.fused_across).or(domed.map(|ticket| ticket.dome_across)),
            high: domed.map(|ticket| ticket.dome_high),
            grams: weighed.map(|grams| Grams(grams * f64::from(pieces))),
            sound: Some(pieces),
            cracked: Some(0),
        }
    }
}

impl LogEntry {
    /// A load of a batch of an order, counted from 0, written up on this day and switched on at `start`, minutes past midnight. It is
    /// written up under the recipe of this line, or of its first one if none of this line is in it, with the layouts of that one that
    /// lie in it by their turn. None if there is no such load.
    pub fn of_load(
        order: &Order,
        line: usize,
        batch: &Batch,
        at: usize,
        (start, date): (f64, Date),
    ) -> Option<Self> {
        let load = batch.loads.get(at)?;
        let (line, of_it) = *load.iter().find(|(of, _)| *of == line).or(load.first())?;
        let before = batch.loads[..at].iter().flatten().filter(|(of, _)| *of == line);
        let before: u32 = before.map(|(_, pieces)| pieces).sum();
        let seeds = pieces::each(order, line).into_iter().skip(before as usize).take(of_it as usize);
        let mut seeds: Vec<Seed> = seeds.collect();
        let (line, first) = (order.lines.get(line)?, *seeds.first()?);
        seeds.remove(0);
        let recipe = &line.recipe;
        let (top, hold) = match batch.firing {
            Firing::FullFuse => (recipe.fuse.top, Some(recipe.fuse.hold)),
            Firing::TackFuse => {
                let tack = recipe.accents.as_ref().map(|accents| accents.tack).unwrap_or_default();
                (tack.top, Some(tack.hold))
            }
            Firing::Slump => (recipe.slump.top, recipe.slump.hold),
        };
        let opened = ((start + batch.hours * 60.0) / 5.0).ceil() * 5.0;
        let pieces = load.iter().map(|(_, pieces)| pieces).sum();
        let asked = Outcome {
            top: Some(top),
            hold,
            kwh: Some(batch.kwh),
            opened: Some(Minutes(opened % 1440.0)),
            sound: Some(pieces),
            cracked: Some(0),
            ..Outcome::default()
        };
        let new = Self::new(recipe.clone(), first, batch.firing, date);
        Some(Self { piece: line.piece, order: order.title.clone(), others: seeds, asked, ..new })
    }

    /// Every layout that was fired.
    pub fn seeds(&self) -> impl Iterator<Item = Seed> {
        [self.seed].into_iter().chain(self.others.iter().copied())
    }

    /// How much later than reckoned the kiln could be opened, minutes, below 0 if earlier. A clock says nothing of days, so it is taken
    /// for the nearest: half a day at most.
    pub fn opened_later(&self) -> Option<f64> {
        let later = self.was.opened?.0 - self.asked.opened?.0;
        Some((later + 720.0).rem_euclid(1440.0) - 720.0)
    }

    /// An entry that nothing is written in yet.
    pub fn new(recipe: Recipe, seed: Seed, firing: Firing, date: Date) -> Self {
        Self {
            version: VERSION,
            date,
            piece: None,
            order: String::new(),
            recipe,
            seed,
            others: Vec::new(),
            firing,
            asked: Outcome::default(),
            was: Outcome::default(),
            energy_taken: false,
            cooling_taken: false,
            hand: Vec::new(),
            differed: String::new(),
            next_time: String::new(),
        }
    }

    /// Every fault of it.
    pub fn faults(&self) -> Vec<Notice> {
        let mut check = Check::default();
        let (first, last) = order_limits::YEARS;
        if self.date.year() < first || self.date.year() > last {
            let why = format!("It was fired on {}.", self.date);
            check.fault(self.step(), "A day far away.", why, format!("Use a year from {first} to {last}."));
        }
        for (name, text, most) in [
            ("The name of the piece", &self.recipe.title, MOST_TITLE),
            ("The name of the order", &self.order, order_limits::MOST_NAME),
            ("What differed", &self.differed, MOST_LETTERS),
            ("The note for next time", &self.next_time, MOST_LETTERS),
        ] {
            let letters = text.chars().count();
            if letters > most {
                let why = format!("{name} has {letters} letters.");
                check.fault(self.step(), "A very long text.", why, format!("Use at most {most} letters."));
            }
        }
        if self.others.len() >= order_limits::MOST_PIECES as usize {
            let why = format!("{} layouts were fired together.", self.others.len() + 1);
            check.fault(
                self.step(),
                "Too many pieces.",
                why,
                format!("Use at most {}.", order_limits::MOST_PIECES),
            );
        }
        for outcome in [&self.asked, &self.was] {
            self.check(&mut check, outcome);
        }
        if self.hand.len() > MOST_COATS || !self.hand.iter().all(Told::is_sound) {
            let why = "What it says of the maker's hand cannot have been seen.".into();
            check.fault(self.step(), "No hand sifts so.", why, "Hold the piece against its forecast again.");
        }
        match check.finish() {
            Ok(notices) | Err(notices) => notices,
        }
    }

    fn check(&self, check: &mut Check, outcome: &Outcome) {
        let Outcome { top, hold, kwh, opened, across, high, grams, sound, cracked } = *outcome;
        for (name, value, limit, unit) in [
            ("The top", top.map(|top| top.0), TOP, "°C"),
            ("The hold", hold.map(|hold| hold.0), HOLD, "min"),
            ("The energy", kwh, KWH, "kWh"),
            ("The time on the clock", opened.map(|opened| opened.0), CLOCK, "min past midnight"),
            ("The width", across.map(|across| across.0), SIZE, "mm"),
            ("The height", high.map(|high| high.0), SIZE, "mm"),
            ("The powder", grams.map(|grams| grams.0), GRAMS, "g"),
            ("The number of whole pieces", sound.map(f64::from), PIECES, ""),
            ("The number of broken pieces", cracked.map(f64::from), PIECES, ""),
        ] {
            if let Some(value) = value {
                check.range(self.step(), name, value, limit, unit);
            }
        }
    }

    fn step(&self) -> Step {
        self.firing.into()
    }

    /// The entry as JSON that people can read too.
    pub fn write(&self) -> String {
        // Plain data with names for keys: nothing in it can fail to be written.
        serde_json::to_string_pretty(self).unwrap_or_default()
    }

    /// Reads an entry, or says what is wrong with its text.
    ///
    /// # Errors
    /// A [`Notice`] of severity *fault* if it is too long, no entry, of another version, lacks a field, has one that is not known or
    /// a number that cannot be.
    pub fn read(text: &str) -> Result<Self, Notice> {
        if text.len() > MOST_BYTES {
            let why = format!("It is {} bytes long; an entry is at most {MOST_BYTES}.", text.len());
            return Err(fault("Too large for an entry of the log.", why));
        }
        let entry: Self = serde_json::from_str(text)
            .map_err(|mistake| fault("An entry of the log with a mistake in it.", format!("{}.", mistake)))?;
        entry.checked()
    }

    /// The entry as it was read.
    ///
    /// # Errors
    /// A refusal if it has another version, or the first of its faults.
    pub fn checked(self) -> Result<Self, Notice> {
        if self.version != VERSION {
            let why = format!("It says version {}; this program reads version {VERSION}.", self.version);
            return Err(fault("An entry of another version.", why));
        }
        self.faults().into_iter().next().map_or(Ok(self), Err)
    }
}

/// Share of the pieces that broke, over all firings in which somebody counted: broken, of so many; none if nobody did.
pub fn broken<'a>(entries: impl Iterator<Item = &'a LogEntry>) -> Option<(u32, u32)> {
    let counted = entries.filter_map(|entry| Some((entry.was.cracked?, entry.was.sound?)));
    let (broken, sound) = counted.fold((0u32, 0u32), |(broken, sound), (more, whole)| {
        (broken.saturating_add(more), sound.saturating_add(whole))
    });
    let all = broken.saturating_add(sound);
    (all > 0).then_some((broken, all))
}

fn fault(what: &str, why: String) -> Notice {
    let remedy = "Take an undamaged copy, or use a newer Dappledome.";
    Notice::new(Severity::Fault, Step::Recipe, what, why, remedy)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kiln::data::{Guess, Kiln};
    use crate::kiln::firings::Firings;
    use crate::orders::model::Line;
    use crate::recipe::demo;
    use crate::recipe::plan::Plan;
    use jiff::civil::date;

    pub(crate) fn first_load() -> LogEntry {
        LogEntry {
            version: VERSION,
            date: date(2026, 11, 30),
            piece: Some(7),
            order: "Harborside garden".into(),
            recipe: demo::ember_walk(),
            seed: Seed(41),
            others: vec![Seed(43)],
            firing: Firing::FullFuse,
            asked: Outcome {
                top: Some(Celsius(790.0)),
                hold: Some(Minutes(10.0)),
                kwh: Some(18.0),
                ..Outcome::default()
            },
            was: Outcome {
                top: Some(Celsius(794.0)),
                kwh: Some(18.6),
                sound: Some(6),
                cracked: Some(1),
                ..Outcome::default()
            },
            energy_taken: false,
            cooling_taken: false,
            hand: Vec::new(),
            differed: "New jar of rust.\nOne disc cracked at the notch.".into(),
            next_time: "Rust at 0.35 mm.".into(),
        }
    }

    #[test]
    fn an_entry_is_read_as_it_was_written() {
        let entry = first_load();
        assert_eq!(LogEntry::read(&entry.write()), Ok(entry));
    }

    #[test]
    fn what_cannot_be_is_told() {
        let told = |change: fn(&mut LogEntry)| -> Vec<String> {
            let mut entry = first_load();
            change(&mut entry);
            entry.faults().into_iter().map(|fault| fault.why).collect()
        };
        assert!(told(|_| ()).is_empty());
        assert_eq!(told(|entry| entry.was.top = Some(Celsius(f64::NAN))), ["The top is not a number °C."]);
        assert_eq!(told(|entry| entry.was.opened = Some(Minutes(1440.0))).len(), 1);
        assert_eq!(told(|entry| entry.was.cracked = Some(201)).len(), 1);
        assert_eq!(told(|entry| entry.others = vec![Seed(1); 200]).len(), 1);
        assert_eq!(told(|entry| entry.next_time = "a".repeat(2001)).len(), 1);
        assert_eq!(told(|entry| entry.date = date(1999, 1, 1)), ["It was fired on 1999-01-01."]);
    }

    /// Switched on at 18:00 for 14.2 hours: 08:12, and the clock's hand goes by fives.
    #[test]
    fn what_is_asked_is_the_programs() {
        let plan = Plan::new(&demo::ember_walk()).unwrap().plan;
        let firings = Firings::new(&plan, &Kiln::guess(Guess::SmallBrick)).unwrap();
        let program = Program { hours: 14.2, ..firings.programs[0].clone() };
        let asked = Outcome::asked(&program, 1080.0, None, 7);
        assert_eq!((asked.top, asked.hold), (Some(Celsius(790.0)), Some(Minutes(10.0))));
        assert_eq!((asked.opened, asked.sound, asked.across), (Some(Minutes(495.0)), Some(7), None));
    }

    /// The second of the demo's firings: 7 pieces of a load, switched on at 18:00 for 10 hours. The second load has the layouts of the
    /// eighth piece on; what shares it, of another recipe, is counted but has layouts of its own.
    #[test]
    fn a_load_of_an_order_is_written_up() {
        let mut order = Order { title: "Harborside".into(), ..Order::of(demo::ember_walk(), 12) };
        order.lines[0].seeds = (41..55).map(Seed).collect();
        let hedgerow = Line {
            recipe: demo::all().swap_remove(1),
            seeds: vec![Seed(7)],
            count: 1,
            ..order.lines[0].clone()
        };
        order.lines.push(hedgerow);
        let batch = Batch {
            firing: Firing::Slump,
            across: Mm(160.0),
            holds: 7,
            molds_limit: false,
            places: Vec::new(),
            hours: 10.0,
            kwh: 8.5,
            loads: vec![vec![(0, 7)], vec![(0, 6), (1, 1)]],
        };
        let written = |line, load| LogEntry::of_load(&order, line, &batch, load, (1080.0, date(2026, 12, 1)));
        let entry = written(0, 0).unwrap();
        assert_eq!((entry.faults(), entry.order.as_str(), entry.piece), (vec![], "Harborside", None));
        let seeds = |entry: &LogEntry| entry.seeds().map(|seed| seed.0).collect::<Vec<_>>();
        assert_eq!(seeds(&entry), (41..48).collect::<Vec<_>>());
        let second = written(0, 1).unwrap();
        assert_eq!((seeds(&second), second.asked.sound), ((48..54).collect(), Some(7)));
        let other = written(1, 1).unwrap();
        assert_eq!((&other.recipe, seeds(&other)), (&order.lines[1].recipe, vec![7]));
        assert_eq!((written(1, 0), written(0, 2)), (written(0, 0), None));
        let asked = entry.asked;
        assert_eq!((asked.top, asked.hold, asked.kwh), (Some(Celsius(640.0)), None, Some(8.5)));
        assert_eq!((asked.opened, asked.sound), (Some(Minutes(240.0)), Some(7)));
    }

    /// Reckoned for 08:15; a clock that says 23:30 means the evening before.
    #[test]
    fn a_kiln_is_opened_later_or_earlier_than_reckoned() {
        let later = |was: f64| {
            let mut entry = first_load();
            assert_eq!(entry.opened_later(), None, "nobody looked");
            (entry.asked.opened, entry.was.opened) = (Some(Minutes(495.0)), Some(Minutes(was)));
            entry.opened_later()
        };
        assert_eq!([615.0, 480.0, 1410.0].map(later), [Some(120.0), Some(-15.0), Some(-525.0)]);
    }

    #[test]
    fn what_is_no_entry_is_refused() {
        let text = first_load().write();
        for (whole, broken) in [
            ("\"version\": 1,\n  \"date\"", "\"version\": 2,\n  \"date\""),
            ("2026-11-30", "2026-11-31"),
            ("\"seed\"", "\"sead\""),
            ("\"kwh\": 18.6", "\"kwh\": 1e9"),
        ] {
            assert!(text.contains(whole), "{whole}");
            assert!(LogEntry::read(&text.replacen(whole, broken, 1)).is_err(), "{broken}");
        }
        assert!(LogEntry::read(&text[..text.len() / 2]).is_err());
        assert!(LogEntry::read(&" ".repeat(MOST_BYTES + 1)).is_err());
    }

    /// Counted by hand: 1 of 7, then 2 of 5; a firing that nobody counted says nothing.
    #[test]
    fn breakage_is_counted_over_all_firings() {
        let mut second = first_load();
        (second.was.sound, second.was.cracked) = (Some(3), Some(2));
        let mut third = first_load();
        third.was.sound = None;
        assert_eq!(broken([first_load(), second, third.clone()].iter()), Some((3, 12)));
        assert_eq!(broken([third].iter()), None);
    }
}
