//! How much of a price rests on figures that came with the program and nobody in the shop has gone through.

use std::collections::BTreeSet;

use super::stem_list;
use crate::book::Order;
use crate::piece::{HouseStyle, Piece, PieceSize};
use crate::stock::{Stock, StockKey, StockList};

/// How many lines of the stock list the pieces of an order are priced by whose price is an example.
pub fn n_example_prices(order: &Order, style: &HouseStyle, stock: &Stock) -> usize {
    let size = order.size.as_ref().and_then(|name| style.size(name));
    let mut keys = BTreeSet::new();
    add_keys(&order.piece, size, stock, style, &mut keys);
    if let Some(partners) = &order.partner_piece {
        add_keys(partners, None, stock, style, &mut keys);
    }
    keys.iter().filter_map(|key| stock.item(key)).filter(|item| item.shelf().has_example_price).count()
}

fn add_keys(piece: &Piece, size: Option<&PieceSize>, stock: &Stock, style: &HouseStyle, keys: &mut BTreeSet<StockKey>) {
    let stems = stem_list(piece, size, stock, style);
    keys.extend(stems.lines.iter().map(|l| StockKey { list: StockList::Botanicals, id: l.stock.clone() }));
    // A line of hardware does not say in which of the lists it stands.
    for hard in &stems.hard {
        let lists = [StockList::Ribbons, StockList::Bands, StockList::Sundries];
        let key = lists.into_iter().map(|list| StockKey { list, id: hard.stock.clone() });
        keys.extend(key.filter(|key| stock.item(key).is_some()).take(1));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stock::{OwnStock, StockChange};

    #[test]
    fn every_kind_on_the_pieces_counts_once_until_it_is_gone_through() {
        let (stock, style) = (crate::store::built_in_stock(), crate::store::built_in_style());
        let text = crate::store::samples::orders().find(|s| s.path.contains("02-classic")).unwrap().text;
        let order = crate::store::order_from_text(text, "classic", &stock).unwrap();
        let all = n_example_prices(&order, &style, &stock);
        assert!(all > 4, "flowers, band, ribbon and sundries: {all}");
        let first = stock.item(&StockKey { list: StockList::Botanicals, id: order.piece.parts()[0].stock.clone() });
        let right = first.unwrap().changed(&StockChange::PriceIsRight).unwrap();
        let own = OwnStock::default().with(right, &stock).over(&stock);
        assert_eq!(n_example_prices(&order, &style, &own), all - 1);
    }
}
