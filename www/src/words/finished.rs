//! A finished size that is asked for, in words.

use super::recipe::form;
use super::text::lower;
use dappledome::base::shown::{Lengths, Units};
use dappledome::base::units::{Mm, fixed};
use dappledome::recipe::Form;
use dappledome::slump::finished::{Fit, OutOfReach};

/// Finds what gives the size.
pub const FIND_MOLD: &str = "Find mold";
/// Label of the field.
pub const FINISHED_SIZE: &str = "Finished size, across and height";

/// What stands in the empty field.
pub fn finished_example(units: Units) -> &'static str {
    match units.lengths {
        Lengths::Millimeters => "150 × 40",
        Lengths::Inches => "6 × 1 1/2",
    }
}

/// What can be typed.
pub fn finished_help(units: Units) -> &'static str {
    match units.lengths {
        Lengths::Millimeters => "Write across and height, such as 150 × 40 mm.",
        Lengths::Inches => "Write across and height, such as 6 × 1 1/2 in.",
    }
}

/// What gives the size that was asked for.
pub fn mold_found(fit: &Fit) -> String {
    let tenth = |mm: Mm| fixed(mm.0, 1);
    let Fit { mold, disc } = fit;
    format!(
        "{} {} × {} mm, disc {} mm.",
        form(&mold.form),
        tenth(mold.opening),
        tenth(mold.depth),
        tenth(*disc)
    )
}

/// Why no mold gives it, and what to do.
pub fn out_of_reach(why: OutOfReach, of: &Form) -> String {
    let form = lower(form(of));
    match why {
        OutOfReach::TooNarrow(least) => {
            format!("Too narrow. The smallest {form} gives a piece {least} across: ask for more.")
        }
        OutOfReach::TooWide(most) => {
            format!("Too wide. The widest {form} gives a piece {most} across: ask for less.")
        }
        OutOfReach::TooLow(least) => format!(
            "Too low. In the shallowest {form}, glass so thick and wide stands {least} high: ask for more, or take \
             thinner sheets."
        ),
        OutOfReach::TooHigh(most) => format!(
            "Too high. A {form} is at most half as deep as it is wide, so a piece so wide stands at most {most} high: ask for \
             less, a wider piece, or another mold."
        ),
    }
}
