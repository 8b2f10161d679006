//! The extreme ovens through every question that searches: each part of an answer comes within seconds of processor, and what it
//! says is finite and in reason, or why there is none is said in words.

use crate::finite::broken_number;
use crate::lines::{Line, builds, days, fires, sizes};
use crate::reason::out_of_reason;
use crate::{Sane, draft_of};
use hearthload::ask::floors::{Floors, offer};
use hearthload::ask::in_parts::InParts;
use hearthload::ask::nights::ManyNights;
use hearthload::ask::reach::Reaching;
use hearthload::ask::sure::HowSure;
use hearthload::report::{FireReport, FloorsReport, NightsReport, ReachReport};
use hearthload::scenario::{self, Resolved};
use std::fmt::Debug;

/// Most processor time between two signs of life, s. The largest evening's fire takes ten here.
const MOST_S: f64 = 30.0;
/// No kitchen burns more in a day, kg: twenty pieces as thick as a leg every few minutes.
const WOOD_KG: f64 = 5000.0;

/// One oven of the table: its name there, whether a fire can be planned for it, and whether its ladder and reach are climbed too,
/// which takes long on the largest.
const OVENS: [(&str, bool, bool); 13] = [
    ("half a metre, one cover", false, true),
    ("half a metre, 2000 covers", false, true),
    ("three metres, one cover", true, true),
    ("three metres, 2000 covers, 80 dishes", false, false),
    ("no dishes", false, true),
    ("80 dishes", true, false),
    ("bone-dry wood", true, true),
    ("wood of 25 %", true, true),
    ("wood of 40 %", false, true),
    ("no wood", true, true),
    ("gas only", true, true),
    ("a doorway as large as the dome allows", true, true),
    ("all night, past midnight", true, true),
];

fn oven(name: &str) -> Resolved {
    let all = [sizes(), fires(), builds(), days()].into_iter().flatten();
    let (_, changes, sane): Line = all.into_iter().find(|(known, ..)| *known == name).expect("an oven of the table");
    assert!(matches!(sane, Sane::Night { .. }), "{name}");
    scenario::resolve(&draft_of(&changes)).unwrap()
}

/// Processor time of this thread so far, s; nought where the system does not tell.
fn spent_s() -> f64 {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    told.split(' ').next().and_then(|nanoseconds| nanoseconds.parse::<f64>().ok()).map_or(0.0, |spent| spent / 1e9)
}

/// Does something that gives no sign of life meanwhile.
fn soon<T>(name: &str, work: impl FnOnce() -> T) -> T {
    let before = spent_s();
    let done = work();
    let took = spent_s() - before;
    assert!(took < MOST_S, "{name}: {took:.1} s without a word");
    done
}

/// A question in parts, as page and terminal go through it.
fn in_parts<Q: InParts>(name: &str, question: &Q) -> Q::Report {
    let mut parts = Vec::new();
    loop {
        let wants = soon(name, || question.wants(&parts));
        if wants.is_empty() {
            return soon(name, || question.report(&parts)).expect("an answer");
        }
        for want in wants {
            parts.push(soon(name, || question.work(&want)).expect("a part"));
            // What there is by now is an answer too.
            let so_far = soon(name, || question.report(&parts));
            drop(so_far);
        }
    }
}

fn finite(name: &str, report: &(impl Debug + serde::Serialize)) {
    let broken = broken_number(&format!("{report:?}"));
    assert!(broken.is_none(), "{name}: a number that is none, after {broken:?}");
    assert_eq!(out_of_reason(&serde_json::json!(report)), None, "{name}");
}

fn fire(name: &str, resolved: &Resolved, has_plan: bool) -> FireReport {
    let report = soon(name, || hearthload::ask::fire(resolved, None));
    finite(name, &report);
    assert_eq!(report.no_plan.is_none(), has_plan, "{name}: {}", report.says);
    assert!(report.says.len() > 20, "{name}");
    if let Some(no_plan) = &report.no_plan {
        assert!(no_plan.says.len() > 20 && report.light_at.is_none() && report.phases.is_empty(), "{name}");
        return report;
    }
    assert!(report.light_at.is_some() && report.sheet.is_some(), "{name}");
    let day = report.wood_kg.as_ref().expect("wood").day;
    assert!((0.0..WOOD_KG).contains(&day), "{name}: {day} kg");
    for at_c in [report.start_floor_c, report.lowest_floor_c, report.morning_floor_c].into_iter().flatten() {
        assert!((10.0..=700.0).contains(&at_c), "{name}: a floor of {at_c} degC");
    }
    report
}

fn nights(name: &str, resolved: &Resolved) {
    let report: NightsReport = in_parts(name, &ManyNights::new(&resolved.scenario, 6, 1));
    finite(name, &report);
    assert!(report.nights == 6 && (0.0..=1.0).contains(&report.holds_fraction), "{name}");
    assert!(report.wood_kg.p10 <= report.wood_kg.p90 && report.wood_kg.p90 < WOOD_KG, "{name}");
}

fn reach(name: &str, resolved: &Resolved) {
    let report: ReachReport = in_parts(name, &Reaching::new(resolved));
    finite(name, &report);
    let reached = &report.reached;
    // Nobody sits in a room of more: the most the table allows is 5000.
    assert!((0.0..20_000.0).contains(&reached.most_covers), "{name}: {}", reached.most_covers);
    if report.carry.verdict.carries && reached.planned_covers > 0.0 {
        assert!(reached.most_covers >= reached.planned_covers, "{name}: {}", reached.reach_says);
    }
    assert!(reached.ways_out.iter().all(|way| way.covers_gained > 0.0), "{name}");
}

fn floors(name: &str, resolved: &Resolved) {
    let sizes = offer(&[Some(60.0), Some(120.0)], false).expect("two floors");
    let report: FloorsReport = in_parts(name, &Floors::new(&resolved.scenario, sizes));
    finite(name, &report);
    assert!(report.rungs.len() as u32 == report.of && report.says.len() > 20, "{name}");
}

#[test]
fn fires_for_extreme_ovens_are_planned_or_refused_in_words() {
    for (name, has_plan, _) in OVENS {
        fire(name, &oven(name), has_plan);
    }
}

#[test]
fn wet_wood_takes_more_than_dry() {
    let wood = |name: &str| fire(name, &oven(name), true).wood_kg.expect("wood").day;
    // At 25 % on the dry base 20 % of a piece is water: by the lower heating value nearly a quarter less heat in a kilogram as it
    // lies.
    let (dry, wet) = (wood("bone-dry wood"), wood("wood of 25 %"));
    assert!(wet > 1.1 * dry, "{wet:.1} kg wet, {dry:.1} kg dry");
}

#[test]
fn nights_of_extreme_ovens_are_counted() {
    for (name, ..) in OVENS {
        nights(name, &oven(name));
    }
}

#[test]
fn reach_and_ladders_of_extreme_ovens_come_part_by_part() {
    for (name, _, climbs) in OVENS {
        if climbs {
            reach(name, &oven(name));
            floors(name, &oven(name));
        }
    }
}

#[test]
fn how_sure_an_extreme_oven_is() {
    for name in
        ["half a metre, one cover", "three metres, one cover", "no wood", "a doorway as large as the dome allows"]
    {
        let resolved = oven(name);
        let report = in_parts(name, &HowSure::new(&resolved.scenario));
        finite(name, &report);
        assert!((0.0..=1.0).contains(&report.verdict_stands), "{name}");
    }
}

#[test]
fn a_huge_number_of_hours_is_quoted_short() {
    for hours in [1e308, -1e308, 5e-324] {
        let problem = hearthload::ask::read_hours(Some(hours)).expect_err("no firing takes that");
        assert!(
            problem.says.len() < 200 && problem.given.len() < 70 && problem.says.contains(&problem.given),
            "{hours:e}"
        );
    }
}
