//! What a worker has to do: one request under way, one waiting, the latest wins, and small ones for when there is nothing
//! else to do. Plain data: it neither knows the worker nor draws.

use super::request::Request;
use std::collections::VecDeque;

/// How long the next worker waits after one broke, and after each that broke right after it, ms.
const PAUSES: [u32; 4] = [0, 500, 2000, 8000];

/// A request that a worker is at, or will be as soon as it has loaded.
#[derive(Debug)]
pub struct UnderWay {
    /// Its number, rising.
    pub id: u32,
    /// What is asked.
    pub request: Request,
    /// Whether the worker has it already.
    sent: bool,
    /// Whether its first picture has come, so that a newer one may end it.
    seen: bool,
}

/// The requests of one worker.
#[derive(Debug, Default)]
pub struct RequestQueue {
    last_id: u32,
    under_way: Option<UnderWay>,
    waiting: Option<Request>,
    some_time: VecDeque<Request>,
    /// Workers that broke since the last finished request.
    breaks: usize,
}

impl RequestQueue {
    /// Asks for something; what was waiting is forgotten.
    pub fn ask(&mut self, request: Request) {
        self.waiting = Some(request);
    }

    /// Asks for a core sample as soon as nothing else is to be done, instead of any that was asked for before.
    pub fn ask_sample(&mut self, request: Request) {
        self.some_time.retain(|other| !other.is_sample());
        self.some_time.push_front(request);
    }

    /// Asks for something when nothing else is to be done.
    pub fn ask_some_time(&mut self, request: Request) {
        self.some_time.push_back(request);
    }

    /// Whether there is a request under way.
    pub fn is_busy(&self) -> bool {
        self.under_way.is_some()
    }

    /// The request that may be sent now to a worker that is `ready`; it counts as sent.
    pub fn next(&mut self, ready: bool) -> Option<&UnderWay> {
        self.take_next(ready);
        let next = self.under_way.as_mut().filter(|job| ready && !job.sent)?;
        next.sent = true;
        Some(next)
    }

    fn take_next(&mut self, ready: bool) {
        let free = self.under_way.as_ref().is_none_or(|job| job.seen || !job.sent);
        if !free {
            return;
        }
        let next = match self.waiting.take() {
            None if self.under_way.is_none() && ready => self.some_time.pop_front(),
            next => next,
        };
        if let Some(request) = next {
            self.last_id += 1;
            let seen = request.is_for_desk();
            self.under_way = Some(UnderWay { id: self.last_id, request, sent: false, seen });
        }
    }

    /// The request of this number, if it is still the one under way.
    pub fn current(&self, id: u32) -> Option<&Request> {
        self.under_way.as_ref().filter(|job| job.id == id).map(|job| &job.request)
    }

    /// A picture of the request under way has come.
    pub fn seen(&mut self) {
        self.under_way.iter_mut().for_each(|job| job.seen = true);
    }

    /// The request of this number is finished: gives it back. The other light will be drawn ahead.
    pub fn finish(&mut self, id: u32) -> Option<Request> {
        let request = self.under_way.take_if(|job| job.id == id)?.request;
        self.breaks = 0;
        if let Some(ahead) = request.by_other_light() {
            self.some_time.retain(|other| !other.is_ahead());
            self.some_time.push_back(ahead);
        }
        Some(request)
    }

    /// The worker broke. What it was at is asked of the next one, which is to start after so long, ms; none if too many broke
    /// over it, and it is given up.
    pub fn broke(&mut self) -> Option<u32> {
        let pause = PAUSES.get(self.breaks).copied();
        if pause.is_none() {
            self.breaks = 0;
            self.under_way = None;
            self.some_time.clear();
            return None;
        }
        self.breaks += 1;
        if let Some(job) = &mut self.under_way {
            (job.sent, job.seen) = (false, false);
        }
        pause
    }
}

#[cfg(test)]
mod tests {
    use super::super::request::Item;
    use super::*;
    use crate::model::slots::PictureSlot;
    use dappledome::base::seed::Seed;
    use dappledome::kiln::data::{Guess, Kiln};
    use dappledome::picture::View;
    use dappledome::picture::view::{Light, Stage};
    use dappledome::preview::Point;
    use dappledome::recipe::Recipe;

    fn request(seed: u32, item: Item) -> Request {
        Request { recipe: Recipe::bare(), seed: Seed(seed), items: vec![item] }
    }

    fn ticket(seed: u32) -> Request {
        request(seed, Item::Ticket(Box::new(Kiln::guess(Guess::SmallBrick))))
    }

    fn view() -> View {
        View::usual(Stage::Domed, Light::Day, 64)
    }

    fn sent(queue: &mut RequestQueue) -> Option<u32> {
        queue.next(true).map(|job| job.request.seed.0)
    }

    #[test]
    fn the_latest_wins_and_waits_for_the_first_picture() {
        let mut queue = RequestQueue::default();
        queue.ask(ticket(1));
        assert_eq!(sent(&mut queue), Some(1));
        queue.ask(ticket(2));
        queue.ask(ticket(3));
        assert_eq!(sent(&mut queue), None, "the first one has shown nothing yet");
        queue.seen();
        assert_eq!(sent(&mut queue), Some(3));
        assert!(queue.current(1).is_none() && queue.finish(1).is_none(), "given up for a newer one");
        assert_eq!(queue.finish(2).map(|request| request.seed), Some(Seed(3)));
        assert!(!queue.is_busy());
    }

    #[test]
    fn an_order_gives_way_at_once() {
        let mut queue = RequestQueue::default();
        let order = |pieces| request(pieces, Item::Desk(vec![pieces as u8]));
        queue.ask(order(1));
        assert_eq!(sent(&mut queue), Some(1));
        queue.ask(order(2));
        assert_eq!(sent(&mut queue), Some(2));
    }

    #[test]
    fn what_a_loading_worker_has_not_got_yet_gives_way_at_once() {
        let mut queue = RequestQueue::default();
        queue.ask(ticket(1));
        assert!(queue.next(false).is_none());
        queue.ask(ticket(2));
        assert_eq!(sent(&mut queue), Some(2));
    }

    #[test]
    fn small_work_waits_and_only_one_sample_does() {
        let mut queue = RequestQueue::default();
        let sample = |seed| request(seed, Item::Sample(view(), Point::Place(0.0, 0.0)));
        queue.ask(ticket(1));
        queue.ask_some_time(ticket(5));
        queue.ask_sample(sample(6));
        queue.ask_sample(sample(7));
        assert_eq!(sent(&mut queue), Some(1));
        queue.seen();
        assert_eq!(sent(&mut queue), None, "small work ends nothing");
        queue.finish(1);
        assert_eq!(sent(&mut queue), Some(7));
        queue.finish(2);
        assert_eq!(sent(&mut queue), Some(5));
        queue.finish(3);
        assert_eq!(sent(&mut queue), None);
    }

    #[test]
    fn the_other_light_is_drawn_ahead_once() {
        let mut queue = RequestQueue::default();
        for seed in [1, 2] {
            queue.ask(request(seed, Item::Picture(PictureSlot::Glass, view())));
            assert_eq!(sent(&mut queue), Some(seed));
            queue.finish(seed);
        }
        let job = queue.next(true).map(|job| job.request.clone()).unwrap();
        assert!(job.is_ahead() && job.seed == Seed(2));
        assert_eq!(job.pictures().map(|(_, view)| view.light).collect::<Vec<_>>(), [Light::Within]);
        queue.finish(3);
        assert_eq!(sent(&mut queue), None);
    }

    #[test]
    fn a_request_is_given_up_when_five_workers_broke_over_it() {
        let mut queue = RequestQueue::default();
        queue.ask(ticket(1));
        queue.ask_some_time(ticket(5));
        for pause in PAUSES {
            assert_eq!(sent(&mut queue), Some(1), "the next worker is asked the same");
            assert_eq!(queue.broke(), Some(pause));
        }
        assert_eq!(sent(&mut queue), Some(1));
        assert_eq!(queue.broke(), None);
        assert_eq!(sent(&mut queue), None);
        queue.ask(ticket(2));
        sent(&mut queue);
        assert_eq!(queue.broke(), Some(0), "a new count for a new request");
        sent(&mut queue);
        queue.finish(2);
        queue.ask(ticket(3));
        sent(&mut queue);
        assert_eq!(queue.broke(), Some(0), "and after one that was finished");
    }
}
