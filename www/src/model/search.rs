//! Words that are searched in a text.

/// A text in which letters differ only if the alphabet tells them apart: in lower case, a sigma at a word's end like any other.
pub fn folded(text: &str) -> String {
    text.to_lowercase().replace('ς', "σ")
}

/// Whether a text has all words of a folded search.
pub fn has_all_words(text: &str, search: &str) -> bool {
    let text = folded(text);
    search.split_whitespace().all(|word| text.contains(word))
}
