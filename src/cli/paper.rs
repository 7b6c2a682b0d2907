//! An order on paper: a PDF of make sheets, a quote, sift maps, or labels with care cards.

use super::arguments::{Paper, PaperKind};
use super::order::{faults, one_ticket, read, worked};
use super::outcome::{Outcome, print};
use super::output::Output;
use dappledome::orders::loads::kiln;
use dappledome::orders::model::{Line, Order};
use dappledome::orders::worked::Worked;
use dappledome::paper::content::{Content, Piece};
use dappledome::paper::sheet::{Picture, Sheet};
use dappledome::paper::{labels, make_sheet, pdf, quote, sift_map};
use dappledome::picture::{Pixmap, View};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
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
    let pieces = pieces(&order, &mut preview)?;
    let content =
        Content { order: &order, worked: &worked, pieces: &pieces, today, paper: arguments.size.into() };
    let sheets = sheets(arguments.kind, &content)?;
    tell(arguments.kind, &worked, &sheets);
    shown.say("Drawing the pieces");
    let title = format!("{}: {}", title(arguments.kind), order.title);
    let bytes =
        pdf::pdf(&title, &sheets, |picture| drawn(&mut preview, &pieces, picture)).map_err(|fault| {
            Trouble::new("The PDF cannot be written.", fault, "Please tell us, with the order file.")
        })?;
    output.write(&bytes)?;
    drop(shown);
    print(&format!("{}\n", arguments.out.display()))
}

/// What the sheets of each line show.
fn pieces(order: &Order, preview: &mut Preview) -> Result<Vec<Piece>, Vec<Trouble>> {
    let kiln = kiln(order);
    let one = |line: &Line| {
        let plan = Plan::new(&line.recipe)?.plan;
        let ticket = one_ticket(preview, &plan, line.seeds[0], &kiln);
        Piece::new(&plan, &kiln, &ticket)
    };
    order.lines.iter().map(one).collect::<Result<_, _>>().map_err(faults)
}

fn sheets(kind: PaperKind, content: &Content) -> Result<Vec<Sheet>, Trouble> {
    let sheets = match kind {
        PaperKind::MakeSheet => make_sheet::sheets(content),
        PaperKind::Quote => quote::sheets(content),
        PaperKind::SiftMap => sift_map::sheets(content),
        PaperKind::Labels => labels::sheets(content),
    };
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
fn tell(kind: PaperKind, worked: &Worked, sheets: &[Sheet]) {
    if kind == PaperKind::Quote && worked.cost.priced.is_none() {
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

fn title(kind: PaperKind) -> &'static str {
    match kind {
        PaperKind::MakeSheet => "Make sheet",
        PaperKind::Quote => "Quote",
        PaperKind::SiftMap => "Sift map",
        PaperKind::Labels => "Labels and care cards",
    }
}

/// A picture as sharp as it is printed.
fn drawn(preview: &mut Preview, pieces: &[Piece], picture: &Picture) -> Pixmap {
    let side = (picture.frame.0.max(picture.frame.1) * PER_MM).min(MOST_SIDE);
    let view = View::usual(picture.stage, picture.light, side as u32);
    preview.picture(&pieces[picture.line].plan, picture.seed, &view)
}
