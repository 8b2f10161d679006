//! Owns the question how sure an answer is, in parts: a few of its evenings at a time.

use serde::{Deserialize, Serialize};

use super::in_parts::{InParts, NoPart};
use crate::hearth::fault::Fault;
use crate::report::sure_build::{self, SureReport};
use crate::scenario::Scenario;
use crate::sure::{Evening, Headline, add_up, evenings, play};

/// Evenings of one part.
const A_PART: usize = 3;

/// How sure the answer about a scenario is; its draws come from the scenario's seed.
pub struct HowSure<'s> {
    scenario: &'s Scenario,
    evenings: Vec<Evening>,
}

/// Evenings to be played.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Start {
    /// The first of them.
    from: usize,
}

/// Evenings that were played.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Played {
    /// The first.
    from: usize,
    /// Their figures.
    headlines: Vec<Headline>,
}

impl<'s> HowSure<'s> {
    /// The question about a scenario.
    #[must_use]
    pub fn new(scenario: &'s Scenario) -> Self {
        Self { scenario, evenings: evenings(scenario.service.seed) }
    }
}

impl InParts for HowSure<'_> {
    type Want = Start;
    type Part = Played;
    type Report = SureReport;

    fn wants(&self, parts: &[Played]) -> Vec<Start> {
        let starts = (0..self.evenings.len()).step_by(A_PART);
        starts.filter(|from| !parts.iter().any(|part| part.from == *from)).map(|from| Start { from }).collect()
    }

    fn work(&self, want: &Start) -> Result<Played, NoPart> {
        let from = want.from;
        let some = self.evenings.get(from..).filter(|some| !some.is_empty()).ok_or(NoPart::Unwanted)?;
        let played: Result<Vec<Headline>, Fault> =
            some.iter().take(A_PART).map(|evening| play(self.scenario, evening)).collect();
        played.map(|headlines| Played { from, headlines }).map_err(NoPart::Fault)
    }

    fn report(&self, parts: &[Played]) -> Option<SureReport> {
        let mut played = vec![None; self.evenings.len()];
        for part in parts {
            for (slot, headline) in played.iter_mut().skip(part.from).zip(&part.headlines) {
                *slot = Some(*headline);
            }
        }
        add_up(&self.evenings, &played).map(|sure| sure_build::sure(&sure))
    }
}
