//! Guards the floors of the house: reads the sources and fails on an import that points upward, on egui outside `app/`,
//! on serde outside `store/`, on a file without its `//!` header, and on a file that has grown too long. Inside the window: on rooms that
//! use rooms above them, on rings of imports, and on what changes while it is painted.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Modules by floor, as `src/lib.rs` and DEVELOPERS.md tell them. Modules of one floor do not use
/// each other.
const FLOORS: [(&str, u8); 20] = [
    ("units", 0),
    ("geometry", 1),
    ("colour", 1),
    ("light", 1),
    ("stock", 2),
    ("piece", 3),
    ("history", 3),
    ("book", 4),
    ("once_over", 4),
    ("command", 5),
    ("set_out", 5),
    ("paperwork", 5),
    ("model", 6),
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

/// Client names stay out of the log because nothing writes to it but events without a place for text (`store/log_file.rs`).
#[test]
fn only_one_file_writes_to_the_log() {
    let names_log = |code: &str| {
        code.match_indices("log::").any(|(at, _)| !code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_'))
    };
    assert!(names_log("log::warn!(\"{name}\")") && names_log("use log::info;") && !names_log("catalog::read()"));
    let writers: Vec<String> =
        sources().iter().filter(|s| names_log(&code(s))).map(|s| s.path.display().to_string()).collect();
    assert_eq!(writers, ["store/log_file.rs"]);
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
    assert!(places.is_empty(), "types that share a name:\n{places:#?}");
}

#[test]
fn the_guard_of_names_sees_every_kind_of_type() {
    let code = "pub(crate) struct Ring<T> {\nenum Bead {\npub trait Worn: Sized {\ntype Pair = (u8, u8);\n    type Item = u8;\nlet structure = 1;";
    assert_eq!(types_in(code), ["Ring", "Bead", "Worn", "Pair"]);
}

/// Rooms of the window by floor, as `src/app/mod.rs` names them. Rooms of one floor do not use each other.
const ROOMS: [(&str, u8); 17] = [
    ("widgets", 0),
    ("workers", 1),
    ("typing", 2),
    ("view", 3),
    ("picture", 4),
    ("page_list", 5),
    ("view_options", 5),
    ("action", 6),
    ("context", 7),
    ("parts", 8),
    ("sheet", 9),
    ("pages", 9),
    ("dialogs", 9),
    ("preload", 10),
    ("opening", 11),
    ("shell", 12),
    ("mod", 13),
];

/// The room of a file of the window.
fn room_of(path: &Path) -> Option<String> {
    let inside = path.strip_prefix("app").ok()?;
    let first = inside.components().next()?.as_os_str().to_string_lossy().into_owned();
    Some(first.trim_end_matches(".rs").to_owned())
}

fn room_floor(room: &str) -> Option<u8> {
    ROOMS.iter().find(|(name, _)| *name == room).map(|(_, floor)| *floor)
}

/// Paths of modules named after `crate::` in a file, alone or in braces.
fn used_paths(code: &str) -> BTreeSet<String> {
    let mut used = BTreeSet::new();
    for after in code.split("crate::").skip(1) {
        let path = |s: &str| {
            let word = s.chars().take_while(|c| c.is_alphanumeric() || matches!(c, '_' | ':')).collect::<String>();
            word.trim_end_matches(':').to_owned()
        };
        let stem = path(after);
        match after[stem.len()..].trim_start_matches(':').strip_prefix('{') {
            Some(list) => {
                let list = list.split(';').next().unwrap_or_default();
                let items = list.split(['{', ',', '}']).map(|item| path(item.trim())).filter(|item| !item.is_empty());
                used.extend(items.map(|item| if stem.is_empty() { item } else { format!("{stem}::{item}") }));
            }
            None => drop(used.insert(stem)),
        }
    }
    used
}

/// Files of the window by the room they stand in and a room above or beside it that they use.
fn upward_in_the_window() -> BTreeMap<(String, String), Vec<String>> {
    let mut upward: BTreeMap<(String, String), Vec<String>> = BTreeMap::new();
    for source in sources().iter().filter(|s| s.module == "app") {
        let room = room_of(&source.path).unwrap();
        let floor = room_floor(&room).unwrap_or_else(|| panic!("the room {room} stands on no floor: add it to ROOMS"));
        let used: BTreeSet<String> = used_paths(&code(source))
            .iter()
            .filter_map(|path| path.strip_prefix("app::")?.split("::").next().map(str::to_owned))
            .filter(|used| room_floor(used).is_some_and(|of_used| *used != room && of_used >= floor))
            .collect();
        for used in used {
            upward.entry((room.clone(), used)).or_default().push(source.path.display().to_string());
        }
    }
    upward
}

#[test]
fn rooms_of_the_window_use_only_rooms_below_them() {
    let wrong = upward_in_the_window();
    assert!(wrong.is_empty(), "rooms of the window that use rooms above or beside them:\n{wrong:#?}");
}

/// Files that may stand in one ring of imports.
const LARGEST_RING: usize = 3;

/// Files by the path of their module, and the modules that each uses.
fn imports() -> BTreeMap<String, BTreeSet<String>> {
    let sources = sources();
    let module = |path: &Path| {
        let words: Vec<String> = path.with_extension("").iter().map(|w| w.to_string_lossy().into_owned()).collect();
        words.join("::").trim_end_matches("::mod").to_owned()
    };
    let known: BTreeSet<String> = sources.iter().map(|s| module(&s.path)).collect();
    // The file that a path leads into: the longest beginning of it that is a file.
    let file = |path: &str| {
        let ends = path.match_indices("::").map(|(at, _)| at).chain([path.len()]);
        ends.map(|end| &path[..end]).filter(|start| known.contains(*start)).last().map(str::to_owned)
    };
    let of = |source: &Source| {
        let me = module(&source.path);
        let used = used_paths(&code(source)).iter().filter_map(|path| file(path)).collect::<BTreeSet<_>>();
        // A file may use what stands in a folder's own `mod.rs` above it.
        let above = |used: &String| me == *used || me.starts_with(&format!("{used}::"));
        (me.clone(), used.into_iter().filter(|used| !above(used)).collect())
    };
    sources.iter().map(of).collect()
}

fn reached_from<'a>(start: &'a str, imports: &'a BTreeMap<String, BTreeSet<String>>) -> BTreeSet<&'a str> {
    let (mut found, mut next) = (BTreeSet::new(), vec![start]);
    while let Some(module) = next.pop() {
        let used = imports.get(module).into_iter().flatten().map(String::as_str);
        next.extend(used.filter(|used| found.insert(*used)));
    }
    found
}

/// Everything that can be reached from each module by imports.
fn reached(imports: &BTreeMap<String, BTreeSet<String>>) -> BTreeMap<&str, BTreeSet<&str>> {
    imports.keys().map(|module| (module.as_str(), reached_from(module, imports))).collect()
}

/// Files that import each other in a ring, larger rings first.
fn rings(imports: &BTreeMap<String, BTreeSet<String>>) -> Vec<Vec<&str>> {
    let reached = reached(imports);
    let ring_of = |module: &str| {
        let back = |other: &&&str| reached.get(**other).is_some_and(|r| r.contains(module));
        reached[module].iter().filter(back).copied().collect::<Vec<_>>()
    };
    let all: BTreeSet<Vec<&str>> = reached.keys().map(|m| ring_of(m)).filter(|ring| ring.len() > 1).collect();
    let mut all: Vec<Vec<&str>> = all.into_iter().collect();
    all.sort_by_key(|ring| std::cmp::Reverse(ring.len()));
    all
}

#[test]
fn no_ring_of_imports_is_larger_than_three_files() {
    let imports = imports();
    assert!(imports.values().map(BTreeSet::len).sum::<usize>() > 200, "the imports were not found");
    for ring in rings(&imports) {
        let n = ring.len();
        assert!(n <= LARGEST_RING, "{n} files import each other, {LARGEST_RING} may: {}", ring.join(", "));
    }
}

#[test]
fn a_ring_is_found_among_files_that_lead_to_it() {
    let imports = |pairs: &[(&str, &[&str])]| {
        pairs.iter().map(|(m, used)| ((*m).to_owned(), used.iter().map(|u| (*u).to_owned()).collect())).collect()
    };
    let there: BTreeMap<String, BTreeSet<String>> =
        imports(&[("a", &["b"]), ("b", &["c"]), ("c", &["d", "e"]), ("d", &["b"]), ("e", &[])]);
    assert_eq!(rings(&there), [["b", "c", "d"]]);
    let used = used_paths("use crate::app::{sheet::canvas::Canvas, shell};\nlet x = crate::units::mm(1.0);");
    assert_eq!(used.iter().collect::<Vec<_>>(), ["app::sheet::canvas::Canvas", "app::shell", "units::mm"]);
}

/// What a function that paints may have to itself: what it paints on, and where it puts what was asked for. The client's
/// window is painted from a page of its own; a sentence on the side gathers what the pointer rests on.
const MAY_CHANGE: [&str; 9] =
    ["Ui", "egui::Ui", "Vec<", "Requests<", "dyn FnMut", "SharedPage", "Canvas", "HeadImages", "eframe::Frame"];

/// Functions that take something to paint on, and what else each could change.
fn painters_that_change(code: &str) -> Vec<String> {
    let heads = code.split("fn ").skip(1).map(|rest| rest.split('{').next().unwrap_or_default());
    let paints =
        |head: &&str| [": &mut Ui", ": &Ui", ": &egui::Ui", ": &mut egui::Ui"].iter().any(|ui| head.contains(ui));
    let changes = |head: &&str| {
        let inputs = head.split("->").next().unwrap_or_default();
        let changed = inputs.split(": &mut ").skip(1);
        changed.into_iter().any(|kind| !MAY_CHANGE.iter().any(|may| kind.starts_with(may)))
    };
    heads.filter(paints).filter(changes).filter_map(|head| Some(head.split(['(', '<']).next()?.to_owned())).collect()
}

#[test]
fn nothing_changes_while_it_is_painted() {
    let painters = |source: &Source| {
        let name = source.path.display().to_string();
        painters_that_change(&code(source)).into_iter().map(move |f| format!("{name}: {f}"))
    };
    let found: Vec<String> = sources().iter().filter(|s| s.module == "app").flat_map(painters).collect();
    assert!(found.is_empty(), "painters that can change what they paint:\n{}", found.join("\n"));
    assert_eq!(
        painters_that_change(
            "pub(crate) fn a_ui(ui: &mut Ui, w: &mut Window) {}\nfn b(w: &mut Window) {}\nfn c(ui: &Ui, a: &mut Vec<Action>)"
        ),
        ["a_ui"]
    );
}

/// A new form is a line in `stock/form.rs` and one in the table of drawings: nothing else may tell forms apart by name, but for one or
/// two that stand in where a form is not known.
#[test]
fn forms_are_told_apart_in_two_tables_alone() {
    let tables = [Path::new("stock/form.rs"), Path::new("scene/bloom/drawings.rs")];
    for source in sources().iter().filter(|s| !tables.contains(&s.path.as_path())) {
        let code = code(source);
        let named = code.split("Form::").skip(1).filter(|rest| rest.starts_with(|c: char| c.is_uppercase()));
        let forms = named.filter(|rest| !rest.starts_with("ALL")).count();
        assert!(forms <= 2, "{} names {forms} forms", source.path.display());
    }
}

/// Where threads are started: the worker of the window; papers of many orders by a command, and a photograph; parts of a photograph;
/// the copy of what is not saved; two computations at once.
const STARTS_THREADS: [&str; 6] = [
    "app/workers/worker.rs",
    "cli/papers.rs",
    "cli/photograph.rs",
    "light/threads.rs",
    "store/recovery.rs",
    "units/join.rs",
];

#[test]
fn threads_are_started_in_one_place_of_the_window() {
    let words = ["thread::spawn", "thread::Builder", "thread::scope"];
    let sources = sources();
    let starting = sources.iter().filter(|source| words.iter().any(|word| code(source).contains(word)));
    let starting: Vec<String> = starting.map(|source| source.path.display().to_string().replace('\\', "/")).collect();
    assert_eq!(starting, STARTS_THREADS);
}
