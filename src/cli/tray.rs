//! A tray of pieces: the same recipe for a run of seeds, in rows, each with its seed.

use super::arguments::{Seeds, Tray};
use super::outcome::{Outcome, print};
use super::output::Output;
use super::{digits, piece};
use dappledome::base::seed::Seed;
use dappledome::picture::{Light, Pixmap, Stage, View, png};
use dappledome::preview::Preview;
use dappledome::serve::progress;
use dappledome::serve::trouble::Trouble;
use rayon::ThreadPoolBuilder;
use std::sync::{Mutex, PoisonError};
use std::thread;

/// The largest tray, pixels along a side.
const MOST_SIDE: u32 = 8192;
/// The gray of the tray, that of the pictures on it.
const GRAY: [u8; 3] = [150; 3];

/// Draws it.
pub fn run(arguments: &Tray) -> Outcome {
    let Seeds { first, last } = arguments.seeds;
    let size = arguments.size;
    let (columns, rows) = shape(last - first + 1);
    if columns * size > MOST_SIDE {
        let why = format!(
            "{columns} pieces of {size} pixels in a row make {}; {MOST_SIDE} is the most.",
            columns * size
        );
        return Err(
            Trouble::new("The tray is too large.", why, "Choose fewer seeds, or a smaller --size.").into()
        );
    }
    let piece = piece::read(&arguments.of)?;
    let output = Output::prepare(&arguments.out, &arguments.of.recipe)?;
    let view = View::usual(Stage::Domed, Light::Day, size);
    let tray = Mutex::new(Pixmap::filled(columns * size, rows * size, GRAY));
    let bar = progress::bar("Drawing the tray", u64::from(last - first + 1));
    let draw = |preview: &mut Preview, place: u32| {
        let seed = first + place;
        let mut picture = preview.picture(&piece.plan, Seed(seed), &view);
        digits::write(&mut picture, &seed.to_string());
        let mut tray = tray.lock().unwrap_or_else(PoisonError::into_inner);
        tray.place(&picture, place % columns * size, place / columns * size);
        bar.inc(1);
    };
    // Each thread takes every so manieth seed and remembers what they share; who is first does not show in the tray. A piece by itself is
    // too small to be shared among threads.
    let threads = rayon::current_num_threads();
    thread::scope(|scope| {
        for thread in 0..threads {
            let places = (0..=last - first).skip(thread).step_by(threads);
            scope.spawn(|| {
                alone(|| {
                    let mut preview = Preview::new();
                    places.for_each(|place| draw(&mut preview, place));
                })
            });
        }
    });
    let tray = tray.into_inner().unwrap_or_else(PoisonError::into_inner);
    let texts = [(png::RECIPE_KEYWORD, piece.text.as_str()), (png::SEED_KEYWORD, &first.to_string())];
    output.write(&png::encode(&tray, &texts))?;
    bar.finish_and_clear();
    print(&format!("{}\n", arguments.out.display()))
}

/// Runs something on one thread, or as it comes where no more threads can be started.
fn alone(run: impl FnOnce() + Send) {
    match ThreadPoolBuilder::new().num_threads(1).build() {
        Ok(pool) => pool.install(run),
        Err(_) => run(),
    }
}

/// Columns and rows of so many pieces: square, or one row short of it.
fn shape(pieces: u32) -> (u32, u32) {
    let columns = (1..).find(|side| side * side >= pieces).unwrap_or(1);
    (columns, pieces.div_ceil(columns))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tray_is_about_square() {
        let shapes = [1, 2, 3, 5, 9, 10, 12, 400].map(shape);
        assert_eq!(shapes, [(1, 1), (2, 1), (2, 2), (3, 2), (3, 3), (4, 3), (4, 3), (20, 20)]);
    }
}
