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

/// Nothing, or every reason why it cannot be done.
pub type Outcome = Result<(), Vec<Trouble>>;

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
