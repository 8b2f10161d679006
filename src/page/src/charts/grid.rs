//! Owns the tiles of the floor plan: the same grid the engine cuts, so that each cell is drawn where it lies.

use hearthload::report::{CellShape, FloorMap};

use super::kitchen::Kitchen;

/// The grid of tiles, symmetric about the floor's middle, with the cell that owns each.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    half_m: (f64, f64),
    /// Width and depth of a tile, m.
    pub tile_m: (f64, f64),
    columns: usize,
    rows: usize,
    cells: Vec<Option<usize>>,
}

impl Grid {
    /// The grid of a kitchen's floor.
    #[must_use]
    pub fn of(kitchen: &Kitchen, map: &FloorMap) -> Self {
        let half_m = kitchen.half_m();
        // As many nearly square tiles as the engine lays: the nearest whole number, at least two.
        let count = |half: f64| (2.0 * half / map.cell_m.max(1e-3)).round().max(2.0) as usize;
        let (columns, rows) = (count(half_m.0), count(half_m.1));
        let tile_m = (2.0 * half_m.0 / columns as f64, 2.0 * half_m.1 / rows as f64);
        let mut grid = Self { half_m, tile_m, columns, rows, cells: vec![None; columns * rows] };
        for (index, cell) in map.cells.iter().enumerate() {
            if let Some(slot) = grid.slot(cell.x_m, cell.y_m) {
                grid.cells[slot] = Some(index);
            }
        }
        grid
    }

    /// Column from the left and row from the doorway of a place.
    #[must_use]
    pub fn place(&self, x_m: f64, y_m: f64) -> (i64, i64) {
        (((x_m + self.half_m.0) / self.tile_m.0).floor() as i64, ((y_m + self.half_m.1) / self.tile_m.1).floor() as i64)
    }

    fn slot(&self, x_m: f64, y_m: f64) -> Option<usize> {
        let (column, row) = self.place(x_m, y_m);
        let inside = column >= 0 && row >= 0 && (column as usize) < self.columns && (row as usize) < self.rows;
        inside.then(|| row as usize * self.columns + column as usize)
    }

    /// The cell whose tile a place lies in.
    #[must_use]
    pub fn cell_at(&self, x_m: f64, y_m: f64) -> Option<usize> {
        self.cells[self.slot(x_m, y_m)?]
    }

    /// The middle of a cell's tile: a cell cut by the wall has its own middle elsewhere.
    #[must_use]
    pub fn middle(&self, cell: &CellShape) -> (f64, f64) {
        let (column, row) = self.place(cell.x_m, cell.y_m);
        let at = |step: i64, size: f64, half: f64| (step as f64 + 0.5) * size - half;
        (at(column, self.tile_m.0, self.half_m.0), at(row, self.tile_m.1, self.half_m.1))
    }

    /// Whether a cell has its whole tile.
    #[must_use]
    pub fn whole(&self, cell: &CellShape) -> bool {
        (cell.area_m2 / (self.tile_m.0 * self.tile_m.1) - 1.0).abs() < 0.02
    }

    /// Distances from the middle at which joints run, m: along every tile, or every second or more where tiles are small.
    #[must_use]
    pub fn joints(&self, every_m: f64) -> (Vec<f64>, Vec<f64>) {
        let lines = |size: f64, half: f64, count: usize| {
            let each = (every_m / size).round().max(1.0) as usize;
            (each..count).step_by(each).map(|step| step as f64 * size - half).collect()
        };
        (lines(self.tile_m.0, self.half_m.0, self.columns), lines(self.tile_m.1, self.half_m.1, self.rows))
    }
}
