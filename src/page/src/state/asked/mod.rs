//! Owns the questions asked beside the live verdict, one for each subject: which are asked, running, answered, stopped or broken,
//! and whether their answers still belong to the scenario on the table.

mod question;

pub use question::{Ask, Question};

use super::draft;
use crate::worker::{Answer, Run};
use hearthload::{
    numerics::order,
    report::{FireReport, FloorsReport, NightsReport, Reached, sure_build::SureReport},
    scenario::Problem,
};
use serde::de::DeserializeOwned;
use serde_json::Value;
use std::{collections::BTreeMap, rc::Rc};

/// What can be asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// The planner's: every floor on offer.
    Floors,
    /// The planner's: how many of many nights hold on the chosen floor. Its request has a `scenario` of its own.
    FloorNights,
    /// How many of many nights hold.
    Nights,
    /// The cook's: how many of many nights the plan's feeding holds. Its request has a `scenario` of its own.
    PlanNights,
    /// How sure the verdict is.
    Sure,
    /// The planner's: how sure it is on the chosen floor. Its request has a `scenario` of its own.
    FloorSure,
    /// How many covers it carries, and the ways out.
    Reach,
    /// The cook's: when to light and how often a log.
    Fire,
    /// The cook's: the rest of the evening after a reading. Its request's other fields are `at`, `floor_c`, `fed`.
    Rest,
    /// The cook's: the plan on rough nights. Its request's other field is `rough_nights`.
    Rough,
    /// The cook's: the first firing of a new or damp oven. Its request's other fields are `first_firing`, `in_hours`.
    FirstFiring,
}

impl Subject {
    /// The engine's name of the question.
    const fn question(self) -> &'static str {
        match self {
            Self::Floors => "floors",
            Self::FloorNights | Self::PlanNights | Self::Nights => "nights",
            Self::Sure | Self::FloorSure => "sure",
            Self::Reach => "reach",
            Self::Fire | Self::Rest | Self::Rough | Self::FirstFiring => "fire",
        }
    }

    /// Whether it is asked in parts.
    const fn is_long(self) -> bool {
        !matches!(self, Self::Fire | Self::Rest | Self::Rough | Self::FirstFiring)
    }
}

/// How a question stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Stand {
    /// Answers are awaited.
    Running,
    /// The answer is whole.
    Answered,
    /// It was stopped: what was found by then is kept.
    Stopped,
    /// The engine will not answer it as it was asked.
    Mend(Rc<Vec<Problem>>),
    /// The computing broke, with what is known of it.
    Faulted(String),
}

/// An answer, whole or as far as it has come.
#[derive(Clone, Debug)]
pub enum Found {
    /// Every floor.
    Floors(Rc<FloorsReport>),
    /// Many nights.
    Nights(Rc<NightsReport>),
    /// How sure.
    Sure(Rc<SureReport>),
    /// Covers and ways out.
    Reach(Rc<Reached>),
    /// The cook's plan.
    Fire(Rc<FireReport>),
}

impl PartialEq for Found {
    /// The same answer, not merely an equal one: answers are large and never change.
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Floors(a), Self::Floors(b)) => Rc::ptr_eq(a, b),
            (Self::Nights(a), Self::Nights(b)) => Rc::ptr_eq(a, b),
            (Self::Sure(a), Self::Sure(b)) => Rc::ptr_eq(a, b),
            (Self::Reach(a), Self::Reach(b)) => Rc::ptr_eq(a, b),
            (Self::Fire(a), Self::Fire(b)) => Rc::ptr_eq(a, b),
            _ => false,
        }
    }
}

/// Reads a report.
fn read(subject: Subject, report: Value) -> Result<Found, String> {
    fn typed<T: DeserializeOwned>(report: Value) -> Result<Rc<T>, String> {
        hearthload::ask::read::from(&report).map(Rc::new).map_err(|error| error.to_string())
    }
    Ok(match subject {
        Subject::Floors => Found::Floors(typed(report)?),
        Subject::FloorNights | Subject::PlanNights | Subject::Nights => Found::Nights(typed(report)?),
        Subject::Sure | Subject::FloorSure => Found::Sure(typed(report)?),
        Subject::Reach => Found::Reach(typed(report)?),
        Subject::Fire | Subject::Rest | Subject::Rough | Subject::FirstFiring => Found::Fire(typed(report)?),
    })
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

/// All questions of the page.
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

    /// Asks about the page's scenario `doc`; `with` holds the request's other fields, another scenario to ask about among them.
    pub fn ask(&mut self, subject: Subject, doc: &Rc<Value>, with: Value) {
        self.last += 1;
        let old = self.all.remove(&subject);
        self.all.insert(subject, Question::new(subject, self.last, doc, with).after(old));
    }

    /// Goes on with what was stopped or broke: the parts that are there stay.
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

    /// Stops all: another scenario is on the table.
    pub fn stop_all(&mut self) {
        self.all
            .values_mut()
            .filter(|question| question.is_running())
            .for_each(|question| question.stand = Stand::Stopped);
    }

    /// Counts on from others' numbers, so that none is given twice on one page.
    pub fn goes_on_from(&mut self, others: &Self) {
        self.last = self.last.max(others.last);
    }

    /// A worker answered. Answers to what is no longer asked are dropped.
    pub fn hear(&mut self, run: Run, index: usize, answer: Answer<Value>) {
        let asked = self.all.values_mut().find(|question| question.run == run && question.is_running());
        if let Some(question) = asked {
            question.hear(index, answer);
        }
    }
}
