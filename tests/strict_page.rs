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
    for part in ["www/public/style", "www/src/words", "src/worker"] {
        assert!(sources.iter().any(|(path, _)| path.starts_with(root.join(part))), "{part} has moved");
    }
    sources
}

/// Every way of setting the `style` attribute, which the policy refuses. `style:left=...` and `style=("--x", ...)` set one
/// property through the style object: they are allowed.
fn style_attributes(text: &str) -> impl Iterator<Item = &str> {
    text.match_indices("style").filter_map(|(at, word)| {
        let (before, after) = (&text[..at], text[at + word.len()..].trim_start());
        let set = match after.strip_prefix('=') {
            Some(value) => is_attribute(before) && !value.starts_with(['=', '>']) && !is_property(value),
            // `set_attribute("style", ...)` and the like.
            None => {
                before.ends_with('"')
                    && after.strip_prefix('"').is_some_and(|rest| rest.trim_start().starts_with(','))
            }
        };
        set.then(|| text[at..].lines().next().unwrap_or(word))
    })
}

/// Whether what follows is the name of an attribute and not of a variable, a field or a class, or a part of a name.
fn is_attribute(before: &str) -> bool {
    match before.chars().next_back() {
        Some(':') => before.ends_with("attr:") || before.ends_with("prop:"),
        Some(letter) if letter.is_whitespace() => {
            !matches!(before.split_whitespace().next_back(), Some("let" | "mut" | "const" | "static"))
        }
        letter => letter.is_none_or(|letter| letter == '"'),
    }
}

/// Whether a value is a pair of a property's name, written out, and what it is set to.
fn is_property(value: &str) -> bool {
    let name = value.trim_start().strip_prefix('(').and_then(|pair| pair.trim_start().strip_prefix('"'));
    name.and_then(|name| name.split_once('"')).is_some_and(|(_, rest)| rest.trim_start().starts_with(','))
}

#[test]
fn only_single_properties_of_style_are_allowed() {
    let allowed = [
        r#"<p style:left=move || at.get() style:--x="1">"#,
        r#"<p style=("--x", move || at.get()) style=( "left", "1px" )>"#,
        r#"<p class:style=on class="style">"#,
        "let style = sheet(); let mut style = 1; if style == 2 {}",
        r#"link.setAttribute("rel", "stylesheet"); const sheet_style = 1;"#,
    ];
    for text in allowed {
        assert_eq!(style_attributes(text).collect::<Vec<_>>(), Vec::<&str>::new(), "{text}");
    }
    let refused = [
        r#"<p style="left: 0">"#,
        r#"<p style = "left: 0">"#,
        "<p\nstyle={left}>",
        "<p style=move || left.get()>",
        r#"<p style=format!("left: {left}")>"#,
        "<p style=left>",
        r#"<p style=["left", "1px"]>"#,
        "<p style=(name, left)>",
        r#"<p style=("left: 1px")>"#,
        r#"<p attr:style="left: 0">"#,
        "<p prop:style=left>",
        r#"p.set_attribute("style", left)"#,
        r#"p.is("style", "left: 0")"#,
    ];
    for text in refused {
        assert_eq!(style_attributes(text).count(), 1, "{text}");
    }
}

/// Addresses of other hosts; the name of the SVG language is no address, though it looks like one.
fn foreign_addresses(text: &str) -> impl Iterator<Item = &str> {
    let starts = text.match_indices("http://").chain(text.match_indices("https://"));
    let addresses = starts.map(|(at, _)| text[at..].split(['"', '\'', ' ', ')']).next().unwrap_or_default());
    addresses.filter(|address| !address.starts_with("http://www.w3.org/2000/svg"))
}
