//! Owns the golden hashes: numbers that must come out the same in every build, on every machine and in the browser. One is of
//! seeded draws through the transcendental functions, one is of each demo scenario's whole night.

use std::collections::BTreeMap;

use crate::hearth::build::DEFAULT_ACCURACY;
use crate::service::night::{Keep, Ready, play};
use crate::service::trace::Trace;
use rand::{RngExt, SeedableRng, rngs::Xoshiro256PlusPlus};

/// FNV-1a, 64 bit, over the bits of numbers. Source: Fowler, Noll, Vo, draft-eastlake-fnv (offset basis and prime).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bits(u64);

impl Default for Bits {
    fn default() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }
}

impl Bits {
    /// Takes in one number, bit by bit.
    pub fn add(&mut self, value: f64) {
        for byte in value.to_bits().to_le_bytes() {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }

    /// The hash so far, in hexadecimal.
    #[must_use]
    pub fn hex(self) -> String {
        format!("{:016x}", self.0)
    }
}

/// How many draws go into [`draws`].
const DRAWS: u32 = 100_000;

/// Hash of 1e5 seeded draws sent through the transcendental functions the engine uses.
#[must_use]
pub fn draws() -> String {
    let mut rng = Xoshiro256PlusPlus::seed_from_u64(7);
    let mut bits = Bits::default();
    for _ in 0..DRAWS {
        let u: f64 = rng.random();
        bits.add(libm::exp(-u) + libm::log1p(u) + libm::pow(u + 0.5, 1.0 / 3.0));
    }
    bits.hex()
}

/// The demo scenarios, as they stand in demo-data.
const DEMOS: [(&str, &str); 4] = [
    ("assist", include_str!("../../demo-data/assist.json")),
    ("carries", include_str!("../../demo-data/carries.json")),
    ("small", include_str!("../../demo-data/small.json")),
    ("surprise", include_str!("../../demo-data/surprise.json")),
];

/// Hash of everything a night leaves behind that a person is shown.
#[must_use]
pub fn night(trace: &Trace) -> String {
    let mut bits = Bits::default();
    for bake in &trace.bakes {
        for value in [bake.from_s, bake.at_load_c, bake.base_j, bake.top_j, bake.dome_c] {
            bits.add(value);
        }
        bits.add(bake.to_s.unwrap_or(-1.0));
        bits.add(bake.recovery_s.unwrap_or(-1.0));
    }
    for quarter in &trace.quarters {
        for value in
            [quarter.mean_c, quarter.lowest_c, quarter.dome_c, quarter.wood_kg, quarter.gas_j, quarter.air_used]
        {
            bits.add(value);
        }
    }
    let ledger = &trace.ledger;
    for value in [ledger.fire_j, ledger.food_j, ledger.doorway_flow_j, ledger.shell_j, ledger.holds_j] {
        bits.add(value);
    }
    bits.hex()
}

/// All golden hashes by name. A demo that cannot be read hashes to what is wrong with it.
#[must_use]
pub fn all() -> BTreeMap<String, String> {
    let demo = |text: &str| match crate::scenario::read(text) {
        Ok(resolved) => night(&play(&Ready::new(&resolved.scenario, DEFAULT_ACCURACY), Keep::default())),
        Err(problems) => problems.first().map_or_else(String::new, |p| p.says.clone()),
    };
    let mut hashes: BTreeMap<String, String> =
        DEMOS.iter().map(|(name, text)| ((*name).to_owned(), demo(text))).collect();
    hashes.insert("draws".to_owned(), draws());
    hashes
}
