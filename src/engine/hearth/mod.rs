//! Owns the oven: floor, dome, chamber, fire, burner and ledger.
