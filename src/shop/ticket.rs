//! The ticket: every number of a recipe that has to be weighed, cut or measured.

use super::cover::{Base, volumes_by_base};
use super::stem::StemNeeds;
use crate::base::firing::Firing;
use crate::base::memo::{Allowance, Paused};
use crate::base::seed::Seed;
use crate::base::units::{Grams, Mm};
use crate::kiln::data::Kiln;
use crate::kiln::firings::Firings;
use crate::kiln::program::Program;
use crate::layup::accents::place;
use crate::picture::View;
use crate::preview::{Beds, Preview, fused_size};
use crate::recipe::plan::{Plan, PlannedCoat};
use serde::{Deserialize, Serialize};

/// The numbers of a recipe and seed, for the whole batch where it says so.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ticket {
    /// Pieces to make, spares included.
    pub pieces: u32,
    /// Spare ones among them: so many for every ten of the whole batch, rounded up once.
    pub spares: u32,
    /// Powder on one disc, coat by coat.
    pub coats: Vec<CoatGrams>,
    /// Powder to have ready, glass by glass, with what falls past the disc.
    pub powders: Vec<PowderGrams>,
    /// Powder on one disc before the sponge.
    pub sifted: Grams,
    /// Powder that the sponge takes off one disc, what is rubbed off by hand included.
    pub lifted: Grams,
    /// Touches of the sponge's rolls on one disc.
    pub rolls: u32,
    /// Discs to cut, by glass and thickness, in the order in which they lie from the bottom up.
    pub discs: Vec<DiscCut>,
    /// Accents to set on one piece, glass by glass.
    pub accents: Vec<AccentCount>,
    /// Diameter of the flat fused disc, to reckon with.
    pub fused_across: Mm,
    /// Between which diameters it lies, as it slides or sticks, the smaller first.
    pub fused_range: (Mm, Mm),
    /// Thickness of the flat fused disc: the sheets, and the powder as if it lay even.
    pub fused_thickness: Mm,
    /// Diameter of the finished dome, outside, as its sheets give it: powder adds nothing to it.
    pub dome_across: Mm,
    /// Height of the finished dome, outside.
    pub dome_high: Mm,
    /// What each firing takes, in the order of making; one that the kiln does not get through is left out.
    pub firings: Vec<FiringTakes>,
    /// Whether the kiln of the firings is a guess.
    pub kiln_guessed: bool,
    /// What the stem and its joint take; none without one.
    pub stem: Option<StemNeeds>,
}

/// What a firing takes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct FiringTakes {
    /// Which.
    pub firing: Firing,
    /// Hours from switching on until the kiln may be opened.
    pub hours: f64,
    /// Energy, kWh.
    pub kwh: f64,
}

/// Powder of one coat on one disc.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CoatGrams {
    /// The coat's id.
    pub id: u32,
    /// To weigh out for one disc, with what falls past it.
    pub to_weigh: Grams,
    /// What of it, as sifted, lies on which base; none that bears nothing of it.
    pub lies_on: Vec<LiesOn>,
    /// On the disc before the sponge.
    pub sifted: Grams,
    /// On the disc after the sponge and the rubbing, what was put back included.
    pub left: Grams,
}

/// Powder on one of the things that a coat lies on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LiesOn {
    /// What it lies on.
    pub base: Base,
    /// How much, on one disc.
    pub grams: Grams,
}

/// Powder of one glass to have ready.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PowderGrams {
    /// Id of the glass.
    pub glass: String,
    /// To have ready for one disc.
    pub one: Grams,
    /// To have ready for the batch.
    pub ready: Grams,
}

/// Discs of one sheet glass and thickness to cut.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DiscCut {
    /// Id of the glass.
    pub glass: String,
    /// Thickness of the sheet.
    pub thickness: Mm,
    /// Diameter to cut.
    pub diameter: Mm,
    /// How many in one piece.
    pub each: u32,
    /// How many for the batch.
    pub count: u32,
}

/// Accents of one glass on one piece.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AccentCount {
    /// Id of the glass.
    pub glass: String,
    /// How many.
    pub count: u32,
}

/// The ticket of a plan and seed, always at the cells of a fine picture, so that page and native program agree to the gram and
/// what the sponge leaves has settled: 0.05 to 0.11 % below that of 768 cells, where a draft's 192 are 0.5 to 1.2 % low. The page
/// draws that picture next, from the same beds. Sizes are those of the pictures, and hours those of a kiln.
///
/// # Errors
/// [`Paused`] when the allowance is spent before it is done.
pub fn ticket(
    preview: &mut Preview,
    plan: &Plan,
    seed: Seed,
    kiln: &Kiln,
    allowance: &mut Allowance,
) -> Result<Ticket, Paused> {
    let Beds { sifted, left: bed } = preview.beds(plan, seed, View::FINE_CELLS as usize, allowance)?;
    let coats: Vec<CoatGrams> = plan
        .coats
        .iter()
        .enumerate()
        .map(|(i, coat)| {
            let grams = |volume| coat.blend.weight(volume);
            let on_one = grams(bed.grid.integral(&sifted[i]));
            CoatGrams {
                id: coat.sift.id,
                to_weigh: Grams(on_one.0 / (1.0 - plan.past_the_disc)),
                lies_on: lies_on(plan, &volumes_by_base(&bed.grid, &sifted[..i], &sifted[i]), grams),
                sifted: on_one,
                left: grams(bed.volume(i)),
            }
        })
        .collect();
    // The library's sum of nothing is -0.
    let total = |of: fn(&CoatGrams) -> Grams| Grams(coats.iter().fold(0.0, |sum, coat| sum + of(coat).0));
    let (all_sifted, all_left) = (total(|coat| coat.sifted), total(|coat| coat.left));
    let pieces = plan.batch.to_make();
    let diameter = Mm(2.0 * f64::from(plan.disc.radius()));
    let dome = preview.dome(plan, None, allowance)?;
    let fused = fused_size(plan);
    let area = std::f64::consts::PI / 4.0 * fused.across.0 * fused.across.0;
    let glass = |(at, coat): (usize, &PlannedCoat)| bed.volume(at) * f64::from(coat.blend.packing);
    let powder_thickness = plan.coats.iter().enumerate().map(glass).sum::<f64>() / area;
    let (a, b) = (fused.slips, fused.sticks);
    Ok(Ticket {
        pieces,
        spares: pieces - plan.batch.pieces,
        powders: powders(plan, &coats, pieces),
        coats,
        sifted: all_sifted,
        lifted: Grams(all_sifted.0 - all_left.0),
        rolls: bed.sponge.rolls,
        discs: discs(plan, diameter, pieces),
        accents: accents(plan, seed),
        fused_across: fused.across,
        fused_range: if a < b { (a, b) } else { (b, a) },
        fused_thickness: Mm(fused.thick.0 + powder_thickness),
        dome_across: dome.across(),
        dome_high: dome.high(),
        stem: StemNeeds::of(plan, &dome),
        firings: firings(plan, kiln),
        kiln_guessed: kiln.guess,
    })
}

/// What of a coat lies on the sheet and on each coat below it, as grams.
fn lies_on(plan: &Plan, volumes: &[f64], grams: impl Fn(f64) -> Grams) -> Vec<LiesOn> {
    let coats = plan.coats.iter().map(|coat| Base::Coat(coat.sift.id));
    let bases = [Base::Sheet].into_iter().chain(coats).zip(volumes);
    bases.filter(|(_, volume)| **volume > 0.0).map(|(base, v)| LiesOn { base, grams: grams(*v) }).collect()
}

/// Powder to have ready: what lies on every disc before the sponge, and what falls past.
fn powders(plan: &Plan, coats: &[CoatGrams], pieces: u32) -> Vec<PowderGrams> {
    let mut powders: Vec<PowderGrams> = Vec::new();
    for (coat, grams) in plan.coats.iter().zip(coats) {
        for (glass, share) in coat.blend.shares_of_weight() {
            let one = grams.to_weigh.0 * share;
            match powders.iter_mut().find(|powder| powder.glass == glass) {
                Some(powder) => powder.one.0 += one,
                None => powders.push(PowderGrams { glass: glass.into(), one: Grams(one), ready: Grams(0.0) }),
            }
        }
    }
    for powder in &mut powders {
        powder.ready = Grams(powder.one.0 * f64::from(pieces));
    }
    powders
}

fn discs(plan: &Plan, diameter: Mm, pieces: u32) -> Vec<DiscCut> {
    let mut discs: Vec<DiscCut> = Vec::new();
    for sheet in &plan.sheets {
        let thickness = Mm((f64::from(sheet.thickness) * 100.0).round() / 100.0);
        let there = discs.iter_mut().find(|cut| cut.glass == sheet.glass.id && cut.thickness == thickness);
        match there {
            Some(cut) => cut.each += 1,
            None => {
                discs.push(DiscCut { glass: sheet.glass.id.clone(), thickness, diameter, each: 1, count: 0 })
            }
        }
    }
    for cut in &mut discs {
        cut.count = cut.each * pieces;
    }
    discs
}

/// What each firing takes; nothing in a kiln with faults.
fn firings(plan: &Plan, kiln: &Kiln) -> Vec<FiringTakes> {
    let programs = Firings::new(plan, kiln).map_or_else(|_| Vec::new(), |firings| firings.programs);
    let takes = programs.iter().map(|program| {
        let Program { firing, hours, kwh, .. } = *program;
        FiringTakes { firing, hours, kwh }
    });
    takes.collect()
}

fn accents(plan: &Plan, seed: Seed) -> Vec<AccentCount> {
    let Some(planned) = &plan.accents else { return Vec::new() };
    let placed = place(planned, seed);
    let count = |glass: usize| placed.iter().filter(|accent| accent.glass == glass).count();
    (0..planned.glasses.len())
        .map(|i| AccentCount { glass: planned.glasses[i].0.id.clone(), count: count(i) as u32 })
        .collect()
}

impl Ticket {
    /// Every firing of the piece, in the order of making, with what it takes; nothing where the kiln does not get through it.
    pub fn each_firing(&self) -> impl Iterator<Item = (Firing, Option<FiringTakes>)> {
        let tack = (!self.accents.is_empty()).then_some(Firing::TackFuse);
        let all = [Some(Firing::FullFuse), tack, Some(Firing::Slump)].into_iter().flatten();
        all.map(|firing| (firing, self.firings.iter().find(|takes| takes.firing == firing).copied()))
    }

    /// Powder to weigh for one disc, all glasses together.
    pub fn powder_for_one(&self) -> Grams {
        Grams(self.powders.iter().map(|powder| powder.one.0).sum())
    }

    /// Powder to weigh for the batch, all glasses together.
    pub fn powder_to_weigh(&self) -> Grams {
        Grams(self.powders.iter().map(|powder| powder.ready.0).sum())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kiln::data::Guess;
    use crate::recipe::{Batch, Recipe, Sheet, demo};

    fn of(recipe: &Recipe) -> Ticket {
        let plan = Plan::new(recipe).unwrap().plan;
        let kiln = Kiln::guess(Guess::SmallBrick);
        ticket(&mut Preview::new(), &plan, Seed(41), &kiln, &mut Allowance::unlimited()).unwrap()
    }

    /// Half a kilowatt heats no kiln of 560 mm to a slump; 2.4 kW are what one of 300 mm has on its plate: common practice, no source.
    #[test]
    fn a_firing_that_the_kiln_does_not_get_through_takes_nothing() {
        let recipe = Recipe { accents: Some(crate::recipe::Accents::default()), ..demo::ember_walk() };
        let plan = Plan::new(&recipe).unwrap().plan;
        let takes = |kiln: &Kiln| {
            let ticket =
                ticket(&mut Preview::new(), &plan, Seed(41), kiln, &mut Allowance::unlimited()).unwrap();
            ticket.each_firing().map(|(firing, takes)| (firing, takes.is_some())).collect::<Vec<_>>()
        };
        let all = [Firing::FullFuse, Firing::TackFuse, Firing::Slump];
        assert_eq!(takes(&Kiln::guess(Guess::SmallBrick)), all.map(|firing| (firing, true)));
        let weak = Kiln { power: 0.5, ..Kiln::guess(Guess::LargeBrick) };
        assert_eq!(takes(&weak), all.map(|firing| (firing, false)));
    }

    #[test]
    fn discs_are_counted_by_glass() {
        let mut recipe = Recipe::bare();
        recipe.batch = Batch { pieces: 12, spare_per_ten: 1 };
        let clear = |thickness| Sheet { glass: "clear".into(), thickness: Mm(thickness) };
        recipe.blank.sheets.push(clear(3.0));
        recipe.blank.sheets.push(clear(2.0));
        let ticket = of(&recipe);
        let said = ticket.discs.iter().map(|cut| (cut.glass.as_str(), cut.thickness.0, cut.each, cut.count));
        let all: Vec<_> = said.collect();
        assert_eq!(all, [("clear", 3.0, 2, 28), ("white", 3.0, 1, 14), ("clear", 2.0, 1, 14)]);
        assert_eq!((ticket.pieces, ticket.spares), (14, 2));
    }

    #[test]
    fn what_a_coat_lies_on_adds_up_to_the_coat() {
        let recipe = demo::ember_walk();
        let ticket = of(&recipe);
        for coat in &ticket.coats {
            let sum: f64 = coat.lies_on.iter().map(|on| on.grams.0).sum();
            assert!((sum - coat.sifted.0).abs() < 1e-9 * sum, "{coat:?}");
            assert!(
                (coat.to_weigh.0 * (1.0 - recipe.past_the_disc) - coat.sifted.0).abs() < 1e-9,
                "{coat:?}"
            );
        }
        assert_eq!(ticket.coats[0].lies_on.len(), 1, "the ground lies on the sheet");
        assert_eq!(ticket.coats[0].lies_on[0].base, Base::Sheet);
        let on_ground = ticket.coats[1].lies_on.iter().find(|on| on.base == Base::Coat(recipe.coats[0].id));
        assert!(on_ground.is_some_and(|on| on.grams.0 > 0.9 * ticket.coats[1].sifted.0), "{ticket:?}");
    }

    #[test]
    fn one_and_the_batch_are_told_apart() {
        let mut recipe = demo::ember_walk();
        recipe.batch = Batch { pieces: 12, spare_per_ten: 1 };
        let ticket = of(&recipe);
        for powder in &ticket.powders {
            assert!((powder.ready.0 - 14.0 * powder.one.0).abs() < 1e-9 * powder.ready.0, "{powder:?}");
        }
        let coats: f64 = ticket.coats.iter().map(|coat| coat.to_weigh.0).sum();
        assert!((ticket.powder_for_one().0 - coats).abs() < 1e-6 * coats);
        assert!((ticket.powder_to_weigh().0 - 14.0 * coats).abs() < 1e-6 * 14.0 * coats);
    }

    /// A disc of 150 mm on 3 and 3 mm of sheet, 0.3 mm of powder at 0.45: 0.135 mm of glass, but for the soft edge.
    #[test]
    fn sizes_are_those_of_the_fused_piece() {
        use crate::recipe::{Coat, Fall};
        let mut recipe = Recipe::bare();
        recipe.blank.diameter = Mm(150.0);
        let coat = Coat::new(1, "rust", Fall::Even { depth: Mm(0.3) });
        let none = Mm(0.0);
        recipe.coats = vec![Coat { unevenness: 0.0, bare_rim: none, bare_rim_raggedness: none, ..coat }];
        let ticket = of(&recipe);
        // 6 mm stand below the 6.4 mm at which melted glass rests (`fuse/spread.rs`), so it draws in; no glass is lost in that.
        let (least, most) = ticket.fused_range;
        let across = ticket.fused_across.0;
        assert!(
            least.0 < across && across < most.0 && most.0 < 150.0 && least.0 > 150.0 * (6.0f64 / 6.5).sqrt()
        );
        assert!((across - f64::midpoint(least.0, most.0)).abs() <= 0.05, "{across} of {least} to {most}");
        let thick = 6.135 * 150.0 * 150.0 / across / across;
        assert!((ticket.fused_thickness.0 - thick).abs() < 0.001, "{}", ticket.fused_thickness.0);
        assert_eq!((ticket.lifted.0, ticket.rolls), (0.0, 0), "nothing was dabbed");
    }

    /// What the sponge takes is in no glass: thickness and what is left go by what stays.
    #[test]
    fn what_the_sponge_takes_is_not_fused() {
        let recipe = demo::ember_walk();
        let ticket = of(&recipe);
        let sum = |of: fn(&CoatGrams) -> f64| ticket.coats.iter().map(of).sum::<f64>();
        let (sifted, left) = (sum(|coat| coat.sifted.0), sum(|coat| coat.left.0));
        assert!(left < 0.95 * sifted && ticket.rolls > 0, "{left} of {sifted}");
        assert!((ticket.lifted.0 - (sifted - left)).abs() < 1e-9 && (ticket.sifted.0 - sifted).abs() < 1e-9);
        // Grams over density over the disc's area: 2.5 g/cm³ is 0.0025 g/mm³.
        let radius = recipe.blank.diameter.0 / 2.0;
        let sheets: f64 = recipe.blank.sheets.iter().map(|sheet| sheet.thickness.0).sum();
        let drawn_in = 2.0 * radius / ticket.fused_across.0;
        let want = (sheets + left / 0.0025 / (std::f64::consts::PI * radius * radius)) * drawn_in * drawn_in;
        assert!(
            (ticket.fused_thickness.0 - want).abs() < 1e-5,
            "{} instead of {want}",
            ticket.fused_thickness.0
        );
    }

    /// Accents of two glasses, counted one by one as they were placed.
    #[test]
    fn accents_are_counted_by_glass() {
        use crate::recipe::{Accents, Number, Part};
        let mut recipe = demo::ember_walk();
        let part = |glass: &str, parts| Part { glass: glass.into(), parts };
        recipe.accents = Some(Accents {
            glasses: vec![part("chalk", 3.0), part("moss", 1.0)],
            number: Number::Count(24),
            ..Accents::default()
        });
        let plan = Plan::new(&recipe).unwrap().plan;
        let placed = place(plan.accents.as_ref().unwrap(), Seed(41));
        let counted = |glass| placed.iter().filter(|accent| accent.glass == glass).count() as u32;
        let ticket = of(&recipe);
        let said: Vec<_> =
            ticket.accents.iter().map(|accent| (accent.glass.as_str(), accent.count)).collect();
        assert_eq!(said, [("chalk", counted(0)), ("moss", counted(1))]);
        assert_eq!(counted(0) + counted(1), 24);
        assert!(counted(0) > counted(1) && counted(1) > 0, "three of four are chalk: {said:?}");
        recipe.accents = None;
        assert!(of(&recipe).accents.is_empty());
    }

    /// One glass in two coats is weighed together, one more part of a blend by its share.
    #[test]
    fn a_glass_of_two_coats_is_weighed_once() {
        use crate::recipe::{Coat, Fall, Part};
        let mut recipe = Recipe::bare();
        let coat = |id, depth| Coat::new(id, "rust", Fall::Even { depth: Mm(depth) });
        recipe.coats = vec![coat(1, 0.2), coat(2, 0.3)];
        let part = |glass: &str, parts| Part { glass: glass.into(), parts };
        recipe.coats[1].powder = vec![part("moss", 1.0), part("rust", 3.0)];
        let ticket = of(&recipe);
        let [first, second] = [0, 1].map(|at| ticket.coats[at].to_weigh.0);
        let said: Vec<_> =
            ticket.powders.iter().map(|powder| (powder.glass.as_str(), powder.one.0)).collect();
        let [("rust", rust), ("moss", moss)] = said[..] else { panic!("{said:?}") };
        assert!(
            (rust - first - 0.75 * second).abs() < 1e-5 && (moss - 0.25 * second).abs() < 1e-5,
            "{said:?}"
        );
    }
}
