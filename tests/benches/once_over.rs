//! How long a look at a whole piece takes: 100 and 1,000 parts, and how it grows.
//!
//! `cargo bench --no-default-features --features benches --bench once_over`. Pieces are made up, the same on every run.

use std::hint::black_box;
use std::sync::Arc;

use divan::Bencher;
use posywright::geometry::Point;
use posywright::once_over::{Measures, Subject, look_over, look_over_at_once};
use posywright::piece::{Edit, Footprint, HouseStyle, NewPart, Piece, Worn, Wrist};
use posywright::stock::{Stock, StockId};
use posywright::store::{built_in_stock, built_in_style};

fn main() {
    divan::main();
}

struct Shop {
    stock: Stock,
    style: HouseStyle,
    wrist: Wrist,
}

impl Shop {
    fn new() -> Self {
        Self { stock: built_in_stock(), style: built_in_style(), wrist: Wrist::usual() }
    }

    fn subject<'a>(&'a self, piece: &'a Piece) -> Subject<'a> {
        Subject { piece, stock: &self.stock, style: &self.style, wrist: &self.wrist }
    }

    /// A piece as full as a full one, its oval growing with its parts: a fifth leaves, a fifth sprigs, some accents.
    fn piece(&self, n_parts: usize) -> Piece {
        let kinds = ["spray-rose", "italian-ruscus", "waxflower", "hypericum", "spray-rose"];
        let scale = (n_parts as f64 / 100.0).sqrt();
        let (a, b) = ((150.0 * scale).min(245.0), (90.0 * scale).min(150.0));
        let footprint = Footprint { length_mm: 2.0 * a, width_mm: 2.0 * b, offset_mm: 50.0 };
        let mut state = 7_u64;
        let mut next = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 33) as f64 / f64::from(1_u32 << 31)
        };
        let shrink = (a / (150.0 * scale)).min(1.0);
        (0..n_parts).fold(Piece::empty(Worn::Wrist, footprint), |piece, k| {
            let botanical = self.stock.botanical(&StockId::new(kinds[k % kinds.len()]));
            let Some(botanical) = botanical else { return piece };
            let centre = Point::new((2.0 * next() - 1.0) * a * 0.9, (2.0 * next() - 1.0) * b * 0.8);
            let mut new = NewPart::usual(botanical, Arc::from("white"), centre);
            new.size_mm = Some((botanical.usual_mm() * shrink).max(1.0));
            piece.apply(&Edit::Place(new)).unwrap_or(piece)
        })
    }
}

#[divan::bench(args = [20, 40, 100, 250, 500, 1000, 2000, 4000])]
fn whole_look(bencher: Bencher<'_, '_>, n_parts: usize) {
    let shop = Shop::new();
    let piece = shop.piece(n_parts);
    bencher.bench(|| look_over(black_box(shop.subject(&piece))));
}

#[divan::bench(args = [20, 40, 60, 100, 250, 1000, 4000])]
fn whole_look_on_two_cores(bencher: Bencher<'_, '_>, n_parts: usize) {
    let shop = Shop::new();
    let piece = shop.piece(n_parts);
    bencher.bench(|| look_over_at_once(black_box(shop.subject(&piece))));
}

#[divan::bench(args = [20, 100, 1000])]
fn measures_alone(bencher: Bencher<'_, '_>, n_parts: usize) {
    let shop = Shop::new();
    let piece = shop.piece(n_parts);
    bencher.bench(|| Measures::take(black_box(shop.subject(&piece))));
}
