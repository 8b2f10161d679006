//! Owns the JSON Schema of a scenario (draft 2020-12), made from the field table.
//!
//! It holds all that single rows tell; the rules between fields are beyond it, so a draft it takes may still have problems.

use super::fields::{self, Fallback, Field, Kind};
use super::keys;
use serde_json::{Map, Value, json};

/// Clock times "00:00" to "47:59".
const CLOCK_PATTERN: &str = "^([0-3]?[0-9]|4[0-7]):[0-5][0-9]$";

/// The schema.
#[must_use]
pub fn schema() -> Value {
    let mut schema = object("");
    let head = [
        ("$schema", json!("https://json-schema.org/draft/2020-12/schema")),
        ("title", json!("hearthload scenario")),
        ("description", json!("An oven, its wood, a menu and an evening. Every unit stands in the field's name.")),
    ];
    if let Value::Object(map) = &mut schema {
        map.extend(head.map(|(key, value)| (key.to_owned(), value)));
    }
    schema
}

/// An object's schema from the rows that stand in it.
fn object(pattern: &str) -> Value {
    let mut properties = Map::new();
    let mut required = Vec::new();
    for row in fields::children(pattern) {
        properties.insert(row.key_name().to_owned(), property(row));
        // A group is asked for only where something in it is.
        if needed(row) {
            required.push(row.key_name());
        }
    }
    json!({ "type": "object", "properties": properties, "required": required, "additionalProperties": false })
}

/// Whether a draft is wrong without it.
fn needed(row: &Field) -> bool {
    match (row.fallback, row.kind) {
        (Fallback::Required, Kind::Group) => fields::children(row.path).any(needed),
        (Fallback::Required, _) => true,
        _ => false,
    }
}

/// One row's schema; null stands for "not given" wherever a draft may leave it out.
fn property(row: &Field) -> Value {
    let mut schema = match row.kind {
        Kind::Group => object(row.path),
        Kind::List { least, most } => {
            let item = fields::field(&format!("{}[]", row.path)).map_or(Value::Bool(true), property);
            json!({ "type": "array", "items": item, "minItems": least, "maxItems": most })
        }
        Kind::Number { min, max, whole, .. } => {
            json!({ "type": if whole { "integer" } else { "number" }, "minimum": min, "maximum": max })
        }
        Kind::Text { most } => json!({ "type": "string", "minLength": 1, "maxLength": most }),
        Kind::Clock => json!({ "type": "string", "pattern": CLOCK_PATTERN }),
        Kind::Choice(words) => json!({ "type": "string", "enum": words }),
        Kind::Key(table) => json!({ "type": "string", "enum": keys::all(table) }),
    };
    let Value::Object(map) = &mut schema else { return schema };
    map.insert("title".to_owned(), json!(row.label));
    map.insert("description".to_owned(), json!(described(row)));
    if let Fallback::Fixed(typed) = row.fallback {
        map.insert("default".to_owned(), serde_json::from_str(typed).unwrap_or(Value::Null));
    }
    if !needed(row) && !row.path.ends_with("[]") {
        allow_null(map);
    }
    schema
}

fn allow_null(map: &mut Map<String, Value>) {
    if let Some(kind) = map.remove("type") {
        map.insert("type".to_owned(), json!([kind, "null"]));
    }
    if let Some(Value::Array(words)) = map.get_mut("enum") {
        words.push(Value::Null);
    }
}

fn described(row: &Field) -> String {
    let unit = if row.unit().is_empty() { String::new() } else { format!(" Unit: {}.", row.unit()) };
    let default = match row.fallback {
        Fallback::Fixed(typed) => format!(" If left out: {typed} ({}).", row.source),
        Fallback::Made { words, .. } => format!(" If left out: {words} ({}).", row.source),
        _ => String::new(),
    };
    format!("{}{unit}{default}", row.note)
}
