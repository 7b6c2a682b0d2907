//! The commands of the native program, one file each, and what they share.

pub mod arguments;
mod bundle;
mod digits;
mod output;
mod picture;
mod piece;
mod serve;
mod ticket;
mod tray;

use arguments::{Arguments, Command};
use dappledome::serve::trouble::Trouble;
use std::io::{self, Write};

/// Nothing, or every reason why it cannot be done.
pub type Outcome = Result<(), Vec<Trouble>>;

/// Prints a result.
fn print(text: &str) -> Outcome {
    match io::stdout().write_all(text.as_bytes()).and_then(|()| io::stdout().flush()) {
        // A reader who has seen enough closes the pipe.
        Err(fault) if fault.kind() != io::ErrorKind::BrokenPipe => {
            let remedy = "Choose another place for the output.";
            Err(Trouble::new("Cannot print the result.", format!("{fault}."), remedy).into())
        }
        _ => Ok(()),
    }
}

/// Does what was asked.
pub fn run(arguments: Arguments) -> Outcome {
    match arguments.command.unwrap_or(Command::Serve(arguments.serve)) {
        Command::Serve(arguments) => serve::run(&arguments),
        Command::Bundle(arguments) => bundle::run(&arguments),
        Command::Picture(arguments) => picture::run(&arguments),
        Command::Ticket(arguments) => ticket::run(&arguments),
        Command::Tray(arguments) => tray::run(&arguments),
    }
}
