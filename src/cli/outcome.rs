//! How a command ends, and how it says what it found.

use dappledome::serve::trouble::Trouble;
use std::io::{self, Write};

/// Nothing, or every reason why it cannot be done.
pub type Outcome = Result<(), Vec<Trouble>>;

/// Prints a result.
pub fn print(text: &str) -> Outcome {
    match io::stdout().write_all(text.as_bytes()).and_then(|()| io::stdout().flush()) {
        // A reader who has seen enough closes the pipe.
        Err(fault) if fault.kind() != io::ErrorKind::BrokenPipe => {
            let remedy = "Choose another place for the output.";
            Err(Trouble::new("Cannot print the result.", format!("{fault}."), remedy).into())
        }
        _ => Ok(()),
    }
}
