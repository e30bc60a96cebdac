//! A gallery of layouts: four sizes on four wrists, set out from nothing. The layouts are kept as orders a person can open,
//! with what is said of each; a sheet of their pictures is kept beside the other pictures.
//! `POSYWRIGHT_GALLERY=write cargo test --test all -- set_out_gallery` makes them anew: then look at every picture.

use std::fs;
use std::path::PathBuf;

use image::RgbaImage;
use image::imageops::overlay;
use posywright::book::{Change, Order};
use posywright::export::png_of;
use posywright::once_over::{Subject, look_over};
use posywright::piece::HouseStyle;
use posywright::scene::{PictureOptions, frame_for, picture};
use posywright::set_out::{SearchOptions, propose};
use posywright::stock::Stock;
use posywright::store::{built_in_stock, built_in_style, order_to_text};
use posywright::units::Length;

const SIZES: [&str; 4] = ["Petite", "Classic", "Full", "Orchid Classic"];
/// From a child to a man: see `Wrist` for the surveys.
const GIRTHS_MM: [f64; 4] = [122.0, 135.0, 150.0, 178.0];
/// Rounds: what takes about 50 ms of one core.
const ROUNDS: u32 = 9;

fn set_out(size: &str, girth_mm: f64, stock: &Stock, style: &HouseStyle) -> (Order, String) {
    let size = style.size(size).unwrap();
    let measured = Change::Girth(Length::from_mm(girth_mm));
    let order = Order::blank(Some(size), stock).apply(&measured, stock).unwrap();
    let subject = Subject { piece: &order.piece, stock, style, wrist: &order.wrist };
    let proposal = propose(subject, Some(size), SearchOptions { seed: 1, rounds: ROUNDS }).unwrap();
    let piece = order.piece.apply(&proposal.edit).unwrap();
    let over = look_over(Subject { piece: &piece, stock, style, wrist: &order.wrist });
    assert!((over.score - proposal.score_after).abs() < 1e-9, "the score told is the true one");
    let crowded = proposal.crowded.map_or(String::new(), |c| format!(" {}", c.says));
    let wearer = format!("{} on {girth_mm} mm", size.name);
    let told = format!("{wearer}: {:.1}. {}{crowded}\n", proposal.score_after, proposal.says);
    (Order { piece, wearer, ..order }, told)
}

fn place(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/gallery/set_out").join(name)
}

fn name_of(size: &str, girth_mm: f64) -> String {
    format!("{}-{girth_mm}.ron", size.to_lowercase().replace(' ', "-"))
}

/// All pictures side by side: a row a size, in one frame, so that the hands of a row are seen at one scale.
fn sheet(orders: &[Order], stock: &Stock, width_px: u32) -> RgbaImage {
    let row = |row: &[Order]| -> Vec<RgbaImage> {
        let frame = row.iter().map(|o| frame_for(&o.piece, Some(&o.wrist))).reduce(|all, one| all.union(one));
        let look = PictureOptions { frame, ..PictureOptions::default() };
        let pngs = row.iter().map(|o| png_of(&picture(&o.piece, stock, &o.wrist, &look), width_px));
        pngs.map(|png| image::load_from_memory(&png).unwrap().to_rgba8()).collect()
    };
    let rows: Vec<Vec<RgbaImage>> = orders.chunks(4).map(row).collect();
    let mut whole = RgbaImage::new(4 * width_px, rows.iter().map(|row| row[0].height()).sum());
    let mut top = 0;
    for row in &rows {
        for (k, one) in (0_i64..).zip(row) {
            overlay(&mut whole, one, k * i64::from(width_px), top);
        }
        top += i64::from(row[0].height());
    }
    whole
}

#[test]
fn sixteen_layouts_are_made_as_they_are_kept() {
    let (stock, style) = (built_in_stock(), built_in_style());
    let (mut orders, mut text) = (Vec::new(), String::new());
    for size in SIZES {
        for girth in GIRTHS_MM {
            let (order, told) = set_out(size, girth, &stock, &style);
            text += &told;
            orders.push((name_of(size, girth), order));
        }
    }
    if std::env::var_os("POSYWRIGHT_GALLERY").is_some() {
        fs::create_dir_all(place("")).unwrap();
        for (name, order) in &orders {
            fs::write(place(name), order_to_text(order)).unwrap();
        }
        fs::write(place("said.txt"), &text).unwrap();
        let all: Vec<Order> = orders.iter().map(|o| o.1.clone()).collect();
        let to = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("assets/pictures/set-out.png");
        image::DynamicImage::from(sheet(&all, &stock, 112)).to_rgb8().save(to).unwrap();
        if let Some(big) = std::env::var_os("POSYWRIGHT_SHEET") {
            sheet(&all, &stock, 300).save(big).unwrap();
        }
    }
    assert_eq!(text, fs::read_to_string(place("said.txt")).unwrap());
    for (name, order) in &orders {
        assert_eq!(order_to_text(order), fs::read_to_string(place(name)).unwrap(), "{name}");
    }
}
