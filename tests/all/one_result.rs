//! An open order keeps one derived result, the latest: a long drag does not grow the memory.

use std::sync::{Arc, Weak};

use posywright::book::Order;
use posywright::command::Command;
use posywright::geometry::{Point, Vec2};
use posywright::piece::{Edit, NewPart};
use posywright::session::{Derived, Session};
use posywright::stock::StockId;
use posywright::store::{built_in_stock, built_in_style};

#[test]
fn of_all_that_was_derived_while_dragging_only_the_last_is_still_held() {
    let (stock, style) = (Arc::new(built_in_stock()), Arc::new(built_in_style()));
    let order = Order::blank(style.sizes.first(), &stock);
    let rose = NewPart::usual(stock.botanical(&StockId::new("spray-rose")).unwrap(), Arc::from("white"), Point::ORIGIN);
    let mut session = Session::with(order, Arc::clone(&stock), style);
    session.run(&Command::Preview(Edit::Place(rose))).unwrap();
    session.run(&Command::Commit).unwrap();
    let id = session.order().piece.parts()[0].id;
    let mut earlier: Vec<Weak<Derived>> = Vec::new();
    for step in 1..200_u32 {
        session.run(&Command::Preview(Edit::Move(vec![id], Vec2::new(f64::from(step) * 0.1, 0.0)))).unwrap();
        let derived = session.derived();
        assert!(Arc::ptr_eq(&derived, &session.derived()), "asked twice, calculated once");
        assert!(earlier.iter().all(|weak| weak.upgrade().is_none()), "step {step}: an earlier result is still held");
        earlier.push(Arc::downgrade(&derived));
    }
    session.run(&Command::Commit).unwrap();
    drop(session);
    assert!(earlier.iter().all(|weak| weak.upgrade().is_none()));
}
