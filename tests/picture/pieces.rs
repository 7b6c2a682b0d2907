//! Pieces with known colors, and what a pixel of a picture must be.

use dappledome::base::disc::Disc;
use dappledome::base::grid::Grid;
use dappledome::base::scalar::pow;
use dappledome::base::units::Mm;
use dappledome::color::srgb::Linear;
use dappledome::fuse::relief::Relief;
use dappledome::fuse::settle::FusedDisc;
use dappledome::fuse::tack::Stands;
use dappledome::layup::accents::Accent;
use dappledome::optics::colors::ColorField;
use dappledome::picture::Pixmap;
use dappledome::picture::lump::Lump;
use dappledome::recipe::WhichAccent;

/// A disc of 160 mm whose color at (x, y) mm is told.
pub fn field(color: impl Fn(f32, f32) -> Linear) -> ColorField {
    let grid = Grid::new(Disc::new(Mm(160.0)), 160);
    let mut field = ColorField::black(grid);
    grid.each(|i, column, row| {
        let [r, g, b] = color(grid.x(column), grid.y(row));
        field.cells[i] = [r, g, b, 0.0];
    });
    field
}

/// The same all over.
pub fn plain(color: Linear) -> ColorField {
    field(|_, _| color)
}

/// An accent of 8 mm, sunk to a button.
pub fn lump(x: f32, y: f32, shown: Linear, through: Linear, straight: f32) -> Lump {
    let accent = Accent { x, y, size: 8.0, glass: 0, which: WhichAccent::Set(0), by_hand: false };
    let stands = Stands { radius: 4.24, height: 2.56 };
    Lump { accent, stands, shown, through, straight }
}

/// Linear light of a pixel (IEC 61966-2-1).
pub fn light(picture: &Pixmap, x: u32, y: u32) -> [f64; 3] {
    picture.pixel(x, y).map(|code| {
        let shown = f64::from(code) / 255.0;
        if shown <= 0.040_45 { shown / 12.92 } else { pow((shown + 0.055) / 1.055, 2.4) }
    })
}

/// Fails if a pixel is not this light, to the step of its code.
#[track_caller]
pub fn same(what: &str, got: [f64; 3], want: [f64; 3]) {
    for k in 0..3 {
        // A code is up to a hundredth of the light wide, and never less than 0.0003.
        let tolerance = 0.0006 + 0.008 * want[k];
        assert!((got[k] - want[k]).abs() <= tolerance, "{what}: {got:?}, not {want:?}");
    }
}

/// The relief of a disc that nothing lies on.
pub fn level() -> Relief {
    wedge(0.0)
}

/// The relief of a disc whose face rises to the right by so many mm per mm.
pub fn wedge(rise: f32) -> Relief {
    let grid = Grid::new(Disc::new(Mm(160.0)), 64);
    let mut glass = vec![0.0; grid.len()];
    grid.each(|i, column, _| glass[i] = rise * (grid.x(column) + 80.0));
    Relief::new(&FusedDisc { grid, coats: vec![glass], mixture: Vec::new() })
}
