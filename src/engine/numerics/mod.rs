//! Owns the numerical methods, each in a file that names its method.

pub mod column;
pub mod eigen;
pub mod field;
pub mod linear;
pub mod modes;
pub mod order;
pub mod root;
