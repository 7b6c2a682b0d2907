//! The desk at which the worker draws: one job on it, done step by step, swept off by the next one.

use super::protocol::{Answer, Job};
use crate::base::memo::Allowance;
use crate::picture::Pixmap;
use crate::preview::Preview;
use crate::recipe::plan::{Plan, Planned};
use crate::shop::ticket;

/// What one step at the desk brought.
#[derive(Clone, Debug, PartialEq)]
pub enum Said {
    /// Nothing to show yet: call again.
    Working,
    /// An answer, and its pixels if it is a picture.
    Answer(Answer, Option<Pixmap>),
    /// There is no job.
    Idle,
}

/// The pipeline with its memory, and the job under way.
#[derive(Debug, Default)]
pub struct Desk {
    preview: Preview,
    under_way: Option<UnderWay>,
}

#[derive(Debug)]
struct UnderWay {
    job: Job,
    /// None if the recipe has a fault.
    plan: Option<Plan>,
    drawn: usize,
    counted: bool,
}

impl Desk {
    /// An empty desk.
    pub fn new() -> Self {
        Self::default()
    }

    /// Puts a job on the desk; one still lying there is given up.
    pub fn put(&mut self, job: Job) {
        let plan = Plan::new(&job.recipe).ok().map(|Planned { plan, .. }| plan);
        let counted = !job.ticket;
        self.under_way = Some(UnderWay { job, plan, drawn: 0, counted });
    }

    /// Does one step: the first picture, then the ticket, then the other pictures, then the end.
    pub fn step(&mut self) -> Said {
        let Some(at) = &mut self.under_way else { return Said::Idle };
        let id = at.job.id;
        let Some(plan) = &at.plan else { return self.done(id) };
        let mut allowance = Allowance::steps(1);
        if at.drawn > 0 && !at.counted {
            return match ticket::ticket(&mut self.preview, plan, at.job.seed, &mut allowance) {
                Ok(ticket) => {
                    at.counted = true;
                    Said::Answer(Answer::Ticket { id, ticket }, None)
                }
                Err(_) => Said::Working,
            };
        }
        let Some(view) = at.job.views.get(at.drawn) else {
            if !at.counted {
                at.drawn = at.drawn.max(1);
                return Said::Working;
            }
            return self.done(id);
        };
        match self.preview.advance(plan, at.job.seed, view, &mut allowance) {
            Ok(picture) => {
                let view = at.drawn;
                at.drawn += 1;
                let (width, height) = (picture.width, picture.height);
                Said::Answer(Answer::Picture { id, view, width, height }, Some(picture))
            }
            Err(_) => Said::Working,
        }
    }

    fn done(&mut self, id: u32) -> Said {
        self.under_way = None;
        Said::Answer(Answer::Done { id }, None)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::seed::Seed;
    use crate::base::units::Mm;
    use crate::picture::View;
    use crate::picture::view::{Light, Stage};
    use crate::recipe::Recipe;

    fn job(id: u32, recipe: Recipe) -> Job {
        let view = View::usual(Stage::Fused, Light::Day, 32);
        Job { id, recipe, seed: Seed(1), views: vec![view, View { size: 48, ..view }], ticket: true }
    }

    fn answers(desk: &mut Desk) -> Vec<String> {
        let mut heard = Vec::new();
        for _ in 0..1000 {
            match desk.step() {
                Said::Working => {}
                Said::Idle => break,
                Said::Answer(Answer::Picture { id, view, width, .. }, pixels) => {
                    assert_eq!(pixels.map(|p| p.width), Some(width));
                    heard.push(format!("picture {id}.{view} {width}"));
                }
                Said::Answer(Answer::Ticket { id, .. }, _) => heard.push(format!("ticket {id}")),
                Said::Answer(Answer::Done { id }, _) => heard.push(format!("done {id}")),
                Said::Answer(..) => unreachable!("the desk neither loads nor breaks"),
            }
        }
        heard
    }

    #[test]
    fn a_job_is_answered_in_order_and_ends() {
        let mut desk = Desk::new();
        desk.put(job(7, Recipe::bare()));
        assert_eq!(answers(&mut desk), ["picture 7.0 32", "ticket 7", "picture 7.1 48", "done 7"]);
    }

    #[test]
    fn a_newer_job_sweeps_the_older_one_off() {
        let mut desk = Desk::new();
        desk.put(job(1, Recipe::bare()));
        desk.step();
        desk.put(Job { ticket: false, ..job(2, Recipe::bare()) });
        assert_eq!(answers(&mut desk), ["picture 2.0 32", "picture 2.1 48", "done 2"]);
    }

    #[test]
    fn a_job_that_cannot_work_ends_at_once() {
        let mut recipe = Recipe::bare();
        recipe.blank.diameter = Mm(f64::NAN);
        let mut desk = Desk::new();
        desk.put(job(3, recipe));
        assert_eq!(answers(&mut desk), ["done 3"]);
    }
}
