//! Round trips: the color of a tile of the fitted glass is the color that was read.

use super::glasses::between;
use super::study::{Fired, RATIOS, READ, fired, off, seen, summed};
use dappledome::base::units::Mm;
use dappledome::color::difference::{Lab, from_lab, to_lab};
use dappledome::color::srgb::{decode, encode};
use dappledome::glass::catalogue;
use dappledome::optics::layer::Layer;
use dappledome::tiles::doubt::Doubt;
use dappledome::tiles::fit::{Fitted, fit};
use dappledome::tiles::sureness::{By, Kind, Sureness};
use dappledome::tiles::tile::{Bases, Over, Powder, Sifted, Tile};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

const CLEAR: Powder = Powder { packing: 0.45, density: 2.5, milkiness: 0.0 };

fn tile(depth: f64, over: Over, color: Lab) -> Tile {
    Tile { sifted: Sifted::Loose(Mm(depth)), over, color, spread: None }
}

fn fitted(tiles: &[Tile]) -> Fitted {
    fit(tiles, &Bases::default(), &CLEAR).expect("the tiles are sound")
}

fn of(codes: [u8; 3]) -> Lab {
    to_lab(decode(codes))
}

/// optics.md 2.4 of the design: every color with no channel above the bare base's comes back to its 8-bit code.
#[test]
fn every_color_that_can_be_reached_comes_back_to_its_code() {
    let white = Bases::default().white as f32;
    let (mut reached, mut apart) = (0, Vec::new());
    for i in 0..4096u16 {
        let codes = [i % 16, i / 16 % 16, i / 256].map(|step| 17 * step as u8);
        if decode(codes).iter().any(|channel| *channel > white) {
            continue;
        }
        let fitted = fitted(&[tile(0.4, Over::White, of(codes))]);
        let shown = seen(Bases::default().under(Over::White), &[(&fitted.material, 0.4)]);
        assert_eq!(encode(from_lab(shown)), codes, "{:?}", fitted.apart);
        reached += 1;
        apart.push(fitted.apart[0]);
    }
    let (mean, p95, worst) = summed(&apart);
    println!("one tile: {reached} colors, CIEDE2000 mean {mean:.5}, p95 {p95:.5}, worst {worst:.5}");
    assert_eq!(reached, 14 * 14 * 14, "0 to 221 of 255, step 17");
    assert!(worst < 0.001, "{worst}");
}

/// The error of so many glasses at a ratio of their deepest tile's depth, over white.
fn extrapolated(fired: &[Fired], ratio: f64) -> (f64, f64, f64) {
    let each = fired.iter().map(|one| {
        let depth = ratio * one.depth;
        off(&[(&one.truth, depth)], &[(&one.fitted.material, depth)])[0]
    });
    summed(&each.collect::<Vec<_>>())
}

/// optics.md 2.4 of the design: mean and 95th percentile of CIEDE2000 of 400 invented glasses at other depths than their tiles', two
/// tiles at 1 and 0.2 times. These glasses are another draw, with more steep edges and darker tiles (and two tiles a third apart), so
/// the means are held to a sixth more, the percentiles to six tenths more.
#[test]
fn other_depths_come_as_near_as_the_design_says() {
    for (kind, known) in [
        (Kind::One, [(0.25, 1.01, 2.69), (0.5, 0.64, 1.67), (2.0, 0.98, 2.60), (3.0, 1.66, 4.19)]),
        (Kind::Several, [(0.25, 0.18, 0.58), (0.5, 0.12, 0.36), (2.0, 0.39, 0.99), (3.0, 0.64, 1.63)]),
    ] {
        let fired = fired(kind, READ[0].0, 200, 7);
        for (ratio, mean, p95) in known {
            let got = extrapolated(&fired, ratio);
            println!(
                "{kind:?} at {ratio}: mean {:.2} ({mean}), p95 {:.2} ({p95}), worst {:.2}",
                got.0, got.1, got.2
            );
            assert!(got.0 < 1.17 * mean && got.1 < 1.6 * p95, "{kind:?} at {ratio}: {got:?}");
        }
    }
}

/// optics.md 2.4: 200 scattering glasses from white and black come back with a mean of 0.001 and at most 0.02; read in 8 bits 0.07.
#[test]
fn white_and_black_come_back() {
    for (read, most) in [(READ[0].0, 0.02), (READ[1].0, 0.07)] {
        let fired = fired(Kind::WhiteAndBlack, read, 200, 3);
        let apart: Vec<f64> = fired.iter().flat_map(|one| one.fitted.apart.clone()).collect();
        let (mean, p95, worst) = summed(&apart);
        println!("white and black: mean {mean:.4}, p95 {p95:.4}, worst {worst:.4}");
        assert!(worst <= most, "{worst}");
    }
}

/// A transparent glass shows nothing over a black that sends nothing back.
#[test]
fn a_transparent_glass_over_black_has_no_scatter() {
    for glass in catalogue::all().iter().filter(|glass| !glass.material.scatters()) {
        let tiles = [Over::White, Over::Black].map(|over| {
            let color = seen(Bases::default().under(over), &[(&glass.material, 0.3)]);
            tile(0.3, over, color)
        });
        let fitted = fitted(&tiles);
        assert!(fitted.scatter_seen && !fitted.material.scatters(), "{}", glass.name);
        assert!(fitted.apart.iter().all(|apart| *apart < 0.02), "{}: {:?}", glass.name, fitted.apart);
    }
}

/// What the maker takes an opal's scatter to be stays, and its absorption is solved for it.
#[test]
fn a_scatter_that_is_said_is_kept() {
    let powder = Powder { milkiness: 3.0, ..CLEAR };
    let tiles = [tile(0.5, Over::White, of([190, 170, 150]))];
    let fitted = fit(&tiles, &Bases::default(), &powder).expect("the tile is sound");
    assert_eq!(fitted.material.scatter, [3.0; 16]);
    assert!(!fitted.scatter_seen && fitted.apart[0] < 0.02, "{:?}", fitted.apart);
}

#[test]
fn what_speaks_against_tiles_is_said() {
    let rust = &catalogue::find("rust").expect("it is on the shelf").material;
    let at = |depth: f64| seen(Bases::default().under(Over::White), &[(rust, depth)]);
    let sound = fitted(&[tile(0.15, Over::White, at(0.15)), tile(0.45, Over::White, at(0.45))]);
    assert_eq!(sound.doubts, []);
    // The second tile lay three times as deep as it says.
    let wrong = fitted(&[tile(0.15, Over::White, at(0.15)), tile(0.45, Over::White, at(1.35))]);
    assert!(matches!(wrong.doubts[..], [Doubt::Disagree { one: 0, other: 1, .. }]), "{:?}", wrong.doubts);
    assert!(wrong.doubts[0].notice().what.starts_with("These two disagree by "));
    let bright = fitted(&[tile(0.3, Over::White, [98.0, 0.0, 2.0])]);
    assert_eq!(bright.doubts, [Doubt::BrighterThanBase { tile: 0 }]);
    let strong = fitted(&[tile(0.3, Over::White, of([200, 40, 0]))]);
    assert_eq!(strong.doubts, [Doubt::CutOff { tile: 0 }]);
    // Brighter over black than over white: no glass is.
    let odd = fitted(&[tile(0.3, Over::White, [30.0, 0.0, 0.0]), tile(0.3, Over::Black, [70.0, 0.0, 0.0])]);
    assert!(odd.doubts.iter().any(|doubt| matches!(doubt, Doubt::OutOfReach { .. })), "{:?}", odd.doubts);
}

#[test]
fn bad_tiles_are_refused_with_a_reason() {
    let good = tile(0.3, Over::White, of([154, 95, 76]));
    let weighed = |grams, area| Tile { sifted: Sifted::Weighed { grams, area }, ..good.clone() };
    let said = |tiles: &[Tile]| fit(tiles, &Bases::default(), &CLEAR).expect_err("it is refused").what;
    assert_eq!(said(&[]), "No tile over white.");
    assert_eq!(said(&[tile(0.3, Over::Black, of([1, 1, 1]))]), "No tile over white.");
    for (grams, area) in [(-1.0, 32.0), (0.0, 32.0), (1.0, 0.0), (f64::NAN, 32.0), (1.0, f64::NAN)] {
        assert_eq!(said(&[weighed(grams, area)]), "Not weighed yet.");
    }
    for tile in [weighed(100.0, 1.0), weighed(1e-9, 32.0), weighed(f64::INFINITY, 1.0)] {
        assert_eq!(said(&[tile]), "No tile lies so deep.");
    }
    for depth in [-0.3, 0.0, f64::NAN, f64::INFINITY] {
        assert_eq!(said(&[tile(depth, Over::White, good.color)]), "No tile lies so deep.");
    }
    for color in [[f64::NAN, 0.0, 0.0], [50.0, f64::INFINITY, 0.0], [-20.0, 0.0, 0.0], [50.0, 0.0, 999.0]] {
        assert_eq!(said(&[good.clone(), tile(0.3, Over::White, color)]), "No color yet.");
    }
    let refused = |bases: Bases, powder: Powder| fit(std::slice::from_ref(&good), &bases, &powder).is_err();
    for bad in [f64::NAN, -1.0, 99.0] {
        assert!(refused(Bases { white: bad, ..Bases::default() }, CLEAR));
        assert!(refused(Bases { black: bad, ..Bases::default() }, CLEAR));
        assert!(refused(Bases::default(), Powder { packing: bad, ..CLEAR }));
        assert!(refused(Bases::default(), Powder { density: bad, ..CLEAR }));
        assert!(refused(Bases::default(), Powder { milkiness: bad, ..CLEAR }));
    }
}

/// Any tiles at all, contradicting ones and colors outside all reach among them, give a glass that can be painted.
#[test]
fn any_tiles_give_a_glass() {
    let mut rng = ChaCha8Rng::seed_from_u64(5);
    for count in [1, 2, 2, 3, 5, 8, 30] {
        let mut tiles: Vec<Tile> = (0..count)
            .map(|_| {
                let color = [(0.0, 100.0), (-120.0, 120.0), (-120.0, 120.0)]
                    .map(|(least, most)| rng.random_range(least..=most));
                let over = if rng.random::<f64>() < 0.6 { Over::White } else { Over::Black };
                tile(between(&mut rng, 0.02, 5.0), over, color)
            })
            .collect();
        tiles[0].over = Over::White;
        // Equal depths with different colors.
        tiles.push(Tile { color: [90.0, 60.0, -60.0], ..tiles[0].clone() });
        let fitted = fitted(&tiles);
        for depth in [0.001, 0.03, 3.0, 60.0] {
            let layer = Layer::of(&fitted.material, depth);
            assert!(layer.beam.iter().chain(&layer.back_cone).all(|part| part.is_finite()));
        }
        assert!(fitted.apart.iter().all(|apart| apart.is_finite()));
        for ratio in RATIOS {
            let depth = (0.3 * ratio) as f32;
            assert!(fitted.sureness.at(depth, By::Day).is_some_and(|off| off > 0.0));
        }
    }
    assert_eq!(Sureness::Invented.at(0.3, By::Day), None);
}
