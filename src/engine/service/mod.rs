//! Owns the evening: covers become orders, orders take spots.
