//! Owns the trust list: every check of the engine against something outside the project, run on this very machine when asked.

use crate::{
    golden::CHECKS,
    words::{fill, translate::tr, words},
    worker::{
        Answer,
        client::{Client, Heard},
    },
};
use hearthload::ask::read::read;
use serde_json::Value;
use std::rc::Rc;
use yew::prelude::*;

/// How far the list has come.
#[derive(Clone, PartialEq)]
enum Shown {
    /// Not asked for.
    Closed,
    /// The engine is checking itself.
    Running,
    /// The checks, as the engine gave them.
    Checks(Rc<Vec<Value>>),
    /// It did not come.
    Failed(String),
}

/// Reads the worker's answer.
fn heard(heard: Heard) -> Shown {
    match heard {
        Heard::Answer { text, .. } => match read::<Answer<Value>>(&text) {
            Ok(Answer::Ok(ok)) => {
                Shown::Checks(Rc::new(ok.get("checks").and_then(Value::as_array).cloned().unwrap_or_default()))
            }
            Ok(Answer::Fault(why)) => Shown::Failed(why),
            Ok(Answer::Problems(_)) => Shown::Failed(String::new()),
            Err(error) => Shown::Failed(error.to_string()),
        },
        Heard::Lost(why) => Shown::Failed(why),
    }
}

/// The part of the page that says how far to trust it.
#[component]
pub(crate) fn Trust() -> Html {
    let say = words();
    let shown = use_state(|| Shown::Closed);
    // A worker of its own: the checks take some seconds, and the evening must not wait for them. It is fetched when asked for.
    let client = use_mut_ref(|| None::<Client>);
    let press = {
        let shown = shown.setter();
        Callback::from(move |_: MouseEvent| {
            shown.set(Shown::Running);
            let hears = shown.clone();
            let worker = Client::new(CHECKS, move |answer| hears.set(heard(answer)));
            worker.ask(1, "proof", r#"{"question":"proof"}"#.to_owned());
            *client.borrow_mut() = Some(worker);
        })
    };
    html! {
        <section class="slab trust" id="trust" aria-labelledby="trust-title">
            <h2 id="trust-title">{ say.trust_title }</h2>
            <p class="how">{ say.trust_how }</p>
            <div aria-live="polite">
                { match &*shown {
                    Shown::Closed => html! { <button type="button" class="quiet" onclick={press}>{ say.trust_show }</button> },
                    Shown::Running => html! { <p>{ say.trust_running }</p> },
                    Shown::Failed(why) => html! { <p>{ fill(say.trust_failed, &[why]) }</p> },
                    Shown::Checks(checks) => table(checks),
                } }
            </div>
        </section>
    }
}

fn table(checks: &[Value]) -> Html {
    let say = words();
    let holding = checks.iter().filter(|c| c["holds"].as_bool() == Some(true)).count();
    let text = |check: &Value, key: &str| check[key].as_str().unwrap_or_default().to_owned();
    let number = |check: &Value, key: &str| check[key].as_f64().map_or_else(String::new, digits);
    html! {
        <>
            <p><strong>{ fill(say.trust_count, &[&holding.to_string(), &checks.len().to_string()]) }</strong></p>
            <div class="same-scroll" tabindex="0" role="region" aria-label={say.trust_title}>
                <table>
                    <thead><tr>for head in say.trust_heads.split('|') { <th scope="col" key={head}>{ head }</th> }</tr></thead>
                    <tbody>
                        for check in checks {
                            <tr key={text(check, "id")}>
                                <th scope="row">{ text(check, "what") }</th>
                                <td>{ format!("{} ({})", text(check, "source"), tr(&text(check, "status"))) }</td>
                                <td>{ format!("{} ± {}", number(check, "expected"), number(check, "tolerance")) }</td>
                                <td>{ format!("{} {}", number(check, "got"), text(check, "unit")) }{ spread(&check["spread"]) }</td>
                                <td>{ if check["holds"].as_bool() == Some(true) { say.trust_holds } else { say.trust_misses } }{ " " }{ text(check, "explained") }</td>
                            </tr>
                        }
                    </tbody>
                </table>
            </div>
        </>
    }
}

/// Where a number moves to over what its source does not say, if that was looked at.
fn spread(found: &Value) -> Html {
    let (Some(low), Some(high), Some(over)) = (found["low"].as_f64(), found["high"].as_f64(), found["over"].as_str())
    else {
        return html! {};
    };
    html! { <span class="how">{ fill(words().trust_spread, &[&digits(low), &digits(high), over]) }</span> }
}

/// A number to five digits, without an exponent where it can be read without one.
fn digits(value: f64) -> String {
    let size = value.abs();
    if size > 0.0 && !(1e-4..1e7).contains(&size) {
        return format!("{value:.2e}");
    }
    let decimals = if size >= 1000.0 {
        1
    } else if size >= 1.0 {
        3
    } else {
        5
    };
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

#[cfg(test)]
mod tests {
    use super::digits;

    #[test]
    fn numbers_stay_readable() {
        assert_eq!(digits(2.0), "2");
        assert_eq!(digits(0.03214), "0.03214");
        assert_eq!(digits(25_416.5), "25416.5");
        assert_eq!(digits(0.000_001_98), "1.98e-6");
        assert_eq!(digits(0.0), "0");
    }
}
