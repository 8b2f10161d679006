//! Owns what the cook did and read tonight: pieces fed or passed over, the last reading, orders ticked; kept for one evening of one
//! scenario.

use hearthload::report::words::clock_typed;
use hearthload::units::time::MINUTE_S;
use serde_json::{Value, json};

/// No evening reaches beyond this, seconds since its midnight, and nobody feeds more pieces at once: what is kept and says
/// otherwise is damaged.
const LAST_S: f64 = 72.0 * 3600.0;
const MOST_PIECES: u64 = 100;

/// What became of one feed of the plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// When the plan had it, seconds since midnight.
    pub planned_s: f64,
    /// When it was fed or passed over, seconds since midnight.
    pub at_s: f64,
    /// How many pieces; none where it was passed over.
    pub pieces: u32,
}

/// A reading of the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Read {
    /// When, seconds since midnight.
    pub at_s: f64,
    /// Temperature, degC.
    pub floor_c: f64,
}

/// Tonight.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tonight {
    /// Which evening of which scenario: what was kept for another is not this one's.
    pub key: String,
    /// What became of the feeds, in the order it was told.
    pub marks: Vec<Mark>,
    /// The last reading.
    pub reading: Option<Read>,
    /// When the plan had pieces that the rest of the evening leaves out since a reading, seconds since midnight.
    pub left_out_s: Vec<f64>,
    /// Orders that were ticked, in their words.
    pub ticked: Vec<String>,
}

impl Tonight {
    /// An evening of which nothing is told yet.
    #[must_use]
    pub fn of(key: &str) -> Self {
        Self { key: key.to_owned(), ..Self::default() }
    }

    /// Reads what [`Tonight::write`] wrote; what is damaged is left out, and what belongs to another evening is not taken.
    #[must_use]
    pub fn read(kept: &Value, key: &str) -> Self {
        let number = |value: &Value, name: &str| value.get(name).and_then(Value::as_f64);
        let time_of = |read: Option<f64>| read.filter(|at_s| (0.0..=LAST_S).contains(at_s));
        let time = |value: &Value, name: &str| time_of(number(value, name));
        if kept.get("key").and_then(Value::as_str) != Some(key) {
            return Self::of(key);
        }
        let mark = |value: &Value| {
            let pieces = value.get("pieces").and_then(Value::as_u64).filter(|pieces| *pieces <= MOST_PIECES)? as u32;
            Some(Mark { planned_s: time(value, "planned_s")?, at_s: time(value, "at_s")?, pieces })
        };
        let list = |name: &str| kept.get(name).and_then(Value::as_array).cloned().unwrap_or_default();
        let reading = kept.get("reading");
        Self {
            key: key.to_owned(),
            marks: list("marks").iter().filter_map(mark).collect(),
            reading: reading
                .and_then(|value| Some(Read { at_s: time(value, "at_s")?, floor_c: number(value, "floor_c")? })),
            left_out_s: list("left_out_s").iter().filter_map(|value| time_of(value.as_f64())).collect(),
            ticked: list("ticked").iter().filter_map(|value| value.as_str().map(str::to_owned)).collect(),
        }
    }

    /// As it is kept.
    #[must_use]
    pub fn write(&self) -> Value {
        let marks: Vec<Value> = self
            .marks
            .iter()
            .map(|mark| json!({ "planned_s": mark.planned_s, "at_s": mark.at_s, "pieces": mark.pieces }))
            .collect();
        let reading = self.reading.map(|read| json!({ "at_s": read.at_s, "floor_c": read.floor_c }));
        json!({ "key": self.key, "marks": marks, "reading": reading, "left_out_s": self.left_out_s, "ticked": self.ticked })
    }

    /// Goes by a reading from now on, and by a rest of the evening that leaves some of the plan's pieces out. A piece that was skipped
    /// before its time is planned anew.
    #[must_use]
    pub fn taking(&self, read: Read, left_out_s: impl IntoIterator<Item = f64>) -> Self {
        let mut next = Self { reading: Some(read), ..self.clone() };
        next.marks.retain(|mark| mark.pieces > 0 || mark.planned_s < read.at_s);
        next.left_out_s.retain(|planned_s| *planned_s < read.at_s);
        next.left_out_s.extend(left_out_s);
        next
    }

    /// What became of a feed of the plan, if it was told.
    #[must_use]
    pub fn mark_of(&self, planned_s: f64) -> Option<&Mark> {
        self.marks.iter().find(|mark| (mark.planned_s - planned_s).abs() < 1.0)
    }

    /// Tells what became of a feed.
    #[must_use]
    pub fn marked(&self, mark: Mark) -> Self {
        let mut next = self.clone();
        next.marks.retain(|other| (other.planned_s - mark.planned_s).abs() >= 1.0);
        next.marks.push(mark);
        next
    }

    /// Takes back what was told last.
    #[must_use]
    pub fn unmarked(&self) -> Self {
        let mut next = self.clone();
        next.marks.pop();
        next
    }

    /// Ticks an order, or takes its tick away.
    #[must_use]
    pub fn turned(&self, order: &str) -> Self {
        let mut next = self.clone();
        match next.ticked.iter().position(|other| other == order) {
            Some(place) => drop(next.ticked.remove(place)),
            None => next.ticked.push(order.to_owned()),
        }
        next
    }

    /// What two tabs told of one evening: this one's, beside what lies in storage by now, both told on from what this one last knew
    /// to lie there. What either told stands, what either took back goes, and where both told of one thing this one's counts.
    #[must_use]
    pub fn beside(&self, known: &Self, stored: &Self) -> Self {
        let is_feed = |one: &Mark, other: &Mark| (one.planned_s - other.planned_s).abs() < 1.0;
        let mut marks = stored.marks.clone();
        marks.retain(|mark| {
            let of_it = |all: &[Mark]| all.iter().any(|other| is_feed(other, mark));
            of_it(&self.marks) || !of_it(&known.marks)
        });
        for mark in self.marks.iter().filter(|mark| !known.marks.contains(mark) && !stored.marks.contains(mark)) {
            marks.retain(|other| !is_feed(other, mark));
            marks.push(*mark);
        }
        let mut ticked = stored.ticked.clone();
        ticked.retain(|order| self.ticked.contains(order) || !known.ticked.contains(order));
        let new = self.ticked.iter().filter(|order| !known.ticked.contains(order));
        let new: Vec<String> = new.filter(|order| !ticked.contains(order)).cloned().collect();
        ticked.extend(new);
        let read = if self.reading == known.reading { stored } else { self };
        let (reading, left_out_s) = (read.reading, read.left_out_s.clone());
        Self { key: self.key.clone(), marks, reading, left_out_s, ticked }
    }

    /// The times of the pieces fed so far, as the engine reads them: a piece each.
    #[must_use]
    pub fn fed(&self, until_s: f64) -> Vec<String> {
        let fed = self.marks.iter().filter(|mark| mark.pieces > 0 && mark.at_s <= until_s);
        fed.flat_map(|mark| (0..mark.pieces).map(|_| clock_typed(mark.at_s))).collect()
    }

    /// When the plan had pieces that did not go on then, as the engine reads them: what was skipped, what went on at another time, and
    /// what the rest of the evening left out, as long as nobody fed it all the same.
    #[must_use]
    pub fn skipped(&self, until_s: f64) -> Vec<String> {
        let on_time = |mark: &&Mark| mark.pieces > 0 && (mark.at_s - mark.planned_s).abs() < MINUTE_S;
        let told = self.marks.iter().filter(|mark| !on_time(mark)).map(|mark| mark.planned_s);
        let left_out = self.left_out_s.iter().copied().filter(|planned_s| self.mark_of(*planned_s).is_none());
        let mut skipped: Vec<String> = told.chain(left_out).filter(|at_s| *at_s <= until_s).map(clock_typed).collect();
        skipped.sort();
        skipped.dedup();
        skipped
    }
}
