# Two commands: `make run` opens the drawing board, `make test` runs every test.

.PHONY: run test

run:
	@command -v cargo >/dev/null || { echo "Cargo is missing: install Rust with rustup (https://rustup.rs)." >&2; exit 1; }
	@cargo run

test:
	@.ci/browser
	cargo test --workspace
