//! The viscous sheet.
use super::table::near;
use dappledome::base::units::Mm;
use dappledome::recipe::*;
use dappledome::slump::profile::*;
use dappledome::slump::sheet::resistance::Resistance;
use dappledome::slump::sheet::shape::Shape;
use dappledome::slump::sheet::sinking::*;

#[test]
fn ss() {
    for n in [16, 32, 64, 128, 256] {
        let shape = Shape::flat(75.0, 6.0, n);
        let mut r = Resistance::default();
        r.set_up(&shape, 0.0);
        r.weigh(&shape, 1.0 / 75.0);
        r.hold(2 * n + 1);
        r.begin();
        let v = r.solve().unwrap();
        let unit = 11.0 / 64.0 * 75.0f64.powi(3) / 36.0;
        println!("{n} {:e}", -v[1] / unit - 1.0);
    }
    near("x", 0.0, 0.0, 1.0);
}

#[test]
fn reference() {
    let mold = Mold { form: Form::Bowl, opening: Mm(150.0), depth: Mm(45.0) };
    for n in [16, 64] {
        for stride in [1.0, 0.25] {
            let fine = Fineness { elements: n, stride: stride / 75.0, strain: 0.005 * stride / 0.25 };
            let t = std::time::Instant::now();
            let mut s = Sinking::new(Profile::new(&mold, 2.0, 6.0), 75.0, 6.0, 0.0, fine);
            let mut k = 0;
            for tau in [0.005, 0.01, 0.02, 0.03, 0.05, 0.08, 0.1, 0.2, 0.3] {
                while s.tau() < tau - 1e-12 {
                    s.advance(tau - s.tau()).unwrap();
                    k += 1;
                }
                let sh = s.shape();
                let gap = s.gaps().iter().copied().fold(f64::MIN, f64::max);
                println!(
                    "{tau} z {:.3} rim {:.3} gap {gap:.3} h {:.3} {:.3}  steps {k} solved {}",
                    sh.nodes[0].1,
                    sh.nodes[n].0,
                    sh.elements[0].thickness,
                    sh.elements[n - 1].thickness,
                    s.solved()
                );
            }
            println!("{:?}", t.elapsed());
        }
    }
}
