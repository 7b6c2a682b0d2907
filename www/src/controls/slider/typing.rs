//! A value that is typed: what was meant by it, and the field that the value turns into.

use super::state::{End, Remark, SliderState};
use crate::fields::scale::tidy;
use crate::fields::types::{Field, Unit};
use crate::words;
use dappledome::base::shown::Units;
use dappledome::base::typed;
use leptos::html;
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// The field that a value turns into.
#[component]
pub fn TypedValue(
    /// Its slider.
    slider: SliderState,
    /// Which thumb's value.
    at: usize,
) -> impl IntoView {
    let typing = slider.typing.get_untracked();
    let input = NodeRef::<html::Input>::new();
    input.on_load(move |input| {
        let Some(typing) = typing else { return };
        input.set_value(&typing.begin);
        // A field that cannot be focused can still be clicked.
        let _ = input.focus();
        if typing.replaced {
            input.select();
        }
    });
    let text = move || input.get_untracked().map(|input| input.value()).unwrap_or_default();
    let blur = move |_| {
        // The slider may be gone before its field is.
        if slider.typing.try_get_untracked().flatten().is_some() {
            leave(slider, at, &text());
        }
    };
    view! {
        <input
            class="typed"
            type="text"
            autocomplete="off"
            aria-label=slider.field.thumb_name(at)
            aria-invalid=move || (slider.remark.get() == Some(Remark::NotUnderstood)).to_string()
            node_ref=input
            on:keydown=move |event| press(slider, at, &text(), &event)
            on:blur=blur
        />
    }
}

fn press(slider: SliderState, at: usize, text: &str, event: &KeyboardEvent) {
    match event.key().as_str() {
        "Enter" => take(slider, at, text),
        "Escape" => return_to_thumb(slider, at, None),
        _ => return,
    }
    event.stop_propagation();
}

/// Takes what was typed, or says what can be.
fn take(slider: SliderState, at: usize, text: &str) {
    match understood_by(slider, at, text) {
        Some(typed) => {
            slider.set(at, typed.value);
            return_to_thumb(slider, at, typed.remark(at));
        }
        None => slider.remark.set(Some(Remark::NotUnderstood)),
    }
}

/// Takes what was typed if it can be, without going back to the thumb: the maker is elsewhere already.
fn leave(slider: SliderState, at: usize, text: &str) {
    let typed = understood_by(slider, at, text);
    if let Some(typed) = typed {
        slider.set(at, typed.value);
    }
    let refused = || (!text.trim().is_empty()).then_some(Remark::NotUnderstood);
    slider.end_typing(typed.map_or_else(refused, |typed| typed.remark(at)));
}

fn return_to_thumb(slider: SliderState, at: usize, remark: Option<Remark>) {
    slider.end_typing(remark);
    slider.focus(at);
}

/// A value that was typed.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Typed {
    /// The value, within its range.
    value: f64,
    /// The end of the range that it was kept at, if what was typed lies beyond it.
    beyond: Option<End>,
}

impl Typed {
    fn within(value: f64) -> Self {
        Self { value, beyond: None }
    }

    fn remark(self, at: usize) -> Option<Remark> {
        self.beyond.map(|end| Remark::Kept { at, end })
    }
}

fn understood_by(slider: SliderState, at: usize, text: &str) -> Option<Typed> {
    let units = untrack(|| slider.units());
    understood(slider.field, at, text, &slider.text_now(at), slider.value_now(at), units)
}

/// The value that was typed; none if it is not understood. `shown` is how the value `now` is written: what was not changed
/// stays what it was, however coarsely the shown unit writes it.
fn understood(field: &Field, at: usize, text: &str, shown: &str, now: f64, units: Units) -> Option<Typed> {
    if text == shown {
        return Some(Typed::within(now));
    }
    let (unit, limit) = (field.unit, &field.thumbs[at].limit);
    if unit == Unit::Rolls && text.trim().eq_ignore_ascii_case(words::NEVER) {
        return Some(Typed::within(limit.most));
    }
    let meant = typed::read(text, unit.kind(), units)?;
    let meant = if unit == Unit::Spoon { meant / unit.factor() } else { meant };
    let meant = if unit.whole() { meant.round() } else { meant };
    let value = tidy(limit, if unit.whole() { 1.0 } else { 1e-3 }, meant);
    // An end that is written more coarsely than it is can be typed as it is written.
    let beyond = field.decimal(meant, units) != field.decimal(value, units);
    let end = if meant < value { End::Least } else { End::Most };
    Some(Typed { value, beyond: (beyond && !limit.holds(meant)).then_some(end) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fields::coat::PATCHES;
    use crate::fields::others::{BATCH, BATCH_DETAILS, BLANK, FUSE, SPONGE_DETAILS};
    use dappledome::base::shown::{Heat, Lengths};

    const METRIC: Units = Units { lengths: Lengths::Millimeters, heat: Heat::Celsius };
    const AMERICAN: Units = Units { lengths: Lengths::Inches, heat: Heat::Fahrenheit };

    fn typed(field: &Field, text: &str, units: Units) -> Option<f64> {
        understood(field, 0, text, "as it is shown", 0.0, units).map(|typed| typed.value)
    }

    fn beyond(field: &Field, text: &str, units: Units) -> Option<End> {
        understood(field, 0, text, "as it is shown", 0.0, units).expect(text).beyond
    }

    #[test]
    fn a_number_is_taken_in_the_shown_unit_unless_it_has_one() {
        assert_eq!(typed(&BLANK[0], "152", METRIC), Some(152.0));
        assert_eq!(typed(&BLANK[0], "6", AMERICAN), Some(152.4));
        assert_eq!(typed(&BLANK[0], "6 in", METRIC), Some(152.4));
        assert_eq!(typed(&FUSE[0], "1450", AMERICAN), Some(787.778));
        assert_eq!(typed(&FUSE[1], "1 h", METRIC), Some(60.0));
        assert_eq!(typed(&PATCHES[1], "34 %", METRIC), Some(0.34));
    }

    #[test]
    fn it_is_brought_into_its_range_and_made_whole() {
        assert_eq!(typed(&BLANK[0], "9999", METRIC), Some(400.0));
        assert_eq!(typed(&BATCH[0], "2.6", METRIC), Some(3.0));
        assert_eq!(typed(&PATCHES[0], "0.12345", METRIC), Some(0.123));
    }

    #[test]
    fn it_is_noticed_when_it_was_kept_at_an_end() {
        let rewet = SPONGE_DETAILS.iter().find(|field| field.unit == Unit::Rolls).unwrap();
        for (field, text, units, end) in [
            (&BLANK[0], "-3", METRIC, Some(End::Least)),
            (&BLANK[0], "0,4", METRIC, Some(End::Least)),
            (&BLANK[0], "150 cm", METRIC, Some(End::Most)),
            (&BLANK[0], "6'", AMERICAN, Some(End::Most)),
            (&FUSE[1], "1:20", METRIC, Some(End::Most)),
            (&BATCH[0], "0.4", METRIC, Some(End::Least)),
            (rewet, "90", METRIC, Some(End::Most)),
            (&BLANK[0], "50", METRIC, None),
            (&BLANK[0], "1.97", AMERICAN, None),
            (&BLANK[0], "15.75", AMERICAN, None),
            (&BATCH[0], "0.6", METRIC, None),
            (rewet, "never", METRIC, None),
        ] {
            assert_eq!(beyond(field, text, units), end, "{text}");
        }
    }

    #[test]
    fn a_spoon_is_weighed_and_rolls_may_be_never() {
        assert_eq!(typed(&BATCH_DETAILS[0], "5 g", METRIC), Some(0.4), "of 12.5 g if it were solid");
        let rewet = SPONGE_DETAILS.iter().find(|field| field.unit == Unit::Rolls).unwrap();
        assert_eq!(typed(rewet, " Never", METRIC), Some(rewet.thumbs[0].limit.most));
        assert_eq!(typed(&BATCH[0], "never", METRIC), None);
    }

    #[test]
    fn what_was_not_changed_stays_however_coarsely_it_is_written() {
        let exact = 152.347;
        let shown = BLANK[0].say(0, exact, AMERICAN);
        let typed = |text| understood(&BLANK[0], 0, text, &shown, exact, AMERICAN);
        assert_eq!(typed(&shown), Some(Typed::within(exact)));
        assert_eq!(typed("6 in"), Some(Typed::within(152.4)));
    }

    #[test]
    fn nonsense_is_not_understood() {
        for text in ["", "wide", "6 g", "12 mm mm", "1/0"] {
            assert_eq!(typed(&BLANK[0], text, METRIC), None, "{text}");
        }
    }
}
