//! What is asked of a worker, and what it brings.

use crate::model::slots::PictureSlot;
use crate::state::pictures::Picture;
use dappledome::base::seed::Seed;
use dappledome::kiln::data::Kiln;
use dappledome::picture::View;
use dappledome::picture::view::Light;
use dappledome::preview::{Point, Sampled};
use dappledome::recipe::Recipe;
use dappledome::shop::sisters::Features;
use dappledome::shop::ticket::Ticket;
use dappledome::tiles::places::HowSure;
use dappledome::worker::protocol::Wanted;

/// One thing asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A picture, and where it belongs.
    Picture(PictureSlot, View),
    /// The ticket, its hours and energy in this kiln.
    Ticket(Box<Kiln>),
    /// What tells the seed from its sisters, and for which slot.
    Features(PictureSlot),
    /// How sure the fired colors of a view are.
    HowSure(View),
    /// A core sample of what a view shows.
    Sample(View, Point),
    /// A job for the desk, in its own bytes.
    Desk(Vec<u8>),
}

impl Item {
    /// The same for the worker, to which it is all one where a picture belongs.
    pub fn wanted(&self) -> Wanted {
        match self {
            Self::Picture(_, view) => Wanted::Picture(*view),
            Self::Ticket(kiln) => Wanted::Ticket(kiln.clone()),
            Self::Features(_) => Wanted::Features,
            Self::HowSure(view) => Wanted::HowSure(*view),
            Self::Sample(view, point) => Wanted::Sample(*view, *point),
            Self::Desk(asked) => Wanted::Desk(asked.clone()),
        }
    }
}

/// What is asked of a worker.
#[derive(Clone, Debug, PartialEq)]
pub struct Request {
    /// The recipe; one that can be made.
    pub recipe: Recipe,
    /// The seed.
    pub seed: Seed,
    /// What is wanted, most wanted first.
    pub items: Vec<Item>,
}

impl Request {
    /// The pictures among what is wanted, in order.
    pub fn pictures(&self) -> impl DoubleEndedIterator<Item = (PictureSlot, View)> {
        self.items.iter().filter_map(|item| match item {
            Item::Picture(slot, view) => Some((*slot, *view)),
            _ => None,
        })
    }

    /// The kiln of its ticket; none without one.
    pub fn kiln(&self) -> Option<&Kiln> {
        self.items.iter().find_map(|item| match item {
            Item::Ticket(kiln) => Some(&**kiln),
            _ => None,
        })
    }

    /// Whether it is for a core sample and nothing else.
    pub fn is_sample(&self) -> bool {
        matches!(self.items[..], [Item::Sample(..)])
    }

    /// Whether it is for the desk: it shows no picture that a newer one could wait for.
    pub fn is_for_desk(&self) -> bool {
        matches!(self.items[..], [Item::Desk(_)])
    }

    /// Whether it is only there for the worker to remember how.
    pub fn is_ahead(&self) -> bool {
        self.pictures().any(|(slot, _)| slot == PictureSlot::Ahead)
    }

    /// The piece just drawn by the other light, as small as can be: its colors are what a change of light waits for.
    pub fn by_other_light(&self) -> Option<Self> {
        let (slot, view) = self.pictures().next_back()?;
        let light = match view.light {
            Light::Day => Light::Within,
            Light::Within => Light::Day,
            Light::Gray => return None,
        };
        let ahead = Item::Picture(PictureSlot::Ahead, View { light, size: 16, ..view });
        (slot == PictureSlot::Glass).then(|| Self { items: vec![ahead], ..self.clone() })
    }
}

/// What a worker brings.
#[derive(Debug)]
pub enum Response {
    /// A picture.
    Picture(PictureSlot, Picture),
    /// The ticket of a seed.
    Ticket(Seed, Box<Ticket>),
    /// What tells a seed from its sisters, for the slot that asked.
    Features(PictureSlot, Features),
    /// How sure the fired colors of the piece are.
    HowSure(HowSure),
    /// The core sample that was asked for at a point; none beside the glass.
    Sample(Point, Option<Box<Sampled>>),
    /// What the desk says, in its own bytes.
    Desk(Vec<u8>),
    /// Everything that was asked.
    AllOf(Box<Request>),
    /// The worker broke twice over one request.
    Stopped,
}
