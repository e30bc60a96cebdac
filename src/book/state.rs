//! How far an order has come: asked for, agreed, made, collected or cancelled.
//!
//! Agreed follows from the agreement and is noted nowhere else, so that the two cannot tell different things.

use super::Order;

/// What the designer notes of an order beyond its agreement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Progress {
    /// It is made and waits to be collected.
    Made,
    /// It has been collected.
    Collected,
    /// It is not wanted any more.
    Cancelled,
}

/// How far an order has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum OrderState {
    /// Somebody has asked for it.
    Asked,
    /// Both have said yes.
    Agreed,
    /// It is made and waits to be collected.
    Made,
    /// It has been collected.
    Collected,
    /// It is not wanted any more.
    Cancelled,
}

impl OrderState {
    /// All, in the order in which they come.
    pub const ALL: [Self; 5] = [Self::Asked, Self::Agreed, Self::Made, Self::Collected, Self::Cancelled];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Asked => "asked",
            Self::Agreed => "agreed",
            Self::Made => "made",
            Self::Collected => "collected",
            Self::Cancelled => "cancelled",
        }
    }

    /// The word for it on a button.
    pub fn label(self) -> &'static str {
        match self {
            Self::Asked => "Asked",
            Self::Agreed => "Agreed",
            Self::Made => "Made",
            Self::Collected => "Collected",
            Self::Cancelled => "Cancelled",
        }
    }

    /// Whether nothing is left to do about it.
    pub fn is_over(self) -> bool {
        matches!(self, Self::Collected | Self::Cancelled)
    }
}

impl Order {
    /// How far it has come.
    pub fn state(&self) -> OrderState {
        match self.progress {
            Some(Progress::Made) => OrderState::Made,
            Some(Progress::Collected) => OrderState::Collected,
            Some(Progress::Cancelled) => OrderState::Cancelled,
            None if self.agreed.is_some() => OrderState::Agreed,
            None => OrderState::Asked,
        }
    }

    /// What is to be noted so that it stands at `state`; nothing where a note cannot do that: asked or agreed is told by the
    /// agreement.
    pub fn progress_for(&self, state: OrderState) -> Option<Option<Progress>> {
        progress_for(state, self.agreed.is_some())
    }
}

/// What is to be noted of an order with or without an agreement so that it stands at `state`; nothing where no note does.
pub fn progress_for(state: OrderState, is_agreed: bool) -> Option<Option<Progress>> {
    match state {
        OrderState::Made => Some(Some(Progress::Made)),
        OrderState::Collected => Some(Some(Progress::Collected)),
        OrderState::Cancelled => Some(Some(Progress::Cancelled)),
        OrderState::Agreed => is_agreed.then_some(None),
        OrderState::Asked => (!is_agreed).then_some(None),
    }
}
