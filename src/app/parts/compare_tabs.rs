//! The two pages on which pieces stand side by side, one press apart.

use egui::Ui;

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::page_list::PageId;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::words::Counter;

pub(crate) fn tabs_ui(ui: &mut Ui, cx: &Context<'_>, here: PageId, actions: &mut Vec<Action>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0;
        for (label, page, tip) in [
            (Counter::SIZES_TAB, PageId::Sizes, Counter::SIZES_TIP),
            (Counter::VARIATIONS, PageId::Variations, Counter::VARIATIONS_TIP),
        ] {
            let weight = if page == here { Weight::Chosen } else { Weight::Plain };
            if button(ui, &cx.colours, label, weight).on_hover_text(tip).clicked() && page != here {
                actions.push(Action::Show(page));
            }
        }
    });
}
