//! Owns the questions asked beside the live verdict: what was asked about which scenario, how far the answer has come, what it
//! says so far. A question is asked in parts, so that several workers can share it and a stop keeps what is there.

mod nights;
mod plain;

use super::draft;
use crate::worker::{Answer, Run};
use hearthload::{
    numerics::order,
    report::{DishEarns, FireReport, Gives, NightsReport, WayOut, sure_build::SureReport},
    scenario::{Problem, Scenario},
};
use serde::{Deserialize, de::DeserializeOwned};
use serde_json::Value;
use std::{collections::BTreeMap, rc::Rc};

/// What can be asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// The chef's: how many of many nights hold.
    Nights,
    /// How sure the verdict is.
    Sure,
    /// The chef's: how many covers it carries, and the ways out.
    Reach,
    /// The cook's: when to light and how often a log.
    Fire,
    /// The cook's: the rest of the evening after a reading. Its request's other fields are `at`, `floor_c`, `fed`.
    Rest,
}

/// How a question stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Stand {
    /// Answers are awaited.
    Running,
    /// All answers are in.
    Answered,
    /// It was stopped: what was found by then is kept.
    Stopped,
    /// The engine will not answer it as it was asked.
    Mend(Rc<Vec<Problem>>),
    /// The computing broke, with what is known of it.
    Faulted(String),
}

/// What is shown of a reach: the evening it starts from has been read already, and reading it a second time would make the
/// program larger by a tenth.
#[derive(Debug, Deserialize)]
pub struct Reach {
    /// Covers as planned.
    pub planned_covers: f64,
    /// Most covers at this mix that keep every promise; 0 where none do.
    pub most_covers: f64,
    /// What gives with one step more.
    pub gives_first: Gives,
    /// Single changes that carry more, the best first.
    pub ways_out: Vec<WayOut>,
    /// The best two changes together, where they carry more than the best one.
    pub best_two: Option<WayOut>,
    /// Dishes by what they earn for a minute of the hearth, where margins are given.
    pub earns: Vec<DishEarns>,
    /// The reach in words.
    pub reach_says: String,
}

/// An answer, whole or as far as it has come.
#[derive(Clone, Debug)]
pub enum Found {
    /// Many nights.
    Nights(Rc<NightsReport>),
    /// How sure.
    Sure(Rc<SureReport>),
    /// Covers and ways out.
    Reach(Rc<Reach>),
    /// The cook's plan.
    Fire(Rc<FireReport>),
}

impl PartialEq for Found {
    /// The same answer, not merely an equal one: answers are large and never change.
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Nights(a), Self::Nights(b)) => Rc::ptr_eq(a, b),
            (Self::Sure(a), Self::Sure(b)) => Rc::ptr_eq(a, b),
            (Self::Reach(a), Self::Reach(b)) => Rc::ptr_eq(a, b),
            (Self::Fire(a), Self::Fire(b)) => Rc::ptr_eq(a, b),
            _ => false,
        }
    }
}

/// One request of a question.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The engine's request, JSON text.
    pub request: Rc<str>,
    /// What the engine said to it: the `ok` of its answer.
    pub answer: Option<Rc<Value>>,
}

/// A question and its answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// Its number: a question asked anew has another.
    pub run: Run,
    /// The page's scenario when it was asked.
    pub of: Rc<Value>,
    /// How it stands.
    pub stand: Stand,
    /// Its requests, by index.
    pub parts: Vec<Part>,
    /// The newest answer; while a new one runs, the old one until the new one has something to say.
    pub found: Option<Found>,
    /// The page's scenario the answer belongs to.
    pub found_of: Rc<Value>,
    /// The scenario of the question as the engine reads it.
    scenario: Rc<Scenario>,
    /// What was asked for beside the scenario.
    with: Value,
}

impl Question {
    /// Parts answered, and parts in all.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        (self.parts.iter().filter(|part| part.answer.is_some()).count(), self.parts.len())
    }

    /// Whether answers are awaited.
    #[must_use]
    pub fn is_running(&self) -> bool {
        self.stand == Stand::Running
    }

    /// Whether the shown answer, or the one awaited, is to another scenario than this.
    #[must_use]
    pub fn is_stale(&self, doc: &Rc<Value>) -> bool {
        let of = if self.is_running() { &self.of } else { &self.found_of };
        !Rc::ptr_eq(of, doc) && !same(of, doc)
    }

    /// The requests without an answer yet, with their places.
    #[must_use]
    pub fn open_parts(&self) -> Vec<(usize, Rc<str>)> {
        let open = self.parts.iter().enumerate().filter(|(_, part)| part.answer.is_none());
        open.map(|(index, part)| (index, part.request.clone())).collect()
    }
}

/// What no answer depends on: its name, and what the page itself multiplies by.
const BESIDE: [&str; 3] = ["name", "planning.wood_price_kg", "planning.gas_price_kwh"];

/// Whether two scenarios have the same answers.
#[must_use]
pub fn same(a: &Value, b: &Value) -> bool {
    let bare = |doc: &Value| {
        let mut doc = doc.clone();
        BESIDE.iter().for_each(|path| drop(draft::take(&mut doc, path)));
        if draft::get(&doc, "planning").and_then(Value::as_object).is_some_and(serde_json::Map::is_empty) {
            draft::take(&mut doc, "planning");
        }
        doc
    };
    bare(a) == bare(b)
}

/// All questions of the page, one for each subject.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Questions {
    all: BTreeMap<Subject, Question>,
    last: Run,
}

impl Questions {
    /// The question about a subject, if it was ever asked.
    #[must_use]
    pub fn get(&self, subject: Subject) -> Option<&Question> {
        self.all.get(&subject)
    }

    /// The questions whose answers are awaited, the newest first.
    #[must_use]
    pub fn awaited(&self) -> Vec<&Question> {
        let mut running: Vec<&Question> = self.all.values().filter(|question| question.is_running()).collect();
        order::by(&mut running, |a, b| b.run.cmp(&a.run));
        running
    }

    /// Asks: about the page's scenario `doc`, as the engine reads it; `with` holds the request's other fields. Where it holds a
    /// `scenario` of its own, that is asked about, and `scenario` is that one as read.
    pub fn ask(&mut self, subject: Subject, doc: &Rc<Value>, scenario: Rc<Scenario>, with: Value) {
        self.last += 1;
        let requests = match subject {
            Subject::Nights => nights::requests(doc, &with, &scenario),
            Subject::Sure => vec![plain::request("sure", doc, &with)],
            Subject::Reach => vec![plain::request("reach", doc, &with)],
            Subject::Fire | Subject::Rest => vec![plain::request("fire", doc, &with)],
        };
        let old = self.all.remove(&subject);
        let (found, found_of) = old.map_or_else(|| (None, doc.clone()), |old| (old.found, old.found_of));
        let parts = requests.into_iter().map(|request| Part { request, answer: None }).collect();
        let (run, of, stand) = (self.last, doc.clone(), Stand::Running);
        self.all.insert(subject, Question { run, of, stand, parts, found, found_of, scenario, with });
    }

    /// Goes on with what was stopped or broke: the parts that are answered stay so.
    pub fn go_on(&mut self, subject: Subject) {
        if let Some(question) = self.all.get_mut(&subject) {
            self.last += 1;
            question.run = self.last;
            question.stand = Stand::Running;
        }
    }

    /// Stops a question; what was found stays.
    pub fn stop(&mut self, subject: Subject) {
        if let Some(question) = self.all.get_mut(&subject).filter(|question| question.is_running()) {
            question.stand = Stand::Stopped;
        }
    }

    /// Forgets a question with its answer.
    pub fn forget(&mut self, subject: Subject) {
        self.all.remove(&subject);
    }

    /// Forgets all: another scenario is on the table.
    pub fn clear(&mut self) {
        self.all.clear();
    }

    /// A worker answered a part. Answers to what is no longer asked are dropped.
    pub fn hear(&mut self, run: Run, index: usize, answer: Answer<Value>) {
        let asked = self.all.iter_mut().find(|(_, question)| question.run == run && question.is_running());
        let Some((subject, question)) = asked else { return };
        match answer {
            Answer::Ok(ok) => {
                let Some(part) = question.parts.get_mut(index) else { return };
                part.answer = Some(Rc::new(ok));
                if let Err(why) = take_in(*subject, question) {
                    question.stand = Stand::Faulted(why);
                } else if question.parts.iter().all(|part| part.answer.is_some()) {
                    question.stand = Stand::Answered;
                }
            }
            Answer::Problems(problems) => question.stand = Stand::Mend(Rc::new(problems)),
            Answer::Fault(why) => question.stand = Stand::Faulted(why),
        }
    }
}

/// Folds the answers that are in, in the order of their parts, into what is found.
fn take_in(subject: Subject, question: &mut Question) -> Result<(), String> {
    let found = match subject {
        Subject::Nights => nights::fold(question).map(|report| Found::Nights(Rc::new(report))),
        Subject::Sure => plain::read(question).map(|report| Found::Sure(Rc::new(report))),
        Subject::Reach => plain::read(question).map(|report| Found::Reach(Rc::new(report))),
        Subject::Fire | Subject::Rest => plain::read(question).map(|report| Found::Fire(Rc::new(report))),
    };
    question.found = Some(found?);
    question.found_of = question.of.clone();
    Ok(())
}

/// Reads a part of an answer.
fn typed<T: DeserializeOwned>(value: &Value) -> Result<T, String> {
    hearthload::ask::read::from(value).map_err(|error| error.to_string())
}
