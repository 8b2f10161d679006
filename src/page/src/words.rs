//! Owns every word the page itself says, in one place: another language is another set of the same words (`words::german`), fetched
//! when it is read, and a test misses none.
//!
//! Verdicts, problems and notes come in English from the engine, and the pictures make theirs where they draw; other languages are
//! catalogues of those sentences (`words::german`'s own parts). `{}` stands where a number or a name goes, `{0}` where their order changes.

pub mod german;
pub mod language;
pub mod translate;

use crate::route::Door;
use hearthload::{
    matter::{food, stone, wood},
    scenario::Field,
};
use language::{Language, language};
use translate::tr;

macro_rules! words {
    ($($name:ident: $text:literal,)+) => {
        /// The words of one language.
        pub(crate) struct Words { $(pub $name: &'static str,)+ }

        static ENGLISH: Words = Words { $($name: $text,)+ };

        /// The names of the words, in their order.
        #[cfg(not(target_arch = "wasm32"))]
        pub const NAMES: &[&str] = &[$(stringify!($name),)+];

        impl Words {
            /// The words out of a list in this order; nothing where it is not as long.
            fn of(list: &[&'static str]) -> Option<Self> {
                let mut all = list.iter().copied();
                let words = Self { $($name: all.next()?,)+ };
                all.next().is_none().then_some(words)
            }
        }
    };
}

words! {
    site: "hearthload",
    page_title: "hearthload: {}",
    door_menu: "Does it carry my menu?",
    door_menu_short: "Menu",
    door_floors: "Which floor to buy?",
    door_floors_short: "Floor size",
    door_tonight: "How to fire tonight?",
    door_tonight_short: "Tonight",
    doors: "Questions",
    skip_verdict: "To the verdict",
    skip_form: "To the form",
    skip_pictures: "To the pictures",
    undo: "Undo",
    saved: "saved in this browser {}",
    not_saved: "This browser keeps nothing: save it as a file.",
    kept: "Kept in this browser",
    open_now: "open now",
    open: "Open",
    copy: "Copy",
    copy_of: "Copy of {}",
    take_away: "Take away",
    bring: "Bring in a file",
    save: "Save as a file",
    unnamed: "Unnamed",
    scenarios: "All scenarios",
    gone_scenario: "{} taken off the list.",
    kept_came: "Changed in another tab.",
    kept_gone: "{} was taken off the list in another tab.",
    kept_both_name: "{} (second tab)",
    kept_both: "This scenario was changed in two tabs at once. Both are kept: what this tab had is now called {}.",
    kept_aside: "Something kept in this browser could not be read. It was set aside, not thrown away; the rest is here.",

    running: "Running the evening …",
    computed: "Computed in this browser; nothing leaves it. Your own thermometer always wins over this page.",
    trust_title: "How far to trust it",
    trust_how: "Every part of the engine is held against something outside this project: handbooks, standards, published measurements. The checks run here, on this machine, when you ask.",
    trust_show: "Run the checks and show them",
    trust_running: "Checking: this takes some seconds …",
    trust_failed: "The checks did not come: {} The terminal prints the same list with “hearthload proof”.",
    trust_count: "{} of {} checks hold.",
    trust_heads: "What|Source|Expected|Here|",
    trust_holds: "holds",
    trust_misses: "misses",
    trust_spread: " {} to {} over {}",
    estimate: "An estimate.",
    outrank: "Your gun and your probe outrank it.",
    stopped: "The computing stopped.",
    safe: "Your scenario is safe.",
    again: "Start it again",
    mend_one: "1 field to mend:",
    mend_many: "{} fields to mend:",
    bar_mend_one: "Last good answer; 1 field to mend.",
    bar_mend_many: "Last good answer; {} fields to mend.",
    covers_fit: "Make it {} quarter hours",
    at_doorway: "Whoever stands at the doorway gets {} at the worst.",
    dishes_csv: "Save the dishes as CSV",
    last_good: "Below is the last good answer.",
    no_good: "There is no answer until it is mended.",
    and_more: "and {} more",
    update: "A new version is ready.",
    update_act: "Reload",
    language_missing: "{} did not come: it is fetched when it is first chosen, and that needs the network once.",
    dismiss: "Put away",

    fact_lowest: "Lowest spot in use",
    fact_lowest_when: "{}, {}",
    fact_lowest_idle: "coolest part of the food floor",
    fact_wait: "One dish in ten waits over",
    fact_wait_worst: "longest {}",
    fact_bake: "Slowest bake",
    fact_bake_of: "{}; you know {}",
    fact_bake_none: "nothing was baked",
    fact_wood: "Wood",
    fact_wood_peak: "{} in the hardest hour",
    fact_wood_gas: "{} in the hardest hour; {} of gas",

    first_gives: "What gives first",
    dishes_title: "Each dish in figures",
    dishes_none: "There are no dishes: the answer is about the oven alone.",
    col_dish: "Dish",
    col_heat: "Heat, kJ",
    col_hearth: "of it from the hearth",
    col_cover: "Hearth for a cover, kJ",
    col_bake: "Bake, median",
    col_worst: "longest",
    col_known: "you know",
    col_again: "Spot ready again, median",
    col_never: "never again",
    col_band: "Loads in its band",
    col_fit: "Fit at once",
    col_baked: "Baked of ordered",
    cell_of: "{} of {}",
    no_verdict: "No answer yet.",
    take_out: "Take it out",
    no_warnings: "Nothing about this plan needs a warning.",
    under_band: "{} of {} pieces under their band",
    assumed_show: "Show them with their sources",
    ways_title: "Ways out",
    ways_idle: "What would carry more can be looked for: each change is run through the whole evening.",
    ways_look: "Look for ways out",
    ways_running: "Trying one change after another through the whole evening: {} so far.",
    ways_two: "The best two together",
    ways_none: "No single change that was tried carries more.",
    ways_how: "What is enough stands first, then what loses least; the number is the covers it gains at this mix. Each was run through the whole evening.",
    way_most: "carries {} covers",
    way_try: "Try it",
    way_in: "in the plan",
    way_taken: "Taken: {}",
    warnings: "About this plan",
    cautions: "Take care",
    act_light: "Before you light",
    act_feed: "While you feed",
    act_doorway: "At the doorway",
    act_dish: "At the dish",
    act_carrier: "Pans and pots",
    act_assist: "The burner",
    act_close: "When you close",
    act_ash: "Embers and ash",
    act_first: "The first firing",
    pin: "Pin this",
    unpin: "Unpin",
    pinned_is: "is what you pinned: {}.",
    pinned_same: "same as pinned",
    pinned_was: "pinned {}",
    pinned_says: "It says: {}",
    units: "Units",
    units_how: "For every figure and every field; the scenario itself stays as it is.",
    units_heat: "Temperature",
    units_mass: "Weight",
    units_length: "Length",
    units_power: "Burner",
    units_gas: "Gas",
    units_clock: "Clock",
    units_point: "Decimals",
    share: "Share",
    share_how: "Whoever opens this link gets the whole scenario. It holds everything you typed, and nothing is sent anywhere.",
    share_long: "This scenario is too long for a link that survives a message: save it as a file instead.",
    share_link: "Link",
    share_copy: "Copy the link",
    share_copied: "Copied",
    share_broken: "The link is damaged or cut short: ask for it again, or for a file. Nothing here was changed.",
    share_newer: "The link was made by a newer hearthload. Reload the page for the new version, then open it again.",
    shared: "From a link",
    assumed_title: "{} values were assumed",
    assumed_title_one: "One value was assumed",
    assumed_none: "Nothing was assumed: every value is yours.",
    assumed_how: "Nobody gave these; each can be typed over where it stands in the form.",
    know_it: "I know it",
    moment: "Time of the floor plan",
    earlier: "15 minutes earlier",
    later: "15 minutes later",
    play: "Play",
    pause: "Stop",
    lies_here: "What lies here",

    built_on: "What the answer is built on",
    change: "Change",
    close: "Close",
    more: "More about {}",
    what_they_mean: "What these fields mean",
    assumed: "assumed",
    was: "was {} assumed.",
    back: "Back to that",
    choose: "choose …",

    menu: "What you cook",
    menu_how: "Pieces for 100 covers. Reorder with the handles: press one, then use the arrow keys.",
    oven: "The oven",
    oven_in: "the oven",
    wood: "The wood",
    feeding: "How you feed it",
    service: "The service",
    service_in: "the service",
    promise: "What you promise",
    promise_how: "It carries only if all four hold.",

    add_dish: "Add a dish",
    start_dish: "Start from a common one …",
    dish_up: "Move up",
    dish_down: "Move down",
    new_dish: "New dish",
    dish_gone: "{} taken off the menu.",
    dish_moved: "{} moved to place {}.",
    dish_added: "{} put on the menu.",
    remove_dish: "Take {} off the menu",
    move_dish: "Move {}: arrow keys, Escape puts it back",
    edit_dish: "{}: details",
    for_100: "{}: pieces for 100 covers",
    made_of: "Made of",
    add_ingredient: "Add an ingredient",
    food_search: "Find a food",
    food_none: "No food of that name. Try a plainer word.",
    grams_of: "{}: how much",
    measured: "{}: how many {}",
    round_of: "round, {}",
    wide_by: "{} by {}",
    remove_ingredient: "Take out {}",
    ingredient_gone: "{} taken out.",
    known_bake: "One bake you know",
    its_bands: "Floor and dome it likes",
    on_floor: "On the floor",
    pan: "Pan or pot",
    no_pan: "It lies on the stone.",
    add_pan: "It stands in one",
    remove_pan: "It lies on the stone",
    in_and_out: "In and out",
    rest: "The rest",
    piece_weighs: "A piece weighs {}.",
    takes_heat: "What takes its {}",
    water_boiled: "water boiled off",
    water_warmed: "water warmed",
    solids: "solids",
    fat: "fat",
    carrier: "pan or pot",

    no_gas: "No gas under this floor.",
    add_gas: "Add a burner",
    remove_gas: "Take the burner out",
    gas: "Gas under the floor",
    morning: "This morning",

    covers_how: "{} covers; {} in the fullest quarter hour. Arrow keys change the column you are on, Page Up and Page Down by 5, or type them.",
    covers_typed: "Covers in each quarter hour, from the first order on",
    cover: "cover",
    covers: "covers",
    add_row: "Add one",
    remove_row: "Take out {}",
    row_gone: "{} taken out.",
    use_mine: "Change these",

    sum_menu: "{} dishes, {} pieces for 100 covers",
    sum_assumed: "{} assumed",

    cook_running: "Working out tonight’s fire …",
    cook_no_plan: "There is no plan to cook by.",
    cook_mend: "Something in the scenario is to be mended first.",
    cook_to_menu: "Change the evening",
    cook_evening: "The evening",
    cook_sheet: "Shift sheet",
    cook_more: "More of the plan, first firing",
    more_plan: "The plan in words",
    more_spread: "Spread the coals at {} for {}: it saves {} of wood.",
    more_taken: "What the plan takes for granted",
    rough_title: "If the night turns rough",
    rough_how: "The plan is played on nights with parties at random, other wood and a cook who feeds late. Then a feeding with a reserve is looked for.",
    rough_ask: "Try the plan on {} rough nights",
    rough_running: "Playing rough nights: half a minute or so …",
    first_title: "A new or damp oven",
    first_how: "Its first fires are small and slow: damp stone splits where steam cannot get out in time.",
    first_hours: "In how many hours of fire, if you are in a hurry",
    first_ask: "Show the first firing",
    first_running: "Working out the first fires …",
    first_heads: "Day|Dome no hotter than|For|Wood in all|Lit and fed with",
    first_kindling: "{} of kindling alone, a handful at a time",
    first_small: "{} of kindling, then {} every {}, split small",
    first_feed: "{} of kindling, then {} every {}",
    cook_flames: "Flames at the doorway? Stop feeding. Do not add air.",
    cook_light_in: "Light in",
    cook_kindling: ", {} of dry kindling",
    cook_bring_in: "Bring in {} pieces.",
    cook_next: "Next piece in",
    cook_due: "The piece is due",
    cook_late: "{} late",
    cook_one: "one piece",
    cook_pieces: "{} pieces",
    cook_fed_one: "Fed one",
    cook_fed_two: "Two",
    cook_skip: "Skip",
    cook_over: "No more wood tonight",
    cook_not_enough: "The rest of the evening does not hold its promises even so.",
    cook_now: "Now",
    cook_every: "every {}",
    cook_once: "once",
    cook_gas: "gas",
    cook_under: "{} under the plan.",
    cook_over_plan: "{} over the plan.",
    cook_as_planned: "As planned.",
    cook_keeps: "The plan stands as it was.",
    cook_replanned: "Planned again from there.",
    cook_planning: "Planning the rest of the evening …",
    cook_read_at: "{}, read at {}; it outranks the plan",
    cook_plan_says: "{}, says the plan: not read yet",
    cook_outranks: "Your gun outranks the plan: type what it reads.",
    cook_type: "Type it",
    cook_until: "Until {}",
    cook_tonight: "Tonight",
    cook_fed_at: "Fed one at {}",
    cook_fed_more_at: "Fed {} at {}",
    cook_skipped_at: "Skipped the one of {}",
    cook_fed_question: "Was the {} fed? Tick it",
    cook_spread: "Spread the coals at {}.",
    cook_cap: "In a quarter hour at most {}.",
    cook_rest: "Rest the {} side about {}: it is {} cooler.",
    side_left: "left",
    side_right: "right",
    side_front: "doorway",
    side_rear: "rear",
    cook_reads: "What does the floor read?",
    cook_point: "The mean of three shots over the bare floor where food lies, fire side left out.",
    cook_keys: "Keys",
    cook_rub_out: "Rub out",
    cook_use: "Use this plan",
    cook_leave: "Leave it",
    cook_from: "from {} {}",
    cook_no_more: "no more wood tonight",
    cook_expects: "The plan has {} now.",
    cook_print: "Print it",
    cook_back: "Back to tonight",
    sheet_title: "Tonight’s fire: shift sheet",
    sheet_covers: "{} covers, {} to {}",
    sheet_lead: "Light at {}. Last piece at {}. Bring in {} pieces and {} of kindling.",
    sheet_lead_bare: "Light at {}. Last piece at {}. Bring in {} pieces.",
    sheet_lighting: "Lighting",
    sheet_readings: "Read the floor where food lies",
    sheet_at: "at",
    sheet_plan: "plan {}",
    sheet_yours: "yours",
    sheet_ticks: "Tick each piece as you feed it",
    sheet_off: "If it is off",
    sheet_from_to: "{} to {}",
    sheet_piece: "piece",
    sheet_pieces: "pieces",
    phase_light_up: "heating up",
    phase_to_rush: "up to the rush",
    phase_rush: "for the rush",
    phase_tail: "to the end",
    sheet_wood: "A piece is {}. Wood of the day by the pin meter: {}.",
    sheet_meter: "{}\u{a0}%: {}",
    sheet_rush: "First piece for the rush by {} at the latest.",
    sheet_after: "Afterwards:",
    sheet_margins: "To spare at the worst: doorway air {}, way of the flame {}.",
    sheet_notes: "What tonight taught",

    refused_big: "{} is larger than a scenario can be. Nothing here was changed.",
    refused_json: "{} is not a scenario: {}. Nothing here was changed.",
    refused_double: "{} says “{}” twice. Which one is meant? Take one away in the file. Nothing here was changed.",
    refused_kind: "{} is not a scenario. Nothing here was changed.",
    refused_newer: "{} was written by a newer hearthload. Reload the page for the new version, then bring it in again.",
    refused_read: "{} could not be read. Nothing here was changed.",

    stale: "This answers the scenario as it was before your last change.",
    ask_again: "Work it out again",
    ask_mend: "Mend the fields above first.",
    progress: "How far it has come",
    progress_says: "{} of 100 done",
    stop_keep: "Stop, keep what is there",
    stopped_here: "Stopped; what is here is kept.",
    go_on: "Go on",

    floors_ask: "Try every floor on offer",
    floors_running: "Trying every floor on offer …",
    floors_begin: "Setting up …",
    floors_so_far: "{} of {} worked out",
    floors_nights: "The ladder stands; now rough nights on the floors that carry",
    floors_nine_title: "Buy a floor of {}: the smallest that holds nine nights in ten.",
    floors_smallest_title: "The smallest floor that carries the evening as planned: {}.",
    floors_none: "No floor on offer carries this menu.",
    floors_none_why: "On the largest, {}, {} gives first. Offer larger floors, or change the night it must carry.",
    floors_none_fit: "A dish fits none of them.",
    floors_holds: "It holds at least {} pieces in the busiest hour where you ask {}: {} to spare.",
    floors_planned: "For the evening as planned {} is enough: it holds at least {} pieces in the busiest hour where you ask {}, {} to spare.",
    floors_gas_smaller: "With gas under it the {} floor would do.",
    floors_gas_only: "On wood alone no floor on offer carries it.",
    floors_nine_awaited: "Rough nights on the floors that carry are still being played.",
    floors_nine_none: "No floor on offer is sure to hold nine nights in ten: look at larger ones, or at what breaks the nights below.",
    floors_grown: "With room to grow, take {}.",
    floors_outrank: "Ask the maker for a measured heat-up and a recovery test: they outrank this page, and so does your local code.",
    floor_on_wood: "{} on wood alone",
    floor_with_gas: "{} with gas",
    facts_of: "{}",
    fact_week: "Wood a week",
    fact_week_gas: "and {} of gas",
    fact_week_no_gas: "no gas",
    fact_week_money: "{} in your money",
    fact_week_price: "type prices for its cost",
    fact_light: "From the match to ready",
    fact_light_at: "light at {}",
    fact_light_never: "it does not get ready in time",
    fact_idle: "Held ready without food",
    fact_idle_how: "heat of wood and gas",
    fact_feed: "{} of wood an hour in service",
    on_offer: "Floors on offer",
    prices: "Prices and weeks",
    prices_how: "In your own money. A price changes the cost alone, nothing is worked out again.",
    night: "The night it must carry",
    night_how: "Shared with the other doors; change it there.",
    gas_never_alone: "A burner repays the stone; the fire cooks. No plan on gas alone is shown.",
    gas_licensed: "Burner and flue are for licensed people and your local code.",
    building: "What the building must bear: {}",
    build_hood: "Up the hood",
    build_hood_how: "out of the doorway in the worst quarter hour; the hood draws room air besides",
    build_room: "Heat to the room",
    build_room_how: "doorway and shell, mean over the evening",
    build_weight: "Weight on the floor",
    build_weight_how: "on what it stands on; a wood rack comes besides",
    build_stack: "Wood, stacked, a week",
    build_delivery: "a delivery of {} m³ every {} days",
    build_ash: "Ash a week",
    build_ash_how: "cold, in a lidded metal bin",
    build_preheat: "To heat it up",
    build_preheat_how: "from the match until ready",
    build_closed: "After the closed days",
    build_closed_how: "floor in the first morning",
    build_two: "Instead of one",
    build_two_of: "two of {}",
    build_two_how: "half the covers and half the hands each, on wood",
    build_two_both: "; both burn {} of wood a week and send {} up the hood",
    on_wood: "on wood",
    with_gas: "with gas",
    rungs_wood: "Every floor, on wood alone",
    rungs_gas: "Every floor, with gas",
    rung_heads: "Floor|Your menu|pieces an hour|lowest spot °C|wood kg a week|gas kWh a week|cost a week|match to ready|idle kW|preheat MJ|capacity kg/h|cooking efficiency %",
    rung_carries: "carries",
    rung_grown: "carries, with growth",
    rung_gives: "gives: {}",
    rung_small: "a dish does not fit",
    rung_look: "Look at {}",
    rung_open: "Open as a scenario",
    rung_open_this: "Open {} as a scenario",
    rung_name: "{}, {}",
    rung_opened: "{} opened as a scenario of its own.",
    rungs_csv: "Save the floors as CSV",
    rungs_mean: "How these figures are meant",

    this_oven: "As planned",
    nights_title: "Bad nights",
    nights_how: "The same evening with guests, mix, wood and cook as chance has them.",
    nights_count: "Nights",
    nights_ask: "Play {} nights",
    nights_begin: "Setting up …",
    nights_run: "{} of {} nights played",
    nights_wood: "Wood in the middle night",
    nights_wood_how: "one night in ten under {}, one in ten over {}: bring in that much",
    nights_wait: "Waits",
    nights_wait_how: "nine orders in ten, in nine nights of ten",
    nights_lowest: "Coolest spot loaded",
    nights_lowest_how: "one night in ten goes under it",
    nights_gave_one: "{} in {} of the nights",
    nights_worst: "The quarter hour from {} breaks most nights. What gives first: {}.",
    nights_dish: " It gives most often on {}.",
    nights_chances: "What is left to chance",

    sure_title: "How sure is this?",
    sure_how: "All that nobody knows exactly, drawn at random within its range, and each alone.",
    sure_ask: "Work out how sure",
    sure_so_far: "{} of the evenings played",
    sure_carries: "“It carries” stands in {} of {} draws: {} to {} of all such evenings.",
    sure_gives: "“It gives” stands in {} of {} draws: {} to {} of all such evenings.",
    sure_between: "{} to {} in four draws of five",
    sure_start: "Floor at the first order",
    sure_morning: "Floor next morning, doors shut",
    sure_weakest: "What moves it most: {}.",
    sure_heads: "Unknown|Coolest spot from end to end|The verdict|What narrows it",
    sure_range: "Range: {}.",
    sure_turns: "turns",
    sure_stays: "stays",
}

/// The words of the language in use.
pub(crate) fn words() -> &'static Words {
    match language() {
        Language::English => &ENGLISH,
        Language::German => translate::own().unwrap_or(&ENGLISH),
    }
}

/// A door's question, and its name where there is little room.
pub(crate) fn door_words(door: Door) -> (&'static str, &'static str) {
    let say = words();
    match door {
        Door::Chef => (say.door_menu, say.door_menu_short),
        Door::Planner => (say.door_floors, say.door_floors_short),
        Door::Cook => (say.door_tonight, say.door_tonight_short),
    }
}

/// What an act is called over its cautions.
pub(crate) fn act_words(act: &str) -> &'static str {
    let say = words();
    match act {
        "light" => say.act_light,
        "feed" => say.act_feed,
        "doorway" => say.act_doorway,
        "dish" => say.act_dish,
        "carrier" => say.act_carrier,
        "assist" => say.act_assist,
        "close" => say.act_close,
        "ash" => say.act_ash,
        "first_firing" => say.act_first,
        _ => say.cautions,
    }
}

/// The engine's plain text with the marks of good print, in the reader's language and units.
pub(crate) fn print(text: &str) -> String {
    crate::units::said(&tr(text).replace('\'', "’"))
}

/// A text with what goes into its places: `{}` in order, `{0}` by number.
pub(crate) fn fill(text: &str, parts: &[&str]) -> String {
    translate::put(text, parts)
}

/// A field's name.
pub(crate) fn label(row: &Field) -> String {
    tr(row.label)
}

/// A field's name inside a sentence.
pub(crate) fn label_inside(row: &Field) -> String {
    match language() {
        Language::English => row.label.to_ascii_lowercase(),
        Language::German => label(row),
    }
}

/// A unit as it stands behind a field.
pub(crate) fn unit_name(unit: &str) -> String {
    tr(crate::units::name(unit))
}

/// A key of a table or a choice as people read it: `fireclay_dense` is "fireclay, dense".
pub(crate) fn key_words(key: &str) -> String {
    match language() {
        Language::English => english_key(key),
        Language::German => goods(key).map_or_else(|| tr(&english_key(key)), tr),
    }
}

/// What a table calls one of its goods.
fn goods(key: &str) -> Option<&'static str> {
    let food = || food::find(key).map(|food| food.name);
    let stone = || stone::find(key).map(|stone| stone.name);
    food().or_else(stone).or_else(|| wood::find(key).map(|wood| wood.name))
}

fn english_key(key: &str) -> String {
    match key {
        "base_pale" => "base pale, top done".to_owned(),
        "base_ahead" => "base done before the top".to_owned(),
        "together" => "base and top together".to_owned(),
        "nothing" => "nothing noted".to_owned(),
        "floor" => "floor by gun".to_owned(),
        "none" => "coals only".to_owned(),
        "low" => "a low flame".to_owned(),
        "high" => "flame under the dome".to_owned(),
        "on_off" => "full or nothing".to_owned(),
        "modulating" => "turned down near the set point".to_owned(),
        "even" => "evenly".to_owned(),
        "parties" => "in parties, by chance".to_owned(),
        "hottest" => "the hottest that would do".to_owned(),
        "longest_rested" => "the longest left alone".to_owned(),
        "gun" => "gun on the bare floor".to_owned(),
        "probe" => "probe under the floor".to_owned(),
        _ => key.replace('_', " "),
    }
}
