//! What is answered to a request, and what every answer says besides.

use super::host::is_this_machine;
use super::sending::send;
use super::site::{POLICY, Site};
use super::stock::Stock;
use axum::Router;
use axum::extract::{Request, State};
use axum::http::header::{self, HeaderMap};
use axum::http::{Method, StatusCode, Uri};
use axum::middleware::{Next, from_fn, map_response};
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use std::net::SocketAddr;
use std::sync::Arc;

/// What the server calls itself, by which another Dappledome recognizes it.
pub const NAME: &str = "dappledome";

/// What every answer says, faults included.
const RULES: [(&str, &str); 5] = [
    ("Server", NAME),
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
];

/// The answers of a site that is handed out at this address.
pub(super) fn to(site: &Site, address: SocketAddr) -> Router {
    let mut answers = Router::new().fallback(get(file)).with_state(Arc::new(Stock::of(site)));
    if address.ip().is_loopback() {
        answers = answers.layer(from_fn(refuse_foreign_names));
    }
    answers.layer(map_response(with_rules))
}

/// Adds the rules, and what a page may load.
async fn with_rules(answer: Response) -> impl IntoResponse {
    let policy = format!("{POLICY}; frame-ancestors 'none'");
    (RULES, [(header::CONTENT_SECURITY_POLICY, policy)], answer)
}

/// Answers nobody who calls this machine by another name: that is a foreign page reaching in by way of its own name
/// server.
async fn refuse_foreign_names(request: Request, next: Next) -> Response {
    let named = request.headers().get(header::HOST).and_then(|host| host.to_str().ok());
    let host = request.uri().authority().map(|authority| authority.as_str()).or(named);
    if host.is_some_and(is_this_machine) {
        next.run(request).await
    } else {
        plain(StatusCode::MISDIRECTED_REQUEST)
    }
}

/// The file that a request names; a folder gives its `index.html`.
async fn file(State(stock): State<Arc<Stock>>, method: Method, uri: Uri, headers: HeaderMap) -> Response {
    let path = uri.path().trim_start_matches('/');
    let is_folder = path.is_empty() || path.ends_with('/');
    let name = if is_folder { format!("{path}index.html") } else { path.to_owned() };
    if let Some(file) = stock.get(&name) {
        return send(file, &method, &headers);
    }
    if !is_folder && stock.get(&format!("{path}/index.html")).is_some() {
        // Relative links in it need the slash. `path` is a key of the site, so it is safe in a header.
        let location = [(header::LOCATION, format!("/{path}/"))];
        return (location, plain(StatusCode::MOVED_PERMANENTLY)).into_response();
    }
    plain(StatusCode::NOT_FOUND)
}

/// An answer that is no file: its status is all it says.
fn plain(status: StatusCode) -> Response {
    (status, status.to_string()).into_response()
}

#[cfg(test)]
mod tests {
    use super::super::visit::{ask, get, get_with, say, shop};

    #[test]
    fn a_file_comes_with_its_type_and_the_rules() {
        let server = shop();
        let answer = get(&server, "/?x=1");
        assert!(answer.starts_with("HTTP/1.1 200 OK\r\n") && answer.ends_with("\r\n\r\n<p>hello</p>"));
        for header in [
            "Content-Type: text/html; charset=utf-8",
            "Content-Length: 12",
            "Cache-Control: no-cache",
            "X-Content-Type-Options: nosniff",
            "script-src 'self' 'wasm-unsafe-eval';",
        ] {
            assert!(answer.contains(header), "{header} is missing in {answer}");
        }
        let (head, body) = get_with(&server, "/app-12/page.wasm", "");
        assert!(head.contains("Content-Type: application/wasm\r\n") && head.contains("immutable\r\n"));
        assert_eq!(body.len(), 100_000);
    }

    #[test]
    fn every_answer_says_the_rules() {
        let server = shop();
        for (status, method, path, headers) in [
            ("200", "GET", "/", ""),
            ("206", "GET", "/", "Range: bytes=1-\r\n"),
            ("301", "GET", "/a/b", ""),
            ("304", "GET", "/", "If-None-Match: *\r\n"),
            ("404", "GET", "/none", ""),
            ("405", "POST", "/", ""),
            ("416", "GET", "/", "Range: bytes=12-\r\n"),
        ] {
            let (head, _) = ask(&server, method, path, headers);
            assert!(head.starts_with(&format!("HTTP/1.1 {status} ")), "{head}");
            assert_rules(&head);
        }
        let foreign = say(&server, b"GET / HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n");
        let foreign = String::from_utf8(foreign).unwrap();
        assert!(foreign.starts_with("HTTP/1.1 421 "), "{foreign}");
        assert_rules(&foreign);
    }

    fn assert_rules(head: &str) {
        for rule in [
            "Server: dappledome\r\n",
            "Content-Security-Policy: default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; \
                img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; form-action 'none'; \
                frame-ancestors 'none'\r\n",
            "X-Content-Type-Options: nosniff\r\n",
            "Referrer-Policy: no-referrer\r\n",
            "Cross-Origin-Opener-Policy: same-origin\r\n",
            "Cross-Origin-Resource-Policy: same-origin\r\n",
        ] {
            assert_eq!(head.matches(rule).count(), 1, "{rule} in {head}");
        }
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
        let (head, body) = ask(&server, "HEAD", "/", "");
        assert!(head.contains("Content-Length: 12\r\n") && body.is_empty());
        let (post, _) = ask(&server, "POST", "/", "");
        assert!(post.starts_with("HTTP/1.1 405") && post.contains("Allow: GET,HEAD\r\n"), "{post}");
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
        let say = |head: &str| say(&server, format!("{head}Connection: close\r\n\r\n").as_bytes());
        for host in ["localhost", "LOCALHOST:8317", "127.0.0.1", "127.0.0.1:80", "[::1]:8317", "[::1]"] {
            let answer = say(&format!("GET / HTTP/1.1\r\nhost: {host}\r\n"));
            assert!(answer.starts_with(b"HTTP/1.1 200"), "{host}");
        }
        for head in [
            "GET / HTTP/1.1\r\nHost: evil.example\r\n",
            "GET / HTTP/1.1\r\n",
            "GET http://evil.example/ HTTP/1.1\r\nHost: localhost\r\n",
        ] {
            assert!(say(head).starts_with(b"HTTP/1.1 421"), "{head}");
        }
    }
}
