//! `cargo bench -p hearthload-bench`: what a column, a day, a plan, a ladder and a share of a thousand nights take.

use criterion::measurement::{Measurement, ValueFormatter, WallTime};
use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use hearthload_bench::clock::Clock;
use hearthload_bench::column::Floor;
use hearthload_bench::questions::{NIGHTS_PLAYED, answered, cadence, day, ladder, nights};
use std::hint::black_box;
use std::time::Duration;

/// Minutes of the column problem in one pass: enough to swamp the first factors.
const MINUTES: usize = 30;

/// Processor time in the place of the wall's; told like it.
struct Processor(WallTime);

impl Measurement for Processor {
    type Intermediate = Clock;
    type Value = Duration;

    fn start(&self) -> Clock {
        Clock::start()
    }

    fn end(&self, began: Clock) -> Duration {
        began.elapsed()
    }

    fn add(&self, a: &Duration, b: &Duration) -> Duration {
        *a + *b
    }

    fn zero(&self) -> Duration {
        Duration::ZERO
    }

    fn to_f64(&self, value: &Duration) -> f64 {
        self.0.to_f64(value)
    }

    fn formatter(&self) -> &dyn ValueFormatter {
        self.0.formatter()
    }
}

fn column(c: &mut Criterion<Processor>) {
    let mut group = c.benchmark_group("column");
    let begun = Floor::default();
    group.throughput(Throughput::Elements(begun.node_updates(MINUTES) as u64));
    group.bench_function("half_an_hour", |b| {
        let mut floor = begun.clone();
        b.iter(|| {
            floor.run(black_box(MINUTES));
            floor.left_j
        });
    });
    group.finish();
}

/// Times a question by the engine's own door.
fn ask(c: &mut Criterion<Processor>, name: &str, request: &str, samples: usize) {
    let mut group = c.benchmark_group("answer");
    group.sample_size(samples).measurement_time(Duration::from_secs(5)).warm_up_time(Duration::from_millis(500));
    group.sampling_mode(criterion::SamplingMode::Flat);
    group.bench_function(name, |b| b.iter(|| answered(black_box(request)).expect("an answer")));
    group.finish();
}

fn answers(c: &mut Criterion<Processor>) {
    ask(c, "day", &day(), 20);
    // A fiftieth of the thousand: each night is one run of its own, so the whole takes fifty times as long on one core.
    ask(c, &format!("nights_{NIGHTS_PLAYED}"), &nights(NIGHTS_PLAYED), 10);
    ask(c, "cadence", &cadence(), 10);
    ask(c, "ladder", &ladder(), 10);
}

criterion_group! {
    name = all;
    config = Criterion::default().with_measurement(Processor(WallTime));
    targets = column, answers
}
criterion_main!(all);
