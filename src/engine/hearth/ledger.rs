//! Owns the energy ledger: every joule that came in, and where it went.

/// Joules since the ledger was opened. fire + assist = food + doorway_flow + doorway_radiation + shell + stored + residual.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Ledger {
    /// Chemical heat of what was burnt.
    pub fire_j: f64,
    /// Gas heat input.
    pub assist_j: f64,
    /// Into food and carriers.
    pub food_j: f64,
    /// Out with the smoke, the unburnt and the burner's flue, and steam of wipes.
    pub doorway_flow_j: f64,
    /// Radiated out of the doorway.
    pub doorway_radiation_j: f64,
    /// Through the shell.
    pub shell_j: f64,
    /// Heat in stone, dome and door when the ledger was opened, above the room.
    pub opened_with_j: f64,
    /// Heat in stone, dome and door now, above the room.
    pub holds_j: f64,
}

impl Ledger {
    /// Gained by stone, dome and door.
    #[must_use]
    pub fn stored_j(&self) -> f64 {
        self.holds_j - self.opened_with_j
    }

    /// What does not close.
    #[must_use]
    pub fn residual_j(&self) -> f64 {
        let out = self.food_j + self.doorway_flow_j + self.doorway_radiation_j + self.shell_j + self.stored_j();
        self.fire_j + self.assist_j - out
    }

    /// All that moved, the measure the residual is held against.
    #[must_use]
    pub fn throughput_j(&self) -> f64 {
        self.fire_j
            + self.assist_j
            + self.food_j.abs()
            + self.doorway_flow_j.abs()
            + self.shell_j.abs()
            + self.stored_j().abs()
    }
}
