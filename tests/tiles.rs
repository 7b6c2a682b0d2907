//! What sixteen bands see of a spectrum. From fired tiles to a glass and back, how sure that is, and colors found, against answers that are known.

#[path = "tiles/bands.rs"]
mod bands;
#[path = "tiles/fitted.rs"]
mod fitted;
#[path = "tiles/found.rs"]
mod found;
#[path = "../examples/how_sure/glasses.rs"]
mod glasses;
#[path = "../examples/how_sure/study.rs"]
mod study;
#[path = "tiles/sure.rs"]
mod sure;
