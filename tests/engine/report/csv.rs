//! Tables for a spreadsheet: read back they are what went in, and no text becomes a formula.

use crate::fixture::sagging;
use hearthload::report::csv::carry;

fn table(name: &str, of: &hearthload::report::CarryReport) -> String {
    carry(of).into_iter().find(|table| table.name == name).map(|table| table.text).unwrap()
}

#[test]
fn numbers_are_not_rounded_and_missing_ones_are_empty() {
    let dishes = table("dishes", &sagging());
    assert!(dishes.starts_with("dish,heat_kj,from_hearth_kj,"), "{dishes}");
    assert!(
        dishes.contains("Leek round,135.2,71.3,63.9,57,0.53,200,250,310.4,12.2,,17,0.02,310,309,0.71,8\r\n"),
        "{dishes}"
    );
}

#[test]
fn every_table_has_as_many_cells_in_each_row_as_headings() {
    for table in carry(&sagging()) {
        let mut rows = table.text.split("\r\n").filter(|row| !row.is_empty());
        let headings = rows.next().unwrap().split(',').count();
        if matches!(table.name, "floor" | "wood" | "ledger") {
            for row in rows {
                assert_eq!(row.split(',').count(), headings, "{}: {row}", table.name);
            }
        }
    }
}

#[test]
fn text_never_becomes_a_formula_and_quotes_survive() {
    let mut report = sagging();
    report.dishes[0].name = "=HYPERLINK(\"http://x\",\"y\")".to_owned();
    report.dishes[1].name = "-2+3".to_owned();
    report.ledger_mj.stored = -3.5;
    let dishes = table("dishes", &report);
    assert!(dishes.contains("\"'=HYPERLINK(\"\"http://x\"\",\"\"y\"\")\""), "{dishes}");
    assert!(dishes.contains("\r\n'-2+3,"), "{dishes}");
    assert!(table("assumed", &report).contains("'=common practice"));
    assert!(table("ledger", &report).contains("stored,-3.5\r\n"), "a negative number is a number");
}
