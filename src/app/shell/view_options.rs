//! The looks of the sheet: the tone of the arm, and what stands beside the piece so that its size can be seen. They last as
//! long as the window and are never kept in an order.

use egui::{RichText, Role, Sense, Stroke, Ui, WidgetInfo, vec2};

use crate::app::action::Action;
use crate::app::sheet::colour_vision;
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, TARGET, colour_of, strong};
use crate::colour::{Rgb, Vision};
use crate::scene::Skin;
use crate::units::LengthUnit;

/// What stands beside the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Beside {
    /// A ruler along two edges.
    Ruler,
    /// A coin that everybody has in hand.
    Coin,
    /// Nothing.
    Nothing,
}

/// How the sheet looks.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Looks {
    pub(crate) skin: Skin,
    pub(crate) beside: Beside,
    /// Whether the cloth of the dress lies under the piece, where its colour is known.
    pub(crate) cloth: bool,
    /// Through which eyes the piece is seen; none are the usual ones.
    pub(crate) eyes: Option<Vision>,
    /// In which unit lengths are told; none is as they were typed.
    pub(crate) lengths: Option<LengthUnit>,
    /// Whether the fold is open.
    pub(crate) open: bool,
}

impl Looks {
    pub(crate) fn new() -> Self {
        Self { skin: Skin::Plain, beside: Beside::Ruler, cloth: true, eyes: None, lengths: None, open: false }
    }
}

/// In which units lengths can be told.
const LENGTHS: [(&str, Option<LengthUnit>); 3] =
    [("As typed", None), ("mm", Some(LengthUnit::Millimetre)), ("in", Some(LengthUnit::FractionInch))];

/// The unit that was kept under this word, and the word for it.
pub(crate) fn lengths_of_word(word: &str) -> Option<LengthUnit> {
    LENGTHS.iter().find(|(label, _)| *label == word).and_then(|(_, unit)| *unit)
}

pub(crate) fn word_of_lengths(unit: Option<LengthUnit>) -> &'static str {
    LENGTHS.iter().find(|(_, of)| *of == unit).map_or(LENGTHS[0].0, |(label, _)| label)
}

/// A coin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Coin {
    pub(crate) name: &'static str,
    pub(crate) diameter_mm: f64,
}

impl Coin {
    /// The coin of about an inch that goes with a currency. Diameters as the mints publish them, from memory.
    pub(crate) fn of(currency: &str) -> Self {
        match currency.trim() {
            "\u{a3}" => Self { name: "1 pound, 23 mm", diameter_mm: 23.43 },
            "$" => Self { name: "a quarter, 24 mm", diameter_mm: 24.26 },
            _ => Self { name: "1 euro, 23 mm", diameter_mm: 23.25 },
        }
    }
}

/// The button on the strip.
pub(crate) fn button_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    let weight = if w.looks.open { Weight::Chosen } else { Weight::Plain };
    let pressed = button(ui, &c, "Look", weight).on_hover_text("Tone of the arm, ruler or coin (V)");
    if pressed.clicked() {
        actions.push(Action::ShowLooks);
    }
}

/// The fold, over the upper edge of the sheet.
pub(crate) fn looks_ui(ui: &Ui, w: &Window, actions: &mut Vec<Action>) {
    if !w.looks.open {
        return;
    }
    let c = w.colours();
    let card = egui::Frame::new().fill(c.card).stroke((1.0, c.line)).corner_radius(12).inner_margin(12);
    let corner = kurbo::Point::new(w.sheet.view.area.x0 + 60.0, w.sheet.view.area.y0 + 8.0);
    let area = egui::Area::new(egui::Id::unique("looks")).fixed_pos(crate::app::widgets::points::pos(corner));
    area.order(egui::Order::Middle).show(ui.ctx(), |ui| {
        card.show(ui, |ui| {
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                ui.label(RichText::new("Arm").font(strong(15.0)).color(c.ink));
                for skin in Skin::ALL {
                    if swatch(ui, &c, skin.rgb(), skin.word(), w.looks.skin == skin).clicked() {
                        actions.push(Action::Skin(skin));
                    }
                }
            });
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                ui.label(RichText::new("Beside it").font(strong(15.0)).color(c.ink));
                for (label, beside) in [("Ruler", Beside::Ruler), ("Coin", Beside::Coin), ("Nothing", Beside::Nothing)]
                {
                    let weight = if w.looks.beside == beside { Weight::Chosen } else { Weight::Plain };
                    if button(ui, &c, label, weight).clicked() {
                        actions.push(Action::Beside(beside));
                    }
                }
                let weight = if w.looks.cloth { Weight::Chosen } else { Weight::Plain };
                if button(ui, &c, "Dress behind", weight).clicked() {
                    actions.push(Action::Cloth(!w.looks.cloth));
                }
            });
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                ui.label(RichText::new("Eyes").font(strong(15.0)).color(c.ink));
                colour_vision::choices_ui(ui, &c, w.looks.eyes, actions);
            });
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                ui.label(RichText::new("Lengths").font(strong(15.0)).color(c.ink));
                for (label, unit) in LENGTHS {
                    let weight = if w.looks.lengths == unit { Weight::Chosen } else { Weight::Plain };
                    if button(ui, &c, label, weight).clicked() {
                        actions.push(Action::Lengths(unit));
                    }
                }
                if button(ui, &c, "Close", Weight::Plain).clicked() {
                    actions.push(Action::ShowLooks);
                }
            });
        });
    });
}

/// A patch of colour, as large as a fingertip; its name is what a screen reader says.
pub(crate) fn swatch(ui: &mut Ui, c: &Colours, rgb: Rgb, name: &str, chosen: bool) -> egui::Response {
    let (rect, response) = ui.allocate_exact_size(vec2(TARGET, TARGET), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, chosen, name));
    let edge = if chosen { Stroke::new(3.0, c.ink) } else { Stroke::new(1.0, c.soft) };
    let edge = if response.has_focus() { Stroke::new(3.0, c.rose) } else { edge };
    plate(ui.painter(), rect.shrink(5.0), colour_of(rgb), edge);
    response.on_hover_text(name)
}
