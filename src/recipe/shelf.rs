//! The maker's own shelf of glasses, and its file. A recipe that is made of one of them brings its own copy along.

use super::check::Check;
use super::glass_checks;
use super::limits::MOST_GLASSES;
use super::model::Recipe;
use super::newer_shelf;
use super::own_glass::Unread;
use crate::base::notice::{Notice, Severity, Step};
use crate::glass::catalogue;
use crate::glass::glasses::Glasses;
use crate::glass::kind::Glass;
use serde::{Deserialize, Serialize};

pub use super::own_glass::OwnGlass;

/// The version of the file that this program writes and reads.
const VERSION: u32 = 1;
/// The largest file that is read, bytes: a glass is about a thousand.
pub const MOST_BYTES: usize = 1 << 20;

/// The maker's own glasses.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(transparent)]
pub struct Shelf {
    /// In the order in which they were put there.
    pub glasses: Vec<OwnGlass>,
}

/// A shelf as a file.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct File<Glasses> {
    version: u32,
    glasses: Glasses,
}

#[derive(Deserialize)]
struct VersionOnly {
    version: u32,
    #[serde(rename = "glasses")]
    _glasses: serde::de::IgnoredAny,
}

impl Shelf {
    /// Those that are offered.
    pub fn offered(&self) -> Glasses {
        Glasses(self.glasses.iter().filter(|own| !own.retired).map(|own| own.glass.clone()).collect())
    }

    /// All of them, by which names are known.
    pub fn all(&self) -> Glasses {
        Glasses(self.glasses.iter().map(|own| own.glass.clone()).collect())
    }

    /// The one with this id.
    pub fn find(&self, id: &str) -> Option<&OwnGlass> {
        self.glasses.iter().find(|own| own.glass.id == id)
    }

    /// Every fault of them.
    pub fn faults(&self) -> Vec<Notice> {
        let mut check = Check::default();
        glass_checks::glasses(&mut check, &self.all());
        check.finish().err().unwrap_or_default()
    }

    /// Puts a glass there, in the place of one with its id.
    pub fn put(&mut self, glass: Glass) {
        match self.glasses.iter_mut().find(|own| own.glass.id == glass.id) {
            Some(own) => own.glass = glass,
            None => self.glasses.push(OwnGlass { glass, retired: false, unread: None }),
        }
    }

    /// An id that no glass here or in the catalogue has, near to a name.
    pub fn free_id(&self, name: &str) -> String {
        let plain: String =
            name.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { '_' }).collect();
        let stem: String = plain.chars().take(30).collect();
        let taken = |id: &str| self.find(id).is_some() || catalogue::find(id).is_some();
        let numbered =
            (1..=2 * MOST_GLASSES).map(|at| if at == 1 { stem.clone() } else { format!("{stem}_{at}") });
        numbered.into_iter().find(|id| !id.is_empty() && !taken(id)).unwrap_or(stem)
    }

    /// Gives a recipe the glasses that it names and does not bring along.
    pub fn lend_to(&self, recipe: &mut Recipe) {
        let missing: Vec<String> =
            recipe.glass_ids().filter(|id| recipe.glasses.find(id).is_none()).map(str::to_owned).collect();
        for own in missing.iter().filter_map(|id| self.find(id)) {
            recipe.bring(&own.glass);
        }
    }

    /// Lines of newer files that are kept unread.
    pub fn unread_lines(&self) -> usize {
        self.glasses.iter().filter_map(|own| own.unread.as_ref()).map(Unread::lines).sum()
    }

    /// What was kept unread, said.
    pub fn unread(&self) -> Option<Notice> {
        let lines = self.unread_lines();
        let what = match lines {
            0 => return None,
            1 => "Shelf file from a newer Dappledome: one line kept unread.".into(),
            lines => format!("Shelf file from a newer Dappledome: {lines} lines kept unread."),
        };
        let why = "They say of its glasses what this one does not know; they go into the file again.";
        Some(Notice::new(Severity::Note, Step::Recipe, what, why, "Use the newer Dappledome to see them."))
    }

    /// As a file; of the newest version that is kept unread.
    pub fn write(&self) -> String {
        let newer = self.glasses.iter().filter_map(|own| Some(own.unread.as_ref()?.version)).max();
        // Plain data with names for keys: nothing in it can fail to be written.
        let text = match newer {
            None => serde_json::to_string_pretty(&File { version: VERSION, glasses: self }),
            Some(version) => {
                let glasses: Vec<_> = self.glasses.iter().map(newer_shelf::written).collect();
                serde_json::to_string_pretty(&File { version, glasses })
            }
        };
        text.unwrap_or_default() + "\n"
    }

    /// From its file. Of a newer one what is not known of its glasses is kept with them, unread.
    ///
    /// # Errors
    /// Every fault: that it is no such file, or one of another version that says more than can be kept, or what is wrong with its glasses.
    pub fn read(text: &str) -> Result<Self, Vec<Notice>> {
        let refused = |what: &str, why: String, remedy: &str| {
            vec![Notice::new(Severity::Fault, Step::Recipe, what, why, remedy)]
        };
        let copy = "Take an undamaged copy of it.";
        if text.len() > MOST_BYTES {
            return Err(refused("No shelf file.", format!("It is longer than {MOST_BYTES} bytes."), copy));
        }
        let shelf = match serde_json::from_str(text) {
            Ok(VersionOnly { version, .. }) if version != VERSION => {
                let newer = if version > VERSION { newer_shelf::read(text) } else { None };
                let why = format!("It says version {version}; this program reads version {VERSION}.");
                let another = || refused("A shelf file of another version.", why, "Use a newer Dappledome.");
                Self { glasses: newer.ok_or_else(another)? }
            }
            _ => {
                let file: File<Self> = serde_json::from_str(text).map_err(|mistake| {
                    refused("No shelf file, or one with a mistake.", format!("{mistake}."), copy)
                })?;
                file.glasses
            }
        };
        let faults = shelf.faults();
        if faults.is_empty() { Ok(shelf) } else { Err(faults) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::{Coat, Fall, demo};

    fn own(name: &str, id: &str) -> Glass {
        let rust = catalogue::find("rust").expect("it is in the catalogue").clone();
        Glass { id: id.into(), name: name.into(), ..rust }
    }

    fn shelf() -> Shelf {
        let mut shelf = Shelf::default();
        shelf.put(own("Rust, May", "of_may"));
        shelf.put(own("Rust, June", "of_june"));
        shelf.glasses[0].retired = true;
        shelf
    }

    #[test]
    fn a_shelf_is_read_as_it_was_written_and_refused_where_it_is_none() {
        assert_eq!(Shelf::read(&shelf().write()), Ok(shelf()));
        let newer = shelf().write().replace("\"version\": 1", "\"version\": 2").replace("material", "matter");
        let negative = shelf().write().replace("\"density\": 2.5", "\"density\": -2.5");
        let what = ["", "{}", &newer, &negative].map(|text| Shelf::read(text).unwrap_err().remove(0).what);
        let no_shelf = "No shelf file, or one with a mistake.";
        assert_eq!(what, [no_shelf, no_shelf, "A shelf file of another version.", "Out of range."]);
    }

    /// A newer file: a field of the entry, one of the glass with two lines in it, a family and a source that this version does not know.
    fn newer() -> serde_json::Value {
        let mut file: serde_json::Value = serde_json::from_str(&shelf().write()).unwrap();
        file["version"] = 3.into();
        let own = &mut file["glasses"][0];
        own["drawer"] = "top".into();
        own["glass"]["fluorescence"] = serde_json::json!({"at": [365, 254]});
        own["glass"]["families"] = serde_json::json!(["copper", "neodymium"]);
        own["glass"]["source"] = serde_json::json!({"spectrometer": "mine"});
        file
    }

    #[test]
    fn what_a_newer_version_says_is_kept_and_written_back() {
        let file = newer();
        let shelf = Shelf::read(&file.to_string()).expect("it is read as far as it is known");
        assert_eq!((shelf.glasses.len(), shelf.unread_lines()), (2, 6));
        assert!(shelf.glasses[0].retired && shelf.glasses[1].unread.is_none());
        assert_eq!(shelf.unread().unwrap().what, "Shelf file from a newer Dappledome: 6 lines kept unread.");
        let written: serde_json::Value = serde_json::from_str(&shelf.write()).unwrap();
        assert_eq!(written, file, "nothing is lost");
        assert_eq!(Shelf::read(&shelf.write()), Ok(shelf.clone()));
        // The bench keeps it as plain data; what is changed here goes out with it.
        let kept: Shelf = serde_json::from_str(&serde_json::to_string(&shelf).unwrap()).unwrap();
        assert_eq!(kept, shelf);
        let mut changed = shelf;
        changed.glasses[0].glass.name = "Rust, once more".into();
        let again: serde_json::Value = serde_json::from_str(&changed.write()).unwrap();
        assert_eq!(again["glasses"][0]["glass"]["name"], "Rust, once more");
        assert_eq!(again["glasses"][0]["drawer"], "top");
        assert_eq!(super::Shelf::default().unread(), None);
    }

    #[test]
    fn a_newer_file_that_cannot_be_kept_is_refused() {
        let refused = |change: &dyn Fn(&mut serde_json::Value)| {
            let mut file = newer();
            change(&mut file);
            Shelf::read(&file.to_string()).expect_err("it is refused").remove(0).what
        };
        let another = "A shelf file of another version.";
        assert_eq!(refused(&|file| file["jars"] = 3.into()), another);
        assert_eq!(refused(&|file| file["version"] = 0.into()), another);
        assert_eq!(refused(&|file| file["glasses"][1] = 7.into()), another);
        assert_eq!(refused(&|file| file["glasses"][1]["glass"]["id"] = 7.into()), another);
        assert_eq!(refused(&|file| file["glasses"][1]["glass"]["density"] = (-1.0).into()), "Out of range.");
    }

    #[test]
    fn a_retired_glass_keeps_its_name_and_is_not_offered() {
        assert_eq!(shelf().offered().0.len(), 1);
        assert_eq!(shelf().all().name("of_may"), "Rust, May");
        let mut shelf = shelf();
        shelf.put(own("Rust, May, again", "of_may"));
        assert!(shelf.find("of_may").is_some_and(|own| own.retired && own.glass.name.ends_with("again")));
    }

    #[test]
    fn ids_are_made_of_names_and_never_taken_twice() {
        assert_eq!(shelf().free_id("Rust, jar of May"), "rust__jar_of_may");
        assert_eq!(shelf().free_id("Of May"), "of_may_2");
        assert_eq!(shelf().free_id("Rust"), "rust_2", "the catalogue has one");
        assert_eq!(shelf().free_id(""), "_2");
    }

    #[test]
    fn a_recipe_is_lent_what_it_lacks_and_keeps_what_it_has() {
        let mut recipe = demo::ember_walk();
        recipe.coats.push(Coat::new(9, "of_may", Fall::Even { depth: crate::base::units::Mm(0.3) }));
        shelf().lend_to(&mut recipe);
        assert_eq!(recipe.glasses.0, [own("Rust, May", "of_may")]);
        recipe.glasses.0[0].name = "As it was".into();
        shelf().lend_to(&mut recipe);
        assert_eq!(recipe.glasses.name("of_may"), "As it was");
    }
}
