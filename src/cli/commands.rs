//! Owns the commands that ask one question and print one answer.

use crate::args::CarryArgs;
use crate::door::{Answer, ask};
use crate::input::scenario_text;
use crate::outcome::{Outcome, print};
use crate::parts::{SAY_EVERY, is_stopped, listen_for_stop, threads, worked_out};
use hearthload::ask::reach::Reaching;
use hearthload::ask::sure::HowSure;
use hearthload::proof::{Check, Status, topics};
use hearthload::report::{CarryReport, csv, ladder_text, sure_build, text, words};
use hearthload::scenario::fields::{Fallback, Field, Kind, fields as rows};
use hearthload::scenario::{self, Problem};
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::io::{Read, Write};
use std::time::Instant;

/// `hearthload carry FILE`.
pub fn carry(args: &CarryArgs, stdin: Box<dyn Read + Send>, err: &mut dyn Write) -> Outcome {
    let wants_map = args.map || args.csv.as_deref() == Some("placements");
    let resolved = match scenario_text(&args.file, stdin).and_then(|text| scenario::read(&text)) {
        Ok(resolved) => resolved,
        Err(problems) => return Outcome::problems(&problems, args.json),
    };
    if args.reach {
        let question = Reaching::new(&resolved);
        let says = |parts: &[_]| format!("{} searches done", parts.len());
        let worked = worked_out(&question, threads(None), None, err, says);
        return worked.answer(&question, args.json, |report| {
            if args.json { Outcome::report(report) } else { Outcome::computed(ladder_text::reach(report)) }
        });
    }
    let report = hearthload::ask::carry(&resolved, wants_map);
    if let Some(fault) = &report.fault {
        return Outcome::fault(fault, args.json);
    }
    if args.sure {
        let question = HowSure::new(&resolved.scenario);
        let says = |parts: &[_]| format!("{} parts done", parts.len());
        let worked = worked_out(&question, threads(None), None, err, says);
        return worked.answer(&question, args.json, |sure| {
            let mut whole = json!(report);
            whole["sure"] = json!(sure);
            let words = || format!("{}\n{}", text::carry(&report), sure_build::text(sure));
            if args.json { Outcome::json(&whole) } else { Outcome::computed(words()) }
        });
    }
    match &args.csv {
        _ if args.json => Outcome::report(&report),
        Some(table) => one_table(&report, table),
        None => Outcome::computed(text::carry(&report)),
    }
}

fn one_table(report: &CarryReport, wanted: &str) -> Outcome {
    let tables = csv::carry(report);
    if let Some(table) = tables.iter().find(|table| table.name == wanted) {
        return Outcome::computed(table.text.clone());
    }
    let names: Vec<&str> = tables.iter().map(|table| table.name).collect();
    let problem = Problem {
        field: "--csv".to_owned(),
        given: wanted.to_owned(),
        allowed: names.join(", "),
        unit: String::new(),
        says: format!("There is no table of that name. There are {}.", words::list(&names)),
    };
    Outcome::problems(&[problem], false)
}

/// `hearthload schema`.
pub fn schema() -> Outcome {
    Outcome::json(&scenario::schema())
}

/// `hearthload fields`.
pub fn fields(as_json: bool) -> Outcome {
    if as_json {
        Outcome::json(&rows().map(row_json).collect())
    } else {
        Outcome::computed(scenario::field_list_markdown())
    }
}

fn row_json(row: &Field) -> Value {
    let (default, default_is) = match row.fallback {
        Fallback::Required => (Value::Null, "needed"),
        Fallback::Optional => (Value::Null, "optional"),
        Fallback::Empty => (json!([]), "empty"),
        Fallback::Fixed(typed) => (serde_json::from_str(typed).unwrap_or(Value::Null), "fixed"),
        Fallback::Made { words, .. } => (json!(words), "worked out"),
    };
    let choices = match row.kind {
        Kind::Choice(words) => json!(words),
        _ => Value::Null,
    };
    let limits = row.limits();
    json!({
        "path": row.path, "label": row.label, "unit": row.unit(),
        "min": limits.map(|l| l[0]), "max": limits.map(|l| l[1]), "choices": choices,
        "default": default, "default_is": default_is, "note": row.note, "source": row.source,
    })
}

/// `hearthload proof`: 0 when every check holds or its miss is explained, 1 otherwise, and where it was stopped before all were made.
pub fn proof(as_json: bool, err: &mut dyn Write) -> Outcome {
    listen_for_stop();
    let topics = topics();
    let (mut checks, mut done, mut said) = (Vec::new(), 0, Instant::now());
    for topic in &topics {
        if is_stopped() {
            print(err, &format!("Stopped after {done} of {} topics.\n", topics.len()));
            break;
        }
        if said.elapsed() >= SAY_EVERY {
            said = Instant::now();
            print(err, &format!("{done} of {} topics done; {}\n", topics.len(), topic.name));
        }
        checks.extend((topic.checks)());
        done += 1;
    }
    let mut outcome =
        if as_json { Outcome::json(&json!({ "checks": checks })) } else { Outcome::computed(proof_text(&checks)) };
    let is_missed = |check: &Check| !check.holds && check.explained.is_none();
    if done < topics.len() || checks.is_empty() || checks.iter().any(is_missed) {
        outcome.code = crate::FAULT;
    }
    outcome
}

fn proof_text(checks: &[Check]) -> String {
    let mut lines = String::new();
    for check in checks {
        let mark = match (check.holds, &check.explained) {
            (true, _) if check.status == Status::Consistency => "holds, consistency only",
            (true, _) => "holds",
            (false, Some(_)) => "misses, explained",
            (false, None) => "MISSES",
        };
        // Writing to a string cannot fail.
        let _ = writeln!(lines, "{mark}: {}", check.what);
        let _ = writeln!(
            lines,
            "    {} here, {} ± {} {} there ({})",
            figure(check.got),
            figure(check.expected),
            figure(check.tolerance),
            check.unit,
            check.source
        );
        if let Some(spread) = &check.spread {
            let _ = writeln!(lines, "    {} to {} over {}", figure(spread.low), figure(spread.high), spread.over);
        }
        if let Some(why) = &check.explained {
            let _ = writeln!(lines, "    {why}");
        }
    }
    let held = checks.iter().filter(|check| check.holds).count();
    let _ = writeln!(lines, "{held} of {} checks hold.", checks.len());
    lines
}

/// Four figures are enough to compare by eye.
fn figure(value: f64) -> String {
    format!("{value:.3e}").parse::<f64>().unwrap_or(value).to_string()
}

/// `hearthload golden`.
pub fn golden(as_json: bool) -> Outcome {
    match ask(&json!({ "question": "golden" })) {
        Answer::Ok(hashes) if as_json => Outcome::json(&json!({ "ok": hashes })),
        Answer::Ok(hashes) => Outcome::computed(format!("{}\n", json!({ "ok": hashes }))),
        Answer::Problems(problems) => Outcome::problems(&problems, as_json),
        Answer::Fault(says) => Outcome::fault(&says, as_json),
    }
}
