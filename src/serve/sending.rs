//! A file as an answer: as much of it as is asked for and not there yet.

use super::stock::{File, Form};
use super::wishes::{OutOfRange, has, part, reads_gzip};
use axum::http::header::{self, HeaderMap};
use axum::http::{Method, StatusCode};
use axum::response::{IntoResponse, Response};
use std::ops::Range;

/// Answers with a file.
pub(super) fn send(file: &File, method: &Method, headers: &HeaderMap) -> Response {
    let form = file.form(reads_gzip(headers));
    let about = [
        (header::CACHE_CONTROL, file.caching),
        (header::ETAG, form.tag.as_str()),
        (header::VARY, "Accept-Encoding"),
    ];
    if has(headers, form) {
        return (StatusCode::NOT_MODIFIED, about).into_response();
    }
    // Only GET has parts.
    let part = if method == Method::GET { part(headers, form) } else { Ok(None) };
    let length = form.bytes.len();
    match part {
        Ok(None) => (about, contents(file, form, 0..length)).into_response(),
        Ok(Some(part)) => {
            let range = format!("bytes {}-{}/{length}", part.start, part.end - 1);
            let range = [(header::CONTENT_RANGE, range)];
            (StatusCode::PARTIAL_CONTENT, about, range, contents(file, form, part)).into_response()
        }
        Err(OutOfRange) => {
            let range = [(header::CONTENT_RANGE, format!("bytes */{length}"))];
            (StatusCode::RANGE_NOT_SATISFIABLE, range).into_response()
        }
    }
}

/// These bytes of a form, and what they are.
fn contents(file: &File, form: &Form, part: Range<usize>) -> impl IntoResponse {
    let kind = [(header::CONTENT_TYPE, file.media_type), (header::ACCEPT_RANGES, "bytes")];
    let coding = form.is_gzip.then_some([(header::CONTENT_ENCODING, "gzip")]);
    (kind, coding, form.bytes.slice(part))
}

#[cfg(test)]
mod tests {
    use super::super::visit::{ask, get_with, header, noise, shop};
    use flate2::read::GzDecoder;
    use std::io::Read;

    const WASM: &str = "/app-12/page.wasm";
    const GZIP: &str = "Accept-Encoding: gzip, br\r\n";

    #[test]
    fn what_is_there_already_is_not_sent_again() {
        let server = shop();
        for accept in ["", GZIP] {
            for path in ["/", WASM, "/picture.png"] {
                let (first, _) = get_with(&server, path, accept);
                let tag = header(&first, "Etag").unwrap();
                for known in [tag.to_owned(), format!("\"other\", W/{tag}"), "*".to_owned()] {
                    for method in ["GET", "HEAD"] {
                        let headers = format!("{accept}If-None-Match: {known}\r\n");
                        let (head, body) = ask(&server, method, path, &headers);
                        assert!(head.starts_with("HTTP/1.1 304") && body.is_empty(), "{head}");
                        for name in ["Etag", "Cache-Control", "Vary"] {
                            assert_eq!(header(&head, name), header(&first, name), "{name}");
                        }
                    }
                }
                let (head, body) = get_with(&server, path, "If-None-Match: \"other\"\r\n");
                assert!(head.starts_with("HTTP/1.1 200") && !body.is_empty(), "{head}");
            }
        }
    }

    #[test]
    fn other_contents_have_another_tag() {
        let server = shop();
        let tag = |path: &str| header(&get_with(&server, path, "").0, "Etag").unwrap().to_owned();
        assert_eq!(tag("/"), tag("/a/b/"));
        assert_ne!(tag("/"), tag("/service_worker.js"));
    }

    #[test]
    fn who_reads_gzip_gets_it() {
        let server = shop();
        let (plain, whole) = get_with(&server, WASM, "");
        let (head, body) = get_with(&server, WASM, GZIP);
        assert_eq!(header(&head, "Content-Encoding"), Some("gzip"));
        assert_eq!(header(&head, "Content-Length"), Some(body.len().to_string().as_str()));
        assert!(body.len() < 1000);
        let mut unpacked = Vec::new();
        GzDecoder::new(&body[..]).read_to_end(&mut unpacked).unwrap();
        assert_eq!(unpacked, whole);
        let (asked, _) = ask(&server, "HEAD", WASM, GZIP);
        assert_eq!(header(&asked, "Content-Length"), header(&head, "Content-Length"));
        // One address, two forms: a cache between must keep them apart.
        assert_ne!(header(&head, "Etag"), header(&plain, "Etag"));
        for head in [&head, &plain] {
            assert_eq!(header(head, "Vary"), Some("Accept-Encoding"));
            assert_eq!(header(head, "Content-Type"), Some("application/wasm"));
        }
    }

    #[test]
    fn gzip_is_for_those_who_read_it_and_files_that_shrink() {
        let server = shop();
        for accept in ["", "br", "gzip;q=0", "gzip; q=0.0, br", "identity"] {
            let (head, body) = get_with(&server, WASM, &format!("Accept-Encoding: {accept}\r\n"));
            assert_eq!((header(&head, "Content-Encoding"), body.len()), (None, 100_000), "{accept}");
        }
        for path in ["/picture.png", "/"] {
            assert_eq!(header(&get_with(&server, path, GZIP).0, "Content-Encoding"), None, "{path}");
        }
    }

    #[test]
    fn a_part_is_sent_where_one_is_asked_for() {
        let server = shop();
        let whole = noise(1000);
        for (asked, range) in [
            ("0-0", 0..1),
            ("10-19", 10..20),
            ("0-", 0..1000),
            ("990-", 990..1000),
            ("-7", 993..1000),
            ("-5000", 0..1000),
            ("500-9999", 500..1000),
        ] {
            let (head, body) = get_with(&server, "/picture.png", &format!("Range: bytes={asked}\r\n"));
            assert!(head.starts_with("HTTP/1.1 206 Partial Content\r\n"), "{asked}: {head}");
            let said = format!("bytes {}-{}/1000", range.start, range.end - 1);
            assert_eq!(header(&head, "Content-Range"), Some(said.as_str()), "{asked}");
            assert_eq!(body, whole[range], "{asked}");
        }
        for asked in ["1000-", "5000-6000", "-0"] {
            let (head, _) = get_with(&server, "/picture.png", &format!("Range: bytes={asked}\r\n"));
            assert!(head.starts_with("HTTP/1.1 416"), "{asked}: {head}");
            assert_eq!(header(&head, "Content-Range"), Some("bytes */1000"), "{asked}");
        }
    }

    #[test]
    fn the_whole_is_sent_where_no_one_part_of_it_is_asked_for() {
        let server = shop();
        let (head, _) = get_with(&server, "/picture.png", "");
        let tag = header(&head, "Etag").unwrap().to_owned();
        assert_eq!(header(&head, "Accept-Ranges"), Some("bytes"));
        for headers in [
            "Range: bytes=9-1\r\n",
            "Range: lines=1-2\r\n",
            "Range: bytes=0-1, 5-6\r\n",
            "Range: bytes=0-1\r\nIf-Range: \"older\"\r\n",
        ] {
            let (head, body) = get_with(&server, "/picture.png", headers);
            assert!(head.starts_with("HTTP/1.1 200") && body.len() == 1000, "{headers}: {head}");
        }
        let (head, body) =
            get_with(&server, "/picture.png", &format!("Range: bytes=0-1\r\nIf-Range: {tag}\r\n"));
        assert!(head.starts_with("HTTP/1.1 206") && body.len() == 2, "{head}");
        let (head, _) = ask(&server, "HEAD", "/picture.png", "Range: bytes=0-1\r\n");
        assert!(head.starts_with("HTTP/1.1 200"), "{head}");
        assert_eq!(header(&head, "Content-Length"), Some("1000"));
    }

    #[test]
    fn parts_are_parts_of_what_is_sent() {
        let server = shop();
        let (_, packed) = get_with(&server, WASM, GZIP);
        let (head, body) = get_with(&server, WASM, &format!("{GZIP}Range: bytes=3-5\r\n"));
        assert_eq!(header(&head, "Content-Encoding"), Some("gzip"));
        assert_eq!(body, packed[3..6]);
    }
}
