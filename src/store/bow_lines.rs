//! The bow in files, shared by orders and styles, and the look-up of names in stock.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::figures::{Count, Extent, Size, Text};
use super::nearest::nearest;
use super::store_error::Cause;
use crate::piece::Bow;
use crate::stock::{Stock, StockColour, StockId};

/// Most loops on a side and most tails; our choice, beyond what a wrist can carry.
const MOST_LOOPS: u32 = 24;

/// A bow as files hold it. What is left out is a usual bow in the first ribbon of the list.
#[derive(Clone, Debug, Default, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BowLine {
    ribbon: Option<Text>,
    colour: Option<Text>,
    loops_a_side: Option<Count>,
    loop_length: Option<Size>,
    loop_width: Option<Size>,
    tails: Option<Count>,
    tail_length: Option<Extent>,
    centre_loop: Option<bool>,
}

impl BowLine {
    /// The bow, with what the line leaves out.
    pub(super) fn bow(&self, stock: &Stock) -> Bow {
        let first = stock.ribbons().first().map(|r| r.id.clone());
        let ribbon = self.ribbon.as_ref().map(|r| StockId::new(&r.0)).or(first).unwrap_or_else(|| StockId::new(""));
        let usual = stock.ribbon(&ribbon).and_then(|r| r.colours.first()).map_or("", |c| c.name.as_str());
        let colour: Arc<str> = Arc::from(self.colour.as_ref().map_or(usual, |c| c.0.as_str()));
        Bow {
            ribbon,
            colour,
            loops_a_side: self.loops_a_side.map_or(2, |c| c.whole()),
            loop_length_mm: self.loop_length.map_or(46.0, |s| s.0),
            loop_width_mm: self.loop_width.map_or(16.0, |s| s.0),
            tails: self.tails.map_or(2, |c| c.whole()),
            tail_length_mm: self.tail_length.map_or(70.0, |s| s.0),
            centre_loop: self.centre_loop.unwrap_or(true),
        }
    }

    /// The line of a bow, with nothing left out.
    pub(super) fn of(bow: &Bow) -> Self {
        Self {
            ribbon: Some(Text(bow.ribbon.to_string())),
            colour: Some(Text(bow.colour.to_string())),
            loops_a_side: Some(Count::new(f64::from(bow.loops_a_side))),
            loop_length: Some(Size::new(bow.loop_length_mm)),
            loop_width: Some(Size::new(bow.loop_width_mm)),
            tails: Some(Count::new(f64::from(bow.tails))),
            tail_length: Some(Extent::new(bow.tail_length_mm)),
            centre_loop: Some(bow.centre_loop),
        }
    }
}

/// What is wrong with a bow.
pub(super) fn fault(bow: &Bow, stock: &Stock) -> Option<Cause> {
    let Some(ribbon) = stock.ribbon(&bow.ribbon) else {
        let near = nearest(bow.ribbon.as_str(), stock.ribbons().iter().map(|r| r.id.as_str()));
        return Some(Cause::NotInStock { what: "ribbon", found: bow.ribbon.to_string(), near });
    };
    if bow.loops_a_side > MOST_LOOPS || bow.tails > MOST_LOOPS {
        return Some(Cause::Value(format!("a bow has at most {MOST_LOOPS} loops on a side and {MOST_LOOPS} tails")));
    }
    colour_fault(&ribbon.id, &bow.colour, &ribbon.colours)
}

/// What is wrong with naming this flower in this colour.
pub(super) fn flower_fault(id: &StockId, colour: &str, stock: &Stock) -> Option<Cause> {
    if let Some(botanical) = stock.botanical(id) {
        return colour_fault(id, colour, &botanical.colours);
    }
    let near = nearest(id.as_str(), stock.botanicals().iter().map(|b| b.id.as_str()));
    Some(Cause::NotInStock { what: "flower", found: id.to_string(), near })
}

fn colour_fault(of: &StockId, found: &str, colours: &[StockColour]) -> Option<Cause> {
    let known = || colours.iter().map(|c| c.name.clone()).collect();
    let is_known = colours.iter().any(|c| c.name == found);
    (!is_known).then(|| Cause::NoSuchColour { of: of.to_string(), found: found.to_owned(), known: known() })
}
