//! Owns the list of what nobody knows exactly: each unknown with its range, where the range comes from, and what to measure.

use crate::demand::anchor_at_share;
use crate::hearth::build::Accuracy;
use crate::scenario::Scenario;
use crate::service::night::Ready;

/// What an unknown acts on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Acts {
    /// Factor on the plume's entrainment.
    Entrainment,
    /// Emissivity of floor and dome.
    Emissivity,
    /// Emissivity of the hot layer.
    Smoke,
    /// Factor on the films of free convection.
    Film,
    /// Factor on the flame's radiant share.
    Radiant,
    /// Factor on the conductivity of the stone.
    StoneK,
    /// Discharge coefficient of the doorway.
    DoorCd,
    /// What the pin meter shows, share of dry mass.
    Moisture,
    /// Weight of a piece over what its size says.
    Piece,
    /// Char left by wood, over what is taken.
    Char,
    /// Share of the volatiles' heat released, over what is taken.
    Burnt,
    /// This morning's floor, K over what was read.
    Morning,
    /// Share of the heat that dishes take through their base, from one end of each dish's range to the other.
    BaseShare,
    /// Air that gets past the closed doors, kg/s.
    Leak,
}

/// How an unknown's range is given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Range {
    /// The value itself lies between.
    Between(f64, f64),
    /// The value taken, plus something between.
    Off(f64, f64),
    /// The value taken, times something between.
    Times(f64, f64),
}

/// One unknown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unknown {
    /// Key in JSON.
    pub key: &'static str,
    /// Its name in a kitchen.
    pub name: &'static str,
    /// What it acts on.
    pub acts: Acts,
    /// Its range.
    pub range: Range,
    /// Where the range comes from.
    pub source: &'static str,
    /// What narrows it.
    pub measure: &'static str,
}

/// Every unknown that is varied. The leak of closed doors moves the next morning's floor alone.
pub const UNKNOWNS: [Unknown; 14] = [
    Unknown {
        key: "entrainment",
        name: "air drawn into the flame",
        acts: Acts::Entrainment,
        range: Range::Between(0.5, 1.2),
        source: "no source for a hearth: 0.5 to 1.2 of the textbook's wall plume; the published oven fits best from 0.6 to 0.8, \
                 and a room's fire 10 cm off its wall drew twice that plume",
        measure: "Read the floor through one evening of known feeding and set the factor so that it agrees.",
    },
    Unknown {
        key: "emissivity",
        name: "how well floor and dome radiate",
        acts: Acts::Emissivity,
        range: Range::Between(0.80, 0.95),
        source: "from memory: fired clay and sooted brick 0.8 to 0.95",
        measure: "Set the gun by a probe held against the floor.",
    },
    Unknown {
        key: "smoke_emissivity",
        name: "how well the hot layer radiates",
        acts: Acts::Smoke,
        range: Range::Between(0.05, 0.3),
        source: "from memory: CO2, H2O and some soot in a layer this thin",
        measure: "Nothing simple; read dome and floor together over an evening.",
    },
    Unknown {
        key: "film",
        name: "how much the air over the floor takes",
        acts: Acts::Film,
        range: Range::Times(0.62, 1.38),
        source: "4 to 9 W/m2K about the 6.5 of McAdams' rule for a plate facing up: from memory",
        measure: "Read the floor an hour after the last split, doors open, twice a quarter of an hour apart.",
    },
    Unknown {
        key: "radiant",
        name: "how much of the flame's heat is glow",
        acts: Acts::Radiant,
        range: Range::Times(0.71, 1.29),
        source: "from memory: 0.25 to 0.45 of a wood flame's heat",
        measure: "Nothing simple; read dome and floor together over an evening.",
    },
    Unknown {
        key: "stone_k",
        name: "how well the stone conducts",
        acts: Acts::StoneK,
        range: Range::Times(0.85, 1.15),
        source: "one piece of goods against another: 15 to 20 % in makers' and handbook tables",
        measure: "Ask the yard for the data sheet, or time how long a burner under the stone takes to show on top.",
    },
    Unknown {
        key: "door_cd",
        name: "how freely air passes the doorway",
        acts: Acts::DoorCd,
        range: Range::Between(0.60, 0.75),
        source: "0.68 (Nakaya et al. 1986) and 0.69 (Bryant 2011), here with their spread",
        measure: "Measure the doorway's flow at its lower edge with an anemometer.",
    },
    Unknown {
        key: "moisture",
        name: "moisture of the wood",
        acts: Acts::Moisture,
        range: Range::Off(-0.03, 0.03),
        source: "from memory: a pin meter is good for 2 to 4 points",
        measure: "Split three pieces and read each in its fresh face.",
    },
    Unknown {
        key: "piece",
        name: "weight of a piece",
        acts: Acts::Piece,
        range: Range::Times(0.85, 1.15),
        source: "common practice, no source: species' density and split size, 10 to 20 %",
        measure: "Weigh a basket of ten pieces.",
    },
    Unknown {
        key: "char",
        name: "charcoal left by the wood",
        acts: Acts::Char,
        range: Range::Times(0.8, 1.2),
        source: "from memory: 17 to 25 % of dry wood",
        measure: "Nothing simple; watch how long the coals last between pieces.",
    },
    Unknown {
        key: "burnt",
        name: "how completely the smoke burns",
        acts: Acts::Burnt,
        range: Range::Times(0.92, 1.02),
        source: "from memory: 88 to 98 % of the volatiles' heat in a lively fire",
        measure: "Look at the chimney: a clear plume means the upper end.",
    },
    Unknown {
        key: "morning",
        name: "the floor before lighting",
        acts: Acts::Morning,
        range: Range::Off(-15.0, 15.0),
        source: "common practice, no source: a gun reads a spot, the stone below is another",
        measure: "Take the floor's temperature at four spots before lighting.",
    },
    Unknown {
        key: "base_share",
        name: "how much heat dishes take through their base",
        acts: Acts::BaseShare,
        range: Range::Between(0.0, 1.0),
        source: "the range each dish carries after its known bake",
        measure: "Read the floor under a piece just after lifting it.",
    },
    Unknown {
        key: "door_leak",
        name: "how much the closed doors leak",
        acts: Acts::Leak,
        range: Range::Between(0.0015, 0.008),
        source: "1.5 to 8 g/s: from memory",
        measure: "Read the floor as the doors are shut and again in the morning; from the two the plan of the fire works out the leak.",
    },
];

/// The value at a share of a range: 0 the low end, a half what is taken, 1 the high end, straight between. What is taken is the
/// middle by shares wherever it lies by numbers; if it lies outside the range, as something measured may, the range ends there.
#[must_use]
pub fn either_side(low: f64, taken: f64, high: f64, share: f64) -> f64 {
    let (low, high) = (low.min(taken), high.max(taken));
    if share < 0.5 { low + 2.0 * share * (taken - low) } else { taken + (2.0 * share - 1.0) * (high - taken) }
}

impl Unknown {
    /// The value at a share of its range, where `taken` is what the scenario takes.
    fn value(&self, taken: f64, share: f64) -> f64 {
        let (low, high) = match self.range {
            Range::Between(low, high) => (low, high),
            Range::Off(low, high) => (taken + low, taken + high),
            Range::Times(low, high) => (taken * low, taken * high),
        };
        either_side(low, taken, high, share)
    }

    fn in_scenario(&self, scenario: &mut Scenario, share: f64) {
        let slot = match self.acts {
            Acts::Entrainment => &mut scenario.oven.entrainment_factor,
            Acts::Emissivity => &mut scenario.oven.emissivity,
            Acts::Smoke => &mut scenario.oven.smoke_emissivity,
            Acts::Film => &mut scenario.oven.film_factor,
            Acts::Radiant => &mut scenario.oven.radiant_factor,
            Acts::StoneK => &mut scenario.oven.stone_k_factor,
            Acts::DoorCd => &mut scenario.oven.door_cd,
            Acts::Moisture => &mut scenario.wood.meter_dry_basis,
            Acts::Piece => &mut scenario.wood.piece_length_m,
            Acts::Morning => &mut scenario.start.floor_c,
            Acts::Leak => &mut scenario.oven.door_leak_kg_s,
            Acts::Char | Acts::Burnt | Acts::BaseShare => return,
        };
        *slot = self.value(*slot, share).max(0.0);
    }

    fn in_ready(&self, ready: &mut Ready, share: f64) {
        match self.acts {
            Acts::Char => ready.build.fuel.char_share = self.value(ready.build.fuel.char_share, share),
            Acts::Burnt => ready.build.fuel.burnt_share = self.value(ready.build.fuel.burnt_share, share).min(1.0),
            Acts::BaseShare => {
                for (law, dish) in ready.laws.iter_mut().zip(&ready.scenario.menu) {
                    let [low, high] = law.base_share_range;
                    let base_share = either_side(low, law.base_share, high, share);
                    *law = anchor_at_share(dish, &ready.scenario.oven, base_share);
                }
            }
            _ => {}
        }
    }
}

/// A kitchen with some unknowns at a share of their range each.
#[must_use]
pub fn kitchen(scenario: &Scenario, accuracy: Accuracy, at: &[(Unknown, f64)]) -> Ready {
    let mut changed = scenario.clone();
    at.iter().for_each(|(unknown, share)| unknown.in_scenario(&mut changed, *share));
    let mut ready = Ready::new(&changed, accuracy);
    at.iter().for_each(|(unknown, share)| unknown.in_ready(&mut ready, *share));
    ready
}
