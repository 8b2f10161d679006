//! Owns the column problem: the floor of a 1.4 m oven through ten hours, as conduction alone sees it. Whoever else solves it (see
//! `peers.py`) is handed the same matrix, the same fluxes and the same steps.

use hearthload::numerics::column::{Columns, DEFAULT_FINENESS, Grid, Slab};
use serde_json::{Value, json};

/// Columns: a round floor of 1.4 m in cells of 0.10 m has so many.
pub const COLUMNS: usize = 184;
/// One step, s: what the engine takes while food lies on the floor.
pub const STEP_S: f64 = 4.0;
/// Steps between one set of fluxes and the next: a minute.
pub const STEPS_HELD: usize = 15;
/// Minutes of the whole problem: from light-up to close.
pub const MINUTES: usize = 600;
/// Stages of one step; each solves one tridiagonal system for every column.
pub const STAGES: usize = 2;
/// Every column starts here, K above the room.
const START_K: f64 = 280.0;
/// 6 cm of dense fireclay over 10 cm of calcium silicate, in round numbers.
const SLABS: [Slab; 2] = [
    Slab { thickness_m: 0.06, k_w_m_k: 1.1, rho_c_j_m3_k: 2_150_000.0 },
    Slab { thickness_m: 0.10, k_w_m_k: 0.09, rho_c_j_m3_k: 250_000.0 },
];
/// Film at the back, W/(m2 K).
const FILM_W_M2_K: f64 = 10.0;
/// Area of a cell, m2.
const CELL_M2: f64 = 0.01;

/// Flux into a column's face in a minute, W/m2: food comes and goes, in an order that looks like none.
fn flux_w_m2(column: usize, minute: usize) -> f64 {
    -3000.0 + 250.0 * ((7 * column + 5 * minute) % 32) as f64
}

/// The problem, begun.
#[derive(Clone, Debug)]
pub struct Floor {
    columns: Columns,
    flux_w_m2: Vec<f64>,
    area_m2: Vec<f64>,
    /// Heat that left by the back, J.
    pub left_j: f64,
}

impl Default for Floor {
    fn default() -> Self {
        let grid = Grid::new(&SLABS, FILM_W_M2_K, DEFAULT_FINENESS);
        let profile = vec![START_K; grid.nodes()];
        let columns = Columns::new(grid, COLUMNS, &profile);
        Self { flux_w_m2: vec![0.0; columns.width()], area_m2: vec![CELL_M2; COLUMNS], columns, left_j: 0.0 }
    }
}

impl Floor {
    /// Runs through so many minutes.
    pub fn run(&mut self, minutes: usize) {
        for minute in 0..minutes {
            for (column, flux) in self.flux_w_m2.iter_mut().enumerate() {
                *flux = flux_w_m2(column, minute);
            }
            for _ in 0..STEPS_HELD {
                self.left_j += self.columns.advance(STEP_S, &self.flux_w_m2, None, &self.area_m2);
            }
        }
    }

    /// Node updates in so many minutes: one node of one column in one stage of one step. Columns that are padding do not count.
    #[must_use]
    pub fn node_updates(&self, minutes: usize) -> f64 {
        (minutes * STEPS_HELD * STAGES * self.columns.grid().nodes() * COLUMNS) as f64
    }

    /// Nodes through the floor.
    #[must_use]
    pub fn nodes(&self) -> usize {
        self.columns.grid().nodes()
    }

    /// The face of every column, K above the room.
    #[must_use]
    pub fn faces_k(&self) -> &[f64] {
        self.columns.row_k(0)
    }

    /// All that another solver needs to be handed.
    #[must_use]
    pub fn problem(&self) -> Value {
        let grid = self.columns.grid();
        json!({
            "columns": COLUMNS,
            "capacity_j_m2_k": grid.capacity_j_m2_k,
            "shared_j_m2_k": grid.shared_j_m2_k,
            "conductance_w_m2_k": grid.conductance_w_m2_k,
            "back_film_w_m2_k": grid.back_film_w_m2_k,
            "cell_m2": CELL_M2,
            "start_k": START_K,
            "step_s": STEP_S,
            "steps_held": STEPS_HELD,
            "stages": STAGES,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heat_that_went_in_is_there_or_left_by_the_back() {
        let mut floor = Floor::default();
        let before = floor.columns.stored_j(&floor.area_m2);
        floor.run(32);
        // Over 32 minutes every column has had each of the 32 fluxes once; their mean is 875 W/m2.
        let given = 875.0 * 32.0 * 60.0 * CELL_M2 * COLUMNS as f64;
        let kept = floor.columns.stored_j(&floor.area_m2) - before;
        assert!((given - floor.left_j - kept).abs() < 1e-9 * given, "{given} {kept} {}", floor.left_j);
    }

    #[test]
    fn it_is_cut_as_finely_as_an_oven() {
        assert!(Floor::default().nodes() >= 14);
    }
}
