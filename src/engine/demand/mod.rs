//! Owns what one dish needs and how it takes it.
