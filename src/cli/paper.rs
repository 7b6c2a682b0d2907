//! An order on paper: a PDF of make sheets, a quote, sift maps, or labels with care cards.

use super::arguments::Paper;
use super::order::{read, worked};
use super::outcome::{Outcome, print};
use super::output::Output;
use super::piece::faults;
use dappledome::orders::worked::Worked;
use dappledome::paper::content::{Content, Piece};
use dappledome::paper::kind::Kind;
use dappledome::paper::pdf;
use dappledome::paper::sheet::{Picture, Sheet};
use dappledome::picture::{Pixmap, View};
use dappledome::preview::Preview;
use dappledome::serve::progress::Progress;
use dappledome::serve::say::say;
use dappledome::serve::trouble::Trouble;
use jiff::ZonedDateTime;

/// Pixels to the millimeter: 300 to the inch.
const PER_MM: f64 = 300.0 / 25.4;
/// The largest picture, pixels along a side.
const MOST_SIDE: f64 = 1024.0;

/// Writes it.
pub fn run(arguments: &Paper) -> Outcome {
    let order = read(&arguments.order)?;
    let others = arguments.beside.iter().map(|path| read(path)).collect::<Result<Vec<_>, _>>()?;
    let output = Output::prepare(&arguments.out, &arguments.order)?;
    let today = arguments.today.unwrap_or_else(|| ZonedDateTime::now().date());
    let shown = Progress::start("Laying out the paper");
    let mut preview = Preview::new();
    let worked = worked(&order, &others, today, &mut preview)?;
    let pieces = Piece::all(&order, &worked).map_err(faults)?;
    let kind = Kind::from(arguments.kind);
    let content =
        Content { order: &order, worked: &worked, pieces: &pieces, today, paper: arguments.size.into() };
    let sheets = sheets(kind, &content)?;
    tell(kind, &worked, &sheets);
    shown.say("Drawing the pieces");
    let title = format!("{}: {}", kind.name(), order.title);
    let bytes =
        pdf::pdf(&title, &sheets, |picture| drawn(&mut preview, &pieces, picture)).map_err(|fault| {
            Trouble::new("The PDF cannot be written.", fault, "Please tell us, with the order file.")
        })?;
    output.write(&bytes)?;
    drop(shown);
    print(&format!("{}\n", arguments.out.display()))
}

fn sheets(kind: Kind, content: &Content) -> Result<Vec<Sheet>, Trouble> {
    let sheets = kind.sheets(content);
    if sheets.is_empty() {
        let why = "None of its coats falls in patches, so there is no outline to sift along.";
        return Err(Trouble::new(
            "No sift map for this order.",
            why,
            "Sift these coats all over, without a map.",
        ));
    }
    Ok(sheets)
}

/// Says what the paper itself does not.
fn tell(kind: Kind, worked: &Worked, sheets: &[Sheet]) {
    if kind == Kind::Quote && worked.cost.priced.is_none() {
        let why = if worked.cost.missing.is_empty() {
            "The order has no prices.".into()
        } else {
            format!("These have none: {}.", worked.cost.missing.join("; "))
        };
        say(&format!("Note: No prices yet, so there are lines to write them on. {why}"));
    }
    let lacking = pdf::lacking(sheets);
    if !lacking.is_empty() {
        let letters: String = lacking.into_iter().collect();
        say(&format!("Note: The paper's font has no {letters}: an empty box stands for each."));
    }
}

/// A picture as sharp as it is printed.
fn drawn(preview: &mut Preview, pieces: &[Piece], picture: &Picture) -> Pixmap {
    let side = (picture.frame.0.max(picture.frame.1) * PER_MM).min(MOST_SIDE);
    let view = View::usual(picture.stage, picture.light, side as u32);
    preview.picture(&pieces[picture.line].plan, picture.seed, &view)
}
