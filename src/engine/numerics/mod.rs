//! Owns the numerical methods, each in a file that names its method.
