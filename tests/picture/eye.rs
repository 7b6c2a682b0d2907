//! What each pixel sees, against lines of sight followed to the ball.

use super::ball::*;
use dappledome::base::scalar::{sin_cos, tan};
use dappledome::picture::cast::{AIM, Camera, Cast, DISTANCE, FIELD};
use dappledome::picture::shade::{REACH, Shade};
use dappledome::picture::studio::Studio;
use std::collections::{BTreeMap, BTreeSet};

const SIZE: u32 = 96;

/// The eye and the direction of a line of sight through a place of the picture, in pixels: an eye so many radii away from a
/// place at a share of the height, a picture plane at right angles to its view.
fn sight(tilt: f64, zoom: f64, x: f64, y: f64) -> (V, V) {
    let (sin, cos) = sin_cos(tilt.to_radians());
    let forward = [0.0, cos, -sin];
    let height = middle() + RADIUS + HALF;
    let eye = sum([0.0, 0.0, f64::from(AIM) * height], forward, -f64::from(DISTANCE) * (rim().0 + HALF));
    let half = tan((FIELD / 2.0).to_radians()) / zoom;
    let (a, b) = (2.0 * x / f64::from(SIZE) - 1.0, 1.0 - 2.0 * y / f64::from(SIZE));
    let toward = sum(sum(forward, [1.0, 0.0, 0.0], a * half), [0.0, sin, cos], b * half);
    (eye, unit(toward))
}

#[test]
fn the_eye_stands_where_it_is_said_to() {
    let shell = shell();
    for (tilt, zoom) in [(33.0, 1.0), (8.0, 2.0), (88.0, 0.5)] {
        let camera = Camera::new(&shell, SIZE, tilt, zoom);
        for (x, y) in [(48.0, 48.0), (0.0, 0.0), (90.0, 10.0), (20.0, 75.0)] {
            let (eye, toward) = sight(tilt.into(), zoom.into(), x, y);
            let ray = camera.ray(x as f32, y as f32);
            assert!(
                dot(sum(wide(ray.from), eye, -1.0), sum(wide(ray.from), eye, -1.0)) < 1e-3,
                "{ray:?}, not {eye:?}"
            );
            assert!(dot(wide(ray.toward), toward) > 1.0 - 1e-7, "{ray:?}, not {toward:?}");
            // And back: what lies 500 mm along it is seen there, 500 mm away but for the slant.
            let (px, py, depth) = camera.project(narrow(sum(eye, toward, 500.0)));
            assert!(
                (f64::from(px) - x).abs() < 0.01 && (f64::from(py) - y).abs() < 0.01,
                "{px}, {py}, not {x}, {y}"
            );
            let straight = sight(tilt.into(), zoom.into(), 48.0, 48.0).1;
            assert!((f64::from(depth) - 500.0 * dot(toward, straight)).abs() < 0.05, "{depth}");
        }
        let pixel = 2.0 * tan((FIELD / 2.0).to_radians()) / f64::from(zoom) / f64::from(SIZE);
        assert!((f64::from(camera.pixel()) - pixel).abs() < 1e-7 && camera.size() == SIZE);
    }
}

/// Every pixel, at three heights of the eye: whether it sees glass, how much of it, where, how it stands, and what lies behind.
#[test]
fn every_pixel_sees_the_ball() {
    let shell = shell();
    let shade = Shade::new(&shell);
    for tilt in [20.0f32, 33.0, 75.0] {
        let cast = Cast::new(&shell, &shade, &Camera::new(&shell, SIZE, tilt, 1.0), true, 0);
        assert_eq!(cast.behind.len(), cast.glass.len());
        let pixel = 2.0 * tan((FIELD / 2.0).to_radians()) / f64::from(SIZE);
        let seen: BTreeMap<(u16, u16), usize> =
            cast.glass.iter().enumerate().map(|(i, (at, _))| (*at, i)).collect();
        assert_eq!(seen.len(), cast.glass.len(), "no pixel is painted twice");
        let tables: BTreeMap<(u16, u16), usize> =
            cast.table.iter().enumerate().map(|(i, (at, _))| (*at, i)).collect();
        let (mut walls, mut edges, mut tables_behind) = (0, 0, 0);
        let (mut beside, mut off_beside) = (0.0, 0.0);
        for at in (0..SIZE as u16).flat_map(|y| (0..SIZE as u16).map(move |x| (x, y))) {
            let (eye, toward) = sight(tilt.into(), 1.0, f64::from(at.0) + 0.5, f64::from(at.1) + 0.5);
            let want = meets(eye, toward, 300.0);
            let covered = match want {
                Ok(_) => 1.0,
                Err((least, _)) => 1.0 - least / pixel,
            };
            let what = format!("tilt {tilt}, {at:?}");
            let got = seen.get(&at).map(|i| &cast.glass[*i].1);
            let share = got.map_or(0.0, |glass| f64::from(glass.covered));
            // The engine's steps along a look that misses meet its nearest place only nearly.
            let off = (share - covered.clamp(0.0, 1.0)).abs();
            // Where the round of the rim stands on the table, the table comes first or a little later.
            let (Ok(t) | Err((_, t))) = want;
            if sum(eye, toward, t)[2] < 2.0 && off > 0.05 {
                continue;
            }
            let partly = covered > 0.0 && covered < 1.0;
            assert!(off < if partly { 0.3 } else { 0.05 }, "{what}: {share}, not {covered}");
            if partly {
                (beside, off_beside) = (beside + 1.0, off_beside + off);
            }
            let p = sum(eye, toward, -eye[2] / toward[2]);
            let near_the_piece = (p[0] * p[0] + p[1] * p[1]).sqrt() / (rim().0 + HALF) / f64::from(REACH);
            if toward[2] < -1e-3 && (near_the_piece - 1.0).abs() > 1e-3 && (covered - 1.0).abs() > 0.02 {
                let table = tables.get(&at).map(|i| &cast.table[*i].1);
                assert_eq!(table.is_some(), near_the_piece < 1.0 && covered < 1.0, "{what}: table");
                if let Some(table) = table {
                    let off = (f64::from(table.x) - p[0]).abs() + (f64::from(table.y) - p[1]).abs();
                    assert!(
                        off < 0.05 && table.lit == shade.at(table.x, table.y),
                        "{what}: {table:?}, not {p:?}"
                    );
                }
            }
            let (Ok(t), Some(glass)) = (want, got) else {
                edges += usize::from(share > 0.0);
                continue;
            };
            let place = sum(eye, toward, t);
            let want = near_place(place);
            let r = (place[0] * place[0] + place[1] * place[1]).sqrt();
            let normal = [place[0] / r * want.out, place[1] / r * want.out, want.up];
            // At a grazing look a hundredth of a millimeter sideways is much of it along the sight.
            let steep = (-dot(toward, normal)).max(0.02);
            assert!((f64::from(glass.t) - t).abs() < 0.03 / steep, "{what}: {glass:?}, not {t}");
            if steep > 0.1 {
                assert!(dot(wide(glass.normal), normal) > 0.999, "{what}: {glass:?}, not {normal:?}");
                assert!((f64::from(glass.s) - want.s).abs() < 0.1, "{what}: {glass:?}, not {want:?}");
                if want.s < 76.0 || want.around > 0.1 {
                    assert!(
                        (f64::from(glass.around_rim) - want.around).abs() < 0.03,
                        "{what}: {glass:?}, not {want:?}"
                    );
                }
                let off = sum(wide(glass.place), place, -1.0);
                assert!(dot(off, off) < 0.04, "{what}: {glass:?}, not {place:?}");
            }
            let behind = &cast.behind[seen[&at]];
            if want.around > 0.0 {
                continue;
            }
            let goes_on = inside(place, toward);
            let passes = (1.0 - steep * steep).sqrt() * (RADIUS + HALF) / (RADIUS - HALF);
            let Some((from, toward)) = goes_on else {
                assert!(behind.ray.1 == 0.0 || passes < 1.002, "{what}: {behind:?}");
                continue;
            };
            // Where it runs along the inner face, a hair's breadth decides.
            if passes > 0.99 {
                continue;
            }
            let (ray, goes_in) = behind.ray;
            assert_eq!(goes_in, 1.0, "{what}: it goes on");
            let off = sum(wide(ray.toward), toward, -1.0);
            assert!(dot(off, off).sqrt() < 0.01, "{what}: {ray:?}, not {toward:?}");
            let ((x, y), _, meets_table) = behind.table;
            assert_eq!(meets_table > 0.0, ray.toward.z < -1e-3, "{what}");
            if meets_table > 0.0 && toward[2] < -0.2 {
                let p = sum(from, toward, -from[2] / toward[2]);
                let off = sum([x.into(), y.into(), 0.0], p, -1.0);
                assert!(dot(off, off) < 1.0, "{what}: {x}, {y}, not {p:?}");
                tables_behind += 1;
            }
            let far = meets(from, toward, 0.3).ok().map(|t| sum(from, toward, t)).filter(|p| p[2] > 0.3);
            // A look that runs along the glass may come to it a little sooner or later.
            let squarely = |far: V| {
                let (r, near) = ((far[0] * far[0] + far[1] * far[1]).sqrt(), near_place(far));
                let normal = [far[0] / r * near.out, far[1] / r * near.out, near.up];
                dot(toward, normal).abs() > 0.35
            };
            let sure = steep > 0.3
                && far.is_none_or(|far| far[2] > 1.0 && near_place(far).s < 78.0 && squarely(far));
            let (wall, s, meets_wall) = behind.wall;
            if let (true, Some(far), true) = (sure, far, meets_wall > 0.0) {
                assert!(
                    dot(sum(wide(wall), far, -1.0), sum(wide(wall), far, -1.0)) < 1.0,
                    "{what}: {wall:?}, not {far:?}"
                );
                assert!((f64::from(s) - near_place(far).s).abs() < 0.5, "{what}: {s}");
                walls += 1;
            } else if sure && far.is_some() {
                panic!("{what}: a far wall at {far:?} is not seen");
            }
        }
        assert!(tables_behind > 1000, "{tables_behind} looks at the table");
        println!("tilt {tilt}: edges covered by {:.3} too much or too little", off_beside / beside);
        assert!(off_beside / beside < 0.05, "{off_beside} over {beside} pixels");
        assert!(edges > 40 && (walls > 100 || tilt > 25.0), "{edges} edges, {walls} far walls");
    }
}

/// What light the ball leaves free, by many more directions than the engine's, at places under the dome and about it.
#[test]
fn shadow_is_what_the_ball_keeps_off() {
    let (shell, studio) = (shell(), Studio::get());
    let shade = Shade::new(&shell);
    let key: Vec<V> = studio.key_samples(12).into_iter().map(wide).collect();
    let room: Vec<V> = (0..400)
        .map(|i| {
            let share = (f64::from(i) + 0.5) / 400.0;
            let (sin, cos) = sin_cos(f64::from(i) * 2.399_963);
            [share.sqrt() * cos, share.sqrt() * sin, (1.0 - share).sqrt()]
        })
        .collect();
    let free = |p: [f64; 2], rays: &[V]| {
        let from = [p[0], p[1], 0.6];
        rays.iter().filter(|toward| meets(from, **toward, 0.0).is_err()).count() as f64 / rays.len() as f64
    };
    let (mut off_key, mut off_room, mut count) = (0.0, 0.0, 0.0);
    // Nearer than the shadow fades: 0.45 of its reach of two radii.
    for r in [0.0, 20.0, 45.0, 60.0, 76.0, 80.0, 90.0, 105.0, 120.0, 132.0] {
        for turn in 0..12 {
            let (sin, cos) = sin_cos(f64::from(turn) * std::f64::consts::FRAC_PI_6 + 0.1);
            let p = [r * cos, r * sin];
            let (got_key, got_room) = shade.at(p[0] as f32, p[1] as f32);
            let (key, room) = (f64::from(got_key) - free(p, &key), f64::from(got_room) - free(p, &room));
            // The soft light's own shadow has an edge.
            assert!(room.abs() < 0.07 && key.abs() < 0.4, "{r} mm, {turn}: off by {key} and {room}");
            (off_key, off_room, count) = (off_key + key.abs(), off_room + room.abs(), count + 1.0);
        }
    }
    println!(
        "shadow: off by {:.3} of the soft light and {:.3} of the room's",
        off_key / count,
        off_room / count
    );
    assert!(off_key / count < 0.025 && off_room / count < 0.025, "{off_key} {off_room} of {count}");
    for (x, y) in [(160.0, 20.0), (-170.0, 60.0), (0.0, -155.0)] {
        assert_eq!(shade.at(x, y), (1.0, 1.0), "far off the table has all its light");
    }
}

/// A picture of more than a million pixels is seen in bands: every pixel once, in the band of its rows, none left out.
#[test]
fn bands_of_a_large_picture_lie_under_each_other() {
    let shell = shell();
    let shade = Shade::new(&shell);
    let camera = Camera::new(&shell, 1100, 33.0, 1.0);
    assert_eq!((Cast::bands(&Camera::new(&shell, 1024, 33.0, 1.0)), Cast::bands(&camera)), (1, 2));
    let bands = [0, 1].map(|band| Cast::new(&shell, &shade, &camera, false, band));
    let rows = |cast: &Cast| cast.table.iter().map(|(at, _)| at.1).collect::<BTreeSet<u16>>();
    let (upper, lower) = (rows(&bands[0]), rows(&bands[1]));
    assert_eq!(
        upper.last().map(|row| row + 1),
        lower.first().copied(),
        "one band begins where the other ends"
    );
    let mut seen = BTreeMap::<u16, BTreeSet<u16>>::new();
    for ((x, y), glass) in bands.iter().flat_map(|cast| &cast.glass) {
        assert!(seen.entry(*y).or_default().insert(*x), "{x}, {y} is painted twice");
        let ray = camera.ray(f32::from(*x) + 0.5, f32::from(*y) + 0.5);
        let off = glass.place - ray.at(glass.t);
        assert!(off.length() < 1e-2, "{x}, {y} is not seen there: {off:?}");
    }
    let gapless = |numbers: &mut dyn Iterator<Item = u16>| {
        let numbers: Vec<u16> = numbers.collect();
        let (first, last) = (numbers[0], numbers[numbers.len() - 1]);
        assert_eq!(
            numbers.len(),
            usize::from(last - first) + 1,
            "something between {first} and {last} is left out"
        );
        (first, last)
    };
    gapless(&mut seen.keys().copied());
    for (y, columns) in &seen {
        let (first, last) = gapless(&mut columns.iter().copied());
        assert_eq!(first, 1099 - last, "row {y}: its halves mirror each other");
    }
}
