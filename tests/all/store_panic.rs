//! A program that panics has its changes saved as a recovery copy and leaves a line in the log, and no client's name in it.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Arc;

use posywright::book::{Change, Order};
use posywright::store::{
    Recovery, Shop, built_in_stock, install_panic_hook, left_over, read_order, save_order, start_log,
};

/// Names the child's folder to it; without it the child does nothing.
const FOLDER: &str = "POSYWRIGHT_TEST_PANIC_FOLDER";

const WEARER: &str = "Zsofia Secret";
const PHONE: &str = "555 0199";

/// Not a test: what the program that panics does. The copy is forgotten, so that nothing but the hook can save it.
#[test]
fn child_that_panics() {
    let Some(folder) = std::env::var_os(FOLDER).map(PathBuf::from) else { return };
    start_log();
    install_panic_hook();
    let shop = Shop::begin(&folder, "Q").unwrap();
    let order = Arc::new(order(&shop));
    let file = shop.new_order_file(&order).unwrap();
    save_order(&file, &order, None).unwrap();
    save_order(&file, &order, None).unwrap_err();
    fs::write(folder.join("orders/damaged.ron"), "").unwrap();
    read_order(&folder.join("orders/damaged.ron"), shop.stock()).unwrap_err();
    let recovery = Recovery::begin(&shop.recovery_folder().unwrap()).unwrap();
    let mut changed = (*order).clone();
    changed.notes = "changed and not saved".to_owned();
    recovery.changed(&Arc::new(changed), Some(&file));
    std::mem::forget(recovery);
    let worker = std::thread::Builder::new().name("search".to_owned());
    let worker = worker.spawn(|| panic!("a fault that stands in the code")).unwrap();
    worker.join().unwrap_err();
    panic!("{WEARER} can be called at {PHONE}");
}

fn order(shop: &Shop) -> Order {
    let known = vec![Change::Wearer(WEARER.to_owned()), Change::Phone(PHONE.to_owned())];
    Order::blank(None, shop.stock()).apply(&Change::Together(known), shop.stock()).unwrap()
}

fn panic_in(folder: &Path) {
    let this = std::env::current_exe().expect("the test's own program");
    let status = Command::new(this)
        .args(["store_panic::child_that_panics", "--exact", "--nocapture"])
        .env(FOLDER, folder)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .expect("a child");
    assert!(!status.success());
}

#[test]
fn a_panic_leaves_a_recovery_copy_and_a_line_in_the_log() {
    let folder = tempfile::tempdir().unwrap();
    panic_in(folder.path());
    let left = left_over(&folder.path().join("recovery"), &built_in_stock());
    assert_eq!(left.len(), 1);
    assert_eq!((left[0].order.wearer.as_str(), left[0].order.notes.as_str()), (WEARER, "changed and not saved"));

    let log = fs::read_to_string(folder.path().join("posywright.log")).unwrap();
    // After day, time and offset: what happened, in its order.
    let lines: Vec<&str> = log.lines().map(|line| line.splitn(4, ' ').nth(3).unwrap()).collect();
    let started = format!("INFO started, version {} on {}", env!("CARGO_PKG_VERSION"), std::env::consts::OS);
    assert_eq!(
        lines[..5],
        [
            started.as_str(),
            "INFO shop opened: 0 orders, 0 warnings",
            "INFO order saved",
            "ERROR order not saved: AlreadyThere",
            "WARN order not opened: Empty",
        ]
    );
    assert!(lines[5].starts_with("ERROR panic at tests/all/store_panic.rs:"), "{}", lines[5]);
    assert!(lines[5].ends_with(" in thread search: a fault that stands in the code"), "{}", lines[5]);
    assert_eq!(lines[6], "INFO recovery copies written: 1 of 1");
    assert!(lines[7].starts_with("ERROR panic at tests/all/store_panic.rs:"), "{}", lines[7]);
    assert!(lines[7].ends_with(" in thread store_panic::child_that_panics"), "its words may hold a name: {}", lines[7]);
    for private in ["Zsofia", "zsofia", "Secret", "555", "0199"] {
        assert!(!log.contains(private), "{private}: {log}");
    }
}
