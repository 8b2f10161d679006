//! Owns the judgement of a night: which promise broke, when, on which dish, and which resource gave first.

use super::night::Ready;
use super::trace::{Bake, HELD, Held, Trace};
use crate::units::time::{HOUR_S, QUARTER_S};

/// What an oven, its fire and its cooks have to give.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub enum Resource {
    /// Heat in the floor.
    FloorHeat,
    /// Heat from dome and flame.
    TopHeat,
    /// Room on the floor.
    FloorSpace,
    /// Hands at the hearth.
    Hands,
    /// A fire that stays in the oven and does not overheat it.
    Fire,
    /// Air through the doorway.
    DoorwayAir,
    /// A dish's own cap by quarter hour: the kitchen's choice, and no resource of the oven.
    Cap,
}

/// All resources an oven, its fire and its cooks have, in the order of reports.
pub const RESOURCES: [Resource; 6] = [
    Resource::FloorHeat,
    Resource::TopHeat,
    Resource::FloorSpace,
    Resource::Hands,
    Resource::Fire,
    Resource::DoorwayAir,
];

/// What was promised.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pledge {
    /// Nine in ten wait at most so long.
    WaitP90,
    /// No dish's bake slows by more than a share.
    BakeSlower,
    /// So many loads start in their bands.
    ShareInBand,
    /// The last piece is out in time.
    QueueGoneBy,
    /// The fire burns clean, within the oven, with the doorway's air.
    FireLimits,
}

/// A promise that broke.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Breach {
    /// Which.
    pub pledge: Pledge,
    /// When it first broke, s.
    pub from_s: f64,
    /// When it was worst, s.
    pub worst_s: f64,
    /// On which dish, if on one above the others.
    pub dish: Option<usize>,
    /// What was promised, in the pledge's own unit (s, share, clock s).
    pub promised: f64,
    /// What came; infinite for a queue that never went.
    pub got: f64,
    /// What gave.
    pub gives: Resource,
}

/// How much of a resource was used when it was used most; 1 is all of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Use {
    /// Which.
    pub what: Resource,
    /// Used over what there is.
    pub used: f64,
    /// When, s.
    pub at_s: f64,
}

/// The judgement.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// Promises that broke, the first to break first.
    pub breaches: Vec<Breach>,
    /// Each resource's use.
    pub uses: [Use; 6],
}

impl Judgement {
    /// Whether all promises hold.
    #[must_use]
    pub fn carries(&self) -> bool {
        self.breaches.is_empty()
    }

    /// What gave first.
    #[must_use]
    pub fn gives(&self) -> Option<Resource> {
        self.breaches.first().map(|b| b.gives)
    }

    /// The resource that stands closest to its limit.
    #[must_use]
    pub fn tightest(&self) -> Use {
        self.uses.iter().copied().fold(self.uses[0], |most, u| if u.used > most.used { u } else { most })
    }
}

/// A window with fewer bakes than this says nothing.
const LEAST_BAKES: usize = 3;
/// A fire smokes while it catches: its limits count from this long after the match, s. Common practice, no source.
pub const CATCHING_S: f64 = 1200.0;
/// Bakes slower than this share over their known time count as slow when a full floor is explained.
const SLOW_SHARE: f64 = 0.15;
/// Trouble is explained by what held orders from this long before it began ...
const BEFORE_S: f64 = 900.0;
/// ... to this long after, s.
const AFTER_S: f64 = 2700.0;

/// The value below which a share of a sorted list lies (nearest rank).
#[must_use]
pub fn quantile(sorted: &[f64], share: f64) -> f64 {
    if sorted.is_empty() {
        return 0.0;
    }
    let rank = (share * sorted.len() as f64).ceil().max(1.0) as usize;
    sorted[rank.min(sorted.len()) - 1]
}

/// The values in rising order.
pub fn sorted(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut list: Vec<f64> = values.collect();
    crate::numerics::order::rising(&mut list);
    list
}

/// Judges a night.
#[must_use]
pub fn judge(ready: &Ready, trace: &Trace) -> Judgement {
    judge_lit(ready, trace, ready.scenario.feeding.light_at)
}

/// Judges a night that was lit at another time than its scenario says.
#[must_use]
pub fn judge_lit(ready: &Ready, trace: &Trace, light_at: f64) -> Judgement {
    let judge = Judge { ready, trace, light_at };
    let mut breaches: Vec<Breach> =
        [judge.wait(), judge.slower(), judge.in_band(), judge.queue(), judge.fire()].into_iter().flatten().collect();
    crate::numerics::order::by(&mut breaches, |a, b| a.from_s.total_cmp(&b.from_s));
    let mut uses = judge.uses();
    // What gave is shown as given, by how far its promise was missed.
    for breach in &breaches {
        let missed = match breach.pledge {
            Pledge::WaitP90 => breach.got / breach.promised.max(1.0),
            Pledge::BakeSlower => (1.0 + breach.got) / (1.0 + breach.promised),
            Pledge::ShareInBand => 1.0 + (breach.promised - breach.got),
            Pledge::QueueGoneBy => 1.0 + ((breach.got - breach.promised) / HOUR_S).clamp(0.02, 1.0),
            Pledge::FireLimits => breach.got,
        };
        for slot in uses.iter_mut().filter(|u| u.what == breach.gives) {
            if slot.used < missed.max(1.01) {
                *slot = Use { used: missed.clamp(1.01, 2.0), at_s: breach.worst_s, ..*slot };
            }
        }
    }
    Judgement { breaches, uses }
}

struct Judge<'a> {
    ready: &'a Ready,
    trace: &'a Trace,
    light_at: f64,
}

impl Judge<'_> {
    fn guests(&self) -> impl Iterator<Item = &Bake> {
        self.trace.bakes.iter().filter(|b| !b.batch)
    }

    /// How much slower a bake was than the known one, share.
    fn slowness(&self, bake: &Bake) -> Option<f64> {
        bake.bake_s().map(|s| s / self.ready.scenario.menu[bake.dish].known_bake.time_s - 1.0)
    }

    fn wait(&self) -> Option<Breach> {
        let promised = self.ready.scenario.promise.wait_p90_s;
        // Orders never started have waited to the end.
        let lost: u32 = self.trace.never_started.iter().sum();
        let mut waits: Vec<f64> = self.guests().map(Bake::wait_s).collect();
        waits.extend((0..lost).map(|_| f64::INFINITY));
        crate::numerics::order::rising(&mut waits);
        let got = quantile(&waits, 0.9);
        if got <= promised {
            return None;
        }
        let late = || self.guests().filter(|b| b.wait_s() > promised);
        let from_s = late().map(|b| b.ordered_s + promised).fold(self.trace.ended_s, f64::min);
        let worst = late().fold(None, |worst: Option<&Bake>, b| match worst {
            Some(w) if w.wait_s() >= b.wait_s() => Some(w),
            _ => Some(b),
        });
        let worst_s = worst.map_or(from_s, |b| b.ordered_s);
        let dish = self.most(late().map(|b| (b.dish, b.wait_s() - promised)));
        Some(Breach { pledge: Pledge::WaitP90, from_s, worst_s, dish, promised, got, gives: self.holder(from_s) })
    }

    /// The dish with the largest sum, if any.
    fn most(&self, amounts: impl Iterator<Item = (usize, f64)>) -> Option<usize> {
        let mut sums = vec![0.0; self.ready.scenario.menu.len()];
        for (dish, amount) in amounts {
            sums[dish] += amount;
        }
        let best = (0..sums.len()).fold(0, |best, d| if sums[d] > sums[best] { d } else { best });
        (sums.get(best).copied().unwrap_or(0.0) > 0.0).then_some(best)
    }

    fn slower(&self) -> Option<Breach> {
        let promised = self.ready.scenario.promise.bake_slower_max;
        let mut found: Option<Breach> = None;
        for dish in 0..self.ready.scenario.menu.len() {
            // Batch work counts as orders do: a loaf is promised its bake too.
            let bakes: Vec<&Bake> = self.trace.bakes.iter().filter(|b| b.dish == dish && b.done_s.is_some()).collect();
            let opens = self.ready.scenario.service.start;
            let first = bakes.iter().map(|b| b.from_s).fold(opens, f64::min);
            let start = opens + ((first - opens) / QUARTER_S).floor() * QUARTER_S;
            let mut from_s = None;
            let mut worst = (promised, start);
            for window in 0..(24 * 4) {
                let at = start + f64::from(window) * QUARTER_S;
                let inside: Vec<&&Bake> = bakes.iter().filter(|b| (at..at + HOUR_S).contains(&b.from_s)).collect();
                let slow = sorted(inside.iter().filter_map(|b| self.slowness(b)));
                if slow.len() < LEAST_BAKES {
                    continue;
                }
                let median = quantile(&slow, 0.5);
                if median > promised && from_s.is_none() {
                    let first = inside.iter().find(|b| self.slowness(b).is_some_and(|s| s > promised));
                    from_s = first.map(|b| b.from_s);
                }
                if median > worst.0 {
                    worst = (median, at + 0.5 * HOUR_S);
                }
            }
            if let Some(from_s) = from_s
                && found.is_none_or(|f| worst.0 > f.got)
            {
                let gives = self.slow_side(dish, worst.1);
                let pledge = Pledge::BakeSlower;
                found =
                    Some(Breach { pledge, from_s, worst_s: worst.1, dish: Some(dish), promised, got: worst.0, gives });
            }
        }
        found
    }

    /// Whether base or top of a dish fell further behind its known bake about a time.
    fn slow_side(&self, dish: usize, at_s: f64) -> Resource {
        let law = &self.ready.laws[dish];
        let (mut base, mut top, mut time) = (0.0, 0.0, 0.0);
        for bake in self.trace.bakes.iter().filter(|b| b.dish == dish && (b.from_s - at_s).abs() <= 0.5 * HOUR_S) {
            if let Some(s) = bake.bake_s() {
                base += bake.base_j;
                top += bake.top_j;
                time += s;
            }
        }
        let known_w = law.need_j() / self.ready.scenario.menu[dish].known_bake.time_s;
        let (base_w, top_w) = (base / time.max(1.0), top / time.max(1.0));
        let behind = |got: f64, share: f64| share * known_w - got;
        if behind(base_w, law.base_share) >= behind(top_w, 1.0 - law.base_share) {
            Resource::FloorHeat
        } else {
            Resource::TopHeat
        }
    }

    fn in_band(&self) -> Option<Breach> {
        let promised = self.ready.scenario.promise.share_in_band;
        let all = self.trace.bakes.len();
        let outside: Vec<&Bake> = self.trace.bakes.iter().filter(|b| !b.in_band).collect();
        let got = 1.0 - outside.len() as f64 / all.max(1) as f64;
        let first = outside.first()?;
        if got >= promised {
            return None;
        }
        let middle = outside[outside.len() / 2];
        let dish = self.most(outside.iter().map(|b| (b.dish, 1.0)));
        let reasons: Vec<Resource> = outside.iter().map(|b| self.outside_by(b)).collect();
        let count = |r: Resource| reasons.iter().filter(|&&x| x == r).count();
        let gives = [Resource::FloorHeat, Resource::TopHeat, Resource::Fire]
            .into_iter()
            .fold(Resource::FloorHeat, |most, r| if count(r) > count(most) { r } else { most });
        let pledge = Pledge::ShareInBand;
        Some(Breach { pledge, from_s: first.from_s, worst_s: middle.from_s, dish, promised, got, gives })
    }

    fn outside_by(&self, bake: &Bake) -> Resource {
        let spec = &self.ready.scenario.menu[bake.dish];
        if bake.at_load_c < spec.floor_min_c {
            Resource::FloorHeat
        } else if bake.dome_c < spec.dome_min_c {
            Resource::TopHeat
        } else {
            Resource::Fire
        }
    }

    fn queue(&self) -> Option<Breach> {
        let promised = self.ready.scenario.promise.queue_gone_by;
        let lost = self.trace.never_started.iter().any(|&n| n > 0) || self.trace.bakes.iter().any(|b| b.to_s.is_none());
        let last = self.trace.bakes.iter().filter_map(|b| b.to_s).fold(f64::NEG_INFINITY, f64::max);
        let got = if lost { f64::INFINITY } else { last };
        if got <= promised {
            return None;
        }
        let late = self.guests().filter(|b| b.to_s.is_none_or(|t| t > promised)).map(|b| (b.dish, 1.0));
        let never = self.trace.never_started.iter().enumerate().map(|(d, &n)| (d, f64::from(n)));
        let dish = self.most(late.chain(never));
        let gives = self.holder(promised - HOUR_S);
        Some(Breach { pledge: Pledge::QueueGoneBy, from_s: promised, worst_s: promised, dish, promised, got, gives })
    }

    fn fire(&self) -> Option<Breach> {
        let counts_from = self.light_at + CATCHING_S;
        let beyond = |q: &&super::trace::Quarter| q.reach > 1.0 || q.air_used > 1.0 || q.hard_limit_used > 1.0;
        let mut over = self.trace.quarters.iter().filter(|q| q.at_s >= counts_from).filter(beyond);
        let first = over.next()?;
        let worse = |q: &super::trace::Quarter| q.reach.max(q.air_used).max(q.hard_limit_used);
        let worst = over.fold(first, |w, q| if worse(q) > worse(w) { q } else { w });
        let gives = if worst.reach >= worst.air_used.max(worst.hard_limit_used) {
            Resource::Fire
        } else {
            Resource::DoorwayAir
        };
        Some(Breach {
            pledge: Pledge::FireLimits,
            from_s: first.at_s,
            worst_s: worst.at_s,
            dish: None,
            promised: 1.0,
            got: worse(worst),
            gives,
        })
    }

    /// What held orders about a time.
    fn holder(&self, at_s: f64) -> Resource {
        let near = |t: f64| (at_s - BEFORE_S..at_s + AFTER_S).contains(&t);
        let mut held = [0.0; 6];
        for quarter in self.trace.quarters.iter().filter(|q| near(q.at_s)) {
            for (sum, s) in held.iter_mut().zip(quarter.held_s) {
                *sum += s;
            }
        }
        let most = (0..HELD.len()).fold(0, |most, r| if held[r] > held[most] { r } else { most });
        match HELD[most] {
            Held::ColdFloor => Resource::FloorHeat,
            Held::HotFloor => Resource::Fire,
            Held::ColdDome => Resource::TopHeat,
            Held::Hands if held[most] > 0.0 => Resource::Hands,
            Held::Cap => Resource::Cap,
            _ => self.why_full(at_s),
        }
    }

    /// A full floor is full because bakes are slow, or because there is too little of it.
    fn why_full(&self, at_s: f64) -> Resource {
        let near: Vec<&Bake> =
            self.trace.bakes.iter().filter(|b| (at_s - BEFORE_S..at_s + AFTER_S).contains(&b.from_s)).collect();
        let slow = sorted(near.iter().filter_map(|b| self.slowness(b)));
        if quantile(&slow, 0.5) <= SLOW_SHARE {
            return Resource::FloorSpace;
        }
        let dish = self.most(near.iter().filter_map(|b| self.slowness(b).map(|s| (b.dish, s.max(0.0)))));
        dish.map_or(Resource::FloorSpace, |d| self.slow_side(d, at_s))
    }

    fn uses(&self) -> [Use; 6] {
        let menu = &self.ready.scenario.menu;
        let share = self.ready.scenario.promise.share_in_band;
        let depth = |low: f64, high: f64, at: f64| ((high - at) / (high - low).max(1.0)).max(0.0);
        let by = |f: &dyn Fn(&Bake) -> f64| {
            let mut all: Vec<(f64, f64)> = self.trace.bakes.iter().map(|b| (f(b), b.from_s)).collect();
            crate::numerics::order::by(&mut all, |a, b| a.0.total_cmp(&b.0));
            let rank = (share * all.len() as f64).ceil().max(1.0) as usize;
            all.get(rank.min(all.len()).saturating_sub(1)).copied().unwrap_or((0.0, self.ready.scenario.service.start))
        };
        let floor = by(&|b| depth(menu[b.dish].floor_min_c, menu[b.dish].floor_max_c, b.at_load_c));
        let top = by(&|b| depth(menu[b.dish].dome_min_c, menu[b.dish].dome_max_c, b.dome_c));
        let counts_from = self.light_at + CATCHING_S;
        let start = self.ready.scenario.service.start;
        let quarters = |from: f64, f: &dyn Fn(&super::trace::Quarter) -> f64| {
            let late = self.trace.quarters.iter().filter(|q| q.at_s >= from);
            late.fold((0.0, start), |most, q| if f(q) > most.0 { (f(q), q.at_s) } else { most })
        };
        let hands = f64::from(self.ready.scenario.service.hands).max(1.0);
        let found = [
            floor,
            top,
            quarters(start, &|q| q.floor_s / QUARTER_S),
            quarters(start, &|q| q.hands_s / QUARTER_S / hands),
            quarters(counts_from, &|q| q.reach),
            quarters(counts_from, &|q| q.air_used.max(q.hard_limit_used)),
        ];
        let mut uses = [Use { what: Resource::FloorHeat, used: 0.0, at_s: 0.0 }; 6];
        for ((slot, what), (used, at_s)) in uses.iter_mut().zip(RESOURCES).zip(found) {
            *slot = Use { what, used, at_s };
        }
        uses
    }
}
