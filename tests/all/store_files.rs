//! Files and folders: reading what is not a file, saving over what may not be saved over, the shop's folder.

use std::fs;
use std::path::Path;

use posywright::book::{Change, Order};
use posywright::stock::{Botanical, Shelf, Stock};
use posywright::store::{
    Cause, FileStamp, OrderIndex, SearchWords, Shop, built_in_stock, order_from_text, order_to_text, read_order,
    samples, save_order, save_style,
};

fn names_in(folder: &Path) -> Vec<String> {
    let files = fs::read_dir(folder).expect("a folder").flatten();
    let mut names: Vec<String> = files.map(|e| e.file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

fn an_order() -> Order {
    let sample = samples::orders().next().expect("samples");
    order_from_text(sample.text, "a.ron", &built_in_stock()).expect("a sample reads")
}

#[test]
fn an_order_is_saved_read_changed_and_saved_again() {
    let (folder, stock) = (tempfile::tempdir().unwrap(), built_in_stock());
    let path = folder.path().join("mina.ron");
    let mut order = an_order();
    let stamp = save_order(&path, &order, None).unwrap();
    let saved = read_order(&path, &stock).unwrap();
    assert_eq!((&saved.order, saved.stamp, saved.warnings.len()), (&order, stamp, 0));
    order.notes = "no snug band".to_owned();
    let stamp = save_order(&path, &order, Some(&saved.stamp)).unwrap();
    assert_eq!(fs::read_to_string(&path).unwrap(), order_to_text(&order));
    assert_eq!(FileStamp::of_file(&path).unwrap(), Some(stamp));
    assert_eq!(names_in(folder.path()), ["mina.ron"]);
}

#[test]
fn what_is_no_file_of_ours_is_refused_in_words() {
    let (folder, stock) = (tempfile::tempdir().unwrap(), built_in_stock());
    let at = |name: &str| folder.path().join(name);
    fs::write(at("wide.ron"), [0xff, 0xfe, b'(', 0]).unwrap();
    fs::write(at("bytes.ron"), b"(version: 1,\n wearer: \"\xf0\x28\")").unwrap();
    fs::write(at("empty.ron"), "").unwrap();
    fs::File::create(at("big.ron")).unwrap().set_len(16 * 1024 * 1024 + 1).unwrap();
    for (name, cause) in [
        ("nothing.ron", Cause::NotThere),
        ("", Cause::Folder),
        ("wide.ron", Cause::WideText),
        ("bytes.ron", Cause::NotText),
        ("empty.ron", Cause::Empty),
        ("big.ron", Cause::TooBig),
    ] {
        let refusal = read_order(&at(name), &stock).unwrap_err();
        assert_eq!(refusal.cause, cause, "{name}");
        assert!(refusal.to_string().contains("Not opened"), "{refusal}");
    }
    let refusal = read_order(&at("bytes.ron"), &stock).unwrap_err();
    assert_eq!(refusal.line.unwrap().number, 2);
}

#[cfg(unix)]
#[test]
fn a_device_is_not_read() {
    let refusal = read_order(Path::new("/dev/zero"), &built_in_stock()).unwrap_err();
    assert_eq!(refusal.cause, Cause::NotAFile);
}

#[test]
fn nothing_is_written_over_by_accident() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mina.ron");
    let order = an_order();
    let stamp = save_order(&path, &order, None).unwrap();
    let refused = |path: &Path, stamp| save_order(path, &order, stamp).unwrap_err().cause;
    assert_eq!(refused(&path, None), Cause::AlreadyThere);
    assert_eq!(refused(folder.path(), None), Cause::FolderInTheWay);
    assert_eq!(refused(&folder.path().join("gone/mina.ron"), None), Cause::FolderGone);
    let text = fs::read_to_string(&path).unwrap().replace("Mina", "Nina");
    fs::write(&path, &text).unwrap();
    assert_eq!(refused(&path, Some(&stamp)), Cause::Changed, "same length, other letters");
    assert_eq!(fs::read_to_string(&path).unwrap(), text);
    let now = FileStamp::of_file(&path).unwrap();
    assert!(save_order(&path, &order, now.as_ref()).is_ok(), "on purpose it may");
    fs::remove_file(&path).unwrap();
    assert!(save_order(&path, &order, now.as_ref()).is_ok(), "what was deleted is written anew");
    assert_eq!(names_in(folder.path()), ["mina.ron"]);
}

#[test]
fn a_read_only_file_stays_as_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mina.ron");
    let stamp = save_order(&path, &an_order(), None).unwrap();
    let mut rights = fs::metadata(&path).unwrap().permissions();
    rights.set_readonly(true);
    fs::set_permissions(&path, rights).unwrap();
    let refusal = save_order(&path, &an_order(), Some(&stamp)).unwrap_err();
    assert_eq!(refusal.cause, Cause::ReadOnly);
    assert!(refusal.to_string().contains("Not saved"), "{refusal}");
}

#[cfg(unix)]
#[test]
fn rights_and_links_outlive_saving() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().unwrap();
    let (path, link, dead) =
        (folder.path().join("mina.ron"), folder.path().join("link.ron"), folder.path().join("dead.ron"));
    let stamp = save_order(&path, &an_order(), None).unwrap();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    std::os::unix::fs::symlink(&path, &link).unwrap();
    save_order(&link, &an_order(), Some(&stamp)).unwrap();
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
    std::os::unix::fs::symlink(folder.path().join("nothing.ron"), &dead).unwrap();
    assert_eq!(save_order(&dead, &an_order(), None).unwrap_err().cause, Cause::LinkToNothing);
}

/// Where the one who runs this may write everywhere, there is nothing to try.
#[cfg(unix)]
#[test]
fn a_read_only_folder_is_told_as_such() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mina.ron");
    let stamp = save_order(&path, &an_order(), None).unwrap();
    fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o555)).unwrap();
    let may_write_anyway = fs::File::create(folder.path().join("try")).is_ok();
    let answer = save_order(&path, &an_order(), Some(&stamp));
    fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o755)).unwrap();
    if !may_write_anyway {
        assert_eq!(answer.unwrap_err().cause, Cause::ReadOnlyFolder);
    }
}

#[test]
fn an_order_that_would_not_read_back_is_not_written() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mina.ron");
    let mut order = an_order();
    order.notes = "x".repeat(10_001);
    let refusal = save_order(&path, &order, None).unwrap_err();
    assert!(matches!(refusal.cause, Cause::NotTheSame(_)), "{refusal}");
    let mut order = an_order();
    order.piece.footprint.length_mm = f64::NAN;
    assert!(matches!(save_order(&path, &order, None).unwrap_err().cause, Cause::NotTheSame(_)));
    assert_eq!(names_in(folder.path()), Vec::<String>::new());
}

#[test]
fn the_demo_shop_opens_whole() {
    let folder = tempfile::tempdir().unwrap();
    let shop_folder = folder.path().join("demo");
    samples::write_into(&shop_folder).unwrap();
    assert_eq!(samples::write_into(&shop_folder).unwrap_err().cause, Cause::AlreadyThere);
    let shop = Shop::open(&shop_folder).unwrap();
    assert_eq!((shop.name(), shop.warnings().len()), ("Quillfern Flowers", 0));
    // All but the marks of lines that the shop has gone through.
    let lines = |stock: &Stock| -> Vec<Botanical> {
        stock.botanicals().iter().map(|b| Botanical { shelf: Shelf::default(), ..b.clone() }).collect()
    };
    assert_eq!(lines(shop.stock()), lines(&built_in_stock()), "the demo prices are the built-in ones");
    assert_eq!(shop.stock().botanicals().iter().filter(|b| !b.shelf.has_example_price).count(), 5);
    let orders = shop.orders();
    assert_eq!(orders.len(), 11);
    for entry in &orders {
        let saved = entry.order.as_ref().unwrap();
        assert_eq!(saved.warnings, Vec::<String>::new(), "{:?}", entry.path);
    }
    let of_file = Shop::of_file(&orders[0].path);
    assert_eq!(of_file.name(), "Quillfern Flowers");
    assert_eq!(Shop::of_file(&shop_folder.join("shop.ron")).name(), "");
    assert_eq!(Shop::of_file(Path::new("nowhere/orders/a.ron")).name(), "");
}

/// "ory" finds \u{150}ry, and two of one name in two schools are told apart.
#[test]
fn names_are_found_without_accents_and_two_of_one_name_are_told_apart() {
    let folder = tempfile::tempdir().unwrap();
    let shop = Shop::begin(folder.path(), "Q").unwrap();
    let save = |wearer: &str, place: &str, partner: &str| {
        let changes = [("w", wearer), ("p", place), ("n", partner)].map(|(kind, words)| match kind {
            "w" => Change::Wearer(words.to_owned()),
            "p" => Change::Place(words.to_owned()),
            _ => Change::Partner(words.to_owned()),
        });
        let blank = Order::blank(None, shop.stock());
        let order = blank.apply(&Change::Together(changes.to_vec()), shop.stock()).unwrap();
        save_order(&shop.new_order_file(&order).unwrap(), &order, None).unwrap();
    };
    save("Zs\u{f3}fia \u{150}ry-N\u{e9}meth", "", "");
    save("\u{141}ucja \u{17b}\u{f3}\u{142}kiewska", "", "");
    save("\u{de}\u{f3}rd\u{ed}s", "", "");
    save("Ava Reyes", "Harbour School", "Tom");
    save("Ava Reyes", "Quayside School", "");
    let mut index = OrderIndex::empty();
    assert_eq!(index.refresh(&shop), []);
    for (typed, n) in [("ory", 1), ("zolk", 1), ("thordis", 1), ("ava reyes", 2), ("reyes quayside", 1), ("", 5)] {
        assert_eq!(index.rows().filter(|row| row.fits(&SearchWords::of(typed))).count(), n, "{typed}");
    }
    let mut avas: Vec<String> =
        index.rows().filter(|row| row.fits(&SearchWords::of("ava"))).map(|row| row.title.clone()).collect();
    avas.sort();
    assert_eq!(avas, ["Ava Reyes, Harbour School, with Tom", "Ava Reyes, Quayside School"]);
}

#[test]
fn styles_of_the_shop_stand_beside_the_built_in_ones() {
    let folder = tempfile::tempdir().unwrap();
    let shop = Shop::begin(folder.path(), "Q").unwrap();
    assert_eq!(shop.styles().len(), 2);
    let mut own = shop.styles()[1].clone();
    own.name = "Summer \u{150}".into();
    let file = shop.style_file(&own.name).unwrap();
    save_style(&file, &own, shop.stock(), None).unwrap();
    fs::write(folder.path().join("styles/damaged.ron"), "(version: 1, na").unwrap();
    assert_eq!(shop.styles(), [shop.styles()[0].clone(), shop.styles()[1].clone(), own]);
}

#[test]
fn a_damaged_file_harms_no_other() {
    let folder = tempfile::tempdir().unwrap();
    samples::write_into(folder.path()).unwrap();
    fs::write(folder.path().join("stock.ron"), "(version: 1, botanicals: [(id: \"rose\", bunch: -2)])").unwrap();
    fs::write(folder.path().join("shop.ron"), "(version: 1, name: \"Q\", style: \"summer\")").unwrap();
    fs::write(folder.path().join("orders/02-classic.ron"), "(version: 1, wearer").unwrap();
    let shop = Shop::open(folder.path()).unwrap();
    assert_eq!(shop.warnings().len(), 2, "{:?}", shop.warnings());
    assert_eq!(**shop.stock(), built_in_stock());
    let orders = shop.orders();
    assert_eq!((orders.len(), orders.iter().filter(|e| e.order.is_ok()).count()), (11, 10));
    fs::create_dir(folder.path().join("styles")).unwrap();
    fs::write(folder.path().join("styles/summer.ron"), "(version: 1, name: \"Summer\", spare: 0.2)").unwrap();
    let shop = Shop::open(folder.path()).unwrap();
    assert_eq!((shop.style().name.as_str(), shop.style().spare, shop.style().sizes.len()), ("Summer", 0.2, 5));
}

#[test]
fn a_new_shop_begins_empty_and_names_its_orders() {
    let folder = tempfile::tempdir().unwrap();
    assert_eq!(Shop::open(folder.path()).unwrap_err().cause, Cause::NoShop);
    let shop = Shop::begin(&folder.path().join("shop"), "My shop").unwrap();
    assert_eq!((shop.name(), shop.orders().len()), ("My shop", 0));
    assert!(Shop::begin(&folder.path().join("shop"), "Again").is_err());
    let first = shop.place_for(&an_order()).unwrap();
    assert!(first.ends_with("orders/mina-petite.ron"));
    save_order(&first, &an_order(), None).unwrap();
    assert!(shop.place_for(&an_order()).unwrap().ends_with("orders/mina-petite-2.ron"));
    assert_eq!(shop.orders().len(), 1);
    assert_eq!(Shop::built_in().place_for(&an_order()), None);
}

/// What stored files of a shop say, version by version; written again they say the same.
#[test]
fn a_shop_file_of_each_version_is_read_and_saved_as_it_stands() {
    let stored = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/files");
    for (name, version) in [("shop-1.ron", 1), ("shop-2-every-field.ron", 2), ("shop-3-every-field.ron", 3)] {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("shop.ron");
        fs::copy(stored.join(name), &file).unwrap();
        let shop = Shop::open(folder.path()).unwrap();
        let letterhead = shop.letterhead();
        assert_eq!((&*letterhead.name, letterhead.on_picture), ("Quillfern Flowers", version >= 2));
        shop.save_details(shop.known_stamp()).unwrap();
        let said = fs::read_to_string(&file).unwrap();
        assert!(said.contains(&format!("version: {version}")) && said.contains("style: \"Linden\""), "{said}");
        let again = Shop::open(folder.path()).unwrap();
        assert_eq!(again.details(), shop.details());
    }
    let folder = tempfile::tempdir().unwrap();
    fs::copy(stored.join("shop-3-every-field.ron"), folder.path().join("shop.ron")).unwrap();
    let money = Shop::open(folder.path()).unwrap().details().money.clone().unwrap();
    assert_eq!(money.currency.with("36.50"), "36,50\u{a0}\u{20ac}");
    fs::copy(stored.join("shop-2-every-field.ron"), folder.path().join("shop.ron")).unwrap();
    let shop = Shop::open(folder.path()).unwrap();
    let day = posywright::book::Day::parse("2026-12-05").unwrap();
    assert_eq!(day.written(shop.written().date), "05.12.2026");
    let money = shop.details().money.clone().unwrap();
    assert_eq!((money.currency.with("36.50"), money.tax.unwrap().percent), ("36.50\u{a0}\u{20ac}".to_owned(), 20.0));
}
