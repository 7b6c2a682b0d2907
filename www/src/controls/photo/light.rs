//! What a marked white says of the light.

use crate::words;
use dappledome::base::notice::Notice;
use leptos::prelude::*;

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
