//! Any disc of any glass in any mold sinks or explains itself at any heat: no panic, no number that is none, no glass lost, and bounded work,
//! counted in equations solved and never by a clock.

use dappledome::base::units::{Celsius, Mm};
use dappledome::glass::viscosity::Viscosity;
use dappledome::kiln::flow::{Stretch, reduced_time, whole_fluid_time};
use dappledome::recipe::{Form, Mold};
use dappledome::slump::dome::Dome;
use dappledome::slump::inputs::SheetInputs;
use dappledome::slump::sheet::sinking::Fineness;
use dappledome::slump::trajectory::{Moment, Trajectory};
use proptest::prelude::*;

/// A measure within a range, or at times one that no maker gives.
fn measure(least: f64, most: f64) -> BoxedStrategy<f64> {
    let hostile = prop_oneof![
        Just(0.0),
        Just(-1.0),
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(1e-300),
        Just(1e300),
        Just(least),
        Just(most),
        any::<f64>(),
    ];
    prop_oneof![30 => least..most, 1 => hostile].boxed()
}

fn mold() -> impl Strategy<Value = Mold> {
    let form = prop_oneof![
        Just(Form::Bowl),
        Just(Form::Hump),
        (measure(0.0, 1.0), measure(0.0, 100.0))
            .prop_map(|(bottom, corner)| Form::FlatBottom { bottom: Mm(bottom), corner: Mm(corner) }),
        (measure(0.0, 0.5), measure(0.0, 40.0))
            .prop_map(|(bottom, corner)| Form::Flare { bottom: Mm(bottom), corner: Mm(corner) }),
    ];
    (form, measure(50.0, 400.0), measure(0.01, 0.5)).prop_map(|(form, opening, depth)| {
        let share = |bottom: Mm| Mm(bottom.0 * opening);
        let form = match form {
            Form::FlatBottom { bottom, corner } => Form::FlatBottom { bottom: share(bottom), corner },
            Form::Flare { bottom, corner } => Form::Flare { bottom: share(bottom), corner },
            form => form,
        };
        Mold { form, opening: Mm(opening), depth: Mm(depth * opening) }
    })
}

fn inputs() -> impl Strategy<Value = SheetInputs> {
    let friction = prop_oneof![4 => measure(0.0, 1.5), 1 => Just(1e300), 1 => Just(0.0)];
    (mold(), measure(5.0, 200.0), measure(1.0, 40.0), friction, measure(0.5, 6.0)).prop_map(
        |(mold, radius, thickness, friction, lip)| SheetInputs { mold, radius, thickness, friction, lip },
    )
}

/// A glass by its softening and annealing point, and a slump of it: so much to the hour up to its top, °C, and so many minutes held.
#[derive(Clone, Debug)]
struct Heat {
    softening: f64,
    annealing: f64,
    rate: f64,
    top: f64,
    minutes: f64,
}

fn heat() -> impl Strategy<Value = Heat> {
    (
        measure(500.0, 850.0),
        measure(350.0, 650.0),
        measure(5.0, 1000.0),
        measure(450.0, 950.0),
        measure(0.0, 600.0),
    )
        .prop_map(|(softening, annealing, rate, top, minutes)| Heat {
            softening,
            annealing,
            rate,
            top,
            minutes,
        })
}

/// Looks at what a way becomes by a firing, and by one that is 10 °C hotter; a glass that can't be is told, and hotter never sinks less.
fn fires(way: &Trajectory, heat: &Heat) {
    let glass = match Viscosity::new(Celsius(heat.softening), Celsius(heat.annealing)) {
        Ok(glass) => glass,
        Err(fault) => return assert!(fault.said().iter().all(|said| said.len() > 20 && said.ends_with('.'))),
    };
    let sunk = |top: f64| {
        let (cold, top) = (Celsius(20.0), Celsius(top));
        let up = Stretch { from: cold, to: top, seconds: (top.0 - cold.0) / heat.rate * 3600.0 };
        let held = Stretch { from: top, to: top, seconds: heat.minutes * 60.0 };
        let given = whole_fluid_time(&glass, &[up, held]);
        (given, way.at(reduced_time(given, Mm(way.inputs().radius))))
    };
    let ((given, cooler), (more, hotter)) = (sunk(heat.top), sunk(heat.top + 10.0));
    let fired = [(heat.rate, 5.0, 1000.0), (heat.top, 450.0, 950.0), (heat.minutes, 0.0, 600.0)];
    if fired.iter().all(|(value, least, most)| (*least..=*most).contains(value)) {
        assert!(given >= 0.0 && more >= given && more.is_finite(), "{given}, 10 °C hotter {more}: {heat:?}");
        // What is nearly as thick as wide thickens inward, and its middle so rises from the mold.
        let sheet = way.inputs().thickness <= 0.25 * way.inputs().radius;
        let (high, low) = (height(&cooler), height(&hotter));
        assert!(
            !sheet || low <= high + 0.02 * way.inputs().thickness,
            "{high}, 10 °C hotter {low}: {heat:?}"
        );
    }
}

/// The height of all glass, mm: what its weight brings down.
fn height(moment: &Moment) -> f64 {
    let carried = &moment.shape.carried;
    moment.shape.nodes.iter().zip(carried).map(|(node, volume)| node.1 * volume).sum::<f64>()
        / carried.iter().sum::<f64>()
}

/// The glass of a moment, mm³, by the frustums between its rings.
fn volume(moment: &Moment) -> f64 {
    let bands = moment.shape.nodes.windows(2).zip(&moment.shape.elements);
    bands
        .map(|(pair, element)| {
            let (dr, dz) = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
            std::f64::consts::PI * (pair[0].0 + pair[1].0) * (dr * dr + dz * dz).sqrt() * element.thickness
        })
        .sum()
}

/// Looks at every moment of a way.
fn is_sound(inputs: &SheetInputs, way: &Trajectory) {
    let times: Vec<f64> = way.moments().collect();
    assert!(times.windows(2).all(|pair| pair[0] < pair[1]), "{times:?}");
    assert!(times.len() <= way.solved() + 1 && way.solved() <= 8100, "{} in {}", times.len(), way.solved());
    let full = way.full_at().unwrap_or(0.0);
    assert!(full >= 0.0 && full <= way.end(), "full at {full} of {}", way.end());
    for tau in times.into_iter().chain([-1.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY]) {
        let moment = way.at(tau);
        assert!(moment.tau >= 0.0 && moment.tau <= way.end());
        for (r, z) in &moment.shape.nodes {
            assert!(*r >= -1e-6 && *r < 1e4 && z.abs() < 1e4, "({r}, {z}) at {tau}");
        }
        let flat = inputs.thickness;
        for element in &moment.shape.elements {
            assert!(element.thickness > 0.0 && element.thickness < 100.0 * flat, "{element:?} at {tau}");
        }
        assert!(moment.gaps.iter().all(|gap| *gap > -0.5 * flat && gap.is_finite()), "{:?}", moment.gaps);
        let disc = std::f64::consts::PI * inputs.radius * inputs.radius * flat;
        assert!((volume(&moment) / disc - 1.0).abs() < 1e-9, "{} of {disc} mm³", volume(&moment));
        let share = moment.touching();
        assert!((0.0..=1.0 + 1e-9).contains(&share), "{share} touches");
        let dome = Dome::sunk(way, tau);
        assert!(dome.across().0.is_finite() && dome.high().0.is_finite());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 10_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_disc_sinks_or_explains_itself(inputs in inputs(), elements in 4usize..20, heat in heat()) {
        let fineness = Fineness { elements, ..Fineness::default() };
        match Trajectory::with(&inputs, fineness) {
            Err(fault) => {
                let notice = fault.notice();
                prop_assert!(!notice.why.is_empty() && !notice.remedy.is_empty());
            }
            Ok(way) => {
                is_sound(&inputs, &way);
                fires(&way, &heat);
            }
        }
    }
}
