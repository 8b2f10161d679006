//! Owns the field table: every field a scenario may hold, with unit, limits, default, note and source, said once.
//!
//! The walker, the defaults, the JSON Schema, the page's form and the list in the demo data's README are all made from it.
//! A path is a pattern: `menu[].known_bake.minutes` stands for that field of every dish. Rows stand in the order of the form,
//! a group before its fields and a list before its items.

mod day;
mod made;
mod menu;
mod oven;

use super::values::Values;
use crate::units::typed::Unit;
use serde_json::Value;

/// What a field may hold.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// An object with fields of its own.
    Group,
    /// A list; its items are the row whose path ends in `[]`.
    List {
        /// Fewest items.
        least: usize,
        /// Most items.
        most: usize,
    },
    /// A number.
    Number {
        /// Unit it is typed in.
        unit: Unit,
        /// Least allowed, in that unit.
        min: f64,
        /// Most allowed, in that unit.
        max: f64,
        /// Whether it must be whole.
        whole: bool,
    },
    /// Free text.
    Text {
        /// Most characters.
        most: usize,
    },
    /// One of a few words.
    Choice(&'static [&'static str]),
    /// A clock time "HH:MM", past midnight "25:30".
    Clock,
    /// A name out of one of the tables of properties.
    Key(Table),
}

/// Tables of properties whose names a field may use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Table {
    /// Foods.
    Food,
    /// What floors and domes are built of.
    Layer,
    /// What pans, pots and slabs are made of.
    Carrier,
    /// Firewood.
    Species,
}

/// Where a field's value comes from when nobody gave one.
#[derive(Clone, Copy, Debug)]
pub enum Fallback {
    /// Nowhere: only the kitchen knows it.
    Required,
    /// It may stay unknown.
    Optional,
    /// An empty list.
    Empty,
    /// A value, as it would be typed.
    Fixed(&'static str),
    /// Worked out from other fields.
    Made {
        /// How, in words.
        words: &'static str,
        /// The rule: what is known so far and the path of the group the field stands in; `None` until it can be said.
        make: fn(&Values, &str) -> Option<Value>,
    },
}

/// One row of the table.
#[derive(Clone, Copy, Debug)]
pub struct Field {
    /// Path pattern.
    pub path: &'static str,
    /// Short name for a form.
    pub label: &'static str,
    /// What it may hold.
    pub kind: Kind,
    /// Its default.
    pub fallback: Fallback,
    /// The sentence that tells its limits, `{}` standing for them: "A doorway is {} high."
    pub frame: &'static str,
    /// What it means, in kitchen words.
    pub note: &'static str,
    /// Where the default comes from.
    pub source: &'static str,
}

/// Mark for defaults that rest on habit alone.
pub const PRACTICE: &str = "common practice, no source";

impl Field {
    const fn new(path: &'static str, label: &'static str, kind: Kind) -> Self {
        Self { path, label, kind, fallback: Fallback::Required, frame: "", note: "", source: "" }
    }

    const fn group(path: &'static str, label: &'static str) -> Self {
        Self::new(path, label, Kind::Group)
    }

    const fn list(path: &'static str, label: &'static str, least: usize, most: usize) -> Self {
        Self::new(path, label, Kind::List { least, most })
    }

    const fn number(path: &'static str, label: &'static str, unit: Unit, min: f64, max: f64) -> Self {
        Self::new(path, label, Kind::Number { unit, min, max, whole: false })
    }

    const fn whole(path: &'static str, label: &'static str, unit: Unit, min: f64, max: f64) -> Self {
        Self::new(path, label, Kind::Number { unit, min, max, whole: true })
    }

    const fn text(path: &'static str, label: &'static str, most: usize) -> Self {
        Self::new(path, label, Kind::Text { most })
    }

    const fn choice(path: &'static str, label: &'static str, words: &'static [&'static str]) -> Self {
        Self::new(path, label, Kind::Choice(words))
    }

    const fn clock(path: &'static str, label: &'static str) -> Self {
        Self::new(path, label, Kind::Clock)
    }

    const fn key(path: &'static str, label: &'static str, table: Table) -> Self {
        Self::new(path, label, Kind::Key(table))
    }

    const fn frame(mut self, frame: &'static str) -> Self {
        self.frame = frame;
        self
    }

    const fn note(mut self, note: &'static str) -> Self {
        self.note = note;
        self
    }

    const fn optional(mut self) -> Self {
        self.fallback = Fallback::Optional;
        self
    }

    const fn empty(mut self) -> Self {
        self.fallback = Fallback::Empty;
        self
    }

    const fn fixed(mut self, typed: &'static str, source: &'static str) -> Self {
        self.fallback = Fallback::Fixed(typed);
        self.source = source;
        self
    }

    const fn made(
        mut self,
        words: &'static str,
        make: fn(&Values, &str) -> Option<Value>,
        source: &'static str,
    ) -> Self {
        self.fallback = Fallback::Made { words, make };
        self.source = source;
        self
    }

    /// First part of the path: the group of the form it belongs to.
    #[must_use]
    pub fn group_name(&self) -> &'static str {
        self.path.split(['.', '[']).next().unwrap_or("")
    }

    /// Last part of the path, the key in its object (`""` for an item of a list).
    #[must_use]
    pub fn key_name(&self) -> &'static str {
        if self.path.ends_with("[]") { "" } else { self.path.rsplit('.').next().unwrap_or("") }
    }

    /// Name of its unit, empty where there is none.
    #[must_use]
    pub const fn unit(&self) -> &'static str {
        match self.kind {
            Kind::Number { unit, .. } => unit.name(),
            Kind::Clock => "HH:MM",
            _ => "",
        }
    }

    /// Least and most of a number, in its unit.
    #[must_use]
    pub const fn limits(&self) -> Option<[f64; 2]> {
        match self.kind {
            Kind::Number { min, max, .. } => Some([min, max]),
            _ => None,
        }
    }

    /// Path pattern of the object or list it stands in, empty for the outermost.
    #[must_use]
    pub fn parent(&self) -> &'static str {
        if let Some(list) = self.path.strip_suffix("[]") {
            return list;
        }
        self.path.rfind('.').map_or("", |dot| &self.path[..dot])
    }
}

/// Every row, in the order of the form.
pub fn fields() -> impl Iterator<Item = &'static Field> {
    TOP.iter().chain(oven::ROWS).chain(menu::ROWS).chain(day::ROWS)
}

/// The row with this path pattern.
#[must_use]
pub fn field(pattern: &str) -> Option<&'static Field> {
    fields().find(|row| row.path == pattern)
}

/// The rows that stand directly in the object with this path pattern.
pub fn children(pattern: &str) -> impl Iterator<Item = &'static Field> {
    fields().filter(move |row| row.parent() == pattern && !row.path.ends_with("[]"))
}

/// Path pattern of a concrete path: `menu[3].name` gives `menu[].name`.
#[must_use]
pub fn pattern_of(path: &str) -> String {
    let mut pattern = String::with_capacity(path.len());
    let mut inside = false;
    for letter in path.chars() {
        inside = (inside || letter == '[') && letter != ']';
        if !inside || letter == '[' {
            pattern.push(letter);
        }
    }
    pattern
}

/// The version of the format this program reads and writes.
pub const VERSION: f64 = 1.0;

static TOP: &[Field] = &[
    Field::whole("hearthload", "Format", Unit::None, 1.0, VERSION)
        .frame("The format is {}.")
        .note("Version of this format; always 1."),
    Field::text("name", "Name", 120).fixed("\"Unnamed\"", "a label only").note("What you call this scenario."),
    Field::text("note", "Note", 2000).optional().note("Anything worth remembering; nothing is computed from it."),
];
