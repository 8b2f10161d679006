//! Owns the ways out: single changes and pairs of them, each with the covers it gains, found coarsely and verified in full.

use super::burner::{Sought, sought};
use super::light_up::keenest;
use super::reach::{SEARCH_ACCURACY, STEPS_IN_ONE, STEPS_MOST, Search, covers_at, first_breach};
use super::trial::{Bench, coarse};
use crate::hearth::build::DEFAULT_ACCURACY;
use crate::scenario::{FeedPhase, Scenario};
use crate::service::judge::{Pledge, Resource};
use crate::service::night::Ready;
use serde::{Deserialize, Serialize};

pub use super::step::Step;

/// Pairs are looked for about so many of the best single changes.
const PAIRS_ABOUT: usize = 3;

/// A way out.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// One change, or two.
    pub steps: Vec<Step>,
    /// Most covers after it, verified at the default cut.
    pub most_covers: f64,
    /// Covers it gains.
    pub gained: f64,
    /// Whether the evening as planned is carried after it.
    pub suffices: bool,
    /// Money an evening as planned loses by it, where margins and prices say.
    pub loses: Option<f64>,
    /// The scenario after it.
    pub after: Scenario,
}

impl Way {
    /// The largest of its changes.
    fn size(&self) -> u32 {
        self.steps.iter().map(|step| step.size()).max().unwrap_or(0)
    }
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
    /// Single changes that gain something: those that are enough for the evening as planned first, then the smallest change (a wait
    /// has no price, but is a loss); of equal ones the one that loses least money where margins say, then the one that gains most.
    pub ways: Vec<Way>,
    /// Single changes that were tried and gain nothing.
    pub vain: Vec<Step>,
    /// The best two changes together, where they gain more than the best one.
    pub two: Option<Way>,
    /// Dishes by what they earn for a minute of the hearth, where margins are given.
    pub earns: Vec<Earns>,
    /// The least burner that carries the evening as planned, where floor heat gave first and one was looked for.
    pub burner: Option<Sought>,
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

/// How the fire plan lights and feeds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PlannedFire {
    /// The match.
    light_at: f64,
    /// Each stretch: from, to, every, s; pieces.
    stretches: Vec<[f64; 4]>,
}

impl PlannedFire {
    fn feed(&self, scenario: &mut Scenario) {
        scenario.feeding.light_at = self.light_at;
        let stretch = |s: &[f64; 4]| FeedPhase { from: s[0], to: s[1], every_s: s[2], pieces: s[3] };
        scenario.feeding.phases = self.stretches.iter().map(stretch).collect();
    }
}

/// One change, searched.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Single {
    /// Its place in [`Step::all`].
    pub step: usize,
    /// Most steps after it on the coarse cut.
    pub coarse: u32,
    /// Most steps after it at the default cut, where the coarse one saw a gain.
    pub steps: Option<u32>,
    /// The fire plan, where that is the change.
    pub fire: Option<PlannedFire>,
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

fn after(ready: &Ready, steps: &[Step], fire: Option<&PlannedFire>) -> Ready {
    let after = steps.iter().fold(ready.clone(), |ready, step| step.apply(&ready));
    match fire.filter(|_| steps.contains(&Step::AsPlanned)) {
        Some(fire) => after.with(|scenario| fire.feed(scenario)),
        None => after,
    }
}

impl Hunt {
    /// Sets up a kitchen.
    #[must_use]
    pub fn new(scenario: &Scenario) -> Self {
        let fine = Ready::new(scenario, DEFAULT_ACCURACY);
        let coarse = Ready { noted: fine.noted.clone(), ..Ready::new(scenario, SEARCH_ACCURACY) };
        Self { fine, coarse, all: Step::all(scenario) }
    }

    /// The same hunt with no fault noted, and none shared with this one.
    #[must_use]
    pub fn afresh(&self) -> Self {
        let fine = self.fine.afresh();
        let coarse = Ready { noted: fine.noted.clone(), ..self.coarse.clone() };
        Self { fine, coarse, all: self.all.clone() }
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
        let none = Single { step, coarse: base.coarse, steps: None, fire: None };
        if change != Step::AsPlanned {
            let coarse = Search::new(&change.apply(&self.coarse)).most(from).steps;
            let steps = (coarse > base.coarse).then(|| self.held(&[change], None, coarse));
            return Some(Single { coarse, steps, ..none });
        }
        // The plan is the laziest for the evening as it is: one that is carried already gains nothing by it.
        let Some(fire) = (base.steps < STEPS_IN_ONE).then(|| self.planned_fire()).flatten() else { return Some(none) };
        let coarse = Search::new(&after(&self.coarse, &[change], Some(&fire))).most(STEPS_IN_ONE).steps;
        let steps = self.held(&[change], Some(&fire), coarse.max(STEPS_IN_ONE));
        Some(Single { coarse, steps: Some(steps), fire: Some(fire), ..none })
    }

    fn planned_fire(&self) -> Option<PlannedFire> {
        let scenario = &self.fine.scenario;
        let [rough, fine] = [coarse(), DEFAULT_ACCURACY].map(|cut| Bench::new(scenario, cut).noting(&self.fine.noted));
        let keen = keenest(&super::fire::usual(&rough.without_gas()));
        let trial = super::fire::search(&rough, &fine, keen).ok()?;
        let phases = trial.cadence.phases();
        let stretches = phases.iter().map(|p| [p.feed.from, p.feed.to, p.feed.every_s, p.feed.pieces]).collect();
        Some(PlannedFire { light_at: trial.cadence.light_at, stretches })
    }

    /// Plays a change at the default cut: the most steps, from a coarse answer down, that hold.
    fn held(&self, steps: &[Step], fire: Option<&PlannedFire>, coarse: u32) -> u32 {
        Search::new(&after(&self.fine, steps, fire)).down_from(coarse)
    }

    /// The single changes pairs are looked for about, the best first.
    #[must_use]
    pub fn firsts(&self, singles: &[Single]) -> Vec<usize> {
        let mut singles = singles.to_vec();
        // Two dishes off the menu always gain most, and help nobody who wants to sell them.
        let costs = |single: &Single| self.costs_a_dish(single.step);
        crate::numerics::order::by(&mut singles, |a, b| {
            costs(a).cmp(&costs(b)).then(b.coarse.cmp(&a.coarse)).then(a.step.cmp(&b.step))
        });
        singles.iter().take(PAIRS_ABOUT).map(|single| single.step).collect()
    }

    /// Whether a change takes a dish off the hearth.
    fn costs_a_dish(&self, step: usize) -> bool {
        matches!(self.all.get(step), Some(Step::Leave(_)))
    }

    /// The best pair with one change in it: another is searched only if both carry one step more than the best so far, and none that
    /// takes a dish off the hearth where two do it without.
    #[must_use]
    pub fn pair(&self, base: &Base, singles: &[Single], first: usize) -> Option<Pair> {
        let one = *self.all.get(first)?;
        let fire = planned_in(singles);
        let pair = [false, true].into_iter().find_map(|with_dishes| self.pair_of(base, singles, first, with_dishes));
        let best = pair.map(|(second, coarse)| (second, self.held(&[one, self.all[second]], fire, coarse)));
        Some(Pair { first, best })
    }

    /// The best partner of a change on the coarse cut, dishes off the hearth among them or not, and the steps both carry.
    fn pair_of(&self, base: &Base, singles: &[Single], first: usize, with_dishes: bool) -> Option<(usize, u32)> {
        let one = *self.all.get(first)?;
        let fire = planned_in(singles);
        let may = |step: usize| with_dishes || !self.costs_a_dish(step);
        if !may(first) {
            return None;
        }
        let alone = singles.iter().filter(|single| may(single.step)).map(|single| single.coarse);
        let mut best = alone.fold(base.coarse, u32::max).min(STEPS_MOST);
        let mut pair = None;
        for (second, other) in self.all.iter().enumerate() {
            let is_fed = fire.is_some() || ![one, *other].contains(&Step::AsPlanned);
            if second == first || !may(second) || !is_fed || !one.goes_with(*other, &self.coarse.scenario) {
                continue;
            }
            let both = after(&self.coarse, &[one, *other], fire);
            let search = Search::new(&both);
            if best < STEPS_MOST && search.carries(best + 1) {
                best = search.most(best + 1).steps;
                pair = Some((second, best));
            }
        }
        pair
    }

    /// The least burner that carries the evening as planned.
    #[must_use]
    pub fn burner(&self) -> Sought {
        sought(&self.fine.scenario, &self.fine.noted)
    }

    fn way(&self, base: &Base, steps: &[usize], fire: Option<&PlannedFire>, held: u32) -> Way {
        let scenario = &self.fine.scenario;
        let steps: Vec<Step> = steps.iter().filter_map(|&place| self.all.get(place).copied()).collect();
        let most_covers = covers_at(scenario, held);
        let gained = most_covers - covers_at(scenario, base.steps);
        let mut after = scenario.clone();
        steps.iter().for_each(|step| step.change(&mut after));
        if let Some(fire) = fire.filter(|_| steps.contains(&Step::AsPlanned)) {
            fire.feed(&mut after);
        }
        let each = steps.iter().map(|step| step.money(scenario, &after));
        let loses = each.sum();
        Way { steps, most_covers, gained, suffices: held >= STEPS_IN_ONE, loses, after }
    }

    /// Adds up what was searched.
    #[must_use]
    pub fn reach(&self, base: &Base, singles: &[Single], pairs: &[Pair], burner: Option<Sought>) -> Reach {
        let scenario = &self.fine.scenario;
        let fire = planned_in(singles);
        let mut ways: Vec<Way> =
            singles.iter().filter_map(|s| s.steps.map(|held| self.way(base, &[s.step], fire, held))).collect();
        ways.retain(|way| way.gained > 0.0);
        let gains = |step: &Step| ways.iter().any(|way| way.steps.contains(step));
        // What was not tried is not in vain: the fire plan of an evening that is carried already.
        let is_tried = |step: &Step| *step != Step::AsPlanned || base.steps < STEPS_IN_ONE;
        let vain = self.all.iter().copied().filter(|step| is_tried(step) && !gains(step)).collect();
        by_least_loss(&mut ways, scenario);
        let pairs =
            pairs.iter().filter_map(|p| p.best.map(|(second, held)| self.way(base, &[p.first, second], fire, held)));
        let two = best_two(&ways, pairs.collect());
        Reach {
            planned: covers_at(scenario, STEPS_IN_ONE),
            most_covers: covers_at(scenario, base.steps),
            gives: base.gives,
            ways,
            vain,
            two,
            earns: earns(&self.fine),
            burner,
        }
    }
}

/// The pair that gains most: of those that take no dish off the hearth if one gains more than any such change alone, else of all.
fn best_two(ways: &[Way], pairs: Vec<Way>) -> Option<Way> {
    let keeps = |way: &&Way| !way.steps.iter().any(|step| matches!(step, Step::Leave(_)));
    let most = |ways: &mut dyn Iterator<Item = &Way>| ways.map(|way| way.gained).fold(0.0, f64::max);
    let best = |alone: f64, pairs: &mut dyn Iterator<Item = &Way>| {
        pairs.filter(|way| way.gained > alone).reduce(|a, b| if b.gained > a.gained { b } else { a }).cloned()
    };
    let kept = best(most(&mut ways.iter().filter(keeps)), &mut pairs.iter().filter(keeps));
    kept.or_else(|| best(most(&mut ways.iter()), &mut pairs.iter()))
}

/// Puts what is enough first, then what loses least.
fn by_least_loss(ways: &mut Vec<Way>, scenario: &Scenario) {
    let ordered = |dish: &&crate::scenario::Dish| dish.per_100_covers > 0.0;
    let is_priced = scenario.menu.iter().filter(ordered).all(|dish| dish.margin_each.is_some());
    let money = |way: &Way| if is_priced { way.loses.unwrap_or(f64::INFINITY).max(0.0) } else { 0.0 };
    crate::numerics::order::by(ways, |a, b| {
        let enough = b.suffices.cmp(&a.suffices);
        let loss = a.size().cmp(&b.size()).then(money(a).total_cmp(&money(b)));
        enough.then(loss).then(b.gained.total_cmp(&a.gained))
    });
}

/// The fire plan among the single changes, if it was found.
fn planned_in(singles: &[Single]) -> Option<&PlannedFire> {
    singles.iter().find_map(|single| single.fire.as_ref())
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
