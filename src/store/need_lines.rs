//! What a body asks for, as order files hold it: of the wearer beside the order's other lines, of the boutonniere's wearer in a
//! bracket of its own.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::figures::Text;
use super::keywords::Keyword;
use super::kind_line::KindLine;
use crate::book::{BodyNeeds, Needs, Overruled};
use crate::piece::Side;

/// `(what: "babys-breath", cause: "gypsophila", reason: "her own wish")`.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OverruledLine {
    what: Text,
    cause: Text,
    reason: Text,
}

impl OverruledLine {
    pub(super) fn overruled(&self) -> Overruled {
        Overruled { what: self.what.0.clone(), cause: self.cause.0.clone(), reason: self.reason.0.clone() }
    }

    pub(super) fn of(overruled: &Overruled) -> Self {
        let text = |words: &String| Text(words.clone());
        let Overruled { what, cause, reason } = overruled;
        Self { what: text(what), cause: text(cause), reason: text(reason) }
    }
}

/// `(asked: true, implant: true, no_scent: true, watch: left)`; each may be left out.
#[derive(Clone, Copy, Debug, Default, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct BodyLine {
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    asked: bool,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    implant: bool,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    no_scent: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    watch: Option<Keyword<Side>>,
}

impl BodyLine {
    pub(super) fn body(self) -> BodyNeeds {
        let Self { asked: is_asked, implant: has_implant, no_scent, watch } = self;
        BodyNeeds { is_asked, has_implant, no_scent, worn_already: watch.map(|side| side.0) }
    }

    /// The line; none when nothing is known.
    pub(super) fn of(body: BodyNeeds) -> Option<Self> {
        let BodyNeeds { is_asked: asked, has_implant: implant, no_scent, worn_already } = body;
        (body != BodyNeeds::default()).then(|| Self { asked, implant, no_scent, watch: worn_already.map(Keyword) })
    }
}

/// What words mean that nobody knew: `{"heidis plant": "baby's breath"}`; an empty meaning is nothing here.
pub(super) type MeaningLines = BTreeMap<String, Text>;

pub(super) fn meanings(lines: &MeaningLines) -> BTreeMap<String, String> {
    lines.iter().map(|(word, meaning)| (word.clone(), meaning.0.clone())).collect()
}

pub(super) fn meaning_lines(meanings: &BTreeMap<String, String>) -> MeaningLines {
    meanings.iter().map(|(word, meaning)| (word.clone(), Text(meaning.clone()))).collect()
}

/// The needs of the boutonniere's wearer: `(kind: child(5), allergies: ["latex"])`; each may be left out.
#[derive(Clone, Debug, Default, Deserialize, PartialEq, Serialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct PartnerNeedsLine {
    #[serde(skip_serializing_if = "Option::is_none")]
    kind: Option<KindLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    allergies: Option<Vec<Text>>,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    no_latex: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    body: Option<BodyLine>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    meanings: MeaningLines,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    overruled: Vec<OverruledLine>,
}

impl PartnerNeedsLine {
    /// Whether it holds what only version 4 of an order knows.
    pub(super) fn is_of_version_4(&self) -> bool {
        self.body.is_some()
    }

    pub(super) fn needs(&self) -> Needs {
        Needs {
            kind: self.kind.map(KindLine::kind),
            allergies: self.allergies.as_ref().map(|things| things.iter().map(|t| t.0.clone()).collect()),
            no_latex: self.no_latex,
            body: self.body.map(BodyLine::body).unwrap_or_default(),
            meanings: meanings(&self.meanings),
            overruled: self.overruled.iter().map(OverruledLine::overruled).collect(),
            ..Needs::default()
        }
    }

    /// The line of these needs; none when nothing is known of them.
    pub(super) fn of(needs: &Needs) -> Option<Self> {
        let line = Self {
            kind: needs.kind.map(KindLine::of),
            allergies: needs.allergies.as_ref().map(|things| things.iter().map(|t| Text(t.clone())).collect()),
            no_latex: needs.no_latex,
            body: BodyLine::of(needs.body),
            meanings: meaning_lines(&needs.meanings),
            overruled: needs.overruled.iter().map(OverruledLine::of).collect(),
        };
        (line != Self::default()).then_some(line)
    }
}
