//! Connections: how many at a time, how long each may take, and how they end.

use axum::Router;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use std::io;
use std::pin::pin;
use std::sync::Arc;
use std::time::Duration;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::watch::Receiver;
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio::time::{sleep, timeout};

/// The longest request head that is read, bytes.
pub(super) const MOST_HEAD: usize = 16 * 1024;

/// What visitors may ask of a server.
#[derive(Clone, Copy, Debug)]
pub(super) struct Limits {
    /// Connections at a time. Who comes later waits for a place.
    pub connections: u32,
    /// How long a connection may say nothing, or take to say what it wants.
    pub patience: Duration,
    /// How long a connection is kept, busy or not: nobody holds a place for good.
    pub longest: Duration,
    /// How long an answer may go on after its connection's time, or the server's, is over.
    pub grace: Duration,
}

impl Limits {
    pub(super) const USUAL: Self = Self {
        connections: 128,
        patience: Duration::from_secs(5),
        longest: Duration::from_secs(60),
        grace: Duration::from_secs(2),
    };
}

/// Lets visitors in until `closing` has no sender any more, and returns once all have left.
pub(super) async fn welcome(door: TcpListener, answers: Router, limits: Limits, mut closing: Receiver<()>) {
    let places = Arc::new(Semaphore::new(limits.connections as usize));
    loop {
        let next = tokio::select! {
            next = next(&door, &places) => next,
            _ = closing.changed() => break,
        };
        match next {
            Ok((visitor, place)) => {
                let attended = attend(visitor, answers.clone(), limits, closing.clone());
                tokio::spawn(async move {
                    attended.await;
                    drop(place);
                });
            }
            // More visitors than the system has room for: let some finish first.
            Err(_) => sleep(Duration::from_millis(50)).await,
        }
    }
    drop(door);
    // All places are free once everybody has left.
    drop(places.acquire_many(limits.connections).await);
}

/// The next visitor for whom there is a place.
async fn next(door: &TcpListener, places: &Arc<Semaphore>) -> io::Result<(TcpStream, OwnedSemaphorePermit)> {
    let place = Arc::clone(places).acquire_owned().await.map_err(io::Error::other)?;
    let (visitor, _) = door.accept().await?;
    visitor.set_nodelay(true)?;
    Ok((visitor, place))
}

/// Answers the requests of one connection.
async fn attend(visitor: TcpStream, answers: Router, limits: Limits, mut closing: Receiver<()>) {
    let mut connection = pin!(
        http1::Builder::new()
            .timer(TokioTimer::new())
            .header_read_timeout(limits.patience)
            .max_buf_size(MOST_HEAD)
            .title_case_headers(true)
            .serve_connection(TokioIo::new(visitor), TowerToHyperService::new(answers))
    );
    tokio::select! {
        // A visitor who hangs up early is no fault of ours, and nothing is left to tell it.
        _ = connection.as_mut() => return,
        _ = closing.changed() => {}
        () = sleep(limits.longest) => {}
    }
    connection.as_mut().graceful_shutdown();
    drop(timeout(limits.grace, connection).await);
}

#[cfg(test)]
mod tests {
    use super::super::visit::{connect, get, read_one, say, shop, shop_within};
    use super::*;
    use std::io::{ErrorKind, Read, Write};
    use std::time::Instant;

    const ASK: &[u8] = b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n";
    const SOON: Duration = Duration::from_millis(300);

    #[test]
    fn one_connection_serves_many_requests() {
        let server = shop();
        let mut stream = connect(&server);
        for _ in 0..3 {
            stream.write_all(ASK).unwrap();
            let answer = read_one(&mut stream);
            assert!(
                answer.starts_with("HTTP/1.1 200 OK\r\n") && answer.ends_with("<p>hello</p>"),
                "{answer}"
            );
            assert!(!answer.contains("Connection: close"), "{answer}");
        }
    }

    #[test]
    fn nonsense_is_refused() {
        let server = shop();
        for request in [&b"GET /\r\n\r\n"[..], b"GET / / HTTP/1.1\r\n\r\n", b"\xff\xff\r\n\r\n"] {
            assert!(say(&server, request).starts_with(b"HTTP/1.1 400"), "{request:?}");
        }
        // Exactly what is read, so that nothing is left unread.
        assert!(say(&server, &[b'x'; MOST_HEAD]).starts_with(b"HTTP/1.1 4"));
    }

    #[test]
    fn the_silent_and_the_slow_are_cut_off() {
        let server = shop_within(Limits { patience: SOON, ..Limits::USUAL });
        for start in [&b""[..], b"\r\n\r\n", b"GET / HT"] {
            let began = Instant::now();
            assert_eq!(say(&server, start), b"", "{start:?}");
            assert!(began.elapsed() >= SOON, "{start:?}");
        }
        // A byte now and then does not help.
        let mut stream = connect(&server);
        let began = Instant::now();
        while stream.write_all(b"x").is_ok() {
            assert!(began.elapsed() < 20 * SOON, "it is still listened to");
            std::thread::sleep(SOON / 5);
        }
        // Nor does having asked before.
        let mut stream = connect(&server);
        stream.write_all(ASK).unwrap();
        read_one(&mut stream);
        assert_eq!(stream.read(&mut [0]).unwrap(), 0);
    }

    #[test]
    fn nobody_stays_for_good() {
        let server = shop_within(Limits { longest: SOON, ..Limits::USUAL });
        let began = Instant::now();
        let mut stream = connect(&server);
        let mut answers = 0;
        // Who asks again and again is told to go, or finds the door closed.
        while stream.write_all(ASK).is_ok() && stream.peek(&mut [0]).is_ok_and(|length| length > 0) {
            let answer = read_one(&mut stream);
            assert!(began.elapsed() < 20 * SOON, "{answer}");
            answers += 1;
        }
        assert!(answers > 1 && began.elapsed() >= SOON);
    }

    #[test]
    fn who_does_not_take_the_answer_is_cut_off() {
        let limits = Limits { longest: SOON, grace: SOON, ..Limits::USUAL };
        let server = shop_within(limits);
        let mut stream = connect(&server);
        // More answers than the system stores on the way.
        let ask = b"GET /app-12/page.wasm HTTP/1.1\r\nHost: localhost\r\n\r\n";
        let many = ask.repeat(1000);
        stream.set_write_timeout(Some(Duration::from_secs(20))).unwrap();
        let fault = (0..).find_map(|_| stream.write_all(&many).err()).unwrap();
        assert_ne!(fault.kind(), ErrorKind::WouldBlock, "it is still waited for");
    }

    #[test]
    fn who_finds_no_place_waits_for_one() {
        let server = shop_within(Limits { connections: 2, ..Limits::USUAL });
        let mut inside = [connect(&server), connect(&server)];
        for stream in &mut inside {
            stream.write_all(ASK).unwrap();
            read_one(stream);
        }
        let mut waiting = connect(&server);
        waiting.write_all(ASK).unwrap();
        waiting.set_read_timeout(Some(SOON)).unwrap();
        assert_eq!(waiting.read(&mut [0]).unwrap_err().kind(), ErrorKind::WouldBlock, "there is no place");
        // The others are still served.
        inside[0].write_all(ASK).unwrap();
        read_one(&mut inside[0]);
        drop(inside);
        waiting.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
        assert!(read_one(&mut waiting).ends_with("<p>hello</p>"));
    }

    #[test]
    fn all_places_taken_by_the_silent_come_free() {
        let server = shop_within(Limits { connections: 2, patience: SOON, ..Limits::USUAL });
        let _silent = [connect(&server), connect(&server)];
        assert!(get(&server, "/").ends_with("<p>hello</p>"));
    }
}
