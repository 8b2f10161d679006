//! Owns the table of the dishes: what each draws, how long it bakes, how soon its spot is ready again.

use crate::{
    charts::{Table, canvas::save_text},
    figures as said,
    words::{fill, words},
};
use hearthload::report::{CarryReport, DishReport};
use yew::prelude::*;

/// The dishes in figures.
pub(crate) fn dishes(report: &CarryReport) -> Html {
    let say = words();
    if report.dishes.is_empty() {
        return html! { <p class="how">{ say.dishes_none }</p> };
    }
    let heads = [
        say.col_heat,
        say.col_hearth,
        say.col_cover,
        say.col_bake,
        say.col_worst,
        say.col_known,
        say.col_again,
        say.col_never,
        say.col_band,
        say.col_fit,
        say.col_baked,
    ];
    let mut table = Table::with_head(&[&[say.col_dish][..], &heads].concat());
    for dish in &report.dishes {
        table.row(std::iter::once(dish.name.clone()).chain(cells(dish)));
    }
    let text = table.csv();
    // The mark in front tells spreadsheets that the file is UTF-8.
    let save = Callback::from(move |_: MouseEvent| save_text(&format!("\u{feff}{text}"), "text/csv", "dishes.csv"));
    html! {
        <>
            <h3 id="dishes-title">{ say.dishes_title }</h3>
            <div class="frame" role="region" aria-labelledby="dishes-title" tabindex="0">
                <table class="dishes">
                    <thead><tr><th scope="col">{ say.col_dish }</th>for head in heads { <th scope="col" key={head}>{ head }</th> }</tr></thead>
                    <tbody>
                        for dish in report.dishes.iter() {
                            <tr key={dish.name.clone()}>
                                <th scope="row">{ &dish.name }</th>
                                for (place, cell) in cells(dish).into_iter().enumerate() { <td key={place}>{ cell }</td> }
                            </tr>
                        }
                    </tbody>
                </table>
            </div>
            <div class="same-save"><button type="button" class="quiet" onclick={save}>{ say.dishes_csv }</button></div>
        </>
    }
}

fn cells(dish: &DishReport) -> [String; 11] {
    let time = |seconds: Option<f64>| seconds.map_or_else(|| "–".to_owned(), said::duration);
    [
        said::number(dish.heat_kj, 0),
        said::number(dish.from_hearth_kj, 0),
        said::number(dish.hearth_kj_per_cover, 1),
        time(dish.bake_s_median),
        time(dish.bake_s_worst),
        said::duration(dish.bake_s_known),
        dish.ready_again_min_median.map_or_else(|| "–".to_owned(), said::minutes),
        said::percent(dish.never_share),
        said::percent(dish.share_in_band),
        dish.fit.to_string(),
        fill(words().cell_of, &[&dish.baked.to_string(), &dish.ordered.to_string()]),
    ]
}
