//! The files of a site in every form in which they are sent, made once.

use super::bundle::HASHED_FOLDER;
use super::site::{Site, hash, media_type};
use axum::body::Bytes;
use flate2::Compression;
use flate2::write::GzEncoder;
use std::collections::BTreeMap;
use std::io::{self, Write};

/// The files by their path.
#[derive(Debug)]
pub(super) struct Stock(BTreeMap<String, File>);

/// A file, and what a browser is told about it in whichever form.
#[derive(Debug)]
pub(super) struct File {
    pub media_type: &'static str,
    pub caching: &'static str,
    plain: Form,
    compressed: Option<Form>,
}

/// Bytes to send, and the tag by which they are known again. No two forms share a tag.
#[derive(Debug)]
pub(super) struct Form {
    pub bytes: Bytes,
    pub tag: String,
    pub is_gzip: bool,
}

impl Stock {
    pub(super) fn of(site: &Site) -> Self {
        Self(site.iter().map(|(path, bytes)| (path.to_owned(), File::new(path, bytes))).collect())
    }

    pub(super) fn get(&self, path: &str) -> Option<&File> {
        self.0.get(path)
    }
}

impl File {
    fn new(path: &str, bytes: &[u8]) -> Self {
        let hash = hash(bytes);
        let compressed = gzip(bytes).ok().filter(|compressed| is_worth_it(compressed.len(), bytes.len()));
        Self {
            media_type: media_type(path),
            // A file in a hashed folder never changes; everything else is asked for again.
            caching: if is_hashed(path) { "max-age=31536000, immutable" } else { "no-cache" },
            plain: Form {
                bytes: Bytes::copy_from_slice(bytes),
                tag: format!("\"{hash:016x}\""),
                is_gzip: false,
            },
            compressed: compressed.map(|compressed| Form {
                bytes: compressed.into(),
                tag: format!("\"{hash:016x}-gzip\""),
                is_gzip: true,
            }),
        }
    }

    /// The smallest form that the visitor can read.
    pub(super) fn form(&self, reads_gzip: bool) -> &Form {
        self.compressed.as_ref().filter(|_| reads_gzip).unwrap_or(&self.plain)
    }
}

/// Whether a file lies in a folder named after its contents.
fn is_hashed(path: &str) -> bool {
    path.split('/').any(|folder| folder.starts_with(HASHED_FOLDER))
}

/// Pictures are compressed already, and very small files only grow.
fn is_worth_it(compressed: usize, plain: usize) -> bool {
    compressed * 10 < plain * 9
}

fn gzip(bytes: &[u8]) -> io::Result<Vec<u8>> {
    let mut gzip = GzEncoder::new(Vec::new(), Compression::best());
    gzip.write_all(bytes)?;
    gzip.finish()
}
