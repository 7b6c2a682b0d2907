//! The browser's clock and calendar.

use crate::model::local_time::LocalTime;
use dappledome::orders::model::Date;
use futures::channel::oneshot;
use leptos::prelude::set_timeout;
use std::time::Duration;
use wasm_bindgen::JsValue;

const DAY: f64 = 86_400_000.0;

/// Now, ms since 1970.
pub fn now() -> f64 {
    js_sys::Date::now()
}

/// The day that it is where the maker is.
pub fn today() -> Date {
    let LocalTime { year, month, day, .. } = local(now());
    // A browser's calendar has only days that there are.
    Date::new(year as i16, month as i8, day as i8).unwrap_or_default()
}

/// A moment, ms since 1970, as it is where the maker is.
pub fn local(time: f64) -> LocalTime {
    let date = js_sys::Date::new(&JsValue::from_f64(time));
    LocalTime {
        year: date.get_full_year(),
        month: date.get_month() + 1,
        day: date.get_date(),
        hour: date.get_hours(),
        minute: date.get_minutes(),
    }
}

/// The same hour of the day before, ms since 1970.
pub fn day_before(time: f64) -> f64 {
    time - DAY
}

/// Waits for so long.
pub async fn pause(time: Duration) {
    let (tell, told) = oneshot::channel();
    let wake = move || {
        // Whoever does not wait any more need not be told.
        let _ = tell.send(());
    };
    set_timeout(wake, time);
    // Ends when it is told, and when it never will be.
    let _ = told.await;
}
