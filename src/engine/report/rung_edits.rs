//! Owns a rung as edits of the draft it was worked out from: its floor, its burner, its feeding.

use super::ladder_types::Edit;
use crate::scenario::{Assist, AssistControl, FeedPhase, Scenario, clock};
use crate::units::time::MINUTE_S;
use crate::units::trade::KILOWATT_W;
use serde_json::{Value, json};

/// Lengths of the draft are written to a tenth of a millimetre.
const PER_CM: f64 = 100.0;
const METRE_CM: f64 = 100.0;
const WHOLE: f64 = 100.0;

fn cm(metres: f64) -> Value {
    json!((metres * METRE_CM * PER_CM).round() / PER_CM)
}

/// A stretch of feeding as the draft has it.
pub(super) fn phase(phase: &FeedPhase) -> Value {
    json!({
        "from": clock::write(phase.from), "to": clock::write(phase.to),
        "every_min": phase.every_s / MINUTE_S, "pieces": phase.pieces,
    })
}

fn burner(assist: &Assist) -> Value {
    let control = if assist.control == AssistControl::OnOff { "on_off" } else { "modulating" };
    json!({
        "rated_kw": assist.rated_w / KILOWATT_W,
        "delivered_percent": assist.delivered_share * WHOLE,
        "control": control,
        "probe_across": assist.probe_across,
        "probe_along": assist.probe_along,
        "probe_depth_cm": cm(assist.probe_depth_m),
        "set_c": assist.set_c,
        "dead_band_k": assist.dead_band_k,
        "on_at": clock::write(assist.on_at),
        "off_at": clock::write(assist.off_at),
    })
}

/// What to put into the draft for a rung whose scenario this is; null takes a value away.
#[must_use]
pub fn edits(rung: &Scenario) -> Vec<Edit> {
    let (oven, feeding) = (&rung.oven, &rung.feeding);
    let all = [
        ("oven.width_cm", cm(oven.width_m)),
        ("oven.depth_cm", cm(oven.depth_m)),
        ("oven.dome_rise_cm", cm(oven.dome_rise_m)),
        ("oven.door_width_cm", cm(oven.door_width_m)),
        ("oven.door_height_cm", cm(oven.door_height_m)),
        ("oven.assist", oven.assist.as_ref().map_or(Value::Null, burner)),
        ("start.read_at", json!(clock::write(rung.start.read_at))),
        ("feeding.light_at", json!(clock::write(feeding.light_at))),
        ("feeding.phases", feeding.phases.iter().map(phase).collect()),
        ("feeding.spread_coals", json!([])),
    ];
    all.into_iter().map(|(path, value)| Edit { path: path.to_owned(), value }).collect()
}
