//! Owns which language the page speaks: chosen once, remembered; on a first visit the browser's own where the page has it.

use std::cell::Cell;

/// A language of the page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Language {
    /// The one the engine makes its sentences in.
    #[default]
    English,
    /// German.
    German,
}

/// Every language, in the order they are offered.
pub const LANGUAGES: [Language; 2] = [Language::English, Language::German];

thread_local! {
    /// The language in use: one page has one reader.
    static CHOSEN: Cell<Language> = Cell::new(Language::default());
}

/// The language in use.
#[must_use]
pub fn language() -> Language {
    CHOSEN.get()
}

/// Takes another language into use; what is shown already changes when it is drawn again.
pub fn choose(language: Language) {
    CHOSEN.set(language);
}

impl Language {
    /// Its tag (BCP 47), for `lang` and for what is kept.
    #[must_use]
    pub const fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
        }
    }

    /// What it calls itself.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::German => "Deutsch",
        }
    }

    /// The language of a tag, its regions aside: "de-AT" is German.
    #[must_use]
    pub fn of(tag: &str) -> Option<Self> {
        let plain = tag.split(['-', '_']).next().unwrap_or_default();
        LANGUAGES.into_iter().find(|language| language.tag().eq_ignore_ascii_case(plain))
    }

    /// Whether its numbers have a decimal comma.
    #[must_use]
    pub const fn has_comma(self) -> bool {
        matches!(self, Self::German)
    }
}
