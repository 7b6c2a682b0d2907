//! A worker for one kind of work, which starts with the first job.

use super::client::RenderClient;
use super::program::Program;
use super::request::{Item, Request, Response};
use dappledome::base::seed::Seed;
use dappledome::recipe::Recipe;
use leptos::prelude::*;
use std::rc::Rc;

/// Has each job done that there comes to be, as long as the present owner lives; the newest wins. The browser calls the worker `name`;
/// `bring` gets what it brings.
pub fn keep_asking(
    name: &'static str,
    program: Program,
    job: impl Fn() -> Option<Item> + 'static,
    bring: impl Fn(Response) + 'static,
) {
    let bring: Rc<dyn Fn(Response)> = Rc::new(bring);
    let client = StoredValue::new_local(None::<RenderClient>);
    Effect::new(move || {
        let Some(item) = job() else { return };
        // Such jobs have recipes and seeds of their own.
        let request = Request { recipe: Recipe::bare(), seed: Seed(0), items: vec![item] };
        client.update_value(|client| {
            let start = || RenderClient::new(name, program.clone(), bring.clone());
            client.get_or_insert_with(start).ask(request);
        });
    });
}
