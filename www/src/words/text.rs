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

/// Names one after the other: "A", "A and B", "A, B and C".
pub fn listed(names: &[String]) -> String {
    match names {
        [rest @ .., last] if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => names.concat(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_listed() {
        let listed = |names: &[&str]| listed(&names.iter().map(|name| (*name).into()).collect::<Vec<_>>());
        assert_eq!([listed(&[]), listed(&["A"])], ["", "A"]);
        assert_eq!([listed(&["A", "B"]), listed(&["A", "B", "C"])], ["A and B", "A, B and C"]);
    }

    #[test]
    fn only_the_first_letter_changes() {
        assert_eq!(lower("Éclat Rose"), "éclat Rose");
        assert_eq!(capital("41 kept"), "41 kept");
        assert_eq!(capital("ébauche"), "Ébauche");
        assert_eq!((lower(""), capital("")), (String::new(), String::new()));
    }
}
