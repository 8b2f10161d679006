//! Owns the clock: processor time of this process, so that what else runs on the machine does not count. All that is timed by it runs
//! on one core.

use cpu_time::ProcessTime;
use std::time::Duration;

/// A clock that was started.
#[derive(Clone, Copy, Debug)]
pub struct Clock(ProcessTime);

impl Clock {
    /// Starts one.
    #[must_use]
    pub fn start() -> Self {
        Self(ProcessTime::now())
    }

    /// Processor time since.
    #[must_use]
    pub fn elapsed(&self) -> Duration {
        self.0.elapsed()
    }

    /// The same, s.
    #[must_use]
    pub fn seconds(&self) -> f64 {
        self.elapsed().as_secs_f64()
    }
}
