//! A fired piece held against its forecast.

use super::asked::{AgainstJob, Cell, Compared};
use crate::base::memo::Allowance;
use crate::color::difference::{Lab, de2000, from_lab, to_lab};
use crate::color::srgb::{encode, pull_in};
use crate::compare::by_place::{by_place, place};
use crate::compare::foretold::{CELLS, FINER, WITHIN};
use crate::compare::hand::told;
use crate::compare::rows::rows;
use crate::preview::Preview;
use crate::recipe::plan::Plan;

/// How it compares; none if the recipe cannot be made.
pub fn compared(preview: &mut Preview, asked: &AgainstJob) -> Option<Box<Compared>> {
    let plan = Plan::new(&asked.recipe).ok()?.plan;
    let photo: Vec<Option<Lab>> = (0..CELLS * CELLS).map(|at| seen(asked, at)).collect();
    let rows = rows(preview, &plan, asked.seed, &photo.iter().copied().flatten().collect::<Vec<_>>());
    let forecast = preview.colors(&plan, asked.seed, FINER * CELLS, &mut Allowance::unlimited()).ok()?;
    let laid = by_place(&forecast, &photo, CELLS);
    let cells = laid.cells.into_iter().map(|cell| cell.map(shown)).collect();
    Some(Box::new(Compared { told: told(&plan, &rows), rows, turned: laid.turned, cells }))
}

fn shown((fired, foretold): (Lab, Lab)) -> Cell {
    let [on_screen, other] = [fired, foretold].map(|color| encode(pull_in(from_lab(color))));
    Cell { fired: on_screen, foretold: other, apart: de2000(fired, foretold) as f32 }
}

/// What the photo shows in a cell; none near the rim, where the piece is rounded and lit on its own.
fn seen(asked: &AgainstJob, at: usize) -> Option<Lab> {
    let (x, y) = place(at, CELLS);
    let color = asked.photo.get(at).copied().flatten()?;
    (x * x + y * y < WITHIN * WITHIN && color.iter().all(|light| light.is_finite())).then(|| to_lab(color))
}
