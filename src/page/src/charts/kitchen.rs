//! Owns what the pictures need to know of the scenario: outlines, the service's hours, sizes. Plain data, no heat.

use hearthload::scenario::{FireSide, FloorShape, Footprint, Scenario};

/// How a dish looks from the side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Straight on the stone, low.
    Flat,
    /// In a pan of metal.
    Pan,
    /// In a tall tin or pot.
    Tin,
    /// In a lidded or clay vessel.
    Clay,
}

/// A dish as drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct DishShape {
    /// Outline on the floor.
    pub footprint: Footprint,
    /// Its look from the side.
    pub side: Side,
    /// Pieces by a hundred covers.
    pub per_100_covers: f64,
}

/// The kitchen as drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Kitchen {
    /// Shape of the floor.
    pub shape: FloorShape,
    /// Across, m.
    pub width_m: f64,
    /// From doorway to rear, m.
    pub depth_m: f64,
    /// Doorway, m.
    pub door_width_m: f64,
    /// Doorway, m.
    pub door_height_m: f64,
    /// Rise of the dome, m.
    pub dome_rise_m: f64,
    /// The dome's build-up, m.
    pub wall_m: f64,
    /// The fire's side.
    pub fire_side: FireSide,
    /// Share of the floor under the fire.
    pub bed_share: f64,
    /// The match, seconds since midnight.
    pub light_s: f64,
    /// First order, seconds since midnight.
    pub start_s: f64,
    /// Last order, seconds since midnight.
    pub end_s: f64,
    /// Covers by quarter hour from the first order.
    pub covers: Vec<f64>,
    /// Kindling at the match, kg.
    pub kindling_kg: f64,
    /// Dishes in menu order.
    pub dishes: Vec<DishShape>,
}

impl Kitchen {
    /// Takes from the scenario what is drawn.
    #[must_use]
    pub fn of(scenario: &Scenario) -> Self {
        let oven = &scenario.oven;
        Self {
            shape: oven.shape,
            width_m: oven.width_m,
            depth_m: oven.depth_m,
            door_width_m: oven.door_width_m,
            door_height_m: oven.door_height_m,
            dome_rise_m: oven.dome_rise_m,
            wall_m: oven.dome_layers.iter().map(|layer| layer.thickness_m).sum(),
            fire_side: oven.fire_side,
            bed_share: oven.bed_share,
            light_s: scenario.feeding.light_at,
            start_s: scenario.service.start,
            end_s: scenario.service.end,
            covers: scenario.service.covers.clone(),
            kindling_kg: scenario.feeding.kindling_kg,
            dishes: scenario.menu.iter().map(DishShape::of).collect(),
        }
    }
}

impl Kitchen {
    /// Half the floor's width and depth, m; a round floor takes its width for both.
    #[must_use]
    pub fn half_m(&self) -> (f64, f64) {
        let depth_m = if self.shape == FloorShape::Round { self.width_m } else { self.depth_m };
        (self.width_m / 2.0, depth_m / 2.0)
    }

    /// How far from the floor's middle the fire's bed begins, towards its wall, m.
    #[must_use]
    pub fn bed_from_m(&self) -> f64 {
        let half = self.half_m();
        let reach = if self.fire_side == FireSide::Rear { half.1 } else { half.0 };
        if self.shape == FloorShape::Rectangle {
            return reach * (1.0 - 2.0 * self.bed_share);
        }
        // The segment of a circle beyond a chord at `t` radii has (acos t - t sqrt(1 - t^2)) / pi of its area; an oval is a
        // stretched circle. Halving finds t.
        let (mut low, mut high) = (-1.0_f64, 1.0_f64);
        for _ in 0..50 {
            let t = (low + high) / 2.0;
            let share = (libm::acos(t) - t * (1.0 - t * t).sqrt()) / std::f64::consts::PI;
            if share > self.bed_share { low = t } else { high = t }
        }
        reach * low
    }
}

impl DishShape {
    /// Its width on the floor, m.
    #[must_use]
    pub fn across_m(&self) -> f64 {
        match self.footprint {
            Footprint::Round { diameter_m } => diameter_m,
            Footprint::Rectangle { width_m, .. } => width_m,
        }
    }

    /// Half its width and depth, m.
    #[must_use]
    pub fn half_m(&self) -> (f64, f64) {
        match self.footprint {
            Footprint::Round { diameter_m } => (diameter_m / 2.0, diameter_m / 2.0),
            Footprint::Rectangle { width_m, depth_m } => (width_m / 2.0, depth_m / 2.0),
        }
    }

    fn of(dish: &hearthload::scenario::Dish) -> Self {
        // Enough iron or clay to weigh more than the food is a vessel with a lid; a thin one is a pan or, when small, a tin.
        const TIN_M: f64 = 0.2;
        let across = match dish.footprint {
            Footprint::Round { diameter_m } => diameter_m,
            Footprint::Rectangle { width_m, .. } => width_m,
        };
        let side = match &dish.carrier {
            None => Side::Flat,
            Some(carrier) if carrier.material.contains("clay") || carrier.material.contains("stoneware") => Side::Clay,
            Some(_) if across < TIN_M => Side::Tin,
            Some(_) => Side::Pan,
        };
        Self { footprint: dish.footprint, side, per_100_covers: dish.per_100_covers }
    }
}
