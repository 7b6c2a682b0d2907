//! What can be asked of the native program, and how each argument is read.

use clap::{Args, Parser, Subcommand, ValueEnum};
use dappledome::color::dichromacy::Sight;
use dappledome::color::illuminant::Illuminant;
use dappledome::kiln::data::Guess;
use dappledome::paper::kind::Kind;
use dappledome::paper::sheet::PaperSize;
use dappledome::picture::surroundings::Surroundings;
use dappledome::picture::{Light, Stage, View};
use jiff::civil::Date;
use std::net::{IpAddr, Ipv4Addr};
use std::path::PathBuf;

/// Most pieces on one tray.
const MOST_PIECES: u32 = 400;
/// The smallest picture, pixels.
const LEAST_SIZE: i64 = 16;
/// The largest piece on a tray, pixels.
const MOST_TRAY_SIZE: i64 = 1024;

/// A drawing board for slumped kiln-glass domes.
///
/// Without a command it builds the page and serves it, on this machine only.
#[derive(Debug, Parser)]
#[command(version, args_conflicts_with_subcommands = true)]
pub struct Arguments {
    /// What to do; serving the page if nothing is said.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// How to serve the page if nothing is said.
    #[command(flatten)]
    pub serve: Serve,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Build the page and serve it
    Serve(Serve),
    /// Build the page into a folder, for any static web host
    Bundle(Bundle),
    /// Draw one piece
    Picture(Picture),
    /// Print what to weigh, cut and measure
    Ticket(Ticket),
    /// Follow the disc into its mold
    Slump(Slump),
    /// Print the programs of the firings
    Program(Program),
    /// Work an order out: what to weigh, cut and fire, when, and what it costs
    Order(Order),
    /// Put an order on paper, as a PDF to print at 100 %
    Paper(Paper),
    /// Fit a glass to its fired tiles, or find a color among jars
    #[command(subcommand)]
    Glass(Glass),
    /// Draw a tray of pieces, one for each seed, slumped and by day
    Tray(Tray),
}

/// How to serve the page.
#[derive(Debug, Args)]
pub struct Serve {
    /// Port to serve on; the browser keeps saved pieces apart for each
    #[arg(long, default_value_t = 8317, value_parser = clap::value_parser!(u16).range(1..))]
    pub port: u16,
    /// Address to serve on; the usual one is reached from this machine only
    #[arg(long, default_value_t = IpAddr::V4(Ipv4Addr::LOCALHOST))]
    pub host: IpAddr,
}

/// Where the page goes.
#[derive(Debug, Args)]
pub struct Bundle {
    /// Folder to write to, new or empty
    pub dir: PathBuf,
}

/// A week, minutes: no firing is longer.
const MOST_MINUTES: f32 = 10_080.0;

/// A recipe, and the glasses that it may be made of.
#[derive(Debug, Args)]
pub struct RecipeFile {
    /// Recipe file
    pub recipe: PathBuf,
    /// File of your own glasses, for those that the recipe names and does not bring along
    #[arg(long, value_name = "FILE")]
    pub shelf: Option<PathBuf>,
}

/// Which picture.
#[derive(Debug, Args)]
pub struct Picture {
    /// What it is of.
    #[command(flatten)]
    pub of: RecipeFile,
    /// Number that repeats a layout
    #[arg(long, default_value_t = 1, allow_negative_numbers = true)]
    pub seed: u32,
    /// Stage of making
    #[arg(long, value_enum, default_value_t = StageName::Domed)]
    pub view: StageName,
    /// Light to see it by
    #[arg(long, value_enum, default_value_t = LightName::Day)]
    pub light: LightName,
    /// Spectrum of that light; within, of the lamp
    #[arg(long, value_enum, default_value_t = IlluminantName::Daylight)]
    pub seen_in: IlluminantName,
    /// Whose eyes see it
    #[arg(long, value_enum, default_value_t = EyesName::Most)]
    pub eyes: EyesName,
    /// What a dome stands in
    #[arg(long, value_enum, default_value_t = AroundName::Studio)]
    pub around: AroundName,
    /// How far the dome has sunk: minutes since its slump came to its top; below zero on the way up
    #[arg(long, value_name = "MINUTES", allow_negative_numbers = true, value_parser = minutes)]
    pub sunk: Option<f32>,
    /// Width and height, pixels
    #[arg(long, value_name = "PX", default_value_t = 1024,
          value_parser = clap::value_parser!(u32).range(LEAST_SIZE..=i64::from(View::MOST_SIZE)))]
    pub size: u32,
    /// PNG file to write
    #[arg(long, value_name = "FILE")]
    pub out: PathBuf,
}

/// Which ticket.
#[derive(Debug, Args)]
pub struct Ticket {
    /// What it is of.
    #[command(flatten)]
    pub of: RecipeFile,
    /// Number that repeats a layout
    #[arg(long, default_value_t = 1, allow_negative_numbers = true)]
    pub seed: u32,
    /// Print it as JSON
    #[arg(long)]
    pub json: bool,
}

/// Which slump.
#[derive(Debug, Args)]
pub struct Slump {
    /// What it is of.
    #[command(flatten)]
    pub of: RecipeFile,
    /// Friction between glass and mold, a coefficient: 0 slides freely, 2 hardly at all
    #[arg(long, value_name = "NUMBER", default_value_t = 0.0, allow_negative_numbers = true, value_parser = friction)]
    pub friction: f64,
    /// File to write: .csv for a table of moments, .svg for a section of mold and glass in mm
    #[arg(long, value_name = "FILE")]
    pub out: PathBuf,
}

/// Which programs.
#[derive(Debug, Args)]
pub struct Program {
    /// What it is of.
    #[command(flatten)]
    pub of: RecipeFile,
    /// Kiln file
    #[arg(long, value_name = "FILE")]
    pub kiln: Option<PathBuf>,
    /// Kiln to guess at without a file
    #[arg(long, value_enum, default_value_t = GuessName::SmallBrick, conflicts_with = "kiln")]
    pub guess: GuessName,
    /// Print them as JSON
    #[arg(long)]
    pub json: bool,
}

/// Which order.
#[derive(Debug, Args)]
pub struct Order {
    /// Order file
    pub order: PathBuf,
    /// Another open order that shares kiln and hands; may be given several times
    #[arg(long, value_name = "FILE")]
    pub beside: Vec<PathBuf>,
    /// The day from which days are counted, as 2026-11-30; the clock's if left out
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
    /// Print it as JSON
    #[arg(long)]
    pub json: bool,
}

/// Which sheets.
#[derive(Debug, Args)]
pub struct Paper {
    /// Which of them
    #[arg(value_enum)]
    pub kind: PaperKind,
    /// Order file
    pub order: PathBuf,
    /// PDF file to write
    #[arg(long, value_name = "FILE")]
    pub out: PathBuf,
    /// Size of the paper
    #[arg(long, value_enum, default_value_t = PaperName::A4)]
    pub size: PaperName,
    /// Another open order that shares kiln and hands; may be given several times
    #[arg(long, value_name = "FILE")]
    pub beside: Vec<PathBuf>,
    /// The day that is written on it and from which days are counted, as 2026-11-30; the clock's if left out
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub today: Option<Date>,
}

/// A kind of sheets, as it is typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PaperKind {
    /// One page for each recipe, to work from at the bench
    MakeSheet,
    /// The options with their prices, to sign
    Quote,
    /// Where the patches of each coat lie, at full size
    SiftMap,
    /// A label and a care card for each piece
    Labels,
}

impl From<PaperKind> for Kind {
    fn from(kind: PaperKind) -> Self {
        match kind {
            PaperKind::MakeSheet => Self::MakeSheet,
            PaperKind::Quote => Self::Quote,
            PaperKind::SiftMap => Self::SiftMap,
            PaperKind::Labels => Self::Labels,
        }
    }
}

/// A size of paper, as it is typed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum PaperName {
    /// 210 x 297 mm
    A4,
    /// 8 1/2 x 11 in
    Letter,
}

impl From<PaperName> for PaperSize {
    fn from(name: PaperName) -> Self {
        match name {
            PaperName::A4 => Self::A4,
            PaperName::Letter => Self::Letter,
        }
    }
}

/// A guessed kiln, as it is typed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum GuessName {
    /// 300 mm square inside, brick
    SmallBrick,
    /// 560 mm square inside, brick
    LargeBrick,
    /// 400 mm square inside, fiber
    Fiber,
}

impl From<GuessName> for Guess {
    fn from(name: GuessName) -> Self {
        match name {
            GuessName::SmallBrick => Self::SmallBrick,
            GuessName::LargeBrick => Self::LargeBrick,
            GuessName::Fiber => Self::Fiber,
        }
    }
}

/// What is asked of glasses.
#[derive(Debug, Subcommand)]
pub enum Glass {
    /// Fit a glass to its fired tiles
    Fit(Fit),
    /// Find a color among jars
    Find(Find),
}

/// Which tiles.
#[derive(Debug, Args)]
pub struct Fit {
    /// File of tiles
    pub tiles: PathBuf,
    /// Shelf file to write, with the one glass
    #[arg(long, value_name = "FILE")]
    pub out: PathBuf,
}

/// Which color.
#[derive(Debug, Args)]
pub struct Find {
    /// The color: "#9A5F4C", "154 95 76" or "Lab 46 22 21"
    pub color: String,
    /// File of your own glasses, to choose from beside the invented ones
    #[arg(long, value_name = "FILE")]
    pub shelf: Option<PathBuf>,
    /// Recipe that it is to lie on, on top of all; an opaque white if left out
    #[arg(long, value_name = "FILE")]
    pub recipe: Option<PathBuf>,
    /// Most jars together
    #[arg(long, value_name = "NUMBER", default_value_t = 2, value_parser = clap::value_parser!(u8).range(1..=2))]
    pub at_most: u8,
}

/// Which tray.
#[derive(Debug, Args)]
pub struct Tray {
    /// What it is of.
    #[command(flatten)]
    pub of: RecipeFile,
    /// First and last seed
    #[arg(long, value_name = "A..B", value_parser = seeds)]
    pub seeds: Seeds,
    /// Width and height of each piece, pixels
    #[arg(long, value_name = "PX", default_value_t = 256,
          value_parser = clap::value_parser!(u32).range(LEAST_SIZE..=MOST_TRAY_SIZE))]
    pub size: u32,
    /// PNG file to write
    #[arg(long, value_name = "FILE")]
    pub out: PathBuf,
}

/// Seeds from the first to the last, both included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Seeds {
    /// The first.
    pub first: u32,
    /// The last.
    pub last: u32,
}

/// Reads `3..12`, and says what is wrong with anything else.
fn seeds(text: &str) -> Result<Seeds, String> {
    let read = |number: &str| number.trim_start_matches('=').parse::<u32>().ok();
    let Some((Some(first), Some(last))) = text.split_once("..").map(|(a, b)| (read(a), read(b))) else {
        return Err(format!("it is two whole numbers up to {} with two dots between, as in 1..12", u32::MAX));
    };
    if last < first {
        return Err(format!("the first seed comes first: write {last}..{first}"));
    }
    if last - first >= MOST_PIECES {
        return Err(format!("a tray holds {MOST_PIECES} pieces at most: choose fewer seeds"));
    }
    Ok(Seeds { first, last })
}

/// Reads a date, and says what is wrong with anything else.
fn date(text: &str) -> Result<Date, String> {
    text.parse().map_err(|_| "write year, month and day, as in 2026-11-30".into())
}

/// Reads minutes, and says what is wrong with anything else.
fn minutes(text: &str) -> Result<f32, String> {
    let read = text.parse().ok().filter(|minutes: &f32| minutes.abs() <= MOST_MINUTES);
    read.ok_or_else(|| format!("give minutes from -{MOST_MINUTES} to {MOST_MINUTES}, like 12 or -3.5"))
}

/// Reads a coefficient of friction, and says what is wrong with anything else.
fn friction(text: &str) -> Result<f64, String> {
    let number = text.parse().ok().filter(|number| *number >= 0.0);
    number.ok_or_else(|| "it is a number from 0 up, as in 0.3".into())
}

/// A stage of making, as it is typed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum StageName {
    /// Loose powder on the blank
    Sifted,
    /// The flat fused disc
    Fused,
    /// The finished dome
    Domed,
}

impl From<StageName> for Stage {
    fn from(name: StageName) -> Self {
        match name {
            StageName::Sifted => Self::Sifted,
            StageName::Fused => Self::Fused,
            StageName::Domed => Self::Domed,
        }
    }
}

/// A light, as it is typed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum LightName {
    /// By day, with gloss and shadow
    Day,
    /// Lit from within, in the dusk
    Within,
    /// On plain gray, for judging color
    #[value(alias = "grey")]
    Gray,
}

impl From<LightName> for Light {
    fn from(name: LightName) -> Self {
        match name {
            LightName::Day => Self::Day,
            LightName::Within => Self::Within,
            LightName::Gray => Self::Gray,
        }
    }
}

/// What light colors are seen in, as it is typed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum IlluminantName {
    /// CIE D65; within, the usual garden lamp
    Daylight,
    /// CIE D75
    Overcast,
    /// CIE A
    Incandescent,
    /// Planck's radiator of 3000 K
    WarmWhite,
}

impl From<IlluminantName> for Illuminant {
    fn from(name: IlluminantName) -> Self {
        match name {
            IlluminantName::Daylight => Self::Daylight,
            IlluminantName::Overcast => Self::Overcast,
            IlluminantName::Incandescent => Self::Incandescent,
            IlluminantName::WarmWhite => Self::WarmWhite,
        }
    }
}

/// What a dome stands in, as it is typed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum AroundName {
    /// On the gray table
    Studio,
    /// On a lawn
    Lawn,
    /// High against the sky
    Sky,
}

impl From<AroundName> for Surroundings {
    fn from(name: AroundName) -> Self {
        match name {
            AroundName::Studio => Self::Studio,
            AroundName::Lawn => Self::Lawn,
            AroundName::Sky => Self::Sky,
        }
    }
}

/// Whose eyes, as they are typed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum EyesName {
    /// All three kinds of cones
    Most,
    /// Without those for long waves
    RedBlind,
    /// Without those for middle waves
    GreenBlind,
    /// Without those for short waves
    BlueBlind,
}

impl From<EyesName> for Sight {
    fn from(name: EyesName) -> Self {
        match name {
            EyesName::Most => Self::Usual,
            EyesName::RedBlind => Self::Protan,
            EyesName::GreenBlind => Self::Deutan,
            EyesName::BlueBlind => Self::Tritan,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_arguments_are_in_order() {
        use clap::CommandFactory;
        Arguments::command().debug_assert();
    }

    #[test]
    fn dates_are_read_or_explained() {
        assert_eq!(date("2026-11-30"), Ok(jiff::civil::date(2026, 11, 30)));
        for text in ["", "today", "30.11.2026", "2026-13-01", "2026-02-30"] {
            assert!(date(text).unwrap_err().contains("2026-11-30"), "{text}");
        }
    }

    #[test]
    fn friction_is_read_or_explained() {
        assert_eq!(friction("0.3"), Ok(0.3));
        assert_eq!(friction("0"), Ok(0.0));
        for text in ["", "-1", "much", "NaN"] {
            assert!(friction(text).unwrap_err().contains("0.3"), "{text}");
        }
    }

    #[test]
    fn seeds_are_read_or_explained() {
        assert_eq!(seeds("3..12"), Ok(Seeds { first: 3, last: 12 }));
        assert_eq!(seeds("3..=3"), Ok(Seeds { first: 3, last: 3 }));
        assert_eq!(seeds("4294967290..4294967295").unwrap().last, u32::MAX);
        assert!(seeds("12..3").unwrap_err().contains("write 3..12"));
        assert!(seeds("1..401").unwrap_err().contains("400 pieces"));
        for text in ["", "3", "..", "1..", "a..b", "-1..3", "1...3", "1..4294967296"] {
            assert!(seeds(text).unwrap_err().contains("1..12"), "{text}");
        }
    }
}
