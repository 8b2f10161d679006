//! Owns the least burner that carries an evening: every size with the feeding that suits it, the answer verified at full accuracy.

use super::laziest::{Search, farthest};
use super::light_up::Keenest;
use super::trial::{Bench, Trial};
use crate::hearth::build::DEFAULT_ACCURACY;
use crate::hearth::fault::Noted;
use crate::hearth::plan::FloorPlan;
use crate::matter::stone;
use crate::scenario::{Assist, AssistControl, ClockS, Scenario};
use crate::units::trade::{KILOWATT_HOUR_J, KILOWATT_W};

/// A burner is looked for up to this rated input, W.
const MOST_W: f64 = 60.0 * KILOWATT_W;
/// Burners come in steps of this, W.
const STEP_W: f64 = 0.5 * KILOWATT_W;
/// What the coarse cut finds is moved up by at most so many steps until it holds at the default one.
const VERIFY_STEPS: u32 = 4;
/// The burner's time is cut to this, s.
pub const ON_STEP_S: f64 = 900.0;
/// How long a burner is on before service on a floor that is tried with one, s: by then 8 cm of stone have answered.
const LEAD_S: f64 = 5400.0;
/// Share of the rated input that reaches the stone where no burner is there yet. From memory: 40-50 % (`oven.assist`'s default).
const DELIVERED_SHARE: f64 = 0.45;
/// Dead band of a burner that is not there yet, K. Common practice, no source.
const DEAD_BAND_K: f64 = 10.0;
/// Depth of its probe, m: half a thin face layer at most. Common practice, no source.
const PROBE_DEPTH_M: f64 = 0.02;
/// Places for a probe that does not lie in the bed, across and along, the middle first.
const PROBE_PLACES: [[f64; 2]; 5] = [[0.0, 0.5], [0.4, 0.5], [-0.4, 0.5], [0.0, 0.3], [0.0, 0.7]];

/// A burner that carries an evening.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct LeastBurner {
    /// Rated input, W.
    pub rated_w: f64,
    /// Into the stone, W.
    pub delivered_w: f64,
    /// Its set point, degC.
    pub set_c: f64,
    /// How long before the first order it must be on, s.
    pub lead_s: f64,
    /// How long the stone lets nothing of it through, s.
    pub dead_s: f64,
    /// How long it burns, s of full output.
    pub full_s: f64,
    /// Gas of the evening, kWh.
    pub kwh: f64,
    /// Hottest underside of the stone, degC.
    pub underside_c: f64,
    /// The stone's limit, degC.
    pub limit_c: f64,
}

/// What a search for a burner ends with.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sought {
    /// Wood alone carries the evening, fed as the fire plan says.
    WoodCarries,
    /// Wood alone carries it after all: fed by the rhythm that was found with a burner, which then never burns.
    WoodFed {
        /// The match.
        light_at: ClockS,
        /// Interval in each stretch (light-up, to the rush, rush, after it), s.
        every_s: [f64; 4],
        /// Pieces at each feed.
        pieces: f64,
    },
    /// This one carries it.
    Least(LeastBurner),
    /// None up to the largest looked at does.
    None,
}

/// A burner that burns less than this in an evening carries nothing, J: a minute of the smallest.
const GAS_LEAST_J: f64 = 60.0 * STEP_W;

/// What carries an evening that the fire alone was not found to.
#[derive(Clone, Debug)]
pub enum Least {
    /// This burner, as it was simulated.
    Burner(LeastBurner),
    /// The fire alone, fed by the rhythm that was found with a burner.
    Wood(Box<Trial>),
    /// No burner up to the largest looked at.
    None,
}

impl Least {
    /// The burner, if it is one.
    #[must_use]
    pub fn burner(&self) -> Option<LeastBurner> {
        if let Self::Burner(least) = self { Some(*least) } else { None }
    }
}

/// Whether a day's gas is worth the name.
#[must_use]
pub fn burns(trial: &Trial) -> bool {
    trial.trace.ledger.assist_j > GAS_LEAST_J
}

/// The burner a floor is tried with where none is there: its probe in the middle, set to the middle of the menu's bands.
#[must_use]
pub fn burner_for(scenario: &Scenario, rated_w: f64) -> Assist {
    let (start, end) = (scenario.service.start, scenario.service.end);
    let face_m = scenario.oven.floor_layers.first().map_or(PROBE_DEPTH_M, |layer| layer.thickness_m);
    Assist {
        rated_w,
        delivered_share: DELIVERED_SHARE,
        control: AssistControl::OnOff,
        probe_across: 0.0,
        probe_along: 0.5,
        probe_depth_m: PROBE_DEPTH_M.min(0.5 * face_m),
        set_c: super::feeding_rule::aim_c(scenario),
        dead_band_k: DEAD_BAND_K,
        on_at: start - LEAD_S,
        off_at: end,
    }
}

/// Whether a burner's probe lies in the coal bed, where it reads the fire.
#[must_use]
pub fn probe_in_bed(plan: &FloorPlan, burner: &Assist) -> bool {
    plan.cells[plan.probe_cell(burner.probe_across, burner.probe_along)].under_fire
}

/// The burner with its probe under the food: one that reads the fire says nothing of the floor, and no plan is made by it.
#[must_use]
pub fn with_true_probe(plan: &FloorPlan, burner: &Assist) -> Assist {
    let place = |[probe_across, probe_along]: [f64; 2]| Assist { probe_across, probe_along, ..burner.clone() };
    let kept = [[burner.probe_across, burner.probe_along]];
    let places = kept.into_iter().chain(PROBE_PLACES).map(place);
    places.into_iter().find(|burner| !probe_in_bed(plan, burner)).unwrap_or_else(|| burner.clone())
}

/// How long the stone over a burner lets nothing through, s: thickness squared over six diffusivities, the time lag of a slab
/// (Daynes (1920) Proc. R. Soc. A 97:286, and Barrer (1939) Trans. Faraday Soc. 35:628, for a gas; heat diffuses by the same law).
#[must_use]
pub fn dead_s(scenario: &Scenario) -> f64 {
    let layer = &scenario.oven.floor_layers[0];
    let stone = stone::material_or_default(&layer.material);
    let at_c = scenario.oven.assist.as_ref().map_or_else(|| super::feeding_rule::aim_c(scenario), |a| a.set_c);
    let diffusivity = stone.k_w_m_k(at_c) / (stone.density_kg_m3 * stone.cp_j_kg_k(at_c));
    layer.thickness_m * layer.thickness_m / (6.0 * diffusivity)
}

/// The stone's limit, degC.
#[must_use]
pub fn limit_c(scenario: &Scenario) -> f64 {
    stone::material_or_default(&scenario.oven.floor_layers[0].material).limit_c
}

/// One evening and the burners that are tried under it.
pub struct Sizes<'a> {
    /// The oven on the coarse cut and on the default one, built with a burner.
    pub rough: &'a Bench,
    /// See `rough`.
    pub fine: &'a Bench,
    /// How fast it may be fed.
    pub keen: Keenest,
    /// The burner but for its size and hours.
    pub like: &'a Assist,
}

impl Sizes<'_> {
    /// The oven over a burner of so many steps, allowed from a moment on.
    fn over(&self, bench: &Bench, step: u32, on_at: f64) -> Bench {
        let off_at = bench.evening.last_order.max(on_at);
        let burner = Assist { rated_w: f64::from(step) * STEP_W, on_at, off_at, ..self.like.clone() };
        bench.with(|s| s.oven.assist = Some(burner))
    }

    /// The closest feeding without gas where the burner on top of it is enough, else any that holds.
    fn fed(&self, bench: &Bench, first: &Trial) -> Option<Trial> {
        let on_top = bench.try_out(&first.cadence);
        if on_top.holds() { Some(on_top) } else { Search::new(bench, self.keen).any().ok() }
    }

    /// The least size that carries. `missed` is the closest day without gas.
    #[must_use]
    pub fn least(&self, missed: &Trial) -> Least {
        let earliest = self.rough.evening.earliest_light;
        let most = (MOST_W / STEP_W) as u32;
        let mut best = missed.clone();
        let mut carries = |step: u32| {
            let found = self.fed(&self.over(self.rough, step, earliest), &best);
            found.map(|trial| best = trial).is_some()
        };
        let (mut bad, mut good) = (0, 1);
        while !carries(good) {
            if good >= most {
                return Least::None;
            }
            bad = good;
            good = (2 * good).min(most);
        }
        while good > bad + 1 {
            let middle = good.midpoint(bad);
            if carries(middle) { good = middle } else { bad = middle }
        }
        (good..=(good + VERIFY_STEPS).min(most)).find_map(|step| self.verified(step, &best)).unwrap_or(Least::None)
    }

    /// A size at the default cut, switched on as late as holds; where its rhythm holds without it, that.
    fn verified(&self, step: u32, best: &Trial) -> Option<Least> {
        let earliest = self.fine.evening.earliest_light;
        let trial = self.fed(&self.over(self.fine, step, earliest), best)?;
        let by_wood = self.fine.without_gas().try_out(&trial.cadence);
        if by_wood.holds() {
            return Some(Least::Wood(Box::new(by_wood)));
        }
        let at = |later: u32| self.over(self.fine, step, earliest + f64::from(later) * ON_STEP_S);
        let steps = ((self.fine.evening.last_order - earliest) / ON_STEP_S).max(0.0) as u32;
        let mut day = self.over(self.fine, step, earliest).try_out(&trial.cadence);
        if !(day.holds() && burns(&day)) {
            return None;
        }
        let later = farthest(0, steps, |later| {
            let tried = at(later).try_out(&trial.cadence);
            // An evening on an edge may hold over a burner that never burns: that is none.
            let holds = tried.holds() && burns(&tried);
            if holds {
                day = tried;
            }
            holds
        });
        let rated_w = f64::from(step) * STEP_W;
        let gas_j = day.trace.ledger.assist_j;
        Some(Least::Burner(LeastBurner {
            rated_w,
            delivered_w: rated_w * self.like.delivered_share,
            set_c: self.like.set_c,
            lead_s: self.fine.evening.first_order - earliest - f64::from(later) * ON_STEP_S,
            dead_s: dead_s(&self.fine.ready.scenario),
            full_s: gas_j / rated_w,
            kwh: gas_j / KILOWATT_HOUR_J,
            underside_c: day.trace.underside_most_c,
            limit_c: limit_c(&self.fine.ready.scenario),
        }))
    }
}

/// Looks for the least burner under a kitchen, which need not have one; not where wood alone carries, fed as the fire plan says.
#[must_use]
pub fn sought(scenario: &Scenario, noted: &Noted) -> Sought {
    let cuts = [super::trial::coarse(), DEFAULT_ACCURACY];
    let mut given = scenario.clone();
    let burner = scenario.oven.assist.clone().unwrap_or_else(|| burner_for(scenario, STEP_W));
    let like = with_true_probe(&FloorPlan::new(&scenario.oven, cuts[0].cell_m), &burner);
    given.oven.assist = Some(like.clone());
    let [rough, fine] = cuts.map(|cut| Bench::new(&given, cut).noting(noted));
    let keen = super::light_up::keenest(&super::fire::usual(&rough.without_gas()));
    match super::fire::search(&rough.without_gas(), &fine.without_gas(), keen) {
        Ok(_) => Sought::WoodCarries,
        Err(missed) => {
            let keen = super::light_up::keenest(&rough.without_gas());
            match (Sizes { rough: &rough, fine: &fine, keen, like: &like }.least(&missed)) {
                Least::Burner(least) => Sought::Least(least),
                Least::Wood(fed) => {
                    let super::cadence::Cadence { light_at, every_s, pieces, .. } = fed.cadence;
                    Sought::WoodFed { light_at, every_s, pieces }
                }
                Least::None => Sought::None,
            }
        }
    }
}
