//! Glasses whose color comes only when they are held hot, against the hold of the full fuse.

use super::check::Check;
use super::model::FullFuse;
use super::neighbors::Touching;
use crate::base::firing::{Firing, SegmentName};
use crate::base::notice::{Mend, Step};
use crate::base::units::{Celsius, Minutes};
use crate::glass::kind::Glass;

/// At this top or hotter most of them strike in `SOON`, below it in `LATE`: common practice, no source. (That color comes by holding a
/// glass hot: Weyl 1951, Coloured Glasses, from memory.)
const HOT: Celsius = Celsius(780.0);
const SOON: Minutes = Minutes(10.0);
const LATE: Minutes = Minutes(20.0);

/// A note if the full fuse is held too short for a sheet or a powder that strikes.
pub(super) fn strikes(check: &mut Check, fuse: &FullFuse, touching: &Touching) {
    let needed = if fuse.top >= HOT { SOON } else { LATE };
    if fuse.hold >= needed {
        return;
    }
    let sheets = touching.sheets.iter().map(|sheet| &sheet.glass);
    let powders = touching.coats.iter().flat_map(|coat| coat.blend.shares.iter().map(|(glass, _)| glass));
    let striking: Option<&Glass> = sheets.chain(powders).find(|glass| glass.strikes);
    if let Some(Glass { name, .. }) = striking {
        let why = format!(
            "The color of {} comes only when it is held hot: at {} in some {needed}, and here it has {}.",
            name.to_lowercase(),
            fuse.top,
            fuse.hold
        );
        check.note(Step::Fuse, "Must strike.", why, format!("Hold the fuse {needed}.")).mend =
            Some(Mend::Hold(Firing::FullFuse, SegmentName::Process, needed));
    }
}
