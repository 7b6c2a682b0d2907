//! The color of each coat by its depth, thin on the left, by day and lit from within, as `target/depth_strip.png`.
//!
//! `cargo run --release --example depth_strip`

use dappledome::optics::test_tile::strip;
use dappledome::picture::{Pixmap, png};
use dappledome::recipe::demo;
use dappledome::recipe::plan::Plan;

/// Steps along the strip, and the depth of loose powder at its end, mm.
const STEPS: u16 = 48;
const DEEPEST: f32 = 1.5;
/// Size of one patch of color, pixels.
const PATCH: (u32, u32) = (16, 64);

fn main() -> std::io::Result<()> {
    let planned = Plan::new(&demo::ember_walk()).expect("the demo recipes have no faults");
    let coats: Vec<u32> = planned.plan.coats.iter().map(|coat| coat.sift.id).collect();
    let depths: Vec<f32> = (0..STEPS).map(|step| DEEPEST * f32::from(step) / f32::from(STEPS - 1)).collect();
    let rows = coats.iter().flat_map(|coat| [(*coat, false), (*coat, true)]);
    let mut picture = Pixmap::filled(u32::from(STEPS) * PATCH.0, 2 * coats.len() as u32 * PATCH.1, [150; 3]);
    for (row, (coat, within)) in (0..).zip(rows) {
        for (column, color) in (0..).zip(strip(&planned.plan, coat, &depths, within)) {
            picture.place(&Pixmap::filled(PATCH.0, PATCH.1, color), column * PATCH.0, row * PATCH.1);
        }
    }
    std::fs::write("target/depth_strip.png", png::encode(&picture, &[]))?;
    println!("target/depth_strip.png");
    Ok(())
}
