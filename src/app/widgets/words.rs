//! What the pages of the counter say, side by side. What stands in [`Counter`] is read by the client too; what is for the
//! designer alone stands in [`Mine`]. Sentences that tell sums stand with the calculation, in `paperwork`.

use crate::session::ActivePiece;
use crate::units::counted;

/// What the client reads.
pub(crate) struct Counter;

impl Counter {
    pub(crate) const PRICE: &'static str = "Price";
    pub(crate) const TOTAL: &'static str = "Total";
    pub(crate) const DEPOSIT: &'static str = "Deposit";
    pub(crate) const BALANCE: &'static str = "Balance at pick-up";
    pub(crate) const PAID: &'static str = "Paid so far";
    pub(crate) const NOT_AGREED: &'static str = "Not agreed yet";
    pub(crate) const NEW_TOTAL: &'static str = "New total";
    pub(crate) const NO_EXTRA_NAME: &'static str = "Write what the extra item is first. Nothing was added.";
    pub(crate) const NO_AMOUNT: &'static str = "Write an amount first, such as 20 or 17.50. Nothing was added.";
    pub(crate) const REFUND_DUE: &'static str = "Refund due";
    pub(crate) const DUE: &'static str = "Still to pay";
    pub(crate) const ALL_PAID: &'static str = "Paid in full, thank you.";
    pub(crate) const ADD: &'static str = "Add";
    pub(crate) const RUSH: &'static str = "Rush order";
    pub(crate) const WHY: &'static str = "Price breakdown";
    pub(crate) const MADE_OF: &'static str = "What\u{2019}s in the price:";
    pub(crate) const AGREE: &'static str = "Client agrees";
    pub(crate) const AGREE_ANYWAY: &'static str = "Agree anyway";
    pub(crate) const AGREE_AGAIN: &'static str = "Agree to changes";
    pub(crate) const NOTHING_YET: &'static str = "Nothing on the wrist yet. Place a flower first.";
    pub(crate) const WHAT_YES_DOES: &'static str =
        "Saves design and price as agreed. Later changes are listed separately.";
    pub(crate) const AS_AGREED: &'static str = "No changes since";
    pub(crate) const PICTURE_AS_AGREED: &'static str = "The design as agreed:";
    pub(crate) const CHANGED: &'static str = "Changed since";
    pub(crate) const BUDGET: &'static str = "Budget";

    pub(crate) const SIZES: &'static str = "Sizes";
    pub(crate) const SIZES_LINE: &'static str = "Side by side, at one scale, on this wrist";
    pub(crate) const SIZES_TAB: &'static str = "Sizes";
    pub(crate) const SIZES_TIP: &'static str = "Two or three sizes (C)";
    pub(crate) const WITHIN_BUDGET: &'static str = "within budget";
    pub(crate) const CURRENT_DESIGN: &'static str = "Current design";
    pub(crate) const VARIATIONS: &'static str = "Variations";
    pub(crate) const VARIATIONS_LINE: &'static str = "Same design, different band, greens or filler";
    pub(crate) const VARIATIONS_TIP: &'static str = "Different band, greens or filler (J)";
    pub(crate) const CURRENT: &'static str = "Current";
    pub(crate) const CHANGED_DESIGN: &'static str = "Changed";
    pub(crate) const PICK_A_CHANGE: &'static str = "Pick a change on the right.";
    pub(crate) const USE_THIS: &'static str = "Use this";
    pub(crate) const BANDS: &'static str = "Band";
    pub(crate) const STURDY: &'static str = "Sturdy greens";
    pub(crate) const SOFT: &'static str = "Soft greens";
    pub(crate) const FILLER: &'static str = "Filler";
    pub(crate) const SEE_TO_IT: &'static str = "Go to order";
    pub(crate) const SEE_TO_IT_TIP: &'static str = "Order details, where alternatives are offered (Q)";
    pub(crate) const MATCH: &'static str = "Matching boutonniere";
    pub(crate) const MATCH_TIP: &'static str = "Add one to match, same flowers and ribbon.";
    pub(crate) const BACK_TO_WRIST: &'static str = "Edit wrist piece";
    pub(crate) const NO_MATCH: &'static str = "Remove boutonniere";

    /// What a piece of the order is called.
    pub(crate) fn piece(which: ActivePiece) -> &'static str {
        match which {
            ActivePiece::Wrist => "Wrist corsage",
            ActivePiece::Boutonniere => "Boutonniere",
        }
    }

    pub(crate) fn edit(which: ActivePiece) -> &'static str {
        match which {
            ActivePiece::Wrist => "Edit wrist piece",
            ActivePiece::Boutonniere => "Edit boutonniere",
        }
    }

    pub(crate) fn instead(names: &[String]) -> String {
        format!("Instead: {}.", names.join(", "))
    }

    pub(crate) const USE_ANYWAY: &'static str = "Use anyway";
    pub(crate) const USE_ANYWAY_WHY: &'static str = "To use it anyway, say why:";
    pub(crate) const STOP_AGAIN: &'static str = "Stop again";
    pub(crate) const OPEN_AGAIN: &'static str = "Open again";
    pub(crate) const MEANS_THIS: &'static str = "Means this";
    pub(crate) const NOTHING_HERE: &'static str = "Nothing here";
    pub(crate) const NOTHING_HERE_TIP: &'static str = "You looked through the list; it stops nothing of ours.";
    pub(crate) const KEPT_OFF: &'static str = "not for wearer";

    /// What nobody knows among the allergies.
    pub(crate) fn not_understood(word: &str) -> String {
        let word: String = word.chars().take(24).collect();
        format!("\u{201c}{word}\u{201d} stops nothing here. Look through the list, or say what it means.")
    }

    /// What was typed was understood as, and how much of the stock it stops.
    pub(crate) fn understood(typed: &str, means: &[String], n_stopped: usize) -> String {
        if means.is_empty() {
            return format!("{typed}: checked by hand, nothing here");
        }
        let stops = match n_stopped {
            0 => "none in stock".to_owned(),
            n => format!("stops {n}"),
        };
        format!("{typed}: understood as {}; {stops}", means.join(", "))
    }

    pub(crate) fn stopped_here(names: &[String]) -> String {
        format!("ALLERGY: {}", names.join(", "))
    }

    /// On the button that takes an extra off.
    pub(crate) fn remove(name: &str) -> String {
        format!("Remove {name}")
    }

    /// On the button that takes a size.
    pub(crate) fn choose(name: &str) -> String {
        format!("Choose {name}")
    }

    pub(crate) fn agreed_on(day: &str, price: &str) -> String {
        format!("Agreed {day}: {price}")
    }
}

/// What the designer alone reads.
pub(crate) struct Mine;

impl Mine {
    pub(crate) const OWN_PRICE: &'static str = "Your price";
    pub(crate) const LEFT_OUT: &'static str = "Not for this wearer";
    pub(crate) const TAKE_BACK: &'static str = "Undo agreement";
    pub(crate) const PAYMENT: &'static str = "Payment";
    pub(crate) const CASH: &'static str = "Cash";
    pub(crate) const CARD: &'static str = "Card";
    pub(crate) const TRANSFER: &'static str = "Transfer";
    pub(crate) const REFUND: &'static str = "Refund";
    pub(crate) const DISCOUNT: &'static str = "Discount";
    pub(crate) const TODAYS_PRICE: &'static str = "Use today\u{2019}s price";
    pub(crate) const EARLIER: &'static str = "A day earlier";
    pub(crate) const LATER: &'static str = "A day later";
    pub(crate) const NO_DAY: &'static str = "This computer does not know the day. Set its clock first.";

    pub(crate) const SLIP: &'static str = "Make quote";
    pub(crate) const SLIP_TIP: &'static str = "To print and send. The day is saved, so the price holds from it.";
    pub(crate) const WITH_OTHERS: &'static str = "Shared stems";
    pub(crate) const WITH_OTHERS_TIP: &'static str = "Stems of this order bought together with others";
    pub(crate) const TOGETHER: &'static str = "Shared stems";
    pub(crate) const CHOOSE_ORDERS: &'static str = "Choose one or more orders on the left.";
    pub(crate) const READING_ORDERS: &'static str = "Reading the orders\u{2026}";

    /// How much of a price nobody in the shop has gone through.
    pub(crate) fn example_prices(n: usize) -> String {
        format!("{} in this; your own go on the stock page", counted(n, "example price", "example prices"))
    }

    pub(crate) const STOCK_CHANGED: &'static str =
        "Another program has changed stock.ron. Not saved yet: your changes are here.";

    /// Why the stock list is not on disk, and what that means.
    pub(crate) fn not_on_disk(why: &str) -> String {
        format!("{why} Until then it is used in this window only.")
    }

    /// Why something stays in the stock list.
    pub(crate) fn still_held(what: &crate::stock::Lost) -> String {
        match &what.colour {
            Some(colour) => format!("Orders or sizes use {} in {colour}: that colour stays.", what.name),
            None => format!("Orders or sizes use {}: it stays. Hide it instead.", what.name),
        }
    }

    pub(crate) fn slip_made(name: &str) -> String {
        format!("Quote ready: papers/{name}")
    }

    pub(crate) fn together_with(order: &str) -> String {
        format!("{order}, and:")
    }

    pub(crate) fn stems(n: u32) -> String {
        counted(n as usize, "stem", "stems")
    }

    /// `5 + 5, 11 with spare; bought separately 4 stems`.
    pub(crate) fn how_joined(each: &[u32], with_spare: u32, alone: u32) -> String {
        let each: Vec<String> = each.iter().map(u32::to_string).collect();
        format!("{}, {with_spare} with spare; bought separately {}", each.join(" + "), Self::stems(alone))
    }

    pub(crate) fn stems_saved(n: u32) -> String {
        match n {
            0 => "No stems saved.".to_owned(),
            n => format!("{} fewer than bought separately.", Self::stems(n)),
        }
    }

    pub(crate) fn together_price(price: &str) -> String {
        format!("Together {price}")
    }

    /// The shop's price beside her own.
    pub(crate) fn shop_price(price: &str) -> String {
        format!("Shop price {price}")
    }

    pub(crate) fn quote_ended(day: &str) -> String {
        format!("This quote ended on {day}.")
    }

    pub(crate) const ADD_PAYMENT: &'static str = "Add payment";
    /// A discount that cannot be read yet.
    pub(crate) const REDUCTION: &'static str = "for example 5 or 10 %";
    /// An amount that cannot be read yet.
    pub(crate) const AMOUNT: &'static str = "for example 20 or 17.50";
}

/// What the keys on the screen say; both sides may see it.
pub(crate) struct Taps;

impl Taps {
    pub(crate) const OFF: &'static str = "On-screen keyboard";
    pub(crate) const ON: &'static str = "On-screen keyboard: off";
    pub(crate) const CAPITAL: &'static str = "Aa";
    pub(crate) const ACCENTS: &'static str = "\u{e1} \u{f6}";
    pub(crate) const SPACE: &'static str = "space";
    pub(crate) const LINE: &'static str = "new line";
    pub(crate) const RUB_OUT: &'static str = "Delete";
    pub(crate) const EMPTY: &'static str = "Clear";
    pub(crate) const DONE: &'static str = "Done";
}
