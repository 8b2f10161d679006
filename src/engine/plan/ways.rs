//! Owns the ways out: single changes and pairs of them, each with the covers it gains, found coarsely and verified in full.

use super::reach::{
    LeastBurner, SEARCH_ACCURACY, STEPS_IN_ONE, STEPS_MOST, Search, covers_at, first_breach, least_burner,
};
use crate::demand::anchor;
use crate::hearth::build::DEFAULT_ACCURACY;
use crate::scenario::Scenario;
use crate::service::judge::{Pledge, Resource};
use crate::service::night::Ready;
use crate::service::orders::orders;
use crate::units::time::QUARTER_S;
use serde::{Deserialize, Serialize};

/// A carrier that stays hot is back on the floor after this long, s.
const HOT_CARRIER_OUT_S: f64 = 60.0;
/// Feeding sooner: intervals shrink to this share.
const SOONER: f64 = 0.8;
/// Feeding later: intervals grow to this share.
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
/// Pairs are looked for about so many of the best single changes.
const PAIRS_ABOUT: usize = 3;
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
    /// The same pieces, a fifth more often.
    FeedSooner,
    /// The same pieces, a quarter less often.
    FeedLater,
    /// At most so many covers are seated in a quarter hour of the evening as planned; the others later.
    Seat(f64),
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
        steps.push(Self::Hand);
        if scenario.oven.assist.is_some() {
            steps.extend([Self::BurnerEarlier, Self::BurnerHotter]);
        }
        steps
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
    fn goes_with(self, other: Self, scenario: &Scenario) -> bool {
        let same_dish = self.dish().is_some() && self.dish() == other.dish();
        let leaves = |s: Self| matches!(s, Self::Leave(_));
        if same_dish && (leaves(self) || leaves(other)) {
            return false;
        }
        if matches!((self, other), (Self::FeedSooner, Self::FeedLater) | (Self::FeedLater, Self::FeedSooner)) {
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

/// A way out.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// One change, or two.
    pub steps: Vec<Step>,
    /// Most covers after it, verified at the default cut.
    pub most_covers: f64,
    /// Covers it gains.
    pub gained: f64,
    /// The scenario after it.
    pub after: Scenario,
}

/// What one piece of a dish earns for what it takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Earns {
    /// Its index.
    pub dish: usize,
    /// Money for a minute of the whole hearth: its margin over bake time by how many fit.
    pub by_hearth_min: f64,
    /// Money for a MJ of heat into the piece.
    pub by_mj: f64,
}

/// The reach of a kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct Reach {
    /// Covers as planned.
    pub planned: f64,
    /// Most covers at this mix.
    pub most_covers: f64,
    /// What gives just beyond.
    pub gives: Option<Resource>,
    /// Single changes that gain something, the best first.
    pub ways: Vec<Way>,
    /// The best two changes together, where they gain more than the best one.
    pub two: Option<Way>,
    /// Dishes by what they earn for a minute of the hearth, where margins are given.
    pub earns: Vec<Earns>,
    /// The least burner that carries the evening as planned, where floor heat gave first and one does.
    pub burner: Option<LeastBurner>,
    /// Whether a burner was looked for.
    pub burner_sought: bool,
}

/// Where a kitchen stands before any change.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Base {
    /// Most steps on the coarse cut.
    pub coarse: u32,
    /// Most steps at the default cut.
    pub steps: u32,
    /// What gives one step up.
    pub gives: Option<Resource>,
    /// Whether floor heat gives first on the evening as planned: then a burner is looked for.
    pub wants_burner: bool,
}

/// One change, searched.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Single {
    /// Its place in [`Step::all`].
    pub step: usize,
    /// Most steps after it on the coarse cut.
    pub coarse: u32,
    /// Most steps after it at the default cut, where the coarse one saw a gain.
    pub steps: Option<u32>,
}

/// The best pair with one change in it, searched.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pair {
    /// Place of the one change in [`Step::all`].
    pub first: usize,
    /// Place of the other, and the most steps after both at the default cut; none where no pair gains more than one change.
    pub best: Option<(usize, u32)>,
}

/// A search for ways out.
pub struct Hunt {
    fine: Ready,
    coarse: Ready,
    all: Vec<Step>,
}

fn after(ready: &Ready, steps: &[Step]) -> Ready {
    steps.iter().fold(ready.clone(), |ready, step| step.apply(&ready))
}

impl Hunt {
    /// Sets up a kitchen.
    #[must_use]
    pub fn new(scenario: &Scenario) -> Self {
        let (fine, coarse) = (Ready::new(scenario, DEFAULT_ACCURACY), Ready::new(scenario, SEARCH_ACCURACY));
        Self { fine, coarse, all: Step::all(scenario) }
    }

    /// The kitchen at the default cut.
    #[must_use]
    pub fn fine(&self) -> &Ready {
        &self.fine
    }

    /// How many single changes there are.
    #[must_use]
    pub fn changes(&self) -> usize {
        self.all.len()
    }

    /// Searches the kitchen as it is.
    #[must_use]
    pub fn base(&self) -> Base {
        let found = Search::new(&self.coarse).most(STEPS_IN_ONE);
        let base = Search::new(&self.fine).settle(found);
        let planned = if base.steps >= STEPS_IN_ONE { None } else { first_breach(&self.fine) };
        Base {
            coarse: found.steps,
            steps: base.steps,
            gives: base.breach.map(|b| b.gives),
            wants_burner: planned.is_some_and(|b| b.gives == Resource::FloorHeat && b.pledge != Pledge::FireLimits),
        }
    }

    /// Searches one single change.
    #[must_use]
    pub fn single(&self, base: &Base, step: usize) -> Option<Single> {
        let from = base.coarse.max(STEPS_IN_ONE / 2);
        let change = *self.all.get(step)?;
        let coarse = Search::new(&change.apply(&self.coarse)).most(from).steps;
        let steps = (coarse > base.coarse).then(|| self.held(&[change], coarse));
        Some(Single { step, coarse, steps })
    }

    /// Plays a change at the default cut: the most steps, from a coarse answer down, that hold.
    fn held(&self, steps: &[Step], coarse: u32) -> u32 {
        Search::new(&after(&self.fine, steps)).down_from(coarse)
    }

    /// The single changes pairs are looked for about, the best first.
    #[must_use]
    pub fn firsts(&self, singles: &[Single]) -> Vec<usize> {
        let mut singles = singles.to_vec();
        crate::numerics::order::by(&mut singles, |a, b| b.coarse.cmp(&a.coarse).then(a.step.cmp(&b.step)));
        singles.iter().take(PAIRS_ABOUT).map(|single| single.step).collect()
    }

    /// The best pair with one change in it: another is searched only if both carry one step more than the best so far.
    #[must_use]
    pub fn pair(&self, base: &Base, singles: &[Single], first: usize) -> Option<Pair> {
        let one = *self.all.get(first)?;
        let mut best = singles.iter().map(|s| s.coarse).fold(base.coarse, u32::max).min(STEPS_MOST);
        let mut pair = None;
        for (second, other) in self.all.iter().enumerate() {
            if second == first || !one.goes_with(*other, &self.coarse.scenario) {
                continue;
            }
            let both = after(&self.coarse, &[one, *other]);
            let search = Search::new(&both);
            if best < STEPS_MOST && search.carries(best + 1) {
                best = search.most(best + 1).steps;
                pair = Some((second, best));
            }
        }
        let best = pair.map(|(second, coarse)| (second, self.held(&[one, self.all[second]], coarse)));
        Some(Pair { first, best })
    }

    /// The least burner that carries the evening as planned.
    #[must_use]
    pub fn burner(&self) -> Option<LeastBurner> {
        least_burner(&self.coarse)
    }

    fn way(&self, base: &Base, steps: &[usize], held: u32) -> Way {
        let scenario = &self.fine.scenario;
        let steps: Vec<Step> = steps.iter().filter_map(|&place| self.all.get(place).copied()).collect();
        let most_covers = covers_at(scenario, held);
        let gained = most_covers - covers_at(scenario, base.steps);
        let mut after = scenario.clone();
        steps.iter().for_each(|step| step.change(&mut after));
        Way { steps, most_covers, gained, after }
    }

    /// Adds up what was searched.
    #[must_use]
    pub fn reach(&self, base: &Base, singles: &[Single], pairs: &[Pair], burner: Option<LeastBurner>) -> Reach {
        let scenario = &self.fine.scenario;
        let mut ways: Vec<Way> =
            singles.iter().filter_map(|s| s.steps.map(|held| self.way(base, &[s.step], held))).collect();
        ways.retain(|way| way.gained > 0.0);
        crate::numerics::order::by(&mut ways, |a, b| b.gained.total_cmp(&a.gained));
        let best = ways.first().map_or(0.0, |way| way.gained);
        let pairs = pairs.iter().filter_map(|p| p.best.map(|(second, held)| self.way(base, &[p.first, second], held)));
        let two = pairs.filter(|way| way.gained > best).reduce(|a, b| if b.gained > a.gained { b } else { a });
        Reach {
            planned: covers_at(scenario, STEPS_IN_ONE),
            most_covers: covers_at(scenario, base.steps),
            gives: base.gives,
            ways,
            two,
            earns: earns(&self.fine),
            burner,
            burner_sought: base.wants_burner,
        }
    }
}

/// Dishes with a margin, by what a minute of the whole hearth earns with them at their known bake.
fn earns(ready: &Ready) -> Vec<Earns> {
    /// Seconds in a minute.
    const MINUTE_S: f64 = 60.0;
    let mut all: Vec<Earns> = Vec::new();
    for (dish, spec) in ready.scenario.menu.iter().enumerate() {
        if let Some(margin) = spec.margin_each {
            let hearth_min = spec.known_bake.time_s / MINUTE_S / ready.spots.fit[dish].max(1) as f64;
            let mj = ready.laws[dish].need_j() * 1e-6;
            all.push(Earns { dish, by_hearth_min: margin / hearth_min, by_mj: margin / mj });
        }
    }
    crate::numerics::order::by(&mut all, |a, b| b.by_hearth_min.total_cmp(&a.by_hearth_min));
    all
}
