//! Owns the table that stands for a picture: the same numbers for those who do not see it, and as CSV.

use hearthload::{report::csv::record, units::decimal};

/// A table of text cells; the first column names the row.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table {
    /// Column heads, with units.
    pub head: Vec<String>,
    /// Rows, each as long as the head.
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// A table with heads and no rows yet.
    #[must_use]
    pub fn with_head(head: &[&str]) -> Self {
        Self { head: head.iter().map(|&cell| cell.to_owned()).collect(), rows: Vec::new() }
    }

    /// Adds a row.
    pub fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        self.rows.push(cells.into_iter().collect());
    }

    /// The table as CSV (RFC 4180). A cell that a spreadsheet would take for a formula gets an apostrophe in front.
    #[must_use]
    pub fn csv(&self) -> String {
        let mut text = String::new();
        for row in std::iter::once(&self.head).chain(&self.rows) {
            text.push_str(&record(row.iter().map(|cell| csv_cell(cell))));
        }
        text
    }
}

fn csv_cell(cell: &str) -> String {
    let plain = cell.replace('\u{a0}', " ").replace('\u{2212}', "-");
    let number = decimal::read(&plain.replace(',', ".")).is_some();
    if !number && plain.starts_with(['=', '+', '-', '@', '\t']) { format!("'{plain}") } else { plain }
}
