//! What the page and its worker say to each other. Each message is an array: this header as JSON text and, for a
//! picture, its pixels as a transferred buffer.

use crate::base::seed::Seed;
use crate::picture::View;
use crate::preview::{Point, Sampled};
use crate::recipe::Recipe;
use crate::shop::sisters::Features;
use crate::shop::ticket::Ticket;
use serde::{Deserialize, Serialize};

/// Work asked of the worker. A newer job ends the one under way at its next step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Job {
    /// Number of the job, rising.
    pub id: u32,
    /// The recipe as it stands. One with a fault is answered by [`Answer::Done`] alone: who asks has planned it.
    pub recipe: Recipe,
    /// The seed.
    pub seed: Seed,
    /// What is wanted, most wanted first.
    pub wanted: Vec<Wanted>,
}

/// One thing wanted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Wanted {
    /// A picture.
    Picture(View),
    /// The numbers.
    Ticket,
    /// What tells this seed from its sisters.
    Features,
    /// A core sample of what this view shows at a place.
    Sample(View, Point),
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
        ticket: Ticket,
    },
    /// What tells this seed from its sisters.
    Features {
        /// The job.
        id: u32,
        /// Its features.
        features: Features,
    },
    /// A core sample; none beside the glass.
    Sample {
        /// The job.
        id: u32,
        /// The sample.
        sample: Option<Sampled>,
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
