//! A static site held in memory: relative paths and their bytes, with the types and the rules a browser is told.

use super::trouble::Trouble;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// What the page may load: its own files and nothing else. `'wasm-unsafe-eval'` lets it compile its own
/// WebAssembly; `data:` and `blob:` are pictures that the page makes itself.
///
/// Sent as a header, for a rule in the page covers the page only and would leave its workers without one.
pub const POLICY: &str = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; \
    img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; form-action 'none'";

/// The files of a site by their path relative to its root, with `/` between folders.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Site {
    files: BTreeMap<String, Vec<u8>>,
}

impl Site {
    /// Adds a file, or replaces it.
    pub fn insert(&mut self, path: impl Into<String>, bytes: impl Into<Vec<u8>>) {
        self.files.insert(path.into(), bytes.into());
    }

    /// Takes a file out.
    pub fn remove(&mut self, path: &str) -> Option<Vec<u8>> {
        self.files.remove(path)
    }

    /// The bytes of a file.
    pub fn get(&self, path: &str) -> Option<&[u8]> {
        self.files.get(path).map(Vec::as_slice)
    }

    /// All files, by path.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &[u8])> {
        self.files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice()))
    }

    /// The same site further down: `under("some/folder")` turns `index.html` into `some/folder/index.html`.
    #[must_use]
    pub fn under(self, folder: &str) -> Self {
        let files = self.files.into_iter();
        Self { files: files.map(|(path, bytes)| (format!("{folder}/{path}"), bytes)).collect() }
    }

    /// A 64-bit FNV-1a hash of all paths and bytes.
    pub fn hash(&self) -> u64 {
        hash(self.files.iter().flat_map(|(path, bytes)| path.as_bytes().iter().chain(&[0]).chain(bytes)))
    }

    /// Bytes of all files, each compressed.
    pub fn compressed_bytes(&self) -> usize {
        self.files.values().map(|bytes| compressed_bytes(bytes)).sum()
    }

    /// Writes all files into a folder, which is made if it does not exist.
    ///
    /// # Errors
    /// If the folder or a file in it cannot be written.
    pub fn write_to(&self, folder: &Path) -> Result<(), Trouble> {
        for (path, bytes) in self.iter() {
            let file = folder.join(path);
            let parent = file.parent().unwrap_or(folder);
            fs::create_dir_all(parent).and_then(|()| fs::write(&file, bytes)).map_err(|fault| {
                Trouble::new(
                    format!("Cannot write {}.", file.display()),
                    format!("{fault}."),
                    "Choose a folder that you may write to, on a disk with room.",
                )
            })?;
        }
        Ok(())
    }
}

/// A 64-bit FNV-1a hash.
pub fn hash<'a>(bytes: impl IntoIterator<Item = &'a u8>) -> u64 {
    bytes.into_iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

/// Bytes of a file when it is compressed as a web server would, with gzip.
pub fn compressed_bytes(bytes: &[u8]) -> usize {
    /// What gzip puts around the compressed data: a header of 10 bytes and a trailer of 8.
    const WRAPPING: usize = 18;
    miniz_oxide::deflate::compress_to_vec(bytes, 9).len() + WRAPPING
}

/// The media type of a file, by the end of its name.
pub fn media_type(path: &str) -> &'static str {
    match path.rsplit_once('.').map_or("", |(_, end)| end) {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}
