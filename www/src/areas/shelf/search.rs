//! Which cards have the words that are searched.

use crate::model::records::Card;

/// A text in which letters differ only if the alphabet tells them apart: in lower case, a sigma at a word's end like any other.
pub fn folded(text: &str) -> String {
    text.to_lowercase().replace('ς', "σ")
}

/// Whether a card has all words of a folded search.
pub fn has_words(card: &Card, search: &str) -> bool {
    if search.is_empty() {
        return true;
    }
    let text = folded(&format!("{} {}", card.title, card.glasses));
    search.split_whitespace().all(|word| text.contains(word))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::ids::PieceId;

    fn finds(title: &str, search: &str) -> bool {
        let card = Card { id: PieceId(1), title: title.into(), glasses: "Moss Straw".into(), changed: 0.0 };
        has_words(&card, &folded(search))
    }

    #[test]
    fn all_words_must_be_there_in_whatever_order() {
        assert!(finds("Green Hill", ""));
        assert!(finds("Green Hill", "  "));
        assert!(finds("Green Hill", "moss GREEN"));
        assert!(finds("Green Hill", "een"));
        assert!(!finds("Green Hill", "moss blue"));
    }

    #[test]
    fn capitals_of_any_alphabet_are_found() {
        assert!(finds("ÉCLAT", "éclat"));
        assert!(finds("éclat", "ÉCL"));
        assert!(finds("Straße", "STRAẞE"));
        assert!(!finds("Straße", "strasse"), "ß is a letter of its own");
        assert!(finds("Σίσυφος", "ΣΊΣΥΦΟΣ"));
        assert!(finds("ΣΊΣΥΦΟΣ", "σίσυφος"));
        assert!(finds("Σίσυφος", "ΣΊΣ"), "in the middle of a word as at its end");
    }
}
