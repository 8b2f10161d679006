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

/// A number as it would be typed: whole ones without ".0".
fn typed(value: f64) -> Value {
    let whole = value.round();
    if (value - whole).abs() < 1e-9 { json!(whole as i64) } else { json!(value) }
}

fn cm(metres: f64) -> Value {
    typed((metres * METRE_CM * PER_CM).round() / PER_CM)
}

/// A stretch of feeding as the draft has it.
pub(super) fn phase(phase: &FeedPhase) -> Value {
    json!({
        "from": clock::write(phase.from), "to": clock::write(phase.to),
        "every_min": typed(phase.every_s / MINUTE_S), "pieces": typed(phase.pieces),
    })
}

fn burner(assist: &Assist) -> Value {
    let control = if assist.control == AssistControl::OnOff { "on_off" } else { "modulating" };
    json!({
        "rated_kw": typed(assist.rated_w / KILOWATT_W),
        "delivered_percent": typed(assist.delivered_share * WHOLE),
        "control": control,
        "probe_across": typed(assist.probe_across),
        "probe_along": typed(assist.probe_along),
        "probe_depth_cm": cm(assist.probe_depth_m),
        "set_c": typed(assist.set_c),
        "dead_band_k": typed(assist.dead_band_k),
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::floors::{Place, at_place};
    use crate::scenario::resolve;

    /// Puts an edit into a draft, as a page would.
    fn put(draft: &mut Value, edit: &Edit) {
        let (group, name) = edit.path.split_once('.').unwrap();
        draft[group][name] = edit.value.clone();
    }

    #[test]
    fn edits_put_into_the_draft_give_the_scenario_of_the_rung() {
        let mut draft: Value = serde_json::from_str(include_str!("../../../demo-data/assist.json")).unwrap();
        let scenario = resolve(&draft).unwrap().scenario;
        for assist in [true, false] {
            let mut rung = at_place(&scenario, &Default::default(), Place { floor_m: 1.1, assist });
            rung.feeding.light_at -= 600.0;
            rung.feeding.phases.truncate(1);
            rung.feeding.spread_coals.clear();
            edits(&rung).iter().for_each(|edit| put(&mut draft, edit));
            let back = resolve(&draft).unwrap().scenario;
            assert_eq!(back.feeding, rung.feeding);
            for (got, wanted) in [
                (back.oven.width_m, rung.oven.width_m),
                (back.oven.depth_m, rung.oven.depth_m),
                (back.oven.dome_rise_m, rung.oven.dome_rise_m),
                (back.oven.door_width_m, rung.oven.door_width_m),
                (back.oven.door_height_m, rung.oven.door_height_m),
            ] {
                assert!((got - wanted).abs() < 1e-4, "{got} for {wanted}");
            }
            assert_eq!(back.oven.assist.is_some(), assist);
            if let (Some(got), Some(wanted)) = (back.oven.assist, rung.oven.assist) {
                assert!((got.rated_w - wanted.rated_w).abs() < 1e-6 && (got.set_c - wanted.set_c).abs() < 1e-9);
                assert_eq!((got.control, got.on_at, got.off_at), (wanted.control, wanted.on_at, wanted.off_at));
            }
        }
    }
}
