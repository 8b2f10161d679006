//! The field table itself: complete, in order, and every numeric field tried at and beyond its limits.

use crate::{DEMOS, least, put};
use hearthload::scenario::{
    self, fields,
    fields::{Fallback, Kind},
};
use serde_json::{Value, json};

#[test]
fn every_row_is_told_in_full_and_hangs_on_a_row_above_it() {
    let mut seen: Vec<&str> = vec![""];
    for row in fields() {
        assert!(seen.contains(&row.parent()), "{} hangs in the air", row.path);
        assert!(!seen.contains(&row.path), "{} stands twice", row.path);
        seen.push(row.path);
        assert!(!row.label.is_empty(), "{}", row.path);
        assert!(row.path.ends_with("[]") || row.note.ends_with('.'), "{} has no note", row.path);
        if let Some([min, max]) = row.limits() {
            assert!(min < max && min.is_finite() && max.is_finite() || row.path == "hearthload", "{}", row.path);
            assert!(row.frame.contains("{}") && row.frame.ends_with('.'), "{} has no sentence", row.path);
        }
        if matches!(row.fallback, Fallback::Fixed(_) | Fallback::Made { .. }) {
            assert!(!row.source.is_empty(), "{} has a default without a source", row.path);
        }
        if matches!(row.kind, Kind::List { .. }) {
            assert!(fields::field(&format!("{}[]", row.path)).is_some(), "{} has no items", row.path);
        }
    }
}

#[test]
fn units_stand_in_the_names() {
    for row in fields() {
        let ending = match row.unit() {
            "cm" => "_cm",
            "degC" => "_c",
            "K" => "_k",
            "g" => "g",
            "kg" => "_kg",
            "kW" => "_kw",
            "g/s" => "_g_s",
            "h" => "_h",
            _ => continue,
        };
        let name = row.key_name();
        assert!(name.ends_with(ending) || name == "grams", "{} is in {}", row.path, row.unit());
    }
}

#[test]
fn fixed_defaults_pass_their_own_rows() {
    for row in fields() {
        let (Fallback::Fixed(typed), Some([min, max])) = (row.fallback, row.limits()) else { continue };
        let value: f64 = typed.parse().unwrap_or_else(|_| panic!("{}", row.path));
        assert!((min..=max).contains(&value), "{}", row.path);
    }
}

/// A draft in which every group and list has something in it.
pub(crate) fn full() -> Value {
    let mut draft: Value = serde_json::from_str(DEMOS[0].1).expect("a demo");
    let assist: Value = serde_json::from_str(DEMOS[2].1).expect("a demo");
    draft["oven"]["assist"] = assist["oven"]["assist"].clone();
    draft["menu"][0]["carrier"] = json!({"material": "cast_iron", "mass_kg": 1});
    draft["service"]["batches"] = json!([{"dish": "Bean pot", "at": "17:00", "pieces": 2}]);
    draft["oven"]["dome_layers"] = json!([{"material": "fireclay_dense", "thickness_cm": 8}]);
    draft["service"]["wipes"] = json!(["17:30"]);
    draft["feeding"]["spread_coals"] = json!([{"at": "16:00", "for_min": 10}]);
    draft
}

#[test]
fn every_number_is_refused_outside_its_limits_and_taken_at_them() {
    for row in fields().filter(|row| row.path != "hearthload") {
        let Some([min, max]) = row.limits() else { continue };
        let pointer = format!("/{}", row.path.replace("[]", "/0").replace('.', "/"));
        let path = row.path.replace("[]", "[0]");
        let says = |value: Value| -> Vec<String> {
            let mut draft = full();
            put(&mut draft, &pointer, value);
            let found = scenario::resolve(&draft).err().unwrap_or_default();
            let row_says = |problem: &scenario::Problem| problem.field == path && problem.says.starts_with("You typed");
            found.into_iter().filter(row_says).map(|problem| problem.says).collect()
        };
        for outside in [min - 1e-6 * (1.0 + min.abs()), max * (1.0 + 1e-6) + 1e-6, -1e308, 1e308] {
            let found = says(json!(outside));
            assert!(found.len() == 1, "{path} at {outside}: {found:?}");
        }
        // At the limits other fields may object, but never the row itself.
        for inside in [min, max] {
            let found = says(json!(inside));
            assert!(!found.iter().any(|says| says.contains(" to ")), "{path}: {found:?}");
        }
    }
}

#[test]
fn every_wrong_sort_is_told_everywhere() {
    for row in fields().filter(|row| row.path != "hearthload") {
        let pointer = format!("/{}", row.path.replace("[]", "/0").replace('.', "/"));
        let path = row.path.replace("[]", "[0]");
        let wrong = if matches!(row.kind, Kind::Group) { json!(7) } else { json!({"a": 1}) };
        let mut draft = full();
        put(&mut draft, &pointer, wrong);
        let found = scenario::resolve(&draft).expect_err(row.path);
        assert!(found.iter().any(|problem| problem.field == path), "{path}: {found:#?}");
    }
    assert!(scenario::resolve(&least()).is_ok());
}
