//! Owns scenarios and batch lines under any bytes: as text, as a demo with places bent, as a request.

use crate::{dice::Dice, finite::broken_number};
use hearthload::scenario::{self, Field, Problem, Resolved, fields::Kind};
use serde_json::{Value, json};

/// The demo scenarios.
pub(crate) const DEMOS: [&str; 4] = [
    include_str!("../../demo-data/assist.json"),
    include_str!("../../demo-data/carries.json"),
    include_str!("../../demo-data/small.json"),
    include_str!("../../demo-data/surprise.json"),
];
/// Most places bent at once.
const MOST_BENT: usize = 6;
/// Most problems told, and the line that says there are more; doubled fields come on top.
const MOST_PROBLEMS: usize = 260;
/// Longest sentence about one problem, bytes.
const LONGEST_SENTENCE: usize = 4000;

/// A whole answer: a scenario whose numbers are numbers and whose times are in order, or problems that say something.
pub(crate) fn whole(answer: Result<Resolved, Vec<Problem>>) {
    match answer {
        Ok(resolved) => {
            let all = &resolved.scenario;
            assert!(all.oven.door_height_m < all.oven.dome_rise_m && all.oven.door_width_m <= all.oven.width_m);
            assert!(all.start.read_at <= all.feeding.light_at && all.feeding.light_at <= all.service.start);
            assert!(all.service.start < all.service.end && all.service.end <= all.promise.queue_gone_by);
            for dish in &all.menu {
                assert!(dish.floor_min_c < dish.floor_max_c && dish.dome_min_c < dish.dome_max_c);
                assert!(dish.start_c < dish.end_c && !dish.ingredients.is_empty());
            }
            let names = [&all.name].into_iter().chain(all.menu.iter().map(|dish| &dish.name));
            assert!(names.flat_map(|name| name.chars()).all(|letter| !letter.is_control()), "{:?}", all.name);
            assert_eq!(broken_number(&format!("{all:?}")), None);
        }
        Err(problems) => {
            assert!(!problems.is_empty() && problems.len() <= MOST_PROBLEMS, "{} problems", problems.len());
            for problem in &problems {
                assert!(!problem.says.is_empty() && problem.says.len() < LONGEST_SENTENCE, "{problem:?}");
                // Said whole: the words themselves may have been typed, and are said back then.
                assert_ne!(problem.says, "The draft could not be completed; please report this file.");
            }
        }
    }
}

/// Any text as a scenario.
pub(crate) fn text(bytes: &[u8]) {
    whole(scenario::read(&String::from_utf8_lossy(bytes)));
}

/// A demo with some places bent, chosen by the field table.
pub(crate) fn bent(bytes: &[u8]) {
    let mut dice = Dice::new(bytes);
    let demo = dice.pick(&DEMOS);
    let Ok(mut draft) = serde_json::from_str::<Value>(demo) else { return };
    let rows: Vec<&'static Field> = scenario::fields().collect();
    for _ in 0..MOST_BENT {
        if dice.is_empty() {
            break;
        }
        let row = dice.pick(&rows);
        let value = value(&mut dice, row);
        put(&mut draft, row.path, &mut dice, value);
    }
    whole(scenario::resolve(&draft));
}

/// Something for a row: right, at its limits, beyond them, or of another sort.
fn value(dice: &mut Dice, row: &Field) -> Option<Value> {
    if dice.chance(32) {
        return None;
    }
    if dice.chance(32) {
        return Some(match dice.place(5) {
            0 => Value::Null,
            1 => json!([]),
            2 => json!({}),
            3 => json!(dice.text()),
            _ => dice.number(),
        });
    }
    Some(match row.kind {
        Kind::Number { min, max, whole, .. } => {
            let number = dice.between(min, max);
            json!(if whole { number.round() } else { number })
        }
        Kind::Clock => json!(format!("{:02}:{:02}", dice.place(50), dice.place(62))),
        Kind::Choice(words) => json!(dice.pick(words)),
        Kind::Key(table) => json!(dice.pick(&scenario::keys::all(table))),
        Kind::Text { .. } => json!(dice.text()),
        Kind::List { .. } => json!([dice.number()]),
        Kind::Group => json!({}),
    })
}

/// Puts a value where a pattern of the field table points; takes away what is there where there is none.
fn put(draft: &mut Value, pattern: &str, dice: &mut Dice, value: Option<Value>) {
    let mut here = draft;
    for part in pattern.split('.') {
        let key = part.trim_end_matches("[]");
        if here.as_object().is_none() {
            *here = json!({});
        }
        let Some(object) = here.as_object_mut() else { return };
        here = object.entry(key).or_insert(Value::Null);
        if part.ends_with("[]") {
            if !here.is_array() {
                *here = json!([null]);
            }
            let Some(items) = here.as_array_mut() else { return };
            if items.is_empty() || dice.chance(16) {
                items.push(Value::Null);
            }
            let at = dice.place(items.len());
            here = &mut items[at];
        }
    }
    *here = value.unwrap_or(Value::Null);
}

/// Any text as a line of a batch. A request that would be computed is turned back: that is the solver's own target.
pub(crate) fn line(bytes: &[u8]) {
    let request: Option<Value> = serde_json::from_slice(bytes).ok();
    let draft = request.as_ref().and_then(|request| request.get("scenario"));
    if draft.is_some_and(|draft| scenario::resolve(draft).is_ok()) {
        return;
    }
    if request
        .is_some_and(|request| matches!(request.get("question").and_then(Value::as_str), Some("proof" | "golden")))
    {
        return;
    }
    let answer = hearthload_cli::answer_line(bytes);
    let answer: Value = serde_json::from_str(&answer).unwrap_or_default();
    let says = answer.pointer("/error/says").and_then(Value::as_str).unwrap_or_default();
    assert!(answer.get("id").is_some() && !says.is_empty(), "{answer}");
    assert_ne!(says, "The program failed on this request. Please report it.");
}
