//! From a finished size back to the mold and the disc that give it.
//!
//! Two lengths are asked for and three are free, so the disc is cut to the mold's opening, as it usually is. A bottom and
//! a corner keep their share of the opening.

use super::dome::{Dome, DomeInputs};
use crate::base::scalar::{atan2, tan};
use crate::base::units::Mm;
use crate::recipe::limits::{BOTTOM, CORNER, DEPTH, MOST_SHEETS, OPENING, SHEET};
use crate::recipe::{Form, Mold};

/// The size of a finished piece, outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FinishedSize {
    /// Width across, rounded rim included.
    pub across: Mm,
    /// Height.
    pub high: Mm,
}

/// What gives a finished size.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The mold.
    pub mold: Mold,
    /// Diameter of the disc to cut.
    pub disc: Mm,
}

/// Why no mold and disc give a size, with the nearest length that can be reached.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OutOfReach {
    /// No mold is narrow enough: a piece is at least this wide.
    TooNarrow(Mm),
    /// No mold is wide enough: a piece is at most this wide.
    TooWide(Mm),
    /// The glass itself and the shallowest mold are higher: a piece so wide is at least this high.
    TooLow(Mm),
    /// No mold of this form is deep enough for its width: a piece so wide is at most this high.
    TooHigh(Mm),
}

/// How closely a length is solved for, mm.
const CLOSE: f64 = 0.002;
/// The widest bottom, as a share of the opening: the rest is the wall.
const WIDEST_BOTTOM: f64 = 0.95;
/// Parts of a millimeter that a length of the answer is rounded to: finer than glass is cut.
const PARTS: f64 = 10.0;

/// The mold, of the form of another one, and the disc for a finished size of glass so thick. The lengths found are rounded to 0.1 mm.
///
/// # Errors
/// Why the size cannot be reached.
pub fn fit(like: &Mold, thickness: Mm, wanted: FinishedSize) -> Result<Fit, OutOfReach> {
    // A recipe that cannot be made may ask for anything, and a dome takes as long as it is large.
    let thickest = SHEET.most * MOST_SHEETS as f64;
    let search = Search { like, thickness: Mm(thickness.0.max(SHEET.least).min(thickest)).f32() };
    let across = wanted.across.0;
    let (shallow, widest, narrowest) = (DEPTH.least, OPENING.most, OPENING.least);
    let (least, most) = (search.across(narrowest, shallow), search.across(widest, shallow));
    // What is no number is no width either.
    if across.is_nan() || across < least {
        return Err(OutOfReach::TooNarrow(up(least)));
    }
    if across > most {
        return Err(OutOfReach::TooWide(down(most)));
    }
    let deepest = search.deepest(across);
    let high = |depth: f64| search.size(search.opening(across, depth), depth).high.0;
    let (lowest, highest) = (high(shallow), high(deepest));
    if wanted.high.0.is_nan() || wanted.high.0 < lowest {
        return Err(OutOfReach::TooLow(up(lowest)));
    }
    if wanted.high.0 > highest {
        return Err(OutOfReach::TooHigh(down(highest)));
    }
    let depth = root(|depth| high(depth) - wanted.high.0, shallow, deepest);
    let opening = rounded(search.opening(across, depth)).max(OPENING.least);
    let depth = rounded(depth).clamp(DEPTH.least, DEPTH.most.min(opening / 2.0));
    Ok(Fit { mold: tidy(search.mold(opening, depth)), disc: Mm(opening) })
}

/// The sizes that molds of one form give with glass of one thickness.
struct Search<'a> {
    like: &'a Mold,
    thickness: f32,
}

impl Search<'_> {
    fn size(&self, opening: f64, depth: f64) -> FinishedSize {
        let mold = self.mold(opening, depth);
        let radius = (opening / 2.0) as f32;
        let dome = Dome::new(&DomeInputs { mold, radius, thickness: self.thickness });
        FinishedSize { across: dome.across(), high: dome.high() }
    }

    fn across(&self, opening: f64, depth: f64) -> f64 {
        self.size(opening, depth).across.0
    }

    /// A mold of this form, its bottom and its corner in proportion; a corner that does not fit is made smaller.
    fn mold(&self, opening: f64, depth: f64) -> Mold {
        let scale = opening / self.like.opening.0.max(OPENING.least);
        let shaped = |bottom: Mm, corner: Mm| {
            let bottom = (bottom.0 * scale).max(BOTTOM.least).min(WIDEST_BOTTOM * opening).min(BOTTOM.most);
            let wall = (opening - bottom) / 2.0;
            let fits = wall.min(bottom / 2.0) / tan(atan2(depth, wall) / 2.0);
            let corner = (corner.0 * scale).min(0.99 * fits).clamp(CORNER.least, CORNER.most);
            (Mm(bottom), Mm(corner))
        };
        let form = match &self.like.form {
            Form::Bowl => Form::Bowl,
            Form::Hump => Form::Hump,
            Form::FlatBottom { bottom, corner } => {
                let (bottom, corner) = shaped(*bottom, *corner);
                Form::FlatBottom { bottom, corner }
            }
            Form::Flare { bottom, corner } => {
                let (bottom, corner) = shaped(*bottom, *corner);
                Form::Flare { bottom, corner }
            }
        };
        Mold { form, opening: Mm(opening), depth: Mm(depth) }
    }

    /// The narrowest opening of a mold so deep: no mold is deeper than half its width.
    fn narrowest(depth: f64) -> f64 {
        OPENING.least.max(2.0 * depth)
    }

    /// The deepest mold that gives a width: a deeper one is too wide even where it is narrowest, or too narrow even where
    /// it is widest.
    fn deepest(&self, across: f64) -> f64 {
        let (shallow, deepest) = (DEPTH.least, DEPTH.most.min(OPENING.most / 2.0));
        let too_wide = |depth: f64| self.across(Self::narrowest(depth), depth) - across;
        let too_narrow = |depth: f64| across - self.across(OPENING.most, depth);
        let up_to = |too_much: &dyn Fn(f64) -> f64| {
            if too_much(deepest) > 0.0 { root(too_much, shallow, deepest) } else { deepest }
        };
        up_to(&too_wide).min(up_to(&too_narrow))
    }

    /// The opening of the mold so deep that gives a width.
    fn opening(&self, across: f64, depth: f64) -> f64 {
        root(|opening| self.across(opening, depth) - across, Self::narrowest(depth), OPENING.most)
    }
}

/// Where a rising function is zero, between two places; the nearer end if it is not zero between them. False position
/// with the far end's value halved when it stays (Dowell and Jarratt 1971, BIT 11, 168): a sixth of bisection's steps.
fn root(of: impl Fn(f64) -> f64, low: f64, high: f64) -> f64 {
    let (mut a, mut b, mut fa, mut fb) = (low, high, of(low), of(high));
    if fa >= 0.0 {
        return a;
    }
    if fb <= 0.0 {
        return b;
    }
    for _ in 0..60 {
        let x = (a * fb - b * fa) / (fb - fa);
        let f = of(x);
        if f.abs() < CLOSE || b - a < CLOSE {
            return x;
        }
        if f < 0.0 {
            (a, fa, fb) = (x, f, fb / 2.0);
        } else {
            (b, fb, fa) = (x, f, fa / 2.0);
        }
    }
    f64::midpoint(a, b)
}

fn rounded(mm: f64) -> f64 {
    (mm * PARTS).round() / PARTS
}

fn up(mm: f64) -> Mm {
    Mm((mm * PARTS).ceil() / PARTS)
}

fn down(mm: f64) -> Mm {
    Mm((mm * PARTS).floor() / PARTS)
}

/// The mold with its bottom and corner rounded: the corner down, so that it goes on fitting.
fn tidy(mut mold: Mold) -> Mold {
    if let Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } = &mut mold.form {
        (*bottom, *corner) = (Mm(rounded(bottom.0)), down(corner.0));
    }
    mold
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::Recipe;
    use crate::recipe::plan::Plan;

    fn forms() -> [Mold; 4] {
        let of = |form| Mold { form, opening: Mm(160.0), depth: Mm(48.0) };
        [
            of(Form::Bowl),
            of(Form::Hump),
            of(Form::FlatBottom { bottom: Mm(88.0), corner: Mm(20.0) }),
            of(Form::Flare { bottom: Mm(56.0), corner: Mm(20.0) }),
        ]
    }

    fn given(fit: &Fit, thickness: f64) -> FinishedSize {
        let radius = (fit.disc.0 / 2.0) as f32;
        let dome = Dome::new(&DomeInputs { mold: fit.mold.clone(), radius, thickness: thickness as f32 });
        FinishedSize { across: dome.across(), high: dome.high() }
    }

    fn off(fit: &Fit, thickness: f64, wanted: FinishedSize) -> f64 {
        let given = given(fit, thickness);
        f64::max((given.across.0 - wanted.across.0).abs(), (given.high.0 - wanted.high.0).abs())
    }

    #[test]
    fn a_size_asked_for_is_the_size_of_the_dome() {
        let (mut found, mut worst, mut refused) = (0, 0.0, 0);
        for form in forms() {
            for across in (60..=380).step_by(20).map(f64::from) {
                for high in (8..=150).step_by(6).map(f64::from) {
                    for thickness in [3.0, 6.0, 9.0] {
                        let wanted = FinishedSize { across: Mm(across), high: Mm(high) };
                        match fit(&form, Mm(thickness), wanted) {
                            Ok(fit) => {
                                worst = f64::max(worst, off(&fit, thickness, wanted));
                                assert!(
                                    off(&fit, thickness, wanted) < 0.1,
                                    "{form:?} {thickness} {wanted:?}: {fit:?}"
                                );
                                found += 1;
                            }
                            Err(_) => refused += 1,
                        }
                    }
                }
            }
        }
        println!("{found} sizes found, at worst {worst:.3} mm off; {refused} out of reach");
        assert!(found > 1500 && refused > 500, "{found} found, {refused} refused");
    }

    #[test]
    fn what_was_found_can_be_made() {
        for form in forms() {
            let wanted = FinishedSize { across: Mm(150.0), high: Mm(40.0) };
            let fit = fit(&form, Mm(6.0), wanted).unwrap();
            let mut recipe = Recipe { mold: fit.mold.clone(), ..Recipe::bare() };
            recipe.blank.diameter = fit.disc;
            let planned = Plan::new(&recipe).unwrap();
            assert!(planned.notices.is_empty(), "{:?}: {:?}", form.form, planned.notices);
            assert_eq!(fit.disc, fit.mold.opening, "the disc is cut to the opening");
        }
    }

    #[test]
    fn a_size_out_of_reach_is_refused_with_the_nearest_one() {
        let ask = |form: &Mold, across: f64, high: f64| {
            fit(form, Mm(6.0), FinishedSize { across: Mm(across), high: Mm(high) })
        };
        for form in forms() {
            let Err(OutOfReach::TooNarrow(least)) = ask(&form, 40.0, 20.0) else { panic!("{form:?}") };
            let Err(OutOfReach::TooWide(most)) = ask(&form, 500.0, 60.0) else { panic!("{form:?}") };
            let Err(OutOfReach::TooLow(lowest)) = ask(&form, 150.0, 6.0) else { panic!("{form:?}") };
            let Err(OutOfReach::TooHigh(highest)) = ask(&form, 150.0, 140.0) else { panic!("{form:?}") };
            assert!(least.0 > 45.0 && most.0 > 390.0 && lowest.0 < 12.0 && highest.0 > 40.0);
            for (across, high) in [(150.0, lowest.0), (150.0, highest.0)] {
                let wanted = FinishedSize { across: Mm(across), high: Mm(high) };
                let fit = ask(&form, across, high).unwrap();
                assert!(off(&fit, 6.0, wanted) < 0.1, "{form:?} {wanted:?}");
            }
            for width in [least.0, most.0] {
                assert!(!matches!(
                    ask(&form, width, 11.0),
                    Err(OutOfReach::TooNarrow(_) | OutOfReach::TooWide(_))
                ));
            }
        }
    }

    #[test]
    fn what_is_no_number_is_refused() {
        for (across, high) in
            [(f64::NAN, 40.0), (150.0, f64::NAN), (f64::INFINITY, 40.0), (150.0, f64::INFINITY)]
        {
            let wanted = FinishedSize { across: Mm(across), high: Mm(high) };
            assert!(fit(&forms()[0], Mm(6.0), wanted).is_err(), "{wanted:?}");
        }
    }

    #[test]
    fn a_mold_that_cannot_be_costs_neither_time_nor_a_panic() {
        let hostile = [f64::NAN, f64::INFINITY, -1e300, -1.0, 0.0, 1e-300, 1e300];
        for wild in hostile {
            for form in [
                Form::Hump,
                Form::FlatBottom { bottom: Mm(wild), corner: Mm(wild) },
                Form::Flare { bottom: Mm(80.0), corner: Mm(wild) },
            ] {
                for (opening, thickness) in [(wild, 6.0), (160.0, wild), (wild, wild)] {
                    let like = Mold { form: form.clone(), opening: Mm(opening), depth: Mm(wild) };
                    let wanted = FinishedSize { across: Mm(150.0), high: Mm(40.0) };
                    drop(fit(&like, Mm(thickness), wanted));
                }
            }
        }
    }

    #[test]
    fn few_domes_are_tried() {
        let tried = std::cell::Cell::new(0);
        let found = root(
            |x| {
                tried.set(tried.get() + 1);
                x * x * x - 30.0
            },
            0.0,
            10.0,
        );
        assert!(
            (found * found * found - 30.0).abs() < 0.1 && tried.get() < 25,
            "{found} after {}",
            tried.get()
        );
    }
}
