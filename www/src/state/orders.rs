//! The maker's orders, the one that is open, the bench that lies under all of them, and how to take back what was done to the open one.

use super::history::{History, NextSteps};
use crate::dom::clock;
use crate::model::ids::OrderId;
use crate::model::records::OrderRecord;
use dappledome::base::notice::Notice;
use dappledome::orders::bench::Bench;
use dappledome::orders::model::{Date, Order, What};
use dappledome::orders::worked::Worked;
use leptos::prelude::*;
use std::sync::Arc;

/// How the open order stands, and the bench under it.
type Version = (Order, Bench);

/// The maker's orders.
#[derive(Clone, Copy, Debug)]
pub struct Orders {
    /// All of them, the newest first.
    pub list: RwSignal<Vec<OrderRecord>>,
    /// Which is open.
    pub open: RwSignal<Option<OrderId>>,
    /// What is the maker's and no customer's.
    pub bench: RwSignal<Bench>,
    /// What the open one comes to, as it was last worked out.
    pub worked: RwSignal<Option<Arc<Worked>>>,
    /// Every fault of it; what it came to before stays to be looked at.
    pub faults: RwSignal<Vec<Notice>>,
    /// A step that was moved to another day, of which it is to be said where it came to lie.
    moved: RwSignal<Option<(What, u32)>>,
    /// What can be taken back of the open one, and brought again.
    pub next_steps: Memo<NextSteps>,
    /// What was done to the open one.
    history: RwSignal<History<Version>>,
    /// The one that was deleted last, and where it stood.
    gone: RwSignal<Option<(usize, OrderRecord)>>,
}

impl Orders {
    /// Nothing ordered yet.
    pub fn new() -> Self {
        let history = RwSignal::new(History::default());
        Self {
            list: RwSignal::new(Vec::new()),
            open: RwSignal::new(None),
            bench: RwSignal::new(Bench::default()),
            worked: RwSignal::new(None),
            faults: RwSignal::new(Vec::new()),
            moved: RwSignal::new(None),
            next_steps: Memo::new(move |_| history.read().next_steps()),
            history,
            gone: RwSignal::new(None),
        }
    }

    /// The open order, followed.
    pub fn opened(&self) -> Option<Order> {
        self.with(Order::clone)
    }

    /// Something of the open order, followed; none if none is open.
    pub fn with<T>(&self, look: impl FnOnce(&Order) -> T) -> Option<T> {
        let open = self.open.get()?;
        self.list.read().iter().find(|record| record.id == open).map(|record| look(&record.order))
    }

    /// Every other order, followed.
    pub fn others(&self) -> Vec<Order> {
        let open = self.open.get();
        let list = self.list.read();
        list.iter().filter(|record| Some(record.id) != open).map(|record| record.order.clone()).collect()
    }

    /// Takes what the open order comes to, or what is wrong with it.
    pub fn take(&self, outcome: Result<Box<Worked>, Vec<Notice>>) {
        let faults = match outcome {
            Ok(worked) => {
                self.worked.set(Some(worked.into()));
                Vec::new()
            }
            Err(faults) => faults,
        };
        if self.faults.with_untracked(|now| *now != faults) {
            self.faults.set(faults);
        }
    }

    /// Has it said, as soon as it is known, where a step came to lie that was moved: which, and the pieces before it.
    pub fn say_moved(&self, step: (What, u32)) {
        self.moved.set(Some(step));
    }

    /// The step that was moved, the day on which it lies by now, and when the order is ready; once.
    pub fn moved(&self) -> Option<(What, Option<Date>, Date)> {
        let (what, after) = self.moved.try_update(Option::take).flatten()?;
        self.worked.with_untracked(|worked| {
            let days = worked.as_ref()?.days.as_ref()?;
            let (mut before, mut lies) = (0, None);
            for doing in days.doings.iter().filter(|doing| doing.what == what) {
                if before <= after {
                    lies = Some(doing.day);
                }
                before += doing.pieces;
            }
            Some((what, lies, days.ready))
        })
    }

    /// Writes a new order down and opens it. What is the maker's goes off it.
    pub fn begin(&self, order: Order) {
        let id = OrderId::fresh();
        let (order, _) = Bench::lifted_off(order);
        self.list.update(|list| list.insert(0, OrderRecord { id, order }));
        self.open(id);
    }

    /// Opens one of them. What was done to another one can no longer be taken back.
    pub fn open(&self, id: OrderId) {
        if self.open.get_untracked() != Some(id) {
            self.history.set(History::default());
            self.worked.set(None);
            self.faults.set(Vec::new());
            self.open.set(Some(id));
        }
    }

    /// Changes the open order, remembering how it was. Changes of one name in a quick run are one step back.
    pub fn edit(&self, name: &str, change: impl FnOnce(&mut Order)) {
        let Some(mut order) = untrack(|| self.opened()) else { return };
        self.note(name);
        change(&mut order);
        self.put(order);
    }

    /// Changes the open order as part of what was done last.
    pub fn amend(&self, change: impl FnOnce(&mut Order)) {
        if let Some(mut order) = untrack(|| self.opened()) {
            change(&mut order);
            self.put(order);
        }
    }

    /// Changes the bench, if it is a sound one then; with an order open, that can be taken back.
    ///
    /// # Errors
    /// What is wrong with it, and what to do.
    pub fn edit_bench(&self, name: &str, change: impl FnOnce(&mut Bench)) -> Result<(), String> {
        let mut bench = self.bench.get_untracked();
        change(&mut bench);
        if let Some(fault) = bench.faults().first() {
            return Err(fault.to_string());
        }
        self.note(name);
        self.bench.set(bench);
        Ok(())
    }

    /// Goes so many steps back in what was done to the open order (negative), or forward again.
    pub fn step_by(&self, by: isize) {
        let Some(order) = untrack(|| self.opened()) else { return };
        let now = (order, self.bench.get_untracked());
        let then = self.history.try_update(|history| history.step(now, by)).flatten();
        if let Some((order, bench)) = then {
            if self.bench.with_untracked(|now| *now != bench) {
                self.bench.set(bench);
            }
            self.put(order);
        }
    }

    /// Deletes an order; it can be put back.
    pub fn remove(&self, id: OrderId) {
        if self.open.get_untracked() == Some(id) {
            self.open.set(None);
        }
        let Some(at) = self.list.with_untracked(|list| list.iter().position(|record| record.id == id)) else {
            return;
        };
        let record = self.list.try_update(|list| list.remove(at));
        self.gone.set(record.map(|record| (at, record)));
    }

    /// Another tab has deleted an order.
    pub fn forget(&self, id: OrderId) {
        if self.open.get_untracked() == Some(id) {
            self.open.set(None);
        }
        self.list.update(|list| list.retain(|record| record.id != id));
    }

    /// The title of the one that was deleted last, followed.
    pub fn gone(&self) -> Option<String> {
        self.gone.read().as_ref().map(|(_, record)| record.order.title.clone())
    }

    /// Puts the one back that was deleted last.
    pub fn put_back(&self) {
        if let Some((at, record)) = self.gone.try_update(Option::take).flatten() {
            self.list.update(|list| list.insert(at.min(list.len()), record));
        }
    }

    /// Remembers how the open order stands.
    fn note(&self, name: &str) {
        let Some(order) = untrack(|| self.opened()) else { return };
        let bench = self.bench.get_untracked();
        self.history.update(|history| history.note(name, clock::now(), || (order, bench)));
    }

    fn put(&self, order: Order) {
        let open = self.open.get_untracked();
        self.list.update(|list| {
            if let Some(record) = list.iter_mut().find(|record| Some(record.id) == open) {
                record.order = order;
            }
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::orders::model::Prices;
    use dappledome::recipe::Recipe;

    fn titles(orders: &Orders) -> Vec<String> {
        orders.list.with_untracked(|list| list.iter().map(|record| record.order.title.clone()).collect())
    }

    fn three() -> (Orders, Vec<OrderId>) {
        let orders = Orders::new();
        for (at, title) in ["one", "two", "three"].into_iter().enumerate() {
            let order = Order { title: title.into(), ..Order::of(Recipe::bare(), 12) };
            let record = OrderRecord { id: OrderId(at as u64), order };
            orders.list.update(|list| list.insert(0, record));
        }
        orders.open(OrderId(2));
        (orders, vec![OrderId(0), OrderId(1), OrderId(2)])
    }

    #[test]
    fn a_deleted_order_is_put_back_where_it_stood() {
        Owner::new().with(|| {
            let (orders, ids) = three();
            orders.remove(ids[1]);
            assert_eq!(
                (titles(&orders), orders.open.get_untracked()),
                (vec!["three".into(), "one".into()], Some(ids[2]))
            );
            assert_eq!(untrack(|| orders.gone()).as_deref(), Some("two"));
            orders.put_back();
            orders.put_back();
            assert_eq!(titles(&orders), ["three", "two", "one"]);
            orders.remove(ids[2]);
            assert_eq!(orders.open.get_untracked(), None);
        });
    }

    #[test]
    fn a_bench_that_makes_no_sense_is_not_taken() {
        Owner::new().with(|| {
            let (orders, _) = three();
            let told = orders.edit_bench("prices", |bench| {
                bench.prices = Some(Prices { hour: -1.0, ..Prices::usual() });
            });
            assert!(told.unwrap_err().contains("The price of an hour is -1"));
            assert_eq!(orders.bench.get_untracked(), Bench::default());
        });
    }
}
