//! Owns the answer's tables as CSV (RFC 4180), to be opened in a spreadsheet: numbers unrounded, units in the headings.
//!
//! Text that a spreadsheet would take for a formula is preceded by an apostrophe (OWASP, "CSV Injection").

use super::types::{CarryReport, LedgerMj};

/// One table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CsvTable {
    /// Short name, fit for a file: "dishes".
    pub name: &'static str,
    /// The table: a heading row, then its rows, each ended by CR LF.
    pub text: String,
}

/// One cell.
enum Cell {
    Text(String),
    Number(f64),
    Empty,
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<f64> for Cell {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<u32> for Cell {
    fn from(number: u32) -> Self {
        Self::Number(f64::from(number))
    }
}

impl From<Option<f64>> for Cell {
    fn from(number: Option<f64>) -> Self {
        number.map_or(Self::Empty, Self::Number)
    }
}

impl Cell {
    /// As it stands in the file. A number that is not finite is left empty.
    fn shown(self) -> String {
        match self {
            Self::Text(text) => unarmed(text),
            Self::Number(number) if number.is_finite() => number.to_string(),
            Self::Number(_) | Self::Empty => String::new(),
        }
    }
}

/// Keeps a spreadsheet from reading text as a formula.
fn unarmed(text: String) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']) { format!("'{text}") } else { text }
}

/// Every table of an answer; one without rows keeps its headings.
#[must_use]
pub fn carry(report: &CarryReport) -> Vec<CsvTable> {
    vec![
        dishes(report),
        floor(report),
        wood(report),
        limits(report),
        ledger(&report.ledger_mj),
        assumed(report),
        placements(report),
    ]
}

fn dishes(report: &CarryReport) -> CsvTable {
    let headings = [
        "dish",
        "heat_kj",
        "from_hearth_kj",
        "from_chamber_kj",
        "hearth_kj_per_cover",
        "base_share",
        "bake_s_known",
        "bake_s_median",
        "bake_s_worst",
        "ready_again_min_median",
        "ready_again_min_worst",
        "recovery_min_median",
        "never_share",
        "ordered",
        "baked",
        "share_in_band",
        "fit",
    ];
    let rows = report.dishes.iter().map(|dish| {
        vec![
            dish.name.as_str().into(),
            dish.heat_kj.into(),
            dish.from_hearth_kj.into(),
            dish.from_chamber_kj.into(),
            dish.hearth_kj_per_cover.into(),
            dish.base_share.into(),
            dish.bake_s_known.into(),
            dish.bake_s_median.into(),
            dish.bake_s_worst.into(),
            dish.ready_again_min_median.into(),
            dish.ready_again_min_worst.into(),
            dish.recovery_min_median.into(),
            dish.never_share.into(),
            dish.ordered.into(),
            dish.baked.into(),
            dish.share_in_band.into(),
            dish.fit.into(),
        ]
    });
    table("dishes", &headings, rows)
}

fn floor(report: &CarryReport) -> CsvTable {
    let headings = ["time", "mean_c", "lowest_c", "dome_c", "covers", "wood_kg", "gas_kwh"];
    let rows = report.floor.by_quarter_hour.iter().map(|quarter| {
        vec![
            quarter.time.as_str().into(),
            quarter.mean_c.into(),
            quarter.lowest_c.into(),
            quarter.dome_c.into(),
            quarter.covers.into(),
            quarter.wood_kg.into(),
            quarter.gas_kwh.into(),
        ]
    });
    table("floor", &headings, rows)
}

fn wood(report: &CarryReport) -> CsvTable {
    let rows = report
        .wood
        .by_hour
        .iter()
        .map(|hour| vec![hour.time.as_str().into(), hour.burnt_kg.into(), hour.fed_kg.into(), hour.pieces.into()]);
    table("wood", &["time", "burnt_kg", "fed_kg", "pieces"], rows)
}

fn limits(report: &CarryReport) -> CsvTable {
    let rows = report
        .verdict
        .loads
        .iter()
        .map(|load| vec![load.what.key().into(), load.used.into(), load.says.as_str().into()]);
    table("limits", &["what", "used", "says"], rows)
}

fn ledger(ledger: &LedgerMj) -> CsvTable {
    let rows = [
        ("fire", ledger.fire),
        ("assist", ledger.assist),
        ("food", ledger.food),
        ("doorway_flow", ledger.doorway_flow),
        ("doorway_radiation", ledger.doorway_radiation),
        ("shell", ledger.shell),
        ("stored", ledger.stored),
        ("residual", ledger.residual),
    ]
    .into_iter()
    .map(|(name, mj)| vec![name.into(), mj.into()]);
    table("ledger", &["part", "mj"], rows)
}

fn assumed(report: &CarryReport) -> CsvTable {
    let rows = report.assumed.iter().map(|value| {
        vec![
            value.field.as_str().into(),
            value.value.as_str().into(),
            value.unit.as_str().into(),
            value.source.as_str().into(),
        ]
    });
    table("assumed", &["field", "value", "unit", "source"], rows)
}

fn placements(report: &CarryReport) -> CsvTable {
    let headings = ["dish", "x_m", "y_m", "ordered_s", "from_s", "to_s", "at_load_c", "at_lift_c", "in_band"];
    let lying = report.map.as_ref().map_or(&[][..], |map| &map.placements);
    let rows = lying.iter().map(|piece| {
        let name = report.dishes.get(piece.dish).map_or("", |dish| dish.name.as_str());
        vec![
            name.into(),
            piece.x_m.into(),
            piece.y_m.into(),
            piece.ordered_s.into(),
            piece.from_s.into(),
            piece.to_s.into(),
            piece.at_load_c.into(),
            piece.at_lift_c.into(),
            if piece.in_band { "yes" } else { "no" }.into(),
        ]
    });
    table("placements", &headings, rows)
}

/// Writes one table.
fn table(name: &'static str, headings: &[&str], rows: impl Iterator<Item = Vec<Cell>>) -> CsvTable {
    let mut text = record(headings.iter().map(|heading| (*heading).to_owned()));
    for row in rows {
        text.push_str(&record(row.into_iter().map(Cell::shown)));
    }
    CsvTable { name, text }
}

/// One record of RFC 4180 with its line's end.
pub fn record(cells: impl Iterator<Item = String>) -> String {
    cells.map(quoted).collect::<Vec<_>>().join(",") + "\r\n"
}

/// A cell in quotation marks where it holds what would part it.
fn quoted(cell: String) -> String {
    if cell.contains(['"', ',', '\r', '\n']) { format!("\"{}\"", cell.replace('"', "\"\"")) } else { cell }
}
