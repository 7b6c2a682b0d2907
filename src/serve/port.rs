//! Opening the port that was asked for, or saying who has it. Never another one: another port is another origin
//! to the browser, where the pieces saved under this one are not.

use super::answers::NAME;
use super::host::reachable;
use super::trouble::Trouble;
use std::io::{self, ErrorKind, Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::time::{Duration, Instant};

/// How long whoever has the port may take to say who it is, from the first try to the last word.
const PATIENCE: Duration = Duration::from_secs(2);

/// The most that is read of what it says, bytes.
const MOST_SAID: usize = 4096;

/// What came of asking for a port.
#[derive(Debug)]
pub enum Opened {
    /// It is ours.
    Free(TcpListener),
    /// Dappledome itself is already running there, at this address.
    AlreadyRunning(String),
}

/// Opens a port.
///
/// # Errors
/// If another program has it, or the system does not allow it.
pub fn open(address: SocketAddr) -> Result<Opened, Trouble> {
    match TcpListener::bind(address) {
        Ok(listener) => Ok(Opened::Free(listener)),
        Err(fault) if fault.kind() == ErrorKind::AddrInUse => {
            if is_dappledome(reachable(address)) {
                Ok(Opened::AlreadyRunning(format!("http://{}/", reachable(address))))
            } else {
                Err(Trouble::new(
                    format!("Port {} is taken.", address.port()),
                    "Another program on this machine uses it.",
                    "Stop that program, or choose another port with --port. (Pieces that the browser saved \
                     under one port are not seen under another.)",
                ))
            }
        }
        Err(fault) => Err(Trouble::new(
            format!("Cannot listen on {address}."),
            format!("{fault}."),
            "Choose another port with --port (1024 or more), or an address of this machine with --host.",
        )),
    }
}

/// Whether whoever listens there gives Dappledome's name.
fn is_dappledome(address: SocketAddr) -> bool {
    let name = format!("Server: {NAME}");
    let answer = answer_of(address, Instant::now() + PATIENCE);
    answer.is_ok_and(|answer| answer.lines().any(|line| line.eq_ignore_ascii_case(&name)))
}

/// What whoever listens there answers, if all of it comes in time.
fn answer_of(address: SocketAddr, deadline: Instant) -> io::Result<String> {
    // A time limit of nothing would be none at all.
    let left = || deadline.saturating_duration_since(Instant::now()).max(Duration::from_millis(1));
    let mut stream = TcpStream::connect_timeout(&address, left())?;
    stream.set_write_timeout(Some(left()))?;
    stream
        .write_all(format!("HEAD / HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n").as_bytes())?;
    let (mut answer, mut part) = (Vec::new(), [0; 512]);
    while answer.len() < MOST_SAID && Instant::now() < deadline {
        stream.set_read_timeout(Some(left()))?;
        let length = stream.read(&mut part)?;
        if length == 0 {
            return Ok(String::from_utf8_lossy(&answer).into_owned());
        }
        answer.extend_from_slice(&part[..length]);
    }
    Err(ErrorKind::TimedOut.into())
}

#[cfg(test)]
mod tests {
    use super::super::server::Server;
    use super::super::site::Site;
    use super::*;

    #[test]
    fn a_free_port_is_opened() {
        assert!(matches!(open("127.0.0.1:0".parse().unwrap()), Ok(Opened::Free(_))));
    }

    #[test]
    fn itself_is_recognized() {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let server = Server::start(listener, Site::default()).unwrap();
        let Ok(Opened::AlreadyRunning(url)) = open(server.address()) else { panic!("not recognized") };
        assert_eq!(url, server.url());
    }

    #[test]
    fn another_program_is_named_as_such() {
        let other = TcpListener::bind("127.0.0.1:0").unwrap();
        let address = other.local_addr().unwrap();
        let greeter = std::thread::spawn(move || other.accept().unwrap().0.write_all(b"220 hello\r\n"));
        let trouble = open(address).unwrap_err();
        assert!(trouble.what.contains("is taken") && trouble.remedy.contains("--port"), "{trouble}");
        greeter.join().unwrap().unwrap();
    }

    #[test]
    fn who_talks_on_and_on_is_not_listened_to_for_long() {
        let other = TcpListener::bind("127.0.0.1:0").unwrap();
        let address = other.local_addr().unwrap();
        let talker = std::thread::spawn(move || {
            let mut caller = other.accept().unwrap().0;
            // Ends when nobody listens any more.
            while caller.write_all(b"220 hello\r\n").is_ok() {
                std::thread::sleep(PATIENCE / 10);
            }
        });
        let start = Instant::now();
        assert!(open(address).unwrap_err().what.contains("is taken"));
        assert!(start.elapsed() < PATIENCE * 2, "{:?}", start.elapsed());
        talker.join().unwrap();
    }
}
