//! Everything that the pages of the counter say, side by side. What stands in [`Counter`] is read by the client too; what is
//! for the designer alone stands in [`Mine`]. Sentences that tell sums stand with the reckoning, in `paperwork`.

use crate::session::Front;
use crate::units::counted;

/// What the client reads.
pub(crate) struct Counter;

impl Counter {
    pub(crate) const PRICE: &'static str = "The price";
    pub(crate) const IN_ALL: &'static str = "In all";
    pub(crate) const NOW: &'static str = "Now";
    pub(crate) const LATER: &'static str = "When it is fetched";
    pub(crate) const PAID: &'static str = "Paid so far";
    pub(crate) const DUE: &'static str = "Still to pay";
    pub(crate) const ALL_PAID: &'static str = "All paid, thank you.";
    pub(crate) const EXTRA_HINT: &'static str = "something extra";
    pub(crate) const ADD: &'static str = "Add";
    pub(crate) const RUSH: &'static str = "In a rush";
    pub(crate) const WHY: &'static str = "Why so much?";
    pub(crate) const MADE_OF: &'static str = "What the price is made of:";
    pub(crate) const YES: &'static str = "Yes, agreed";
    pub(crate) const YES_ALL_THE_SAME: &'static str = "Yes, all the same";
    pub(crate) const YES_AGAIN: &'static str = "Yes to this too";
    pub(crate) const NOTHING_YET: &'static str = "Nothing lies on the oval yet, so there is nothing to say yes to.";
    pub(crate) const WHAT_YES_DOES: &'static str =
        "The piece, its picture and the price stay on the sheet as they are. What changes later stands beside it.";
    pub(crate) const AS_AGREED: &'static str = "All is as agreed.";
    pub(crate) const PICTURE_AS_AGREED: &'static str = "The piece as it was agreed:";
    pub(crate) const CHANGED: &'static str = "Changed since agreed";

    pub(crate) const SIZES: &'static str = "Side by side";
    pub(crate) const SIZES_LINE: &'static str = "at one scale, on this wrist";
    pub(crate) const SIZES_TAB: &'static str = "Sizes";
    pub(crate) const SIZES_TIP: &'static str = "Two or three sizes (C)";
    pub(crate) const WAYS: &'static str = "Another way";
    pub(crate) const WAYS_LINE: &'static str = "the same piece with another band, other greens, other accents";
    pub(crate) const WAYS_TIP: &'static str = "Another band, other greens, other accents (J)";
    pub(crate) const AS_IT_IS: &'static str = "As it is";
    pub(crate) const ON_SHEET: &'static str = "On the sheet now.";
    pub(crate) const THE_OTHER_WAY: &'static str = "This way";
    pub(crate) const CHOOSE_WAY: &'static str = "Choose what shall be otherwise.";
    pub(crate) const TAKE_WAY: &'static str = "Take it";
    pub(crate) const BANDS: &'static str = "Band";
    pub(crate) const LASTING: &'static str = "Lasting greens";
    pub(crate) const FRESH: &'static str = "Fresh, softer greens";
    pub(crate) const BETWEEN: &'static str = "Between the blooms";
    pub(crate) const SEE_TO_IT: &'static str = "See to it";
    pub(crate) const SEE_TO_IT_TIP: &'static str = "To the questions of the order (Q), where others are offered";
    pub(crate) const MATCH: &'static str = "Matching boutonniere";
    pub(crate) const MATCH_TIP: &'static str = "One in the same flowers and ribbon, for the partner.";
    pub(crate) const BACK_TO_WRIST: &'static str = "Back to the wrist piece";
    pub(crate) const NO_MATCH: &'static str = "Leave the boutonniere out";

    /// What a piece of the order is called.
    pub(crate) const PAPERS_TIP: &'static str =
        "Picture, quote slip, agreed sheet, cards for the bench: all papers of this order (Ctrl+Shift+P)";
    pub(crate) const PAPERS_BEGUN: &'static str = "The papers are being made.";
    pub(crate) const PAPERS_BROKEN: &'static str = "The papers broke off. The order is safe; make them again.";

    pub(crate) fn papers_made(n: usize, all: usize) -> String {
        format!("The papers are being made: {n} of {all}.")
    }

    pub(crate) fn papers_in(n: usize, folder: &str) -> String {
        format!("{} in the shop\u{2019}s folder: papers/{folder}", counted(n, "paper", "papers"))
    }

    pub(crate) fn piece(front: Front) -> &'static str {
        match front {
            Front::Wearers => "Wrist piece",
            Front::Partners => "Boutonniere",
        }
    }

    pub(crate) fn to_sheet(front: Front) -> &'static str {
        match front {
            Front::Wearers => "To the sheet of the wrist piece (X)",
            Front::Partners => "To the sheet of the boutonniere (X)",
        }
    }

    pub(crate) fn instead(names: &[String]) -> String {
        format!("Instead: {}.", names.join(", "))
    }

    pub(crate) fn stopped_here(names: &[String]) -> String {
        format!("Not for this wearer: {}", names.join(", "))
    }

    /// On the button that takes an extra off.
    pub(crate) fn leave_out(name: &str) -> String {
        format!("Leave out {name}")
    }

    pub(crate) fn agreed_on(day: &str, price: &str) -> String {
        format!("Agreed on {day}: {price}")
    }

    pub(crate) fn today(day: &str) -> String {
        format!("On {day}")
    }
}

/// What the designer alone reads.
pub(crate) struct Mine;

impl Mine {
    pub(crate) const ANOTHER: &'static str = "Another price";
    pub(crate) const LEFT_OUT: &'static str = "Not for this wearer";
    pub(crate) const TAKE_BACK: &'static str = "Take the yes back";
    pub(crate) const PAID: &'static str = "Paid";
    pub(crate) const EARLIER: &'static str = "A day earlier";
    pub(crate) const LATER: &'static str = "A day later";
    pub(crate) const NO_DAY: &'static str = "The computer does not know which day it is. Set its clock, then say yes.";

    pub(crate) const SLIP: &'static str = "Quote slip";
    pub(crate) const SLIP_TIP: &'static str =
        "To print and to send; its day is kept, so that it is known until when the price holds";
    pub(crate) const WITH_OTHERS: &'static str = "Bought with others";
    pub(crate) const WITH_OTHERS_TIP: &'static str = "Stems of this order and of others, bought together";
    pub(crate) const TOGETHER: &'static str = "Bought together";
    pub(crate) const READING_ORDERS: &'static str = "Reading the orders\u{2026}";
    pub(crate) const CHOOSE_ORDERS: &'static str = "Choose one or more of the orders at the left.";

    pub(crate) fn slip_made(name: &str) -> String {
        format!("The slip is in the shop\u{2019}s folder: papers/{name}")
    }

    pub(crate) fn together_with(front: &str) -> String {
        format!("{front}, and:")
    }

    pub(crate) fn stems(n: u32) -> String {
        counted(n as usize, "stem", "stems")
    }

    /// `5 + 5, 11 with spare; each alone 4 stems`.
    pub(crate) fn how_joined(each: &[u32], with_spare: u32, alone: u32) -> String {
        let each: Vec<String> = each.iter().map(u32::to_string).collect();
        format!("{}, {with_spare} with spare; each order alone: {}", each.join(" + "), Self::stems(alone))
    }

    pub(crate) fn stems_saved(n: u32) -> String {
        match n {
            0 => "As many stems as each order alone.".to_owned(),
            n => format!("{} fewer than each order alone.", Self::stems(n)),
        }
    }

    pub(crate) fn together_price(price: &str) -> String {
        format!("Together {price}")
    }

    /// The price of the house beside another one.
    pub(crate) fn house(price: &str) -> String {
        format!("The house asks {price}.")
    }

    /// An amount that cannot be read yet.
    pub(crate) const AMOUNT: &'static str = "as 20 or 17.50";
}

/// What the tap board says; both sides may see it.
pub(crate) struct Taps;

impl Taps {
    pub(crate) const OFF: &'static str = "Keys on the screen, for wet hands";
    pub(crate) const ON: &'static str = "Keys on the screen: put them away";
    pub(crate) const GIRTH: &'static str = "Girth of the wrist";
    pub(crate) const EXTRA_NAME: &'static str = "What is extra";
    pub(crate) const EXTRA_PRICE: &'static str = "Price of what is extra";
    pub(crate) const CAPITAL: &'static str = "Aa";
    pub(crate) const ACCENTS: &'static str = "\u{e1} \u{f6}";
    pub(crate) const SPACE: &'static str = "space";
    pub(crate) const RUB_OUT: &'static str = "Rub out";
    pub(crate) const EMPTY: &'static str = "Empty";
    pub(crate) const DONE: &'static str = "Done";
}
