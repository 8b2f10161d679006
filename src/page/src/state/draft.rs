//! Owns the way into a draft: reading and changing JSON at a path such as `menu[0].start_c`, losing nothing that stands beside it.

use serde_json::{Map, Value};

/// One step of a path.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Step<'a> {
    Key(&'a str),
    At(usize),
}

fn steps(path: &str) -> Vec<Step<'_>> {
    let mut steps = Vec::new();
    for part in path.split('.') {
        let mut pieces = part.split('[');
        if let Some(key) = pieces.next().filter(|key| !key.is_empty()) {
            steps.push(Step::Key(key));
        }
        for index in pieces {
            // A path that is not one leads nowhere: usize::MAX is beyond every list.
            steps.push(Step::At(index.trim_end_matches(']').parse().unwrap_or(usize::MAX)));
        }
    }
    steps
}

/// What stands at a path.
#[must_use]
pub fn get<'a>(doc: &'a Value, path: &str) -> Option<&'a Value> {
    steps(path).into_iter().try_fold(doc, |here, step| match step {
        Step::Key(key) => here.get(key),
        Step::At(index) => here.get(index),
    })
}

/// The list at a path, empty where there is none.
#[must_use]
pub fn list<'a>(doc: &'a Value, path: &str) -> &'a [Value] {
    get(doc, path).and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

/// The text at a path, empty where there is none.
#[must_use]
pub fn text<'a>(doc: &'a Value, path: &str) -> &'a str {
    get(doc, path).and_then(Value::as_str).unwrap_or_default()
}

/// Goes to the place of a path, laying objects and lists where the way is missing.
fn reach<'a>(doc: &'a mut Value, path: &str) -> Option<&'a mut Value> {
    let mut here = doc;
    for step in steps(path) {
        here = match step {
            Step::Key(key) => {
                if !here.is_object() {
                    *here = Value::Object(Map::new());
                }
                here.as_object_mut()?.entry(key).or_insert(Value::Null)
            }
            Step::At(index) => {
                if !here.is_array() {
                    *here = Value::Array(Vec::new());
                }
                let list = here.as_array_mut()?;
                if index == list.len() {
                    list.push(Value::Null);
                }
                list.get_mut(index)?
            }
        };
    }
    Some(here)
}

/// Puts a value at a path.
pub fn set(doc: &mut Value, path: &str, value: Value) {
    if let Some(place) = reach(doc, path) {
        *place = value;
    }
}

/// Takes away what stands at a path. Says what it was.
pub fn take(doc: &mut Value, path: &str) -> Option<Value> {
    let mut steps = steps(path);
    let last = steps.pop()?;
    let here = steps.into_iter().try_fold(doc, |here, step| match step {
        Step::Key(key) => here.get_mut(key),
        Step::At(index) => here.get_mut(index),
    })?;
    match last {
        Step::Key(key) => here.as_object_mut()?.remove(key),
        Step::At(index) => {
            let list = here.as_array_mut()?;
            (index < list.len()).then(|| list.remove(index))
        }
    }
}

/// Puts a value into the list at a path, before place `at` or at the end.
pub fn insert(doc: &mut Value, path: &str, at: usize, value: Value) {
    let Some(place) = reach(doc, path) else { return };
    if !place.is_array() {
        *place = Value::Array(Vec::new());
    }
    if let Some(list) = place.as_array_mut() {
        list.insert(at.min(list.len()), value);
    }
}

/// Moves an entry of the list at a path from one place to another.
pub fn shift(doc: &mut Value, path: &str, from: usize, to: usize) {
    let Some(list) = reach(doc, path).and_then(Value::as_array_mut) else {
        return;
    };
    if from < list.len() && to < list.len() {
        let moved = list.remove(from);
        list.insert(to, moved);
    }
}
