//! What a list shows of one order, and how it is looked for. Made once when the order is read; no whole order stays in memory.

use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::shop::Shop;
use super::store_error::StoreError;
use crate::book::{MissingDetail, OccasionMark, Order, OrderState, When, call_backs};
use crate::paperwork::quote;
use crate::units::{Cents, fold};

/// What a list shows of one order.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderRow {
    /// Its file.
    pub path: PathBuf,
    /// Its number in the shop.
    pub number: Option<u32>,
    /// What it is called, with what tells it apart; after the file when it cannot be read.
    pub title: String,
    /// Who wears it.
    pub wearer: String,
    /// With whom the wearer goes.
    pub partner: String,
    /// For which dance or wedding.
    pub event: String,
    /// What of it tells its occasion.
    pub occasion: OccasionMark,
    /// School or place.
    pub place: String,
    /// When it is picked up.
    pub pickup: When,
    /// The size agreed on; empty where none was chosen.
    pub size: String,
    /// Whether a boutonniere goes with it.
    pub with_boutonniere: bool,
    /// How far it has come.
    pub state: OrderState,
    /// Whether the client has agreed.
    pub is_agreed: bool,
    /// The party that it belongs to; empty when it stands alone.
    pub party: String,
    /// What the client pays in all.
    pub price: Cents,
    /// Paid so far.
    pub paid: Cents,
    /// Everything that is missing, what the work waits for first.
    pub missing: Vec<MissingDetail>,
    /// What the work waits for, and where to call for it; none when it can be made.
    pub call: Option<String>,
    /// When its file was last changed.
    pub modified: SystemTime,
    /// Why it could not be read.
    pub refusal: Option<StoreError>,
    /// Everything it is found by, in plain small letters.
    found_by: String,
}

/// The words of a search, in plain small letters.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SearchWords(Vec<String>);

impl SearchWords {
    /// The words of `search`. A telephone number may be written with or without what stands between its figures.
    pub fn of(search: &str) -> Self {
        Self(fold(search).split_whitespace().map(plain_number).collect())
    }
}

/// `555-0100` as `5550100`; what is not a number stays as it is.
fn plain_number(word: &str) -> String {
    let is_number = word.chars().all(|c| c.is_ascii_digit() || "+-/.()".contains(c));
    let figures: String = word.chars().filter(char::is_ascii_digit).collect();
    if is_number && !figures.is_empty() { figures } else { word.to_owned() }
}

impl OrderRow {
    /// Still to pay; below nothing where too much was paid.
    pub fn due(&self) -> Cents {
        self.price - self.paid
    }

    /// Whether it holds all these words in its title, in who pays, the partner, the phone, the party or the file, whatever the accents.
    pub fn fits(&self, search: &SearchWords) -> bool {
        search.0.iter().all(|word| self.found_by.contains(word))
    }

    /// The row of an order of this shop, read from `path` or refused.
    pub fn of(path: &Path, modified: SystemTime, read: Result<Order, StoreError>, shop: &Shop) -> Self {
        match read {
            Ok(order) => Self::of_order(path, modified, order, shop),
            Err(refusal) => Self::refused(path, modified, refusal),
        }
    }

    fn of_order(path: &Path, modified: SystemTime, order: Order, shop: &Shop) -> Self {
        let quote = quote(&order, shop.style(), shop.stock());
        let title = order.title_line();
        let number = order.number.map_or_else(String::new, |number| number.to_string());
        Self {
            missing: order.missing_details(shop.stock()),
            call: call_backs([&order], shop.stock()).pop().map(|call| call.needs()),
            found_by: found_by(&[
                &title,
                &stem_of(path),
                &order.people.payer,
                &order.people.partner,
                &order.people.phone,
                &figures_of(&order.people.phone),
                &order.party,
                &number,
            ]),
            occasion: OccasionMark::of(&order),
            title,
            size: order.size.clone().unwrap_or_default(),
            with_boutonniere: order.partner_piece.is_some(),
            state: order.state(),
            is_agreed: order.agreed.is_some(),
            price: quote.total,
            paid: quote.paid,
            number: order.number,
            path: path.to_owned(),
            wearer: order.wearer,
            partner: order.people.partner,
            event: order.dance,
            place: order.place,
            pickup: order.wanted,
            party: order.party,
            modified,
            refusal: None,
        }
    }

    fn refused(path: &Path, modified: SystemTime, refusal: StoreError) -> Self {
        let title = format!("{} (cannot be read)", stem_of(path));
        Self {
            found_by: found_by(&[&title]),
            number: None,
            path: path.to_owned(),
            wearer: title.clone(),
            title,
            partner: String::new(),
            event: String::new(),
            occasion: OccasionMark::default(),
            place: String::new(),
            pickup: When::default(),
            size: String::new(),
            with_boutonniere: false,
            state: OrderState::Asked,
            is_agreed: false,
            party: String::new(),
            price: Cents(0),
            paid: Cents(0),
            missing: Vec::new(),
            call: None,
            modified,
            refusal: Some(refusal),
        }
    }
}

fn found_by(words: &[&str]) -> String {
    fold(&words.join("\n"))
}

fn figures_of(phone: &str) -> String {
    phone.chars().filter(char::is_ascii_digit).collect()
}

/// The name of a file without its ending.
pub(super) fn stem_of(path: &Path) -> String {
    path.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Change, Progress};

    #[test]
    fn a_row_is_found_by_everything_a_caller_may_say() {
        let shop = Shop::built_in();
        let changes = vec![
            Change::Wearer("Zs\u{f3}fia \u{150}ry".to_owned()),
            Change::Payer("Mrs Vale".to_owned()),
            Change::Partner("J\u{f8}rn".to_owned()),
            Change::Phone("(0555) 01-00 22".to_owned()),
            Change::Party("Linden wedding".to_owned()),
            Change::Payments(vec![crate::book::Payment::of(Cents(500))]),
            Change::Progress(Some(Progress::Made)),
        ];
        let order = Order::blank(None, shop.stock()).apply(&Change::Together(changes), shop.stock()).unwrap();
        let row = OrderRow::of(Path::new("orders/17-zsofia.ron"), SystemTime::UNIX_EPOCH, Ok(order), &shop);
        for said in ["ory zsofia", "VALE", "jorn", "55501", "0555 0100", "(0555)", "linden", "17", ""] {
            assert!(row.fits(&SearchWords::of(said)), "{said}");
        }
        for other in ["oria", "999", "linden birch"] {
            assert!(!row.fits(&SearchWords::of(other)), "{other}");
        }
        assert_eq!((row.state, row.paid, row.due() + Cents(500)), (OrderState::Made, Cents(500), row.price));
    }
}
