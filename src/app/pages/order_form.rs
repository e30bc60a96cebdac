//! The order's first page: short questions in the order in which a designer asks them, every one of which can be left for
//! later. What is not known says so; nothing here has to be answered before there is a sketch.

use std::sync::Arc;

use egui::{RichText, ScrollArea, TextEdit, Ui, vec2};

use crate::app::action::Action;
use crate::app::pages::order_fields::{Blank, FIRST_SWATCHES};
use crate::app::pages::page::head_ui;
use crate::app::pages::suggestions::proposal_ui;
use crate::app::shell::top_bar::girth_ui;
use crate::app::shell::view_options::swatch;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::naming::in_text;
use crate::app::widgets::tap_board::Entry;
use crate::app::widgets::theme::{Colours, GRID, TARGET, strong, words};
use crate::app::widgets::today::today;
use crate::book::{
    Change, Day, DressColour, NumberCustom, Order, ToFindOut, WearerKind, matching_boutonniere, usual_span_mm,
};
use crate::colour::{Swatch, swatch_named};
use crate::piece::{Measured, Side, Worn};
use crate::stock::{Role, Stock};
use crate::units::{counted, fold, inches_text};

pub(crate) fn questions_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    let order = Arc::clone(w.session.order());
    let unknown = order.to_find_out().len();
    let line = match unknown {
        0 => "Everything is known.".to_owned(),
        n => format!("{} to find out. All of it can wait.", counted(n, "thing", "things")),
    };
    let opened = w.page_opened.get();
    head_ui(ui, w, "The order", &line, actions);
    proposal_ui(ui, w, actions);
    let mut all = ScrollArea::vertical().id_salt("questions").auto_shrink([false, false]);
    if opened {
        all = all.vertical_scroll_offset(0.0);
    }
    all.show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 5.0);
        let width = (ui.available_width() - 5.0 * GRID) / 2.0;
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 3.0 * GRID;
            for half in [people_ui, taste_ui] {
                ui.vertical(|ui| {
                    ui.set_width(width);
                    ui.spacing_mut().item_spacing.x = 6.0;
                    half(ui, &mut Asking { w, order: &order, c, width }, actions);
                });
            }
        });
    });
}

/// What every question needs.
struct Asking<'a> {
    w: &'a mut Window,
    order: &'a Order,
    c: Colours,
    /// Width of the column, points.
    width: f32,
}

impl Asking<'_> {
    /// A question, and whether its answer is missing.
    fn ask(&self, ui: &mut Ui, question: &str, missing: &[ToFindOut]) {
        let unknown = self.order.to_find_out();
        let waits = missing.iter().any(|m| unknown.contains(m));
        let mut job = egui::text::LayoutJob::default();
        let format = |font_id, color| egui::TextFormat { font_id, color, ..Default::default() };
        job.append(question, 0.0, format(strong(15.0), self.c.ink));
        if waits {
            job.append("to find out", 10.0, format(words(14.0), self.c.rose));
        }
        ui.add_space(5.0);
        ui.label(job);
    }

    fn blank(&mut self, ui: &mut Ui, blank: Blank, width: f32, actions: &mut Vec<Action>) {
        blank_ui(ui, self.w, blank, width, actions);
    }

    /// One of several answers; tapped again it is taken back.
    fn choice(&self, ui: &mut Ui, label: &str, chosen: bool, change: Change, actions: &mut Vec<Action>) {
        let weight = if chosen { Weight::Chosen } else { Weight::Plain };
        let answer = button(ui, &self.c, label, weight);
        if answer.gained_focus() {
            answer.scroll_to_me(None);
        }
        if answer.clicked() {
            actions.push(Action::change(change));
        }
    }

    fn note(&self, ui: &mut Ui, text: &str) {
        ui.label(RichText::new(text).font(words(14.0)).color(self.c.soft));
    }
}

/// A blank to write in, part of the order letter by letter.
pub(crate) fn blank_ui(
    ui: &mut Ui,
    w: &mut Window,
    blank: Blank,
    width: f32,
    actions: &mut Vec<Action>,
) -> egui::Response {
    let mut text = w.draft.in_field(blank).map_or_else(|| blank.shown(w.session.order()), str::to_owned);
    let field = TextEdit::singleline(&mut text)
        // Whatever comes or goes about it, it stays the field that has the keyboard.
        .id(egui::Id::unique(("blank", blank.name())))
        .hint_text(blank.hint())
        .font(words(17.0))
        .desired_width(width)
        .min_size(vec2(width, TARGET))
        .align(egui::Align2::LEFT_CENTER)
        .char_limit(200);
    let response = ui.add(field).accessible_name(blank.name());
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    w.taps.enter(&response, Entry::Blank(blank), actions);
    if response.changed() {
        actions.push(Action::Write(blank, text));
    }
    if response.lost_focus() && !w.taps.is_for(Entry::Blank(blank)) {
        actions.push(Action::LeaveBlank);
    }
    response
}

/// Takes an answer back when it is given again.
fn toggled<T: PartialEq + Copy>(now: Option<T>, tapped: T) -> Option<T> {
    (now != Some(tapped)).then_some(tapped)
}

fn people_ui(ui: &mut Ui, a: &mut Asking<'_>, actions: &mut Vec<Action>) {
    let order = a.order;
    a.ask(ui, "Who wears it?", &[ToFindOut::Wearer, ToFindOut::Kind]);
    ui.horizontal(|ui| {
        a.blank(ui, Blank::Wearer, a.width - 234.0, actions);
        let kind = order.needs.kind;
        let adult = Change::Kind(toggled(kind, WearerKind::Adult));
        a.choice(ui, "Grown up", kind == Some(WearerKind::Adult), adult, actions);
        a.blank(ui, Blank::Years, 64.0, actions);
        a.note(ui, "years");
    });
    a.ask(ui, "When and where?", &[ToFindOut::Dance, ToFindOut::Day, ToFindOut::Hour]);
    ui.horizontal(|ui| {
        a.blank(ui, Blank::Dance, a.width / 2.0 - 4.0, actions);
        a.blank(ui, Blank::Place, a.width / 2.0 - 4.0, actions);
    });
    ui.horizontal(|ui| {
        a.blank(ui, Blank::Wanted, a.width / 2.0 - 4.0, actions);
        a.note(ui, &understood(order, today(a.w.pricing.days_off)));
    });
    wrist_ui(ui, a, actions);
    a.ask(
        ui,
        "Who pays, who goes along, where can we ring?",
        &[ToFindOut::Payer, ToFindOut::Partner, ToFindOut::Phone],
    );
    ui.horizontal(|ui| {
        for blank in [Blank::Payer, Blank::Partner, Blank::Phone] {
            a.blank(ui, blank, a.width / 3.0 - 4.0, actions);
        }
    });
    a.ask(ui, "A boutonniere for the partner?", &[]);
    ui.horizontal(|ui| {
        let with = order.partner_piece.is_some();
        let matching = || matching_boutonniere(order, a.w.session.style(), a.w.session.stock());
        let piece = (!with).then(|| Box::new(matching()));
        a.choice(ui, if with { "Goes with it" } else { "Not asked for" }, with, Change::PartnerPiece(piece), actions);
    });
}

/// What was understood of the day and the hour.
fn understood(order: &Order, today: Option<Day>) -> String {
    let is_past = |day| order.agreed.is_none() && today.is_some_and(|today| day < today);
    match (order.wanted.day(), order.wanted.hour()) {
        (Some(day), _) if is_past(day) => format!("{}: that day is past", day.with_weekday()),
        (Some(day), Some(hour)) => format!("{}, {hour}", day.with_weekday()),
        (Some(day), None) => format!("{}, time missing", day.with_weekday()),
        (None, _) if order.wanted.is_blank() => String::new(),
        (None, _) => match order.wanted.two_meanings() {
            Some([a, b]) => format!("{} or {}?", a.text(), b.text()),
            None => "Which day? For example 5 Dec 2026".to_owned(),
        },
    }
}

fn wrist_ui(ui: &mut Ui, a: &mut Asking<'_>, actions: &mut Vec<Action>) {
    let order = a.order;
    a.ask(ui, "Which hand is used most? Is an arm to be spared?", &[ToFindOut::Hand]);
    ui.horizontal(|ui| {
        for side in [Side::Left, Side::Right] {
            let label = format!("{}-handed", capital(side.word()));
            let change = Change::Handed(toggled(order.needs.handed, side));
            a.choice(ui, &label, order.needs.handed == Some(side), change, actions);
        }
    });
    ui.horizontal(|ui| {
        for side in [Side::Left, Side::Right] {
            let change = Change::SparedArm(toggled(order.needs.spared_arm, side));
            a.choice(ui, &format!("Spare the {}", side.word()), order.needs.spared_arm == Some(side), change, actions);
        }
        let pushes = order.needs.pushes_chair;
        a.choice(ui, "Pushes a wheelchair", pushes, Change::PushesChair(!pushes), actions);
    });
    if order.piece.worn == Worn::Lapel {
        return;
    }
    a.ask(ui, "Which wrist, how far round?", &[ToFindOut::Girth]);
    ui.horizontal(|ui| {
        for side in [Side::Left, Side::Right] {
            a.choice(ui, capital(side.word()).as_str(), order.wrist.side == side, Change::Side(side), actions);
        }
        girth_ui(ui, a.w, 152.0, "How far round the wrist is", None, actions);
        let measured = order.wrist.measured != Measured::NotYet;
        if measured {
            a.choice(ui, "Not measured", false, Change::NotMeasured, actions);
        } else {
            let [from, to] = usual_span_mm(order.needs.kind);
            let inches = a.w.session.wrist_as_shown().girth.unit().is_inch();
            let says = if inches {
                format!("usually {} to {} in", inches_text(from), inches_text(to))
            } else {
                format!("usually {from:.0} to {to:.0} mm")
            };
            a.note(ui, &says);
        }
    });
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

fn taste_ui(ui: &mut Ui, a: &mut Asking<'_>, actions: &mut Vec<Action>) {
    let order = a.order;
    a.ask(ui, "What colour is the dress?", &[ToFindOut::Dress]);
    ui.horizontal(|ui| {
        a.blank(ui, Blank::Dress, a.width - 56.0, actions);
        if let Some(rgb) = order.taste.dress.hex {
            swatch(ui, &a.c, rgb, "Dress colour as shown", true);
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(2.0, 2.0);
        for Swatch { name, rgb } in FIRST_SWATCHES.iter().filter_map(|name| swatch_named(name)) {
            let chosen = order.taste.dress.hex == Some(rgb);
            if swatch(ui, &a.c, rgb, name, chosen).clicked() {
                let dress = DressColour { hex: Some(rgb), words: name.to_owned() };
                actions.push(Action::change(Change::Dress(if chosen { DressColour::default() } else { dress })));
            }
        }
        let more = button(ui, &a.c, "More, or a photo", Weight::Plain);
        if more.on_hover_text("All swatches, a photo, and what goes with it (D)").clicked() {
            actions.push(Action::Turn(crate::app::pages::page::Page::Colour));
        }
    });
    a.ask(ui, "Which metal does the jewellery have?", &[ToFindOut::Metal]);
    ui.horizontal(|ui| {
        for metal in ["silver", "gold", "rose gold"] {
            let chosen = order.taste.metal == metal;
            let now = if chosen { String::new() } else { metal.to_owned() };
            a.choice(ui, metal, chosen, Change::Metal(now), actions);
        }
        a.blank(ui, Blank::Metal, 130.0, actions);
    });
    a.ask(ui, "What is liked?", &[]);
    a.blank(ui, Blank::Likes, a.width, actions);
    care_ui(ui, a, actions);
    a.ask(ui, "What shall be spent on it?", &[]);
    ui.horizontal(|ui| {
        ui.label(RichText::new(&a.w.session.style().prices.currency).font(words(17.0)).color(a.c.ink));
        a.blank(ui, Blank::Purse, 90.0, actions);
        if order.terms.purse.is_some() && button(ui, &a.c, "What fits?", Weight::Plain).clicked() {
            actions.push(Action::Turn(crate::app::pages::page::Page::Sizes));
        }
    });
    // What is noted for the bench is the shop's own.
    if !a.w.client_side {
        a.ask(ui, "Notes", &[]);
        a.blank(ui, Blank::Notes, a.width, actions);
    }
}

/// Each flower on the wearer's piece: whether it was named as one that does not agree, and the change that a tap makes.
fn told_off(order: &Order, stock: &Stock) -> Vec<(String, bool, Change)> {
    let mut ids: Vec<_> = order.piece.parts().iter().map(|part| &part.stock).collect();
    ids.sort();
    ids.dedup();
    let flowers = ids.into_iter().filter_map(|id| stock.botanical(id)).filter(|b| b.role != Role::Trim);
    flowers
        .map(|flower| {
            let name = in_text(&flower.name);
            let told = order.needs.allergies.clone().unwrap_or_default();
            let is_it = |word: &String| fold(word) == fold(&name) || fold(word) == fold(flower.id.as_str());
            let named = told.iter().any(is_it);
            let mut now: Vec<String> = told.into_iter().filter(|word| !is_it(word)).collect();
            if !named {
                now.push(name.clone());
            }
            (name, named, Change::Allergies((!now.is_empty()).then_some(now)))
        })
        .collect()
}

/// What the body does not bear, and a custom of numbers.
fn care_ui(ui: &mut Ui, a: &mut Asking<'_>, actions: &mut Vec<Action>) {
    let needs = &a.order.needs;
    a.ask(ui, "Does any flower or material not agree?", &[ToFindOut::Allergies]);
    ui.horizontal(|ui| {
        a.blank(ui, Blank::Allergies, a.width - 78.0, actions);
        let none = needs.allergies.as_ref().is_some_and(Vec::is_empty);
        a.choice(ui, "None", none, Change::Allergies((!none).then(Vec::new)), actions);
    });
    ui.horizontal_wrapped(|ui| {
        for (name, chosen, change) in told_off(a.order, a.w.session.stock()) {
            a.choice(ui, &name, chosen, change, actions);
        }
        a.choice(ui, "No latex", needs.no_latex, Change::NoLatex(!needs.no_latex), actions);
        a.choice(ui, "No snug band", needs.no_snug_band, Change::NoSnugBand(!needs.no_snug_band), actions);
    });
    a.ask(ui, "A custom of numbers?", &[]);
    ui.horizontal(|ui| {
        let wishes = &a.order.piece.wishes;
        let now = NumberCustom { avoided: wishes.avoided_counts.clone(), even_is_welcome: wishes.even_is_welcome };
        let even = NumberCustom { even_is_welcome: true, ..NumberCustom::default() };
        for (label, custom) in [
            ("Odd numbers", NumberCustom::no_even()),
            ("No 4, no 9", NumberCustom::no_four_no_nine()),
            ("Any number", even),
        ] {
            a.choice(ui, label, now == custom, Change::Custom(custom), actions);
        }
        a.blank(ui, Blank::Avoided, 96.0, actions);
    });
}
