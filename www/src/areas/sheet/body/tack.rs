//! The tack fuse that the accents end with: how round a grain gets, at this top and beside it.

use crate::areas::sheet::details::Fields;
use crate::fields::firings::TACK;
use crate::fields::types::Target;
use crate::state::fired::Fired;
use crate::state::kilns::Kilns;
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::firing::Firing;
use dappledome::base::units::{Celsius, fixed};
use dappledome::fuse::tack::{Look, Tacked};
use dappledome::kiln::data::Kiln;
use dappledome::kiln::firings::Firings;
use dappledome::recipe::limits::TACK_TOP;
use dappledome::recipe::plan::Plan;
use leptos::prelude::*;

/// How far the tops beside the chosen one are from it, K.
const BESIDE: f64 = 15.0;

/// Profiles, sentence, top and hold.
#[component]
pub fn TackFuse() -> impl IntoView {
    let (piece, fired) = (expect_context::<Workpiece>(), expect_context::<Fired>());
    let (nav, preferences) = (expect_context::<Nav>(), expect_context::<Preferences>());
    let said = move || {
        let tack = piece.recipe.read().accents.as_ref()?.tack;
        let firings = fired.firings()?;
        Some(match &firings.tacked[..] {
            [] => words::NO_PROGRAM.to_owned(),
            tacked => preferences.text(&words::tacked(tack.top, tack.hold, tacked)),
        })
    };
    view! {
        <div class="tack-fuse">
            <div class="part-head">
                <b>{words::TACK_FUSE}</b>
                <button class="word" on:click=move |_| nav.open_program(Firing::TackFuse)>
                    {words::PROGRAM}
                </button>
            </div>
            <Grains />
            <p class="aside">{said}</p>
            <Fields fields=TACK target=Target::Whole />
        </div>
    }
}

/// One grain, the largest, at three tops and as it was set.
#[component]
fn Grains() -> impl IntoView {
    let (piece, kilns) = (expect_context::<Workpiece>(), expect_context::<Kilns>());
    let preferences = expect_context::<Preferences>();
    let grains = Memo::new(move |_| grains(&piece.made().1, &kilns.kiln.read()));
    let drawn = move || {
        let grains = grains.get();
        let chosen = piece.made().1.tack.top;
        let as_set = grains.first().map(|(_, grain)| Tacked {
            edge: dappledome::base::units::Mm(0.0),
            neck: None,
            look: Look::Sharp,
            ..*grain
        });
        let set =
            as_set.map(|grain| view! { <Grain grain at=words::AS_SET.to_owned() how="" chosen=false /> });
        let fired = grains.into_iter().map(|(top, grain)| {
            let at = preferences.text(&words::grain_at(top));
            view! { <Grain grain at how=words::look(grain.look) chosen=top == chosen /> }
        });
        (set, fired.collect_view())
    };
    view! { <div class="grains">{drawn}</div> }
}

/// One drawing with its words.
#[component]
fn Grain(
    /// How it comes out.
    grain: Tacked,
    /// At which top.
    at: String,
    /// What it looks like.
    how: &'static str,
    /// Whether it is the one of the recipe.
    chosen: bool,
) -> impl IntoView {
    let size = grain.size.0;
    let view_box = format!(
        "{} {} {} {}",
        fixed(-0.95 * size, 2),
        fixed(-1.15 * size, 2),
        fixed(1.9 * size, 2),
        fixed(1.25 * size, 2)
    );
    view! {
        <p class="grain" class:chosen=chosen>
            <svg aria-hidden="true" viewBox=view_box>
                <path d=outline(&grain) />
                <path d=format!("M{} 0H{}", fixed(-0.95 * size, 2), fixed(0.95 * size, 2)) />
            </svg>
            <span>{at}</span>
            <span class="second">{how}</span>
        </p>
    }
}

/// The largest accent at the chosen top and on both sides of it, as far as a tack fuse goes.
fn grains(plan: &Plan, kiln: &Kiln) -> Vec<(Celsius, Tacked)> {
    let tops = [-BESIDE, 0.0, BESIDE].map(|by| Celsius(plan.tack.top.0 + by));
    let one = |top: Celsius| {
        let mut plan = plan.clone();
        plan.tack.top = top;
        let firings = Firings::new(&plan, kiln).ok()?;
        Some((top, *firings.tacked.last()?))
    };
    tops.into_iter().filter(|top| TACK_TOP.holds(top.0)).filter_map(one).collect()
}

/// A grain in section, mm, as the data of a path: a block whose edges are as round as they get, or a drop where it melts in. The
/// block and the drop are drawn by eye; radius and size are those of the numbers.
fn outline(grain: &Tacked) -> String {
    let size = grain.size.0;
    let number = |value: f64| fixed(value, 3);
    if grain.look == Look::Flat {
        let (half, high) = (number(0.85 * size), number(-0.9 * size));
        return format!("M-{half} 0C-{0} 0 -{0} {high} 0 {high}S{0} 0 {half} 0", number(0.4 * size));
    }
    let (half, r) = (size / 2.0, grain.edge.0.min(size / 2.0));
    let straight = number(size - 2.0 * r);
    let corner = |x: f64, y: f64| format!("a{0} {0} 0 0 1 {1} {2}", number(r), number(x), number(y));
    format!(
        "M{} {}{}h{straight}{}v{straight}{}h-{straight}{}z",
        number(-half),
        number(-size + r),
        corner(r, -r),
        corner(r, r),
        corner(-r, r),
        corner(-r, -r)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::units::Mm;
    use dappledome::fuse::tack::tack;
    use dappledome::kiln::data::Guess;
    use dappledome::recipe::{Accents, Recipe};

    #[test]
    fn a_grain_gets_rounder_the_hotter_it_is() {
        let recipe = Recipe { accents: Some(Accents::default()), ..Recipe::bare() };
        let plan = Plan::new(&recipe).unwrap().plan;
        let grains = grains(&plan, &Kiln::guess(Guess::SmallBrick));
        assert_eq!(grains.iter().map(|(top, _)| top.0).collect::<Vec<_>>(), [720.0, 735.0, 750.0]);
        assert!(grains.windows(2).all(|pair| pair[0].1.edge < pair[1].1.edge), "{grains:?}");
        assert_eq!(grains[1].1.size, Mm(f64::from(plan.accents.unwrap().sizes.1)));
    }

    #[test]
    fn its_outline_has_the_radius_of_its_edges() {
        let sharp = tack(Mm(4.0), 0.0);
        assert_eq!(outline(&sharp), outline_of_square());
        let round = Tacked { edge: Mm(0.5), ..sharp };
        assert!(outline(&round).contains("a0.500 0.500 0 0 1 0.500 -0.500h3.000"), "{}", outline(&round));
    }

    fn outline_of_square() -> String {
        let none = |x: &str, y: &str| format!("a0.000 0.000 0 0 1 {x} {y}");
        let corner = none("0.000", "0.000");
        format!("M-2.000 -4.000{corner}h4.000{corner}v4.000{corner}h-4.000{corner}z")
    }
}
