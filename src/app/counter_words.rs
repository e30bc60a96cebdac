//! Everything that the pages of the counter say, side by side. What stands in [`Counter`] is read by the client too; what is
//! for the designer alone stands in [`Mine`]. Sentences that tell sums stand with the reckoning, in `paperwork`.

use crate::session::Front;
use crate::units::counted;

/// What the client reads.
pub(super) struct Counter;

impl Counter {
    pub(super) const PRICE: &'static str = "The price";
    pub(super) const IN_ALL: &'static str = "In all";
    pub(super) const NOW: &'static str = "Now";
    pub(super) const LATER: &'static str = "When it is fetched";
    pub(super) const PAID: &'static str = "Paid so far";
    pub(super) const DUE: &'static str = "Still to pay";
    pub(super) const ALL_PAID: &'static str = "All paid, thank you.";
    pub(super) const EXTRA_HINT: &'static str = "something extra";
    pub(super) const ADD: &'static str = "Add";
    pub(super) const RUSH: &'static str = "In a rush";
    pub(super) const WHY: &'static str = "Why so much?";
    pub(super) const MADE_OF: &'static str = "What the price is made of:";
    pub(super) const YES: &'static str = "Yes, agreed";
    pub(super) const YES_ALL_THE_SAME: &'static str = "Yes, all the same";
    pub(super) const YES_AGAIN: &'static str = "Yes to this too";
    pub(super) const NOTHING_YET: &'static str = "Nothing lies on the oval yet, so there is nothing to say yes to.";
    pub(super) const WHAT_YES_DOES: &'static str =
        "The piece, its picture and the price stay on the sheet as they are. What changes later stands beside it.";
    pub(super) const AS_AGREED: &'static str = "All is as agreed.";
    pub(super) const PICTURE_AS_AGREED: &'static str = "The piece as it was agreed:";
    pub(super) const CHANGED: &'static str = "Changed since agreed";

    pub(super) const SIZES: &'static str = "Side by side";
    pub(super) const SIZES_LINE: &'static str = "at one scale, on this wrist";
    pub(super) const SIZES_TAB: &'static str = "Sizes";
    pub(super) const SIZES_TIP: &'static str = "Two or three sizes (C)";
    pub(super) const WAYS: &'static str = "Another way";
    pub(super) const WAYS_LINE: &'static str = "the same piece with another band, other greens, other accents";
    pub(super) const WAYS_TIP: &'static str = "Another band, other greens, other accents (J)";
    pub(super) const AS_IT_IS: &'static str = "As it is";
    pub(super) const ON_SHEET: &'static str = "On the sheet now.";
    pub(super) const THE_OTHER_WAY: &'static str = "This way";
    pub(super) const CHOOSE_WAY: &'static str = "Choose what shall be otherwise.";
    pub(super) const TAKE_WAY: &'static str = "Take it";
    pub(super) const BANDS: &'static str = "Band";
    pub(super) const LASTING: &'static str = "Lasting greens";
    pub(super) const FRESH: &'static str = "Fresh, softer greens";
    pub(super) const BETWEEN: &'static str = "Between the blooms";
    pub(super) const SEE_TO_IT: &'static str = "See to it";
    pub(super) const SEE_TO_IT_TIP: &'static str = "To the questions of the order (Q), where others are offered";
    pub(super) const MATCH: &'static str = "Matching boutonniere";
    pub(super) const MATCH_TIP: &'static str = "One in the same flowers and ribbon, for the partner.";
    pub(super) const BACK_TO_WRIST: &'static str = "Back to the wrist piece";
    pub(super) const NO_MATCH: &'static str = "Leave the boutonniere out";

    /// What a piece of the order is called.
    pub(super) const PAPERS_TIP: &'static str =
        "Picture, quote slip, agreed sheet, cards for the bench: all papers of this order (Ctrl+Shift+P)";
    pub(super) const PAPERS_BEGUN: &'static str = "The papers are being made.";

    pub(super) fn papers_made(n: usize, all: usize) -> String {
        format!("The papers are being made: {n} of {all}.")
    }

    pub(super) fn papers_in(n: usize, folder: &str) -> String {
        format!("{} in the shop\u{2019}s folder: papers/{folder}", counted(n, "paper", "papers"))
    }

    pub(super) fn piece(front: Front) -> &'static str {
        match front {
            Front::Wearers => "Wrist piece",
            Front::Partners => "Boutonniere",
        }
    }

    pub(super) fn to_sheet(front: Front) -> &'static str {
        match front {
            Front::Wearers => "To the sheet of the wrist piece (X)",
            Front::Partners => "To the sheet of the boutonniere (X)",
        }
    }

    pub(super) fn instead(names: &[String]) -> String {
        format!("Instead: {}.", names.join(", "))
    }

    pub(super) fn stopped_here(names: &[String]) -> String {
        format!("Not for this wearer: {}", names.join(", "))
    }

    /// On the button that takes an extra off.
    pub(super) fn leave_out(name: &str) -> String {
        format!("Leave out {name}")
    }

    pub(super) fn agreed_on(day: &str, price: &str) -> String {
        format!("Agreed on {day}: {price}")
    }

    pub(super) fn today(day: &str) -> String {
        format!("On {day}")
    }
}

/// What the designer alone reads.
pub(super) struct Mine;

impl Mine {
    pub(super) const ANOTHER: &'static str = "Another price";
    pub(super) const LEFT_OUT: &'static str = "Not for this wearer";
    pub(super) const TAKE_BACK: &'static str = "Take the yes back";
    pub(super) const PAID: &'static str = "Paid";
    pub(super) const EARLIER: &'static str = "A day earlier";
    pub(super) const LATER: &'static str = "A day later";
    pub(super) const NO_DAY: &'static str = "The computer does not know which day it is. Set its clock, then say yes.";

    pub(super) const SLIP: &'static str = "Quote slip";
    pub(super) const SLIP_TIP: &'static str =
        "To print and to send; its day is kept, so that it is known until when the price holds";
    pub(super) const WITH_OTHERS: &'static str = "Bought with others";
    pub(super) const WITH_OTHERS_TIP: &'static str = "Stems of this order and of others, bought together";
    pub(super) const TOGETHER: &'static str = "Bought together";
    pub(super) const CHOOSE_ORDERS: &'static str = "Choose one or more of the orders at the left.";

    pub(super) fn slip_made(name: &str) -> String {
        format!("The slip is in the shop\u{2019}s folder: papers/{name}")
    }

    pub(super) fn together_with(front: &str) -> String {
        format!("{front}, and:")
    }

    pub(super) fn stems(n: u32) -> String {
        counted(n as usize, "stem", "stems")
    }

    /// `5 + 5, 11 with spare; each alone 4 stems`.
    pub(super) fn how_joined(each: &[u32], with_spare: u32, alone: u32) -> String {
        let each: Vec<String> = each.iter().map(u32::to_string).collect();
        format!("{}, {with_spare} with spare; each order alone: {}", each.join(" + "), Self::stems(alone))
    }

    pub(super) fn stems_saved(n: u32) -> String {
        match n {
            0 => "As many stems as each order alone.".to_owned(),
            n => format!("{} fewer than each order alone.", Self::stems(n)),
        }
    }

    pub(super) fn together_price(price: &str) -> String {
        format!("Together {price}")
    }

    /// The price of the house beside another one.
    pub(super) fn house(price: &str) -> String {
        format!("The house asks {price}.")
    }

    /// An amount that cannot be read yet.
    pub(super) const AMOUNT: &'static str = "as 20 or 17.50";
}

/// What the tap board says; both sides may see it.
pub(super) struct Taps;

impl Taps {
    pub(super) const OFF: &'static str = "Keys on the screen, for wet hands";
    pub(super) const ON: &'static str = "Keys on the screen: put them away";
    pub(super) const GIRTH: &'static str = "Girth of the wrist";
    pub(super) const EXTRA_NAME: &'static str = "What is extra";
    pub(super) const EXTRA_PRICE: &'static str = "Price of what is extra";
    pub(super) const CAPITAL: &'static str = "Aa";
    pub(super) const ACCENTS: &'static str = "\u{e1} \u{f6}";
    pub(super) const SPACE: &'static str = "space";
    pub(super) const RUB_OUT: &'static str = "Rub out";
    pub(super) const EMPTY: &'static str = "Empty";
    pub(super) const DONE: &'static str = "Done";
}
