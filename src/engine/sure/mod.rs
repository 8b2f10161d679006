//! Owns how sure an answer is: ranges of the unknowns.
