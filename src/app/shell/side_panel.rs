//! The side at the right. On my side: the once-over as tags, the stems, the price with its cost. On the client's side:
//! what is in the piece and what it costs her, nothing else.

use std::sync::Arc;

use egui::{Align2, Rect, Response, RichText, Role, ScrollArea, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use crate::app::action::Action;
use crate::app::context::Context;
use crate::app::parts::price_shown::PriceShown;
use crate::app::parts::stopped::stops_at_the_side_ui;
use crate::app::sheet::room::ChecksShown;
use crate::app::view::{ShopView, stem_words};
use crate::app::widgets::controls::{Weight, button, button_sized};
use crate::app::widgets::icons::{Icon, paint_icon};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, GRID, strong, title, words};
use crate::app::widgets::words::{Counter, Mine};
use crate::export::price_text;
use crate::once_over::Finding;
use crate::paperwork::{cautions_of, full_price, short_price};
use crate::piece::{Edit, Question};
use crate::session::{ActivePiece, Derived};
use crate::stock::STANDING_LINE;
use crate::units::{Cents, counted, minutes_text};

pub(crate) fn side_ui(ui: &mut Ui, cx: &Context<'_>, checks: &ChecksShown, actions: &mut Vec<Action>) {
    let mut hovered = None;
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 6.0;
        stops_at_the_side_ui(ui, cx, actions);
        match cx.shop {
            None => client_ui(ui, cx, checks, actions),
            Some(shop) => {
                let mut side = ShopSide { cx, shop, checks, hovered: None };
                side.price_ui(ui);
                side.once_over_ui(ui, actions);
                side.stems_ui(ui, actions);
                side.cautions_ui(ui);
                hovered = side.hovered;
            }
        }
    });
    if hovered != checks.hovered {
        actions.push(Action::HoverOver(hovered));
    }
}

/// The side in the shop view.
struct ShopSide<'a> {
    cx: &'a Context<'a>,
    shop: &'a ShopView,
    checks: &'a ChecksShown,
    /// The check that the pointer or the focus rests on.
    hovered: Option<Question>,
}

fn heading(ui: &mut Ui, c: &Colours, text: &str) {
    ui.add_space(GRID / 2.0);
    ui.label(RichText::new(text).font(strong(17.0)).color(c.ink));
}

impl ShopSide<'_> {
    fn price_ui(&self, ui: &mut Ui) {
        let c = self.cx.colours;
        let Derived { stems, price, .. } = &*self.shop.derived;
        let currency = &self.cx.client.currency;
        ui.horizontal(|ui| {
            ui.label(RichText::new(price_text(price.rounded, currency)).font(title(34.0)).color(c.ink));
            ui.vertical(|ui| {
                ui.spacing_mut().item_spacing.y = 1.0;
                let size = match self.cx.client.active {
                    ActivePiece::Wrist => self.cx.client.order.size.as_deref().unwrap_or("as sketched"),
                    ActivePiece::Boutonniere => Counter::piece(ActivePiece::Boutonniere),
                };
                ui.label(
                    RichText::new(format!("{size}, {}", minutes_text(stems.minutes))).font(words(15.0)).color(c.ink),
                );
                let money = |cents| full_price(cents, currency);
                let (computed, cost) = (money(price.calculated()), money(Cents::nearest(price.cost)));
                let detail = format!("before rounding {computed} \u{b7} cost {cost}");
                ui.label(RichText::new(detail).font(words(14.0)).color(c.soft));
            });
        });
        // The sum of the quote, where it is not the price of the piece on the sheet.
        let total = self.cx.client.quote.total;
        if total != price.rounded {
            let words = format!("{} {}", Counter::TOTAL, short_price(total, currency));
            ui.label(RichText::new(words).font(strong(16.0)).color(c.ink));
        }
    }

    fn once_over_ui(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        let derived = Arc::clone(&self.shop.derived);
        heading(ui, &self.cx.colours, &format!("Once-over: score {:.0}", derived.over.whole_score()));
        self.ignored_ui(ui, actions);
        let pointed_at = self.checks.pointed_at;
        let shown_whole = |f: &&Finding| !f.is_well() || pointed_at == Some(f.question);
        for found in derived.over.findings.iter().filter(shown_whole) {
            let width = ui.available_width();
            self.finding_ui(ui, found, width, actions);
            if pointed_at == Some(found.question) {
                self.remedies_ui(ui, found, actions);
            }
        }
        let well: Vec<&Finding> = derived.over.findings.iter().filter(|f| !shown_whole(f)).collect();
        self.passed_ui(ui, &well, actions);
    }

    fn remedies_ui(&self, ui: &mut Ui, found: &Finding, actions: &mut Vec<Action>) {
        let c = &self.cx.colours;
        let asked = self.checks.asked_why == Some(found.question);
        ui.horizontal_wrapped(|ui| {
            for remedy in &found.remedies {
                if button(ui, c, remedy.label(), Weight::Main).clicked() {
                    actions.push(Action::fix(remedy.clone()));
                }
            }
            let aside = button(ui, c, "Ignore this", if asked { Weight::Chosen } else { Weight::Plain });
            if aside.on_hover_text("Leave this check out for this piece").clicked() {
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
                    actions.push(Action::edit(Edit::Ignore(found.question, reason.to_lowercase())));
                }
            }
        });
    }

    /// What is not asked of this piece, why, and the way back.
    fn ignored_ui(&self, ui: &mut Ui, actions: &mut Vec<Action>) {
        let c = self.cx.colours;
        for (question, reason) in &self.cx.client.piece().wishes.ignored {
            let why = if reason.is_empty() { String::new() } else { format!(", {reason}") };
            let says = format!("{}: ignored{why}.", question.title());
            ui.horizontal(|ui| {
                let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width() - 112.0, 44.0), Sense::hover());
                let galley = ui.painter().layout(says, words(15.0), c.soft, rect.width());
                let at = Align2::LEFT_CENTER.align_size_within_rect(galley.size(), rect).min;
                ui.painter().galley(at, galley, c.soft);
                if button(ui, &c, "Check again", Weight::Plain).clicked() {
                    actions.push(Action::edit(Edit::CheckAgain(*question)));
                }
            });
        }
    }

    /// What is well: one row that tells how many, and on a tap all of them, two to a row.
    fn passed_ui(&mut self, ui: &mut Ui, well: &[&Finding], actions: &mut Vec<Action>) {
        if well.is_empty() {
            return;
        }
        let c = self.cx.colours;
        let words = format!("{} passed", counted(well.len(), "check", "checks"));
        let weight = if self.checks.passed { Weight::Chosen } else { Weight::Plain };
        if button_sized(ui, &c, &words, weight, vec2(ui.available_width(), 44.0)).clicked() {
            actions.push(Action::ShowPassed);
        }
        if !self.checks.passed {
            return;
        }
        for pair in well.chunks(2) {
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 6.0;
                let width = (ui.available_width() - 6.0) / 2.0;
                for found in pair {
                    self.finding_ui(ui, found, width, actions);
                }
            });
        }
    }

    /// A tag: its marks show on the sketch while the pointer or the focus rests on it, and stay, with its remedies, when it is
    /// tapped.
    fn finding_ui(&mut self, ui: &mut Ui, found: &Finding, width: f32, actions: &mut Vec<Action>) {
        let shown = self.checks.pointed_at == Some(found.question);
        let response = tag_ui(ui, self.cx, found, width, shown);
        if response.clicked() {
            actions.push(Action::PointAt((!shown).then_some(found.question)));
        }
        if response.hovered() || response.has_focus() {
            self.hovered = Some(found.question);
        }
    }

    fn stems_ui(&self, ui: &mut Ui, actions: &mut Vec<Action>) {
        let c = self.cx.colours;
        let derived = &self.shop.derived;
        heading(ui, &c, "Stems");
        for line in &derived.stems.lines {
            let to_come = if line.to_place > 0 { format!("{} to place", line.to_place) } else { String::new() };
            let right = counted(line.stems as usize, "stem", "stems");
            row(ui, &c, &stem_words(line), &right, &to_come);
        }
        for hard in &derived.stems.hard {
            let right = match hard.length_mm {
                Some(mm) => format!("{:.0} mm", mm.ceil()),
                None => hard.count.to_string(),
            };
            row(ui, &c, &hard.name, &right, "");
        }
        let mass = format!("About {:.0} g (estimate)", derived.stems.mass_g);
        ui.label(RichText::new(mass).font(words(14.0)).color(c.soft));
        if button(ui, &c, Mine::WITH_OTHERS, Weight::Plain).on_hover_text(Mine::WITH_OTHERS_TIP).clicked() {
            actions.push(Action::ShowSharedStems);
        }
    }

    fn cautions_ui(&self, ui: &mut Ui) {
        let c = self.cx.colours;
        let cautions = cautions_of(&self.shop.derived.stems, &self.shop.order, &self.shop.stock);
        if cautions.is_empty() {
            return;
        }
        heading(ui, &c, "Cautions");
        for (caution, names) in cautions {
            let words_of = format!("{}: {}", names.join(", "), caution.sentence());
            ui.label(RichText::new(words_of).font(words(14.0)).color(c.ink));
        }
        ui.label(RichText::new(STANDING_LINE).font(words(13.0)).color(c.soft));
    }
}

/// Why a question does not fit a piece; one tap, and it goes with the order.
const REASONS: [&str; 4] = ["Intended", "Client\u{2019}s wish", "A single bloom", "Asymmetric on purpose"];

/// One finding as a tag: a sign, its title, its words.
fn tag_ui(ui: &mut Ui, cx: &Context<'_>, found: &Finding, width: f32, pointed: bool) -> Response {
    let c = cx.colours;
    let well = found.is_well();
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

fn client_ui(ui: &mut Ui, cx: &Context<'_>, checks: &ChecksShown, actions: &mut Vec<Action>) {
    let c = cx.colours;
    ui.add_space(GRID);
    client_price_ui(ui, cx);
    ui.add_space(GRID);
    for line in &cx.client.contents {
        ui.label(RichText::new(line).font(words(17.0)).color(c.ink));
    }
    ui.add_space(GRID);
    invitation_ui(ui, cx, checks, actions);
    ui.add_space(GRID);
    let screen = "Colours on a screen are a guide; hold the real ribbon against the dress.";
    ui.label(RichText::new(screen).font(words(14.0)).color(c.soft));
}

fn client_price_ui(ui: &mut Ui, cx: &Context<'_>) {
    let c = cx.colours;
    let shown = PriceShown::of(cx.client);
    ui.label(RichText::new(shown.name).font(title(26.0)).color(c.ink));
    for line in shown.lines {
        ui.label(RichText::new(line).font(words(16.0)).color(c.soft));
    }
    ui.label(RichText::new(shown.total).font(title(38.0)).color(c.ink));
}

/// Nothing is said of the piece in the client view until the client asks; then what there is room for, and a ring where.
fn invitation_ui(ui: &mut Ui, cx: &Context<'_>, checks: &ChecksShown, actions: &mut Vec<Action>) {
    if cx.client.piece().parts().is_empty() {
        return;
    }
    let c = cx.colours;
    let asked = checks.asked_for_more;
    let weight = if asked { Weight::Chosen } else { Weight::Plain };
    let invitation = cx.client.invitation.as_ref();
    if button(ui, &c, "Anything to add?", weight).clicked() {
        actions.push(Action::AskForMore);
        actions.push(Action::PointAt(invitation.filter(|_| !asked).map(|i| i.question)));
    }
    if asked {
        let says = invitation.map_or("It is complete as it is.", |i| i.says.as_str());
        ui.label(RichText::new(says).font(words(16.0)).color(c.ink));
    }
}
