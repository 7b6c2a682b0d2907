//! Photos out of files, read by a worker of their own, so that even a large one does not hold the page up.

use super::render::program::Program;
use crate::model::photo::{Photo, PhotoFault};
use futures::channel::oneshot;
use js_sys::{Array, Uint8Array};
use leptos::prelude::*;
use std::cell::Cell;
use wasm_bindgen::prelude::*;
use web_sys::{Event, File, MessageEvent, Url, Worker, WorkerOptions};

/// The longest side that a photo of tiles is read with, pixels: a tile of it is still a hundred across.
pub const LONGEST: i32 = 1600;
/// A photo with a shorter side than this shows nothing.
const SHORTEST: i32 = 32;
/// The worker's script, beside that of the other workers.
const SCRIPT: &str = "photo.js";

/// Reads photos.
#[derive(Clone, Copy)]
pub struct PhotoReader(StoredValue<String>);

impl PhotoReader {
    /// A reader whose script lies beside that of this program's workers.
    pub fn new(program: &Program) -> Self {
        let script = Url::new_with_base(SCRIPT, &program.worker_url).map(|address| address.href());
        Self(StoredValue::new(script.unwrap_or_default()))
    }

    /// The photo in a file, no longer than this.
    ///
    /// # Errors
    /// Why it is none.
    pub async fn read(&self, file: &File, longest: i32) -> Result<Photo, PhotoFault> {
        let (wide, high, taken, pixels) = self.decoded(file, longest).await.ok_or(PhotoFault::None)?;
        if wide.min(high) < SHORTEST {
            return Err(PhotoFault::Small((wide, high)));
        }
        let rgba = Uint8Array::new(&pixels).to_vec();
        let smaller_from = (taken > f64::from(wide) * f64::from(high)).then_some(taken);
        Ok(Photo { name: file.name(), size: (wide, high), rgba, smaller_from })
    }

    /// Width, height, how many pixels were taken, and the pixels; none if the worker cannot read it.
    async fn decoded(&self, file: &File, longest: i32) -> Option<(i32, i32, f64, JsValue)> {
        let options = WorkerOptions::new();
        options.set_name("photo");
        let worker = Worker::new_with_options(&self.0.try_get_value()?, &options).ok()?;
        let (tell, told) = oneshot::channel();
        let tell = Cell::new(Some(tell));
        let heard = Closure::<dyn Fn(Event)>::new(move |event: Event| {
            // An error has no answer in it. Whoever does not wait any more need not be told.
            let answer = event.dyn_into::<MessageEvent>().map(|message| message.data()).unwrap_or_default();
            if let Some(tell) = tell.take() {
                let _ = tell.send(answer);
            }
        });
        worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        worker.set_onerror(Some(heard.as_ref().unchecked_ref()));
        let asked = worker.post_message(&Array::of2(file, &longest.into()));
        let answer = if asked.is_ok() { told.await.ok() } else { None };
        worker.terminate();
        let answer: Array = answer?.dyn_into().ok()?;
        let number = |at: u32| answer.get(at).as_f64();
        Some((number(0)? as i32, number(1)? as i32, number(2)?, answer.get(3)))
    }
}
