//! What can be wrong with a stem, and what of it only may go wrong.

use super::check::Check;
use super::limits;
use super::stem::{Joint, Pipe, SOLD_IN, Stem, Stopper};
use super::wind::{USUAL_GUST, Wind};
use crate::base::notice::{Mend, Step};
use crate::base::units::{Mm, fixed, plain};
use std::f64::consts::PI;

const STEP: Step = Step::Stem;
/// Less than this of a stopper in its pipe, mm, holds by little (chosen).
const SHALLOW: f64 = 8.0;
/// The widest stopper as a share of the disc (chosen): beyond it the dome's curve leaves its edge.
const WIDEST: f64 = 0.5;
/// What bends a pipe too much, MPa: a quarter of the 48 that new pipe bears at 23 °C (ASTM D1784, from memory), since warm pipe bears far less
/// (the quarter is chosen).
const MOST_STRESS: f64 = 12.0;

/// The stem of a piece whose disc is so wide.
pub(super) fn stem(check: &mut Check, disc: Mm, stem: &Stem) {
    let sound = check.length(STEP, "The pipe above the ground", stem.length, limits::STEM_LENGTH)
        & check.length(STEP, "The pipe in the ground", stem.in_ground, limits::STEM_IN_GROUND);
    if sound && stem.cut() > SOLD_IN {
        let why = format!("It takes {} of pipe, and a pipe is sold {SOLD_IN} long.", stem.cut());
        check.fault(STEP, "Longer than a pipe.", why, "Shorten it.");
    }
    match stem.stopper().filter(|stopper| stopper.fits(stem.pipe)) {
        Some(stopper) => fitting(check, disc, stem, stopper),
        None => unfitting(check, stem),
    }
    if sound && limits::DISC.holds(disc.0) {
        in_the_wind(check, disc, stem);
    }
}

fn unfitting(check: &mut Check, stem: &Stem) {
    let [least, _, most] = stem.pipe.bore();
    let fitting: Vec<String> = stem.pipe.stoppers().map(|stopper| stopper.number.to_string()).collect();
    check
        .fault(
            STEP,
            "A stopper that does not fit.",
            format!(
                "The bore of {} in pipe lies between {} and {} mm, and No. {} does not hold in all of that.",
                stem.pipe.nominal(),
                fixed(least, 1),
                fixed(most, 1),
                stem.stopper
            ),
            format!("Take No. {}.", fitting.join(" or ")),
        )
        .mend = Some(Mend::Stopper(stem.pipe.deepest().number));
}

fn fitting(check: &mut Check, disc: Mm, stem: &Stem, stopper: Stopper) {
    shallow(check, stem.pipe, stopper);
    if stopper.top > disc.0 * WIDEST {
        let why = format!("Its face is {} mm wide, and the disc {disc}.", plain(stopper.top));
        check.risk(STEP, "Too wide for its glass.", why, "Take a thinner pipe, or cut a wider disc.");
    }
    match stem.joint {
        Joint::Holed { fillet } => {
            check.length(STEP, "The fillet of silicone", fillet, limits::FILLET);
        }
        Joint::Dabs { count, across } => {
            let sound = check.range(STEP, "The dabs of silicone", count.into(), limits::DABS, "")
                & check.length(STEP, "A dab of silicone", across, limits::DAB_ACROSS);
            if sound && f64::from(count) * across.0 > PI * (stopper.top - across.0) {
                let why = format!(
                    "{count} dabs of {across} do not lie in a ring on a face of {} mm.",
                    plain(stopper.top)
                );
                check.risk(STEP, "Dabs without air between.", why, "Lay fewer, or smaller ones.");
            }
        }
    }
}

fn shallow(check: &mut Check, pipe: Pipe, stopper: Stopper) {
    let [_, inserted, _] = stopper.inserted(pipe);
    let best = pipe.deepest();
    if inserted < SHALLOW && best != stopper {
        let why = format!(
            "No. {} goes only {} mm into {} in pipe, and No. {} {} mm.",
            stopper.number,
            fixed(inserted, 0),
            pipe.nominal(),
            best.number,
            fixed(best.inserted(pipe)[1], 0)
        );
        check.note(STEP, "Sits shallow.", why, format!("Take No. {}.", best.number)).mend =
            Some(Mend::Stopper(best.number));
    }
}

fn in_the_wind(check: &mut Check, disc: Mm, stem: &Stem) {
    let wind = Wind::at(USUAL_GUST, stem, disc);
    let high = plain(stem.length.0 / 1000.0);
    if wind.depth > stem.in_ground {
        let deep = Mm((wind.depth.0 / 10.0).ceil() * 10.0);
        check
            .risk(
                STEP,
                "Shallow in the ground.",
                format!(
                    "A gust of {USUAL_GUST} m/s on {high} m of pipe wants it {deep} deep in sand: an indication only."
                ),
                format!("Set it {deep} deep, or shorten the pipe. Ask locally where people walk."),
            )
            .mend = limits::STEM_IN_GROUND.holds(deep.0).then_some(Mend::InGround(deep));
    }
    if wind.stress > MOST_STRESS {
        let why = format!(
            "A gust of {USUAL_GUST} m/s bends {} in pipe {high} m high with {} MPa; new pipe breaks at 48 or more, warm pipe far sooner.",
            stem.pipe.nominal(),
            fixed(wind.stress, 0)
        );
        check.risk(STEP, "Thin for its height.", why, "Take a thicker pipe, or shorten it.");
    }
}
