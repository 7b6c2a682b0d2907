//! What was found, as coats of a recipe.

use super::way::Way;
use crate::glass::kind::Glass;
use crate::recipe::{Coat, Part, Recipe};

impl Way {
    /// Makes a coat of a recipe of it, as deep, to a thousandth of a mm; the jars are of these glasses. One jar over another becomes two
    /// coats that lie together. What lay together with the coat and on it goes: it would hide what was found.
    pub fn lay(&self, jars: &[Glass], recipe: &mut Recipe, coat: u32) {
        let Some(at) = recipe.coats.iter().position(|one| one.id == coat) else { return };
        let upper = recipe.free_coat_id();
        let falls_by = recipe.coats[at].falls_by();
        let above = recipe.coats.split_off(at + 1);
        let above = above.into_iter().filter(|other| other.falls_by() != falls_by);
        let lower = recipe.coats[at].clone();
        let sifted = |coat: &Coat, of: &[(usize, u8)], depth: f64| {
            let part =
                |(jar, parts): &(usize, u8)| Part { glass: jars[*jar].id.clone(), parts: (*parts).into() };
            let mut coat = Coat { powder: of.iter().map(part).collect(), ..coat.clone() };
            coat.fall.set_middling((depth * 1e3).round() / 1e3);
            coat
        };
        match *self {
            Self::Alone { jar, depth } => recipe.coats[at] = sifted(&lower, &[(jar, 1)], depth),
            Self::Blended { jars: [one, other], parts: [a, b], depth } => {
                recipe.coats[at] = sifted(&lower, &[(one, a), (other, b)], depth);
            }
            Self::Over { jars: [under, over], depths: [a, b] } => {
                recipe.coats[at] = sifted(&lower, &[(under, 1)], a);
                recipe.coats.push(sifted(&lower.another_on_it(upper), &[(over, 1)], b));
            }
        }
        recipe.coats.extend(above);
        self.jars().into_iter().for_each(|jar| recipe.bring(&jars[jar]));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::glass::catalogue;
    use crate::recipe::demo;

    fn jars() -> Vec<Glass> {
        let own = Glass { id: "own".into(), ..catalogue::find("rust").expect("it is there").clone() };
        vec![catalogue::find("moss").expect("it is there").clone(), own]
    }

    fn laid(way: Way, recipe: &Recipe) -> Recipe {
        let mut recipe = recipe.clone();
        let id = recipe.coats[1].id;
        way.lay(&jars(), &mut recipe, id);
        recipe.drop_unused_glasses();
        recipe
    }

    fn parts(coat: &Coat) -> Vec<(&str, f64)> {
        coat.powder.iter().map(|part| (part.glass.as_str(), part.parts)).collect()
    }

    #[test]
    fn one_jar_or_a_blend_is_the_coat_itself() {
        let before = demo::ember_walk();
        let alone = laid(Way::Alone { jar: 1, depth: 0.12345 }, &before);
        assert_eq!(parts(&alone.coats[1]), [("own", 1.0)]);
        assert_eq!((alone.coats[1].fall.middling(), alone.glasses.0.len()), (0.123, 1), "and comes along");
        let blended = laid(Way::Blended { jars: [0, 1], parts: [5, 2], depth: 0.4 }, &before);
        assert_eq!(parts(&blended.coats[1]), [("moss", 5.0), ("own", 2.0)]);
        for after in [alone, blended] {
            assert_eq!((&after.coats[0], &after.coats[2]), (&before.coats[0], &before.coats[2]));
        }
    }

    #[test]
    fn an_overlay_is_two_coats_of_one_layout_and_goes_as_one() {
        let before = demo::ember_walk();
        let over = laid(Way::Over { jars: [1, 0], depths: [0.4, 0.06] }, &before);
        let [lower, upper] = [&over.coats[1], &over.coats[2]];
        assert_eq!((parts(lower), parts(upper)), (vec![("own", 1.0)], vec![("moss", 1.0)]));
        assert_eq!((lower.fall.middling(), upper.fall.middling()), (0.4, 0.06));
        assert_eq!((upper.falls_by(), lower.id), (lower.id, before.coats[1].id));
        assert_eq!(over.coats[3], before.coats[2]);
        let again = laid(Way::Alone { jar: 0, depth: 0.2 }, &over);
        assert_eq!(again.coats.len(), before.coats.len(), "what lay on it is part of what was found before");
    }

    #[test]
    fn a_coat_that_is_gone_is_made_of_nothing() {
        let mut recipe = demo::ember_walk();
        Way::Alone { jar: 0, depth: 0.2 }.lay(&jars(), &mut recipe, 99);
        assert_eq!(recipe, demo::ember_walk());
    }
}
