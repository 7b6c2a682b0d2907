//! Benches.
fn main() {
    divan::main();
}
