//! Any disc in any mold sinks or explains itself: no panic, no number that is none, and bounded work, counted in equations solved.

use dappledome::base::units::Mm;
use dappledome::recipe::{Form, Mold};
use dappledome::slump::dome::Dome;
use dappledome::slump::inputs::SheetInputs;
use dappledome::slump::sheet::sinking::Fineness;
use dappledome::slump::trajectory::Trajectory;
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
        let share = moment.touching();
        assert!((0.0..=1.0 + 1e-9).contains(&share), "{share} touches");
        let dome = Dome::sunk(way, tau);
        assert!(dome.across().0.is_finite() && dome.high().0.is_finite());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 10_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_disc_sinks_or_explains_itself(inputs in inputs(), elements in 4usize..20) {
        let fineness = Fineness { elements, ..Fineness::default() };
        match Trajectory::with(&inputs, fineness) {
            Err(fault) => {
                let notice = fault.notice();
                prop_assert!(!notice.why.is_empty() && !notice.remedy.is_empty());
            }
            Ok(way) => {
                is_sound(&inputs, &way);
            }
        }
    }
}
