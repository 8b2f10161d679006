//! Owns the pool: some workers that share the parts of long questions, so that the live verdict's own worker stays free.
//!
//! A part lost with its worker is asked once more by another; lost twice, its question is given up and what is found of it stays.

use super::{
    Run,
    client::{Client, Heard, LONG_PATIENCE_MS},
};
use std::{cell::RefCell, collections::VecDeque, rc::Rc};

/// Fewest and most workers. Beyond four a tablet gains nothing and grows warm: our choice.
const WORKERS: [usize; 2] = [2, 4];
/// How often a part may be lost with its worker before its question is given up.
const LOSSES: usize = 2;

/// How many workers suit this machine.
#[must_use]
pub fn workers() -> usize {
    let cores = gloo::utils::window().navigator().hardware_concurrency();
    (cores as usize).clamp(WORKERS[0], WORKERS[1])
}

/// A part of a question.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// The question's number.
    pub run: Run,
    /// Which of its parts.
    pub index: usize,
    /// The engine's request, JSON text.
    pub request: Rc<str>,
}

impl Job {
    const fn part(&self) -> (Run, usize) {
        (self.run, self.index)
    }
}

/// What comes of a part.
#[derive(Clone, Debug, PartialEq)]
pub enum Came {
    /// The engine's answer, JSON text.
    Answer(String),
    /// It was lost with its worker, more than once.
    Lost(String),
}

#[derive(Default)]
struct Inner {
    clients: Vec<Client>,
    /// What each worker is at. These are short lists, searched from end to end.
    at: Vec<(usize, Job)>,
    waiting: VecDeque<Job>,
    /// Parts that were lost with their worker, each time they were.
    losses: Vec<(Run, usize)>,
    /// Parts wanted that were taken on, answered ones among them, so that none is taken twice.
    taken: Vec<(Run, usize)>,
}

/// Workers that share parts. Clones share them.
#[derive(Clone)]
pub struct Pool {
    inner: Rc<RefCell<Inner>>,
    tell: Rc<dyn Fn(Run, usize, Came)>,
}

impl Pool {
    /// A pool of `size` workers whose program lies at `address`; `tell` hears what comes of each part. Nothing starts yet.
    pub fn new(address: &str, size: usize, tell: impl Fn(Run, usize, Came) + 'static) -> Self {
        let pool = Self { inner: Rc::default(), tell: Rc::new(tell) };
        let client = |place: usize| {
            // The pool holds its workers: they must not hold the pool.
            let (inner, tell) = (Rc::downgrade(&pool.inner), pool.tell.clone());
            let hears = move |heard| {
                if let Some(inner) = inner.upgrade() {
                    Self { inner, tell: tell.clone() }.hear(place, heard);
                }
            };
            Client::new(address, hears).patient(LONG_PATIENCE_MS)
        };
        pool.inner.borrow_mut().clients = (0..size.max(1)).map(client).collect();
        pool
    }

    /// Says all that is wanted now, the most urgent first: what is new is begun, what is no longer wanted is ended at once, also
    /// in the middle of its work.
    pub fn want(&self, jobs: Vec<Job>) {
        let wanted: Vec<(Run, usize)> = jobs.iter().map(Job::part).collect();
        let mut ended = Vec::new();
        {
            let mut inner = self.inner.borrow_mut();
            let inner = &mut *inner;
            inner.at.retain(|(place, job)| {
                let stays = wanted.contains(&job.part());
                if !stays {
                    ended.push(inner.clients[*place].clone());
                }
                stays
            });
            inner.losses.retain(|part| wanted.contains(part));
            // What was taken and waits no more is at work, or answered with the page not having heard of it yet.
            let waits: Vec<(Run, usize)> = inner.waiting.iter().map(Job::part).collect();
            inner.taken.retain(|part| wanted.contains(part) && !waits.contains(part));
            inner.waiting = jobs.into_iter().filter(|job| !inner.taken.contains(&job.part())).collect();
            inner.taken.extend(inner.waiting.iter().map(Job::part));
        }
        ended.iter().for_each(Client::stop);
        self.send();
    }

    fn send(&self) {
        loop {
            let next = {
                let mut inner = self.inner.borrow_mut();
                let idle = (0..inner.clients.len()).find(|place| !inner.at.iter().any(|(at, _)| at == place));
                let Some((place, job)) = idle.and_then(|place| Some((place, inner.waiting.pop_front()?))) else {
                    return;
                };
                inner.at.push((place, job.clone()));
                (inner.clients[place].clone(), job)
            };
            // Outside the borrow: a worker that cannot start is heard of at once.
            next.0.ask(next.1.run, "part", next.1.request.to_string());
        }
    }

    fn hear(&self, place: usize, heard: Heard) {
        let job = {
            let mut inner = self.inner.borrow_mut();
            let Some(at) = inner.at.iter().position(|(at, _)| *at == place) else { return };
            inner.at.swap_remove(at).1
        };
        let part = job.part();
        let came = match heard {
            Heard::Answer { text, .. } => Some(Came::Answer(text)),
            Heard::Lost(why) => {
                let mut inner = self.inner.borrow_mut();
                inner.losses.push(part);
                if inner.losses.iter().filter(|lost| **lost == part).count() < LOSSES {
                    inner.waiting.push_front(job);
                    None
                } else {
                    inner.waiting.retain(|other| other.run != part.0);
                    Some(Came::Lost(why))
                }
            }
        };
        self.send();
        if let Some(came) = came {
            (self.tell)(part.0, part.1, came);
        }
    }
}
