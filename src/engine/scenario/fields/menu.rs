//! Owns the rows of the field table about the menu.

use super::{Field, PRACTICE, Table, made};
use crate::units::typed::Unit::{Cm, DegC, Grams, Kg, Minutes, Money, Percent, Pieces};

/// Rows of `menu`.
pub(super) static ROWS: &[Field] = &[
    Field::list("menu", "Menu", 0, 80).note("The dishes; an empty list asks about the oven alone."),
    Field::group("menu[]", "Dish").note("One dish, described by one piece of it."),
    Field::text("menu[].name", "Name", 80).note("Its name, used once in the menu."),
    Field::list("menu[].ingredients", "Ingredients", 1, 30).note("What one piece is made of, as it goes in."),
    Field::group("menu[].ingredients[]", "Ingredient").note("A food and how much of it."),
    Field::key("menu[].ingredients[].food", "Food", Table::Food).note("Which food."),
    Field::number("menu[].ingredients[].grams", "Grams", Grams, 0.1, 20_000.0)
        .frame("One piece holds {} of an ingredient.")
        .note("How much of it is in one piece."),
    Field::group("menu[].footprint", "On the floor").note("What one piece covers of the floor, its pan included."),
    Field::choice("menu[].footprint.shape", "Outline", &["round", "rectangle"])
        .made("round where a diameter is given, else rectangle", made::outline, "read off the sizes given")
        .note("Outline seen from above."),
    Field::number("menu[].footprint.diameter_cm", "Diameter", Cm, 2.0, 100.0)
        .frame("A round piece is {} across.")
        .optional()
        .note("Across a round piece; needed for round ones only."),
    Field::number("menu[].footprint.width_cm", "Width", Cm, 2.0, 150.0)
        .frame("A piece is {} wide.")
        .optional()
        .note("Left to right, for a rectangle."),
    Field::number("menu[].footprint.depth_cm", "Depth", Cm, 2.0, 150.0)
        .frame("A piece is {} deep.")
        .optional()
        .note("Doorway to rear, for a rectangle."),
    Field::group("menu[].carrier", "Pan or pot")
        .optional()
        .note("What the dish stands in; leave it out where it lies on the stone."),
    Field::key("menu[].carrier.material", "Material", Table::Carrier).note("What the pan or pot is made of."),
    Field::number("menu[].carrier.mass_kg", "Weight", Kg, 0.02, 40.0)
        .frame("A pan or pot weighs {}.")
        .note("Its weight, empty. Put it on the scale: iron drinks heat."),
    Field::number("menu[].carrier.in_c", "Goes in at", DegC, -30.0, 400.0)
        .frame("A pan goes in at {}.")
        .made("the kitchen's air", made::carrier_in_c, "no source: a pan off the shelf")
        .note("Its temperature when it has not been in the oven lately."),
    Field::number("menu[].carrier.out_min", "Minutes out", Minutes, 0.0, 1440.0)
        .frame("A pan stands out for {} between two loads.")
        .fixed("30", PRACTICE)
        .note("How long it stands outside between two loads. Shorter means it goes back in warmer."),
    Field::number("menu[].start_c", "Goes in at", DegC, -30.0, 95.0)
        .frame("Food goes in at {}.")
        .fixed("18", PRACTICE)
        .note("Its temperature going in; below freezing for frozen goods."),
    Field::number("menu[].end_c", "Done at", DegC, 30.0, 150.0)
        .frame("Food is done at {} through its middle.")
        .fixed("95", "bread and dough are done near 92 to 98 degC: from memory")
        .note("Its mean temperature when done. Not a core temperature: use a thermometer for poultry, pork and fish."),
    Field::number("menu[].bake_loss_percent", "Bake loss", Percent, 0.0, 60.0)
        .frame("Baking takes off {} of the weight.")
        .made(
            "10, or half the water in it where that is less",
            made::bake_loss_percent,
            "from memory: 8 to 15 % for thin dough, weighed before and after",
        )
        .note("Weight lost in the oven. Weigh one before and after: it is most of the heat."),
    Field::group("menu[].known_bake", "A bake you know").note("One bake of this dish you remember well."),
    Field::number("menu[].known_bake.minutes", "Minutes", Minutes, 0.5, 720.0)
        .frame("A bake takes {}.")
        .note("How long that bake took."),
    Field::number("menu[].known_bake.floor_c", "Floor then", DegC, 80.0, 550.0)
        .frame("A floor is loaded at {}.")
        .note("The floor just before loading, read by gun."),
    Field::number("menu[].known_bake.dome_c", "Dome then", DegC, 60.0, 800.0)
        .frame("A dome is at {}.")
        .made("floor + 50", made::known_dome_c, "the dome stands 40 to 100 K above the floor in published readings (Falciano, Masi & Moresi 2022)")
        .note("The dome then."),
    Field::choice("menu[].known_bake.flame", "Flame then", &["none", "low", "high"])
        .fixed("\"low\"", PRACTICE)
        .note("Coals only, a low flame, or flame under the dome."),
    Field::choice(
        "menu[].known_bake.seen",
        "Seen at lifting",
        &["nothing", "base_pale", "together", "base_ahead", "floor"],
    )
    .fixed("\"nothing\"", "nothing noted: the base's share is then carried as a range")
    .note("What you saw at lifting: base pale, base and top together, base ahead, or the floor by gun. It tells base from top."),
    Field::number("menu[].known_bake.floor_at_lift_c", "Floor at lifting", DegC, 40.0, 550.0)
        .frame("A floor just bared is at {}.")
        .optional()
        .note("The floor under the dish by gun just after lifting; with `seen` on `floor`."),
    Field::number("menu[].floor_min_c", "Floor, coolest", DegC, 40.0, 550.0)
        .frame("A floor band starts at {}.")
        .made("known floor - 40", made::floor_min_c, PRACTICE)
        .note("Coolest floor you load it on."),
    Field::number("menu[].floor_max_c", "Floor, hottest", DegC, 60.0, 600.0)
        .frame("A floor band ends at {}.")
        .made("known floor + 60", made::floor_max_c, PRACTICE)
        .note("Hottest floor you load it on."),
    Field::number("menu[].dome_min_c", "Dome, coolest", DegC, 20.0, 750.0)
        .frame("A dome band starts at {}.")
        .made("known dome - 80", made::dome_min_c, PRACTICE)
        .note("Coolest dome it likes."),
    Field::number("menu[].dome_max_c", "Dome, hottest", DegC, 60.0, 900.0)
        .frame("A dome band ends at {}.")
        .made("known dome + 120", made::dome_max_c, PRACTICE)
        .note("Hottest dome it likes."),
    Field::number("menu[].per_100_covers", "For 100 covers", Pieces, 0.0, 500.0)
        .frame("A hundred covers order {}.")
        .made("100 shared among the dishes", made::per_100_covers, "no source: one dish a cover, all liked alike")
        .note("How many pieces a hundred covers order."),
    Field::number("menu[].cap_per_quarter", "Cap a quarter hour", Pieces, 0.0, 500.0)
        .frame("A cap is {} in a quarter hour.")
        .optional()
        .note("Most pieces you will start in any quarter hour, if you cap it."),
    Field::number("menu[].margin_each", "Earns each", Money, -1000.0, 10_000.0)
        .frame("A piece earns {}.")
        .optional()
        .note("What one piece earns, in your own money; only used to rank."),
];
