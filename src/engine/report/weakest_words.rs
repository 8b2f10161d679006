//! Owns what is said of the dish that starts fewest of its loads in its band: what keeps them out of it, and what a cook does then.

use super::words::percent;
use crate::scenario::Scenario;
use crate::service::trace::{Bake, HELD, Held, Quarter, Trace};
use crate::units::time::QUARTER_S;

/// From this share of the doorway's air on more wood gives no more fire. Our choice.
const AIR_USED_UP: f64 = 0.9;
/// What the fire lacked this long before a load is still lacking in the floor, s: a piece acts about half an hour later.
const ACTS_FOR_S: f64 = 2700.0;

/// What keeps a dish's loads out of their band.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Binds {
    /// The floor is too cool.
    Base,
    /// The floor is too hot.
    HotBase,
    /// The dome is too cool.
    Top,
    /// The dome is too hot.
    HotTop,
    /// The floor is full, so that no spot rests.
    Room,
    /// Hands are full, so that pieces land late and where they can.
    Hands,
    /// The floor is too cool, and the doorway lets in no air for more fire.
    Air,
}

const ALL: [Binds; 7] = [Binds::Base, Binds::HotBase, Binds::Top, Binds::HotTop, Binds::Room, Binds::Hands, Binds::Air];

/// What keeps one load out of its band; of a cool floor what kept it cool then.
fn of_load(scenario: &Scenario, quarters: &[Quarter], bake: &Bake) -> Binds {
    let spec = &scenario.menu[bake.dish];
    if bake.at_load_c > spec.floor_max_c {
        return Binds::HotBase;
    }
    if bake.at_load_c >= spec.floor_min_c {
        return if bake.dome_c < spec.dome_min_c { Binds::Top } else { Binds::HotTop };
    }
    // While it waited, its own quarter hour and that of its order.
    let waited = quarters.iter().filter(|q| q.at_s + QUARTER_S > bake.ordered_s && q.at_s <= bake.from_s);
    let mut held_s = [0.0; HELD.len()];
    for quarter in waited {
        held_s.iter_mut().zip(quarter.held_s).for_each(|(sum, s)| *sum += s);
    }
    let most = (0..HELD.len()).fold(0, |most, held| if held_s[held] > held_s[most] { held } else { most });
    let before = quarters.iter().filter(|q| (bake.from_s - ACTS_FOR_S..=bake.from_s).contains(&q.at_s));
    let air = before.map(|q| q.air_used.max(q.hard_limit_used)).fold(0.0, f64::max);
    match HELD[most] {
        Held::Hands if held_s[most] > 0.0 => Binds::Hands,
        Held::Space => Binds::Room,
        _ if air >= AIR_USED_UP => Binds::Air,
        _ => Binds::Base,
    }
}

/// What keeps most of a dish's missed loads out of their band.
fn binds(scenario: &Scenario, trace: &Trace, dish: usize) -> Binds {
    let missed = trace.bakes.iter().filter(|bake| bake.dish == dish && !bake.in_band);
    let each: Vec<Binds> = missed.map(|bake| of_load(scenario, &trace.quarters, bake)).collect();
    let count = |what: Binds| each.iter().filter(|&&one| one == what).count();
    ALL.into_iter().fold(Binds::Base, |most, what| if count(what) > count(most) { what } else { most })
}

/// The dish with the smallest share of its loads in its band, where that is less than is promised over all of them, and what helps it.
pub(super) fn fewest(scenario: &Scenario, trace: &Trace) -> String {
    let share = |dish: usize| {
        let loads = || trace.bakes.iter().filter(|b| b.dish == dish);
        loads().filter(|b| b.in_band).count() as f64 / (loads().count() as f64).max(1.0)
    };
    let baked = (0..scenario.menu.len()).filter(|&dish| trace.bakes.iter().any(|b| b.dish == dish));
    let least = baked.map(|dish| (dish, share(dish))).reduce(|a, b| if b.1 < a.1 { b } else { a });
    let least = least.filter(|least| least.1 < scenario.promise.share_in_band);
    least.map_or_else(String::new, |(dish, share)| {
        let (name, share) = (&scenario.menu[dish].name, percent(share));
        match binds(scenario, trace, dish) {
            Binds::Base => format!(" {name} has the fewest, {share}: hold its tickets while its spots are cool."),
            Binds::HotBase => format!(" {name} has the fewest, {share}: its spots are too hot; load it where the floor is coolest."),
            Binds::Top => format!(
                " {name} has the fewest, {share}: the dome is too cool for its tops; load it while the flame is up, just after a feed."
            ),
            Binds::HotTop => format!(" {name} has the fewest, {share}: the dome is too hot for its tops; load it as the flame falls."),
            Binds::Room => format!(" {name} has the fewest, {share}: the floor is full and no spot of it rests; start fewer of it at once."),
            Binds::Hands => format!(
                " {name} has the fewest, {share}: hands are full, and it lands late and where it can; start fewer of it at once, or take one more pair."
            ),
            Binds::Air => format!(
                " {name} has the fewest, {share}: its spots are cool, and the doorway lets in no air for more fire; hold its tickets until they are back."
            ),
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scenario::resolve;

    const AT_S: f64 = 72_000.0;

    fn scenario() -> Scenario {
        let draft = serde_json::from_str(include_str!("../../../demo-data/small.json")).unwrap();
        let mut scenario = resolve(&draft).unwrap().scenario;
        let dish = &mut scenario.menu[0];
        (dish.floor_min_c, dish.floor_max_c, dish.dome_min_c, dish.dome_max_c) = (250.0, 400.0, 350.0, 500.0);
        scenario
    }

    /// An evening of one load on a floor under a dome, whose quarter hour held orders for one reason and used so much of the air.
    fn evening(at_load_c: f64, dome_c: f64, held: Option<Held>, air_used: f64) -> Trace {
        let bake = Bake {
            dish: 0,
            spot: 0,
            ordered_s: AT_S,
            batch: false,
            from_s: AT_S + 60.0,
            done_s: None,
            to_s: None,
            at_load_c,
            at_lift_c: None,
            dome_c,
            in_band: false,
            base_j: 0.0,
            top_j: 0.0,
            ready_again_s: None,
            recovery_s: None,
        };
        let mut quarter = Quarter { at_s: AT_S, air_used, ..Quarter::default() };
        if let Some(held) = held {
            quarter.held_s[held as usize] = 100.0;
        }
        Trace { bakes: vec![bake], quarters: vec![quarter], ..Trace::default() }
    }

    #[test]
    fn what_is_advised_for_the_weakest_dish_is_what_keeps_it_out_of_its_band() {
        let scenario = scenario();
        for (trace, wanted, says) in [
            (evening(230.0, 400.0, Some(Held::ColdFloor), 0.5), Binds::Base, "while its spots are cool"),
            (evening(230.0, 400.0, None, 0.5), Binds::Base, "while its spots are cool"),
            (evening(430.0, 400.0, None, 0.5), Binds::HotBase, "coolest"),
            (evening(300.0, 300.0, Some(Held::ColdDome), 0.5), Binds::Top, "just after a feed"),
            (evening(300.0, 550.0, None, 0.5), Binds::HotTop, "as the flame falls"),
            (evening(230.0, 400.0, Some(Held::Space), 0.5), Binds::Room, "start fewer"),
            (evening(230.0, 400.0, Some(Held::Hands), 0.5), Binds::Hands, "one more pair"),
            (evening(230.0, 400.0, Some(Held::ColdFloor), 0.93), Binds::Air, "no air for more fire"),
        ] {
            assert_eq!(binds(&scenario, &trace, 0), wanted);
            let said = fewest(&scenario, &trace);
            assert!(said.contains("has the fewest, 0\u{a0}%") && said.contains(says), "{said}");
        }
    }
}
