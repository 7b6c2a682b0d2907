//! The same bytes whatever the number of threads.

mod support;

use dappledome::preview::Preview;
use rayon::ThreadPoolBuilder;
use support::pairs::{Pair, drawn};

#[test]
fn pictures_are_the_same_with_any_number_of_threads() {
    let pairs = drawn(100);
    let drawn_by = |threads: usize| -> Vec<u64> {
        let pool = ThreadPoolBuilder::new().num_threads(threads).build().expect("threads can be started");
        pool.install(|| {
            let mut preview = Preview::new();
            let draw = |Pair { plan, seed, view, .. }: &Pair| preview.picture(plan, *seed, view).hash();
            pairs.iter().map(draw).collect()
        })
    };
    let alone = drawn_by(1);
    for threads in [2, 7] {
        let together = drawn_by(threads);
        let differ = (0..pairs.len()).filter(|at| alone[*at] != together[*at]).collect::<Vec<_>>();
        assert!(differ.is_empty(), "{threads} threads draw {differ:?} otherwise");
    }
}
