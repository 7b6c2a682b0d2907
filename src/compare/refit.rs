//! A glass that fits what came out: the piece itself is the test tile.

use super::row::Row;
use super::says::{asked, lies_free};
use crate::base::units::Mm;
use crate::glass::kind::{Glass, Source};
use crate::glass::tile::{Over, Sifted, Tile};
use crate::optics::test_tile::Ground;
use crate::recipe::plan::Plan;
use crate::tiles::fit::on_ground;
use crate::tiles::tile::Bases;

/// The glass of the coat that lies topmost in a row, as it came out, under a new id and name. What the forecast is off from the coat's own
/// tile is taken to stay. None if the row is not seen, lies on what it does not mostly lie on, or is a blend of glasses.
pub fn refit(plan: &Plan, row: &Row, (id, name): (String, String)) -> Option<Glass> {
    let (coat, fired) = (*row.coats.last().filter(|_| lies_free(plan, row))?, row.fired?);
    let blend = &plan.coat(coat)?.blend;
    let [(old, _)] = &blend.shares[..] else { return None };
    let depth = asked(plan, coat)?;
    let moved = [0, 1, 2].map(|k| fired.color[k] - row.foretold[k]);
    let ground = Ground::of_coat(plan, coat).seen();
    let thickness = f64::from(blend.packing) * depth;
    let (material, on_white) =
        on_ground((ground, Bases::default().under(Over::White)), thickness, &blend.material, moved);
    let tile = Tile { sifted: Sifted::Loose(Mm(depth)), over: Over::White, color: on_white, spread: None };
    Some(Glass { id, name, material, milkiness: 0.0, source: Source::Tiles(vec![tile]), ..old.clone() })
}
