//! The frame around the table.

/// The frame around the table, which itself is the same gray by day in all of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// Light paper.
    Light,
    /// Dark paper.
    Dark,
    /// As the system has it.
    #[default]
    System,
}

impl Theme {
    /// Its name in the style sheet and in what is kept.
    pub fn key(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Dark => "dark",
            Self::System => "system",
        }
    }
}
