//! Owns the gas burner under the stone: when it burns, what it gives the stone and what it costs.

use crate::scenario::{Assist, AssistControl};

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

    /// Output at a time and a probe reading. On/off switches at the edges of the dead band; modulating falls from full at its
    /// lower edge to none at its upper.
    pub fn burn(&mut self, at_s: f64, probe_c: f64) -> Output {
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
        Output { gas_w, stone_w: gas_w * self.assist.delivered_share }
    }
}
