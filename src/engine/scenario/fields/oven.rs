//! Owns the rows of the field table about oven, burner, wood and the morning.

use super::{Field, PRACTICE, Table, made};
use crate::units::typed::Unit::{Cm, DegC, GramsPerSecond, Hours, Kelvin, Kw, None as Bare, Percent};

/// Rows of `oven`, `wood` and `start`.
pub(super) static ROWS: &[Field] = &[
    Field::group("oven", "Oven").note("The oven as it is built."),
    Field::choice("oven.shape", "Floor shape", &["round", "rectangle", "deep_oval"])
        .fixed("\"round\"", PRACTICE)
        .note("Plan of the floor; a deep oval has its doorway at the end of the depth."),
    Field::number("oven.width_cm", "Floor width", Cm, 50.0, 300.0)
        .frame("An oven floor is {} wide.")
        .note("Inside width of the floor, left wall to right wall; the diameter of a round one."),
    Field::number("oven.depth_cm", "Floor depth", Cm, 50.0, 300.0)
        .frame("An oven floor is {} deep.")
        .made("the width", made::depth_cm, "a round floor is as deep as it is wide; taken for other shapes too")
        .note("Inside depth of the floor, doorway to rear. A round floor is as deep as it is wide."),
    Field::choice("oven.reading", "How you read it", &["gun", "probe"])
        .fixed("\"gun\"", PRACTICE)
        .note("An infrared gun on the bare floor, or a probe under it. Each shows another number."),
    Field::number("oven.probe_depth_cm", "Probe depth", Cm, 0.2, 20.0)
        .frame("A probe tip lies {} below the face.")
        .made("2, or half the face layer where that is thinner", made::probe_depth_cm, PRACTICE)
        .note("How deep the tip of the probe lies below the face of the floor; only used with a probe."),
    Field::number("oven.dome_rise_cm", "Dome rise", Cm, 20.0, 150.0)
        .frame("A dome rises {} above the floor.")
        .made("0.38 of the smaller of width and depth", made::dome_rise_cm, "common practice, no source (0.35 to 0.42)")
        .note("Highest point of the dome above the floor."),
    Field::number("oven.door_width_cm", "Doorway width", Cm, 20.0, 150.0)
        .frame("A doorway is {} wide.")
        .made("0.42 of the floor's width", made::door_width_cm, "old masonry rule: common practice, no source")
        .note("Clear width of the doorway."),
    Field::number("oven.door_height_cm", "Doorway height", Cm, 10.0, 60.0)
        .frame("A doorway is {} high.")
        .made("0.63 of the dome's rise, at most 28", made::door_height_cm, "old masonry rule: common practice, no source")
        .note("Clear height of the doorway. Nearly two thirds of the dome's rise keeps smoke in and air coming."),
    Field::list("oven.floor_layers", "Floor build-up", 1, 8)
        .fixed(
            r#"[{"material":"fireclay_dense","thickness_cm":6},{"material":"calcium_silicate","thickness_cm":10}]"#,
            PRACTICE,
        )
        .note("Layers of the floor from the face down: stone, bedding, insulation."),
    Field::group("oven.floor_layers[]", "Layer").note("One layer, hottest side first."),
    Field::key("oven.floor_layers[].material", "Material", Table::Layer).note("What the layer is made of."),
    Field::number("oven.floor_layers[].thickness_cm", "Thickness", Cm, 0.3, 40.0)
        .frame("A layer is {} thick.")
        .note("How thick the layer is."),
    Field::list("oven.dome_layers", "Dome build-up", 1, 8)
        .fixed(
            r#"[{"material":"fireclay_dense","thickness_cm":8},{"material":"ceramic_fibre","thickness_cm":10}]"#,
            PRACTICE,
        )
        .note("Layers of the dome from the inside out."),
    Field::group("oven.dome_layers[]", "Layer").note("One layer, hottest side first."),
    Field::key("oven.dome_layers[].material", "Material", Table::Layer).note("What the layer is made of."),
    Field::number("oven.dome_layers[].thickness_cm", "Thickness", Cm, 0.3, 60.0)
        .frame("A layer is {} thick.")
        .note("How thick the layer is."),
    Field::choice("oven.fire_side", "Fire side", &["left", "right", "rear"])
        .fixed("\"left\"", PRACTICE)
        .note("Where the fire lies, seen from the doorway."),
    Field::number("oven.bed_share_percent", "Floor under the fire", Percent, 5.0, 50.0)
        .frame("The fire takes {} of the floor.")
        .fixed("20", PRACTICE)
        .note("How much of the floor lies under fire and coals and takes no food."),
    Field::number("oven.emissivity", "Emissivity of stone", Bare, 0.5, 1.0)
        .frame("Hot stone has an emissivity of {}.")
        .fixed("0.9", "from memory: fireclay and red brick 0.75 to 0.93, soot 0.95")
        .note("How well floor and dome radiate; 1 is perfect."),
    Field::number("oven.smoke_emissivity", "Emissivity of the smoke", Bare, 0.0, 0.6)
        .frame("The hot layer has an emissivity of {}.")
        .fixed("0.2", "from memory: 0.05 to 0.3 for soot, CO2 and steam in layers this thin")
        .note("How well the hot layer under the dome radiates."),
    Field::number("oven.entrainment_factor", "Air drawn into the flame", Bare, 0.2, 2.0)
        .frame("Entrainment is {} times the textbook's.")
        .fixed("0.6", "no source: 0.5 to 1.2 is plausible for a fire at a wall; the biggest unknown of all")
        .note("How much air the fire draws in, against the textbook plume. Measure once and set it so that the floor agrees."),
    Field::number("oven.door_cd", "Doorway flow", Bare, 0.4, 1.0)
        .frame("A doorway's discharge coefficient is {}.")
        .fixed("0.69", "0.68 (Nakaya et al. 1986) and 0.69 (Bryant 2011) for flow through openings of fire rooms")
        .note("How freely air passes the doorway."),
    Field::number("oven.room_c", "Kitchen", DegC, -10.0, 50.0)
        .frame("A kitchen is at {}.")
        .fixed("24", PRACTICE)
        .note("Air in front of the oven."),
    Field::number("oven.door_leak_g_s", "Leak of the closed doors", GramsPerSecond, 0.0, 30.0)
        .frame("Closed doors leak {}.")
        .fixed("3", "no source: 1.5 to 8 g/s spans a floor of 255 down to 197 degC after nine hours from 300")
        .note("Air that gets past the closed doors overnight."),
    Field::group("oven.assist", "Burner under the floor")
        .optional()
        .note("A gas burner under the stone; leave it out where there is none."),
    Field::number("oven.assist.rated_kw", "Rated input", Kw, 1.0, 100.0)
        .frame("A burner under the floor is rated {}.")
        .note("What the plate on the burner says, on net calorific value."),
    Field::number("oven.assist.delivered_percent", "Reaches the stone", Percent, 10.0, 90.0)
        .frame("Between {} of the rated input reaches the stone.")
        .fixed("45", "from memory: 40 to 50 % leaves a radiant burner as radiation")
        .note(
            "Share of the rated input that enters the stone; the rest leaves with the flue gas. Very hot stone takes \
             less, and none when it is as hot as the gas's flame.",
        ),
    Field::choice("oven.assist.control", "Control", &["on_off", "modulating"])
        .fixed("\"on_off\"", PRACTICE)
        .note("Full or nothing, or turned down as the set point nears."),
    Field::number("oven.assist.probe_across", "Probe across", Bare, -1.0, 1.0)
        .frame("Across the floor the probe lies at {} (left wall -1, right wall 1).")
        .fixed("0", PRACTICE)
        .note("Where the probe lies across the floor: -1 left wall, 0 middle, 1 right wall."),
    Field::number("oven.assist.probe_along", "Probe along", Bare, 0.0, 1.0)
        .frame("Along the floor the probe lies at {} (doorway 0, rear 1).")
        .fixed("0.5", PRACTICE)
        .note("Where the probe lies along the depth: 0 doorway, 1 rear."),
    Field::number("oven.assist.probe_depth_cm", "Probe depth", Cm, 0.2, 20.0)
        .frame("The burner's probe lies {} below the face.")
        .made("2, or half the face layer where that is thinner", made::probe_depth_cm, PRACTICE)
        .note("How deep the burner's probe lies below the face."),
    Field::number("oven.assist.set_c", "Set point", DegC, 50.0, 500.0)
        .frame("A burner is set to {}.")
        .fixed("330", PRACTICE)
        .note("What the burner holds at its probe."),
    Field::number("oven.assist.dead_band_k", "Dead band", Kelvin, 1.0, 100.0)
        .frame("A dead band is {} wide.")
        .fixed("10", PRACTICE)
        .note("How far apart switching on and off lie, about the set point."),
    Field::clock("oven.assist.on_at", "On from")
        .made("one hour before the first order", made::assist_on_at, "no source: the stone answers about 20 minutes late")
        .note("From when the burner may burn. It acts late: switch it on before you need it."),
    Field::clock("oven.assist.off_at", "Off at")
        .made("the last order", made::service_end, PRACTICE)
        .note("Until when the burner may burn."),
    Field::group("wood", "Wood").note("The firewood as it is fed."),
    Field::key("wood.species", "Species", Table::Species)
        .fixed("\"oak\"", PRACTICE)
        .note("What wood it is."),
    Field::number("wood.meter_percent_dry", "Moisture meter", Percent, 0.0, 40.0)
        .frame("Firewood shows {} on a pin meter.")
        .fixed("18", "EN 15544:2023 logs: 12 to 20 % of wet mass, that is 14 to 25 % on a meter")
        .note("What a pin meter shows in a fresh split: water over dry wood. Over 25 smokes."),
    Field::number("wood.piece_diameter_cm", "Piece thickness", Cm, 1.0, 25.0)
        .frame("A piece is {} thick.")
        .fixed("8", "EN 15544:2023 logs are 5 to 10 cm thick")
        .note("Thickness of a piece, taken as round."),
    Field::number("wood.piece_length_cm", "Piece length", Cm, 5.0, 100.0)
        .frame("A piece is {} long.")
        .fixed("33", "EN 15544:2023 logs are 25 to 50 cm long")
        .note("Length of a piece."),
    Field::group("start", "This morning").note("What the oven shows before it is lit."),
    Field::clock("start.read_at", "Read at")
        .made("when the fire is lit", made::read_at, "the reading before the match")
        .note("When the floor was read."),
    Field::number("start.floor_c", "Floor this morning", DegC, -10.0, 450.0)
        .frame("A floor before lighting is at {}.")
        .fixed("120", "no source: a well kept oven is still warm in the morning")
        .note("The floor before the fire is lit, read by gun."),
    Field::number("start.dome_c", "Dome this morning", DegC, -10.0, 450.0)
        .frame("A dome before lighting is at {}.")
        .made("as the floor", made::start_dome_c, "no source: dome and floor drift together overnight")
        .note("The dome before the fire is lit."),
    Field::number("start.last_close_c", "Floor last night", DegC, -10.0, 600.0)
        .frame("A floor at closing is at {}.")
        .optional()
        .note("The floor when the doors were closed last night. With it the leak of the doors can be worked out."),
    Field::number("start.closed_for_h", "Doors closed for", Hours, 0.5, 168.0)
        .frame("Doors stay closed for {}.")
        .optional()
        .note("How long the doors were shut."),
];
