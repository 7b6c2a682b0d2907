//! The weights of the sixteen bands in other lights than daylight: `cargo run --release --example lamps`.
//!
//! Fits them to sums every 5 nm over random smooth stacks, an eye wholly used to the light being taken for granted, prints how far other
//! stacks are off, and writes the weights to `src/color/lamp_table.rs`, from which the engine has them (`cargo fmt` after that).

mod eye;
mod fit;
mod stacks;

use eye::{Light, apart, degree};
use fit::fit;
use stacks::stacks;
use std::fmt::Write;
use std::path::Path;
use std::{fs, io};

/// The columns of the table three by three, behind the wavelength.
const LIGHTS: [(&str, &str); 3] = [
    ("OVERCAST", "CIE D75, the daylight phase of 7500 K."),
    ("INCANDESCENT", "CIE A, Planck's radiator of 2856 K."),
    ("WARM_WHITE", "Planck's radiator of 3000 K."),
];

fn main() -> io::Result<()> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let text = fs::read_to_string(root.join("tests/data/reference_weights_lamps_5nm.csv"))?;
    let number = |field: &str| field.parse::<f64>().expect("a number");
    let rows: Vec<Vec<f64>> =
        text.lines().skip(1).map(|line| line.split(',').map(number).collect()).collect();
    let (training, others) = (stacks(12_000, 2026), stacks(3000, 7));
    let mut source = String::from(HEAD);
    for (at, (name, what)) in LIGHTS.into_iter().enumerate() {
        let light = Light::read(&rows, 1 + 3 * at);
        let weights = fit(&light, &training).map(|row| row.map(|weight| weight as f32));
        println!("{name}: {}", summed_up(others.iter().map(|stack| apart(&light, stack, &weights))));
        println!("  in the dusk: {:.3?}", light.seen(light.white(), degree(0.9, 2.0)));
        writeln!(source, "/// {what}\npub const {name}: [Spectrum; 3] = {weights:.8?};")
            .expect("a string takes all");
    }
    fs::write(root.join("src/color/lamp_table.rs"), source)
}

fn summed_up(off: impl Iterator<Item = f64>) -> String {
    let mut off: Vec<f64> = off.collect();
    off.sort_by(f64::total_cmp);
    let mean = off.iter().sum::<f64>() / off.len() as f64;
    let (p95, worst) = (off[off.len() * 95 / 100], off[off.len() - 1]);
    format!("mean {mean:.3}, 95th percentile {p95:.3}, worst {worst:.3} CIEDE2000")
}

const HEAD: &str = "//! Weights of the sixteen bands in other lights than daylight, as `examples/lamps` fitted and wrote them: linear red, green and \
blue, each
//! adding up to 1. `tests/seen.rs` holds them to sums over the spectrum.

use super::spectrum::Spectrum;

";
