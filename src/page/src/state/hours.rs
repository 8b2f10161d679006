//! Owns what typing into a field does, and what becomes of the covers when the hours of the service change: each quarter hour keeps
//! its covers by the clock, a new one has none yet, and what falls outside comes back with its hour.

use super::{State, draft};
use crate::words::{fill, words};
use hearthload::{report::words::clock_seconds, units::time::QUARTER_S};
use serde_json::Value;

/// Where the covers stand.
const COVERS: &str = "service.covers";
/// The fields of the hours.
const HOURS: [&str; 2] = ["service.start", "service.end"];
/// No service has more quarter hours than two days.
const MOST_QUARTERS: usize = 192;

/// The covers as they were typed, and when their first quarter hour began, s since midnight.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Typed {
    from_s: f64,
    covers: Vec<Value>,
    /// What the draft was given of them last: where it holds anything else, they were changed since, and that counts.
    given: Vec<Value>,
}

impl State {
    /// Takes in what was typed into a field; covers follow the hours.
    pub(super) fn type_in(&mut self, path: String, value: Option<Value>) {
        let assumed = draft::get(&self.doc, &path).is_none();
        match &value {
            Some(_) if assumed => drop(self.replaced.insert(path.clone())),
            None => drop(self.replaced.remove(&path)),
            Some(_) => {}
        }
        let put = |doc: &mut Value| match value {
            Some(value) => draft::set(doc, &path, value),
            None => drop(draft::take(doc, &path)),
        };
        if !is_hour(&path) {
            self.change(Some(path.clone()), String::new(), put);
            return;
        }
        let mut typed = remembered(self.covers_typed.take(), &self.doc);
        let mut says = None;
        self.change(Some(path.clone()), String::new(), |doc| {
            put(doc);
            says = typed.as_mut().and_then(|typed| fit(doc, typed));
        });
        self.covers_typed = typed;
        self.done = says;
    }
}

/// The hours of a draft, where both can be read and are in order.
fn hours(doc: &Value) -> Option<[f64; 2]> {
    let [start, end] = HOURS.map(|path| clock_seconds(draft::text(doc, path)));
    Some([start?, end?]).filter(|[start, end]| end > start)
}

fn quarters([start, end]: [f64; 2]) -> usize {
    ((end - start) / QUARTER_S).ceil() as usize
}

/// The covers of a draft, where there are as many as its service has quarter hours: then it is plain which belongs to which.
fn matched(doc: &Value) -> Option<Typed> {
    let (hours, covers) = (hours(doc)?, draft::list(doc, COVERS));
    (quarters(hours) == covers.len()).then(|| Typed {
        from_s: hours[0],
        covers: covers.to_vec(),
        given: covers.to_vec(),
    })
}

/// Whether a path is one of the hours.
fn is_hour(path: &str) -> bool {
    HOURS.contains(&path)
}

/// What is remembered while hours are typed: what was before, else what the draft has.
fn remembered(known: Option<Typed>, doc: &Value) -> Option<Typed> {
    known.filter(|typed| typed.given == draft::list(doc, COVERS)).or_else(|| matched(doc))
}

/// Fits the covers to hours that have changed; says in words what that did to them, where anything.
fn fit(doc: &mut Value, typed: &mut Typed) -> Option<String> {
    let hours = hours(doc).filter(|hours| quarters(*hours) <= MOST_QUARTERS)?;
    let ahead = ((hours[0] - typed.from_s) / QUARTER_S).floor() as i64;
    let count = quarters(hours) as i64;
    let at = |quarter: i64| usize::try_from(quarter + ahead).ok().and_then(|place| typed.covers.get(place)).cloned();
    let covers: Vec<Value> = (0..count).map(|quarter| at(quarter).unwrap_or_else(|| Value::from(0))).collect();
    let kept = (0..count).filter(|&quarter| at(quarter).is_some()).count();
    let sum = |covers: &[Value]| covers.iter().filter_map(Value::as_f64).sum::<f64>();
    let lost = sum(&typed.covers) - sum(&covers);
    let added = covers.len() - kept;
    typed.given.clone_from(&covers);
    draft::set(doc, COVERS, Value::from(covers));
    let say = words();
    let new = (added > 0).then(|| fill(say.hours_new, &[&added.to_string()]));
    let out = (lost > 0.0).then(|| fill(say.hours_out, &[&crate::figures::number(lost, 0)]));
    let says: Vec<String> = [new, out].into_iter().flatten().collect();
    (!says.is_empty()).then(|| says.join(" "))
}
