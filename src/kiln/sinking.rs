//! A piece sinking into its mold, by the minutes of its own slump.

use super::bench::Bench;
use super::clock::Clock;
use super::data::{Guess, Kiln};
use super::flow::{fluid_time_of, reduced_time};
use super::fused::{dome_inputs, fused};
use crate::base::notice::Notice;
use crate::base::units::{Celsius, Minutes, Mm};
use crate::fuse::spread::Spread;
use crate::recipe::limits::SLUMP_TOP;
use crate::recipe::plan::Plan;
use crate::slump::dome::{Dome, DomeInputs};
use crate::slump::inputs::{SLIDES, SheetInputs};
use crate::slump::trajectory::{Trajectory, USUAL};

/// How much cooler and hotter the curves beside the recipe's own are, K: about what a kiln's own error is. (Chosen.)
pub const BESIDE: f64 = 10.0;

/// Curves begin where this share of what it takes to settle is given.
const BEGINS: f64 = 0.001;
/// Curves end at so many times of what it takes to settle.
const ENDS: f64 = 2.0;

/// A piece sinking into its mold.
///
/// Minutes count from when the slump's top is reached; on the way up they are below zero. Whatever moves is told by the trajectory's
/// reduced time, so one run of the sheet serves every top and hold.
#[derive(Clone, Debug)]
pub struct Sinking {
    way: Trajectory,
    times: Times,
    cooler: Option<Times>,
    hotter: Option<Times>,
    fused: Spread,
    /// Diameter as cut over that behind the full fuse.
    cut: f32,
}

/// Minutes of a slump, and the reduced time of one disc in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Times {
    clock: Clock,
    /// Radius of the middle of the disc: the length that its reduced time is reckoned with.
    radius: Mm,
    hold: Option<Minutes>,
}

/// One of the curves of a sinking piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// The top that it belongs to.
    pub top: Celsius,
    /// Minutes since the top was reached, and the depth of the middle of the glass, mm.
    pub points: Vec<(f64, f64)>,
    /// When the glass has settled in its mold, minutes; none if it does not.
    pub settles: Option<f64>,
}

impl Times {
    /// Those of a plan's slump in a kiln, with this top, for a disc whose middle has this radius.
    ///
    /// # Errors
    /// A fault where the kiln does not get through it, or a glass has no viscosity.
    pub fn new(plan: &Plan, bench: Bench, top: Celsius, radius: Mm) -> Result<Self, Notice> {
        Ok(Self { clock: Clock::new(plan, bench, top)?, radius, hold: plan.slump.hold })
    }

    /// The reduced time so many minutes after the top was reached, as if it were held for ever.
    pub fn tau_at(&self, minutes: f64) -> f64 {
        reduced_time(self.clock.given_at(minutes), self.radius)
    }

    /// How hot it is so many minutes after the top was reached, as if it were held for ever.
    pub fn heat_at(&self, minutes: f64) -> Celsius {
        self.clock.heat_at(minutes)
    }

    /// How many times faster than in another slump glass sinks at its top.
    pub fn faster_than(&self, other: &Self) -> f64 {
        let minute = |times: &Self| times.tau_at(1.0) - times.tau_at(0.0);
        minute(self) / minute(other)
    }

    /// The minutes at which a reduced time is reached; none if glass does not flow at this top.
    pub fn minutes_at(&self, tau: f64) -> Option<f64> {
        self.clock.minutes_of(fluid_time_of(tau, self.radius))
    }

    /// The reduced time at which the recipe's slump ends, its fall too; a recipe without a hold ends once the glass has settled.
    pub fn end(&self, settled: f64) -> f64 {
        self.hold.map_or(settled, |hold| reduced_time(self.clock.whole(hold), self.radius))
    }

    /// The reduced time of the shortest slump: without a hold, its fall counted.
    pub fn end_of_no_hold(&self) -> f64 {
        reduced_time(self.clock.whole(Minutes(0.0)), self.radius)
    }

    /// The hold that ends, its fall counted, with the glass as it is at a reduced time.
    pub fn hold_for(&self, tau: f64) -> Option<Minutes> {
        self.clock.hold_of(fluid_time_of(tau, self.radius))
    }
}

impl Sinking {
    /// A planned piece in a small brick kiln, which is a guess.
    ///
    /// # Errors
    /// Why it cannot be followed, with what to do.
    pub fn of(plan: &Plan) -> Result<Self, Notice> {
        Self::in_kiln(plan, &Kiln::guess(Guess::SmallBrick))
    }

    /// A planned piece in a kiln.
    ///
    /// # Errors
    /// Why it cannot be followed, with what to do.
    pub fn in_kiln(plan: &Plan, kiln: &Kiln) -> Result<Self, Notice> {
        let bench = Bench::of(kiln);
        let fused = fused(plan, bench)?;
        let sheet = sheet(&dome_inputs(plan, &fused));
        let way = followed(&sheet)?;
        let times = |top| Times::new(plan, bench, top, Mm(sheet.radius));
        let top = plan.slump.top;
        let beside = |by: f64| {
            let top = Celsius(top.0 + by);
            if SLUMP_TOP.holds(top.0) { times(top).ok() } else { None }
        };
        let cut = f64::from(2.0 * plan.disc.radius()) / fused.across.0;
        Ok(Self {
            times: times(top)?,
            cooler: beside(-BESIDE),
            hotter: beside(BESIDE),
            way,
            fused,
            cut: cut as f32,
        })
    }

    /// The way of the disc: what moves, by reduced time.
    pub fn way(&self) -> &Trajectory {
        &self.way
    }

    /// The disc before it sinks.
    pub fn fused(&self) -> &Spread {
        &self.fused
    }

    /// Minutes and reduced time at the recipe's top.
    pub fn times(&self) -> &Times {
        &self.times
    }

    /// The same [`BESIDE`] hotter, if a slump goes so hot.
    pub fn hotter(&self) -> Option<&Times> {
        self.hotter.as_ref()
    }

    /// The same [`BESIDE`] cooler, if a slump goes so cool.
    pub fn cooler(&self) -> Option<&Times> {
        self.cooler.as_ref()
    }

    /// The reduced time at which the recipe's slump ends.
    pub fn end(&self) -> f64 {
        self.times.end(self.way.settled_at())
    }

    /// When the glass is full in its mold at the recipe's top, minutes; none if it never is.
    pub fn full_at(&self) -> Option<f64> {
        self.way.full_at().and_then(|tau| self.times.minutes_at(tau))
    }

    /// When the glass has settled, full or as near as it comes, at the recipe's top, minutes; none if it does not flow.
    pub fn settles_at(&self) -> Option<f64> {
        self.times.minutes_at(self.way.settled_at())
    }

    /// The dome that comes out when it is taken away as it is so many minutes after the top was reached.
    pub fn dome_at(&self, minutes: f64) -> Dome {
        Dome::sunk(&self.way, self.times.tau_at(minutes)).as_cut(self.cut)
    }

    /// The dome that the recipe gives.
    pub fn dome(&self) -> Dome {
        Dome::sunk(&self.way, self.end()).as_cut(self.cut)
    }

    /// The hold, whole minutes, whose dome comes nearest to the glass as it is so many minutes after the top was reached: shorter than
    /// they are, since it goes on sinking while the kiln falls.
    pub fn hold_for(&self, minutes: f64) -> Option<Minutes> {
        self.times.hold_for(self.times.tau_at(minutes)).map(|hold| Minutes(hold.0.round()))
    }

    /// The sink curves [`BESIDE`] cooler, at the recipe's top, and hotter, as far as a slump goes so cool or hot.
    pub fn curves(&self) -> Vec<Curve> {
        let all = [self.cooler.as_ref(), Some(&self.times), self.hotter.as_ref()];
        all.into_iter().flatten().map(|times| self.curve(times)).collect()
    }

    /// The depth over the minutes, from where it begins to grow until well after it has settled.
    fn curve(&self, times: &Times) -> Curve {
        let settled = self.way.settled_at();
        let first = BEGINS * settled;
        let later = self.way.moments().filter(|tau| *tau > first && *tau < ENDS * settled);
        let taus = [first].into_iter().chain(later).chain([(ENDS * settled).min(self.way.end())]);
        let points = taus.filter_map(|tau| Some((times.minutes_at(tau)?, self.way.at(tau).depth())));
        Curve { top: times.clock.top(), points: points.collect(), settles: times.minutes_at(settled) }
    }
}

/// The dome of a planned piece: sunk, or as it lies on its mold where its way is not known.
pub fn dome_of(plan: &Plan) -> Dome {
    Sinking::of(plan).map_or_else(|_| Dome::new(&DomeInputs::of(plan)), |sinking| sinking.dome())
}

/// What the way of a disc depends on.
pub fn sheet(inputs: &DomeInputs) -> SheetInputs {
    inputs.sheet(SLIDES)
}

/// The way of a disc that comes to a dome.
///
/// # Errors
/// Why it does not.
pub fn followed(sheet: &SheetInputs) -> Result<Trajectory, Notice> {
    let way = Trajectory::new(sheet).map_err(|fault| fault.notice())?;
    match way.trouble() {
        None => Ok(way),
        Some(trouble) => Err(trouble),
    }
}

/// The fluid time in which a planned piece settles in its mold, 1/Pa, and what is wrong with its way there. A disc whose size or way is
/// not known counts with the size as cut, and with a usual slump.
pub fn settles(plan: &Plan, bench: Bench) -> (f64, Option<Notice>) {
    let disc = fused(plan, bench).map_or_else(|_| DomeInputs::of(plan), |fused| dome_inputs(plan, &fused));
    let sheet = sheet(&disc);
    let (tau, trouble) = match Trajectory::new(&sheet) {
        Ok(way) => (way.settled_at(), way.trouble()),
        Err(fault) => (USUAL, Some(fault.notice())),
    };
    (fluid_time_of(tau, Mm(sheet.radius)), trouble)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::demo;

    fn plan(change: impl Fn(&mut crate::recipe::Recipe)) -> Plan {
        let mut recipe = demo::ember_walk();
        change(&mut recipe);
        Plan::new(&recipe).expect("it is sound").plan
    }

    #[test]
    fn minutes_and_reduced_time_are_each_others_inverse() {
        let sinking = Sinking::of(&plan(|_| ())).expect("it sinks");
        let times = sinking.times();
        for minutes in [-8.0, -1.0, 0.0, 3.0, 40.0] {
            let back = times.minutes_at(times.tau_at(minutes)).expect("it flows");
            assert!((back - minutes).abs() < 1e-6, "{minutes}: {back}");
        }
        assert!(times.tau_at(-1e6) == 0.0 && times.tau_at(-1.0) < times.tau_at(0.0));
    }

    /// Held at its top, glass takes rho g a times its fluidity for each second.
    #[test]
    fn the_hold_runs_at_the_speed_of_its_top() {
        let plan = plan(|_| ());
        let sinking = Sinking::of(&plan).expect("it sinks");
        // Sheets of equal thickness: the means of their points.
        let mean = |of: fn(&crate::glass::kind::Glass) -> Celsius| {
            Celsius(
                plan.sheets.iter().map(|sheet| of(&sheet.glass).0).sum::<f64>() / plan.sheets.len() as f64,
            )
        };
        let (softening, annealing) = (mean(|glass| glass.softening), mean(|glass| glass.annealing));
        let fluidity = crate::glass::viscosity::Viscosity::new(softening, annealing).unwrap();
        let a = sinking.way().inputs().radius * 1e-3;
        let want = 2450.0 * 9.80665 * a * 60.0 * fluidity.fluidity(Celsius(640.0));
        let told = sinking.times().tau_at(10.0) - sinking.times().tau_at(9.0);
        assert!((told / want - 1.0).abs() < 1e-6, "{told} for {want}");
    }

    /// By the curve of a glass with these two points at 640 and 650 °C, and the 150 K/h of its way up.
    #[test]
    fn hotter_glass_sinks_faster_and_the_way_up_is_told() {
        let sinking = Sinking::of(&plan(|_| ())).expect("it sinks");
        let glass = crate::glass::viscosity::Viscosity::new(Celsius(680.0), Celsius(510.0)).unwrap();
        let want = glass.fluidity(Celsius(650.0)) / glass.fluidity(Celsius(640.0));
        let faster = sinking.hotter().expect("650 °C is a slump's").faster_than(sinking.times());
        assert!((faster / want - 1.0).abs() < 0.02, "{faster} for {want}");
        let heat = |minutes| sinking.times().heat_at(minutes).0;
        assert!((heat(-10.0) - 615.0).abs() < 1.0, "{}", heat(-10.0));
        assert_eq!([heat(0.0), heat(30.0)], [640.0; 2]);
    }

    #[test]
    fn a_hold_asked_for_gives_the_shape_it_was_asked_for() {
        let sinking = Sinking::of(&plan(|_| ())).expect("it sinks");
        let full = sinking.full_at().expect("it fills its mold");
        let minutes = 0.6 * full;
        let hold = sinking.hold_for(minutes).expect("it flows");
        assert!(hold.0 < minutes, "{hold:?} of {minutes}: the fall counts too");
        let held = Sinking::of(&plan(|recipe| recipe.slump.hold = Some(hold))).expect("it sinks");
        let (wanted, given) = (sinking.dome_at(minutes).high().0, held.dome().high().0);
        assert!((wanted - given).abs() < 1.0, "{wanted} and {given}");
        assert!(given < sinking.dome().high().0 - 1.0);
    }

    /// A curve hotter by what makes glass so much more fluid runs ahead, a cooler one behind, and all are one curve by reduced time.
    #[test]
    fn hotter_sinks_sooner() {
        let sinking = Sinking::of(&plan(|_| ())).expect("it sinks");
        let curves = sinking.curves();
        let tops: Vec<f64> = curves.iter().map(|curve| curve.top.0).collect();
        assert_eq!(tops, [630.0, 640.0, 650.0]);
        let settles: Vec<f64> = curves.iter().map(|curve| curve.settles.expect("it settles")).collect();
        assert!(settles[0] > settles[1] && settles[1] > settles[2], "{settles:?}");
        for curve in &curves {
            assert!(curve.points.windows(2).all(|pair| pair[0].0 < pair[1].0), "{:?}", curve.points);
        }
        assert_eq!(curves[0].points[20].1, curves[2].points[20].1);
    }
}
