//! Which cards have the words that are searched.

use crate::model::records::Card;
use crate::model::search::has_all_words;

/// Whether a card has all words of a folded search.
pub fn has_words(card: &Card, search: &str) -> bool {
    search.is_empty() || has_all_words(&format!("{} {}", card.title, card.glasses), search)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::ids::PieceId;
    use crate::model::search::folded;

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
