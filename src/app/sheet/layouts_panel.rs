//! The panel of layouts on offer, in the place of the trays, and the keys that take them. Scores are for the designer alone.

use egui::{Align2, Key, Modifiers, ProgressBar, Rect, Response, RichText, Role, Sense, Stroke, StrokeKind};
use egui::{Ui, WidgetInfo, pos2, vec2};

use crate::app::action::{Action, LayoutList, LayoutsAction, Notice};
use crate::app::context::Context;
use crate::app::sheet::layouts::{LayoutCard, Layouts, PICTURE, SearchStage, half_label};
use crate::app::sheet::{HINT_HIGH, TRAYS_HIGH};
use crate::app::view::ShopView;
use crate::app::widgets::controls::{Weight, button, button_sized, sideways};
use crate::app::widgets::keys::take_key;
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, GRID, MAIN_TARGET, ROUND, strong, words};
use crate::app::workers::search_worker::{LayoutStep, MOST_ROUNDS};
use crate::once_over::Annotation;
use crate::set_out::{Candidate, Half};

/// Height of the panel, points: the trays and the line above them.
pub(crate) const HEIGHT: f32 = TRAYS_HIGH + HINT_HIGH;
/// Layouts shown at most: three and a better one.
const MOST: usize = 4;
/// Height of a card, points.
const CARD_HEIGHT: f32 = 148.0;

const NUMBERS: [Key; 9] =
    [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8, Key::Num9];

/// The button over the lower right corner of the sheet.
pub(crate) fn arrange_button_ui(ui: &mut Ui, cx: &Context<'_>, sheet: Rect, is_open: bool, actions: &mut Vec<Action>) {
    if cx.is_client() || is_open || sheet.height() < 2.0 * MAIN_TARGET {
        return;
    }
    let c = cx.colours;
    let size = vec2(148.0, MAIN_TARGET);
    let rect = Rect::from_min_size(sheet.max - size - vec2(10.0, 36.0), size);
    let clicked = ui.put(rect, |ui: &mut Ui| button_sized(ui, &c, "Arrange for me", Weight::Main, size));
    if clicked.on_hover_text("Set out: layouts to choose from (P)").clicked() {
        actions.push(Action::Layouts(LayoutsAction::Toggle));
    }
}

/// The panel.
pub(crate) fn panel_ui(ui: &mut Ui, cx: &Context<'_>, layouts: &Layouts, actions: &mut Vec<Action>) {
    head_ui(ui, cx, layouts, actions);
    match layouts.list {
        LayoutList::Layouts => layouts_ui(ui, cx, layouts, actions),
        LayoutList::Next => next_ui(ui, cx, layouts, actions),
        LayoutList::Mirror => mirror_ui(ui, cx, actions),
    }
}

fn head_ui(ui: &mut Ui, cx: &Context<'_>, layouts: &Layouts, actions: &mut Vec<Action>) {
    let c = cx.colours;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        if !cx.is_client() {
            steps_ui(ui, &c, layouts.list, actions);
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if button(ui, &c, "Close", Weight::Plain).on_hover_text("Esc").clicked() {
                actions.push(Action::Layouts(LayoutsAction::Close));
            }
            search_ui(ui, cx, layouts, actions);
            let done = cx.notice.and_then(Notice::done);
            let (says, ink) = done.map_or((line(cx, layouts), c.soft), |done| (done, c.leaf));
            ui.add(egui::Label::new(RichText::new(says).font(words(15.0)).color(ink)).truncate());
        });
    });
}

/// The search as it goes, and what it found. Each thing has its place whether or not it is there, so that none moves under a finger.
fn search_ui(ui: &mut Ui, cx: &Context<'_>, layouts: &Layouts, actions: &mut Vec<Action>) {
    let c = cx.colours;
    let rounds = match layouts.stage {
        SearchStage::Going(rounds) if layouts.list == LayoutList::Layouts => Some(rounds),
        SearchStage::Going(_) | SearchStage::Stopped | SearchStage::Over => None,
    };
    shown_or_room(ui, rounds.is_some(), |ui| {
        if button(ui, &c, "Stop", Weight::Plain).on_hover_text("Search no further (X)").clicked() {
            actions.push(Action::Layouts(LayoutsAction::Stop));
        }
        let share = rounds.unwrap_or(0) as f32 / MOST_ROUNDS as f32;
        ui.add(ProgressBar::new(share).desired_width(90.0).desired_height(12.0).fill(c.leaf));
    });
    shown_or_room(ui, layouts.waiting.is_some(), |ui| {
        if button(ui, &c, still_better(cx), Weight::Chosen).on_hover_text("Show it (5)").clicked() {
            actions.push(Action::Layouts(LayoutsAction::ShowBetter));
        }
    });
}

/// Shows something, or leaves the room that it takes.
fn shown_or_room(ui: &mut Ui, is_shown: bool, add: impl FnOnce(&mut Ui)) {
    ui.scope_builder(egui::UiBuilder::new(), |ui| {
        if !is_shown {
            ui.set_invisible();
        }
        add(ui);
    });
}

fn still_better(cx: &Context<'_>) -> &'static str {
    if cx.is_client() { "Show another" } else { "Show a better one" }
}

/// What the panel says of itself.
fn line(cx: &Context<'_>, layouts: &Layouts) -> &'static str {
    let scores = |shop: &ShopView| layouts.cards.first().map(|card| card.scores(shop));
    let is_no_better = cx.shop.and_then(scores).map(|[after, before]| after <= before);
    match (layouts.list, is_no_better) {
        (LayoutList::Layouts, Some(true)) if layouts.cards.len() <= layouts.n_first => {
            "Nothing better found; these are alternatives."
        }
        (LayoutList::Layouts, None) if layouts.refused.is_some() => "",
        (LayoutList::Layouts, _) => "Nothing changes until you use one.",
        (LayoutList::Next, _) => "What fits into the largest gap.",
        (LayoutList::Mirror, _) => "The other half becomes its mirror image.",
    }
}

/// Lists and small steps, with their keys.
fn buttons() -> [(&'static str, &'static str, Key, LayoutsAction); 6] {
    [
        (
            "Layouts",
            "Three whole layouts, and a better one if found (P)",
            Key::P,
            LayoutsAction::Turn(LayoutList::Layouts),
        ),
        ("Add one here", "What fits into the largest gap (H)", Key::H, LayoutsAction::Turn(LayoutList::Next)),
        ("Mirror", "One half the mirror image of the other (M)", Key::M, LayoutsAction::Turn(LayoutList::Mirror)),
        ("Fill gaps", "Filler into all gaps (F)", Key::F, LayoutsAction::Do(LayoutStep::Fill)),
        ("Space evenly", "Accents evenly round the oval (E)", Key::E, LayoutsAction::Do(LayoutStep::EvenOut)),
        ("Tidy up", "Nothing moves by more than 3 mm (T)", Key::T, LayoutsAction::Do(LayoutStep::Tidy)),
    ]
}

fn steps_ui(ui: &mut Ui, c: &Colours, list: LayoutList, actions: &mut Vec<Action>) {
    for (label, tip, _, wish) in buttons() {
        let weight = if wish == LayoutsAction::Turn(list) { Weight::Chosen } else { Weight::Plain };
        if button(ui, c, label, weight).on_hover_text(tip).clicked() {
            actions.push(Action::Layouts(wish));
        }
    }
}

fn layouts_ui(ui: &mut Ui, cx: &Context<'_>, layouts: &Layouts, actions: &mut Vec<Action>) {
    let c = cx.colours;
    if let Some(why) = layouts.refused.filter(|_| layouts.cards.is_empty()) {
        ui.add_space(GRID);
        ui.label(RichText::new(why.to_string()).font(words(17.0)).color(c.ink));
        if matches!(layouts.stage, SearchStage::Going(_)) {
            ui.label(RichText::new("Still looking\u{2026}").font(words(15.0)).color(c.soft));
        }
        return;
    }
    let width = (ui.available_width() - GRID * (MOST - 1) as f32) / MOST as f32;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = GRID;
        for (n, card) in layouts.cards.iter().enumerate() {
            let better = n >= layouts.n_first;
            if card_ui(ui, cx, n, better, card, width).clicked() {
                actions.push(Action::Layouts(LayoutsAction::Take(n)));
            }
        }
        if layouts.cards.len() < MOST {
            empty_ui(ui, cx, layouts, width);
        }
    });
}

/// The place of a better one that has not come yet.
fn empty_ui(ui: &mut Ui, cx: &Context<'_>, layouts: &Layouts, width: f32) {
    let c = cx.colours;
    let (rect, _) = ui.allocate_exact_size(vec2(width, CARD_HEIGHT), Sense::hover());
    ui.painter().rect_stroke(rect, ROUND, Stroke::new(1.0, c.line), StrokeKind::Inside);
    let says = match layouts.stage {
        SearchStage::Going(_) if layouts.is_waiting() => "Arranging\u{2026}",
        SearchStage::Going(_) if cx.is_client() => "Looking for another\u{2026}",
        SearchStage::Stopped | SearchStage::Over if cx.is_client() => "",
        SearchStage::Going(_) => "Looking for a better one\u{2026}",
        SearchStage::Stopped => "Stopped. Nothing better so far.",
        SearchStage::Over => "Nothing better was found.",
    };
    ui.painter().text(rect.center(), Align2::CENTER_CENTER, says, words(15.0), c.soft);
}

fn card_ui(ui: &mut Ui, cx: &Context<'_>, n: usize, better: bool, card: &LayoutCard, width: f32) -> Response {
    let c = cx.colours;
    let title = match (better, cx.is_client()) {
        (true, false) => "Better layout".to_owned(),
        (_, _) => format!("Layout {}", n + 1),
    };
    let says = &card.says;
    let (rect, response) = ui.allocate_exact_size(vec2(width, CARD_HEIGHT), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("Use {}: {says}", n + 1)));
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
    if let Some([after, before]) = cx.shop.map(|shop| card.scores(shop)) {
        let marks = format!("Score {after:.1}, now {before:.1}");
        ui.painter().text(pos2(left, foot), Align2::LEFT_BOTTOM, marks, strong(14.0), c.leaf);
        foot -= 22.0;
    }
    let crowded = cx.shop.and_then(|shop| card.crowded(shop));
    let text = crowded.map_or_else(|| says.clone(), |crowded| format!("{crowded} {says}"));
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

fn next_ui(ui: &mut Ui, cx: &Context<'_>, layouts: &Layouts, actions: &mut Vec<Action>) {
    let c = cx.colours;
    match &layouts.next {
        None => {
            ui.label(RichText::new("Looking\u{2026}").font(words(16.0)).color(c.soft));
        }
        Some(Err(why)) => {
            ui.add_space(GRID);
            ui.label(RichText::new(why.to_string()).font(words(17.0)).color(c.ink));
        }
        Some(Ok(found)) => {
            sideways(ui, |ui| {
                let another = button_sized(ui, &c, "Next gap", Weight::Plain, vec2(0.0, MAIN_TARGET));
                if another.on_hover_text("The next largest gap (A)").clicked() {
                    actions.push(Action::Layouts(LayoutsAction::Another));
                }
                for (n, candidate) in found.iter().enumerate() {
                    if candidate_ui(ui, cx, n, candidate).clicked() {
                        actions.push(Action::Layouts(LayoutsAction::Take(n)));
                    }
                }
            });
        }
    }
}

fn candidate_ui(ui: &mut Ui, cx: &Context<'_>, n: usize, candidate: &Candidate) -> Response {
    /// The picture in it, points.
    const HEAD: f32 = 56.0;
    let c = cx.colours;
    let (rect, response) = ui.allocate_exact_size(vec2(172.0, CARD_HEIGHT - 14.0), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("Use {}: {}", n + 1, candidate.says)));
    if !ui.is_rect_visible(rect) {
        return response;
    }
    paint_card(ui, &c, rect, &response, c.line);
    if let (Some(good), crate::piece::Edit::Place(new)) = (cx.client.goods.get(&candidate.stock), &candidate.edit) {
        let head = Rect::from_min_size(rect.min + vec2(8.0, 7.0), vec2(HEAD, HEAD)).shrink(4.0);
        cx.images.heads.borrow_mut().paint(ui.painter(), head, good, &new.colour);
    }
    if n < NUMBERS.len() {
        let number = rect.right_top() + vec2(-9.0, 7.0);
        ui.painter().text(number, Align2::RIGHT_TOP, (n + 1).to_string(), words(14.0), c.soft);
    }
    if !cx.is_client() {
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

fn mirror_ui(ui: &mut Ui, cx: &Context<'_>, actions: &mut Vec<Action>) {
    let c = cx.colours;
    ui.add_space(GRID * 3.0);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = GRID;
        for (n, half) in Half::ALL.into_iter().enumerate() {
            let pressed = button_sized(ui, &c, &half_label(half), Weight::Plain, vec2(0.0, MAIN_TARGET));
            if pressed.on_hover_text(format!("({})", n + 1)).clicked() {
                actions.push(Action::Layouts(LayoutsAction::Do(LayoutStep::Mirror(half))));
            }
        }
    });
}

/// A ring on the sketch about the gap that is to be filled; for the designer alone.
pub(crate) fn gap_mark(layouts: &Layouts, _seen_by: &ShopView) -> Option<Annotation> {
    let gap = layouts.candidates().first().filter(|_| layouts.list == LayoutList::Next)?.gap;
    Some(Annotation::Ring { centre: gap.centre, radius: gap.radius })
}

/// Keys of the panel; they come before those of the sheet. `free` when nothing else wants Enter.
pub(crate) fn read_keys(ui: &Ui, cx: &Context<'_>, layouts: Option<&Layouts>, free: bool, actions: &mut Vec<Action>) {
    let mut press = |key, action| {
        if take_key(ui, Modifiers::NONE, key) {
            actions.push(Action::Layouts(action));
        }
    };
    let Some(layouts) = layouts else { return press(Key::P, LayoutsAction::Toggle) };
    if layouts.waiting.is_some() && layouts.list == LayoutList::Layouts {
        press(Key::Num5, LayoutsAction::ShowBetter);
    }
    for (n, key) in NUMBERS.into_iter().enumerate() {
        match (layouts.list, Half::ALL.get(n)) {
            (LayoutList::Mirror, Some(half)) => press(key, LayoutsAction::Do(LayoutStep::Mirror(*half))),
            (LayoutList::Layouts | LayoutList::Next | LayoutList::Mirror, _) => press(key, LayoutsAction::Take(n)),
        }
    }
    if free {
        press(Key::Enter, LayoutsAction::Take(0));
    }
    press(Key::X, LayoutsAction::Stop);
    if cx.is_client() {
        return;
    }
    if layouts.list == LayoutList::Next {
        press(Key::A, LayoutsAction::Another);
    }
    for (_, _, key, action) in buttons() {
        press(key, action);
    }
}
