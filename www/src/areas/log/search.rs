//! Which entries have the words that are searched.

use crate::model::search::{folded, has_all_words};
use crate::words;
use dappledome::keep::log::LogEntry;
use dappledome::orders::model::Date;

/// Whether an entry has all words of a search: in its name, its order, its notes, its glasses, its firing or its day.
pub fn has_words(entry: &LogEntry, search: &str, today: Date) -> bool {
    if search.trim().is_empty() {
        return true;
    }
    let LogEntry { recipe, order, differed, next_time, firing, date, .. } = entry;
    let all = [
        recipe.title.as_str(),
        order,
        differed,
        next_time,
        firing.name(),
        &words::glasses_of(recipe),
        &date.to_string(),
        &words::log_date(*date, today),
    ];
    has_all_words(&all.join(" "), &folded(search))
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::firing::Firing;
    use dappledome::base::seed::Seed;
    use dappledome::recipe::demo;

    #[test]
    fn words_glasses_and_dates_are_found() {
        let day = |text: &str| text.parse::<Date>().unwrap();
        let entry = LogEntry {
            order: "Harborside".into(),
            differed: "A new jar".into(),
            next_time: "Check the stop".into(),
            ..LogEntry::new(demo::ember_walk(), Seed(41), Firing::FullFuse, day("2026-11-30"))
        };
        let finds = |search| has_words(&entry, search, day("2026-12-05"));
        for search in ["", "ember", "RUST jar", "harborside stop", "2026-11-30", "nov 30", "full fuse"] {
            assert!(finds(search), "{search}");
        }
        for search in ["moss", "ember moss", "2026-12", "slump"] {
            assert!(!finds(search), "{search}");
        }
    }
}
