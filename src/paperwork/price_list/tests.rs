//! Lists as suppliers send them, laid against the built-in stock list.

use super::*;
use crate::stock::StockId;

fn items() -> Vec<StockItem> {
    crate::store::built_in_stock().items().collect()
}

fn table(head: &[&str], rows: &[&[&str]]) -> PriceTable {
    let row = |(n, cells): (usize, &&[&str])| PriceRow {
        line: n as u64 + 2,
        cells: cells.iter().map(|c| (*c).to_owned()).collect(),
    };
    PriceTable {
        head: head.iter().map(|h| (*h).to_owned()).collect(),
        rows: rows.iter().enumerate().map(row).collect(),
    }
}

fn import(head: &[&str], rows: &[&[&str]]) -> PriceImport {
    let table = table(head, rows);
    price_import(&table, &PriceColumns::guess(&table), &items())
}

#[test]
fn columns_are_known_by_their_names() {
    use PriceColumn as C;
    for (head, places) in [
        (&["Item", "Price", "Stems"][..], &[(C::Name, 0), (C::Cost, 1), (C::Stems, 2)][..]),
        (&["Artikel", "Stk", "Preis", "Lieferant"], &[(C::Name, 0), (C::Stems, 1), (C::Cost, 2), (C::Supplier, 3)]),
        (&["D\u{e9}signation", "Prix", "Tiges"], &[(C::Name, 0), (C::Cost, 1), (C::Stems, 2)]),
        (&["Variety", "Price per stem", "Bunch size"], &[(C::Name, 0), (C::StemCost, 1), (C::Stems, 2)]),
        (&["x", "y"], &[]),
    ] {
        let columns = PriceColumns::guess(&table(head, &[]));
        let found: Vec<_> = C::ALL.into_iter().filter_map(|c| Some((c, columns.place(c)?))).collect();
        let mut wanted = places.to_vec();
        wanted.sort();
        assert_eq!(found, wanted, "{head:?}");
    }
}

#[test]
fn a_correction_leaves_each_place_one_meaning_and_the_list_one_cost() {
    use PriceColumn as C;
    let table = table(&["Item", "Price", "Each"], &[]);
    let columns = PriceColumns::guess(&table);
    assert_eq!((columns.place(C::Cost), columns.place(C::StemCost)), (Some(1), None));
    let columns = columns.with(C::StemCost, Some(2), &table);
    assert_eq!((columns.place(C::Cost), columns.place(C::StemCost)), (None, Some(2)));
    let columns = columns.with(C::Name, Some(2), &table);
    assert_eq!((columns.in_place(2), columns.in_place(0), columns.is_enough()), (Some(C::Name), None, false));
}

#[test]
fn lines_are_found_in_any_spelling_and_with_words_about_them() {
    for (named, id) in [
        ("Spray rose", "spray-rose"),
        ("SPRAY R\u{d6}SE", "spray-rose"),
        ("spray-rose", "spray-rose"),
        ("Roses, spray", "spray-rose"),
        ("Spray rose white 50 cm", "spray-rose"),
        ("Ruscus Italian", "italian-ruscus"),
        ("Mini carnations mix", "mini-carnation"),
        ("carnation", "carnation"),
    ] {
        let import = import(&["Name", "Cost"], &[&[named, "33.00"]]);
        let found: Vec<&str> = import.changes.iter().map(|c| c.after.id().as_str()).collect();
        assert_eq!(found, [id], "{named}: {:?}", import.refused);
        assert_eq!(import.changes[0].after.cost(), Cents(3300));
        assert!(!import.changes[0].after.shelf().has_example_price);
    }
}

#[test]
fn what_cannot_be_taken_is_refused_by_its_line_with_the_reason() {
    let import = import(
        &["Name", "Cost", "Stems"],
        &[
            &["Spray rose", "0", "10"],
            &["Waxflower", "-4.00", "10"],
            &["Lisianthus", "12.00", "0"],
            &["Freesia", "cheap", "10"],
            &["Ranunculus", "", "10"],
            &["", "3.00", "10"],
            &["Triffid", "3.00", "10"],
            &["Dendrobium", "21.00", "10"],
            &["dendrobium", "22.00", "10"],
            &["Mini carnation", "11.00", "10.5"],
            &["Italian ruscus", "6.50"],
        ],
    );
    let refused: Vec<(u64, &str)> = import.refused.iter().map(|r| (r.line, r.why.as_str())).collect();
    assert_eq!(
        refused,
        [
            (2, "A cost of 0 would give it away."),
            (3, "A cost is not below 0."),
            (4, "A bunch has at least one stem."),
            (5, "The cost \u{201c}cheap\u{201d} cannot be read."),
            (6, "It names no cost."),
            (7, "It has no name."),
            (8, "Nothing in your list is called that."),
            (9, "Line 10 says something else of Dendrobium."),
            (10, "Line 9 says something else of Dendrobium."),
            (11, "Write a whole number from 1 to 1000."),
        ]
    );
    assert_eq!(import.changes.iter().map(|c| c.line).collect::<Vec<_>>(), [12]);
}

#[test]
fn two_lines_that_say_the_same_are_taken_once() {
    let import = import(&["Name", "Cost"], &[&["Spray rose", "19"], &["Spray rose, pink", "19.00"]]);
    assert_eq!((import.changes.len(), import.refused.len()), (1, 0));
}

/// 25 stems at 0.385 make 9.625, which is 9.63 to the cent: halves go up.
#[test]
fn a_price_of_a_stem_makes_that_of_a_bunch() {
    let import =
        import(&["Name", "Price per stem", "Stems"], &[&["Spray rose", "0.385", "25"], &["Waxflower", "0.0004", "1"]]);
    assert_eq!(import.changes[0].after.cost(), Cents(963));
    assert_eq!(import.refused[0].why, "A bunch would cost less than a cent.");
}

#[test]
fn what_the_list_says_already_is_counted_and_an_example_that_is_right_is_called_so() {
    let rose = items().into_iter().find(|i| *i.id() == StockId::new("spray-rose")).unwrap();
    let table = table(&["Name", "Cost"], &[&["Spray rose", &rose.cost().to_string()]]);
    let columns = PriceColumns::guess(&table);
    let first = price_import(&table, &columns, &items());
    assert_eq!((first.changes.len(), first.n_same), (1, 0), "an example becomes her own");
    let now: Vec<StockItem> =
        items().into_iter().map(|i| if i.key() == rose.key() { first.changes[0].after.clone() } else { i }).collect();
    let again = price_import(&table, &columns, &now);
    assert_eq!((again.changes.len(), again.n_same), (0, 1));
}
