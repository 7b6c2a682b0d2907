//! The screen, kept on while hands are busy (Screen Wake Lock, W3C; not every browser has it).

use js_sys::{Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// A screen that is kept on until this is let go, or until the page is hidden.
#[derive(Debug)]
pub struct Awake(JsValue);

impl Awake {
    /// Whether the browser can.
    pub fn is_possible() -> bool {
        lock().is_some()
    }

    /// Asks for it; none if the browser cannot, or will not.
    pub async fn ask() -> Option<Self> {
        let asked: Promise = call(&lock()?, "request", &JsValue::from_str("screen"))?.dyn_into().ok()?;
        JsFuture::from(asked).await.ok().map(Self)
    }
}

impl Drop for Awake {
    fn drop(&mut self) {
        // One that the browser has let go of already is let go once more: nothing comes of it.
        call(&self.0, "release", &JsValue::UNDEFINED);
    }
}

fn lock() -> Option<JsValue> {
    let navigator = web_sys::window()?.navigator();
    let lock = Reflect::get(&navigator, &JsValue::from_str("wakeLock")).ok()?;
    lock.is_object().then_some(lock)
}

fn call(of: &JsValue, name: &str, with: &JsValue) -> Option<JsValue> {
    let function: Function = Reflect::get(of, &JsValue::from_str(name)).ok()?.dyn_into().ok()?;
    function.call1(of, with).ok()
}
