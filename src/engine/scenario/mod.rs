//! Owns what the user says: the draft as typed, the field table that explains it, and the validated scenario.
//!
//! A draft is JSON. [`read`] walks it by the field table, tells ALL problems at once, fills in the defaults and says which it
//! took. Everything after this stage trusts the [`Scenario`] and rejects nothing.
//!
//! ```
//! let draft = r#"{"hearthload": 1, "oven": {"width_cm": 120}, "service": {"start": "18:00", "end": "18:30", "covers": [8, 12]},
//!   "menu": [{"name": "Leek round", "ingredients": [{"food": "pizza_dough", "grams": 250}],
//!   "footprint": {"diameter_cm": 28}, "known_bake": {"minutes": 3.3, "floor_c": 330}}]}"#;
//! let resolved = hearthload::scenario::read(draft).expect("a draft with all that only the kitchen knows");
//! assert_eq!(resolved.scenario.oven.depth_m, 1.2);
//! assert!(resolved.assumed.iter().any(|taken| taken.field == "oven.dome_rise_cm"));
//! ```

mod build;
pub mod clock;
mod draft;
pub mod fields;
mod guess;
pub mod keys;
pub mod letters;
mod list;
mod rules;
mod says;
mod schema;
mod types;
mod values;
mod walk;

pub use fields::{Field, fields};
pub use guess::with_unit;
pub use list::field_list_markdown;
pub(crate) use says::{nearest_name, quoted};
pub use schema::schema;
pub use types::*;
pub use values::Values;

use serde_json::{Map, Value};

/// Largest draft that is read, bytes.
pub const LARGEST_BYTES: usize = 1_000_000;

/// Reads a draft from JSON text.
///
/// # Errors
/// All problems, each with field, what was given, what is allowed, its unit and the whole sentence; a file that is not JSON
/// gives one problem with line and column.
pub fn read(text: &str) -> Result<Resolved, Vec<Problem>> {
    if text.len() > LARGEST_BYTES {
        let given = format!("{} bytes", text.len());
        let says = format!("The file has {given}; a scenario has at most {LARGEST_BYTES}. Is it the right file?");
        return Err(vec![whole(&given, &format!("at most {LARGEST_BYTES} bytes"), says)]);
    }
    // Some editors begin a file with a byte order mark.
    match draft::parse(text.trim_start_matches('\u{feff}')) {
        Ok(draft) if draft.doubles.is_empty() => resolve(&draft.value),
        Ok(draft) => Err(doubled(draft)),
        Err(error) => {
            let place = format!("line {}, column {}", error.line(), error.column());
            let line = text.lines().nth(error.line().saturating_sub(1)).unwrap_or("");
            let says = if error.to_string().contains("number out of range") {
                format!("A number is larger than any computer holds. Look at {place}.")
            } else {
                format!("This is not JSON: {error}. Look at {place}.")
            };
            Err(vec![whole(line.trim(), "JSON", says)])
        }
    }
}

/// Paths of the fields that stand twice in an object of a JSON text: a plain reader keeps one of them and says nothing. None in
/// what is no JSON.
#[must_use]
pub fn doubles(text: &str) -> Vec<String> {
    draft::parse(text.trim_start_matches('\u{feff}')).map(|draft| draft.doubles).unwrap_or_default()
}

/// Problems of a draft in which fields stand twice, with whatever else is wrong.
fn doubled(draft: draft::Draft) -> Vec<Problem> {
    let say = |path: String| {
        let says = format!("\"{path}\" stands twice. Which one is meant? Take one away.");
        Problem { field: path, ..whole("two values", "one value", says) }
    };
    let others = resolve(&draft.value).err().unwrap_or_default();
    draft.doubles.into_iter().map(say).chain(others).collect()
}

/// Checks a draft and completes it.
///
/// # Errors
/// All problems, as [`read`].
pub fn resolve(draft: &Value) -> Result<Resolved, Vec<Problem>> {
    let draft = versioned(draft).map_err(|problem| vec![problem])?;
    let walked = walk::walk(draft);
    if !walked.problems.is_empty() {
        return Err(walked.problems);
    }
    match build::build(&walked.values) {
        Some(scenario) => Ok(Resolved { scenario, assumed: walked.assumed }),
        None => Err(vec![whole("", "", "The draft could not be completed; please report this file.".to_owned())]),
    }
}

/// The draft's object, if it is one of this program's and of a version it knows.
fn versioned(draft: &Value) -> Result<&Map<String, Value>, Problem> {
    let Some(object) = draft.as_object() else {
        return Err(whole(
            &draft.to_string(),
            "{ ... }",
            "A scenario is an object: it begins with a brace.".to_owned(),
        ));
    };
    let found = object.get("hearthload").unwrap_or(&Value::Null);
    let says = match found.as_f64() {
        Some(version) if version > fields::VERSION => format!(
            "This file was written for format {version}; this program reads format {} and older. Open it with a newer one.",
            fields::VERSION
        ),
        Some(_) => return Ok(object),
        None if found.is_null() => {
            "This does not look like a scenario: the field \"hearthload\" is missing. Add \"hearthload\": 1.".to_owned()
        }
        None => return Ok(object),
    };
    let mut problem = whole(&found.to_string(), "1", says);
    "hearthload".clone_into(&mut problem.field);
    Err(problem)
}

fn whole(given: &str, allowed: &str, says: String) -> Problem {
    Problem { field: String::new(), given: quoted(given), allowed: allowed.to_owned(), unit: String::new(), says }
}
