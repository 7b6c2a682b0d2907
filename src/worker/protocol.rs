//! What the page and its worker say to each other. Each message is an array: this header as JSON text and, for a
//! picture, its pixels as a transferred buffer.

use crate::base::seed::Seed;
use crate::picture::View;
use crate::recipe::Recipe;
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
    /// The pictures wanted, most wanted first.
    pub views: Vec<View>,
    /// Whether the numbers are wanted too; they come after the first picture, whose layout they share.
    pub ticket: bool,
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
        /// Which of the job's views.
        view: usize,
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
