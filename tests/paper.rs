//! Paper: what is on it is on it, measured in the PDF that comes out; nothing leaves its page or lies on anything else.

#[path = "paper/laws.rs"]
mod laws;
#[path = "paper/orders.rs"]
mod orders;
#[path = "paper/read_back.rs"]
mod read_back;
#[path = "paper/said.rs"]
mod said;
