//! Owns the last step of reading: the checked values become the scenario in SI. `None` only where a value is missing.

use super::keys;
use super::types::*;
use super::values::Values;

/// Builds the scenario.
#[must_use]
pub fn build(v: &Values) -> Option<Scenario> {
    Some(Scenario {
        name: v.text("name")?.to_owned(),
        oven: oven(v)?,
        wood: Wood {
            species: text(v, "wood.species")?,
            meter_dry_basis: v.si("wood.meter_percent_dry")?,
            piece_diameter_m: v.si("wood.piece_diameter_cm")?,
            piece_length_m: v.si("wood.piece_length_cm")?,
        },
        start: Start {
            read_at: v.si("start.read_at")?,
            floor_c: v.si("start.floor_c")?,
            dome_c: v.si("start.dome_c")?,
            last_close_c: v.si("start.last_close_c"),
            closed_for_s: v.si("start.closed_for_h"),
        },
        menu: v.items("menu").map(|path| dish(v, &path)).collect::<Option<_>>()?,
        service: service(v)?,
        feeding: feeding(v)?,
        promise: Promise {
            wait_p90_s: v.si("promise.wait_p90_s")?,
            bake_slower_max: v.si("promise.bake_slower_max_percent")?,
            share_in_band: v.si("promise.share_in_band_percent")?,
            queue_gone_by: v.si("promise.queue_gone_by")?,
        },
        planning: planning(v)?,
    })
}

fn text(v: &Values, path: &str) -> Option<String> {
    v.text(path).map(str::to_owned)
}

fn layers(v: &Values, path: &str) -> Option<Vec<Layer>> {
    let layer = |item: String| {
        Some(Layer {
            material: text(v, &format!("{item}.material"))?,
            thickness_m: v.si(&format!("{item}.thickness_cm"))?,
        })
    };
    v.items(path).map(layer).collect()
}

fn oven(v: &Values) -> Option<Oven> {
    Some(Oven {
        shape: match v.text("oven.shape")? {
            "round" => FloorShape::Round,
            "rectangle" => FloorShape::Rectangle,
            "deep_oval" => FloorShape::DeepOval,
            _ => return None,
        },
        width_m: v.si("oven.width_cm")?,
        depth_m: v.si("oven.depth_cm")?,
        reading: match v.text("oven.reading")? {
            "gun" => FloorReading::Gun,
            "probe" => FloorReading::Probe { depth_m: v.si("oven.probe_depth_cm")? },
            _ => return None,
        },
        dome_rise_m: v.si("oven.dome_rise_cm")?,
        door_width_m: v.si("oven.door_width_cm")?,
        door_height_m: v.si("oven.door_height_cm")?,
        floor_layers: layers(v, "oven.floor_layers")?,
        dome_layers: layers(v, "oven.dome_layers")?,
        fire_side: match v.text("oven.fire_side")? {
            "left" => FireSide::Left,
            "right" => FireSide::Right,
            "rear" => FireSide::Rear,
            _ => return None,
        },
        bed_share: v.si("oven.bed_share_percent")?,
        emissivity: v.si("oven.emissivity")?,
        smoke_emissivity: v.si("oven.smoke_emissivity")?,
        film_factor: 1.0,
        radiant_factor: 1.0,
        stone_k_factor: 1.0,
        entrainment_factor: v.si("oven.entrainment_factor")?,
        door_cd: v.si("oven.door_cd")?,
        room_c: v.si("oven.room_c")?,
        door_leak_kg_s: v.si("oven.door_leak_g_s")?,
        assist: if v.group("oven.assist") { Some(assist(v)?) } else { None },
    })
}

fn assist(v: &Values) -> Option<Assist> {
    Some(Assist {
        rated_w: v.si("oven.assist.rated_kw")?,
        delivered_share: v.si("oven.assist.delivered_percent")?,
        control: match v.text("oven.assist.control")? {
            "on_off" => AssistControl::OnOff,
            "modulating" => AssistControl::Modulating,
            _ => return None,
        },
        probe_across: v.si("oven.assist.probe_across")?,
        probe_along: v.si("oven.assist.probe_along")?,
        probe_depth_m: v.si("oven.assist.probe_depth_cm")?,
        set_c: v.si("oven.assist.set_c")?,
        dead_band_k: v.si("oven.assist.dead_band_k")?,
        on_at: v.si("oven.assist.on_at")?,
        off_at: v.si("oven.assist.off_at")?,
    })
}

fn dish(v: &Values, path: &str) -> Option<Dish> {
    let at = |key: &str| format!("{path}.{key}");
    let ingredients: Vec<Ingredient> = v
        .items(&at("ingredients"))
        .map(|item| {
            Some(Ingredient { food: text(v, &format!("{item}.food"))?, mass_kg: v.si(&format!("{item}.grams"))? })
        })
        .collect::<Option<_>>()?;
    Some(Dish {
        name: text(v, &at("name"))?,
        needs_core_check: ingredients.iter().any(|part| keys::needs_core_check(&part.food)),
        ingredients,
        footprint: footprint(v, &at("footprint"))?,
        carrier: if v.group(&at("carrier")) { Some(carrier(v, &at("carrier"))?) } else { None },
        start_c: v.si(&at("start_c"))?,
        end_c: v.si(&at("end_c"))?,
        bake_loss: v.si(&at("bake_loss_percent"))?,
        known_bake: known_bake(v, &at("known_bake"))?,
        floor_min_c: v.si(&at("floor_min_c"))?,
        floor_max_c: v.si(&at("floor_max_c"))?,
        dome_min_c: v.si(&at("dome_min_c"))?,
        dome_max_c: v.si(&at("dome_max_c"))?,
        per_100_covers: v.si(&at("per_100_covers"))?,
        cap_per_quarter: v.si(&at("cap_per_quarter")),
        margin_each: v.si(&at("margin_each")),
    })
}

fn footprint(v: &Values, path: &str) -> Option<Footprint> {
    match v.text(&format!("{path}.shape"))? {
        "round" => Some(Footprint::Round { diameter_m: v.si(&format!("{path}.diameter_cm"))? }),
        "rectangle" => Some(Footprint::Rectangle {
            width_m: v.si(&format!("{path}.width_cm"))?,
            depth_m: v.si(&format!("{path}.depth_cm"))?,
        }),
        _ => None,
    }
}

fn carrier(v: &Values, path: &str) -> Option<Carrier> {
    Some(Carrier {
        material: text(v, &format!("{path}.material"))?,
        mass_kg: v.si(&format!("{path}.mass_kg"))?,
        in_c: v.si(&format!("{path}.in_c"))?,
        out_s: v.si(&format!("{path}.out_min"))?,
    })
}

fn known_bake(v: &Values, path: &str) -> Option<KnownBake> {
    Some(KnownBake {
        time_s: v.si(&format!("{path}.minutes"))?,
        floor_c: v.si(&format!("{path}.floor_c"))?,
        dome_c: v.si(&format!("{path}.dome_c"))?,
        flame: match v.text(&format!("{path}.flame"))? {
            "none" => Flame::None,
            "low" => Flame::Low,
            "high" => Flame::High,
            _ => return None,
        },
        seen: match v.text(&format!("{path}.seen"))? {
            "nothing" => SeenAtLifting::Nothing,
            "base_pale" => SeenAtLifting::BasePale,
            "together" => SeenAtLifting::Together,
            "base_ahead" => SeenAtLifting::BaseAhead,
            "floor" => SeenAtLifting::FloorC(v.si(&format!("{path}.floor_at_lift_c"))?),
            _ => return None,
        },
    })
}

fn clocks(v: &Values, path: &str) -> Option<Vec<ClockS>> {
    v.items(path).map(|item| v.si(&item)).collect()
}

fn service(v: &Values) -> Option<Service> {
    let batch = |item: String| {
        Some(Batch {
            dish: text(v, &format!("{item}.dish"))?,
            at: v.si(&format!("{item}.at"))?,
            pieces: v.si(&format!("{item}.pieces"))? as u32,
        })
    };
    Some(Service {
        start: v.si("service.start")?,
        end: v.si("service.end")?,
        covers: clocks(v, "service.covers")?,
        arrivals: match v.text("service.arrivals")? {
            "even" => Arrivals::Even,
            "parties" => Arrivals::Parties,
            _ => return None,
        },
        party_mean: v.si("service.party_mean")?,
        seed: v.si("service.seed")? as u64,
        hands: v.si("service.hands")? as u32,
        load_s: v.si("service.load_s")?,
        turn_s: v.si("service.turn_s")?,
        lift_s: v.si("service.lift_s")?,
        peel_gap_m: v.si("service.peel_gap_cm")?,
        patience_s: v.si("service.patience_min")?,
        spot_rule: match v.text("service.spot_rule")? {
            "hottest" => SpotRule::Hottest,
            "longest_rested" => SpotRule::LongestRested,
            _ => return None,
        },
        wipes: clocks(v, "service.wipes")?,
        wipe_water_kg: v.si("service.wipe_water_g")?,
        batches: v.items("service.batches").map(batch).collect::<Option<_>>()?,
    })
}

fn feeding(v: &Values) -> Option<Feeding> {
    let phase = |item: String| {
        Some(FeedPhase {
            from: v.si(&format!("{item}.from"))?,
            to: v.si(&format!("{item}.to"))?,
            every_s: v.si(&format!("{item}.every_min"))?,
            pieces: v.si(&format!("{item}.pieces"))?,
        })
    };
    let spread =
        |item: String| Some(SpreadCoals { at: v.si(&format!("{item}.at"))?, for_s: v.si(&format!("{item}.for_min"))? });
    Some(Feeding {
        light_at: v.si("feeding.light_at")?,
        kindling_kg: v.si("feeding.kindling_kg")?,
        phases: v.items("feeding.phases").map(phase).collect::<Option<_>>()?,
        spread_coals: v.items("feeding.spread_coals").map(spread).collect::<Option<_>>()?,
    })
}

fn planning(v: &Values) -> Option<Planning> {
    Some(Planning {
        wood_price_kg: v.si("planning.wood_price_kg"),
        gas_price_kwh: v.si("planning.gas_price_kwh"),
        days_open_per_week: v.si("planning.days_open_per_week")?,
        growth: v.si("planning.growth_percent")?,
        floor_smallest_m: v.si("planning.floor_smallest_cm")?,
        floor_largest_m: v.si("planning.floor_largest_cm")?,
        floor_step_m: v.si("planning.floor_step_cm")?,
        assist_rated_w: v.si("planning.assist_rated_kw")?,
    })
}
