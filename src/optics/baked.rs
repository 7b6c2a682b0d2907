//! A glass baked over thickness.

use super::film::Film;
use super::layer::{Layer, on, slabs};
use super::slab::Slab;
use super::table::{Between, NODES, Table};
use crate::color::spectrum::BANDS;
use crate::glass::material::Material;

/// A glass baked over thickness, with what does not scatter told apart, since it folds faster.
#[derive(Clone, Debug)]
pub struct BakedLayer {
    /// Whether the glass scatters at all.
    pub scatters: bool,
    table: Table<Layer>,
    /// What a pixel loop reads of it if it does not scatter: a third of a layer, so that its neighbors lie close.
    film: Option<Table<Film>>,
}

impl BakedLayer {
    /// Bakes a glass up to `deepest` mm. A layer may be split freely, so an entry is the one before with the odd number of
    /// units more that lies between two squares.
    pub fn new(material: &Material, deepest: f32) -> Self {
        let unit = Table::<Layer>::unit(deepest);
        let (mut step, two) = (slabs(material, unit), slabs(material, 2.0 * unit));
        let mut nodes = vec![[Slab::NONE; BANDS], step];
        while nodes.len() < NODES {
            step = on(&step, &two);
            nodes.push(on(&nodes[nodes.len() - 1], &step));
        }
        let nodes: Vec<Layer> = nodes.iter().map(Layer::from_slabs).collect();
        let film = (!material.scatters()).then(|| Table::new(unit, nodes.iter().map(Film::from).collect()));
        Self { scatters: material.scatters(), table: Table::new(unit, nodes), film }
    }

    /// The same as a film, if the glass does not scatter.
    pub fn film(&self) -> Option<&Table<Film>> {
        self.film.as_ref()
    }

    /// The two entries about a thickness in mm and how far between them it lies.
    #[inline]
    pub fn at(&self, thickness: f32) -> Between<'_, Layer> {
        self.table.at(thickness)
    }
}
