//! The solid against the ball.

use super::ball::*;
use dappledome::picture::shell::Ray;

/// Places above and below the glass, beside the rim and on the axis, mm.
fn places() -> Vec<(f64, f64)> {
    (0..43).flat_map(|i| (0..31).map(move |j| (f64::from(i) * 1.83, f64::from(j) * 1.57))).collect()
}

#[test]
fn the_shell_measures_as_the_ball() {
    let shell = shell();
    let close = |what: &str, got: f32, want: f64| {
        assert!((f64::from(got) - want).abs() < 0.01, "{what}: {got}, not {want}");
    };
    close("thickness", shell.thickness(), 6.0);
    close("flat radius", shell.flat_radius(), 77.0);
    close("rim", shell.rim().0, rim().0);
    close("height of the rim", shell.rim().1, HALF);
    close("widest", shell.widest(), rim().0 + HALF);
    close("highest", shell.highest(), middle() + RADIUS + HALF);
    for s in [0.0, 10.0, 33.3, 61.0, 77.0] {
        let (r, z, out, up) = shell.at_flat(s as f32);
        let cosine = cosine(s);
        let sine = (1.0 - cosine * cosine).sqrt();
        close("radius", r, RADIUS * sine);
        close("height", z, middle() + RADIUS * cosine);
        close("normal out", out, sine);
        close("normal up", up, cosine);
    }
}

/// By the table within a hundredth, but where the distance has a crease: on the middle of the glass and near the axis of its own
/// middle; exactly to the meridian's segments.
#[test]
fn distances_are_the_balls() {
    let shell = shell();
    for (r, z) in places() {
        let want = near(r, z);
        let got = f64::from(shell.distance(r as f32, z as f32));
        // Beyond the table it is a lower bound.
        let tolerance = if want.distance < -1.5 {
            0.9
        } else if want.distance > 5.0 {
            0.7
        } else {
            0.06
        };
        assert!((got - want.distance).abs() < tolerance, "{r}, {z}: {got}, not {want:?}");
        let (exact, (out, up), _) = shell.exact_distance(r as f32, z as f32);
        assert!((f64::from(exact) - want.distance).abs() < 0.003, "{r}, {z}: {exact}, not {want:?}");
        if want.distance > -2.0 {
            let along = f64::from(out) * want.out + f64::from(up) * want.up;
            assert!(along > 0.9995, "{r}, {z}: {out}, {up}, not {want:?}");
            let surface = shell.surface(r as f32, z as f32);
            let along = f64::from(surface.out) * want.out + f64::from(surface.up) * want.up;
            assert!(along > 0.9995, "{r}, {z}: {surface:?}, not {want:?}");
            // The innermost segment is a cone, not a sphere; far from the glass a small turn is a long way on it.
            let tolerance = if r < 2.0 { 0.3 } else { 0.02 + 0.01 * want.distance.abs() };
            assert!((f64::from(surface.s) - want.s).abs() < tolerance, "{r}, {z}: {surface:?}, not {want:?}");
            assert!((f64::from(surface.distance) - want.distance).abs() < 0.003, "{surface:?}, not {want:?}");
            if (want.around - 1.0).abs() < 0.9 || want.s < 76.0 {
                let off = (f64::from(surface.around_rim) - want.around).abs();
                assert!(off < 0.02, "{r}, {z}: {surface:?}, not {want:?}");
            }
        }
    }
    // Far off, a lower bound that still says how far.
    for (r, z) in [(150.0, 10.0), (30.0, 140.0), (160.0, 120.0)] {
        let (got, want) = (f64::from(shell.distance(r as f32, z as f32)), near(r, z).distance);
        assert!(got <= want + 0.1 && got > 0.5 * want, "{r}, {z}: {got}, not {want}");
    }
}

/// Light from a spiral of directions, from places on the table and above it.
#[test]
fn rays_are_stopped_by_the_ball() {
    let shell = shell();
    let (mut stopped, mut free) = (0, 0);
    for from in
        [[0.0, 0.0, 0.6], [60.0, 10.0, 0.6], [95.0, -20.0, 0.6], [-40.0, 30.0, 70.0], [0.0, 140.0, 5.0]]
    {
        for k in 0..160 {
            let z = 1.0 - (f64::from(k) + 0.5) / 80.0;
            let turn = f64::from(k) * 2.4;
            let (sin, cos) = dappledome::base::scalar::sin_cos(turn);
            let toward = [(1.0 - z * z).sqrt() * cos, (1.0 - z * z).sqrt() * sin, z];
            let want = meets(from, toward, 0.0);
            // Where it all but grazes either may be right.
            if matches!(want, Err((_, t)) if near_place(sum(from, toward, t)).distance < 0.15) {
                continue;
            }
            let ray = Ray { from: narrow(from), toward: narrow(toward) };
            assert_eq!(shell.stops(&ray), want.is_ok(), "{from:?} toward {toward:?}: {want:?}");
            let march = shell.march(&ray, 0.0, 0.05, 0.0);
            if let (Some(t), Ok(want)) = (march.hit, want) {
                let p = sum(from, toward, f64::from(t));
                assert!(near_place(p).distance < 0.12, "{from:?} toward {toward:?}: {t}, not {want}");
                stopped += 1;
            } else {
                free += 1;
            }
        }
    }
    assert!(stopped > 150 && free > 200, "{stopped} stopped, {free} free");
}
