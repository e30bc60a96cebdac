//! Orders made from orders: the same once more, and the same piece for another wearer.
//!
//! A copy is an order of its own: nothing that was paid, quoted, agreed or noted of the first goes with it.

use super::{Needs, Order, People, Shown, Taste, Terms, usual_girth};
use crate::piece::{Measured, Wrist};
use crate::stock::Stock;

impl Order {
    /// The same once more for the same wearer: another day, a second piece. Price and extras go with it; what was paid,
    /// quoted and agreed does not.
    pub fn again(&self) -> Self {
        let Terms { budget, asked, extras, rush, discount, .. } = self.terms.clone();
        Self {
            number: None,
            terms: Terms { budget, asked, extras, rush, discount, ..Terms::default() },
            quoted: None,
            agreed: None,
            progress: None,
            ..self.clone()
        }
    }

    /// The same piece for another wearer of the same event: piece, size, event, place, day and party stay. People, needs,
    /// measurements, money and notes are asked anew. Within a party the dress stays too, for its dresses go together
    /// (common practice, no source).
    pub fn for_another(&self, stock: &Stock) -> Self {
        let taste = if self.party.trim().is_empty() { Taste::default() } else { self.taste.clone() };
        let mut other = Self {
            number: None,
            collected_by: String::new(),
            wearer: String::new(),
            people: People::default(),
            needs: Needs::default(),
            taste: Taste { likes: String::new(), ..taste },
            notes: String::new(),
            partner_needs: Needs::default(),
            partner_notes: String::new(),
            wrist: Wrist { girth: usual_girth(None), measured: Measured::NotYet, ..self.wrist.clone() },
            terms: Terms::default(),
            shown: Shown::default(),
            quoted: None,
            agreed: None,
            progress: None,
            ..self.clone()
        };
        // A custom of numbers and a height allowed are the first wearer's.
        other.piece.wishes.avoided_counts.clear();
        other.piece.wishes.even_is_welcome = false;
        other.piece.wishes.height_mm = None;
        if let Some(kind) = other.piece.band.as_ref().and_then(|id| stock.band(id)).map(|band| band.kind) {
            other.take_band(kind, stock);
        }
        other
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::book::{Agreed, Asked, Change, Day, OrderState, Progress, When};
    use crate::geometry::Point;
    use crate::piece::{Edit, Level, NewPart};
    use crate::stock::{Role, StockId};
    use crate::units::{Cents, Length};

    /// An order of which everything is known.
    fn known() -> Order {
        let (stock, day) = (Stock::default(), Day::new(2026, 5, 2).unwrap());
        let rose = NewPart {
            stock: StockId::new("rose"),
            colour: Arc::from("white"),
            role: Role::Bloom,
            centre: Point::new(12.0, 8.0),
            turn_rad: 0.0,
            size_mm: None,
            level: Level::Raised,
        };
        let changes = vec![
            Change::Piece(Edit::Place(rose)),
            Change::Wearer("Ida".to_owned()),
            Change::Dance("Linden wedding".to_owned()),
            Change::Wanted(When::typed("9 May 2026, 2 pm")),
            Change::Payer("Mrs Vale".to_owned()),
            Change::Phone("555 0100".to_owned()),
            Change::Allergies(Some(vec!["lily".to_owned()])),
            Change::Metal("gold".to_owned()),
            Change::Notes("calls after six".to_owned()),
            Change::Girth(Length::from_mm(171.0)),
            Change::HeightLimit(Some(30.0)),
            Change::Asked(Some(Asked { price: Cents(4000), reason: "regular".to_owned() })),
            Change::Payments(vec![crate::book::Payment::of(Cents(1000))]),
            Change::QuotedOn(Some(day)),
            Change::Party("Linden".to_owned()),
        ];
        let order = Order::blank(None, &stock).apply(&Change::Together(changes), &stock).unwrap();
        let agreed = Box::new(Agreed::freeze(&order, day, Cents(4000), Vec::new()));
        let said = [Change::Agreed(Some(agreed)), Change::Progress(Some(Progress::Made))];
        order.apply(&Change::Together(said.to_vec()), &stock).unwrap()
    }

    #[test]
    fn a_copy_is_asked_for_anew_and_nothing_of_it_is_paid() {
        let copy = known().again();
        assert_eq!((copy.state(), copy.terms.paid(), copy.terms.quoted_on), (OrderState::Asked, Cents(0), None));
        assert_eq!((copy.wearer.as_str(), copy.people.phone.as_str()), ("Ida", "555 0100"));
        assert_eq!(copy.terms.asked.as_ref().map(|asked| asked.price), Some(Cents(4000)));
        assert_eq!((&copy.piece, &copy.wrist), (&known().piece, &known().wrist));
    }

    #[test]
    fn for_another_wearer_the_piece_stays_and_the_person_goes() {
        let (known, other) = (known(), known().for_another(&Stock::default()));
        assert_eq!((other.piece.parts(), &other.size), (known.piece.parts(), &known.size));
        assert_eq!((&other.dance, &other.wanted, &other.party), (&known.dance, &known.wanted, &known.party));
        assert_eq!((other.wearer.as_str(), &other.people, &other.needs), ("", &People::default(), &Needs::default()));
        assert_eq!((other.wrist.measured, other.wrist.girth_mm()), (Measured::NotYet, 154.0));
        assert_eq!((other.notes.as_str(), &other.terms, other.state()), ("", &Terms::default(), OrderState::Asked));
        assert_eq!((other.piece.wishes.height_mm, other.taste.metal.as_str()), (None, "gold"));
        let alone = Order { party: String::new(), ..known }.for_another(&Stock::default());
        assert_eq!(alone.taste, Taste::default(), "another dance, another dress");
    }

    #[test]
    fn agreed_is_told_by_the_agreement_and_the_rest_by_a_note() {
        let stock = Stock::default();
        let made = known();
        assert_eq!((made.state(), made.progress_for(OrderState::Asked)), (OrderState::Made, None));
        let back = made.progress_for(OrderState::Agreed).unwrap();
        assert_eq!(made.apply(&Change::Progress(back), &stock).unwrap().state(), OrderState::Agreed);
        let without = made.apply(&Change::Agreed(None), &stock).unwrap();
        assert_eq!((without.state(), without.progress_for(OrderState::Agreed)), (OrderState::Made, None));
        for state in [OrderState::Asked, OrderState::Made, OrderState::Collected, OrderState::Cancelled] {
            let noted = Change::Progress(without.progress_for(state).unwrap());
            assert_eq!(without.apply(&noted, &stock).unwrap().state(), state);
        }
    }
}
