//! The page "House style" as it is painted: what changes on the piece in front, and the sections of the style under it. For
//! the designer alone.

use egui::{Align2, Rect, RichText, ScrollArea, Sense, Stroke, Ui, pos2, vec2};

use crate::app::action::Action;
use crate::app::pages::page::head_ui;
use crate::app::pages::style::{Section, StyleWords, Wish};
use crate::app::pages::style_files::styles_ui;
use crate::app::pages::style_rows::{figures_ui, question_ui, style_words_ui};
use crate::app::shell::window::Window;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{strong, words};
use crate::piece::{MakingHow, Question, StyleFigure, TaxHow, WEIGHTS_FROM, making_words};
use crate::stock::Role;

pub(crate) fn house_ui(ui: &mut Ui, w: &mut Window, actions: &mut Vec<Action>) {
    let line = format!("In use: {}. What you change here is kept at once.", w.session.style().name);
    head_ui(ui, w, "House style", &line, actions);
    effect_ui(ui, w);
    sections_ui(ui, w, actions);
    ScrollArea::vertical().id_salt(w.desk.section.label()).auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(8.0, 4.0);
        match w.desk.section {
            Section::Shape => shape_ui(ui, w, actions),
            Section::Questions => questions_ui(ui, w, actions),
            Section::Sizes => sizes_ui(ui, w, actions),
            Section::Minutes => minutes_ui(ui, w, actions),
            Section::Money => money_ui(ui, w, actions),
            Section::Styles => styles_ui(ui, w, actions),
        }
    });
}

/// Height of the card with what changes, points.
const EFFECT_HIGH: f32 = 58.0;

/// What the piece in front makes of it: each figure now, and what it was when the page was opened; in its place what cannot
/// be taken, while it is typed.
fn effect_ui(ui: &mut Ui, w: &mut Window) {
    let c = w.colours();
    let effect = w.effect_of_house();
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), EFFECT_HIGH), Sense::hover());
    let refused = w.desk.typed.as_ref().and_then(|t| t.refused.clone());
    let edge = if refused.is_some() { Stroke::new(1.5, c.rose) } else { Stroke::new(1.0, c.line) };
    plate(ui.painter(), rect, c.card, edge);
    if let Some(why) = refused {
        let galley = ui.painter().layout(why, words(16.0), c.rose, rect.width() - 24.0);
        let at = Align2::LEFT_CENTER.align_size_within_rect(galley.size(), rect.shrink2(vec2(12.0, 4.0))).min;
        ui.painter().galley(at, galley, c.rose);
        return;
    }
    let wide = (rect.width() - 16.0) / effect.len().max(1) as f32;
    for (n, told) in effect.iter().enumerate() {
        let cell = Rect::from_min_size(pos2(rect.min.x + 12.0 + n as f32 * wide, rect.min.y), vec2(wide, EFFECT_HIGH));
        let changed = told.before != told.after;
        ui.painter().text(cell.min + vec2(0.0, 6.0), Align2::LEFT_TOP, told.what, words(14.0), c.soft);
        let now = if changed { format!("{} \u{2192} {}", told.before, told.after) } else { told.after.clone() };
        let ink = if changed { c.rose } else { c.ink };
        ui.painter().text(cell.left_bottom() - vec2(0.0, 6.0), Align2::LEFT_BOTTOM, &now, strong(17.0), ink);
        let area = ui.interact(cell, ui.scope_id().with(("effect", n)), Sense::hover());
        let name = format!("On the piece in front, {}: {now}", told.what.to_lowercase());
        area.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &name));
    }
}

fn sections_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        for (n, section) in Section::ALL.into_iter().enumerate() {
            let weight = if w.desk.section == section { Weight::Chosen } else { Weight::Plain };
            let tip = format!("{} (key {})", section.label(), n + 1);
            if button(ui, &c, section.label(), weight).on_hover_text(tip).clicked() {
                actions.push(Action::House(Wish::Show(section)));
            }
        }
    });
}

pub(crate) fn note(ui: &mut Ui, w: &Window, text: &str) {
    ui.label(RichText::new(text).font(words(14.0)).color(w.colours().soft));
}

fn heading(ui: &mut Ui, w: &Window, text: &str) {
    ui.add_space(2.0);
    ui.label(RichText::new(text).font(strong(16.0)).color(w.colours().ink));
}

/// Figures with their own names.
fn named(w: &Window, figures: &[StyleFigure]) -> Vec<(StyleFigure, String)> {
    figures.iter().map(|f| (*f, f.name(w.session.style()))).collect()
}

fn shape_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    use StyleFigure as F;
    note(ui, w, "Nobody has published limits for a wrist piece: these are the rules of the shop.");
    let figures = [
        F::WidthOfGirth,
        F::Height,
        F::RatioFrom,
        F::RatioTo,
        F::FullFrom,
        F::FullTo,
        F::Room,
        F::HiddenShare,
        F::Protrusion,
        F::Mass,
        F::UnevenFrom,
    ];
    figures_ui(ui, w, &named(w, &figures), actions);
}

fn questions_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    /// Questions stand beside each other in so many columns.
    const COLUMNS: usize = 3;
    let total: f64 = w.session.style().weights.values().sum();
    note(ui, w, WEIGHTS_FROM);
    note(ui, w, &format!("Together they weigh {total:.0}. A question that is tapped off is not asked of any piece."));
    let width = (ui.available_width() - 8.0 * (COLUMNS - 1) as f32) / COLUMNS as f32;
    for row in Question::ALL.chunks(COLUMNS) {
        ui.horizontal(|ui| {
            for question in row {
                question_ui(ui, w, *question, width, actions);
            }
        });
    }
}

fn sizes_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    let c = w.colours();
    let style = std::sync::Arc::clone(w.session.style());
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 4.0);
        for (n, size) in style.sizes.iter().enumerate() {
            let weight = if n == w.desk.size { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, &size.name, weight).clicked() {
                actions.push(Action::House(Wish::Size(n)));
            }
        }
    });
    let n = w.desk.size;
    let Some(size) = style.sizes.get(n) else { return };
    let mut figures = named(w, &[StyleFigure::SizeLength(n), StyleFigure::SizeWidth(n)]);
    for (nth, held) in size.holds.iter().enumerate() {
        let name = w.session.stock().botanical(&held.stock).map_or_else(|| held.stock.to_string(), |b| b.name.clone());
        figures.push((StyleFigure::Held(n, nth), format!("{name}, {}", held.colour)));
    }
    figures_ui(ui, w, &figures, actions);
    ui.add_space(6.0);
    heading(ui, w, "The piece in front, as a size of the house");
    ui.horizontal(|ui| {
        style_words_ui(ui, w, StyleWords::NewName, 220.0, actions);
        if button(ui, &c, "Keep it as a size", Weight::Plain).clicked() {
            actions.push(Action::House(Wish::KeepAsSize));
        }
        if button(ui, &c, &format!("Take {} out", size.name), Weight::Plain).clicked() {
            actions.push(Action::House(Wish::TakeOutSize));
        }
    });
    note(ui, w, "A size of the same name is replaced; undo brings it back.");
}

fn minutes_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    use StyleFigure as F;
    note(ui, w, "Your own measured minutes: base and finishing once a piece, then each part.");
    let mut figures = vec![F::WristBase, F::LapelBase, F::BowMinutes];
    figures.extend(Role::ALL.map(F::Each));
    figures_ui(ui, w, &named(w, &figures), actions);
}

fn money_ui(ui: &mut Ui, w: &Window, actions: &mut Vec<Action>) {
    use StyleFigure as F;
    let c = w.colours();
    let prices = w.session.style().prices.clone();
    figures_ui(ui, w, &named(w, &[F::FreshTimes, F::HardTimes]), actions);
    ui.horizontal(|ui| {
        for how in MakingHow::ALL {
            let weight = if MakingHow::of(prices.making) == how { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, how.label(), weight).clicked() && weight == Weight::Plain {
                actions.push(Action::House(Wish::How(how)));
            }
        }
    });
    note(ui, w, making_words(prices.making));
    figures_ui(ui, w, &named(w, &[F::Making, F::RoundUpTo, F::Deposit, F::Rush, F::Spare, F::TaxPercent]), actions);
    ui.horizontal(|ui| {
        note(ui, w, "Sign before a price");
        style_words_ui(ui, w, StyleWords::Currency, 64.0, actions);
        let Some(tax) = &prices.tax else {
            note(ui, w, "No tax. Which one applies is a matter of local rules.");
            return;
        };
        note(ui, w, "The tax is called");
        style_words_ui(ui, w, StyleWords::TaxName, 110.0, actions);
        for (how, label) in [(TaxHow::Added, "Added on top"), (TaxHow::Included, "In the price")] {
            let weight = if tax.how == how { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, label, weight).clicked() && tax.how != how {
                actions.push(Action::House(Wish::Taxed(how)));
            }
        }
    });
}
