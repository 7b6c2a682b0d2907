//! The page as a static site: a root page and one folder, named after its contents, with all the rest.
//!
//! ```text
//! index.html manifest.webmanifest    asked for anew each time
//! service_worker.js                  keeps one whole version for times without a network
//! app-<hash>/boot.js worker.js       kept by browsers for good: other contents have another name
//!            dappledome.js dappledome_bg.wasm style.css icon.svg ...
//! ```
//!
//! The folder's name is the version. The service worker has it inside, with the list of all files: a changed file
//! anywhere gives another name, another script, and by that an update.
//!
//! Scripts import each other by their plain names and every address is relative, so the site works in any folder
//! of any static host.

use super::compile;
use super::site::{POLICY, Site};
use super::smaller;
use super::trouble::Trouble;
use std::path::{Path, PathBuf};
use std::{env, fs};

/// How the name of the folder begins that is named after its contents.
pub const HASHED_FOLDER: &str = "app-";

/// The most that the site may weigh when compressed, bytes.
pub const MOST_COMPRESSED: usize = 450_000;

/// The root page in `www/public/`.
const ROOT_PAGE: &str = "index.html";

/// The style sheet.
const STYLE: &str = "style.css";

/// The script that keeps the page for times without a network.
pub const SERVICE_WORKER: &str = "service_worker.js";

/// What lies beside the folder, under names that stay.
const ROOT_FILES: [&str; 3] = [ROOT_PAGE, "manifest.webmanifest", SERVICE_WORKER];

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
    let mut parts = files_of(&root.join("www/public"))?;
    let style = smaller::style(&take_text(&mut parts, STYLE)?).map_err(|fault| {
        Trouble::new("The style sheet is not in order.", format!("{fault}."), format!("Mend www/public/{STYLE}."))
    })?;
    parts.insert(STYLE, style);
    parts.insert("dappledome.js", program.glue);
    parts.insert("dappledome_bg.wasm", program.wasm);
    for (path, script) in program.snippets {
        parts.insert(path, script);
    }
    Ok(parts)
}

/// Puts everything but the root files into a folder named after all contents, and that name into the root files.
///
/// # Errors
/// If a root file is missing.
pub fn lay_out(mut parts: Site) -> Result<Site, Trouble> {
    let page = take_text(&mut parts, ROOT_PAGE)?;
    parts.insert(ROOT_PAGE, page.replace("{{policy}}", POLICY));
    let folder = format!("{HASHED_FOLDER}{:016x}", parts.hash());
    let mut root = Site::default();
    for name in ROOT_FILES {
        root.insert(name, take_text(&mut parts, name)?.replace("{{app}}", &folder));
    }
    let mut site = parts.under(&folder);
    for (name, bytes) in root.iter() {
        site.insert(name, bytes);
    }
    let keeper = take_text(&mut site, SERVICE_WORKER)?;
    let list = serde_json::json!(kept_files(&site)).to_string();
    site.insert(SERVICE_WORKER, keeper.replace(r#"["{{files}}"]"#, &list));
    Ok(site)
}

/// The addresses that the service worker keeps: the whole site but for itself, which the browser keeps.
fn kept_files(site: &Site) -> Vec<&str> {
    // The folder itself: a host may lead from `index.html` to it, and what was led elsewhere cannot open a page.
    site.iter().map(|(path, _)| if path == ROOT_PAGE { "./" } else { path }).collect()
}

/// Takes out a file that is text.
fn take_text(site: &mut Site, name: &str) -> Result<String, Trouble> {
    site.remove(name).and_then(|bytes| String::from_utf8(bytes).ok()).ok_or_else(|| {
        Trouble::new(
            "A part of the page is missing.",
            format!("www/public/{name} is not there, or is not text."),
            "Restore the file.",
        )
    })
}

/// The folder with Cargo.toml: where cargo runs this, or where this was built.
fn source_tree() -> Result<PathBuf, Trouble> {
    let root =
        env::var_os("CARGO_MANIFEST_DIR").map_or_else(|| env!("CARGO_MANIFEST_DIR").into(), PathBuf::from);
    if root.join("www/public").join(ROOT_PAGE).is_file() {
        return Ok(root);
    }
    Err(Trouble::new(
        "Dappledome's sources are not where they were.",
        format!("The page is built from them, and {} has no www/public/{ROOT_PAGE}.", root.display()),
        "Run `cargo run` in the folder of the sources.",
    ))
}

/// All files of a folder; those whose name begins with a dot are an editor's, not ours.
fn files_of(folder: &Path) -> Result<Site, Trouble> {
    let unreadable = |path: &Path, fault: std::io::Error| {
        Trouble::new(format!("Cannot read {}.", path.display()), format!("{fault}."), "Restore the sources.")
    };
    let mut site = Site::default();
    for entry in fs::read_dir(folder).map_err(|fault| unreadable(folder, fault))? {
        let path = entry.map_err(|fault| unreadable(folder, fault))?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if path.is_file() && !name.starts_with('.') {
            site.insert(name, fs::read(&path).map_err(|fault| unreadable(&path, fault))?);
        }
    }
    Ok(site)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn app(script: &str) -> Site {
        let mut app = Site::default();
        app.insert("index.html", r#"<script src="{{app}}/boot.js"></script>"#);
        app.insert("manifest.webmanifest", r#"{"src":"{{app}}/icon.svg"}"#);
        app.insert("service_worker.js", r#"["{{app}}",["{{files}}"]]"#);
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
        assert_eq!(page, format!(r#"<script src="{path}"></script>"#));
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
    fn the_service_worker_knows_its_version_and_all_files() {
        let site = lay_out(app("1")).unwrap();
        let filled: (String, Vec<String>) =
            serde_json::from_slice(site.get(SERVICE_WORKER).unwrap()).unwrap();
        let boot = format!("{}/boot.js", filled.0);
        assert!(site.get(&boot).is_some());
        assert_eq!(filled.1, [boot.as_str(), "./", "manifest.webmanifest"]);
    }

    #[test]
    fn a_missing_root_page_is_said() {
        assert!(lay_out(Site::default()).unwrap_err().why.contains("www/public/index.html"));
    }
}
