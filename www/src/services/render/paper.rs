//! Has the paper of the open order laid out while it lies on the table, by a worker of its own that starts with the first sheet.

use super::orders::OrderRenderer;
use super::own_worker::keep_asking;
use super::program::Program;
use crate::model::ids::AreaId;
use crate::state::log::Log;
use crate::state::nav::Nav;
use crate::state::order_paper::OrderPaper;
use crate::state::orders::Orders;
use dappledome::worker::asked::{DeskJob, PaperJob, Said};
use leptos::prelude::*;

/// Keeps it laid out as long as the present owner lives. Takes the contexts of the page.
pub fn start(program: Program) {
    let (nav, paper) = (expect_context::<Nav>(), expect_context::<OrderPaper>());
    let (orders, log) = (expect_context::<Orders>(), expect_context::<Log>());
    let renderer = OrderRenderer::of_contexts();
    let bring = move |said| {
        if let Said::Paper(sheets) = said {
            paper.take(sheets);
        }
    };
    let job = move || {
        if nav.area.get() != AreaId::ORDER_PAPER {
            return None;
        }
        let worked = orders.worked.get()?;
        let job = renderer.job()?;
        let job = PaperJob {
            worked: (*worked).clone(),
            next_time: job.order.lines.iter().map(|line| log.next_time_of(line)).collect(),
            kind: paper.kind.get(),
            paper: paper.size.get(),
            today: job.today,
            order: job.order,
        };
        Some(DeskJob::Paper(Box::new(job)))
    };
    keep_asking("paper", program, job, bring);
}
