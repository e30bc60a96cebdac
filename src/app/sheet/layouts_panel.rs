//! What is painted of the layouts that are offered, in the place of the trays, and the keys that take them. Marks are for my
//! side alone.

use egui::{Align2, Key, Modifiers, ProgressBar, Rect, Response, RichText, Role, Sense, Stroke, StrokeKind};
use egui::{Ui, WidgetInfo, pos2, vec2};

use crate::app::action::Action;
use crate::app::sheet::layouts::{Card, List, Offered, PICTURE, Stage, Wish, half_label};
use crate::app::sheet::wrist_sheet::take_key;
use crate::app::shell::window::{Said, Window};
use crate::app::widgets::controls::{Weight, button, button_sized, sideways};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, GRID, MAIN_TARGET, ROUND, strong, words};
use crate::app::workers::search_worker::{LayoutStep, MOST_ROUNDS};
use crate::once_over::Annotation;
use crate::set_out::{Candidate, Half};

/// Height of the panel, points: the trays and the line above them.
pub(crate) const HEIGHT: f32 = 212.0;
/// Layouts shown at most: three and a better one.
const MOST: usize = 4;
/// Height of a card, points.
const CARD_HEIGHT: f32 = 148.0;

const NUMBERS: [Key; 9] =
    [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8, Key::Num9];

/// The button over the lower right corner of the sheet.
pub(crate) fn set_out_button_ui(ui: &mut Ui, w: &Window, sheet: Rect, actions: &mut Vec<Action>) {
    if w.client_side || w.offers_layouts() || sheet.height() < 2.0 * MAIN_TARGET {
        return;
    }
    let c = w.colours();
    let size = vec2(108.0, MAIN_TARGET);
    let rect = Rect::from_min_size(sheet.max - size - vec2(10.0, 36.0), size);
    let clicked = ui.put(rect, |ui: &mut Ui| button_sized(ui, &c, "Set out", Weight::Main, size));
    if clicked.on_hover_text("Layouts to choose from (P)").clicked() {
        actions.push(Action::Layouts(Wish::Toggle));
    }
}

/// The panel.
pub(crate) fn choices_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let Some(offered) = w.offered.take() else { return };
    head_ui(ui, w, &offered, actions);
    match offered.list {
        List::Layouts => layouts_ui(ui, w, &offered, actions),
        List::Next => next_ui(ui, w, &offered, actions),
        List::Mirror => mirror_ui(ui, w, actions),
    }
    w.offered = Some(offered);
}

fn head_ui(ui: &mut Ui, w: &Window, offered: &Offered, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        if !w.client_side {
            errands_ui(ui, &c, offered.list, actions);
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if button(ui, &c, "Close", Weight::Plain).on_hover_text("Esc").clicked() {
                actions.push(Action::Layouts(Wish::Close));
            }
            if let Stage::Going(rounds) = offered.stage
                && offered.list == List::Layouts
            {
                if button(ui, &c, "Stop", Weight::Plain).on_hover_text("Look no further (X)").clicked() {
                    actions.push(Action::Layouts(Wish::Stop));
                }
                let share = rounds as f32 / MOST_ROUNDS as f32;
                ui.add(ProgressBar::new(share).desired_width(110.0).desired_height(12.0).fill(c.leaf));
            }
            if offered.waiting.is_some()
                && button(ui, &c, still_better(w), Weight::Chosen).on_hover_text("Show it (5)").clicked()
            {
                actions.push(Action::Layouts(Wish::ShowBetter));
            }
            let (says, ink) = match &w.said {
                Some(Said::Done(done)) => (done.as_str(), c.leaf),
                Some(Said::Wants { .. } | Said::Crowded { .. }) | None => (line(w, offered), c.soft),
            };
            ui.add(egui::Label::new(RichText::new(says).font(words(15.0)).color(ink)).truncate());
        });
    });
}

fn still_better(w: &Window) -> &'static str {
    if w.client_side { "Show another" } else { "A still better one" }
}

/// What the panel says of itself.
fn line(w: &Window, offered: &Offered) -> &'static str {
    let best = offered.cards.first().map(|card| card.proposal.score_after <= card.proposal.score_before);
    match (offered.list, best) {
        (List::Layouts, Some(true)) if !w.client_side && offered.cards.len() <= offered.n_first => {
            "Already as good as I can make it; these are others."
        }
        (List::Layouts, None) if offered.refused.is_some() => "",
        (List::Layouts, _) => "Nothing changes until you take one.",
        (List::Next, _) => "What fits into the largest gap.",
        (List::Mirror, _) => "The other half becomes its mirror image.",
    }
}

/// Lists and errands, with their keys.
fn buttons() -> [(&'static str, &'static str, Key, Wish); 6] {
    [
        ("Layouts", "Three whole layouts, and on for a better one (P)", Key::P, Wish::Turn(List::Layouts)),
        ("One more here", "What fits into the largest gap (H)", Key::H, Wish::Turn(List::Next)),
        ("Mirror", "One half the mirror image of the other (M)", Key::M, Wish::Turn(List::Mirror)),
        ("Fill the room", "Sprigs into all gaps (F)", Key::F, Wish::Do(LayoutStep::Fill)),
        ("Even out", "The accents evenly round the oval (E)", Key::E, Wish::Do(LayoutStep::EvenOut)),
        ("Tidy", "Nothing moves by more than 3 mm (T)", Key::T, Wish::Do(LayoutStep::Tidy)),
    ]
}

fn errands_ui(ui: &mut Ui, c: &Colours, list: List, actions: &mut Vec<Action>) {
    for (label, tip, _, wish) in buttons() {
        let weight = if wish == Wish::Turn(list) { Weight::Chosen } else { Weight::Plain };
        if button(ui, c, label, weight).on_hover_text(tip).clicked() {
            actions.push(Action::Layouts(wish));
        }
    }
}

fn layouts_ui(ui: &mut Ui, w: &Window, offered: &Offered, actions: &mut Vec<Action>) {
    let c = w.colours();
    if let Some(why) = offered.refused.filter(|_| offered.cards.is_empty()) {
        ui.add_space(GRID);
        ui.label(RichText::new(why.to_string()).font(words(17.0)).color(c.ink));
        if matches!(offered.stage, Stage::Going(_)) {
            ui.label(RichText::new("I look on, for a while.").font(words(15.0)).color(c.soft));
        }
        return;
    }
    let width = (ui.available_width() - GRID * (MOST - 1) as f32) / MOST as f32;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = GRID;
        for (n, card) in offered.cards.iter().enumerate() {
            let better = n >= offered.n_first;
            if card_ui(ui, w, n, better, card, width).clicked() {
                actions.push(Action::Layouts(Wish::Take(n)));
            }
        }
        if offered.cards.len() < MOST {
            empty_ui(ui, w, offered, width);
        }
    });
}

/// The place of a better one that has not come yet.
fn empty_ui(ui: &mut Ui, w: &Window, offered: &Offered, width: f32) {
    let c = w.colours();
    let (rect, _) = ui.allocate_exact_size(vec2(width, CARD_HEIGHT), Sense::hover());
    ui.painter().rect_stroke(rect, ROUND, Stroke::new(1.0, c.line), StrokeKind::Inside);
    let says = match offered.stage {
        Stage::Going(_) if offered.is_waiting() => "Setting out\u{2026}",
        Stage::Going(_) if w.client_side => "Looking for another\u{2026}",
        Stage::Stopped | Stage::Over if w.client_side => "",
        Stage::Going(_) => "Looking for a better one\u{2026}",
        Stage::Stopped => "Stopped. No better one so far.",
        Stage::Over => "No better one was found.",
    };
    ui.painter().text(rect.center(), Align2::CENTER_CENTER, says, words(15.0), c.soft);
}

fn card_ui(ui: &mut Ui, w: &Window, n: usize, better: bool, card: &Card, width: f32) -> Response {
    let c = w.colours();
    let title = match (better, w.client_side) {
        (true, false) => "A better one is ready".to_owned(),
        (_, _) => format!("Layout {}", n + 1),
    };
    let says = &card.proposal.says;
    let (rect, response) = ui.allocate_exact_size(vec2(width, CARD_HEIGHT), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("Take {}: {says}", n + 1)));
    let edge = if better { c.leaf } else { c.line };
    paint_card(ui, &c, rect, &response, edge);
    let picture = Rect::from_min_size(rect.min + vec2(3.0, 3.0), PICTURE.into());
    if let Some(texture) = &card.picture {
        let uv = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
        ui.painter_at(picture).image(texture.id(), picture, uv, egui::Color32::WHITE);
    }
    let left = picture.max.x + GRID;
    let text_width = rect.max.x - left - 8.0;
    ui.painter().text(pos2(left, rect.min.y + 7.0), Align2::LEFT_TOP, title, strong(15.0), c.ink);
    let number = rect.right_top() + vec2(-9.0, 7.0);
    ui.painter().text(number, Align2::RIGHT_TOP, (n + 1).to_string(), words(14.0), c.soft);
    let mut foot = rect.max.y - 5.0;
    if !w.client_side {
        let marks = format!("{:.1} of 100, now {:.1}", card.proposal.score_after, card.proposal.score_before);
        ui.painter().text(pos2(left, foot), Align2::LEFT_BOTTOM, marks, strong(14.0), c.leaf);
        foot -= 22.0;
    }
    let crowded = card.proposal.crowded.as_ref().filter(|_| !w.client_side);
    let text = crowded.map_or_else(|| says.clone(), |crowded| format!("{} {says}", crowded.says));
    wrapped(ui, &c, Rect::from_min_max(pos2(left, rect.min.y + 26.0), pos2(left + text_width, foot)), text);
    response
}

fn paint_card(ui: &Ui, c: &Colours, rect: Rect, response: &Response, edge: egui::Color32) {
    let fill = if response.is_pointer_button_down_on() { c.kraft } else { c.card };
    let chosen = response.has_focus() || response.hovered();
    let stroke = if chosen { Stroke::new(2.5, c.ink) } else { Stroke::new(1.5, edge) };
    plate(ui.painter(), rect, fill, stroke);
}

/// Words in a box; what does not fit is cut with an ellipsis.
fn wrapped(ui: &Ui, c: &Colours, rect: Rect, text: String) {
    const LINE: f32 = 17.5;
    let mut job = egui::text::LayoutJob::simple(text, words(14.0), c.ink, rect.width());
    job.wrap.max_rows = (1..=12_u8).take_while(|n| f32::from(*n) * LINE <= rect.height()).count().max(1);
    let galley = ui.painter().layout_job(job);
    ui.painter().galley(rect.min, galley, c.ink);
}

fn next_ui(ui: &mut Ui, w: &mut Window, offered: &Offered, actions: &mut Vec<Action>) {
    let c = w.colours();
    match &offered.next {
        None => {
            ui.label(RichText::new("Looking\u{2026}").font(words(16.0)).color(c.soft));
        }
        Some(Err(why)) => {
            ui.add_space(GRID);
            ui.label(RichText::new(why.to_string()).font(words(17.0)).color(c.ink));
        }
        Some(Ok(found)) => {
            sideways(ui, |ui| {
                let another = button_sized(ui, &c, "Another place", Weight::Plain, vec2(0.0, MAIN_TARGET));
                if another.on_hover_text("The next largest gap (A)").clicked() {
                    actions.push(Action::Layouts(Wish::Another));
                }
                for (n, candidate) in found.iter().enumerate() {
                    if candidate_ui(ui, w, n, candidate).clicked() {
                        actions.push(Action::Layouts(Wish::Take(n)));
                    }
                }
            });
        }
    }
}

fn candidate_ui(ui: &mut Ui, w: &mut Window, n: usize, candidate: &Candidate) -> Response {
    /// The picture in it, points.
    const HEAD: f32 = 56.0;
    let c = w.colours();
    let (rect, response) = ui.allocate_exact_size(vec2(172.0, CARD_HEIGHT - 14.0), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("Take {}: {}", n + 1, candidate.says)));
    if !ui.is_rect_visible(rect) {
        return response;
    }
    paint_card(ui, &c, rect, &response, c.line);
    let stock = std::sync::Arc::clone(w.session.stock());
    if let (Some(botanical), crate::piece::Edit::Place(new)) = (stock.botanical(&candidate.stock), &candidate.edit) {
        let head = Rect::from_min_size(rect.min + vec2(8.0, 7.0), vec2(HEAD, HEAD)).shrink(4.0);
        w.thumbs.paint(ui.painter(), head, botanical, &new.colour);
    }
    if n < NUMBERS.len() {
        let number = rect.right_top() + vec2(-9.0, 7.0);
        ui.painter().text(number, Align2::RIGHT_TOP, (n + 1).to_string(), words(14.0), c.soft);
    }
    if !w.client_side {
        let ink = if candidate.change < 0.0 { c.rose } else { c.leaf };
        let at = pos2(rect.min.x + HEAD + 18.0, rect.min.y + 36.0);
        ui.painter().text(at, Align2::LEFT_CENTER, change_text(candidate.change), strong(16.0), ink);
    }
    let below = Rect::from_min_max(pos2(rect.min.x + 10.0, rect.min.y + HEAD + 13.0), rect.max - vec2(8.0, 6.0));
    wrapped(ui, &c, below, candidate.says.clone());
    response
}

/// `+1.2 points`, with a true minus.
fn change_text(change: f64) -> String {
    let sign = if change < 0.0 { '\u{2212}' } else { '+' };
    format!("{sign}{:.1} points", change.abs())
}

fn mirror_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.add_space(GRID * 3.0);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = GRID;
        for (n, half) in Half::ALL.into_iter().enumerate() {
            let pressed = button_sized(ui, &c, &half_label(half), Weight::Plain, vec2(0.0, MAIN_TARGET));
            if pressed.on_hover_text(format!("({})", n + 1)).clicked() {
                actions.push(Action::Layouts(Wish::Do(LayoutStep::Mirror(half))));
            }
        }
    });
}

/// A ring on the sketch about the gap that is to be filled.
pub(crate) fn gap_mark(w: &Window) -> Option<Annotation> {
    let offered = w.offered.as_ref().filter(|o| o.list == List::Next && !w.client_side)?;
    let gap = offered.candidates().first()?.gap;
    Some(Annotation::Ring { centre: gap.centre, radius: gap.radius })
}

/// Keys of the panel; they come before those of the sheet.
pub(crate) fn read_keys(ui: &Ui, w: &Window, actions: &mut Vec<Action>) {
    const NONE: Modifiers = Modifiers::NONE;
    let Some(offered) = w.offered.as_ref().filter(|_| w.offers_layouts()) else {
        if take_key(ui, NONE, Key::P) {
            actions.push(Action::Layouts(Wish::Toggle));
        }
        return;
    };
    let mut press = |key, wish| {
        if take_key(ui, NONE, key) {
            actions.push(Action::Layouts(wish));
        }
    };
    if offered.waiting.is_some() && offered.list == List::Layouts {
        press(Key::Num5, Wish::ShowBetter);
    }
    for (n, key) in NUMBERS.into_iter().enumerate() {
        match (offered.list, Half::ALL.get(n)) {
            (List::Mirror, Some(half)) => press(key, Wish::Do(LayoutStep::Mirror(*half))),
            (List::Layouts | List::Next | List::Mirror, _) => press(key, Wish::Take(n)),
        }
    }
    let free = w.sheet_in_focus || ui.memory(|m| m.focused().is_none());
    if free {
        press(Key::Enter, Wish::Take(0));
    }
    press(Key::X, Wish::Stop);
    if w.client_side {
        return;
    }
    if offered.list == List::Next {
        press(Key::A, Wish::Another);
    }
    for (_, _, key, wish) in buttons() {
        press(key, wish);
    }
}
