//! A web server for a [`Site`] in memory: GET and HEAD over plain sockets, one thread and one request per
//! connection, stopped when dropped.

use super::site::{POLICY, Site, media_type};
use std::io::{self, ErrorKind, Read, Write};
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, SocketAddr, TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

/// What the server calls itself, by which another Dappledome recognizes it.
pub const NAME: &str = "dappledome";

/// The longest request head that is read, bytes.
const MOST_HEAD: usize = 16 * 1024;
/// How long a client may take to send its request, and to take each part of the answer.
const PATIENCE: Duration = Duration::from_secs(5);

/// A site being handed out. Dropping it stops it.
#[derive(Debug)]
pub struct Server {
    address: SocketAddr,
    stop: Arc<AtomicBool>,
    door: Option<JoinHandle<()>>,
}

impl Server {
    /// Hands out a site to whoever comes to this listener.
    ///
    /// # Errors
    /// If the listener has no address any more.
    pub fn start(listener: TcpListener, site: Site) -> io::Result<Self> {
        let address = listener.local_addr()?;
        let stop = Arc::new(AtomicBool::new(false));
        let stopped = Arc::clone(&stop);
        let site = Arc::new(site);
        let door = thread::spawn(move || {
            for visitor in listener.incoming() {
                if stopped.load(Ordering::SeqCst) {
                    break;
                }
                let (site, stopped) = (Arc::clone(&site), Arc::clone(&stopped));
                let attended = visitor.and_then(|visitor| {
                    // A visitor who hangs up early is no fault of ours, and nothing is left to tell it.
                    thread::Builder::new().spawn(move || drop(attend(visitor, &site, address, &stopped)))
                });
                if attended.is_err() {
                    // More visitors than the system has room for: let some finish first.
                    thread::sleep(Duration::from_millis(50));
                }
            }
        });
        Ok(Self { address, stop, door: Some(door) })
    }

    /// Where it listens.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// The address to type into a browser on this machine.
    pub fn url(&self) -> String {
        format!("http://{}/", reachable(self.address))
    }

    /// Goes on handing out until the program is ended.
    pub fn run(mut self) {
        if let Some(door) = self.door.take() {
            drop(door.join());
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::SeqCst);
        if let Some(door) = self.door.take() {
            // The door sleeps until somebody comes: come.
            drop(TcpStream::connect_timeout(&reachable(self.address), PATIENCE));
            drop(door.join());
        }
    }
}

/// An address that leads to a listener, also where it listens on every interface.
pub(super) fn reachable(mut address: SocketAddr) -> SocketAddr {
    if address.ip().is_unspecified() {
        address.set_ip(match address.ip() {
            IpAddr::V4(_) => Ipv4Addr::LOCALHOST.into(),
            IpAddr::V6(_) => Ipv6Addr::LOCALHOST.into(),
        });
    }
    address
}

/// Reads one request and answers it.
fn attend(mut visitor: TcpStream, site: &Site, address: SocketAddr, stopped: &AtomicBool) -> io::Result<()> {
    visitor.set_read_timeout(Some(PATIENCE))?;
    visitor.set_write_timeout(Some(PATIENCE))?;
    let head = read_head(&mut visitor);
    if stopped.load(Ordering::SeqCst) {
        // Browsers connect ahead of time: who came before the end and asks after it gets no answer.
        return Ok(());
    }
    let (answer, with_body) = match head {
        Ok(head) => (respond(&head, site, address), !head.starts_with("HEAD ")),
        Err(fault) if fault.kind() == ErrorKind::InvalidData => (Answer::plain(BAD_REQUEST), true),
        Err(fault) => return Err(fault),
    };
    answer.send(&mut visitor, with_body)
}

/// The request line and the headers.
fn read_head(visitor: &mut TcpStream) -> io::Result<String> {
    let start = Instant::now();
    let mut head = Vec::new();
    let mut part = [0; 2048];
    while !head.windows(4).any(|four| four == b"\r\n\r\n") {
        if start.elapsed() > PATIENCE {
            return Err(ErrorKind::TimedOut.into());
        }
        let length = visitor.read(&mut part)?;
        if length == 0 {
            return Err(ErrorKind::UnexpectedEof.into());
        }
        head.extend(&part[..length]);
        if head.len() > MOST_HEAD {
            return Err(ErrorKind::InvalidData.into());
        }
    }
    String::from_utf8(head).map_err(|_| ErrorKind::InvalidData.into())
}

const BAD_REQUEST: &str = "400 Bad Request";

/// An answer before it is sent.
struct Answer<'a> {
    status: &'static str,
    kind: &'static str,
    /// One more header, with its line end.
    extra: String,
    body: &'a [u8],
}

impl Answer<'_> {
    /// An answer that is no file: its status is all it says.
    fn plain(status: &'static str) -> Self {
        Answer { status, kind: media_type(".txt"), extra: String::new(), body: status.as_bytes() }
    }

    fn send(&self, visitor: &mut TcpStream, with_body: bool) -> io::Result<()> {
        let Self { status, kind, extra, body } = self;
        let length = body.len();
        let head = format!(
            "HTTP/1.1 {status}\r\nServer: {NAME}\r\nConnection: close\r\nContent-Type: {kind}\r\n\
            Content-Length: {length}\r\n{extra}Content-Security-Policy: {POLICY}; frame-ancestors 'none'\r\n\
            X-Content-Type-Options: nosniff\r\nReferrer-Policy: no-referrer\r\n\
            Cross-Origin-Opener-Policy: same-origin\r\nCross-Origin-Resource-Policy: same-origin\r\n\r\n"
        );
        visitor.write_all(head.as_bytes())?;
        if with_body {
            visitor.write_all(body)?;
        }
        visitor.flush()
    }
}

/// What to answer to a request.
fn respond<'a>(head: &str, site: &'a Site, address: SocketAddr) -> Answer<'a> {
    let mut lines = head.split("\r\n");
    let mut request = lines.next().unwrap_or_default().split(' ');
    let (Some(method), Some(target), Some("HTTP/1.1" | "HTTP/1.0"), None) =
        (request.next(), request.next(), request.next(), request.next())
    else {
        return Answer::plain(BAD_REQUEST);
    };
    let host = lines.find_map(|line| {
        let (name, value) = line.split_once(':')?;
        name.eq_ignore_ascii_case("host").then(|| value.trim())
    });
    if address.ip().is_loopback() && !host.is_some_and(is_this_machine) {
        // Another name that leads here is a foreign page reaching in by way of its own name server.
        return Answer::plain("421 Misdirected Request");
    }
    if !matches!(method, "GET" | "HEAD") {
        return Answer { extra: "Allow: GET, HEAD\r\n".into(), ..Answer::plain("405 Method Not Allowed") };
    }
    file(target, site)
}

/// Whether a Host header names this machine itself.
fn is_this_machine(host: &str) -> bool {
    let without_port = match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|byte| byte.is_ascii_digit()) => name,
        _ => host,
    };
    let name = without_port.trim_start_matches('[').trim_end_matches(']');
    name.eq_ignore_ascii_case("localhost") || name.parse().is_ok_and(|ip: IpAddr| ip.is_loopback())
}

/// The file that a target names; a folder gives its `index.html`.
fn file<'a>(target: &str, site: &'a Site) -> Answer<'a> {
    let path = target.split(['?', '#']).next().unwrap_or_default().trim_start_matches('/');
    let is_folder = path.is_empty() || path.ends_with('/');
    let name = if is_folder { format!("{path}index.html") } else { path.to_owned() };
    if let Some(body) = site.get(&name) {
        // A file in a hashed folder never changes; everything else is asked for again.
        let caching = if hashed(&name) { "max-age=31536000, immutable" } else { "no-cache" };
        let extra = format!("Cache-Control: {caching}\r\n");
        return Answer { status: "200 OK", kind: media_type(&name), extra, body };
    }
    if !is_folder && site.get(&format!("{path}/index.html")).is_some() {
        // Relative links in it need the slash. `path` is a key of the site, so it is safe in a header.
        return Answer { extra: format!("Location: /{path}/\r\n"), ..Answer::plain("301 Moved Permanently") };
    }
    Answer::plain("404 Not Found")
}

/// Whether a file lies in a folder named after its contents.
fn hashed(name: &str) -> bool {
    name.split('/').any(|folder| folder.starts_with(super::bundle::HASHED_FOLDER))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shop() -> Server {
        let mut site = Site::default();
        site.insert("index.html", "<p>hello</p>");
        site.insert("app-12/page.wasm", vec![0; 100_000]);
        site.insert("service_worker.js", "0");
        let site_below = site.clone().under("a/b");
        for (path, bytes) in site_below.iter() {
            site.insert(path, bytes);
        }
        Server::start(TcpListener::bind("127.0.0.1:0").unwrap(), site).unwrap()
    }

    fn say(server: &Server, request: &[u8]) -> String {
        let mut stream = TcpStream::connect(server.address()).unwrap();
        stream.write_all(request).unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        String::from_utf8(answer).unwrap()
    }

    fn get(server: &Server, path: &str) -> String {
        say(server, format!("GET {path} HTTP/1.1\r\nHost: localhost\r\n\r\n").as_bytes())
    }

    #[test]
    fn a_file_comes_with_its_type_and_the_rules() {
        let server = shop();
        let answer = get(&server, "/?x=1");
        assert!(answer.starts_with("HTTP/1.1 200 OK\r\n") && answer.ends_with("\r\n\r\n<p>hello</p>"));
        for header in [
            "Content-Type: text/html; charset=utf-8",
            "Content-Length: 12",
            "Cache-Control: no-cache",
            "Connection: close",
            "X-Content-Type-Options: nosniff",
            "script-src 'self' 'wasm-unsafe-eval';",
        ] {
            assert!(answer.contains(header), "{header} is missing in {answer}");
        }
        let wasm = get(&server, "/app-12/page.wasm");
        assert!(wasm.contains("Content-Type: application/wasm\r\n") && wasm.contains("immutable\r\n"));
        assert_eq!(wasm.split_once("\r\n\r\n").unwrap().1.len(), 100_000);
    }

    #[test]
    fn the_service_worker_is_asked_for_anew() {
        // Kept by browsers for a year, an old version would never learn of a newer one.
        let server = shop();
        for path in ["/service_worker.js", "/a/b/service_worker.js"] {
            let answer = get(&server, path);
            assert!(answer.contains("Content-Type: text/javascript; charset=utf-8\r\n"), "{answer}");
            assert!(answer.contains("Cache-Control: no-cache\r\n"), "{answer}");
        }
    }

    #[test]
    fn head_gives_no_body_and_other_methods_are_refused() {
        let server = shop();
        let head = say(&server, b"HEAD / HTTP/1.1\r\nHost: 127.0.0.1:80\r\n\r\n");
        assert!(head.contains("Content-Length: 12\r\n") && head.ends_with("\r\n\r\n"));
        let post = say(&server, b"POST / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n");
        assert!(post.starts_with("HTTP/1.1 405") && post.contains("Allow: GET, HEAD\r\n"));
    }

    #[test]
    fn folders_lead_to_their_page_and_nothing_leads_out() {
        let server = shop();
        assert!(get(&server, "/a/b").contains("Location: /a/b/\r\n"));
        assert!(get(&server, "/a/b/").ends_with("<p>hello</p>"));
        for path in ["/none", "/../Cargo.toml", "/a/../index.html", "/%2e%2e/Cargo.toml"] {
            assert!(get(&server, path).starts_with("HTTP/1.1 404"), "{path}");
        }
    }

    #[test]
    fn only_names_of_this_machine_are_answered() {
        let server = shop();
        for host in ["localhost", "LOCALHOST:8317", "127.0.0.1", "[::1]:8317", "[::1]"] {
            let answer = say(&server, format!("GET / HTTP/1.1\r\nhost: {host}\r\n\r\n").as_bytes());
            assert!(answer.starts_with("HTTP/1.1 200"), "{host}");
        }
        for request in ["GET / HTTP/1.1\r\nHost: evil.example\r\n\r\n", "GET / HTTP/1.1\r\n\r\n"] {
            assert!(say(&server, request.as_bytes()).starts_with("HTTP/1.1 421"), "{request}");
        }
    }

    #[test]
    fn nonsense_is_refused() {
        let server = shop();
        for request in [&b"\r\n\r\n"[..], b"GET /\r\n\r\n", b"GET / / HTTP/1.1\r\n\r\n", b"\xff\xff\r\n\r\n"]
        {
            assert!(say(&server, request).starts_with("HTTP/1.1 400"), "{request:?}");
        }
        // Exactly as many reads as it takes to pass the limit, so that nothing is left unread.
        assert!(say(&server, &[b'x'; MOST_HEAD + 2048]).starts_with("HTTP/1.1 400"));
    }

    #[test]
    fn dropping_it_frees_the_port() {
        let server = shop();
        let address = server.address();
        let mut early = TcpStream::connect(address).unwrap();
        // Let it in before the door closes.
        thread::sleep(Duration::from_millis(100));
        drop(server);
        early.write_all(b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n").unwrap();
        let mut answer = Vec::new();
        let _ = early.read_to_end(&mut answer);
        assert!(answer.is_empty(), "nobody is answered after the end");
        TcpListener::bind(address).expect("the port is free again");
    }
}
