//! Owns how sure the verdict is: how often it stands with the unknowns drawn at random, its bands, and what to measure first.

use super::{Found, progress::Progress};
use crate::{
    figures as said,
    form::Desk,
    state::asked::Subject,
    units::units,
    words::{fill, print, words},
};
use hearthload::report::sure_build::{Band, SureReport};
use serde_json::{Value, json};
use yew::prelude::*;

/// The panel: about the page's own scenario, or about another, named.
pub(crate) fn sure(desk: &Desk, subject: Subject, other: Option<(&str, Value)>) -> Html {
    let say = words();
    let about = other.as_ref().map(|(about, _)| (*about).to_owned());
    let with = other.map_or(Value::Null, |(about, scenario)| json!({ "about": about, "scenario": scenario }));
    let question = desk.asked.get(subject);
    let is_other = question.is_some_and(|question| question.asked_with("about") != with.get("about"));
    let report = question.and_then(|question| match &question.found {
        Some(Found::Sure(report)) => Some(report.clone()),
        _ => None,
    });
    let share = question.map_or(0.0, |question| question.share());
    let says = fill(say.sure_so_far, &[&said::percent(share)]);
    html! {
        <section class="slab sure" aria-labelledby="sure-title">
            <h2 id="sure-title">{ report.as_ref().map_or_else(|| say.sure_title.to_owned(), |report| finding(report)) }</h2>
            <p class="how">{ about.map(|about| format!("{about}. ")).unwrap_or_default() }{ say.sure_how }</p>
            { Progress::of(desk, subject, says, say.sure_ask).with(with, is_other).show() }
            { report.as_ref().map(|report| shown(report)).unwrap_or_default() }
        </section>
    }
}

fn finding(report: &SureReport) -> String {
    let say = words();
    let stands = (report.verdict_stands * f64::from(report.draws)).round();
    let [low, high] = report.stands_between.map(said::percent);
    fill(
        if report.carries { say.sure_carries } else { say.sure_gives },
        &[&said::number(stands, 0), &report.draws.to_string(), &low, &high],
    )
}

fn shown(report: &SureReport) -> Html {
    let say = words();
    let between =
        |band: &Band, write: fn(f64) -> String| fill(say.sure_between, &[&write(band.low), &write(band.high)]);
    let all = [
        (say.fact_lowest, said::degrees(report.lowest_c.best), between(&report.lowest_c, said::degrees)),
        (say.sure_start, said::degrees(report.start_c.best), between(&report.start_c, said::degrees)),
        (say.fact_wait, said::duration(report.wait_p90_s.best), between(&report.wait_p90_s, said::duration)),
        (say.fact_bake, said::duration(report.bake_s.best), between(&report.bake_s, said::duration)),
        (say.fact_wood, said::kg(report.wood_kg.best), between(&report.wood_kg, said::kg)),
        (say.sure_morning, said::degrees(report.morning_c.best), between(&report.morning_c, said::degrees)),
    ];
    html! {
        <>
            <dl class="facts three">
                for (name, value, when) in all {
                    <div key={name}><dt>{ name }</dt><dd><strong>{ value }</strong><span>{ when }</span></dd></div>
                }
            </dl>
            <p><strong>{ fill(say.sure_weakest, &[&print(&report.weakest)]) }</strong>{ " " }{ print(&report.measure_first) }</p>
            <div class="frame" role="region" aria-labelledby="sure-title" tabindex="0">
                <table>
                    <thead><tr>for head in say.sure_heads.split('|') { <th scope="col" key={head}>{ head }</th> }</tr></thead>
                    <tbody>
                        for one in report.unknowns.iter() {
                            <tr key={one.key.clone()}>
                                <th scope="row">{ print(&one.name) }</th>
                                <td>{ units().band([one.lowest_at_low_c, one.lowest_at_high_c]) }</td>
                                <td>{ if one.turns_verdict { say.sure_turns } else { say.sure_stays } }</td>
                                <td class="long">{ print(&one.measure) }<span class="how">{ fill(say.sure_range, &[&print(&one.source)]) }</span></td>
                            </tr>
                        }
                    </tbody>
                </table>
            </div>
        </>
    }
}
