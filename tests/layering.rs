//! The house has floors: a module uses only itself and what lies below it, and no two files use each other.

#[path = "layering/house.rs"]
mod house;
#[path = "layering/imports.rs"]
mod imports;

use house::House;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// The floors of a crate: its modules, lowest first. The root itself lies on top of them.
struct Floors<'a> {
    modules: &'a [&'a str],
    /// Modules that may use only these of all that lie below.
    only: &'a [(&'a str, &'a [&'a str])],
}

const ENGINE: Floors = Floors {
    modules: &[
        "base", "color", "glass", "recipe", "layup", "fuse", "slump", "packing", "kiln", "optics", "tiles",
        "photo", "picture", "preview", "compare", "shop", "orders", "paper", "keep", "worker", "serve",
    ],
    only: &[],
};

const PAGE: Floors = Floors {
    modules: &["model", "dom", "words", "fields", "state", "services", "controls", "areas", "app", "worker"],
    // It answers the page and shows nothing.
    only: &[("worker", &["words", "model"])],
};

#[test]
fn the_engine_keeps_its_floors() {
    let house = House::read(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
        &["lib_recipe.rs", "lib_light.rs", "lib.rs"],
    );
    assert_eq!(faults(&house, &ENGINE), NONE);
}

#[test]
fn the_page_keeps_its_floors() {
    let house = House::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("www/src"), &["lib.rs"]);
    assert_eq!(faults(&house, &PAGE), NONE);
}

#[test]
fn the_native_program_has_no_circle() {
    let house = House::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &["main.rs"]);
    assert_eq!(house.circles(), BTreeSet::new());
}

const NONE: [String; 0] = [];

/// What is wrong with a house.
fn faults(house: &House, floors: &Floors) -> Vec<String> {
    let mut faults = Vec::new();
    let rooms = house.rooms();
    faults.extend(
        rooms.iter().filter(|room| !floors.modules.contains(room)).map(|room| format!("{room} has no floor")),
    );
    faults.extend(
        floors.modules.iter().filter(|room| !rooms.contains(*room)).map(|room| format!("no {room} is there")),
    );
    let floor =
        |room: &str| floors.modules.iter().position(|other| *other == room).unwrap_or(floors.modules.len());
    for (file, room, used) in house.rooms_used() {
        let only = floors.only.iter().find(|(one, _)| *one == room).map(|(_, only)| only);
        if floor(used) > floor(room) {
            faults.push(format!(
                "{file} uses {}, which lies above",
                if used.is_empty() { "the root" } else { used }
            ));
        } else if only.is_some_and(|only| used != room && !only.contains(&used)) {
            faults.push(format!("{file} uses {used}, and {room} may not"));
        }
    }
    faults.extend(house.circles().into_iter().map(|circle| format!("a circle: {}", circle.join(", "))));
    faults
}

/// A made-up house of three floors.
fn made_up(files: &[(&str, &str)]) -> Vec<String> {
    let floors = Floors { modules: &["low", "middle", "high"], only: &[("high", &["low"])] };
    let sound = [
        ("lib.rs", "mod high; pub mod low; mod middle; fn f() { high::run() }"),
        ("high.rs", "use crate::low::name::Name; pub fn run() {}"),
        ("middle/mod.rs", "mod part; pub mod shared; pub use part::Part;"),
        (
            "middle/part.rs",
            "use super::shared::Shared; pub struct Part; #[cfg(test)] mod tests { use super::super::user; }",
        ),
        ("middle/shared.rs", "pub struct Shared;"),
        ("low/mod.rs", "pub mod name; mod plain; pub use plain::*;"),
        ("low/name.rs", "use super::Plain; pub struct Name;"),
        ("low/plain.rs", "pub struct Plain;"),
    ];
    let texts =
        sound.iter().chain(files).map(|(path, text)| ((*path).to_owned(), (*text).to_owned())).collect();
    faults(&House::of(&texts, &["lib.rs"]), &floors)
}

#[test]
fn a_sound_house_has_no_fault() {
    // A part of `low` names what `low/mod.rs` only passes on: that is a use of the file that defines it.
    assert_eq!(made_up(&[]), NONE);
}

#[test]
fn an_upward_use_is_found() {
    for text in
        ["use crate::middle::Part;", "fn f() { crate::middle::part::g() }", "use super::super::{middle};"]
    {
        assert_eq!(
            made_up(&[("low/plain.rs", text)]),
            ["low/plain.rs uses middle, which lies above"],
            "{text}"
        );
    }
    assert_eq!(
        made_up(&[("low/plain.rs", "use crate::f;")]).len(),
        2,
        "the root lies above all, and uses all"
    );
    assert_eq!(
        made_up(&[("high.rs", "use crate::middle::Part;")]),
        ["high.rs uses middle, and high may not"]
    );
}

#[test]
fn a_module_without_a_floor_is_found() {
    let files = [("lib.rs", "mod high; mod low; mod middle; mod attic;"), ("attic.rs", "")];
    assert_eq!(made_up(&files), ["attic has no floor"]);
    assert_eq!(made_up(&[("lib.rs", "mod low; mod middle;")]), ["no high is there"]);
}

#[test]
fn a_circle_is_found() {
    let circle = made_up(&[("middle/shared.rs", "use super::part::Part; pub struct Shared;")]);
    assert_eq!(circle, ["a circle: middle/part.rs, middle/shared.rs"]);
    // What a folder's own file defines is used by a child, which that file uses.
    let with_its_own = made_up(&[
        ("middle/mod.rs", "mod part; pub mod shared; pub use part::Part; pub struct Whole;"),
        ("middle/part.rs", "use super::Whole; pub struct Part;"),
    ]);
    assert_eq!(with_its_own, ["a circle: middle/mod.rs, middle/part.rs"]);
    // Through a third file, and by a path in the code instead of an import.
    let three = made_up(&[
        ("low/plain.rs", "pub struct Plain; fn f() { super::third::g() }"),
        ("low/third.rs", "use super::name::Name;"),
        ("low/mod.rs", "pub mod name; mod plain; mod third; pub use plain::*;"),
    ]);
    assert_eq!(three, ["a circle: low/name.rs, low/plain.rs, low/third.rs"]);
}

/// A page in a folder of its own: one small file for each floor, each using what it may, and these besides.
fn page_in_a_folder(name: &str, besides: &[(&str, &str)]) -> Vec<String> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("floors_{name}"));
    let sound = [
        (
            "lib.rs",
            "mod app; mod areas; mod controls; mod dom; mod fields; mod model; mod services; mod state; mod words;
            mod worker; fn f() { app::App; worker::run() }",
        ),
        ("app.rs", "use crate::areas::AREAS; pub struct App;"),
        ("areas/mod.rs", "pub mod tray; pub const AREAS: [fn(); 1] = [tray::view::tray];"),
        ("areas/tray/mod.rs", "pub mod state; pub mod view;"),
        ("areas/tray/state.rs", "use crate::state::Piece; pub struct Lifted;"),
        (
            "areas/tray/view.rs",
            "use super::state::Lifted; pub fn tray() { view! { <Button on:click=crate::services::save/> } }",
        ),
        ("controls/mod.rs", "pub mod button;"),
        ("controls/button.rs", "use crate::dom::focus;"),
        ("services/mod.rs", "use crate::state::Piece; pub fn save() {}"),
        ("state.rs", "use crate::fields::Field; pub struct Piece;"),
        ("fields.rs", "use crate::words; pub struct Field;"),
        ("words.rs", "use crate::model::Id;"),
        ("dom.rs", "pub fn focus() {}"),
        ("model.rs", "pub struct Id;"),
        ("worker.rs", "use crate::model::Id; use crate::words; pub fn run() {}"),
    ];
    for (path, text) in sound.iter().chain(besides) {
        let file = folder.join(path);
        fs::create_dir_all(file.parent().unwrap()).unwrap();
        fs::write(file, text).unwrap();
    }
    let found = faults(&House::read(&folder, &["lib.rs"]), &PAGE);
    fs::remove_dir_all(&folder).unwrap();
    found
}

#[test]
fn the_floors_of_a_page_are_read_from_its_folders() {
    assert_eq!(page_in_a_folder("sound", &[]), NONE);
    let reaching_up = [
        ("words.rs", "fn f() { crate::state::Piece }"),
        ("worker.rs", "use crate::state::Piece; pub fn run() {}"),
    ];
    assert_eq!(
        page_in_a_folder("reaching_up", &reaching_up),
        [
            "words.rs uses state, which lies above",
            "worker.rs uses state, and worker may not",
            "a circle: fields.rs, state.rs, words.rs",
        ]
    );
    let own = [("areas/tray/view.rs", "use crate::areas::AREAS; pub fn tray() {}")];
    assert_eq!(page_in_a_folder("own", &own), ["a circle: areas/mod.rs, areas/tray/view.rs"]);
}
