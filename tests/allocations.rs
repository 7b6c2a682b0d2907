//! What one more seed takes from the heap, counted: planes of cells and of pixels, each made once, and no copy of a coat.
#![allow(unsafe_code, reason = "an allocator that counts can be written in no other way")]

use dappledome::base::memo::Allowance;
use dappledome::base::seed::Seed;
use dappledome::picture::{Light, Stage, View};
use dappledome::preview::Preview;
use dappledome::recipe::demo;
use dappledome::recipe::plan::Plan;
use rayon::ThreadPoolBuilder;
use std::alloc::{GlobalAlloc, Layout, System};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering::Relaxed};

struct Counting;

static COUNT: AtomicUsize = AtomicUsize::new(0);
static BYTES: AtomicUsize = AtomicUsize::new(0);
static PLANES: AtomicUsize = AtomicUsize::new(0);

const CELLS: usize = 512;
const PLANE: usize = 4 * CELLS * CELLS;

// SAFETY: all it does besides counting is done by the system's own allocator.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        count(layout.size());
        // SAFETY: the same promise is made to the one that is asked.
        unsafe { System.alloc(layout) }
    }

    unsafe fn alloc_zeroed(&self, layout: Layout) -> *mut u8 {
        count(layout.size());
        // SAFETY: as above.
        unsafe { System.alloc_zeroed(layout) }
    }

    unsafe fn dealloc(&self, pointer: *mut u8, layout: Layout) {
        // SAFETY: as above.
        unsafe { System.dealloc(pointer, layout) }
    }
}

fn count(bytes: usize) {
    COUNT.fetch_add(1, Relaxed);
    BYTES.fetch_add(bytes, Relaxed);
    PLANES.fetch_add(usize::from(bytes == PLANE), Relaxed);
}

#[global_allocator]
static COUNTING: Counting = Counting;

#[test]
fn one_more_seed_makes_each_plane_once() {
    let plan = Plan::new(&demo::ember_walk()).expect("it is sound").plan;
    let pool = ThreadPoolBuilder::new().num_threads(1).build().expect("a thread can be started");
    let [count, bytes, planes] = pool.install(|| {
        let mut preview = Preview::new();
        let mut draw = |seed| {
            for stage in [Stage::Fused, Stage::Domed] {
                let view = View::usual(stage, Light::Day, CELLS as u32);
                preview.picture(&plan, Seed(seed), &view);
            }
        };
        draw(1);
        let all = [&COUNT, &BYTES, &PLANES];
        let before = all.map(|counter| counter.load(Relaxed));
        draw(2);
        std::array::from_fn(|at| all[at].load(Relaxed) - before[at])
    });
    println!("one more seed: {count} allocations, {:.1} MB, {planes} planes", bytes as f64 / 1e6);
    // Three coats sifted, dabbed, and put back; both kinds of glass of each; the pictures, flat and domed, and the table under the dome.
    assert_eq!(planes, 3 * 3 + 2 * 3 + 3, "planes");
    assert!(count < 25_000 && bytes < 64_000_000, "{count} allocations, {bytes} bytes");
}

#[test]
fn what_no_sponge_touches_is_not_copied() {
    let mut recipe = demo::ember_walk();
    recipe.sponge = None;
    let plan = Plan::new(&recipe).expect("it is sound").plan;
    let beds = Preview::new().beds(&plan, Seed(1), 64, &mut Allowance::unlimited()).expect("no pause");
    for (sifted, left) in beds.sifted.iter().zip(&beds.left.coats) {
        assert!(Arc::ptr_eq(sifted, left), "a coat was copied");
    }
}
