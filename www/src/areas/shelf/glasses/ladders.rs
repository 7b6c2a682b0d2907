//! A glass from a dusting to a heap, on white, in clear glass and on black, over one axis of depth.

use crate::controls::sure_line::{ENDS, along};
use crate::state::glasses::OwnGlasses;
use crate::words;
use dappledome::glass::catalogue;
use dappledome::glass::kind::Glass;
use dappledome::optics::ladder::{Base, depths, ladder};
use dappledome::optics::test_tile::Color;
use dappledome::recipe::Recipe;
use leptos::prelude::*;

/// The depths that the axis names, mm of loose powder.
const NAMED: [(f32, &str); 5] = [(0.03, "0.03"), (0.1, "0.1"), (0.3, "0.3"), (1.0, "1"), (3.0, "3 mm")];
/// Rungs of a ladder: between two of them the browser's own straight line is nearer than an eye sees.
const RUNGS: usize = 32;

/// Looks at a glass of the maker's or of the catalogue, followed.
pub fn with_glass<T>(own: OwnGlasses, id: &str, look: impl FnOnce(&Glass) -> T) -> Option<T> {
    own.with(|shelf| shelf.find(id).map(|own| &own.glass).or_else(|| catalogue::find(id)).map(look))
}

/// Colors as bands of equal width beside one another.
pub fn bands(colors: &[Color]) -> String {
    let all = colors.len() as f32;
    let stops = colors.iter().enumerate().map(|(at, [r, g, b])| {
        let (from, to) = (at as f32 / all * 100.0, (at + 1) as f32 / all * 100.0);
        format!("rgb({r} {g} {b}) {from}% {to}%")
    });
    format!("linear-gradient(to right, {})", stops.collect::<Vec<_>>().join(", "))
}

/// Colors that run into one another.
fn run(colors: &[Color]) -> String {
    let stops = colors.iter().map(|[r, g, b]| format!("rgb({r} {g} {b})"));
    format!("linear-gradient(to right, {})", stops.collect::<Vec<_>>().join(", "))
}

/// The three ladders with their axis.
pub fn ladders(id: String) -> AnyView {
    let own = expect_context::<OwnGlasses>();
    let rows = Base::ALL.map(|base| {
        let id = id.clone();
        let colors = Memo::new(move |_| {
            with_glass(own, &id, |glass| {
                let rungs = depths(ENDS.0, ENDS.1, RUNGS);
                run(&ladder(glass, Recipe::bare().packing as f32, base, &rungs))
            })
            .unwrap_or_default()
        });
        view! {
            <span>{words::ladder_base(base)}</span>
            <span class="ladder" role="img" aria-label=words::ladder_said(base) style=("--bands", colors)></span>
        }
    });
    let ticks = NAMED.map(|(depth, name)| {
        let at = along(depth) * 100.0;
        view! { <span class="tick" style=("--at", format!("{at}%"))>{name}</span> }
    });
    view! {
        <div class="ladders">
            {rows.into_iter().collect_view()}
            <span></span>
            <span class="axis" aria-hidden="true">{ticks.into_iter().collect_view()}</span>
        </div>
    }
    .into_any()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bands_stand_beside_one_another_without_a_gap() {
        let two = bands(&[[1, 2, 3], [4, 5, 6]]);
        assert_eq!(two, "linear-gradient(to right, rgb(1 2 3) 0% 50%, rgb(4 5 6) 50% 100%)");
    }
}
