//! One piece in its three stages, side by side, as `target/one_picture.png`.
//!
//! `cargo run --release --example one_picture`

use dappledome::base::seed::Seed;
use dappledome::picture::{Light, Pixmap, Stage, View, png};
use dappledome::preview::Preview;
use dappledome::recipe::demo;
use dappledome::recipe::plan::Plan;

const SIZE: u32 = 384;

fn main() -> std::io::Result<()> {
    let planned = Plan::new(&demo::ember_walk()).expect("the demo recipes have no faults");
    let mut preview = Preview::new();
    let mut all = Pixmap::filled(3 * SIZE, SIZE, [150; 3]);
    for (place, stage) in (0..).zip([Stage::Sifted, Stage::Fused, Stage::Domed]) {
        let view = View::usual(stage, Light::Day, SIZE);
        all.place(&preview.picture(&planned.plan, Seed(7), &view), place * SIZE, 0);
    }
    std::fs::write("target/one_picture.png", png::encode(&all, &[]))?;
    println!("target/one_picture.png");
    Ok(())
}
