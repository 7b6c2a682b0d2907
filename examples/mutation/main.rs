//! Small wrong changes to the engine, each held against the tests that know the answer (no picture hash among them):
//! which are caught, and by which test. Takes `cargo install cargo-mutants --locked`, which lists the changes; they
//! are drawn at random, the same ones from the same seed, and tried in a copy of what git knows of this folder.
//!
//! ```text
//! cargo run --example mutation -- --each 20 --numbers 5 --seed 9 --table target/mutation.csv
//! ```
//!
//! `--each` of every folder from that list, `--numbers` of every folder with a number made a tenth larger, which the list
//! does not have. A table that is there already is gone on with. `--sum` prints the shares of a table and tries nothing.

mod changes;
mod draw;
mod share;
mod trial;

use clap::Parser;
use std::collections::BTreeSet;
use std::io::Write;
use std::path::PathBuf;
use std::{error, fs};

/// The folders whose changes are tried.
pub const FOLDERS: [&str; 6] = ["optics", "layup", "fuse", "slump", "picture", "shop"];

#[derive(Parser)]
struct Asked {
    /// Changes to try of every folder, from the list of cargo mutants.
    #[arg(long, default_value_t = 20)]
    each: usize,
    /// Numbers to make a tenth larger, of every folder.
    #[arg(long, default_value_t = 5)]
    numbers: usize,
    /// What the draw goes by.
    #[arg(long, default_value_t = 9)]
    seed: u64,
    /// Where the results go, a line for each.
    #[arg(long, default_value = "target/mutation.csv")]
    table: PathBuf,
    /// Where the copy and what is built from it lie.
    #[arg(long, default_value = "target/mutation")]
    copy: PathBuf,
    /// A test to leave out, which fails without any change.
    #[arg(long)]
    skip: Vec<String>,
    /// Print the shares of the table as it is.
    #[arg(long)]
    sum: bool,
    /// Print what would be tried.
    #[arg(long)]
    list: bool,
}

fn main() -> Result<(), Box<dyn error::Error>> {
    let asked = Asked::parse();
    let all = changes::all()?;
    let drawn = draw::drawn(&all, asked.each, asked.numbers, asked.seed);
    if asked.list {
        drawn.iter().for_each(|change| println!("{}", change.name));
    } else if !asked.sum {
        try_out(&asked, &drawn)?;
    }
    if !asked.list {
        print!("{}", share::told(&fs::read_to_string(&asked.table)?, &all));
    }
    Ok(())
}

/// Tries what the table does not have yet.
fn try_out(asked: &Asked, drawn: &[&changes::Change]) -> Result<(), Box<dyn error::Error>> {
    let known = fs::read_to_string(&asked.table).unwrap_or_default();
    let done: BTreeSet<&str> =
        known.lines().filter_map(|line| Some(line.split_once('"')?.1.split_once('"')?.0)).collect();
    let bench = trial::Bench::set_up(&asked.copy, &asked.skip)?;
    let mut table = fs::OpenOptions::new().create(true).append(true).open(&asked.table)?;
    if known.is_empty() {
        writeln!(table, "folder,kind,change,outcome,test,seconds")?;
    }
    let left = drawn.iter().filter(|change| !done.contains(change.name.as_str()));
    for change in left {
        let begun = std::time::Instant::now();
        let (outcome, test) = bench.outcome(change)?;
        let seconds = begun.elapsed().as_secs_f64();
        let (folder, kind) = (change.folder(), change.kind());
        writeln!(table, "{folder},{kind},\"{}\",{outcome},{test},{seconds:.0}", change.name)?;
        println!("{outcome:9} {seconds:4.0} s  {}  {test}", change.name);
    }
    Ok(())
}
