//! Owns the units at the edges and the only conversions between them.

pub mod decimal;
pub mod time;
pub mod trade;
pub mod typed;

/// Standard gravity, m/s2 (3rd CGPM 1901; ISO 80000-3).
pub const GRAVITY_M_S2: f64 = 9.806_65;

/// Stefan-Boltzmann constant, W/(m2 K4) (CODATA 2018).
pub const STEFAN_BOLTZMANN_W_M2_K4: f64 = 5.670_374_419e-8;

/// 0 degC, K (ISO 80000-5).
pub const ZERO_C_K: f64 = 273.15;
