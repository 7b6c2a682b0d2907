//! The house has floors: a module uses only itself and what lies below it.

use std::fs;
use std::path::{Path, PathBuf};

/// The floors, lowest first.
const FLOORS: [&str; 14] = [
    "base", "color", "glass", "recipe", "layup", "fuse", "slump", "optics", "picture", "preview", "shop",
    "keep", "worker", "serve",
];

#[test]
fn no_module_uses_a_higher_one() {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut upward = Vec::new();
    for (floor, name) in FLOORS.iter().enumerate() {
        for file in files_of(&source, name) {
            let text = fs::read_to_string(&file).unwrap();
            for used in used_modules(&text) {
                let Some(at) = FLOORS.iter().position(|other| *other == used) else { continue };
                if at > floor {
                    upward.push(format!("{} uses {used}", file.display()));
                }
            }
        }
    }
    assert!(upward.is_empty(), "{upward:#?}");
}

#[test]
fn every_module_has_its_floor() {
    let library = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("src/lib.rs")).unwrap();
    let modules = library.lines().filter_map(|line| line.trim().strip_prefix("pub mod ")?.strip_suffix(';'));
    let mut modules: Vec<_> = modules.collect();
    let mut floors = FLOORS.to_vec();
    modules.sort_unstable();
    floors.sort_unstable();
    assert_eq!(modules, floors);
}

/// The files of a module: `name.rs`, and all in the folder `name`.
fn files_of(source: &Path, name: &str) -> Vec<PathBuf> {
    let mut files = Vec::new();
    let single = source.join(name).with_extension("rs");
    if single.is_file() {
        files.push(single);
    }
    let mut folders = vec![source.join(name)];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|end| end == "rs") {
                files.push(path);
            }
        }
    }
    files
}

/// The modules at the root of the crate that a file names, in whatever way: `crate::base`, `crate::{base, glass::x}`.
fn used_modules(text: &str) -> Vec<String> {
    let code: String =
        text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
    let mut used = Vec::new();
    for start in ["crate::", "super::super::"] {
        for (at, _) in code.match_indices(start) {
            let rest = &code[at + start.len()..];
            match rest.strip_prefix('{') {
                Some(list) => used.extend(heads_of(list)),
                None => used.push(name_at(rest)),
            }
        }
    }
    used.retain(|name| !name.is_empty());
    used
}

/// The first names of a list in braces, whose opening brace is already read.
fn heads_of(list: &str) -> Vec<String> {
    let mut depth = 0;
    let mut heads = vec![name_at(list.trim_start())];
    for (at, letter) in list.char_indices() {
        match letter {
            '{' => depth += 1,
            '}' if depth == 0 => break,
            '}' => depth -= 1,
            ',' if depth == 0 => heads.push(name_at(list[at + 1..].trim_start())),
            _ => {}
        }
    }
    heads
}

fn name_at(text: &str) -> String {
    text.chars().take_while(|letter| letter.is_alphanumeric() || *letter == '_').collect()
}

#[test]
fn every_way_of_naming_a_module_is_seen() {
    let text = "use crate::base::seed;\n// use crate::serve;\nuse crate::{\n    glass,\n    recipe::{self, plan},\n};\n\
        fn f() { crate::picture::png::encode(); super::super::fuse::g(); }";
    let mut used = used_modules(text);
    used.sort_unstable();
    assert_eq!(used, ["base", "fuse", "glass", "picture", "recipe"]);
}
