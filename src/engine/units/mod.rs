//! Owns the units at the edges and the only conversions between them.
