//! Orders: who wears the piece, for which dance, what is known and what is not, and the piece itself.

mod about;
mod agreed;
mod change;
mod order;
mod to_find_out;
mod usual;
mod when;

pub use about::{Asked, DressColour, Extra, Needs, NumberCustom, People, Taste, Terms, WearerKind};
pub use agreed::Agreed;
pub use change::{Change, DEAREST, HEIGHTS_MM};
pub use order::Order;
pub use to_find_out::{CallBack, ToFindOut, call_backs};
pub use usual::{usual_girth, usual_span_mm};
pub use when::{Day, Hour, When};

/// A list as people say it: `a, b and c`.
fn listed(names: &[impl AsRef<str>]) -> String {
    match names {
        [] => String::new(),
        [only] => only.as_ref().to_owned(),
        [before @ .., last] => {
            let before: Vec<&str> = before.iter().map(|n| n.as_ref()).collect();
            format!("{} and {}", before.join(", "), last.as_ref())
        }
    }
}
