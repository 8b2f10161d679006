//! What the cook told tonight: read back as it was, and what is damaged in it left out before it can do harm.

use hearthload::{ask, scenario};
use hearthload_page::state::{
    planned,
    tonight::{Mark, Read, Tonight},
};
use serde_json::{Value, json};

#[test]
fn what_was_told_is_read_back() {
    let told = Tonight::of("2026-8-21 1").marked(Mark { planned_s: 64_800.0, at_s: 64_920.0, pieces: 2 });
    let told = Tonight { reading: Some(Read { at_s: 68_400.0, floor_c: 285.0 }), ..told.turned("4 leek rounds") };
    assert_eq!(Tonight::read(&told.write(), &told.key), told);
    assert_eq!(Tonight::read(&told.write(), "2026-8-22 1"), Tonight::of("2026-8-22 1"));
}

#[test]
fn what_no_evening_holds_is_left_out() {
    let mark = |planned: Value, pieces: Value| json!({ "planned_s": planned, "at_s": 1, "pieces": pieces });
    let kept = json!({ "key": "k", "reading": { "at_s": -1, "floor_c": 285 }, "ticked": ["a", 7], "marks": [
        mark(json!(64_800), json!(2)), mark(json!(1e300), json!(2)), mark(json!(64_800), json!(4_294_967_295_u32)),
        mark(json!(null), json!(1)), mark(json!(64_800), json!(-1)), "torn",
    ] });
    let told = Tonight::read(&kept, "k");
    assert_eq!((told.marks.len(), told.reading, told.ticked.len()), (1, None, 1));
    assert_eq!(told.fed(1e9).len(), 2, "four thousand million pieces would fill the memory");
    for torn in [json!(null), json!([]), json!({ "key": "k", "marks": 7, "ticked": {}, "reading": [] })] {
        assert_eq!(Tonight::read(&torn, "k"), Tonight::of("k"), "{torn}");
    }
}

#[test]
fn what_did_not_go_on_is_told_with_a_reading() {
    let hour = 3600.0;
    let mark = |planned_s: f64, at_s: f64, pieces: u32| Mark { planned_s, at_s, pieces };
    let told = Tonight::of("k")
        .marked(mark(18.0 * hour, 18.0 * hour + 20.0, 1))
        .marked(mark(18.25 * hour, 18.3 * hour, 0))
        .marked(mark(18.5 * hour, 18.6 * hour, 1))
        .marked(mark(19.5 * hour, 18.7 * hour, 0));
    assert_eq!(told.fed(19.0 * hour), ["18:00", "18:36"]);
    assert_eq!(told.skipped(19.0 * hour), ["18:15", "18:30"], "skipped, and fed at another time");
    // A rest that leaves a piece out: it is not burnt at the next reading either, unless somebody fed it all the same.
    let read = Read { at_s: 19.0 * hour, floor_c: 350.0 };
    let next = told.taking(read, [19.25 * hour, 19.75 * hour]);
    assert_eq!(next.reading, Some(read));
    assert!(next.mark_of(19.5 * hour).is_none(), "what was skipped before its time is planned anew");
    let next = next.marked(mark(19.75 * hour, 19.75 * hour, 1));
    assert_eq!(next.skipped(20.0 * hour), ["18:15", "18:30", "19:15"]);
    assert_eq!(Tonight::read(&next.write(), "k"), next);
    // Read again before they were due, and then fed as planned.
    let again = next.taking(Read { at_s: 19.1 * hour, floor_c: 290.0 }, []);
    assert_eq!(again.skipped(20.0 * hour), ["18:15", "18:30"]);
    assert_eq!(again.beside(&next, &next), again);
    assert_eq!(next.beside(&next, &again).left_out_s, again.left_out_s, "it goes with its reading");
}

/// A feed that was fed, at its own time.
fn fed(planned_s: f64, pieces: u32) -> Mark {
    Mark { planned_s, at_s: planned_s + 60.0, pieces }
}

#[test]
fn two_tabs_that_tell_at_once_lose_nothing_of_either() {
    let known = Tonight::of("k").marked(fed(64_800.0, 1)).turned("4 rounds").turned("2 trays");
    // One tab feeds a piece and ticks an order off; the other, which has not heard of it, feeds the next, and takes a tick back.
    let here = known.marked(fed(66_000.0, 1)).turned("a loaf");
    let there = Tonight { reading: Some(Read { at_s: 66_500.0, floor_c: 290.0 }), ..known.marked(fed(67_200.0, 2)) };
    let there = there.turned("4 rounds");
    for (first, second) in [(&here, &there), (&there, &here)] {
        let stored = first.beside(&known, &known);
        assert_eq!(&stored, first, "alone it is what was told");
        let both = second.beside(&known, &stored);
        let mut at: Vec<f64> = both.marks.iter().map(|mark| mark.planned_s).collect();
        at.sort_by(f64::total_cmp);
        assert_eq!(at, [64_800.0, 66_000.0, 67_200.0]);
        let mut ticked = both.ticked.clone();
        ticked.sort();
        assert_eq!(ticked, ["2 trays", "a loaf"], "a tick that was taken away stays away");
        assert_eq!(both.reading, there.reading);
        // Kept again, and once more by a tab that tells nothing new, it stays as it is.
        assert_eq!(both.beside(second, &both), both);
        assert_eq!(first.beside(first, &both), both);
    }
}

#[test]
fn what_was_taken_back_is_not_brought_back_by_another_tab() {
    let known = Tonight::of("k").marked(fed(64_800.0, 1)).marked(fed(66_000.0, 1));
    let undone = known.unmarked();
    let elsewhere = known.turned("4 rounds");
    let both = undone.beside(&known, &elsewhere);
    assert!(both.marks == undone.marks && both.ticked == elsewhere.ticked, "{both:?}");
    // Both tell of one feed: what is told now counts.
    let here = known.marked(fed(67_200.0, 0));
    let both = here.beside(&known, &known.marked(fed(67_200.0, 2)));
    assert_eq!(both.mark_of(67_200.0).map(|mark| mark.pieces), Some(0));
    assert_eq!(both.marks.len(), 3);
}

#[test]
fn the_plans_feeding_put_into_the_form_carries_and_keeps_the_rest() {
    let doc: Value = serde_json::from_str(include_str!("../../demo-data/carries.json")).unwrap();
    let report = ask::fire(&scenario::resolve(&doc).unwrap(), None);
    let there = planned::scenario(&doc, &report).expect("a plan on wood alone");
    let read = scenario::resolve(&there).unwrap_or_else(|problems| panic!("{problems:?}"));
    let fed: u32 = report.phases.iter().map(|phase| phase.feeds).sum();
    let put: f64 =
        read.scenario.feeding.phases.iter().map(|phase| ((phase.to - phase.from) / phase.every_s).ceil()).sum();
    assert_eq!(put as u32, fed, "as many feeds as planned");
    assert!(ask::carry(&read, false).verdict.carries, "what the plan promises holds in the form");
    assert_eq!((&there["menu"], &there["oven"]), (&doc["menu"], &doc["oven"]));
}
