//! A color found among jars, for a coat of a recipe.

use super::asked::{FindJob, Finds, SeenOn};
use crate::base::grid::Grid;
use crate::base::seed::Seed;
use crate::layup::sift::sift;
use crate::optics::test_tile::Ground;
use crate::recipe::plan::{Plan, Planned, PlannedCoat};
use crate::tiles::find::{Fired, Under, find};
use crate::tiles::ladder::clear_lit;
use crate::tiles::tile::{Bases, Over};

/// Cells across the disc on which a coat is weighed: to a thousandth of what the ticket says.
const WEIGHED: usize = 192;

/// The ways to the color; none if the recipe cannot be made, or has no such coat.
pub fn found(asked: &FindJob) -> Option<Finds> {
    let FindJob { recipe, seed, coat, jars, wanted, seen, two } = asked;
    let Planned { plan, .. } = Plan::new(recipe).ok()?;
    let planned = plan.coat(*coat)?;
    let under = match seen {
        SeenOn::Coat => Under::Day(Ground::of_coat(&plan, *coat).seen()),
        SeenOn::White => Under::Day(Bases::default().under(Over::White)),
        SeenOn::Clear => Under::Lit(clear_lit(), [1.0; 3]),
    };
    let fired = Fired::of(&jars.0, plan.packing.into());
    let ways = find(*wanted, &fired.jars(), &under, *two);
    Some(Finds { ways, area: covered(&plan, planned, *seed) / (1.0 - plan.past_the_disc) })
}

/// The powder that lies on one disc, mm³ for each mm of the coat's depth.
fn covered(plan: &Plan, coat: &PlannedCoat, seed: Seed) -> f64 {
    let grid = Grid::new(plan.disc, WEIGHED);
    grid.integral(&sift(&coat.sift, seed, grid)) / coat.sift.fall.middling()
}

#[cfg(test)]
mod tests {
    use super::super::asked::{AtDesk, DeskJob, Said};
    use super::super::desk::Desk;
    use super::super::protocol::{read, written};
    use super::*;
    use crate::base::memo::Allowance;
    use crate::color::difference::{de2000, to_lab};
    use crate::color::srgb::decode;
    use crate::glass::catalogue;
    use crate::glass::glasses::Glasses;
    use crate::glass::kind::Glass;
    use crate::kiln::data::{Guess, Kiln};
    use crate::optics::test_tile::swatch;
    use crate::preview::Preview;
    use crate::recipe::demo;
    use crate::shop::ticket::ticket;
    use crate::tiles::find::Way;

    fn asked() -> FindJob {
        let recipe = demo::ember_walk();
        let own = Glass { id: "own".into(), packing: Some(0.5), ..catalogue::find("coral").unwrap().clone() };
        let jars = ["straw", "rust", "lagoon", "moss"].map(|id| catalogue::find(id).unwrap().clone());
        FindJob {
            coat: recipe.coats[1].id,
            recipe,
            seed: Seed(41),
            jars: Glasses(jars.into_iter().chain([own]).collect()),
            wanted: to_lab(decode([154, 95, 76])),
            seen: SeenOn::Coat,
            two: true,
        }
    }

    #[test]
    fn it_is_told_at_once_as_the_page_reads_it() {
        let job = DeskJob::Find(Box::new(asked()));
        assert_eq!(read(&written(&job)), Ok(job.clone()));
        let (said, whole) =
            Desk::default().step(&mut Preview::new(), 1, &written(&job)).unwrap().expect("at once");
        let finds = found(&asked());
        assert!(whole && finds.as_ref().is_some_and(|finds| finds.ways.len() >= 5), "{finds:?}");
        assert_eq!(read(&said), Ok(Said::Found(finds)));
    }

    /// Laid in the recipe, what is nearest of each kind has the color that was said, on what the coat really lies on, and weighs what was
    /// said.
    #[test]
    fn what_is_laid_has_the_color_and_the_weight_that_were_said() {
        let asked = asked();
        let Finds { ways, area } = found(&asked).expect("the recipe is sound");
        let kind = |of: fn(&Way) -> bool| ways.iter().find(|found| of(&found.way)).expect("one is found");
        for found in [
            kind(|way| matches!(way, Way::Alone { .. })),
            kind(|way| matches!(way, Way::Blended { .. })),
            kind(|way| matches!(way, Way::Over { .. })),
        ] {
            let mut recipe = asked.recipe.clone();
            found.way.lay(&asked.jars.0, &mut recipe, asked.coat);
            let plan = Plan::new(&recipe).expect("it is sound").plan;
            let jars = &asked.jars.0;
            let top = plan.coats[plan.coats.len() - 2].sift.id;
            let (_, fired) = swatch(&plan, top).expect("it is there");
            // A swatch is shown with headroom for gloss: looked at against the same.
            let shown = to_lab(decode(fired).map(|c| c / crate::optics::colors::WHITE));
            let apart = de2000(shown, found.color);
            assert!(apart < 1.0, "{:?} shows {shown:?}, apart by {apart}", found.way);
            let kiln = Kiln::guess(Guess::SmallBrick);
            let ticket =
                ticket(&mut Preview::new(), &plan, asked.seed, &kiln, &mut Allowance::unlimited()).unwrap();
            let layers = &ticket.coats[1..plan.coats.len() - 1];
            let weighed: f64 = layers.iter().map(|coat| coat.to_weigh.0).sum();
            let each = found.way.each().into_iter();
            let said: f64 = each
                .map(|(jar, depth)| {
                    1e-3 * area * depth * jars[jar].packing.unwrap_or(0.45) * jars[jar].density
                })
                .sum();
            assert!(
                (said / weighed - 1.0).abs() < 0.01,
                "{:?}: {said} g, {weighed} g on the ticket",
                found.way
            );
        }
    }

    #[test]
    fn what_it_is_seen_on_tells_and_a_coat_that_is_gone_is_told() {
        let on = |seen| found(&FindJob { seen, ..asked() }).expect("the recipe is sound").ways[0].color;
        assert!(de2000(on(SeenOn::Coat), on(SeenOn::White)) > 0.0);
        assert_ne!(on(SeenOn::White), on(SeenOn::Clear));
        assert_eq!(found(&FindJob { coat: 99, ..asked() }), None);
        let one = found(&FindJob { two: false, ..asked() }).expect("the recipe is sound");
        assert_eq!(one.ways.len(), asked().jars.0.len());
    }
}
