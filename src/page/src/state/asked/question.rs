//! Owns one question: what the engine was asked, what it still wants worked out, and the answer as far as it has come.
//!
//! A long question goes round by round, as the engine's `in_parts` has it: the parts there are so far give a report and what is
//! wanted besides; each want gives a part. The page understands neither wants nor parts, it only carries them.

use super::{Found, Stand, Subject, read};
use crate::worker::{Answer, Run};
use serde_json::{Map, Value, json};
use std::rc::Rc;

/// Requests for adding up have numbers from here on: far beyond every part.
const SUMS_FROM: usize = 1 << 24;

/// Something the engine wants worked out.
#[derive(Clone, Debug, PartialEq)]
struct Want {
    /// As the engine said it.
    want: Rc<Value>,
    /// Whether the part is there.
    met: bool,
}

/// A question and its answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// What it is about.
    pub subject: Subject,
    /// Its number: a question asked anew has another.
    pub run: Run,
    /// The page's scenario when it was asked.
    pub of: Rc<Value>,
    /// How it stands.
    pub stand: Stand,
    /// The newest answer; while a new one runs, the old one until the new one has something to say.
    pub found: Option<Found>,
    /// The page's scenario the answer belongs to.
    pub found_of: Rc<Value>,
    /// The request's fields but for the parts.
    request: Map<String, Value>,
    wants: Vec<Want>,
    parts: Vec<Rc<Value>>,
    /// With how many parts the newest report was added up; nothing before the first.
    added: Option<usize>,
    /// Parts in all, by the engine's newest word.
    of_all: usize,
}

impl Question {
    /// A question about the page's scenario `doc`; `with` holds the request's other fields, another scenario to ask about among
    /// them.
    pub(super) fn new(subject: Subject, run: Run, doc: &Rc<Value>, with: Value) -> Self {
        let mut request = Map::new();
        request.insert("question".to_owned(), Value::from(subject.question()));
        request.insert("scenario".to_owned(), (**doc).clone());
        if let Value::Object(with) = with {
            request.extend(with);
        }
        Self {
            subject,
            run,
            of: doc.clone(),
            stand: Stand::Running,
            found: None,
            found_of: doc.clone(),
            request,
            wants: Vec::new(),
            parts: Vec::new(),
            added: None,
            of_all: 0,
        }
    }

    /// Keeps an older answer in sight until this question has one.
    pub(super) fn after(self, old: Option<Self>) -> Self {
        match old {
            Some(old) if self.found.is_none() => Self { found: old.found, found_of: old.found_of, ..self },
            _ => self,
        }
    }

    /// Whether answers are awaited.
    #[must_use]
    pub fn is_running(&self) -> bool {
        self.stand == Stand::Running
    }

    /// Whether it is answered whole or not at all: nothing is known of how far it is, and stopped it leaves nothing.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        !self.subject.is_long()
    }

    /// A field of the request but for the scenario: what else was asked for.
    #[must_use]
    pub fn asked_with(&self, field: &str) -> Option<&Value> {
        self.request.get(field)
    }

    /// How far it has come, 0 to 1.
    #[must_use]
    pub fn share(&self) -> f64 {
        if self.stand == Stand::Answered {
            return 1.0;
        }
        // Nothing is known of a question before its first word: a sliver shows that it was heard.
        (self.parts.len() as f64 / self.of_all.max(1) as f64).clamp(0.0, 1.0)
    }

    /// Whether the shown answer, or the one awaited, is to another scenario than this.
    #[must_use]
    pub fn is_stale(&self, doc: &Rc<Value>) -> bool {
        let of = if self.is_running() { &self.of } else { &self.found_of };
        !Rc::ptr_eq(of, doc) && !super::same(of, doc)
    }

    /// Whether an answer stands there that is another scenario's.
    #[must_use]
    pub fn shows_old(&self, doc: &Rc<Value>) -> bool {
        self.found.is_some() && !Rc::ptr_eq(&self.found_of, doc) && !super::same(&self.found_of, doc)
    }

    /// Why there is no answer to this scenario, where it was asked and none came: a fault of the computing, or what is to be mended.
    #[must_use]
    pub fn refused(&self, doc: &Rc<Value>) -> Option<&Stand> {
        let is_about = Rc::ptr_eq(&self.of, doc) || super::same(&self.of, doc);
        Some(&self.stand).filter(|stand| is_about && matches!(stand, Stand::Faulted(_) | Stand::Mend(_)))
    }

    /// What goes to the workers now, with its number: the adding up of what is there first, then the parts that are wanted.
    #[must_use]
    pub fn jobs(&self) -> Vec<(usize, Ask<'_>)> {
        if !self.is_running() {
            return Vec::new();
        }
        if !self.subject.is_long() {
            return vec![(0, Ask { question: self, what: What::Whole })];
        }
        let wants = self.wants.iter().enumerate().filter(|(_, want)| !want.met);
        let wants = wants.map(|(index, want)| (index, Ask { question: self, what: What::Part(&want.want) }));
        let sum = (self.added != Some(self.parts.len()))
            .then(|| (SUMS_FROM + self.added.map_or(0, |parts| parts + 1), Ask { question: self, what: What::Sum }));
        sum.into_iter().chain(wants).collect()
    }

    /// Takes an answer in.
    pub(super) fn hear(&mut self, index: usize, answer: Answer<Value>) {
        let taken = match answer {
            Answer::Ok(ok) if !self.subject.is_long() => self.show(ok).map(|()| self.stand = Stand::Answered),
            Answer::Ok(ok) if index >= SUMS_FROM => self.add_up(ok),
            Answer::Ok(ok) => self.take_part(index, ok),
            Answer::Problems(problems) => {
                self.stand = Stand::Mend(Rc::new(problems));
                Ok(())
            }
            Answer::Fault(why) => Err(why),
        };
        if let Err(why) = taken {
            self.stand = Stand::Faulted(why);
        }
    }

    fn show(&mut self, report: Value) -> Result<(), String> {
        self.found = Some(read(self.subject, report)?);
        self.found_of = self.of.clone();
        Ok(())
    }

    fn take_part(&mut self, index: usize, mut ok: Value) -> Result<(), String> {
        let Some(want) = self.wants.get_mut(index).filter(|want| !want.met) else { return Ok(()) };
        want.met = true;
        self.parts.push(Rc::new(ok["part"].take()));
        Ok(())
    }

    fn add_up(&mut self, mut ok: Value) -> Result<(), String> {
        let done = ok["done"].as_u64().unwrap_or_default() as usize;
        if let Value::Array(wants) = ok["wants"].take() {
            for want in wants {
                if !self.wants.iter().any(|known| *known.want == want) {
                    self.wants.push(Want { want: Rc::new(want), met: false });
                }
            }
        }
        self.of_all = self.wants.len();
        self.added = Some(done);
        // A report of nothing at all says less than an older answer that still stands there.
        let report = ok["report"].take();
        if !report.is_null() && done > 0 {
            self.show(report)?;
        }
        if done == self.parts.len() && self.wants.iter().all(|want| want.met) {
            self.stand = Stand::Answered;
        }
        Ok(())
    }
}

/// What is asked of the engine.
enum What<'a> {
    Whole,
    Sum,
    Part(&'a Value),
}

/// One request of a question, written down when it is sent.
pub struct Ask<'a> {
    question: &'a Question,
    what: What<'a>,
}

impl Ask<'_> {
    /// The request as JSON text.
    #[must_use]
    pub fn write(&self) -> String {
        let mut request = self.question.request.clone();
        match self.what {
            What::Whole => {}
            What::Sum => {
                let parts: Vec<&Value> = self.question.parts.iter().map(|part| &**part).collect();
                request.insert("parts".to_owned(), json!(parts));
            }
            What::Part(want) => {
                request.insert("part".to_owned(), want.clone());
            }
        }
        Value::Object(request).to_string()
    }
}
