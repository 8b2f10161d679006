//! Facts that hold for any oven and any evening: energy closes, less food leaves more heat, clocks and mirrors change nothing.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop where it likes")]

mod common;

use common::{DEMOS, Now, follow, read, replay};
use hearthload::hearth::build::{Accuracy, Build, DEFAULT_ACCURACY};
use hearthload::hearth::oven::Hearth;
use hearthload::matter::wood::Fuel;
use hearthload::plan::fire;
use hearthload::scenario::{FireSide, Scenario};
use hearthload::service::night::{Keep, Ready, play, run};
use hearthload::service::orders::{Order, orders};
use hearthload::service::trace::Trace;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// Few cases, each a whole evening; the seed is fixed, so that a run is what the last one was.
fn config(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        rng_seed: RngSeed::Fixed(29),
        failure_persistence: None,
        max_shrink_iters: 4,
        ..ProptestConfig::default()
    }
}

/// An evening in one of the demo ovens, bent within what a scenario may say.
fn evening() -> impl Strategy<Value = Scenario> {
    let oven = (0_usize..4, 0.85_f64..1.4, 0.7_f64..1.3, 0.2_f64..1.3);
    let fire = (0.08_f64..0.3, 0.6_f64..2.5, 0.4_f64..1.2, 0.05_f64..0.4);
    let service = (0.3_f64..2.5, any::<u64>(), 1_u32..4, -40.0_f64..40.0);
    (oven, fire, service).prop_map(
        |((demo, size, door, rise), (moisture, fed, air, smoke), (covers, seed, hands, start))| {
            let mut s = read(DEMOS[demo].1);
            s.oven.width_m *= size;
            s.oven.depth_m *= size;
            s.oven.door_width_m *= door.min(size);
            s.oven.door_height_m *= door.min(size);
            s.oven.dome_rise_m *= size * (0.9 + 0.1 * rise);
            s.oven.entrainment_factor = air;
            s.oven.smoke_emissivity = smoke;
            s.wood.meter_dry_basis = moisture;
            for phase in &mut s.feeding.phases {
                phase.every_s /= fed;
            }
            for quarter in &mut s.service.covers {
                *quarter *= covers;
            }
            s.service.seed = seed;
            s.service.hands = hands;
            s.start.floor_c += start;
            s
        },
    )
}

/// The evening played.
fn night(scenario: &Scenario) -> (Ready, Trace) {
    let ready = Ready::new(scenario, DEFAULT_ACCURACY);
    let trace = play(&ready, Keep::default());
    (ready, trace)
}

/// A span by which clocks are put forward: seven minutes and thirteen seconds, whole hours, any second of six hours, s.
fn span() -> impl Strategy<Value = f64> {
    prop_oneof![Just(433.0), (1_u8..6).prop_map(|hours| 3600.0 * f64::from(hours)), (1_u32..21_600).prop_map(f64::from),]
}

/// The same evening later by a span, s.
fn later(scenario: &Scenario, span_s: f64) -> Scenario {
    let mut s = scenario.clone();
    s.start.read_at += span_s;
    s.service.start += span_s;
    s.service.end += span_s;
    s.service.wipes.iter_mut().for_each(|at| *at += span_s);
    s.service.batches.iter_mut().for_each(|batch| batch.at += span_s);
    s.feeding.light_at += span_s;
    for phase in &mut s.feeding.phases {
        phase.from += span_s;
        phase.to += span_s;
    }
    s.feeding.spread_coals.iter_mut().for_each(|spread| spread.at += span_s);
    s.promise.queue_gone_by += span_s;
    if let Some(assist) = &mut s.oven.assist {
        assist.on_at += span_s;
        assist.off_at += span_s;
    }
    s
}

proptest! {
    #![proptest_config(config(12))]

    #[test]
    fn energy_closes_for_any_evening(scenario in evening()) {
        let (_, trace) = night(&scenario);
        let share = trace.ledger.residual_j() / trace.ledger.throughput_j();
        prop_assert!(share.abs() < 1e-9, "{share}");
        let taken: f64 = trace.bakes.iter().map(|bake| bake.base_j + bake.top_j).sum();
        // What still lies on the floor at the end has taken heat too: the ledger may hold more, never less.
        prop_assert!(trace.ledger.food_j >= taken * (1.0 - 1e-9), "{} {taken}", trace.ledger.food_j);
    }

    #[test]
    fn with_placements_replayed_more_loads_never_leave_a_warmer_floor_nor_a_shorter_recovery(
        scenario in evening(), every in 2_usize..5,
    ) {
        // The doorway's flow is worked out at every step, and both nights are stepped alike: nothing is left to jitter.
        let exact = Accuracy { flow_every_step: true, ..DEFAULT_ACCURACY };
        // No burner: a probe that switches one lets fewer loads leave a colder floor for a while, when it has just switched off where
        // the fuller night still burns. Columns by nodes and by modes both show it with steps of half a second, by 1.6 and 1.0 K.
        let mut scenario = scenario;
        scenario.oven.assist = None;
        let ready = Ready::new(&scenario, exact);
        let trace = play(&ready, Keep::default());
        // The first stays, so that both nights have the same floor to come back to.
        let fewer: Vec<bool> = (0..trace.bakes.len()).map(|i| i % every != 1).collect();
        let all = watched(&ready, &trace, &vec![true; trace.bakes.len()]);
        let some = watched(&ready, &trace, &fewer);
        prop_assert!(some.end_c >= all.end_c - ROUNDING_K, "{} {}", some.end_c, all.end_c);
        for (i, (few, many)) in some.bakes.iter().zip(&all.bakes).enumerate().filter(|(i, _)| fewer[*i]) {
            prop_assert!(few.floor_c >= many.floor_c - ROUNDING_K, "{i}: {few:?} {many:?}");
        }
        let lowest = |night: &Night| {
            let kept = night.bakes.iter().zip(&fewer).filter(|(_, kept)| **kept);
            kept.map(|(bake, _)| bake.at_load_c).fold(f64::INFINITY, f64::min)
        };
        prop_assert!(lowest(&some) >= lowest(&all) - FITTED_K, "{} {}", lowest(&some), lowest(&all));
        // Half of the spots are back no later; one that never was took longer than any that did.
        let median = |night: &Night| {
            let kept = night.bakes.iter().zip(&fewer).filter(|(_, kept)| **kept);
            let mut back_s: Vec<f64> = kept.map(|(bake, _)| bake.back_s).collect();
            back_s.sort_by(f64::total_cmp);
            back_s.get(back_s.len() / 2).copied().unwrap_or(0.0)
        };
        prop_assert!(median(&some) <= median(&all) + FITTED_S, "{} {}", median(&some), median(&all));
    }

    #[test]
    fn a_shifted_clock_shifts_the_answer(scenario in evening(), span_s in span()) {
        let (_, here) = night(&scenario);
        let (_, there) = night(&later(&scenario, span_s));
        prop_assert_eq!(here.bakes.len(), there.bakes.len());
        for (a, b) in here.bakes.iter().zip(&there.bakes) {
            let same = |b: f64, a: f64, size: f64| (b - a).abs() <= 1e-9 * size;
            prop_assert!(a.spot == b.spot && a.dish == b.dish && a.in_band == b.in_band, "{a:?} {b:?}");
            // Times of a day of 1e5 s, temperatures of some hundred degrees, heat of some hundred kilojoules: each to 1e-9 of itself.
            prop_assert!(same(b.from_s - span_s, a.from_s, a.from_s), "{a:?} {b:?}");
            prop_assert!(same(b.at_load_c, a.at_load_c, a.at_load_c), "{a:?} {b:?}");
            prop_assert!(same(b.base_j, a.base_j, a.base_j) && same(b.top_j, a.top_j, a.top_j), "{a:?} {b:?}");
        }
        let off = (there.ledger.fire_j / here.ledger.fire_j - 1.0).abs();
        prop_assert!(off < 1e-9, "{off}");
    }

    #[test]
    fn a_mirrored_fire_mirrors_the_evening_to_the_bit(scenario in evening()) {
        let side = |fire_side| {
            let mut s = scenario.clone();
            s.oven.fire_side = fire_side;
            if let Some(assist) = &mut s.oven.assist {
                assist.probe_across = if fire_side == FireSide::Left { 0.3 } else { -0.3 };
            }
            let ready = Ready::new(&s, DEFAULT_ACCURACY);
            let trace = play(&ready, Keep { picture_every_s: Some(1800.0) });
            (ready, trace)
        };
        let ((left, a), (right, b)) = (side(FireSide::Left), side(FireSide::Right));
        // The map, tile by tile: each has its mirror image on the other floor, of the same warmth.
        prop_assert!(!a.pictures.is_empty() && a.pictures.len() == b.pictures.len());
        let (here, there) = (&left.build.plan, &right.build.plan);
        for (i, cell) in here.cells.iter().enumerate() {
            let (x, y) = (-here.to_user_x(cell.x_m), cell.y_m);
            let image = there.cells.iter().position(|c| (there.to_user_x(c.x_m) - x).abs() + (c.y_m - y).abs() < 1e-9);
            let Some(j) = image else { return Err(TestCaseError::fail(format!("tile {i} has no image"))) };
            for (p, q) in a.pictures.iter().zip(&b.pictures) {
                prop_assert_eq!(p.face_c[i].to_bits(), q.face_c[j].to_bits());
            }
        }
        prop_assert_eq!(a.bakes.len(), b.bakes.len());
        for (p, q) in a.bakes.iter().zip(&b.bakes) {
            prop_assert_eq!(p.at_load_c.to_bits(), q.at_load_c.to_bits());
            prop_assert_eq!(p.from_s.to_bits(), q.from_s.to_bits());
            let place = |ready: &Ready, bake: &hearthload::service::trace::Bake| {
                ready.build.plan.to_user_x(ready.spots.of(bake.dish)[bake.spot].x_m)
            };
            prop_assert!((place(&left, p) + place(&right, q)).abs() < 1e-12);
        }
        prop_assert_eq!(a.ledger.stored_j().to_bits(), b.ledger.stored_j().to_bits());
    }

    #[test]
    fn an_oven_as_cold_as_its_room_stays_so(scenario in evening()) {
        let mut s = scenario;
        s.start.floor_c = s.oven.room_c;
        s.start.dome_c = s.oven.room_c;
        let build = Build::new(&s, DEFAULT_ACCURACY);
        let mut hearth = Hearth::new(&build, &s);
        hearth.moment.gas_k = build.doorway.room_k;
        // No match, no gas: two hours of nothing.
        let until = s.start.read_at + 7200.0;
        let mut still = s.clone();
        still.oven.assist = None;
        let mut hearth = if s.oven.assist.is_some() { Hearth::new(&build, &still) } else { hearth };
        while hearth.time_s < until {
            hearth.step(15.0, &mut [], &[]);
            let flow = hearth.moment.flow;
            prop_assert!(flow.in_kg_s.abs() < 1e-9 && flow.out_kg_s.abs() < 1e-9, "{flow:?}");
        }
        prop_assert!((hearth.food_floor_c() - s.oven.room_c).abs() < 1e-6, "{}", hearth.food_floor_c());
        prop_assert!((hearth.dome_c() - s.oven.room_c).abs() < 1e-6, "{}", hearth.dome_c());
        let ledger = hearth.ledger();
        prop_assert!(ledger.doorway_flow_j.abs() < 10.0 && ledger.doorway_radiation_j.abs() < 10.0, "{ledger:?}");
    }
}

/// What is left of a floor's comparison once nothing jitters: rounding, K.
const ROUNDING_K: f64 = 1e-6;
/// What is left of the coolest spot's, K. (One spot's reading may be off by more, either way, while a piece lies freshly beside it:
/// how a trace shows at its neighbours is fitted to a percent or so of the cold under it, which is large then.)
const FITTED_K: f64 = 0.2;
/// What is left of a recovery's, s: just after lifting a spot rises by about a kelvin each second, later by one in five.
const FITTED_S: f64 = 1.0;
/// A spot is back within so much of where it stood before the first load, K: the service's own measure.
const WITHIN_K: f64 = 10.0;
/// Step of a night that is watched, s: short enough for every evening here.
const WATCH_STEP_S: f64 = 2.0;

/// One bake of a night that is watched.
#[derive(Clone, Copy, Debug)]
struct Watched {
    /// The whole floor for food at loading, degC.
    floor_c: f64,
    /// Under it at loading, degC.
    at_load_c: f64,
    /// From lifting until its spot was back, s; infinite for one that never was.
    back_s: f64,
}

/// A night that is watched.
struct Night {
    /// Floor at the end, degC.
    end_c: f64,
    bakes: Vec<Watched>,
}

/// A night replayed with only some of its bakes lain, stepped alike whichever they are.
fn watched(ready: &Ready, trace: &Trace, lain: &[bool]) -> Night {
    let mut hearth = Hearth::new(&ready.build, &ready.scenario);
    let mut bakes = vec![Watched { floor_c: f64::NAN, at_load_c: f64::NAN, back_s: f64::INFINITY }; trace.bakes.len()];
    // Where each place stood before the first load, and the spots that are on their way back: bake, place, lifted at, before.
    let mut stood_k: Vec<f64> = Vec::new();
    let mut rising: Vec<(usize, usize, f64, (f64, f64))> = Vec::new();
    let step_s = |_: &Hearth<'_>, _: bool| WATCH_STEP_S;
    follow(ready, &mut hearth, &trace.bakes, lain, trace.ended_s, step_s, |hearth, now| match now {
        Now::Loading(i, place) => {
            if stood_k.is_empty() {
                stood_k = (0..ready.build.places.all.len()).map(|place| hearth.place_k(place)).collect();
            }
            bakes[i].at_load_c = hearth.place_k(place) + hearth.room_c();
            bakes[i].floor_c = hearth.food_floor_c();
        }
        Now::Lifted(i, place) => rising.push((i, place, hearth.time_s, (hearth.time_s, hearth.place_k(place)))),
        Now::Stepped => rising.retain_mut(|(i, place, lifted_s, before)| {
            let (at_s, k, wanted_k) = (hearth.time_s, hearth.place_k(*place), stood_k[*place] - WITHIN_K);
            if k >= wanted_k {
                // Straight between the ends of the step.
                let share = ((wanted_k - before.1) / (k - before.1).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
                bakes[*i].back_s = before.0 + share * (at_s - before.0) - *lifted_s;
            }
            *before = (at_s, k);
            k < wanted_k
        }),
    });
    Night { end_c: hearth.food_floor_c(), bakes }
}

proptest! {
    #![proptest_config(config(200))]

    #[test]
    fn wetter_wood_never_gives_more_heat(dry in 0.06_f64..0.5, more in 0.001_f64..0.3) {
        let wood = |meter_dry_basis| Fuel::new(&hearthload::scenario::Wood {
            species: "oak".to_owned(), meter_dry_basis, piece_diameter_m: 0.08, piece_length_m: 0.3,
        });
        prop_assert!(wood(dry + more).released_j_kg() < wood(dry).released_j_kg());
    }
}

/// Wood that keeps an idle floor at a level, kg/h, on the meter at three readings.
#[test]
fn wetter_wood_never_needs_less_wood_to_keep_a_floor() {
    for (name, text) in [DEMOS[0], DEMOS[3]] {
        let mut last = 0.0;
        for meter in [0.10, 0.15, 0.20, 0.25, 0.30] {
            let mut s = read(text);
            s.wood.meter_dry_basis = meter;
            s.oven.assist = None;
            (s.start.floor_c, s.start.dome_c) = (300.0, 330.0);
            let needed = kept_kg_h(&s);
            assert!(needed > last, "{name}: {needed} kg/h at {meter}, {last} before");
            last = needed;
        }
    }
}

/// Feed at which the floor four hours after lighting stands at 300 degC, by halving.
fn kept_kg_h(scenario: &Scenario) -> f64 {
    let until = scenario.feeding.light_at + 4.0 * 3600.0;
    let piece_kg = Fuel::new(&scenario.wood).piece_mass_kg;
    let (mut low, mut high) = (0.2, 20.0);
    for _ in 0..12 {
        let middle = 0.5 * (low + high);
        let mut s = scenario.clone();
        s.feeding.phases.truncate(1);
        let phase = s.feeding.phases.first_mut().expect("the demos feed");
        // A tenth of a piece at a time, so that no feed falls on one side of the end or the other.
        (phase.from, phase.to, phase.pieces) = (s.feeding.light_at + 600.0, until, 0.1);
        phase.every_s = 0.1 * 3600.0 * piece_kg / middle;
        let end_c = replay(&Ready::new(&s, DEFAULT_ACCURACY), &[], until, 1.0).end_c;
        if end_c < 300.0 { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// The whole plan: what the cook's plan of the day asks for, by what the meter shows.
#[test]
fn wetter_wood_never_makes_a_plan_of_less_wood() {
    for (name, text) in [DEMOS[0], DEMOS[3]] {
        let mut last = 0.0;
        for meter in [0.12, 0.17, 0.22] {
            let mut s = read(text);
            s.wood.meter_dry_basis = meter;
            let plan = fire::plan(&s, None).expect("something is ordered");
            let carried = plan.outcome.unwrap_or_else(|_| panic!("{name} at {meter} does not carry"));
            let wood_kg = carried.light_up_kg + carried.service_kg;
            println!("{name} at {meter}: {wood_kg} kg");
            assert!(wood_kg >= last, "{name}: {wood_kg} kg at {meter}, {last} before");
            last = wood_kg;
        }
    }
}

proptest! {
    #![proptest_config(config(6))]

    #[test]
    fn a_bigger_burner_that_stays_on_never_cools_the_floor(factor in 1.05_f64..2.0, covers in 0.5_f64..1.5) {
        let mut s = read(DEMOS[2].1);
        s.service.covers.iter_mut().for_each(|quarter| *quarter *= covers);
        if let Some(assist) = &mut s.oven.assist {
            // So hot a set point that it never switches off.
            assist.set_c = 900.0;
            assist.on_at = s.feeding.light_at;
            assist.off_at = s.service.end;
        }
        let (ready, trace) = night(&s);
        let mut larger = s.clone();
        if let Some(assist) = &mut larger.oven.assist {
            assist.rated_w *= factor;
        }
        let small = replay(&ready, &trace.bakes, trace.ended_s, 1.0);
        let large = replay(&Ready::new(&larger, DEFAULT_ACCURACY), &trace.bakes, trace.ended_s, 1.0);
        prop_assert!(large.lowest_c > small.lowest_c && large.end_c > small.end_c, "{small:?} {large:?}");
    }

    #[test]
    fn a_quarter_more_covers_never_raise_the_lowest_floor_nor_shorten_recovery(
        demo in 0_usize..4, step in 1.25_f64..1.6, seed in any::<u64>(),
    ) {
        // Whole services jitter: parties at random, the smaller evening's orders those of the larger with some left out (common
        // random numbers), steps of a quarter or more, one kelvin and half a minute of slack. A burner that is switched by its probe
        // answers to more covers by burning longer, and so is left out here.
        let mut s = read(DEMOS[demo].1);
        s.oven.assist = None;
        s.service.arrivals = hearthload::scenario::Arrivals::Parties;
        s.service.seed = seed;
        s.service.covers.iter_mut().for_each(|quarter| *quarter *= step);
        let ready = Ready::new(&s, DEFAULT_ACCURACY);
        let many = orders(&s);
        // Evenly, so that no hour is spared more than another.
        let kept = |i: usize| ((i + 1) as f64 / step).floor() > (i as f64 / step).floor();
        let few: Vec<Order> = many.iter().enumerate().filter(|(i, _)| kept(*i)).map(|(_, order)| *order).collect();
        let look = |orders: Vec<Order>| {
            let trace = run(&ready, &mut Hearth::new(&ready.build, &ready.scenario), orders, Keep::default());
            let lowest_c = trace.bakes.iter().map(|bake| bake.at_load_c).fold(f64::INFINITY, f64::min);
            // A spot that never came back takes longer than any that did.
            let mut recovery_s: Vec<f64> = trace.bakes.iter().filter(|bake| bake.to_s.is_some())
                .map(|bake| bake.recovery_s.unwrap_or(f64::INFINITY)).collect();
            recovery_s.sort_by(f64::total_cmp);
            (lowest_c, recovery_s[recovery_s.len() / 2])
        };
        let (few, many) = (look(few), look(many));
        prop_assert!(many.0 <= few.0 + 1.0, "{demo}: {few:?} {many:?}");
        prop_assert!(many.1 >= few.1 - 30.0, "{demo}: {few:?} {many:?}");
    }
}
