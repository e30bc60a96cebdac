//! Orders: who wears the piece, for which dance, what is known and what is not, and the piece itself.

mod about;
mod agreed;
mod boutonniere;
mod change;
mod changes_since;
mod charges;
mod child_rules;
mod copies;
mod day_warnings;
mod days;
mod for_the_bench;
mod kept_quote;
mod letterhead;
mod missing_details;
mod occasion;
mod order;
mod season;
mod shown;
mod state;
mod stopped;
mod suggestions;
mod understood;
mod usual;
mod words;

pub use about::{
    Asked, BodyNeeds, Discount, DressColour, Extra, NeedChange, Needs, NumberCustom, Overruled, PayWay, Payment,
    People, Reduction, Taste, Terms, WearerKind,
};
pub use agreed::Agreed;
pub use boutonniere::matching_boutonniere;
pub use change::{Change, DEAREST, HEIGHTS_MM};
pub use changes_since::changes_since;
pub use charges::{Charge, ChargeRules, Charges, QuoteLine, TaxLine, apportioned, share_of, taxed};
pub use child_rules::{
    POISON_BELOW_YEARS, SMALL_PARTS_BELOW_YEARS, SMALL_PARTS_CYLINDER_MM, fits_the_cylinder, small_parts,
};
pub use day_warnings::{OrderDays, WallClock};
pub use days::{DateStyle, Day, DayDoubt, DayReader, Hour, HourStyle, Month, When, Written, week_names};
pub use kept_quote::KeptQuote;
pub use letterhead::{Letterhead, Logo};
pub use missing_details::{CallBack, MissingDetail, call_backs};
pub use occasion::{Occasion, OccasionMark, occasions, occasions_called};
pub use order::Order;
pub use season::{OutOfSeason, TooLate};
pub use shown::{Beside, Coin, Shown};
pub use state::{OrderState, Progress, progress_for};
pub use stopped::{
    BAND_EASE_MM, Stopped, WearerStops, What, band_length_mm, not_asked_lines, safety_lines, stop_band, stop_flower,
    stopped, stopped_on_both,
};
pub use suggestions::{CLEAR_OF_RIM_MM, FLAT_MM, Suggestion, suggestions, swap};
pub use understood::{Avoided, Understood};
pub use usual::{usual_girth, usual_span_mm};
use words::Words;

/// A list as people say it: `a, b and c`.
pub(crate) fn listed(names: &[impl AsRef<str>]) -> String {
    match names {
        [] => String::new(),
        [only] => only.as_ref().to_owned(),
        [before @ .., last] => {
            let before: Vec<&str> = before.iter().map(|n| n.as_ref()).collect();
            format!("{} and {}", before.join(", "), last.as_ref())
        }
    }
}
