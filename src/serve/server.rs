//! A web server for a [`Site`] in memory, on a thread of its own, stopped when dropped.

use super::answers;
use super::host::reachable;
use super::site::Site;
use super::visitors::{Limits, welcome};
use std::io;
use std::net::{SocketAddr, TcpListener};
use std::thread::{self, JoinHandle};
use tokio::net::TcpListener as Door;
use tokio::runtime::Builder;
use tokio::sync::watch::{self, Sender};

/// A site being handed out. Dropping it stops it: what is being answered is answered, for a moment at most, and then
/// nobody is connected any more and the port is free.
#[derive(Debug)]
pub struct Server {
    address: SocketAddr,
    /// Visitors leave when it is gone.
    open: Option<Sender<()>>,
    thread: Option<JoinHandle<()>>,
}

impl Server {
    /// Hands out a site to whoever comes to this listener.
    ///
    /// # Errors
    /// If the listener has no address any more, or the system has no room for a server.
    pub fn start(listener: TcpListener, site: Site) -> io::Result<Self> {
        Self::start_within(listener, &site, Limits::USUAL)
    }

    pub(super) fn start_within(listener: TcpListener, site: &Site, limits: Limits) -> io::Result<Self> {
        let address = listener.local_addr()?;
        let answers = answers::to(site, address);
        listener.set_nonblocking(true)?;
        let runtime = Builder::new_current_thread().enable_all().build()?;
        let door = {
            let _inside = runtime.enter();
            Door::from_std(listener)?
        };
        let (open, closing) = watch::channel(());
        let thread = thread::Builder::new()
            .name("server".into())
            .spawn(move || runtime.block_on(welcome(door, answers, limits, closing)))?;
        Ok(Self { address, open: Some(open), thread: Some(thread) })
    }

    /// Where it listens.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// The address to type into a browser on this machine.
    pub fn url(&self) -> String {
        format!("http://{}/", reachable(self.address))
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        drop(self.open.take());
        if let Some(thread) = self.thread.take() {
            drop(thread.join());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::visit::{connect, noise, read_one, shop};
    use super::*;
    use std::io::{Read, Write};
    use std::net::TcpStream;
    use std::time::{Duration, Instant};

    const ASK: &[u8] = b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n";

    /// What comes after one more request.
    fn ask_again(mut stream: TcpStream) -> Vec<u8> {
        let mut answer = Vec::new();
        let _ = stream.write_all(ASK);
        let _ = stream.read_to_end(&mut answer);
        answer
    }

    #[test]
    fn dropping_it_frees_the_port() {
        let server = shop();
        let address = server.address();
        let early = connect(&server);
        let mut kept = connect(&server);
        kept.write_all(ASK).unwrap();
        read_one(&mut kept);
        // Let it in before the door closes.
        thread::sleep(Duration::from_millis(100));
        let began = Instant::now();
        drop(server);
        assert!(began.elapsed() < Duration::from_millis(500), "nothing was left to do");
        for stream in [early, kept] {
            assert!(ask_again(stream).is_empty(), "nobody is answered after the end");
        }
        TcpListener::bind(address).expect("the port is free again");
    }

    #[test]
    fn an_answer_that_has_begun_is_finished() {
        let length = 16 << 20;
        let mut site = Site::default();
        site.insert("large", noise(length));
        let server = Server::start(TcpListener::bind("127.0.0.1:0").unwrap(), site).unwrap();
        let mut stream = connect(&server);
        stream.write_all(b"GET /large HTTP/1.1\r\nHost: localhost\r\n\r\n").unwrap();
        let mut first = [0; 1000];
        stream.read_exact(&mut first).unwrap();
        let stopping = thread::spawn(move || drop(server));
        thread::sleep(Duration::from_millis(100));
        assert!(!stopping.is_finished(), "there is still something to send");
        let mut rest = Vec::new();
        stream.read_to_end(&mut rest).unwrap();
        assert!(first.len() + rest.len() > length);
        stopping.join().unwrap();
    }

    #[test]
    fn who_does_not_take_the_answer_holds_up_nobody() {
        let mut site = Site::default();
        site.insert("large", noise(16 << 20));
        let server = Server::start(TcpListener::bind("127.0.0.1:0").unwrap(), site).unwrap();
        let mut stream = connect(&server);
        stream.write_all(b"GET /large HTTP/1.1\r\nHost: localhost\r\n\r\n").unwrap();
        stream.read_exact(&mut [0; 1000]).unwrap();
        let began = Instant::now();
        drop(server);
        assert!(began.elapsed() < 2 * Limits::USUAL.grace, "{:?}", began.elapsed());
    }
}
