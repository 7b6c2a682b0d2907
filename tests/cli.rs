//! The native program as it is called: good input gives files, bad input gives what, why and what to do, and code 2.

use dappledome::glass::catalogue;
use dappledome::glass::kind::Glass;
use dappledome::picture::png;
use dappledome::recipe::shelf::Shelf;
use dappledome::recipe::{Recipe, file};
use serde_json::json;
use std::fs::{self, File};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::thread;
use std::time::{Duration, Instant};

const KILN: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/kilns/harbor.json");
const ORDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/orders/harborside.json");
const TILES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/tiles/rust_of_may.json");
const RECIPE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/recipes/ember_walk.json");

/// An empty folder for one test.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    drop(fs::remove_dir_all(&folder));
    fs::create_dir_all(&folder).unwrap();
    folder
}

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_dappledome")).args(arguments).output().unwrap()
}

fn run_well(arguments: &[&str]) -> String {
    let output = run(arguments);
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// Runs it well, and gives what it said beside its result.
fn told_well(arguments: &[&str]) -> String {
    let output = run(arguments);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.success(), "{arguments:?}: {said}");
    said
}

/// Runs it, makes sure that it explains itself, and gives what it said.
fn run_badly(arguments: &[&str]) -> String {
    let output = run(arguments);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(2), "{arguments:?}: {said}");
    assert!(said.contains("Why: ") && said.contains("What to do: "), "{arguments:?}: {said}");
    assert!(!said.contains("panicked"), "{said}");
    said
}

/// Writes a recipe file and gives what is said about it.
fn refused(folder: &Path, contents: &[u8]) -> String {
    let path = folder.join("recipe.json");
    fs::write(&path, contents).unwrap();
    run_badly(&["ticket", path.to_str().unwrap()])
}

#[test]
fn a_picture_carries_its_recipe_and_seed() {
    let out = folder("picture").join("piece.png");
    let out = out.to_str().unwrap();
    let picture = [
        "picture", RECIPE, "--seed", "7", "--view", "fused", "--light", "gray", "--size", "48", "--out", out,
    ];
    run_well(&picture);
    let first = fs::read(out).unwrap();
    assert!(first.starts_with(b"\x89PNG\r\n\x1a\n"));
    assert_eq!(first[16..24], [0, 0, 0, 48, 0, 0, 0, 48]);
    let text = String::from_utf8_lossy(&first);
    for part in ["Dappledome recipe\0", "\"Ember Walk\"", "Dappledome seed\0\0\0\0\x007"] {
        assert!(text.contains(part), "no {part}");
    }
    run_well(&picture);
    assert_eq!(first, fs::read(out).unwrap(), "the same call gives the same bytes");
    run_well(&picture.map(|argument| if argument == "gray" { "grey" } else { argument }));
    assert_eq!(first, fs::read(out).unwrap(), "either spelling will do");
    assert_eq!(fs::read_dir(Path::new(out).parent().unwrap()).unwrap().count(), 1, "drafts are left");
}

#[test]
fn a_tray_holds_every_seed() {
    let out = folder("tray").join("tray.png");
    run_well(&["tray", RECIPE, "--seeds", "3..8", "--size", "32", "--out", out.to_str().unwrap()]);
    assert_eq!(fs::read(out).unwrap()[16..24], [0, 0, 0, 96, 0, 0, 0, 64]);
}

/// Each thread draws some of the seeds: where they lie, and all bytes, are the same with one and with three.
#[test]
fn a_tray_is_the_same_with_any_number_of_threads() {
    let folder = folder("tray_threads");
    let tray = |threads: &str| {
        let out = folder.join(format!("{threads}.png"));
        let arguments = ["tray", RECIPE, "--seeds", "3..9", "--size", "48", "--out", out.to_str().unwrap()];
        let mut command = Command::new(env!("CARGO_BIN_EXE_dappledome"));
        let done = command.args(arguments).env("RAYON_NUM_THREADS", threads).output().unwrap();
        assert!(done.status.success(), "{done:?}");
        fs::read(out).unwrap()
    };
    let alone = tray("1");
    assert!(alone == tray("3"), "three threads draw another tray");
}

#[test]
fn a_slump_is_a_table_or_a_drawing() {
    let folder = folder("slump");
    let out = |name: &str| folder.join(name).to_str().unwrap().to_owned();
    let (table, drawing) = (out("slump.csv"), out("slump.svg"));
    let said = run_well(&["slump", RECIPE, "--out", &table]);
    assert!(said.starts_with("Full at reduced time 0.0") && said.contains("slump.csv"), "{said}");
    let first = fs::read_to_string(&table).unwrap();
    let rows: Vec<Vec<f64>> = first
        .lines()
        .skip(1)
        .map(|row| row.split(',').map(|field| field.parse().unwrap()).collect())
        .collect();
    assert!(first.starts_with("reduced_time,minutes,depth_mm,") && rows.len() > 20, "{first}");
    assert!(
        rows.windows(2).all(|pair| pair[1][0] > pair[0][0] && pair[1][1] > pair[0][1] && pair[1].len() == 10),
        "{first}"
    );
    let last = &rows[rows.len() - 1];
    assert!(rows[0][1] < 0.0 && rows[0][2] == 0.0 && last[2] > 30.0 && last[6] < 1.0, "{last:?}");
    run_well(&["slump", RECIPE, "--out", &table]);
    assert_eq!(first, fs::read_to_string(&table).unwrap(), "the same call gives the same bytes");
    let rough = run_well(&["slump", RECIPE, "--friction", "0.5", "--out", &drawing]);
    assert!(rough > said, "friction takes longer: {rough}");
    let svg = fs::read_to_string(&drawing).unwrap();
    assert!(svg.starts_with("<svg ") && svg.ends_with("</svg>\n"), "{svg}");
    // The usual bowl of 160 x 48 mm is a part of a sphere of 90.667 mm.
    for part in ["mm\"", "A90.667 90.667", "no measured slump"] {
        assert!(svg.contains(part), "no {part}");
    }
    for number in ["NaN", "inf", "–"] {
        assert!(!svg.contains(number), "{number}");
    }
    assert!(run_badly(&["slump", RECIPE, "--out", &out("slump.png")]).contains(".svg"));
    assert!(run_badly(&["slump", RECIPE, "--out", RECIPE]).contains(".svg"), "the recipe is kept");
}

#[test]
fn a_dome_can_be_drawn_while_it_sinks() {
    let folder = folder("sunk");
    let drawn = |sunk: &[&str]| {
        let file = folder.join("dome.png").to_str().unwrap().to_owned();
        run_well(&[&["picture", RECIPE, "--size", "96", "--out", &file], sunk].concat());
        fs::read(&file).unwrap()
    };
    let all = [drawn(&["--sunk", "-60"]), drawn(&["--sunk", "4"]), drawn(&[])];
    assert!(all[0] != all[1] && all[1] != all[2]);
}

/// The same recipe with another mold, disc and stack, and a dam around it.
fn changed(folder: &Path, mold: &serde_json::Value, disc: f64, sheets: &[f64]) -> String {
    let mut recipe: serde_json::Value = serde_json::from_str(&fs::read_to_string(RECIPE).unwrap()).unwrap();
    recipe["mold"] = mold.clone();
    recipe["blank"]["diameter"] = json!(disc);
    recipe["fuse"] = json!({ "top": 790, "hold": 10, "dam": disc });
    recipe["blank"]["sheets"] =
        sheets.iter().map(|thickness| json!({ "glass": "clear", "thickness": thickness })).collect();
    let file = folder.join("changed.json");
    fs::write(&file, recipe.to_string()).unwrap();
    file.to_str().unwrap().to_owned()
}

/// Molds and discs that do not go together end with what, why and what to do, whatever is asked about them, and leave no file.
#[test]
fn what_cannot_sink_is_refused() {
    let folder = folder("refused");
    let out = |name: &str| folder.join(name).to_str().unwrap().to_owned();
    for (mold, disc, said) in [
        (json!({ "form": "bowl", "opening": 160, "depth": 90 }), 160.0, "Use a depth of at most 80 mm."),
        (json!({ "form": "bowl", "opening": 80, "depth": 30 }), 160.0, "Cut 80 mm, or use a wider mold."),
        (json!({ "form": "hump", "opening": 80, "depth": 30 }), 160.0, "Cut 80 mm, or use a wider hump."),
    ] {
        let recipe = changed(&folder, &mold, disc, &[3.0, 3.0]);
        for command in [
            vec!["slump", &recipe, "--out", &out("slump.csv")],
            vec!["program", &recipe],
            vec!["picture", &recipe, "--sunk", "10", "--size", "32", "--out", &out("dome.png")],
        ] {
            let told = run_badly(&command);
            assert!(told.contains("Why: ") && told.contains(said), "{command:?}: {told}");
        }
    }
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 1, "only the recipe lies there");
}

/// What sinks only partly, or hangs, is told with what to do, once, and comes out all the same: a disc half as wide as its mold, thick glass in
/// a narrow bowl, and friction without end.
#[test]
fn what_hardly_sinks_is_told() {
    let folder = folder("told");
    let out = |name: &str| folder.join(name).to_str().unwrap().to_owned();
    let bowl = json!({ "form": "bowl", "opening": 160, "depth": 48 });
    let narrow = json!({ "form": "bowl", "opening": 80, "depth": 40 });
    for (mold, disc, sheets, said) in [
        (bowl, 80.0, vec![3.0, 3.0], "Cut up to 160 mm for the whole depth."),
        (narrow, 80.0, vec![10.0, 10.0], "Use a wider or shallower mold, or thinner glass."),
    ] {
        let recipe = changed(&folder, &mold, disc, &sheets);
        for command in [
            vec!["slump", &recipe, "--out", &out("slump.svg")],
            vec!["program", &recipe],
            vec!["picture", &recipe, "--sunk", "10", "--size", "32", "--out", &out("dome.png")],
        ] {
            let told = told_well(&command);
            assert_eq!(told.matches(said).count(), 1, "{command:?}: {told}");
            assert!(!told.contains("NaN") && !told.contains("inf "), "{told}");
        }
    }
    let tight =
        json!({ "form": { "flat_bottom": { "bottom": 120, "corner": 10 } }, "opening": 160, "depth": 48 });
    let tight = changed(&folder, &tight, 160.0, &[3.0, 3.0]);
    let mut times = Vec::new();
    for friction in ["0", "0.5", "2", "1e300", "inf"] {
        let said = run_well(&["slump", RECIPE, "--friction", friction, "--out", &out("slump.csv")]);
        let table = fs::read_to_string(out("slump.csv")).unwrap();
        assert!(said.starts_with("Full at ") && !table.contains("NaN") && !table.contains("inf"), "{said}");
        times.push(said);
        let said = run_well(&["slump", &tight, "--friction", friction, "--out", &out("slump.csv")]);
        let held = said.starts_with("Not full: ") && said.contains("rounder corner");
        assert_eq!(held, friction != "0", "{friction}: {said}");
    }
    assert!(times[0] < times[1] && times[1] < times[2], "rougher is later: {times:?}");
    assert!(times[2] == times[3] && times[3] == times[4], "it sticks, and no more than that: {times:?}");
    for friction in ["-1", "NaN"] {
        let output = run(&["slump", RECIPE, "--friction", friction, "--out", &out("slump.csv")]);
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(output.status.code() == Some(2) && told.contains("from 0 up, as in 0.3"), "{told}");
    }
}

#[test]
fn a_ticket_is_for_people_and_for_programs() {
    let text = run_well(&["ticket", RECIPE, "--seed", "7"]);
    assert!(text.contains("Powder to have ready") && text.contains(" g\n"), "{text}");
    assert!(text.contains("in a small brick kiln that is a guess") && text.contains(" kWh\n"), "{text}");
    let json: serde_json::Value =
        serde_json::from_str(&run_well(&["ticket", RECIPE, "--seed", "7", "--json"])).unwrap();
    assert!(json["sifted"].as_f64().is_some_and(|grams| grams > 0.0), "{json}");
}

#[test]
fn programs_are_for_people_and_for_programs() {
    let text = run_well(&["program", RECIPE]);
    for part in [
        "guessed",
        "Full fuse, for",
        "Slump, for",
        "squeeze",
        "lid shut",
        "started at 18:00",
        "theirs wins",
        "respirator",
    ] {
        assert!(text.contains(part), "no {part}: {text}");
    }
    assert!(!text.to_lowercase().contains("food-safe"), "{text}");
    let json =
        |arguments: &[&str]| -> serde_json::Value { serde_json::from_str(&run_well(arguments)).unwrap() };
    let harbor = json(&["program", RECIPE, "--kiln", KILN, "--json"]);
    assert_eq!(harbor["programs"].as_array().map(Vec::len), Some(2));
    assert!(harbor["costs"][0].as_f64().is_some_and(|cost| cost > 0.5), "{}", harbor["costs"]);
    assert_eq!(harbor["guess"], false);
    assert_eq!(json(&["program", RECIPE, "--guess", "fiber", "--json"])["guess"], true);
}

#[test]
fn an_order_is_for_people_and_for_programs() {
    let text = run_well(&["order", ORDER, "--today", "2026-11-30"]);
    for part in [
        "14 pieces, 2 of them spare",
        "Powder to have ready",
        "Straw ",
        "14 discs out of 2 sheets, 1 to buy",
        "500 × 500 mm, to buy: 160 mm across at ",
        "A, Ember Walk: 6 stems",
        "stopper      No. 3, with a hole, 10 mm in (8 to 13)",
        "3/4 in pipe: 12 stems out of 6 lengths of 3048 mm to buy",
        "12 stoppers No. 3, holed, to buy",
        "1 tube of 300 mL to buy",
        "full fuse    7, 7 of 7 at once",
        "slump        5, 5, 4 of 5 at once",
        "Ready Mon 14 Dec 2026, after 7 days of rest, 4 days in hand",
        "The kiln sets the pace",
        "margin 45.0 %, markup 81.8 %",
        "sold pays for it",
    ] {
        assert!(text.contains(part), "no {part}: {text}");
    }
    assert!(!text.to_lowercase().contains("safe") && !text.contains("NaN"), "{text}");
    let json = run_well(&["order", ORDER, "--today", "2026-11-30", "--json"]);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!((&json["pieces"], &json["days"]["ready"]), (&14.into(), &"2026-12-14".into()));
    let beside = run_well(&["order", ORDER, "--today", "2026-11-30", "--beside", ORDER]);
    assert!(beside.contains("Beside it, Path lights"), "{beside}");
    assert!(run(&["order", ORDER]).status.code().is_some_and(|code| code != 101), "the clock's day");
}

#[test]
fn an_order_is_put_on_paper() {
    let folder = folder("paper");
    for (kind, size) in [("make-sheet", "a4"), ("quote", "letter"), ("sift-map", "a4"), ("labels", "letter")]
    {
        let out = folder.join(format!("{kind}.pdf"));
        let path = out.to_str().unwrap();
        run_well(&["paper", kind, ORDER, "--out", path, "--size", size, "--today", "2026-11-30"]);
        let first = fs::read(&out).unwrap();
        assert!(first.starts_with(b"%PDF-"), "{kind}");
        if kind == "sift-map" {
            run_well(&["paper", kind, ORDER, "--out", path, "--size", size, "--today", "2026-11-30"]);
            assert!(fs::read(&out).unwrap() == first, "the same order gives the same bytes");
        }
    }
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 4, "drafts are left");
}

#[test]
fn paper_that_cannot_be_made_is_told_and_nothing_is_lost() {
    let folder = folder("no_paper");
    let order = folder.join("order.json");
    fs::copy(ORDER, &order).unwrap();
    let (order, out) = (order.to_str().unwrap(), folder.join("out.pdf"));
    let out = out.to_str().unwrap();
    let said = run_badly(&["paper", "quote", order, "--out", order]);
    assert!(said.contains("It is the very file"), "{said}");
    assert_eq!(fs::read(order).unwrap(), fs::read(ORDER).unwrap());
    let nowhere = folder.join("none/out.pdf");
    assert!(
        run_badly(&["paper", "quote", order, "--out", nowhere.to_str().unwrap()]).contains("Cannot write")
    );
    let size = run(&["paper", "quote", order, "--out", out, "--size", "a5"]);
    let said = String::from_utf8_lossy(&size.stderr).into_owned();
    assert!(size.status.code() == Some(2) && said.contains("a4, letter"), "{said}");
    let good = fs::read_to_string(ORDER).unwrap();
    fs::write(order, good.replace("\"count\": 6", "\"count\": 600")).unwrap();
    run_badly(&["paper", "make-sheet", order, "--out", out]);
    let mut even: serde_json::Value = serde_json::from_str(&good).unwrap();
    for line in even["lines"].as_array_mut().unwrap() {
        for coat in line["recipe"]["coats"].as_array_mut().unwrap() {
            coat["fall"] = json!({ "even": { "depth": 0.2 } });
        }
    }
    fs::write(order, even.to_string()).unwrap();
    assert!(run_badly(&["paper", "sift-map", order, "--out", out]).contains("No sift map for this order."));
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 1, "nothing but the order is there");
}

#[test]
fn own_glasses_are_lent_from_a_shelf_file() {
    let folder = folder("own_glasses");
    let rust = catalogue::find("rust").unwrap();
    let mut shelf = Shelf::default();
    shelf.put(Glass { id: "of_may".into(), name: "Rust, jar of May".into(), density: 5.0, ..rust.clone() });
    let (shelf_file, recipe) = (folder.join("glasses.json"), folder.join("may.json"));
    fs::write(&shelf_file, shelf.write()).unwrap();
    fs::write(&recipe, fs::read_to_string(RECIPE).unwrap().replace("\"rust\"", "\"of_may\"")).unwrap();
    let [recipe, shelf_file] = [recipe, shelf_file].map(|path| path.to_str().unwrap().to_owned());
    let refused = run_badly(&["ticket", &recipe]);
    assert!(refused.contains("There is no powder called \"of_may\" here."), "{refused}");
    let ticket = run_well(&["ticket", &recipe, "--shelf", &shelf_file]);
    assert!(ticket.contains("Rust, jar of May"), "{ticket}");
    // Sent on in a picture, it needs no shelf any more.
    let picture = folder.join("may.png");
    run_well(&[
        "picture",
        &recipe,
        "--shelf",
        &shelf_file,
        "--size",
        "64",
        "--out",
        picture.to_str().unwrap(),
    ]);
    let inside = png::text(&fs::read(&picture).unwrap(), png::RECIPE_KEYWORD).unwrap();
    assert_eq!(file::read(&inside).unwrap().glasses, shelf.all());
    assert!(run_badly(&["ticket", &recipe, "--shelf", &recipe]).contains("No shelf file"));
    assert!(run_badly(&["ticket", &recipe, "--shelf", "none.json"]).contains("Cannot read none.json."));
}

#[test]
fn a_glass_is_fitted_to_its_tiles_and_found_again() {
    let folder = folder("fitted");
    let out = folder.join("glass.json");
    let [tiles, glass] = [Path::new(TILES), &out].map(|path| path.to_str().unwrap());
    let said = run_well(&["glass", "fit", tiles, "--out", glass]);
    assert!(said.contains("Rust, jar of May") && said.contains("tile 2: apart by 0."), "{said}");
    let shelf = Shelf::read(&fs::read_to_string(&out).unwrap()).unwrap();
    assert_eq!(shelf.glasses[0].glass.name, "Rust, jar of May");
    // The color of a tile is found again in the jar that it was fired of: 1.62 g on 32 cm² are 5.06 g on 100, 0.45 mm.
    let found = run_well(&["glass", "find", "Lab 42.5 27 50.5", "--shelf", glass, "--at-most", "1"]);
    let first = found.lines().next().unwrap();
    let depth = first.strip_prefix("rust, jar of may, ").and_then(|rest| rest.split(' ').next()).unwrap();
    assert!((depth.parse::<f64>().unwrap() - 0.45).abs() < 0.02, "{found}");
    assert!(first.contains("apart by 0.") && first.ends_with(" 5.1 g on 100 cm²"), "{found}");
    assert!(
        run_well(&["glass", "find", "#9A5F4C", "--recipe", RECIPE]).contains(" on "),
        "two jars are allowed"
    );
    assert!(run_badly(&["glass", "find", "brick"]).contains("This is no color."));
    let wrong = fs::read_to_string(TILES).unwrap().replace("0.54", "-0.54");
    let wrong_file = folder.join("wrong.json");
    fs::write(&wrong_file, wrong).unwrap();
    let refused = run_badly(&["glass", "fit", wrong_file.to_str().unwrap(), "--out", glass]);
    assert!(refused.contains("Not weighed yet."), "{refused}");
}

#[test]
fn bad_orders_are_told_and_nothing_is_lost() {
    let folder = folder("orders");
    let path = folder.join("order.json");
    let path = path.to_str().unwrap();
    let good = fs::read_to_string(ORDER).unwrap();
    for (from, to, said) in [
        ("\"hour\": 24", "\"hour\": -24", "The price of an hour is -24."),
        ("\"count\": 6", "\"count\": 1000000", "1000000"),
        ("\"count\": 5", "\"count\": 0", "The number of molds is 0."),
        ("\"due\": \"2026-12-18\"", "\"due\": \"some day\"", "At line"),
        ("\"spare_per_ten\"", "\"spares\"", "unknown field"),
        ("\"version\": 1,", "\"version\": 9,", "version 9"),
    ] {
        fs::write(path, good.replacen(from, to, 1)).unwrap();
        let told = run_badly(&["order", path, "--today", "2026-11-30"]);
        assert!(told.contains(said), "{to}: {told}");
    }
    fs::write(path, good.replace("2026-12-18", "2026-01-18")).unwrap();
    let output = run(&["order", path, "--today", "2026-11-30"]);
    assert!(
        output.status.success()
            && String::from_utf8_lossy(&output.stderr).contains("Due on a day that is past.")
    );
    // A kiln too weak for its firings: grams and discs are printed all the same.
    fs::write(path, good.replace("\"power\": 9.6", "\"power\": 0.7")).unwrap();
    let output = run(&["order", path, "--today", "2026-11-30"]);
    let (said, told) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(
        said.contains("Powder to have ready") && !said.contains("Ready Mon") && told.contains("too weak"),
        "{said}{told}"
    );
    let told = run(&["order", ORDER, "--today", "tomorrow"]);
    assert!(String::from_utf8_lossy(&told.stderr).contains("2026-11-30"));
}

#[test]
fn bad_kilns_are_refused() {
    let folder = folder("kilns");
    let good = fs::read_to_string(KILN).unwrap();
    for (from, to, said) in [
        ("\"power\": 9.6", "\"power\": 0.7", "too weak"),
        ("\"power\": 9.6", "\"power\": -1", "0.5 to 30 kW"),
        ("\"wide\": 520", "\"wide\": 900", "larger than its kiln"),
        ("\"at\": 128", "\"at\": 300", "no cooling"),
        ("\"lining\"", "\"linning\"", "unknown field"),
        ("\"version\": 1", "\"version\": 9", "version 9"),
    ] {
        let path = folder.join("kiln.json");
        fs::write(&path, good.replace(from, to)).unwrap();
        let told = run_badly(&["program", RECIPE, "--kiln", path.to_str().unwrap()]);
        assert!(told.contains(said), "{to}: {told}");
    }
    assert!(
        run_badly(&["program", RECIPE, "--kiln", folder.join("none.json").to_str().unwrap()])
            .contains("none.json")
    );
}

#[test]
fn files_that_are_no_recipes_are_refused() {
    let folder = folder("no_recipes");
    let missing = run_badly(&["ticket", folder.join("none.json").to_str().unwrap()]);
    assert!(missing.contains("none.json"), "{missing}");
    assert!(run_badly(&["ticket", folder.to_str().unwrap()]).contains("folder"));
    assert!(run_badly(&["ticket", "/dev/zero"]).contains("at most"));
    assert!(refused(&folder, b"\xff\xfe{}").contains("UTF-8"));
    let whole = fs::read(RECIPE).unwrap();
    assert!(refused(&folder, &whole[..whole.len() / 2]).contains("too early"));
    assert!(refused(&folder, b"").contains("too early"));
    let other = String::from_utf8(whole).unwrap().replace("\"version\": 1", "\"version\": 99");
    assert!(refused(&folder, other.as_bytes()).contains("version 99"));
}

#[test]
fn two_gigabytes_are_not_read() {
    let path = folder("huge").join("recipe.json");
    File::create(&path).unwrap().set_len(2 << 30).unwrap();
    assert!(run_badly(&["ticket", path.to_str().unwrap()]).contains("2147483648 bytes"));
    fs::remove_file(path).unwrap();
}

#[test]
fn every_fault_of_a_recipe_is_said() {
    let recipe = fs::read_to_string(RECIPE).unwrap();
    let faulty = recipe
        .replace("\"diameter\": 160", "\"diameter\": 1000000000")
        .replace("\"depth\": 0.26", "\"depth\": -1")
        .replace("\"coverage\": 0.34", "\"coverage\": 7");
    let said = refused(&folder("faulty"), faulty.as_bytes());
    assert!(said.matches("What to do: ").count() >= 3, "{said}");
}

#[test]
fn outputs_that_cannot_be_written_are_refused_first() {
    let folder = folder("unwritable");
    let picture = |out: &str| run_badly(&["picture", RECIPE, "--size", "4096", "--out", out]);
    let said = picture(folder.join("none/piece.png").to_str().unwrap());
    assert!(said.contains("folder that exists"), "{said}");
    assert!(picture(folder.to_str().unwrap()).contains("It is a folder"));
    let protected = folder.join("protected.png");
    fs::write(&protected, "mine").unwrap();
    let mut permissions = fs::metadata(&protected).unwrap().permissions();
    permissions.set_readonly(true);
    fs::set_permissions(&protected, permissions).unwrap();
    assert!(picture(protected.to_str().unwrap()).contains("write-protected"));
    // A device is never replaced; this one is always full.
    let full = run_badly(&["picture", RECIPE, "--size", "16", "--out", "/dev/full"]);
    assert!(full.contains("Cannot write /dev/full"), "{full}");
}

#[test]
fn the_recipe_is_never_written_over() {
    let folder = folder("itself");
    let recipe = folder.join("recipe.json");
    fs::copy(RECIPE, &recipe).unwrap();
    let (soft, hard) = (folder.join("soft.png"), folder.join("hard.png"));
    std::os::unix::fs::symlink(&recipe, &soft).unwrap();
    fs::hard_link(&recipe, &hard).unwrap();
    let before = fs::read(&recipe).unwrap();
    let recipe = recipe.to_str().unwrap();
    for out in
        [recipe, soft.to_str().unwrap(), hard.to_str().unwrap(), &recipe.replace("/recipe", "/./recipe")]
    {
        for command in [&["picture"][..], &["tray", "--seeds", "1..2"]] {
            let said = run_badly(&[command, &[recipe, "--size", "16", "--out", out]].concat());
            assert!(said.contains("It is the very file"), "{out}: {said}");
        }
    }
    assert_eq!(fs::read(recipe).unwrap(), before);
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 3, "drafts are left");
}

#[test]
fn nothing_is_left_when_the_work_is_broken_off() {
    for signal in ["INT", "TERM"] {
        let folder = folder("broken_off");
        let out = folder.join("piece.png");
        let mut program = Command::new(env!("CARGO_BIN_EXE_dappledome"))
            .args(["picture", RECIPE, "--size", "4096", "--out", out.to_str().unwrap()])
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut said = BufReader::new(program.stderr.take().unwrap()).lines();
        assert!(said.any(|line| line.unwrap().starts_with("Drawing the piece")));
        send(signal, &program);
        assert_eq!(code_of(&mut program), Some(130), "{signal}");
        assert_eq!(fs::read_dir(&folder).unwrap().count(), 0, "{signal}: something is left");
    }
}

#[test]
fn where_nobody_listens_the_work_goes_on() {
    let out = folder("unheard").join("piece.png");
    let picture = ["picture", RECIPE, "--size", "16", "--out", out.to_str().unwrap()];
    let program = || Command::new(env!("CARGO_BIN_EXE_dappledome"));
    let full = || File::options().write(true).open("/dev/full").unwrap();
    assert_eq!(
        program().args(picture).stdout(Stdio::null()).stderr(full()).status().unwrap().code(),
        Some(0)
    );
    assert_eq!(program().args(["ticket", "none.json"]).stderr(full()).status().unwrap().code(), Some(2));
    let (said, unsaid) = std::io::pipe().unwrap();
    drop(said);
    assert_eq!(
        program().args(picture).stdout(Stdio::null()).stderr(unsaid).status().unwrap().code(),
        Some(0)
    );
    let (read, unread) = std::io::pipe().unwrap();
    drop(read);
    let ticket = program().args(["ticket", RECIPE]).stdout(unread).stderr(Stdio::piped()).output().unwrap();
    assert_eq!((ticket.status.code(), String::from_utf8(ticket.stderr).unwrap()), (Some(0), String::new()));
    let ticket = program().args(["ticket", RECIPE]).stdout(full()).stderr(Stdio::piped()).output().unwrap();
    assert_eq!(ticket.status.code(), Some(2));
    assert!(String::from_utf8(ticket.stderr).unwrap().contains("Cannot print the result"));
}

#[test]
fn no_powder_weighs_nothing_and_not_less() {
    let recipe = folder("bare").join("recipe.json");
    fs::write(&recipe, file::write(&Recipe::bare())).unwrap();
    let recipe = recipe.to_str().unwrap();
    let text = run_well(&["ticket", recipe]);
    assert!(text.contains("in all       0.0 g, 0.0 g\n"), "{text}");
    assert!(!run_well(&["ticket", recipe, "--json"]).contains("-0"));
}

#[test]
fn bad_arguments_are_explained() {
    for (arguments, hint) in [
        (&["picture", RECIPE, "--size", "15", "--out", "x.png"][..], "16..=4096"),
        (&["picture", RECIPE, "--size", "4097", "--out", "x.png"], "16..=4096"),
        (&["picture", RECIPE, "--seed", "-1", "--out", "x.png"], "--seed"),
        (&["picture", RECIPE, "--view", "boiled", "--out", "x.png"], "domed"),
        (&["picture", RECIPE], "--out"),
        (&["tray", RECIPE, "--seeds", "9..3", "--out", "x.png"], "write 3..9"),
        (&["tray", RECIPE, "--seeds", "1..401", "--out", "x.png"], "fewer seeds"),
        (&["serve", "--port", "0"], "--port"),
        (&["nonsense"], "--help"),
    ] {
        let output = run(arguments);
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{said}");
        assert!(said.contains(hint), "{arguments:?} does not mention {hint}: {said}");
    }
    let said = run_badly(&["tray", RECIPE, "--seeds", "1..400", "--size", "1024", "--out", "x.png"]);
    assert!(said.contains("smaller --size"), "{said}");
}

/// A port that nobody has.
fn free_port() -> u16 {
    TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port()
}

/// Serves the page on this port, and gives what is said once it is there.
fn serve(port: &str) -> (Child, String) {
    let mut program = Command::new(env!("CARGO_BIN_EXE_dappledome"))
        .args(["serve", "--port", port])
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut said = String::new();
    BufReader::new(program.stdout.take().unwrap()).read_line(&mut said).unwrap();
    (program, said)
}

#[test]
fn the_page_is_served_where_it_was_asked_for() {
    let port = free_port().to_string();
    let (mut first, said) = serve(&port);
    let second = run(&["serve", "--port", &port]);
    first.kill().unwrap();
    first.wait().unwrap();
    let url = format!("http://127.0.0.1:{port}/");
    assert!(said.contains(&url), "{said}");
    assert!(second.status.success());
    let second = String::from_utf8(second.stdout).unwrap();
    assert!(second.contains("already running") && second.contains(&url), "{second}");
}

#[test]
fn it_stops_in_good_order_when_told_to() {
    let port = free_port();
    for signal in ["TERM", "INT"] {
        let (mut program, said) = serve(&port.to_string());
        assert!(said.contains("is open"), "{said}");
        let mut visitor = TcpStream::connect(("127.0.0.1", port)).unwrap();
        visitor.write_all(b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n").unwrap();
        visitor.read_exact(&mut [0; 17]).unwrap();
        send(signal, &program);
        assert_eq!(code_of(&mut program), Some(0), "{signal}");
        visitor.read_to_end(&mut Vec::new()).expect("the connection ends in good order");
        TcpListener::bind(("127.0.0.1", port)).expect("the port is free");
    }
}

fn send(signal: &str, program: &Child) {
    let kill = format!("kill -{signal} {}", program.id());
    assert!(Command::new("sh").args(["-c", &kill]).status().unwrap().success());
}

/// The code that a program ends with. It is killed if that takes long, and then has none.
fn code_of(program: &mut Child) -> Option<i32> {
    for _ in 0..100 {
        if let Some(status) = program.try_wait().unwrap() {
            return status.code();
        }
        thread::sleep(Duration::from_millis(100));
    }
    program.kill().unwrap();
    program.wait().unwrap().code()
}

#[test]
fn a_taken_port_is_said_and_not_moved_from() {
    let other = TcpListener::bind("127.0.0.1:0").unwrap();
    let port = other.local_addr().unwrap().port().to_string();
    let start = Instant::now();
    assert!(run_badly(&["serve", "--port", &port]).contains("is taken"));
    assert!(run_badly(&["--port", &port]).contains("--port"));
    assert!(start.elapsed() < Duration::from_secs(8), "{:?} for two silent answers", start.elapsed());
    // It talks without end, and slowly.
    let talker = thread::spawn(move || {
        let mut caller = other.incoming().nth(2).unwrap().unwrap();
        while caller.write_all(b".").is_ok() {
            thread::sleep(Duration::from_millis(100));
        }
    });
    let start = Instant::now();
    assert!(run_badly(&["serve", "--port", &port]).contains("is taken"));
    assert!(start.elapsed() < Duration::from_secs(4), "{:?}", start.elapsed());
    talker.join().unwrap();
}

#[test]
fn a_bundle_does_not_mix_with_other_files() {
    let folder = folder("mixed");
    fs::write(folder.join("mine.txt"), "mine").unwrap();
    assert!(run_badly(&["bundle", folder.to_str().unwrap()]).contains("not empty"));
}
