//! Guards the floors of the house: reads the sources and fails on an import that points upward, on egui outside `app/`,
//! on serde outside `store/`, on a file without its `//!` header, and on a file that has grown too long.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Modules by floor, as `src/lib.rs` and DEVELOPERS.md tell them. Modules of one floor do not use
/// each other.
const FLOORS: [(&str, u8); 18] = [
    ("units", 0),
    ("geometry", 1),
    ("colour", 1),
    ("stock", 2),
    ("piece", 3),
    ("history", 3),
    ("book", 4),
    ("once_over", 4),
    ("command", 5),
    ("set_out", 5),
    ("paperwork", 5),
    ("scene", 6),
    ("export", 7),
    ("store", 7),
    ("session", 8),
    ("sheet", 8),
    ("cli", 9),
    ("app", 9),
];

/// Lines of a file, its tests not counted, from which it must be split.
const MOST_LINES: usize = 500;

struct Source {
    path: PathBuf,
    module: String,
    text: String,
}

fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    let mut folders = vec![root.clone()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()) {
            if entry.is_dir() {
                folders.push(entry);
            } else if entry.extension().is_some_and(|e| e == "rs") {
                let inside = entry.strip_prefix(&root).unwrap();
                let first = inside.components().next().unwrap().as_os_str().to_string_lossy().into_owned();
                let module = first.trim_end_matches(".rs").to_owned();
                found.push(Source { module, text: fs::read_to_string(&entry).unwrap(), path: inside.to_owned() });
            }
        }
    }
    assert!(found.len() > 40, "the sources were not found");
    found.sort_by(|a, b| a.path.cmp(&b.path));
    let tests: Vec<PathBuf> = found.iter().flat_map(modules_of_tests).collect();
    found.retain(|source| !tests.iter().any(|module| source.path.with_extension("").starts_with(module)));
    found
}

/// Modules that this file brings in for its tests alone: a file or a folder each, without an ending.
fn modules_of_tests(source: &Source) -> Vec<PathBuf> {
    let folder = source.path.parent().unwrap();
    let modules = source.text.split("#[cfg(test)]\nmod ").skip(1);
    let named = modules.filter_map(|rest| rest.lines().next()?.strip_suffix(';'));
    named.map(|name| folder.join(name)).collect()
}

/// The code of a file without comments and without the tests at its end.
fn code(source: &Source) -> String {
    let untested = source.text.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
    let lines = untested.lines().filter(|l| !l.trim_start().starts_with("//"));
    lines.collect::<Vec<_>>().join("\n")
}

fn floor_of(module: &str) -> Option<u8> {
    FLOORS.iter().find(|(name, _)| *name == module).map(|(_, floor)| *floor)
}

/// Modules named after `crate::` in a file, alone or in braces.
fn used_modules(code: &str) -> Vec<String> {
    let mut used = Vec::new();
    for after in code.split("crate::").skip(1) {
        let name = |s: &str| s.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect::<String>();
        match after.strip_prefix('{') {
            Some(list) => {
                let list = list.split(';').next().unwrap_or_default();
                used.extend(list.split(',').map(|item| name(item.trim())));
            }
            None => used.push(name(after)),
        }
    }
    used.retain(|m| floor_of(m).is_some());
    used
}

#[test]
fn no_import_points_upward() {
    let mut wrong = Vec::new();
    for source in sources() {
        let Some(floor) = floor_of(&source.module) else { continue };
        for used in used_modules(&code(&source)) {
            let allowed = used == source.module || floor_of(&used).unwrap() < floor;
            if !allowed {
                wrong.push(format!("{} uses {used}", source.path.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "imports that point upward:\n{}", wrong.join("\n"));
}

#[test]
fn the_guard_sees_an_import_in_braces_and_in_the_middle_of_code() {
    assert_eq!(used_modules("use crate::{app::Window, units};"), ["app", "units"]);
    assert_eq!(used_modules("let x = crate::store::read();"), ["store"]);
}

#[test]
fn every_module_stands_on_a_floor() {
    let strangers: Vec<String> = sources()
        .into_iter()
        .filter(|s| !matches!(s.module.as_str(), "lib" | "main") && floor_of(&s.module).is_none())
        .map(|s| s.path.display().to_string())
        .collect();
    assert!(strangers.is_empty(), "{strangers:?}");
}

#[test]
fn egui_stays_in_the_window_and_serde_in_the_shop_folder() {
    let mut wrong = Vec::new();
    for source in sources() {
        let code = code(&source);
        for (word, home) in
            [("egui", "app"), ("eframe", "app"), ("rfd", "app"), ("serde::", "store"), ("ron::", "store")]
        {
            let uses = code.contains(&format!("use {word}")) || code.contains(&format!(" {word}::"));
            if source.module != home && uses {
                wrong.push(format!("{} names {word}", source.path.display()));
            }
        }
        for opener in ["std::fs", "File::open", "File::create"] {
            if source.module != "store" && code.contains(opener) {
                wrong.push(format!("{} opens files ({opener})", source.path.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn window_colours_are_made_in_the_theme_alone() {
    let makers = ["Color32::from_rgb(0x", "Color32::from_gray", "Color32::RED", "Color32::BLACK"];
    for source in sources().iter().filter(|s| s.module == "app" && !s.path.ends_with("theme.rs")) {
        let code = code(source);
        for maker in makers {
            assert!(!code.contains(maker), "{} makes a colour of its own: {maker}", source.path.display());
        }
    }
}

#[test]
fn every_file_says_what_it_knows_and_stays_short() {
    for source in sources() {
        assert!(source.text.starts_with("//!"), "{} has no header", source.path.display());
        let lines = source.text.split("#[cfg(test)]").next().unwrap_or_default().lines().count();
        assert!(lines <= MOST_LINES, "{} has {lines} lines", source.path.display());
    }
}

/// Types that still share their name with another. The list only shrinks: a name that is no longer shared must go from it.
#[rustfmt::skip]
const STILL_SHARED: &[&str] = &[
    "Ask",
    "Asked",
    "Bench",
    "Board",
    "Choice",
    "Day",
    "Draft",
    "Entry",
    "Errand",
    "Field",
    "Figure",
    "Grid",
    "Group",
    "Head",
    "Kind",
    "Known",
    "Layer",
    "Line",
    "Made",
    "Offered",
    "Opened",
    "Outcome",
    "OvalLine",
    "Page",
    "Piece",
    "Pose",
    "Proposal",
    "Reach",
    "Reader",
    "Refusal",
    "Run",
    "Said",
    "Search",
    "Seat",
    "Sheet",
    "Stage",
    "Stand",
    "Step",
    "Subject",
    "Table",
    "TaxLine",
    "Told",
    "View",
    "Wanted",
    "Wish",
    "Written",
];

/// The types that a piece of code defines: structs, enums, traits and names for types, wherever they stand. Those that a trait asks
/// for inside an `impl` are no types of their own, and are indented.
fn types_in(code: &str) -> Vec<&str> {
    let mut found = Vec::new();
    for line in code.lines() {
        let bare = line.trim_start();
        let item =
            bare.strip_prefix("pub ").or_else(|| Some(bare.strip_prefix("pub(")?.split_once(") ")?.1)).unwrap_or(bare);
        let Some((kind, rest)) = item.split_once(' ') else { continue };
        let is_type = match kind {
            "struct" | "enum" | "trait" | "union" => true,
            "type" => bare.len() == line.len(),
            _ => false,
        };
        if is_type {
            found.push(rest.split(|c: char| !c.is_alphanumeric() && c != '_').next().unwrap_or_default());
        }
    }
    found
}

#[test]
fn every_type_has_a_name_of_its_own() {
    let sources = sources();
    let codes: Vec<(String, String)> = sources.iter().map(|s| (s.path.display().to_string(), code(s))).collect();
    let mut places: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for (path, code) in &codes {
        for name in types_in(code) {
            places.entry(name).or_default().push(path);
        }
    }
    assert!(places.len() > 300, "the types were not found");
    places.retain(|_, paths| paths.len() > 1);
    let new: Vec<_> = places.iter().filter(|(name, _)| !STILL_SHARED.contains(name)).collect();
    assert!(new.is_empty(), "types that share a name:\n{new:#?}");
    let settled: Vec<_> = STILL_SHARED.iter().filter(|name| !places.contains_key(*name)).collect();
    assert!(settled.is_empty(), "no longer shared, so take them off the list: {settled:?}");
}

#[test]
fn the_guard_of_names_sees_every_kind_of_type() {
    let code = "pub(crate) struct Ring<T> {\nenum Bead {\npub trait Worn: Sized {\ntype Pair = (u8, u8);\n    type Item = u8;\nlet structure = 1;";
    assert_eq!(types_in(code), ["Ring", "Bead", "Worn", "Pair"]);
}
