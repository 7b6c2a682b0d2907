//! The statistics of patches: how wide the waves must be for patches of a given mean chord, and where to cut the
//! field for an exact share of the disc.

use crate::base::scalar::{PI, exp, ln};

/// The standard normal quantile, by P. J. Acklam's rational approximation (relative error below 1.2e-9).
pub fn normal_quantile(p: f64) -> f64 {
    const A: [f64; 6] = [
        -3.969_683_028_665_376e1,
        2.209_460_984_245_205e2,
        -2.759_285_104_469_687e2,
        1.383_577_518_672_69e2,
        -3.066_479_806_614_716e1,
        2.506_628_277_459_239,
    ];
    const B: [f64; 5] = [
        -5.447_609_879_822_406e1,
        1.615_858_368_580_409e2,
        -1.556_989_798_598_866e2,
        6.680_131_188_771_972e1,
        -1.328_068_155_288_572e1,
    ];
    const C: [f64; 6] = [
        -7.784_894_002_430_293e-3,
        -3.223_964_580_411_365e-1,
        -2.400_758_277_161_838,
        -2.549_732_539_343_734,
        4.374_664_141_464_968,
        2.938_163_982_698_783,
    ];
    const D: [f64; 4] =
        [7.784_695_709_041_462e-3, 3.224_671_290_700_398e-1, 2.445_134_137_142_996, 3.754_408_661_907_416];
    let poly = |c: &[f64], x: f64| c.iter().fold(0.0, |sum, c| sum * x + c);
    let p = p.clamp(1e-12, 1.0 - 1e-12);
    let tail = |p: f64| {
        let q = (-2.0 * ln(p)).sqrt();
        poly(&C, q) / (poly(&D, q) * q + 1.0)
    };
    if p < 0.024_25 {
        tail(p)
    } else if p > 1.0 - 0.024_25 {
        -tail(1.0 - p)
    } else {
        let q = p - 0.5;
        poly(&A, q * q) * q / (poly(&B, q * q) * q * q + 1.0)
    }
}

/// The correlation length (mm) at which a share `p` of a Gaussian field, cut at its quantile, has patches of mean
/// chord `chord` mm along a line: ell = chord exp(-u²/2) / (2 pi p) (Rice's formula; Adler & Taylor 2007).
pub fn correlation_length(chord: f64, p: f64) -> f64 {
    let u = normal_quantile(1.0 - p);
    chord * exp(-u * u / 2.0) / (2.0 * f64::from(PI) * p)
}

/// The chord (mm) to ask of waves for patches of mean chord `chord` mm that cover a share `p` of `area` mm²: where they are few,
/// cutting at an exact share leaves out the widest that a larger disc would have had. A fit to measured chords.
pub fn of_few(chord: f64, p: f64, area: f64) -> f64 {
    let lost = FEW * (1.0 - p) / (p * area);
    let rest = 1.0 - 4.0 * lost * chord * chord;
    // No patch is wider than all of them together: ask for the widest there is.
    if rest <= 0.0 { 1.0 / lost.sqrt() } else { 2.0 * chord / (1.0 + rest.sqrt()) }
}

/// How much of a chord is lost to few patches: measured over seeds.
const FEW: f64 = 0.4;

/// The chord (mm) to ask of waves that are seen through a pane which shifts them by `raggedness` mm. It roughens the outline:
/// by Rice's formula chords shorten as slopes grow, by the root of 1 plus their share that the pane adds. Its numbers are a fit
/// to chords measured at 0 to 4 mm, through a pane of 8 mm and two octaves.
pub fn before_warp(chord: f64, raggedness: f64) -> f64 {
    let r = raggedness.max(0.0);
    chord * (1.0 + 0.265 * r * r * r / (r + 0.4)).sqrt()
}

/// The value above which the largest cells of total weight `target` lie, to half a cell: (value, weight) in any order.
pub fn cut(cells: &mut [(f32, f32)], mut target: f64) -> f32 {
    let mut rest = cells;
    while rest.len() > 1 {
        let middle = rest.len() / 2;
        rest.select_nth_unstable_by(middle, |a, b| b.0.total_cmp(&a.0));
        let upper: f64 = rest[..middle].iter().map(|cell| f64::from(cell.1)).sum();
        if upper >= target {
            rest = &mut rest[..middle];
        } else {
            target -= upper;
            rest = &mut rest[middle..];
        }
    }
    rest.first().map_or(f32::INFINITY, |cell| cell.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_cut_takes_the_asked_weight() {
        let mut cells: Vec<(f32, f32)> = (0..1000).map(|i| (((i * 7919) % 1000) as f32, 1.0)).collect();
        let cut = cut(&mut cells, 340.0);
        let above = cells.iter().filter(|cell| cell.0 > cut).count();
        assert!((339..=340).contains(&above), "{above}");
    }
}
