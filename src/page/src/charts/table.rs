//! Owns the table that stands for a picture: the same numbers for those who do not see it, and as CSV.

use crate::words::translate::tr;
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

    /// The table with its words in the reader's language.
    #[must_use]
    pub fn said(self) -> Self {
        let say = |row: Vec<String>| row.iter().map(|cell| tr(cell)).collect();
        Self { head: say(self.head), rows: self.rows.into_iter().map(say).collect() }
    }

    /// The table as CSV (RFC 4180). A cell that a spreadsheet would take for a formula gets an apostrophe in front. Where numbers
    /// have a decimal comma the cells are told apart by semicolons, as spreadsheets there expect it.
    #[must_use]
    pub fn csv(&self) -> String {
        let all = || std::iter::once(&self.head).chain(&self.rows);
        let comma = all().flatten().any(|cell| cell.contains(',') && is_number(cell));
        let line = |row: &Vec<String>| {
            let cells = row.iter().map(|cell| csv_cell(cell));
            if comma { cells.map(|cell| quoted(&cell)).collect::<Vec<_>>().join(";") + "\r\n" } else { record(cells) }
        };
        all().map(line).collect()
    }
}

/// A cell between semicolons.
fn quoted(cell: &str) -> String {
    if cell.contains([';', '"', '\n']) { format!("\"{}\"", cell.replace('"', "\"\"")) } else { cell.to_owned() }
}

fn is_number(cell: &str) -> bool {
    decimal::read(&cell.replace('\u{2212}', "-").replace(',', ".")).is_some()
}

fn csv_cell(cell: &str) -> String {
    let plain = cell.replace('\u{a0}', " ").replace('\u{2212}', "-");
    if !is_number(&plain) && plain.starts_with(['=', '+', '-', '@', '\t']) { format!("'{plain}") } else { plain }
}
