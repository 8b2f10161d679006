//! Owns the reading of the embedded tables: comma separated, quoted where needed, `#` before a line of the header.

/// A table: named columns, rows of text.
#[derive(Clone, Debug)]
pub struct Table {
    columns: Vec<String>,
    rows: Vec<Vec<String>>,
}

/// One row of a table.
#[derive(Clone, Copy, Debug)]
pub struct Row<'a> {
    columns: &'a [String],
    cells: &'a [String],
}

impl Table {
    /// Reads a table. Lines that begin with `#` are its header; the first other line names the columns.
    #[must_use]
    pub fn read(text: &str) -> Self {
        let mut lines = text.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty()).map(cells);
        let columns = lines.next().unwrap_or_default();
        Self { columns, rows: lines.collect() }
    }

    /// Its rows in order.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|cells| Row { columns: &self.columns, cells })
    }

    /// The rows whose column reads so.
    pub fn rows_where<'a>(&'a self, column: &'a str, reads: &'a str) -> impl Iterator<Item = Row<'a>> {
        self.rows().filter(move |row| row.text(column) == reads)
    }
}

impl<'a> Row<'a> {
    /// The cell in a column; empty where there is none.
    #[must_use]
    pub fn text(&self, column: &str) -> &'a str {
        let at = self.columns.iter().position(|name| name == column);
        at.and_then(|at| self.cells.get(at)).map_or("", String::as_str)
    }

    /// The number in a column; NaN, which no check survives, where there is none.
    #[must_use]
    pub fn number(&self, column: &str) -> f64 {
        self.text(column).trim().parse().unwrap_or(f64::NAN)
    }

    /// The number after `name=` in a column of parameters such as `Ti=400;q=-20000;t=10 s`.
    #[must_use]
    pub fn parameter(&self, column: &str, name: &str) -> f64 {
        let text = self.text(column);
        let found = text.split(';').filter_map(|part| part.trim().split_once('=')).find(|(key, _)| {
            let key = key.trim();
            key == name || key.rsplit(' ').next() == Some(name)
        });
        let Some((_, value)) = found else { return f64::NAN };
        value.split_whitespace().next().and_then(|number| number.parse().ok()).unwrap_or(f64::NAN)
    }
}

/// Splits one line at its commas, but not within quotes; `""` within quotes is one quote.
fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    let mut characters = line.chars().peekable();
    while let Some(character) = characters.next() {
        match character {
            '"' if quoted && characters.peek() == Some(&'"') => {
                characters.next();
                push(&mut cells, '"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            other => push(&mut cells, other),
        }
    }
    cells
}

/// Adds a character to the last cell.
fn push(cells: &mut [String], character: char) {
    if let Some(last) = cells.last_mut() {
        last.push(character);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_quotes_comments_and_parameters() {
        let table = Table::read("# head\nname,q,parameters\n\"a, \"\"b\"\"\",2.5,hearth;Ti=400;q=-20000;t=10 s\n");
        let row = table.rows().next().unwrap();
        assert_eq!(row.text("name"), "a, \"b\"");
        assert!((row.number("q") - 2.5).abs() < 1e-15);
        assert!((row.parameter("parameters", "q") + 20_000.0).abs() < 1e-9);
        assert!((row.parameter("parameters", "t") - 10.0).abs() < 1e-12);
        assert!(row.number("missing").is_nan());
    }
}
