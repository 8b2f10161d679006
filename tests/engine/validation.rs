//! The engine against published measurements of a wood-fired oven: the figures met on the oven that stands for the measured one,
//! and how they spread over what is not known of it. `HEARTHLOAD_WRITE=1` writes the results kept beside the citations.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop where it likes")]

use hearthload::proof::{Check, Table, measured_figures, measured_oven, measured_oven_of_width};
use hearthload::scenario::{Layer, Scenario};
use hearthload::sure::unknowns::{UNKNOWNS, Unknown};
use std::path::{Path, PathBuf};

/// Where the folders of the publications are.
fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/validation")
}

/// Whether results are to be written.
fn writing() -> bool {
    std::env::var_os("HEARTHLOAD_WRITE").is_some()
}

/// The oven that stands for the measured one.
fn chosen() -> Scenario {
    measured_oven().expect("tests/reference/validation/falciano-2022/scenario.json reads")
}

/// Which publication a figure belongs to.
fn publication(check: &Check) -> &'static str {
    if check.id.starts_with("oven.oak") {
        "falciano-2022"
    } else if check.id == "oven.service.bound" || check.id == "oven.service.scaling" {
        "varlamov-2018"
    } else {
        "falciano-2024"
    }
}

/// The figure that is missed whatever is chosen: the floor at three times the feed of the others.
const FAST: &str = "oven.oak.fast";

/// A figure answers to the constants if it moves by this share of its tolerance over what they are chosen from; one that does not
/// says nothing about the choice, and is left out of the score of it.
const ANSWERS: f64 = 0.25;

/// A misfit: how many tolerances off, as the root of the mean square over some of the figures; one is the edge of all of them at once.
fn score(checks: &[Check], counts: impl Fn(&Check) -> bool) -> f64 {
    let off: Vec<f64> = checks.iter().filter(|check| counts(check)).map(Check::misses).collect();
    (off.iter().map(|miss| miss * miss).sum::<f64>() / off.len() as f64).sqrt()
}

/// The result of one publication as a table.
fn table(checks: &[Check], of: &str) -> String {
    let mut text = String::from("id,what,expected,tolerance,unit,got,holds\n");
    for check in checks.iter().filter(|check| publication(check) == of) {
        let what = format!("\"{}\"", check.what);
        text += &format!(
            "{},{what},{},{},{},{:.4},{}\n",
            check.id, check.expected, check.tolerance, check.unit, check.got, check.holds
        );
    }
    text
}

/// The number of a check in a kept table.
fn kept(text: &str, id: &str) -> Option<f64> {
    let line = text.lines().find(|line| line.starts_with(&format!("{id},")))?;
    line.rsplit(',').nth(1)?.parse().ok()
}

#[test]
fn every_published_figure_is_met_but_the_one_explained_and_the_kept_results_are_todays() {
    let checks = measured_figures(&chosen(), &[]);
    for of in ["falciano-2022", "falciano-2024", "varlamov-2018"] {
        let path = folder().join(of).join("result.csv");
        if writing() {
            std::fs::write(&path, table(&checks, of)).expect("the folder is there");
        }
        let text = std::fs::read_to_string(&path).unwrap_or_default();
        for check in checks.iter().filter(|check| publication(check) == of) {
            let missed = check.id == FAST;
            assert!(
                check.holds != missed,
                "{}: {} +/- {}, got {}",
                check.id,
                check.expected,
                check.tolerance,
                check.got
            );
            assert_eq!(check.explained.is_some(), missed, "{}", check.id);
            let before = kept(&text, &check.id).unwrap_or(f64::NAN);
            let moved = (check.got - before).abs() / check.tolerance;
            assert!(moved < 0.25, "{} moved from {before} to {}: write the results anew", check.id, check.got);
        }
    }
}

/// The constants that were chosen, over what they were chosen from; the first is what the textbook alone would take, the second
/// what was chosen.
fn constants() -> Vec<(&'static str, Scenario)> {
    let air = |factor: f64| with(&|s| s.oven.entrainment_factor = factor);
    let smoke = |emissivity: f64| with(&|s| s.oven.smoke_emissivity = emissivity);
    vec![
        ("textbook plume (entrainment 1.0)", air(1.0)),
        ("chosen (entrainment 0.6; smoke 0.2)", chosen()),
        ("entrainment 0.5", air(0.5)),
        ("entrainment 0.7", air(0.7)),
        ("entrainment 0.8", air(0.8)),
        ("entrainment 1.2", air(1.2)),
        ("smoke emissivity 0.05", smoke(0.05)),
        ("smoke emissivity 0.3", smoke(0.3)),
    ]
}

/// What is not known of the measured oven, one thing changed at a time.
fn unknowns() -> Vec<(&'static str, Scenario)> {
    let layer = |material: &str, thickness_m: f64| Layer { material: material.to_owned(), thickness_m };
    let wide = |width_m: f64| measured_oven_of_width(&chosen(), width_m);
    vec![
        ("0.9 m hearth", wide(0.9)),
        ("1.0 m hearth", wide(1.0)),
        ("1.1 m hearth", wide(1.1)),
        ("doorway 50 x 25 cm", with(&|s| (s.oven.door_width_m, s.oven.door_height_m) = (0.50, 0.25))),
        (
            "dense fireclay 6 and 8 cm",
            with(&|s| {
                s.oven.floor_layers = vec![layer("fireclay_dense", 0.06), layer("calcium_silicate", 0.10)];
                s.oven.dome_layers = vec![layer("fireclay_dense", 0.08), layer("ceramic_fibre", 0.10)];
            }),
        ),
    ]
}

/// What `--sure` takes as unknown, each at either end of its range, all else as chosen: a name and the figures.
fn ends() -> Vec<(String, Vec<Check>)> {
    let both = |unknown: Unknown| END_NAMES.map(|(end, share)| (end_name(&unknown, end), [(unknown, share)]));
    UNKNOWNS.into_iter().flat_map(both).map(|(name, at)| (name, measured_figures(&chosen(), &at))).collect()
}

/// The ends of a range, and the share of it at which they lie.
const END_NAMES: [(&str, f64); 2] = [("low", 0.0), ("high", 1.0)];

/// What a row of the table of scores is called.
fn end_name(unknown: &Unknown, end: &str) -> String {
    format!("{} at the {end} end", unknown.key)
}

/// The chosen oven with a change.
fn with(change: &dyn Fn(&mut Scenario)) -> Scenario {
    let mut scenario = chosen();
    change(&mut scenario);
    scenario
}

/// How far each figure moves over the constants, in its tolerances, in the order of the figures.
fn moves(runs: &[(&str, Vec<Check>)]) -> Vec<f64> {
    let got = |figure: usize| runs.iter().map(move |(_, checks)| checks[figure].got);
    let tolerance = |figure: usize| runs[0].1[figure].tolerance;
    let span = |figure: usize| got(figure).fold(f64::MIN, f64::max) - got(figure).fold(f64::MAX, f64::min);
    (0..runs[0].1.len()).map(|figure| span(figure) / tolerance(figure)).collect()
}

/// Writes the table of scores: each run by its three scores and its figures, and how far each figure moves over the constants.
fn write_scores(chosen_from: &[(&str, Vec<Check>)], others: &[(&str, Vec<Check>)], ends: &[(String, Vec<Check>)]) {
    let moves = moves(chosen_from);
    let ids: Vec<String> = chosen_from[0].1.iter().map(|check| check.id.clone()).collect();
    let answers = |check: &Check| ids.iter().position(|id| *id == check.id).is_some_and(|at| moves[at] >= ANSWERS);
    let mut text = format!(
        "# Every figure with one thing changed at a time: first the constants that were chosen, then what is not known of the oven, then\n\
         # whatever --sure takes as unknown, at either end of its range (src/engine/sure/unknowns.rs).\n\
         # score: root of the mean square of (got - expected)/tolerance over the figures that answer to the constants; 1 would be the\n\
         # edge of every band at once. A figure answers if it moves by {ANSWERS} of its tolerance or more over the constants (row \"moves\");\n\
         # those that do not say nothing about the choice. score_all: over all figures. score_3: as score, but without the figure at\n\
         # 9 kg/h ({FAST}), which every choice misses: at 3 kg/h and the feed that keeps 439 degC.\n"
    );
    text += &format!("variant,score,score_all,score_3,{}\nmoves,,,", ids.join(","));
    moves.iter().for_each(|share| text += &format!(",{share:.3}"));
    let ends = ends.iter().map(|(name, checks)| (name.as_str(), checks));
    for (name, checks) in chosen_from.iter().chain(others).map(|(name, checks)| (*name, checks)).chain(ends) {
        let at_3 = |check: &Check| answers(check) && check.id != FAST;
        let scores = [score(checks, answers), score(checks, |_| true), score(checks, at_3)];
        text += &format!("\n{name},{:.3},{:.3},{:.3}", scores[0], scores[1], scores[2]);
        checks.iter().for_each(|check| text += &format!(",{:.3}", check.got));
    }
    std::fs::write(folder().join("scores.csv"), text + "\n").expect("the folder is there");
}

/// The choice is better than the textbook where ovens are run, worse over all figures: because of one figure that every choice misses.
#[test]
fn the_choice_scores_better_at_the_feed_it_was_made_for_and_no_choice_mends_the_slope() {
    let played = |variants: Vec<(&'static str, Scenario)>| -> Vec<(&'static str, Vec<Check>)> {
        variants.into_iter().map(|(name, scenario)| (name, measured_figures(&scenario, &[]))).collect()
    };
    let runs = if writing() { played(constants()) } else { played(constants().into_iter().take(2).collect()) };
    if writing() {
        write_scores(&runs, &played(unknowns()), &ends());
    }
    let text = std::fs::read_to_string(folder().join("scores.csv")).expect("it is kept");
    let table = Table::read(&text);
    let moves = table.rows().next().expect("the first row");
    let answers = |check: &Check| moves.number(&check.id) >= ANSWERS;
    let at_3 = |check: &Check| answers(check) && check.id != FAST;
    assert!(runs[0].1.iter().filter(|check| at_3(check)).count() >= 5, "too few figures say anything");
    let [textbook, chosen] = [0, 1].map(|run| score(&runs[run].1, at_3));
    println!("textbook {textbook}, chosen {chosen}");
    assert!(chosen < 1.0 && chosen < textbook, "{chosen} {textbook}");
    // Said in the README beside the table: over all figures the textbook is ahead.
    let [textbook_all, chosen_all] = [0, 1].map(|run| score(&runs[run].1, |_| true));
    assert!(
        textbook_all < chosen_all,
        "over all, {chosen_all} is no longer behind {textbook_all}: say so in the README"
    );
    let fast = runs[1].1.iter().find(|check| check.id == FAST).expect("it is a figure");
    for row in table.rows().skip(1).take(constants().len()) {
        // Of one constant at a time none does better by more than a tenth of a tolerance.
        assert!(row.number("score_3") > chosen - 0.1, "{} scores {}", row.text("variant"), row.text("score_3"));
        // And none brings the fast fire within its band, nor within three of them.
        let off = (row.number(FAST) - fast.expected) / fast.tolerance;
        assert!(off > 3.0, "{}: {off} tolerances off", row.text("variant"));
    }
    // Both ends of every range are kept, over all figures; none of them brings the fast fire into its band either.
    for unknown in UNKNOWNS {
        for (end, _) in END_NAMES {
            let name = end_name(&unknown, end);
            let row = table.rows_where("variant", &name).next().unwrap_or_else(|| panic!("no row for {name}"));
            assert!(runs[0].1.iter().all(|check| row.number(&check.id).is_finite()), "{name}");
            assert!(row.number("score_all") > 1.0 && row.number(FAST) > fast.expected + fast.tolerance, "{name}");
        }
    }
}
