//! Where a chart's parts come to lie, px.

use super::types::{Axis, Chart, Label, Side};
use dappledome::base::units::fixed;

/// Width of a letter of a chart's words, px, taken wide rather than narrow: for the room that words take.
const LETTER: f64 = 7.0;
/// Height of a line of words, px.
const LINE: f64 = 15.0;
/// Distance of a word from its place, px.
const OFF: f64 = 6.0;

/// The room of the lines within a chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Left end.
    pub left: f64,
    /// Right end.
    pub right: f64,
    /// Upper end.
    pub top: f64,
    /// Lower end.
    pub bottom: f64,
}

/// A word as it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// Where it is anchored, px.
    pub x: f64,
    /// Its base line, px.
    pub y: f64,
    /// Which end of it is there: `start`, `middle` or `end`.
    pub anchor: &'static str,
    /// The word.
    pub text: String,
    /// Whether it stands in weight.
    pub strong: bool,
}

impl Frame {
    /// The room that a chart of this size leaves beside the words of its axes.
    pub fn of(chart: &Chart, width: f64, height: f64) -> Self {
        let (upright, lying) = (!chart.y.ticks.is_empty(), !chart.x.ticks.is_empty());
        Self {
            left: if upright { 40.0 } else { 1.0 },
            right: width - if lying || upright { 12.0 } else { 1.0 },
            top: if upright { 10.0 } else { 2.0 },
            bottom: height - if lying { 22.0 } else { 2.0 },
        }
    }

    /// Where a place lies, px.
    pub fn place(&self, chart: &Chart, (x, y): (f64, f64)) -> (f64, f64) {
        (
            self.left + share(&chart.x, x) * (self.right - self.left),
            self.bottom - share(&chart.y, y) * (self.bottom - self.top),
        )
    }

    /// A line through points, as the data of a path.
    pub fn path(&self, chart: &Chart, points: &[(f64, f64)]) -> String {
        let mut data = String::new();
        for (at, point) in points.iter().enumerate() {
            let (x, y) = self.place(chart, *point);
            data.push_str(&format!("{}{} {}", if at == 0 { "M" } else { "L" }, fixed(x, 1), fixed(y, 1)));
        }
        data
    }
}

/// Where on an axis a value lies, 0 to 1.
fn share(axis: &Axis, value: f64) -> f64 {
    let share = (value - axis.from) / (axis.to - axis.from);
    if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 }
}

/// The words of a chart that have room: of two that would meet the first one stays.
pub fn words(chart: &Chart, frame: &Frame) -> Vec<Placed> {
    let levels = chart.levels.iter().map(|level| {
        let (_, y) = frame.place(chart, (chart.x.to, level.at));
        let y = if level.below { y + LINE - 2.0 } else { y - 4.0 };
        Placed { x: frame.right, y, anchor: "end", text: level.name.clone(), strong: false }
    });
    let labels = chart.labels.iter().map(|label| beside(chart, frame, label));
    let mut placed: Vec<Placed> = Vec::new();
    for word in levels.chain(labels) {
        let room = room(&word);
        let inside = room.left >= frame.left - 2.0 && room.right <= frame.right + 12.0;
        if inside && !placed.iter().any(|other| room.meets(&self::room(other))) {
            placed.push(word);
        }
    }
    placed
}

/// The graduations of the lying axis that have room, by their places.
pub fn ticks_with_room(chart: &Chart, frame: &Frame) -> Vec<(f64, String)> {
    let mut written: Vec<(f64, String)> = Vec::new();
    let mut free_from = f64::NEG_INFINITY;
    for tick in &chart.x.ticks {
        let (x, _) = frame.place(chart, (tick.at, 0.0));
        let half = tick.label.chars().count() as f64 * LETTER / 2.0;
        if x - half > free_from {
            free_from = x + half + OFF;
            written.push((x, tick.label.clone()));
        }
    }
    written
}

fn beside(chart: &Chart, frame: &Frame, label: &Label) -> Placed {
    let (x, y) = frame.place(chart, label.at);
    let (dx, dy, anchor) = match label.side {
        Side::Above => (0.0, -OFF, "middle"),
        Side::Below => (0.0, LINE, "middle"),
        Side::Left => (-OFF, 0.0, "end"),
        Side::Right => (OFF, 0.0, "start"),
    };
    Placed { x: x + dx, y: y + dy, anchor, text: label.text.clone(), strong: label.strong }
}

/// The room of a word.
struct Room {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

impl Room {
    fn meets(&self, other: &Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }
}

fn room(word: &Placed) -> Room {
    let wide = word.text.chars().count() as f64 * LETTER;
    let left = match word.anchor {
        "start" => word.x,
        "end" => word.x - wide,
        _ => word.x - wide / 2.0,
    };
    Room { left, right: left + wide, top: word.y - LINE + 3.0, bottom: word.y + 3.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::controls::chart::types::{Level, Tick};

    fn chart() -> Chart {
        let tick = |at: f64| Tick { at, label: fixed(at, 0) };
        Chart {
            x: Axis { from: 0.0, to: 10.0, ticks: [0.0, 5.0, 10.0].map(tick).to_vec() },
            y: Axis { from: 0.0, to: 800.0, ticks: vec![tick(0.0), tick(800.0)] },
            ..Chart::default()
        }
    }

    fn label(at: (f64, f64), text: &str) -> Label {
        Label { at, side: Side::Above, text: text.into(), strong: false }
    }

    #[test]
    fn the_corners_of_a_chart_lie_in_the_corners_of_its_frame() {
        let chart = chart();
        let frame = Frame::of(&chart, 752.0, 214.0);
        assert_eq!(frame, Frame { left: 40.0, right: 740.0, top: 10.0, bottom: 192.0 });
        assert_eq!(frame.place(&chart, (0.0, 0.0)), (40.0, 192.0));
        assert_eq!(frame.place(&chart, (10.0, 800.0)), (740.0, 10.0));
        assert_eq!(frame.place(&chart, (99.0, f64::NAN)), (740.0, 192.0), "nothing leaves it");
        assert_eq!(frame.path(&chart, &[(0.0, 0.0), (5.0, 400.0)]), "M40.0 192.0L390.0 101.0");
    }

    #[test]
    fn of_two_words_that_would_meet_the_first_one_stays() {
        let mut chart = chart();
        chart.levels.push(Level { at: 510.0, name: "annealing 510".into(), below: false });
        chart.labels =
            vec![label((5.0, 400.0), "first"), label((5.1, 400.0), "second"), label((2.0, 100.0), "far")];
        let frame = Frame::of(&chart, 752.0, 214.0);
        let said: Vec<String> = words(&chart, &frame).into_iter().map(|word| word.text).collect();
        assert_eq!(said, ["annealing 510", "first", "far"]);
        let narrow = Frame::of(&chart, 120.0, 214.0);
        assert!(words(&chart, &narrow).len() < 3, "what would stand outside is left out");
    }

    #[test]
    fn graduations_are_written_where_they_have_room() {
        let mut chart = chart();
        chart.x.ticks = (0..=10).map(|n| Tick { at: f64::from(n), label: "18:00".into() }).collect();
        let written = |width| ticks_with_room(&chart, &Frame::of(&chart, width, 214.0)).len();
        assert_eq!(written(752.0), 11);
        assert_eq!(written(300.0), 6, "every other one");
    }
}
