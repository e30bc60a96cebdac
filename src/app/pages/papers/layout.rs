//! How the page of papers is painted: a card for each paper at the left, the one that is looked at at the right, and what can be
//! done with it above; or, to be read, that one alone across the whole page.

use egui::{
    Align2, Color32, FontId, ProgressBar, Rect, RichText, Role, ScrollArea, Sense, Stroke, Ui, WidgetInfo, pos2, vec2,
};

use super::{PageFace, PapersAction, PapersPage, SmallPage};
use crate::app::action::Action;
use crate::app::context::{Context, Requests};
use crate::app::parts::page_head::head_ui;
use crate::app::widgets::controls::{Weight, button, button_sized, icon_button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::paper_words::Papers;
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, MAIN_TARGET, strong, words};
use crate::app::workers::handover::Taker;
use crate::export::{PAPERS, PaperReader};

/// Width of the page that is looked at, points: whole, and to be read.
pub(super) const WHOLE_WIDE: f32 = 420.0;
pub(super) const READ_WIDE: f32 = 900.0;
/// Width of the page on a card, points.
pub(super) const SMALL_WIDE: f32 = 92.0;
/// A card, points.
const CARD: egui::Vec2 = vec2(114.0, 166.0);
/// Cards in a row.
const IN_A_ROW: usize = 4;
/// Letters of words in columns, points: on a card, whole, to be read.
const TINY: f32 = 4.0;
const PLAIN: f32 = 10.0;
const LARGE: f32 = 15.0;

/// What can be done with a paper: button, tip, who takes it.
const TAKERS: [(&str, &str, Taker, Weight); 4] = [
    (Papers::PRINT, Papers::PRINT_TIP, Taker::Printer, Weight::Main),
    (Papers::OPEN, Papers::OPEN_TIP, Taker::Viewer, Weight::Plain),
    (Papers::SEND, Papers::SEND_TIP, Taker::Mail, Weight::Plain),
    (Papers::FOLDER, Papers::FOLDER_TIP, Taker::Folder, Weight::Plain),
];

pub(super) fn page_ui(ui: &mut Ui, cx: &Context<'_>, page: &PapersPage, requests: &mut Requests<PapersAction>) {
    head_ui(ui, cx, Papers::TITLE, Papers::LINE, &mut requests.shared);
    if page.is_large {
        taken_ui(ui, cx, page, requests);
        turn_ui(ui, cx, page, requests);
        return read_ui(ui, cx, page);
    }
    let cards_wide = CARD.x * IN_A_ROW as f32 + GRID * (IN_A_ROW - 1) as f32;
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0 * GRID;
        ui.vertical(|ui| {
            ui.set_width(cards_wide);
            make_ui(ui, cx, page, requests);
            cards_ui(ui, cx, page, requests);
        });
        ui.vertical(|ui| {
            taken_ui(ui, cx, page, requests);
            turn_ui(ui, cx, page, requests);
            whole_ui(ui, cx, page);
        });
    });
}

/// Makes all papers, or tells how far they are and stops them; and what was written before.
fn make_ui(ui: &mut Ui, cx: &Context<'_>, page: &PapersPage, requests: &mut Requests<PapersAction>) {
    let c = cx.colours;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = GRID;
        // One place for both, so that the second tap of a hasty hand does not stop what the first began.
        let size = vec2(170.0, MAIN_TARGET);
        match page.making {
            None => {
                let pressed = button_sized(ui, &c, Papers::MAKE_ALL, Weight::Main, size);
                if pressed.on_hover_text(Papers::MAKE_ALL_TIP).clicked() {
                    requests.shared.push(Action::MakePapers);
                }
                let says = match &page.written {
                    None => Papers::NONE_MADE.to_owned(),
                    Some(written) => {
                        let n_files = written.files.values().map(Vec::len).sum();
                        let is_current = page.of.as_ref().is_some_and(|(of, _)| of.is_same(&written.of));
                        Papers::written(n_files, &written.name, is_current)
                    }
                };
                ui.add(egui::Label::new(RichText::new(says).font(words(15.0)).color(c.soft)).wrap());
            }
            Some((ready, of)) => {
                let share = ready as f32 / of.max(1) as f32;
                let bar = ProgressBar::new(share).desired_width(size.x).desired_height(14.0).fill(c.leaf);
                ui.add(bar).widget_info(|| WidgetInfo::labeled(Role::ProgressIndicator, true, Papers::BEGUN));
                if button(ui, &c, Papers::STOP, Weight::Plain).clicked() {
                    requests.shared.push(Action::StopPapers);
                }
            }
        }
    });
}

fn cards_ui(ui: &mut Ui, cx: &Context<'_>, page: &PapersPage, requests: &mut Requests<PapersAction>) {
    ScrollArea::vertical().id_salt("papers").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(GRID, GRID);
        let papers: Vec<usize> = (0..PAPERS.len()).collect();
        for row in papers.chunks(IN_A_ROW) {
            ui.horizontal(|ui| {
                for paper in row {
                    card_ui(ui, cx, page, *paper, requests);
                }
            });
        }
    });
}

fn card_ui(ui: &mut Ui, cx: &Context<'_>, page: &PapersPage, paper: usize, requests: &mut Requests<PapersAction>) {
    let Some(kind) = PAPERS.get(paper) else { return };
    let c = cx.colours;
    let is_chosen = page.at.paper == paper;
    let (rect, response) = ui.allocate_exact_size(CARD, Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, is_chosen, kind.title));
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    if ui.is_rect_visible(rect) {
        let is_marked = is_chosen || response.has_focus() || response.hovered();
        let edge = if is_marked { Stroke::new(2.0, c.ink) } else { Stroke::new(1.0, c.line) };
        plate(ui.painter(), rect, if is_chosen { c.kraft } else { c.card }, edge);
        let place = Rect::from_min_max(rect.min + vec2(11.0, 8.0), pos2(rect.max.x - 11.0, rect.max.y - 38.0));
        match page.small.get(&paper) {
            Some(SmallPage { face: Some(face), .. }) => face_ui(ui, cx, face, place, TINY),
            Some(SmallPage { face: None, .. }) => {
                let none = ui.painter().layout(Papers::no_such(kind.why_missing()), words(12.5), c.soft, place.width());
                ui.painter().galley(place.min, none, c.soft);
            }
            None => {}
        }
        let name = rect.center_bottom() - vec2(0.0, 27.0);
        ui.painter().text(name, Align2::CENTER_CENTER, kind.title, strong(14.0), c.ink);
        let reader = rect.center_bottom() - vec2(0.0, 12.0);
        ui.painter().text(reader, Align2::CENTER_CENTER, for_whom(kind.reader), words(12.0), c.soft);
    }
    if response.clicked() {
        requests.own.push(PapersAction::Look(paper));
    }
}

fn for_whom(reader: PaperReader) -> &'static str {
    match reader {
        PaperReader::Client => "for the client",
        PaperReader::Bench => "for the bench",
        PaperReader::Shop => "for you",
    }
}

/// What can be done with the paper that is looked at.
fn taken_ui(ui: &mut Ui, cx: &Context<'_>, page: &PapersPage, requests: &mut Requests<PapersAction>) {
    let is_there = page.n_pages() > 0;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        for (label, tip, taker, weight) in TAKERS {
            let enabled = is_there || taker == Taker::Folder;
            let size = vec2(76.0, MAIN_TARGET);
            let pressed = ui.add_enabled_ui(enabled, |ui| button_sized(ui, &cx.colours, label, weight, size)).inner;
            if pressed.on_hover_text(tip).clicked() {
                requests.shared.push(Action::HandOver(page.kind(), taker));
            }
        }
    });
}

/// Its name, its pages, and how large it is seen.
fn turn_ui(ui: &mut Ui, cx: &Context<'_>, page: &PapersPage, requests: &mut Requests<PapersAction>) {
    let c = cx.colours;
    let (n, at) = (page.n_pages(), page.at.page);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        let size = if page.is_large { Papers::WHOLE } else { Papers::LARGER };
        if button(ui, &c, size, Weight::Plain).on_hover_text(Papers::SIZE_TIP).clicked() {
            requests.own.push(PapersAction::Resize);
        }
        for (icon, name, on, enabled) in
            [(Icon::Back, Papers::BEFORE, false, at > 0), (Icon::On, Papers::AFTER, true, at + 1 < n)]
        {
            if icon_button(ui, &c, icon, name, enabled).clicked() {
                requests.own.push(PapersAction::Turn(on));
            }
        }
        let says = if n > 1 { Papers::page(at + 1, n) } else { String::new() };
        let says = format!("{}  {says}", page.kind().title);
        ui.add(egui::Label::new(RichText::new(says).font(strong(16.0)).color(c.ink)).truncate());
    });
}

/// The page whole.
fn whole_ui(ui: &mut Ui, cx: &Context<'_>, page: &PapersPage) {
    let place = ui.available_rect_before_wrap().shrink(2.0);
    match face_now(page) {
        Some(face) => {
            face_ui(ui, cx, face, place, PLAIN);
            told_of(ui, page, place);
        }
        None => nothing_ui(ui, cx, page),
    }
}

/// The page as wide as there is room, to be read.
fn read_ui(ui: &mut Ui, cx: &Context<'_>, page: &PapersPage) {
    let Some(face) = face_now(page) else { return nothing_ui(ui, cx, page) };
    ScrollArea::vertical().id_salt("read").auto_shrink([false, false]).show(ui, |ui| match face {
        PageFace::Drawn(texture) => {
            let wide = ui.available_width().min(READ_WIDE);
            let size = texture.size_vec2();
            let (place, _) = ui.allocate_exact_size(vec2(wide, wide * size.y / size.x.max(1.0)), Sense::hover());
            face_ui(ui, cx, face, place, LARGE);
            told_of(ui, page, place);
        }
        PageFace::Words(text) => {
            ui.label(RichText::new(text).font(FontId::monospace(LARGE)).color(cx.colours.ink));
        }
    });
}

/// The page that is looked at: as it was asked for; until that is drawn the small one of the same paper.
fn face_now(page: &PapersPage) -> Option<&PageFace> {
    let large = page.large.as_ref().filter(|(at, _)| *at == page.at).map(|(_, face)| face);
    let small = || page.small.get(&page.at.paper).filter(|_| page.at.page == 0)?.face.as_ref();
    // A paper that the order has no longer is not shown as if it had.
    large.filter(|_| page.n_pages() > 0).or_else(small)
}

fn nothing_ui(ui: &mut Ui, cx: &Context<'_>, page: &PapersPage) {
    let says = match page.small.get(&page.at.paper) {
        Some(SmallPage { face: None, .. }) => Papers::no_such(page.kind().why_missing()),
        Some(_) | None => Papers::DRAWING.to_owned(),
    };
    ui.label(RichText::new(says).font(words(16.0)).color(cx.colours.soft));
}

/// For a screen reader: which page is seen.
fn told_of(ui: &Ui, page: &PapersPage, place: Rect) {
    let seen = ui.interact(place, ui.scope_id().with("page seen"), Sense::hover());
    let name = format!("{}, {}", page.kind().title, Papers::page(page.at.page + 1, page.n_pages()));
    seen.widget_info(|| WidgetInfo::labeled(Role::Image, true, &name));
}

/// A page in a box, as large as it fits, at the upper left; words in letters of this size.
fn face_ui(ui: &Ui, cx: &Context<'_>, face: &PageFace, place: Rect, letters: f32) {
    let c = cx.colours;
    let painter = ui.painter_at(place.expand(1.0).intersect(ui.clip_rect()));
    match face {
        PageFace::Drawn(texture) => {
            let size = texture.size_vec2();
            let scale = (place.width() / size.x.max(1.0)).min(place.height() / size.y.max(1.0));
            let page = Rect::from_min_size(place.min, size * scale);
            let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
            painter.image(texture.id(), page, whole, Color32::WHITE);
            painter.rect_stroke(page, 0.0, Stroke::new(1.0, c.line), egui::StrokeKind::Outside);
        }
        PageFace::Words(text) => {
            let galley = painter.layout_no_wrap(text.clone(), FontId::monospace(letters), c.ink);
            painter.galley(place.min, galley, c.ink);
        }
    }
}
