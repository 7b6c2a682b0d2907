//! What is said beside a result, to whoever watches.

use std::io::{self, Write};

/// Says a line on the standard error. Where nobody can hear it (a closed pipe, a full disk), it goes unsaid: the work itself goes on.
pub fn say(line: &str) {
    let _ = writeln!(io::stderr(), "{line}");
}
