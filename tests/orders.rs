//! The order against what is known: packings against the tables, and laws that no order breaks.

#[path = "orders/cuts.rs"]
mod cuts;
#[path = "orders/packing.rs"]
mod packing;
