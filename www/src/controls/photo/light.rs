//! What a marked white says of the light.

use crate::controls::number::NumberRow;
use crate::fields::types::Unit;
use crate::words;
use dappledome::base::notice::Notice;
use dappledome::recipe::limits::PHOTO_WHITE;
use leptos::prelude::*;

/// How bright the marked white is, of a perfect white: to be typed.
pub fn white_row(
    get: impl Fn() -> f64 + Send + Sync + 'static,
    set: impl Fn(f64) + Send + Sync + 'static,
    said: RwSignal<Option<String>>,
) -> AnyView {
    let value = Signal::derive(move || Some(get()));
    let set = Callback::new(move |value: Option<f64>| set(value.unwrap_or(PHOTO_WHITE.usual)));
    view! {
        <dl class="kiln-numbers">
            <NumberRow label=words::MARKED_WHITE unit=Unit::Number limit=PHOTO_WHITE value set said />
        </dl>
    }
    .into_any()
}

/// By which share the light falls off over what is marked, and whether some of that is clipped; or why the white says nothing.
pub fn light_note(light: &Result<f64, Notice>, clipped: bool) -> AnyView {
    match light {
        Ok(falls_off) => {
            view! { <div class="notice"><p role="status">{words::light_said(*falls_off, clipped)}</p></div> }
                .into_any()
        }
        Err(notice) => {
            let Notice { what, why, remedy, .. } = notice.clone();
            view! {
                <div class="notice fault">
                    <p role="status">
                        <b>{what}</b>
                        " "
                        {why}
                        " "
                        {remedy}
                    </p>
                </div>
            }
            .into_any()
        }
    }
}
