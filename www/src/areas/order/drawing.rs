//! Discs on a sheet or a shelf, to scale, seen from above.

use dappledome::kiln::data::Shelf;
use leptos::prelude::*;

/// A disc: center from the left and from the front, and its diameter, mm.
pub type Disc = (f64, f64, f64);

/// A drawing of numbered discs; those on a shelf may have a rim around them, which is so wide.
pub fn drawing(room: Shelf, discs: &[Disc], rim: Option<f64>) -> AnyView {
    let (wide, deep) = match room {
        Shelf::Round { across } => (across.0, across.0),
        Shelf::Square { wide, deep } => (wide.0, deep.0),
    };
    let edge = match room {
        Shelf::Round { .. } => wide / 2.0,
        Shelf::Square { .. } => 0.0,
    };
    let one = |(at, (x, y, across)): (usize, &Disc)| {
        // The front is drawn below.
        let y = deep - y;
        let rim = rim.map(|rim| view! { <circle class="rim" cx=*x cy=y r=rim / 2.0 /> });
        view! {
            {rim}
            <circle cx=*x cy=y r=across / 2.0 />
            <path d=format!("M{} {y}h12m-6 -6v12", x - 6.0) />
            <text x=x + 10.0 y=y - 10.0>{(at + 1).to_string()}</text>
        }
    };
    let discs = discs.iter().enumerate().map(one).collect_view();
    view! {
        <svg class="order-drawing" viewBox=format!("-2 -2 {} {}", wide + 4.0, deep + 4.0) aria-hidden="true">
            <rect width=wide height=deep rx=edge />
            {discs}
        </svg>
    }
    .into_any()
}
