//! From tiles to a glass, and a color found among twenty jars: `cargo bench --bench tiles`.

use dappledome::base::units::Mm;
use dappledome::color::difference::to_lab;
use dappledome::color::srgb::decode;
use dappledome::glass::catalogue;
use dappledome::glass::material::Material;
use dappledome::optics::stack::Seen;
use dappledome::tiles::find::{Jar, Under, find};
use dappledome::tiles::fit::fit;
use dappledome::tiles::sureness::Sureness;
use dappledome::tiles::tile::{Bases, Over, Powder, Sifted, Tile};
use divan::Bencher;

fn main() {
    divan::main();
}

const POWDER: Powder = Powder { packing: 0.45, density: 2.5, milkiness: 0.0 };

fn tile(depth: f64, over: Over, codes: [u8; 3]) -> Tile {
    Tile { sifted: Sifted::Loose(Mm(depth)), over, color: to_lab(decode(codes)), spread: None }
}

fn fitted(bencher: Bencher, tiles: &[Tile]) {
    bencher.bench(|| fit(tiles, &Bases::default(), &POWDER).expect("the tiles are sound"));
}

#[divan::bench]
fn one_tile(bencher: Bencher) {
    fitted(bencher, &[tile(0.45, Over::White, [154, 95, 76])]);
}

#[divan::bench]
fn two_tiles(bencher: Bencher) {
    fitted(bencher, &[tile(0.45, Over::White, [154, 80, 10]), tile(0.15, Over::White, [200, 140, 80])]);
}

/// Two that no glass shows: brighter than their base, and as a frame shows them that is dragged over the white.
#[divan::bench]
fn two_out_of_reach(bencher: Bencher) {
    fitted(bencher, &[tile(0.45, Over::White, [240, 240, 238]), tile(0.15, Over::White, [236, 237, 240])]);
}

/// Two that contradict each other: the deeper one is the paler.
#[divan::bench]
fn two_that_disagree(bencher: Bencher) {
    fitted(bencher, &[tile(0.45, Over::White, [192, 191, 190]), tile(0.15, Over::White, [120, 80, 60])]);
}

#[divan::bench]
fn white_and_black(bencher: Bencher) {
    fitted(bencher, &[tile(0.45, Over::White, [190, 160, 130]), tile(0.45, Over::Black, [100, 90, 80])]);
}

/// All pairs of twenty jars: `opals` of them scatter.
#[divan::bench(args = [2, 20])]
fn color_found(bencher: Bencher, opals: usize) {
    let chalk = &catalogue::find("chalk").expect("it is on the shelf").material;
    let clear: Vec<&Material> =
        catalogue::all().iter().map(|glass| &glass.material).filter(|glass| !glass.scatters()).collect();
    let materials: Vec<Material> = (0..20)
        .map(|jar| {
            let strength = 1.0 + 0.2 * jar as f32;
            let milk = if jar < opals { 0.5 } else { 0.0 };
            Material::blend([(clear[1 + jar % (clear.len() - 1)], strength), (chalk, milk)])
        })
        .collect();
    let jar = |material| Jar { material, sureness: &Sureness::Invented, packing: 0.45 };
    let jars: Vec<Jar> = materials.iter().map(jar).collect();
    let under = Under::Day(Seen::on(0.93));
    bencher.bench(|| find(to_lab(decode([154, 95, 76])), &jars, &under, true));
}
