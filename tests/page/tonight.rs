//! What the cook told tonight: read back as it was, and what is damaged in it left out before it can do harm.

use hearthload_page::state::tonight::{Mark, Read, Tonight};
use serde_json::json;

#[test]
fn what_was_told_is_read_back() {
    let told = Tonight::of("2026-8-21 1").marked(Mark { planned_s: 64_800.0, at_s: 64_920.0, pieces: 2 });
    let told = Tonight { reading: Some(Read { at_s: 68_400.0, floor_c: 285.0 }), ..told.turned("4 leek rounds") };
    assert_eq!(Tonight::read(&told.write(), &told.key), told);
    assert_eq!(Tonight::read(&told.write(), "2026-8-22 1"), Tonight::of("2026-8-22 1"));
}

#[test]
fn what_no_evening_holds_is_left_out() {
    let mark = |planned: serde_json::Value, pieces: serde_json::Value| json!({ "planned_s": planned, "at_s": 1, "pieces": pieces });
    let kept = json!({ "key": "k", "reading": { "at_s": -1, "floor_c": 285 }, "ticked": ["a", 7], "marks": [
        mark(json!(64_800), json!(2)), mark(json!(1e300), json!(2)), mark(json!(64_800), json!(4_294_967_295_u32)),
        mark(json!(null), json!(1)), mark(json!(64_800), json!(-1)), "torn",
    ] });
    let told = Tonight::read(&kept, "k");
    assert_eq!((told.marks.len(), told.reading, told.ticked.len()), (1, None, 1));
    assert_eq!(told.fed(1e9).len(), 2, "four thousand million pieces would fill the memory");
    for torn in [json!(null), json!([]), json!({ "key": "k", "marks": 7, "ticked": {}, "reading": [] })] {
        assert_eq!(Tonight::read(&torn, "k"), Tonight::of("k"), "{torn}");
    }
}
