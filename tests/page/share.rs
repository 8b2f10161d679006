//! A link carries a scenario whole, or says that it does not.

use hearthload_page::{
    route::{Door, Place},
    share::{Broken, LONGEST, fragment, read},
};
use serde_json::{Value, json};

fn demo() -> Value {
    serde_json::from_str(include_str!("../../demo-data/carries.json")).unwrap()
}

#[test]
fn a_scenario_comes_through_unchanged_and_short_enough_for_a_message() {
    let link = fragment(&Place::default(), &demo());
    assert_eq!(read(&link), Some(Ok(demo())));
    assert!(link.len() < LONGEST, "{} letters", link.len());
    assert!(link.chars().all(|letter| letter.is_ascii_alphanumeric() || "#=._-/".contains(letter)), "{link}");
}

#[test]
fn a_link_cut_short_anywhere_is_seen() {
    let link = fragment(&Place::default(), &json!({ "hearthload": 1, "name": "A" }));
    for end in "#menu/scenario=".len()..link.len() {
        assert_eq!(read(&link[..end]), Some(Err(Broken::Damaged)), "{}", &link[..end]);
    }
}

#[test]
fn newer_links_and_other_fragments_are_told_apart() {
    assert_eq!(read("#scenario=2.abc"), Some(Err(Broken::Newer)));
    assert_eq!(read("#scenario=x.abc"), Some(Err(Broken::Damaged)));
    for other in ["", "#", "#golden", "#menu"] {
        assert_eq!(read(other), None);
    }
}

#[test]
fn an_address_holds_a_place_and_a_scenario_side_by_side() {
    let place = Place { door: Door::Chef, within: "reading/now".to_owned() };
    assert_eq!(Place::read(&place.fragment()), Some(place.clone()));
    let both = fragment(&place, &demo());
    assert_eq!(Place::read(&both), Some(place));
    assert_eq!(read(&both), Some(Ok(demo())));
    // A link from before there were doors.
    assert_eq!(Place::read("#scenario=1.abc"), Some(Place::at(Door::Chef)));
    for other in ["", "#", "#golden", "#verdict"] {
        assert_eq!(Place::read(other), None, "{other}");
    }
}
