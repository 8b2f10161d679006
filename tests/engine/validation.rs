//! The engine against published measurements of a wood-fired oven: the figures met on the oven that stands for the measured one,
//! and how they spread over what is not known of it. `HEARTHLOAD_WRITE=1` writes the results kept beside the citations.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop where it likes")]

use hearthload::proof::{Check, measured_figures, measured_oven};
use hearthload::scenario::{Layer, Scenario};
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

/// A misfit: how many tolerances off, as the root of the mean square over all figures; one is the edge of all of them at once.
fn score(checks: &[Check]) -> f64 {
    (checks.iter().map(|check| check.misses() * check.misses()).sum::<f64>() / checks.len() as f64).sqrt()
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
fn every_published_figure_is_met_and_the_kept_results_are_todays() {
    let checks = measured_figures(&chosen());
    for of in ["falciano-2022", "falciano-2024", "varlamov-2018"] {
        let path = folder().join(of).join("result.csv");
        if writing() {
            std::fs::write(&path, table(&checks, of)).expect("the folder is there");
        }
        let text = std::fs::read_to_string(&path).unwrap_or_default();
        for check in checks.iter().filter(|check| publication(check) == of) {
            assert!(check.holds, "{}: {} +/- {}, got {}", check.id, check.expected, check.tolerance, check.got);
            let before = kept(&text, &check.id).unwrap_or(f64::NAN);
            let moved = (check.got - before).abs() / check.tolerance;
            assert!(moved < 0.25, "{} moved from {before} to {}: write the results anew", check.id, check.got);
        }
    }
}

/// What is not known of the measured oven, one thing changed at a time; the first is what the textbook alone would take.
fn variants() -> Vec<(&'static str, Scenario)> {
    let with = |change: &dyn Fn(&mut Scenario)| {
        let mut scenario = chosen();
        change(&mut scenario);
        scenario
    };
    let layer = |material: &str, thickness_m: f64| Layer { material: material.to_owned(), thickness_m };
    let wide = |width: f64| {
        move |s: &mut Scenario| (s.oven.width_m, s.oven.depth_m, s.oven.dome_rise_m) = (width, width, 0.38 * width)
    };
    vec![
        ("textbook plume (entrainment 1.0)", with(&|s| s.oven.entrainment_factor = 1.0)),
        ("chosen (entrainment 0.6; smoke 0.2)", chosen()),
        ("entrainment 0.5", with(&|s| s.oven.entrainment_factor = 0.5)),
        ("entrainment 0.8", with(&|s| s.oven.entrainment_factor = 0.8)),
        ("smoke emissivity 0.05", with(&|s| s.oven.smoke_emissivity = 0.05)),
        ("smoke emissivity 0.3", with(&|s| s.oven.smoke_emissivity = 0.3)),
        ("0.9 m hearth", with(&wide(0.9))),
        ("1.0 m hearth", with(&wide(1.0))),
        ("1.1 m hearth", with(&wide(1.1))),
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

#[test]
fn the_choice_scores_best_over_all_figures_together() {
    let runs: Vec<(&str, Vec<Check>)> = if writing() { variants() } else { variants().into_iter().take(2).collect() }
        .into_iter()
        .map(|(name, scenario)| (name, measured_figures(&scenario)))
        .collect();
    if writing() {
        let mut text = String::from(
            "# Every figure with one thing changed at a time that is not known of the measured oven. score: root of the mean square of\n\
             # (got - expected)/tolerance over all figures; 1 would be the edge of every band at once.\n",
        );
        text += "variant,score";
        runs[0].1.iter().for_each(|check| text += &format!(",{}", check.id));
        for (name, checks) in &runs {
            text += &format!("\n{name},{:.3}", score(checks));
            checks.iter().for_each(|check| text += &format!(",{:.3}", check.got));
        }
        std::fs::write(folder().join("scores.csv"), text + "\n").expect("the folder is there");
    }
    let (textbook, chosen) = (score(&runs[0].1), score(&runs[1].1));
    println!("textbook {textbook}, chosen {chosen}");
    assert!(chosen < 1.0 && chosen < textbook, "{chosen} {textbook}");
}
