//! The studio's light, summed over directions from what a mirror shows of it.

use super::ball::{V, dot, narrow, sum, unit, wide};
use super::studio_light::mirrored_share;
use dappledome::base::scalar::sin_cos;
use dappledome::picture::studio::{R0, Studio, TABLE_DAY, WHITE, fresnel, refracted};
use dappledome::picture::vec3::Vec3;

const ROUND: usize = 720;
const DOWN: usize = 360;

/// Directions over the whole sphere, each with its solid angle.
fn all_round() -> impl Iterator<Item = (V, f64)> {
    let tau = std::f64::consts::TAU;
    (0..DOWN).flat_map(move |j| {
        let z = 1.0 - 2.0 * (j as f64 + 0.5) / DOWN as f64;
        (0..ROUND).map(move |i| {
            let (sin, cos) = sin_cos((i as f64 + 0.5) / ROUND as f64 * tau);
            let r = (1.0 - z * z).sqrt();
            ([r * cos, r * sin, z], 2.0 * tau / (DOWN * ROUND) as f64)
        })
    })
}

fn mirrored(d: V) -> f64 {
    f64::from(Studio::get().mirrored(narrow(d)))
}

#[test]
fn the_skin_reflects_by_fresnel() {
    for k in 1..=200 {
        let cosine = f64::from(k) / 200.0;
        let off = f64::from(fresnel(cosine as f32)) - mirrored_share(cosine);
        assert!(off.abs() < 2e-6, "{cosine}: off by {off}");
        // Snell: the sines are as 1.52 to 1.
        let inside = f64::from(refracted(cosine as f32));
        assert!(
            ((1.0 - inside * inside) * 1.52 * 1.52 - (1.0 - cosine * cosine)).abs() < 1e-6,
            "{cosine}: {inside}"
        );
    }
    assert!(
        (f64::from(fresnel(0.0)) - 1.0).abs() < 1e-6 && (f64::from(R0) - mirrored_share(1.0)).abs() < 1e-7
    );
}

/// Matte white glass gives back what arrives from all sides, less what its face mirrors, scaled by what it mirrors of light along its
/// normal: the sum over all directions of radiance times cosine over pi. Level, it shows as [`WHITE`].
#[test]
fn a_white_glass_gives_back_all_light_that_falls_on_it() {
    let studio = Studio::get();
    let lights: Vec<(V, f64)> =
        all_round().map(|(d, w)| (d, mirrored(d) * w / std::f64::consts::PI)).collect();
    let (mut worst, mut squares, mut count) = (0.0f64, 0.0, 0.0);
    for k in 0..60 {
        let z = 1.0 - f64::from(k) / 29.5;
        let (sin, cos) = sin_cos(f64::from(k) * 2.4);
        let r = (1.0 - z * z).max(0.0).sqrt();
        let n = if k == 0 { [0.0, 0.0, 1.0] } else { [r * cos, r * sin, z] };
        let mut want = 0.0;
        for (d, light) in &lights {
            let cosine = dot(*d, n);
            if cosine > 0.0 {
                want +=
                    light * cosine * (1.0 - mirrored_share(cosine.min(1.0))) / (1.0 - mirrored_share(1.0));
            }
        }
        let off = f64::from(studio.matte(narrow(n), 1.0)) - want;
        (worst, squares, count) = (worst.max(off.abs()), squares + off * off, count + 1.0);
        assert!(off.abs() < 0.015, "normal {n:?}: off by {off} of {want}");
    }
    let rms: f64 = (squares / count).sqrt();
    println!("white glass: worst {worst:.4}, rms {rms:.4}");
    assert!(rms < 0.006, "{rms}");
    let level = studio.matte(Vec3::new(0.0, 0.0, 1.0), 1.0);
    assert!((level - WHITE).abs() < 1e-5, "{level}");
}

/// The table near the glass gives its share, by how much of the half space it takes up.
#[test]
fn the_table_lights_what_looks_down() {
    let studio = Studio::get();
    let table = mirrored([0.0, 0.6, -0.8]);
    // Reflected in full light as the page's gray: IEC 61966-2-1.
    let gray = ((f64::from(TABLE_DAY[0]) / 255.0 + 0.055) / 1.055).max(0.0);
    let gray = dappledome::base::scalar::pow(gray, 2.4);
    assert!((table - gray).abs() < 1e-6, "{table}, not {gray}");
    let n = Vec3::new(0.6, 0.0, -0.8);
    let [full, half, none] = [1.0, 0.5, 0.0].map(|standing| f64::from(studio.matte(n, standing)));
    // Diffuse light loses 9.47 % at a face, straight light 4.26 % (Walsh 1926; Fresnel).
    let want = table * 0.9 * (1.0 - 0.094_707) / (1.0 - 0.042_58);
    assert!(
        (full - none - want).abs() < 1e-4 && (half - none - want / 2.0).abs() < 1e-4,
        "{full} {half} {none}"
    );
}

/// The room brightens evenly with height and is the same all around; seen from above it is darker overhead, and a card hangs in it.
#[test]
fn the_room_is_even_but_for_its_lights() {
    let at = |x: f64, y: f64, z: f64| mirrored(unit([x, y, z]));
    // Behind the eye and away from it there is no light.
    let behind = |z: f64| mirrored([0.0, -(1.0 - z * z).sqrt(), z]);
    let slope = (behind(0.8) - behind(0.0)) / 0.8;
    for z in [0.1, 0.35, 0.6] {
        assert!((behind(z) - behind(0.0) - slope * z).abs() < 1e-5, "{z}");
        let side = mirrored([0.1, (1.0 - z * z - 0.01).sqrt(), z]);
        assert!((side - behind(z)).abs() < 1e-5, "{z}: {side}");
    }
    assert!(slope > 0.0 && behind(0.0) > 0.0);
    let studio = Studio::get();
    let overhead = |d: V| f64::from(studio.overhead(narrow(d)));
    assert!(
        (overhead([0.0, -0.8, 0.6]) - behind(0.6)).abs() < 1e-6,
        "beside the dark it is what a mirror shows"
    );
    let level = unit([0.04, -0.12, 1.0]);
    assert!((overhead(level) / mirrored(level) - 0.4).abs() < 0.01, "0.4 of it overhead (by eye)");
    let card = unit([-0.10, 0.10, 1.0]);
    assert!(overhead(card) > 1.5 * overhead(level), "the card is paler than the dark");
    assert!(at(-0.52, 0.14, 0.84) > 5.0 * behind(0.8), "the soft light is far brighter than the room");
    assert!(at(0.85, 0.15, 0.45) > 2.0 * behind(0.45), "and so is the window");
}

/// The soft light is a frame whose samples cover it from edge to edge: bright in the middle, fading to nothing at its ends, in a plane
/// at right angles to its middle. Its share of the light on a level glass is its own sum.
#[test]
fn the_soft_light_is_a_frame() {
    let studio = Studio::get();
    let samples: Vec<V> = studio.key_samples(101).into_iter().map(wide).collect();
    let middle = samples[samples.len() / 2];
    let plane = |d: V| d.map(|x| x / dot(d, middle));
    let room = |d: V| mirrored([0.0, -(1.0 - d[2] * d[2]).sqrt(), d[2]]);
    let full = mirrored(middle) - room(middle);
    let row = |at: usize| samples[50 * 101 + at];
    let column = |at: usize| samples[at * 101 + 50];
    for line in [&row as &dyn Fn(usize) -> V, &column] {
        let bright: Vec<f64> = (0..101).map(|at| (mirrored(line(at)) - room(line(at))) / full).collect();
        assert!(
            (0..101).all(|at| (bright[at] - bright[100 - at]).abs() < 2e-3),
            "alike on both sides: {bright:?}"
        );
        assert!((1..=50).all(|at| bright[at] >= bright[at - 1] - 1e-3), "it fades outward: {bright:?}");
        assert!(
            bright[0] < 0.01 && (bright[50] - 1.0).abs() < 1e-6 && (bright[35] - 1.0).abs() < 1e-3,
            "{bright:?}"
        );
        // Even steps in the plane, at right angles to the middle, out to where nothing is left.
        let steps: Vec<V> = (0..101).map(|at| sum(plane(line(at)), middle, -1.0)).collect();
        let length = |v: V| dot(v, v).sqrt();
        let half = length(steps[100]);
        assert!((0..101).all(|at| (length(steps[at]) - half * (at as f64 - 50.0).abs() / 50.0).abs() < 1e-4));
        let beyond = unit(sum(middle, steps[100], 1.06));
        assert!((mirrored(beyond) - room(beyond)).abs() < 1e-5, "nothing is left beyond");
        // Half of it is left in the middle of the fading, which is as wide on either side of the frame's own edge.
        let fading: Vec<f64> = (0..=50).map(|at| bright[at]).collect();
        let first_full = fading.iter().position(|b| *b > 0.999).unwrap_or(0);
        let half_way = fading.iter().position(|b| *b >= 0.5).unwrap_or(0);
        assert!((half_way as f64 - first_full as f64 / 2.0).abs() <= 1.5, "{half_way}, {first_full}");
    }
    let (mut key, mut up) = (0.0, 0.0);
    for (d, w) in all_round().filter(|(d, _)| d[2] > 0.0) {
        let enters =
            d[2] * (1.0 - mirrored_share(d[2])) / (1.0 - mirrored_share(1.0)) * w / std::f64::consts::PI;
        up += mirrored(d) * enters;
        if d[0] < 0.0 {
            key += (mirrored(d) - room(d)) * enters;
        }
    }
    let share = f64::from(studio.key_share());
    assert!((share - key / up).abs() < 0.01, "{share}, not {}", key / up);
}
