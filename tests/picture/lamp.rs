//! The lantern inside: its outline, its light on glass and plate by the sum over all directions, and what comes back of it.

use super::ball::*;
use dappledome::base::scalar::sin_cos;
use dappledome::picture::lantern::Lantern;
use dappledome::picture::shell::Ray;

fn seen(lantern: &Lantern, from: V, toward: V) -> Option<(f32, f32)> {
    let cap = lantern.seen(&Ray { from: narrow(from), toward: narrow(unit(toward)) })?;
    Some((cap.bright, cap.cover))
}

/// The last place, going out from inside, at which a look still meets the lantern.
fn outline(meets: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (0.0, 200.0);
    for _ in 0..50 {
        let middle = (low + high) / 2.0;
        if meets(middle) { low = middle } else { high = middle }
    }
    low
}

/// Half width on the table and height, mm, as level looks tell them.
fn size(lantern: &Lantern) -> (f64, f64) {
    let height = outline(|z| seen(lantern, [0.0, -200.0, z], [0.0, 1.0, 0.0]).is_some());
    let half = outline(|x| seen(lantern, [x, -200.0, 1e-3], [0.0, 1.0, 0.0]).is_some());
    (half, height)
}

#[test]
fn the_lantern_is_half_an_ellipsoid_clear_of_the_glass() {
    let lantern = Lantern::new(&shell());
    let (a, c) = size(&lantern);
    for k in 1..9 {
        let z = c * f64::from(k) / 9.0;
        let want = a * (1.0 - z * z / (c * c)).sqrt();
        let got = outline(|x| seen(&lantern, [x, -200.0, z], [0.0, 1.0, 0.0]).is_some());
        assert!((got - want).abs() < 0.02, "{z} mm high it is {got} mm wide, not {want}");
        // Round about its axis, and seen from within the piece as from outside.
        let across = outline(|y| seen(&lantern, [-70.0, y, z], [1.0, 0.0, 0.0]).is_some());
        assert!((across - want).abs() < 0.02, "{z}: {across}");
        let (sin, cos) = sin_cos(f64::from(k));
        let glass = [want * cos, want * sin, z];
        assert!(near_place(glass).distance > 1.0, "it stands clear: {:?}", near_place(glass));
    }
    assert!(a > 30.0 && c > 15.0, "it is no speck: {a} by {c}");
    assert!(seen(&lantern, [0.0, -200.0, 10.0], [0.0, -1.0, 0.0]).is_none(), "not behind one's back");
    assert!(seen(&lantern, [0.0, -200.0, -5.0], [0.0, 1.0, 0.0]).is_none(), "not under the table");
    // Brighter in the middle and straight on, the same from all sides; covering all but at its outline.
    let straight = seen(&lantern, [0.0, 0.0, 200.0], [0.0, 0.0, -1.0]).expect("from above");
    let side = |x: f64| seen(&lantern, [x * a, 0.0, 200.0], [0.0, 0.0, -1.0]).expect("from above");
    assert!(straight.0 > side(0.5).0 && side(0.5).0 > side(0.9).0 && straight.1 == 1.0, "{straight:?}");
    assert!((side(0.7).0 - side(-0.7).0).abs() < 1e-5 && side(0.99999).1 < 0.9);
    // At its outline frost is 0.3 as bright as straight on, behind 0.72 of the bulb's least (by eye).
    assert!(
        (straight.0 - 1.12).abs() < 1e-4 && (side(0.99999).0 - 0.3 * 0.72).abs() < 0.01,
        "{:?}",
        side(0.99999)
    );
}

/// Light at a place with a normal: the mean of what is seen from there over directions as a matte surface takes them.
fn arrives(lantern: &Lantern, place: V, normal: V) -> f64 {
    const RAYS: u32 = 4000;
    let across = if normal[0].abs() < 0.9 { [1.0, 0.0, 0.0] } else { [0.0, 0.0, 1.0] };
    let cross =
        |a: V, b: V| [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
    let right = unit(cross(normal, across));
    let up = cross(right, normal);
    let light = |i: u32| {
        let share = (f64::from(i) + 0.5) / f64::from(RAYS);
        let (sin, cos) = sin_cos(f64::from(i) * 2.399_963_229_728_653 + 1.0);
        let level = sum(right.map(|x| x * share.sqrt() * cos), up, share.sqrt() * sin);
        seen(lantern, place, sum(level, normal, (1.0 - share).sqrt()))
            .map_or(0.0, |(bright, _)| f64::from(bright))
    };
    (0..RAYS).map(light).sum::<f64>() / f64::from(RAYS)
}

/// On the inside of the ball and on the plate; the mean over the glass by area; and what comes back again and again.
#[test]
fn the_lamps_light_adds_up() {
    let lantern = Lantern::new(&shell());
    let (half, _) = size(&lantern);
    let wall = |s: f64| {
        let (cosine, sine) = (cosine(s), (1.0 - cosine(s) * cosine(s)).sqrt());
        let inner = RADIUS - HALF;
        arrives(&lantern, [inner * sine, 0.0, middle() + inner * cosine], [-sine, 0.0, -cosine])
    };
    let plate = |r: f64| arrives(&lantern, [r, 0.0, 0.02], [0.0, 0.0, 1.0]);
    let mut on_wall = (0.0, 0.0);
    for k in 0..40 {
        let share = (f64::from(k) + 0.5) / 40.0;
        let (s, r) = (77.0 * share, half + (rim().0 - half) * share);
        let (want, got) = (wall(s), f64::from(lantern.on_wall(s as f32)));
        assert!((got - want).abs() < 0.02, "on the glass at {s} mm: {got}, not {want}");
        on_wall = (on_wall.0 + want * s, on_wall.1 + s);
        let (want, got) = (plate(r), f64::from(lantern.on_plate(r as f32)));
        assert!((got - want).abs() < 0.04, "on the plate at {r} mm: {got}, not {want}");
    }
    let wall = on_wall.0 / on_wall.1;
    let mean = f64::from(lantern.mean_on_wall());
    println!("mean on the glass {mean:.4}, by the sum {wall:.4}");
    assert!((mean - wall).abs() < 0.01, "{mean}, not {wall}");
    // What comes back to the glass, 0.70 of what it sends back, its face included, comes back again: a geometric series, term by term.
    let glass = [0.0f32, 0.4, 0.8];
    for (got, glass) in Lantern::gain(glass).into_iter().zip(glass.map(f64::from)) {
        let (mut series, mut term) = (0.0, 1.0);
        for _ in 0..200 {
            (series, term) = (series + term, term * 0.70 * (glass + 0.0947));
        }
        assert!((f64::from(got) - series).abs() < 1e-4 * series, "{glass}: {got}, not {series}");
    }
}

/// Light that is thrown about is spread more evenly than what comes straight, and adds up to as much: over the whole glass the mean
/// is `gain` times the direct one.
#[test]
fn what_is_thrown_about_is_spread_and_kept() {
    let lantern = Lantern::new(&shell());
    let gain = [1.0, 1.7, 2.6];
    let (mut sums, mut area) = ([0.0f64; 3], 0.0);
    for k in 0..400 {
        let s = 77.0 * (f64::from(k) + 0.5) / 400.0;
        let light = lantern.on_wall_in_all(s as f32, gain);
        assert!((light[0] - lantern.on_wall(s as f32)).abs() < 1e-6, "glass that sends nothing back");
        for k in 0..3 {
            sums[k] += f64::from(light[k]) * s;
        }
        area += s;
    }
    for k in 0..3 {
        let want = f64::from(gain[k] * lantern.mean_on_wall());
        assert!((sums[k] / area - want).abs() < 0.003 * want, "{k}: {} for {want}", sums[k] / area);
    }
    let evenness = |gain: f32| {
        let [crown, rim] = [0.0, 77.0].map(|s| lantern.on_wall_in_all(s, [gain; 3])[0]);
        rim / crown
    };
    assert!(evenness(1.0) < evenness(1.7) && evenness(1.7) < evenness(2.6) && evenness(2.6) < 1.0);
}

/// The top of the cap faces away from the plate; its foot, upright, has half of what it sees filled by it, of which frost throws back 0.8
/// and the plate 0.8.
#[test]
fn the_cap_throws_back_the_plates_light() {
    let lantern = Lantern::new(&shell());
    let (half, height) = size(&lantern);
    let back = |from: V, toward: V| {
        let cap = lantern.seen(&Ray { from: narrow(from), toward: narrow(toward) }).expect("it is met");
        f64::from(lantern.thrown_back(&cap))
    };
    assert!(back([0.0, 0.0, 200.0], [0.0, 0.0, -1.0]).abs() < 1e-6);
    let foot = f64::from(lantern.on_plate(half as f32));
    let low = back([0.0, -200.0, 1e-3 * height], [0.0, 1.0, 0.0]);
    assert!((low - 0.5 * 0.8 * 0.8 * foot).abs() < 1e-3 && low > 0.02, "{low} of {foot}");
}
