//! Rows of a plane, one after the other in the browser, on all cores elsewhere. A row is computed from what all rows share and from
//! nothing else, so what comes out does not depend on the number of threads. No row may ask for something that is made once and for all by rows
//! of its own: its thread might take up another row that asks for the same, and wait for itself.

/// Rows that one thread takes at least: fewer are done before another has begun.
#[cfg(not(target_arch = "wasm32"))]
const TOGETHER: usize = 16;

/// Calls `f(row, cells)` for every row of a plane whose rows are `width` long.
pub fn each_row<T: Send>(plane: &mut [T], width: usize, f: impl Fn(usize, &mut [T]) + Sync) {
    #[cfg(not(target_arch = "wasm32"))]
    {
        use rayon::prelude::*;
        let rows = plane.par_chunks_mut(width).with_min_len(TOGETHER);
        rows.enumerate().for_each(|(row, cells)| f(row, cells));
    }
    #[cfg(target_arch = "wasm32")]
    plane.chunks_mut(width).enumerate().for_each(|(row, cells)| f(row, cells));
}

/// What `f` makes of each number below `count`, in their order.
pub fn in_order<T: Send>(count: usize, f: impl Fn(usize) -> T + Sync + Send) -> Vec<T> {
    #[cfg(not(target_arch = "wasm32"))]
    {
        use rayon::prelude::*;
        (0..count).into_par_iter().map(f).collect()
    }
    #[cfg(target_arch = "wasm32")]
    (0..count).map(f).collect()
}
