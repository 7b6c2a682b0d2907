//! Glasses: one fitted to its fired tiles, and a wanted color found among jars.

use super::arguments::{Find, Fit, Glass as Asked};
use super::outcome::{Outcome, print};
use super::output::Output;
use super::piece;
use super::tile_file::{self, TileFile};
use dappledome::base::units::fixed;
use dappledome::color::toward::Toward;
use dappledome::color::typed;
use dappledome::glass::glasses::Glasses;
use dappledome::glass::kind::Glass;
use dappledome::optics::test_tile::Ground;
use dappledome::recipe::limits::PACKING;
use dappledome::recipe::shelf::Shelf;
use dappledome::serve::say::say;
use dappledome::serve::trouble::Trouble;
use dappledome::tiles::find::{Fired, Found, Jar, Under, Way, find};
use dappledome::tiles::fit::{Fitted, fit};
use dappledome::tiles::sureness::By;
use dappledome::tiles::tile::{Bases, Over};

/// So many ways are printed.
const SHOWN: usize = 10;

/// Does what was asked.
pub fn run(asked: &Asked) -> Outcome {
    match asked {
        Asked::Fit(arguments) => fitted(arguments),
        Asked::Find(arguments) => found(arguments),
    }
}

/// Fits a glass to tiles and writes it as a shelf of its own.
fn fitted(arguments: &Fit) -> Outcome {
    let file = tile_file::read(&arguments.tiles)?;
    let tiles = file.read_tiles()?;
    let output = Output::prepare(&arguments.out, &arguments.tiles)?;
    let fitted = fit(&tiles, &file.bases(), &file.powder()).map_err(Trouble::from)?;
    let mut shelf = Shelf::default();
    shelf.put(file.glass(&shelf.free_id(&file.name), tiles, &fitted));
    if let Some(fault) = shelf.faults().into_iter().next() {
        return Err(Trouble::from(fault).into());
    }
    fitted.doubts.iter().for_each(|doubt| say(&format!("Risk: {}", doubt.notice())));
    output.write(shelf.write().as_bytes())?;
    print(&in_lines(&file, &fitted))
}

fn in_lines(file: &TileFile, fitted: &Fitted) -> String {
    let mut lines = vec![file.name.clone()];
    lines.extend(fitted.apart.iter().enumerate().map(|(at, apart)| {
        format!("  tile {}: apart by {} from what the glass would fire to", at + 1, fixed(*apart, 1))
    }));
    let depths = [0.03, 0.1, 0.3, 1.0, 3.0];
    let sure = depths.map(|depth| {
        let off =
            fitted.sureness.at(depth, By::Day).map_or_else(|| "?".into(), |off| fixed(f64::from(off), 1));
        format!("{off} at {depth} mm")
    });
    lines.push(format!("  colors may be off by {}", sure.join(", ")));
    lines.join("\n") + "\n"
}

/// Prints the ways to a wanted color.
fn found(arguments: &Find) -> Outcome {
    let wanted = typed::read(&arguments.color).map_err(|why| {
        let text: String = arguments.color.chars().take(40).collect();
        Trouble::new(format!("\"{text}\" is no color."), why.to_string(), "Type one of these, in quotes.")
    })?;
    let glasses = arguments
        .shelf
        .as_deref()
        .map(piece::shelf)
        .transpose()?
        .map_or_else(Glasses::default, |shelf| shelf.offered());
    let powders: Vec<&Glass> = glasses.all().filter(|glass| glass.powder).collect();
    let (under, packing) = match &arguments.recipe {
        Some(recipe) => {
            let plan = piece::read_with(recipe, arguments.shelf.as_deref())?.plan;
            (Under::Day(Ground::on_all(&plan).seen()), f64::from(plan.packing))
        }
        None => (Under::Day(Bases::default().under(Over::White)), PACKING.usual),
    };
    let fired = Fired::of(powders.iter().copied(), packing);
    let jars = fired.jars();
    let ways = find(wanted.lab(), &jars, &under, arguments.at_most > 1);
    let lines = ways.iter().take(SHOWN).map(|found| line(found, &powders, &jars));
    print(&lines.collect::<String>())
}

/// One way: what, how deep, how far apart and in which direction, how sure, grams.
fn line(found: &Found, powders: &[&Glass], jars: &[Jar]) -> String {
    let name = |jar: usize| powders[jar].name.to_lowercase();
    let mm = |depth: f64| fixed(depth, 2);
    let what = match found.way {
        Way::Alone { jar, depth } => format!("{}, {} mm", name(jar), mm(depth)),
        Way::Blended { jars: [one, other], parts: [a, b], depth } => {
            format!("{a} {}, {b} {}, {} mm", name(one), name(other), mm(depth))
        }
        Way::Over { jars: [lower, upper], depths: [a, b] } => {
            format!("{} on {}, {} on {} mm", name(upper), name(lower), mm(b), mm(a))
        }
    };
    // m = 0.1 t phi rho in g/cm² for t in mm.
    let each = found.way.each().into_iter();
    let grams = each.map(|(jar, depth)| fixed(10.0 * depth * jars[jar].packing * powders[jar].density, 1));
    let grams: Vec<String> = grams.collect();
    let toward: Vec<&str> = found.off.toward().into_iter().map(Toward::word).collect();
    let sure =
        found.sure.map_or_else(|| "invented".into(), |off| format!("±{}", fixed(f64::from(off).max(1.0), 0)));
    format!(
        "{what}: apart by {} ({}), {sure}, {} g on 100 cm²\n",
        fixed(found.apart, 1),
        if toward.is_empty() { "the same".into() } else { toward.join(", ") },
        grams.join(" and ")
    )
}
