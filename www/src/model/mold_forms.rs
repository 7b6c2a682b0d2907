//! Another form for a mold.

use dappledome::base::units::Mm;
use dappledome::recipe::{Form, Mold};
use std::mem::discriminant;

/// Nothing yet: it is sized once it is chosen.
const UNSIZED: Mm = Mm(0.0);

/// The forms to choose from, in order.
pub const FORMS: [Form; 4] = [
    Form::Bowl,
    Form::FlatBottom { bottom: UNSIZED, corner: UNSIZED },
    Form::Flare { bottom: UNSIZED, corner: UNSIZED },
    Form::Hump,
];

/// Whether two forms are the same, whatever their sizes.
pub fn same_form(one: &Form, other: &Form) -> bool {
    discriminant(one) == discriminant(other)
}

/// Whether a form has a bottom and a corner.
pub fn has_bottom(form: &Form) -> bool {
    matches!(form, Form::FlatBottom { .. } | Form::Flare { .. })
}

/// The form with a bottom and a corner that fit the mold's opening and depth.
pub fn sized(form: &Form, mold: &Mold) -> Form {
    let bottom = |share: f64| Mm((mold.opening.0 * share).round());
    let corner = Mm(f64::min(mold.depth.0 / 2.0, mold.opening.0 / 8.0).round());
    match form {
        Form::FlatBottom { .. } => Form::FlatBottom { bottom: bottom(0.55), corner },
        Form::Flare { .. } => Form::Flare { bottom: bottom(0.35), corner },
        Form::Bowl => Form::Bowl,
        Form::Hump => Form::Hump,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::Recipe;
    use dappledome::recipe::plan::Plan;

    #[test]
    fn a_bottom_and_a_corner_fit_the_mold() {
        let mold = Mold { form: Form::Bowl, opening: Mm(160.0), depth: Mm(48.0) };
        assert_eq!(sized(&FORMS[1], &mold), Form::FlatBottom { bottom: Mm(88.0), corner: Mm(20.0) });
        let shallow = Mold { depth: Mm(20.0), ..mold };
        assert_eq!(sized(&FORMS[2], &shallow), Form::Flare { bottom: Mm(56.0), corner: Mm(10.0) });
    }

    #[test]
    fn every_form_can_be_chosen_and_made() {
        for form in FORMS {
            let mut recipe = Recipe::bare();
            recipe.mold.form = sized(&form, &recipe.mold);
            assert!(same_form(&recipe.mold.form, &form));
            assert!(Plan::new(&recipe).is_ok(), "{form:?}");
        }
    }
}
