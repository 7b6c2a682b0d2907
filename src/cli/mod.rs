//! The commands of the native program, one file each.

pub mod arguments;
mod bundle;
mod digits;
mod draft;
mod glass;
mod joint_lines;
mod order;
mod order_lines;
mod outcome;
mod output;
mod paper;
mod picture;
mod piece;
mod program;
mod section;
mod serve;
mod slump;
mod ticket;
mod tile_file;
mod tray;

use arguments::{Arguments, Command};
use outcome::Outcome;

/// Does what was asked.
pub fn run(arguments: Arguments) -> Outcome {
    match arguments.command.unwrap_or(Command::Serve(arguments.serve)) {
        Command::Serve(arguments) => serve::run(&arguments),
        Command::Bundle(arguments) => bundle::run(&arguments),
        Command::Picture(arguments) => picture::run(&arguments),
        Command::Slump(arguments) => slump::run(&arguments),
        Command::Ticket(arguments) => ticket::run(&arguments),
        Command::Program(arguments) => program::run(&arguments),
        Command::Order(arguments) => order::run(&arguments),
        Command::Paper(arguments) => paper::run(&arguments),
        Command::Glass(asked) => glass::run(&asked),
        Command::Tray(arguments) => tray::run(&arguments),
    }
}
