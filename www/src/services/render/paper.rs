//! Has the paper of the open order laid out while it lies on the table, by a worker of its own that starts with the first sheet.

use super::client::RenderClient;
use super::orders::OrderRenderer;
use super::program::Program;
use super::request::{Item, Request, Response};
use crate::model::ids::{AreaId, PanelId};
use crate::state::log::Log;
use crate::state::nav::Nav;
use crate::state::order_paper::OrderPaper;
use crate::state::orders::Orders;
use dappledome::base::seed::Seed;
use dappledome::recipe::Recipe;
use dappledome::worker::protocol::PaperJob;
use leptos::prelude::*;
use std::rc::Rc;

/// Keeps it laid out as long as the present owner lives. Takes the contexts of the page.
pub fn start(program: Program) {
    let (nav, paper) = (expect_context::<Nav>(), expect_context::<OrderPaper>());
    let (orders, log) = (expect_context::<Orders>(), expect_context::<Log>());
    let renderer = OrderRenderer::of_contexts();
    let bring = move |response| match response {
        Response::Paper(sheets) => paper.take(sheets),
        Response::Stopped => nav.open_panel(PanelId::STOPPED),
        _ => {}
    };
    let job = move || {
        if nav.area.get() != AreaId::ORDER_PAPER {
            return None;
        }
        let worked = orders.worked.get()?;
        let job = renderer.job()?;
        Some(PaperJob {
            worked: (*worked).clone(),
            next_time: job.order.lines.iter().map(|line| log.next_time_of(line)).collect(),
            kind: paper.kind.get(),
            paper: paper.size.get(),
            today: job.today,
            order: job.order,
        })
    };
    let client = StoredValue::new_local(None::<RenderClient>);
    Effect::new(move || {
        let Some(job) = job() else { return };
        let request =
            Request { recipe: Recipe::bare(), seed: Seed(0), items: vec![Item::Paper(Box::new(job))] };
        client.update_value(|client| {
            client
                .get_or_insert_with(|| RenderClient::new("paper", program.clone(), Rc::new(bring)))
                .ask(request);
        });
    });
}
