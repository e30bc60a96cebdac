//! The weekend: a dance, a wedding at a glance, with what is still unknown, minutes promised against minutes there are, the
//! market list, and its papers. For the designer alone, for it shows other clients' names and what things cost.
//!
//! Everything is found by a worker of its own; what was found last stays on the page until the next is there.

mod layout;

use egui::{Key, Ui};

use crate::app::action::Action;
use crate::app::context::{Context, Inputs, Requests};
use crate::app::pages::{Page, PageInfo};
use crate::app::view::ShopOnly;
use crate::app::widgets::finger::{may_become_tap, wake_for_what_waits};
use crate::app::widgets::today::today;
use crate::app::workers::weekend_worker::{WeekendEvent, WeekendRequest, WeekendSeen, WeekendWorker};
use crate::paperwork::Makers;

/// Most makers that a bench has room for; our choice.
const MOST_MAKERS: u32 = 12;

/// What is shown on the page.
pub(crate) struct WeekendPage {
    worker: Option<WeekendWorker>,
    seen: Option<ShopOnly<Box<WeekendSeen>>>,
    /// The occasion that was chosen, by its id.
    chosen: Option<String>,
    makers: Makers,
    /// What is to be asked before the next painting.
    wanted: Option<WantedLook>,
    /// What was said last of papers.
    said: String,
}

/// What is asked of the worker.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum WantedLook {
    Look,
    Papers,
}

/// What can be asked of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum WeekendAction {
    /// Look at this occasion.
    Choose(String),
    /// So many makers, hours each, and whether bows are made before.
    Makers(Makers),
    /// Make the papers of the occasion.
    MakePapers,
}

impl Default for WeekendPage {
    fn default() -> Self {
        let makers = Makers::usual(2);
        Self { worker: None, seen: None, chosen: None, makers, wanted: None, said: String::new() }
    }
}

impl Page for WeekendPage {
    type Action = WeekendAction;

    const INFO: PageInfo = PageInfo { on_rail: None, key: Key::F12, is_for_shop: true };
    const IS_WIDE: bool = true;

    fn prepare(&mut self, inputs: &mut Inputs<'_>) {
        if let Some(wanted) = self.wanted.take() {
            self.ask(wanted, inputs);
        }
        // No row goes away under a press.
        if may_become_tap(inputs.ctx) {
            if self.is_busy() {
                wake_for_what_waits(inputs.ctx);
            }
            return;
        }
        for event in self.worker.as_mut().map(WeekendWorker::poll).unwrap_or_default() {
            self.take(event);
        }
    }

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<WeekendAction>) {
        if let Some(shop) = cx.shop {
            layout::page_ui(ui, cx, shop, self, requests);
        }
    }

    fn run(&mut self, action: WeekendAction, inputs: &mut Inputs<'_>) -> Vec<Action> {
        if inputs.client_view {
            return Vec::new();
        }
        let wanted = match action {
            WeekendAction::Choose(id) => {
                self.chosen = Some(id);
                self.said.clear();
                WantedLook::Look
            }
            WeekendAction::Makers(makers) => {
                self.makers = Makers { count: makers.count.clamp(1, MOST_MAKERS), ..makers };
                WantedLook::Look
            }
            WeekendAction::MakePapers => {
                "Making the papers\u{2026}".clone_into(&mut self.said);
                WantedLook::Papers
            }
        };
        self.ask(wanted, inputs);
        Vec::new()
    }

    fn opened(&mut self, _inputs: &mut Inputs<'_>) {
        self.said.clear();
        self.wanted = Some(WantedLook::Look);
    }

    fn rules_changed(&mut self) {
        self.wanted = Some(WantedLook::Look);
    }
}

impl WeekendPage {
    fn is_busy(&self) -> bool {
        self.worker.as_ref().is_some_and(WeekendWorker::is_busy)
    }

    fn ask(&mut self, wanted: WantedLook, inputs: &Inputs<'_>) {
        let request = WeekendRequest {
            shop: inputs.shop.clone(),
            chosen: self.chosen.clone(),
            makers: self.makers,
            today: today(0),
            with_papers: wanted == WantedLook::Papers,
        };
        self.worker.get_or_insert_with(|| WeekendWorker::new(inputs.ctx)).request(request);
    }

    fn take(&mut self, event: WeekendEvent) {
        match event {
            WeekendEvent::Seen(seen) => self.seen = Some(ShopOnly::new(seen)),
            WeekendEvent::Made(n, folder) => {
                let papers = crate::units::counted(n, "paper", "papers");
                self.said = format!("{papers} ready in {}", folder.display());
            }
            WeekendEvent::Refused(why) => self.said = why,
        }
    }
}
