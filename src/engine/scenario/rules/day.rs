//! Owns the rules between fields of service, feeding, promise and planning.

use super::Found;
use crate::scenario::{clock, says};
use crate::units::time::QUARTER_S;

/// Most covers, batch pieces and pieces of wood in one day, so that an answer comes in seconds.
const MOST_COVERS: f64 = 5000.0;
const MOST_BATCH_PIECES: f64 = 5000.0;
const MOST_WOOD_PIECES: f64 = 2000.0;
/// Most floors on a ladder.
const MOST_FLOORS: f64 = 40.0;
const COUNT_ON: &str = "Past midnight go on counting, 25:30.";

pub(super) fn service(found: &mut Found) -> Option<()> {
    let v = found.v;
    found.below("service.start", "service.end", &format!("Service starts at {{a}} and ends at {{b}}. {COUNT_ON}"));
    covers(found);
    batches(found);
    for path in v.items("service.wipes") {
        after_the_match(found, &path, "A wipe");
    }
    let (end, gone) = (v.number("service.end")?, v.number("promise.queue_gone_by")?);
    if gone < end {
        let says = format!(
            "The last piece is out by {}, before the last order at {}. {COUNT_ON}",
            found.shown("promise.queue_gone_by"),
            clock::write(end)
        );
        found.say("promise.queue_gone_by", format!("{} or later", clock::write(end)), says);
    }
    Some(())
}

/// One number for each quarter hour, and not too many guests.
fn covers(found: &mut Found) -> Option<()> {
    let v = found.v;
    let (start, end, count) = (v.number("service.start")?, v.number("service.end")?, v.count("service.covers")?);
    let quarters = ((end - start) / QUARTER_S).ceil();
    if end > start && (count as f64 - quarters).abs() > 0.0 {
        let says = format!(
            "From {} to {} there are {quarters} quarter hours, and {count} numbers of covers. Give one for each.",
            clock::write(start),
            clock::write(end)
        );
        found.say("service.covers", format!("{quarters} numbers"), says);
    }
    let total: f64 = v.items("service.covers").filter_map(|path| v.number(&path)).sum();
    if total > MOST_COVERS {
        let says = format!("{total} covers in one service; at most {MOST_COVERS} are computed.");
        found.say("service.covers", format!("at most {MOST_COVERS} in all"), says);
    }
    Some(())
}

fn batches(found: &mut Found) {
    let v = found.v;
    let names: Vec<&str> = v.items("menu").filter_map(|path| v.text(&format!("{path}.name"))).collect();
    let mut pieces = 0.0;
    for path in v.items("service.batches") {
        after_the_match(found, &format!("{path}.at"), "A batch");
        pieces += v.number(&format!("{path}.pieces")).unwrap_or(0.0);
        let field = format!("{path}.dish");
        let Some(dish) = v.text(&field) else { continue };
        if !names.contains(&dish) {
            let guess = says::nearest_name(dish, &names);
            let guess = guess.map_or_else(String::new, |name| format!(" Did you mean \"{name}\"?"));
            found.say(
                &field,
                names.join(", "),
                format!("No dish of the menu is called \"{}\".{guess}", says::quoted(dish)),
            );
        }
    }
    if pieces > MOST_BATCH_PIECES {
        let says = format!("{pieces} pieces of batch work; at most {MOST_BATCH_PIECES} are computed.");
        found.say("service.batches", format!("at most {MOST_BATCH_PIECES} pieces in all"), says);
    }
}

/// What happens in the fire happens after it is lit.
fn after_the_match(found: &mut Found, path: &str, what: &str) -> Option<()> {
    let (at, light) = (found.v.number(path)?, found.v.number("feeding.light_at")?);
    if at < light {
        let says = format!(
            "{what} at {} comes before the fire is lit at {}. {COUNT_ON}",
            clock::write(at),
            found.shown("feeding.light_at")
        );
        found.say(path, format!("{} or later", clock::write(light)), says);
    }
    Some(())
}

pub(super) fn feeding(found: &mut Found) {
    match_between(found);
    phases(found);
    let mut free_from = 0.0;
    for path in found.v.items("feeding.spread_coals") {
        let at = format!("{path}.at");
        after_the_match(found, &at, "Spreading coals");
        let (Some(from), Some(for_s)) = (found.v.number(&at), found.v.si(&format!("{path}.for_min"))) else { continue };
        if from < free_from {
            let says = format!("Coals are spread again at {}, before the last spread is over.", clock::write(from));
            found.say(&at, format!("{} or later", clock::write(free_from)), says);
        }
        free_from = from + for_s;
    }
}

/// Read, lit, open: in that order.
fn match_between(found: &mut Found) -> Option<()> {
    let v = found.v;
    let light = v.number("feeding.light_at")?;
    if let Some(read) = v.number("start.read_at").filter(|&read| read > light) {
        let says = format!(
            "The floor is read before the fire is lit: read at {}, lit at {}.",
            found.shown("start.read_at"),
            found.shown("feeding.light_at")
        );
        found.say("start.read_at", format!("{} or earlier", clock::write(light)), says);
        // The times are swapped or a day apart; comparing on would only repeat it.
        return (read > light).then_some(());
    }
    let start = v.number("service.start")?;
    if light > start {
        let says = format!(
            "The fire is lit at {}, after the first order at {}. {COUNT_ON}",
            found.shown("feeding.light_at"),
            clock::write(start)
        );
        found.say("feeding.light_at", format!("{} or earlier", clock::write(start)), says);
    }
    Some(())
}

/// Stretches follow each other and do not overlap; not too many pieces.
fn phases(found: &mut Found) {
    let v = found.v;
    let (mut free_from, mut pieces) = (None::<f64>, 0.0);
    for path in v.items("feeding.phases") {
        let (from_path, to_path) = (format!("{path}.from"), format!("{path}.to"));
        found.below(&from_path, &to_path, &format!("A stretch of feeding goes from {{a}} to {{b}}. {COUNT_ON}"));
        after_the_match(found, &from_path, "Feeding");
        let (Some(from), Some(to)) = (v.number(&from_path), v.number(&to_path)) else { continue };
        if let Some(free) = free_from.filter(|&free| from < free) {
            let says = format!(
                "This stretch starts at {}, before the one above it ends at {}. Put them in order, without overlap.",
                clock::write(from),
                clock::write(free)
            );
            found.say(&from_path, format!("{} or later", clock::write(free)), says);
        }
        free_from = Some(free_from.unwrap_or(0.0).max(to));
        if let (Some(every), Some(each)) = (v.si(&format!("{path}.every_min")), v.number(&format!("{path}.pieces"))) {
            pieces += ((to - from) / every).ceil().max(0.0) * each;
        }
    }
    if pieces > MOST_WOOD_PIECES {
        let says = format!("That is {pieces} pieces of wood in one day; at most {MOST_WOOD_PIECES} are computed.");
        found.say("feeding.phases", format!("at most {MOST_WOOD_PIECES} pieces in all"), says);
    }
}

pub(super) fn plans(found: &mut Found) -> Option<()> {
    let v = found.v;
    let (small, large) = ("planning.floor_smallest_cm", "planning.floor_largest_cm");
    let (least, most, step) = (v.number(small)?, v.number(large)?, v.number("planning.floor_step_cm")?);
    if least > most {
        let says =
            format!("The smallest floor, {}, is larger than the largest, {}.", found.shown(small), found.shown(large));
        found.say(small, format!("at most {most}"), says);
    } else if (most - least) / step >= MOST_FLOORS {
        let says = format!("Steps of {step} cm give more than {MOST_FLOORS} floors. Take a wider step.");
        found.say("planning.floor_step_cm", format!("at least {}", ((most - least) / MOST_FLOORS).ceil()), says);
    }
    Some(())
}
