//! Owns the golden hash: one number that must come out the same in every build, on every machine and in the browser.

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
