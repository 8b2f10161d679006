//! Owns the hands at the hearth: which order is loaded, turned or lifted next, and on which spot.

use super::orders::Order;
use super::spots::{Found, Seen, Spots, Taken, Want, lay};
use super::trace::{Bake, Held, Trace};
use crate::demand::BakeLaw;
use crate::hearth::oven::{Hearth, Lying};
use crate::scenario::Scenario;

/// A piece on its way to the floor: a hand is at it until then.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Coming {
    lands_s: f64,
    order: Order,
    spot: usize,
}

/// What the kitchen knows of a piece on the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
struct OnFloor {
    bake: usize,
    turned: bool,
    taken: Taken,
    /// Heat it held before the last step, J.
    had_j: f64,
    /// When that was, s.
    at_s: f64,
}

/// A lifted spot that is watched until it is back.
#[derive(Clone, Debug, PartialEq)]
struct Watched {
    bake: usize,
    lifted_s: f64,
    band_c: f64,
    was_c: f64,
    ready: bool,
    recovered: bool,
    spot: (usize, usize),
    /// Not looked at before this, s.
    next_s: f64,
}

/// The kitchen in the course of an evening.
#[derive(Clone, Debug)]
pub struct Kitchen<'s> {
    scenario: &'s Scenario,
    spots: &'s Spots,
    laws: &'s [BakeLaw],
    /// Orders still to come, next last.
    to_come: Vec<Order>,
    /// Orders waiting, by dish, oldest first.
    waiting: Vec<std::collections::VecDeque<Order>>,
    hands_free_s: Vec<f64>,
    coming: Vec<Coming>,
    on_floor: Vec<OnFloor>,
    watched: Vec<Watched>,
    started_in_quarter: Vec<f64>,
    quarter: f64,
    /// When each cell was last covered, s.
    covered_s: Vec<f64>,
    /// Each cell's face at service start, degC.
    start_faces_c: Vec<f64>,
    /// What is known of the floor without looking again.
    seen: Seen,
    /// What lies on the floor, for the oven; in step with `on_floor`.
    pub lying: Vec<Lying>,
}

/// A spot counts as recovered within this of what it was at service start, K.
const RECOVERED_WITHIN_K: f64 = 10.0;
/// A spot is looked at anew after this share of the time it has had: its recovery is told in minutes.
const WATCH_SHARE: f64 = 0.05;
/// Share of its heat at which a piece is turned.
const TURN_AT: f64 = 0.5;

impl<'s> Kitchen<'s> {
    /// A kitchen before the first order.
    #[must_use]
    pub fn new(
        scenario: &'s Scenario,
        spots: &'s Spots,
        laws: &'s [BakeLaw],
        mut orders: Vec<Order>,
        cells: usize,
    ) -> Self {
        orders.reverse();
        Self {
            scenario,
            spots,
            laws,
            to_come: orders,
            waiting: vec![std::collections::VecDeque::new(); scenario.menu.len()],
            hands_free_s: vec![f64::NEG_INFINITY; scenario.service.hands as usize],
            coming: Vec::new(),
            on_floor: Vec::new(),
            watched: Vec::new(),
            started_in_quarter: vec![0.0; scenario.menu.len()],
            quarter: f64::NEG_INFINITY,
            covered_s: vec![f64::NEG_INFINITY; cells],
            start_faces_c: Vec::new(),
            seen: Seen::default(),
            lying: Vec::new(),
        }
    }

    /// Whether all work is done.
    #[must_use]
    pub fn is_idle(&self) -> bool {
        self.lying.is_empty()
            && self.coming.is_empty()
            && self.to_come.is_empty()
            && self.waiting.iter().all(std::collections::VecDeque::is_empty)
    }

    /// Whether anything lies on the floor or is about to.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        !(self.lying.is_empty() && self.coming.is_empty())
    }

    /// Hands at work at a moment.
    #[must_use]
    pub fn hands_busy(&self, at_s: f64) -> f64 {
        self.hands_free_s.iter().filter(|&&free| free > at_s).count() as f64
    }

    /// Share of the floor taken, each piece by how many of its kind fit.
    #[must_use]
    pub fn floor_taken(&self) -> f64 {
        let by_dish = |dish: usize| 1.0 / self.spots.fit[dish].max(1) as f64;
        self.lying.iter().map(|l| by_dish(l.dish)).sum::<f64>()
            + self.coming.iter().map(|c| by_dish(c.order.dish)).sum::<f64>()
    }

    /// The next moment something is due, s: an order, a hand set free, a landing.
    #[must_use]
    pub fn next_due_s(&self, now_s: f64) -> f64 {
        let order = self.to_come.last().map_or(f64::INFINITY, |o| o.at_s);
        let hand = self.hands_free_s.iter().copied().filter(|&t| t > now_s).fold(f64::INFINITY, f64::min);
        let landing = self.coming.iter().map(|c| c.lands_s).fold(f64::INFINITY, f64::min);
        order.min(hand).min(landing).min(self.next_done_s(now_s))
    }

    /// When the next piece has its heat, at the rate it took heat in the last step, s.
    fn next_done_s(&self, now_s: f64) -> f64 {
        let done = self.lying.iter().zip(&self.on_floor).map(|(piece, place)| {
            let have = piece.base_j + piece.top_j;
            let need = self.laws[piece.dish].need_j();
            let rate = (have - place.had_j) / (now_s - place.at_s).max(f64::MIN_POSITIVE);
            if have < need && rate > 0.0 { now_s + (need - have) / rate } else { f64::INFINITY }
        });
        done.fold(f64::INFINITY, f64::min)
    }

    /// Remembers what each piece holds before a step, so that its rate is known after it.
    pub fn note_heat(&mut self, now_s: f64) {
        for (piece, place) in self.lying.iter().zip(&mut self.on_floor) {
            place.had_j = piece.base_j + piece.top_j;
            place.at_s = now_s;
        }
    }

    /// Remembers the floor at service start; recovery is measured against it.
    pub fn note_start(&mut self, faces_c: Vec<f64>) {
        self.start_faces_c = faces_c;
    }

    /// Works through everything due now. Returns whether what lies on the floor changed.
    pub fn work(&mut self, hearth: &Hearth<'_>, trace: &mut Trace, held_s: &mut [f64; 6], span_s: f64) -> bool {
        let now = hearth.time_s;
        self.take_orders(now);
        let mut changed = self.land(hearth, trace);
        changed |= self.lift_and_turn(hearth, trace);
        self.load(hearth, held_s, span_s);
        changed
    }

    fn take_orders(&mut self, now: f64) {
        while let Some(order) = self.to_come.last().copied()
            && order.at_s <= now
        {
            self.to_come.pop();
            self.waiting[order.dish].push_back(order);
        }
        let quarter = ((now - self.scenario.service.start) / crate::units::time::QUARTER_S).floor();
        if (quarter - self.quarter).abs() > 0.0 {
            self.quarter = quarter;
            self.started_in_quarter.fill(0.0);
        }
    }

    /// Pieces whose hand is done reach the floor.
    fn land(&mut self, hearth: &Hearth<'_>, trace: &mut Trace) -> bool {
        let now = hearth.time_s;
        let due: Vec<Coming> = self.coming.iter().copied().filter(|c| c.lands_s <= now).collect();
        self.coming.retain(|c| c.lands_s > now);
        for coming in &due {
            let dish = coming.order.dish;
            let spot = &self.spots.of(dish)[coming.spot];
            let piece = lay(dish, spot);
            let at_load_c = hearth.place_k(piece.place) + hearth.room_c();
            let dome_c = hearth.dome_c();
            let spec = &self.scenario.menu[dish];
            let in_band = (spec.floor_min_c..=spec.floor_max_c).contains(&((at_load_c * 10.0).round() / 10.0))
                && (spec.dome_min_c..=spec.dome_max_c).contains(&dome_c);
            trace.bakes.push(Bake {
                dish,
                spot: coming.spot,
                ordered_s: coming.order.at_s,
                batch: coming.order.batch,
                from_s: now,
                done_s: None,
                to_s: None,
                at_load_c,
                at_lift_c: None,
                dome_c,
                in_band,
                base_j: 0.0,
                top_j: 0.0,
                ready_again_s: None,
                recovery_s: None,
            });
            self.on_floor.push(OnFloor {
                bake: trace.bakes.len() - 1,
                turned: false,
                taken: Taken { footprint: spec.footprint, x_m: spot.x_m, y_m: spot.y_m },
                had_j: 0.0,
                at_s: now,
            });
            self.lying.push(piece);
        }
        !due.is_empty()
    }

    fn free_hand(&self, now: f64) -> Option<usize> {
        (0..self.hands_free_s.len()).find(|&h| self.hands_free_s[h] <= now)
    }

    /// Done pieces are lifted first, oldest first; then those at half heat are turned.
    fn lift_and_turn(&mut self, hearth: &Hearth<'_>, trace: &mut Trace) -> bool {
        let now = hearth.time_s;
        let mut changed = false;
        let mut i = 0;
        while i < self.lying.len() {
            let piece = &self.lying[i];
            let need = self.laws[piece.dish].need_j();
            let have = piece.base_j + piece.top_j;
            let bake = &mut trace.bakes[self.on_floor[i].bake];
            if have >= need {
                // The moment within the last step at which the heat was complete.
                if bake.done_s.is_none() {
                    let place = &self.on_floor[i];
                    let share = (need - place.had_j) / (have - place.had_j).max(f64::MIN_POSITIVE);
                    bake.done_s = Some(place.at_s + share.clamp(0.0, 1.0) * (now - place.at_s));
                }
                if let Some(hand) = self.free_hand(now) {
                    self.hands_free_s[hand] = now + self.scenario.service.lift_s;
                    self.lift(i, hearth, trace);
                    changed = true;
                    continue;
                }
            } else if have >= TURN_AT * need
                && !self.on_floor[i].turned
                && self.scenario.service.turn_s > 0.0
                && let Some(hand) = self.free_hand(now)
            {
                self.hands_free_s[hand] = now + self.scenario.service.turn_s;
                self.on_floor[i].turned = true;
            }
            i += 1;
        }
        changed
    }

    fn lift(&mut self, index: usize, hearth: &Hearth<'_>, trace: &mut Trace) {
        let now = hearth.time_s;
        let piece = self.lying.remove(index);
        let place = self.on_floor.remove(index);
        self.seen.moved();
        let bake = &mut trace.bakes[place.bake];
        bake.to_s = Some(now);
        bake.at_lift_c = Some(hearth.place_k(piece.place) + hearth.room_c());
        bake.base_j = piece.base_j;
        bake.top_j = piece.top_j;
        for &(cell, _) in &piece.cover {
            self.covered_s[cell] = now;
        }
        let was_c = if self.start_faces_c.is_empty() { f64::INFINITY } else { piece.mean(&self.start_faces_c) };
        let dish = piece.dish;
        self.watched.push(Watched {
            bake: place.bake,
            lifted_s: now,
            band_c: self.scenario.menu[dish].floor_min_c,
            was_c,
            ready: false,
            recovered: false,
            spot: (dish, bake.spot),
            next_s: now,
        });
    }

    /// Loads what can be loaded while hands are free, oldest order first; notes why the rest is held.
    fn load(&mut self, hearth: &Hearth<'_>, held_s: &mut [f64; 6], span_s: f64) {
        let now = hearth.time_s;
        if self.waiting.iter().all(std::collections::VecDeque::is_empty) {
            return;
        }
        if hearth.fire.is_spread() {
            // Nothing is loaded onto coals.
            let waits: usize = self.waiting.iter().map(std::collections::VecDeque::len).sum();
            held_s[Held::Space as usize] += span_s * waits as f64;
            return;
        }
        let dome_c = hearth.dome_c();
        self.seen.later();
        let mut by_age: Vec<usize> = (0..self.waiting.len()).filter(|&d| !self.waiting[d].is_empty()).collect();
        loop {
            by_age.retain(|&d| !self.waiting[d].is_empty());
            crate::numerics::order::places(&mut by_age, &|a, b| {
                self.waiting[a][0].at_s.total_cmp(&self.waiting[b][0].at_s).then(a.cmp(&b))
            });
            let mut started = false;
            for position in 0..by_age.len() {
                let dish = by_age[position];
                let Some(hand) = self.free_hand(now) else {
                    for &d in &by_age[position..] {
                        held_s[Held::Hands as usize] += span_s * self.waiting[d].len() as f64;
                    }
                    return;
                };
                match self.try_load(dish, hearth, dome_c) {
                    Ok(spot) => {
                        if let Some(order) = self.waiting[dish].pop_front() {
                            let lands_s = now + order.load_s;
                            self.hands_free_s[hand] = lands_s;
                            self.started_in_quarter[dish] += 1.0;
                            self.coming.push(Coming { lands_s, order, spot });
                            self.seen.moved();
                            started = true;
                        }
                    }
                    Err(held) => held_s[held as usize] += span_s * self.waiting[dish].len() as f64,
                }
                if started {
                    break;
                }
            }
            if !started {
                return;
            }
        }
    }

    /// What lies on the floor or is about to.
    fn taken(&self) -> Vec<Taken> {
        let coming = self.coming.iter().map(|c| {
            let spot = &self.spots.of(c.order.dish)[c.spot];
            Taken { footprint: self.scenario.menu[c.order.dish].footprint, x_m: spot.x_m, y_m: spot.y_m }
        });
        self.on_floor.iter().map(|p| p.taken).chain(coming).collect()
    }

    /// The spot the oldest order of a dish may take now, or why it may not.
    fn try_load(&mut self, dish: usize, hearth: &Hearth<'_>, dome_c: f64) -> Result<usize, Held> {
        let now = hearth.time_s;
        let spec = &self.scenario.menu[dish];
        if spec.cap_per_quarter.is_some_and(|cap| self.started_in_quarter[dish] + 1.0 > cap) {
            return Err(Held::Cap);
        }
        let waited = self.waiting[dish].front().map_or(0.0, |order| now - order.at_s);
        let patient = waited < self.scenario.service.patience_s;
        let want = Want { dish, spec, rule: self.scenario.service.spot_rule };
        let mut seen = std::mem::take(&mut self.seen);
        let found: Found = self.spots.look(&want, hearth, &self.covered_s, || self.taken(), &mut seen);
        self.seen = seen;
        if dome_c < spec.dome_min_c && patient {
            return Err(Held::ColdDome);
        }
        match (found.in_band, found.nearest) {
            (Some(spot), _) => Ok(spot),
            (None, Some(spot)) if !patient => Ok(spot),
            (None, Some(_)) if found.hottest_c.is_some_and(|c| c < spec.floor_min_c) => Err(Held::ColdFloor),
            (None, Some(_)) => Err(Held::HotFloor),
            (None, None) => Err(Held::Space),
        }
    }

    /// Looks at the lifted spots: which are back in their band, which recovered.
    pub fn watch(&mut self, hearth: &Hearth<'_>, trace: &mut Trace) {
        let now = hearth.time_s;
        for watched in self.watched.iter_mut().filter(|watched| now >= watched.next_s) {
            watched.next_s = now + WATCH_SHARE * (now - watched.lifted_s);
            let spot = &self.spots.of(watched.spot.0)[watched.spot.1];
            let mean_c = hearth.place_k(spot.place) + hearth.room_c();
            let bake = &mut trace.bakes[watched.bake];
            if !watched.ready && mean_c >= watched.band_c {
                watched.ready = true;
                bake.ready_again_s = Some(now - watched.lifted_s);
            }
            if !watched.recovered && mean_c >= watched.was_c - RECOVERED_WITHIN_K {
                watched.recovered = true;
                bake.recovery_s = Some(now - watched.lifted_s);
            }
        }
        self.watched.retain(|w| !(w.ready && w.recovered));
    }

    /// Orders never started, by dish.
    #[must_use]
    pub fn unstarted(&self) -> Vec<u32> {
        let mut counts: Vec<u32> = self.waiting.iter().map(|queue| queue.len() as u32).collect();
        for order in &self.to_come {
            counts[order.dish] += 1;
        }
        counts
    }
}
