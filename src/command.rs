//! The one way in which an order changes. Pointer, keys, taps, a screen reader and remedies all end in a [`Command`];
//! [`crate::session::Session::run`] carries it out, and one history keeps every step.

use crate::book::Change;
use crate::once_over::Remedy;
use crate::piece::Edit;

/// Something that changes the open order, or takes a change back.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// Edit the active piece, as one step.
    Edit(Edit),
    /// Edit the active piece, as a step that joins the step before when that belongs to the same run of keys.
    EditInRun(Edit, String),
    /// Change the order, as one step.
    Change(Change),
    /// Change the order, as a step that joins the step before when that belongs to the same run: words letter by letter.
    ChangeInRun(Change, String),
    /// Apply a remedy of the once-over to the active piece, as one step.
    Fix(Remedy),
    /// The next step stands for itself: a key went up, a field was left.
    EndRun,
    /// Show an edit of the active piece while a gesture goes on, counted from where it began.
    Preview(Edit),
    /// What the gesture shows becomes one step.
    Commit,
    /// The gesture ends as if it had never begun.
    Revert,
    /// One step back.
    Undo,
    /// One step forward again.
    Redo,
}

/// What came of a command.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// The order is another one now.
    Changed,
    /// Nothing had to be changed, or nothing could be.
    Unchanged,
}

impl Outcome {
    /// `Changed` when `changed`.
    pub fn of(changed: bool) -> Self {
        if changed { Self::Changed } else { Self::Unchanged }
    }
}
