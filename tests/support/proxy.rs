//! A proxy that lets nothing through and writes down who is called. A browser bypasses it for addresses of this
//! machine, so every line is a request that would have left it, those of workers included.

use std::collections::BTreeSet;
use std::io::Read;
use std::net::{SocketAddr, TcpListener};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::Duration;

/// The proxy. It listens until the tests end.
#[derive(Clone, Debug)]
pub struct Proxy {
    address: SocketAddr,
    called: Arc<Mutex<BTreeSet<String>>>,
}

impl Proxy {
    /// Starts to listen.
    pub fn start() -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let address = listener.local_addr().unwrap();
        let called = Arc::new(Mutex::new(BTreeSet::new()));
        let list = Arc::clone(&called);
        thread::spawn(move || {
            for mut caller in listener.incoming().flatten() {
                let list = Arc::clone(&list);
                thread::spawn(move || {
                    let mut head = [0; 4096];
                    caller.set_read_timeout(Some(Duration::from_secs(5))).unwrap();
                    let length = caller.read(&mut head).unwrap_or(0);
                    if let Some(host) = host_of(&String::from_utf8_lossy(&head[..length])) {
                        list.lock().unwrap().insert(host);
                    }
                });
            }
        });
        Self { address, called }
    }

    /// Where it listens, for the browser.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// The hosts called so far.
    pub fn called(&self) -> BTreeSet<String> {
        self.called.lock().unwrap().clone()
    }
}

/// The host in `CONNECT host:443 HTTP/1.1` or `GET http://host/path HTTP/1.1`.
fn host_of(head: &str) -> Option<String> {
    let target = head.split(' ').nth(1)?;
    let authority = target.split_once("://").map_or(target, |(_, rest)| rest);
    authority.split(['/', ':']).next().map(str::to_owned)
}
