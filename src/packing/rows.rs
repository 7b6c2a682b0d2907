//! Discs in rows: square, and staggered as bees build, drawn apart until they fill the width.

use super::region::{Place, Region, SAME};

/// The most that rows of any kind hold.
pub fn best(region: Region) -> Vec<Place> {
    let mut best = Vec::new();
    for places in all(region) {
        if places.len() > best.len() {
            best = places;
        }
    }
    best
}

/// Every way of laying rows.
pub fn all(region: Region) -> Vec<Vec<Place>> {
    match region {
        Region::Square(wide, deep) => {
            let turned = |places: Vec<Place>| places.into_iter().map(|[x, y]| [y, x]).collect();
            let along = in_rows(wide, deep);
            let across = in_rows(deep, wide).into_iter().map(turned);
            along.into_iter().chain(across).collect()
        }
        Region::Round(radius) => in_a_circle(radius),
    }
}

/// How often 1 goes into a length.
fn times(length: f64) -> usize {
    (length + SAME).floor() as usize
}

/// Rows along the width: square ones, and staggered ones of every number of discs for which rows still press on each other.
fn in_rows(wide: f64, deep: f64) -> Vec<Vec<Place>> {
    let most = times(wide) + 1;
    let mut all = vec![rows(most, 1.0, 0.0, 1.0, deep, most)];
    for count in (1..=most).rev() {
        let even = wide / (count as f64 - 0.5);
        if presses(even) {
            all.push(rows(count, even, even / 2.0, pitch(even), deep, count));
        }
        let odd = wide / (count as f64 - 1.0).max(0.5);
        if count > 1 && presses(odd) {
            all.push(rows(count, odd, odd / 2.0, pitch(odd), deep, count - 1));
        }
    }
    all
}

/// Further apart than this, discs of every other row come too near to each other: twice the pitch is then less than 1.
const WIDEST: f64 = 1.732_050_807_568_877_2;

/// Whether staggered rows of discs so far apart press on each other.
fn presses(apart: f64) -> bool {
    (1.0 - SAME..=WIDEST).contains(&apart)
}

/// Distance of two staggered rows whose discs lie so far apart.
fn pitch(apart: f64) -> f64 {
    (1.0 - apart * apart / 4.0).sqrt().max(0.5)
}

/// Rows of `count` discs, every other one shifted and of `others`.
fn rows(count: usize, apart: f64, shift: f64, pitch: f64, deep: f64, others: usize) -> Vec<Place> {
    let lines = times(deep / pitch) + 1;
    let mut places = Vec::new();
    for line in 0..lines {
        let (begins, length) = if line % 2 == 0 { (0.0, count) } else { (shift, others) };
        places.extend((0..length).map(|at| [begins + at as f64 * apart, line as f64 * pitch]));
    }
    places
}

/// Parts into which the way from one row to the next is divided where rows are moved over a circle.
const PARTS: usize = 6;

/// Rows laid over a circle, moved step by step.
fn in_a_circle(radius: f64) -> Vec<Vec<Place>> {
    let mut all = Vec::new();
    for (shift, pitch) in [(0.0, 1.0), (0.5, 3.0_f64.sqrt() / 2.0)] {
        for step in 0..PARTS * PARTS {
            let at = |step: usize| step as f64 / PARTS as f64;
            all.push(over_a_circle(radius, shift, pitch, [at(step % PARTS), at(step / PARTS) * pitch]));
        }
    }
    all
}

fn over_a_circle(radius: f64, shift: f64, pitch: f64, moved: Place) -> Vec<Place> {
    let lines = times(radius / pitch) as i32 + 2;
    let along = times(radius) as i32 + 2;
    let mut places = Vec::new();
    for line in -lines..=lines {
        let begins = moved[0] + shift * f64::from(line.rem_euclid(2));
        places
            .extend((-along..=along).map(|at| [begins + f64::from(at), moved[1] + f64::from(line) * pitch]));
    }
    let reach = (radius + SAME) * (radius + SAME);
    places.retain(|[x, y]| x * x + y * y <= reach);
    places
}
