//! Owns the burner's part of a plan: whether the night needs it, when it must be on, how small it may be, and what would do instead.

use super::burner::{self, Least, LeastBurner, ON_STEP_S, Sizes, limit_c};
use super::cadence::{ACTS_AFTER_S, Cadence};
use super::laziest::{Search, farthest};
use super::light_up::Keenest;
use super::trial::{Bench, Player, Trial};
use crate::hearth::plan::FloorPlan;
use crate::scenario::{Assist, ClockS, Scenario};
use crate::units::time::QUARTER_S;
use crate::units::trade::KILOWATT_HOUR_J;

/// Coals are spread for so long, s. Common practice, no source.
pub const SPREAD_FOR_S: f64 = 900.0;
/// Spread coals are raked back so long before food comes, s. Our choice.
pub const RAKED_BEFORE_S: f64 = 600.0;
/// What a burner spares is looked for in intervals longer by such steps, up to so much longer.
const SPARE_STEP: f64 = 0.05;
const SPARE_MOST: f64 = 1.5;
/// A cap that is tried as a way out: this share of the dish's busiest quarter hour. Our choice.
const CAP_SHARE: f64 = 0.75;

/// Something to try before gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Instead {
    /// Feeding earlier and faster.
    Feed,
    /// Coals spread before the first order.
    Spread {
        /// When they are spread.
        at: ClockS,
    },
    /// A cap on the dish that draws most from the floor.
    Cap {
        /// Index of the dish.
        dish: usize,
        /// Pieces a quarter hour.
        per_quarter: f64,
    },
}

/// The burner at its latest, and the least that would do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GasNeed {
    /// Latest moment to switch it on.
    pub on_at: ClockS,
    /// How long before the rush that is, s.
    pub lead_s: f64,
    /// How long it burns, s of full output.
    pub full_s: f64,
    /// Gas, kWh.
    pub kwh: f64,
    /// The set point it is held at, degC.
    pub set_c: f64,
    /// How long the stone lets nothing of it through, s.
    pub dead_s: f64,
    /// The least burner that carries the evening, with the feeding that suits it.
    pub least: Option<LeastBurner>,
}

/// The burner's part.
#[derive(Clone, Debug, PartialEq)]
pub struct AssistPlan {
    /// What it takes, where the night needs it and it carries.
    pub need: Option<GasNeed>,
    /// Whether the evening carries, with the burner or without.
    pub carries: bool,
    /// Whether the scenario's own feeding leans on gas alone.
    pub leans_on_gas_alone: bool,
    /// Whether the probe lies in the coal bed.
    pub probe_in_bed: bool,
    /// Hottest underside of a day with the burner on: the plan's where it needs gas, else the plan's feeding and the lazier one that
    /// the burner would allow, on as the scenario has it, degC.
    pub underside_c: f64,
    /// The stone's limit, degC.
    pub limit_c: f64,
    /// What was tried before gas, and whether it would do.
    pub instead: Vec<(Instead, bool)>,
    /// Where not even this burner carries: the least that would.
    pub larger: Option<LeastBurner>,
    /// What the burner would spare where it is not needed.
    pub spares: Option<Spares>,
}

/// What a burner that is not needed would spare.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spares {
    /// Wood spared, kg.
    pub wood_kg: f64,
    /// Gas it burns for that, kWh.
    pub kwh: f64,
}

/// Whether a feeding puts no wood on from the first order to the last: then gas is left to carry the night.
#[must_use]
pub fn leans_on_gas_alone(scenario: &Scenario) -> bool {
    let from = scenario.service.start - ACTS_AFTER_S;
    let feeds = scenario.feeding.phases.iter().filter(|p| p.pieces > 0.0 && p.to > from);
    scenario.oven.assist.is_some() && feeds.count() == 0
}

/// The scenario a plan is made for: a probe that lies in the bed is taken to be moved under the food. Says whether it was.
#[must_use]
pub fn probe_seen_to(scenario: &Scenario) -> (Scenario, bool) {
    let mut seen_to = scenario.clone();
    let plan = FloorPlan::new(&scenario.oven, super::trial::coarse().cell_m);
    let in_bed = scenario.oven.assist.as_ref().is_some_and(|burner| burner::probe_in_bed(&plan, burner));
    if let Some(assist) = seen_to.oven.assist.as_mut().filter(|_| in_bed) {
        *assist = burner::with_true_probe(&plan, assist);
    }
    (seen_to, in_bed)
}

/// The burner's part where wood alone carries.
#[must_use]
pub fn not_needed(rough: &Bench, fine: &Bench, trial: &Trial, burner: &Assist) -> AssistPlan {
    let spared = spares(rough, &trial.cadence);
    // Left off is what the plan says; what the stone would bear is asked by whoever switches it on all the same.
    let on = |cadence: &Cadence| fine.try_out(cadence).trace.underside_most_c;
    let lazier_c = spared.as_ref().map_or(f64::NEG_INFINITY, |(_, lazier)| on(lazier));
    let spares = spared.map(|(spares, _)| spares);
    let underside_c = on(&trial.cadence).max(lazier_c);
    AssistPlan { instead: vec![(Instead::Feed, true)], spares, underside_c, ..facts(fine, trial, burner) }
}

/// With the burner as the scenario has it: the plan's rhythm from the first order on, slower by the largest factor that holds, and
/// what that spares.
fn spares(rough: &Bench, cadence: &Cadence) -> Option<(Spares, Cadence)> {
    let player = Player::new(rough);
    let slower = |step: u32| {
        let factor = 1.0 + f64::from(step) * SPARE_STEP;
        cadence.slower(factor)
    };
    let most = (SPARE_MOST / SPARE_STEP) as u32;
    let step = farthest(0, most, |step| player.try_out(&slower(step)).holds());
    let gas = rough.try_out(&slower(step));
    let wood_kg = (cadence.pieces_evenly() - slower(step).pieces_evenly()) * rough.piece_kg();
    let kwh = gas.trace.ledger.assist_j / KILOWATT_HOUR_J;
    (step > 0 && gas.holds()).then(|| (Spares { wood_kg, kwh }, slower(step)))
}

/// The burner's part where not even it carries the evening.
#[must_use]
pub fn not_enough(rough: &Bench, fine: &Bench, keen: Keenest, missed: &Trial, burner: &Assist) -> AssistPlan {
    let larger = Sizes { rough, fine, keen, like: burner }.least(missed).burner();
    AssistPlan { carries: false, instead: instead(rough, missed), larger, ..facts(fine, missed, burner) }
}

fn facts(bench: &Bench, trial: &Trial, burner: &Assist) -> AssistPlan {
    AssistPlan {
        need: None,
        carries: true,
        leans_on_gas_alone: leans_on_gas_alone(&bench.ready.scenario),
        probe_in_bed: burner::probe_in_bed(&bench.ready.build.plan, burner),
        underside_c: trial.trace.underside_most_c,
        limit_c: limit_c(&bench.ready.scenario),
        instead: Vec::new(),
        larger: None,
        spares: None,
    }
}

/// An oven with the burner allowed from a moment to the last order.
#[must_use]
pub fn burning(bench: &Bench, on_at: ClockS) -> Bench {
    let off_at = bench.evening.last_order;
    bench.with(|s| {
        if let Some(burner) = &mut s.oven.assist {
            burner.on_at = on_at;
            burner.off_at = off_at.max(on_at);
        }
    })
}

/// Lets the fire do what it can and the burner make up the rest: its latest switching on, and the smallest one that would carry.
/// `missed` is the closest day without gas; where gas on top of its feeding is too much, a lazier feeding is searched for.
///
/// # Errors
/// The closest day, where not even wood and gas together carry.
pub fn assisted(
    rough: &Bench,
    fine: &Bench,
    keen: Keenest,
    missed: &Trial,
    burner: &Assist,
) -> Result<(Trial, Bench, AssistPlan), Box<Trial>> {
    let earliest = rough.evening.earliest_light;
    let all_day = |bench: &Bench| burning(bench, earliest);
    let (rough_on, fine_on) = (all_day(rough), all_day(fine));
    let on_top = fine_on.try_out(&missed.cadence);
    let found = if on_top.holds() { Ok(on_top) } else { super::fire::search(&rough_on, &fine_on, keen) };
    let trial = match found {
        Ok(trial) => trial,
        Err(missed) => return as_typed(rough, fine, keen, burner, missed),
    };
    let cadence = trial.cadence;
    let least = Sizes { rough, fine, keen, like: burner }.least(missed);
    // A rhythm that was found with gas, this burner's or a smaller one's, may do without: then no gas is needed.
    let by_wood = match &least {
        Least::Wood(by_wood) => (**by_wood).clone(),
        _ => fine.without_gas().try_out(&cadence),
    };
    if by_wood.holds() {
        let bare = fine.without_gas();
        let by_wood = Search::new(&bare, keen).stretched(by_wood);
        let part = not_needed(rough, fine, &by_wood, burner);
        return Ok((by_wood, bare, part));
    }
    let steps = ((rough.evening.last_order - earliest) / ON_STEP_S).max(0.0) as u32;
    let latest = farthest(0, steps, |step| {
        let day = burning(fine, earliest + f64::from(step) * ON_STEP_S).try_out(&cadence);
        day.holds() && burner::burns(&day)
    });
    let on_at = earliest + f64::from(latest) * ON_STEP_S;
    let bench = burning(fine, on_at);
    let trial = bench.try_out(&cadence);
    let need = need(fine, burner, on_at, &trial, least.burner());
    let plan = AssistPlan { need: Some(need), instead: instead(rough, missed), ..facts(fine, &trial, burner) };
    Ok((trial, bench, plan))
}

/// What a day takes of a burner that is on from a moment.
fn need(fine: &Bench, burner: &Assist, on_at: ClockS, trial: &Trial, least: Option<LeastBurner>) -> GasNeed {
    let gas_j = trial.trace.ledger.assist_j;
    GasNeed {
        on_at,
        lead_s: fine.evening.rush[0] - on_at,
        full_s: gas_j / burner.rated_w.max(1.0),
        kwh: gas_j / KILOWATT_HOUR_J,
        set_c: burner.set_c,
        dead_s: burner::dead_s(&fine.ready.scenario),
        least,
    }
}

/// The day as it was typed, burner and all, where no feeding was found with the burner allowed all day.
fn as_typed(
    rough: &Bench,
    fine: &Bench,
    keen: Keenest,
    burner: &Assist,
    missed: Box<Trial>,
) -> Result<(Trial, Bench, AssistPlan), Box<Trial>> {
    let typed = Cadence::as_typed(fine.evening, &fine.ready.scenario.feeding).map(|typed| fine.try_out(&typed));
    let Some(trial) = typed.filter(Trial::holds) else { return Err(missed) };
    let least = Sizes { rough, fine, keen, like: burner }.least(&missed).burner();
    let need = need(fine, burner, burner.on_at, &trial, least);
    let plan = AssistPlan { need: Some(need), instead: instead(rough, &missed), ..facts(fine, &trial, burner) };
    Ok((trial, fine.clone(), plan))
}

/// What would do instead of gas, tried on the closest day without it.
#[must_use]
pub fn instead(rough: &Bench, missed: &Trial) -> Vec<(Instead, bool)> {
    let cold = rough.without_gas();
    let at = rough.evening.first_order - RAKED_BEFORE_S - SPREAD_FOR_S;
    let spread = cold.spreading(at, SPREAD_FOR_S).try_out(&missed.cadence).holds();
    let mut tried = vec![(Instead::Feed, false), (Instead::Spread { at }, spread)];
    if let Some((dish, per_quarter)) = hungriest(missed, rough) {
        let capped = cold.with(|s| s.menu[dish].cap_per_quarter = Some(per_quarter));
        tried.push((Instead::Cap { dish, per_quarter }, capped.try_out(&missed.cadence).holds()));
    }
    tried
}

/// The dish that drew most from the floor, and a cap under its busiest quarter hour.
fn hungriest(trial: &Trial, bench: &Bench) -> Option<(usize, f64)> {
    let mut drawn = vec![0.0; bench.ready.scenario.menu.len()];
    for bake in &trial.trace.bakes {
        drawn[bake.dish] += bake.base_j;
    }
    let dish = (0..drawn.len()).max_by(|&a, &b| drawn[a].total_cmp(&drawn[b]))?;
    let starts: Vec<f64> = trial.trace.bakes.iter().filter(|b| b.dish == dish).map(|b| b.ordered_s).collect();
    let in_quarter = |at: f64| starts.iter().filter(|t| (at..at + QUARTER_S).contains(t)).count();
    let most = trial.trace.quarters.iter().map(|q| in_quarter(q.at_s)).max()?;
    Some((dish, (CAP_SHARE * most as f64).floor().max(1.0)))
}
