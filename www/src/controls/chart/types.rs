//! What a chart is made of, in its own numbers.

/// Everything a chart shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chart {
    /// From left to right.
    pub x: Axis,
    /// From below to above.
    pub y: Axis,
    /// Dashed lines across, with their names.
    pub levels: Vec<Level>,
    /// Lines, the later ones above.
    pub lines: Vec<Line>,
    /// Points that were measured.
    pub dots: Vec<(f64, f64)>,
    /// Words beside places, the most important first: one for which there is no room is left out.
    pub labels: Vec<Label>,
}

/// An axis.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Axis {
    /// What its lower end stands for.
    pub from: f64,
    /// What its upper end stands for.
    pub to: f64,
    /// Its graduations; without any it is not drawn.
    pub ticks: Vec<Tick>,
}

/// A graduation.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Where.
    pub at: f64,
    /// What is written there.
    pub label: String,
}

/// A dashed line across the chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// Where on the upright axis.
    pub at: f64,
    /// Its name, at its right end.
    pub name: String,
    /// Whether the name stands below it.
    pub below: bool,
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// As the chart's main line.
    Plain,
    /// What is pointed at.
    Strong,
    /// An area with an outline.
    Filled,
}

/// A line.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Its points.
    pub points: Vec<(f64, f64)>,
    /// How it is drawn.
    pub weight: Weight,
}

/// On which side of a place a word stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Above it.
    Above,
    /// Below it.
    Below,
    /// To its left.
    Left,
    /// To its right.
    Right,
}

/// A word beside a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The place.
    pub at: (f64, f64),
    /// On which side.
    pub side: Side,
    /// The word.
    pub text: String,
    /// Whether it stands in weight.
    pub strong: bool,
}

/// A chart as a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// The heads of its columns.
    pub heads: Vec<String>,
    /// Its rows.
    pub rows: Vec<Vec<String>>,
}
