//! Owns the run of a day: from the morning's reading over match and service to the last piece out.

pub mod course;

use super::fuel_plan::{Act, calendar};
use super::kitchen::Kitchen;
use super::orders::{Order, orders};
use super::spots::Spots;
use super::trace::{Bake, Picture, Quarter, Trace};
use crate::demand::{BakeLaw, anchor};
use crate::hearth::build::{Accuracy, Build, CONTACT_LOSS_W_M2_K, LEAST_STEP_S};
use crate::hearth::fault::{Fault, Noted};
use crate::hearth::fire::{CLEAN_LAMBDA, doorway_limit_kg_s};
use crate::hearth::oven::Hearth;
use crate::hearth::plan::Cell;
use crate::scenario::{FloorReading, Scenario};
use crate::units::time::QUARTER_S;

/// After the promised end of the queue the kitchen works on for this long at most, s.
const GIVE_UP_AFTER_S: f64 = 2700.0;
/// Spots are looked at this often for their recovery, s.
const WATCH_EVERY_S: f64 = 10.0;
/// Limits of the fire are held against means over this long, s: a flare as a piece catches is no state of the fire.
const LIMIT_MEAN_S: f64 = 300.0;
/// Below this the fire is a glow and its excess air says nothing, W.
const LEAST_FIRE_W: f64 = 3_000.0;

/// A scenario with all that is worked out once for it.
#[derive(Clone, Debug)]
pub struct Ready {
    /// The scenario.
    pub scenario: Scenario,
    /// The oven.
    pub build: Build,
    /// How each dish bakes.
    pub laws: Vec<BakeLaw>,
    /// Where each dish may lie.
    pub spots: Spots,
    /// The first fault of any day played on this kitchen or its changes.
    pub noted: Noted,
}

impl Ready {
    /// Works out oven, dishes and spots.
    #[must_use]
    pub fn new(scenario: &Scenario, accuracy: Accuracy) -> Self {
        Self::upon(Build::new(scenario, accuracy), scenario)
    }

    /// As new, but this kitchen's oven is taken over where it would be the same but for its wood: packing, what surfaces see of
    /// each other and what traces show are a third of a day's work. Two ovens never take up memory at once.
    #[must_use]
    pub fn after(self, scenario: &Scenario) -> Self {
        let outlines = |scenario: &Scenario| scenario.menu.iter().map(|dish| dish.footprint).collect::<Vec<_>>();
        let (was, now) = (&self.scenario, scenario);
        let stands = was.oven == now.oven
            && (was.service.peel_gap_m - now.service.peel_gap_m).abs() <= 0.0
            && outlines(was) == outlines(now);
        let mut build = self.build;
        if !stands {
            let accuracy = build.accuracy;
            drop(build);
            return Self::new(scenario, accuracy);
        }
        build.take_wood(scenario);
        Self::upon(build, scenario)
    }

    fn upon(build: Build, scenario: &Scenario) -> Self {
        let laws = scenario.menu.iter().map(|dish| anchor(dish, &scenario.oven)).collect();
        let spots = Spots::new(&build.places, scenario.service.peel_gap_m);
        Self { scenario: scenario.clone(), build, laws, spots, noted: Noted::default() }
    }

    /// The same kitchen with no fault noted, and none shared with this one.
    #[must_use]
    pub fn afresh(&self) -> Self {
        Self { noted: Noted::default(), ..self.clone() }
    }

    /// Takes other feeding, covers, bands or promises over the same oven and dishes (whose shapes and recipes must not change).
    #[must_use]
    pub fn with(&self, change: impl FnOnce(&mut Scenario)) -> Self {
        let mut other = self.clone();
        change(&mut other.scenario);
        other
    }
}

/// What to keep of a run.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Keep {
    /// Seconds between pictures of the floor during service; `None` keeps none.
    pub picture_every_s: Option<f64>,
}

/// Plays the day of a scenario.
#[must_use]
pub fn play(ready: &Ready, keep: Keep) -> Trace {
    let mut hearth = Hearth::new(&ready.build, &ready.scenario);
    run(ready, &mut hearth, orders(&ready.scenario), keep)
}

/// Plays on from an oven's present state: acts and orders before its time are taken as done.
pub fn run(ready: &Ready, hearth: &mut Hearth<'_>, orders: Vec<Order>, keep: Keep) -> Trace {
    run_until(ready, hearth, orders, keep, f64::INFINITY)
}

/// Plays on until a moment at the latest; what lies on the floor then is forgotten.
pub fn run_until(ready: &Ready, hearth: &mut Hearth<'_>, orders: Vec<Order>, keep: Keep, until_s: f64) -> Trace {
    let mut day = Day::new(ready, hearth, orders, keep);
    while !day.is_over() && day.hearth.time_s < until_s {
        day.step();
    }
    day.finish()
}

struct Day<'r, 'h, 'b> {
    ready: &'r Ready,
    hearth: &'h mut Hearth<'b>,
    kitchen: Kitchen<'r>,
    acts: Vec<(f64, Act)>,
    trace: Trace,
    quarter: Quarter,
    keep: Keep,
    next_picture_s: f64,
    next_watch_s: f64,
    started: bool,
    means: [f64; 3],
    last_span_s: f64,
    /// Tightest contact of any dish with the stone.
    contact_w_m2_k: f64,
}

impl<'r, 'h, 'b> Day<'r, 'h, 'b> {
    fn new(ready: &'r Ready, hearth: &'h mut Hearth<'b>, orders: Vec<Order>, keep: Keep) -> Self {
        let now = hearth.time_s;
        let mut acts = calendar(&ready.scenario);
        acts.retain(|(at, _)| *at >= now);
        acts.reverse();
        let mut ordered = vec![0; ready.scenario.menu.len()];
        for order in &orders {
            ordered[order.dish] += 1;
        }
        let (cells, start) = (ready.build.plan.cells.len(), ready.scenario.service.start);
        let kitchen = Kitchen::new(&ready.scenario, &ready.spots, &ready.laws, orders, cells);
        Self {
            kitchen,
            acts,
            trace: Trace { ordered, reading_lowest_c: f64::INFINITY, ..Trace::default() },
            quarter: Quarter {
                // Quarters are told from the service's start, as covers are, so that a day told later is the same day.
                at_s: start + ((now - start) / QUARTER_S).floor() * QUARTER_S,
                lowest_c: f64::INFINITY,
                ..Quarter::default()
            },
            next_picture_s: start,
            next_watch_s: now,
            started: false,
            means: [0.0; 3],
            last_span_s: 0.0,
            // A known bake that was far too quick gets a contact far tighter than usual, and shorter steps with it.
            contact_w_m2_k: ready
                .laws
                .iter()
                .map(|law| law.base_contact(0.0).conductance_w_m2_k)
                .fold(CONTACT_LOSS_W_M2_K, f64::max),
            ready,
            hearth,
            keep,
        }
    }

    fn is_over(&self) -> bool {
        let now = self.hearth.time_s;
        let service = &self.ready.scenario.service;
        if now < service.end {
            return false;
        }
        let promised = self.ready.scenario.promise.queue_gone_by.max(service.end);
        self.kitchen.is_idle() || now >= promised + GIVE_UP_AFTER_S
    }

    /// Everything due at this moment, then the oven up to the next.
    fn step(&mut self) {
        self.act();
        self.note_start();
        let span = self.last_span_s;
        let before = self.trace.bakes.len();
        let changed = self.kitchen.work(self.hearth, &mut self.trace, &mut self.quarter.held_s, span);
        for bake in &self.trace.bakes[before..] {
            self.quarter.lowest_c = self.quarter.lowest_c.min(bake.at_load_c);
        }
        if changed {
            self.hearth.lay(&self.kitchen.lying, &self.ready.laws);
        }
        self.watch();
        let step_s = self.step_length_s();
        let hands = self.kitchen.hands_busy(self.hearth.time_s + 1e-9);
        self.kitchen.note_heat(self.hearth.time_s);
        self.hearth.step(step_s, &mut self.kitchen.lying, &self.ready.laws);
        self.quarter.hands_s += hands * step_s;
        self.quarter.floor_s += self.kitchen.floor_taken() * step_s;
        self.last_span_s = step_s;
        self.trace.steps += 1;
        self.count(step_s);
    }

    fn act(&mut self) {
        let now = self.hearth.time_s;
        while let Some((at, act)) = self.acts.last().copied()
            && at <= now + 1e-6
        {
            self.acts.pop();
            let (diameter, length) =
                (self.ready.scenario.wood.piece_diameter_m, self.ready.scenario.wood.piece_length_m);
            let before = self.hearth.fire.wood_kg();
            match act {
                Act::Kindle(kg) => self.hearth.fire.kindle(kg),
                Act::Feed(pieces) => {
                    self.hearth.fire.feed(diameter, length * pieces);
                    self.quarter.pieces += pieces;
                }
                Act::Spread => self.hearth.fire.spread(true),
                Act::Gather => self.hearth.fire.spread(false),
                Act::Wipe(kg) => self.hearth.wipe(kg),
            }
            let fed = self.hearth.fire.wood_kg() - before;
            self.quarter.fed_kg += fed;
            if now < self.ready.scenario.service.start {
                self.trace.light_up_kg += fed;
            } else {
                self.trace.service_kg += fed;
            }
        }
    }

    fn note_start(&mut self) {
        if !self.started && self.hearth.time_s >= self.ready.scenario.service.start {
            self.started = true;
            self.trace.start_c = self.hearth.food_floor_c();
            let room_c = self.hearth.room_c();
            self.kitchen.note_start(self.hearth.faces_over_k().iter().map(|t| t + room_c).collect());
        }
    }

    fn watch(&mut self) {
        let now = self.hearth.time_s;
        if now >= self.next_watch_s - 1e-6 {
            self.next_watch_s = now + WATCH_EVERY_S;
            self.kitchen.watch(self.hearth, &mut self.trace);
            if self.started {
                self.trace.reading_lowest_c = self.trace.reading_lowest_c.min(self.reading_c());
            }
        }
        if let Some(every) = self.keep.picture_every_s
            && now >= self.next_picture_s
        {
            self.next_picture_s += every;
            let room_c = self.hearth.room_c();
            self.trace.pictures.push(Picture {
                at_s: now,
                face_c: self.hearth.faces_over_k().iter().map(|t| t + room_c).collect(),
                fire_w: self.hearth.moment.heat.total_w(),
                dome_c: self.hearth.dome_c(),
            });
        }
    }

    /// The coolest food cell as this kitchen reads it: the face by gun, the probe's depth by probe.
    fn reading_c(&self) -> f64 {
        let depth_m = match self.ready.scenario.oven.reading {
            FloorReading::Gun => 0.0,
            FloorReading::Probe { depth_m } => depth_m,
        };
        let (floor, cells) = (&self.hearth.floor, &self.ready.build.plan.cells);
        let least = |least: f64, (cell, k): (&Cell, f64)| if cell.under_fire { least } else { least.min(k) };
        let least_k = if depth_m > 0.0 {
            cells.iter().zip(floor.all_at_depth_k(depth_m)).fold(f64::INFINITY, least)
        } else {
            cells.iter().zip(floor.faces_k().iter().copied()).fold(f64::INFINITY, least)
        };
        least_k + self.hearth.room_c()
    }

    fn step_length_s(&mut self) -> f64 {
        let now = self.hearth.time_s;
        let accuracy = &self.ready.build.accuracy;
        let busy = self.kitchen.is_busy();
        let most = if busy { accuracy.busy_step_s } else { accuracy.idle_step_s };
        let food_k = self.hearth.food_floor_c() + crate::units::ZERO_C_K;
        let contact_w_m2_k = if busy { self.contact_w_m2_k } else { 0.0 };
        let borne = self.ready.build.borne_step_s(contact_w_m2_k, self.hearth.hottest_k(), food_k);
        self.hearth.fault = self.hearth.fault.or(Fault::of_step(now, borne, LEAST_STEP_S));
        let most = most.min(borne.max(LEAST_STEP_S));
        let act = self.acts.last().map_or(f64::INFINITY, |a| a.0);
        let quarter_end = self.quarter.at_s + QUARTER_S;
        let start = if self.started { f64::INFINITY } else { self.ready.scenario.service.start };
        let due = act.min(quarter_end).min(start).min(self.kitchen.next_due_s(now));
        let least = 0.25_f64.min(most);
        if due > now { most.min((due - now).max(least)) } else { most }
    }

    fn count(&mut self, step_s: f64) {
        let moment = self.hearth.moment;
        self.quarter.wood_kg += moment.heat.wood_kg_s * step_s;
        self.quarter.gas_j += moment.burner.gas_w * step_s;
        let share = step_s / QUARTER_S;
        self.quarter.glow_w += share * moment.glow_w;
        self.quarter.out_kg_s += share * moment.flow.out_kg_s;
        let smoke_c = moment.gas_k - crate::units::ZERO_C_K;
        let carried_j_kg = crate::matter::smoke::enthalpy_j_kg(smoke_c, self.hearth.room_c());
        self.quarter.flow_w += share * moment.flow.out_kg_s * carried_j_kg;
        self.means(step_s);
        self.trace.face_most_c = self.trace.face_most_c.max(self.hearth.dome_c()).max(self.hearth.food_floor_c());
        self.quarter.reach = self.quarter.reach.max(self.means[0]);
        self.quarter.air_used = self.quarter.air_used.max(self.means[1]);
        self.quarter.hard_limit_used = self.quarter.hard_limit_used.max(self.means[2]);
        if self.hearth.time_s >= self.quarter.at_s + QUARTER_S - 1e-9 {
            self.end_quarter();
        }
    }

    /// Running means of the fire's limits.
    fn means(&mut self, step_s: f64) {
        let heat = self.hearth.moment.heat;
        let door = &self.ready.build.doorway;
        let lively = heat.total_w() > LEAST_FIRE_W;
        let air_used = if lively { CLEAN_LAMBDA / heat.lambda.max(0.1) } else { 0.0 };
        let hard = heat.asked_kg_s / doorway_limit_kg_s(door.width_m, door.height_m);
        let weight = (step_s / LIMIT_MEAN_S).min(1.0);
        for (mean, now) in self.means.iter_mut().zip([self.hearth.moment.flame_reach, air_used, hard]) {
            *mean += weight * (now - *mean);
        }
    }

    fn end_quarter(&mut self) {
        let mut quarter = std::mem::take(&mut self.quarter);
        quarter.mean_c = self.hearth.food_floor_c();
        quarter.dome_c = self.hearth.dome_c();
        if quarter.lowest_c.is_infinite() {
            let cells = self.ready.build.plan.cells.iter().zip(self.hearth.faces_over_k());
            let coolest = cells.filter(|(cell, _)| !cell.under_fire).map(|(_, t)| *t).fold(f64::INFINITY, f64::min);
            quarter.lowest_c = coolest + self.hearth.room_c();
        }
        self.quarter = Quarter { at_s: quarter.at_s + QUARTER_S, lowest_c: f64::INFINITY, ..Quarter::default() };
        let stone = Fault::of_stone(quarter.at_s, quarter.mean_c).or(Fault::of_stone(quarter.at_s, quarter.dome_c));
        self.hearth.fault = self.hearth.fault.or(stone);
        self.trace.quarters.push(quarter);
    }

    fn finish(mut self) -> Trace {
        if self.hearth.time_s > self.quarter.at_s + 1.0 {
            self.end_quarter();
        }
        self.trace.never_started = self.kitchen.unstarted();
        self.trace.ledger = self.hearth.ledger();
        self.trace.underside_most_c = self.hearth.underside_most_c;
        self.trace.ended_s = self.hearth.time_s;
        self.trace.last = self.hearth.moment;
        #[cfg(test)]
        if let Some(stone_c) = crate::hearth::fault::by_hand::shown_c() {
            self.trace.reading_lowest_c = stone_c;
        }
        let unsettled = self.hearth.fault.or(Fault::of_ledger(self.hearth.time_s, &self.trace.ledger));
        self.trace.fault = unsettled.or_else(|| self.of_shown_stone());
        self.ready.noted.day(self.trace.fault);
        self.trace
    }
    /// What is wrong with any temperature of stone that is shown of the night, beside those of its quarters.
    fn of_shown_stone(&self) -> Option<Fault> {
        let scenario = &self.ready.scenario;
        let start = scenario.start.floor_c.min(scenario.start.dome_c).min(scenario.oven.room_c);
        let touched_c = scenario.menu.iter().map(|dish| dish.start_c).fold(start, f64::min);
        let held = |at_s, stone_c| Fault::of_stone(at_s, stone_c).or(Fault::of_cold(at_s, stone_c, touched_c));
        let bake = |bake: &Bake| {
            let lifted = || bake.at_lift_c.and_then(|at_c| held(bake.to_s.unwrap_or(bake.from_s), at_c));
            held(bake.from_s, bake.at_load_c).or_else(lifted)
        };
        let ended_s = self.hearth.time_s;
        let most_c = self.trace.underside_most_c.max(self.trace.face_most_c);
        let quarter = |quarter: &Quarter| held(quarter.at_s, quarter.lowest_c);
        (self.trace.bakes.iter().find_map(bake))
            .or_else(|| self.trace.quarters.iter().find_map(quarter))
            .or_else(|| Fault::of_cold(ended_s, self.trace.reading_lowest_c, touched_c))
            .or_else(|| Fault::of_stone(ended_s, most_c))
    }
}
