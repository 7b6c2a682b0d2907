//! Every change there is: what cargo mutants lists, and the numbers with a point in them.

use super::FOLDERS;
use serde::Deserialize;
use std::path::Path;
use std::process::Command;
use std::{error, fs, io};

/// A change to one stretch of one file.
#[derive(Deserialize)]
pub struct Change {
    /// Where it is and what it does.
    pub name: String,
    /// The file, from the folder of the package.
    pub file: String,
    span: Span,
    /// What comes instead.
    replacement: String,
    genre: String,
}

#[derive(Deserialize)]
struct Span {
    start: Place,
    end: Place,
}

/// Counted from 1; columns in characters.
#[derive(Deserialize)]
struct Place {
    line: usize,
    column: usize,
}

/// All changes of all folders, in the order of the files.
pub fn all() -> Result<Vec<Change>, Box<dyn error::Error>> {
    let mut list = Command::new("cargo");
    list.args(["mutants", "--workspace", "--list", "--json"]);
    for folder in FOLDERS {
        list.args(["--file", &format!("src/{folder}/**")]);
    }
    let said = list.output()?;
    if !said.status.success() {
        return Err(String::from_utf8_lossy(&said.stderr).into());
    }
    let mut all: Vec<Change> = serde_json::from_slice(&said.stdout)?;
    // Names stand in quotes in the table.
    all.iter_mut().for_each(|change| change.name = change.name.replace('"', "'"));
    for folder in FOLDERS {
        for file in sources(&Path::new("src").join(folder))? {
            all.extend(numbers(&file, &fs::read_to_string(&file)?));
        }
    }
    Ok(all)
}

/// The files of a folder and those in it, by name.
fn sources(folder: &Path) -> io::Result<Vec<String>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            files.extend(sources(&path)?);
        } else {
            files.push(path.to_string_lossy().into_owned());
        }
    }
    files.sort();
    Ok(files)
}

/// Each number with a point in a file's code, its tests and comments left out, made a tenth larger; nought made a tenth.
fn numbers(file: &str, text: &str) -> Vec<Change> {
    let mut changes = Vec::new();
    for (at, line) in text.lines().enumerate().take_while(|(_, line)| !line.contains("#[cfg(test)]")) {
        let code = line.split("//").next().unwrap_or_default();
        let mut from = 0;
        while let Some((start, end)) = number(code, from) {
            from = end;
            let old = &code[start..end];
            let value: f64 = old.replace('_', "").parse().unwrap_or(0.0);
            let new = if value == 0.0 { 0.1 } else { value * 1.1 };
            let column = |byte: usize| code[..byte].chars().count() + 1;
            let place = |byte| Place { line: at + 1, column: column(byte) };
            changes.push(Change {
                name: format!("{file}:{}:{}: replace {old} with {new:?}", at + 1, column(start)),
                file: file.into(),
                span: Span { start: place(start), end: place(end) },
                replacement: format!("{new:?}"),
                genre: "Number".into(),
            });
        }
    }
    changes
}

/// The next number with a point in a line of code, from this byte on: where it starts and ends.
fn number(code: &str, from: usize) -> Option<(usize, usize)> {
    let bytes = code.as_bytes();
    let digit = |at: usize| bytes.get(at).is_some_and(|byte| byte.is_ascii_digit() || *byte == b'_');
    let part_of_a_name =
        |at: usize| bytes[at].is_ascii_alphanumeric() || bytes[at] == b'_' || bytes[at] == b'.';
    let mut start = from;
    while start < bytes.len() {
        let begins = bytes[start].is_ascii_digit() && (start == 0 || !part_of_a_name(start - 1));
        let mut end = start;
        while digit(end) {
            end += 1;
        }
        if begins && bytes.get(end) == Some(&b'.') && digit(end + 1) {
            end += 1;
            while digit(end) {
                end += 1;
            }
            if bytes.get(end) == Some(&b'e') {
                end += 2;
                while digit(end) {
                    end += 1;
                }
            }
            return Some((start, end));
        }
        start = if end > start { end } else { start + 1 };
    }
    None
}

impl Change {
    /// The folder it is in.
    pub fn folder(&self) -> &str {
        self.file.split('/').nth(1).unwrap_or_default()
    }

    /// What kind of change it is.
    pub fn kind(&self) -> &str {
        &self.genre
    }

    /// Whether it is a number made larger.
    pub fn is_number(&self) -> bool {
        self.genre == "Number"
    }

    /// The file's text with it made. None if it does not fit the text.
    pub fn made(&self, text: &str) -> Option<String> {
        let (start, end) = (self.span.start.byte(text)?, self.span.end.byte(text)?);
        Some(format!("{}{}{}", text.get(..start)?, self.replacement, text.get(end..)?))
    }
}

impl Place {
    fn byte(&self, text: &str) -> Option<usize> {
        let start: usize = text.split_inclusive('\n').take(self.line - 1).map(str::len).sum();
        let into = text[start..].char_indices().nth(self.column - 1)?;
        Some(start + into.0)
    }
}
