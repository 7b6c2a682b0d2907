//! The compiled program that the page shares with its workers.

use wasm_bindgen::prelude::*;
use web_sys::{Worker, WorkerOptions, WorkerType};

/// The compiled program, and the script that runs it in a worker.
#[derive(Clone, Debug)]
pub struct Program {
    /// The compiled module.
    pub module: JsValue,
    /// Address of the worker's script.
    pub worker_url: String,
}

impl Program {
    /// Starts a worker of this name and hands it the program.
    ///
    /// # Errors
    /// What the browser says if it starts no worker.
    pub fn start_worker(&self, name: &str) -> Result<Worker, JsValue> {
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        options.set_name(name);
        let worker = Worker::new_with_options(&self.worker_url, &options)?;
        // A module that cannot be cloned would have failed the page itself before.
        let _ = worker.post_message(&self.module);
        Ok(worker)
    }
}
