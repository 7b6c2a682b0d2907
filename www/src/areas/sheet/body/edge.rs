//! The edge of the disc in section, as cut and as fused.

use crate::state::fired::Fired;
use crate::state::preferences::Preferences;
use crate::words;
use dappledome::base::units::{Mm, fixed};
use dappledome::fuse::edge_profile::EdgeProfile;
use leptos::prelude::*;

/// Room around the drawing, mm.
const AROUND: f64 = 0.6;

/// The drawing and its numbers.
#[component]
pub fn EdgeDrawing() -> impl IntoView {
    let (fired, preferences) = (expect_context::<Fired>(), expect_context::<Preferences>());
    let edge = Memo::new(move |_| fired.firings().and_then(|firings| firings.edge.clone()));
    let drawn = move || {
        let edge = edge.get()?;
        let said = words::edge_drawn(Mm(top(&edge.cut)), Mm(top(&edge.fused)), edge.radius);
        let said = preferences.text(&said);
        Some(view! {
            <svg class="edge-drawing" role="img" aria-label=said.clone() viewBox=view_box(&edge)>
                <path class="edge-shelf" d=shelf(&edge) />
                <path class="edge-fused" d=path(&edge.fused) />
                <path class="edge-cut" d=path(&edge.cut) />
            </svg>
            <p class="aside edge-key">
                <span class="key-cut">{words::AS_CUT}</span>
                <span class="key-fused">{words::AS_FUSED}</span>
            </p>
            <p class="aside">{said}"."</p>
        })
    };
    view! { <div class="edge-place">{drawn}</div> }
}

/// The height of a section, mm.
fn top(points: &[(f64, f64)]) -> f64 {
    points.iter().fold(0.0, |top: f64, point| top.max(point.1))
}

/// From where to where both sections reach, mm.
fn reach(edge: &EdgeProfile) -> (f64, f64, f64) {
    let both = || edge.cut.iter().chain(&edge.fused);
    let inside = both().fold(f64::INFINITY, |least: f64, point| least.min(point.0));
    let outside = both().fold(0.0, |most: f64, point| most.max(point.0));
    (inside, outside, top(&edge.cut).max(top(&edge.fused)))
}

fn view_box(edge: &EdgeProfile) -> String {
    let (inside, outside, high) = reach(edge);
    let number = |value: f64| fixed(value, 2);
    format!(
        "{} {} {} {}",
        number(inside),
        number(-high - AROUND),
        number(outside - inside + AROUND),
        number(high + 2.0 * AROUND)
    )
}

fn shelf(edge: &EdgeProfile) -> String {
    let (inside, outside, _) = reach(edge);
    format!("M{} 0H{}", fixed(inside, 2), fixed(outside + AROUND, 2))
}

/// A section as the data of a path: up is up.
fn path(points: &[(f64, f64)]) -> String {
    let mut data = String::new();
    for (at, (across, high)) in points.iter().enumerate() {
        data.push_str(&format!(
            "{}{} {}",
            if at == 0 { "M" } else { "L" },
            fixed(*across, 2),
            fixed(-high, 2)
        ));
    }
    data
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::fuse::edge_profile::edge;

    #[test]
    fn both_sections_lie_in_the_drawing_and_stand_upright() {
        let edge = edge((Mm(160.0), Mm(6.0)), (Mm(158.0), Mm(6.2)), 0.0);
        assert_eq!(reach(&edge), (54.2, 80.0, 6.2));
        assert_eq!(view_box(&edge), "54.20 -6.80 26.40 7.40");
        assert!(path(&edge.cut).starts_with("M54.20 -6.00L80.00 -6.00"), "{}", path(&edge.cut));
    }
}
