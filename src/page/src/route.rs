//! Owns the address inside the page: which door, which place behind it, and a scenario that may travel with them, all in the
//! fragment, so that any static host in any folder serves it, also without a network.

/// A door of the page: one person's question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Door {
    /// The chef's: does this oven carry this menu?
    #[default]
    Chef,
    /// The planner's: which floor to buy?
    Planner,
    /// The cook's: how to fire tonight?
    Cook,
}

/// The doors that stand in the head, in order. A door is added here once what lies behind it answers its question.
pub const DOORS: &[Door] = &[Door::Chef, Door::Planner, Door::Cook];

impl Door {
    /// Its name in an address.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Chef => "menu",
            Self::Planner => "floors",
            Self::Cook => "tonight",
        }
    }

    /// The door of a name in an address.
    #[must_use]
    pub fn of(key: &str) -> Option<Self> {
        DOORS.iter().copied().find(|door| door.key() == key)
    }
}

/// Where on the page one is.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Place {
    /// Behind which door.
    pub door: Door,
    /// Where behind it: `reading` in `#tonight/reading`; empty for its first view.
    pub within: String,
}

impl Place {
    /// A door's first view.
    #[must_use]
    pub const fn at(door: Door) -> Self {
        Self { door, within: String::new() }
    }

    /// Its address.
    #[must_use]
    pub fn fragment(&self) -> String {
        let slash = if self.within.is_empty() { "" } else { "/" };
        format!("#{}{slash}{}", self.door.key(), self.within)
    }

    /// Reads an address; nothing where it names no door. An address of a scenario alone opens the first door.
    #[must_use]
    pub fn read(fragment: &str) -> Option<Self> {
        let mut parts = fragment.trim_start_matches('#').split('/').peekable();
        if parts.peek().is_some_and(|first| first.starts_with(SCENARIO)) {
            return Some(Self::default());
        }
        let door = Door::of(parts.next()?)?;
        let within: Vec<&str> = parts.filter(|part| !part.starts_with(SCENARIO)).collect();
        Some(Self { door, within: within.join("/") })
    }
}

/// What the part of an address begins with that carries a scenario.
pub const SCENARIO: &str = "scenario=";
