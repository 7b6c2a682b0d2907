//! Words inside sentences and at their head.

/// The same word without a capital, inside a sentence.
pub fn lower(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// The same words with a capital.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_first_letter_changes() {
        assert_eq!(lower("Éclat Rose"), "éclat Rose");
        assert_eq!(capital("41 kept"), "41 kept");
        assert_eq!(capital("ébauche"), "Ébauche");
        assert_eq!((lower(""), capital("")), (String::new(), String::new()));
    }
}
