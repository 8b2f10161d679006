//! Owns the list of all that can happen on the page.

use super::{asked::Subject, tabs::News};
use crate::worker::{Answer, Run};
use hearthload::report::CarryReport;
use serde_json::Value;

/// What can happen.
#[derive(Debug)]
pub enum Action {
    /// A field was typed into; nothing means that it was emptied.
    Set(String, Option<Value>),
    /// Something was put into a list: path, place, value, what was done in words.
    Insert(String, usize, Value, String),
    /// An entry of a list was taken away: its path, what was done in words.
    Take(String, String),
    /// An entry of a list was moved: path, from, to, what was done in words.
    Shift(String, usize, usize, String),
    /// Several fields are set at once: paths and values, what was done in words.
    Apply(Vec<(String, Value)>, String),
    /// The part of the form in which a field stands is opened.
    Show(String),
    /// A part of the form is opened, or closed where it stood open.
    Turn(String),
    /// The details of a dish are opened, or closed where they stood open.
    TurnDish(usize),
    /// The answer is pinned, to compare others with; or what is pinned is taken off.
    Pin,
    /// The last change is taken back.
    Undo,
    /// The worker answered.
    Heard(Run, Answer<Box<CarryReport>>),
    /// The worker was lost.
    Lost(String),
    /// A question beside the live verdict is asked, with its request's other fields.
    Ask(Subject, Value),
    /// It is stopped; what was found stays.
    Stop(Subject),
    /// It goes on where it was stopped or broke.
    GoOn(Subject),
    /// A part of it was answered.
    Part(Run, usize, Answer<Value>),
    /// Compute again.
    Again,
    /// Another kept scenario is opened, by its number.
    Open(u32),
    /// The open scenario is copied, and the copy opened, under a name.
    Copy(String),
    /// A kept scenario is taken away, by its number.
    Forget(u32, String),
    /// The storage is to be looked at: another tab may have changed what is kept.
    Look,
    /// Other tabs changed what is kept.
    News(Vec<News>),
    /// The demonstration is told in another language: each of its scenarios as it was and as it is now.
    Retell(Vec<(Value, Value)>),
    /// A scenario comes from a file.
    Bring(Value, String),
    /// A scenario is made of the open one and opened; what was done in words.
    Spawn(Value, String),
    /// A file cannot be taken, in words.
    Refuse(String),
    /// The note of what went wrong with a file is put away.
    Dismiss,
}
