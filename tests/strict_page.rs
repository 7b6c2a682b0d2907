//! What the page's sources must not contain, for the browser's strict policy would refuse it or somebody else's
//! words could become markup.

use std::fs;
use std::path::{Path, PathBuf};

/// Never, in any file of the page.
const FORBIDDEN: [&str; 11] = [
    "innerHTML",
    "inner_html",
    "outerHTML",
    "outer_html",
    "insertAdjacentHTML",
    "insert_adjacent_html",
    "document.write",
    "eval(",
    "new Function",
    "javascript:",
    "@import",
];

#[test]
fn the_sources_of_the_page_are_strict() {
    let mut found = Vec::new();
    for (path, text) in sources() {
        let file = path.display();
        found.extend(
            FORBIDDEN.iter().filter(|word| text.contains(**word)).map(|word| format!("{file}: {word}")),
        );
        found.extend(style_attributes(&text).map(|place| format!("{file}: {place}")));
        found.extend(foreign_addresses(&text).map(|address| format!("{file}: {address}")));
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn the_root_page_has_no_inline_script() {
    let page =
        fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("www/public/index.html")).unwrap();
    for (at, _) in page.match_indices("<script") {
        let tag = &page[at..];
        let (opening, rest) = tag.split_once('>').unwrap();
        assert!(opening.contains(" src=") && rest.starts_with("</script>"), "{opening}>");
    }
    assert!(!page.contains("<style"), "a style element");
    let handler = page.split_whitespace().find(|word| word.starts_with("on") && word.contains('='));
    assert_eq!(handler, None);
}

/// All files of the page, as text.
fn sources() -> Vec<(PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut folders = vec![root.join("www/public"), root.join("www/src"), root.join("src/worker")];
    let mut sources = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if let Ok(text) = fs::read_to_string(&path) {
                sources.push((path, text));
            }
        }
    }
    assert!(sources.len() > 5, "the page has moved");
    sources
}

/// `style=` as an attribute; `style:color=` sets one property through the style object and is allowed.
fn style_attributes(text: &str) -> impl Iterator<Item = &str> {
    text.match_indices("style=").filter_map(|(at, word)| {
        let before = text[..at].chars().next_back();
        let is_attribute = before.is_none_or(|letter| letter.is_whitespace() || letter == '"');
        is_attribute.then(|| text[at..].lines().next().unwrap_or(word))
    })
}

/// Addresses of other hosts; the name of the SVG language is no address, though it looks like one.
fn foreign_addresses(text: &str) -> impl Iterator<Item = &str> {
    let starts = text.match_indices("http://").chain(text.match_indices("https://"));
    let addresses = starts.map(|(at, _)| text[at..].split(['"', '\'', ' ', ')']).next().unwrap_or_default());
    addresses.filter(|address| !address.starts_with("http://www.w3.org/2000/svg"))
}
