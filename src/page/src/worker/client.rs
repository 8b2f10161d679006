//! Owns the page's side of the worker: start it, keep at most one question in it, notice when it is lost, start it again.

use super::{Asked, READY, Run, Told};
use gloo::{events::EventListener, timers::callback::Timeout};
use hearthload::ask::PROTOCOL;
use std::{cell::RefCell, rc::Rc};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{ErrorEvent, Event, MessageEvent, Worker, WorkerOptions, WorkerType};

/// How long one answer may take before the worker counts as lost, ms. A day takes some tens of ms; a slow tablet is allowed much.
const PATIENCE_MS: u32 = 30_000;
/// The same where one answer is a search over many days.
pub const LONG_PATIENCE_MS: u32 = 300_000;

/// What comes out of the worker.
#[derive(Clone, Debug, PartialEq)]
pub enum Heard {
    /// An answer, JSON text.
    Answer {
        /// To which question.
        run: Run,
        /// The engine's answer.
        text: String,
    },
    /// The worker broke, with what is known of it.
    Lost(String),
}

struct Ask {
    run: Run,
    question: &'static str,
    request: String,
}

#[derive(Default)]
struct Inner {
    worker: Option<Worker>,
    ears: Vec<EventListener>,
    ready: bool,
    flying: Option<Run>,
    waiting: Vec<Ask>,
    watch: Option<Timeout>,
}

/// A worker that computes. Clones share it.
#[derive(Clone)]
pub struct Client {
    inner: Rc<RefCell<Inner>>,
    tell: Rc<dyn Fn(Heard)>,
    address: Rc<str>,
    patience_ms: u32,
}

impl PartialEq for Client {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.inner, &other.inner)
    }
}

impl Client {
    /// A client whose worker lies at `address` (relative to the page); `tell` hears all that comes of it. Nothing starts yet.
    pub fn new(address: &str, tell: impl Fn(Heard) + 'static) -> Self {
        Self { inner: Rc::default(), tell: Rc::new(tell), address: address.into(), patience_ms: PATIENCE_MS }
    }

    /// The same, for questions that may take longer than usual.
    #[must_use]
    pub fn patient(self, patience_ms: u32) -> Self {
        Self { patience_ms, ..self }
    }

    /// Asks. A question of the same kind that still waits is replaced: only the newest matters.
    pub fn ask(&self, run: Run, question: &'static str, request: String) {
        {
            let mut inner = self.inner.borrow_mut();
            inner.waiting.retain(|ask| ask.question != question);
            inner.waiting.push(Ask { run, question, request });
        }
        if self.inner.borrow().worker.is_none() {
            self.start();
        }
        self.send();
    }

    /// Ends the worker, whatever it is doing. The next question starts a new one.
    pub fn stop(&self) {
        // The listeners go with the worker, and this may be called by one of them: they are dropped once it has returned.
        let old = std::mem::take(&mut *self.inner.borrow_mut());
        if let Some(worker) = &old.worker {
            worker.terminate();
        }
        Timeout::new(0, move || drop(old)).forget();
    }

    fn start(&self) {
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        match Worker::new_with_options(&self.address, &options) {
            Ok(worker) => {
                let ears =
                    vec![self.ear(&worker, "message"), self.ear(&worker, "error"), self.ear(&worker, "messageerror")];
                let mut inner = self.inner.borrow_mut();
                inner.worker = Some(worker);
                inner.ears = ears;
                drop(inner);
                self.watch();
            }
            Err(error) => self.lost(&words_of(&error)),
        }
    }

    fn ear(&self, worker: &Worker, kind: &'static str) -> EventListener {
        let me = self.clone();
        EventListener::new(worker, kind, move |event| me.hear(event))
    }

    fn hear(&self, event: &Event) {
        if let Some(text) = event.dyn_ref::<MessageEvent>().and_then(|message| message.data().as_string()) {
            self.heard(&text);
        } else if let Some(error) = event.dyn_ref::<ErrorEvent>() {
            self.lost(&error.message());
        } else {
            self.lost(&event.type_());
        }
    }

    fn heard(&self, text: &str) {
        let told = match serde_json::from_str::<Told<'_>>(text) {
            Ok(told) if told.protocol == PROTOCOL => told,
            Ok(told) => return self.lost(&format!("worker speaks protocol {}, page {PROTOCOL}", told.protocol)),
            Err(error) => return self.lost(&error.to_string()),
        };
        {
            let mut inner = self.inner.borrow_mut();
            inner.watch = None;
            inner.ready = true;
            inner.flying = None;
        }
        // The next question leaves first: the worker computes while the page draws.
        self.send();
        if told.run != READY {
            (self.tell)(Heard::Answer { run: told.run, text: told.answer.get().to_owned() });
        }
    }

    fn send(&self) {
        let sent = {
            let mut inner = self.inner.borrow_mut();
            if !inner.ready || inner.flying.is_some() || inner.waiting.is_empty() {
                return;
            }
            let ask = inner.waiting.remove(0);
            inner.flying = Some(ask.run);
            let message = serde_json::to_string(&Asked { protocol: PROTOCOL, run: ask.run, request: ask.request });
            match (message, &inner.worker) {
                (Ok(message), Some(worker)) => worker.post_message(&JsValue::from_str(&message)),
                _ => Ok(()),
            }
        };
        match sent {
            Ok(()) => self.watch(),
            Err(error) => self.lost(&words_of(&error)),
        }
    }

    fn watch(&self) {
        let (me, seconds) = (self.clone(), self.patience_ms / 1000);
        let watch = Timeout::new(self.patience_ms, move || me.lost(&format!("no answer within {seconds} s")));
        self.inner.borrow_mut().watch = Some(watch);
    }

    fn lost(&self, why: &str) {
        self.stop();
        (self.tell)(Heard::Lost(why.to_owned()));
    }
}

fn words_of(error: &JsValue) -> String {
    error
        .as_string()
        .or_else(|| error.dyn_ref::<js_sys::Error>().map(|error| String::from(error.message())))
        .unwrap_or_default()
}
