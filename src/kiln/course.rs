//! A program run through a kiln: what the kiln makes of what it is asked.
//!
//! A controller holds the program back until the kiln has come along: a late kiln runs late, it skips nothing.

use super::flow::Stretch;
use super::wall::Heat;
use crate::base::units::Celsius;

/// Longest step, s.
const STEP: f64 = 60.0;
/// Shortest step on the way, s: a late kiln would else near its end in ever smaller ones.
const SHORTEST: f64 = 5.0;
/// A temperature counts as reached within this, K.
const REACHED: f64 = 0.01;
/// A kiln that rises less than this in an hour at full power, K, does not get there.
const STALLED: f64 = 2.0;
/// Time over which a rate is taken, s.
const WINDOW: f64 = 600.0;
/// Longest firing, s: a week.
const LONGEST: f64 = 7.0 * 86_400.0;

/// What a kiln is asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// Rate up or down, K/s; as fast as it goes if none.
    pub rate: Option<f64>,
    /// Where to, °C.
    pub to: f64,
    /// Then held so long, s.
    pub hold: f64,
    /// Whether the elements may help.
    pub on: bool,
}

/// What came of one part of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ran {
    /// When it began, s.
    pub begun: f64,
    /// Temperature at its beginning, °C.
    pub from: f64,
    /// Time on the way, s.
    pub way: f64,
    /// Time held, s.
    pub held: f64,
}

/// A firing as it ran.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// (s, °C) at the beginning and after each step.
    pub points: Vec<(f64, f64)>,
    /// Each part.
    pub ran: Vec<Ran>,
    /// Heat from the elements, J.
    pub given: f64,
}

/// Why a kiln does not get through a program, at which part of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stuck {
    /// It comes no higher than this, °C.
    TooWeak(usize, f64),
    /// It would take longer than a week.
    TooSlow(usize),
}

impl Course {
    /// The stretches between two moments, s.
    pub fn between(&self, begin: f64, end: f64) -> Vec<Stretch> {
        let within =
            self.points.windows(2).filter(|pair| pair[0].0 >= begin - 1e-6 && pair[1].0 <= end + 1e-6);
        within
            .map(|pair| Stretch {
                from: Celsius(pair[0].1),
                to: Celsius(pair[1].1),
                seconds: pair[1].0 - pair[0].0,
            })
            .collect()
    }

    /// How fast each part goes at most, up or down, K/h, over ten minutes: what is shorter does not reach through thick glass.
    pub fn fastest(&self) -> Vec<f64> {
        let one = |ran: &Ran| {
            let way = self.between(ran.begun, ran.begun + ran.way);
            let (mut most, mut first, mut seconds) = (0.0f64, 0, 0.0);
            for (last, stretch) in way.iter().enumerate() {
                seconds += stretch.seconds;
                while seconds - way[first].seconds >= WINDOW {
                    seconds -= way[first].seconds;
                    first += 1;
                }
                if seconds >= WINDOW || last + 1 == way.len() {
                    most = most.max((stretch.to.0 - way[first].from.0).abs() / seconds * 3600.0);
                }
            }
            most
        };
        self.ran.iter().map(one).collect()
    }

    /// When it ended, s.
    pub fn end(&self) -> f64 {
        self.points[self.points.len() - 1].0
    }
}

/// Runs a program through a kiln with at most so many watts.
///
/// # Errors
/// Where it gets stuck.
pub fn run(mut kiln: Heat, watts: f64, program: &[Asked]) -> Result<Course, Stuck> {
    let mut points = vec![(0.0, kiln.inside())];
    let mut ran = Vec::with_capacity(program.len());
    for (at, asked) in program.iter().enumerate() {
        let begun = points[points.len() - 1];
        travel(&mut kiln, watts, asked, &mut points, at)?;
        let arrived = points[points.len() - 1].0;
        let mut left = asked.hold;
        while left > 1e-9 {
            let seconds = left.min(STEP);
            kiln.step(seconds, asked.to, watts);
            left -= seconds;
            points.push((points[points.len() - 1].0 + seconds, kiln.inside()));
        }
        let held = points[points.len() - 1].0 - arrived;
        ran.push(Ran { begun: begun.0, from: begun.1, way: arrived - begun.0, held });
    }
    Ok(Course { points, ran, given: kiln.given })
}

fn travel(
    kiln: &mut Heat,
    watts: f64,
    asked: &Asked,
    points: &mut Vec<(f64, f64)>,
    at: usize,
) -> Result<(), Stuck> {
    let up = asked.to > kiln.inside();
    let most = if asked.on { watts } else { 0.0 };
    let mut hour_ago = (points[points.len() - 1].0, kiln.inside());
    loop {
        let (clock, now) = (points[points.len() - 1].0, kiln.inside());
        let left = if up { asked.to - now } else { now - asked.to };
        if left <= REACHED {
            return Ok(());
        }
        if clock > LONGEST {
            return Err(Stuck::TooSlow(at));
        }
        if up && clock - hour_ago.0 >= 3600.0 {
            let slow = asked.rate.map_or(STALLED, |rate| STALLED.min(rate * 1800.0));
            if now - hour_ago.1 < slow {
                return Err(Stuck::TooWeak(at, now));
            }
            hour_ago = (clock, now);
        }
        let (seconds, change) = match asked.rate {
            Some(rate) => {
                let seconds = (left / rate).clamp(SHORTEST, STEP);
                (seconds, left.min(rate * seconds))
            }
            None => (STEP, left),
        };
        kiln.step(seconds, if up { now + change } else { now - change }, most);
        points.push((clock + seconds, kiln.inside()));
    }
}
