//! The glass that fits a set of fired tiles, how near it comes to them, and what speaks against them.

use super::doubt::{self, Doubt};
use super::fired::Fired;
use super::solve;
use super::sureness::{Evidence, Sureness};
use super::tile::{Bases, Over, Powder, Tile, first_fault};
use crate::base::notice::Notice;
use crate::color::difference::{Lab, de2000};
use crate::glass::kind::{Glass, Source};
use crate::glass::material::Material;
use crate::optics::stack::Seen;

/// A glass fitted to tiles.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// The glass as fired.
    pub material: Material,
    /// How far each tile of this glass is from the color that was read, CIEDE2000.
    pub apart: Vec<f64>,
    /// What each tile of this glass would look like.
    pub colors: Vec<Lab>,
    /// Whether the scatter is from a tile over black; else it is what the maker said.
    pub scatter_seen: bool,
    /// What its colors rest on.
    pub sureness: Sureness,
    /// What speaks against the tiles.
    pub doubts: Vec<Doubt>,
}

impl Fitted {
    /// The glass as it goes onto a shelf: a powder of this density (g/cm³), fitted to these tiles. Its packing is none unless the maker
    /// has said it.
    pub fn glass(
        &self,
        id: &str,
        name: &str,
        tiles: Vec<Tile>,
        (density, packing): (f64, Option<f64>),
    ) -> Glass {
        Glass {
            powder: true,
            packing,
            density,
            source: Source::Tiles(tiles),
            ..Glass::new(id, name.trim(), self.material.clone())
        }
    }
}

/// Fits a glass to tiles on these bases.
///
/// # Errors
/// What makes them no tiles, and what to do.
pub fn fit(tiles: &[Tile], bases: &Bases, powder: &Powder) -> Result<Fitted, Notice> {
    if let Some(fault) = first_fault(tiles, bases, powder) {
        return Err(fault);
    }
    let fired: Vec<Fired> = tiles.iter().map(|tile| Fired::new(tile, bases, powder)).collect();
    let material = solve::glass(&fired, powder.milkiness);
    let colors: Vec<Lab> = fired.iter().map(|tile| tile.predicted(&material)).collect();
    let apart: Vec<f64> = colors.iter().zip(&fired).map(|(color, tile)| de2000(*color, tile.color)).collect();
    let evidence = Evidence::of(tiles, powder);
    let doubts = doubt::of(&fired, bases, &evidence, &apart, material.scatters());
    let scatter_seen = fired.iter().any(|tile| tile.over == Over::Black);
    Ok(Fitted { material, apart, colors, scatter_seen, sureness: Sureness::Tiles(evidence), doubts })
}

/// The glass whose color on a ground is that of another glass, so thick in mm, moved by so much in CIELAB, and that scatters as much; and
/// its color on a second ground.
pub fn on_ground(
    (ground, other): (Seen, Seen),
    thickness: f64,
    glass: &Material,
    moved: [f64; 3],
) -> (Material, Lab) {
    let own = Fired::on(ground, thickness, [0.0; 3]).predicted(glass);
    let color = [0, 1, 2].map(|k| own[k] + moved[k]);
    let material = solve::alone(&Fired::on(ground, thickness, color), glass.mean_scatter().into());
    let on_other = Fired::on(other, thickness, color).predicted(&material);
    (material, on_other)
}
