//! What is wanted otherwise of a piece, as a file holds it.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::figures::{Height, Text};
use super::nearest::nearest;
use super::store_error::Cause;
use crate::piece::{Question, Wishes};

/// `wishes: (avoided_counts: [4, 9], even_is_welcome: true, set_aside: ["balance"],
/// reasons: {"balance": "lopsided on purpose"}, height: 30)`; each may be left out, a reason for what is not set aside says
/// nothing.
#[derive(Debug, Default, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WishesLine {
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    avoided_counts: Vec<u32>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    even_is_welcome: bool,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    set_aside: Vec<Text>,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    reasons: BTreeMap<String, Text>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    height: Option<Height>,
}

impl WishesLine {
    /// Whether it holds what only version 2 of an order knows.
    pub(super) fn is_of_version_2(&self) -> bool {
        !self.reasons.is_empty()
    }

    pub(super) fn wishes(&self) -> Result<Wishes, Cause> {
        let reason = |question: Question| self.reasons.get(question.id()).map(|r| r.0.clone()).unwrap_or_default();
        let question = |name: &Text| {
            Question::from_id(&name.0).map(|q| (q, reason(q))).ok_or_else(|| Cause::NotInStock {
                what: "question",
                found: name.0.clone(),
                near: nearest(&name.0, Question::ALL.iter().map(|q| q.id())),
            })
        };
        Ok(Wishes {
            avoided_counts: self.avoided_counts.iter().copied().collect(),
            even_is_welcome: self.even_is_welcome,
            ignored: self.set_aside.iter().map(question).collect::<Result<_, _>>()?,
            height_mm: self.height.map(|h| h.0),
        })
    }

    /// The line for these wishes; none when nothing is wished.
    pub(super) fn of(wishes: &Wishes) -> Option<Self> {
        (*wishes != Wishes::default()).then(|| Self {
            avoided_counts: wishes.avoided_counts.iter().copied().collect(),
            even_is_welcome: wishes.even_is_welcome,
            set_aside: wishes.ignored.keys().map(|q| Text(q.id().to_owned())).collect(),
            reasons: reasons(wishes),
            height: wishes.height_mm.map(Height::new),
        })
    }
}

/// The reasons that were given.
fn reasons(wishes: &Wishes) -> BTreeMap<String, Text> {
    let given = wishes.ignored.iter().filter(|(_, reason)| !reason.is_empty());
    given.map(|(q, reason)| (q.id().to_owned(), Text(reason.clone()))).collect()
}
