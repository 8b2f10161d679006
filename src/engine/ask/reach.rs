//! Owns the question about reach, in parts: the kitchen as it is, each single change, then pairs about the best of them.

use serde::{Deserialize, Serialize};

use super::in_parts::{InParts, NoPart};
use crate::hearth::fault::Fault;
use crate::plan::burner::Sought;
use crate::plan::ways::{Base, Hunt, Pair, Single};
use crate::report::{ReachReport, reach_build};
use crate::scenario::Resolved;

/// The reach of a kitchen.
pub struct Reaching<'r> {
    resolved: &'r Resolved,
    hunt: Hunt,
}

/// Something to be searched.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Want {
    /// The kitchen as it is.
    Base,
    /// One change.
    Single(Base, usize),
    /// The least burner.
    Burner,
    /// Pairs about one change.
    Pair(Base, Vec<Single>, usize),
}

/// What was searched.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Part {
    /// The kitchen as it is.
    Base(Base),
    /// One change.
    Single(Single),
    /// The least burner.
    Burner(Sought),
    /// The best pair about one change.
    Pair(Pair),
}

/// The parts by their kind, in one order however they came.
struct Sorted {
    base: Option<Base>,
    singles: Vec<Single>,
    burner: Option<Sought>,
    pairs: Vec<Pair>,
}

fn sorted(parts: &[Part]) -> Sorted {
    let mut all = Sorted { base: None, singles: Vec::new(), burner: None, pairs: Vec::new() };
    for part in parts {
        match part {
            Part::Base(base) => all.base = Some(*base),
            Part::Single(single) => all.singles.push(single.clone()),
            Part::Burner(burner) => all.burner = Some(*burner),
            Part::Pair(pair) => all.pairs.push(*pair),
        }
    }
    crate::numerics::order::by(&mut all.singles, |a, b| a.step.cmp(&b.step));
    all.singles.dedup_by_key(|single| single.step);
    crate::numerics::order::by(&mut all.pairs, |a, b| a.first.cmp(&b.first));
    all.pairs.dedup_by_key(|pair| pair.first);
    all
}

impl<'r> Reaching<'r> {
    /// The question about a scenario.
    #[must_use]
    pub fn new(resolved: &'r Resolved) -> Self {
        Self { resolved, hunt: Hunt::new(&resolved.scenario) }
    }
}

impl InParts for Reaching<'_> {
    type Want = Want;
    type Part = Part;
    type Report = ReachReport;

    fn wants(&self, parts: &[Part]) -> Vec<Want> {
        let all = sorted(parts);
        let Some(base) = all.base else { return vec![Want::Base] };
        let missing = (0..self.hunt.changes()).filter(|step| !all.singles.iter().any(|single| single.step == *step));
        let mut wants: Vec<Want> = missing.map(|step| Want::Single(base, step)).collect();
        if base.wants_burner && all.burner.is_none() {
            wants.push(Want::Burner);
        }
        if all.singles.len() >= self.hunt.changes() {
            let firsts = self.hunt.firsts(&all.singles).into_iter();
            let open = firsts.filter(|first| !all.pairs.iter().any(|pair| pair.first == *first));
            wants.extend(open.map(|first| Want::Pair(base, all.singles.clone(), first)));
        }
        wants
    }

    fn work(&self, want: &Want) -> Result<Part, NoPart> {
        let hunt = self.hunt.afresh();
        let part = match want {
            Want::Base => Some(Part::Base(hunt.base())),
            Want::Single(base, step) => hunt.single(base, *step).map(Part::Single),
            Want::Burner => Some(Part::Burner(hunt.burner())),
            Want::Pair(base, singles, first) => hunt.pair(base, singles, *first).map(Part::Pair),
        };
        NoPart::unless(hunt.fine().noted.first(), part)?.ok_or(NoPart::Unwanted)
    }

    fn fault(&self) -> Option<Fault> {
        self.hunt.fine().noted.first()
    }

    fn report(&self, parts: &[Part]) -> Option<ReachReport> {
        let all = sorted(parts);
        let base = all.base?;
        let found = self.hunt.reach(&base, &all.singles, &all.pairs, all.burner);
        let is_whole = self.wants(parts).is_empty();
        Some(reach_build::reach(self.resolved, self.hunt.fine(), &found, is_whole))
    }
}
