//! Owns the numerical methods, each in a file that names its method.

pub mod column;
pub mod linear;
pub mod order;
pub mod root;
