//! What one source file says of modules: which it declares, which names it defines and passes on, and which paths it
//! uses. Read from tokens, so that comments and strings say nothing, and what stands inside of a macro is seen too.

use proc_macro2::{Delimiter, TokenStream, TokenTree};
use std::collections::BTreeSet;

/// The path of a module from the root of its crate; of the root itself it is empty.
pub type Module = Vec<String>;

/// A path of a file that names something in its own crate.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Use {
    /// Where it leads, from the root of the crate. A last `*` stands for all that is there.
    pub path: Module,
    /// Whether only the file's own tests use it.
    pub in_tests: bool,
    /// Whether the file passes it on under the last name of the path.
    pub passed_on: bool,
}

/// What a file says.
#[derive(Debug, Default)]
pub struct Imports {
    /// The modules declared in it whose text stands in files of their own.
    pub children: Vec<Module>,
    /// The modules whose text stands in it, itself among them.
    pub inside: BTreeSet<Module>,
    /// The names of all that is defined in it.
    pub names: BTreeSet<String>,
    /// What it uses of its crate.
    pub uses: Vec<Use>,
}

/// Reads the text of a module.
///
/// # Panics
/// If it is no Rust.
pub fn read(text: &str, module: &Module) -> Imports {
    let tokens: Vec<TokenTree> =
        text.parse::<TokenStream>().expect("the sources are Rust").into_iter().collect();
    let mut imports = Imports::default();
    scan(&tokens, &Place { module: module.clone(), in_tests: false }, &mut imports);
    imports
}

/// Where in a file the reading is.
#[derive(Clone)]
struct Place {
    module: Module,
    in_tests: bool,
}

impl Place {
    /// Where a path leads from here; none if it leads out of the crate or to a name that is known here only.
    fn resolve(&self, path: &[String], children: &[String]) -> Option<Module> {
        let (first, rest) = path.split_first()?;
        let mut from = match first.as_str() {
            "crate" => Vec::new(),
            "self" => self.module.clone(),
            "super" => above(&self.module),
            child if children.iter().any(|name| name == child) => {
                return Some([&self.module[..], path].concat());
            }
            _ => return None,
        };
        let up = rest.iter().take_while(|name| *name == "super").count();
        (0..up).for_each(|_| from = above(&from));
        from.extend_from_slice(&rest[up..]);
        Some(from)
    }
}

fn above(module: &Module) -> Module {
    module[..module.len().saturating_sub(1)].to_vec()
}

/// Reads the tokens of a module, or of a group in it.
fn scan(tokens: &[TokenTree], place: &Place, imports: &mut Imports) {
    imports.inside.insert(place.module.clone());
    let children = declared(tokens);
    scan_group(tokens, place, &children, imports);
}

fn scan_group(tokens: &[TokenTree], place: &Place, children: &[String], imports: &mut Imports) {
    let mut at = 0;
    while at < tokens.len() {
        if is_test_attribute(&tokens[at..]) {
            let end = at + 2 + item_length(&tokens[at + 2..]);
            scan_group(&tokens[at + 2..end], &Place { in_tests: true, ..place.clone() }, children, imports);
            at = end;
            continue;
        }
        let word = word(&tokens[at]);
        let next = tokens.get(at + 1).and_then(|token| self::word(token));
        match (word.as_deref(), next) {
            (Some("mod"), Some(name)) => {
                imports.names.insert(name.clone());
                at += 2 + scan_module(tokens.get(at + 2), name, place, imports);
            }
            (Some("use"), _) => {
                let passed_on = is_public(&tokens[..at]);
                let mut rest = &tokens[at + 1..];
                for path in leaves(&mut rest) {
                    add(&path, passed_on, place, children, imports);
                }
                at = tokens.len() - rest.len();
            }
            (
                Some(
                    "struct" | "enum" | "union" | "trait" | "type" | "fn" | "const" | "static"
                    | "macro_rules",
                ),
                _,
            ) => {
                // `macro_rules` has its name behind a mark.
                let name = tokens[at + 1..].iter().take(2).find_map(self::word);
                imports.names.extend(name);
                at += 1;
            }
            (Some(_), _) if is_path(&tokens[at..]) && !follows_colons(&tokens[..at]) => {
                let path = path_at(&tokens[at..]);
                add(&path, false, place, children, imports);
                at += 3 * path.len() - 2;
            }
            _ => {
                if let TokenTree::Group(group) = &tokens[at] {
                    let inner: Vec<TokenTree> = group.stream().into_iter().collect();
                    scan_group(&inner, place, children, imports);
                }
                at += 1;
            }
        }
    }
}

/// Reads what follows the name of a module; gives how many tokens that is.
fn scan_module(body: Option<&TokenTree>, name: String, place: &Place, imports: &mut Imports) -> usize {
    let module = [&place.module[..], &[name]].concat();
    match body {
        Some(TokenTree::Group(group)) if group.delimiter() == Delimiter::Brace => {
            let inner: Vec<TokenTree> = group.stream().into_iter().collect();
            scan(&inner, &Place { module, in_tests: place.in_tests }, imports);
            1
        }
        _ => {
            imports.children.push(module);
            0
        }
    }
}

fn add(path: &[String], passed_on: bool, place: &Place, children: &[String], imports: &mut Imports) {
    if let Some(path) = place.resolve(path, children) {
        imports.uses.push(Use { path, in_tests: place.in_tests, passed_on });
    }
}

/// The names of the modules that these tokens declare, not counting what lies deeper.
fn declared(tokens: &[TokenTree]) -> Vec<String> {
    let pairs = tokens.windows(2).filter(|pair| word(&pair[0]).as_deref() == Some("mod"));
    pairs.filter_map(|pair| word(&pair[1])).collect()
}

/// Whether `#[cfg(test)]` stands here.
fn is_test_attribute(tokens: &[TokenTree]) -> bool {
    let [hash, TokenTree::Group(group), ..] = tokens else { return false };
    is_mark(hash, '#')
        && group.delimiter() == Delimiter::Bracket
        && group.stream().to_string().replace(' ', "") == "cfg(test)"
}

/// How many tokens the item here has: up to its braces or its semicolon.
fn item_length(tokens: &[TokenTree]) -> usize {
    let ends = |token: &TokenTree| match token {
        TokenTree::Group(group) => group.delimiter() == Delimiter::Brace,
        token => is_mark(token, ';'),
    };
    tokens.iter().position(ends).map_or(tokens.len(), |last| last + 1)
}

/// Whether these tokens end in `pub` or `pub(...)`.
fn is_public(before: &[TokenTree]) -> bool {
    let open = |token: Option<&TokenTree>| token.and_then(word).as_deref() == Some("pub");
    match before {
        [.., TokenTree::Group(group)] if group.delimiter() == Delimiter::Parenthesis => {
            open(before.get(before.len().wrapping_sub(2)))
        }
        _ => open(before.last()),
    }
}

/// The paths of a list of imports, up to its end: `a::{b, c::*}` has two, `a::{self}` is `a`.
fn leaves(tokens: &mut &[TokenTree]) -> Vec<Vec<String>> {
    let mut path = Vec::new();
    let mut all = Vec::new();
    while let Some((token, rest)) = tokens.split_first() {
        *tokens = rest;
        match token {
            TokenTree::Group(group) => {
                let inner: Vec<TokenTree> = group.stream().into_iter().collect();
                let mut inner = &inner[..];
                while !inner.is_empty() {
                    all.extend(leaves(&mut inner).into_iter().map(|leaf| [&path[..], &leaf[..]].concat()));
                }
                path.clear();
            }
            token if is_mark(token, ';') || is_mark(token, ',') => break,
            token if is_mark(token, '*') => path.push("*".into()),
            token => match word(token).as_deref() {
                Some("as") => *tokens = &tokens[1..],
                Some("self") if !path.is_empty() => {}
                Some(name) => path.push(name.into()),
                None => {}
            },
        }
    }
    if !path.is_empty() {
        // `{self}` within braces: an empty rest of what stands before them.
        all.push(if path == ["self"] { Vec::new() } else { path });
    }
    all
}

/// Whether a path of at least two names begins here.
fn is_path(tokens: &[TokenTree]) -> bool {
    matches!(tokens, [_, one, two, name, ..] if is_mark(one, ':') && is_mark(two, ':') && word(name).is_some())
}

fn path_at(tokens: &[TokenTree]) -> Vec<String> {
    let mut path: Vec<String> = word(&tokens[0]).into_iter().collect();
    let mut rest = tokens;
    while is_path(rest) {
        rest = &rest[3..];
        path.extend(word(&rest[0]));
    }
    path
}

fn follows_colons(before: &[TokenTree]) -> bool {
    before.last().is_some_and(|token| is_mark(token, ':'))
        && before.len() > 1
        && is_mark(&before[before.len() - 2], ':')
}

fn is_mark(token: &TokenTree, mark: char) -> bool {
    matches!(token, TokenTree::Punct(punct) if punct.as_char() == mark)
}

fn word(token: &TokenTree) -> Option<String> {
    match token {
        TokenTree::Ident(ident) => Some(ident.to_string()),
        _ => None,
    }
}

#[test]
fn every_way_of_naming_a_module_is_seen() {
    let text = "
        mod child;
        use crate::base::seed;
        // use crate::serve;
        use crate::{glass, recipe::{self, plan as other}, shop::*};
        pub use child::Thing;
        use std::fs;
        fn f(x: super::Near) -> &'static str {
            crate::picture::png::encode(); super::super::fuse::g(); self::here(); child::h();
            view! { <b>{crate::words::LABEL}</b> };
            \"crate::text\"
        }
        #[cfg(test)]
        mod tests { use super::*; use super::super::far; }";
    let imports = read(text, &["a".to_owned(), "b".to_owned()].to_vec());
    let used = |in_tests: bool| -> Vec<String> {
        imports
            .uses
            .iter()
            .filter(|used| used.in_tests == in_tests)
            .map(|used| used.path.join("::"))
            .collect()
    };
    assert_eq!(
        used(false),
        [
            "base::seed",
            "glass",
            "recipe",
            "recipe::plan",
            "shop::*",
            "a::b::child::Thing",
            "a::Near",
            "picture::png::encode",
            "fuse::g",
            "a::b::here",
            "a::b::child::h",
            "words::LABEL",
        ]
    );
    assert_eq!(used(true), ["a::b::*", "a::far"]);
    assert_eq!(imports.children, [["a", "b", "child"]]);
    let passed_on: Vec<_> =
        imports.uses.iter().filter(|used| used.passed_on).map(|used| &used.path).collect();
    assert_eq!(passed_on, [&["a", "b", "child", "Thing"]]);
}
