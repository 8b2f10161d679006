//! Owns the fire: pieces that shrink, volatiles that flame, coals that glow on, and the limits of a clean burn.
//!
//! A piece is a round whose radius shrinks at the charring rate; the volatiles of what is charred burn in the flame at once,
//! the char joins the bed and burns there at its own, slower rate: a second fire that carries the gap between pieces.

/// A piece takes this long to catch fully; its shrinking ramps up over it. Common practice, no source (1-4 min).
const CATCH_S: f64 = 120.0;
/// Shrinking, like the char bed, is faster in a hot oven; below this the rate given holds. From memory.
const KINDLING_RADIUS_M: f64 = 0.012;
/// Exposed area of a char bed by its mass, m2/kg: lumps of about 5 cm, half of them buried. From memory (0.1-0.4).
const CHAR_AREA_M2_KG: f64 = 0.2;
/// A heaped bed shows at most this much surface by area of floor it covers. From memory (1-2).
const BED_ROUGHNESS: f64 = 1.5;
/// Film at a glowing bed over the specific heat of air, kg/(m2 s): 15 W/m2K over 1100 J/kgK. From memory.
const BED_FILM_KG_M2_S: f64 = 15.0 / 1100.0;
/// Transfer number of carbon burning to CO in air. Turns, S. R., An Introduction to Combustion, ch. 14 (from memory).
const CHAR_B: f64 = 0.17;
/// Spread over the floor and stirred, the same coals show this much more surface. Common practice, no source.
const SPREAD_FACTOR: f64 = 3.0;
/// Radiant share of the flame's heat. Range 0.25-0.45 (SFPE Handbook, wood cribs and pools, from memory).
pub const FLAME_RADIANT_SHARE: f64 = 0.35;
/// Radiant share of the coals' heat. Range 0.5-0.7 (from memory).
pub const COAL_RADIANT_SHARE: f64 = 0.6;
/// Share of the coals' radiant heat that goes down into the stone under a heaped bed; ash insulates. From memory.
pub const COAL_DOWN_SHARE: f64 = 0.2;
/// The same for coals raked flat over the floor. From memory.
pub const SPREAD_DOWN_SHARE: f64 = 0.5;
/// Heat given per kg of air used up, J/kg: Huggett's 13.1 MJ per kg of oxygen (Huggett, C. (1980) Fire and Materials 4:61) times
/// 0.2314 kg oxygen per kg of air.
pub const HEAT_PER_AIR_J_KG: f64 = 13.1e6 * 0.2314;
/// Excess-air ratio above which wood burns clean. EN 15544 works between 1.95 and 3.95.
pub const CLEAN_LAMBDA: f64 = 2.0;
/// Share of the flame's heat that leaves unburnt at an excess-air ratio of one. From memory (CO and soot of a smoky fire, 0.1-0.3).
const UNBURNT_AT_ONE: f64 = 0.2;

/// What the fire needs to know of its wood, as fired.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fuel {
    /// Density as fired, kg/m3.
    pub density_kg_m3: f64,
    /// Net calorific value as received, J/kg.
    pub lhv_j_kg: f64,
    /// Char left by one kg as fired, kg/kg.
    pub char_share: f64,
    /// Net calorific value of char, J/kg.
    pub char_lhv_j_kg: f64,
    /// Share of the volatiles' heat that is released in the oven with plenty of air.
    pub burnt_share: f64,
    /// Shrinking of the radius, m/s.
    pub shrink_m_s: f64,
    /// Stoichiometric air, kg/kg as fired.
    pub air_kg_kg: f64,
}

impl Fuel {
    /// Heat of the volatiles of one kg as fired, J/kg.
    #[must_use]
    pub fn volatile_j_kg(&self) -> f64 {
        self.lhv_j_kg - self.char_share * self.char_lhv_j_kg
    }
}

/// One piece in the fire.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Piece {
    radius_m: f64,
    length_m: f64,
    age_s: f64,
}

/// Heat given in one step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Heat {
    /// Of the flame, released in the oven, W.
    pub flame_w: f64,
    /// Of the coals, W.
    pub coal_w: f64,
    /// Left unburnt, W: it leaves by the doorway.
    pub unburnt_w: f64,
    /// Wood turned to volatiles and char, as fired, kg/s.
    pub wood_kg_s: f64,
    /// Volatiles and char burnt away, kg/s.
    pub gas_kg_s: f64,
    /// What would burn away were there air without end, kg/s: over the doorway's hard limit it is more than `gas_kg_s`.
    pub asked_kg_s: f64,
    /// Excess-air ratio; infinite without a fire.
    pub lambda: f64,
}

impl Heat {
    /// All of it, W.
    #[must_use]
    pub fn total_w(&self) -> f64 {
        self.flame_w + self.coal_w + self.unburnt_w
    }
}

/// The fire.
#[derive(Clone, Debug, PartialEq)]
pub struct Fire {
    fuel: Fuel,
    pieces: Vec<Piece>,
    coal_kg: f64,
    bed_area_m2: f64,
    spread: bool,
}

impl Fire {
    /// A cold bed of the area given.
    #[must_use]
    pub fn new(fuel: Fuel, bed_area_m2: f64) -> Self {
        Self { fuel, pieces: Vec::new(), coal_kg: 0.0, bed_area_m2, spread: false }
    }

    /// The wood.
    #[must_use]
    pub fn fuel(&self) -> &Fuel {
        &self.fuel
    }

    /// Coals in the bed, kg.
    #[must_use]
    pub fn coal_kg(&self) -> f64 {
        self.coal_kg
    }

    /// Wood not yet charred, kg as fired.
    #[must_use]
    pub fn wood_kg(&self) -> f64 {
        self.pieces.iter().map(|p| self.mass_kg(p)).sum()
    }

    /// Diameter of the flame's foot taken as round, m: that of the burning pieces seen from above, at most the bed's. The flame of
    /// a few splits is narrower than the bed and so taller.
    #[must_use]
    pub fn flame_foot_m(&self) -> f64 {
        let seen_m2: f64 = self.pieces.iter().map(|p| 2.0 * p.radius_m * p.length_m).sum();
        (4.0 * seen_m2.min(self.bed_area_m2) / std::f64::consts::PI).sqrt()
    }

    /// Whether the coals lie over the floor.
    #[must_use]
    pub fn is_spread(&self) -> bool {
        self.spread
    }

    /// Rakes the coals over the floor, or back together.
    pub fn spread(&mut self, spread: bool) {
        self.spread = spread;
    }

    /// Gives the bed coals that burnt down earlier, kg.
    pub fn leave_coals(&mut self, coal_kg: f64) {
        self.coal_kg += coal_kg;
    }

    /// Puts in one round piece; a share of a piece is a shorter one.
    pub fn feed(&mut self, diameter_m: f64, length_m: f64) {
        self.pieces.push(Piece { radius_m: 0.5 * diameter_m, length_m, age_s: 0.0 });
    }

    /// Lights kindling of a mass, kg.
    pub fn kindle(&mut self, mass_kg: f64) {
        let area = std::f64::consts::PI * KINDLING_RADIUS_M * KINDLING_RADIUS_M;
        let length_m = mass_kg / (area * self.fuel.density_kg_m3);
        self.pieces.push(Piece { radius_m: KINDLING_RADIUS_M, length_m, age_s: CATCH_S });
    }

    fn mass_kg(&self, piece: &Piece) -> f64 {
        std::f64::consts::PI * piece.radius_m * piece.radius_m * piece.length_m * self.fuel.density_kg_m3
    }

    /// Burns for `step_s` in an inflow of `air_kg_s`. No more than `most_kg_s` of wood and char burns away (the doorway's hard
    /// limit): what would char beyond it waits; and coals burn no faster than the inflow's oxygen lets them.
    pub fn burn(&mut self, step_s: f64, air_kg_s: f64, most_kg_s: f64) -> Heat {
        let fuel = self.fuel;
        let coal_burnt_kg = self.glow(step_s).min(step_s * air_kg_s * HEAT_PER_AIR_J_KG / fuel.char_lhv_j_kg);
        let coal_kg_s = coal_burnt_kg / step_s;
        let gassed_kg_s = (1.0 - fuel.char_share) * self.charring_kg(step_s) / step_s;
        let share = ((most_kg_s - coal_kg_s).max(0.0) / gassed_kg_s.max(f64::MIN_POSITIVE)).min(1.0);
        let charred_kg = self.shrink(step_s, share);
        let volatile_w = charred_kg * fuel.volatile_j_kg() / step_s;
        let coal_w = coal_kg_s * fuel.char_lhv_j_kg;
        self.coal_kg += charred_kg * fuel.char_share - coal_burnt_kg;
        let wanted_w = volatile_w + coal_w;
        let lambda = if wanted_w > 0.0 { air_kg_s * HEAT_PER_AIR_J_KG / wanted_w } else { f64::INFINITY };
        let flame_w = volatile_w * fuel.burnt_share * clean_share(lambda);
        Heat {
            flame_w,
            coal_w,
            unburnt_w: volatile_w - flame_w,
            wood_kg_s: charred_kg / step_s,
            gas_kg_s: charred_kg * (1.0 - fuel.char_share) / step_s + coal_kg_s,
            asked_kg_s: gassed_kg_s + coal_kg_s,
            lambda,
        }
    }

    /// What would be charred in a step were there air for all of it, kg as fired.
    fn charring_kg(&self, step_s: f64) -> f64 {
        let ring = std::f64::consts::PI * self.fuel.density_kg_m3;
        let charred = self.pieces.iter().map(|piece| {
            let after = self.shrunk_m(piece, step_s, 1.0);
            ring * piece.length_m * (piece.radius_m * piece.radius_m - after * after)
        });
        charred.sum()
    }

    /// A piece's radius after a step in which it chars a share of what it would freely, m. The ramp of catching is taken at the
    /// middle of the step, so that halving steps changes little.
    fn shrunk_m(&self, piece: &Piece, step_s: f64, share: f64) -> f64 {
        let caught = ((piece.age_s + 0.5 * step_s) / CATCH_S).min(1.0);
        let free = (piece.radius_m - self.fuel.shrink_m_s * caught * step_s).max(0.0);
        if share < 1.0 {
            // Of the wood, not of the way: what is charred goes with the square of the radius.
            ((1.0 - share) * piece.radius_m * piece.radius_m + share * free * free).sqrt()
        } else {
            free
        }
    }

    /// Shrinks the pieces to a share of the free charring; returns what was charred, kg as fired.
    fn shrink(&mut self, step_s: f64, share: f64) -> f64 {
        let ring = std::f64::consts::PI * self.fuel.density_kg_m3;
        let mut charred_kg = 0.0;
        for place in 0..self.pieces.len() {
            let after = self.shrunk_m(&self.pieces[place], step_s, share);
            let piece = &mut self.pieces[place];
            charred_kg += ring * piece.length_m * (piece.radius_m * piece.radius_m - after * after);
            piece.radius_m = after;
            piece.age_s += step_s;
        }
        self.pieces.retain(|piece| piece.radius_m > 0.0);
        charred_kg
    }

    /// Coals burnt in a step, kg: the diffusion-limited rate over what surface they show.
    fn glow(&self, step_s: f64) -> f64 {
        let factor = if self.spread { SPREAD_FACTOR } else { 1.0 };
        let area_m2 = factor * (CHAR_AREA_M2_KG * self.coal_kg).min(BED_ROUGHNESS * self.bed_area_m2);
        let rate_kg_s = area_m2 * BED_FILM_KG_M2_S * libm::log1p(CHAR_B);
        (rate_kg_s * step_s).min(self.coal_kg)
    }
}

/// Share of the flame's heat released at an excess-air ratio: all of it from [`CLEAN_LAMBDA`] up, falling to what the air can
/// burn below one.
fn clean_share(lambda: f64) -> f64 {
    if lambda >= CLEAN_LAMBDA {
        1.0
    } else if lambda >= 1.0 {
        1.0 - UNBURNT_AT_ONE * (CLEAN_LAMBDA - lambda) / (CLEAN_LAMBDA - 1.0)
    } else {
        (1.0 - UNBURNT_AT_ONE) * lambda.max(0.0)
    }
}

/// Length of a flame above its base, m. Heskestad's correlation L = 0.235 Q^0.4 - 1.02 D, Q in kW (SFPE Handbook, Fire Plumes).
#[must_use]
pub fn flame_length_m(heat_w: f64, bed_diameter_m: f64) -> f64 {
    if heat_w <= 0.0 {
        return 0.0;
    }
    (0.235 * libm::pow(heat_w / 1000.0, 0.4) - 1.02 * bed_diameter_m).max(0.0)
}

/// Share of what stands over the dome's height that a flame still reaches along under it (see [`ceiling_flame_m`]).
pub const CEILING_SHARE: f64 = 0.95;

/// How far a flame taller than the dome runs along under it, m. Heskestad & Hamada (1993) Fire Safety J. 21:69-82 (from memory).
#[must_use]
pub fn ceiling_flame_m(length_m: f64, height_m: f64) -> f64 {
    (CEILING_SHARE * (length_m - height_m)).max(0.0)
}

/// Hard limit of an opening on burning wood, kg/s: Kawagoe's 0.09 A sqrt(H).
#[must_use]
pub fn doorway_limit_kg_s(width_m: f64, height_m: f64) -> f64 {
    0.09 * width_m * height_m * height_m.sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    const OAK: Fuel = Fuel {
        density_kg_m3: 720.0,
        lhv_j_kg: 15.4e6,
        char_share: 0.18,
        char_lhv_j_kg: 32.0e6,
        burnt_share: 0.97,
        shrink_m_s: 0.7e-3 / 60.0,
        air_kg_kg: 5.0,
    };

    #[test]
    fn all_heat_of_a_piece_comes_out_in_the_end() {
        let mut fire = Fire::new(OAK, 0.15);
        fire.feed(0.09, 0.35);
        let mass = fire.wood_kg();
        let mut heat_j = 0.0;
        for _ in 0..40_000 {
            heat_j += 4.0 * fire.burn(4.0, 0.03, 1.0).total_w();
        }
        heat_j += fire.coal_kg() * OAK.char_lhv_j_kg;
        assert!((heat_j / (mass * OAK.lhv_j_kg) - 1.0).abs() < 1e-9);
        assert!(fire.coal_kg() < 1e-3 * mass);
    }

    #[test]
    fn steady_feeding_burns_what_is_fed() {
        let mut fire = Fire::new(OAK, 0.15);
        let (mut burnt, mut fed) = (0.0, 0.0);
        for step in 0..(8 * 900) {
            if step % 300 == 0 {
                fire.feed(0.09, 0.35);
                fed += fire.mass_kg(&Piece { radius_m: 0.045, length_m: 0.35, age_s: 0.0 });
            }
            burnt += 4.0 * fire.burn(4.0, 0.03, 1.0).wood_kg_s;
        }
        assert!((burnt + fire.wood_kg() - fed).abs() < 1e-9);
        assert!(burnt / fed > 0.8);
    }

    #[test]
    fn no_more_burns_than_the_doorway_lets() {
        // Kawagoe by hand: 0.09 x 0.3 x 0.2 x sqrt(0.2) kg/s for a doorway of 30 by 20 cm.
        let most_kg_s = doorway_limit_kg_s(0.3, 0.2);
        assert!((most_kg_s - 0.002_415).abs() < 1e-6);
        let mut fire = Fire::new(OAK, 0.15);
        (0..12).for_each(|_| fire.feed(0.09, 0.35));
        let (fed_kg, mut burnt_kg) = (fire.wood_kg(), 0.0);
        for _ in 0..900 {
            let heat = fire.burn(4.0, 0.03, most_kg_s);
            assert!(heat.gas_kg_s <= most_kg_s * (1.0 + 1e-12));
            burnt_kg += 4.0 * heat.wood_kg_s;
        }
        assert!((burnt_kg + fire.wood_kg() - fed_kg).abs() < 1e-9);
        assert!(fire.burn(4.0, 0.03, most_kg_s).asked_kg_s > 2.0 * most_kg_s);
    }

    #[test]
    fn coals_behind_tight_doors_burn_on_the_leak() {
        // Each kg of air burns 13.1 MJ x 0.2314 / 32 MJ = 0.0947 kg of char: 0.2 g/s of air, 0.0189 g/s of char.
        let mut fire = Fire::new(OAK, 0.15);
        fire.leave_coals(2.0);
        let heat = fire.burn(60.0, 0.2e-3, 0.0);
        assert!((heat.coal_w / 606.0 - 1.0).abs() < 0.01, "{}", heat.coal_w);
        // With air enough the surface counts, by hand: 1.5 x 0.15 m2 x 15/1100 x ln 1.17 x 32 MJ = 15.4 kW.
        let open_w = fire.burn(60.0, 30e-3, 1.0).coal_w;
        assert!((open_w / 15_410.0 - 1.0).abs() < 0.01, "{open_w}");
    }

    #[test]
    fn twenty_kilowatts_on_a_third_of_a_metre() {
        // Heskestad's correlation by hand: 0.235 x 20^0.4 - 1.02 x 0.33 = 0.779 - 0.337.
        assert!((flame_length_m(20_000.0, 0.33) - 0.442).abs() < 0.001);
    }
}
