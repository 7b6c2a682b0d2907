//! The disc from above: where each place of it is seen, and the light of plain pieces.

use super::pieces::*;
use super::studio_light::{gloss, mirrored_share};
use dappledome::color::srgb::Linear;
use dappledome::optics::colors::{LAMP, WHITE, lamp_for};
use dappledome::optics::edge::{Band, Edge};
use dappledome::picture::flat::{Lying, paint};
use dappledome::picture::studio::Studio;
use dappledome::picture::surface::ripples;
use dappledome::picture::{Light, Pixmap, Stage, View};

const SIZE: u32 = 256;
/// mm per pixel: the disc takes 0.9 of the picture.
const SCALE: f32 = 160.0 / (0.9 * SIZE as f32);

fn view(light: Light) -> View {
    View::usual(Stage::Fused, light, SIZE)
}

fn edge(shown: Linear) -> Edge {
    Edge(vec![Band { upto: 1.0, shown, through: [0.3; 3] }])
}

/// The pixel at a place on the table, mm from the middle.
fn pixel(x: f32, y: f32) -> (u32, u32) {
    let half = SIZE as f32 / 2.0;
    ((half + x / SCALE) as u32, (half - y / SCALE) as u32)
}

/// The place of the middle of a pixel, mm.
fn place((px, py): (u32, u32)) -> (f32, f32) {
    let half = SIZE as f32 / 2.0;
    ((px as f32 + 0.5 - half) * SCALE, (half - py as f32 - 0.5) * SCALE)
}

fn at(picture: &Pixmap, x: f32, y: f32) -> [f64; 3] {
    let (x, y) = pixel(x, y);
    light(picture, x, y)
}

fn times(color: Linear, factor: f32) -> [f64; 3] {
    color.map(|c| f64::from(c * factor))
}

/// Each quarter of the disc has its own color: to the right and up, turned counterclockwise, twice as near.
#[test]
fn a_place_is_seen_where_it_lies() {
    let quarters = |x: f32, y: f32| match (x > 0.0, y > 0.0) {
        (true, true) => [0.5, 0.1, 0.1],
        (false, true) => [0.1, 0.5, 0.1],
        (false, false) => [0.1, 0.1, 0.5],
        (true, false) => [0.4, 0.4, 0.1],
    };
    let colors = field(quarters);
    let height = vec![1.0; colors.grid.len()];
    let lying = Lying::Powder { colors: &colors, height: &height };
    let paint = |turn, zoom| paint(&lying, &View { turn, zoom, ..view(Light::Gray) });
    let as_it_lies = paint(0.0, 1.0);
    for (x, y) in [(40.0, 20.0), (-30.0, 50.0), (-10.0, -60.0), (55.0, -5.0)] {
        same(&format!("{x}, {y}"), at(&as_it_lies, x, y), times(quarters(x, y), WHITE));
        // A quarter of a turn takes (x, y) to (-y, x).
        same(&format!("{x}, {y} turned"), at(&paint(90.0, 1.0), -y, x), times(quarters(x, y), WHITE));
        same("half a turn", at(&paint(180.0, 1.0), -x, -y), times(quarters(x, y), WHITE));
        same("nearer", at(&paint(0.0, 2.0), x, y), times(quarters(x / 2.0, y / 2.0), WHITE));
    }
    // The rim, and the gray beside it.
    let gray = [0.305; 3];
    for (x, y) in [(79.0, 0.0), (0.0, -79.0), (-55.0, 55.0)] {
        assert!(at(&as_it_lies, x, y)[2] < 0.3 || at(&as_it_lies, x, y)[2] > 0.35, "{x}, {y} is on the disc");
        same("beside it", at(&as_it_lies, x * 1.04, y * 1.04), gray);
    }
    // A pixel that the rim crosses holds both by its share: over a row of them half of it on average.
    let white = paint_plain([0.9; 3], Light::Gray);
    let (mut sum, mut count) = (0.0, 0.0);
    for py in 0..SIZE {
        for px in 0..SIZE {
            let (x, y) = place((px, py));
            let off = (x * x + y * y).sqrt() - 80.0;
            let covered = f64::from((0.5 - off / SCALE).clamp(0.0, 1.0));
            let shown = (light(&white, px, py)[0] - 0.305) / (f64::from(0.9 * WHITE) - 0.305);
            assert!((shown - covered).abs() < 0.03, "{px}, {py}: {shown}, not {covered}");
            if covered > 0.0 && covered < 1.0 {
                (sum, count) = (sum + (shown - covered).abs(), count + 1.0);
            }
        }
    }
    assert!(count > 400.0 && sum / count < 0.01, "{sum} over {count} pixels");
}

fn paint_plain(color: Linear, light: Light) -> Pixmap {
    let colors = plain(color);
    let height = vec![1.0; colors.grid.len()];
    paint(&Lying::Powder { colors: &colors, height: &height }, &view(light))
}

/// Level powder by day is its color in full light; where there is next to none, the glass has a little gloss.
#[test]
fn level_powder_is_in_full_light() {
    let color = [0.5, 0.3, 0.1];
    same("powder", at(&paint_plain(color, Light::Day), 20.0, -30.0), times(color, WHITE));
    let gloss = |color: Linear| {
        let colors = plain(color);
        let bare = paint(
            &Lying::Powder { colors: &colors, height: &vec![0.0; colors.grid.len()] },
            &view(Light::Day),
        );
        let shown = at(&bare, 20.0, -30.0);
        [0, 1, 2].map(|k| shown[k] - f64::from(color[k] * WHITE))
    };
    let (one, other) = (gloss(color), gloss([0.2; 3]));
    assert!(one.iter().chain(&other).all(|g| (g - one[1]).abs() < 4e-3 && *g > 0.01), "{one:?} {other:?}");
}

/// Light rakes over powder from the upper left: slopes toward it are lighter, from it darker, by the cosine law, and a turn of the
/// piece turns the slopes and not the light.
#[test]
fn powder_is_raked_from_the_upper_left() {
    let colors = plain([0.4; 3]);
    let ramp = |rise: (f32, f32)| {
        let grid = colors.grid;
        let mut height = vec![0.0; grid.len()];
        grid.each(|i, column, row| height[i] = 30.0 + rise.0 * grid.x(column) + rise.1 * grid.y(row));
        height
    };
    let shown = |rise, turn| {
        let height = ramp(rise);
        let lying = Lying::Powder { colors: &colors, height: &height };
        at(&paint(&lying, &View { turn, ..view(Light::Day) }), 3.0, 4.0)[0] / f64::from(0.4 * WHITE)
    };
    // The light's direction from its own effect: by Lambert, light on a slope over light on the level is
    // (1 - rise . way) / sqrt(1 + rise²), where the way is the light's level part over its height.
    let diffuse = |rise: (f32, f32)| {
        let (x, y) = (f64::from(rise.0), f64::from(rise.1));
        let by_lambert = (1.0 + 0.62 / 0.60 * x - 0.50 / 0.60 * y) / (1.0 + x * x + y * y).sqrt();
        0.52 + 0.48 * by_lambert.clamp(0.0, 1.7)
    };
    for rise in [(0.2, 0.0), (-0.2, 0.0), (0.0, 0.2), (0.0, -0.2), (0.3, -0.4), (-0.5, 0.3), (1.5, -1.5)] {
        let (got, want) = (shown(rise, 0.0), diffuse(rise));
        assert!((got - want).abs() < 0.012, "{rise:?}: {got}, not {want}");
        let turned = shown(rise, 90.0);
        let want = diffuse((-rise.1, rise.0));
        assert!((turned - want).abs() < 0.012, "{rise:?} turned: {turned}, not {want}");
    }
    assert!(
        shown((0.2, -0.2), 0.0) > 1.0 && shown((-0.2, 0.2), 0.0) < 1.0,
        "the upper left side of a heap is lit"
    );
}

/// Fused glass by day: body color in the light on a nearly level skin, less what the skin mirrors, and what the skin mirrors of the
/// studio to an eye 7.55 radii above.
#[test]
fn fused_glass_shows_its_color_and_its_skin() {
    let bare = edge([0.2; 3]);
    let shown = |color: Linear, turn: f32, rise: f32| {
        let colors = plain(color);
        let relief = wedge(rise);
        let lying =
            Lying::Glass { colors: &colors, lumps: &[], edge: &bare, passed: [0.0; 3], relief: &relief };
        paint(&lying, &View { turn, ..view(Light::Day) })
    };
    // Level, and on a face that rises to the right of the piece by 8 in 100.
    for (turn, rise) in [(0.0f32, 0.0f32), (50.0, 0.0), (0.0, 0.08), (50.0, 0.08)] {
        let pictures = [shown([0.0; 3], turn, rise), shown([0.6, 0.4, 0.2], turn, rise)];
        let (sin, cos) = dappledome::base::scalar::sin_cos(f64::from(turn).to_radians());
        let mut worst = 0.0f64;
        for p in [(0.0, 0.0), (30.0, 10.0), (-40.0, 20.0), (10.0, -60.0), (-50.0, -45.0), (60.0, 30.0)] {
            let (px, py) = pixel(p.0, p.1);
            let (x, y) = place((px, py));
            let (x, y) = (f64::from(x), f64::from(y));
            // The ripples lie on the piece and turn with it.
            let [dx, dy] =
                ripples().all((cos * x + sin * y) as f32, (cos * y - sin * x) as f32).map(f64::from);
            let dx = dx + f64::from(rise);
            let (sx, sy) = (cos * dx - sin * dy, sin * dx + cos * dy);
            let n = super::ball::unit([-sx, -sy, 1.0]);
            let sight = super::ball::unit([x, y, -7.55 * 80.0]);
            let (mirrored, share) = gloss(sight, n, |d| f64::from(Studio::get().overhead(d)));
            let soft = super::ball::unit([n[0], n[1], n[2] + 1.0]);
            let matte = f64::from(Studio::get().matte(super::ball::narrow(soft), 1.0));
            let body = matte * (1.0 - share) / (1.0 - mirrored_share(1.0));
            let want = [0.6, 0.4, 0.2].map(|c| c * body + mirrored);
            let got = [light(&pictures[0], px, py), light(&pictures[1], px, py)];
            same(&format!("black, {p:?}"), got[0], [mirrored; 3]);
            same(&format!("{p:?}"), got[1], want);
            worst = worst.max((body / f64::from(WHITE) - 1.0).abs());
        }
        assert!(
            rise > 0.0 || worst < 0.03,
            "the skin is nearly level, so its light is nearly full: off by {worst}"
        );
    }
}

/// In flat color a piece is its color to where its round begins, and its edge at its end; accents lie on it.
#[test]
fn flat_color_has_edge_and_accents() {
    let (edge, colors) = (edge([0.05, 0.1, 0.5]), plain([0.6, 0.4, 0.2]));
    let accents = [lump(30.0, 10.0, [0.1, 0.5, 0.1], [0.5; 3], 1.0)];
    let lying =
        Lying::Glass { colors: &colors, lumps: &accents, edge: &edge, passed: [0.0; 3], relief: &level() };
    let big = View { size: 1024, turn: 90.0, ..view(Light::Gray) };
    let picture = paint(&lying, &big);
    let at = |x: f32, y: f32| {
        let scale = 160.0 / (0.9 * 1024.0);
        light(&picture, (512.0 + x / scale) as u32, (512.0 - y / scale) as u32)
    };
    same("color", at(-50.0, 5.0), times([0.6, 0.4, 0.2], WHITE));
    same("color beside the round", at(0.0, 76.5), times([0.6, 0.4, 0.2], WHITE));
    // All but a few hundredths of the edge shows 0.2 mm from the end.
    let end = at(0.0, 79.8);
    assert!(end[0] < 0.08 && end[2] > 0.39 && end[2] < 0.42, "{end:?}: the edge's color");
    same("an accent, turned", at(-10.0, 30.0), times([0.1, 0.5, 0.1], WHITE));
    same("beside the accent", at(-10.0, 34.5), times([0.6, 0.4, 0.2], WHITE));
    same("where it would lie unturned", at(30.0, 10.0), times([0.6, 0.4, 0.2], WHITE));
}

/// On a light table: what passes times the lamp, which is as bright as suits the bare blank; at the round rim less.
#[test]
fn a_light_table_shows_what_passes() {
    let colors = plain([0.3, 0.2, 0.1]);
    let bare = [0.5, 0.6, 0.4];
    let clear = lump(30.0, 0.0, [0.5; 3], [0.15, 0.1, 0.02], 1.0);
    let opal = lump(-30.0, 0.0, [0.5; 3], [0.15, 0.1, 0.02], 0.0);
    let lumps = [clear, opal];
    let picture = paint(
        &Lying::Lit { colors: &colors, lumps: &lumps, lamp: lamp_for(LAMP, bare) },
        &view(Light::Within),
    );
    let luminance = |c: [f64; 3]| 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
    let lamp = LAMP.map(f64::from);
    let full = 0.84 / luminance([0, 1, 2].map(|k| lamp[k] * f64::from(bare[k])));
    let want = [0, 1, 2].map(|k| f64::from([0.3f32, 0.2, 0.1][k]) * lamp[k] * full);
    same("the middle", at(&picture, 0.0, 40.0), want);
    let rim = at(&picture, 79.6, 0.0);
    assert!(rim[0] < 0.85 * want[0] && rim[0] > 0.6 * want[0], "{rim:?} at the rim, {want:?} within");
    same("dusk beside it", at(&picture, 84.0, 0.0), [0.0242; 3]);
    // In its middle an accent passes its own share; a clear one gathers 1.35 times, an opal one 1.25 (by eye).
    for (x, gathers) in [(30.0, 1.35), (-30.0, 1.25)] {
        let passed = [0.15, 0.1, 0.02];
        let want = [0, 1, 2].map(|k| passed[k] * lamp[k] * full * gathers);
        same("an accent", at(&picture, x, 0.0), want);
    }
}

/// The table by day has the piece's shadow away from the light, as deep as the piece is opaque, and its own gray farther off.
#[test]
fn the_shadow_beside_the_disc_falls_away_from_the_light() {
    let (edge, colors) = (edge([0.2; 3]), plain([0.5; 3]));
    let beside = |passed: f32, x: f32, y: f32| {
        let lying =
            Lying::Glass { colors: &colors, lumps: &[], edge: &edge, passed: [passed; 3], relief: &level() };
        at(&paint(&lying, &view(Light::Day)), x, y)[0]
    };
    let (right, up) = ((82.5 * 0.8, -82.5 * 0.6), (-82.5 * 0.8, 82.5 * 0.6));
    assert!(beside(0.0, right.0, right.1) < 0.8 * 0.305, "to the lower right it is dark");
    assert!((beside(0.0, up.0, up.1) - 0.305).abs() < 0.004, "to the upper left it is not");
    assert!((beside(1.0, right.0, right.1) - 0.305).abs() < 0.004, "what passes all light has no shadow");
    let (dark, half) = (beside(0.0, right.0, right.1), beside(0.5, right.0, right.1));
    assert!(
        (0.305 - half - 0.5 * (0.305 - dark)).abs() < 0.004,
        "half as opaque, half as deep: {dark} {half}"
    );
    // A line where the edge stands on the table, all around and under clear glass too.
    for (x, y) in [(80.6, 0.0), (-80.6, 0.0), (0.0, 80.6)] {
        assert!(beside(1.0, x, y) < 0.285, "{x}, {y}");
    }
    assert!((beside(0.0, 87.9, 0.0) - 0.305).abs() < 0.004, "farther off it is the table's own gray");
}

/// A lump is half of an ellipsoid: height over ρ is sqrt(1 - ρ²) of the most, its slope that of the ellipsoid.
#[test]
fn a_lump_is_half_an_ellipsoid() {
    let lump = lump(10.0, -5.0, [0.5; 3], [0.2, 0.1, 0.05], 1.0);
    let (a, c) = (8.0 / 2.0 * 1.06, 8.0 / 2.0 * 0.64);
    assert!((lump.radius() - a).abs() < 1e-6 && (lump.height() - c).abs() < 1e-6);
    // Two thirds of its height on average over its foot: the volume of half an ellipsoid.
    assert!((lump.stands.mean_glass() - 2.0 / 3.0 * c).abs() < 1e-6);
    for (dx, dy) in [(0.0f32, 0.0f32), (1.0, 2.0), (-3.0, 1.0), (0.5, -4.0)] {
        let ((sx, sy), height) = lump.over(10.0 + dx, -5.0 + dy).expect("on it");
        let rho2 = (dx * dx + dy * dy) / (a * a);
        assert!((height - (1.0 - rho2).sqrt()).abs() < 1e-5, "{dx}, {dy}: {height}");
        // The surface c sqrt(1 - ρ²) falls by c / a² / sqrt(1 - ρ²) times the way out.
        let slope = c / (a * a) / (1.0 - rho2).sqrt();
        assert!((sx - dx * slope).abs() < 1e-4 && (sy - dy * slope).abs() < 1e-4, "{dx}, {dy}: {sx}, {sy}");
    }
    assert!(lump.over(10.0 + a, -5.0).is_none());
    // Beer and Lambert: half the glass keeps the root of what all of it keeps.
    let under = 0.4;
    for (k, share) in [(0, 0.5f32), (1, 0.25), (2, 0.125)] {
        for height in [0.0, 0.5, 1.0] {
            let want = dappledome::base::scalar::pow(share.into(), height);
            assert!((f64::from(lump.keeps(under, k, height as f32)) - want).abs() < 1e-3, "{k}, {height}");
        }
    }
}
