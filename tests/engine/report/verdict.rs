//! Every cause with every promise makes two whole sentences that name the time, the dish and two numbers.

use hearthload::report::Gives;
use hearthload::report::verdict_words::{Cause, Night, Promise, verdict};

fn promises() -> Vec<Promise> {
    vec![
        Promise::WaitP90 { promised_s: 180.0, got_s: 500.0 },
        Promise::WaitP90 { promised_s: 180.0, got_s: f64::INFINITY },
        Promise::BakeSlower { promised_share: 0.33, known_s: 200.0, got_s: 310.0 },
        Promise::ShareInBand { promised_share: 0.9, got_share: 0.71 },
        Promise::QueueGoneBy { promised_s: 81_900.0, got_s: Some(84_000.0) },
        Promise::QueueGoneBy { promised_s: 81_900.0, got_s: None },
        Promise::FireLimits,
    ]
}

fn causes() -> Vec<Cause> {
    vec![
        Cause::FloorHeat { pieces_per_h: 114.0, pulled_kw: 2.2, won_back_kw: 1.9 },
        Cause::TooHot { floor_c: 412.0, band_top_c: 380.0 },
        Cause::TopHeat { dome_c: 310.0, wanted_c: 350.0 },
        Cause::FloorSpace { pieces_per_h: 114.0, wanted_at_once: 8.2, fit: 8 },
        Cause::Hands { hands: 1, work_min_per_h: 74.0 },
        Cause::FireLow { burnt_kg_h: 2.1, wanted_kg_h: 4.4 },
        Cause::FireDirty { lambda: 1.6, lambda_clean: 2.0 },
        Cause::FlameReach { flame_m: 1.31, way_m: 1.2 },
        Cause::DoorwayAir { burnt_kg_h: 9.1, allowed_kg_h: 8.0 },
        Cause::FloorCool { start_c: 294.0, floor_c: 224.0, wanted_c: 350.0 },
        Cause::FloorCool { start_c: 241.0, floor_c: 241.0, wanted_c: 260.0 },
        Cause::Capped { cap: 4.0, ordered: 9.0 },
        Cause::Nothing,
    ]
}

fn gives(promise: Promise, cause: Cause, dish: Option<&str>) -> (String, String) {
    let words =
        verdict(&Night::Gives { promise, from_s: 72_300.0, worst_s: 74_700.0, dish: dish.map(str::to_owned), cause });
    (plain(&words.says), plain(&words.because))
}

fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

#[test]
fn the_floor_that_sags_is_said_as_a_cook_would() {
    let (says, why) = gives(promises().remove(2), causes().remove(0), Some("leek rounds"));
    assert_eq!(says, "Not as it stands: from 20:05 the floor runs out of heat for leek rounds.");
    assert_eq!(
        why,
        "You promise that no bake slows by more than a third. By 20:45 a bake of leek rounds takes 5 min 10 s instead of 3 min 20 s: \
         114 pieces an hour pull 2.2 kW out of the floor, and it wins back 1.9 kW between splits."
    );
}

#[test]
fn a_floor_that_carries_on_what_it_has_stored_is_said_to() {
    let tightest = Cause::FloorHeat { pieces_per_h: 40.0, pulled_kw: 1.6, won_back_kw: 0.8 };
    let words = verdict(&Night::Carries { tightest: tightest.clone(), at_s: 19.0 * 3600.0, spare: 0.2 });
    let store = "40 pieces an hour pull 1.6 kW out of the floor: it wins back 0.8 kW between splits and gives the rest out of its store.";
    assert_eq!(plain(&words.because), format!("At its tightest, about 19:00, {store}"));
    assert_eq!(plain(&tightest.sentence()), store);
    let enough = Cause::FloorHeat { pieces_per_h: 40.0, pulled_kw: 1.6, won_back_kw: 1.8 };
    assert!(plain(&enough.sentence()).ends_with("and it wins back 1.8 kW between splits."), "{}", enough.sentence());
}

#[test]
fn every_cause_with_every_promise_is_two_whole_sentences() {
    for promise in promises() {
        for cause in causes() {
            for dish in [Some("Leek round"), None] {
                let (says, why) = gives(promise.clone(), cause.clone(), dish);
                let shown = format!("{promise:?} {cause:?}: {says} | {why}");
                assert!(says.contains("20:05"), "the time is missing: {shown}");
                for text in [&says, &why] {
                    assert!(text.ends_with('.'), "not a sentence: {shown}");
                    assert!(text.chars().next().is_some_and(char::is_uppercase), "no capital: {shown}");
                    for slip in ["not known", "  ", "..", " .", " ,", ":.", ": .", "NaN", "inf"] {
                        assert!(!text.contains(slip), "{slip:?} in {shown}");
                    }
                }
                let numbers = why.split_whitespace().filter(|w| w.chars().any(|c| c.is_ascii_digit())).count();
                let enough = if cause == Cause::Nothing { 0 } else { 2 };
                assert!(numbers >= enough, "a cause needs two numbers: {shown}");
            }
        }
    }
}

#[test]
fn a_limit_of_the_fire_is_never_the_cooks_to_relax() {
    let (says, why) = gives(Promise::FireLimits, causes().remove(7), None);
    assert!(says.starts_with("Beyond a limit: "), "{says}");
    assert!(why.ends_with("Stop feeding. Do not add air."), "{why}");
}

#[test]
fn a_floor_that_sagged_and_one_that_never_was_warm_are_told_apart() {
    let (says, why) = gives(promises().remove(2), causes().remove(9), Some("Flatbread"));
    assert!(says.contains("runs out of heat"), "{says}");
    assert!(why.contains("on 224 °C where the floor began at 294 °C, and the bake you know was on 350 °C"), "{why}");
    let (says, why) = gives(promises().remove(2), causes().remove(10), Some("Egg pot"));
    assert!(says.contains("the floor is too cool for Egg pot") && !why.contains("began at"), "{says} {why}");
}

#[test]
fn one_place_short_never_reads_as_enough() {
    let (_, why) = gives(promises().remove(0), causes().remove(3), Some("Leek round"));
    assert!(why.contains("9 places side by side, and 8 fit"), "{why}");
}

#[test]
fn each_cause_names_its_resource() {
    let expected = [
        Gives::FloorHeat,
        Gives::Fire,
        Gives::TopHeat,
        Gives::FloorSpace,
        Gives::Hands,
        Gives::Fire,
        Gives::Fire,
        Gives::Fire,
        Gives::DoorwayAir,
        Gives::FloorHeat,
        Gives::FloorHeat,
        Gives::Cap,
        Gives::None,
    ];
    for (cause, gives) in causes().iter().zip(expected) {
        assert_eq!(cause.gives(), gives, "{cause:?}");
        assert!(cause.sentence().ends_with('.'));
    }
}

#[test]
fn a_night_that_holds_says_what_is_left() {
    let night = |spare| Night::Carries { tightest: causes().remove(0), at_s: 74_700.0, spare };
    let easy = verdict(&night(0.09));
    assert_eq!(plain(&easy.says), "It carries, with 9 % to spare on the floor's heat, which would give first.");
    assert!(plain(&easy.because).starts_with("At its tightest, about 20:45, 114 pieces an hour pull 2.2 kW"));
    let close = verdict(&night(0.03));
    assert!(plain(&close.says).starts_with("It only just carries: 3 % to spare"), "{}", close.says);
    let idle = verdict(&Night::Idle { start_c: 412.0, end_c: 371.4 });
    assert_eq!(
        plain(&idle.because),
        "The floor stands at 412 °C for the first order and at 371 °C when the doors close."
    );
}
