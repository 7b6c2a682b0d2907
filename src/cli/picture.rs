//! One picture of one piece, the same bytes as the page saves.

use super::arguments::Picture;
use super::outcome::{Outcome, print};
use super::output::Output;
use super::piece;
use dappledome::base::seed::Seed;
use dappledome::picture::{View, png};
use dappledome::preview::Preview;
use dappledome::serve::progress::Progress;

/// Draws it.
pub fn run(arguments: &Picture) -> Outcome {
    let piece = piece::read(&arguments.of)?;
    let output = Output::prepare(&arguments.out, &arguments.of.recipe)?;
    let shown = Progress::start("Drawing the piece");
    let seed = Seed(arguments.seed);
    let view = View::usual(arguments.view.into(), arguments.light.into(), arguments.size);
    let (seen_in, sight) = (arguments.seen_in.into(), arguments.eyes.into());
    let view = View { sunk: arguments.sunk, seen_in, sight, around: arguments.around.into(), ..view };
    let picture = Preview::once().picture(&piece.plan, seed, &view);
    let texts = [(png::RECIPE_KEYWORD, piece.text.as_str()), (png::SEED_KEYWORD, &seed.to_string())];
    output.write(&png::encode(&picture, &texts))?;
    drop(shown);
    print(&format!("{}\n", arguments.out.display()))
}
