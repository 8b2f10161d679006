//! Owns the anchor: two factors, base and top, so that the law gives back the one bake the cook knows.
//!
//! One time alone fits base shares from 0.19 to 0.76, and that moves a busy evening by 25 K: so the base's share comes from what
//! was seen at lifting, or is carried as a range. Base: its share of the heat goes in within the known minutes over a column of
//! this oven's floor that starts at the known reading. Top: the rest goes in under a dome at the known temperature and the flame
//! of the time. Both amounts grow with their factor, so each has one answer.

use super::law::{BakeLaw, TOP_EMISSIVITY};
use crate::matter::stone;
use crate::numerics::column::{Columns, DEFAULT_FINENESS, Grid, LANES, Slab};
use crate::scenario::{Dish, Flame, Oven, SeenAtLifting};
use crate::units::{STEFAN_BOLTZMANN_W_M2_K4, ZERO_C_K};

/// Base share where nothing was seen at lifting. No source: the middle of its range.
pub const BASE_SHARE_UNSEEN: f64 = 0.45;
/// Range of the base share where nothing was seen. No source: what 60 to 180 s bakes at 300 to 450 degC leave open.
pub const BASE_SHARE_UNSEEN_RANGE: [f64; 2] = [0.3, 0.6];
/// Base shares of "base pale", "together", "base ahead": a stated assumption, no source.
const BASE_SHARE_SEEN: [f64; 3] = [0.35, 0.45, 0.55];
/// Either way of those. No source, as those.
const BASE_SHARE_SEEN_SPREAD: f64 = 0.05;
/// A reading of the gun against another, K: half a scale of spot, angle and emissivity. Common practice, no source (3-8).
const GUN_K: f64 = 5.0;
/// From lifting to the reading of the bared spot, s, in which the stone already recovers. Common practice, no source (2-8).
const GUN_AFTER_S: f64 = 4.0;
/// No piece takes all its heat from one side.
const BASE_SHARE_LIMITS: [f64; 2] = [0.05, 0.95];
/// Factors outside this range say that time and weight do not fit together.
pub const FACTOR_RANGE: [f64; 2] = [0.4, 2.5];
/// Factors are looked for within this.
const FACTOR_SEARCH: [f64; 2] = [0.1, 8.0];
/// Radiation from coals alone, a low flame, a high flame onto the top, W/m2. No source; by arithmetic: 4 kW of coals give 60 %
/// of it as glow over 3.5 m2 of floor and dome; 3 kg/h of wood have a flame of 8 kW, 35 % of it radiant, and the coals; a
/// high flame is three times that for a while.
const FLAME_W_M2: [f64; 3] = [600.0, 1400.0, 3500.0];
/// Film at the back of the floor, W/(m2 K); over one bake it does not matter.
const BACK_FILM_W_M2_K: f64 = 10.0;
/// Steps a bake is cut into at least, and steps it may take at most.
const STEPS: [f64; 2] = [60.0, 2000.0];
/// A contact of this film, W/(m2 K), with an explicit face must not overshoot: share of its answer in one step.
const OVERSHOOT: f64 = 0.3;
/// Passes of the search by eight factors: each narrows the bracket to a seventh.
const PASSES: usize = 4;
/// Slices of the top's heat for its quadrature.
const SLICES: u32 = 200;

/// The law of a dish, anchored to its known bake in this oven.
#[must_use]
pub fn anchor(dish: &Dish, oven: &Oven) -> BakeLaw {
    match dish.known_bake.seen {
        SeenAtLifting::Nothing => with_share(dish, oven, BASE_SHARE_UNSEEN, BASE_SHARE_UNSEEN_RANGE),
        SeenAtLifting::BasePale => seen(dish, oven, BASE_SHARE_SEEN[0]),
        SeenAtLifting::Together => seen(dish, oven, BASE_SHARE_SEEN[1]),
        SeenAtLifting::BaseAhead => seen(dish, oven, BASE_SHARE_SEEN[2]),
        SeenAtLifting::FloorC(lifted_c) => by_floor(dish, oven, lifted_c),
    }
}

/// The law of a dish, anchored with a base share that is given: for asking what the share matters.
#[must_use]
pub fn anchor_at_share(dish: &Dish, oven: &Oven, base_share: f64) -> BakeLaw {
    with_share(dish, oven, base_share, [base_share, base_share])
}

fn seen(dish: &Dish, oven: &Oven, share: f64) -> BakeLaw {
    with_share(dish, oven, share, [share - BASE_SHARE_SEEN_SPREAD, share + BASE_SHARE_SEEN_SPREAD])
}

/// Anchors both factors to a base share.
fn with_share(dish: &Dish, oven: &Oven, base_share: f64, range: [f64; 2]) -> BakeLaw {
    let mut law = BakeLaw::plain(dish, base_share, range);
    let wanted_j_m2 = base_share * law.need.total_j / law.need.area_m2;
    law.base_factor = factor_where(|factors| bake(&law, dish, oven, factors).map(|end| end.base_j_m2 - wanted_j_m2));
    law.top_factor = top_factor(&law, dish, oven);
    judge(&mut law, dish);
    law
}

/// Anchors the base by the floor read just after lifting, and the top to what is left.
fn by_floor(dish: &Dish, oven: &Oven, lifted_c: f64) -> BakeLaw {
    let plain = BakeLaw::plain(dish, BASE_SHARE_UNSEEN, BASE_SHARE_UNSEEN_RANGE);
    // The face ends lower the more the base takes.
    let factor = factor_where(|factors| bake(&plain, dish, oven, factors).map(|end| lifted_c - end.lifted_c));
    let base_j = bake(&plain, dish, oven, [factor; LANES])[0].base_j_m2 * plain.need.area_m2;
    let raw = base_j / plain.need.total_j;
    let share = raw.clamp(BASE_SHARE_LIMITS[0], BASE_SHARE_LIMITS[1]);
    let spread = share * GUN_K / (dish.known_bake.floor_c - lifted_c).max(GUN_K);
    let range = [(share - spread).max(BASE_SHARE_LIMITS[0]), (share + spread).min(BASE_SHARE_LIMITS[1])];
    let mut law = with_share(dish, oven, share, range);
    if (raw - share).abs() > 0.0 {
        law.findings.push(format!(
            "The floor read {:.0} K lower at lifting, which is {:.0} kJ through the base of a piece that needs {:.0} kJ in \
             all. Read the floor again right after lifting.",
            dish.known_bake.floor_c - lifted_c,
            base_j / 1000.0,
            law.need.total_j / 1000.0
        ));
    }
    law
}

/// Says what does not fit.
fn judge(law: &mut BakeLaw, dish: &Dish) {
    let minutes = dish.known_bake.time_s / 60.0;
    let fits = |factor: f64| (FACTOR_RANGE[0]..=FACTOR_RANGE[1]).contains(&factor);
    let total_kj = law.need.total_j / 1000.0;
    if !fits(law.base_factor) {
        law.findings.push(format!(
            "This time and this weight do not fit together. To take {:.0} kJ through its base in {minutes:.1} min from a floor \
             at {:.0}\u{a0}°C it would need {:.1} times the contact that is usual. Weigh a piece and time it again.",
            law.base_share * total_kj,
            dish.known_bake.floor_c,
            law.base_factor
        ));
    }
    if !fits(law.top_factor) {
        law.findings.push(format!(
            "This time and this weight do not fit together. To take {:.0} kJ from above in {minutes:.1} min under a dome at \
             {:.0}\u{a0}°C it would need {:.1} times what its size can catch. Weigh a piece, time it, and read the dome again.",
            (1.0 - law.base_share) * total_kj,
            dish.known_bake.dome_c,
            law.top_factor
        ));
    }
}

/// How a known bake ends for one factor.
#[derive(Clone, Copy, Debug, PartialEq)]
struct End {
    /// Heat taken through the base, J/m2.
    base_j_m2: f64,
    /// The bared spot as the gun shows it a moment later, degC.
    lifted_c: f64,
}

/// Runs the known bake over a column of the floor for eight base factors side by side.
fn bake(law: &BakeLaw, dish: &Dish, oven: &Oven, factors: [f64; LANES]) -> [End; LANES] {
    let known = &dish.known_bake;
    let slabs = stone::slabs(&oven.floor_layers);
    let grid = Grid::new(&slabs, BACK_FILM_W_M2_K, DEFAULT_FINENESS);
    let profile = profile_k(&grid, known.floor_c - oven.room_c);
    let mut columns = Columns::new(grid, LANES, &profile);
    let step_s = step_s(known.time_s, &slabs, factors);
    let steps = (known.time_s / step_s).round().max(1.0);
    let step_s = known.time_s / steps;
    let mut taken = [0.0; LANES];
    let mut flux = [0.0; LANES];
    for _ in 0..steps as u32 {
        for lane in 0..LANES {
            let face_c = columns.row_k(0)[lane] + oven.room_c;
            let into_w_m2 = factors[lane] * law.base.contact(taken[lane]).flux_w_m2(face_c);
            taken[lane] += step_s * into_w_m2;
            flux[lane] = -into_w_m2;
        }
        columns.advance(step_s, &flux, None, &[0.0; LANES]);
    }
    columns.advance(GUN_AFTER_S, &[0.0; LANES], None, &[0.0; LANES]);
    std::array::from_fn(|lane| End { base_j_m2: taken[lane], lifted_c: columns.row_k(0)[lane] + oven.room_c })
}

/// Step of a bake, s: fine enough for its length, and for a face that is handed its flux explicitly. A face of effusivity e
/// answers a film h within a step by 2 h sqrt(t/pi)/e.
fn step_s(time_s: f64, slabs: &[Slab], factors: [f64; LANES]) -> f64 {
    let effusivity = slabs.first().map_or(f64::MAX, |slab| (slab.k_w_m_k * slab.rho_c_j_m3_k).sqrt());
    let film = super::CONTACT_W_M2_K * factors.iter().fold(1.0, |most: f64, factor| most.max(*factor));
    let root = 0.5 * OVERSHOOT * effusivity / film;
    (time_s / STEPS[0]).min(std::f64::consts::PI * root * root).max(time_s / STEPS[1])
}

/// A rested floor: even through the stone, falling to the room behind it, K above the room.
fn profile_k(grid: &Grid, face_k: f64) -> Vec<f64> {
    let stone_m = grid.joints.first().map_or(0.0, |&joint| grid.depth_m[joint]);
    let last_m = grid.depth_m.last().copied().unwrap_or(stone_m);
    let behind_m = (last_m - stone_m).max(f64::MIN_POSITIVE);
    grid.depth_m.iter().map(|&x| face_k * (1.0 - ((x - stone_m) / behind_m).max(0.0))).collect()
}

/// The factor where a rising amount passes zero, looked for with eight factors side by side; an end of the search where it
/// never does.
fn factor_where(amount: impl Fn([f64; LANES]) -> [f64; LANES]) -> f64 {
    let [mut low, mut high] = FACTOR_SEARCH;
    let mut ends = [f64::NAN; 2];
    for _ in 0..PASSES {
        let ratio = high / low;
        let factors: [f64; LANES] =
            std::array::from_fn(|lane| low * libm::pow(ratio, lane as f64 / (LANES - 1) as f64));
        let amounts = amount(factors);
        if amounts[0] >= 0.0 {
            return low;
        }
        let Some(above) = amounts.iter().position(|&a| a >= 0.0) else { return high };
        (low, high) = (factors[above - 1], factors[above]);
        ends = [amounts[above - 1], amounts[above]];
    }
    low + (high - low) * -ends[0] / (ends[1] - ends[0])
}

/// The top's factor. Its balance is linear in the factor, so the time a factor of one takes over the known time is the answer.
fn top_factor(law: &BakeLaw, dish: &Dish, oven: &Oven) -> f64 {
    let light_w_m2 = light_w_m2(dish, oven);
    let slice_j_m2 = law.top.whole_j_m2 / f64::from(SLICES);
    let mut time_s = 0.0;
    for i in 0..SLICES {
        let top_c = law.top.surface_c((f64::from(i) + 0.5) * slice_j_m2);
        let net_w_m2 = TOP_EMISSIVITY * (light_w_m2 - black_w_m2(top_c));
        if net_w_m2 <= 0.0 {
            return FACTOR_SEARCH[1];
        }
        time_s += slice_j_m2 / net_w_m2;
    }
    (time_s / dish.known_bake.time_s).clamp(FACTOR_SEARCH[0], FACTOR_SEARCH[1])
}

/// What falls on a top in the known bake, W/m2: the dome's own light and the floor's it gives back, less the doorway's part of
/// the view, and the flame's. The doorway's part is its share of the cap: for a piece in the middle that is the view factor.
fn light_w_m2(dish: &Dish, oven: &Oven) -> f64 {
    let known = &dish.known_bake;
    let dome_w_m2 = oven.emissivity * black_w_m2(known.dome_c) + (1.0 - oven.emissivity) * black_w_m2(known.floor_c);
    let cap_m2 = std::f64::consts::PI * (0.25 * oven.width_m * oven.depth_m + oven.dome_rise_m * oven.dome_rise_m);
    let door = (oven.door_width_m * oven.door_height_m / cap_m2).min(0.5);
    let flame_w_m2 = match known.flame {
        Flame::None => FLAME_W_M2[0],
        Flame::Low => FLAME_W_M2[1],
        Flame::High => FLAME_W_M2[2],
    };
    (1.0 - door) * dome_w_m2 + door * black_w_m2(oven.room_c) + flame_w_m2
}

fn black_w_m2(t_c: f64) -> f64 {
    let square = (t_c + ZERO_C_K) * (t_c + ZERO_C_K);
    STEFAN_BOLTZMANN_W_M2_K4 * square * square
}

#[cfg(test)]
mod tests {
    use super::super::need::tests::round;
    use super::*;
    use crate::scenario::{FireSide, FloorReading, FloorShape};

    fn oven() -> Oven {
        let layer = |material: &str, thickness_m| crate::scenario::Layer { material: material.into(), thickness_m };
        Oven {
            shape: FloorShape::Round,
            width_m: 1.4,
            depth_m: 1.4,
            reading: FloorReading::Gun,
            dome_rise_m: 0.5,
            door_width_m: 0.5,
            door_height_m: 0.3,
            floor_layers: vec![layer("fireclay_dense", 0.06), layer("calcium_silicate", 0.1)],
            dome_layers: vec![layer("fireclay_dense", 0.08), layer("ceramic_fibre", 0.1)],
            fire_side: FireSide::Left,
            bed_share: 0.2,
            emissivity: 0.9,
            smoke_emissivity: 0.2,
            film_factor: 1.0,
            radiant_factor: 1.0,
            stone_k_factor: 1.0,
            entrainment_factor: 0.6,
            door_cd: 0.69,
            room_c: 24.0,
            door_leak_kg_s: 0.003,
            assist: None,
        }
    }

    fn dish() -> Dish {
        round(&[("pizza_dough", 0.25), ("tomato_sauce", 0.06), ("mozzarella", 0.04)])
    }

    /// Time in which the anchored law takes a share of the heat through the base, on a column of its own at a finer step.
    fn replay_base_j(law: &BakeLaw, dish: &Dish, oven: &Oven) -> f64 {
        let slabs = stone::slabs(&oven.floor_layers);
        let grid = Grid::new(&slabs, BACK_FILM_W_M2_K, DEFAULT_FINENESS);
        let profile = profile_k(&grid, dish.known_bake.floor_c - oven.room_c);
        let mut columns = Columns::new(grid, 1, &profile);
        let (steps, mut taken) = (3000, 0.0);
        let dt = dish.known_bake.time_s / f64::from(steps);
        for _ in 0..steps {
            let q = law.base_flux_w_m2(columns.row_k(0)[0] + oven.room_c, taken);
            taken += dt * q;
            columns.advance(dt, &[-q; LANES], None, &[0.0]);
        }
        taken * law.need.area_m2
    }

    #[test]
    fn the_anchored_law_gives_the_known_bake_back() {
        let (dish, oven) = (dish(), oven());
        for share in [0.3, 0.45, 0.6] {
            let law = anchor_at_share(&dish, &oven, share);
            let base = replay_base_j(&law, &dish, &oven) / law.need_j();
            assert!((base / share - 1.0).abs() < 0.01, "{base} for {share}");
            // The top, step by step.
            let (mut top, steps) = (0.0, 3000);
            let dt = dish.known_bake.time_s / f64::from(steps);
            for _ in 0..steps {
                let net = light_w_m2(&dish, &oven) - black_w_m2(law.top_surface_c(top));
                top += dt * law.top_absorptivity() * net;
            }
            let top = top * law.need.area_m2 / law.need_j();
            assert!((top / (1.0 - share) - 1.0).abs() < 0.01, "{top} for {share}");
        }
    }

    #[test]
    fn a_usual_bake_has_usual_factors_and_no_findings() {
        let law = anchor(&dish(), &oven());
        assert!((0.5..1.8).contains(&law.base_factor), "base {}", law.base_factor);
        assert!((0.5..1.8).contains(&law.top_factor), "top {}", law.top_factor);
        assert!(law.findings.is_empty(), "{:?}", law.findings);
        assert_eq!(law.base_share_range.map(f64::to_bits), BASE_SHARE_UNSEEN_RANGE.map(f64::to_bits));
    }

    #[test]
    fn a_floor_read_at_lifting_gives_back_its_own_share() {
        let (mut dish, oven) = (dish(), oven());
        for share in [0.35, 0.5] {
            dish.known_bake.seen = SeenAtLifting::Nothing;
            let law = anchor_at_share(&dish, &oven, share);
            let lifted_c = bake(&law, &dish, &oven, [law.base_factor; LANES])[0].lifted_c;
            dish.known_bake.seen = SeenAtLifting::FloorC(lifted_c);
            let again = anchor(&dish, &oven);
            assert!((again.base_share - share).abs() < 0.005, "{} for {share}", again.base_share);
            let [low, high] = again.base_share_range;
            assert!(low < share && share < high);
        }
    }

    #[test]
    fn what_was_seen_moves_the_share() {
        let (mut dish, oven) = (dish(), oven());
        let mut last = 0.0;
        for seen in [SeenAtLifting::BasePale, SeenAtLifting::Together, SeenAtLifting::BaseAhead] {
            dish.known_bake.seen = seen;
            let law = anchor(&dish, &oven);
            assert!(law.base_share > last);
            last = law.base_share;
        }
    }

    #[test]
    fn a_time_that_cannot_be_is_said_in_words() {
        let (mut dish, oven) = (dish(), oven());
        dish.known_bake.time_s = 30.0;
        let law = anchor(&dish, &oven);
        assert_eq!(law.findings.len(), 2, "{:?}", law.findings);
        assert!(law.findings[0].contains("do not fit together"));
        dish.known_bake.time_s = 3600.0;
        assert!(!anchor(&dish, &oven).findings.is_empty());
    }

    #[test]
    fn a_cool_dome_or_floor_gives_words_and_finite_numbers() {
        let (mut dish, oven) = (dish(), oven());
        (dish.known_bake.floor_c, dish.known_bake.dome_c) = (80.0, 60.0);
        let law = anchor(&dish, &oven);
        assert!(law.base_factor.is_finite() && law.top_factor.is_finite());
        assert!(!law.findings.is_empty());
    }
}
