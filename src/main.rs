//! The native program: the drawing board served to a browser, and pictures and tickets without one.

mod cli;

use clap::Parser;
use dappledome::serve::say::say;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = cli::arguments::Arguments::parse();
    let Err(troubles) = cli::run(arguments) else { return ExitCode::SUCCESS };
    for trouble in troubles {
        say(&trouble.to_string());
    }
    ExitCode::from(2)
}
