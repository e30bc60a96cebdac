//! What is asked of anyone once, on the page of the order: pacemaker, scent, watch or bandage; and how a boutonniere is worn.

use egui::Ui;

use super::{OrderColumn, Whose, capital};
use crate::app::action::Action;
use crate::app::typing::field::Field;
use crate::book::{BodyNeeds, Change, MissingDetail, NeedChange, WearerKind};
use crate::piece::{Edit, LapelHold, LapelWear, Piece, Side, Worn};

/// The question about the wearer's body, and its answers.
pub(super) fn body_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    a.heading(ui, "Pacemaker or implant? Scent? Watch or bandage?", &[MissingDetail::Body]);
    answers_ui(ui, a, Whose::Wearers, actions);
}

/// The same of the boutonniere's wearer, with the age.
pub(super) fn partner_body_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    a.heading(ui, "Partner: age? Pacemaker or implant? Scent?", &[MissingDetail::PartnerBody]);
    let kind = a.order.partner_needs.kind;
    ui.horizontal(|ui| {
        let is_adult = kind == Some(WearerKind::Adult);
        let now = (!is_adult).then_some(WearerKind::Adult);
        a.choice(ui, "Partner is adult", is_adult, Change::PartnerNeed(NeedChange::Kind(now)), actions);
        a.field(ui, Field::PartnerYears, 64.0, actions);
        a.note(ui, "years");
    });
    answers_ui(ui, a, Whose::Partners, actions);
}

fn answers_ui(ui: &mut Ui, a: &OrderColumn<'_>, whose: Whose, actions: &mut Vec<Action>) {
    let needs = if whose == Whose::Wearers { &a.order.needs } else { &a.order.partner_needs };
    let body = needs.body;
    ui.horizontal_wrapped(|ui| {
        let mut answer = |ui: &mut Ui, label: &str, chosen: bool, now: BodyNeeds| {
            if a.answer(ui, label, chosen) {
                actions.push(whose.change(NeedChange::Body(now)));
            }
        };
        let implant = BodyNeeds { has_implant: !body.has_implant, ..body };
        answer(ui, "Pacemaker or implant", body.has_implant, implant);
        answer(ui, "No scent", body.no_scent, BodyNeeds { no_scent: !body.no_scent, ..body });
        if whose == Whose::Wearers {
            for side in [Side::Left, Side::Right] {
                let is_it = body.worn_already == Some(side);
                let now = BodyNeeds { worn_already: (!is_it).then_some(side), ..body };
                answer(ui, &format!("Watch, bandage {}", side.word()), is_it, now);
            }
        }
        let has_told = body.has_implant || body.no_scent || body.worn_already.is_some() || needs.spared_arm.is_some();
        let label = if has_told { "That is all" } else { "None of these" };
        answer(ui, label, body.is_asked, BodyNeeds { is_asked: !body.is_asked, ..body });
    });
}

/// On which lapel it is worn, and whether pins or magnets hold it.
pub(super) fn lapel_ui(ui: &mut Ui, a: &OrderColumn<'_>, actions: &mut Vec<Action>) {
    let own = (a.order.piece.worn == Worn::Lapel).then_some(&a.order.piece);
    let Some(piece) = own.or(a.order.partner_piece.as_ref()) else { return };
    let change = |lapel: LapelWear| {
        let edit = Edit::Lapel(lapel);
        if own.is_some() { Change::Piece(edit) } else { Change::PartnerEdit(edit) }
    };
    let Piece { lapel, .. } = piece;
    a.heading(ui, "Lapel", &[]);
    ui.horizontal(|ui| {
        for side in [Side::Left, Side::Right] {
            let label = format!("{} lapel", capital(side.word()));
            a.choice(ui, &label, lapel.side == side, change(LapelWear { side, ..*lapel }), actions);
        }
        for (label, hold) in [("Two pins", LapelHold::Pins), ("Magnets", LapelHold::Magnets)] {
            a.choice(ui, label, lapel.hold == hold, change(LapelWear { hold, ..*lapel }), actions);
        }
    });
}
