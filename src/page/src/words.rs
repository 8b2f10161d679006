//! Owns every word the page itself says, in one place, so that another language is another set of the same words.
//!
//! Verdicts, problems and notes come in words from the engine, pictures bring their own (`charts::words`). `{}` stands where a
//! number or a name goes.

use crate::route::Door;

macro_rules! words {
    ($($name:ident: $text:literal,)+) => {
        /// The words of one language.
        pub(crate) struct Words { $(pub $name: &'static str,)+ }

        static ENGLISH: Words = Words { $($name: $text,)+ };
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
    no_verdict: "No answer yet.",
    take_out: "Take it out",
    no_warnings: "Nothing about this plan needs a warning.",
    under_band: "{} of {} pieces under their band",
    assumed_show: "Show them with their sources",
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
    grams_of: "Grams of {}",
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
    add_row: "Add one",
    remove_row: "Take out {}",
    row_gone: "{} taken out.",
    use_mine: "Change these",

    sum_menu: "{} dishes, {} pieces for 100 covers",
    sum_assumed: "{} assumed",

    refused_big: "{} is larger than a scenario can be. Nothing here was changed.",
    refused_json: "{} is not a scenario: {}. Nothing here was changed.",
    refused_kind: "{} is not a scenario. Nothing here was changed.",
    refused_newer: "{} was written by a newer hearthload. Reload the page for the new version, then bring it in again.",
    refused_read: "{} could not be read. Nothing here was changed.",
}

/// The words of the language in use.
pub(crate) fn words() -> &'static Words {
    &ENGLISH
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

/// The engine's plain text with the marks of good print.
pub(crate) fn print(text: &str) -> String {
    text.replace('\'', "’")
}

/// A text with what goes into its `{}`, in order.
pub(crate) fn fill(text: &str, parts: &[&str]) -> String {
    let mut pieces = text.split("{}");
    let mut filled = pieces.next().unwrap_or_default().to_owned();
    for (index, piece) in pieces.enumerate() {
        filled.push_str(parts.get(index).copied().unwrap_or_default());
        filled.push_str(piece);
    }
    filled
}

/// A key of a table or a choice as people read it: `fireclay_dense` is "fireclay, dense".
pub(crate) fn key_words(key: &str) -> String {
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
