//! Being told to end, by Ctrl-C or by the system.

use super::trouble::Trouble;
use std::sync::mpsc::{self, Receiver};

/// From now on a request to end (Ctrl-C, SIGTERM, SIGHUP) no longer stops the program in its tracks, but is received here. Once
/// per program.
///
/// # Errors
/// If the system does not allow it.
pub fn requests() -> Result<Receiver<()>, Trouble> {
    let (told, requests) = mpsc::channel();
    // Who asks twice has asked; who asks after the end gets it anyway.
    ctrlc::set_handler(move || {
        let _ = told.send(());
    })
    .map_err(|fault| Trouble::new("Cannot wait for the end.", format!("{fault}."), "Try again."))?;
    Ok(requests)
}
