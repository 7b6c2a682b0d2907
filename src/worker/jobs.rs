//! What the worker does with a job: it runs it step by step and gives it up for the next one.

use super::asked::AtDesk;
use super::protocol::{Answer, Job, Wanted};
use crate::base::memo::{Allowance, Paused};
use crate::base::seed::Seed;
use crate::picture::Pixmap;
use crate::preview::Preview;
use crate::recipe::plan::{Plan, Planned};
use crate::shop::{sisters, ticket};

/// How far one step went.
#[derive(Clone, Debug, PartialEq)]
pub enum Progress {
    /// Nothing to show yet: call again.
    Working,
    /// An answer, and its pixels if it is a picture.
    Answer(Answer, Option<Pixmap>),
    /// There is no job.
    Idle,
}

/// The pipeline with its memory, and the job under way.
#[derive(Debug, Default)]
pub struct JobRunner {
    preview: Preview,
    /// Who works out orders, as soon as that part of the program is there.
    desk: Option<Box<dyn AtDesk>>,
    under_way: Option<UnderWay>,
}

#[derive(Debug)]
struct UnderWay {
    job: Job,
    /// None if the recipe has a fault.
    plan: Option<Plan>,
    /// How many of the things wanted are done.
    done: usize,
}

impl JobRunner {
    /// A runner without a job.
    pub fn new() -> Self {
        Self::default()
    }

    /// Whether there is somebody for the desk's jobs.
    pub fn has_desk(&self) -> bool {
        self.desk.is_some()
    }

    /// Has the desk's jobs done from now on.
    pub fn open_desk(&mut self, desk: Box<dyn AtDesk>) {
        self.desk = Some(desk);
    }

    /// Takes a job; one still under way is given up.
    pub fn put(&mut self, job: Job) {
        let plan = Plan::new(&job.recipe).ok().map(|Planned { plan, .. }| plan);
        self.under_way = Some(UnderWay { job, plan, done: 0 });
    }

    /// Does one step toward the first thing wanted that is not done yet.
    pub fn step(&mut self) -> Progress {
        let Some(UnderWay { job, plan, done }) = &mut self.under_way else { return Progress::Idle };
        let (id, seed) = (job.id, job.seed);
        let (Some(plan), Some(wanted)) = (plan, job.wanted.get(*done)) else { return self.done(id) };
        match answer((&mut self.preview, self.desk.as_deref_mut()), plan, id, seed, (*done, wanted)) {
            Ok((answer, picture)) => {
                *done += usize::from(!matches!(answer, Answer::Desk { whole: false, .. }));
                Progress::Answer(answer, picture)
            }
            Err(Paused) => Progress::Working,
        }
    }

    fn done(&mut self, id: u32) -> Progress {
        self.under_way = None;
        Progress::Answer(Answer::Done { id }, None)
    }
}

/// One thing wanted, if a single step is enough for it.
fn answer(
    (preview, desk): (&mut Preview, Option<&mut (dyn AtDesk + 'static)>),
    plan: &Plan,
    id: u32,
    seed: Seed,
    (at, wanted): (usize, &Wanted),
) -> Result<(Answer, Option<Pixmap>), Paused> {
    let mut allowance = Allowance::steps(1);
    Ok(match wanted {
        Wanted::Picture(view) => {
            let picture = preview.advance(plan, seed, view, &mut allowance)?;
            (Answer::Picture { id, at, width: picture.width, height: picture.height }, Some(picture))
        }
        Wanted::Ticket(kiln) => {
            let ticket = ticket::ticket(preview, plan, seed, kiln, &mut allowance)?;
            (Answer::Ticket { id, ticket: Box::new(ticket) }, None)
        }
        Wanted::Features => {
            (Answer::Features { id, features: sisters::features(preview, plan, seed, &mut allowance)? }, None)
        }
        Wanted::HowSure(view) => {
            (Answer::HowSure { id, how: preview.how_sure(plan, seed, view, &mut allowance)? }, None)
        }
        Wanted::Desk(asked) => match desk.ok_or(Paused)?.step(preview, id, asked) {
            Ok(said) => {
                let (said, whole) = said.ok_or(Paused)?;
                (Answer::Desk { id, said, whole }, None)
            }
            Err(text) => (Answer::Broke { text }, None),
        },
        Wanted::Sample(view, point) => {
            (Answer::Sample { id, sample: preview.sample(plan, seed, view, *point, &mut allowance)? }, None)
        }
    })
}

#[cfg(test)]
mod tests {
    use super::super::asked::{DeskJob, OrderJob};
    use super::super::desk::Desk;
    use super::super::protocol::written;
    use super::*;
    use crate::base::seed::Seed;
    use crate::base::units::Mm;
    use crate::kiln::data::{Guess, Kiln};
    use crate::orders::model::Order;
    use crate::picture::View;
    use crate::picture::view::{Light, Stage};
    use crate::preview::Point;
    use crate::recipe::{Recipe, demo};
    use jiff::civil::date;

    fn job(id: u32, recipe: Recipe) -> Job {
        let view = View::usual(Stage::Fused, Light::Day, 32);
        let small = Wanted::Picture(view);
        let large = Wanted::Picture(View { size: 48, ..view });
        let sample = Wanted::Sample(view, Point::Seen(0.5, 0.4));
        Job {
            id,
            recipe,
            seed: Seed(1),
            wanted: vec![
                small,
                Wanted::Ticket(Box::new(Kiln::guess(Guess::Fiber))),
                Wanted::Features,
                Wanted::HowSure(view),
                sample,
                large,
            ],
        }
    }

    fn answers(runner: &mut JobRunner) -> Vec<String> {
        let mut heard = Vec::new();
        for _ in 0..1000 {
            match runner.step() {
                Progress::Working => {}
                Progress::Idle => break,
                Progress::Answer(Answer::Picture { id, at, width, .. }, pixels) => {
                    assert_eq!(pixels.map(|p| p.width), Some(width));
                    heard.push(format!("picture {id}.{at} {width}"));
                }
                Progress::Answer(Answer::Ticket { id, .. }, _) => heard.push(format!("ticket {id}")),
                Progress::Answer(Answer::Features { id, .. }, _) => heard.push(format!("features {id}")),
                Progress::Answer(Answer::HowSure { id, .. }, _) => heard.push(format!("how sure {id}")),
                Progress::Answer(Answer::Sample { id, .. }, _) => heard.push(format!("sample {id}")),
                Progress::Answer(Answer::Done { id }, _) => heard.push(format!("done {id}")),
                Progress::Answer(Answer::Desk { id, whole, .. }, _) => {
                    heard.push(format!("desk {id} {whole}"))
                }
                Progress::Answer(Answer::Broke { .. }, _) => heard.push("broke".into()),
                Progress::Answer(Answer::Ready, _) => unreachable!("a runner does not load"),
            }
        }
        heard
    }

    #[test]
    fn a_job_is_answered_in_order_and_ends() {
        let mut runner = JobRunner::new();
        runner.put(job(7, Recipe::bare()));
        assert_eq!(
            answers(&mut runner),
            [
                "picture 7.0 32",
                "ticket 7",
                "features 7",
                "how sure 7",
                "sample 7",
                "picture 7.5 48",
                "done 7"
            ]
        );
    }

    #[test]
    fn a_newer_job_ends_the_older_one() {
        let mut runner = JobRunner::new();
        runner.put(job(1, Recipe::bare()));
        runner.step();
        let job = job(2, Recipe::bare());
        runner.put(Job { wanted: vec![job.wanted[0].clone(), job.wanted[5].clone()], ..job });
        assert_eq!(answers(&mut runner), ["picture 2.0 32", "picture 2.1 48", "done 2"]);
    }

    #[test]
    fn a_job_that_cannot_work_ends_at_once() {
        let mut recipe = Recipe::bare();
        recipe.blank.diameter = Mm(f64::NAN);
        let mut runner = JobRunner::new();
        runner.put(job(3, recipe));
        assert_eq!(answers(&mut runner), ["done 3"]);
    }

    #[test]
    fn the_desk_tells_an_order_twice_and_refuses_what_is_no_job() {
        let mut runner = JobRunner::new();
        assert!(!runner.has_desk());
        runner.open_desk(Box::new(Desk::default()));
        let mut order = Order::of(demo::ember_walk(), 2);
        order.lines[0].seeds = vec![Seed(41), Seed(43)];
        let asked =
            DeskJob::Order(Box::new(OrderJob { order, others: Vec::new(), today: date(2026, 11, 30) }));
        let wanted = vec![Wanted::Desk(written(&asked)), Wanted::Desk(vec![7])];
        let job = Job { wanted, ..job(5, Recipe::bare()) };
        assert!(runner.has_desk() && job.is_for_desk());
        runner.put(job);
        assert_eq!(answers(&mut runner), ["desk 5 false", "desk 5 true", "broke", "done 5"]);
    }
}
