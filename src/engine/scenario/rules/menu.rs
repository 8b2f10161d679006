//! Owns the rules between fields of a dish, and between dishes.

use super::{Found, fits};
use crate::scenario::says;
use crate::units::typed::Unit;

/// Mean density of food taken to see how tall a piece stands, kg/m3. Common practice, no source: about that of water.
const FOOD_DENSITY_KG_M3: f64 = 1000.0;
/// Lightest piece, kg. Common practice, no source: below it somebody typed kilograms for grams.
const LIGHTEST_KG: f64 = 0.005;

/// Most places that are followed, each outline's by the floor's area over its own. Our choice, for memory: a floor of 3 m takes some
/// eight sizes from 15 to 25 cm, one of 1.2 m all that eighty dishes can have.
const MOST_PLACES: f64 = 1800.0;

pub(super) fn menu(found: &mut Found) -> Option<()> {
    let paths: Vec<String> = found.v.items("menu").collect();
    names_unique(found, &paths);
    for path in &paths {
        outline(found, path);
        bands(found, path);
        seen(found, path);
        temperatures(found, path);
        bake_loss(found, path);
        fits_floor(found, path);
        weight(found, path);
    }
    sizes(found, &paths)
}

/// Not too many sizes of outline for so large a floor: each lies at places of its own.
fn sizes(found: &mut Found, paths: &[String]) -> Option<()> {
    let mut known: Vec<String> = Vec::new();
    let mut places = 0.0;
    let floor_cm2 = found.v.number("oven.width_cm")? * found.v.number("oven.depth_cm")?;
    for path in paths {
        let size = size(found, path)?;
        if !known.contains(&size.says()) {
            known.push(size.says());
            places += floor_cm2 / size.area();
        }
    }
    if known.len() > 1 && places > MOST_PLACES {
        let count = known.len();
        let says = format!(
            "These dishes have {count} sizes of footprint, with some {places:.0} places on so large a floor; {MOST_PLACES} are \
             followed. Give dishes of like size the same footprint."
        );
        found.say("menu", "fewer sizes of footprint", says);
    }
    Some(())
}

fn names_unique(found: &mut Found, paths: &[String]) {
    let mut known: Vec<String> = Vec::new();
    for path in paths {
        let field = format!("{path}.name");
        let Some(name) = found.v.text(&field) else { continue };
        let folded = name.to_ascii_lowercase();
        if known.contains(&folded) {
            let says = format!("Two dishes are called \"{}\". Give each its own name.", says::quoted(name));
            found.say(&field, "a name used once", says);
        }
        known.push(folded);
    }
}

/// The sizes that belong to the outline are there, and no others.
fn outline(found: &mut Found, path: &str) -> Option<()> {
    let v = found.v;
    let at = |key: &str| format!("{path}.footprint.{key}");
    let shape = v.text(&at("shape"))?.to_owned();
    let (needed, spare): (&[&str], &[&str]) = match shape.as_str() {
        "round" => (&["diameter_cm"], &["width_cm", "depth_cm"]),
        _ => (&["width_cm", "depth_cm"], &["diameter_cm"]),
    };
    let told_by = if shape == "round" { "diameter" } else { "width and depth" };
    for key in needed {
        if !v.given(&at(key)) {
            let says =
                format!("\"{}\" is missing: a {shape} piece is told by its {told_by}.", says::label_at(&at(key)));
            found.say(&at(key), "a length", says);
        }
    }
    for key in spare {
        if v.given(&at(key)) {
            let says = format!("A {shape} piece is told by its {told_by}; take \"{}\" away.", says::label_at(&at(key)));
            found.say(&at(key), "nothing", says);
        }
    }
    Some(())
}

fn bands(found: &mut Found, path: &str) {
    for what in ["floor", "dome"] {
        let frame = format!("{}: the {what} band goes from {{a}} up to {{b}}, which is no band.", found.dish(path));
        found.below(&format!("{path}.{what}_min_c"), &format!("{path}.{what}_max_c"), &frame);
    }
}

/// What was seen and the floor read at lifting belong together.
fn seen(found: &mut Found, path: &str) -> Option<()> {
    let v = found.v;
    let lift = format!("{path}.known_bake.floor_at_lift_c");
    let floor = format!("{path}.known_bake.floor_c");
    let by_floor = v.text(&format!("{path}.known_bake.seen"))? == "floor";
    if by_floor && !v.given(&lift) {
        found.say(&lift, "a reading", "What you saw at lifting was the floor: give its reading just after lifting.");
    }
    if !by_floor && v.given(&lift) {
        found.say(
            &lift,
            "nothing",
            "You gave a floor at lifting: choose the floor as what you saw, or take the reading away.",
        );
    }
    if v.number(&lift)? > v.number(&floor)? {
        let says = format!(
            "A floor is cooler after a bake than before: {} at lifting, {} at loading. Are they swapped?",
            found.shown(&lift),
            found.shown(&floor)
        );
        found.say(&lift, format!("at most {}", found.shown(&floor)), says);
    }
    Some(())
}

fn temperatures(found: &mut Found, path: &str) {
    let frame = format!("{}: it goes in at {{a}} and is done at {{b}}; food gets warmer in an oven.", found.dish(path));
    found.below(&format!("{path}.start_c"), &format!("{path}.end_c"), &frame);
}

/// No dish bakes off more water than it holds.
fn bake_loss(found: &mut Found, path: &str) -> Option<()> {
    let field = format!("{path}.bake_loss_percent");
    let held = 100.0 * found.v.water_share(path)?;
    if found.v.number(&field)? > held {
        let says = format!(
            "{}: {} would leave as steam, but these ingredients hold only {held:.0} % water.",
            found.dish(path),
            found.shown(&field)
        );
        found.say(&field, format!("at most {held:.0}"), says);
    }
    Some(())
}

fn size(found: &Found, path: &str) -> Option<fits::Size> {
    let at = |key: &str| format!("{path}.footprint.{key}");
    match found.v.text(&at("shape"))? {
        "round" => Some(fits::Size::Round(found.v.number(&at("diameter_cm"))?)),
        _ => Some(fits::Size::Rectangle(found.v.number(&at("width_cm"))?, found.v.number(&at("depth_cm"))?)),
    }
}

/// One piece fits the floor beside the fire.
fn fits_floor(found: &mut Found, path: &str) -> Option<()> {
    let v = found.v;
    let floor = fits::Floor {
        rectangle: v.text("oven.shape")? == "rectangle",
        width: v.number("oven.width_cm")?,
        depth: v.number("oven.depth_cm")?,
        bed_share: Unit::Percent.to_si(v.number("oven.bed_share_percent")?),
        bed_at_rear: v.text("oven.fire_side")? == "rear",
    };
    let piece = size(found, path)?;
    if !floor.takes(piece) {
        let (wide, deep) = floor.free();
        let room = format!("{:.0} by {:.0} cm", wide.floor(), deep.floor());
        let says = format!(
            "{} covers {}; beside the fire the floor is {room} at its widest. Not even one fits.",
            found.dish(path),
            piece.says()
        );
        found.say(&format!("{path}.footprint"), format!("a piece that fits {room}"), says);
    }
    Some(())
}

/// One piece has a weight to speak of and, heaped on its outline, passes the doorway.
fn weight(found: &mut Found, path: &str) -> Option<()> {
    let area_m2 = Unit::Cm.to_si(1.0) * Unit::Cm.to_si(1.0) * size(found, path)?.area();
    let mut mass_kg = 0.0;
    for item in found.v.items(&format!("{path}.ingredients")) {
        mass_kg += found.v.si(&format!("{item}.grams"))?;
    }
    if mass_kg < LIGHTEST_KG {
        let grams = mass_kg / Unit::Grams.to_si(1.0);
        let says = format!("{}: one piece weighs {grams} g in all. Are its grams kilograms?", found.dish(path));
        found.say(&format!("{path}.ingredients"), "5 g or more in one piece", says);
    }
    let door = found.v.number("oven.door_height_cm")?;
    let tall = mass_kg / (FOOD_DENSITY_KG_M3 * area_m2) / Unit::Cm.to_si(1.0);
    if tall > door {
        let says = format!(
            "{}: {:.2} kg on so small a footprint would stand {tall:.0} cm tall; the doorway is {} high. Check grams and size.",
            found.dish(path),
            mass_kg,
            found.shown("oven.door_height_cm")
        );
        found.say(&format!("{path}.footprint"), "a larger footprint, or less in one piece", says);
    }
    Some(())
}
