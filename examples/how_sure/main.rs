//! How sure the colors of a glass are that was fitted to fired tiles: `cargo run --release --example how_sure`.
//!
//! Takes invented true glasses, fires their tiles, reads the colors more or less well, fits, and compares with the truth at
//! every depth. Prints the table, and writes it to `examples/how_sure/how_sure.csv` and to `src/tiles/sureness_table.rs`, from
//! which the engine has it (`cargo fmt` after that).

mod errors;
mod glasses;
mod study;

use dappledome::base::scalar::Bounds;
use dappledome::tiles::sureness::{Kind, together};
use errors::{Errors, errors};
use std::fmt::Write;
use std::path::Path;
use std::{fs, io};
use study::{KINDS, LOOKS, PAIRED, RATIOS, READ, fired, pairs, share_within, summed};

/// Glasses of each kind.
const COUNT: usize = 1000;
const SEED: u64 = 2026;
/// Other glasses, taken two by two, that say what two together are never surer than.
const PAIRS_SEED: u64 = 2027;
/// Of so many pairs in each look, at least, no more is off than is said. Another draw of as many is then within nine of ten (a share has a
/// standard error of 1 %).
const PAIRS_WITHIN: f64 = 0.93;

fn main() -> io::Result<()> {
    let mut csv =
        String::from("fitted from,colors read,seen over,depth over tile's,glasses,mean,p95,worst\n");
    let (mut table, mut least) = (String::new(), 0.0f32);
    for (kind, from) in KINDS {
        table.push('[');
        for (read, how) in READ {
            let fired = fired(kind, read, COUNT, SEED);
            let errors = errors(kind, &fired);
            write_rows(&mut csv, (from, how), &errors);
            if how != "exact" {
                write_entries(&mut table, &errors);
                least = least.at_least(never_surer(&self::fired(kind, read, COUNT, PAIRS_SEED)));
            }
            write_pairs(&mut csv, (from, how), &fired);
            println!("{from}, {how}");
        }
        table.push_str("], ");
    }
    println!("{csv}");
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    fs::write(root.join("examples/how_sure/how_sure.csv"), csv)?;
    fs::write(root.join("src/tiles/sureness_table.rs"), source(&table, least))
}

fn write_rows(csv: &mut String, (from, how): (&str, &str), errors: &Errors) {
    for (look, rows) in LOOKS.iter().zip(errors) {
        for (ratio, errors) in RATIOS.iter().zip(rows) {
            let (mean, p95, worst) = summed(errors);
            let count = errors.len();
            writeln!(csv, "{from},{how},\"{look}\",{ratio},{count},{mean:.2},{p95:.2},{worst:.2}")
                .expect("a string takes all");
        }
    }
}

/// By day the worse of white and black, and lit.
fn write_entries(table: &mut String, errors: &Errors) {
    let p95 = |look: usize, node: usize| summed(&errors[look][node]).1;
    let row = |of: &dyn Fn(usize) -> f64| {
        let row =
            filled((0..RATIOS.len()).map(|node| (!errors[0][node].is_empty()).then(|| of(node))).collect());
        row.iter().map(|p95| format!("{p95:.2}")).collect::<Vec<_>>().join(", ")
    };
    let day = row(&|node| p95(0, node).max(p95(1, node)));
    let lit = row(&|node| p95(2, node));
    write!(table, "[[{day}], [{lit}]], ").expect("a string takes all");
}

/// A row whose ends nobody sifts: at the thin end the next entry, at the deep end as much more as the step before it.
fn filled(mut row: Vec<Option<f64>>) -> Vec<f64> {
    for node in (0..row.len() - 1).rev() {
        row[node] = row[node].or(row[node + 1]);
    }
    for node in 2..row.len() {
        row[node] = row[node].or_else(|| Some(row[node - 1]? + (row[node - 1]? - row[node - 2]?).max(0.0)));
    }
    row.into_iter().flatten().collect()
}

/// Two glasses together: how often their error is within what was to be expected of both.
fn write_pairs(csv: &mut String, (from, how): (&str, &str), fired: &[study::Fired]) {
    let pairs = pairs(fired);
    for (look, what) in PAIRED.iter().enumerate() {
        let errors: Vec<f64> = pairs.iter().map(|pair| pair[look].off).collect();
        let within = share_within(&pairs, look, together);
        let (mean, p95, worst) = summed(&errors);
        let count = pairs.len();
        writeln!(csv, "{from},{how},{what},within {within:.3},{count},{mean:.2},{p95:.2},{worst:.2}")
            .expect("a string takes all");
    }
}

/// What two glasses together must never be surer than, so that the sum of both holds often enough in every look: to a tenth.
fn never_surer(fired: &[study::Fired]) -> f32 {
    let pairs = pairs(fired);
    let holds = |least: f32| {
        let said = |[a, b]: [Option<f32>; 2]| Some((a? + b?).at_least(least));
        (0..PAIRED.len()).all(|look| share_within(&pairs, look, said) >= PAIRS_WITHIN)
    };
    (0..200).map(|tenths| tenths as f32 / 10.0).find(|least| holds(*least)).expect("nothing is off by 20")
}

fn source(table: &str, least: f32) -> String {
    let kinds = Kind::ScatterSaid as usize + 1;
    format!(
        "//! How far colors may be off, CIEDE2000, as `examples/how_sure` found it and wrote it here: 95th percentiles of {COUNT} invented\n\
         //! glasses. `tests/tiles.rs` holds other glasses to it.\n\n\
         /// Entries of a row.\n\
         pub const NODES: usize = {};\n\
         /// A row goes from 2 to the power of minus this to 2 to the power of this: depth over that of the nearest tile.\n\
         pub const FURTHEST: f32 = {:.1};\n\n\
         /// By what a glass was fitted from, how well colors were read (8 bits, off by 1, by 2), and how it is seen (by day, lit).\n\
         pub const FROM_TILES: [[[[f32; NODES]; 2]; 3]; {kinds}] = [{table}];\n\n\
         /// Two glasses together are never surer than this: with it the sum of both holds for {:.0} % of pairs, whatever they are fitted\n\
         /// from and however they are seen (seed {PAIRS_SEED} of the study).\n\
         pub const PAIR: f32 = {least:.1};\n",
        RATIOS.len(),
        (RATIOS.len() / 2) as f64,
        100.0 * PAIRS_WITHIN,
    )
}
