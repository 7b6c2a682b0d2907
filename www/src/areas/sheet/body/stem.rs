//! The open stem.

use super::joint::JointDrawing;
use crate::areas::sheet::details::{Details, Fields};
use crate::controls::choice::{Choice, ChoiceOption};
use crate::fields::stem::{DABS, FILLET, STEM};
use crate::fields::types::Target;
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::recipe::{Face, Joint, Pipe, Stem};
use leptos::prelude::*;

/// Pipe, stopper and joint, what they come to, and the word that takes them out.
#[component]
pub fn StemBody() -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    // Its place among all pipes: what fits is asked anew only where the pipe is another one.
    let pipe = Memo::new(move |_| {
        let stem = piece.recipe.read().stem;
        stem.and_then(|stem| Pipe::ALL.iter().position(|pipe| *pipe == stem.pipe)).unwrap_or_default()
    });
    let dabs =
        Memo::new(move |_| matches!(piece.recipe.read().stem, Some(Stem { joint: Joint::Dabs { .. }, .. })));
    let fitting = move || {
        Pipe::ALL[pipe.get()].stoppers().map(|stopper| option(Pick::Stopper(stopper.number))).collect_view()
    };
    let joint = move || {
        let fields: &'static [_] = if dabs.get() { DABS } else { FILLET };
        view! { <Fields fields target=Target::Whole /> }
    };
    let take_out = move |_| {
        nav.step.set(None);
        piece.edit(words::did::STEM_OUT, |recipe| recipe.stem = None);
    };
    view! {
        <div class="body">
            <Choice label=words::PIPE named=true>
                {Pipe::ALL.map(|pipe| option(Pick::Pipe(pipe))).collect_view()}
            </Choice>
            <Choice label=words::STOPPER named=true>{fitting}</Choice>
            <Fields fields=STEM target=Target::Whole />
            <JointDrawing />
            <Minded />
            <Details lists=&[] target=Target::Whole>
                <Choice label=words::JOINT>
                    {[Joint::default(), Joint::dabs()].map(|joint| option(Pick::Joint(joint))).collect_view()}
                </Choice>
                {joint}
                <Choice label=words::SET_ON named=true>
                    {[Face::Inside, Face::Outside].map(|face| option(Pick::On(face))).collect_view()}
                </Choice>
            </Details>
            <div class="buttons">
                <button class="button" on:click=take_out>
                    {words::TAKE_OUT}
                </button>
            </div>
        </div>
    }
}

/// How stopper and pipe go together, and what to mind.
#[component]
fn Minded() -> impl IntoView {
    let (piece, results) = (expect_context::<Workpiece>(), expect_context::<Results>());
    let preferences = expect_context::<Preferences>();
    let said = move || {
        let stem = piece.recipe.read().stem?;
        let needs = results.ticket.read().as_ref()?.stem?;
        let minded = words::minded(&needs, &stem.in_ground.to_string()).map(|(head, text)| {
            view! {
                <p>
                    <b>{head}</b>
                    " "
                    {preferences.text(&text)}
                </p>
            }
        });
        Some(view! {
            <p>{preferences.text(&words::fit(&stem, &needs))}</p>
            <p class="aside">{preferences.text(words::SIZES_FROM)}</p>
            {minded}
        })
    };
    view! { <div class="firing-words stem-words">{said}</div> }
}

/// Something that may be chosen of a stem.
#[derive(Clone, Copy)]
enum Pick {
    Pipe(Pipe),
    Stopper(u32),
    Joint(Joint),
    On(Face),
}

impl Pick {
    fn word(self) -> Oco<'static, str> {
        match self {
            Self::Pipe(pipe) => words::pipe(pipe).into(),
            Self::Stopper(number) => words::stopper(number).into(),
            Self::Joint(joint) => words::silicone_lies(joint).into(),
            Self::On(face) => words::face(face).into(),
        }
    }

    fn did(self) -> &'static str {
        match self {
            Self::Pipe(_) => words::did::PIPE,
            Self::Stopper(_) => words::did::STOPPER,
            Self::Joint(_) => words::did::JOINT,
            Self::On(_) => words::did::SET_ON,
        }
    }

    fn is(self, stem: &Stem) -> bool {
        match self {
            Self::Pipe(pipe) => stem.pipe == pipe,
            Self::Stopper(number) => stem.stopper == number,
            Self::Joint(joint) => {
                matches!(joint, Joint::Dabs { .. }) == matches!(stem.joint, Joint::Dabs { .. })
            }
            Self::On(face) => stem.on == face,
        }
    }

    fn take(self, stem: &mut Stem) {
        match self {
            Self::Pipe(pipe) => stem.take(pipe),
            Self::Stopper(number) => stem.stopper = number,
            Self::Joint(joint) => stem.joint = joint,
            Self::On(face) => stem.on = face,
        }
    }
}

/// One option. What is chosen already stays as it is.
fn option(pick: Pick) -> AnyView {
    let piece = expect_context::<Workpiece>();
    let chosen = Signal::derive(move || piece.recipe.read().stem.is_some_and(|stem| pick.is(&stem)));
    let choose = Callback::new(move |()| {
        if !chosen.get_untracked() {
            piece.edit(pick.did(), |recipe| {
                if let Some(stem) = &mut recipe.stem {
                    pick.take(stem);
                }
            });
        }
    });
    view! { <ChoiceOption word=pick.word() chosen choose /> }.into_any()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_pipe_comes_with_a_stopper_that_fits() {
        let mut stem = Stem::default();
        for pipe in Pipe::ALL {
            Pick::Pipe(pipe).take(&mut stem);
            assert!(stem.stopper().is_some_and(|stopper| stopper.fits(pipe)) && Pick::Pipe(pipe).is(&stem));
        }
        Pick::Joint(Joint::dabs()).take(&mut stem);
        assert!(Pick::Joint(Joint::dabs()).is(&stem) && !Pick::Joint(Joint::default()).is(&stem));
    }
}
