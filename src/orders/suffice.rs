//! An order cut down to what a powder's jars suffice for.

use super::begin::want;
use super::model::Order;
use super::pieces;
use super::worked::Worked;

/// What each part of a coat may be weighed heavier than its share, since scales show tenths, g.
const ROUNDED: f64 = 0.1;

/// The order with as many pieces as the jars of a powder suffice for, and how many discs are sifted with it then, spares included. The
/// line with most pieces gives first, and no line gives its last. None where nothing is known to be short, where even the fewest
/// pieces take more than there is, or where work has begun on a piece that would not be made.
pub fn cut_down(order: &Order, worked: &Worked, glass: &str) -> Option<(Order, u32)> {
    let need = worked.weighed.powders.iter().find(|need| need.glass == glass && need.short().0 > 0.0)?;
    let takes: Vec<f64> = (0..order.lines.len()).map(|line| for_one(worked, line, glass)).collect();
    let parts = worked.weighed.coats.iter().flat_map(|coat| &coat.all).filter(|part| part.glass == glass);
    let there = need.on_hand?.0 - ROUNDED * parts.count() as f64;
    let mut fewer = order.clone();
    loop {
        let made = pieces::made(&fewer);
        let needed: f64 = made.iter().zip(&takes).map(|(made, takes)| f64::from(*made) * takes).sum();
        if needed <= there {
            let is_made = |line: usize, piece: u32| made.get(line).is_some_and(|made| piece < *made);
            let kept = order.progress.pieces.iter().all(|done| is_made(done.line, done.piece));
            let sifted =
                made.iter().zip(&takes).filter(|(_, takes)| **takes > 0.0).map(|(made, _)| made).sum();
            return kept.then_some((fewer, sifted));
        }
        let gives = |at: &usize| takes[*at] > 0.0 && fewer.lines[*at].count > 1;
        let line = (0..fewer.lines.len()).filter(gives).max_by_key(|at| fewer.lines[*at].count)?;
        let count = fewer.lines[line].count - 1;
        want(&mut fewer, line, count);
    }
}

/// What one piece of a line takes of a powder, g.
fn for_one(worked: &Worked, line: usize, glass: &str) -> f64 {
    let coats = worked.weighed.coats.iter().filter(|coat| coat.line == line);
    let parts = coats.flat_map(|coat| &coat.all).filter(|part| part.glass == glass);
    let all: f64 = parts.map(|part| part.grams.0).sum();
    all / f64::from(worked.lines.get(line).map_or(1, |line| line.made.max(1)))
}
