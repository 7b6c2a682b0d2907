//! What the sheets of an order are made from: the order worked out, and of each line what its own sheets show beyond that.

use super::sheet::PaperSize;
use crate::base::notice::Notice;
use crate::base::seed::Seed;
use crate::base::units::{Mm, fixed};
use crate::kiln::data::Kiln;
use crate::kiln::firings::Firings;
use crate::kiln::program::Program;
use crate::orders::loads::kiln;
use crate::orders::model::{Line, Order};
use crate::orders::weigh::CoatNeed;
use crate::orders::worked::{Worked, WorkedLine};
use crate::recipe::Recipe;
use crate::recipe::plan::Plan;
use crate::shop::ticket::{AccentCount, Ticket};
use jiff::civil::Date;

/// An order, about to be put on paper.
#[derive(Clone, Copy, Debug)]
pub struct Content<'a> {
    /// The order.
    pub order: &'a Order,
    /// The same worked out.
    pub worked: &'a Worked,
    /// What the sheets of each line show beyond that, in order.
    pub pieces: &'a [Piece],
    /// The day that is written on it.
    pub today: Date,
    /// The paper.
    pub paper: PaperSize,
}

/// What the sheets show of the pieces of one line.
#[derive(Clone, Debug)]
pub struct Piece {
    /// The plan of its recipe.
    pub plan: Plan,
    /// Width of the finished piece.
    pub across: Mm,
    /// Height of the finished piece.
    pub high: Mm,
    /// Thickness of the fused disc, powder included.
    pub fused: Mm,
    /// Rolls of the sponge.
    pub rolls: u32,
    /// Accents of one piece.
    pub accents: Vec<AccentCount>,
    /// The programs of its firings.
    pub programs: Vec<Program>,
    /// What the maker wanted to do otherwise next time.
    pub next_time: Option<String>,
}

impl Piece {
    /// What is known of the pieces of each line of an order that was worked out.
    ///
    /// # Errors
    /// Every fault of the order's recipes and of its kiln.
    pub fn all(order: &Order, worked: &Worked) -> Result<Vec<Self>, Vec<Notice>> {
        let kiln = kiln(order);
        let lines = order.lines.iter().zip(&worked.lines);
        lines.map(|(line, made)| Self::new(&line.recipe, &kiln, made.first.as_ref())).collect()
    }

    fn new(recipe: &Recipe, kiln: &Kiln, ticket: Option<&Ticket>) -> Result<Self, Vec<Notice>> {
        let plan = Plan::new(recipe)?.plan;
        let programs = Firings::new(&plan, kiln)?.programs;
        Ok(Self {
            across: ticket.map_or(Mm(0.0), |ticket| ticket.dome_across),
            high: ticket.map_or(Mm(0.0), |ticket| ticket.dome_high),
            fused: ticket.map_or(Mm(0.0), |ticket| ticket.fused_thickness),
            rolls: ticket.map_or(0, |ticket| ticket.rolls),
            accents: ticket.map_or_else(Vec::new, |ticket| ticket.accents.clone()),
            programs,
            plan,
            next_time: None,
        })
    }
}

/// A line on its way to paper.
#[derive(Clone, Copy, Debug)]
pub struct OneLine<'a> {
    /// Which, counted from 0.
    pub at: usize,
    /// As ordered.
    pub line: &'a Line,
    /// As worked out.
    pub made: &'a WorkedLine,
    /// Its pieces.
    pub piece: &'a Piece,
    /// What is weighed for the coats of all lines.
    pub coats: &'a [CoatNeed],
}

impl<'a> Content<'a> {
    /// The lines, in order.
    pub fn lines(&self) -> impl Iterator<Item = OneLine<'a>> {
        let all = self.order.lines.iter().zip(&self.worked.lines).zip(self.pieces).enumerate();
        let coats = &self.worked.weighed.coats;
        all.map(move |(at, ((line, made), piece))| OneLine { at, line, made, piece, coats })
    }
}

impl OneLine<'_> {
    /// What its pieces are called.
    pub fn title(&self) -> &str {
        let title = self.line.recipe.title.trim();
        if title.is_empty() { "A piece without a name" } else { title }
    }

    /// The layout that its pictures show: the first.
    pub fn seed(&self) -> Seed {
        self.line.seeds[0]
    }

    /// The layout of each piece in the order of making: each in turn, those behind the wanted ones spare.
    pub fn each_piece(&self) -> Vec<Seed> {
        let rounds = self.made.layouts.iter().map(|(_, times)| *times).max().unwrap_or(0);
        let in_round = |round: u32| self.made.layouts.iter().filter(move |(_, times)| *times > round);
        (0..rounds).flat_map(in_round).map(|(seed, _)| *seed).collect()
    }

    /// The size of a finished piece: `148 mm across, 42.5 mm high`.
    pub fn size(&self) -> String {
        format!("{} mm across, {} mm high", fixed(self.piece.across.0, 0), fixed(self.piece.high.0, 1))
    }
}
