//! `hearthload carry` on the scenarios that come with the program: a screen for a chef, a report for programs.

use crate::run::{demos, json, repository, run};
use serde_json::Value;
use std::process::Command;

/// The least a report holds, by the names others rely on.
const FIELDS: [&str; 54] = [
    "/verdict/carries",
    "/verdict/broke",
    "/verdict/gives_first",
    "/verdict/says",
    "/dishes/0/name",
    "/dishes/0/heat_kj",
    "/dishes/0/from_hearth_kj",
    "/dishes/0/from_chamber_kj",
    "/dishes/0/hearth_kj_per_cover",
    "/dishes/0/base_share",
    "/dishes/0/bake_s_median",
    "/dishes/0/bake_s_worst",
    "/dishes/0/ready_again_min_median",
    "/dishes/0/ready_again_min_worst",
    "/dishes/0/recovery_min_median",
    "/dishes/0/never_share",
    "/floor/start_c",
    "/floor/lowest_c",
    "/floor/lowest_at_lift_c",
    "/floor/probe_lowest_c",
    "/floor/by_quarter_hour/0/time",
    "/floor/by_quarter_hour/0/mean_c",
    "/floor/by_quarter_hour/0/lowest_c",
    "/wood/kg_per_h_peak",
    "/wood/kg_light_up",
    "/wood/kg_service",
    "/assist/needed",
    "/assist/kw_delivered_least",
    "/assist/kw_rated_least",
    "/assist/lead_min",
    "/assist/kwh",
    "/waits/median_s",
    "/waits/p90_s",
    "/waits/worst_s",
    "/ledger_mj/fire",
    "/ledger_mj/assist",
    "/ledger_mj/food",
    "/ledger_mj/doorway_flow",
    "/ledger_mj/doorway_radiation",
    "/ledger_mj/shell",
    "/ledger_mj/stored",
    "/ledger_mj/residual",
    "/warnings",
    "/cautions/0/act",
    "/cautions/0/says",
    "/assumed/0/field",
    "/assumed/0/value",
    "/assumed/0/source",
    "/name",
    "/verdict/because",
    "/verdict/loads/0/what",
    "/verdict/loads/0/used",
    "/doorway_kw_m2",
    "/map",
];

#[test]
fn a_report_has_the_names_that_others_rely_on() {
    for (name, text) in demos() {
        let ran = run(&["carry", "-", "--json"], &text);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{name}");
        let report = json(&ran.out);
        for field in FIELDS {
            assert!(report.pointer(field).is_some(), "{name}: {field} is missing");
        }
        let gives = report["verdict"]["gives_first"].as_str().unwrap();
        assert!(
            ["floor_heat", "top_heat", "floor_space", "hands", "fire", "doorway_air", "cap", "none"].contains(&gives)
        );
        let (broke, carries) = (&report["verdict"]["broke"], report["verdict"]["carries"].as_bool().unwrap());
        assert_eq!(broke.is_null(), carries, "{name}: what broke, and whether it carries, must agree");
        for field in ["kw_delivered_least", "kw_rated_least", "lead_min"] {
            assert!(report["assist"][field].is_null(), "{name}: the plain verdict never waits for a search");
        }
    }
}

#[test]
fn the_ledger_adds_up_in_the_report() {
    for (name, text) in demos() {
        let ledger = json(&run(&["carry", "-", "--json"], &text).out)["ledger_mj"].clone();
        let mj = |part: &str| ledger[part].as_f64().unwrap();
        let sources = mj("fire") + mj("assist");
        let sinks: f64 =
            ["food", "doorway_flow", "doorway_radiation", "shell", "stored", "residual"].into_iter().map(mj).sum();
        assert!((sources - sinks).abs() <= 1e-9 * sources, "{name}: {sources} against {sinks}");
    }
}

#[test]
fn the_screen_is_narrow_short_and_begins_with_the_verdict() {
    for (name, text) in demos() {
        let ran = run(&["carry", "-"], &text);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{name}");
        let says = json(&run(&["carry", "-", "--json"], &text).out)["verdict"]["says"].as_str().unwrap().to_owned();
        let opening: Vec<&str> = says.split(' ').take(5).collect();
        assert!(ran.out.lines().nth(2).unwrap().starts_with(&opening.join(" ")), "{name}: {}", ran.out);
        assert!(ran.out.lines().all(|line| line.chars().count() <= 80), "{name}: {}", ran.out);
        assert!(ran.out.ends_with("An estimate. Your gun and your probe outrank it.\n"), "{name}");
    }
}

#[test]
fn the_map_comes_only_when_asked_for() {
    let (_, text) = demos().swap_remove(0);
    assert!(json(&run(&["carry", "-", "--json"], &text).out)["map"].is_null());
    let map = json(&run(&["carry", "-", "--json", "--map"], &text).out)["map"].clone();
    assert!(!map["frames"].as_array().unwrap().is_empty());
    assert_eq!(map["cells"].as_array().unwrap().len(), map["frames"][0]["face_c"].as_array().unwrap().len());
}

#[test]
fn tables_are_printed_one_by_one() {
    let (_, text) = demos().swap_remove(0);
    assert!(run(&["carry", "-", "--csv", "dishes"], &text).out.starts_with("dish,heat_kj,"));
    assert!(run(&["carry", "-", "--csv", "placements"], &text).out.lines().count() > 10);
    let ran = run(&["carry", "-", "--csv", "none such"], &text);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("There are dishes, floor,"), "{}", ran.err);
}

#[test]
fn all_problems_come_at_once_as_lines_and_as_json() {
    let bad = r#"{"hearthload": 1, "oven": {"width_cm": 4, "colour": "red"}, "menu": [{}]}"#;
    let ran = run(&["carry", "-", "--json"], bad);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    let problems = json(&ran.err)["problems"].as_array().unwrap().clone();
    assert!(problems.len() > 4, "{problems:?}");
    for problem in &problems {
        for part in ["field", "given", "allowed", "unit", "says"] {
            assert!(problem[part].is_string(), "{part} in {problem}");
        }
    }
    let has = |field: &str| problems.iter().any(|problem| problem["field"] == field);
    assert!(has("oven.width_cm") && has("oven.colour") && has("menu[0].name"), "{problems:?}");
    let lines = run(&["carry", "-"], bad);
    assert_eq!((lines.code, lines.out.as_str()), (2, ""));
    assert!(lines.err.starts_with(&format!("{} things to mend:\n", problems.len())), "{}", lines.err);
    assert_eq!(lines.err.lines().count(), problems.len() + 1);
}

#[test]
fn text_that_is_not_a_scenario_is_refused_in_words() {
    for bad in ["", "[1", "\u{feff}{}", "null", "{\"hearthload\": 2}"] {
        let ran = run(&["carry", "-", "--json"], bad);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{bad:?}");
        assert!(json(&ran.err)["problems"][0]["says"].as_str().unwrap().len() > 10);
    }
    let missing = run(&["carry", "/no/such/file", "--json"], "");
    assert_eq!(missing.code, 2);
    assert!(json(&missing.err)["problems"][0]["says"].as_str().unwrap().contains("/no/such/file"));
}

#[test]
fn a_batch_gives_the_same_report() {
    let (_, text) = demos().swap_remove(0);
    let alone = json(&run(&["carry", "-", "--json"], &text).out);
    let request = format!("{{\"id\":\"a\",\"question\":\"carry\",\"scenario\":{}}}", json(&text));
    assert_eq!(json(&run(&["batch"], &request).out)["ok"], alone);
    let wrong = "{\"id\":\"b\",\"question\":\"carry\",\"scenario\":{\"hearthload\":1}}";
    let error: Value = json(&run(&["batch"], wrong).out)["error"].clone();
    assert!(error["field"].is_string() && error["says"].is_string() && error["problems"].is_array(), "{error}");
}

#[test]
fn the_program_itself_answers_from_a_file() {
    let file = repository("demo-data").join(demos().swap_remove(0).0);
    let ran = Command::new(env!("CARGO_BIN_EXE_hearthload")).arg("carry").arg(&file).arg("--json").output().unwrap();
    assert_eq!(ran.status.code(), Some(0));
    assert!(json(&String::from_utf8(ran.stdout).unwrap())["verdict"]["says"].is_string());
    let bad = Command::new(env!("CARGO_BIN_EXE_hearthload")).args(["carry", "/no/such/file"]).output().unwrap();
    assert_eq!((bad.status.code(), bad.stdout.len()), (Some(2), 0));
}
