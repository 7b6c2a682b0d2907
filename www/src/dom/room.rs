//! Whether the disk has room: tried with a file of the browser's own, which nobody misses.

use js_sys::Reflect;
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    FileSystemDirectoryHandle, FileSystemFileHandle, FileSystemGetFileOptions, FileSystemWritableFileStream,
};

/// The name of the file.
const TRIAL: &str = "dappledome-room";

/// Whether so many bytes can be written. Where the browser has no such files it cannot be told: then there may be.
pub async fn is_there(bytes: usize) -> bool {
    let storage = window().navigator().storage();
    if !has(&storage, "getDirectory") {
        return true;
    }
    let Ok(folder) = JsFuture::from(storage.get_directory()).await else { return true };
    let folder: FileSystemDirectoryHandle = folder.unchecked_into();
    let written = write(&folder, bytes).await;
    // One that stays is written over the next time.
    let _ = JsFuture::from(folder.remove_entry(TRIAL)).await;
    written.is_ok()
}

async fn write(folder: &FileSystemDirectoryHandle, bytes: usize) -> Result<(), JsValue> {
    let options = FileSystemGetFileOptions::new();
    options.set_create(true);
    let file = JsFuture::from(folder.get_file_handle_with_options(TRIAL, &options)).await?;
    let file: FileSystemFileHandle = file.unchecked_into();
    if !has(&file, "createWritable") {
        return Ok(());
    }
    let stream: FileSystemWritableFileStream = JsFuture::from(file.create_writable()).await?.unchecked_into();
    JsFuture::from(stream.write_with_u8_array(&vec![0; bytes])?).await?;
    JsFuture::from(stream.close()).await.map(drop)
}

fn has(object: &JsValue, name: &str) -> bool {
    Reflect::has(object, &name.into()).unwrap_or(false)
}
