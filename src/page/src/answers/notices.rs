//! Owns what the answer warns of, and the cautions, each beside the act it belongs to.

use crate::{form::Desk, parts::notice, words::words};
use hearthload::report::CarryReport;
use yew::prelude::*;

/// Acts whose cautions stand in the form, beside the fields that plan them; the others stand with the answer.
const IN_FORM: &[&str] = &["light", "feed", "doorway", "first_firing", "close", "ash", "dish", "carrier", "assist"];

/// The warnings about the plan.
pub(crate) fn warnings(report: &CarryReport) -> Html {
    html! {
        <div class="notices">
            for says in report.warnings.iter() { <div key={says.clone()}>{ notice::warning(says) }</div> }
            if report.warnings.is_empty() { <p class="how">{ words().no_warnings }</p> }
        </div>
    }
}

/// Cautions that belong to no act of the form, and those before the match: they are never far from the verdict.
pub(crate) fn cautions(report: &CarryReport) -> Html {
    let here =
        report.cautions.iter().filter(|caution| caution.act == "light" || !IN_FORM.contains(&caution.act.as_str()));
    html! { <div class="notices">for caution in here { <div key={caution.says.clone()}>{ notice::caution(&caution.says) }</div> }</div> }
}

/// The cautions of some acts, from the last good answer.
pub(crate) fn cautions_at(desk: &Desk, acts: &[&str]) -> Html {
    let all = desk.answer.as_ref().map_or(&[][..], |answer| &answer.report.cautions);
    let here = all.iter().filter(|caution| acts.contains(&caution.act.as_str()));
    html! { <div class="notices">for caution in here { <div key={caution.says.clone()}>{ notice::caution(&caution.says) }</div> }</div> }
}
