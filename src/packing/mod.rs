//! Equal discs on a sheet or a shelf: as many as can be, never fewer than rows of any kind hold.

mod press;
mod region;
mod rows;
mod search;
mod shelf;

pub use region::{Discs, Place};
pub use shelf::Shelf;

use region::Region;

/// Work that the search for one disc more may take, in pairs of discs looked at: 3 ns each. So many for each disc to the third
/// power, since the number of ways to lie grows faster than that, and no more than that: 0.2 s. By these, every packing of the
/// tables in `tests/orders/packing.rs` is found.
const WORK: (u64, u64) = (4_000, 60_000_000);

/// The most discs that were found to go into a room, up to so many: their centers, mm, from its left and its front end. They are
/// no fewer than rows hold, square or staggered; beyond rows it is a search, whose answer is the same on every machine.
pub fn most(room: Shelf, discs: Discs, wanted: usize) -> Vec<Place> {
    let Some(region) = Region::of(room, discs) else { return Vec::new() };
    let mut places = rows::best(region);
    let most = region.most().min(wanted);
    while places.len() < most {
        let count = places.len() + 1;
        let (each, limit) = WORK;
        let mut work = (each * (count as u64).pow(3)).min(limit);
        match search::place(region, count, &starts(region, count), &mut work) {
            Some(found) => places = found,
            None => break,
        }
    }
    places.truncate(wanted);
    places.into_iter().map(|place| region.in_mm(place, discs)).collect()
}

/// So many layouts are remembered: more than any order has.
const REMEMBERED: usize = 200;

/// Layouts that were looked for already, the newest last.
#[derive(Debug, Default)]
pub struct Packings(Vec<Packing>);

#[derive(Debug)]
struct Packing {
    room: Shelf,
    discs: Discs,
    /// More than these were not asked for.
    wanted: usize,
    places: Vec<Place>,
}

impl Packings {
    /// The most discs that were found to go into a room, up to so many, as [`most`] has them.
    pub fn most(&mut self, room: Shelf, discs: Discs, wanted: usize) -> Vec<Place> {
        let answers = |known: &&Packing| {
            let all = known.wanted >= wanted || known.places.len() < known.wanted;
            known.room == room && known.discs == discs && all
        };
        if let Some(known) = self.0.iter().find(answers) {
            return known.places.iter().take(wanted).copied().collect();
        }
        let places = most(room, discs, wanted);
        if self.0.len() == REMEMBERED {
            self.0.remove(0);
        }
        self.0.push(Packing { room, discs, wanted, places: places.clone() });
        places
    }
}

/// How many times as large a region may be whose rows a search begins with.
const LARGER: [f64; 4] = [1.0, 1.03, 1.06, 1.1];

/// Layouts to begin a search for so many discs with: rows that hold about as many in a region a little larger, pushed together.
fn starts(region: Region, count: usize) -> Vec<Vec<Place>> {
    let mut starts = Vec::new();
    for by in LARGER {
        for mut places in rows::all(region.times(by)) {
            if (count.saturating_sub(1)..count + 2).contains(&places.len()) {
                places.iter_mut().for_each(|place| *place = place.map(|at| at / by));
                starts.push(places);
            }
        }
    }
    starts
}
