//! What fingers on the glass mean: a tap, a turn by one, a turn and a zoom by two, a drag of the core sample's ring. Plain
//! data, without events.

use dappledome::base::scalar::atan2;

/// Degrees of turn for a drag across the whole picture.
const TURN_ACROSS: f64 = 240.0;
/// A pointer that moved less than this, px, has tapped.
const TAP: f64 = 5.0;
/// How near the ring a drag must begin to move it, px.
const NEAR_RING: f64 = 24.0;

/// A pointer that is down: its number and where it is, px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finger {
    /// Its number.
    pub id: i32,
    /// To the right, px.
    pub x: f64,
    /// Down, px.
    pub y: f64,
}

/// What a move of a finger does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// The piece is turned and tilted by so many degrees.
    Turn {
        /// About its axis.
        turn: f32,
        /// Toward the eye.
        tilt: f32,
    },
    /// The piece is turned by so many degrees and brought nearer by a factor.
    Pinch {
        /// About its axis.
        turn: f32,
        /// The factor.
        nearer: f32,
    },
    /// The ring comes to where the finger is.
    MoveRing,
}

/// What the fingers are about.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
enum Doing {
    /// Nothing yet: it may be a tap.
    #[default]
    Resting,
    /// Turning the piece.
    Turning,
    /// Moving the ring of the core sample.
    Sampling,
}

/// The pointers that are down, and what they are about.
#[derive(Debug, Default)]
pub struct Gestures {
    fingers: Vec<Finger>,
    doing: Doing,
    /// Where the first one came down, px.
    start: (f64, f64),
}

impl Gestures {
    /// A finger comes down, on the ring of the core sample or elsewhere.
    pub fn down(&mut self, finger: Finger, on_ring: bool) {
        self.fingers.push(finger);
        if self.fingers.len() == 1 {
            self.start = (finger.x, finger.y);
            self.doing = if on_ring { Doing::Sampling } else { Doing::Resting };
        } else {
            self.doing = Doing::Turning;
        }
    }

    /// Whether the finger that is down has hold of the ring of the core sample.
    pub fn on_ring(&self) -> bool {
        self.doing == Doing::Sampling
    }

    /// A finger moves on a picture so many px wide; what that does, if anything.
    pub fn moved(&mut self, to: Finger, width: f64) -> Option<Change> {
        let at = self.fingers.iter().position(|finger| finger.id == to.id)?;
        let from = std::mem::replace(&mut self.fingers[at], to);
        if self.doing == Doing::Resting && distance(self.start, to) > TAP {
            self.doing = Doing::Turning;
        }
        let other = self.fingers.iter().find(|finger| finger.id != to.id);
        match (self.doing, other) {
            (Doing::Turning, None) => turn(from, to, width),
            (Doing::Turning, Some(other)) => Some(pinch(*other, from, to)),
            (Doing::Sampling, _) => Some(Change::MoveRing),
            (Doing::Resting, _) => None,
        }
    }

    /// A finger is lifted; whether it has tapped.
    pub fn up(&mut self, id: i32) -> bool {
        let tapped = self.fingers.len() == 1 && self.doing == Doing::Resting;
        self.gone(id);
        tapped
    }

    /// A finger is no more.
    pub fn gone(&mut self, id: i32) {
        self.fingers.retain(|finger| finger.id != id);
    }
}

/// Whether a finger comes down near a ring, px.
pub fn is_near_ring(ring: (f64, f64), finger: Finger) -> bool {
    distance(ring, finger) < NEAR_RING
}

fn distance((x, y): (f64, f64), finger: Finger) -> f64 {
    let (dx, dy) = (finger.x - x, finger.y - y);
    (dx * dx + dy * dy).sqrt()
}

/// One finger drags the piece round.
fn turn(from: Finger, to: Finger, width: f64) -> Option<Change> {
    let degrees = TURN_ACROSS / width.max(1.0);
    let (turn, tilt) = ((to.x - from.x) * degrees, (to.y - from.y) * degrees * 0.5);
    (turn != 0.0 || tilt != 0.0).then_some(Change::Turn { turn: turn as f32, tilt: tilt as f32 })
}

/// Two fingers turn the piece about its axis and bring it nearer.
fn pinch(other: Finger, from: Finger, to: Finger) -> Change {
    let around = |finger: Finger| atan2(other.y - finger.y, finger.x - other.x).to_degrees();
    let apart = |finger: Finger| distance((other.x, other.y), finger).max(1.0);
    let turn = (around(to) - around(from) + 540.0).rem_euclid(360.0) - 180.0;
    Change::Pinch { turn: turn as f32, nearer: (apart(to) / apart(from)) as f32 }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WIDTH: f64 = 480.0;

    fn finger(id: i32, x: f64, y: f64) -> Finger {
        Finger { id, x, y }
    }

    fn one_down(on_ring: bool) -> Gestures {
        let mut gestures = Gestures::default();
        gestures.down(finger(1, 100.0, 100.0), on_ring);
        gestures
    }

    #[test]
    fn a_finger_that_hardly_moved_has_tapped() {
        let mut gestures = one_down(false);
        assert_eq!(gestures.moved(finger(1, 103.0, 104.0), WIDTH), None);
        assert!(gestures.up(1));
        assert!(!gestures.up(1), "it is gone");
    }

    #[test]
    fn a_finger_that_goes_farther_turns_the_piece_and_has_not_tapped() {
        let mut gestures = one_down(false);
        gestures.moved(finger(1, 104.0, 100.0), WIDTH);
        let change = gestures.moved(finger(1, 114.0, 108.0), WIDTH);
        assert_eq!(change, Some(Change::Turn { turn: 5.0, tilt: 2.0 }), "from where it was last");
        assert_eq!(gestures.moved(finger(1, 114.0, 108.0), WIDTH), None, "it stayed");
        assert!(gestures.moved(finger(1, 100.0, 100.0), WIDTH).is_some());
        assert!(!gestures.up(1), "back where it began it has still turned the piece");
    }

    #[test]
    fn two_fingers_turn_and_bring_nearer() {
        let mut gestures = one_down(false);
        gestures.down(finger(2, 200.0, 100.0), false);
        let Some(Change::Pinch { turn, nearer }) = gestures.moved(finger(2, 100.0, -100.0), WIDTH) else {
            panic!("two fingers pinch")
        };
        assert!((turn - 90.0).abs() < 1e-4 && (nearer - 2.0).abs() < 1e-6, "{turn} {nearer}");
        assert!(!gestures.up(2));
        assert!(!gestures.up(1), "nor has the other one tapped");
    }

    #[test]
    fn a_pinch_turns_the_short_way_round() {
        let mut gestures = one_down(false);
        gestures.down(finger(2, 0.0, 99.0), false);
        let Some(Change::Pinch { turn, .. }) = gestures.moved(finger(2, 0.0, 101.0), WIDTH) else {
            panic!("two fingers pinch")
        };
        assert!(turn > 0.0 && turn < 3.0, "{turn}");
    }

    #[test]
    fn the_ring_follows_the_finger_that_took_it_until_another_comes_down() {
        let mut gestures = one_down(true);
        assert!(gestures.on_ring());
        assert_eq!(gestures.moved(finger(1, 101.0, 100.0), WIDTH), Some(Change::MoveRing));
        assert_eq!(gestures.moved(finger(7, 0.0, 0.0), WIDTH), None, "that one is not down");
        gestures.down(finger(2, 200.0, 100.0), true);
        assert!(!gestures.on_ring());
        gestures.gone(2);
        assert!(!gestures.up(1));
    }

    #[test]
    fn the_ring_is_taken_from_near_by() {
        assert!(is_near_ring((100.0, 100.0), finger(1, 116.0, 116.0)));
        assert!(!is_near_ring((100.0, 100.0), finger(1, 118.0, 118.0)));
    }
}
