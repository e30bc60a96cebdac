//! The commands through the program's own door: reports, exit codes, and files that cannot be read.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value;

fn posywright(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_posywright"))
        .args(words)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .output()
        .unwrap()
}

fn report(words: &[&str]) -> Value {
    let out = posywright(words);
    assert!(out.status.success(), "{words:?}: {}", String::from_utf8_lossy(&out.stderr));
    serde_json::from_slice(&out.stdout).unwrap()
}

fn written(folder: &Path, name: &str, text: &[u8]) -> String {
    let path = folder.join(name);
    fs::write(&path, text).unwrap();
    path.display().to_string()
}

fn close(value: &Value, wanted: f64) -> bool {
    (value.as_f64().unwrap() - wanted).abs() < 1e-6
}

/// An order of discs, as a person would write it.
fn discs(length: f64, width: f64, discs: &[(f64, f64, f64)]) -> String {
    let part = |(x, y, r): &(f64, f64, f64)| format!("(stock: \"spray-rose\", at: ({x}, {y}), size: {}),", 2.0 * r);
    let parts = discs.iter().map(part).collect::<Vec<_>>().concat();
    format!("(version: 1, piece: (oval: (length: {length}, width: {width}), parts: [{parts}]))")
}

#[test]
fn the_once_over_reports_every_measure_promised() {
    let folder = tempfile::tempdir().unwrap();
    // Two discs, one partly over the edge of the oval: covered area 1024.301960771 mm2, by exact arcs and by quadrature.
    let file = written(folder.path(), "a.ron", discs(120.0, 80.0, &[(-8.0, 0.0, 15.0), (9.0, 4.0, 12.0)]).as_bytes());
    let d = report(&["once-over", &file, "--json"]);
    assert!(close(&d["cover"]["covered_mm2"], 1024.301960771), "{}", d["cover"]);
    assert!(close(&d["oval"]["length_mm"], 120.0) && close(&d["oval"]["width_mm"], 80.0));
    for key in ["length_mm", "width_mm", "length_to_width", "box_fill"] {
        assert!(d["outline"][key].as_f64().unwrap() > 0.0, "{key}");
    }
    assert!(d["outline"].get("angle_deg").is_some());
    for key in ["girth_mm", "width_limit_mm", "across_mm"] {
        assert!(d["wrist"][key].as_f64().unwrap() > 0.0, "{key}");
    }
    let room = d["room"].as_array().unwrap();
    assert!(room.windows(2).all(|w| w[0]["radius_mm"].as_f64() >= w[1]["radius_mm"].as_f64()), "largest first");
    let spread = &d["spread"][0];
    assert_eq!(
        (spread["stock"].as_str(), spread["count"].as_u64(), spread["odd"].as_bool()),
        (Some("spray-rose"), Some(2), Some(false))
    );
    let findings = d["findings"].as_array().unwrap();
    let points: f64 = findings.iter().map(|f| f["points"].as_f64().unwrap()).sum();
    let weights: f64 = findings.iter().map(|f| f["weight"].as_f64().unwrap()).sum();
    assert!((d["mark"].as_f64().unwrap() - 100.0 * points / weights).abs() < 1e-6);
}

#[test]
fn a_quote_comes_as_text_and_as_json() {
    let d = report(&["quote", "samples/orders/11-teal-gown.ron", "--json"]);
    // 27 for the Classic, 9 for the boutonniere, 2.50 for the wand; half of it down.
    assert_eq!((d["total_cents"].as_i64(), d["deposit_cents"].as_i64()), (Some(3850), Some(1925)));
    assert_eq!((d["balance_cents"].as_i64(), d["minutes"].as_f64()), (Some(1925), Some(19.0)));
    assert_eq!(d["lines"].as_array().unwrap().len(), 3);
    let out = posywright(&["quote", "samples/orders/11-teal-gown.ron"]);
    let said = String::from_utf8(out.stdout).unwrap();
    for words in [
        "Ines \u{2013} Classic and boutonniere, Harbour Hall, Harbour School, with Tobias",
        "Total",
        "$38.50",
        "$19.25",
        "19 min",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    let folder = tempfile::tempdir().unwrap();
    let file = written(folder.path(), "damaged.ron", b"(version: 1, purse: 3");
    assert_eq!(posywright(&["quote", &file]).status.code(), Some(1));
    assert_eq!(posywright(&["quote"]).status.code(), Some(2));
}

/// Five heads of 30 mm on an oval of 90 x 54 mm fill 0.93 of it, seven 1.30: a longer oval is proposed, not a wider one.
#[test]
fn a_crowded_oval_is_made_longer() {
    let folder = tempfile::tempdir().unwrap();
    let heads: Vec<(f64, f64, f64)> = (0..7).map(|k| (-30.0 + 10.0 * f64::from(k), 0.0, 15.0)).collect();
    let fullness = |n: usize| {
        let file = written(folder.path(), "full.ron", discs(90.0, 54.0, &heads[..n]).as_bytes());
        report(&["once-over", &file, "--json"])
    };
    assert!((fullness(5)["cover"]["fullness"].as_f64().unwrap() - 0.926).abs() < 0.001);
    let seven = fullness(7);
    assert!((seven["cover"]["fullness"].as_f64().unwrap() - 1.296).abs() < 0.001);
    let finding = seven["findings"].as_array().unwrap().iter().find(|f| f["question"] == "fullness").unwrap();
    assert!(finding["says"].as_str().unwrap().contains("Lengthen the oval to 112 mm"), "{finding}");
    assert!(finding["remedies"][0].as_str() == Some("Lengthen the oval"), "{finding}");
}

/// Three heads in a row along the arm on a wrist of 135 mm.
#[test]
fn three_in_a_row_are_very_narrow() {
    let folder = tempfile::tempdir().unwrap();
    let text = discs(90.0, 50.0, &[(-30.0, 0.0, 15.0), (0.0, 0.0, 15.0), (30.0, 0.0, 15.0)])
        .replace("version: 1,", "version: 1, wrist: (side: left, girth: 135),");
    let d = report(&["once-over", &written(folder.path(), "row.ron", text.as_bytes()), "--json"]);
    assert!(close(&d["outline"]["length_mm"], 90.0) && close(&d["outline"]["width_mm"], 30.0));
    assert!(close(&d["outline"]["length_to_width"], 3.0) && close(&d["wrist"]["width_limit_mm"], 54.0));
    let outline = d["findings"].as_array().unwrap().iter().find(|f| f["question"] == "outline").unwrap();
    let says = outline["says"].as_str().unwrap();
    assert!(says.contains("3.0 times as long as wide") && says.contains("Leaves at the sides"), "{says}");
}

/// A girth typed as 6 1/4 in: the limit stands in inches, the millimetres beside it.
#[test]
fn the_limit_is_told_in_the_unit_of_the_girth() {
    let text = String::from_utf8(posywright(&["once-over", "samples/orders/02-classic.ron"]).stdout).unwrap();
    assert!(text.contains("2 1/8 in (54.7 mm) wide; max 2 1/2 in (63.5 mm) for this wrist."), "{text}");
}

#[test]
fn stems_come_as_text_as_json_and_as_csv() {
    let file = "samples/orders/02-classic.ron";
    let d = report(&["stems", file, "--json"]);
    assert_eq!((d["price_cents"].as_i64(), d["minutes"].as_f64()), (Some(2700), Some(14.0)));
    let rose = d["lines"].as_array().unwrap().iter().find(|l| l["stock"] == "spray-rose").unwrap();
    assert_eq!(
        (rose["pieces"].as_u64(), rose["stems"].as_u64(), rose["role"].as_str()),
        (Some(5), Some(2), Some("bloom"))
    );
    assert!(close(&rose["cost_cents"], 225.0));
    let csv = String::from_utf8(posywright(&["stems", file, "--csv"]).stdout).unwrap();
    assert!(csv.starts_with("stock,name,colour,role,pieces,") && csv.contains("\r\nspray-rose,Spray rose,"), "{csv}");
    let text = String::from_utf8(posywright(&["stems", file]).stdout).unwrap();
    assert!(text.contains("Price: $27.00") && text.contains("not medical advice"), "{text}");
}

#[test]
fn the_same_call_sets_a_piece_out_to_the_same_bytes() {
    let folder = tempfile::tempdir().unwrap();
    let text = "(version: 1, size: \"Classic\", piece: (oval: (length: 90, width: 54)))";
    let file = written(folder.path(), "classic.ron", text.as_bytes());
    let laid_out = |name: &str| {
        let to = folder.path().join(name);
        let words = ["set-out", &file, "--to", to.to_str().unwrap(), "--seed", "3", "--for", "20"];
        let d = report(&[&words[..], &["--json"]].concat());
        (d, fs::read(to).unwrap())
    };
    let (told, bytes) = laid_out("one.ron");
    assert_eq!((&told, &bytes), (&laid_out("two.ron").0, &laid_out("three.ron").1));
    assert!(told["mark_after"].as_f64().unwrap() > told["mark_before"].as_f64().unwrap(), "{told}");
    assert_eq!((told["for_ms"].as_u64(), told["seed"].as_u64()), (Some(20), Some(3)));
    let over = report(&["once-over", folder.path().join("one.ron").to_str().unwrap(), "--json"]);
    assert!(close(&over["mark"], told["mark_after"].as_f64().unwrap()), "the mark told is that of the file");
}

#[test]
fn picture_and_papers_are_files_that_can_be_opened() {
    let folder = tempfile::tempdir().unwrap();
    let png = folder.path().join("p.png");
    let words = ["picture", "samples/orders/01-petite.ron", "--to", png.to_str().unwrap(), "--width-px", "300"];
    assert!(posywright(&words).status.success());
    let picture = image::open(&png).unwrap().to_rgb8();
    assert_eq!(picture.width(), 300);
    let first = *picture.get_pixel(0, 0);
    assert!(picture.pixels().filter(|p| **p != first).count() > 1000, "the picture is blank");
    let into = folder.path().join("papers");
    let out = posywright(&["papers", "samples/orders/03-full.ron", "--into", into.to_str().unwrap()]);
    assert!(out.status.success());
    let listed = String::from_utf8(out.stdout).unwrap();
    let made: Vec<PathBuf> = listed.lines().map(PathBuf::from).collect();
    assert_eq!(made.len(), 14, "{listed}");
    assert!(made.iter().all(|p| fs::metadata(p).unwrap().len() > 100), "{listed}");
}

#[test]
fn several_orders_get_their_papers_and_one_that_cannot_be_read_keeps_none_of_the_others() {
    let folder = tempfile::tempdir().unwrap();
    let (one, other) = (folder.path().join("one"), folder.path().join("other"));
    fs::create_dir_all(&one).unwrap();
    fs::create_dir_all(&other).unwrap();
    let heads = [(0.0, 0.0, 15.0)];
    let first = written(&one, "Mina.ron", discs(90.0, 54.0, &heads).as_bytes());
    let second = written(&other, "mina.ron", discs(90.0, 54.0, &heads).as_bytes());
    let broken = written(&other, "broken.ron", b"(version: 1,");
    let into = folder.path().join("papers");
    let into = into.to_str().unwrap();
    let out = posywright(&["papers", &first, &second, "--into", into, "--paper", "letter"]);
    let (said, told) = (String::from_utf8(out.stdout).unwrap(), String::from_utf8(out.stderr).unwrap());
    assert!(out.status.success(), "{told}");
    assert_eq!(said.lines().count(), 28, "{said}");
    assert!(said.contains("mina-2-client.pdf") && said.lines().all(|path| Path::new(path).exists()), "{said}");
    assert!(told.starts_with("1 of 2: "), "{told}");
    let out = posywright(&["papers", &broken, &first, "--into", into]);
    let told = String::from_utf8(out.stderr).unwrap();
    assert_eq!(out.status.code(), Some(1));
    assert!(told.contains("broken.ron") && told.contains("Saved for the other orders:"), "{told}");
    assert!(told.contains("Mina-bench-card.pdf"), "{told}");
}

/// One kind alone, or several; what an order does not have is reported, and is a failure only where nothing else was made.
#[test]
fn one_kind_of_paper_is_made_when_it_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().to_str().unwrap();
    let said = |words: &[&str]| {
        let out = posywright(&[&["papers", "samples/orders/02-classic.ron", "--into", into], words].concat());
        let (said, told) = (String::from_utf8(out.stdout).unwrap(), String::from_utf8(out.stderr).unwrap());
        let names: Vec<String> = said.lines().map(|l| l.rsplit('/').next().unwrap().to_owned()).collect();
        (out.status.code(), names.join(" "), told)
    };
    assert_eq!(said(&["--only", "client"]), (Some(0), "02-classic-client.pdf".to_owned(), String::new()));
    let (code, names, told) = said(&["--only", "agreed-sheet", "--only", "quote-slip"]);
    assert_eq!((code, names.as_str()), (Some(0), "02-classic-quote-slip.pdf 02-classic-quote-slip.png"));
    assert!(told.contains("the client has not agreed yet"), "{told}");
    let (code, names, told) = said(&["--only", "receipt"]);
    assert_eq!((code, names.as_str()), (Some(1), ""));
    assert!(told.contains("nothing has been paid yet"), "{told}");
    let page = image::open(folder.path().join("02-classic-quote-slip.png")).unwrap();
    // A4 at 150 to the inch: 210 and 297 mm over 25.4, times 150.
    assert_eq!((page.width(), page.height()), (1240, 1754));
}

/// What is made at the bench is made piece by piece: the boutonniere has its own card, template and bill.
#[test]
fn a_boutonniere_has_papers_of_its_own_for_the_bench() {
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().to_str().unwrap();
    let kinds = ["--only", "bench-card", "--only", "bill-of-materials"];
    let out = posywright(&[&["papers", "samples/orders/11-teal-gown.ron", "--into", into], &kinds[..]].concat());
    let said = String::from_utf8(out.stdout).unwrap();
    let names: Vec<&str> = said.lines().map(|l| l.rsplit("11-teal-gown-").next().unwrap()).collect();
    let bench = ["bench-card.pdf", "boutonniere-bench-card.pdf"];
    let bill = ["bill-of-materials.csv", "bill-of-materials.pdf"];
    let his = ["boutonniere-bill-of-materials.csv", "boutonniere-bill-of-materials.pdf"];
    assert_eq!(names, [&bench[..], &bill, &his].concat());
    let read = |name: &str| fs::read_to_string(folder.path().join(format!("11-teal-gown-{name}"))).unwrap();
    let count = |text: &str| {
        let line = text.lines().find(|l| l.contains("Spray rose,white,bloom")).unwrap().to_owned();
        line.split(',').nth(4).unwrap().parse::<u32>().unwrap()
    };
    assert_eq!((count(&read(bill[0])), count(&read(his[0]))), (5, 1), "{}", read(his[0]));
}

#[test]
fn a_caption_stands_below_the_picture() {
    let folder = tempfile::tempdir().unwrap();
    let picture = |name: &str, more: &[&str]| {
        let to = folder.path().join(name);
        let call = ["picture", "samples/orders/01-petite.ron", "--width-px", "300", "--to", to.to_str().unwrap()];
        assert!(posywright(&[&call[..], more].concat()).status.success());
        image::open(&to).unwrap().to_rgb8()
    };
    let plain = picture("plain.png", &[]);
    let with = picture("with.png", &["--caption", "For Zs\u{f3}fia \u{150}ry-N\u{e9}meth"]);
    assert_eq!((plain.width(), with.width()), (300, 300));
    assert!(with.height() > plain.height() + 20);
    let same = plain.enumerate_pixels().filter(|(x, y, p)| with.get_pixel(*x, *y) == *p).count();
    assert!(same as f64 > 0.99 * f64::from(plain.width() * (plain.height() - 1)), "the picture stays as it is");
    let dark = (plain.height() + 2..with.height()).flat_map(|y| (0..300).map(move |x| (x, y)));
    assert!(dark.filter(|(x, y)| with.get_pixel(*x, *y).0[1] < 90).count() > 100, "no words are seen");
}

#[test]
fn without_a_display_the_papers_are_made_and_named() {
    let folder = tempfile::tempdir().unwrap();
    let out = Command::new(env!("CARGO_BIN_EXE_posywright"))
        .current_dir(folder.path())
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .env("HOME", folder.path())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&out.stdout).into_owned();
    assert!(out.status.success() && said.starts_with("No window: "), "{said}");
    for line in said.lines().skip(1) {
        assert!(folder.path().join(line.trim()).exists(), "{line}");
    }
}

#[test]
fn what_cannot_be_read_gets_a_sentence_and_exit_code_1() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    let part = |more: &str| format!("(version: 1, piece: (oval: (length: 90, width: 54), parts: [{more}]))");
    let rose = "(stock: \"spray-rose\", at: (0, 0)),";
    let nested = format!("(version: 1, piece: {}{}", "[".repeat(300), "]".repeat(300));
    let cases: [(&str, Vec<u8>); 12] = [
        ("empty.ron", Vec::new()),
        ("half.ron", b"(version: 1, piece: (oval: (length: 90,".to_vec()),
        ("binary.ron", vec![0, 159, 146, 150, 255, 1, 2, 3]),
        ("nested.ron", nested.into_bytes()),
        ("many.ron", part(&rose.repeat(6000)).into_bytes()),
        ("negative.ron", part("(stock: \"spray-rose\", at: (0, 0), size: -30),").into_bytes()),
        ("infinite.ron", part("(stock: \"spray-rose\", at: (0, inf)),").into_bytes()),
        ("nan.ron", part("(stock: \"spray-rose\", at: (NaN, 0)),").into_bytes()),
        (
            "twins.ron",
            part("(id: 1, stock: \"spray-rose\", at: (0, 0)), (id: 1, stock: \"spray-rose\", at: (9, 0)),")
                .into_bytes(),
        ),
        ("unknown.ron", part("(stock: \"moonflower\", at: (0, 0)),").into_bytes()),
        ("newer.ron", b"(version: 99, piece: (oval: (length: 90, width: 54)))".to_vec()),
        ("huge.ron", vec![b' '; 17 << 20]),
    ];
    for (name, bytes) in &cases {
        let file = written(at, name, bytes);
        for command in [&["once-over", &file][..], &["stems", &file], &["papers", &file, "--into", "nowhere"]] {
            let out = posywright(command);
            let said = String::from_utf8_lossy(&out.stderr).into_owned();
            assert_eq!(out.status.code(), Some(1), "{name}: {said}");
            assert!(said.contains(name) && said.matches(". ").count() >= 1, "{name}: {said}");
            assert!(!said.to_lowercase().contains("error") && !said.contains("panicked"), "{name}: {said}");
        }
        assert_eq!(&fs::read(&file).unwrap(), bytes, "{name} was touched");
    }
    let out = posywright(&["once-over", at.to_str().unwrap()]);
    assert_eq!(out.status.code(), Some(1), "a folder is no order");
    let out = posywright(&["once-over", at.join("missing.ron").to_str().unwrap()]);
    assert_eq!(out.status.code(), Some(1), "a missing file is no order");
}

#[test]
fn a_place_that_cannot_be_written_is_told_and_leaves_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("plain");
    fs::write(&file, "x").unwrap();
    let inside = file.join("out.png");
    let out = posywright(&["picture", "samples/orders/01-petite.ron", "--to", inside.to_str().unwrap()]);
    assert_eq!(out.status.code(), Some(1));
    assert_eq!(fs::read(&file).unwrap(), b"x");
    let out = posywright(&["papers", "samples/orders/01-petite.ron", "--into", file.to_str().unwrap()]);
    assert_eq!(out.status.code(), Some(1));
    assert!(!String::from_utf8_lossy(&out.stderr).contains("panicked"));
}

/// A disk of 64 KiB, where this computer lets a test mount one; elsewhere nothing is claimed.
#[test]
fn a_full_disk_is_told_in_words_and_the_old_picture_stands() {
    let folder = tempfile::tempdir().unwrap();
    let disk = folder.path().to_str().unwrap();
    let mounted = Command::new("mount").args(["-t", "tmpfs", "-o", "size=64k", "tmpfs", disk]).output();
    if !mounted.is_ok_and(|out| out.status.success()) {
        return;
    }
    let picture = folder.path().join("p.png");
    fs::write(&picture, b"the old one").unwrap();
    let out = posywright(&["picture", "samples/orders/01-petite.ron", "--to", picture.to_str().unwrap()]);
    let (old, left) = (fs::read(&picture), fs::read_dir(folder.path()).map(Iterator::count));
    assert!(Command::new("umount").arg(disk).status().unwrap().success());
    assert_eq!(out.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&out.stderr).contains("The disk is full"), "{out:?}");
    assert_eq!((old.unwrap(), left.unwrap()), (b"the old one".to_vec(), 1), "the old picture alone");
}

#[test]
fn wrong_calls_exit_with_2_and_help_with_0() {
    for words in [&["once-over"][..], &["stems", "a", "--csv", "--json"], &["picture", "a"], &["--frob"]] {
        assert_eq!(posywright(words).status.code(), Some(2), "{words:?}");
    }
    for words in [&["--help"][..], &["help", "stems"], &["--version"]] {
        let out = posywright(words);
        assert!(out.status.success() && !out.stdout.is_empty(), "{words:?}");
    }
}

/// The full sample is 17,187 pixels high when it is 8,000 wide: more than is drawn.
#[test]
fn a_picture_that_would_be_cut_is_refused_with_the_largest_width() {
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("x.png");
    let call = ["picture", "samples/orders/03-full.ron", "--to", to.to_str().unwrap()];
    let refused = |more: [&str; 2]| {
        let out = posywright(&[&call[..], &more].concat());
        assert_eq!(out.status.code(), Some(1), "{more:?}");
        assert!(!to.exists(), "nothing is written");
        let said = String::from_utf8(out.stderr).unwrap();
        let most = said.split("--width-px ").nth(1).unwrap().split(['.', ',']).next().unwrap().parse::<u32>();
        (most.unwrap(), said)
    };
    let (most, said) = refused(["--width-px", "8000"]);
    assert!((7_000..8_000).contains(&most), "{said}");
    assert_eq!(refused(["--width-px", "12000"]).0, most);
    let (same, said) = refused(["--dpi", "2400"]);
    assert!(same == most && said.contains("--dpi "), "{said}");
    assert_eq!(refused(["--width-px", &(most + 1).to_string()]).0, most);
}

#[test]
fn a_file_of_any_size_is_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("x.png");
    fs::File::create(&to).unwrap().set_len(17 * 1024 * 1024).unwrap();
    let out =
        posywright(&["picture", "samples/orders/01-petite.ron", "--width-px", "90", "--to", to.to_str().unwrap()]);
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    assert_eq!(image::open(&to).unwrap().width(), 90);
}

#[test]
fn a_picture_stands_before_the_dress_of_its_order_unless_another_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let corner = |order: &str, more: &[&str]| {
        let to = folder.path().join("p.png");
        let call = ["picture", order, "--width-px", "120", "--to", to.to_str().unwrap()];
        assert!(posywright(&[&call[..], more].concat()).status.success());
        image::open(&to).unwrap().to_rgb8().get_pixel(1, 1).0
    };
    let [red, green, blue] = corner("samples/orders/11-teal-gown.ron", &[]);
    assert!(red < 80 && green > 80 && blue > 80, "teal: {red} {green} {blue}");
    let [red, green, _] = corner("samples/orders/11-teal-gown.ron", &["--dress", "#8b1427"]);
    assert!(red > 90 && green < 60, "{red} {green}");
    assert!(corner("samples/orders/02-classic.ron", &[]).iter().all(|c| *c > 180), "no dress is named: paper");
}

/// Also where the order names a dress.
#[test]
fn a_clear_picture_has_nothing_behind_the_piece() {
    let folder = tempfile::tempdir().unwrap();
    let clear = |view: &str| {
        let to = folder.path().join(format!("{view}.png"));
        let call = ["picture", "samples/orders/11-teal-gown.ron", "--width-px", "120", "--view", view, "--clear"];
        let out = posywright(&[&call[..], &["--to", to.to_str().unwrap()]].concat());
        assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
        image::open(&to).unwrap().to_rgba8()
    };
    for view in ["flat", "above", "side"] {
        let image = clear(view);
        assert_eq!(image.get_pixel(1, 1).0[3], 0, "{view}");
        assert!(image.pixels().filter(|p| p.0[3] == 255).count() > 500, "{view}: the piece is there");
    }
}

/// The sum of a party's bill is worked out a second way: from the quotes of its orders, each as its own command reports it.
#[test]
fn the_bill_of_a_party_adds_up_to_the_quotes_of_its_orders_to_the_cent() {
    let folder = tempfile::tempdir().unwrap();
    let (shop, paper) = (folder.path().join("shop"), folder.path().join("bill.pdf"));
    fs::create_dir_all(shop.join("orders")).unwrap();
    fs::create_dir_all(shop.join("styles")).unwrap();
    fs::write(shop.join("shop.ron"), "(version: 1, name: \"Quillfern Flowers\", style: \"taxed\")").unwrap();
    let tax = "prices: (tax: (name: \"Sales tax\", percent: 8.25, how: added))";
    fs::write(shop.join("styles/taxed.ron"), format!("(version: 1, name: \"taxed\", {tax})")).unwrap();
    let order = |name: &str, paid: &str, size: f64| {
        let text = discs(90.0, 54.0, &[(0.0, 0.0, size), (20.0, 0.0, size)]);
        let told = format!("(version: 1, wearer: \"{name}\", party: \"Linden wedding\", paid: {paid}, ");
        written(&shop.join("orders"), &format!("{name}.ron"), text.replacen("(version: 1, ", &told, 1).as_bytes())
    };
    let files = [order("Ida", "0", 15.0), order("Wren", "10.01", 13.0), order("Ana", "3", 14.0)];
    let mut words = vec!["party-bill", "--json", "--to", paper.to_str().unwrap()];
    words.extend(files.iter().map(String::as_str));
    let bill = report(&words);
    let quotes: Vec<Value> = files.iter().map(|file| report(&["quote", file, "--json"])).collect();
    let sum = |key: &str| quotes.iter().map(|quote| quote[key].as_i64().unwrap()).sum::<i64>();
    for key in ["total_cents", "paid_cents", "due_cents"] {
        assert_eq!(bill[key].as_i64(), Some(sum(key)), "{key}");
        let lines = bill["lines"].as_array().unwrap().iter().filter_map(|line| line[key].as_i64()).sum::<i64>();
        assert!(key == "due_cents" || lines == sum(key), "the lines add up: {key}");
    }
    assert_eq!(
        bill["tax_cents"].as_i64().unwrap(),
        quotes.iter().map(|q| q["tax"]["cents"].as_i64().unwrap()).sum::<i64>()
    );
    assert!(bill["tax_cents"].as_i64().unwrap() > 0 && bill["party"] == "Linden wedding");
    assert!(fs::read(&paper).unwrap().starts_with(b"%PDF"));
    assert!(!posywright(&["party-bill", &files[0], "--to", "bill.png"]).status.success(), "it is a PDF");
}
