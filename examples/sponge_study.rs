//! How much powder the sponge leaves, by how often it goes over the disc, as a table.
//!
//! `cargo run --release --example sponge_study`

use dappledome::base::memo::Allowance;
use dappledome::base::seed::Seed;
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::preview::Preview;
use dappledome::recipe::demo;
use dappledome::recipe::plan::Plan;
use dappledome::shop::ticket::ticket;

fn main() {
    let mut recipe = demo::ember_walk();
    let mut preview = Preview::new();
    let kiln = Kiln::guess(Guess::SmallBrick);
    println!("passes  rolls  left of each coat, g");
    for half_passes in 0..=10 {
        let passes = f64::from(half_passes) / 2.0;
        recipe.sponge.as_mut().expect("this recipe is dabbed").passes = passes;
        let planned = Plan::new(&recipe).expect("every number of passes up to 5 can be made");
        let ticket = ticket(&mut preview, &planned.plan, Seed(7), &kiln, &mut Allowance::unlimited())
            .expect("an unlimited allowance never pauses");
        let left: Vec<_> = ticket.coats.iter().map(|coat| format!("{:6.2}", coat.left.0)).collect();
        println!("{passes:6.1}  {:5}  {}", ticket.rolls, left.join("  "));
    }
}
