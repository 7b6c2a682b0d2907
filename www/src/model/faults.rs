//! Why something is not kept.

/// Why something is not kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StorageFault {
    /// There is no room.
    Full,
    /// There is no database, or no leave to use it.
    Forbidden,
    /// A newer program has already changed it.
    Newer,
    /// Another tab with an older program must be closed first.
    Blocked,
}
