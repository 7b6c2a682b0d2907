//! The tabs of one browser hear of each other's changes.

use wasm_bindgen::prelude::*;
use web_sys::{BroadcastChannel, MessageEvent};

/// The line on which they hear of pieces.
pub const PIECES: &str = "dappledome";
/// And of orders, the bench and the log.
pub const PAPERS: &str = "dappledome.papers";

/// The line to the other tabs; closed when it is dropped.
pub struct Tabs {
    channel: BroadcastChannel,
    _hear: Closure<dyn Fn(MessageEvent)>,
}

impl Tabs {
    /// Opens a line. `on_news` gets the number of what another tab changed or took away; none if that changed many. Without a
    /// line a tab finds out when it saves.
    pub fn open(line: &str, on_news: impl Fn(Option<u64>) + 'static) -> Option<Self> {
        let channel = BroadcastChannel::new(line).ok()?;
        let hear = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
            on_news(event.data().as_f64().map(|id| id as u64));
        });
        channel.set_onmessage(Some(hear.as_ref().unchecked_ref()));
        Some(Self { channel, _hear: hear })
    }

    /// Tells the other tabs that something was changed or taken away; none if many were.
    pub fn tell(&self, id: Option<u64>) {
        // A tab that hears nothing finds out when it saves.
        let _ = self.channel.post_message(&id.map_or(JsValue::NULL, |id| JsValue::from_f64(id as f64)));
    }
}

impl Drop for Tabs {
    fn drop(&mut self) {
        self.channel.set_onmessage(None);
        self.channel.close();
    }
}
