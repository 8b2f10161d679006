//! Owns the calendar of the day: match, pieces, coals spread, wipes, as moments in order.

use crate::scenario::Scenario;

/// Something that happens to the oven at a moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Act {
    /// Kindling is lit, kg.
    Kindle(f64),
    /// Pieces are fed.
    Feed(f64),
    /// Coals are raked over the floor.
    Spread,
    /// Coals are raked back.
    Gather,
    /// The floor is wiped wet, kg of water.
    Wipe(f64),
}

/// Acts by time; acts of one moment in the order match, feed, coals, wipe.
#[must_use]
pub fn calendar(scenario: &Scenario) -> Vec<(f64, Act)> {
    let feeding = &scenario.feeding;
    let mut acts = vec![(feeding.light_at, Act::Kindle(feeding.kindling_kg))];
    for phase in &feeding.phases {
        let mut n = 0.0;
        while phase.from + n * phase.every_s < phase.to - 1e-6 {
            acts.push((phase.from + n * phase.every_s, Act::Feed(phase.pieces)));
            n += 1.0;
        }
    }
    for spread in &feeding.spread_coals {
        acts.push((spread.at, Act::Spread));
        acts.push((spread.at + spread.for_s, Act::Gather));
    }
    acts.extend(scenario.service.wipes.iter().map(|&at| (at, Act::Wipe(scenario.service.wipe_water_kg))));
    crate::numerics::order::by(&mut acts, |a, b| a.0.total_cmp(&b.0));
    acts
}
