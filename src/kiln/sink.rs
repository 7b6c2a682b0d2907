//! How long a sheet takes to settle in its mold, in reduced time.

use crate::recipe::plan::Plan;
use crate::slump::dome::DomeInputs;
use crate::slump::trajectory::Trajectory;

/// For a sheet that cannot be reckoned with: ten usual slumps.
const NO_SHEET: f64 = 1.0;

/// Reduced time, by half the mold's opening, in which the disc of a plan is full in its mold, sliding freely: the sinking sheet's own, or where
/// it never is full, that of its end. Verified as mathematics; no measured slump was found to hold it to.
pub fn settled(plan: &Plan) -> f64 {
    let sheet = DomeInputs::of(plan).sheet(0.0);
    let Ok(way) = Trajectory::new(&sheet) else { return NO_SHEET };
    // The sheet counts by the radius of its middle.
    way.full_at().unwrap_or_else(|| way.end()) * 0.5 * plan.mold.opening.0 / sheet.radius
}
