//! The size of the disc behind its full fuse, which everything later is reckoned with.

use super::bench::{Bench, segments};
use super::flow::whole_fluid_time;
use super::piece::Piece;
use super::usual::Process;
use crate::base::firing::{Firing, SegmentName};
use crate::base::notice::Notice;
use crate::base::units::{Celsius, Minutes, Mm};
use crate::fuse::spread::{Spread, Stack, spread};
use crate::recipe::FullFuse;
use crate::recipe::plan::Plan;
use crate::slump::dome::DomeInputs;
use crate::slump::finished::{self, FinishedSize, Fit, OutOfReach};

/// Parts of a millimeter that the size to reckon with is rounded to: finer than it can be foretold, and the same in all kilns that
/// keep the program. So a change of a coat's depth, which changes the rates a little, does not let the disc sink anew.
const PARTS: f64 = 10.0;

/// The stack as cut.
pub fn stack(plan: &Plan) -> Stack {
    let (across, thick) = (2.0 * f64::from(plan.disc.radius()), f64::from(plan.blank_thickness()));
    Stack { across: Mm(across), thick: Mm(thick), dam: plan.fuse.dam }
}

/// Its size after so much fluid time, 1/Pa: the diameter to reckon with rounded to 0.1 mm, its thickness by its volume.
pub fn size(plan: &Plan, fluid_time: f64) -> Spread {
    size_of(stack(plan), fluid_time)
}

fn size_of(stack: Stack, fluid_time: f64) -> Spread {
    let exact = spread(stack, fluid_time);
    let across = (exact.across.0 * PARTS).round() / PARTS;
    let narrowed = stack.across.0 / across;
    Spread { across: Mm(across), thick: Mm(stack.thick.0 * narrowed * narrowed), ..exact }
}

/// Its size behind its full fuse in a kiln.
///
/// # Errors
/// A fault where the kiln does not get through it, or a glass has no viscosity.
pub fn fused(plan: &Plan, bench: Bench) -> Result<Spread, Notice> {
    let FullFuse { top, hold, .. } = plan.fuse;
    Ok(size(plan, melted(plan, bench, Firing::FullFuse, (top, hold))?))
}

/// The mold, of the form of the plan's, and the disc to cut for a finished size.
///
/// # Errors
/// Why the size cannot be reached.
pub fn fit(plan: &Plan, bench: Bench, wanted: FinishedSize) -> Result<Fit, OutOfReach> {
    let FullFuse { top, hold, .. } = plan.fuse;
    let given = melted(plan, bench, Firing::FullFuse, (top, hold)).unwrap_or(0.0);
    finished::fit(&plan.mold, wanted, |cut| {
        let Spread { across, thick, .. } = size_of(Stack { across: cut, ..stack(plan) }, given);
        (across, thick)
    })
}

/// The fluid time of the tack fuse in a kiln, 1/Pa.
///
/// # Errors
/// A fault where the kiln does not get through it, or a glass has no viscosity.
pub fn tacked(plan: &Plan, bench: Bench) -> Result<f64, Notice> {
    melted(plan, bench, Firing::TackFuse, (plan.tack.top, plan.tack.hold))
}

/// The fluid time of a fuse until its fall has ended, 1/Pa.
fn melted(plan: &Plan, bench: Bench, firing: Firing, (top, hold): (Celsius, Minutes)) -> Result<f64, Notice> {
    let piece = Piece::new(plan, firing)?;
    let segments = segments(plan, &piece, firing, Process { top, hold, until_settled: false });
    let fall = segments.iter().position(|segment| segment.name == SegmentName::Fall);
    let hot = &segments[..fall.map_or(segments.len(), |at| at + 1)];
    let course = bench.run(plan, firing, hot)?;
    Ok(whole_fluid_time(&piece.flow, &course.between(0.0, course.end())))
}

/// What its dome depends on.
pub fn dome_inputs(plan: &Plan, fused: &Spread) -> DomeInputs {
    DomeInputs {
        mold: plan.mold.clone(),
        radius: (fused.across.0 / 2.0) as f32,
        thickness: fused.thick.f32(),
    }
}
