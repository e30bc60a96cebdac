//! A program that is killed while it saves an order leaves the last version or the new one, never half of one.
#![cfg(unix)]

use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use posywright::store::{built_in_stock, read_order, samples, save_order};

/// Names to the child the folder of its order; without it the child does nothing.
const FOLDER: &str = "POSYWRIGHT_TEST_FOLDER";

/// Not a test: what the killed program does. Saves an order again and again, its notes longer and shorter by turns.
#[test]
fn child_that_saves_until_it_is_killed() {
    let Some(folder) = std::env::var_os(FOLDER).map(PathBuf::from) else { return };
    let path = folder.join("order.ron");
    let read = read_order(&path, &built_in_stock()).unwrap();
    let (mut order, mut stamp) = (read.order, read.stamp);
    for n in 0..100_000 {
        order.notes = notes(n);
        stamp = save_order(&path, &order, Some(&stamp)).unwrap();
        writeln!(std::io::stdout(), "saved {n}").unwrap();
    }
}

fn notes(n: usize) -> String {
    format!("{n} {}", "x".repeat(if n.is_multiple_of(2) { 9_000 } else { 10 }))
}

#[test]
fn twenty_kills_leave_a_whole_order_each_time() {
    let (folder, stock) = (tempfile::tempdir().unwrap(), built_in_stock());
    samples::write_into(folder.path()).unwrap();
    let path = folder.path().join("order.ron");
    fs::copy(folder.path().join("orders/03-full.ron"), &path).unwrap();
    for round in 0..20 {
        let reported = kill_after(3 + round, folder.path());
        let found = read_order(&path, &stock).unwrap().order.notes;
        let number = found.split(' ').next().and_then(|n| n.parse().ok()).unwrap();
        assert!(number >= reported && found == notes(number), "round {round}: reported {reported}, found {number}");
    }
}

/// Starts the child, kills it once it has reported `n` saves, and returns the number it reported last.
fn kill_after(n: usize, folder: &Path) -> usize {
    let this = std::env::current_exe().expect("the test's own program");
    let mut child = Command::new(this)
        .args(["store_kill::child_that_saves_until_it_is_killed", "--exact", "--nocapture"])
        .env(FOLDER, folder)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("a child");
    let lines = BufReader::new(child.stdout.take().expect("its words")).lines().map_while(Result::ok);
    let reported = lines.filter_map(|l| l.split("saved ").nth(1).and_then(|n| n.trim().parse().ok())).nth(n - 1);
    child.kill().expect("killed");
    child.wait().expect("gone");
    reported.expect("it reported its saves")
}
