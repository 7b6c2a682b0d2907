//! Addresses of what the page holds in memory.

use js_sys::{Array, Uint8Array};
use web_sys::{Blob, Url};

/// The address of bytes that the page holds, as long as this lives or until it is revoked.
#[derive(Debug)]
pub struct ObjectUrl(String);

impl ObjectUrl {
    /// The address of a picture; the browser tells by its first bytes which format it is. None if the browser gives none.
    pub fn of_bytes(bytes: &Uint8Array) -> Option<Self> {
        let blob = Blob::new_with_u8_array_sequence(&Array::of1(bytes)).ok()?;
        Url::create_object_url_with_blob(&blob).ok().map(Self)
    }

    /// The address.
    pub fn address(&self) -> String {
        self.0.clone()
    }

    /// Lets the browser forget the bytes.
    pub fn revoke(&self) {
        // One that is revoked already does no harm.
        let _ = Url::revoke_object_url(&self.0);
    }
}

impl Drop for ObjectUrl {
    fn drop(&mut self) {
        self.revoke();
    }
}
