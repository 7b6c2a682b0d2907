//! Glasses that are offered, with the colors that they would have where they are offered: loose, and fired on this base.

use crate::controls::choice::ChoiceOption;
use crate::controls::color_pair::ColorPair;
use crate::state::glasses::OwnGlasses;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::units::Mm;
use dappledome::fuse::tack::{USUAL, stands};
use dappledome::glass::kind::Glass;
use dappledome::optics::test_tile::{Color, Ground, sheet_swatch, swatch_depth};
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Accents, Recipe};
use leptos::prelude::*;

/// Where glasses are offered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OfferedFor {
    /// As the powder of the coat with this id, or a part of it.
    Coat(u32),
    /// As a glass of the accents.
    Accents,
    /// As one of the sheets, counted from the bottom.
    Sheet(usize),
}

impl OfferedFor {
    /// Whether a glass can be had there.
    fn takes(self, glass: &Glass) -> bool {
        match self {
            Self::Coat(_) | Self::Accents => glass.powder,
            Self::Sheet(_) => glass.sheet,
        }
    }

    /// What the two halves of each color stand for.
    pub fn halves(self) -> &'static str {
        match self {
            Self::Coat(_) => words::POWDER_HALVES,
            Self::Accents => words::FRIT_HALVES,
            Self::Sheet(_) => words::SHEET_HALVES,
        }
    }
}

/// Two colors of each glass: loose and fired, or by itself and in its place.
type Colors = Vec<(String, (Color, Color))>;

/// The glasses that are offered somewhere, and the colors they would have there, worked out together.
#[derive(Clone, Copy)]
pub struct Offered {
    glasses: Memo<Vec<Glass>>,
    colors: Memo<Colors>,
}

impl Offered {
    /// Those for a place, as long as the present owner lives: the piece's own and the maker's, then the catalogue's. Takes the
    /// piece and the maker's glasses.
    pub fn new(place: OfferedFor) -> Self {
        let (piece, own) = (expect_context::<Workpiece>(), expect_context::<OwnGlasses>());
        // Few changes of a recipe are to its glasses: the others need no copies of all there are.
        let brought = Memo::new(move |_| piece.recipe.read().glasses.clone());
        let glasses = Memo::new(move |_| -> Vec<Glass> {
            let all = own.offered_with(&brought.read());
            all.all().filter(|glass| place.takes(glass)).cloned().collect()
        });
        let colors = Memo::new(move |_| {
            let made = piece.made();
            glasses.with(|glasses| colors(place, glasses, &made.0, &made.1))
        });
        Self { glasses, colors }
    }

    /// Ids and names, in the order in which they are offered, followed.
    pub fn names(self) -> Vec<(String, String)> {
        self.glasses.read().iter().map(|glass| (glass.id.clone(), glass.name.clone())).collect()
    }

    /// The colors of one glass, followed.
    pub fn of(self, glass: &str) -> Option<(Color, Color)> {
        self.colors.read().iter().find(|(id, _)| id == glass).map(|(_, colors)| *colors)
    }

    /// Gives one of the glasses to a recipe that is about to be made of it.
    pub fn bring_to(self, recipe: &mut Recipe, glass: &str) {
        self.glasses.with_untracked(|all| {
            if let Some(glass) = all.iter().find(|one| one.id == glass) {
                recipe.bring(glass);
            }
        });
    }
}

/// Every glass that has colors at a place.
fn colors(place: OfferedFor, glasses: &[Glass], recipe: &Recipe, plan: &Plan) -> Colors {
    let each = |of: &dyn Fn(&Glass) -> Option<(Color, Color)>| {
        glasses.iter().filter_map(|glass| Some((glass.id.clone(), of(glass)?))).collect()
    };
    match place {
        OfferedFor::Coat(id) => {
            let Some(coat) = recipe.coat(id) else { return Vec::new() };
            let (ground, depth) = (Ground::of_coat(plan, id), swatch_depth(&coat.fall));
            each(&|glass| Some(ground.powder(glass, depth)))
        }
        OfferedFor::Accents => {
            let (ground, size) = (Ground::on_all(plan), grain(recipe.accents.as_ref()));
            each(&|glass| Some(ground.frit(glass, size, stands(Mm(size.into()), USUAL).mean_glass())))
        }
        OfferedFor::Sheet(at) => each(&|glass| sheet_swatch(plan, at, glass)),
    }
}

/// The size of a middling grain of accents, mm.
fn grain(accents: Option<&Accents>) -> f32 {
    let usual = Accents::default();
    let accents = accents.unwrap_or(&usual);
    (accents.grade_from.f32() + accents.grade_to.f32()) / 2.0
}

/// A glass to choose, its colors beside its name.
#[component]
pub fn GlassOption(
    /// Its id and its name.
    glass: (String, String),
    /// All that are offered here.
    offered: Offered,
    /// Whether it is the chosen one.
    #[prop(into)]
    chosen: Signal<bool>,
    /// Chooses it.
    #[prop(into)]
    choose: Callback<()>,
) -> impl IntoView {
    let (id, name) = glass;
    view! {
        <ChoiceOption word=name chosen choose>
            <ColorPair colors=Signal::derive(move || offered.of(&id)) />
        </ChoiceOption>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::glass::catalogue;
    use dappledome::optics::test_tile::swatch;
    use dappledome::recipe::demo;

    fn offered(place: OfferedFor, recipe: &Recipe) -> Colors {
        colors(place, catalogue::all(), recipe, &Plan::new(recipe).unwrap().plan)
    }

    #[test]
    fn the_powder_a_coat_has_is_offered_in_the_coats_own_colors() {
        let recipe = demo::ember_walk();
        let plan = Plan::new(&recipe).unwrap().plan;
        let coat = &recipe.coats[1];
        let all = offered(OfferedFor::Coat(coat.id), &recipe);
        let own = all.iter().find(|(id, _)| *id == coat.powder[0].glass).unwrap();
        assert_eq!(Some(own.1), swatch(&plan, coat.id));
        assert_eq!(offered(OfferedFor::Coat(99), &recipe), [], "no such coat");
    }

    #[test]
    fn accents_and_sheets_have_colors_wherever_they_are_offered() {
        let recipe = demo::ember_walk();
        for place in [OfferedFor::Accents, OfferedFor::Sheet(0), OfferedFor::Sheet(1)] {
            assert_eq!(offered(place, &recipe).len(), catalogue::all().len(), "{place:?}");
        }
        assert_eq!(offered(OfferedFor::Sheet(9), &recipe), []);
    }
}
