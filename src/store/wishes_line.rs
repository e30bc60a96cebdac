//! What is wanted otherwise of a piece, as a file holds it.

use serde::{Deserialize, Serialize};

use super::figures::{Height, Text};
use super::nearest::nearest;
use super::refusal::Cause;
use crate::piece::{Question, Wishes};

/// `wishes: (avoided_counts: [4, 9], even_is_welcome: true, set_aside: ["balance"], height: 30)`; each may be left out.
#[derive(Debug, Default, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WishesLine {
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    avoided_counts: Vec<u32>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    even_is_welcome: bool,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    set_aside: Vec<Text>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    height: Option<Height>,
}

impl WishesLine {
    pub(super) fn wishes(&self) -> Result<Wishes, Cause> {
        let question = |name: &Text| {
            Question::from_id(&name.0).ok_or_else(|| Cause::NotInStock {
                what: "question",
                found: name.0.clone(),
                near: nearest(&name.0, Question::ALL.iter().map(|q| q.id())),
            })
        };
        Ok(Wishes {
            avoided_counts: self.avoided_counts.iter().copied().collect(),
            even_is_welcome: self.even_is_welcome,
            set_aside: self.set_aside.iter().map(question).collect::<Result<_, _>>()?,
            height_mm: self.height.map(|h| h.0),
        })
    }

    /// The line for these wishes; none when nothing is wished.
    pub(super) fn of(wishes: &Wishes) -> Option<Self> {
        (*wishes != Wishes::default()).then(|| Self {
            avoided_counts: wishes.avoided_counts.iter().copied().collect(),
            even_is_welcome: wishes.even_is_welcome,
            set_aside: wishes.set_aside.iter().map(|q| Text(q.id().to_owned())).collect(),
            height: wishes.height_mm.map(Height::new),
        })
    }
}
