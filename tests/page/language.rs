//! Another language is whole: every sentence the engine and the pictures can make is in its catalogue, and what a page shows of the
//! demonstration is said in it.

use hearthload::{
    matter::{food, stone, wood},
    scenario::fields::fields,
};
use hearthload_page::words::{
    NAMES, german,
    language::{Language, choose},
    translate::{know, missing, put, sentences, tr, without_names},
};
use serde_json::{Value, json};
use std::path::Path;

/// Sources whose texts are read on the page.
const SOURCES: [&str; 40] = [
    "src/engine/report/build.rs",
    "src/engine/report/causes.rs",
    "src/engine/report/cautions.rs",
    "src/engine/report/evidence.rs",
    "src/engine/report/fault_words.rs",
    "src/engine/report/fire_build.rs",
    "src/engine/report/fire_gas_words.rs",
    "src/engine/report/fire_words.rs",
    "src/engine/report/floors_build.rs",
    "src/engine/report/now_words.rs",
    "src/engine/report/reach_build.rs",
    "src/engine/report/verdict_words.rs",
    "src/engine/report/weakest_words.rs",
    "src/engine/report/words.rs",
    "src/engine/scenario/guess.rs",
    "src/engine/scenario/mod.rs",
    "src/engine/scenario/says.rs",
    "src/engine/scenario/walk.rs",
    "src/engine/scenario/fields/day.rs",
    "src/engine/scenario/fields/menu.rs",
    "src/engine/scenario/fields/mod.rs",
    "src/engine/scenario/fields/oven.rs",
    "src/engine/plan/feeding_rule.rs",
    "src/engine/plan/floors.rs",
    "src/engine/demand/anchor.rs",
    "src/page/src/charts/beam.rs",
    "src/page/src/charts/evening.rs",
    "src/page/src/charts/floor.rs",
    "src/page/src/charts/floor_parts.rs",
    "src/page/src/charts/gives.rs",
    "src/page/src/charts/heat.rs",
    "src/page/src/charts/ladder.rs",
    "src/page/src/charts/ledger.rs",
    "src/page/src/charts/ledger_section.rs",
    "src/page/src/charts/nights.rs",
    "src/page/src/charts/plan.rs",
    "src/page/src/charts/plan_oven.rs",
    "src/page/src/charts/wood.rs",
    "src/page/src/charts/wood_spread.rs",
    "src/engine/sure/unknowns.rs",
];

fn read(path: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(path)).unwrap()
}

/// The texts between quotes of a source, its tests and comments aside; what is filled in stands as `{}`.
fn texts(source: &str) -> Vec<String> {
    let code = source.split("#[cfg(test)]").next().unwrap();
    let mut signs = code.chars().peekable();
    let (mut all, mut before) = (Vec::new(), ' ');
    while let Some(sign) = signs.next() {
        match sign {
            '/' if signs.peek() == Some(&'/') => while signs.next_if(|sign| *sign != '\n').is_some() {},
            // A quote that is a letter, or a word in code.
            '"' if before != '\'' => all.push(text(&mut signs)),
            _ => {}
        }
        before = sign;
    }
    all
}

fn text(signs: &mut std::iter::Peekable<std::str::Chars>) -> String {
    let mut text = String::new();
    while let Some(sign) = signs.next() {
        match sign {
            '"' => break,
            '\\' => match signs.next() {
                Some('n') => text.push('\n'),
                Some('u') => {
                    let code: String = signs.by_ref().skip(1).take_while(|sign| *sign != '}').collect();
                    text.extend(u32::from_str_radix(&code, 16).ok().and_then(char::from_u32));
                }
                Some('\n') => while signs.next_if(|sign| sign.is_whitespace()).is_some() {},
                Some(other) => text.push(other),
                None => break,
            },
            '{' => {
                signs.by_ref().take_while(|sign| *sign != '}').for_each(drop);
                // Places side by side are one.
                if !text.ends_with("{}") {
                    text.push_str("{}");
                }
            }
            other => text.push(other),
        }
    }
    text
}

/// Whether a text is for people: words with blanks between.
fn is_said(text: &str) -> bool {
    let bare = text.replace("{}", "");
    bare.contains(' ')
        && bare.split(' ').any(|word| word.len() > 1 && word.chars().all(|sign| sign.is_ascii_lowercase()))
}

/// Parts of sentences whose wholes stand in the catalogue in each of their shapes, and what no page shows.
const OTHERWISE: &[&str] = &[
    "{} fed in the hour.",
    "{}: {} is refused.",
    "where the floor began at {}",
    "{} {} {} out of the floor{}",
    ", and it wins back {} between splits",
    ": it wins back {} between splits and gives the rest out of its store",
    "{} The floor stands at {} when service begins.{} The fire leaves {} of the doorway's air and {} of the way to the doorway; \
     heat on the cook there reaches {}, {}.",
    "{} A reserve costs {} more: lit at {}, {}, it holds {}.{}",
    "{} What costs least: {}.{}",
    "{}: {} on {} of 100 nights, ±\u{a0}{}.",
    "{} out of the floor, and it wins back {} between splits",
    "one pair of hands has",
    "{} pairs of hands have",
    "loading, turning and lifting take {} of work in the hour, and {} {}",
    "A CO alarm",
    ": beyond it",
    "a piece",
    "from {} {}",
    "rough night",
    "rough nights",
    ", in the rush {}",
    "with gas assist",
    "on wood alone",
    "; on the largest, {} gives first",
    "No floor on offer carries this evening, fed by the rule{}.",
    "; beyond that {} gives first",
    "; nothing gives up to there, and more than three times the evening is not tried",
    "This kitchen carries {} at this mix ({} planned){}.",
    ": {} gives",
    "No evening of this mix carries as it is fed and manned{}.",
    "{}, and {}",
    ", and",
    "Beyond a limit",
    "Not as it stands",
    "{}: from {} {}.",
    "By {} a bake{} takes {} instead of {}",
    "Here {} of all do{}",
    ", {} falling short most often",
    "{} and {}",
    "deg f",
    "at most {} bytes",
    "two values",
    "one value",
    "and {} more",
    "{} from {}",
    "stays straight",
    ": {} at {}",
    "The line {}.{}",
    ", the last at {}",
    "{} pieces to come{}.",
    "floor heat gives",
    "top heat gives",
    "floor space gives",
    "hands give",
    "the fire gives",
    "doorway air gives",
    "a dish's own cap gives",
    "{} first, then {}.",
    "{} first; the rest holds.",
    "The {} {} most out of the hearth, by the piece and over the service.",
    "The {} {} most by the piece; the {} pull most over the service.",
    "your menu asks {} {}",
    "one flow's place, thickness and the words above it",
    "so far it holds",
    "it holds",
    "one piece lies here",
    "on this floor {} pieces lie",
    "{} pieces lie here",
    "{} and {} of kindling",
    "; the thin sticks are kindling",
];

#[test]
fn every_sentence_of_engine_and_pictures_is_in_the_german_catalogue() {
    let mut left = Vec::new();
    for path in SOURCES {
        for text in texts(&read(path)).into_iter().filter(|text| is_said(text)) {
            for sentence in sentences(&text) {
                let bare = sentence.trim();
                // As it stands, or as its places are when they are filled; a sentence before or behind it is one of its own.
                let known = |text: &str| missing(text).is_empty();
                let shapes = [bare, bare.trim_start_matches("{} "), bare.trim_end_matches("{}")];
                let filled =
                    shapes.iter().flat_map(|shape| [shape.replace("{}", "1"), shape.replace("{}", "1\u{a0}kg")]);
                let otherwise = OTHERWISE.contains(&bare);
                if is_said(bare) && !otherwise && !filled.into_iter().any(|text| known(&text)) {
                    left.push(format!("{path}: {bare}"));
                }
            }
        }
    }
    assert!(left.is_empty(), "{} sentences have no German:\n{}", left.len(), left.join("\n"));
}

/// Every text of an answer that is for people.
fn said(answer: &Value, texts: &mut Vec<String>) {
    match answer {
        Value::String(text) if is_said(text) => texts.push(text.clone()),
        Value::Array(all) => all.iter().for_each(|one| said(one, texts)),
        Value::Object(all) => all
            .iter()
            // Names are the reader's own; the source of an assumed value is checked with the field table.
            .filter(|(key, _)| {
                !matches!(key.as_str(), "name" | "edits" | "lowest_dish" | "dish" | "value" | "scenario")
            })
            .for_each(|(_, one)| said(one, texts)),
        _ => {}
    }
}

fn demo(name: &str) -> Value {
    serde_json::from_str(&read(&format!("demo-data/{name}.json"))).unwrap()
}

#[test]
fn the_answers_about_the_demonstration_have_no_english_left() {
    let mut left = Vec::new();
    for name in ["carries", "surprise", "assist", "small"] {
        let scenario = demo(name);
        let dishes = scenario["menu"].as_array().unwrap().iter().map(|dish| dish["name"].as_str().unwrap().to_owned());
        know(dishes.collect());
        for question in ["carry", "fire"] {
            let asked = json!({ "question": question, "scenario": scenario }).to_string();
            let mut texts = Vec::new();
            said(&serde_json::from_str(&hearthload::ask::answer(&asked)).unwrap(), &mut texts);
            left.extend(texts.iter().flat_map(|text| missing(text)).map(|text| format!("{name} {question}: {text}")));
        }
    }
    left.sort();
    left.dedup();
    assert!(left.is_empty(), "{}", left.join("\n"));
}

#[test]
fn every_word_of_the_page_is_there_in_german_in_its_order() {
    assert_eq!(german::names(), NAMES);
}

#[test]
fn every_sentence_has_its_german_below_it_and_stands_there_once() {
    let lines = german::TEXT.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    let sentences: Vec<&str> = lines.skip_while(|line| *line != "---").skip(1).collect();
    let mut known = std::collections::BTreeSet::new();
    for pair in sentences.chunks(2) {
        assert!(!pair[0].starts_with(' ') && pair.get(1).is_some_and(|says| says.starts_with("  ")), "{pair:?}");
        assert!(known.insert(pair[0]), "twice: {}", pair[0]);
        let places = |text: &str| text.matches('{').count();
        assert!(places(pair[0]) >= places(pair[1]), "{pair:?}");
    }
}

#[test]
fn every_field_has_its_name_and_its_meaning_in_german() {
    let texts = fields().flat_map(|row| [row.label, row.note]).filter(|text| !text.is_empty());
    let left: Vec<String> = texts.flat_map(missing).collect();
    assert!(left.is_empty(), "{}", left.join("\n"));
}

#[test]
fn foods_stones_and_woods_have_german_names() {
    let foods = food::all().iter().flat_map(|food| [food.name, food.category]);
    let goods =
        foods.chain(stone::all().iter().map(|stone| stone.name)).chain(wood::all().iter().map(|wood| wood.name));
    let left: Vec<String> = goods.flat_map(missing).collect();
    assert!(left.is_empty(), "{}", left.join("\n"));
}

#[test]
fn sentences_are_said_in_the_language_and_names_are_left_alone() {
    know(vec!["Leek and cheese round".to_owned(), "Hands".to_owned()]);
    choose(Language::German);
    let verdict = "Not as it stands: from 20:05 the floor runs out of heat for Leek and cheese round.";
    assert_eq!(tr(verdict), "So nicht: ab 20:05 geht dem Boden die Hitze aus für Leek and cheese round.");
    assert_eq!(
        tr(
            "At its tightest, about 20:02, 94\u{a0}pieces an hour pull 1.5\u{a0}kW out of the floor, and it wins back 1.7\u{a0}kW between splits."
        ),
        "Am knappsten ist es gegen 20:02: 94\u{a0}Stück je Stunde ziehen 1.5\u{a0}kW aus dem Boden, und zwischen den Scheiten gewinnt er 1.7\u{a0}kW zurück."
    );
    assert_eq!(tr("Hands"), "Hands");
    assert_eq!(without_names(|| tr("Leek and cheese round")), "Lauch-Käse-Fladen");
    assert_eq!(tr("Leek and cheese round"), "Leek and cheese round");
    assert_eq!(tr("A sentence nobody wrote."), "A sentence nobody wrote.");
    assert_eq!(put("{1} before {0}", &["a", "b"]), "b before a");
    choose(Language::English);
    assert_eq!(tr(verdict), verdict);
}
