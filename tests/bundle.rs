//! The page as it is shipped: small enough, fast instructions inside, nothing named by this machine.

mod support;

use dappledome::serve::bundle::{MOST_AT_FIRST, MOST_COMPRESSED, PROGRAM};
use dappledome::serve::site::compressed_bytes;
use support::site::{app_path, bundle};

#[test]
fn it_is_small() {
    let mut at_first = 0;
    for (path, bytes) in bundle().iter() {
        let compressed = compressed_bytes(bytes);
        println!("{path}: {} bytes, {compressed} compressed", bytes.len());
        let is_part = path.ends_with(".wasm") && !path.ends_with(PROGRAM);
        at_first += if is_part { 0 } else { compressed };
    }
    let weight = bundle().compressed_bytes();
    println!("at first: {at_first} compressed; in all: {weight}");
    assert!(at_first <= MOST_AT_FIRST, "{at_first} bytes, {MOST_AT_FIRST} allowed");
    assert!(weight <= MOST_COMPRESSED, "{weight} bytes, {MOST_COMPRESSED} allowed");
}

#[test]
fn its_program_computes_four_numbers_at_once() {
    let wasm = bundle().get(&app_path("dappledome_bg.wasm")).unwrap();
    let with_vectors = functions_with_vectors(wasm);
    println!("{with_vectors} functions hold vectors");
    assert!(with_vectors > 0, "no function has a v128 local: the SIMD switch of .cargo/config.toml was lost");
}

#[test]
fn it_names_no_folder_of_this_machine() {
    let home = std::env::var("HOME").unwrap_or_default();
    for (path, bytes) in bundle().iter() {
        for folder in
            [env!("CARGO_MANIFEST_DIR"), home.as_str()].into_iter().filter(|folder| folder.len() > 1)
        {
            let found = bytes.windows(folder.len()).any(|part| part == folder.as_bytes());
            assert!(!found, "{path} contains {folder}");
        }
    }
}

#[test]
fn the_root_page_is_filled_in() {
    let page = std::str::from_utf8(bundle().get("index.html").unwrap()).unwrap();
    assert!(!page.contains("{{"), "{page}");
    assert!(page.contains("default-src 'self'"), "{page}");
    let addresses = page.split(['"', '\'']).filter(|part| part.starts_with("app-"));
    let missing: Vec<_> = addresses.filter(|path| bundle().get(path).is_none()).collect();
    assert!(missing.is_empty(), "the root page names {missing:?}");
}

#[test]
fn the_manifest_names_icons_that_are_there() {
    let manifest: serde_json::Value =
        serde_json::from_slice(bundle().get("manifest.webmanifest").unwrap()).unwrap();
    let icons = manifest["icons"].as_array().unwrap().iter();
    let named: Vec<_> = icons.map(|icon| icon["src"].as_str().unwrap()).collect();
    assert_eq!(named, [app_path("icon.svg"), app_path("icon_maskable.svg")]);
}

#[test]
fn both_icons_are_one_drawing() {
    // A system may cut the second to a circle: it differs by its margin alone.
    let drawing = |name: &str| {
        let icon = std::str::from_utf8(bundle().get(&app_path(name)).unwrap()).unwrap();
        icon.lines().skip(2).map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(drawing("icon.svg"), drawing("icon_maskable.svg"));
}

/// How many functions of a WebAssembly file have a local of type v128 (WebAssembly core specification 2.0, 5.3.1 and
/// 5.5.13).
fn functions_with_vectors(wasm: &[u8]) -> usize {
    const CODE: u8 = 10;
    const V128: u8 = 0x7b;
    let mut rest = &wasm[8..];
    while let [kind, tail @ ..] = rest {
        rest = tail;
        let length = number(&mut rest);
        let (mut section, after) = rest.split_at(length);
        rest = after;
        if *kind == CODE {
            let count = number(&mut section);
            let mut bodies = (0..count).map(|_| {
                let length = number(&mut section);
                let (body, after) = section.split_at(length);
                section = after;
                body
            });
            return bodies.by_ref().filter(|body| local_types(body).contains(&V128)).count();
        }
    }
    0
}

/// The types of a function's locals, each run of equal ones once.
fn local_types(mut body: &[u8]) -> Vec<u8> {
    let runs = number(&mut body);
    let mut types = Vec::new();
    for _ in 0..runs {
        number(&mut body);
        types.push(body[0]);
        // A reference type of the longer form is followed by the type that it refers to.
        let long = matches!(body[0], 0x63 | 0x64);
        body = &body[1..];
        if long {
            number(&mut body);
        }
    }
    types
}

/// Reads an unsigned LEB128 number.
fn number(bytes: &mut &[u8]) -> usize {
    let (mut value, mut shift) = (0, 0);
    loop {
        let byte = bytes[0];
        *bytes = &bytes[1..];
        value |= usize::from(byte & 0x7f) << shift;
        if byte < 0x80 {
            return value;
        }
        shift += 7;
    }
}
