//! One layer of glass in one band, in light of two classes.
//!
//! Light inside glass is told apart by whether a face of it would let it out: light in the *cone* (within the critical
//! angle of the normal, where the straight beam is too) and *trapped* light, which a face turns back whole. Layers add up
//! as a pile of plates does (Stokes 1862; Kubelka 1954, J. Opt. Soc. Am. 44, 330), with 2 x 2 matrices for numbers;
//! discrete directions after Chandrasekhar 1950 (citations from memory). Own model: its fitted constants are the three paths below.

use super::surface::CONE;
use crate::base::scalar::exp;

/// How much longer the path of light in the cone is than the thickness of its layer (own fit to the film of
/// Williams & Clapper 1953, at most 0.63 CIEDE2000).
const CONE_PATH: f64 = 1.065;
/// How much longer the path of trapped light is than the thickness of its layer, where scatter keeps it even over all slants (own fit
/// to Monte Carlo).
const TRAPPED_PATH: f64 = 2.46;
/// How much shorter it is where nothing scatters: the most slanting light is absorbed first, and none takes its place (own fit to the
/// film of Williams & Clapper 1953 that leaves Monte Carlo as near as it was).
const CLEAR_SHORTER: f64 = 0.10;
/// Isotropic scattering per Kubelka-Munk scatter (own fit to Monte Carlo).
const SCATTERING: f64 = 1.0 / 0.6;
/// Paths of trapped light up to this are a layer that the series below holds for.
const THIN: f64 = 0.1;

/// A symmetric 2 x 2 matrix over the classes of light, scaled by the square roots of their shares of Lambertian light.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sym {
    /// Cone to cone.
    pub cone: f64,
    /// From one class to the other.
    pub cross: f64,
    /// Trapped to trapped.
    pub trapped: f64,
}

/// What one layer sends back and passes on, the same from both sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slab {
    /// What it sends back.
    pub back: Sym,
    /// What it passes on.
    pub pass: Sym,
    /// The part of `pass.cone` that was never scattered.
    pub beam: f64,
    /// What a beam along the normal keeps, neither absorbed nor scattered.
    pub straight: f64,
}

impl Slab {
    /// No layer at all.
    pub const NONE: Self = Self {
        back: Sym { cone: 0.0, cross: 0.0, trapped: 0.0 },
        pass: Sym { cone: 1.0, cross: 0.0, trapped: 1.0 },
        beam: 1.0,
        straight: 1.0,
    };

    /// A layer whose absorption and Kubelka-Munk scatter times thickness are `tau` and `s` (both at least 0).
    pub fn new(tau: f64, s: f64) -> Self {
        let s = s * SCATTERING;
        if s <= 0.0 {
            let (cone, trapped) = (exp(-CONE_PATH * tau), exp(-(TRAPPED_PATH - CLEAR_SHORTER) * tau));
            let pass = Sym { cone, cross: 0.0, trapped };
            return Self { back: Sym::default(), pass, beam: cone, straight: exp(-tau) };
        }
        let (mut halvings, mut share) = (0, 1.0);
        while TRAPPED_PATH * (tau + s) * share > THIN && halvings < 60 {
            (halvings, share) = (halvings + 1, 0.5 * share);
        }
        let mut slab = Self::thin(tau * share, s * share);
        for _ in 0..halvings {
            slab = slab.on(&slab);
        }
        // The products of halves are exact only to rounding; the exponentials are.
        Self { beam: exp(-CONE_PATH * tau - s), straight: exp(-tau - s), ..slab }
    }

    /// A thin layer by series; `s` is isotropic scattering times thickness.
    fn thin(tau: f64, s: f64) -> Self {
        // The share that is absorbed and not scattered does not change with thickness: a layer may be split.
        let absorbed = tau / (tau + s);
        let clear = absorbed * absorbed * absorbed * absorbed;
        let (e1, e2) = (CONE_PATH * tau + s, TRAPPED_PATH * (tau + s) - CLEAR_SHORTER * clear * tau);
        // What is scattered comes from, and goes to, a class in proportion to its share of all paths.
        let paths = CONE + (1.0 - CONE) * TRAPPED_PATH;
        let (g1, g2) = ((CONE / paths).sqrt(), TRAPPED_PATH * ((1.0 - CONE) / paths).sqrt());
        let e = Sym { cone: e1, cross: 0.0, trapped: e2 };
        let b = Sym { cone: e1 - s * g1 * g1, cross: -s * g1 * g2, trapped: e2 - s * g2 * g2 };
        let k = b.less_twelfth(&b.around(&e));
        let j = e.less_twelfth(&e.around(&b));
        let (k, j) = (k.plus_one().inverse(), j.plus_one().inverse());
        // The sum of back and pass is 2 k - 1, their difference 1 - 2 j.
        let back = Sym { cone: k.cone - j.cone, cross: k.cross - j.cross, trapped: k.trapped - j.trapped };
        let pass = Sym {
            cone: k.cone + j.cone - 1.0,
            cross: k.cross + j.cross,
            trapped: k.trapped + j.trapped - 1.0,
        };
        Self { back, pass, beam: exp(-e1), straight: exp(-tau - s) }
    }

    /// This layer with another one below it, of the same glass: the two commute.
    #[must_use]
    pub fn on(&self, below: &Self) -> Self {
        let between = below.back.between(&self.back);
        let up = self.pass.around(&between);
        let back = Sym {
            cone: self.back.cone + up.cone,
            cross: self.back.cross + up.cross,
            trapped: self.back.trapped + up.trapped,
        };
        Self {
            back,
            pass: through(&self.pass, &self.back, &between, &below.pass),
            beam: self.beam * below.beam,
            straight: self.straight * below.straight,
        }
    }
}

/// `below (1 + back between) above`, which is symmetric for layers of one glass.
fn through(above: &Sym, back: &Sym, between: &Sym, below: &Sym) -> Sym {
    // (1 + back between), not symmetric by itself.
    let m11 = 1.0 + back.cone * between.cone + back.cross * between.cross;
    let m12 = back.cone * between.cross + back.cross * between.trapped;
    let m21 = back.cross * between.cone + back.trapped * between.cross;
    let m22 = 1.0 + back.cross * between.cross + back.trapped * between.trapped;
    let (n11, n12) = (m11 * above.cone + m12 * above.cross, m11 * above.cross + m12 * above.trapped);
    let (n21, n22) = (m21 * above.cone + m22 * above.cross, m21 * above.cross + m22 * above.trapped);
    Sym {
        cone: below.cone * n11 + below.cross * n21,
        cross: below.cone * n12 + below.cross * n22,
        trapped: below.cross * n12 + below.trapped * n22,
    }
}

impl Sym {
    fn plus_one(self) -> Self {
        Self { cone: self.cone + 1.0, trapped: self.trapped + 1.0, ..self }
    }

    fn inverse(self) -> Self {
        let d = 1.0 / (self.cone * self.trapped - self.cross * self.cross);
        Self { cone: self.trapped * d, cross: -self.cross * d, trapped: self.cone * d }
    }

    /// `self m self`.
    fn around(&self, m: &Self) -> Self {
        let (a, b) =
            (self.cone * m.cone + self.cross * m.cross, self.cone * m.cross + self.cross * m.trapped);
        let (c, d) =
            (self.cross * m.cone + self.trapped * m.cross, self.cross * m.cross + self.trapped * m.trapped);
        Self {
            cone: a * self.cone + b * self.cross,
            cross: a * self.cross + b * self.trapped,
            trapped: c * self.cross + d * self.trapped,
        }
    }

    /// `(self - cube / 12) / 2`: half the hyperbolic tangent's argument, in the series that layers add by.
    fn less_twelfth(&self, cube: &Self) -> Self {
        let half = |a: f64, cube: f64| 0.5 * (a - cube / 12.0);
        Self {
            cone: half(self.cone, cube.cone),
            cross: half(self.cross, cube.cross),
            trapped: half(self.trapped, cube.trapped),
        }
    }

    /// `self (1 - above self)^-1`: what comes back up after all bounces between a ground that sends back `self` and a
    /// layer over it that sends back `above`.
    fn between(&self, above: &Self) -> Self {
        let det = self.cone * self.trapped - self.cross * self.cross;
        let det_above = above.cone * above.trapped - above.cross * above.cross;
        let trace = above.cone * self.cone + 2.0 * above.cross * self.cross + above.trapped * self.trapped;
        let i = 1.0 / (1.0 - trace + det_above * det);
        Self {
            cone: (self.cone - det * above.trapped) * i,
            cross: (self.cross + det * above.cross) * i,
            trapped: (self.trapped - det * above.cone) * i,
        }
    }
}
