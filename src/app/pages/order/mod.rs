//! The order: short questions in the order in which a designer asks them, every one of which can be left for later. What is
//! not known says so; nothing here has to be answered before there is a sketch.

mod allergies;
mod body;
mod days;
mod state;
mod suggestions;

use egui::{Key, RichText, ScrollArea, Ui, vec2};

use crate::app::action::Action;
use crate::app::context::{Context, Inputs, Requests};
use crate::app::page_list::PageId;
use crate::app::pages::{Page, PageInfo};
use crate::app::parts::field::{field_ui, wrist_size_ui};
use crate::app::parts::page_head::head_ui;
use crate::app::typing::field::{FIRST_SWATCHES, Field};
use crate::app::view::{ClientOrder, ClientView};
use crate::app::widgets::controls::{Weight, button, swatch};
use crate::app::widgets::naming::in_text;
use crate::app::widgets::theme::{GRID, strong, words};
use crate::book::{Change, DressColour, MissingDetail, NeedChange, NumberCustom, WearerKind, usual_span_mm};
use crate::colour::{Swatch, swatch_named};
use crate::piece::{Edit, Measured, Side, Worn};
use crate::stock::Role;
use crate::units::{counted, fold, inches_text};
use allergies::{Whose, understood_ui};
use suggestions::Suggestions;

/// What is open on the page.
#[derive(Debug, Default)]
pub(crate) struct OrderPage {
    suggestions: Suggestions,
}

/// What can be asked of the page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum OrderAction {
    /// A suggestion is left for now.
    NotNow(String),
}

impl Page for OrderPage {
    type Action = OrderAction;

    const INFO: PageInfo = PageInfo { on_rail: None, key: Key::Q, is_for_shop: false };

    fn prepare(&mut self, inputs: &mut Inputs<'_>) {
        self.suggestions.prepare(inputs);
    }

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<OrderAction>) {
        let line = match cx.client.order.missing.len() {
            0 => "Nothing is missing.".to_owned(),
            n => format!("{} open; all optional.", counted(n, "detail", "details")),
        };
        let line = match cx.client.order.number.as_str() {
            "" => line,
            number => format!("{number} \u{b7} {line}"),
        };
        head_ui(ui, cx, "Order", &line, &mut requests.shared);
        self.suggestions.ui(ui, cx, requests);
        let mut all = ScrollArea::vertical().id_salt("order").auto_shrink([false, false]);
        if cx.page_opened {
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
                        half(ui, &OrderColumn { cx, order: &cx.client.order, width }, &mut requests.shared);
                    });
                }
            });
        });
    }

    fn run(&mut self, action: OrderAction, _inputs: &mut Inputs<'_>) -> Vec<Action> {
        match action {
            OrderAction::NotNow(says) => self.suggestions.leave(says),
        }
        Vec::new()
    }

    fn keeps_notice(_action: &OrderAction) -> bool {
        true
    }

    fn rules_changed(&mut self) {
        self.suggestions.work_out_anew();
    }
}

impl OrderPage {
    /// How many suggestions wait for an answer.
    pub(crate) fn n_suggestions(&self) -> usize {
        self.suggestions.len()
    }
}

/// Half of the page, and what every question on it needs.
struct OrderColumn<'a> {
    cx: &'a Context<'a>,
    order: &'a ClientOrder,
    /// Points.
    width: f32,
}

impl OrderColumn<'_> {
    /// A heading, and whether what it asks for is missing.
    fn heading(&self, ui: &mut Ui, text: &str, asked_for: &[MissingDetail]) {
        let is_missing = asked_for.iter().any(|what| self.order.missing.contains(what));
        let mut job = egui::text::LayoutJob::default();
        let format = |font_id, color| egui::TextFormat { font_id, color, ..Default::default() };
        job.append(text, 0.0, format(strong(15.0), self.cx.colours.ink));
        if is_missing {
            job.append("ask later", 10.0, format(words(14.0), self.cx.colours.rose));
        }
        ui.add_space(5.0);
        ui.label(job);
    }

    fn field(&self, ui: &mut Ui, field: Field, width: f32, actions: &mut Vec<Action>) {
        field_ui(ui, self.cx, field, width, actions);
    }

    /// One of several answers; tapped again it is taken back.
    fn choice(&self, ui: &mut Ui, label: &str, chosen: bool, change: Change, actions: &mut Vec<Action>) {
        if self.answer(ui, label, chosen) {
            actions.push(Action::change(change));
        }
    }

    /// A button for an answer; whether it was pressed.
    fn answer(&self, ui: &mut Ui, label: &str, chosen: bool) -> bool {
        let weight = if chosen { Weight::Chosen } else { Weight::Plain };
        let answer = button(ui, &self.cx.colours, label, weight);
        if answer.gained_focus() {
            answer.scroll_to_me(None);
        }
        answer.clicked()
    }

    fn note(&self, ui: &mut Ui, text: &str) {
        ui.label(RichText::new(text).font(words(14.0)).color(self.cx.colours.soft));
    }
}

/// Takes an answer back when it is given again.
fn toggled<T: PartialEq + Copy>(now: Option<T>, tapped: T) -> Option<T> {
    (now != Some(tapped)).then_some(tapped)
}

fn people_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    let order = a.order;
    a.heading(ui, "Wearer", &[MissingDetail::Wearer, MissingDetail::Kind]);
    ui.horizontal(|ui| {
        a.field(ui, Field::Wearer, a.width - 208.0, actions);
        let kind = order.needs.kind;
        let adult = Change::Kind(toggled(kind, WearerKind::Adult));
        a.choice(ui, "Adult", kind == Some(WearerKind::Adult), adult, actions);
        a.field(ui, Field::Years, 64.0, actions);
        a.note(ui, "years");
    });
    a.heading(ui, "Event and place", &[MissingDetail::Dance]);
    ui.horizontal(|ui| {
        a.field(ui, Field::Dance, a.width / 2.0 - 4.0, actions);
        a.field(ui, Field::Place, a.width / 2.0 - 4.0, actions);
    });
    days::days_ui(ui, a, actions);
    wrist_ui(ui, a, actions);
    a.heading(
        ui,
        "Paid by \u{b7} Partner \u{b7} Phone",
        &[MissingDetail::Payer, MissingDetail::Partner, MissingDetail::Phone],
    );
    ui.horizontal(|ui| {
        for field in [Field::Payer, Field::Partner, Field::Phone] {
            a.field(ui, field, a.width / 3.0 - 4.0, actions);
        }
    });
    a.heading(ui, "Boutonniere for the partner", &[]);
    ui.horizontal(|ui| {
        let with = order.partner_piece.is_some();
        if a.answer(ui, "No", !with) && with {
            actions.push(Action::change(Change::PartnerPiece(None)));
        }
        if a.answer(ui, "Yes", with) && !with {
            actions.push(Action::AddBoutonniere);
        }
    });
    if order.partner_piece.is_some() {
        partner_needs_ui(ui, a, actions);
    }
}

/// What the boutonniere's wearer must not get, and notes for his piece alone.
fn partner_needs_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    a.heading(ui, "Partner: allergies, or materials to avoid", &[MissingDetail::PartnerAllergies]);
    let needs = &a.order.partner_needs;
    let change = |change| Change::PartnerNeed(change);
    ui.horizontal(|ui| {
        a.field(ui, Field::PartnerAllergies, a.width - 166.0, actions);
        let none = needs.allergies.as_ref().is_some_and(Vec::is_empty);
        a.choice(ui, "None", none, change(NeedChange::Allergies((!none).then(Vec::new))), actions);
        a.choice(ui, "No latex", needs.no_latex, change(NeedChange::NoLatex(!needs.no_latex)), actions);
    });
    understood_ui(ui, a, Whose::Partners, actions);
    body::partner_body_ui(ui, a, actions);
    if a.order.piece.worn == Worn::Wrist {
        body::lapel_ui(ui, a, actions);
    }
    if a.cx.shop.is_some() {
        a.heading(ui, "Notes for the boutonniere", &[]);
        a.field(ui, Field::PartnerNotes, a.width, actions);
    }
}

fn wrist_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    let order = a.order;
    a.heading(ui, "Left- or right-handed? Arm to avoid?", &[MissingDetail::Hand]);
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
            a.choice(ui, &format!("Avoid {} arm", side.word()), order.needs.spared_arm == Some(side), change, actions);
        }
        let pushes = order.needs.pushes_chair;
        a.choice(ui, "Pushes a wheelchair", pushes, Change::PushesChair(!pushes), actions);
    });
    body::body_ui(ui, a, actions);
    if order.piece.worn == Worn::Lapel {
        body::lapel_ui(ui, a, actions);
        return;
    }
    a.heading(ui, "Wrist and size", &[MissingDetail::Girth]);
    ui.horizontal(|ui| {
        let wrist = &a.cx.client.wrist;
        for side in [Side::Left, Side::Right] {
            a.choice(ui, capital(side.word()).as_str(), wrist.side == side, Change::Side(side), actions);
        }
        wrist_size_ui(ui, a.cx, 152.0, "order", actions);
        if wrist.measured == Measured::NotYet {
            a.note(ui, &usual_size(a.cx.client));
        } else {
            a.choice(ui, "Not measured", false, Change::NotMeasured, actions);
        }
    });
}

/// What wrists of that kind measure, in the unit that is shown.
fn usual_size(client: &ClientView) -> String {
    let [from, to] = usual_span_mm(client.order.needs.kind);
    if client.in_inches() {
        format!("usually {} to {} in", inches_text(from), inches_text(to))
    } else {
        format!("usually {from:.0} to {to:.0} mm")
    }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

fn taste_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    let (order, c) = (a.order, &a.cx.colours);
    a.heading(ui, "Dress colour", &[MissingDetail::Dress]);
    dress_ui(ui, a, actions);
    a.heading(ui, "Jewellery", &[MissingDetail::Metal]);
    ui.horizontal(|ui| {
        for metal in ["silver", "gold", "rose gold"] {
            let chosen = order.taste.metal == metal;
            let now = if chosen { String::new() } else { metal.to_owned() };
            a.choice(ui, &capital(metal), chosen, Change::Metal(now), actions);
        }
        a.field(ui, Field::Metal, 130.0, actions);
    });
    a.heading(ui, "Likes", &[]);
    a.field(ui, Field::Likes, a.width, actions);
    allergies_ui(ui, a, actions);
    counts_ui(ui, a, actions);
    a.heading(ui, "Finish", &[]);
    ui.horizontal(|ui| {
        let spray = order.piece.is_sprayed;
        a.choice(ui, "Finishing spray", spray, Change::Piece(Edit::Spray(!spray)), actions);
    });
    a.heading(ui, "Budget", &[]);
    ui.horizontal(|ui| {
        let currency = &a.cx.client.currency;
        let sign = |ui: &mut Ui, is_here: bool| {
            if is_here {
                ui.label(RichText::new(&currency.sign).font(words(17.0)).color(c.ink));
            }
        };
        sign(ui, !currency.after);
        a.field(ui, Field::Budget, 90.0, actions);
        sign(ui, currency.after);
        if order.budget.is_some() && button(ui, c, "What fits?", Weight::Plain).clicked() {
            actions.push(Action::Show(PageId::Sizes));
        }
    });
    // What is noted for the bench is the shop's own.
    if a.cx.shop.is_some() {
        a.heading(ui, "Notes for the bench", &[]);
        a.field(ui, Field::Notes, a.width, actions);
    }
    state::state_ui(ui, a, actions);
}

fn dress_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    let (dress, c) = (&a.order.taste.dress, &a.cx.colours);
    ui.horizontal(|ui| {
        a.field(ui, Field::Dress, a.width - 56.0, actions);
        if let Some(rgb) = dress.hex {
            swatch(ui, c, rgb, "Dress colour as shown", true);
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(2.0, 2.0);
        for Swatch { name, rgb } in FIRST_SWATCHES.iter().filter_map(|name| swatch_named(name)) {
            let chosen = dress.hex == Some(rgb);
            if swatch(ui, c, rgb, name, chosen).clicked() {
                let taken = DressColour { hex: Some(rgb), words: name.to_owned() };
                actions.push(Action::change(Change::Dress(if chosen { DressColour::default() } else { taken })));
            }
        }
        let more = button(ui, c, "More colours\u{2026}", Weight::Plain);
        if more.on_hover_text("All swatches, a photo, and what goes with it (D)").clicked() {
            actions.push(Action::Show(PageId::Colour));
        }
    });
}

/// Each flower on the wearer's piece: whether it was named as an allergy, and the change that a tap makes.
fn flowers_to_avoid(client: &ClientView) -> Vec<(String, bool, Change)> {
    let order = &client.order;
    let mut ids: Vec<_> = order.piece.parts().iter().map(|part| &part.stock).collect();
    ids.sort();
    ids.dedup();
    let flowers = ids.into_iter().filter_map(|id| client.goods.get(id)).filter(|good| good.role != Role::Trim);
    flowers
        .map(|flower| {
            let name = in_text(&flower.name);
            let listed = order.needs.allergies.clone().unwrap_or_default();
            let is_it = |word: &String| fold(word) == fold(&name) || fold(word) == fold(flower.id.as_str());
            let named = listed.iter().any(is_it);
            let mut now: Vec<String> = listed.into_iter().filter(|word| !is_it(word)).collect();
            if !named {
                now.push(name.clone());
            }
            (name, named, Change::Allergies((!now.is_empty()).then_some(now)))
        })
        .collect()
}

fn allergies_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    let needs = &a.order.needs;
    a.heading(ui, "Allergies, or materials to avoid", &[MissingDetail::Allergies]);
    ui.horizontal(|ui| {
        a.field(ui, Field::Allergies, a.width - 78.0, actions);
        let none = needs.allergies.as_ref().is_some_and(Vec::is_empty);
        a.choice(ui, "None", none, Change::Allergies((!none).then(Vec::new)), actions);
    });
    ui.horizontal_wrapped(|ui| {
        for (name, chosen, change) in flowers_to_avoid(a.cx.client) {
            a.choice(ui, &name, chosen, change, actions);
        }
        a.choice(ui, "No latex", needs.no_latex, Change::NoLatex(!needs.no_latex), actions);
        a.choice(ui, "Nothing tight", needs.no_snug_band, Change::NoSnugBand(!needs.no_snug_band), actions);
    });
    understood_ui(ui, a, Whose::Wearers, actions);
}

fn counts_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    a.heading(ui, "Flower count", &[]);
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
        a.field(ui, Field::Avoided, 96.0, actions);
    });
}
