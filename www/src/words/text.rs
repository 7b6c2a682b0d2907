//! Words inside sentences and at their head.

pub use dappledome::base::text::{capital, lower};

/// Names one after the other: "A", "A and B", "A, B and C".
pub fn listed(names: &[String]) -> String {
    match names {
        [rest @ .., last] if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => names.concat(),
    }
}

/// Somebody's name for a thing as it may stand among our words: without what steers a line and is not seen, and one that
/// runs from right to left shut off from the words around it.
pub fn plain(name: &str) -> String {
    let steers = |letter: char| {
        letter.is_control()
            || matches!(letter, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    let plain: String = name.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    let plain = plain.replace(steers, "");
    let leftward = |letter: char| matches!(letter, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{feff}' | '\u{10800}'..='\u{10fff}' | '\u{1e800}'..='\u{1efff}');
    if plain.contains(leftward) { format!("\u{2068}{plain}\u{2069}") } else { plain }
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
    fn a_name_turns_no_words_around_it() {
        for (name, shown) in [
            ("Harbor Wall", "Harbor Wall"),
            ("Rosée ’26 – 露", "Rosée ’26 – 露"),
            ("\u{202e}llaW robraH", "llaW robraH"),
            ("Harbor\nWall\u{7}\u{0}", "Harbor Wall  "),
            ("a\u{2066}b\u{2069}c\u{200f}\u{2028}", "abc"),
            ("שלום 2", "\u{2068}שלום 2\u{2069}"),
        ] {
            assert_eq!(plain(name), shown);
        }
    }
}
