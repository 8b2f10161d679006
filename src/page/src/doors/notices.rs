//! Owns what the answer warns of, and the cautions, each act's in one box.

use crate::{
    form::Desk,
    parts::notice,
    words::{act_words, words},
};
use hearthload::report::{CarryReport, Caution};
use yew::prelude::*;

/// Acts whose cautions stand in the form, beside the fields that plan them.
const IN_FORM: &[&str] = &["light", "feed", "dish", "carrier", "assist"];

/// The warnings about the plan.
pub(crate) fn warnings(report: &CarryReport) -> Html {
    html! {
        <div class="notices">
            for says in report.warnings.iter() { <div key={says.clone()}>{ notice::warning(says) }</div> }
            if report.warnings.is_empty() { <p class="how">{ words().no_warnings }</p> }
        </div>
    }
}

/// One box for each act, in the order of the answer.
fn boxes(all: &[Caution], wanted: impl Fn(&str) -> bool) -> Html {
    let mut acts: Vec<&str> = Vec::new();
    for caution in all {
        if wanted(&caution.act) && !acts.contains(&caution.act.as_str()) {
            acts.push(&caution.act);
        }
    }
    let says = |act: &str| all.iter().filter(|one| one.act == act).map(|one| one.says.as_str()).collect::<Vec<_>>();
    html! {
        for act in acts {
            <div key={act.to_owned()} class={classes!(IN_FORM.contains(&act).then_some("in-form"))}>{ notice::caution(act_words(act), &says(act)) }</div>
        }
    }
}

/// All cautions. Where the form stands open beside the answer, those it shows itself are not said twice.
pub(crate) fn cautions(report: &CarryReport) -> Html {
    html! { <div class="notices care">{ boxes(&report.cautions, |_| true) }</div> }
}

/// The cautions of some acts, from the last good answer.
pub(crate) fn cautions_at(desk: &Desk, acts: &[&str]) -> Html {
    let all = desk.answer.as_ref().map_or(&[][..], |answer| &answer.report.cautions);
    html! { <div class="notices">{ boxes(all, |act| acts.contains(&act)) }</div> }
}
