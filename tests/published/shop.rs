//! Grams.

use super::table::near;
use dappledome::base::memo::Allowance;
use dappledome::base::seed::Seed;
use dappledome::base::units::Mm;
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::preview::Preview;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Batch, Coat, Fall, Recipe};
use dappledome::shop::ticket::ticket;

/// Depth x area x packing x density, density 2500 kg/m³ as EN 572-1 gives it for soda-lime glass; packing 0.45 is common
/// practice, no source. A 150 mm disc under 0.3 mm: 176.71 cm² x 0.03375 g/cm² = 5.96 g.
#[test]
fn a_sifted_disc_weighs_what_it_must() {
    let mut recipe = Recipe::bare();
    recipe.blank.diameter = Mm(150.0);
    recipe.past_the_disc = 0.2;
    recipe.batch = Batch { pieces: 12, spare_per_ten: 1 };
    let coat = Coat::new(1, "rust", Fall::Even { depth: Mm(0.3) });
    let none = Mm(0.0);
    recipe.coats = vec![Coat { unevenness: 0.0, bare_rim: none, bare_rim_raggedness: none, ..coat }];
    let plan = Plan::new(&recipe).expect("it is sound").plan;
    let ticket = ticket(
        &mut Preview::new(),
        &plan,
        Seed(1),
        &Kiln::guess(Guess::SmallBrick),
        &mut Allowance::unlimited(),
    )
    .expect("it is not paused");
    // The soft edge of the sifted disc takes half of its last 0.4 mm.
    near("on one disc", ticket.coats[0].sifted.0, 5.96, 0.05);
    assert_eq!(ticket.pieces, 14, "twelve, and two spare: one for ten, rounded up");
    near("for the batch", ticket.powders[0].ready.0, ticket.coats[0].sifted.0 * 14.0 / 0.8, 1e-6);
    assert!(ticket.discs.iter().all(|cut| (cut.each, cut.count) == (1, 14)));
}
