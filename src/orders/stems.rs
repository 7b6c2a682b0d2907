//! Stems of an order: pipe, stoppers and silicone to buy. Spare pieces get none: a piece that breaks has not been mounted.

use crate::base::units::Mm;
use crate::recipe::{Pipe, SOLD_IN};
use crate::shop::stem::{StemNeeds, TUBE};
use serde::{Deserialize, Serialize};

/// What the stems of an order take.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Stems {
    /// What one piece of each line takes, and how many are mounted; none where a line has no stem.
    pub lines: Vec<Option<(StemNeeds, u32)>>,
    /// Pipe, by size.
    pub pipes: Vec<PipeNeed>,
    /// Stoppers, by number.
    pub stoppers: Vec<StopperNeed>,
    /// Silicone in all, mL.
    pub silicone: f64,
    /// Tubes of it to buy.
    pub tubes: u32,
}

/// Pipe of one size.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PipeNeed {
    /// Its size.
    pub pipe: Pipe,
    /// What is cut from each length that is bought.
    pub bought: Vec<Vec<Mm>>,
}

impl PipeNeed {
    /// How many stems are cut.
    pub fn stems(&self) -> usize {
        self.bought.iter().map(Vec::len).sum()
    }
}

/// Stoppers of one number.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StopperNeed {
    /// The number.
    pub number: u32,
    /// Whether they have a hole.
    pub holed: bool,
    /// How many.
    pub count: u32,
}

/// What a saw takes, mm: common practice, no source.
const KERF: f64 = 3.0;

impl Stems {
    /// The stems of lines, each with what one piece takes, if it has a stem, and how many are mounted.
    pub fn new(lines: Vec<Option<(StemNeeds, u32)>>) -> Self {
        let mut stems = Self::default();
        let mut cuts: Vec<(Pipe, Vec<Mm>)> = Vec::new();
        for (needs, count) in lines.iter().flatten() {
            let lengths = std::iter::repeat_n(needs.cut, *count as usize);
            match cuts.iter_mut().find(|(pipe, _)| *pipe == needs.pipe) {
                Some((_, cuts)) => cuts.extend(lengths),
                None => cuts.push((needs.pipe, lengths.collect())),
            }
            stems.add_stoppers(needs, *count);
            stems.silicone += needs.silicone * f64::from(*count);
        }
        stems.pipes = cuts.into_iter().map(|(pipe, cuts)| PipeNeed { pipe, bought: sawn(cuts) }).collect();
        stems.tubes = (stems.silicone / TUBE).ceil() as u32;
        Self { lines, ..stems }
    }

    fn add_stoppers(&mut self, needs: &StemNeeds, count: u32) {
        let StemNeeds { stopper: number, holed, .. } = *needs;
        let same = |other: &&mut StopperNeed| other.number == number && other.holed == holed;
        match self.stoppers.iter_mut().find(same) {
            Some(stoppers) => stoppers.count += count,
            None => self.stoppers.push(StopperNeed { number, holed, count }),
        }
    }
}

/// Lengths of pipe cut out of those that are sold: the longest first, each from the first that has room.
fn sawn(mut cuts: Vec<Mm>) -> Vec<Vec<Mm>> {
    cuts.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut bought: Vec<(f64, Vec<Mm>)> = Vec::new();
    for cut in cuts {
        match bought.iter_mut().find(|(left, _)| *left >= cut.0) {
            Some((left, cuts)) => {
                *left -= cut.0 + KERF;
                cuts.push(cut);
            }
            None => bought.push((SOLD_IN.0 - cut.0 - KERF, vec![cut])),
        }
    }
    bought.into_iter().map(|(_, cuts)| cuts).collect()
}
