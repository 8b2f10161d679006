//! Owns the decisions: light-up, feeding, assist, reach, floors, nights.
