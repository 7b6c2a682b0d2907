//! The glasses that somebody has at hand beside those of the catalogue.

use super::catalogue;
use super::kind::Glass;
use serde::{Deserialize, Serialize};

/// Own glasses: those that a recipe carries along, as they were when they were put into it, or those on a maker's shelf.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(transparent)]
pub struct Glasses(pub Vec<Glass>);

impl Glasses {
    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The glass of this id, here or in the catalogue.
    pub fn find(&self, id: &str) -> Option<&Glass> {
        self.0.iter().find(|glass| glass.id == id).or_else(|| catalogue::find(id))
    }

    /// Every glass that can be chosen: these, then the catalogue's.
    pub fn all(&self) -> impl Iterator<Item = &Glass> {
        self.0.iter().chain(catalogue::all())
    }

    /// What the glass of this id is called; its id, cut short, if there is none.
    pub fn name(&self, id: &str) -> String {
        self.find(id).map_or_else(|| id.chars().take(24).collect(), |glass| glass.name.clone())
    }

    /// Takes a glass in, in the place of one with the same id.
    pub fn take_in(&mut self, glass: Glass) {
        match self.0.iter_mut().find(|own| own.id == glass.id) {
            Some(own) => *own = glass,
            None => self.0.push(glass),
        }
    }

    /// These and others; one of the others stands in the place of one with the same id.
    pub fn with(mut self, others: &Self) -> Self {
        others.0.iter().cloned().for_each(|glass| self.take_in(glass));
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn own_glasses_come_first_and_the_catalogue_is_always_there() {
        let mut glasses = Glasses::default();
        assert_eq!(glasses.name("rust"), "Rust");
        assert_eq!(glasses.name("of_may"), "of_may");
        let rust = catalogue::find("rust").expect("it is a demo glass");
        let own = |name: &str| Glass { id: "of_may".into(), name: name.into(), ..rust.clone() };
        glasses.take_in(own("Rust of May"));
        glasses.take_in(own("Rust, May"));
        assert_eq!(glasses.name("of_may"), "Rust, May", "the later one stands in its place");
        assert_eq!(glasses.0.len(), 1);
        assert_eq!(glasses.all().count(), 1 + catalogue::all().len());
    }
}
