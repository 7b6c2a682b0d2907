//! A crate as its files and what each of them uses of the others.

use super::imports::{self, Imports, Module};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// The files of a crate that its root declares, directly or through others.
pub struct House {
    files: BTreeMap<String, Imports>,
}

impl House {
    /// Reads the crate, or the crates of one tree, whose sources lie in a folder and begin with these files.
    pub fn read(source: &Path, roots: &[&str]) -> Self {
        let mut texts = BTreeMap::new();
        let mut folders = vec![source.to_path_buf()];
        while let Some(folder) = folders.pop() {
            for entry in fs::read_dir(&folder).unwrap_or_else(|fault| panic!("{}: {fault}", folder.display()))
            {
                let path = entry.unwrap().path();
                if path.is_dir() {
                    folders.push(path);
                } else if path.extension().is_some_and(|end| end == "rs") {
                    let name = path.strip_prefix(source).unwrap().to_string_lossy().replace('\\', "/");
                    texts.insert(name, fs::read_to_string(&path).unwrap());
                }
            }
        }
        Self::of(&texts, roots)
    }

    /// A crate of these texts, by their paths.
    pub fn of(texts: &BTreeMap<String, String>, roots: &[&str]) -> Self {
        let mut files = BTreeMap::new();
        let mut left: Vec<_> = roots.iter().map(|root| ((*root).to_owned(), Module::new())).collect();
        while let Some((path, module)) = left.pop() {
            let imports = imports::read(&texts[&path], &module);
            for child in &imports.children {
                let name = child.join("/");
                let paths = [format!("{name}.rs"), format!("{name}/mod.rs")];
                let file = paths.into_iter().find(|path| texts.contains_key(path));
                left.push((file.unwrap_or_else(|| panic!("{path} declares {name}")), child.clone()));
            }
            files.insert(path, imports);
        }
        Self { files }
    }

    /// The modules right at the root.
    pub fn rooms(&self) -> BTreeSet<&str> {
        let modules = self.files.values().flat_map(|file| &file.inside);
        modules.filter(|module| module.len() == 1).map(|module| module[0].as_str()).collect()
    }

    /// Which file uses something of which room (a module right at the root; of the root itself it is empty).
    pub fn rooms_used(&self) -> BTreeSet<(&str, &str, &str)> {
        let mut used = BTreeSet::new();
        for (file, imports) in &self.files {
            for one in &imports.uses {
                used.extend(
                    self.file_of(&one.path, 0).map(|to| (file.as_str(), self.room(file), self.room(to))),
                );
            }
        }
        used
    }

    fn room(&self, file: &str) -> &str {
        let modules = self.files[file].inside.iter();
        modules.min_by_key(|module| module.len()).and_then(|module| module.first()).map_or("", String::as_str)
    }

    /// The circles of files that use each other, tests aside. Each is a list of all that are on it.
    pub fn circles(&self) -> BTreeSet<Vec<&str>> {
        let ways: BTreeMap<&str, BTreeSet<&str>> =
            self.files.keys().map(|file| (file.as_str(), self.reached_from(file))).collect();
        let on_circle = ways.iter().filter(|(file, reached)| reached.contains(*file));
        on_circle
            .map(|(file, reached)| {
                reached.iter().copied().filter(|other| ways[other].contains(file)).collect()
            })
            .collect()
    }

    /// All files that a file comes to by what it uses; itself only if it comes back.
    fn reached_from(&self, file: &str) -> BTreeSet<&str> {
        let mut reached = BTreeSet::new();
        let mut left = self.used_by(file);
        while let Some(next) = left.pop_first() {
            if reached.insert(next) {
                left.extend(self.used_by(next));
            }
        }
        reached
    }

    fn used_by(&self, file: &str) -> BTreeSet<&str> {
        let uses = self.files[file].uses.iter().filter(|one| !one.in_tests);
        uses.filter_map(|one| self.file_of(&one.path, 0)).filter(|other| *other != file).collect()
    }

    /// The file that defines what a path leads to, through modules that pass it on.
    fn file_of(&self, path: &[String], passed: usize) -> Option<&str> {
        let (file, depth) = (0..=path.len()).rev().find_map(|depth| {
            let holds = |imports: &Imports| imports.inside.contains(&path[..depth]);
            self.files.iter().find(|(_, imports)| holds(imports)).map(|(file, _)| (file, depth))
        })?;
        let imports = &self.files[file];
        let Some(name) = path.get(depth).filter(|name| *name != "*" && !imports.names.contains(*name)) else {
            return Some(file);
        };
        // Whoever passes names on in a ring has no house but a knot.
        assert!(passed < 20, "{file} passes {name} on to itself");
        let from =
            imports.uses.iter().filter(|one| one.passed_on).find_map(|one| match one.path.split_last()? {
                (last, _) if last == name => self.file_of(&one.path, passed + 1),
                (last, module) if last == "*" => {
                    let path = [module, std::slice::from_ref(name)].concat();
                    let found = self.file_of(&path, passed + 1)?;
                    self.files[found].names.contains(name).then_some(found)
                }
                _ => None,
            });
        Some(from.unwrap_or(file))
    }
}
