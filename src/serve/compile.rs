//! The page built as WebAssembly, by a second run of cargo and in-process `wasm-bindgen`.

use super::families;
use super::parts;
use super::progress::Progress;
use super::trouble::Trouble;
use std::io::{BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Command, ExitStatus, Stdio};
use std::{env, fs, io, thread};
use wasm_bindgen_cli_support::Bindgen;

const TARGET: &str = "wasm32-unknown-unknown";

/// The program for the browser: the WebAssembly and the script that loads it.
#[derive(Debug)]
pub struct Program {
    /// The WebAssembly that is there from the beginning.
    pub wasm: Vec<u8>,
    /// That of its parts, by name, which lie beside it.
    pub parts: Vec<(String, Vec<u8>)>,
    /// What the script that fetches the parts is to know of them.
    pub doors: String,
    /// The script: a module that exports `init` and the library's own functions.
    pub glue: String,
    /// Scripts that the glue imports, by their path relative to it.
    pub snippets: Vec<(String, String)>,
}

/// Builds the program from the source tree at `root`.
///
/// # Errors
/// If the compiler, its target for WebAssembly or the sources are not in order.
pub fn program(root: &Path) -> Result<Program, Trouble> {
    ensure_target(root)?;
    bind(&build(root)?)
}

/// Adds the compiler's target for WebAssembly where it is missing.
fn ensure_target(root: &Path) -> Result<(), Trouble> {
    let libraries = Command::new("rustc")
        .args(["--print", "target-libdir", "--target", TARGET])
        .current_dir(root)
        .output()
        .map_err(|fault| no_rust("rustc", &fault))?;
    if Path::new(String::from_utf8_lossy(&libraries.stdout).trim()).is_dir() {
        return Ok(());
    }
    let _shown = Progress::start("Adding Rust's target for WebAssembly");
    let added = Command::new("rustup").args(["target", "add", TARGET]).current_dir(root).output();
    let why = match added {
        Ok(output) if output.status.success() => return Ok(()),
        Ok(output) => String::from_utf8_lossy(&output.stderr).trim().to_owned(),
        Err(fault) => format!("rustup does not start: {fault}."),
    };
    Err(Trouble::new(
        "Rust's target for WebAssembly is missing.",
        why,
        format!(
            "Run `rustup target add {TARGET}` while connected, or install that target as you installed Rust."
        ),
    ))
}

/// Runs cargo and gives the path of the WebAssembly it made.
fn build(root: &Path) -> Result<PathBuf, Trouble> {
    let shown = Progress::start("Building the page");
    shown.say("(the first time takes some minutes)");
    let cargo = env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut run = Command::new(&cargo)
        .args(["build", "--package", "dappledome-page", "--profile", "web", "--target", TARGET])
        .arg("--message-format=json-render-diagnostics")
        .args(["--config", &flags(root)])
        .current_dir(root)
        // Either would replace the SIMD switch of .cargo/config.toml without a word.
        .env_remove("RUSTFLAGS")
        .env_remove("CARGO_ENCODED_RUSTFLAGS")
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .map_err(|fault| no_rust(&cargo.to_string_lossy(), &fault))?;
    let messages = run.stdout.take().expect("it is piped");
    let reader = thread::spawn(move || io::read_to_string(messages));
    let said = follow(run.stderr.take().expect("it is piped"), &shown);
    let ended = run.wait();
    drop(shown);
    let messages = reader.join().expect("reading does not panic").unwrap_or_default();
    match ended {
        Ok(status) if status.success() => wasm_among(&messages).ok_or_else(|| {
            Trouble::new(
                "The page was not built.",
                "Cargo named no WebAssembly file.",
                "Run `cargo clean` and try again.",
            )
        }),
        ended => Err(build_failed(ended, &said)),
    }
}

/// A setting for cargo, added to those of .cargo/config.toml: no folder of this machine is named in the program, so
/// that the same sources give the same bytes on every machine; and the program can be cut into parts.
fn flags(root: &Path) -> String {
    let home = env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home.or_else(|| Some(env::home_dir()?.join(".cargo")));
    let folders = home.iter().map(|home| (home.as_path(), "cargo")).chain([(root, "dappledome")]);
    let nameless = folders.map(|(from, to)| format!("--remap-path-prefix={}={to}", from.display()));
    let flags: Vec<_> = nameless.chain([parts::LINKING.to_owned()]).collect();
    // A list of strings reads the same in JSON and in TOML.
    format!("target.{TARGET}.rustflags={}", serde_json::json!(flags))
}

/// Shows what cargo says as it goes, and gives all of it.
fn follow(stderr: impl Read, shown: &Progress) -> String {
    let mut all = String::new();
    for line in BufReader::new(stderr).lines().map_while(Result::ok) {
        shown.say(&line);
        all.push_str(&line);
        all.push('\n');
    }
    all
}

/// The WebAssembly file named in cargo's messages. (Where it lies depends on settings that cargo alone knows.)
fn wasm_among(messages: &str) -> Option<PathBuf> {
    let messages = messages.lines().filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok());
    let files = messages.flat_map(|message| message["filenames"].as_array().cloned().unwrap_or_default());
    let mut paths = files.filter_map(|file| file.as_str().map(PathBuf::from));
    paths.rfind(|path| path.ends_with("dappledome_page.wasm"))
}

/// Turns the compiler's WebAssembly into a browser's, with its script.
fn bind(wasm: &Path) -> Result<Program, Trouble> {
    let work = || -> Result<Program, Box<dyn std::error::Error>> {
        let cut = parts::cut(&fs::read(wasm)?, &wasm.with_extension("parts"))?;
        let mut output = Bindgen::new()
            .input_bytes("dappledome", cut.main)
            // The parts take memory and table from the program.
            .keep_lld_exports(true)
            .web(true)?
            .typescript(false)
            .demangle(false)
            .remove_producers_section(true)
            .generate_output()?;
        let inline = output.snippets().iter().flat_map(|(folder, scripts)| {
            let numbered = scripts.iter().enumerate();
            numbered.map(move |(n, script)| (format!("snippets/{folder}/inline{n}.js"), script.clone()))
        });
        let local =
            output.local_modules().iter().map(|(path, script)| (format!("snippets/{path}"), script.clone()));
        let snippets = inline.chain(local).collect();
        let wasm = families::side_by_side(&output.wasm_mut().emit_wasm())?;
        let parts = cut.files.into_iter().map(|(name, wasm)| Ok((name, families::side_by_side(&wasm)?)));
        let parts = parts.collect::<Result<_, wasm_encoder::reencode::Error>>()?;
        let glue = minifier::js::minify(&with_ends(output.js()))?.to_string();
        Ok(Program { wasm, parts, doors: cut.doors, glue, snippets })
    };
    work().map_err(|fault| {
        Trouble::new(
            "The page's program cannot be prepared for the browser.",
            format!("{fault}."),
            "Run `cargo clean` and try again; the versions of wasm-bindgen in Cargo.toml must be the same.",
        )
    })
}

/// The script with an end to each of its imports: the minifier would run them into what comes next.
fn with_ends(glue: &str) -> String {
    let open = |line: &str| line.starts_with("import ") && !line.ends_with(';');
    glue.lines().map(|line| format!("{line}{}\n", if open(line) { ";" } else { "" })).collect()
}

fn no_rust(program: &str, fault: &io::Error) -> Trouble {
    Trouble::new(
        format!("{program} does not start."),
        format!("{fault}."),
        "Install Rust with rustup: building the page needs it.",
    )
}

fn build_failed(ended: io::Result<ExitStatus>, said: &str) -> Trouble {
    let how = ended.map_or_else(|fault| fault.to_string(), |status| status.to_string());
    Trouble::new(
        "The page cannot be built.",
        format!("Cargo ended with {how}:\n{said}"),
        "Mend what the compiler names, or go back to sources that build. While offline, a first build fails.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn imports_end_where_their_line_does() {
        let glue = "import * as a from \"./a.js\"\nimport b from \"./b.js\";\nlet important = 1\n";
        let ended = with_ends(glue);
        assert_eq!(ended, "import * as a from \"./a.js\";\nimport b from \"./b.js\";\nlet important = 1\n");
    }
}
