//! Doing what a notice advises.

use super::firing::Pace;
use super::model::{Fall, Recipe, Sheet};
use super::stem::Stem;
use crate::base::firing::{Firing, SegmentName};
use crate::base::notice::{Mend, Step};
use crate::base::units::Celsius;

/// Changes the recipe as the notice of this step advises.
pub fn apply(recipe: &mut Recipe, step: Step, mend: Mend) {
    match mend {
        Mend::AddSheet(thickness) => recipe.blank.sheets.push(Sheet { glass: "clear".into(), thickness }),
        Mend::Cut(diameter) => recipe.blank.diameter = diameter,
        Mend::Depth(depth) => recipe.mold.depth = depth,
        Mend::Sift(depth) => {
            let Step::Coat(id) = step else { return };
            match recipe.coat_mut(id).map(|coat| &mut coat.fall) {
                Some(Fall::Even { depth: now }) => *now = depth,
                Some(Fall::Patches(patches)) => patches.depth = depth,
                Some(Fall::ThickAndThin(range)) => range.thickest = depth,
                None => {}
            }
        }
        Mend::FromRim(distance) => {
            if let Some(accents) = &mut recipe.accents {
                accents.from_rim = distance;
            }
        }
        Mend::Gap(gap) => {
            if let Some(accents) = &mut recipe.accents {
                accents.least_gap = gap;
            }
        }
        Mend::Dam(width) => recipe.fuse.dam = Some(width),
        Mend::Top(firing, top) => set_top(recipe, firing, top),
        Mend::Rate(firing, segment, rate) => {
            recipe.programs.segment_mut(firing, segment).pace = Some(Pace::PerHour(rate));
        }
        Mend::Hold(Firing::FullFuse, SegmentName::Process, hold) => recipe.fuse.hold = hold,
        Mend::Hold(Firing::TackFuse, SegmentName::Process, hold) => {
            if let Some(accents) = &mut recipe.accents {
                accents.tack.hold = hold;
            }
        }
        Mend::Hold(firing, segment, hold) => {
            recipe.programs.segment_mut(firing, segment).hold = Some(hold);
        }
        Mend::Usual(firing, segment) => recipe.programs.let_be(firing, segment),
        Mend::Stopper(number) => change_stem(recipe, |stem| stem.stopper = number),
        Mend::InGround(depth) => change_stem(recipe, |stem| stem.in_ground = depth),
    }
}

fn change_stem(recipe: &mut Recipe, change: impl FnOnce(&mut Stem)) {
    if let Some(stem) = &mut recipe.stem {
        change(stem);
    }
}

fn set_top(recipe: &mut Recipe, firing: Firing, top: Celsius) {
    match (firing, &mut recipe.accents) {
        (Firing::FullFuse, _) => recipe.fuse.top = top,
        (Firing::TackFuse, Some(accents)) => accents.tack.top = top,
        (Firing::TackFuse, None) => {}
        (Firing::Slump, _) => recipe.slump.top = top,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::notice::Notice;
    use crate::base::units::Mm;
    use crate::recipe::plan::{Plan, Planned};
    use crate::recipe::{Accents, Coat, Pipe};

    fn notices(recipe: &Recipe) -> Vec<Notice> {
        match Plan::new(recipe) {
            Ok(Planned { notices, .. }) | Err(notices) => notices,
        }
    }

    type Spoil = fn(&mut Recipe);

    #[test]
    fn doing_what_is_advised_answers_the_notice() {
        let spoil: [(&str, Spoil); 13] = [
            ("Won't hold its size.", |recipe| recipe.blank.sheets.truncate(1)),
            ("Won't hold its size.", |recipe| {
                let sheet = recipe.blank.sheets[0].clone();
                recipe.blank.sheets.push(sheet);
            }),
            ("A dam inside its disc.", |recipe| recipe.fuse.dam = Some(Mm(150.0))),
            ("Too wide for its mold.", |recipe| recipe.blank.diameter = Mm(180.0)),
            ("Wider than its mold.", |recipe| recipe.blank.diameter = Mm(164.0)),
            ("Small for its mold.", |recipe| recipe.blank.diameter = Mm(110.0)),
            ("Deeper than half its width.", |recipe| recipe.mold.depth = Mm(100.0)),
            ("Too thin to cover: 78 % bare.", |recipe| {
                recipe.coats.push(Coat::new(1, "straw", Fall::Even { depth: Mm(0.03) }));
            }),
            ("Too thin to cover: 43 % bare.", |recipe| {
                recipe.coats.push(Coat::new(1, "straw", Fall::Even { depth: Mm(0.1) }));
            }),
            ("Accents off the disc.", |recipe| {
                recipe.accents = Some(Accents { from_rim: Mm(0.0), ..Accents::default() });
            }),
            ("A stopper that does not fit.", |recipe| {
                recipe.stem = Some(Stem { stopper: 5, ..Stem::default() });
            }),
            ("Sits shallow.", |recipe| {
                recipe.stem =
                    Some(Stem { pipe: Pipe::Half, stopper: 1, length: Mm(500.0), ..Stem::default() });
            }),
            ("Shallow in the ground.", |recipe| {
                recipe.stem = Some(Stem { in_ground: Mm(100.0), ..Stem::default() });
            }),
        ];
        for (what, spoil) in spoil {
            let mut recipe = Recipe::bare();
            spoil(&mut recipe);
            let notice = notices(&recipe).into_iter().find(|notice| notice.what == what);
            let notice = notice.unwrap_or_else(|| panic!("{what} is not said"));
            apply(&mut recipe, notice.step, notice.mend.expect(what));
            assert_eq!(notices(&recipe), [], "{what} is answered");
        }
    }
}
