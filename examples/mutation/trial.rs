//! One change made in a copy, built, and held against the tests.

use super::changes::Change;
use serde::Deserialize;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use std::{error, fs, io, thread};

type Fault = Box<dyn error::Error>;

/// The tests that know the answer, the quickest first, built stage by stage: most changes are caught by the first. Each is a program of
/// its own.
const STAGES: [&[&str]; 3] = [&["published", "columns", "picture"], &[UNIT], &["hand", "laws", "layup"]];
/// The name of the unit tests, which have no file of their own.
const UNIT: &str = "dappledome";
/// A test program that runs longer than this hangs, s.
const PATIENCE: u64 = 150;
/// More memory than any of them needs, kB: a wrong change can ask for all there is.
const MEMORY: &str = "6000000";

/// What stands for the program in the copy.
const PROGRAM: &[u8] = b"//! Nothing.\nfn main() {}\n";

/// A copy of the package and what is built from it.
pub struct Bench {
    tree: PathBuf,
    built: PathBuf,
    skip: Vec<String>,
}

/// What cargo says of a program that it built.
#[derive(Deserialize)]
struct Message {
    executable: Option<PathBuf>,
    target: Option<Target>,
    profile: Option<Profile>,
}

/// The program itself, which has the name of the library, is no test.
#[derive(Deserialize)]
struct Profile {
    test: bool,
}

#[derive(Deserialize)]
struct Target {
    name: String,
}

impl Bench {
    /// Copies what git knows of this folder and checks that all tests pass as it is.
    pub fn set_up(place: &Path, skip: &[String]) -> Result<Self, Fault> {
        fs::create_dir_all(place)?;
        let place = place.canonicalize()?;
        let bench = Self { tree: place.join("tree"), built: place.join("built"), skip: skip.to_vec() };
        let known =
            Command::new("git").args(["ls-files", "--cached", "--others", "--exclude-standard"]).output()?;
        for file in String::from_utf8(known.stdout)?.lines().filter(|file| Path::new(file).is_file()) {
            let there = bench.tree.join(file);
            fs::create_dir_all(there.parent().ok_or("a file lies in a folder")?)?;
            // None of the tests runs the program, which takes long to build.
            let text = if file == "src/main.rs" { PROGRAM.to_vec() } else { fs::read(file)? };
            // A file that is the same keeps its time, so that it is not built again.
            if fs::read(&there).ok().as_ref() != Some(&text) {
                fs::write(&there, text)?;
            }
        }
        match bench.held_against_tests()? {
            ("survived", _) => Ok(bench),
            (outcome, test) => Err(format!("without any change: {outcome} {test}").into()),
        }
    }

    /// What becomes of a change, and the first test that caught it.
    pub fn outcome(&self, change: &Change) -> Result<(&'static str, String), Fault> {
        let file = self.tree.join(&change.file);
        let text = fs::read_to_string(&file)?;
        fs::write(&file, change.made(&text).ok_or("the list does not fit the sources")?)?;
        let outcome = self.held_against_tests();
        fs::write(&file, text)?;
        outcome
    }

    fn held_against_tests(&self) -> Result<(&'static str, String), Fault> {
        for stage in STAGES {
            // An older state has fewer.
            let file = |test: &str| self.tree.join("tests").join(test).with_extension("rs");
            let tests: Vec<&str> =
                stage.iter().copied().filter(|test| *test == UNIT || file(test).exists()).collect();
            let Some(programs) = self.build(&tests)? else { return Ok(("no_build", String::new())) };
            for test in tests {
                let program = programs.iter().find(|(name, _)| name == test);
                let program = program.ok_or_else(|| format!("no test program {test}"))?;
                if let Some((outcome, by)) = self.run(&program.1)? {
                    return Ok((outcome, format!("{test}: {by}")));
                }
            }
        }
        Ok(("survived", String::new()))
    }

    fn build(&self, tests: &[&str]) -> Result<Option<Vec<(String, PathBuf)>>, Fault> {
        let mut cargo = Command::new("cargo");
        cargo.args(["test", "--no-run", "--message-format", "json"]);
        for test in tests {
            match *test {
                UNIT => cargo.arg("--lib"),
                test => cargo.args(["--test", test]),
            };
        }
        cargo.current_dir(&self.tree).env("CARGO_TARGET_DIR", &self.built);
        cargo.env("CARGO_PROFILE_DEV_DEBUG", "0").env("CARGO_INCREMENTAL", "1").stderr(Stdio::null());
        let said = cargo.output()?;
        if !said.status.success() {
            return Ok(None);
        }
        let lines = said.stdout.split(|byte| *byte == b'\n');
        let messages = lines.filter_map(|line| serde_json::from_slice::<Message>(line).ok());
        let tests = messages.filter(|message| message.profile.as_ref().is_some_and(|profile| profile.test));
        Ok(Some(tests.filter_map(|message| Some((message.target?.name, message.executable?))).collect()))
    }

    /// Runs a test program; how it failed and in which test, if it did.
    fn run(&self, program: &Path) -> Result<Option<(&'static str, String)>, Fault> {
        let said = self.built.join("said.txt");
        let child = Command::new("sh")
            .args(["-c", &format!("ulimit -v {MEMORY}; exec \"$0\" -q \"$@\""), &program.to_string_lossy()])
            .args(self.skip.iter().flat_map(|test| ["--skip", test]))
            .current_dir(&self.tree)
            .stdout(fs::File::create(&said)?)
            .stderr(Stdio::null())
            .spawn()?;
        let Some(passed) = waited(child)? else { return Ok(Some(("hangs", String::new()))) };
        if passed {
            return Ok(None);
        }
        // Cargo lists what failed at the end, each on a line of its own behind four blanks.
        let text = fs::read_to_string(&said)?;
        let list = text.rsplit_once("\nfailures:\n").map_or("", |(_, list)| list);
        Ok(Some((
            "caught",
            list.lines().find_map(|line| line.strip_prefix("    ")).unwrap_or("aborts").into(),
        )))
    }
}

/// Whether a program ended well; None if it had to be ended.
fn waited(mut child: Child) -> io::Result<Option<bool>> {
    let until = Instant::now() + Duration::from_secs(PATIENCE);
    loop {
        if let Some(status) = child.try_wait()? {
            return Ok(Some(status.success()));
        }
        if Instant::now() > until {
            child.kill()?;
            child.wait()?;
            return Ok(None);
        }
        thread::sleep(Duration::from_millis(50));
    }
}
