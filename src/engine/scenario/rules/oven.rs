//! Owns the rules between fields of the oven, its burner, the wood and the morning.

use super::Found;
use crate::scenario::{keys, says};

/// Thinnest face a floor may have, cm: the column under it is solved in steps of one to two millimetres.
const THINNEST_FACE_CM: f64 = 1.0;

pub(super) fn shape_and_doorway(found: &mut Found) -> Option<()> {
    let v = found.v;
    let width = v.number("oven.width_cm");
    if let (Some("round"), Some(depth), Some(width)) = (v.text("oven.shape"), v.number("oven.depth_cm"), width)
        && (depth - width).abs() > 0.0
    {
        let says =
            format!("A round floor is as deep as it is wide, {width} cm. You typed {depth} cm: is it a deep oval?");
        found.say("oven.depth_cm", format!("{width}, or another shape"), says);
    }
    found.below(
        "oven.door_height_cm",
        "oven.dome_rise_cm",
        "A doorway is lower than its dome: the doorway is {a} high, the dome rises {b}.",
    );
    let (door, width) = (v.number("oven.door_width_cm")?, width?);
    if door > width {
        let says = format!("The doorway, {}, is wider than the floor, {width} cm.", found.shown("oven.door_width_cm"));
        found.say("oven.door_width_cm", format!("at most {width}"), says);
    }
    Some(())
}

/// What the food lies on, and what faces the fire above it, is stone.
pub(super) fn faces(found: &mut Found) -> Option<()> {
    for (list, what) in [("floor_layers", "what the food lies on"), ("dome_layers", "what faces the fire")] {
        let path = format!("oven.{list}[0].material");
        let Some(material) = found.v.text(&path).filter(|key| !keys::can_face_fire(key)).map(str::to_owned) else {
            continue;
        };
        let says = format!("The first layer is {what}: stone or brick, not {material}. Put the insulation behind it.");
        found.say(&path, "stone or brick", says);
    }
    Some(())
}

pub(super) fn layers_and_probes(found: &mut Found) -> Option<()> {
    let face = found.v.number("oven.floor_layers[0].thickness_cm")?;
    if face < THINNEST_FACE_CM {
        let says = format!(
            "The first layer is what the food lies on. You typed {face} cm; it is {THINNEST_FACE_CM} cm or more."
        );
        found.say("oven.floor_layers[0].thickness_cm", format!("{THINNEST_FACE_CM} or more"), says);
    }
    let probe = (found.v.text("oven.reading") == Some("probe")).then_some("oven.probe_depth_cm");
    for path in probe.into_iter().chain(["oven.assist.probe_depth_cm"]) {
        found.below(
            path,
            "oven.floor_layers[0].thickness_cm",
            "A probe sits inside the stone: its tip is {a} deep, the stone {b} thick.",
        );
    }
    Some(())
}

pub(super) fn burner(found: &mut Found) -> Option<()> {
    found.below(
        "oven.assist.on_at",
        "oven.assist.off_at",
        "The burner is switched on before it is switched off: on at {a}, off at {b}. Past midnight go on counting, 25:30.",
    )
}

pub(super) fn wood_and_morning(found: &mut Found) -> Option<()> {
    let v = found.v;
    let (close, closed) = ("start.last_close_c", "start.closed_for_h");
    for (one, other) in [(close, closed), (closed, close)] {
        if v.given(one) && !v.given(other) {
            found.say(
                other,
                "both or none",
                format!(
                    "\"{}\" helps only together with \"{}\". Give both or none.",
                    says::label_at(one),
                    says::label_at(other)
                ),
            );
        }
    }
    // A shut oven only cools: such a pair gives no leak, and says that one of them is not what it is taken for.
    if let (Some(morning_c), Some(close_c)) = (v.number("start.floor_c"), v.number(close))
        && morning_c > close_c
    {
        let says = format!(
            "This morning's floor, {}, is hotter than last night's at closing, {}; a shut oven only cools. Are they swapped? If \
             there was fire since, leave out \"{close}\" and \"{closed}\".",
            found.shown("start.floor_c"),
            found.shown(close)
        );
        found.say("start.floor_c", format!("at most {close_c}"), says);
    }
    if let (Some(thick), Some(long)) = (v.number("wood.piece_diameter_cm"), v.number("wood.piece_length_cm"))
        && thick > long
    {
        let says = format!(
            "A piece of wood is longer than it is thick: {} thick, {} long. Are they swapped?",
            found.shown("wood.piece_diameter_cm"),
            found.shown("wood.piece_length_cm")
        );
        found.say("wood.piece_diameter_cm", format!("at most {long}"), says);
    }
    let room = v.number("oven.width_cm")?.max(v.number("oven.depth_cm")?);
    let long = v.number("wood.piece_length_cm")?;
    if long >= room {
        let says = format!("Pieces of {} do not lie in a floor of {room} cm.", found.shown("wood.piece_length_cm"));
        found.say("wood.piece_length_cm", format!("less than {room}"), says);
    }
    Some(())
}
