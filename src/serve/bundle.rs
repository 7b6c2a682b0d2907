//! The page as a static site: a root page and one folder, named after its contents, with all the rest.
//!
//! ```text
//! index.html                      asked for anew each time
//! app-<hash>/boot.js worker.js    kept by browsers for good: other contents have another name
//!            dappledome.js dappledome_bg.wasm style.css icon.svg
//! ```
//!
//! Scripts import each other by their plain names and every address is relative, so the site works in any folder
//! of any static host.

use super::compile;
use super::site::{POLICY, Site};
use super::trouble::Trouble;
use std::path::{Path, PathBuf};
use std::{env, fs};

/// How the name of the folder begins that is named after its contents.
pub const HASHED_FOLDER: &str = "app-";

/// The most that the site may weigh when compressed, bytes.
pub const MOST_COMPRESSED: usize = 450_000;

/// The root page in `www/`.
const ROOT_PAGE: &str = "index.html";

/// Builds the page and lays it out.
///
/// # Errors
/// If the compiler, the sources or the files of `www/` are not in order.
pub fn build() -> Result<Site, Trouble> {
    let root = source_tree()?;
    let program = compile::program(&root)?;
    let mut app = files_of(&root.join("www"))?;
    app.insert("dappledome.js", program.glue);
    app.insert("dappledome_bg.wasm", program.wasm);
    for (path, script) in program.snippets {
        app.insert(path, script);
    }
    lay_out(app)
}

/// Puts everything but the root page into a folder named after its contents, and that name into the root page.
fn lay_out(mut app: Site) -> Result<Site, Trouble> {
    let page = app.remove(ROOT_PAGE).and_then(|bytes| String::from_utf8(bytes).ok()).ok_or_else(|| {
        Trouble::new(
            "The root page is missing.",
            "www/index.html is not there, or is not text.",
            "Restore the file.",
        )
    })?;
    let folder = format!("{HASHED_FOLDER}{:016x}", app.hash());
    let mut site = app.under(&folder);
    site.insert(ROOT_PAGE, page.replace("{{app}}", &folder).replace("{{policy}}", POLICY));
    Ok(site)
}

/// The folder with Cargo.toml: where cargo runs this, or where this was built.
fn source_tree() -> Result<PathBuf, Trouble> {
    let root =
        env::var_os("CARGO_MANIFEST_DIR").map_or_else(|| env!("CARGO_MANIFEST_DIR").into(), PathBuf::from);
    if root.join("www").join(ROOT_PAGE).is_file() {
        return Ok(root);
    }
    Err(Trouble::new(
        "Dappledome's sources are not where they were.",
        format!("The page is built from them, and {} has no www/{ROOT_PAGE}.", root.display()),
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
    fn a_missing_root_page_is_said() {
        assert!(lay_out(Site::default()).unwrap_err().why.contains("www/index.html"));
    }
}
