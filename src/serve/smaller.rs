//! The page's scripts as they travel: the same meaning in fewer bytes.

use std::collections::HashMap;

/// Short names for the functions of the script that the program calls. Theirs end in hashes, which do not compress:
/// together they weigh 9 kB of 450.
#[derive(Debug, Default)]
pub struct ShortNames(HashMap<String, String>);

impl ShortNames {
    /// The short name of a function, the same whenever it is asked.
    pub fn of(&mut self, name: &str) -> String {
        let next = self.0.len();
        self.0.entry(name.to_owned()).or_insert_with(|| format!("f{next}")).clone()
    }

    /// The script with short names in place of the long ones.
    pub fn in_script(&self, script: &str) -> String {
        let part_of_a_name = |c: char| c.is_alphanumeric() || c == '_' || c == '$';
        let words = script.split_inclusive(|c| !part_of_a_name(c));
        let words = words.map(|word| {
            let name = word.trim_end_matches(|c| !part_of_a_name(c));
            self.0.get(name).map_or_else(|| word.to_owned(), |short| short.clone() + &word[name.len()..])
        });
        words.collect()
    }
}

/// A script without comments and needless space.
///
/// # Errors
/// What the script is not understood for.
pub fn script(text: &str) -> Result<String, String> {
    minifier::js::minify(text).map(|script| script.to_string()).map_err(|fault| fault.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_whole_names_become_short() {
        let mut names = ShortNames::default();
        assert_eq!((names.of("call_1").as_str(), names.of("call_12").as_str()), ("f0", "f1"));
        assert_eq!(names.of("call_1"), "f0");
        let script = "call_1: function() { call_12(my_call_1, call_1$, \"call_1\"); } call_1";
        let short = "f0: function() { f1(my_call_1, call_1$, \"f0\"); } f0";
        assert_eq!(names.in_script(script), short);
    }
}
