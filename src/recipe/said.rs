//! What a recipe's parts are called, in a maker's words.

use super::{Coat, Fall, Form, Part, Side, Sponge};
use crate::base::order::ranked;
use crate::base::text::lower;
use crate::base::units::{fixed, plain};
use crate::glass::glasses::Glasses;

/// The name of a blend: its glasses, the largest part first.
pub fn blend(glasses: &Glasses, parts: &[Part]) -> String {
    let parts: Vec<&Part> = parts.iter().filter(|part| part.parts > 0.0).collect();
    let largest_first = ranked(parts.len(), &|a, b| parts[b].parts.total_cmp(&parts[a].parts));
    let names: Vec<String> = largest_first.into_iter().map(|at| glasses.name(&parts[at].glass)).collect();
    match &names[..] {
        [] => "No powder".into(),
        [one] => one.clone(),
        [first, second] => format!("{first} and {}", lower(second)),
        [first, rest @ ..] => format!("{first} and {} others", rest.len()),
    }
}

/// A coat in one line, without its powder.
pub fn coat(coat: &Coat) -> String {
    let locked = match (coat.layout.falls_with, coat.layout.locked_to) {
        (Some(_), _) => ", in the same places",
        (None, Some(_)) => ", locked",
        (None, None) => "",
    };
    match &coat.fall {
        Fall::Even { depth } => format!("even, {depth}{locked}"),
        Fall::Patches(patches) => {
            format!("patches on {} %, {}{locked}", fixed(patches.coverage * 100.0, 0), patches.depth)
        }
        Fall::ThickAndThin(range) => {
            format!("thick and thin, {} to {}{locked}", plain(range.thinnest.0), range.thickest)
        }
    }
}

/// The name of a mold's form.
pub fn form(form: &Form) -> &'static str {
    match form {
        Form::Bowl => "Bowl",
        Form::FlatBottom { .. } => "Flat bottom",
        Form::Flare { .. } => "Flare",
        Form::Hump => "Hump",
    }
}

/// The name of a side.
pub fn side(side: Side) -> &'static str {
    match side {
        Side::Out => "Out",
        Side::In => "In",
    }
}

/// How often the sponge's rolls cover the disc.
pub fn passes(sponge: &Sponge) -> String {
    match plain(sponge.passes).as_str() {
        "1" => "once over".into(),
        "2" => "twice over".into(),
        other => format!("{other} times over"),
    }
}
