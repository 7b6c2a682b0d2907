//! The molds that a maker has, and their file. They are no part of any recipe: one that is taken is copied into it.

use super::check::Check;
use super::checks;
use super::limits;
use super::model::{Form, Mold, Recipe};
use crate::base::data::data;
use crate::base::notice::{Notice, Severity, Step};
use crate::base::units::Mm;
use serde::{Deserialize, Serialize};

/// The version of the file that this program writes and reads.
const VERSION: u32 = 1;
/// Most letters of a mold's name.
pub const LONGEST_NAME: usize = 40;
/// Most molds that are kept.
pub const MOST_MOLDS: usize = 100;

data! {
    /// A mold that a maker has.
    pub struct OwnMold {
        /// What its owner calls it.
        pub name: String,
        /// What it is.
        pub mold: Mold,
        /// How many of them there are.
        pub count: u32,
    }
}

/// All of them, as they are kept.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Kept {
    version: u32,
    molds: Vec<OwnMold>,
}

impl OwnMold {
    /// Every fault of it: those of a mold in a recipe, whatever its disc, and of its name and number.
    pub fn faults(&self) -> Vec<Notice> {
        let mut check = Check::default();
        let letters = self.name.trim().chars().count();
        if !(1..=LONGEST_NAME).contains(&letters) {
            let why = format!("Its name has {letters} letters.");
            let remedy = format!("Give it a name of 1 to {LONGEST_NAME} letters.");
            check.fault(Step::Slump, "A mold without a good name.", why, remedy);
        }
        check.range(Step::Slump, "Their number", self.count.into(), limits::MOLDS, "");
        let mut recipe = Recipe { mold: self.mold.clone(), ..Recipe::bare() };
        recipe.blank.diameter = self.mold.opening;
        checks::slump(&mut check, &recipe);
        let all = check.finish().err().unwrap_or_default();
        all.into_iter().filter(|notice| notice.severity == Severity::Fault).collect()
    }
}

/// Three that nobody has, to begin with: invented, like all data of the demo.
pub fn invented() -> Vec<OwnMold> {
    let one = |name: &str, form, opening, depth, count| OwnMold {
        name: name.into(),
        mold: Mold { form, opening: Mm(opening), depth: Mm(depth) },
        count,
    };
    let flat = Form::FlatBottom { bottom: Mm(77.0), corner: Mm(15.0) };
    vec![
        one("Harbor bowl", Form::Bowl, 160.0, 48.0, 2),
        one("Quay dish", flat, 140.0, 30.0, 4),
        one("Breakwater", Form::Hump, 180.0, 50.0, 1),
    ]
}

/// The file of some molds.
pub fn write(molds: &[OwnMold]) -> String {
    // Plain data with names for keys: nothing in it can fail to be written.
    serde_json::to_string_pretty(&Kept { version: VERSION, molds: molds.to_vec() }).unwrap_or_default()
}

/// Reads molds; none if it is no such file, one of another version, or one of them has a fault.
pub fn read(text: &str) -> Option<Vec<OwnMold>> {
    let Kept { version, molds } = serde_json::from_str(text).ok()?;
    let sound = version == VERSION && molds.len() <= MOST_MOLDS;
    (sound && molds.iter().all(|mold| mold.faults().is_empty())).then_some(molds)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn faults(change: impl FnOnce(&mut OwnMold)) -> Vec<String> {
        let mut mold = invented().remove(0);
        change(&mut mold);
        mold.faults().into_iter().map(|fault| fault.what).collect()
    }

    #[test]
    fn molds_are_read_as_they_were_written() {
        let molds = invented();
        assert!(molds.iter().all(|mold| mold.faults().is_empty()));
        assert_eq!(read(&write(&molds)), Some(molds));
        assert_eq!(read(&write(&[])), Some(Vec::new()));
        let newer = write(&invented()).replace("\"version\": 1", "\"version\": 2");
        assert_eq!(["", "{}", "[]", newer.as_str()].map(read), [None, None, None, None]);
    }

    /// A hemisphere of 160 mm is 80 mm deep.
    #[test]
    fn what_cannot_be_is_told() {
        assert!(faults(|own| own.mold.depth = Mm(80.0)).is_empty());
        assert_eq!(faults(|own| own.mold.depth = Mm(80.5)), ["Deeper than half its width."]);
        assert_eq!(faults(|own| own.mold.opening = Mm(f64::NAN)).len(), 1);
        assert_eq!(faults(|own| own.count = 0), ["Out of range."]);
        assert_eq!(faults(|own| own.name = "  ".into()), ["A mold without a good name."]);
        assert_eq!(faults(|own| own.name = "a".repeat(41)), ["A mold without a good name."]);
        let wide = Form::Flare { bottom: Mm(390.0), corner: Mm(20.0) };
        assert_eq!(faults(|own| own.mold.form = wide).len(), 1, "a bottom wider than its mold");
    }
}
