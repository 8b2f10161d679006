//! Owns the reading of the cook's question: a reading in mid-service, what was fed since, a first firing.

use serde_json::{Value, json};

use crate::plan::from_now::Now;
use crate::report::FireReport;
use crate::scenario::{Problem, Resolved, clock, nearest_name, quoted};
use crate::service::orders::orders;
use crate::units::time::DAY_S;
use crate::units::typed::celsius_of_fahrenheit;

/// A floor is read between these, degC.
const FLOOR_C: [f64; 2] = [20.0, 700.0];

/// A first firing is wished for in so many hours of fire: a day's work to a month's.
const FIRING_H: [f64; 2] = [1.0, 1000.0];

/// A plan is tried on at most so many rough nights.
const ROUGH_NIGHTS_MOST: u64 = 1000;

/// What a request may have beside its question and its scenario.
const FIELDS: [&str; 7] = ["at", "floor_c", "fed", "skipped", "first_firing", "in_hours", "rough_nights"];

/// Request: `{"question": "fire", "scenario": {...}, "at": "19:20", "floor_c": 285, "fed": ["19:05"], "skipped": ["18:50"],
/// "first_firing": true, "in_hours": 6, "rough_nights": 40}`; all but the scenario may be left out.
///
/// # Errors
/// `{"problems": [...]}` where a reading is not right; `{"fault": "..."}` where the computing went wrong.
pub fn asked(request: &Value, resolved: &Resolved) -> Result<String, Value> {
    let report = report(request, resolved)?;
    match &report.fault {
        Some(fault) => Err(json!({ "fault": fault })),
        None => super::as_json(&report),
    }
}

fn report(request: &Value, resolved: &Resolved) -> Result<FireReport, Value> {
    let problems = ill_typed(request);
    if !problems.is_empty() {
        return Err(json!({ "problems": problems }));
    }
    if super::wants(request, "first_firing") {
        let typed = request.get("in_hours").filter(|hours| !hours.is_null());
        let in_hours = read_hours(typed.map(|hours| hours.as_f64().unwrap_or(f64::NAN)));
        return Ok(super::first_firing(resolved, in_hours.map_err(|problem| json!({ "problems": [problem] }))?));
    }
    let text = |name: &str| request.get(name).and_then(Value::as_str);
    let [fed, skipped] = ["fed", "skipped"].map(|name| match request.get(name) {
        Some(Value::Array(times)) => {
            times.iter().map(|t| t.as_str().map_or_else(|| t.to_string(), str::to_owned)).collect()
        }
        Some(Value::String(times)) => times.split(',').map(|t| t.trim().to_owned()).collect(),
        _ => Vec::new(),
    });
    let floor_c = request.get("floor_c").and_then(Value::as_f64);
    let typed = Typed { at: text("at"), floor_c, fed: &fed, skipped: &skipped };
    let now = read_now(resolved, &typed).map_err(|problems| json!({ "problems": problems }))?;
    let nights = request.get("rough_nights").and_then(Value::as_u64).unwrap_or(0).min(ROUGH_NIGHTS_MOST);
    Ok(super::fire_on_rough_nights(resolved, now.as_ref(), nights as u32))
}

/// What is not of its field's kind, and names that are nearly a field's: a plan that passes over in silence what the cook said of now
/// is the wrong plan.
fn ill_typed(request: &Value) -> Vec<Problem> {
    let given = request.as_object().into_iter().flatten().filter(|(_, value)| !value.is_null());
    given.filter_map(|(name, value)| ill_typed_field(name, value)).collect()
}

fn ill_typed_field(name: &str, value: &Value) -> Option<Problem> {
    let is_list = || value.as_array().is_some_and(|times| times.iter().all(Value::is_string));
    let (fits, allowed, unit) = match name {
        // What hours there may be is read, and said, with the others.
        "question" | "scenario" | "in_hours" => return None,
        "at" => (value.is_string(), "a time as text".to_owned(), "HH:MM"),
        "fed" | "skipped" => (value.is_string() || is_list(), "a list of times as text".to_owned(), "HH:MM"),
        "floor_c" => (value.is_number(), "a number".to_owned(), "degC"),
        "first_firing" => (value.is_boolean(), "true or false".to_owned(), ""),
        "rough_nights" => (
            value.as_u64().is_some_and(|n| n <= ROUGH_NIGHTS_MOST),
            format!("a whole number to {ROUGH_NIGHTS_MOST}"),
            "",
        ),
        // Two letters in three are no likeness.
        short if short.len() < 4 && !FIELDS.contains(&short.to_ascii_lowercase().as_str()) => return None,
        other => {
            let (meant, other) = (nearest_name(other, &FIELDS)?.to_owned(), quoted(other));
            let says = format!("There is no field \"{other}\" here. Did you mean \"{meant}\"?");
            return Some(Problem { field: other.clone(), given: other, allowed: meant, unit: String::new(), says });
        }
    };
    let given = quoted(&value.to_string());
    let says = format!("\"{name}\" is {allowed}; {given} was given.");
    (!fits).then(|| Problem { field: name.to_owned(), given, allowed, unit: unit.to_owned(), says })
}

/// In how many hours of fire a first firing is wished for; one that is no number of hours is a problem.
///
/// # Errors
/// What is wrong with it.
pub fn read_hours(in_hours: Option<f64>) -> Result<Option<f64>, Problem> {
    match in_hours {
        Some(hours) if !(FIRING_H[0]..=FIRING_H[1]).contains(&hours) => {
            let allowed = format!("{} to {}", FIRING_H[0], FIRING_H[1]);
            let given = quoted(&hours.to_string());
            let says = format!("The hours a first firing is wished for in are a number, {allowed}; {given} was given.");
            Err(Problem { field: "in_hours".to_owned(), given, allowed, unit: "h".to_owned(), says })
        }
        read => Ok(read),
    }
}

/// What the cook says about now, as typed: a time and a reading, both or neither.
#[derive(Clone, Copy, Debug, Default)]
pub struct Typed<'t> {
    /// When the floor was read.
    pub at: Option<&'t str>,
    /// What it read, degC.
    pub floor_c: Option<f64>,
    /// When pieces were fed.
    pub fed: &'t [String],
    /// When the plan had pieces that were not fed then.
    pub skipped: &'t [String],
}

/// Reads what the cook says about now.
///
/// # Errors
/// All problems with it.
pub fn read_now(resolved: &Resolved, typed: &Typed<'_>) -> Result<Option<Now>, Vec<Problem>> {
    let Typed { at, floor_c, fed, skipped } = *typed;
    if at.is_none() && floor_c.is_none() && fed.is_empty() && skipped.is_empty() {
        return Ok(None);
    }
    let mut problems = Vec::new();
    let day = evening(resolved);
    let mut time = |field: &str, typed: Option<&str>, until: f64| {
        let read = typed.and_then(clock::read).map(|t| tonight(t, day)).filter(|t| (day[0]..=until).contains(t));
        if read.is_none() {
            problems.push(no_time(field, typed, [day[0], until]));
        }
        read
    };
    let read_at = time("at", at, day[1]);
    let mut times = |field: &str, typed: &[String], until: f64| -> Vec<f64> {
        typed.iter().filter_map(|typed| time(field, Some(typed), until)).collect()
    };
    let fed = times("fed", fed, day[1]);
    // What is to come nobody has skipped yet.
    let skipped = times("skipped", skipped, read_at.unwrap_or(day[1]));
    let read_c = floor_c.filter(|c| (FLOOR_C[0]..=FLOOR_C[1]).contains(c));
    if read_c.is_none() {
        let given = floor_c.map_or_else(|| "nothing".to_owned(), |c| c.to_string());
        let allowed = format!("{} to {}", FLOOR_C[0], FLOOR_C[1]);
        let guess = floor_c
            .map(celsius_of_fahrenheit)
            .filter(|c| (FLOOR_C[0]..=FLOOR_C[1]).contains(c))
            .map_or_else(String::new, |c| format!(" Did you mean degF? {given} degF is {} degC.", c.round()));
        let says = format!("The floor's reading at that time is needed, {allowed} degC; {given} was given.{guess}");
        problems.push(Problem { field: "floor_c".to_owned(), given, allowed, unit: "degC".to_owned(), says });
    }
    match (read_c, read_at, problems.is_empty()) {
        (Some(floor_c), Some(at), true) => Ok(Some(Now { at, floor_c, fed, skipped })),
        _ => Err(problems),
    }
}

/// From the floor's first reading to the last order, batch work included.
fn evening(resolved: &Resolved) -> [f64; 2] {
    let scenario = &resolved.scenario;
    let last = orders(scenario).iter().map(|order| order.at_s).fold(scenario.service.end, f64::max);
    [scenario.start.read_at, last]
}

/// After midnight 00:10 is still this evening, whether or not it is typed as 24:10.
fn tonight(read: f64, day: [f64; 2]) -> f64 {
    if read < day[0] && read + DAY_S <= day[1] { read + DAY_S } else { read }
}

/// A time that is none of this evening, and what would do.
fn no_time(field: &str, typed: Option<&str>, day: [f64; 2]) -> Problem {
    let allowed = format!("{} to {}", clock::write(day[0]), clock::write(day[1]));
    let given = typed.unwrap_or("nothing").to_owned();
    let guess = typed.and_then(clock::guess).filter(|guess| *guess != given);
    let guess = guess.map_or_else(String::new, |g| format!(" Is {g} meant?"));
    let would_do = match typed.and_then(clock::read).filter(|_| field != "fed") {
        Some(at) if field == "at" && at < day[0] && day[0] - at <= at + DAY_S - day[1] => {
            " A reading before the day's first one stands in its place: type it as start.floor_c with start.read_at."
        }
        Some(_) if field == "skipped" => " What is to come after the reading is planned anew with it.",
        Some(_) => " After the last order nothing is left to plan: the plan of the evening says how to close.",
        None => "",
    };
    let says = format!("A time of this evening is needed, HH:MM from {allowed}; {given} was given.{guess}{would_do}");
    Problem { field: field.to_owned(), given, allowed, unit: "HH:MM".to_owned(), says }
}
