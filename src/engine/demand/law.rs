//! Owns the law by which a piece takes heat: through its base from the stone, through its top from dome, flame and layer.
//!
//! Base: q = factor (T_face - T_base) / (1/h + carrier + crust/k). The base warms from its start to the wet plateau near 100 degC
//! within the heat that brings a thin skin there (undersides of 90 s bakes were seen at 100 +- 9 degC: Falciano, Moresi & Masi
//! 2023); behind the crust that then grows the wet front stays at 100 degC. Perfect contact would put the interface at
//! 275 degC on a 439 degC floor.
//! Top: a grey surface that warms to its wet-bulb plateau, stays there while it is wet and dries towards 180 degC.
//! Both are smooth in the heat already taken, the only state a piece has.

use super::need::{self, BOIL_C, BOIL_J_KG, Need};
use crate::matter::food::{self, Composition};
use crate::matter::stone;
use crate::scenario::{Carrier, Dish};

/// Contact between stone and the base of food, or the underside of a pan, W/(m2 K). Range 40-50 (fits seen bakes; 80 bakes
/// too fast); no publication gives it.
pub const CONTACT_W_M2_K: f64 = 45.0;
/// Contact between a pan and the food in it, W/(m2 K). From memory (30-100).
const PAN_TO_FOOD_W_M2_K: f64 = 45.0;
/// Conductivity of dry crust, W/(m K). Range 0.06-0.2 (from memory, dry porous bread).
pub const CRUST_K_W_M_K: f64 = 0.12;
/// The wet base sits near, degC (`falciano_2023`: undersides at 100 +- 9).
pub const WET_BASE_C: f64 = BOIL_C;
/// Mass of the skin that has to come to the boil before the base is on its plateau, kg/m2. A slab of risen dough (effusivity
/// about 800 W s^0.5/(m2 K)) under 14 kW/m2 reaches it with some 200 kJ/m2; with this skin that leaves 25 % of the way, with
/// 450 kJ/m2 5 %.
const SKIN_KG_M2: f64 = 0.67;
/// Solid share of the food's volume near its face; the rest is gas of the rise. From memory (0.4-0.8).
const SOLID_SHARE: f64 = 0.6;
/// Emissivity of wet or baked food, 0..1 (`incropera_emissivity`: water and dough 0.95; 0.9 with browned rims).
pub const TOP_EMISSIVITY: f64 = 0.9;
/// A wet top sits near, degC: wet bulb under a hot dome. Range 65-85 (from memory).
const WET_TOP_C: f64 = 75.0;
/// A dry top goes to, degC (browning; from memory).
const DRY_TOP_C: f64 = 180.0;
/// Share of the top's heat at which its first spots are dry, and at which all of it would be. From memory: at lifting rims are
/// dry, toppings wet.
const DRIES: [f64; 2] = [0.5, 1.5];
/// Under a cool dome neither plateau comes nearer to the dome than this share of the way from start (wet) or wet (dry).
const TOP_APPROACH: [f64; 2] = [0.8, 0.6];
/// A side is seen to differ from the known bake when its heat differs by this share. Common practice, no source (0.15-0.3).
const NOTICED: f64 = 0.2;
/// A pan's outside metal by its footprint: base and rim. Common practice, no source.
const PAN_METAL_BY_FOOTPRINT: f64 = 1.3;

/// How the base takes heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct BaseLaw {
    /// What touches the stone when it goes in, degC.
    start_c: f64,
    /// Heat that brings it to its plateau, J/m2 (to within 1/e).
    warm_j_m2: f64,
    /// Crust by heat once warm, m per J/m2.
    crust_m3_j: f64,
    /// What a carrier puts between stone and food, m2 K/W.
    between_m2_k_w: f64,
}

impl BaseLaw {
    fn new(dish: &Dish, need: &Need, parts: &[(Composition, f64)]) -> Self {
        let skin_j_m2 = SKIN_KG_M2 * rise_j_kg(parts, need.mass_kg, dish.start_c, WET_BASE_C);
        let mix = Composition::mix(parts);
        let water_kg_m3 = SOLID_SHARE * mix.water * food::density_kg_m3(&mix, dish.start_c);
        let boiling = need.water_boiled_j / (need.total_j - need.carrier_j).max(1.0);
        // Food without water to speak of grows no crust by losing it.
        let crust_m3_j = if water_kg_m3 > 1.0 { boiling / (BOIL_J_KG * water_kg_m3) } else { 0.0 };
        Self {
            start_c: need.carrier_in_c.unwrap_or(dish.start_c),
            warm_j_m2: skin_j_m2 + need.carrier_j.max(0.0) / need.area_m2,
            crust_m3_j,
            between_m2_k_w: dish.carrier.as_ref().map_or(0.0, |carrier| between_m2_k_w(carrier, need.area_m2)),
        }
    }

    /// The contact with a factor of one, when `base_j_m2` has gone in.
    pub(super) fn contact(&self, base_j_m2: f64) -> Contact {
        let taken = base_j_m2.max(0.0);
        let cold = libm::exp(-taken / self.warm_j_m2);
        let crust_m = self.crust_m3_j * (taken - self.warm_j_m2 * (1.0 - cold));
        // A cold pan is itself the base; once warm it stands between the stone and the wet food.
        let resistance = 1.0 / CONTACT_W_M2_K + self.between_m2_k_w * (1.0 - cold) + crust_m / CRUST_K_W_M_K;
        let base_c = WET_BASE_C + (self.start_c - WET_BASE_C) * cold;
        Contact { conductance_w_m2_k: 1.0 / resistance, base_c }
    }
}

/// How a base touches the stone at one moment: the same for every cell it covers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// Conductance between the face and the base's plateau, W/(m2 K).
    pub conductance_w_m2_k: f64,
    /// What the face gives heat to, degC.
    pub base_c: f64,
}

impl Contact {
    /// Heat into the base, W/m2, from a face at `face_c`; below zero where the face is cooler.
    #[must_use]
    pub fn flux_w_m2(&self, face_c: f64) -> f64 {
        self.conductance_w_m2_k * (face_c - self.base_c)
    }
}

/// How the top takes heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct TopLaw {
    start_c: f64,
    wet_c: f64,
    dry_c: f64,
    warm_j_m2: f64,
    /// Heat the top takes over a whole bake, J/m2.
    pub(super) whole_j_m2: f64,
}

impl TopLaw {
    fn new(dish: &Dish, need: &Need, parts: &[(Composition, f64)], base_share: f64) -> Self {
        let dome_c = dish.known_bake.dome_c;
        let wet_c = WET_TOP_C.min(dish.start_c + TOP_APPROACH[0] * (dome_c - dish.start_c)).max(dish.start_c);
        let dry_c = DRY_TOP_C.min(wet_c + TOP_APPROACH[1] * (dome_c - wet_c)).max(wet_c);
        let warm_j_m2 = SKIN_KG_M2 * rise_j_kg(parts, need.mass_kg, dish.start_c, wet_c + 1.0);
        Self {
            start_c: dish.start_c,
            wet_c,
            dry_c,
            warm_j_m2,
            whole_j_m2: ((1.0 - base_share) * need.total_j / need.area_m2).max(1.0),
        }
    }

    /// Temperature of the top, degC.
    pub(super) fn surface_c(&self, top_j_m2: f64) -> f64 {
        let taken = top_j_m2.max(0.0);
        let cold = libm::exp(-taken / self.warm_j_m2);
        let [from, to] = DRIES;
        let x = ((taken / self.whole_j_m2 - from) / (to - from)).clamp(0.0, 1.0);
        let dry = x * x * (3.0 - 2.0 * x);
        self.wet_c + (self.start_c - self.wet_c) * cold + (self.dry_c - self.wet_c) * dry
    }
}

/// Mean heat to bring one kg of a piece from one temperature to another, J/kg; above zero.
fn rise_j_kg(parts: &[(Composition, f64)], mass_kg: f64, from_c: f64, to_c: f64) -> f64 {
    let rise_j = need::enthalpy_j(parts, to_c).above(&need::enthalpy_j(parts, from_c)).total_j_kg();
    (rise_j / mass_kg).max(1.0)
}

/// A pan's metal and its contact with the food, m2 K/W.
fn between_m2_k_w(carrier: &Carrier, area_m2: f64) -> f64 {
    let material = stone::material_or_default(&carrier.material);
    let thick_m = carrier.mass_kg / (material.density_kg_m3 * PAN_METAL_BY_FOOTPRINT * area_m2);
    thick_m / material.k_w_m_k(WET_BASE_C) + 1.0 / PAN_TO_FOOD_W_M2_K
}

/// How a lifted piece looks against the known bake.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colour {
    /// The base got far less than in the known bake.
    PaleBase,
    /// Both got about what they got then.
    Even,
    /// The base got far more.
    BaseAhead,
    /// The top got far less.
    PaleTop,
}

/// How one piece of a dish takes heat, anchored to a known bake.
#[derive(Clone, Debug, PartialEq)]
pub struct BakeLaw {
    /// What one piece needs.
    pub need: Need,
    /// Share of the heat that comes through the base in the known bake.
    pub base_share: f64,
    /// Range of that share: narrow where something was seen at lifting.
    pub base_share_range: [f64; 2],
    /// What the base takes over what contact usually gives.
    pub base_factor: f64,
    /// What the top takes over what a surface of its size would.
    pub top_factor: f64,
    /// What the anchor found odd, in words.
    pub findings: Vec<String>,
    pub(super) base: BaseLaw,
    pub(super) top: TopLaw,
}

impl BakeLaw {
    /// The law before it is anchored: both factors one.
    pub(super) fn plain(dish: &Dish, base_share: f64, base_share_range: [f64; 2]) -> Self {
        let need = need::need(dish);
        let parts = need::parts(dish);
        Self {
            need,
            base_share,
            base_share_range,
            base_factor: 1.0,
            top_factor: 1.0,
            findings: Vec::new(),
            base: BaseLaw::new(dish, &need, &parts),
            top: TopLaw::new(dish, &need, &parts, base_share),
        }
    }

    /// Heat one piece needs before it is done, carrier included, J.
    #[must_use]
    pub fn need_j(&self) -> f64 {
        self.need.total_j
    }

    /// How the base touches the stone when `base_j_m2` has gone in through it; take it once for all cells of a piece.
    #[must_use]
    pub fn base_contact(&self, base_j_m2: f64) -> Contact {
        let plain = self.base.contact(base_j_m2);
        Contact { conductance_w_m2_k: self.base_factor * plain.conductance_w_m2_k, base_c: plain.base_c }
    }

    /// Heat into the base, W/m2, from a face at `face_c` when `base_j_m2` has gone in through it. Below zero where the face is
    /// cooler than what lies on it.
    #[must_use]
    pub fn base_flux_w_m2(&self, face_c: f64, base_j_m2: f64) -> f64 {
        self.base_contact(base_j_m2).flux_w_m2(face_c)
    }

    /// Temperature of the top, degC, when `top_j_m2` has gone in through it.
    #[must_use]
    pub fn top_surface_c(&self, top_j_m2: f64) -> f64 {
        self.top.surface_c(top_j_m2)
    }

    /// How a piece looks that took this much through base and top.
    #[must_use]
    pub fn colour(&self, base_j: f64, top_j: f64) -> Colour {
        let base = base_j / (self.base_share * self.need.total_j);
        let top = top_j / ((1.0 - self.base_share) * self.need.total_j);
        if base < 1.0 - NOTICED {
            Colour::PaleBase
        } else if top < 1.0 - NOTICED {
            Colour::PaleTop
        } else if base > 1.0 + NOTICED {
            Colour::BaseAhead
        } else {
            Colour::Even
        }
    }

    /// Absorptivity and emissivity of the footprint as dome and flame see it. Above one for a piece whose top is larger than
    /// its footprint: the energy balance of the enclosure holds all the same.
    #[must_use]
    pub fn top_absorptivity(&self) -> f64 {
        TOP_EMISSIVITY * self.top_factor
    }

    /// What the film over the top is multiplied by.
    #[must_use]
    pub fn top_convective_factor(&self) -> f64 {
        self.top_factor
    }
}

#[cfg(test)]
mod tests {
    use super::super::need::tests::round;
    use super::*;

    fn law() -> BakeLaw {
        BakeLaw::plain(&round(&[("pizza_dough", 0.25), ("tomato_sauce", 0.06), ("mozzarella", 0.04)]), 0.45, [0.3, 0.6])
    }

    #[test]
    fn the_base_takes_less_as_it_warms_and_crusts() {
        let law = law();
        let first = law.base_flux_w_m2(330.0, 0.0);
        // 45 W/(m2 K) over 310 K.
        assert!((first - 45.0 * 310.0).abs() < 1.0, "{first}");
        let mut last = first;
        for step in 1..200 {
            let now = law.base_flux_w_m2(330.0, 1e4 * f64::from(step));
            assert!(now < last && now > 0.0);
            last = now;
        }
        assert!(law.base_flux_w_m2(15.0, 0.0) < 0.0);
    }

    #[test]
    fn the_wet_front_stays_near_100_and_the_flux_stops_there() {
        let law = law();
        assert!(law.base_flux_w_m2(WET_BASE_C, 2e6).abs() < 1.0);
    }

    #[test]
    fn the_top_warms_stays_wet_and_dries() {
        let law = law();
        assert!((law.top_surface_c(0.0) - 20.0).abs() < 1e-9);
        let half = law.top_surface_c(0.5 * law.top.whole_j_m2);
        assert!((65.0..85.0).contains(&half), "{half}");
        let done = law.top_surface_c(law.top.whole_j_m2);
        assert!((110.0..150.0).contains(&done), "{done}");
        assert!((law.top_surface_c(1e9) - DRY_TOP_C).abs() < 1e-9);
    }

    #[test]
    fn colour_follows_the_heat_of_each_side() {
        let law = law();
        let total = law.need_j();
        assert_eq!(law.colour(0.45 * total, 0.55 * total), Colour::Even);
        assert_eq!(law.colour(0.30 * total, 0.70 * total), Colour::PaleBase);
        assert_eq!(law.colour(0.60 * total, 0.40 * total), Colour::PaleTop);
        assert_eq!(law.colour(0.55 * total, 0.45 * total), Colour::BaseAhead);
    }

    #[test]
    fn a_pan_stands_between() {
        let mut dish = round(&[("bread_dough", 0.6)]);
        let bare = BakeLaw::plain(&dish, 0.45, [0.3, 0.6]);
        dish.carrier = Some(Carrier { material: "cast_iron".into(), mass_kg: 2.3, in_c: 20.0, out_s: 86_400.0 });
        let panned = BakeLaw::plain(&dish, 0.45, [0.3, 0.6]);
        assert!(panned.base_flux_w_m2(330.0, 3e5) > bare.base_flux_w_m2(330.0, 3e5), "cold iron drinks longer");
        assert!(panned.base_flux_w_m2(330.0, 6e6) < bare.base_flux_w_m2(330.0, 6e6), "warm iron stands between");
    }
}
