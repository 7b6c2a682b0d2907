//! The ticket in words: what to weigh, cut and set, for one piece and for all.

use super::recipe::{blend, form, grams, pieces_of, side};
use super::text::lower;
use dappledome::base::units::plain;
use dappledome::glass::glasses::Glasses;
use dappledome::recipe::Recipe;
use dappledome::shop::cover::Base;
use dappledome::shop::ticket::{CoatGrams, DiscCut, Ticket};

/// Size of the flat disc.
pub const FUSED_FLAT: &str = "Fused flat";
/// Head of the first column of numbers.
pub const ONE_PIECE: &str = "One piece";
/// Powder, coat by coat.
pub const TO_WEIGH: &str = "Powder to weigh";
/// The same powder, glass by glass.
pub const BY_GLASS: &str = "By glass";
/// All powder together.
pub const ALL_POWDER: &str = "In all";
/// Sheet glass.
pub const DISCS_TO_CUT: &str = "Discs to cut";
/// Frit.
pub const ACCENTS_TO_SET: &str = "Accents to set";

/// Head of the second column of numbers: how many pieces, the spare ones apart.
pub fn all_pieces(ticket: &Ticket) -> String {
    let asked = ticket.pieces - ticket.spares;
    if ticket.spares > 0 { format!("{asked} + {} spare", ticket.spares) } else { pieces_of(ticket.pieces) }
}

/// How the spare ones are counted; nothing without any.
pub fn how_spares_count(recipe: &Recipe) -> Option<String> {
    let batch = recipe.batch;
    let spares = batch.to_make() - batch.pieces;
    (spares > 0).then(|| {
        let per_ten = batch.spare_per_ten;
        format!(
            "{spares} spare: {per_ten} for every ten of all {}, rounded up once.",
            pieces_of(batch.pieces)
        )
    })
}

/// What a coat lies on, of what is weighed for one piece: `on white`; the grams on each if it is more than one thing. What
/// no scale at the bench shows is left out.
pub fn lies_on(coat: &CoatGrams, recipe: &Recipe) -> String {
    let share = coat.to_weigh.0 / coat.sifted.0.max(1e-9);
    let parts = coat.lies_on.iter().map(|on| (base(on.base, recipe), on.grams.0 * share));
    let parts: Vec<(String, f64)> = parts.filter(|(_, grams)| *grams >= 0.05).collect();
    match &parts[..] {
        [] => String::new(),
        [(one, _)] => format!("on {one}"),
        several => {
            let said: Vec<_> = several.iter().map(|(base, on)| format!("{} on {base}", grams(*on))).collect();
            said.join(", ")
        }
    }
}

/// What powder lies on, by its glass.
fn base(base: Base, recipe: &Recipe) -> String {
    let name = match base {
        Base::Sheet => recipe.blank.sheets.last().map(|sheet| recipe.glasses.name(&sheet.glass)),
        Base::Coat(id) => recipe.coat(id).map(|coat| blend(&recipe.glasses, &coat.powder)),
    };
    lower(&name.unwrap_or_default())
}

/// A disc by its glass and thickness: `White 3 mm`.
pub fn disc_of(glasses: &Glasses, cut: &DiscCut) -> String {
    format!("{} {}", glasses.name(&cut.glass), cut.thickness)
}

/// How far across it is cut.
pub fn cut_across(cut: &DiscCut) -> String {
    format!("{} across", cut.diameter)
}

/// The mold in one line, with its unit.
pub fn mold_size(recipe: &Recipe) -> String {
    let mold = &recipe.mold;
    let (form, powder) = (lower(form(&mold.form)), lower(side(recipe.powder_side)));
    format!("{form} {} × {}, powder {powder}", plain(mold.opening.0), mold.depth)
}

/// So many of something that is counted.
pub fn number(count: u32) -> String {
    count.to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::units::Grams;
    use dappledome::recipe::{Batch, demo};
    use dappledome::shop::ticket::LiesOn;

    fn coat(lies_on: &[(Base, f64)]) -> CoatGrams {
        let lies_on = lies_on.iter().map(|(base, grams)| LiesOn { base: *base, grams: Grams(*grams) });
        CoatGrams {
            id: 2,
            to_weigh: Grams(4.0),
            lies_on: lies_on.collect(),
            sifted: Grams(2.0),
            left: Grams(2.0),
        }
    }

    #[test]
    fn every_gram_to_weigh_is_said_to_lie_somewhere() {
        let recipe = demo::ember_walk();
        let ground = Base::Coat(recipe.coats[0].id);
        assert_eq!(lies_on(&coat(&[(Base::Sheet, 2.0)]), &recipe), "on white");
        let two = coat(&[(Base::Sheet, 0.5), (ground, 1.5)]);
        assert_eq!(lies_on(&two, &recipe), "1.0 g on white, 3.0 g on straw");
        let trace = coat(&[(Base::Sheet, 0.01), (ground, 1.99)]);
        assert_eq!(lies_on(&trace, &recipe), "on straw", "no scale shows 0.02 g");
        assert_eq!(lies_on(&coat(&[]), &recipe), "");
    }

    #[test]
    fn it_is_said_how_spares_are_rounded() {
        let mut recipe = demo::ember_walk();
        assert_eq!(how_spares_count(&recipe), None);
        recipe.batch = Batch { pieces: 12, spare_per_ten: 1 };
        let said = how_spares_count(&recipe);
        assert_eq!(said.as_deref(), Some("2 spare: 1 for every ten of all 12 pieces, rounded up once."));
    }
}
