//! A search for room for one more disc: many starts, and from each of them the disc that lies worst is put elsewhere again and
//! again. The same on every machine, and never longer than its allowance of work.

use super::press::{Work, press};
use super::region::{Place, Region, apart_squared, sound};
use crate::base::seed::{Purpose, Seed};
use rand::RngExt;
use rand_chacha::ChaCha8Rng;

/// Places that are tried for a disc which is put elsewhere.
const TRIED: usize = 24;
/// How often a disc is put elsewhere without gain before all begins anew.
const PATIENCE: usize = 16;

/// So many discs in a region, if a place for all of them is found. `starts` are layouts to begin with.
pub fn place(region: Region, count: usize, starts: &[Vec<Place>], work: &mut Work) -> Option<Vec<Place>> {
    let mut chance = Seed(count as u32).stream(Purpose::Packing);
    for start in starts {
        let mut places = start.clone();
        places.truncate(count);
        while places.len() < count {
            let free = freest(region, &places, &mut chance);
            places.push(free);
        }
        if let Some(found) = settle(region, places, &mut chance, work) {
            return Some(found);
        }
    }
    while *work > 0 {
        let places = (0..count).map(|_| anywhere(region, &mut chance)).collect();
        if let Some(found) = settle(region, places, &mut chance, work) {
            return Some(found);
        }
    }
    None
}

fn anywhere(region: Region, chance: &mut ChaCha8Rng) -> Place {
    let (across, along) = (chance.random::<f64>(), chance.random::<f64>());
    region.at_share(across, along)
}

/// The place, of some, that lies furthest from all discs.
fn freest(region: Region, places: &[Place], chance: &mut ChaCha8Rng) -> Place {
    let room =
        |place: Place| places.iter().map(|other| apart_squared(*other, place)).fold(f64::INFINITY, f64::min);
    let mut best = anywhere(region, chance);
    for _ in 1..TRIED {
        let other = anywhere(region, chance);
        if room(other) > room(best) {
            best = other;
        }
    }
    best
}

/// Lets discs push each other apart; as long as they do not find room, the worst of them is put elsewhere.
fn settle(
    region: Region,
    mut places: Vec<Place>,
    chance: &mut ChaCha8Rng,
    work: &mut Work,
) -> Option<Vec<Place>> {
    let mut over = press(region, &mut places, work);
    let mut patience = PATIENCE;
    loop {
        let inside: Vec<Place> = places.iter().map(|place| region.nearest(*place)).collect();
        if sound(region, &inside) {
            return Some(inside);
        }
        if patience == 0 || *work == 0 {
            return None;
        }
        let mut other = places.clone();
        // The worst one mostly, any now and then: the worst alone is often the same one again.
        let which = if patience.is_multiple_of(3) {
            chance.random_range(0..other.len())
        } else {
            worst(region, &other)
        };
        other.swap_remove(which);
        other.push(freest(region, &other, chance));
        let found = press(region, &mut other, work);
        if found < over * (1.0 - 1e-6) {
            (places, over, patience) = (other, found, PATIENCE);
        } else {
            patience -= 1;
        }
    }
}

/// The disc that overlaps most.
fn worst(region: Region, places: &[Place]) -> usize {
    let over = |at: usize| {
        let others = places.iter().enumerate().filter(|(other, _)| *other != at);
        let with = |other: Place| (1.0 - apart_squared(other, places[at]).sqrt()).max(0.0);
        let sum: f64 = others.map(|(_, other)| with(*other) * with(*other)).sum();
        sum + apart_squared(region.nearest(places[at]), places[at])
    };
    let all: Vec<f64> = (0..places.len()).map(over).collect();
    (0..all.len()).fold(0, |worst, at| if all[at] > all[worst] { at } else { worst })
}
