//! Owns what the page knows and how it changes: pure, so that it can be tested without a browser.

mod action;
pub mod asked;
pub mod draft;
pub mod entry;
mod hours;
pub mod kept;
mod news;
pub mod planned;
pub mod tabs;
pub mod tonight;

use crate::worker::{Answer, Run};
pub use action::Action;
use asked::Questions;
use hearthload::{
    report::CarryReport,
    scenario::{self, Assumed, Problem, Scenario},
};
use kept::{Kept, One};
use serde_json::Value;
use std::{
    collections::{BTreeMap, BTreeSet},
    rc::Rc,
};
use tabs::News;
use yew::Reducible;

/// How many steps back are kept.
const STEPS_KEPT: usize = 200;

/// One change that can be taken back.
#[derive(Clone, Debug, PartialEq)]
enum Step {
    /// The open scenario was changed.
    Changed {
        before: Rc<Value>,
        /// The path being typed into, so that the letters of one number make one step.
        typed: Option<String>,
    },
    /// A kept scenario was taken away from this place; whether it was the open one.
    Gone(usize, One, bool),
    /// A scenario was made of another: its number, and that of the other.
    Made(u32, u32),
}

/// How the computing stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Computing {
    /// An answer is awaited.
    Running,
    /// The shown answer is that of the form.
    Still,
    /// The scenario has problems: the shown answer is the last good one.
    Mend,
    /// The computing broke, with what is known of it.
    Stopped(String),
}

/// Everything the page knows.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// The scenario, exactly as typed.
    pub doc: Rc<Value>,
    /// Number of the newest question; rises with each change.
    pub run: Run,
    /// How the computing stands.
    pub computing: Computing,
    /// The last good answer.
    pub answer: Option<Answered>,
    /// What else was asked, each with how it stands.
    pub asked: Questions,
    /// What is wrong with the scenario, by the engine's word.
    pub problems: Rc<Vec<Problem>>,
    /// The answer everything is compared with, and the name of its scenario.
    pub pinned: Option<(String, Answered)>,
    /// The values nobody gave, by path, as they were when the scenario was last right.
    pub assumed: Rc<BTreeMap<String, Assumed>>,
    /// The part of the form that stands open where there is room for one only.
    pub open_group: Option<String>,
    /// The dish whose details stand open.
    pub open_dish: Option<usize>,
    /// What was last done, where it can be taken back with the button beside it.
    pub done: Option<String>,
    /// Something a file or a link did wrong, in words.
    pub refused: Option<String>,
    /// Fields whose assumed value was replaced since the page opened.
    pub replaced: BTreeSet<String>,
    /// The scenarios kept in this browser.
    pub kept: Kept,
    /// Rises whenever the storage is to be looked at though nothing was changed here: another tab may have been there.
    pub look: u32,
    steps: Vec<Step>,
    /// The covers as they were typed, while the hours of the service are changed.
    covers_typed: Option<hours::Typed>,
    /// Whose questions `asked` are: a kept scenario's number. Those of the others lie here.
    asked_id: u32,
    shelved: BTreeMap<u32, Questions>,
    /// The scenario as the engine reads it, where it is right.
    read: Option<Rc<Scenario>>,
}

/// An answer and what it was computed for.
#[derive(Clone, Debug)]
pub struct Answered {
    /// The answer.
    pub report: Rc<CarryReport>,
    /// The scenario it belongs to.
    pub scenario: Rc<Scenario>,
}

impl PartialEq for Answered {
    /// The same answer, not merely an equal one: answers are large and never change.
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.report, &other.report) && Rc::ptr_eq(&self.scenario, &other.scenario)
    }
}

impl State {
    /// A page that opens on what is kept.
    #[must_use]
    pub fn new(kept: Kept) -> Self {
        let mut state = Self {
            doc: kept.open_doc(),
            run: 0,
            computing: Computing::Running,
            answer: None,
            asked: Questions::default(),
            pinned: None,
            problems: Rc::default(),
            assumed: Rc::default(),
            open_group: None,
            open_dish: None,
            read: None,
            done: None,
            refused: None,
            replaced: BTreeSet::new(),
            asked_id: kept.open_id(),
            shelved: BTreeMap::new(),
            kept,
            look: 0,
            steps: Vec::new(),
            covers_typed: None,
        };
        state.ask();
        state
    }

    /// The same, told what was found amiss with it.
    #[must_use]
    pub fn opened(kept: Kept, news: Vec<News>) -> Self {
        let mut state = Self::new(kept);
        state.take_news(news);
        state
    }

    /// Whether there is anything to take back.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        !self.steps.is_empty()
    }

    /// What is wrong with one field, in words.
    #[must_use]
    pub fn problem_at(&self, path: &str) -> Option<&str> {
        self.problems.iter().find(|problem| problem.field == path).map(|problem| problem.says.as_str())
    }

    fn change(&mut self, typed: Option<String>, says: String, change: impl FnOnce(&mut Value)) {
        let mut doc = (*self.doc).clone();
        change(&mut doc);
        if doc == *self.doc {
            return;
        }
        self.step(typed);
        self.done = Some(says).filter(|says| !says.is_empty());
        self.take_up(Rc::new(doc));
    }

    /// Marks the way back to the scenario as it is; what is typed on in the same place makes no new mark.
    fn step(&mut self, typed: Option<String>) {
        let goes_on =
            typed.is_some() && matches!(self.steps.last(), Some(Step::Changed { typed: last, .. }) if *last == typed);
        if !goes_on {
            self.steps.push(Step::Changed { before: self.doc.clone(), typed });
            let over = self.steps.len().saturating_sub(STEPS_KEPT);
            self.steps.drain(..over);
        }
    }

    fn take_up(&mut self, doc: Rc<Value>) {
        self.kept.keep(doc.clone());
        self.doc = doc;
        self.ask();
    }

    /// Reads the scenario; a right one makes the next question, a wrong one says what is to be mended.
    fn ask(&mut self) {
        self.run += 1;
        match scenario::resolve(&self.doc) {
            Ok(resolved) => {
                // Put in one by one: collecting them would bring another sort along.
                let mut assumed = BTreeMap::new();
                assumed.extend(resolved.assumed.into_iter().map(|taken| (taken.field.clone(), taken)));
                self.assumed = Rc::new(assumed);
                self.read = Some(Rc::new(resolved.scenario));
                self.problems = Rc::default();
                self.computing = Computing::Running;
            }
            Err(problems) => self.mend(problems),
        }
    }

    fn mend(&mut self, problems: Vec<Problem>) {
        self.read = None;
        self.problems = Rc::new(problems);
        self.computing = Computing::Mend;
    }

    fn undo(&mut self) {
        self.done = None;
        match self.steps.pop() {
            None => {}
            Some(Step::Changed { before, typed }) => {
                if let Some(path) = typed.filter(|path| draft::get(&before, path).is_none()) {
                    self.replaced.remove(&path);
                }
                if draft::list(&before, "menu").len() != draft::list(&self.doc, "menu").len() {
                    self.open_dish = None;
                }
                self.take_up(before);
            }
            Some(Step::Made(made, from)) => {
                self.kept.open(from);
                self.kept.forget(made);
                self.switch();
            }
            Some(Step::Gone(place, one, was_open)) => {
                let id = one.id;
                self.kept.put_back(place, one);
                if was_open && self.kept.open(id) {
                    self.switch();
                }
            }
        }
    }

    fn hear(&mut self, run: Run, answer: Answer<Box<CarryReport>>) {
        if run != self.run {
            return;
        }
        match (answer, &self.read) {
            (Answer::Ok(report), Some(scenario)) => {
                self.answer = Some(Answered { report: Rc::from(report), scenario: scenario.clone() });
                self.computing = Computing::Still;
            }
            // A scenario that is not right is never asked about: an answer to it belongs to nothing on this page.
            (Answer::Ok(_), None) => {}
            (Answer::Problems(problems), _) => self.mend(problems),
            (Answer::Fault(says), _) => self.computing = Computing::Stopped(says),
        }
    }

    fn pin(&mut self) {
        let name = draft::text(&self.doc, "name").to_owned();
        self.pinned = match self.pinned {
            Some(_) => None,
            None => self.answer.clone().map(|answer| (name, answer)),
        };
    }

    /// Opens the part of the form in which a field stands.
    fn show(&mut self, path: &str) {
        self.open_group = Some(group_of(path).to_owned());
        if let Some(rest) = path.strip_prefix("menu[") {
            self.open_dish = rest.split(']').next().and_then(|index| index.parse().ok());
        }
    }

    /// Takes a kept scenario away, unless it is the last.
    fn forget(&mut self, id: u32, says: String) {
        let was_open = self.kept.open_id() == id;
        if let Some((place, one)) = self.kept.forget(id) {
            if was_open {
                self.switch();
            }
            self.steps.push(Step::Gone(place, one, was_open));
            self.done = Some(says);
        }
    }

    /// Another scenario is on the table: nothing of the old one may be shown as its own.
    fn switch(&mut self) {
        self.doc = self.kept.open_doc();
        self.steps.clear();
        self.replaced.clear();
        self.answer = None;
        // The answers of the other scenario wait for it: a ladder takes its time.
        let id = self.kept.open_id();
        let mut asked = self.shelved.remove(&id).unwrap_or_default();
        asked.goes_on_from(&self.asked);
        let mut left = std::mem::replace(&mut self.asked, asked);
        left.stop_all();
        self.shelved.insert(self.asked_id, left);
        self.asked_id = id;
        self.assumed = Rc::default();
        self.open_dish = None;
        self.done = None;
        self.refused = None;
        self.ask();
    }
}

/// The part of the form in which a field stands.
#[must_use]
pub fn group_of(path: &str) -> &str {
    if path.starts_with("planning.floor_") {
        return "floors";
    }
    match path.split(['.', '[']).next().unwrap_or_default() {
        "start" => "oven",
        "planning" if path.ends_with("assist_rated_kw") => "burner",
        group => group,
    }
}

/// Whether a path is that of a whole dish.
fn is_dish(path: &str) -> bool {
    path.starts_with("menu[") && path.ends_with(']') && path.matches('[').count() == 1
}

impl Reducible for State {
    type Action = Action;

    fn reduce(self: Rc<Self>, action: Action) -> Rc<Self> {
        let mut next = (*self).clone();
        match action {
            Action::Set(path, value) => next.type_in(path, value),
            Action::Insert(path, at, value, says) => {
                next.open_dish = if path == "menu" { Some(at) } else { next.open_dish };
                next.change(None, says, |doc| draft::insert(doc, &path, at, value));
            }
            Action::Take(path, says) => {
                // Which dish stands open is told by its place: a change of places closes it.
                next.open_dish = next.open_dish.filter(|_| !is_dish(&path));
                next.change(None, says, |doc| drop(draft::take(doc, &path)));
            }
            Action::Shift(path, from, to, says) => {
                next.open_dish = next.open_dish.filter(|_| path != "menu");
                next.change(None, says, |doc| draft::shift(doc, &path, from, to));
            }
            Action::Apply(edits, says) => next.change(None, says, |doc| {
                for (path, value) in edits {
                    draft::set(doc, &path, value);
                }
            }),
            Action::Show(path) => next.show(&path),
            Action::Turn(group) => {
                next.open_group = Some(group).filter(|group| next.open_group.as_ref() != Some(group))
            }
            Action::TurnDish(dish) => next.open_dish = Some(dish).filter(|_| next.open_dish != Some(dish)),
            Action::Pin => next.pin(),
            Action::Undo => next.undo(),
            Action::Heard(run, answer) => next.hear(run, answer),
            Action::Lost(why) => next.computing = Computing::Stopped(why),
            Action::Ask(subject, with) => {
                // A scenario that is not right is never asked about.
                if next.read.is_some() {
                    next.asked.ask(subject, &next.doc, with);
                }
            }
            Action::Stop(subject) => next.asked.stop(subject),
            Action::GoOn(subject) => next.asked.go_on(subject),
            Action::Part(run, index, answer) => next.asked.hear(run, index, answer),
            Action::Again => next.ask(),
            Action::Open(id) => {
                if next.kept.open(id) {
                    next.switch();
                }
            }
            Action::Copy(name) => {
                next.kept.copy(name);
                next.switch();
            }
            Action::Forget(id, says) => next.forget(id, says),
            Action::Look => next.look += 1,
            Action::News(news) => next.take_news(news),
            Action::Retell(pairs) => next.retell(pairs),
            Action::Bring(doc, fallback) => {
                next.kept.bring(doc, &fallback);
                next.switch();
            }
            Action::Spawn(doc, says) => {
                let from = next.kept.open_id();
                next.kept.bring(doc, "");
                next.switch();
                next.steps.push(Step::Made(next.kept.open_id(), from));
                next.done = Some(says);
            }
            Action::Refuse(says) => next.refused = Some(says),
            Action::Dismiss => next.refused = None,
        }
        Rc::new(next)
    }
}
