//! Owns what a bar counts, as a sentence beside its cause: the load that stands at the promised share, or the promise that broke.

use super::words::{clock, degrees, duration, number, percent};
use crate::scenario::Dish;
use crate::service::judge::{Breach, Judgement, Pledge, Resource, Use};
use crate::service::night::Ready;
use crate::service::trace::{Bake, Trace};

/// What the bar of a resource counts; `None` where its cause says that already.
pub(super) fn evidence(ready: &Ready, trace: &Trace, judgement: &Judgement, used: &Use) -> Option<String> {
    let broke = judgement.breaches.iter().find(|breach| breach.gives == used.what);
    if let Some(breach) = broke {
        return promise(breach);
    }
    let menu = &ready.scenario.menu;
    match used.what {
        Resource::FloorHeat => counted(ready, trace, used, |b| b.at_load_c, |b| floor_band(&menu[b.dish])),
        Resource::TopHeat => counted(ready, trace, used, |b| b.dome_c, |b| dome_band(&menu[b.dish])),
        _ => None,
    }
}

fn floor_band(dish: &Dish) -> [f64; 2] {
    [dish.floor_min_c, dish.floor_max_c]
}

fn dome_band(dish: &Dish) -> [f64; 2] {
    [dish.dome_min_c, dish.dome_max_c]
}

/// The load the bar is read off: deeper in its band stand only as many as may miss it.
fn counted(
    ready: &Ready,
    trace: &Trace,
    used: &Use,
    at_c: impl Fn(&Bake) -> f64,
    band_c: impl Fn(&Bake) -> [f64; 2],
) -> Option<String> {
    let depth = |b: &&Bake| {
        let [low, high] = band_c(b);
        ((high - at_c(b)) / (high - low).max(1.0)).max(0.0)
    };
    let bake = trace.bakes.iter().find(|b| (depth(b) - used.used).abs() < 1e-12)?;
    let [low, high] = band_c(bake);
    Some(format!(
        "Counted is the load with {} of all above it: {} at {}, {} in a band of {} to {}.",
        percent(ready.scenario.promise.share_in_band),
        ready.scenario.menu[bake.dish].name,
        clock(bake.from_s),
        degrees(at_c(bake)),
        number(low, 0),
        degrees(high),
    ))
}

/// The promise that broke, with its two numbers.
fn promise(breach: &Breach) -> Option<String> {
    match breach.pledge {
        Pledge::WaitP90 if breach.got.is_finite() => Some(format!(
            "Nine orders in ten wait {}, {} is promised.",
            duration(breach.got),
            duration(breach.promised)
        )),
        Pledge::ShareInBand => Some(format!(
            "{} of the loads start in their bands, {} are promised.",
            percent(breach.got),
            percent(breach.promised)
        )),
        Pledge::BakeSlower => {
            Some(format!("The bake slows by {}, {} is allowed.", percent(breach.got), percent(breach.promised)))
        }
        _ => None,
    }
}
