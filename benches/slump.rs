//! Speed of the viscous sheet: `cargo bench --bench slump`. A whole way of a disc into its mold is to stay below 10 ms, so that the dome
//! follows while its maker drags the mold's depth.

use dappledome::base::units::Mm;
use dappledome::recipe::{Form, Mold};
use dappledome::slump::dome::{Dome, DomeInputs};
use dappledome::slump::inputs::SheetInputs;
use dappledome::slump::sheet::sinking::Fineness;
use dappledome::slump::trajectory::Trajectory;
use divan::Bencher;

fn main() {
    divan::main();
}

const FORMS: [&str; 4] = ["bowl", "flat", "flare", "hump"];

/// The usual disc, 160 mm and 6 mm thick, in (or on) a mold of the usual size.
fn usual(form: &str, friction: f64) -> SheetInputs {
    let (bottom, corner) = (Mm(80.0), Mm(25.0));
    let form = match form {
        "flat" => Form::FlatBottom { bottom, corner },
        "flare" => Form::Flare { bottom, corner },
        "hump" => Form::Hump,
        _ => Form::Bowl,
    };
    let mold = Mold { form, ..Mold::default() };
    DomeInputs { mold, radius: 80.0, thickness: 6.0 }.sheet(friction)
}

/// A whole way, sliding freely.
#[divan::bench(args = FORMS)]
fn way(form: &str) -> Trajectory {
    Trajectory::new(&usual(form, 0.0)).expect("it is sound")
}

/// A whole way with friction, which is solved for by rounds.
#[divan::bench(args = FORMS)]
fn way_with_friction(form: &str) -> Trajectory {
    Trajectory::new(&usual(form, 0.4)).expect("it is sound")
}

/// Cost against rings.
#[divan::bench(args = [16, 32, 64, 128])]
fn slope_rings(elements: usize) -> Trajectory {
    Trajectory::with(&usual("bowl", 0.0), Fineness { elements, ..Fineness::default() }).expect("it is sound")
}

/// The dome of one moment.
#[divan::bench]
fn look_up(bencher: Bencher) {
    let way = Trajectory::new(&usual("bowl", 0.0)).expect("it is sound");
    bencher.bench(|| Dome::sunk(&way, 0.043));
}
