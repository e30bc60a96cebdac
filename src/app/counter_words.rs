//! Everything that the pages of the counter say, side by side. What stands in [`Counter`] is read by the client too; what is
//! for the designer alone stands in [`Mine`]. Sentences that tell sums stand with the reckoning, in `paperwork`.

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
    pub(super) const WHAT_YES_DOES: &'static str =
        "The piece, its picture and the price stay on the sheet as they are. What changes later stands beside it.";
    pub(super) const AS_AGREED: &'static str = "All is as agreed.";
    pub(super) const CHANGED: &'static str = "Changed since agreed";

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
    pub(super) const TAKE_BACK: &'static str = "Take the yes back";
    pub(super) const PAID: &'static str = "Paid";
    pub(super) const EARLIER: &'static str = "A day earlier";
    pub(super) const LATER: &'static str = "A day later";
    pub(super) const NO_DAY: &'static str = "The computer does not know which day it is. Set its clock, then say yes.";

    /// The price of the house beside another one.
    pub(super) fn house(price: &str) -> String {
        format!("The house asks {price}.")
    }

    /// An amount that cannot be read yet.
    pub(super) const AMOUNT: &'static str = "as 20 or 17.50";
}
