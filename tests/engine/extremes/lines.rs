//! The table of extreme ovens: what departs from an ordinary evening, and what is sane then.

use serde_json::{Value, json};

/// What is sane for one oven.
pub enum Sane {
    /// Mean food floor at the first order within these, degC; no quarter's floor outside the next two; last piece out by, h.
    Night { start_c: [f64; 2], floor_c: [f64; 2], over_by_h: f64 },
    /// Refused, with this field and these words.
    Refused(&'static str, &'static str),
}

fn night(start_c: [f64; 2], floor_c: [f64; 2], over_by_h: f64) -> Sane {
    Sane::Night { start_c, floor_c, over_by_h }
}

/// An ordinary evening, from which every line departs: two hours, one dish, a floor of 1.2 m.
pub fn ordinary() -> Value {
    json!({
        "hearthload": 1,
        "oven": {"width_cm": 120},
        "start": {"floor_c": 120},
        "wood": {"piece_length_cm": 30},
        "service": {"start": "18:00", "end": "20:00", "covers": vec![10; 8]},
        "menu": [dish(0, 18.0)]
    })
}

pub fn dish(number: usize, across_cm: f64) -> Value {
    // As heavy for its size as a round of dough with something on it: 5 kg/m2 and a little.
    let grams = (across_cm * across_cm * 0.45).round();
    json!({
        "name": format!("Dish {number}"), "ingredients": [{"food": "pizza_dough", "grams": grams}],
        "footprint": {"diameter_cm": across_cm}, "known_bake": {"minutes": 3, "floor_c": 320}, "per_100_covers": 100
    })
}

/// Many dishes that share the covers.
fn dishes(count: usize) -> Value {
    let one = |number| {
        let mut dish = dish(number, 20.0);
        dish["per_100_covers"] = json!(100.0 / count as f64);
        dish
    };
    (0..count).map(one).collect()
}

/// Many dishes that share the covers, each of its own size.
fn sizes_of(count: usize) -> Value {
    let one = |number: usize| {
        let mut dish = dish(number, 14.0 + 0.2 * number as f64);
        dish["per_100_covers"] = json!(100.0 / count as f64);
        dish
    };
    (0..count).map(one).collect()
}

pub fn service(start: &str, end: &str, quarters: usize, covers: f64) -> Value {
    json!({"start": start, "end": end, "covers": vec![covers; quarters]})
}

/// One oven: its name, what departs from the ordinary evening by JSON pointer, and what is sane.
pub type Line = (&'static str, Vec<(&'static str, Value)>, Sane);

/// Any oven that is fired as kitchens fire, hot enough for bread and no kiln.
const FIRED: [f64; 2] = [130.0, 560.0];
/// Its floor at any time from the match: not below the room, not above what fireclay in a wood oven ever shows.
const ANY: [f64; 2] = [15.0, 700.0];
/// When the kitchen gives up on the ordinary evening: 20 minutes after the last order, and three quarters of an hour.
const GIVES_UP_H: f64 = 21.1;

pub fn sizes() -> Vec<Line> {
    let wide = |cm: f64| ("/oven/width_cm", json!(cm));
    let long_night = |covers: f64| ("/service", service("18:00", "23:00", 20, covers));
    vec![
        (
            "half a metre, one cover",
            vec![wide(50.0), ("/menu", json!([dish(0, 15.0)])), ("/service", service("18:00", "18:15", 1, 1.0))],
            night(FIRED, [15.0, 950.0], 19.4),
        ),
        (
            "half a metre, 2000 covers",
            vec![wide(50.0), ("/menu", json!([dish(0, 15.0)])), long_night(100.0)],
            night(FIRED, [15.0, 950.0], 24.1),
        ),
        (
            "three metres, one cover",
            vec![wide(300.0), ("/service", service("18:00", "18:15", 1, 1.0))],
            night([90.0, 450.0], ANY, 19.4),
        ),
        (
            "three metres, 2000 covers, 80 dishes",
            vec![wide(300.0), ("/menu", dishes(80)), long_night(100.0)],
            night([90.0, 450.0], [60.0, 700.0], 24.1),
        ),
        (
            "three metres by half a metre",
            vec![wide(300.0), ("/oven/shape", json!("rectangle")), ("/oven/depth_cm", json!(50))],
            night(FIRED, ANY, GIVES_UP_H),
        ),
        (
            "a deep oval of half a metre by three",
            vec![
                wide(50.0),
                ("/oven/shape", json!("deep_oval")),
                ("/oven/depth_cm", json!(300)),
                ("/menu", json!([dish(0, 15.0)])),
            ],
            night(FIRED, ANY, GIVES_UP_H),
        ),
        ("no dishes", vec![("/menu", json!([]))], night(FIRED, ANY, 20.3)),
        ("nobody comes", vec![("/service/covers", json!(vec![0; 8]))], night(FIRED, ANY, 20.3)),
        ("80 dishes", vec![("/menu", dishes(80))], night(FIRED, ANY, GIVES_UP_H)),
        (
            "a piece as large as the floor",
            vec![("/menu", json!([dish(0, 100.0)]))],
            Sane::Refused("menu[0].footprint", "Not even one fits"),
        ),
        (
            "80 dishes of 80 sizes on three metres",
            vec![wide(300.0), ("/menu", sizes_of(80))],
            Sane::Refused("menu", "Give dishes of like size the same footprint"),
        ),
        ("24 dishes of 24 sizes", vec![("/menu", sizes_of(24))], night(FIRED, ANY, GIVES_UP_H)),
        ("81 dishes", vec![("/menu", dishes(81))], Sane::Refused("menu", "0 to 80 are allowed")),
        (
            "5001 covers",
            vec![("/service", service("10:00", "20:00", 40, 125.1))],
            Sane::Refused("service.covers", "at most 5000"),
        ),
        ("3.01 metres", vec![wide(301.0)], Sane::Refused("oven.width_cm", "50 to 300 cm")),
        ("0.49 metres", vec![wide(49.0)], Sane::Refused("oven.width_cm", "50 to 300 cm")),
    ]
}

pub fn fires() -> Vec<Line> {
    let no_wood = || ("/feeding", json!({"kindling_kg": 0, "phases": []}));
    let heaps = json!({"kindling_kg": 20, "phases": [{"from": "15:00", "to": "20:00", "every_min": 3, "pieces": 19}]});
    vec![
        ("bone-dry wood", vec![("/wood/meter_percent_dry", json!(0))], night(FIRED, ANY, GIVES_UP_H)),
        ("wood of 25 %", vec![("/wood/meter_percent_dry", json!(25))], night([120.0, 520.0], ANY, GIVES_UP_H)),
        ("wood of 40 %", vec![("/wood/meter_percent_dry", json!(40))], night([120.0, 520.0], ANY, GIVES_UP_H)),
        (
            "wood of 41 %",
            vec![("/wood/meter_percent_dry", json!(41))],
            Sane::Refused("wood.meter_percent_dry", "0 to 40 %"),
        ),
        ("no wood", vec![no_wood()], night([40.0, 120.0], [15.0, 121.0], GIVES_UP_H)),
        (
            "gas only",
            vec![no_wood(), ("/oven/assist", json!({"rated_kw": 40, "set_c": 320, "on_at": "15:00"}))],
            night([150.0, 360.0], [20.0, 400.0], GIVES_UP_H),
        ),
        (
            "gas of 100 kW under half a metre",
            vec![
                ("/oven/width_cm", json!(50)),
                ("/menu", json!([dish(0, 15.0)])),
                ("/oven/assist", json!({"rated_kw": 100, "delivered_percent": 90, "set_c": 500, "on_at": "15:00"})),
            ],
            // The stone over it nears the gas's own flame, and takes no more.
            night(FIRED, [15.0, 950.0], GIVES_UP_H),
        ),
        (
            "1900 pieces as thick as a leg",
            vec![("/feeding", heaps), ("/wood", json!({"piece_diameter_cm": 25, "piece_length_cm": 100}))],
            night([150.0, 1200.0], [15.0, 1400.0], GIVES_UP_H),
        ),
        (
            "splinters",
            vec![("/wood", json!({"piece_diameter_cm": 1, "piece_length_cm": 5}))],
            night([60.0, 300.0], ANY, GIVES_UP_H),
        ),
        ("a bed of half the floor", vec![("/oven/bed_share_percent", json!(50))], night(FIRED, ANY, GIVES_UP_H)),
        ("a bed of a twentieth", vec![("/oven/bed_share_percent", json!(5))], night(FIRED, ANY, GIVES_UP_H)),
        (
            "coals spread two hours, and wiped fifty times",
            vec![
                ("/feeding", json!({"spread_coals": [{"at": "16:00", "for_min": 120}]})),
                ("/service/wipes", json!(vec!["17:59"; 50])),
                ("/service/wipe_water_g", json!(1000)),
            ],
            night([20.0, 560.0], [10.0, 700.0], GIVES_UP_H),
        ),
    ]
}

pub fn builds() -> Vec<Line> {
    let door = |high: f64, wide: f64, rise: f64| {
        vec![
            ("/oven/door_height_cm", json!(high)),
            ("/oven/door_width_cm", json!(wide)),
            ("/oven/dome_rise_cm", json!(rise)),
        ]
    };
    let layer = |material: &str, cm: f64| json!({"material": material, "thickness_cm": cm});
    vec![
        ("a doorway as large as the dome allows", door(59.9, 120.0, 60.0), night([100.0, 560.0], ANY, GIVES_UP_H)),
        ("a doorway like a letter box", door(10.0, 20.0, 46.0), night([100.0, 650.0], [15.0, 900.0], GIVES_UP_H)),
        (
            "a doorway higher than its dome",
            door(60.0, 50.0, 59.0),
            Sane::Refused("oven.door_height_cm", "lower than its dome"),
        ),
        ("the lowest dome", door(19.0, 50.0, 20.0), night([100.0, 700.0], [15.0, 900.0], GIVES_UP_H)),
        ("the highest dome", door(60.0, 50.0, 150.0), night([100.0, 560.0], ANY, GIVES_UP_H)),
        (
            "a floor of one thin tile",
            vec![("/oven/floor_layers", json!([layer("fireclay_dense", 1.0)]))],
            night([80.0, 560.0], ANY, GIVES_UP_H),
        ),
        (
            "a floor of eight layers of 40 cm",
            vec![("/oven/floor_layers", json!(vec![layer("fireclay_dense", 40.0); 8]))],
            night([100.0, 560.0], ANY, GIVES_UP_H),
        ),
        (
            "a dome of a finger's breadth",
            vec![("/oven/dome_layers", json!([layer("fireclay_dense", 1.0)]))],
            night([60.0, 560.0], ANY, GIVES_UP_H),
        ),
        (
            "wool for a floor",
            vec![("/oven/floor_layers", json!([layer("ceramic_fibre", 5.0)]))],
            Sane::Refused("oven.floor_layers[0].material", "stone"),
        ),
        (
            "wool for a dome",
            vec![("/oven/dome_layers", json!([layer("ceramic_fibre", 5.0)]))],
            Sane::Refused("oven.dome_layers[0].material", "stone"),
        ),
        (
            "everything black, drawing much air",
            vec![
                ("/oven/emissivity", json!(1)),
                ("/oven/smoke_emissivity", json!(0.6)),
                ("/oven/entrainment_factor", json!(2)),
                ("/oven/door_cd", json!(1)),
            ],
            night([80.0, 560.0], ANY, GIVES_UP_H),
        ),
        (
            "everything bright, drawing little air",
            vec![
                ("/oven/emissivity", json!(0.5)),
                ("/oven/smoke_emissivity", json!(0)),
                ("/oven/entrainment_factor", json!(0.2)),
                ("/oven/door_cd", json!(0.4)),
            ],
            night([150.0, 800.0], [15.0, 900.0], GIVES_UP_H),
        ),
        (
            "a kitchen in frost",
            vec![("/oven/room_c", json!(-10)), ("/start/floor_c", json!(-10))],
            night([100.0, 560.0], [-10.1, 700.0], GIVES_UP_H),
        ),
        (
            "a kitchen at 50, a floor at 450",
            vec![("/oven/room_c", json!(50)), ("/start/floor_c", json!(450))],
            night([300.0, 620.0], [50.0, 700.0], GIVES_UP_H),
        ),
    ]
}

pub fn days() -> Vec<Line> {
    let bake = |minutes: f64, floor_c: f64| ("/menu/0/known_bake", json!({"minutes": minutes, "floor_c": floor_c}));
    vec![
        ("all night, past midnight", vec![("/service", service("20:00", "29:00", 36, 8.0))], night(FIRED, ANY, 30.1)),
        (
            "from three in the morning to the second midnight",
            vec![("/service", service("03:00", "47:00", 176, 2.0))],
            night(FIRED, ANY, 47.99),
        ),
        (
            "ten minutes at the beginning of the day",
            vec![("/service", service("00:00", "00:10", 1, 1.0))],
            night([15.0, 560.0], ANY, 1.3),
        ),
        (
            "the last quarter hour there is",
            vec![("/service", service("47:00", "47:59", 4, 1.0))],
            night(FIRED, ANY, 48.8),
        ),
        ("half a minute's bake on the hottest stone", vec![bake(0.5, 550.0)], night(FIRED, ANY, GIVES_UP_H)),
        (
            "twelve hours' bake on the coolest",
            vec![bake(720.0, 80.0), ("/menu/0/floor_min_c", json!(40)), ("/menu/0/floor_max_c", json!(600))],
            night(FIRED, ANY, GIVES_UP_H),
        ),
        (
            "one hand, and a gap of 20 cm",
            vec![
                ("/service/hands", json!(1)),
                ("/service/peel_gap_cm", json!(20)),
                ("/service/load_s", json!(120)),
                ("/service/lift_s", json!(120)),
            ],
            night(FIRED, ANY, GIVES_UP_H),
        ),
        (
            "twelve hands and 400 covers a quarter",
            vec![("/service/hands", json!(12)), ("/service/covers", json!(vec![400; 8]))],
            night(FIRED, ANY, GIVES_UP_H),
        ),
        (
            "iron of 40 kg under every piece, straight back in",
            vec![("/menu/0/carrier", json!({"material": "cast_iron", "mass_kg": 40, "out_min": 0}))],
            night(FIRED, ANY, GIVES_UP_H),
        ),
        (
            "frozen blocks done in half a minute on a cool floor",
            vec![
                ("/menu/0/start_c", json!(-21)),
                ("/menu/0/ingredients", json!([{"food": "stock", "grams": 700}])),
                ("/menu/0/footprint/diameter_cm", json!(15.4)),
                bake(0.5, 147.0),
                ("/service/covers", json!(vec![50; 8])),
                ("/oven/room_c", json!(-9)),
                ("/start/floor_c", json!(100)),
                ("/feeding", json!({"phases": []})),
            ],
            night([20.0, 560.0], [-30.0, 700.0], GIVES_UP_H),
        ),
        ("frozen blocks", vec![("/menu/0/start_c", json!(-30))], night(FIRED, ANY, GIVES_UP_H)),
    ]
}
