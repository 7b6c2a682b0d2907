//! What the page and its worker say to each other. A job is sent as bytes; an answer as an array of its bytes and, for
//! a picture, its pixels as a transferred buffer.
//!
//! The bytes are postcard's, whose readers weigh a third of JSON's. Recipe and kiln travel in them as the text of their files, for
//! which page and worker have reader and writer anyway.

use super::as_text;
use crate::base::seed::Seed;
use crate::kiln::data::Kiln;
use crate::picture::View;
use crate::preview::{Point, Sampled};
use crate::recipe::Recipe;
use crate::shop::sisters::Features;
use crate::shop::ticket::Ticket;
use crate::tiles::places::HowSure;
use serde::de::{DeserializeOwned, Error};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Work asked of the worker. A newer job ends the one under way at its next step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Job {
    /// Number of the job, rising.
    pub id: u32,
    /// The recipe as it stands. One with a fault is answered by [`Answer::Done`] alone: who asks has planned it.
    #[serde(with = "as_text")]
    pub recipe: Recipe,
    /// The seed.
    pub seed: Seed,
    /// What is wanted, most wanted first.
    pub wanted: Vec<Wanted>,
}

impl Job {
    /// Whether anything is wanted of the desk.
    pub fn is_for_desk(&self) -> bool {
        self.wanted.iter().any(|wanted| matches!(wanted, Wanted::Desk(_)))
    }
}

/// One thing wanted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Wanted {
    /// A picture.
    Picture(View),
    /// The numbers: hours and energy as they are in this kiln.
    Ticket(#[serde(serialize_with = "write_kiln", deserialize_with = "read_kiln")] Box<Kiln>),
    /// What tells this seed from its sisters.
    Features,
    /// How sure the fired colors of this view are.
    HowSure(View),
    /// A core sample of what this view shows at a place.
    Sample(View, Point),
    /// A job for the [desk](super::desk), in its own bytes.
    Desk(Vec<u8>),
}

/// What the worker says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// It has loaded and takes jobs.
    Ready,
    /// A picture; its pixels are the second element of the message.
    Picture {
        /// The job.
        id: u32,
        /// Which of the things wanted it is.
        at: usize,
        /// Width, pixels.
        width: u32,
        /// Height, pixels.
        height: u32,
    },
    /// The numbers.
    Ticket {
        /// The job.
        id: u32,
        /// Its ticket.
        ticket: Box<Ticket>,
    },
    /// What tells this seed from its sisters.
    Features {
        /// The job.
        id: u32,
        /// Its features.
        features: Features,
    },
    /// How sure its fired colors are.
    HowSure {
        /// The job.
        id: u32,
        /// How sure.
        how: HowSure,
    },
    /// A core sample; none beside the glass.
    Sample {
        /// The job.
        id: u32,
        /// The sample.
        sample: Option<Sampled>,
    },
    /// What the desk says, in its own bytes.
    Desk {
        /// The job.
        id: u32,
        /// What it says.
        said: Vec<u8>,
        /// Whether that is all of it.
        whole: bool,
    },
    /// The job is finished. A job given up for a newer one is never heard of again.
    Done {
        /// The job.
        id: u32,
    },
    /// The program broke; this worker must not be used again.
    Broke {
        /// What it said.
        text: String,
    },
}

/// A message as bytes.
pub fn written(message: &impl Serialize) -> Vec<u8> {
    postcard::to_allocvec(message).expect("a message has no part that could fail")
}

/// A message from its bytes.
///
/// # Errors
/// What is wrong with them, if they are not such a message.
pub fn read<T: DeserializeOwned>(bytes: &[u8]) -> Result<T, String> {
    postcard::from_bytes(bytes).map_err(|fault| fault.to_string())
}

fn write_kiln<S: Serializer>(kiln: &Kiln, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(&kiln.write())
}

fn read_kiln<'de, D: Deserializer<'de>>(from: D) -> Result<Box<Kiln>, D::Error> {
    Kiln::read(&String::deserialize(from)?).map(Box::new).map_err(D::Error::custom)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::firing::Firing;
    use crate::kiln::data::{Guess, Metered};
    use crate::picture::view::{Light, Stage};
    use crate::recipe::demo;

    /// A kiln with a number that no short decimal is.
    fn metered() -> Box<Kiln> {
        let metered = Some(Metered { firing: Firing::FullFuse, kwh: 20.0 / 3.0 });
        Box::new(Kiln { metered, ..Kiln::guess(Guess::Fiber) })
    }

    #[test]
    fn a_job_is_read_as_it_was_written() {
        for recipe in demo::all() {
            let view = View::usual(Stage::Domed, Light::Within, 320);
            let wanted = vec![
                Wanted::Picture(view),
                Wanted::Ticket(metered()),
                Wanted::Features,
                Wanted::Sample(view, Point::Seen(0.25, 0.75)),
                Wanted::Desk(vec![0, 255]),
            ];
            let job = Job { id: 7, recipe, seed: Seed(4_000_000_000), wanted };
            assert_eq!(read(&written(&job)), Ok(job));
        }
    }

    #[test]
    fn what_is_no_message_is_refused() {
        let job =
            Job { id: 1, recipe: Recipe::bare(), seed: Seed(1), wanted: vec![Wanted::Ticket(metered())] };
        let bytes = written(&job);
        for end in 0..bytes.len() {
            assert!(read::<Job>(&bytes[..end]).is_err(), "{end} of {} bytes", bytes.len());
        }
        assert!(read::<Job>(b"\x01\x02{}").is_err());
    }
}
