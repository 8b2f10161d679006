//! Owns the filling of the answer: a played and judged night becomes the report a chef reads.

use super::types::*;
use super::verdict_words::{Cause, Night, Promise, verdict};
use super::{cautions, fault_words, skin, words};
use crate::demand::Colour;
use crate::hearth::fire::CLEAN_LAMBDA;
use crate::matter::{stone, wood};
use crate::scenario::{Assumed, FloorReading, Footprint, Resolved};
use crate::service::judge::{Breach, CATCHING_S, Judgement, Pledge, Resource, Use, judge, quantile, sorted};
use crate::service::night::{Keep, Ready, play};
use crate::service::orders::orders;
use crate::service::trace::{Bake, Quarter, Trace};
use crate::units::STEFAN_BOLTZMANN_W_M2_K4;
use crate::units::time::{HOUR_S, QUARTER_S};
use crate::units::trade::KILOWATT_HOUR_J;

/// The floor's pictures for the page's map stand this far apart, s.
const PICTURE_EVERY_S: f64 = 120.0;
/// A cook stands this far before the doorway, m. Common practice, no source.
const COOK_AT_M: f64 = 0.6;

/// Plays, judges and reports a scenario. `map` asks for the floor's pictures too.
#[must_use]
pub fn carry(resolved: &Resolved, ready: &Ready, map: bool) -> CarryReport {
    let keep = Keep { picture_every_s: map.then_some(PICTURE_EVERY_S) };
    let trace = play(ready, keep);
    let judgement = judge(ready, &trace);
    from_trace(&resolved.assumed, ready, &trace, &judgement, map)
}

/// The report of a night already played.
#[must_use]
pub fn from_trace(assumed: &[Assumed], ready: &Ready, trace: &Trace, judgement: &Judgement, map: bool) -> CarryReport {
    let builder = Builder { ready, trace, judgement };
    CarryReport {
        name: ready.scenario.name.clone(),
        verdict: builder.verdict(),
        dishes: (0..ready.scenario.menu.len()).map(|dish| builder.dish(dish)).collect(),
        floor: builder.floor(),
        wood: builder.wood(),
        assist: builder.assist(),
        waits: builder.waits(),
        ledger_mj: builder.ledger(),
        doorway_kw_m2: builder.doorway_kw_m2(),
        warnings: builder.warnings(),
        cautions: cautions::for_scenario(&ready.scenario),
        assumed: assumed.to_vec(),
        map: map.then(|| builder.map()),
        fault: trace.fault.as_ref().map(fault_words::fault),
    }
}

struct Builder<'a> {
    ready: &'a Ready,
    trace: &'a Trace,
    judgement: &'a Judgement,
}

/// What gave, as the reports call it.
pub(super) fn gives(resource: Resource) -> Gives {
    match resource {
        Resource::FloorHeat => Gives::FloorHeat,
        Resource::TopHeat => Gives::TopHeat,
        Resource::FloorSpace => Gives::FloorSpace,
        Resource::Hands => Gives::Hands,
        Resource::Fire => Gives::Fire,
        Resource::DoorwayAir => Gives::DoorwayAir,
        Resource::Cap => Gives::Cap,
    }
}

fn pledge_name(pledge: Pledge) -> &'static str {
    match pledge {
        Pledge::WaitP90 => "wait_p90_s",
        Pledge::BakeSlower => "bake_slower_max",
        Pledge::ShareInBand => "share_in_band",
        Pledge::QueueGoneBy => "queue_gone_by",
        Pledge::FireLimits => "fire_limits",
    }
}

/// Median of a sorted list in which lost cases stand as infinities: `None` where it is lost or empty.
fn median(list: &[f64]) -> Option<f64> {
    let middle = quantile(list, 0.5);
    (!list.is_empty() && middle.is_finite()).then_some(middle)
}

/// Largest finite value; `None` where any is lost or none is there.
fn worst(list: &[f64]) -> Option<f64> {
    list.last().copied().filter(|x| x.is_finite())
}

impl Builder<'_> {
    fn of(&self, dish: usize) -> impl Iterator<Item = &Bake> {
        self.trace.bakes.iter().filter(move |b| b.dish == dish)
    }

    fn verdict(&self) -> Verdict {
        let night = self.night();
        let said = verdict(&night);
        let all_broke: Vec<Broke> = self.judgement.breaches.iter().map(|b| self.broke(b)).collect();
        Verdict {
            carries: self.judgement.carries(),
            broke: all_broke.first().cloned(),
            all_broke,
            gives_first: self.judgement.gives().map_or(Gives::None, gives),
            says: said.says,
            because: said.because,
            loads: self.judgement.uses.iter().map(|u| self.load(u)).collect(),
        }
    }

    fn broke(&self, breach: &Breach) -> Broke {
        Broke {
            promise: pledge_name(breach.pledge).to_owned(),
            at: words::clock_typed(breach.from_s),
            dish: breach.dish.map_or_else(String::new, |d| self.ready.scenario.menu[d].name.clone()),
            promised: breach.promised,
            got: if breach.got.is_finite() { breach.got } else { self.trace.ended_s },
        }
    }

    fn load(&self, used: &Use) -> Load {
        let dish = self.judgement.breaches.iter().find(|b| b.gives == used.what).and_then(|b| b.dish);
        let mut says = self.cause(used.what, used.at_s, dish).sentence();
        if let Some(counted) = super::evidence::evidence(self.ready, self.trace, self.judgement, used) {
            says = format!("{says} {counted}");
        }
        Load { what: gives(used.what), used: used.used, says }
    }

    fn night(&self) -> Night {
        let Some(breach) = self.judgement.breaches.first() else {
            if self.trace.bakes.is_empty() {
                let end_c = self.trace.quarters.last().map_or(self.trace.start_c, |q| q.mean_c);
                return Night::Idle { start_c: self.trace.start_c, end_c };
            }
            let tightest = self.judgement.tightest();
            return Night::Carries {
                tightest: self.cause(tightest.what, tightest.at_s, None),
                at_s: tightest.at_s,
                spare: 1.0 - tightest.used,
            };
        };
        Night::Gives {
            promise: self.promise(breach),
            from_s: breach.from_s,
            worst_s: breach.worst_s,
            dish: breach.dish.map(|d| self.ready.scenario.menu[d].name.clone()),
            cause: self.cause(breach.gives, breach.worst_s, breach.dish),
        }
    }

    fn promise(&self, breach: &Breach) -> Promise {
        let known_s = breach.dish.map_or(0.0, |d| self.ready.scenario.menu[d].known_bake.time_s);
        match breach.pledge {
            Pledge::WaitP90 => Promise::WaitP90 { promised_s: breach.promised, got_s: breach.got },
            Pledge::BakeSlower => {
                Promise::BakeSlower { promised_share: breach.promised, known_s, got_s: known_s * (1.0 + breach.got) }
            }
            Pledge::ShareInBand => Promise::ShareInBand { promised_share: breach.promised, got_share: breach.got },
            Pledge::QueueGoneBy => Promise::QueueGoneBy {
                promised_s: breach.promised,
                got_s: breach.got.is_finite().then_some(breach.got),
            },
            Pledge::FireLimits => Promise::FireLimits,
        }
    }

    /// Bakes that began within half an hour of a time.
    fn about(&self, at_s: f64) -> Vec<&Bake> {
        self.trace.bakes.iter().filter(|b| (b.from_s - at_s).abs() <= 0.5 * HOUR_S).collect()
    }

    fn quarter_at(&self, at_s: f64) -> Option<&Quarter> {
        self.trace.quarters.iter().find(|q| at_s < q.at_s + QUARTER_S)
    }

    fn cause(&self, resource: Resource, at_s: f64, dish: Option<usize>) -> Cause {
        let about = self.about(at_s);
        let quarter = self.quarter_at(at_s);
        let spec = dish.or_else(|| about.first().map(|b| b.dish)).map(|d| &self.ready.scenario.menu[d]);
        let burnt_kg_h = quarter.map_or(0.0, |q| q.wood_kg * HOUR_S / QUARTER_S);
        match resource {
            Resource::FloorHeat => self.floor_cause(at_s, &about, dish),
            Resource::TopHeat => Cause::TopHeat {
                dome_c: about
                    .iter()
                    .map(|b| b.dome_c)
                    .fold(f64::INFINITY, f64::min)
                    .min(quarter.map_or(f64::INFINITY, |q| q.dome_c)),
                wanted_c: spec.map_or(0.0, |d| if d.dome_min_c > 0.0 { d.dome_min_c } else { d.known_bake.dome_c }),
            },
            Resource::FloorSpace => {
                let fit = about.iter().map(|b| self.ready.spots.fit[b.dish]).max().unwrap_or(0);
                let taken = quarter.map_or(0.0, |q| q.floor_s / QUARTER_S);
                Cause::FloorSpace {
                    pieces_per_h: about.len() as f64,
                    wanted_at_once: taken * fit as f64,
                    fit: fit as u32,
                }
            }
            Resource::Hands => Cause::Hands {
                hands: self.ready.scenario.service.hands,
                work_min_per_h: quarter.map_or(0.0, |q| q.hands_s / QUARTER_S * 60.0),
            },
            Resource::Fire if self.overheats() => Cause::TooHot {
                floor_c: about.iter().map(|b| b.at_load_c).fold(f64::NEG_INFINITY, f64::max),
                band_top_c: spec.map_or(0.0, |d| d.floor_max_c),
            },
            Resource::Fire => {
                let way_m = self.ready.build.flame_way_m();
                Cause::FlameReach { flame_m: quarter.map_or(0.0, |q| q.reach) * way_m, way_m }
            }
            Resource::DoorwayAir => {
                let used = quarter.map_or(0.0, |q| q.air_used.max(q.hard_limit_used)).max(1e-3);
                Cause::DoorwayAir { burnt_kg_h, allowed_kg_h: burnt_kg_h / used }
            }
            Resource::Cap => self.capped(at_s, dish),
        }
    }

    /// A dish that its own cap holds back, and what is ordered of it in the fullest quarter hour of the hour about a time.
    fn capped(&self, at_s: f64, dish: Option<usize>) -> Cause {
        let scenario = &self.ready.scenario;
        let has_cap = |dish: &usize| scenario.menu[*dish].cap_per_quarter.is_some();
        let dish = dish.filter(has_cap).or_else(|| (0..scenario.menu.len()).find(has_cap));
        let cap = dish.and_then(|dish| scenario.menu[dish].cap_per_quarter).unwrap_or(0.0);
        let ordered: Vec<f64> = orders(scenario).iter().filter(|o| Some(o.dish) == dish).map(|o| o.at_s).collect();
        let starts = (-2..=2).map(|quarter| (at_s / QUARTER_S).floor() * QUARTER_S + f64::from(quarter) * QUARTER_S);
        let within = |from: f64| ordered.iter().filter(|t| (from..from + QUARTER_S).contains(*t)).count();
        Cause::Capped { cap, ordered: starts.map(within).max().unwrap_or(0) as f64 }
    }

    /// Whether the fire gave by making floor or dome too hot, rather than at its own limits.
    fn overheats(&self) -> bool {
        self.judgement.breaches.iter().any(|b| b.gives == Resource::Fire && b.pledge != Pledge::FireLimits)
    }

    /// What the hour about a time pulled from the food's floor, and what the floor won back meanwhile.
    fn floor_cause(&self, at_s: f64, about: &[&Bake], dish: Option<usize>) -> Cause {
        let pulled_kw = about.iter().map(|b| b.base_j).sum::<f64>() / HOUR_S / 1000.0;
        let mean = |t: f64| self.quarter_at(t).map_or(self.trace.start_c, |q| q.mean_c);
        let grid = &self.ready.build.floor_grid;
        let stone: f64 = grid.capacity_j_m2_k[..=self.ready.build.underside].iter().sum();
        let gained_k = mean(at_s + 0.5 * HOUR_S) - mean(at_s - 0.5 * HOUR_S);
        let gained_kw = stone * self.ready.build.plan.food_area_m2 * gained_k / HOUR_S / 1000.0;
        // A floor that holds its own and still fails a dish stands too low for it.
        let its_own: Vec<f64> = about.iter().filter(|b| Some(b.dish) == dish).map(|b| b.at_load_c).collect();
        if let Some(dish) = dish.filter(|_| gained_kw >= 0.0 && !its_own.is_empty()) {
            let floor_c = its_own.iter().sum::<f64>() / its_own.len() as f64;
            let wanted_c = self.ready.scenario.menu[dish].known_bake.floor_c;
            if floor_c < wanted_c {
                return Cause::FloorCool { start_c: self.trace.start_c, floor_c, wanted_c };
            }
        }
        Cause::FloorHeat { pieces_per_h: about.len() as f64, pulled_kw, won_back_kw: (pulled_kw + gained_kw).max(0.0) }
    }

    fn dish(&self, dish: usize) -> DishReport {
        let spec = &self.ready.scenario.menu[dish];
        let law = &self.ready.laws[dish];
        let bakes = sorted(self.of(dish).filter_map(Bake::bake_s));
        let lifted: Vec<&Bake> = self.of(dish).filter(|b| b.to_s.is_some()).collect();
        let ready_again = sorted(lifted.iter().map(|b| b.ready_again_s.unwrap_or(f64::INFINITY) / 60.0));
        let recovery = sorted(lifted.iter().map(|b| b.recovery_s.unwrap_or(f64::INFINITY) / 60.0));
        let base = sorted(lifted.iter().map(|b| b.base_j));
        let top = sorted(lifted.iter().map(|b| b.top_j));
        let need = law.need_j();
        let from_hearth_j = median(&base).unwrap_or(law.base_share * need);
        let from_chamber_j = median(&top).unwrap_or((1.0 - law.base_share) * need);
        let in_band = self.of(dish).filter(|b| b.in_band).count() as f64;
        let kj = 1e-3;
        DishReport {
            name: spec.name.clone(),
            heat_kj: need * kj,
            from_hearth_kj: from_hearth_j * kj,
            from_chamber_kj: from_chamber_j * kj,
            hearth_kj_per_cover: from_hearth_j * kj * spec.per_100_covers / 100.0,
            base_share: from_hearth_j / (from_hearth_j + from_chamber_j).max(f64::MIN_POSITIVE),
            base_share_range: law.base_share_range,
            base_factor: law.base_factor,
            top_factor: law.top_factor,
            bake_s_median: median(&bakes),
            bake_s_worst: worst(&bakes),
            bake_s_known: spec.known_bake.time_s,
            ready_again_min_median: median(&ready_again),
            ready_again_min_worst: worst(&ready_again),
            recovery_min_median: median(&recovery),
            never_share: share(recovery.iter().filter(|x| x.is_infinite()).count(), recovery.len()),
            ordered: self.trace.ordered[dish],
            baked: lifted.len() as u32,
            share_in_band: in_band / (self.of(dish).count() as f64).max(1.0),
            fit: self.ready.spots.fit[dish] as u32,
            parts: HeatParts {
                water_boiled_kj: law.need.water_boiled_j * kj,
                water_warmed_kj: law.need.water_warmed_j * kj,
                solids_kj: law.need.solids_j * kj,
                fat_kj: law.need.fat_j * kj,
                carrier_kj: law.need.carrier_j * kj,
            },
            findings: self.findings(dish, &lifted),
            floor_band_c: [spec.floor_min_c, spec.floor_max_c],
            dome_band_c: [spec.dome_min_c, spec.dome_max_c],
        }
    }

    fn findings(&self, dish: usize, lifted: &[&Bake]) -> Vec<String> {
        let law = &self.ready.laws[dish];
        let mut all = law.findings.clone();
        let mut counts = [0_usize; 3];
        for bake in lifted {
            match law.colour(bake.base_j, bake.top_j) {
                Colour::PaleBase => counts[0] += 1,
                Colour::BaseAhead => counts[1] += 1,
                Colour::PaleTop => counts[2] += 1,
                Colour::Even => {}
            }
        }
        for (count, what) in counts.iter().zip(["a pale base", "its base ahead of its top", "a pale top"]) {
            if *count > 0 {
                all.push(format!("{count} of {} came out with {what}.", lifted.len()));
            }
        }
        all
    }

    fn floor(&self) -> FloorReport {
        let lowest = self.trace.bakes.iter().fold(None, |low: Option<&Bake>, b| match low {
            Some(l) if l.at_load_c <= b.at_load_c => Some(l),
            _ => Some(b),
        });
        let end = self.trace.quarters.last().map_or(self.trace.start_c, |q| q.mean_c);
        let at_lift = self.trace.bakes.iter().filter_map(|b| b.at_lift_c).fold(f64::INFINITY, f64::min);
        let reading_c = if self.trace.reading_lowest_c.is_finite() { self.trace.reading_lowest_c } else { end };
        FloorReport {
            start_c: self.trace.start_c,
            lowest_c: lowest.map_or(self.trace.start_c.min(end), |b| b.at_load_c),
            lowest_at: words::clock_typed(lowest.map_or(self.ready.scenario.service.start, |b| b.from_s)),
            lowest_dish: lowest.map_or_else(String::new, |b| self.ready.scenario.menu[b.dish].name.clone()),
            lowest_at_lift_c: if at_lift.is_finite() { at_lift } else { self.trace.start_c.min(end) },
            probe_lowest_c: reading_c,
            probe_says: match self.ready.scenario.oven.reading {
                FloorReading::Gun if at_lift.is_finite() => format!(
                    "The lowest your gun will show where food lies is {}; look where a piece was just lifted.",
                    words::degrees(reading_c.min(at_lift))
                ),
                FloorReading::Gun => {
                    format!("The lowest your gun will show where food lies is {}.", words::degrees(reading_c))
                }
                FloorReading::Probe { depth_m } => format!(
                    "Your probe, {} deep, will show {} at the least: it follows the face late and shows only part of its dips.",
                    words::with_unit(100.0 * depth_m, 1, "cm"),
                    words::degrees(reading_c)
                ),
            },
            by_quarter_hour: self.by_quarter_hour(),
        }
    }

    /// A quarter is written at its beginning, and so are its floor and dome: where the quarter before left them.
    fn by_quarter_hour(&self) -> Vec<FloorQuarter> {
        let start = &self.ready.scenario.start;
        let ends = self.trace.quarters.iter().map(|q| [q.mean_c, q.dome_c]);
        let begins = std::iter::once([start.floor_c, start.dome_c]).chain(ends);
        self.trace.quarters.iter().zip(begins).map(|(q, begins_c)| self.quarter(q, begins_c)).collect()
    }

    fn quarter(&self, q: &Quarter, [mean_c, dome_c]: [f64; 2]) -> FloorQuarter {
        let service = &self.ready.scenario.service;
        let index = ((q.at_s - service.start) / QUARTER_S).round();
        let covers = if index >= 0.0 { service.covers.get(index as usize).copied().unwrap_or(0.0) } else { 0.0 };
        FloorQuarter {
            time: words::clock_typed(q.at_s),
            at_s: q.at_s,
            mean_c,
            lowest_c: q.lowest_c,
            dome_c,
            covers,
            wood_kg: q.wood_kg,
            gas_kwh: q.gas_j / KILOWATT_HOUR_J,
        }
    }

    fn wood(&self) -> WoodReport {
        let quarters = &self.trace.quarters;
        let peak = quarters.windows(4).map(|w| w.iter().map(|q| q.wood_kg).sum::<f64>()).fold(0.0, f64::max);
        let mut by_hour: Vec<WoodHour> = Vec::new();
        for q in quarters.iter().filter(|q| q.at_s + QUARTER_S > self.ready.scenario.feeding.light_at) {
            let time = words::clock_typed((q.at_s / HOUR_S).floor() * HOUR_S);
            match by_hour.last_mut() {
                Some(hour) if hour.time == time => {
                    hour.burnt_kg += q.wood_kg;
                    hour.fed_kg += q.fed_kg;
                    hour.pieces += q.pieces;
                }
                _ => by_hour.push(WoodHour { time, burnt_kg: q.wood_kg, fed_kg: q.fed_kg, pieces: q.pieces }),
            }
        }
        // While it catches a fire smokes: its limits count from then on (warned of apart).
        let caught = self.ready.scenario.feeding.light_at + CATCHING_S;
        let most = |f: fn(&Quarter) -> f64| quarters.iter().filter(|q| q.at_s >= caught).map(f).fold(0.0, f64::max);
        let air_used = most(|q| q.air_used);
        WoodReport {
            kg_per_h_peak: peak,
            kg_light_up: self.trace.light_up_kg,
            kg_service: self.trace.service_kg,
            kg_piece: wood::Fuel::new(&self.ready.scenario.wood).piece_mass_kg,
            by_hour,
            lambda_least: (air_used > 0.0).then(|| CLEAN_LAMBDA / air_used),
            flame_reach_most: most(|q| q.reach),
            doorway_air_used: most(|q| q.hard_limit_used),
        }
    }

    fn assist(&self) -> AssistReport {
        let gas_j: f64 = self.trace.quarters.iter().map(|q| q.gas_j).sum();
        AssistReport {
            needed: gas_j > 0.0,
            kw_delivered_least: None,
            kw_rated_least: None,
            lead_min: None,
            kwh: gas_j / KILOWATT_HOUR_J,
            underside_most_c: self.ready.scenario.oven.assist.as_ref().map(|_| self.trace.underside_most_c),
        }
    }

    fn waits(&self) -> WaitReport {
        let waits = sorted(self.trace.bakes.iter().filter(|b| !b.batch).map(Bake::wait_s));
        let last = self.trace.bakes.iter().filter_map(|b| b.to_s).fold(f64::NEG_INFINITY, f64::max);
        WaitReport {
            median_s: quantile(&waits, 0.5),
            p90_s: quantile(&waits, 0.9),
            worst_s: waits.last().copied().unwrap_or(0.0),
            last_out: if last.is_finite() { words::clock_typed(last) } else { String::new() },
        }
    }

    fn ledger(&self) -> LedgerMj {
        let l = &self.trace.ledger;
        let mj = 1e-6;
        LedgerMj {
            fire: l.fire_j * mj,
            assist: l.assist_j * mj,
            food: l.food_j * mj,
            doorway_flow: l.doorway_flow_j * mj,
            doorway_radiation: l.doorway_radiation_j * mj,
            shell: l.shell_j * mj,
            stored: l.stored_j() * mj,
            residual: l.residual_j() * mj,
        }
    }

    /// Radiation on a cook before the middle of the doorway at the worst quarter: the doorway as a disk that shines evenly.
    fn doorway_kw_m2(&self) -> f64 {
        doorway_kw_m2(self.ready, self.trace)
    }

    fn warnings(&self) -> Vec<String> {
        let mut all = Vec::new();
        for dish in 0..self.ready.scenario.menu.len() {
            let name = &self.ready.scenario.menu[dish].name;
            all.extend(
                self.findings(dish, &self.of(dish).filter(|b| b.to_s.is_some()).collect::<Vec<_>>())
                    .iter()
                    .map(|f| format!("{name}: {f}")),
            );
        }
        let moisture = self.ready.scenario.wood.meter_dry_basis;
        if moisture > WET_WOOD {
            all.push(format!(
                "Wood at {} on the meter smokes and costs wood: under {} burns cleaner.",
                words::percent(moisture),
                words::percent(WET_WOOD)
            ));
        }
        all.extend(self.dangers());
        all
    }

    /// Warnings about the fire and the stone that people must not miss.
    fn dangers(&self) -> Vec<String> {
        let scenario = &self.ready.scenario;
        let mut all = Vec::new();
        if scenario.feeding.phases.is_empty() && scenario.feeding.kindling_kg <= 0.0 {
            all.push("No fire is planned: nothing is lit and nothing is fed.".to_owned());
            if scenario.oven.assist.is_some() {
                all.push("No plan runs on gas alone: the burner repays the stone, the fire cooks.".to_owned());
            }
        }
        for dish in &scenario.menu {
            let narrower_m = match dish.footprint {
                Footprint::Round { diameter_m } => diameter_m,
                Footprint::Rectangle { width_m, depth_m } => width_m.min(depth_m),
            };
            if narrower_m > scenario.oven.door_width_m {
                all.push(format!(
                    "{}: {} wide does not pass a doorway of {}.",
                    dish.name,
                    words::with_unit(100.0 * narrower_m, 0, "cm"),
                    words::with_unit(100.0 * scenario.oven.door_width_m, 0, "cm")
                ));
            }
        }
        let caught = scenario.feeding.light_at + CATCHING_S;
        let catching = self.trace.quarters.iter().filter(|q| q.at_s < caught).map(|q| q.air_used).fold(0.0, f64::max);
        if catching > 1.0 {
            all.push(format!(
                "While it catches the fire has {} times the air it needs, clean from {}: it smokes, extraction on.",
                words::number(CLEAN_LAMBDA / catching, 1),
                words::number(CLEAN_LAMBDA, 0)
            ));
        }
        let stone = stone::material_or_default(&scenario.oven.floor_layers[0].material);
        let hottest_c = self.trace.underside_most_c.max(self.trace.face_most_c);
        if hottest_c > stone.limit_c {
            all.push(format!(
                "The floor's stone reaches {}, above its limit of {}.",
                words::degrees(hottest_c),
                words::degrees(stone.limit_c)
            ));
        }
        all.extend(hotter_than_measured(self.trace));
        if self.trace.face_most_c > OVERFIRED_C {
            all.push(format!(
                "A face in the oven reaches {}: overfired. Stop feeding and let it fall.",
                words::degrees(self.trace.face_most_c)
            ));
        }
        let glow = self.doorway_kw_m2();
        if glow > skin::BEARABLE_KW_M2 {
            let glow_says = words::with_unit(glow, 1, "kW/m²");
            all.push(format!("Heat on the cook at the doorway: {glow_says}, {}.", skin::says(glow)));
        }
        all
    }

    fn map(&self) -> FloorMap {
        let plan = &self.ready.build.plan;
        FloorMap {
            cell_m: self.ready.build.accuracy.cell_m,
            cells: plan
                .cells
                .iter()
                .map(|c| CellShape {
                    x_m: plan.to_user_x(c.x_m),
                    y_m: c.y_m,
                    area_m2: c.area_m2,
                    under_fire: c.under_fire,
                })
                .collect(),
            frames: self
                .trace
                .pictures
                .iter()
                .map(|p| Frame { at_s: p.at_s, face_c: p.face_c.clone(), fire_kw: p.fire_w / 1000.0, dome_c: p.dome_c })
                .collect(),
            placements: self
                .trace
                .bakes
                .iter()
                .map(|b| {
                    let spot = &self.ready.spots.of(b.dish)[b.spot];
                    Placement {
                        dish: b.dish,
                        x_m: plan.to_user_x(spot.x_m),
                        y_m: spot.y_m,
                        ordered_s: b.ordered_s,
                        from_s: b.from_s,
                        to_s: b.to_s,
                        at_load_c: b.at_load_c,
                        at_lift_c: b.at_lift_c,
                        in_band: b.in_band,
                    }
                })
                .collect(),
        }
    }
}

/// Floors were measured, and the engine held against them, up to here on average, degC: 453 + 32 (Falciano, Masi & Moresi 2022, oak at
/// 3 kg/h). The hotter floor they print, 629 at 9 kg/h, is worked out far too hot (`oven.oak.fast` on the list of checks).
const MEASURED_TO_C: f64 = 485.0;

/// What is said of an evening whose floor is hotter on average than those the engine was held against.
pub(super) fn hotter_than_measured(trace: &Trace) -> Option<String> {
    let most_c = trace.quarters.iter().map(|q| q.mean_c).fold(trace.start_c, f64::max);
    (most_c > MEASURED_TO_C).then(|| {
        format!(
            "The floor is reckoned at up to {} on average: above {} figures here run hotter than measured ovens.",
            words::degrees(most_c),
            words::degrees(MEASURED_TO_C)
        )
    })
}

/// No hearth that cooks is this hot at any face outside its fire: chimney and shell are at risk, degC. Common practice, no source.
const OVERFIRED_C: f64 = 800.0;
/// Above this on the meter wood counts as wet: EN 15544 takes 12-20 % wet basis, 25 % dry.
const WET_WOOD: f64 = 0.25;

fn share(part: usize, whole: usize) -> f64 {
    part as f64 / (whole as f64).max(1.0)
}

/// Heat on the cook at the doorway, worst quarter hour of a run, kW/m2.
pub(super) fn doorway_kw_m2(ready: &Ready, trace: &Trace) -> f64 {
    let door = &ready.build.doorway;
    let area = door.width_m * door.height_m;
    let square = door.room_k * door.room_k;
    let room_w_m2 = STEFAN_BOLTZMANN_W_M2_K4 * square * square;
    let glow = trace.quarters.iter().map(|q| q.glow_w).fold(0.0, f64::max) / area + room_w_m2;
    let radius2 = area / std::f64::consts::PI;
    (glow - room_w_m2) * radius2 / (radius2 + COOK_AT_M * COOK_AT_M) / 1000.0
}
