//! The maker's own glasses. They lie on the bench with sheets and jars; a piece has its own copy of those it is made of.

use super::orders::Orders;
use crate::words;
use dappledome::glass::glasses::Glasses;
use dappledome::glass::kind::Glass;
use dappledome::recipe::shelf::{OwnGlass, Shelf};
use leptos::prelude::*;

/// The glasses on the shelf that are not the catalogue's.
#[derive(Clone, Copy)]
pub struct OwnGlasses {
    orders: Orders,
    /// The one that was taken off the shelf last.
    gone: RwSignal<Option<OwnGlass>>,
}

impl OwnGlasses {
    /// Those on the bench.
    pub fn new(orders: Orders) -> Self {
        Self { orders, gone: RwSignal::new(None) }
    }

    /// Something of the shelf, followed.
    pub fn with<T>(&self, look: impl FnOnce(&Shelf) -> T) -> T {
        self.orders.bench.with(|bench| look(&bench.glasses))
    }

    /// Those that are offered; what somebody else brings along stands in the place of one with the same id. Followed.
    pub fn offered_with(&self, brought: &Glasses) -> Glasses {
        self.with(Shelf::offered).with(brought)
    }

    /// Those that have names, retired ones too; what somebody else brings along stands in the place of one with the same id. Followed.
    pub fn named_with(&self, brought: &Glasses) -> Glasses {
        self.with(Shelf::all).with(brought)
    }

    /// Puts a copy of a glass there, under a name and an id of its own, and says which.
    ///
    /// # Errors
    /// What is wrong with it, and what to do.
    pub fn copy(&self, glass: &Glass) -> Result<String, String> {
        let name = words::copy_of(&glass.name);
        let id = untrack(|| self.with(|shelf| shelf.free_id(&name)));
        let copy = Glass { id: id.clone(), name, ..glass.clone() };
        self.edit(|shelf| shelf.put(copy)).map(|()| id)
    }

    /// Puts a new glass there, made for an id that is free.
    ///
    /// # Errors
    /// What is wrong with it, and what to do.
    pub fn put_new(&self, name: &str, make: impl FnOnce(String) -> Glass) -> Result<(), String> {
        let glass = make(untrack(|| self.with(|shelf| shelf.free_id(name))));
        self.edit(|shelf| shelf.put(glass))
    }

    /// Changes a glass, if it is a sound one then.
    ///
    /// # Errors
    /// What is wrong with it, and what to do.
    pub fn change(&self, id: &str, change: impl FnOnce(&mut OwnGlass)) -> Result<(), String> {
        self.edit(|shelf| {
            if let Some(own) = shelf.glasses.iter_mut().find(|own| own.glass.id == id) {
                change(own);
            }
        })
    }

    /// Takes a glass off the shelf; it can be put back.
    ///
    /// # Errors
    /// What is wrong with the bench.
    pub fn take_off(&self, id: &str) -> Result<(), String> {
        self.gone.set(untrack(|| self.with(|shelf| shelf.find(id).cloned())));
        self.edit(|shelf| shelf.glasses.retain(|own| own.glass.id != id))
    }

    /// The name of the one that was taken off last, followed.
    pub fn gone(&self) -> Option<String> {
        self.gone.read().as_ref().map(|own| own.glass.name.clone())
    }

    /// Puts the one back that was taken off last.
    ///
    /// # Errors
    /// That there is no room for it.
    pub fn put_back(&self) -> Result<(), String> {
        let Some(own) = self.gone.get_untracked() else { return Ok(()) };
        self.edit(|shelf| shelf.glasses.push(own))?;
        self.gone.set(None);
        Ok(())
    }

    /// Puts the glasses of a file beside those that are there, and says how many are new. One that differs from its namesake here comes
    /// under an id of its own: neither is lost.
    ///
    /// # Errors
    /// What is wrong with them together, and what to do.
    pub fn bring_in(&self, file: &Shelf) -> Result<usize, String> {
        let new = untrack(|| self.with(|shelf| newcomers(shelf, file)));
        let count = new.len();
        self.edit(|shelf| shelf.glasses.extend(new)).map(|()| count)
    }

    fn edit(&self, change: impl FnOnce(&mut Shelf)) -> Result<(), String> {
        self.orders.edit_bench(words::did::GLASSES, |bench| change(&mut bench.glasses))
    }
}

/// The glasses of a file that a shelf does not have yet, each with an id that is free there.
fn newcomers(shelf: &Shelf, file: &Shelf) -> Vec<OwnGlass> {
    let mut grown = shelf.clone();
    for own in &file.glasses {
        let mut own = own.clone();
        let same = |there: &OwnGlass| {
            let says_more = own.unread.is_some() && own.unread != there.unread;
            Glass { id: own.glass.id.clone(), ..there.glass.clone() } == own.glass && !says_more
        };
        if grown.glasses.iter().any(same) {
            continue;
        }
        if grown.find(&own.glass.id).is_some() {
            own.glass.id = grown.free_id(&own.glass.name);
        }
        grown.glasses.push(own);
    }
    grown.glasses.split_off(shelf.glasses.len())
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::glass::catalogue;
    use dappledome::recipe::Unread;

    fn shelf(glasses: &[(&str, &str)]) -> Shelf {
        let rust = catalogue::find("rust").expect("it is in the catalogue");
        let own = |(id, name): &(&str, &str)| OwnGlass {
            glass: Glass { id: (*id).into(), name: (*name).into(), ..rust.clone() },
            retired: false,
            unread: None,
        };
        Shelf { glasses: glasses.iter().map(own).collect() }
    }

    #[test]
    fn a_file_brought_in_twice_brings_nothing_new_and_takes_nothing_away() {
        let (here, file) = (shelf(&[("may", "May")]), shelf(&[("may", "May"), ("june", "June")]));
        let new = newcomers(&here, &file);
        assert_eq!(new, file.glasses[1..]);
        let grown = Shelf { glasses: [here.glasses, new].concat() };
        assert_eq!(newcomers(&grown, &file), []);
        let other = newcomers(&grown, &shelf(&[("may", "May of another maker")]));
        assert_eq!(other.len(), 1);
        assert_eq!(other[0].glass.id, "may_of_another_maker");
        let mut newer = shelf(&[("may", "May")]);
        newer.glasses[0].unread = Some(Unread { version: 2, fields: "what is not known".into() });
        let kept = newcomers(&grown, &newer);
        assert_eq!(kept[0].unread, newer.glasses[0].unread, "what a newer file says more is not lost");
        assert_eq!(newcomers(&newer, &shelf(&[("may", "May")])), []);
    }
}
