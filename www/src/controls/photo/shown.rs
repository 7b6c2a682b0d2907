//! The photo, and the frames on it.

use super::frame::{KEYS, PhotoFrame};
use crate::dom::canvas;
use crate::model::photo::{Mark, Photo};
use crate::words;
use dappledome::photo::frame::{Frame, Shape};
use leptos::html;
use leptos::prelude::*;
use std::sync::Arc;

/// The photo that is shown, which stays the same while its marks are dragged: it is not drawn anew.
pub fn the_photo(photo: impl Fn() -> Option<Arc<Photo>> + Send + Sync + 'static) -> Memo<Option<Arc<Photo>>> {
    Memo::new_with_compare(move |_| photo(), |one, other| one.map(place) != other.map(place))
}

fn place(photo: &Option<Arc<Photo>>) -> Option<*const Photo> {
    photo.as_ref().map(Arc::as_ptr)
}

/// A photo on which places are marked: frames are dragged by pointer or keys, round ones as the ellipse in their box.
#[component]
pub fn MarkedPhoto(
    /// The photo.
    photo: Arc<Photo>,
    /// The marks; those that come later lie above.
    marks: Signal<Vec<Mark>>,
    /// Takes the frame of the mark at this place elsewhere.
    put: Callback<(usize, Frame)>,
) -> impl IntoView {
    let canvas = NodeRef::<html::Canvas>::new();
    let size = photo.size;
    let said = words::photo_said(&photo.name);
    canvas.on_load(move |canvas| canvas::show_photo(&canvas, size, &photo.rgba));
    let ratio = f64::from(size.0) / f64::from(size.1);
    let places = move || 0..marks.with(Vec::len);
    let mark = move |at: usize| {
        let none =
            Mark { name: String::new(), frame: Frame::at(Shape::Rectangle, (0.5, 0.5), (0.1, 0.1), size) };
        Signal::derive(move || marks.with(|marks| marks.get(at).cloned()).unwrap_or_else(|| none.clone()))
    };
    view! {
        <div class="marked-photo" style=("--ratio", ratio.to_string())>
            <canvas node_ref=canvas role="img" aria-label=said></canvas>
            <For each=places key=|at| *at let:at>
                <PhotoFrame mark=mark(at) photo=size put=Callback::new(move |frame| put.run((at, frame))) />
            </For>
            <p class="unseen" id=KEYS>
                {words::PHOTO_KEYS}
            </p>
        </div>
    }
}
