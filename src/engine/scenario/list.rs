//! Owns the field list as Markdown, made from the field table for people who write scenarios by hand.

use super::fields::{Fallback, Field, Kind, Table, fields};
use super::keys;
use std::fmt::Write;

/// The whole list: a table for each group, then the names that foods, materials and species go by.
#[must_use]
pub fn field_list_markdown() -> String {
    let mut list = String::new();
    let mut group = None;
    for row in fields().filter(|row| !row.path.ends_with("[]") || row.limits().is_some()) {
        let this = if row.path.contains(['.', '[']) || is_head(row) { row.group_name() } else { "" };
        if group != Some(this) {
            group = Some(this);
            open(&mut list, this);
        }
        // Writing to a string cannot fail.
        let _ = writeln!(list, "{}", line(row));
    }
    let tables = [
        ("Foods", Table::Food),
        ("Layer materials", Table::Layer),
        ("Carrier materials", Table::Carrier),
        ("Species of wood", Table::Species),
    ];
    for (title, table) in tables {
        let names: Vec<String> = keys::all(table).iter().map(|name| format!("`{name}`")).collect();
        let _ = write!(list, "\n### {title}\n\n{}\n", names.join(", "));
    }
    list
}

/// Whether a row opens a group of the form.
fn is_head(row: &Field) -> bool {
    matches!(row.kind, Kind::Group | Kind::List { .. })
}

fn open(list: &mut String, group: &str) {
    let title = if group.is_empty() { "The file" } else { group };
    let _ = write!(
        list,
        "{}### {title}\n\n| field | unit | allowed | if left out | what it is | where the default comes from |\n|---|---|---|---|---|---|\n",
        if list.is_empty() { "" } else { "\n" }
    );
}

fn line(row: &Field) -> String {
    let allowed = match row.kind {
        Kind::Group => "group".to_owned(),
        Kind::List { least, most } => format!("list of {least} to {most}"),
        Kind::Number { min, max, whole, .. } => format!("{}{min} to {max}", if whole { "whole, " } else { "" }),
        Kind::Text { most } => format!("text, at most {most} letters"),
        Kind::Choice(words) => words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", "),
        Kind::Clock => "`00:00` to `47:59`".to_owned(),
        Kind::Key(Table::Food) => "a food, below".to_owned(),
        Kind::Key(Table::Layer) => "a layer material, below".to_owned(),
        Kind::Key(Table::Carrier) => "a carrier material, below".to_owned(),
        Kind::Key(Table::Species) => "a species, below".to_owned(),
    };
    let default = match row.fallback {
        Fallback::Required if matches!(row.kind, Kind::Group) => String::new(),
        Fallback::Required => "**needed**".to_owned(),
        Fallback::Optional => "unknown, or none".to_owned(),
        Fallback::Empty => "none".to_owned(),
        Fallback::Fixed(typed) => format!("`{typed}`"),
        Fallback::Made { words, .. } => words.to_owned(),
    };
    format!("| `{}` | {} | {allowed} | {default} | {} | {} |", row.path, row.unit(), row.note, row.source)
}
