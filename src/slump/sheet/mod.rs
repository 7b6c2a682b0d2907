//! The sheet: glass hot enough to flow, as a thin viscous shell of revolution that resists stretching and bending and sinks by its
//! own weight.
//!
//! Lengths are in mm. Time is the reduced time tau = rho g a / eta integrated over the firing, with a the radius of the middle of the
//! disc: measured in it, density, gravity and viscosity are all gone, viscosity is 1, and the weight of a volume is the volume over a.
//! So one run serves every firing of the same glass in the same mold, so long as the glass is equally hot all over.
//!
//! The potential whose least value gives the velocities is Rayleigh's, for an incompressible sheet of viscosity eta: of stretching
//! 2 eta h (e_s² + e_s e_t + e_t²) and of bending eta h³/6 (k_s² + k_s k_t + k_t²) on each unit of area (Howell 1996; Ribe 2002:
//! abstracts read).
//!
//! What it is not: checked against a measured slump. It is even all around, so it neither ruffles nor tips; the glass is equally hot
//! throughout; nothing lies on it.

pub mod band;
pub mod contact;
pub mod resistance;
pub mod shape;
pub mod sinking;
