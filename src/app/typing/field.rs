//! The fields in which an order is written: what stands in each, and what changes when somebody writes in it.

use std::collections::BTreeSet;

use crate::book::{
    Asked, Change, DayReader, Discount, DressColour, NeedChange, NumberCustom, Order, Reduction, WearerKind, When,
};
use crate::colour::{Rgb, swatch_named};
use crate::units::{Cents, DecimalMark, with_a_point};

/// A field to write in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Field {
    Wearer,
    Years,
    PartnerYears,
    Dance,
    Place,
    EventDay,
    Wanted,
    CollectedBy,
    LastChange,
    Partner,
    Payer,
    Phone,
    Dress,
    Metal,
    Likes,
    Allergies,
    PartnerAllergies,
    Avoided,
    Notes,
    /// The party that the order belongs to.
    Party,
    PartnerNotes,
    Budget,
    /// What a word about an allergy means that nobody knows; not part of the order yet.
    Meaning,
    /// Why something stopped is used all the same; not part of the order yet.
    OverruleReason,
    /// The price asked instead of the worked one.
    Asked,
    /// Why.
    Reason,
    /// What is taken off: an amount, or percent.
    Discount,
    /// For what, as the client reads it.
    DiscountWords,
    /// The wrist size, taken when the field is left: half a figure is another wrist.
    WristSize,
    /// An extra that is not part of the order yet.
    ExtraName,
    /// Its price.
    ExtraPrice,
    /// A tax rate of its own, percent.
    ExtraTax,
    /// A payment that is not part of the order yet.
    PaymentSum,
    /// Another way to pay than those on the buttons.
    PaymentWay,
}

impl Field {
    /// Fields whose words are part of the order letter by letter.
    pub(crate) const OF_ORDER: [Self; 26] = [
        Self::Wearer,
        Self::Years,
        Self::PartnerYears,
        Self::Dance,
        Self::Place,
        Self::EventDay,
        Self::Wanted,
        Self::CollectedBy,
        Self::LastChange,
        Self::Partner,
        Self::Payer,
        Self::Phone,
        Self::Dress,
        Self::Metal,
        Self::Likes,
        Self::Allergies,
        Self::PartnerAllergies,
        Self::Avoided,
        Self::Notes,
        Self::Party,
        Self::PartnerNotes,
        Self::Budget,
        Self::Asked,
        Self::Reason,
        Self::Discount,
        Self::DiscountWords,
    ];

    /// Fields in which a day stands.
    pub(crate) const DAYS: [Self; 3] = [Self::EventDay, Self::Wanted, Self::LastChange];

    /// Whether what stands in it is for the designer alone.
    pub(crate) fn is_for_shop(self) -> bool {
        matches!(
            self,
            Self::Notes
                | Self::PartnerNotes
                | Self::Party
                | Self::Asked
                | Self::Reason
                | Self::Discount
                | Self::DiscountWords
        )
    }

    /// Whether what stands in it becomes part of the order by a button, and not letter by letter.
    pub(crate) fn waits_for_a_button(self) -> bool {
        matches!(
            self,
            Self::ExtraName
                | Self::ExtraPrice
                | Self::ExtraTax
                | Self::PaymentSum
                | Self::PaymentWay
                | Self::Meaning
                | Self::OverruleReason
        )
    }

    /// Whether its words can be read, where they are no more than words to wait for a button.
    pub(crate) fn can_be_read(self, words: &str) -> bool {
        match self {
            Self::ExtraPrice | Self::PaymentSum => Cents::typed(words).is_some(),
            Self::ExtraTax => percent(words).is_some(),
            _ => true,
        }
    }

    /// Whether an hour belongs to the day that stands in it.
    pub(crate) fn has_hour(self) -> bool {
        self == Self::Wanted
    }

    /// The day that stands in it; none where something else does.
    pub(crate) fn day_in(self, order: &Order) -> Option<&When> {
        match self {
            Self::EventDay => Some(&order.event_day),
            Self::Wanted => Some(&order.wanted),
            Self::LastChange => Some(&order.last_change),
            _ => None,
        }
    }

    /// What changes when a day stands in it; nothing where something else does.
    pub(crate) fn day_change(self, when: When) -> Option<Change> {
        match self {
            Self::EventDay => Some(Change::EventDay(when)),
            Self::Wanted => Some(Change::Wanted(when)),
            Self::LastChange => Some(Change::LastChange(when)),
            _ => None,
        }
    }

    /// What a screen reader calls it.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Wearer => "Wearer\u{2019}s name",
            Self::Years => "Child\u{2019}s age",
            Self::PartnerYears => "Partner\u{2019}s age",
            Self::Dance => "Event",
            Self::Place => "Place",
            Self::EventDay => "Event day",
            Self::Wanted => "Pick-up day and time",
            Self::CollectedBy => "Collected by",
            Self::LastChange => "Last day to change",
            Self::Partner => "Partner",
            Self::Payer => "Paid by",
            Self::Phone => "Phone",
            Self::Dress => "Dress colour",
            Self::Metal => "Jewellery metal",
            Self::Likes => "Likes",
            Self::Allergies => "Allergies",
            Self::PartnerAllergies => "Partner\u{2019}s allergies",
            Self::Meaning => "What it means",
            Self::OverruleReason => "Reason to use it",
            Self::PartnerNotes => "Notes for the boutonniere",
            Self::Avoided => "Counts to avoid",
            Self::Notes => "Notes for the bench",
            Self::Party => "Party",
            Self::Budget => "Budget",
            Self::Asked => "Your price",
            Self::Reason => "Reason for your price",
            Self::Discount => "Discount",
            Self::DiscountWords => "Words for the discount",
            Self::WristSize => "Wrist size",
            Self::ExtraName => "Extra item",
            Self::ExtraPrice => "Price of the extra",
            Self::ExtraTax => "Tax rate of the extra",
            Self::PaymentSum => "Amount paid",
            Self::PaymentWay => "Another way to pay",
        }
    }

    /// What is written in it pale while it is empty.
    pub(crate) fn hint(self) -> &'static str {
        match self {
            Self::Wearer => "wearer\u{2019}s name",
            Self::Years | Self::PartnerYears => "age",
            Self::Dance => "dance or wedding",
            Self::Place => "school or place",
            Self::EventDay => "Saturday, 5 Dec",
            Self::Wanted => "5 Dec, 2 pm",
            Self::CollectedBy => "collected by",
            Self::LastChange => "1 Dec",
            Self::Partner => "partner",
            Self::Payer => "paid by",
            Self::Phone => "phone",
            Self::Dress => "teal, or #1c6a70",
            Self::Metal => "other metal",
            Self::Likes => "flowers, colours, style",
            Self::Allergies | Self::PartnerAllergies => "baby\u{2019}s breath, latex",
            Self::Meaning => "another name for it",
            Self::OverruleReason => "reason (client reads it)",
            Self::PartnerNotes => "note for the boutonniere",
            Self::Avoided => "4, 13",
            Self::Notes => "note for the bench",
            Self::Party => "such as a wedding\u{2019}s name",
            Self::Budget | Self::Asked => "30",
            Self::Reason => "reason (for your records)",
            Self::Discount => "5 or 10 %",
            Self::DiscountWords => "for what (client reads it)",
            Self::WristSize => "not measured",
            Self::ExtraName => "extra item",
            Self::ExtraPrice => "price",
            Self::ExtraTax => "tax %",
            Self::PaymentSum => "amount",
            Self::PaymentWay => "other way",
        }
    }

    /// What stands in it; figures with the decimal mark of the shop.
    pub(crate) fn shown(self, order: &Order, decimal: DecimalMark) -> String {
        let money = |cents| decimal.written(&short_money(cents));
        match self {
            Self::Wearer => order.wearer.clone(),
            Self::Years => order.needs.child_years().map(|y| y.to_string()).unwrap_or_default(),
            Self::PartnerYears => order.partner_needs.child_years().map(|y| y.to_string()).unwrap_or_default(),
            Self::Dance => order.dance.clone(),
            Self::Place => order.place.clone(),
            Self::EventDay | Self::Wanted | Self::LastChange => {
                self.day_in(order).map(|when| when.words().to_owned()).unwrap_or_default()
            }
            Self::CollectedBy => order.collected_by.clone(),
            Self::Partner => order.people.partner.clone(),
            Self::Payer => order.people.payer.clone(),
            Self::Phone => order.people.phone.clone(),
            Self::Dress => order.taste.dress.name(),
            Self::Metal => order.taste.metal.clone(),
            Self::Likes => order.taste.likes.clone(),
            Self::Allergies => order.needs.allergies.as_ref().map(|a| a.join(", ")).unwrap_or_default(),
            Self::PartnerAllergies => order.partner_needs.allergies.as_ref().map(|a| a.join(", ")).unwrap_or_default(),
            Self::PartnerNotes => order.partner_notes.clone(),
            Self::Avoided => numbers_text(&order.piece.wishes.avoided_counts),
            Self::Notes => order.notes.clone(),
            Self::Party => order.party.clone(),
            Self::Budget => order.terms.budget.map(money).unwrap_or_default(),
            Self::Asked => order.terms.asked.as_ref().map(|a| money(a.price)).unwrap_or_default(),
            Self::Reason => order.terms.asked.as_ref().map(|a| a.reason.clone()).unwrap_or_default(),
            Self::Discount => {
                order.terms.discount.as_ref().map(|d| decimal.written(&reduction_text(d.off))).unwrap_or_default()
            }
            Self::DiscountWords => order.terms.discount.as_ref().map(|d| d.words.clone()).unwrap_or_default(),
            Self::WristSize => order.wrist.girth.typed().to_owned(),
            Self::ExtraName
            | Self::ExtraPrice
            | Self::ExtraTax
            | Self::PaymentSum
            | Self::PaymentWay
            | Self::Meaning
            | Self::OverruleReason => String::new(),
        }
    }

    /// Why `words` cannot be read in it.
    pub(crate) fn refusal(self, words: &str, decimal: DecimalMark) -> String {
        let amount = format!("is not an amount such as {}", decimal.written("17.50"));
        let what = match self {
            Self::Years | Self::PartnerYears => "is not a child\u{2019}s age (0 to 17)",
            Self::Avoided => "is not a list of numbers from 1 to 99",
            Self::Budget | Self::Asked | Self::ExtraPrice | Self::PaymentSum => amount.as_str(),
            Self::Discount => "is not an amount or a percentage such as 10 %",
            Self::ExtraTax => "is not a percentage from 0 to 100",
            Self::Dress => "is not a colour code such as #1c6a70",
            _ => "cannot be read",
        };
        format!("\u{201c}{}\u{201d} {what}. Nothing was changed.", words.trim())
    }

    /// What changes when `words` stand in it; nothing while they cannot be read. Days are read by `reader`.
    pub(crate) fn change(self, words: &str, order: &Order, reader: DayReader) -> Option<Change> {
        let empty = words.trim().is_empty();
        let words = words.to_owned();
        Some(match self {
            Self::Wearer => Change::Wearer(words),
            Self::Years if empty => Change::Kind(None),
            Self::PartnerYears if empty => Change::PartnerNeed(NeedChange::Kind(None)),
            Self::Years => Change::Kind(Some(child(&words)?)),
            Self::PartnerYears => Change::PartnerNeed(NeedChange::Kind(Some(child(&words)?))),
            Self::Dance => Change::Dance(words),
            Self::Place => Change::Place(words),
            Self::EventDay | Self::Wanted | Self::LastChange => return self.day_change(When::read(&words, reader)),
            Self::CollectedBy => Change::CollectedBy(words),
            Self::Partner => Change::Partner(words),
            Self::Payer => Change::Payer(words),
            Self::Phone => Change::Phone(words),
            Self::Dress => Change::Dress(dress(&words, &order.taste.dress)?),
            Self::Metal => Change::Metal(words),
            Self::Likes => Change::Likes(words),
            Self::Allergies => Change::Allergies(allergy_names(&words)),
            Self::PartnerAllergies => Change::PartnerNeed(NeedChange::Allergies(allergy_names(&words))),
            Self::PartnerNotes => Change::PartnerNotes(words),
            Self::Avoided => {
                let even_is_welcome = order.piece.wishes.even_is_welcome;
                Change::Custom(NumberCustom { avoided: numbers(&words)?, even_is_welcome })
            }
            Self::Notes => Change::Notes(words),
            Self::Party => Change::Party(words),
            Self::Budget if empty => Change::Budget(None),
            Self::Budget => Change::Budget(Some(Cents::typed(&words)?)),
            Self::Asked if empty => Change::Asked(None),
            Self::Asked => {
                let reason = order.terms.asked.as_ref().map(|a| a.reason.clone()).unwrap_or_default();
                Change::Asked(Some(Asked { price: Cents::typed(&words)?, reason }))
            }
            // Without another price there is nothing to give a reason for.
            Self::Reason => Change::Asked(order.terms.asked.clone().map(|a| Asked { reason: words, ..a })),
            Self::Discount if empty => Change::Discount(None),
            Self::Discount => {
                let words_kept = order.terms.discount.as_ref().map(|d| d.words.clone()).unwrap_or_default();
                Change::Discount(Some(Discount { off: reduction(&words)?, words: words_kept }))
            }
            Self::DiscountWords => Change::Discount(order.terms.discount.clone().map(|d| Discount { words, ..d })),
            Self::WristSize
            | Self::ExtraName
            | Self::ExtraPrice
            | Self::ExtraTax
            | Self::PaymentSum
            | Self::PaymentWay
            | Self::Meaning
            | Self::OverruleReason => return None,
        })
    }
}

/// The child of this age; nothing while it is no child's age.
fn child(words: &str) -> Option<WearerKind> {
    let years = words.trim().parse().ok().filter(|y| OLDEST_CHILD >= *y)?;
    Some(WearerKind::Child { years })
}

/// `10 %` is a share, `5` an amount.
fn reduction(words: &str) -> Option<Reduction> {
    if words.contains('%') {
        percent(words).map(Reduction::Percent)
    } else {
        Cents::typed(words).map(Reduction::Amount)
    }
}

fn reduction_text(off: Reduction) -> String {
    match off {
        Reduction::Amount(cents) => short_money(cents),
        Reduction::Percent(of) => format!("{of} %"),
    }
}

/// `8.25`, `8,25 %`: from 0 to 100.
pub(crate) fn percent(words: &str) -> Option<f64> {
    let words = with_a_point(words);
    let bare = words.trim().trim_end_matches('%').trim();
    let is_plain = !bare.is_empty() && bare.chars().all(|c| c.is_ascii_digit() || c == '.');
    bare.parse().ok().filter(|of| is_plain && (0.0..=100.0).contains(of))
}

/// `4, 9` and `not 4 and 9`; nothing while something else stands there.
fn numbers(words: &str) -> Option<BTreeSet<u32>> {
    let words = words.split(|c: char| !c.is_alphanumeric()).filter(|w| !matches!(*w, "" | "not" | "and" | "no" | "or"));
    words.map(|w| w.parse().ok().filter(|n| (1..=MOST_COUNTED).contains(n))).collect()
}

fn numbers_text(numbers: &BTreeSet<u32>) -> String {
    numbers.iter().map(u32::to_string).collect::<Vec<_>>().join(", ")
}

/// No piece holds more of a kind than this; our choice.
const MOST_COUNTED: u32 = 99;

/// Above this a wearer is asked for as grown up, years; our choice.
const OLDEST_CHILD: u32 = 17;

/// `30`, `30.50`.
fn short_money(cents: Cents) -> String {
    let words = cents.to_string();
    words.strip_suffix(".00").map_or(words.clone(), str::to_owned)
}

/// A swatch of its own name where the words are one, else the words; what is seen stays as it was while it is described.
/// Nothing while what begins like a hex colour is none.
fn dress(words: &str, now: &DressColour) -> Option<DressColour> {
    let as_hex = words.trim_start().starts_with('#');
    match Rgb::parse(words).or_else(|| swatch_named(words).map(|s| s.rgb)) {
        Some(rgb) if as_hex => Some(DressColour { hex: Some(rgb), words: String::new() }),
        Some(rgb) => Some(DressColour { hex: Some(rgb), words: words.to_owned() }),
        None if words.trim().is_empty() => Some(DressColour::default()),
        None if as_hex => None,
        None => Some(DressColour { hex: now.hex, words: words.to_owned() }),
    }
}

/// `none` is an answer too.
fn allergy_names(words: &str) -> Option<Vec<String>> {
    let things: Vec<String> = words.split(',').map(str::trim).filter(|w| !w.is_empty()).map(str::to_owned).collect();
    let none =
        matches!(things.as_slice(), [only] if only.eq_ignore_ascii_case("none") || only.eq_ignore_ascii_case("no"));
    if none { Some(Vec::new()) } else { (!things.is_empty()).then_some(things) }
}

/// The swatches that the first page shows, by name: dresses as they are often asked for. All of them stand on the page Colour.
pub(crate) const FIRST_SWATCHES: [&str; 14] = [
    "white",
    "ivory",
    "champagne",
    "blush",
    "bright pink",
    "red",
    "wine",
    "lilac",
    "bright blue",
    "navy",
    "teal",
    "sage",
    "bright green",
    "black",
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stock::Stock;

    const POINT: DecimalMark = DecimalMark::Point;

    fn after(blank: Field, words: &str) -> Option<Order> {
        let (order, stock) = (Order::blank(None, &Stock::default()), Stock::default());
        blank.change(words, &order, DayReader::default()).map(|change| order.apply(&change, &stock).unwrap())
    }

    #[test]
    fn what_is_written_in_a_blank_stands_there_afterwards() {
        for (blank, words) in [
            (Field::Wearer, "Mina"),
            (Field::Years, "6"),
            (Field::PartnerYears, "9"),
            (Field::Dance, "Harbour Hall"),
            (Field::Place, "Quayside"),
            (Field::EventDay, "Saturday, 5 Dec"),
            (Field::Wanted, "9 May 2026, 2 pm"),
            (Field::CollectedBy, "Ana\u{2019}s sister"),
            (Field::LastChange, "1 Dec"),
            (Field::Partner, "Tomas"),
            (Field::Payer, "Ana"),
            (Field::Phone, "555 0100"),
            (Field::Dress, "midnight blue"),
            (Field::Metal, "silver"),
            (Field::Likes, "peonies"),
            (Field::Allergies, "baby\u{2019}s breath, lilies"),
            (Field::Avoided, "4, 9, 13"),
            (Field::Notes, "surprise"),
            (Field::Budget, "30"),
            (Field::Budget, "32.50"),
            (Field::Asked, "20"),
            (Field::Discount, "10 %"),
            (Field::Discount, "2.50"),
        ] {
            assert_eq!(blank.shown(&after(blank, words).unwrap(), POINT), words, "{}", blank.name());
            assert_eq!(blank.shown(&after(blank, "").unwrap(), POINT), "", "{} emptied", blank.name());
        }
        for (blank, words) in [(Field::Budget, "32,50"), (Field::Asked, "6,50"), (Field::Discount, "7,5 %")] {
            let typed = after(blank, words).unwrap();
            assert_eq!(blank.shown(&typed, DecimalMark::Comma), words, "{}", blank.name());
            assert_eq!(after(blank, &words.replace(',', ".")), Some(typed), "{} with a point", blank.name());
        }
        assert_eq!(after(Field::Budget, "thirty"), None);
        assert_eq!(after(Field::Years, "81"), None);
        assert_eq!(Field::Avoided.shown(&after(Field::Avoided, "not 9 and 4").unwrap(), POINT), "4, 9");
        assert_eq!(
            (after(Field::Avoided, "four"), after(Field::Avoided, "0"), after(Field::Avoided, "1000")),
            (None, None, None)
        );
    }

    #[test]
    fn a_dress_is_a_name_of_ours_a_figure_or_words_alone() {
        let dress = |words| after(Field::Dress, words).unwrap().taste.dress;
        assert_eq!(dress("Teal").hex, Some(Rgb::hex(0x1c_6a70)));
        assert_eq!((dress("Burgundy").hex, dress("Burgundy").name().as_str()), (dress("wine").hex, "Burgundy"));
        assert!(FIRST_SWATCHES.iter().all(|name| dress(name).hex.is_some()));
        assert_eq!((dress("#102030").hex, dress("#102030").name()), (Some(Rgb::hex(0x10_2030)), "#102030".to_owned()));
        assert_eq!(dress("like the sea").hex, None);
        assert!(super::dress("#zzz", &DressColour::default()).is_none());
    }

    #[test]
    fn none_is_an_answer_and_an_empty_field_is_not() {
        let told = |words| after(Field::Allergies, words).unwrap().needs.allergies;
        assert_eq!(told("None"), Some(Vec::new()));
        assert_eq!(told("  "), None);
        assert_eq!(told("lilies, , latex"), Some(vec!["lilies".to_owned(), "latex".to_owned()]));
    }
}
