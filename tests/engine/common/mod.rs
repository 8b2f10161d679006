//! What the tests of whole ovens share: the demo scenarios, and a night replayed with its placements fixed.
#![allow(dead_code, reason = "each test file uses its part")]

use hearthload::hearth::build::{Accuracy, DEFAULT_ACCURACY};
use hearthload::hearth::oven::{Hearth, Lying};
use hearthload::scenario::{self, Scenario};
use hearthload::service::fuel_plan::{Act, calendar};
use hearthload::service::night::Ready;
use hearthload::service::spots::lay;
use hearthload::service::trace::Bake;

/// The four demo scenarios by name.
pub const DEMOS: [(&str, &str); 4] = [
    ("carries", include_str!("../../../demo-data/carries.json")),
    ("surprise", include_str!("../../../demo-data/surprise.json")),
    ("assist", include_str!("../../../demo-data/assist.json")),
    ("small", include_str!("../../../demo-data/small.json")),
];

/// Reads a scenario that is known to be right.
pub fn read(text: &str) -> Scenario {
    match scenario::read(text) {
        Ok(resolved) => resolved.scenario,
        Err(problems) => panic!("{problems:#?}"),
    }
}

/// What a replayed night says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Replayed {
    /// Lowest footprint mean at loading, degC.
    pub lowest_c: f64,
    /// Food floor at the end, degC.
    pub end_c: f64,
    /// Heat of the fire, J.
    pub fire_j: f64,
    /// What the ledger lacks, as a share of its throughput.
    pub residual: f64,
}

/// An accuracy `times` finer than the default in cells, nodes and steps.
pub fn finer(cells: f64, nodes: f64, steps: f64) -> Accuracy {
    let mut accuracy = DEFAULT_ACCURACY;
    accuracy.cell_m /= cells;
    accuracy.fineness.first_m /= nodes;
    accuracy.fineness.coarsest_m /= nodes;
    accuracy.fineness.growth = libm::pow(accuracy.fineness.growth, 1.0 / nodes);
    accuracy.busy_step_s /= steps;
    accuracy.idle_step_s /= steps;
    accuracy
}

/// Something that happens at a moment of a replayed night.
#[derive(Clone, Copy, Debug)]
enum Event {
    Fire(Act),
    Load(usize),
    Lift(usize),
}

/// Runs a night with every placement where and when it was, whatever the food says. `step_share` of the usual step is taken.
pub fn replay(ready: &Ready, bakes: &[Bake], until_s: f64, step_share: f64) -> Replayed {
    let mut hearth = Hearth::new(&ready.build, &ready.scenario);
    let mut lowest_c = f64::INFINITY;
    let build = &ready.build;
    let step_s = |hearth: &Hearth<'_>, busy: bool| {
        let most = if busy { build.accuracy.busy_step_s } else { build.accuracy.idle_step_s };
        most.min(step_share * build.stable_step_s(busy, hearth.hottest_k(), hearth.food_floor_c() + 273.15))
    };
    let lain = vec![true; bakes.len()];
    follow(ready, &mut hearth, bakes, &lain, until_s, step_s, |hearth, now| {
        if let Now::Loading(_, place) = now {
            lowest_c = lowest_c.min(hearth.place_k(place) + hearth.room_c());
        }
    });
    let ledger = hearth.ledger();
    Replayed {
        lowest_c,
        end_c: hearth.food_floor_c(),
        fire_j: ledger.fire_j,
        residual: ledger.residual_j() / ledger.throughput_j(),
    }
}

/// What a night that is followed has come to.
#[derive(Clone, Copy, Debug)]
pub enum Now {
    /// A bake is about to be laid on a place.
    Loading(usize, usize),
    /// A bake has been lifted from a place.
    Lifted(usize, usize),
    /// A step has ended.
    Stepped,
}

/// Follows a night whose placements are fixed. A bake that is not `lain` leaves its moments as ends of steps, but no piece on the
/// floor: nights that differ only in what is lain are stepped alike.
pub fn follow<'b>(
    ready: &'b Ready,
    hearth: &mut Hearth<'b>,
    bakes: &[Bake],
    lain: &[bool],
    until_s: f64,
    step_s: impl Fn(&Hearth<'b>, bool) -> f64,
    mut look: impl FnMut(&Hearth<'b>, Now),
) {
    let mut events: Vec<(f64, Event)> =
        calendar(&ready.scenario).into_iter().map(|(at, act)| (at, Event::Fire(act))).collect();
    for (i, bake) in bakes.iter().enumerate() {
        events.push((bake.from_s, Event::Load(i)));
        events.push((bake.to_s.unwrap_or(until_s), Event::Lift(i)));
    }
    // Stable: at one moment wood goes in before a piece is laid, and a piece is lifted after.
    events.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut events = events.into_iter().peekable();
    let (mut lying, mut whose): (Vec<Lying>, Vec<usize>) = (Vec::new(), Vec::new());
    while hearth.time_s < until_s - 1e-6 {
        let mut changed = false;
        while let Some((_, event)) = events.next_if(|event| event.0 <= hearth.time_s + 1e-6) {
            match event {
                Event::Fire(act) => burn(hearth, &ready.scenario, act),
                Event::Load(i) if lain[i] => {
                    let piece = lay(bakes[i].dish, &ready.spots.of(bakes[i].dish)[bakes[i].spot]);
                    look(hearth, Now::Loading(i, piece.place));
                    lying.push(piece);
                    whose.push(i);
                    changed = true;
                }
                Event::Lift(i) => {
                    if let Some(at) = whose.iter().position(|&w| w == i) {
                        let piece = lying.remove(at);
                        whose.remove(at);
                        look(hearth, Now::Lifted(i, piece.place));
                        changed = true;
                    }
                }
                Event::Load(_) => {}
            }
        }
        if changed {
            hearth.lay(&lying, &ready.laws);
        }
        let step_s = step_s(hearth, !lying.is_empty());
        let next = events.peek().map_or(until_s, |event| event.0.min(until_s));
        // Equal steps to the next event, so that none is a sliver.
        let count = ((next - hearth.time_s) / step_s - 1e-9).ceil().max(1.0);
        hearth.step((next - hearth.time_s) / count, &mut lying, &ready.laws);
        look(hearth, Now::Stepped);
    }
}

/// One act of the fire's calendar.
fn burn(hearth: &mut Hearth<'_>, scenario: &Scenario, act: Act) {
    match act {
        Act::Kindle(kg) => hearth.fire.kindle(kg),
        Act::Feed(pieces) => {
            hearth.fire.feed(scenario.wood.piece_diameter_m, pieces * scenario.wood.piece_length_m);
        }
        Act::Spread => hearth.fire.spread(true),
        Act::Gather => hearth.fire.spread(false),
        Act::Wipe(kg) => hearth.wipe(kg),
    }
}
