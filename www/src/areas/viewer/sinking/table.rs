//! The slump as a table, a line every five minutes, for those who do not see the drawing.

use crate::model::sinking::touching;
use crate::state::preferences::Preferences;
use crate::state::sinking::Sinking;
use crate::words;
use leptos::prelude::*;

/// Minutes from line to line.
const EVERY: usize = 5;

/// The table.
#[component]
pub fn SinkTable() -> impl IntoView {
    let (sinking, preferences) = (expect_context::<Sinking>(), expect_context::<Preferences>());
    let rows = Memo::new(move |_| {
        let (Some(course), units) = (sinking.course(), preferences.units.get()) else {
            return Vec::new();
        };
        let (first, last) = course.span();
        let row = |minutes: i32| {
            let at = f64::from(minutes);
            let moment = course.at(at);
            [
                words::slump_time(at),
                words::heat(course.heat(at), units),
                words::sunk(moment.depth(), units),
                words::touches(touching(&moment)).to_owned(),
                words::to_go(moment.gaps[0], units),
            ]
        };
        (first as i32..=last as i32).step_by(EVERY).map(row).collect()
    });
    let row = |[when, cells @ ..]: [String; 5]| {
        view! {
            <tr>
                <th scope="row">{when}</th>
                {cells.map(|cell| view! { <td>{cell}</td> }).collect_view()}
            </tr>
        }
    };
    view! {
        <div class="unseen">
            <table>
                <caption>{words::WATCH_IT_SINK}</caption>
                <tbody>{move || rows.get().into_iter().map(row).collect_view()}</tbody>
            </table>
        </div>
    }
}
