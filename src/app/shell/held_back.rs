//! What comes of a field that is left by pressing something else waits for the release: a size that is taken, a refusal that is said,
//! would move what is under the finger. Then it is done first, and what was tapped after it.

use egui::Context;

use crate::app::action::Action;
use crate::app::pages::PageAction;
use crate::app::widgets::finger::is_pressing;
use crate::sheet::SheetInput;

/// What waits.
#[derive(Default)]
pub(crate) struct HeldBack {
    actions: Vec<Action>,
    of_page: Vec<PageAction>,
}

impl HeldBack {
    /// Takes out of a frame's actions what has to wait; once nothing is pressed any more, puts it before them.
    pub(crate) fn turn(&mut self, ctx: &Context, actions: &mut Vec<Action>, of_page: &mut Vec<PageAction>) {
        // On the sketch nothing moves, and what is dragged there is of the piece as it is.
        let on_sketch = actions.iter().any(|a| matches!(a, Action::Sheet(SheetInput::Press { .. })));
        if is_pressing(ctx) && !on_sketch {
            self.actions.extend(actions.extract_if(.., |a| leaves_field(a)));
            self.of_page.extend(of_page.extract_if(.., |a| a.waits_for_release()));
        } else {
            actions.splice(0..0, self.actions.drain(..));
            of_page.splice(0..0, self.of_page.drain(..));
        }
    }
}

fn leaves_field(action: &Action) -> bool {
    matches!(action, Action::LeaveField(_) | Action::GiveUpWristSize)
}
