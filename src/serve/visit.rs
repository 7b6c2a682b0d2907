//! A server to visit and a visitor who writes requests by hand, for the tests of this folder.

use super::server::Server;
use super::site::Site;
use super::visitors::Limits;
use std::io::{Read, Write};
use std::net::{TcpListener, TcpStream};
use std::time::Duration;

/// Bytes that do not compress.
pub fn noise(length: usize) -> Vec<u8> {
    let numbers = (0..length as u64).map(|at| at.wrapping_mul(0x9e37_79b9_7f4a_7c15));
    numbers
        .map(|number| ((number ^ (number >> 29)).wrapping_mul(0xbf58_476d_1ce4_e5b9) >> 56) as u8)
        .collect()
}

/// A small site, at the root and in a folder.
fn site() -> Site {
    let mut site = Site::default();
    site.insert("index.html", "<p>hello</p>");
    site.insert("app-12/page.wasm", vec![0; 100_000]);
    site.insert("picture.png", noise(1000));
    site.insert("service_worker.js", "0");
    let site_below = site.clone().under("a/b");
    for (path, bytes) in site_below.iter() {
        site.insert(path, bytes);
    }
    site
}

/// A server of the small site.
pub fn shop() -> Server {
    shop_within(Limits::USUAL)
}

/// The same with limits of its own.
pub fn shop_within(limits: Limits) -> Server {
    Server::start_within(TcpListener::bind("127.0.0.1:0").unwrap(), &site(), limits).unwrap()
}

/// A connection. It fails a test rather than wait for ever.
pub fn connect(server: &Server) -> TcpStream {
    let stream = TcpStream::connect(server.address()).unwrap();
    stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
    stream
}

/// Sends a request and gives all that comes until the server hangs up.
pub fn say(server: &Server, request: &[u8]) -> Vec<u8> {
    let mut stream = connect(server);
    stream.write_all(request).unwrap();
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).unwrap();
    answer
}

/// Asks for a path with these headers, each with its line end, and gives the head and the body of the answer.
pub fn get_with(server: &Server, path: &str, headers: &str) -> (String, Vec<u8>) {
    ask(server, "GET", path, headers)
}

/// The same for any method.
pub fn ask(server: &Server, method: &str, path: &str, headers: &str) -> (String, Vec<u8>) {
    let request =
        format!("{method} {path} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n{headers}\r\n");
    let mut answer = say(server, request.as_bytes());
    let end = answer.windows(4).position(|four| four == b"\r\n\r\n").unwrap() + 4;
    let body = answer.split_off(end);
    (String::from_utf8(answer).unwrap(), body)
}

/// Asks for a path and gives the whole answer, which must be text.
pub fn get(server: &Server, path: &str) -> String {
    let (head, body) = get_with(server, path, "");
    head + std::str::from_utf8(&body).unwrap()
}

/// Reads one answer from a connection that stays open, as far as it says that it goes.
pub fn read_one(stream: &mut TcpStream) -> String {
    let mut answer = Vec::new();
    let mut byte = [0];
    while !answer.ends_with(b"\r\n\r\n") {
        stream.read_exact(&mut byte).unwrap();
        answer.push(byte[0]);
    }
    let head = String::from_utf8(answer).unwrap();
    let mut body = vec![0; header(&head, "Content-Length").unwrap().parse().unwrap()];
    stream.read_exact(&mut body).unwrap();
    head + std::str::from_utf8(&body).unwrap()
}

/// What a head says under a name.
pub fn header<'a>(head: &'a str, name: &str) -> Option<&'a str> {
    let mut headers = head.lines().filter_map(|line| line.split_once(": "));
    headers.find(|(found, _)| *found == name).map(|(_, value)| value)
}
