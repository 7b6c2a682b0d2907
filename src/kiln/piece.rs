//! What the kiln has to know of a piece: its thickest place, and its glasses as heat sees them.

use super::thermal::Plate;
use crate::base::firing::Firing;
use crate::base::notice::{Notice, Severity, Step};
use crate::base::units::{Celsius, Mm};
use crate::glass::kind::Glass;
use crate::glass::viscosity::Viscosity;
use crate::recipe::plan::{Plan, PlannedCoat};

/// A piece in a firing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Its thickest place, with the largest expansion of its glasses.
    pub plate: Plate,
    /// How its sheets flow, by the mean of their points.
    pub flow: Viscosity,
    /// The highest annealing point of its glasses: the one that stress goes from last.
    pub anneal: Viscosity,
    /// The lowest strain point of its glasses: the one that sets last.
    pub sets: Celsius,
}

impl Piece {
    /// A planned piece in one of its firings.
    ///
    /// # Errors
    /// A fault if one of its glasses has no viscosity.
    pub fn new(plan: &Plan, firing: Firing) -> Result<Self, Notice> {
        let sheets = plan.sheets.iter().map(|sheet| &sheet.glass);
        let accents = plan.accents.iter().flat_map(|accents| &accents.glasses);
        let powders = plan.coats.iter().flat_map(|coat| &coat.blend.shares).chain(accents);
        let glasses: Vec<&Glass> = sheets.chain(powders.map(|(glass, _)| glass)).collect();
        let each: Vec<Viscosity> = glasses.iter().map(|glass| viscosity(glass)).collect::<Result<_, _>>()?;
        let (anneal, sets) = governing(&each).ok_or_else(no_sheet)?;
        let flow = mean(plan)?;
        let expansion = glasses.iter().fold(0.0, |most: f64, glass| most.max(glass.expansion));
        Ok(Self { plate: Plate { thick: thickest(plan, firing), expansion }, flow, anneal, sets })
    }
}

/// Of all glasses in a piece, the one that anneals hottest, and the lowest strain point; none without a glass.
fn governing(each: &[Viscosity]) -> Option<(Viscosity, Celsius)> {
    let hottest = each.iter().copied().reduce(|a, b| if b.annealing() > a.annealing() { b } else { a })?;
    let lowest = each.iter().map(|one| one.strain().0).fold(f64::INFINITY, f64::min);
    Some((hottest, Celsius(lowest)))
}

/// The thickest place: the sheets, every coat as if it lay there, and the largest accent once it lies on the disc.
pub fn thickest(plan: &Plan, firing: Firing) -> Mm {
    let sheets: f64 = plan.sheets.iter().map(|sheet| f64::from(sheet.thickness)).sum();
    let powder = |coat: &PlannedCoat| f64::from(coat.sift.depth()) * f64::from(coat.blend.packing);
    let accent = match &plan.accents {
        Some(accents) if firing != Firing::FullFuse => f64::from(accents.sizes.1),
        _ => 0.0,
    };
    Mm(sheets + plan.coats.iter().map(powder).sum::<f64>() + accent)
}

/// The viscosity of a glass on the shelf.
fn viscosity(glass: &Glass) -> Result<Viscosity, Notice> {
    Viscosity::new(glass.softening, glass.annealing).map_err(|fault| {
        let [what, why, remedy] = fault.said();
        Notice::new(Severity::Fault, Step::Blank, what, format!("{}: {why}", glass.name), remedy)
    })
}

/// A glass whose points are the means of the sheets', by thickness.
fn mean(plan: &Plan) -> Result<Viscosity, Notice> {
    let thick: f64 = plan.sheets.iter().map(|sheet| f64::from(sheet.thickness)).sum();
    let mean = |of: fn(&Glass) -> Celsius| {
        let sum: f64 = plan.sheets.iter().map(|sheet| f64::from(sheet.thickness) * of(&sheet.glass).0).sum();
        Celsius(sum / thick)
    };
    Viscosity::new(mean(|glass| glass.softening), mean(|glass| glass.annealing)).map_err(|fault| {
        let [what, why, remedy] = fault.said();
        Notice::new(Severity::Fault, Step::Blank, what, why, remedy)
    })
}

fn no_sheet() -> Notice {
    let why = "Without a sheet there is nothing to fire.";
    Notice::new(Severity::Fault, Step::Blank, "No sheet.", why, "Stack one.")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_stiffest_anneals_and_the_softest_sets() {
        let glass = |softening, annealing| {
            Viscosity::new(Celsius(softening), Celsius(annealing)).expect("it is a glass")
        };
        let (soft, usual, stiff) = (glass(650.0, 470.0), glass(680.0, 510.0), glass(730.0, 545.0));
        for each in [[soft, usual, stiff], [stiff, soft, usual], [usual, stiff, soft]] {
            assert_eq!(governing(&each), Some((stiff, soft.strain())));
        }
        assert_eq!(governing(&[]), None);
    }
}
