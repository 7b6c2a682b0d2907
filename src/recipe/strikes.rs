//! Glasses whose color comes only when they are held hot, against the hold of the full fuse; for accents, of the tack fuse.

use super::check::Check;
use super::firing::TackFuse;
use super::model::FullFuse;
use super::neighbors::Touching;
use crate::base::firing::{Firing, SegmentName};
use crate::base::notice::Mend;
use crate::base::units::{Celsius, Minutes};
use crate::glass::kind::Glass;

/// At this top or hotter most of them strike in `SOON`, below it in `LATE`: common practice, no source. (That color comes by holding a
/// glass hot: Weyl 1951, Coloured Glasses, from memory.)
const HOT: Celsius = Celsius(780.0);
const SOON: Minutes = Minutes(10.0);
const LATE: Minutes = Minutes(20.0);

/// A note if the full fuse is held too short for a sheet or a powder that strikes, and one if the tack fuse is for accents.
pub(super) fn strikes(check: &mut Check, fuse: &FullFuse, tack: TackFuse, touching: &Touching) {
    let sheets = touching.sheets.iter().map(|sheet| &sheet.glass);
    let powders = touching.coats.iter().flat_map(|coat| coat.blend.shares.iter().map(|(glass, _)| glass));
    held(check, (Firing::FullFuse, fuse.top, fuse.hold), sheets.chain(powders));
    let accents = touching.accents.into_iter().flat_map(|accents| &accents.glasses);
    held(check, (Firing::TackFuse, tack.top, tack.hold), accents.map(|(glass, _)| glass));
}

/// A note if a firing is held too short for one of these.
fn held<'a>(
    check: &mut Check,
    (firing, top, hold): (Firing, Celsius, Minutes),
    mut glasses: impl Iterator<Item = &'a Glass>,
) {
    let needed = if top >= HOT { SOON } else { LATE };
    let striking = glasses.find(|glass| glass.strikes);
    let Some(Glass { name, .. }) = striking.filter(|_| hold < needed) else { return };
    let why = format!(
        "The color of {} comes only when it is held hot: at {top} in some {needed}, and here it has {hold}.",
        name.to_lowercase(),
    );
    let remedy = match firing {
        Firing::TackFuse => {
            format!("Hold the tack {needed}, which melts it flatter; or take a glass that has its color.")
        }
        _ => format!("Hold the fuse {needed}."),
    };
    check.note(firing.into(), "Must strike.", why, remedy).mend =
        Some(Mend::Hold(firing, SegmentName::Process, needed));
}
