//! The dome's geometry.

use super::near;
use dappledome::base::scalar::{acos, asin};
use dappledome::base::units::Mm;
use dappledome::recipe::{Form, Mold};
use dappledome::slump::dome::{Dome, DomeInputs};
use dappledome::slump::mold::meridian;

fn mold(form: Form, opening: f64, depth: f64) -> Mold {
    Mold { form, opening: Mm(opening), depth: Mm(depth) }
}

/// Handbook geometry of the spherical cap: R = (a² + d²)/(2 d), half arc R acos(1 - d/R), area pi (a² + d²). A sheet
/// of no thickness follows the mold itself.
#[test]
fn spherical_caps() {
    for (a, d, radius, arc) in
        [(75.0, 45.0, 85.0, 91.8713), (100.0, 50.0, 125.0, 115.9119), (60.0, 30.0, 75.0, 69.5471)]
    {
        let curve = meridian(&mold(Form::Bowl, 2.0 * a, d), 0.0);
        let end = curve.iter().position(|p| p.1 <= -d + 1e-9).expect("the curve reaches the rim");
        near("opening", curve[end].0, a, 1e-6);
        let length: f64 = curve[..=end]
            .windows(2)
            .map(|p| ((p[1].0 - p[0].0) * (p[1].0 - p[0].0) + (p[1].1 - p[0].1) * (p[1].1 - p[0].1)).sqrt())
            .sum();
        near("half arc", length, arc, 2e-3);
        near("half arc by formula", radius * acos(1.0 - d / radius), arc, 1e-4);
    }
}

/// Area-preserving on a sphere: cos theta = 1 - s²/(2 R²). R = 85, s = 75: r = 67.3065, arc 77.6746.
#[test]
fn the_area_preserving_map_of_a_sphere() {
    let inputs = DomeInputs { mold: mold(Form::Bowl, 150.0, 45.0), radius: 75.0, thickness: 0.0 };
    let rim = Dome::new(&inputs).rim();
    near("r", rim.r.into(), 67.3065, 2e-3);
    near("arc", 85.0 * asin(f64::from(rim.r) / 85.0), 77.6746, 3e-3);
}

#[test]
fn no_mold_changes_the_area() {
    let corner = |bottom, corner| (Mm(bottom), Mm(corner));
    let (bottom, rounded) = corner(90.0, 20.0);
    let (small, tight) = corner(30.0, 12.0);
    for mold in [
        mold(Form::Bowl, 160.0, 48.0),
        mold(Form::Hump, 160.0, 48.0),
        mold(Form::FlatBottom { bottom, corner: rounded }, 160.0, 40.0),
        mold(Form::Flare { bottom: small, corner: tight }, 165.0, 60.0),
        mold(Form::Bowl, 200.0, 12.0),
    ] {
        let dome = Dome::new(&DomeInputs { mold: mold.clone(), radius: 80.0, thickness: 6.0 });
        let mut swept = 0.0;
        for pair in dome.rings().windows(2) {
            let [a, b] = [pair[0], pair[1]].map(|ring| [ring.s, ring.r, ring.z].map(f64::from));
            let slant = ((b[1] - a[1]) * (b[1] - a[1]) + (b[2] - a[2]) * (b[2] - a[2])).sqrt();
            swept += (a[1] + b[1]) * slant;
            near(
                &format!("{:?}, area over pi out to {}", mold.form, b[0]),
                swept,
                b[0] * b[0],
                2e-3 * b[0] * b[0] + 0.3,
            );
        }
    }
}

/// Between the two ways a sheet can follow a 150 x 45 bowl without force: no stretch along the meridian (rim radius
/// 64.97 at a middle of R 82) and no change of area (66.70).
#[test]
fn a_dome_lies_within_its_bounds() {
    let inputs = DomeInputs { mold: mold(Form::Bowl, 150.0, 45.0), radius: 75.0, thickness: 6.0 };
    let dome = Dome::new(&inputs);
    near("area-preserving rim", dome.rim().r.into(), 66.70, 0.01);
    assert!(dome.rim().r > 64.97);
    near("depth of the middle", dome.rings()[0].z.into(), 34.30, 0.01);
}
