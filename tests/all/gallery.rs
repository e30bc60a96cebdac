//! A gallery: for each question a piece with the fault and the same piece mended, kept as files a person can open, and what
//! the once-over says of both, kept as text. `POSYWRIGHT_GALLERY=write cargo test --test all -- gallery` makes them anew.

use std::fs;
use std::path::PathBuf;
use std::sync::Arc;

use posywright::book::Order;
use posywright::geometry::{Point, Vec2};
use posywright::once_over::{Subject, look_over};
use posywright::piece::{Bow, Edit, Level, PartId, Piece, Question};
use posywright::set_out::fix;
use posywright::stock::{Role, StockId};
use posywright::store::{built_in_stock, built_in_style, order_from_text, order_to_text};

use crate::support::{bloom, empty, five, put};

fn done(piece: &Piece, edit: &Edit) -> Piece {
    piece.apply(edit).unwrap_or_else(|r| panic!("{r}"))
}

fn moved(piece: &Piece, place: impl Fn(Point) -> Point) -> Piece {
    done(piece, &Edit::MoveEach(piece.parts().iter().map(|p| (p.id, place(p.centre))).collect()))
}

/// The five with a top of one, a sprig, two leaves: nothing to find.
fn well() -> Piece {
    let piece = done(&five(), &Edit::SetLevel(vec![PartId(5)], Level::Top));
    let leaf = |p: &Piece, x: f64, turn: f64, id| {
        let with = put(p, "italian-ruscus", Role::Leaf, (x, 0.0), 40.0, Level::Flat);
        done(&with, &Edit::Rotate(vec![PartId(id)], turn.to_radians()))
    };
    leaf(&leaf(&piece, 24.0, 0.0, 6), -24.0, 180.0, 7)
}

fn berries(piece: &Piece, degrees: &[f64]) -> Piece {
    let at = |d: &f64| (0.72 * 45.0 * d.to_radians().cos(), 0.72 * 27.0 * d.to_radians().sin());
    degrees.iter().fold(piece.clone(), |p, d| put(&p, "hypericum", Role::Accent, at(d), 12.0, Level::Raised))
}

fn bow(reach: f64) -> Bow {
    Bow {
        ribbon: StockId::new("satin-15"),
        colour: Arc::from("white"),
        loops_a_side: 2,
        loop_length_mm: reach,
        loop_width_mm: 15.0,
        tails: 2,
        tail_length_mm: 70.0,
        centre_loop: true,
    }
}

/// A piece that has the fault this question looks for.
fn faulty(question: Question) -> Piece {
    let ids = |p: &Piece| -> Vec<PartId> { p.parts().iter().map(|x| x.id).collect() };
    match question {
        Question::Outline => moved(&well(), |p| Point::new(p.x * 0.7, p.y * 2.2)),
        Question::WidthOnWrist => moved(&well(), |p| Point::new(p.x, p.y * 2.2)),
        Question::Squareness => [(-30.0, -14.0), (-30.0, 14.0), (0.0, -14.0), (0.0, 14.0), (30.0, -14.0), (30.0, 14.0)]
            .into_iter()
            .fold(bloom(&empty(90.0, 54.0), (0.0, 0.0)), |p, at| bloom(&p, at)),
        Question::AlongTheArm => {
            let (s, c) = 35.0_f64.to_radians().sin_cos();
            moved(&well(), |p| Point::new(p.x * c - p.y * s, p.x * s + p.y * c))
        }
        Question::OddCounts => bloom(&well(), (14.0, 16.0)),
        Question::Top => done(&well(), &Edit::SetLevel(vec![PartId(5)], Level::Raised)),
        Question::GradedSizes => done(&well(), &Edit::Resize(vec![PartId(1), PartId(2)], Some(36.0))),
        Question::AxisEnds => moved(&well(), |p| Point::new(p.x * 0.45, p.y)),
        Question::EvenSpread => berries(&well(), &[0.0, 30.0, 144.0, 216.0, 288.0]),
        Question::Balance => done(&well(), &Edit::Move(ids(&well()), Vec2::new(14.0, 0.0))),
        Question::RoomHere => done(&well(), &Edit::Remove(vec![PartId(1), PartId(6)])),
        Question::Fullness => {
            let more = [(16.0, 12.0), (-16.0, -12.0), (16.0, -12.0), (-16.0, 12.0)];
            more.into_iter().fold(well(), |p, at| bloom(&p, at))
        }
        Question::Hidden => put(&well(), "rose", Role::Bloom, (27.0, 0.0), 50.0, Level::Top),
        Question::Mechanics => {
            let ring = done(&well(), &Edit::Remove(vec![PartId(5), PartId(6), PartId(7)]));
            moved(&ring, |p| Point::new(p.x, p.y * 1.5))
        }
        Question::BowSeen => done(&well(), &Edit::Tie(Some(bow(14.0)))),
        Question::Leaves => done(&well(), &Edit::Rotate(vec![PartId(6), PartId(7)], 80.0_f64.to_radians())),
        Question::Height => {
            let heap = [(3.0, 1.0), (-2.0, 2.0), (1.0, -2.0)];
            heap.into_iter().fold(well(), |p, at| put(&p, "rose", Role::Bloom, at, 45.0, Level::Top))
        }
        Question::Protrusion => put(&well(), "rose", Role::Bloom, (0.0, 38.0), 50.0, Level::Raised),
        Question::Weight => {
            let many = (0..6).map(|k| (f64::from(k) * 14.0 - 35.0, 0.0));
            many.fold(well(), |p, at| put(&p, "rose", Role::Bloom, at, 60.0, Level::Raised))
        }
    }
}

/// Mended by its remedy, or by hand where a person has to choose.
fn mended(question: Question, fault: &Piece, order: &Order) -> Piece {
    let (stock, style) = (built_in_stock(), built_in_style());
    let subject = Subject { piece: fault, stock: &stock, style: &style, wrist: &order.wrist };
    let over = look_over(subject);
    let found = over.findings.iter().find(|f| f.question == question).unwrap();
    match (question, found.remedies.first().and_then(|r| fix(subject, r))) {
        // With no room left on the oval a person has to choose what to leave out.
        (Question::Height, _) => {
            let newest: Vec<PartId> = fault.parts().iter().rev().take(3).map(|p| p.id).collect();
            done(fault, &Edit::Remove(newest))
        }
        (_, Some(edit)) => done(fault, &edit),
        (Question::Squareness, None) => {
            let corner = |p: Point| if p.x.abs() > 20.0 { Point::new(p.x, p.y * 0.35) } else { p };
            moved(fault, corner)
        }
        (Question::GradedSizes, None) => done(fault, &Edit::Resize(vec![PartId(1), PartId(2)], Some(24.0))),
        (Question::Weight, None) => {
            let roses = fault.parts().iter().filter(|p| p.stock.as_str() == "rose").map(|p| p.id).collect();
            done(fault, &Edit::Remove(roses))
        }
        (other, None) => panic!("{other:?} has no remedy"),
    }
}

fn told(order: &Order, question: Question) -> String {
    let (stock, style) = (built_in_stock(), built_in_style());
    let over = look_over(Subject { piece: &order.piece, stock: &stock, style: &style, wrist: &order.wrist });
    let found = over.findings.iter().find(|f| f.question == question).unwrap();
    let remedies: Vec<&str> = found.remedies.iter().map(posywright::once_over::Remedy::label).collect();
    format!("{:.1} of {:.0}  {}  [{}]\n", found.points(), found.weight, found.says(), remedies.join(", "))
}

fn file(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/gallery").join(name)
}

fn kept(name: &str) -> Order {
    let text = fs::read_to_string(file(name)).unwrap_or_else(|why| panic!("{name}: {why}"));
    order_from_text(&text, name, &built_in_stock()).unwrap_or_else(|r| panic!("{r}"))
}

fn write(question: Question) {
    let id = question.id();
    let (stock, style) = (built_in_stock(), built_in_style());
    let blank = Order { size: None, ..Order::blank(style.size("Classic"), &stock) };
    let with =
        |piece: Piece, what: &str| Order { piece, wearer: format!("{}: {what}", question.title()), ..blank.clone() };
    let fault = with(faulty(question), "the fault");
    let repaired = with(mended(question, &fault.piece, &fault), "mended");
    fs::write(file(&format!("{id}-fault.ron")), order_to_text(&fault)).unwrap();
    fs::write(file(&format!("{id}-mended.ron")), order_to_text(&repaired)).unwrap();
    let text = format!("fault   {}mended  {}", told(&fault, question), told(&repaired, question));
    fs::write(file(&format!("{id}.txt")), text).unwrap();
}

#[test]
fn every_fault_is_found_and_every_mended_piece_earns_more() {
    if std::env::var_os("POSYWRIGHT_GALLERY").is_some() {
        Question::ALL.into_iter().for_each(write);
    }
    let (stock, style) = (built_in_stock(), built_in_style());
    for question in Question::ALL {
        let id = question.id();
        let (fault, repaired) = (kept(&format!("{id}-fault.ron")), kept(&format!("{id}-mended.ron")));
        let text = format!("fault   {}mended  {}", told(&fault, question), told(&repaired, question));
        assert_eq!(text, fs::read_to_string(file(&format!("{id}.txt"))).unwrap(), "{id}");
        let score = |order: &Order| {
            let over = look_over(Subject { piece: &order.piece, stock: &stock, style: &style, wrist: &order.wrist });
            over.findings.iter().find(|f| f.question == question).map(|f| f.score).unwrap()
        };
        assert!(score(&fault) < 0.9, "{id}: the fault is not found: {}", score(&fault));
        assert!(score(&repaired) > score(&fault) + 0.05, "{id}: mending earns nothing: {}", score(&repaired));
    }
}
