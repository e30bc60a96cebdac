//! The wrist of an order as its file holds it: `(side: left, girth: "6 1/4", measured: tape)`; each may be left out.

use serde::{Deserialize, Serialize};

use super::girth::Girth;
use super::keywords::Keyword;
use crate::piece::{Measured, Side, Wrist};

/// The line of a wrist.
#[derive(Debug, Default, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WristLine {
    side: Option<Keyword<Side>>,
    girth: Option<Girth>,
    measured: Option<Keyword<Measured>>,
}

impl WristLine {
    pub(super) fn wrist(&self) -> Wrist {
        let usual = Wrist::usual();
        let presumed = if self.girth.is_some() { Measured::Tape } else { usual.measured };
        Wrist {
            side: self.side.map_or(usual.side, |s| s.0),
            girth: self.girth.as_ref().map_or(usual.girth, |g| g.0.clone()),
            measured: self.measured.map_or(presumed, |m| m.0),
        }
    }

    pub(super) fn of(wrist: &Wrist) -> Self {
        Self {
            side: Some(Keyword(wrist.side)),
            girth: Some(Girth(wrist.girth.clone())),
            measured: Some(Keyword(wrist.measured)),
        }
    }
}
