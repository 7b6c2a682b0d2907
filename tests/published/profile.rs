//! The half section of every form of mold as distances: against the curve that the middle of the glass follows, which is drawn by other code,
//! and against plane geometry.

use super::table::near;
use dappledome::base::units::Mm;
use dappledome::recipe::{Form, Mold};
use dappledome::slump::mold::{Point, meridian};
use dappledome::slump::profile::{Piece, Profile};

const LIP: f64 = 2.0;

fn molds() -> Vec<Mold> {
    let mold = |form, opening, depth| Mold { form, opening: Mm(opening), depth: Mm(depth) };
    let walled = |bottom, corner| (Mm(bottom), Mm(corner));
    let mut molds = vec![
        mold(Form::Bowl, 150.0, 45.0),
        mold(Form::Bowl, 120.0, 60.0),
        mold(Form::Bowl, 400.0, 5.0),
        mold(Form::Hump, 160.0, 48.0),
        mold(Form::Hump, 100.0, 50.0),
    ];
    for (bottom, corner) in [walled(90.0, 15.0), walled(90.0, 0.0), walled(140.0, 40.0), walled(20.0, 25.0)] {
        molds.push(mold(Form::FlatBottom { bottom, corner }, 160.0, 35.0));
        molds.push(mold(Form::Flare { bottom, corner }, 180.0, 60.0));
    }
    molds
}

/// How far below the plane of the opening the curve of the middle of the glass begins.
fn crown(mold: &Mold) -> f64 {
    if mold.form == Form::Hump { mold.depth.0 } else { -mold.depth.0 }
}

/// The middle of the glass keeps half a thickness from the mold, wherever it lies within lip or foot: `meridian` is drawn onward from the crown
/// by angles and lengths, and in a bowl it sinks outward, so it is turned over.
#[test]
fn the_middle_of_the_glass_keeps_its_distance() {
    for mold in molds() {
        for thickness in [3.0, 6.0, 12.0] {
            let profile = Profile::new(&mold, LIP, thickness);
            let up = if mold.form == Form::Hump { 1.0 } else { -1.0 };
            let curve = meridian(&mold, thickness);
            let sinking = curve.windows(2).filter(|pair| pair[1].1 < pair[0].1 || pair[1].0 < 30.0);
            let mut checked = 0;
            for (r, z) in sinking.map(|pair| pair[0]) {
                let p = (r, crown(&mold) + thickness / 2.0 + up * z);
                // Lip and foot reach in from the plane of the opening.
                let (least, most) =
                    if up > 0.0 { (1.5 * thickness, 1e9) } else { (-1e9, thickness / 2.0 - LIP) };
                if p.1 < least || p.1 > most || p.1 > -LIP && up < 0.0 {
                    continue;
                }
                checked += 1;
                let one = profile.distance(p);
                near(&format!("{mold:?}, {thickness} mm, at {p:?}"), one.distance, thickness / 2.0, 1e-9);
            }
            println!("{:?}, {thickness} mm: {checked} points", mold.form);
            assert!(checked > 10 || mold.depth.0 < 10.0, "{mold:?}");
        }
    }
}

/// Plane geometry: the pieces follow each other without a gap and, where an arc is between, without a kink.
#[test]
fn the_pieces_join_smoothly() {
    let crowded = Form::FlatBottom { bottom: Mm(20.0), corner: Mm(100.0) };
    let cone = Form::Flare { bottom: Mm(0.0), corner: Mm(0.0) };
    let more = [crowded, cone].map(|form| Mold { form, opening: Mm(160.0), depth: Mm(35.0) });
    for mold in molds().into_iter().chain(more) {
        let profile = Profile::new(&mold, LIP, 6.0);
        let pieces = profile.pieces();
        near("it begins on the axis", pieces[0].ends().0.0, 0.0, 1e-9);
        near("at the crown", pieces[0].ends().0.1, crown(&mold), 1e-9);
        for pair in pieces.windows(2) {
            let (end, begin) = (pair[0].ends().1, pair[1].ends().0);
            near(&format!("{mold:?}: joint"), end.0, begin.0, 1e-9);
            near(&format!("{mold:?}: joint"), end.1, begin.1, 1e-9);
            let sharp = pair.iter().all(|piece| matches!(piece, Piece::Straight { .. }));
            if !sharp {
                let (a, b) = (pair[0].distance(end).away, pair[1].distance(end).away);
                near(&format!("{mold:?}: kink"), a.0 * b.1 - a.1 * b.0, 0.0, 1e-7);
                assert!(a.0 * b.0 + a.1 * b.1 > 0.0, "{mold:?} turns back");
            }
        }
    }
}

/// Plane geometry, the reference bowl of 150 x 45 mm with a lip of 2 mm: the lip's middle is at sqrt((R + 2)² - (R - 45 + 2)²), 2 mm
/// below the rim.
#[test]
fn a_bowl_has_a_round_lip_and_a_level_rim() {
    let mold = Mold { form: Form::Bowl, opening: Mm(150.0), depth: Mm(45.0) };
    let profile = Profile::new(&mold, LIP, 6.0);
    let middle: Point = ((87.0f64 * 87.0 - 42.0 * 42.0).sqrt(), -2.0);
    near("lip", profile.distance((middle.0 - 3.0, middle.1 + 4.0)).distance, 5.0 - 2.0, 1e-9);
    near("rim", profile.distance((90.0, 7.0)).distance, 7.0, 1e-9);
    near("in the rim", profile.distance((90.0, -0.5)).distance, -0.5, 1e-9);
    near("in the bowl", profile.distance((30.0, 0.0)).distance, 85.0 - (40.0f64 * 40.0 + 900.0).sqrt(), 1e-9);
    near("under the bowl", profile.distance((0.0, -50.0)).distance, -5.0, 1e-9);
    let hump = Profile::new(&Mold { form: Form::Hump, ..mold }, LIP, 6.0);
    near("over a hump", hump.distance((0.0, 50.0)).distance, 5.0, 1e-9);
    near("over the shelf", hump.distance((200.0, 4.0)).distance, 4.0, 1e-9);
}

/// A distance grows by as much as one goes straight away: its gradient is of length 1 and is what differences of it say.
#[test]
fn the_gradient_is_that_of_the_distance() {
    for mold in molds() {
        let profile = Profile::new(&mold, LIP, 6.0);
        let (mut checked, step) = (0, 1e-6);
        for i in 0..40 {
            for j in 0..40 {
                let p = (0.5 + 3.1 * f64::from(i), crown(&mold).min(0.0) + 2.3 * f64::from(j) - 10.0);
                let one = profile.distance(p);
                near("length", one.away.0 * one.away.0 + one.away.1 * one.away.1, 1.0, 1e-12);
                let at = |dr: f64, dz: f64| profile.distance((p.0 + dr, p.1 + dz)).distance;
                let slope = (
                    (at(step, 0.0) - at(-step, 0.0)) / (2.0 * step),
                    (at(0.0, step) - at(0.0, -step)) / (2.0 * step),
                );
                // Half way between two pieces there is no gradient.
                if (slope.0 * slope.0 + slope.1 * slope.1 - 1.0).abs() < 1e-4 {
                    checked += 1;
                    near(&format!("{mold:?} at {p:?}"), slope.0, one.away.0, 1e-4);
                    near(&format!("{mold:?} at {p:?}"), slope.1, one.away.1, 1e-4);
                }
            }
        }
        assert!(checked > 1500, "{mold:?}: {checked}");
    }
}
