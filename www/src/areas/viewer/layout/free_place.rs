//! Where another patch or accent is laid: not inside one that lies there already.

use super::state::HandLayout;
use dappledome::layup::outlines::patch_at;
use dappledome::recipe::Place;
use leptos::prelude::*;

/// Places that are looked at from the middle to the rim.
const RINGS: i32 = 16;

/// How much of the way to the rim things are laid.
const WITHIN: f32 = 0.85;

/// The wanted place if nothing lies there, else the one that is farthest from everything.
pub fn free_place(layout: HandLayout, wanted: Option<[f32; 2]>) -> Place {
    let (patches, accents) = (layout.patches.read(), layout.accents.read());
    let edges = patches.iter().flat_map(|patch| patch.outlines.iter().flatten().copied());
    let edges: Vec<[f32; 2]> = edges.chain(accents.iter().map(|accent| [accent.x, accent.y])).collect();
    let taken = |[x, y]: [f32; 2]| {
        let accent = accents.iter().any(|accent| distance([accent.x, accent.y], [x, y]) < accent.size);
        accent || patch_at(&patches, x, y).is_some()
    };
    let place = match wanted.filter(|place| !taken(*place)) {
        Some(place) => place,
        None => freest(layout.map().radius, &edges, taken),
    };
    place.map(f64::from)
}

/// The place on a disc that is farthest from all edges and its rim; if every place is taken, the one nearest to an edge.
fn freest(radius: f32, edges: &[[f32; 2]], taken: impl Fn([f32; 2]) -> bool) -> [f32; 2] {
    let step = WITHIN * radius / RINGS as f32;
    let places =
        (-RINGS..=RINGS).flat_map(|x| (-RINGS..=RINGS).map(move |y| [x as f32 * step, y as f32 * step]));
    let room = |place: [f32; 2]| {
        let to_rim = radius - distance(place, [0.0; 2]);
        let to_edge =
            edges.iter().map(|edge| distance(*edge, place)).fold(to_rim, |a, b| if b < a { b } else { a });
        if taken(place) { -to_edge } else { to_edge }
    };
    let on_the_disc = places.filter(|place| distance(*place, [0.0; 2]) <= WITHIN * radius);
    let roomiest = on_the_disc.map(|place| (room(place), place)).max_by(|a, b| a.0.total_cmp(&b.0));
    roomiest.map_or([0.0; 2], |(_, place)| place)
}

fn distance([x, y]: [f32; 2], [u, v]: [f32; 2]) -> f32 {
    ((x - u) * (x - u) + (y - v) * (y - v)).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_freest_place_is_the_middle_of_an_empty_disc() {
        assert_eq!(freest(80.0, &[], |_| false), [0.0; 2]);
    }

    #[test]
    fn it_lies_across_from_what_lies_there() {
        // A patch that covers everything to the left of x = 10, with its edge there.
        let edge: Vec<[f32; 2]> = (-80..=80).map(|y| [10.0, y as f32]).collect();
        let [x, y] = freest(80.0, &edge, |[x, _]| x < 10.0);
        assert!((x - 45.0).abs() < 4.0 && y.abs() < 4.0, "halfway from the edge to the rim: {x}, {y}");
    }

    #[test]
    fn a_full_disc_takes_it_beside_an_edge() {
        let [x, _] = freest(80.0, &[[34.0, 0.0]], |_| true);
        assert_eq!(x, 34.0);
    }
}
