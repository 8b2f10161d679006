//! One screen: never wider than 80 columns, verdict first, a ledger that adds up on paper, names that cannot steer a terminal.

use crate::fixture::sagging;
use hearthload::report::text;

#[test]
fn the_screen_is_narrow_and_begins_with_the_verdict() {
    let shown = text::carry(&sagging());
    for line in shown.lines() {
        assert!(line.chars().count() <= 80, "{} columns: {line}", line.chars().count());
        assert_eq!(line.trim_end(), line, "blanks at the end");
    }
    assert!(shown.lines().count() <= 45, "{} lines", shown.lines().count());
    assert!(shown.lines().nth(2).is_some_and(|line| line.starts_with("Not as it stands: from 20:05")), "{shown}");
    assert!(shown.ends_with("An estimate. Your gun and your probe outrank it.\n"));
}

#[test]
fn figures_come_with_what_a_cook_needs() {
    let shown = text::carry(&sagging()).replace('\u{a0}', " ");
    let flat = shown.split_whitespace().collect::<Vec<_>>().join(" ");
    for wanted in [
        "floor heat 16 % short, hands 38 % to spare",
        "3:20 4:10 5:10 12 never 71 %",
        "Lowest at loading 277 °C at 20:45 for Leek round",
        "last piece out at 01:10",
        "1 value nobody gave",
        "Embers live for days.",
        "Leek round: pale base.",
    ] {
        assert!(flat.contains(wanted), "{wanted:?} is missing in\n{shown}");
    }
}

#[test]
fn half_hours_take_the_lowest_of_their_two_quarters_and_past_midnight_reads_as_the_wall_clock() {
    let shown = text::carry(&sagging());
    let line = |start: &str| shown.lines().find(|line| line.starts_with(start)).unwrap_or_default().to_owned();
    assert!(line("Floor, °C").contains("18:00 19:00"), "{}", line("Floor, °C"));
    assert!(line("Floor, °C").ends_with("00:00"), "{}", line("Floor, °C"));
    assert!(line("  lowest").split_whitespace().skip(1).all(|figure| figure == "289"), "{}", line("  lowest"));
}

#[test]
fn the_ledger_on_paper_adds_up() {
    let mut report = sagging();
    report.ledger_mj.fire = 100.04;
    report.ledger_mj.assist = 20.04;
    report.ledger_mj.food = 30.02;
    report.ledger_mj.doorway_flow = 40.02;
    report.ledger_mj.doorway_radiation = 20.02;
    report.ledger_mj.shell = 20.02;
    report.ledger_mj.stored = 10.0;
    let shown = text::carry(&report).replace('\u{a0}', " ");
    let (sources, sinks) = shown[shown.find("fire ").unwrap()..].split_once('=').unwrap();
    let parts = numbers(sinks);
    assert_eq!(numbers(sources), [100.0, 20.0]);
    assert!((parts[..6].iter().sum::<f64>() - 120.0).abs() < 1e-9, "{parts:?}");
}

fn numbers(text: &str) -> Vec<f64> {
    text.split_whitespace().filter_map(|word| word.parse().ok()).collect()
}

#[test]
fn a_name_cannot_steer_the_terminal() {
    let mut report = sagging();
    report.name = "bad\u{1b}]0;title\u{7}\nname".to_owned();
    report.dishes[0].name = "x\u{1b}[31m".to_owned();
    report.floor.lowest_dish = "y\u{9b}31m".to_owned();
    let shown = text::carry(&report);
    assert!(shown.chars().all(|c| c == '\n' || !c.is_control()), "{shown:?}");
}

#[test]
fn an_empty_menu_still_makes_a_screen() {
    let mut report = sagging();
    report.dishes.clear();
    report.verdict.loads.clear();
    report.floor.by_quarter_hour.clear();
    report.floor.lowest_dish.clear();
    report.floor.lowest_c = f64::NAN;
    let shown = text::carry(&report);
    assert!(shown.contains("Lowest at loading not known"), "{shown}");
    assert!(!shown.contains("NaN"), "{shown}");
}
