//! Where the figures of a botanical come from, as a line of a stock file names it.

use serde::{Deserialize, Serialize};

use super::super::figures::Text;
use super::set;
use crate::stock::Origins;

#[derive(Clone, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OriginsLine {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) size: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) per_stem: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) bunch: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) storage: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) months: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) keeps: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) mass: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) cautions: Option<Text>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) wire: Option<Text>,
}

impl OriginsLine {
    pub(super) fn change(&self, to: &mut Origins) {
        let text = |t: &Text| t.0.clone();
        set(&mut to.size, self.size.as_ref(), text);
        set(&mut to.per_stem, self.per_stem.as_ref(), text);
        set(&mut to.bunch, self.bunch.as_ref(), text);
        set(&mut to.storage, self.storage.as_ref(), text);
        set(&mut to.months, self.months.as_ref(), text);
        set(&mut to.keeps, self.keeps.as_ref(), text);
        set(&mut to.mass, self.mass.as_ref(), text);
        set(&mut to.cautions, self.cautions.as_ref(), text);
        set(&mut to.wire, self.wire.as_ref(), text);
    }
}
