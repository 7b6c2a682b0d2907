//! A worker for one kind of the desk's work, which starts with the first job.

use super::client::RenderClient;
use super::program::Program;
use super::request::{Item, Request, Response};
use crate::model::ids::PanelId;
use crate::state::nav::Nav;
use dappledome::base::seed::Seed;
use dappledome::recipe::Recipe;
use dappledome::worker::asked::{DeskJob, Said};
use dappledome::worker::protocol::{read, written};
use leptos::prelude::*;
use std::rc::Rc;

/// Has each job done that there comes to be, as long as the present owner lives; the newest wins. The browser calls the worker `name`;
/// `bring` gets what it says.
pub fn keep_asking(
    name: &'static str,
    program: Program,
    job: impl Fn() -> Option<DeskJob> + 'static,
    bring: impl Fn(Said) + 'static,
) {
    let nav = expect_context::<Nav>();
    let bring: Rc<dyn Fn(Response)> = Rc::new(move |response| match response {
        // Both sides are one program: what is said is understood.
        Response::Desk(said) => read(&said).into_iter().for_each(&bring),
        Response::Stopped => nav.open_panel(PanelId::STOPPED),
        _ => {}
    });
    let client = StoredValue::new_local(None::<RenderClient>);
    Effect::new(move || {
        let Some(job) = job() else { return };
        // Such jobs have recipes and seeds of their own.
        let items = vec![Item::Desk(written(&job))];
        let request = Request { recipe: Recipe::bare(), seed: Seed(0), items };
        client.update_value(|client| {
            let start = || RenderClient::new(name, program.clone(), bring.clone());
            client.get_or_insert_with(start).ask(request);
        });
    });
}
