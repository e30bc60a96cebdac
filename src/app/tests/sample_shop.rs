//! The sample shop in a folder of its own, its orders, what the commands report of them, and settings that outlive a window.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::store::samples;

/// Settings as they outlive a window.
#[derive(Clone, Default)]
pub(crate) struct Settings(BTreeMap<String, String>);

impl eframe::Storage for Settings {
    fn get_string(&self, key: &str) -> Option<String> {
        self.0.get(key).cloned()
    }
    fn set_string(&mut self, key: &str, value: String) {
        self.0.insert(key.to_owned(), value);
    }
    fn remove_string(&mut self, key: &str) {
        self.0.remove(key);
    }
    fn flush(&mut self) {}
}

/// The sample shop, laid out in a folder of its own.
pub(crate) fn sample_shop() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    samples::write_into(folder.path()).unwrap();
    folder
}

/// The file of an order in a shop's folder.
pub(crate) fn order_file(shop: &Path, order: &str) -> PathBuf {
    shop.join("orders").join(format!("{order}.ron"))
}

/// An order of another wearer, made from a sample of the shop; `change` is done to its text.
pub(crate) fn order_of(shop: &Path, wearer: &str, sample: &str, change: impl Fn(String) -> String) -> PathBuf {
    let text = std::fs::read_to_string(order_file(shop, sample)).unwrap();
    let (before, after) = text.split_once("wearer: \"").unwrap();
    let (_, rest) = after.split_once('"').unwrap();
    let file = order_file(shop, &wearer.to_lowercase());
    std::fs::write(&file, change(format!("{before}wearer: \"{wearer}\"{rest}"))).unwrap();
    file
}

/// What a command reports of an order: the same figures that a person gets from it.
pub(crate) fn report(file: &Path, command: &str) -> Value {
    let words = [command, &file.display().to_string(), "--json"].map(std::ffi::OsString::from);
    let (call, shop) = crate::cli::parse_args(words).unwrap();
    let (text, _) = crate::cli::run(&call, shop.as_deref(), &mut |_| {}).unwrap();
    serde_json::from_str(&text).unwrap()
}
