//! Where everything lies on a drawn page, mm.

use super::types::ON_A_PAGE;
use dappledome::paper::sheet::PaperSize;

/// Margin of the page.
pub const MARGIN: f64 = 12.0;
/// From the margin to the pictures: room for an option's words.
pub const WORDS: f64 = 42.0;
/// Between two pictures.
const GAP: f64 = 3.0;
/// From the top to the first row, and from the last one to the margin.
const ROWS: (f64, f64) = (39.0, 9.0);

/// Where everything lies on a page.
#[derive(Clone, Copy, Debug)]
pub struct Layout {
    /// Where the right margin begins.
    pub right: f64,
    /// Where the foot's words stand.
    pub foot: f64,
    /// Where the rows begin.
    pub rows: f64,
    /// Height of a row.
    pub row: f64,
    /// Where the pictures of each column begin.
    pub columns: [f64; 2],
    /// Width and height of a picture.
    pub picture: (f64, f64),
}

impl Layout {
    /// The layout of a page on paper of a size.
    pub fn on(paper: PaperSize) -> Self {
        let (width, height) = paper.mm();
        let (left, right) = (MARGIN + WORDS, width - MARGIN);
        let picture = (right - left - GAP) / 2.0;
        let row = (height - MARGIN - ROWS.0 - ROWS.1) / ON_A_PAGE as f64;
        Self {
            right,
            foot: height - MARGIN - 2.0,
            rows: ROWS.0,
            row,
            columns: [left, left + picture + GAP],
            picture: (picture, row - GAP),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn everything_lies_on_the_paper_and_nothing_on_anything_else() {
        for paper in [PaperSize::A4, PaperSize::Letter] {
            let (layout, (_, height)) = (Layout::on(paper), paper.mm());
            let [first, second] = layout.columns;
            assert!(first > MARGIN && first + layout.picture.0 < second, "{layout:?}");
            assert!((second + layout.picture.0 - layout.right).abs() < 1e-9, "{layout:?}");
            assert!(layout.rows + ON_A_PAGE as f64 * layout.row < layout.foot - 3.5, "{layout:?}");
            assert!(layout.foot < height - MARGIN && layout.picture.1 < layout.row, "{layout:?}");
        }
    }
}
