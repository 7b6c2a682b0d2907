//! The paper of an order in words, beyond what stands on it.

/// The area.
pub const ORDERS_PAPER: &str = "Paper for this order";
/// The kinds of sheets, to those who do not see them.
pub const WHICH_SHEETS: &str = "Which sheets";
/// Nothing is laid out yet.
pub const LAYING_OUT: &str = "Laying it out …";
/// No coat falls in patches.
pub const NO_SIFT_MAP: &str =
    "None of its coats falls in patches, so there is no outline to sift along. Sift these coats all over.";
