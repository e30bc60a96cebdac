//! Who wears it, grown up or a child, as it stands in files.

use serde::{Deserialize, Serialize};

use super::figures::Years;
use crate::book::WearerKind;

/// `adult` or `child(6)`.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum KindLine {
    Adult,
    Child(Years),
}

impl KindLine {
    pub(super) fn kind(self) -> WearerKind {
        match self {
            Self::Adult => WearerKind::Adult,
            Self::Child(years) => WearerKind::Child { years: years.whole() },
        }
    }

    pub(super) fn of(kind: WearerKind) -> Self {
        match kind {
            WearerKind::Adult => Self::Adult,
            WearerKind::Child { years } => Self::Child(Years::new(f64::from(years))),
        }
    }
}
