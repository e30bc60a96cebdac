//! The side at the right. On my side: the once-over as tags, the stems, the price with its cost. On the client's side:
//! what is in the piece and what it costs her, nothing else.

use egui::{Align2, Rect, Response, RichText, Role, ScrollArea, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use crate::app::action::Action;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::icons::{Icon, paint_icon};
use crate::app::widgets::naming::so_many;
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, GRID, strong, title, words};
use crate::app::widgets::words::{Counter, Mine};
use crate::export::price_text;
use crate::once_over::Finding;
use crate::paperwork::{Quote, StemLine, cautions_of, short_price, tax_words};
use crate::piece::{Edit, Piece};
use crate::session::{Derived, Front};
use crate::stock::STANDING_LINE;
use crate::units::{Cents, counted, minutes_text};

pub(crate) fn side_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let derived = w.session.derived();
    w.hovered = None;
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 6.0;
        if w.client_side {
            client_ui(ui, w, &derived, actions);
        } else {
            price_ui(ui, w, &derived);
            in_all_ui(ui, w, &derived);
            once_over_ui(ui, w, &derived, actions);
            stems_ui(ui, w, &derived, actions);
            care_ui(ui, w, &derived);
        }
    });
}

fn heading(ui: &mut Ui, c: &Colours, text: &str) {
    ui.add_space(GRID / 2.0);
    ui.label(RichText::new(text).font(strong(17.0)).color(c.ink));
}

fn price_ui(ui: &mut Ui, w: &Window, derived: &Derived) {
    let c = w.colours();
    let Derived { stems, price, .. } = derived;
    let currency = &w.session.style().prices.currency;
    ui.horizontal(|ui| {
        ui.label(RichText::new(price_text(price.rounded, currency)).font(title(34.0)).color(c.ink));
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            let size = match w.session.front() {
                Front::Wearers => w.session.order().size.as_deref().unwrap_or("as sketched"),
                Front::Partners => Counter::piece(Front::Partners),
            };
            ui.label(RichText::new(format!("{size}, {}", minutes_text(stems.minutes))).font(words(15.0)).color(c.ink));
            let worked = format!("worked {currency}{}, costs {currency}{}", price.worked(), Cents::nearest(price.cost));
            ui.label(RichText::new(worked).font(words(14.0)).color(c.soft));
        });
    });
}

/// The sum of the slip, where it is not the price of the piece on the sheet.
fn in_all_ui(ui: &mut Ui, w: &mut Window, derived: &Derived) {
    let quote = w.session.quote();
    if quote.total != derived.price.rounded {
        let told = format!("{} {}", Counter::IN_ALL, short_price(quote.total, &quote.currency));
        ui.label(RichText::new(told).font(strong(16.0)).color(w.colours().ink));
    }
}

fn once_over_ui(ui: &mut Ui, w: &mut Window, derived: &Derived, actions: &mut Vec<Action>) {
    let c = w.colours();
    heading(ui, &c, &format!("Once-over: {:.0} of 100", derived.over.whole_score()));
    set_aside_ui(ui, w, actions);
    let pointed_at = w.pointed_at;
    let shown_whole = |f: &&Finding| !f.is_well() || pointed_at == Some(f.question);
    for found in derived.over.findings.iter().filter(shown_whole) {
        let width = ui.available_width();
        finding_ui(ui, w, found, width, actions);
        if w.pointed_at == Some(found.question) {
            remedies_ui(ui, w, found, actions);
        }
    }
    let well: Vec<&Finding> = derived.over.findings.iter().filter(|f| !shown_whole(f)).collect();
    well_ui(ui, w, &well, actions);
}

fn remedies_ui(ui: &mut Ui, w: &Window, found: &Finding, actions: &mut Vec<Action>) {
    let c = &w.colours();
    let asked = w.asked_why == Some(found.question);
    ui.horizontal_wrapped(|ui| {
        for remedy in &found.remedies {
            if button(ui, c, &remedy.label(), Weight::Main).clicked() {
                actions.push(Action::fix(remedy.clone()));
            }
        }
        let aside = button(ui, c, "Set aside", if asked { Weight::Chosen } else { Weight::Plain });
        if aside.on_hover_text("Do not ask this of this piece").clicked() {
            actions.push(Action::AskWhy((!asked).then_some(found.question)));
        }
    });
    if !asked {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Why?").font(strong(15.0)).color(c.ink));
        for reason in REASONS {
            if button(ui, c, reason, Weight::Plain).clicked() {
                actions.push(Action::AskWhy(None));
                actions.push(Action::edit(Edit::SetAside(found.question, reason.to_lowercase())));
            }
        }
    });
}

/// Why a question does not fit a piece; one tap, and it goes with the order.
const REASONS: [&str; 4] = ["Meant so", "As the client wishes", "A single bloom", "Lopsided on purpose"];

/// What is not asked of this piece, why, and the way back.
fn set_aside_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    for (question, reason) in &w.session.piece().wishes.set_aside {
        let why = if reason.is_empty() { String::new() } else { format!(", {reason}") };
        let says = format!("{}: set aside{why}.", question.title());
        ui.horizontal(|ui| {
            let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width() - 112.0, 44.0), Sense::hover());
            let galley = ui.painter().layout(says, words(15.0), c.soft, rect.width());
            let at = Align2::LEFT_CENTER.align_size_within_rect(galley.size(), rect).min;
            ui.painter().galley(at, galley, c.soft);
            if button(ui, &c, "Ask again", Weight::Plain).clicked() {
                actions.push(Action::edit(Edit::AskAgain(*question)));
            }
        });
    }
}

/// What is well: one row that tells how many, and on a tap all of them, two to a row.
fn well_ui(ui: &mut Ui, w: &mut Window, well: &[&Finding], actions: &mut Vec<Action>) {
    if well.is_empty() {
        return;
    }
    let c = w.colours();
    let words = format!("{} well", counted(well.len(), "question is", "questions are"));
    let weight = if w.well_shown { Weight::Chosen } else { Weight::Plain };
    if button_sized(ui, &c, &words, weight, vec2(ui.available_width(), 44.0)).clicked() {
        actions.push(Action::ShowWell);
    }
    if !w.well_shown {
        return;
    }
    for pair in well.chunks(2) {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            let width = (ui.available_width() - 6.0) / 2.0;
            for found in pair {
                finding_ui(ui, w, found, width, actions);
            }
        });
    }
}

/// A tag: its marks show on the sketch while the pointer or the focus rests on it, and stay, with its remedies, when it is
/// tapped.
fn finding_ui(ui: &mut Ui, w: &mut Window, found: &Finding, width: f32, actions: &mut Vec<Action>) {
    let response = tag_ui(ui, w, found, width);
    let shown = w.pointed_at == Some(found.question);
    if response.clicked() {
        actions.push(Action::Point((!shown).then_some(found.question)));
    }
    if response.hovered() || response.has_focus() {
        w.hovered = Some(found.question);
    }
}

/// One finding as a tag: a sign, its title, its words.
fn tag_ui(ui: &mut Ui, w: &Window, found: &Finding, width: f32) -> Response {
    let c = w.colours();
    let well = found.is_well();
    let pointed = w.pointed_at == Some(found.question);
    let mut job = egui::text::LayoutJob::default();
    job.wrap.max_width = width - 56.0;
    let format = |font, color| egui::TextFormat { font_id: font, color, ..Default::default() };
    job.append(found.question.title(), 0.0, format(strong(15.0), c.ink));
    if !well || pointed {
        job.append(&format!("\n{}", found.says()), 0.0, format(words(15.0), c.ink));
    }
    let galley = ui.painter().layout_job(job);
    let (rect, response) = ui.allocate_exact_size(vec2(width, (galley.size().y + 14.0).max(44.0)), Sense::click());
    response.widget_info(|| {
        WidgetInfo::selected(Role::Button, true, pointed, format!("{}: {}", found.question.title(), found.says()))
    });
    let edge = if pointed || response.has_focus() { Stroke::new(2.0, c.ink) } else { Stroke::new(1.0, c.line) };
    plate(ui.painter(), rect, c.card, edge);
    let (icon, ink) = if well { (Icon::Well, c.leaf) } else { (Icon::Note, c.rose) };
    let sign = Rect::from_center_size(pos2(rect.min.x + 22.0, rect.min.y + 22.0), vec2(22.0, 22.0));
    paint_icon(ui.painter(), icon, sign, 22.0, ink);
    let text_top = if well && !pointed { rect.center().y - galley.size().y / 2.0 } else { rect.min.y + 7.0 };
    ui.painter().galley(pos2(rect.min.x + 42.0, text_top), galley, c.ink);
    response
}

fn stems_ui(ui: &mut Ui, w: &Window, derived: &Derived, actions: &mut Vec<Action>) {
    let c = w.colours();
    heading(ui, &c, "Stems");
    for line in &derived.stems.lines {
        let to_come = if line.to_place > 0 { format!("{} to place", line.to_place) } else { String::new() };
        let right = counted(line.stems as usize, "stem", "stems");
        row(ui, &c, &what(line), &right, &to_come);
    }
    for hard in &derived.stems.hard {
        let right = match hard.length_mm {
            Some(mm) => format!("{:.0} mm", mm.ceil()),
            None => hard.count.to_string(),
        };
        row(ui, &c, &hard.name, &right, "");
    }
    let mass = format!("About {:.0} g, a planning figure until weighed.", derived.stems.mass_g);
    ui.label(RichText::new(mass).font(words(14.0)).color(c.soft));
    if button(ui, &c, Mine::WITH_OTHERS, Weight::Plain).on_hover_text(Mine::WITH_OTHERS_TIP).clicked() {
        actions.push(Action::ShowTogether);
    }
}

fn what(line: &StemLine) -> String {
    format!("{}, {}", so_many(line.pieces, line.role, &line.name), line.colour)
}

fn row(ui: &mut Ui, c: &Colours, left: &str, right: &str, note: &str) {
    let width = ui.available_width();
    let (rect, _) = ui.allocate_exact_size(vec2(width, if note.is_empty() { 20.0 } else { 36.0 }), Sense::hover());
    let mut job = egui::text::LayoutJob::simple(left.to_owned(), words(15.0), c.ink, width - 76.0);
    job.wrap.max_rows = 1;
    let galley = ui.painter().layout_job(job);
    ui.painter().galley(rect.min, galley, c.ink);
    ui.painter().text(pos2(rect.max.x - 4.0, rect.min.y), Align2::RIGHT_TOP, right, words(15.0), c.soft);
    if !note.is_empty() {
        ui.painter().text(rect.min + vec2(12.0, 18.0), Align2::LEFT_TOP, note, strong(14.0), c.rose);
    }
}

fn care_ui(ui: &mut Ui, w: &Window, derived: &Derived) {
    let c = w.colours();
    let cautions = cautions_of(&derived.stems, w.session.order(), w.session.stock());
    if cautions.is_empty() {
        return;
    }
    heading(ui, &c, "To be careful of");
    for (caution, names) in cautions {
        let words_of = format!("{}: {}", names.join(", "), caution.sentence());
        ui.label(RichText::new(words_of).font(words(14.0)).color(c.ink));
    }
    ui.label(RichText::new(STANDING_LINE).font(words(13.0)).color(c.soft));
}

/// What the client reads of what is in the piece.
pub(crate) fn client_lines(piece: &Piece, derived: &Derived) -> Vec<String> {
    let bow = piece.bow.as_ref().map(|bow| format!("a bow in {}", bow.colour));
    derived.stems.lines.iter().map(what).chain(bow).collect()
}

fn client_ui(ui: &mut Ui, w: &mut Window, derived: &Derived, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.add_space(GRID);
    client_price_ui(ui, w);
    ui.add_space(GRID);
    for line in client_lines(w.session.piece(), derived) {
        ui.label(RichText::new(line).font(words(17.0)).color(c.ink));
    }
    ui.add_space(GRID);
    invitation_ui(ui, w, derived, actions);
    ui.add_space(GRID);
    let screen = "Colours on a screen are a guide; hold the real ribbon to the dress.";
    ui.label(RichText::new(screen).font(words(14.0)).color(c.soft));
}

/// What an order costs her, as both windows tell it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct WhatItCosts {
    /// What is on the sheet.
    pub(crate) name: String,
    /// Each line where there are several, and the tax.
    pub(crate) lines: Vec<String>,
    /// The sum as on the slip.
    pub(crate) total: String,
}

impl WhatItCosts {
    pub(crate) fn of(quote: &Quote, front: Front) -> Self {
        let (name, lines) = match &quote.lines[..] {
            [only] => (only.what.clone(), &[][..]),
            lines => (Counter::piece(front).to_owned(), lines),
        };
        let told = |what: &str, price| format!("{what} {}", short_price(price, &quote.currency));
        let mut lines: Vec<String> = lines.iter().map(|line| told(&line.what, line.price)).collect();
        if let (Some(tax), Some(said)) = (&quote.tax, tax_words(quote)) {
            lines.push(told(&said, tax.amount));
        }
        Self { name, lines, total: price_text(quote.total, &quote.currency) }
    }
}

fn client_price_ui(ui: &mut Ui, w: &mut Window) {
    let c = w.colours();
    let told = WhatItCosts::of(&w.session.quote(), w.session.front());
    ui.label(RichText::new(told.name).font(title(26.0)).color(c.ink));
    for line in told.lines {
        ui.label(RichText::new(line).font(words(16.0)).color(c.soft));
    }
    ui.label(RichText::new(told.total).font(title(38.0)).color(c.ink));
}

/// Nothing is said of the piece on the client's side until she asks; then what there is room for, and a ring where.
fn invitation_ui(ui: &mut Ui, w: &Window, derived: &Derived, actions: &mut Vec<Action>) {
    if w.session.piece().parts().is_empty() {
        return;
    }
    let c = w.colours();
    let weight = if w.asked_for_more { Weight::Chosen } else { Weight::Plain };
    let invites = derived.over.findings.iter().find_map(|f| Some((f.question, f.invitation()?)));
    if button(ui, &c, "Anything to add?", weight).clicked() {
        actions.push(Action::AskForMore);
        let shown = invites.as_ref().filter(|_| !w.asked_for_more).map(|(question, _)| *question);
        actions.push(Action::Point(shown));
    }
    if w.asked_for_more {
        let says = invites.map_or_else(|| "It is complete as it is.".to_owned(), |(_, says)| says);
        ui.label(RichText::new(says).font(words(16.0)).color(c.ink));
    }
}
