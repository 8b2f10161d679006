//! Owns the bibliography: every key a datum may cite, what it stands for, and how far it is to be trusted.

mod list;

pub use list::BIBLIOGRAPHY;

/// How a number came to us.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Status {
    /// Read in a publication.
    Published,
    /// Read in a standard, or in a library or summary that quotes it.
    Standard,
    /// Computed with a reference library of properties.
    ReferenceLibrary,
    /// What cooks and builders do; no source.
    CommonPractice,
    /// Recalled, not seen: to be checked before it is leant on.
    FromMemory,
}

impl Status {
    /// The status in words.
    #[must_use]
    pub const fn says(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Standard => "standard",
            Self::ReferenceLibrary => "reference library",
            Self::CommonPractice => "common practice, no source",
            Self::FromMemory => "from memory",
        }
    }
}

/// One entry of the bibliography.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source {
    /// What data cite it by.
    pub key: &'static str,
    /// The work, as it would be cited.
    pub cites: &'static str,
    /// How far to trust it.
    pub status: Status,
}

/// The entry of a key.
#[must_use]
pub fn find(key: &str) -> Option<&'static Source> {
    BIBLIOGRAPHY.iter().find(|source| source.key == key)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Files whose constants cite keys in their docs, as (`key`); the tables' keys are tested beside the tables.
    const CITING: &[&str] = &[
        include_str!("../matter/wood.rs"),
        include_str!("../matter/food/component.rs"),
        include_str!("../matter/food/composition.rs"),
        include_str!("../demand/need.rs"),
        include_str!("../demand/law.rs"),
        include_str!("../units/trade.rs"),
    ];

    #[test]
    fn every_key_cited_by_a_constant_exists() {
        let mut cited = 0;
        for line in CITING.iter().flat_map(|text| text.lines()).filter(|line| line.trim_start().starts_with("///")) {
            for word in line.split("(`").skip(1).filter_map(|rest| rest.split('`').next()) {
                assert!(find(word).is_some(), "{word} is cited and not listed");
                cited += 1;
            }
        }
        assert!(cited >= 6, "only {cited} citations found");
    }

    #[test]
    fn every_key_is_used_once_and_says_something() {
        assert!(BIBLIOGRAPHY.windows(2).all(|pair| pair[0].key < pair[1].key), "not in the order of their keys");
        for source in BIBLIOGRAPHY {
            assert!(source.cites.len() > 20, "{} cites nothing", source.key);
        }
        assert!(find("no such key").is_none());
    }
}
