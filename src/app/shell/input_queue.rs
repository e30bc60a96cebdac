//! What a person does while a frame takes long is handed on one deed to a frame, in the order in which it was done.
//!
//! Every key is asked for by name, once a frame. Three presses that arrive together would count as one, and a step back
//! followed by a letter would be heard in the order of our list of keys rather than of hers. So a frame ends its share
//! of events with the first press of a key or the first release of the pointer; the rest waits, and the next frame is
//! asked for at once. A key held down sends itself again and again: those go along with the press before them, or a slow
//! machine would still be working them off long after it was let go. What is typed into a field goes along too.

use std::collections::VecDeque;

use egui::{Event, Key, RawInput, ViewportId};

/// Events that have come in and wait for their frame.
#[derive(Debug, Default)]
pub(crate) struct InputQueue {
    waiting: VecDeque<Event>,
}

impl InputQueue {
    /// Leaves in `input` what this frame is to hear. `typing` is whether a text field has the keyboard.
    pub(crate) fn next_batch(&mut self, input: &mut RawInput, typing: bool) {
        if input.viewport_id != ViewportId::ROOT {
            return;
        }
        self.waiting.extend(input.events.drain(..));
        // A window that closes hears all that was done before.
        let closing = input.viewport().close_requested();
        let share = if closing { self.waiting.len() } else { first_share(&self.waiting, typing) };
        input.events.extend(self.waiting.drain(..share));
    }

    /// Whether another frame is wanted.
    pub(crate) fn some_wait(&self) -> bool {
        !self.waiting.is_empty()
    }
}

/// How many of the events go into one frame: up to where a second deed begins.
fn first_share(events: &VecDeque<Event>, typing: bool) -> usize {
    let mut done: Option<Stroke> = None;
    for (n, event) in events.iter().enumerate() {
        match (Stroke::of(event, typing), done) {
            (None, _) => {}
            (Some(next), Some(Stroke::Press(key))) if next == Stroke::Press(key) && is_held(events, key, n) => {}
            (Some(_), Some(_)) => return n,
            (next, None) => done = next,
        }
    }
    events.len()
}

/// A thing after which a frame has to answer before the next may be understood.
#[derive(Clone, Copy, PartialEq)]
enum Stroke {
    Press(Key),
    Tap,
}

impl Stroke {
    fn of(event: &Event, typing: bool) -> Option<Self> {
        match event {
            Event::Key { key, pressed: true, modifiers, .. } => {
                let leaves_the_field = matches!(key, Key::Enter | Key::Tab | Key::Escape) || modifiers.command;
                (!typing || leaves_the_field).then_some(Self::Press(*key))
            }
            Event::PointerButton { pressed: false, .. } => Some(Self::Tap),
            _ => None,
        }
    }
}

/// Whether this key has not been let go before the event numbered `n`.
fn is_held(events: &VecDeque<Event>, key: Key, n: usize) -> bool {
    !events.iter().take(n).any(|e| matches!(e, Event::Key { key: k, pressed: false, .. } if *k == key))
}

#[cfg(test)]
mod tests {
    use egui::{Modifiers, PointerButton, pos2};

    use super::*;

    fn key(key: Key, pressed: bool) -> Event {
        Event::Key { key, physical_key: None, pressed, repeat: false, modifiers: Modifiers::NONE }
    }

    fn press(k: Key) -> [Event; 2] {
        [key(k, true), key(k, false)]
    }

    fn frames(events: Vec<Event>, typing: bool) -> Vec<Vec<Event>> {
        let mut turn = InputQueue::default();
        let mut input = RawInput { events, ..RawInput::default() };
        let mut heard = Vec::new();
        loop {
            turn.next_batch(&mut input, typing);
            heard.push(std::mem::take(&mut input.events));
            if !turn.some_wait() {
                return heard;
            }
        }
    }

    #[test]
    fn three_presses_that_come_together_are_three() {
        let heard = frames([Key::F6; 3].into_iter().flat_map(press).collect(), false);
        assert_eq!(heard, [press(Key::F6), press(Key::F6), press(Key::F6)]);
    }

    #[test]
    fn what_was_done_first_is_heard_first() {
        let at = |pressed| Event::PointerButton {
            pos: pos2(3.0, 4.0),
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        };
        let done = vec![at(true), at(false), key(Key::Z, true), key(Key::Z, false), key(Key::D, true)];
        let heard = frames(done.clone(), false);
        assert_eq!(heard.len(), 3);
        assert_eq!(heard.concat(), done);
        assert_eq!(heard[0], done[..2]);
    }

    #[test]
    fn a_key_held_down_is_one_press_until_it_is_let_go() {
        let mut done = vec![key(Key::ArrowUp, true); 5];
        done.push(key(Key::ArrowUp, false));
        assert_eq!(frames(done.clone(), false), [done.clone()]);
        done.extend(press(Key::ArrowUp));
        let heard = frames(done, false);
        assert_eq!(heard.iter().map(Vec::len).collect::<Vec<_>>(), [6, 2]);
    }

    #[test]
    fn letters_of_a_field_go_together_until_the_key_that_leaves_it() {
        let mut done = Vec::new();
        for letter in [Key::A, Key::B, Key::C] {
            done.extend(press(letter));
            done.push(Event::Text("x".to_owned()));
        }
        done.extend(press(Key::Enter));
        done.extend(press(Key::Tab));
        let heard = frames(done, true);
        assert_eq!(heard.iter().map(Vec::len).collect::<Vec<_>>(), [11, 2]);
    }

    #[test]
    fn a_window_that_closes_hears_everything() {
        let mut turn = InputQueue::default();
        let mut input = RawInput { events: [Key::F6; 3].into_iter().flat_map(press).collect(), ..RawInput::default() };
        input.viewports.entry(ViewportId::ROOT).or_default().events.push(egui::ViewportEvent::Close);
        turn.next_batch(&mut input, false);
        assert_eq!(input.events.len(), 6);
        assert!(!turn.some_wait());
    }

    #[test]
    fn another_window_is_left_alone() {
        let mut turn = InputQueue::default();
        let done: Vec<Event> = [Key::F11; 2].into_iter().flat_map(press).collect();
        let mut input =
            RawInput { viewport_id: ViewportId::from_hash_of("second"), events: done.clone(), ..RawInput::default() };
        turn.next_batch(&mut input, false);
        assert_eq!(input.events, done);
    }
}
