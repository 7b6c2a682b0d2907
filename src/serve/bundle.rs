//! The page as a static site: a root page and one folder, named after its contents, with all the rest.
//!
//! ```text
//! index.html manifest.webmanifest    asked for anew each time
//! mend.js                            mends a page of which a part did not arrive whole
//! service_worker.js                  keeps one whole version for times without a network
//! app-<hash>/boot.js worker.js       kept by browsers for good: other contents have another name
//!            dappledome.js dappledome_bg.wasm style.css icon.svg ...
//! ```
//!
//! The folder's name is the version. The service worker has it inside, with the list of all files and their digests: a
//! changed file anywhere gives another name, another script, and by that an update, and a file that was cut off on its way
//! is known. The root page has the digests of what it names, and `mend.js` those of the whole folder.
//!
//! Scripts import each other by their plain names and every address is relative, so the site works in any folder
//! of any static host.

use super::site::{POLICY, Site};
use super::trouble::Trouble;
use super::{compile, parts};
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};
use std::{env, fs};

/// How the name of the folder begins that is named after its contents.
pub const HASHED_FOLDER: &str = "app-";

/// The most that may be fetched before the first picture, compressed, bytes.
pub const MOST_AT_FIRST: usize = 900_000;

/// The most that the site may weigh when compressed, bytes.
pub const MOST_COMPRESSED: usize = 1_580_000;

/// What of the program is there from the beginning.
pub const PROGRAM: &str = "dappledome_bg.wasm";

/// The root page in `www/public/`.
const ROOT_PAGE: &str = "index.html";

/// Where the static files of the page lie.
const PUBLIC: &str = "www/public";

/// The style sheet of the site, joined from the files of a folder in [`PUBLIC`] and freed of what only people read.
const STYLE: &str = "style.css";

/// The folders of the style sheet's files, in the order of the sheet: of two rules that weigh the same the later one
/// holds. Inside a folder the order is alphabetical.
const STYLE_FLOORS: [&str; 4] = ["base", "controls", "areas", "app"];

/// The script that keeps the page for times without a network.
pub const SERVICE_WORKER: &str = "service_worker.js";

/// The script that mends a page of which a part did not arrive whole.
pub const MENDER: &str = "mend.js";

/// What lies beside the folder, under names that stay.
const ROOT_FILES: [&str; 4] = [ROOT_PAGE, "manifest.webmanifest", MENDER, SERVICE_WORKER];

/// Where a script has the list of files with their digests.
const FILES: &str = r#"["{{files}}"]"#;

/// Builds the page and lays it out.
///
/// # Errors
/// If the compiler, the sources or the files of `www/public/` are not in order.
pub fn build() -> Result<Site, Trouble> {
    lay_out(parts()?)
}

/// Builds the parts of the page: the files of `www/public/` and the program, side by side and not filled in yet.
///
/// # Errors
/// If the compiler, the sources or the files of `www/public/` are not in order.
pub fn parts() -> Result<Site, Trouble> {
    let root = source_tree()?;
    let program = compile::program(&root)?;
    let public = root.join(PUBLIC);
    let mut site = files_of(&public)?;
    site.insert(STYLE, style_sheet(&public.join("style"))?);
    site.insert("dappledome.js", program.glue);
    site.insert(PROGRAM, program.wasm);
    for (path, wasm) in program.parts {
        site.insert(path, wasm);
    }
    let loader = take_text(&mut site, parts::LOADER)?;
    site.insert(parts::LOADER, loader + &program.doors);
    for (path, script) in program.snippets {
        site.insert(path, script);
    }
    Ok(site)
}

/// Puts everything but the root files into a folder named after all contents, and that name into the root files.
///
/// # Errors
/// If a root file is missing.
pub fn lay_out(mut parts: Site) -> Result<Site, Trouble> {
    let page = take_text(&mut parts, ROOT_PAGE)?;
    parts.insert(ROOT_PAGE, page.replace("{{policy}}", POLICY));
    let folder = format!("{HASHED_FOLDER}{:016x}", parts.hash());
    let [page, manifest, mender, keeper] = ROOT_FILES.map(|name| take_text(&mut parts, name));
    let page = with_digests(page?, &parts);
    let mut site = parts.under(&folder);
    let mender = mender?.replace(FILES, &files_of_site(&site));
    for (name, text) in [(ROOT_PAGE, page), (ROOT_FILES[1], manifest?), (MENDER, mender)] {
        site.insert(name, text.replace("{{app}}", &folder));
    }
    let keeper = keeper?.replace("{{app}}", &folder).replace(FILES, &files_of_site(&site));
    site.insert(SERVICE_WORKER, keeper);
    Ok(site)
}

/// The root page with the digest of each file in place of its name in double braces.
fn with_digests(page: String, parts: &Site) -> String {
    parts.iter().fold(page, |page, (name, bytes)| page.replace(&format!("{{{{{name}}}}}"), &digest(bytes)))
}

/// The files of a site as a list of addresses with their digests.
fn files_of_site(site: &Site) -> String {
    // The folder itself: a host may lead from `index.html` to it, and what was led elsewhere cannot open a page.
    let address = |path| if path == ROOT_PAGE { "./" } else { path };
    let files = site.iter().map(|(path, bytes)| (address(path), digest(bytes)));
    serde_json::json!(files.collect::<Vec<_>>()).to_string()
}

/// What a browser calls a file's integrity: its SHA-256 digest.
fn digest(bytes: &[u8]) -> String {
    format!("sha256-{}", BASE64_STANDARD.encode(Sha256::digest(bytes)))
}

/// Takes out a file that is text.
fn take_text(site: &mut Site, name: &str) -> Result<String, Trouble> {
    site.remove(name).and_then(|bytes| String::from_utf8(bytes).ok()).ok_or_else(|| {
        Trouble::new(
            "A part of the page is missing.",
            format!("{PUBLIC}/{name} is not there, or is not text."),
            "Restore the file.",
        )
    })
}

/// The folder with Cargo.toml: where cargo runs this, or where this was built.
fn source_tree() -> Result<PathBuf, Trouble> {
    let root =
        env::var_os("CARGO_MANIFEST_DIR").map_or_else(|| env!("CARGO_MANIFEST_DIR").into(), PathBuf::from);
    if root.join(PUBLIC).join(ROOT_PAGE).is_file() {
        return Ok(root);
    }
    Err(Trouble::new(
        "Dappledome's sources are not where they were.",
        format!("The page is built from them, and {} has no {PUBLIC}/{ROOT_PAGE}.", root.display()),
        "Run `cargo run` in the folder of the sources.",
    ))
}

/// The style sheet, joined from the files of a folder: floor by floor, and by path on each.
fn style_sheet(folder: &Path) -> Result<String, Trouble> {
    let mut floors: [Vec<String>; STYLE_FLOORS.len()] = Default::default();
    for (path, bytes) in files_below(folder)?.iter() {
        let misplaced = |why: &str| {
            let file = folder.join(path);
            let what = format!("{} is no part of the style sheet.", file.display());
            Trouble::new(what, why, format!("Move it to one of the folders {}.", STYLE_FLOORS.join(", ")))
        };
        let floor = STYLE_FLOORS.iter().position(|floor| path.split('/').next() == Some(floor));
        let floor = floor.ok_or_else(|| misplaced("Its folder has no place in the sheet's order."))?;
        let text = std::str::from_utf8(bytes).map_err(|fault| misplaced(&format!("{fault}.")))?;
        floors[floor].push(text.to_owned());
    }
    let sheet = floors.concat().join("\n");
    let small = minifier::css::minify(&sheet).map_err(|fault| {
        Trouble::new(
            "The style sheet is not in order.",
            format!("{fault}."),
            format!("Mend the files of {}.", folder.display()),
        )
    })?;
    Ok(small.to_string())
}

/// The files right in a folder; those whose name begins with a dot are an editor's, not ours.
fn files_of(folder: &Path) -> Result<Site, Trouble> {
    let (files, _) = entries_of(folder)?;
    files.into_iter().try_fold(Site::default(), |mut site, (name, path)| {
        site.insert(name, fs::read(&path).map_err(|fault| unreadable(&path, &fault))?);
        Ok(site)
    })
}

/// The files in a folder and in all its folders, by their path relative to it.
fn files_below(folder: &Path) -> Result<Site, Trouble> {
    let mut site = files_of(folder)?;
    for (name, path) in entries_of(folder)?.1 {
        for (file, bytes) in files_below(&path)?.under(&name).iter() {
            site.insert(file, bytes);
        }
    }
    Ok(site)
}

/// The name and the path of what lies in a folder: its files, and its folders.
type Entries = Vec<(String, PathBuf)>;

fn entries_of(folder: &Path) -> Result<(Entries, Entries), Trouble> {
    let entries = fs::read_dir(folder).and_then(Iterator::collect::<std::io::Result<Vec<_>>>);
    let entries = entries.map_err(|fault| unreadable(folder, &fault))?;
    let named =
        entries.into_iter().map(|entry| (entry.file_name().to_string_lossy().into_owned(), entry.path()));
    Ok(named.filter(|(name, _)| !name.starts_with('.')).partition(|(_, path)| path.is_file()))
}

fn unreadable(path: &Path, fault: &std::io::Error) -> Trouble {
    Trouble::new(format!("Cannot read {}.", path.display()), format!("{fault}."), "Restore the sources.")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn app(script: &str) -> Site {
        let mut app = Site::default();
        app.insert("index.html", r#"<script src="{{app}}/boot.js" integrity="{{boot.js}}"></script>"#);
        app.insert("manifest.webmanifest", r#"{"src":"{{app}}/icon.svg"}"#);
        for script in ["mend.js", "service_worker.js"] {
            app.insert(script, r#"["{{app}}",["{{files}}"]]"#);
        }
        app.insert("boot.js", script);
        app
    }

    #[test]
    fn the_folder_is_named_after_its_contents() {
        let (one, same, other) =
            (lay_out(app("1")).unwrap(), lay_out(app("1")).unwrap(), lay_out(app("2")).unwrap());
        assert_eq!(one, same);
        assert_ne!(one.get("index.html"), other.get("index.html"));
        let (path, _) = one.iter().find(|(path, _)| path.ends_with("/boot.js")).unwrap();
        let page = String::from_utf8(one.get("index.html").unwrap().to_vec()).unwrap();
        // The digest of "1", as `printf 1 | openssl dgst -sha256 -binary | base64` says.
        let digest = "sha256-a4ayc/80/OGda4BO/1o/V0etpOqiLx1JwB5S3beHW0s=";
        assert_eq!(page, format!(r#"<script src="{path}" integrity="{digest}"></script>"#));
    }

    #[test]
    fn a_change_of_any_file_is_another_version() {
        let version = |site: &Site| site.iter().next().unwrap().0.split('/').next().unwrap().to_owned();
        let one = version(&lay_out(app("1")).unwrap());
        for name in ROOT_FILES {
            let mut changed = app("1");
            let text = String::from_utf8(changed.get(name).unwrap().to_vec()).unwrap();
            changed.insert(name, format!("{text} "));
            assert_ne!(version(&lay_out(changed).unwrap()), one, "{name}");
        }
    }

    #[test]
    fn its_scripts_know_their_version_and_all_files_with_their_digests() {
        let site = lay_out(app("1")).unwrap();
        let boot = format!("{}/boot.js", site.iter().next().unwrap().0.split('/').next().unwrap());
        let in_folder = [boot.as_str()];
        let all = [boot.as_str(), "./", "manifest.webmanifest", "mend.js"];
        for (script, files) in [(MENDER, &in_folder[..]), (SERVICE_WORKER, &all)] {
            let filled: (String, Vec<(String, String)>) =
                serde_json::from_slice(site.get(script).unwrap()).unwrap();
            assert!(boot.starts_with(&filled.0));
            let (paths, digests): (Vec<_>, Vec<_>) = filled.1.into_iter().unzip();
            assert_eq!(paths, files, "{script}");
            for (path, said) in paths.iter().zip(digests) {
                let path = if path == "./" { ROOT_PAGE } else { path };
                assert_eq!(said, digest(site.get(path).unwrap()), "{script}: {path}");
            }
        }
    }

    #[test]
    fn the_style_sheet_is_joined_floor_by_floor() {
        let folder = env::temp_dir().join(format!("dappledome_style_{}", std::process::id()));
        let write = |path: &str, text: &str| {
            let file = folder.join(path);
            fs::create_dir_all(file.parent().unwrap()).unwrap();
            fs::write(file, text).unwrap();
        };
        write("app/page.css", "/* app/page.css */ .n { order: 5; }");
        write("areas/tray/grid.css", "/* areas/tray/grid.css */ .n { order: 4; }");
        write("areas/paper.css", "/* areas/paper.css */ .n { order: 3; }");
        write("base/tones.css", "/* base/tones.css */ .n { order: 1; }");
        write("controls/button.css", "/* controls/button.css */ .n { order: 2; }");
        write("controls/.button.css.swp", "an editor's");
        let joined = style_sheet(&folder);
        write("area/kiln.css", "");
        let misplaced = style_sheet(&folder);
        fs::remove_dir_all(&folder).unwrap();
        let rules: String = (1..=5).map(|n| format!(".n{{order:{n};}}")).collect();
        assert_eq!(joined.unwrap().trim(), rules);
        assert!(misplaced.unwrap_err().what.contains("kiln.css"));
    }

    #[test]
    fn a_missing_root_page_is_said() {
        assert!(lay_out(Site::default()).unwrap_err().why.contains("www/public/index.html"));
    }
}
