//! Owns lengths of time in seconds.

/// A minute, s (ISO 80000-3).
pub const MINUTE_S: f64 = 60.0;

/// A quarter of an hour, s: the step in which covers are told.
pub const QUARTER_S: f64 = 15.0 * MINUTE_S;

/// An hour, s.
pub const HOUR_S: f64 = 60.0 * MINUTE_S;

/// A day, s.
pub const DAY_S: f64 = 24.0 * HOUR_S;
