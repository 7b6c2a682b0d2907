//! Remembering a step's last few results by exactly what it was made from.

use std::ops::Deref;
use std::rc::Rc;

/// A result that is shared, and equal only to itself: as an input of the next step it stands for all that went into it.
#[derive(Debug)]
pub struct Shared<T>(Rc<T>);

impl<T> Clone for Shared<T> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}

impl<T> PartialEq for Shared<T> {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl<T> Deref for Shared<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.0
    }
}

/// The caller ran out of its allowance of fresh work: ask again to go on from where it stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Paused;

/// How many steps may still be computed before the caller wants control back.
#[derive(Clone, Copy, Debug)]
pub struct Allowance(Option<u32>);

impl Allowance {
    /// As many steps as it takes.
    pub fn unlimited() -> Self {
        Self(None)
    }

    /// At most this many steps that are not remembered yet.
    pub fn steps(n: u32) -> Self {
        Self(Some(n))
    }

    fn spend(&mut self) -> Result<(), Paused> {
        match &mut self.0 {
            None => Ok(()),
            Some(0) => Err(Paused),
            Some(left) => {
                *left -= 1;
                Ok(())
            }
        }
    }
}

/// The last few results of one step, newest last.
#[derive(Debug)]
pub struct Memo<K, V> {
    capacity: usize,
    kept: Vec<(K, Shared<V>)>,
}

impl<K: PartialEq, V> Memo<K, V> {
    /// Remembers up to `capacity` results, or none at all.
    pub fn new(capacity: usize) -> Self {
        Self { capacity, kept: Vec::new() }
    }

    /// The result for `key`: remembered, or made now at the cost of one step of the allowance.
    pub fn get(
        &mut self,
        allowance: &mut Allowance,
        key: K,
        make: impl FnOnce(&K) -> V,
    ) -> Result<Shared<V>, Paused> {
        if let Some(at) = self.kept.iter().position(|(k, _)| *k == key) {
            let found = self.kept.remove(at);
            let value = found.1.clone();
            self.kept.push(found);
            return Ok(value);
        }
        allowance.spend()?;
        // Room first: the oldest result and the new one never lie in memory together.
        while !self.kept.is_empty() && self.kept.len() >= self.capacity {
            self.kept.remove(0);
        }
        let value = Shared(Rc::new(make(&key)));
        if self.capacity > 0 {
            self.kept.push((key, value.clone()));
        }
        Ok(value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_result_is_made_once_and_forgotten_in_order() {
        let mut memo = Memo::new(2);
        let mut made = 0;
        for key in [1, 2, 1, 3, 1, 2] {
            let value = memo.get(&mut Allowance::unlimited(), key, |k| {
                made += 1;
                k * 10
            });
            assert_eq!(*value.unwrap(), key * 10);
        }
        assert_eq!(made, 4, "1, 2, 3 and 2 again, which was the oldest when 3 came");
    }

    #[test]
    fn an_allowance_pauses_before_fresh_work_only() {
        let mut memo = Memo::new(2);
        let mut one = Allowance::steps(1);
        assert!(memo.get(&mut one, 1, |_| ()).is_ok());
        assert!(memo.get(&mut one, 1, |_| ()).is_ok());
        assert_eq!(memo.get(&mut one, 2, |_| ()).err(), Some(Paused));
    }
}
