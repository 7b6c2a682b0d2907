//! The order against what is known: packings against the tables, worked days and prices, and laws that no order breaks.

#[path = "orders/bad.rs"]
mod bad;
#[path = "orders/cuts.rs"]
mod cuts;
#[path = "orders/days.rs"]
mod days;
#[path = "orders/loads.rs"]
mod loads;
#[path = "orders/packing.rs"]
mod packing;
#[path = "orders/whole.rs"]
mod whole;
