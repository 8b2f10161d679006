//! Owns the bibliography: every key a datum may cite.
