//! Owns the checks against things outside the project, as data.
