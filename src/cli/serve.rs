//! Serving the page on this machine.

use super::arguments::Serve;
use super::outcome::{Outcome, print};
use dappledome::serve::bundle;
use dappledome::serve::ending;
use dappledome::serve::port::{self, Opened};
use dappledome::serve::say::say;
use dappledome::serve::server::Server;
use dappledome::serve::trouble::Trouble;
use std::net::{SocketAddr, TcpListener};

/// Builds the page, says where it is and serves it until the program is told to end.
pub fn run(arguments: &Serve) -> Outcome {
    let address = SocketAddr::new(arguments.host, arguments.port);
    // Asked before the long build, and let go again: an open port that does not answer would look like another
    // program to a second Dappledome.
    if open(address)?.is_none() {
        return Ok(());
    }
    let site = bundle::build()?;
    let Some(listener) = open(address)? else { return Ok(()) };
    let server = Server::start(listener, site).map_err(|fault| {
        Trouble::new(
            format!("Cannot serve on {address}."),
            format!("{fault}."),
            "Try again, or with another --port.",
        )
    })?;
    if !address.ip().is_loopback() {
        say(&format!("Caution: everybody who can reach {address} can open the page."));
    }
    let end = ending::requests()?;
    print(&format!("Dappledome is open at {} (Ctrl-C ends it)\n", server.url()))?;
    // It cannot be told anything but the end.
    let _ = end.recv();
    Ok(())
}

/// The port, or nothing (and word of it) if Dappledome is already there.
fn open(address: SocketAddr) -> Result<Option<TcpListener>, Vec<Trouble>> {
    match port::open(address)? {
        Opened::Free(listener) => Ok(Some(listener)),
        Opened::AlreadyRunning(url) => {
            print(&format!("Dappledome is already running at {url}\n"))?;
            Ok(None)
        }
    }
}
