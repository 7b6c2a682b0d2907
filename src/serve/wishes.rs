//! What the headers of a request ask for: a coding, news only, a part.

use super::stock::Form;
use axum::http::HeaderMap;
use axum::http::header::{ACCEPT_ENCODING, HeaderName, IF_NONE_MATCH, IF_RANGE, RANGE};
use http_range_header::{RangeUnsatisfiableError, parse_range_header};
use std::ops::Range;

/// Whether gzip is welcome.
pub(super) fn reads_gzip(headers: &HeaderMap) -> bool {
    items(headers, ACCEPT_ENCODING).any(|item| {
        let (coding, quality) = item.split_once(';').unwrap_or((item, "q=1"));
        let quality = quality.trim().strip_prefix("q=").and_then(|quality| quality.parse::<f32>().ok());
        coding.trim().eq_ignore_ascii_case("gzip") && quality.is_some_and(|quality| quality > 0.0)
    })
}

/// Whether the visitor has this form already.
pub(super) fn has(headers: &HeaderMap, form: &Form) -> bool {
    items(headers, IF_NONE_MATCH).any(|tag| tag == "*" || tag.trim_start_matches("W/") == form.tag)
}

/// The part that is asked for, or nothing if it is the whole. More parts at once, or a part of another version, are
/// answered with the whole, which is always allowed.
///
/// # Errors
/// If the form has no such bytes.
pub(super) fn part(headers: &HeaderMap, form: &Form) -> Result<Option<Range<usize>>, OutOfRange> {
    let is_of_this = headers.get(IF_RANGE).is_none_or(|tag| tag == form.tag.as_str());
    let range = headers.get(RANGE).filter(|_| is_of_this).and_then(|range| range.to_str().ok());
    let Some(Ok(ranges)) = range.map(parse_range_header) else { return Ok(None) };
    match ranges.validate(form.bytes.len() as u64).as_deref() {
        Ok([part]) => Ok(Some(*part.start() as usize..*part.end() as usize + 1)),
        Err(RangeUnsatisfiableError::Unsatisfiable) => Err(OutOfRange),
        _ => Ok(None),
    }
}

/// A part was asked for that lies behind the end.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct OutOfRange;

/// The items of a header that is a list, however many lines it has. None of the tags has a comma in it.
fn items(headers: &HeaderMap, name: HeaderName) -> impl Iterator<Item = &str> {
    let lines = headers.get_all(name).into_iter().filter_map(|line| line.to_str().ok());
    lines.flat_map(|line| line.split(',')).map(str::trim)
}
