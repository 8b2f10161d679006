//! Owns the single changes a kitchen can make to carry more: which there are, and what each does to a scenario.

use crate::demand::anchor;
use crate::scenario::{FeedPhase, Scenario};
use crate::service::night::Ready;
use crate::service::orders::orders;
use crate::units::time::QUARTER_S;

/// A carrier that stays hot is back on the floor after this long, s.
const HOT_CARRIER_OUT_S: f64 = 60.0;
/// Feeding sooner: intervals shrink to this share, so that wood comes a quarter more often.
const SOONER: f64 = 0.8;
/// Feeding later: intervals grow to this share, so that wood comes a fifth less often.
const LATER: f64 = 1.25;
/// Intervals come in steps a cook can keep, s.
const INTERVAL_STEP_S: f64 = 30.0;
/// A burner switched on this much earlier, s: what 8-10 cm of stone take to answer.
const EARLIER_S: f64 = 2700.0;
/// A burner set this much higher, K.
const HIGHER_K: f64 = 20.0;
/// Highest set point a field takes, degC.
const SET_MOST_C: f64 = 500.0;
/// A cap is this share of the dish's busiest quarter hour.
const CAP_SHARE: f64 = 0.75;
/// A cap on covers is this share of the busiest quarter hour's.
const SEAT_SHARE: f64 = 0.8;
/// Least minutes between two feeds, s.
const INTERVAL_LEAST_S: f64 = 60.0;

/// One change a kitchen can make.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// A dish is made elsewhere.
    Leave(usize),
    /// At most so many pieces of a dish are started in a quarter hour.
    Cap(usize, f64),
    /// A dish's carriers go back onto the floor within a minute.
    HotCarrier(usize),
    /// The same pieces, a quarter more often.
    FeedSooner,
    /// The same pieces, a fifth less often.
    FeedLater,
    /// At most so many covers are seated in a quarter hour of the evening as planned; the others later.
    Seat(f64),
    /// Lit and fed as the fire plan of the evening says.
    AsPlanned,
    /// One more pair of hands.
    Hand,
    /// The burner comes on three quarters of an hour earlier.
    BurnerEarlier,
    /// The burner's set point is raised.
    BurnerHotter,
}

impl Step {
    /// Every change that would change something here.
    #[must_use]
    pub fn all(scenario: &Scenario) -> Vec<Self> {
        let ordered: Vec<usize> = (0..scenario.menu.len()).filter(|&d| scenario.menu[d].per_100_covers > 0.0).collect();
        let mut steps = Vec::new();
        for &dish in &ordered {
            if ordered.len() > 1 {
                steps.push(Self::Leave(dish));
            }
            if scenario.menu[dish].cap_per_quarter.is_none()
                && let Some(most) = cap(scenario, dish)
            {
                steps.push(Self::Cap(dish, most));
            }
            if scenario.menu[dish].carrier.as_ref().is_some_and(|c| c.out_s > HOT_CARRIER_OUT_S) {
                steps.push(Self::HotCarrier(dish));
            }
        }
        if !scenario.feeding.phases.is_empty() {
            steps.extend([Self::FeedSooner, Self::FeedLater]);
        }
        steps.extend(seat(scenario));
        steps.extend([Self::AsPlanned, Self::Hand]);
        if scenario.oven.assist.is_some() {
            steps.extend([Self::BurnerEarlier, Self::BurnerHotter]);
        }
        steps
    }

    /// How large a change it is, smallest first, where no money says: what the cook can do tonight, then what guests or cooks
    /// notice, then what costs a dish. Our choice.
    #[must_use]
    pub fn size(self) -> u32 {
        match self {
            Self::FeedSooner | Self::FeedLater => 0,
            Self::AsPlanned => 1,
            Self::BurnerEarlier | Self::BurnerHotter => 2,
            Self::HotCarrier(_) => 3,
            Self::Seat(_) => 4,
            Self::Cap(..) => 5,
            Self::Hand => 6,
            Self::Leave(_) => 7,
        }
    }

    /// Money an evening as planned loses by it, where margins and prices say: the margin of what is no longer sold, the price of
    /// what more is burnt. `None` where it costs something nobody gave a price for (a pair of hands).
    #[must_use]
    pub fn money(self, before: &Scenario, after: &Scenario) -> Option<f64> {
        let wood_kg = |scenario: &Scenario| -> f64 {
            let piece_kg = crate::matter::wood::Fuel::new(&scenario.wood).piece_mass_kg;
            let pieces = |p: &FeedPhase| p.pieces * ((p.to - p.from) / p.every_s).ceil().max(0.0);
            scenario.feeding.phases.iter().map(|p| piece_kg * pieces(p)).sum()
        };
        match self {
            Self::Leave(dish) => {
                let sold = orders(before).iter().filter(|order| order.dish == dish).count() as f64;
                before.menu[dish].margin_each.map(|margin| margin * sold)
            }
            Self::FeedSooner | Self::FeedLater | Self::AsPlanned => {
                before.planning.wood_price_kg.map(|price| price * (wood_kg(after) - wood_kg(before)))
            }
            Self::HotCarrier(_) | Self::Cap(..) | Self::Seat(_) | Self::BurnerEarlier | Self::BurnerHotter => Some(0.0),
            Self::Hand => None,
        }
    }

    /// The dish it is about.
    #[must_use]
    pub fn dish(self) -> Option<usize> {
        match self {
            Self::Leave(dish) | Self::Cap(dish, _) | Self::HotCarrier(dish) => Some(dish),
            _ => None,
        }
    }

    /// Makes the change in a scenario.
    pub fn change(self, scenario: &mut Scenario) {
        match self {
            Self::Leave(dish) => scenario.menu[dish].per_100_covers = 0.0,
            Self::Cap(dish, most) => scenario.menu[dish].cap_per_quarter = Some(most),
            Self::HotCarrier(dish) => {
                if let Some(carrier) = &mut scenario.menu[dish].carrier {
                    carrier.out_s = HOT_CARRIER_OUT_S;
                }
            }
            Self::FeedSooner => pace(scenario, SOONER),
            Self::FeedLater => pace(scenario, LATER),
            // What the plan says, only a search tells: see [`Hunt`].
            Self::AsPlanned => {}
            Self::Seat(most) => seat_at_most(&mut scenario.service.covers, most),
            Self::Hand => scenario.service.hands += 1,
            Self::BurnerEarlier => {
                let earliest = scenario.start.read_at;
                if let Some(assist) = &mut scenario.oven.assist {
                    assist.on_at = (assist.on_at - EARLIER_S).max(earliest);
                }
            }
            Self::BurnerHotter => {
                if let Some(assist) = &mut scenario.oven.assist {
                    assist.set_c = (assist.set_c + HIGHER_K).min(SET_MOST_C);
                }
            }
        }
    }

    /// The kitchen after the change. A warmer carrier changes what its dish takes.
    #[must_use]
    pub fn apply(self, ready: &Ready) -> Ready {
        let mut after = ready.with(|scenario| self.change(scenario));
        if let Self::HotCarrier(dish) = self {
            after.laws[dish] = anchor(&after.scenario.menu[dish], &after.scenario.oven);
        }
        after
    }

    /// Whether two changes make sense together.
    pub(super) fn goes_with(self, other: Self, scenario: &Scenario) -> bool {
        let same_dish = self.dish().is_some() && self.dish() == other.dish();
        let leaves = |s: Self| matches!(s, Self::Leave(_));
        if same_dish && (leaves(self) || leaves(other)) {
            return false;
        }
        let feeds = |s: Self| matches!(s, Self::FeedSooner | Self::FeedLater | Self::AsPlanned);
        if feeds(self) && feeds(other) {
            return false;
        }
        let left = scenario.menu.iter().filter(|d| d.per_100_covers > 0.0).count();
        !(leaves(self) && leaves(other) && left <= 2)
    }
}

/// Three quarters of what the busiest quarter hour orders of a dish; `None` where that caps nothing.
fn cap(scenario: &Scenario, dish: usize) -> Option<f64> {
    let mut by_quarter = vec![0.0_f64; scenario.service.covers.len()];
    for order in orders(scenario).iter().filter(|o| o.dish == dish && !o.batch) {
        let quarter = ((order.at_s - scenario.service.start) / QUARTER_S).max(0.0) as usize;
        if let Some(count) = by_quarter.get_mut(quarter) {
            *count += 1.0;
        }
    }
    let busiest = by_quarter.into_iter().fold(0.0, f64::max);
    let most = (busiest * CAP_SHARE).floor();
    (most >= 1.0 && most < busiest).then_some(most)
}

/// A cap on covers by quarter hour that leaves all of them a seat before the end; `None` where it moves nobody.
fn seat(scenario: &Scenario) -> Option<Step> {
    let covers = &scenario.service.covers;
    let most = (covers.iter().copied().fold(0.0, f64::max) * SEAT_SHARE).floor();
    let mut later = covers.clone();
    seat_at_most(&mut later, most);
    let all_seated = (later.iter().sum::<f64>() - covers.iter().sum::<f64>()).abs() < 1e-6;
    (most >= 1.0 && all_seated && later != *covers).then_some(Step::Seat(most))
}

/// Moves what is over the cap to the next quarter hour, and so on; what is over at the end stays away.
fn seat_at_most(covers: &mut [f64], most: f64) {
    let mut over = 0.0;
    for quarter in covers {
        let wanted = *quarter + over;
        *quarter = wanted.min(most);
        over = wanted - *quarter;
    }
}

fn pace(scenario: &mut Scenario, share: f64) {
    for phase in &mut scenario.feeding.phases {
        let wanted = (phase.every_s * share / INTERVAL_STEP_S).round() * INTERVAL_STEP_S;
        phase.every_s = wanted.max(INTERVAL_LEAST_S);
    }
}
