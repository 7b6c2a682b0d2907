//! Why something is not kept.

/// Why something is not kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StorageFault {
    /// The browser gives no more room.
    Full,
    /// The disk is full.
    Disk,
    /// The database does not answer, or was given up: as when the disk is full, or a file of it damaged.
    Broken,
    /// There is no database, or no leave to use it.
    Forbidden,
    /// A newer program has already changed it.
    Newer,
    /// Another tab with an older program must be closed first.
    Blocked,
}

impl StorageFault {
    /// Whether a write may have been lost half way, so that nothing counts as kept until it was read back after a fresh
    /// opening.
    pub fn leaves_doubt(self) -> bool {
        matches!(self, Self::Full | Self::Disk | Self::Broken)
    }
}
