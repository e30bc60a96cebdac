//! Everything about the wrist sheet that is no part of the order: the view and the hand, the tray, what of the checks is
//! shown, and the layouts on offer.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::Rect;

use crate::app::action::Action;
use crate::app::context::Inputs;
use crate::app::picture::pencil::area_of;
use crate::app::sheet::layouts::Layouts;
use crate::app::view::{ClientView, ShopView, frame_to_fit};
use crate::command::Command;
use crate::piece::{NewPart, Question};
use crate::session::Session;
use crate::set_out::next_place;
use crate::sheet::{Grip, Held, LIFE_SIZE, Sheet, SheetInput};
use crate::stock::{Role, StockId};

/// No piece is shown larger than this when it comes onto the sheet, points in a millimetre.
pub(crate) const SCALE_AT_FIRST: f64 = LIFE_SIZE * 1.35;

/// The wrist sheet as it stands.
pub(crate) struct SheetRoom {
    pub(crate) hand: Sheet,
    pub(crate) tray: Role,
    /// The so manyth piece on the sheet: its trays stand at their beginning.
    pub(crate) nth_piece: u64,
    /// What comes first in the trays, and of which piece and size.
    first_in_trays: (u64, Option<String>, Vec<StockId>),
    colours_chosen: BTreeMap<StockId, Arc<str>>,
    /// Whether the whole piece is shown in the room there is.
    pub(crate) fitted: bool,
    pub(crate) dragging_from_tray: bool,
    /// Whether the sheet is to get the keyboard.
    pub(crate) wants_focus: bool,
    pub(crate) checks: ChecksShown,
    pub(crate) layouts: Option<Layouts>,
}

/// What of the checks is shown.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct ChecksShown {
    /// The one that was tapped: what it found and its remedies are shown until it is tapped again.
    pub(crate) pointed_at: Option<Question>,
    /// The one that the pointer or the focus rests on: what it found is shown meanwhile.
    pub(crate) hovered: Option<Question>,
    /// The one that is to be ignored, while the reason is asked for.
    pub(crate) asked_why: Option<Question>,
    /// Whether those that passed are shown.
    pub(crate) passed: bool,
    /// Whether the client has asked what could be added.
    pub(crate) asked_for_more: bool,
}

impl SheetRoom {
    pub(crate) fn new() -> Self {
        Self {
            hand: Sheet::new(),
            tray: Role::Bloom,
            nth_piece: 0,
            first_in_trays: (0, None, Vec::new()),
            colours_chosen: BTreeMap::new(),
            fitted: false,
            dragging_from_tray: false,
            wants_focus: false,
            checks: ChecksShown::default(),
            layouts: None,
        }
    }

    /// Another piece is on the sheet: nothing of the one before is held, selected or shown. The view stays until it is
    /// fitted to the new one.
    pub(crate) fn forget_piece(&mut self) {
        self.hand = Sheet { view: self.hand.view, ..Sheet::new() };
        self.checks = ChecksShown { passed: self.checks.passed, ..ChecksShown::default() };
        self.fitted = false;
        self.layouts = None;
        self.nth_piece += 1;
    }

    /// The view follows the room that the sheet has; a piece that is not fitted yet is shown whole in it.
    pub(crate) fn settle_view(&mut self, rect: Rect, client: &ClientView) {
        let area = area_of(rect);
        if self.hand.view.area != area {
            self.hand.view.area = area;
        }
        if !self.fitted {
            self.hand.view.fit(client.frame_to_fit(client.piece()), SCALE_AT_FIRST);
            self.fitted = true;
        }
    }

    /// What comes first in the trays: what the size promises, and what was on the piece when it came onto the sheet; it stays while blooms
    /// are placed.
    pub(crate) fn first_in_trays(&self) -> &[StockId] {
        &self.first_in_trays.2
    }

    /// Before each frame: another piece or another size puts other things first in the trays.
    pub(crate) fn settle_trays(&mut self, client: &ClientView, shop: &ShopView) {
        let size = client.size();
        let of = (self.nth_piece, size.map(|size| size.name.clone()));
        if (self.first_in_trays.0, &self.first_in_trays.1) != (of.0, &of.1) || self.first_in_trays.2.is_empty() {
            let lines = size.map(|_| &shop.derived.stems.lines).into_iter().flatten();
            let first = lines.map(|line| line.stock.clone()).collect();
            self.first_in_trays = (of.0, of.1, first);
        }
    }

    /// Lets go of parts that are no longer on the piece.
    pub(crate) fn forget_gone(&mut self, session: &Session) {
        self.hand.forget_gone(session.piece());
    }

    /// Takes in what was done; returns what follows for the order.
    pub(crate) fn handle(&mut self, input: &SheetInput, session: &Session) -> Vec<Command> {
        let grip = Grip { piece: session.piece(), settled: session.settled_piece(), stock: session.stock() };
        self.hand.handle(input, grip)
    }

    /// The colour in which a botanical is taken from its tray.
    pub(crate) fn colour_for(&self, id: &StockId, client: &ClientView) -> Arc<str> {
        let usual = || client.goods.get(id).map(crate::app::view::Good::usual_colour);
        self.colours_chosen.get(id).cloned().or_else(usual).unwrap_or_else(|| Arc::from("white"))
    }

    /// From now on a botanical is taken in this colour.
    pub(crate) fn choose_colour(&mut self, id: StockId, colour: Arc<str>) {
        self.colours_chosen.insert(id, colour);
    }

    /// Takes a bloom into the hand.
    pub(crate) fn pick(&mut self, id: &StockId, client: &ClientView, session: &Session) {
        let colour = self.colour_for(id, client);
        let place = next_place(session.piece(), session.stock());
        if let Some(botanical) = session.stock().botanical(id) {
            let outward = botanical.form.is_long();
            self.hand.pick(NewPart::usual(botanical, colour, place), outward);
            self.wants_focus = true;
        }
    }

    /// After a bloom was placed: when the last one promised has been put on, the hand is empty again.
    pub(crate) fn after_placing(&mut self, session: &mut Session) {
        let Held::FromTray { new, .. } = &self.hand.held else { return };
        let role = new.role;
        let derived = session.derived();
        let lines = || derived.stems.lines.iter().filter(|line| line.role == role);
        let is_complete = session.size().is_some() && lines().count() > 0 && lines().all(|line| line.to_place == 0);
        if is_complete {
            self.hand.held = Held::Nothing;
            self.hand.selected = session.piece().parts().last().map(|part| part.id).into_iter().collect();
        } else if let Held::FromTray { new, .. } = &mut self.hand.held {
            new.centre = next_place(session.piece(), session.stock());
        }
    }

    /// Before each frame: what the search has found meanwhile.
    pub(crate) fn poll_layouts(&mut self, inputs: &Inputs<'_>) -> Vec<Action> {
        let tray = self.could_go_next(inputs.session);
        self.layouts.as_mut().map(|layouts| layouts.poll(inputs, tray)).unwrap_or_default()
    }

    /// What the piece holds already, in its colours, and what stands in the tray; nothing that this wearer must not get.
    pub(crate) fn could_go_next(&self, session: &Session) -> Vec<(StockId, Arc<str>)> {
        let stock = session.stock();
        let held = session.piece().parts().iter().map(|p| (p.stock.clone(), Arc::clone(&p.colour)));
        let in_tray = stock.offered().filter(|b| b.role == self.tray);
        let wearers = session.wearers_order();
        let stops = crate::book::WearerStops::of(&wearers, stock);
        let colour = |b: &crate::stock::Botanical| {
            let usual = || crate::app::view::Good::of(b).usual_colour();
            self.colours_chosen.get(&b.id).cloned().unwrap_or_else(usual)
        };
        let in_tray = in_tray.map(|b| (b.id.clone(), colour(b)));
        let mut all: Vec<(StockId, Arc<str>)> = Vec::new();
        for (id, colour) in held.chain(in_tray) {
            let is_new = all.iter().all(|(other, _)| *other != id);
            if is_new && stops.may_propose(&id) {
                all.push((id, colour));
            }
        }
        all
    }
}

/// The view of an order in a window of the usual size, that no one has touched yet.
pub(crate) fn view_at_first(session: &Session) -> crate::sheet::View {
    /// Where the sheet lies in it, points.
    const AREA: kurbo::Rect = kurbo::Rect::new(84.0, 64.0, 1034.0, 514.0);
    let mut view = crate::sheet::View { area: AREA, ..crate::sheet::View::new() };
    view.fit(frame_to_fit(session.piece(), session.stock()), SCALE_AT_FIRST);
    view
}
