//! Owns the gas burner under the stone: when it burns, what it gives the stone and what it costs.

use crate::scenario::{Assist, AssistControl};

/// The hottest gas burning in air can make anything, degC: its adiabatic flame. From memory: methane 1950, propane 1970.
pub const FLAME_C: f64 = 1950.0;
/// Up to this underside the share that reaches the stone is the one given, degC: what stone over a burner works at. Hotter stone
/// takes less, in line with how far it is below the flame. Our choice, no source.
pub const AS_GIVEN_TO_C: f64 = 600.0;

/// A burner with its state.
#[derive(Clone, Debug, PartialEq)]
pub struct Burner {
    assist: Assist,
    burning: bool,
}

/// What the burner does over a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Output {
    /// Gas heat input, W.
    pub gas_w: f64,
    /// Into the stone, W.
    pub stone_w: f64,
}

impl Burner {
    /// A burner that is off.
    #[must_use]
    pub fn new(assist: &Assist) -> Self {
        Self { assist: assist.clone(), burning: false }
    }

    /// What it was built from.
    #[must_use]
    pub fn assist(&self) -> &Assist {
        &self.assist
    }

    /// Output at a time and a probe reading, over an underside at `under_c`; the stone bears `bears_w_k` more for each kelvin it is
    /// below the flame, before it would be as hot within the step. On/off switches at the edges of the dead band; modulating falls from full at its
    /// lower edge to none at its upper.
    pub fn burn(&mut self, at_s: f64, probe_c: f64, under_c: f64, bears_w_k: f64) -> Output {
        let half = 0.5 * self.assist.dead_band_k;
        let (low, high) = (self.assist.set_c - half, self.assist.set_c + half);
        let share = if at_s < self.assist.on_at || at_s >= self.assist.off_at {
            self.burning = false;
            0.0
        } else if self.assist.control == AssistControl::OnOff {
            if probe_c <= low {
                self.burning = true;
            } else if probe_c >= high {
                self.burning = false;
            }
            if self.burning { 1.0 } else { 0.0 }
        } else {
            ((high - probe_c) / self.assist.dead_band_k.max(f64::MIN_POSITIVE)).clamp(0.0, 1.0)
        };
        let gas_w = share * self.assist.rated_w;
        let below_k = (FLAME_C - under_c).max(0.0);
        let taken = (below_k / (FLAME_C - AS_GIVEN_TO_C)).min(1.0);
        let stone_w = (gas_w * self.assist.delivered_share * taken).min(bears_w_k * below_k);
        Output { gas_w, stone_w }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn burner() -> Burner {
        Burner::new(&Assist {
            rated_w: 20e3,
            delivered_share: 0.45,
            control: AssistControl::OnOff,
            probe_across: 0.0,
            probe_along: 0.5,
            probe_depth_m: 0.02,
            set_c: 330.0,
            dead_band_k: 10.0,
            on_at: 0.0,
            off_at: 3600.0,
        })
    }

    #[test]
    fn stone_as_hot_as_the_flame_takes_nothing() {
        let takes = |under_c| burner().burn(0.0, 20.0, under_c, f64::INFINITY);
        assert!((takes(20.0).stone_w - 9e3).abs() < 1e-9 && (takes(AS_GIVEN_TO_C).stone_w - 9e3).abs() < 1e-9);
        assert!((takes(0.5 * (AS_GIVEN_TO_C + FLAME_C)).stone_w - 4.5e3).abs() < 1e-9, "half way to the flame, half");
        for as_hot in [FLAME_C, FLAME_C + 500.0] {
            assert!(takes(as_hot).stone_w.abs() < 1e-12 && (takes(as_hot).gas_w - 20e3).abs() < 1e-9, "{as_hot}");
        }
        let kept = burner().burn(0.0, 20.0, 950.0, 1.5);
        assert!((kept.stone_w - 1500.0).abs() < 1e-9, "no step takes stone past the flame: {kept:?}");
    }
}
