//! How the disc of a piece sinks along its slump, minute by minute, and what of it the sink rule shows.

use dappledome::base::notice::Notice;
use dappledome::base::units::{Celsius, Minutes, Mm};
use dappledome::kiln::bench::Bench;
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::kiln::sinking::{Sinking, Times};
use dappledome::recipe::limits::SLUMP_HOLD;
use dappledome::recipe::plan::Plan;
use dappledome::slump::dome::Dome;
use dappledome::slump::trajectory::{Moment, Trajectory};
use std::sync::OnceLock;

/// Up to so much, mm, nobody would call it sunk: the rule begins here.
const FLAT: f64 = 0.5;
/// The rule goes on for so much longer than the glass takes to settle.
const BEYOND: f64 = 1.5;
/// The ends of the rule are whole multiples of so many minutes.
const ROUND: f64 = 5.0;
/// The rule begins no earlier than so many minutes before the hold.
const EARLIEST: f64 = -120.0;
/// Glass closer to the axis, or farther out, than these shares of the radius touches at the crown, or at the rim.
const CROWN_AND_RIM: (f64, f64) = (0.1, 0.9);
/// When so much of it touches, it touches all over.
const ALL_OVER: f64 = 0.97;

/// Where glass touches its mold.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Touching {
    /// In the middle.
    pub crown: bool,
    /// Between middle and rim.
    pub wall: bool,
    /// At the rim.
    pub rim: bool,
    /// All over.
    pub all: bool,
}

/// Parts that the rule is sampled at.
const PARTS: usize = 96;

/// A curve of the rule.
#[derive(Clone, Debug)]
pub struct Curve {
    /// The top that it belongs to.
    pub top: Celsius,
    /// How far it has sunk, mm, at even steps from the rule's first moment to its last.
    pub depths: Vec<f64>,
}

/// How the disc of a piece sinks. Minutes count from when the top of the slump is reached; on the way up they are negative.
#[derive(Clone, Debug)]
pub struct Course {
    sinking: Sinking,
    /// The clock of the kiln that pictures go by.
    pictured: Times,
    curves: OnceLock<Vec<Curve>>,
    hold: Option<Minutes>,
    first: f64,
    last: f64,
}

impl Course {
    /// That of a planned piece in a kiln.
    ///
    /// # Errors
    /// Why it cannot be computed, or that the kiln does not get through it.
    pub fn new(plan: &Plan, kiln: &Kiln) -> Result<Self, Notice> {
        let sinking = Sinking::in_kiln(plan, kiln)?;
        let radius = Mm(sinking.way().inputs().radius);
        let pictured = Times::new(plan, Bench::of(&Kiln::guess(Guess::SmallBrick)), plan.slump.top, radius)?;
        let (hold, curves) = (plan.slump.hold, OnceLock::new());
        let mut course = Self { sinking, pictured, curves, hold, first: 0.0, last: 0.0 };
        course.measure();
        Ok(course)
    }

    /// The ends of the rule: from where the glass is flat to well after it has settled, or after the recipe ends.
    fn measure(&mut self) {
        let flat = self.way().at(0.0).depth() + FLAT;
        let sunk = self.way().moments().find(|tau| self.way().at(*tau).depth() > flat);
        let early = self.sinking.hotter().unwrap_or(self.sinking.times());
        let begins = sunk.and_then(|tau| early.minutes_at(tau)).unwrap_or(0.0).clamp(EARLIEST, 0.0);
        let settled = self.sinking.settles_at().unwrap_or(SLUMP_HOLD.most);
        let last = (BEYOND * settled).max(self.ends() + ROUND).clamp(ROUND, SLUMP_HOLD.most);
        self.first = ((begins - 1.0) / ROUND).floor() * ROUND;
        self.last = (last / ROUND).ceil() * ROUND;
    }

    /// The first and the last moment that the rule shows.
    pub fn span(&self) -> (f64, f64) {
        (self.first, self.last)
    }

    /// The nearest moment that the rule shows.
    pub fn within(&self, minutes: f64) -> f64 {
        minutes.clamp(self.first, self.last)
    }

    /// Where on the rule a moment lies, 0 to 1.
    pub fn share(&self, minutes: f64) -> f64 {
        (self.within(minutes) - self.first) / (self.last - self.first)
    }

    /// What moment lies there.
    pub fn at_share(&self, share: f64) -> f64 {
        self.within(self.first + share * (self.last - self.first))
    }

    /// How hot it is.
    pub fn heat(&self, minutes: f64) -> Celsius {
        self.sinking.times().heat_at(minutes)
    }

    /// The top temperature.
    pub fn top(&self) -> Celsius {
        self.heat(0.0)
    }

    /// The glass at a moment.
    pub fn at(&self, minutes: f64) -> Moment {
        self.way().at(self.sinking.times().tau_at(minutes))
    }

    /// The glass as the recipe ends.
    pub fn at_end(&self) -> Moment {
        self.way().at(self.sinking.end())
    }

    /// The piece if it were taken away at a moment.
    pub fn dome(&self, minutes: f64) -> Dome {
        self.sinking.dome_at(minutes)
    }

    /// The moment at which glass has flowed as long in the kiln that pictures go by, to a hundredth of a minute.
    pub fn pictured(&self, minutes: f64) -> f64 {
        let there = self.pictured.minutes_at(self.sinking.times().tau_at(minutes));
        there.map_or(minutes, |minutes| (100.0 * minutes).round() / 100.0)
    }

    /// The curves of the rule: this one and those so much cooler and hotter that a slump goes so cool or hot.
    pub fn curves(&self) -> &[Curve] {
        self.curves.get_or_init(|| {
            let beside = [self.sinking.cooler(), Some(self.sinking.times()), self.sinking.hotter()];
            beside.into_iter().flatten().map(|times| self.curve(times)).collect()
        })
    }

    fn curve(&self, times: &Times) -> Curve {
        let minutes = |at: usize| self.at_share(at as f64 / PARTS as f64);
        let depth = |at: usize| self.way().at(times.tau_at(minutes(at))).depth();
        Curve { top: times.heat_at(0.0), depths: (0..=PARTS).map(depth).collect() }
    }

    /// The deepest that any of them comes on the rule, mm; 1 at least.
    pub fn deepest(&self) -> f64 {
        self.curves().iter().flat_map(|curve| &curve.depths).fold(1.0, |most, depth| most.max(*depth))
    }

    /// When it is full in its mold, to the next whole minute; none if that does not come on the rule.
    pub fn full_at(&self) -> Option<f64> {
        self.sinking.full_at().map(|full| full.max(0.0).ceil()).filter(|full| *full <= SLUMP_HOLD.most)
    }

    /// How long the recipe holds it, unless that is until it has settled.
    pub fn hold(&self) -> Option<Minutes> {
        self.hold
    }

    /// The hold that ends, its fall counted, with the glass as it is at a moment; none that a recipe could have.
    pub fn hold_for(&self, minutes: f64) -> Option<Minutes> {
        // A moment on the way up that the fall alone goes beyond has no hold.
        let least = self.sinking.times().end_of_no_hold();
        let reached = self.sinking.times().tau_at(minutes) >= least;
        self.sinking.hold_for(minutes).filter(|hold| reached && SLUMP_HOLD.holds(hold.0))
    }

    /// When the glass is as it is when the recipe ends; minutes as if it had been held until then.
    pub fn ends(&self) -> f64 {
        let ends = self.sinking.times().minutes_at(self.sinking.end());
        ends.map_or(SLUMP_HOLD.most, |at| (10.0 * at).round() / 10.0)
    }

    /// How much faster it sinks 10 K hotter; where a slump does not go so hot, how much slower 10 K cooler, below 1.
    pub fn faster(&self) -> Option<f64> {
        let beside = self.sinking.hotter().or(self.sinking.cooler())?;
        Some(beside.faster_than(self.sinking.times()))
    }

    /// The way of the disc, in reduced time.
    pub fn way(&self) -> &Trajectory {
        self.sinking.way()
    }
}

/// Where glass touches its mold.
pub fn touching(moment: &Moment) -> Touching {
    let nodes = &moment.shape.nodes;
    let widest = nodes.iter().fold(0.0f64, |most, node| most.max(node.0));
    let mut at = Touching { all: moment.touching() > ALL_OVER, ..Touching::default() };
    for (ring, node) in nodes.iter().enumerate().filter(|(ring, _)| moment.touches(*ring)) {
        let share = node.0 / widest;
        at.crown |= share < CROWN_AND_RIM.0;
        at.rim |= share > CROWN_AND_RIM.1 || ring + 1 == nodes.len();
        at.wall |= (CROWN_AND_RIM.0..=CROWN_AND_RIM.1).contains(&share);
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::{Form, demo};

    fn course(change: impl Fn(&mut dappledome::recipe::Recipe)) -> Course {
        let mut recipe = demo::ember_walk();
        change(&mut recipe);
        let plan = Plan::new(&recipe).expect("it is sound").plan;
        Course::new(&plan, &Kiln::guess(Guess::SmallBrick)).expect("it sinks")
    }

    /// A kiln that is late on its way up gives more heat before its top: what has flowed by then, pictures show later. In their own kiln
    /// a moment is itself. Reduced time over the radius is the same in both; a hundredth of a minute near the top is less than 0.2 % of it.
    #[test]
    fn pictures_show_glass_that_has_flowed_as_long() {
        let plan = Plan::new(&demo::ember_walk()).expect("it is sound").plan;
        let own = Kiln { power: 1.2, ..Kiln::guess(Guess::SmallBrick) };
        let (late, usual) = (Course::new(&plan, &own).expect("it sinks"), course(|_| ()));
        let flowed =
            |course: &Course, minutes| course.sinking.times().tau_at(minutes) / course.way().inputs().radius;
        for minutes in [-3.0, 0.0, 5.0, 12.0] {
            assert_eq!(usual.pictured(minutes), minutes);
            let (shown, is) = (flowed(&usual, late.pictured(minutes)), flowed(&late, minutes));
            assert!((shown / is - 1.0).abs() < 0.002, "{shown} for {is} at {minutes} min");
        }
        assert!(late.pictured(0.0) > 0.1, "{}", late.pictured(0.0));
    }

    #[test]
    fn a_kiln_too_weak_for_the_slump_says_so() {
        let plan = Plan::new(&demo::ember_walk()).expect("it is sound").plan;
        let weak = Kiln { power: 0.5, ..Kiln::guess(Guess::LargeBrick) };
        let fault = Course::new(&plan, &weak).expect_err("0.5 kW");
        assert_eq!(fault.what, "A kiln too weak for its target.");
    }

    #[test]
    fn the_rule_goes_from_flat_to_well_after_full() {
        let course = course(|_| ());
        let (first, last) = course.span();
        assert!(course.at(first).depth() < 2.0 * FLAT && first < 0.0, "{first}");
        let full = course.full_at().expect("it fills its mold");
        assert!(
            full < last && course.at(full).widest_gap() <= 1.0 && course.at(full - 1.5).widest_gap() > 1.0
        );
        for minutes in [first, 0.0, 3.3, last] {
            assert!((course.at_share(course.share(minutes)) - minutes).abs() < 1e-9);
        }
    }

    #[test]
    fn hotter_glass_is_always_ahead() {
        for form in [Form::Bowl, Form::Hump] {
            let course = course(|recipe| recipe.mold.form = form.clone());
            let [cooler, own, hotter] = course.curves() else { panic!("a slump goes from 630 to 650 °C") };
            assert_eq!([cooler.top, own.top, hotter.top], [630.0, 640.0, 650.0].map(Celsius));
            assert!(own.depths[0] < 2.0 * FLAT && own.depths[PARTS] > 20.0, "{:?}", own.depths);
            for at in 0..=PARTS / 2 {
                assert!(cooler.depths[at] <= own.depths[at] && own.depths[at] <= hotter.depths[at], "{at}");
            }
        }
    }

    #[test]
    fn a_stop_that_the_fall_goes_beyond_has_no_hold() {
        let course = course(|_| ());
        assert_eq!(course.hold_for(course.span().0), None);
        let hold = course.hold_for(9.0).expect("it can be stopped at 9 min");
        let stopped = self::course(|recipe| recipe.slump.hold = Some(hold));
        assert!((stopped.ends() - 9.0).abs() <= 0.6, "{} for {hold:?}", stopped.ends());
        assert!((stopped.at_end().depth() - course.at(9.0).depth()).abs() < 0.5);
    }

    #[test]
    fn glass_touches_first_at_the_rim_and_then_all_the_way_down() {
        let course = course(|_| ());
        let flat = touching(&course.at(course.span().0));
        assert_eq!(flat, Touching { rim: true, ..Touching::default() });
        let late = touching(&course.at(course.span().1));
        assert!(late.rim && late.wall, "{late:?}");
    }
}
