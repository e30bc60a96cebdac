//! Snapshots of anything: steps, undo and redo, and a gesture that becomes one step or nothing.
//!
//! Each snapshot carries a [`Revision`] of its own; undo brings the old revision back with the old data, so whatever is
//! derived from a revision stays good. Knows nothing of what it keeps.

use std::sync::Arc;

/// The number of one snapshot. Equal numbers, equal data.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Revision(u64);

/// Steps kept; our choice, well over the 50 that people are promised.
const MOST_STEPS: usize = 300;

#[derive(Clone, Debug)]
struct Snapshot<T> {
    revision: Revision,
    data: Arc<T>,
    /// Steps with the same run are one step: twenty nudges while a key is down.
    run: Option<Arc<str>>,
}

/// The present state, the ones before it and the ones undone.
#[derive(Clone, Debug)]
pub struct History<T> {
    steps: Vec<Snapshot<T>>,
    at: usize,
    gesture: Option<Snapshot<T>>,
    next: u64,
}

impl<T> History<T> {
    /// A history that begins with `data`.
    pub fn new(data: T) -> Self {
        let first = Snapshot { revision: Revision(0), data: Arc::new(data), run: None };
        Self { steps: vec![first], at: 0, gesture: None, next: 1 }
    }

    /// The present state, a running gesture included.
    pub fn now(&self) -> &Arc<T> {
        &self.present().data
    }

    /// The revision of the present state.
    pub fn revision(&self) -> Revision {
        self.present().revision
    }

    /// The state before the running gesture; the present one when there is none.
    pub fn settled(&self) -> &Arc<T> {
        &self.steps[self.at].data
    }

    /// The revision of the state before the running gesture.
    pub fn settled_revision(&self) -> Revision {
        self.steps[self.at].revision
    }

    /// Changes something in every state at once: what is no step and cannot be undone. Revisions stay, so nothing that is
    /// derived from a revision may follow from it.
    pub fn amend(&mut self, change: impl Fn(&mut T))
    where
        T: Clone,
    {
        for snapshot in self.steps.iter_mut().chain(&mut self.gesture) {
            change(Arc::make_mut(&mut snapshot.data));
        }
    }

    /// Makes `data` the present state. What was undone is forgotten.
    pub fn step(&mut self, data: T) {
        self.put(data, None);
    }

    /// Like [`Self::step`], but joins the step before when that belongs to the same run.
    pub fn step_in_run(&mut self, data: T, run: &str) {
        self.put(data, Some(Arc::from(run)));
    }

    /// Ends the present run: the next step stands for itself.
    pub fn end_run(&mut self) {
        self.steps[self.at].run = None;
    }

    /// Shows `data` as the present state while a gesture goes on.
    pub fn preview(&mut self, data: T) {
        let revision = self.take_revision();
        self.gesture = Some(Snapshot { revision, data: Arc::new(data), run: None });
    }

    /// Whether a gesture goes on.
    pub fn in_gesture(&self) -> bool {
        self.gesture.is_some()
    }

    /// Ends the gesture: what it showed becomes one step.
    pub fn settle(&mut self) {
        if let Some(snapshot) = self.gesture.take() {
            self.push(snapshot);
        }
    }

    /// Ends the gesture as if it had never begun.
    pub fn abandon(&mut self) {
        self.gesture = None;
    }

    /// One step back; `false` when there is none. A running gesture is abandoned.
    pub fn undo(&mut self) -> bool {
        self.gesture = None;
        let can = self.can_undo();
        self.at -= usize::from(can);
        can
    }

    /// One step forward again; `false` when there is none.
    pub fn redo(&mut self) -> bool {
        self.gesture = None;
        let can = self.can_redo();
        self.at += usize::from(can);
        can
    }

    /// Whether there is a step to undo.
    pub fn can_undo(&self) -> bool {
        self.at > 0
    }

    /// Whether there is a step to redo.
    pub fn can_redo(&self) -> bool {
        self.at + 1 < self.steps.len()
    }

    fn present(&self) -> &Snapshot<T> {
        self.gesture.as_ref().unwrap_or(&self.steps[self.at])
    }

    fn take_revision(&mut self) -> Revision {
        self.next += 1;
        Revision(self.next - 1)
    }

    fn put(&mut self, data: T, run: Option<Arc<str>>) {
        self.gesture = None;
        let snapshot = Snapshot { revision: self.take_revision(), data: Arc::new(data), run };
        let joins = snapshot.run.is_some() && self.steps[self.at].run == snapshot.run && !self.can_redo();
        if joins {
            self.steps[self.at] = snapshot;
        } else {
            self.push(snapshot);
        }
    }

    fn push(&mut self, snapshot: Snapshot<T>) {
        self.steps.truncate(self.at + 1);
        self.steps.push(snapshot);
        if self.steps.len() > MOST_STEPS {
            self.steps.remove(0);
        }
        self.at = self.steps.len() - 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn at_least_fifty_steps_come_back_with_their_revisions() {
        let mut history = History::new(0);
        let mut revisions = vec![history.revision()];
        for n in 1..=60 {
            history.step(n);
            revisions.push(history.revision());
        }
        for (n, revision) in revisions.iter().enumerate().take(60).rev() {
            assert!(history.undo());
            assert_eq!((**history.now(), history.revision()), (n, *revision));
        }
        assert!(!history.undo());
        for n in 1..=60 {
            assert!(history.redo());
            assert_eq!(**history.now(), n);
        }
        assert!(!history.redo());
    }

    #[test]
    fn an_amendment_is_in_every_state_and_no_step() {
        let mut history = History::new(1);
        history.step(2);
        history.preview(3);
        let revision = history.revision();
        history.amend(|n| *n += 10);
        assert_eq!((**history.now(), history.revision()), (13, revision));
        history.abandon();
        assert_eq!(**history.now(), 12);
        assert!(history.undo() && !history.can_undo());
        assert_eq!(**history.now(), 11);
    }

    #[test]
    fn a_gesture_is_one_undo_step_or_none() {
        let mut history = History::new(0);
        for n in 1..=20 {
            history.preview(n);
        }
        assert_eq!((**history.now(), **history.settled()), (20, 0));
        history.settle();
        assert!(history.undo());
        assert_eq!((**history.now(), history.can_undo()), (0, false));
        history.preview(7);
        history.abandon();
        assert_eq!((**history.now(), history.can_redo()), (0, true));
    }

    #[test]
    fn a_run_of_nudges_is_one_step_until_it_ends() {
        let mut history = History::new(0);
        history.step_in_run(1, "nudge");
        history.step_in_run(2, "nudge");
        history.end_run();
        history.step_in_run(3, "nudge");
        assert!(history.undo());
        assert_eq!(**history.now(), 2);
        assert!(history.undo());
        assert_eq!(**history.now(), 0);
    }

    #[test]
    fn a_new_step_forgets_what_was_undone() {
        let mut history = History::new(0);
        history.step(1);
        history.undo();
        history.step(2);
        assert!(!history.can_redo());
        assert_eq!(**history.now(), 2);
    }
}
