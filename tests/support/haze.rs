//! What a stack of flat glass shows and passes, written down once more: one band in f64, plain matrices and closed forms,
//! no table and no doubling. It shares no code with the engine but the elementary functions. The model is our own (*cone*
//! and *trapped* light inside the glass; [`TRAPPED`] fitted to a Monte Carlo of our own, [`Model`] tells what came later); layers are added after
//! Stokes 1862 and Kubelka 1954 (J. Opt. Soc. Am. 44, 330), the faces are Walsh 1926 and Duntley 1942, loose
//! powder is Shkuratov, Starukhina, Hoffmann & Arnold 1999 (Icarus 137, 235); titles and years from memory.
//!
//! A look is 1 for a perfect white; what passes is 1 for the lamp itself.

#![allow(dead_code, reason = "every test binary uses a part of it")]

use dappledome::base::scalar::{exp, ln, pow};

/// Refractive index of glass, for D65.
const INDEX: f64 = 1.52;
/// Share of Lambertian light inside that a face can release: within the critical angle of 41.14 degrees.
const CONE: f64 = 1.0 / (INDEX * INDEX);
/// Length of the way of trapped light through a layer, over its thickness.
const TRAPPED: f64 = 2.46;
/// The same for light in the cone, by day and lit.
const STRAIGHT: f64 = 1.065;
/// What the top face sends back of diffuse light in the cone (Walsh 1926, Duntley 1942).
const TOP: f64 = 0.094_706_927;
/// What the bottom face sends back of light in the cone.
const BOTTOM: f64 = 0.080;
/// What a face sends back of straight light (Fresnel), at 592 nm.
const NORMAL: f64 = 0.042_579_995;
/// Kubelka-Munk scatter over isotropic scattering.
const BACK: f64 = 0.6;

/// Which of two models.
#[derive(Clone, Copy, Debug)]
pub enum Model {
    /// As the numbers of `haze_stacks.csv` and `haze_chalk.csv` were reckoned.
    Published,
    /// As the engine has it.
    Engine,
}

impl Model {
    /// How much shorter the way of trapped light is where nothing scatters.
    fn shorter(self) -> f64 {
        match self {
            Self::Published => 0.0,
            Self::Engine => 0.10,
        }
    }

    /// What a face sends back of straight light at a wavelength in nm: in the engine the index of 1.52 at 592 nm moves as that of window
    /// glass does (Rubin 1985, Solar Energy Materials 12, 275).
    pub fn normal(self, nanometers: f64) -> f64 {
        let rubin = |l: f64| 1.5130 - 0.003169 * l * l + 0.003962 / (l * l);
        match self {
            Self::Published => NORMAL,
            Self::Engine => {
                let index = INDEX + rubin(nanometers / 1000.0) - rubin(0.592);
                let root = (index - 1.0) / (index + 1.0);
                root * root
            }
        }
    }
}

/// One layer of fired glass in one band: absorption per mm (natural), Kubelka-Munk scatter per mm, thickness in mm.
#[derive(Clone, Copy, Debug)]
pub struct Slab {
    /// Absorption per mm.
    pub absorption: f64,
    /// Kubelka-Munk scatter per mm.
    pub scatter: f64,
    /// Thickness, mm.
    pub thickness: f64,
    /// Which model.
    pub model: Model,
}

/// What a stack in air shows over an air gap and a Lambertian ground of this reflectance. Slabs lie bottom first.
pub fn look(stack: &[Slab], ground: f64) -> f64 {
    let below = (1.0 - BOTTOM) * ground / (1.0 - BOTTOM * ground);
    let mut inside = Inside::over(BOTTOM + (1.0 - BOTTOM) * below);
    stack.iter().for_each(|slab| inside.lay(slab));
    let (once, straight) = (inside.straight * inside.straight, inside.straight);
    let unscattered = inside.mirrored * once;
    let scattered = inside.rises().cone - unscattered / (1.0 - TOP * unscattered);
    let clear = (1.0 - NORMAL) * straight / (1.0 - NORMAL * NORMAL * once) * ground * 0.8396 * straight
        / (1.0 - ground * (0.0947 + 0.0657 * once));
    (1.0 - TOP) * scattered + clear
}

/// What a stack shows on an opaque Lambertian base of this internal reflectance, in contact. Slabs lie bottom first.
pub fn look_on_base(stack: &[Slab], base: f64) -> f64 {
    let mut inside = Inside::on(base);
    stack.iter().for_each(|slab| inside.lay(slab));
    (1.0 - TOP) * inside.rises().cone
}

/// What a stack in air passes of a diffuse lamp below it, seen straight down, where a face sends back so much of straight light. Slabs lie
/// bottom first.
pub fn pass(stack: &[Slab], normal: f64) -> f64 {
    let mut inside = Inside::over(BOTTOM);
    // Light that rises, as a row: in the cone, trapped.
    let mut rising = [1.0 - BOTTOM, 0.0];
    let mut whole = 1.0;
    for slab in stack {
        let layer = Layer::of(slab);
        let bounced = (IDENTITY - layer.reflects * inside.sends).inverse();
        rising = (bounced * layer.passes).after(rising);
        whole *= layer.whole;
        inside.lay(slab);
    }
    let (up, straight) = (inside.rises(), inside.straight);
    let mirrored = BOTTOM * straight * straight;
    let all = rising[0] * (1.0 + TOP * up.cone) + rising[1] * up.trapped;
    let unscattered = (1.0 - BOTTOM) * straight * (1.0 + TOP * mirrored / (1.0 - TOP * mirrored));
    let seen_through = (1.0 - normal) * (1.0 - normal) * whole / (1.0 - normal * normal * whole * whole);
    (1.0 - NORMAL) * (all - unscattered) + seen_through
}

/// Loose powder on glass, seen from above in one band. What it sends back goes every way, so that the top face of the glass is
/// a diffuse reflector to it; only what meets no grain on its way down and up sees a mirror there, which a look leaves out.
#[derive(Clone, Copy)]
pub struct Bed {
    below: f64,
    passes: f64,
    meets_none: f64,
}

/// Loose powder in one band: absorption and Kubelka-Munk scatter of its glass per mm, size of its grains in mm, share of the bed
/// that is glass.
#[derive(Clone, Copy)]
pub struct Grains {
    /// Absorption per mm of glass.
    pub absorption: f64,
    /// Kubelka-Munk scatter per mm of glass.
    pub scatter: f64,
    /// Size of a grain, mm.
    pub size: f64,
    /// Share of the bed that is glass.
    pub packing: f64,
}

impl Bed {
    /// Glass that looks like this, nothing on it.
    pub fn on(look: f64) -> Self {
        Self { below: look + TOP, passes: 1.0, meets_none: 1.0 }
    }

    /// So many mm of powder laid on it: depth / size layers of grains.
    #[must_use]
    pub fn with(self, grains: &Grains, depth: f64) -> Self {
        let (k, s) = grains.layer();
        let layers = depth / grains.size;
        let (reflects, passes) = kubelka_munk(k * layers, s * layers);
        let bounces = 1.0 / (1.0 - reflects * self.below);
        Self {
            below: reflects + passes * passes * self.below * bounces,
            passes: self.passes * passes * bounces,
            meets_none: self.meets_none * pow(1.0 - grains.packing, layers),
        }
    }

    /// The share of light from below that it passes.
    pub fn passes(&self) -> f64 {
        self.passes
    }

    /// What it looks like.
    pub fn look(&self) -> f64 {
        self.below - TOP * self.meets_none * self.meets_none
    }
}

impl Grains {
    /// Kubelka-Munk absorption and scatter of one layer of grains (Shkuratov et al. 1999; the glass of a grain as a
    /// Kubelka-Munk layer is our own addition).
    fn layer(&self) -> (f64, f64) {
        let outside = NORMAL + 0.05;
        let back = (0.28 * INDEX - 0.20) * outside;
        let inside = 1.04 - CONE;
        let crosses = (1.0 - outside) * (1.0 - inside);
        let (turned, once) = kubelka_munk(self.absorption * self.size, self.scatter * self.size);
        let kept = turned + once;
        let spread = 0.5 * crosses * inside * kept * kept / (1.0 - inside * kept);
        let forward = outside - back + crosses * once + spread;
        let back = self.packing * (back + crosses * turned + spread);
        let forward = self.packing * forward + 1.0 - self.packing;
        // A layer of these two shares, cut into endlessly thin ones.
        let a = (1.0 + back * back - forward * forward) / (2.0 * back);
        let root = (a * a - 1.0).max(0.0).sqrt();
        let s = if root < 1e-6 { back / forward } else { arsinh(root * back / forward) / root };
        ((a - 1.0) * s, s)
    }
}

/// Kubelka & Munk's layer by the hyperbolic form (Kubelka 1948): reflectance over black, transmittance.
fn kubelka_munk(k: f64, s: f64) -> (f64, f64) {
    if s < 1e-12 {
        return (0.0, exp(-k));
    }
    let a = 1.0 + k / s;
    let b = (a * a - 1.0).sqrt();
    if b * s < 1e-6 {
        return (s / (1.0 + s), 1.0 / (1.0 + s));
    }
    let (sinh, cosh) = ((exp(b * s) - exp(-b * s)) / 2.0, (exp(b * s) + exp(-b * s)) / 2.0);
    let whole = a * sinh + b * cosh;
    (sinh / whole, b / whole)
}

fn arsinh(x: f64) -> f64 {
    ln(x + (x * x + 1.0).sqrt())
}

/// A layer: how it sends back and passes light in the cone (first row and column) and trapped (second).
struct Layer {
    reflects: Square,
    passes: Square,
    /// What crosses without having scattered, in diffuse light.
    straight: f64,
    /// The same, straight through.
    whole: f64,
}

impl Layer {
    fn of(slab: &Slab) -> Self {
        let tau = slab.absorption * slab.thickness;
        let s = slab.scatter * slab.thickness / BACK;
        let clear = if tau > 0.0 { pow(tau / (tau + s), 4.0) } else { 0.0 };
        let (cone, trapped) = (STRAIGHT * tau + s, TRAPPED * (tau + s) - slab.model.shorter() * clear * tau);
        let lost = Square([cone, 0.0, 0.0, trapped]);
        // Scattered light goes to both by solid angle; scaled by the roots of their Lambertian shares, so that all is symmetric.
        let all = CONE + (1.0 - CONE) * TRAPPED;
        let [g1, g2] = [(CONE / all).sqrt(), TRAPPED * ((1.0 - CONE) / all).sqrt()];
        let gained = Square([g1 * g1, g1 * g2, g1 * g2, g2 * g2]).times(s);
        let kept = lost - gained;
        // Lit alike from both sides, and with opposite signs: d(sum)/dx = -lost (difference), d(difference)/dx = -kept (sum).
        let alike = (IDENTITY + kept * (lost * kept).half_way()).inverse().times(2.0) - IDENTITY;
        let opposite = IDENTITY - (IDENTITY + lost * (kept * lost).half_way()).inverse().times(2.0);
        Self {
            reflects: (alike + opposite).times(0.5),
            passes: (alike - opposite).times(0.5),
            straight: exp(-cone),
            whole: exp(-tau - s),
        }
    }
}

/// Everything below a place inside the glass, seen from above.
struct Inside {
    sends: Square,
    /// What the ground sends back of light that never scattered, and how much of it crosses once what lies above.
    mirrored: f64,
    straight: f64,
}

/// What rises at the top for light that came in straight, in the cone and trapped.
struct Rises {
    cone: f64,
    trapped: f64,
}

impl Inside {
    /// The bottom face in air, which sends back so much of the cone and nearly all that is trapped.
    fn over(cone: f64) -> Self {
        Self { sends: Square([cone, 0.0, 0.0, 1.0 - 1e-6]), mirrored: cone, straight: 1.0 }
    }

    /// A Lambertian base in contact.
    fn on(base: f64) -> Self {
        let mixed = (CONE * (1.0 - CONE)).sqrt();
        let sends = Square([CONE, mixed, mixed, 1.0 - CONE]).times(base);
        Self { sends, mirrored: 0.0, straight: 1.0 }
    }

    fn lay(&mut self, slab: &Slab) {
        let Layer { reflects, passes, straight, .. } = Layer::of(slab);
        let between = self.sends * (IDENTITY - reflects * self.sends).inverse();
        self.sends = reflects + passes * between * passes;
        self.straight *= straight;
    }

    /// The top face sends trapped light back down whole.
    fn rises(&self) -> Rises {
        let face = Square([TOP, 0.0, 0.0, 1.0]);
        let up = self.sends * (IDENTITY - face * self.sends).inverse();
        Rises { cone: up.0[0], trapped: up.0[1] }
    }
}

/// A matrix of two rows: the first row, then the second.
#[derive(Clone, Copy)]
struct Square([f64; 4]);

const IDENTITY: Square = Square([1.0, 0.0, 0.0, 1.0]);

impl Square {
    fn times(self, factor: f64) -> Self {
        Self(self.0.map(|x| x * factor))
    }

    fn inverse(self) -> Self {
        let [a, b, c, d] = self.0;
        Self([d, -b, -c, a]).times(1.0 / (a * d - b * c))
    }

    /// A row of light times this.
    fn after(self, [x, y]: [f64; 2]) -> [f64; 2] {
        let [a, b, c, d] = self.0;
        [x * a + y * c, x * b + y * d]
    }

    /// tanh(q/2)/q of the matrix q², by its two eigenvalues, which are real and not negative (Sylvester's formula).
    fn half_way(self) -> Self {
        let [a, b, c, d] = self.0;
        let (middle, apart) = ((a + d) / 2.0, (((a - d) / 2.0) * ((a - d) / 2.0) + b * c).sqrt());
        let (high, low) = (middle + apart, middle - apart);
        let [at_high, at_low] = [high, low].map(|square| {
            if square < 1e-6 {
                return 0.5 - square / 24.0;
            }
            let q = square.sqrt();
            (1.0 - exp(-q)) / (1.0 + exp(-q)) / q
        });
        if apart <= 1e-9 * middle {
            return IDENTITY.times(at_high);
        }
        ((self - IDENTITY.times(low)).times(at_high) - (self - IDENTITY.times(high)).times(at_low))
            .times(0.5 / apart)
    }
}

impl std::ops::Add for Square {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(std::array::from_fn(|i| self.0[i] + other.0[i]))
    }
}

impl std::ops::Sub for Square {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + other.times(-1.0)
    }
}

impl std::ops::Mul for Square {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        let ([a, b, c, d], [e, f, g, h]) = (self.0, other.0);
        Self([a * e + b * g, a * f + b * h, c * e + d * g, c * f + d * h])
    }
}
