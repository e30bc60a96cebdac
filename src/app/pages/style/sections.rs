//! The page "House style" as it is painted: what changes on the piece in front, and the sections of the style under it. For
//! the designer alone.

use egui::{Align2, Rect, RichText, ScrollArea, Sense, Stroke, Ui, pos2, vec2};

use crate::app::context::Requests;
use crate::app::pages::style::rows::{figures_ui, new_name_ui, question_ui};
use crate::app::pages::style::styles::styles_ui;
use crate::app::pages::style::{Section, StyleAction, StyleUi};
use crate::app::parts::page_head::head_ui;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{strong, words};
use crate::piece::{MakingHow, Question, StyleFigure, WEIGHTS_FROM, making_words};
use crate::stock::Role;

pub(super) fn page_ui(ui: &mut Ui, p: &StyleUi<'_>, requests: &mut Requests<StyleAction>) {
    let line = format!("In use: {}. Changes are saved at once.", p.shop.style.name);
    head_ui(ui, p.cx, "Shop rules", &line, &mut requests.shared);
    let own = &mut requests.own;
    effect_ui(ui, p);
    sections_ui(ui, p, own);
    ScrollArea::vertical().id_salt(p.page.section.label()).auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(8.0, 4.0);
        match p.page.section {
            Section::Shape => shape_ui(ui, p, own),
            Section::Questions => questions_ui(ui, p, own),
            Section::Sizes => sizes_ui(ui, p, own),
            Section::Minutes => minutes_ui(ui, p, own),
            Section::Money => money_ui(ui, p, own),
            Section::Styles => styles_ui(ui, p, own),
        }
    });
}

/// Height of the card with what changes, points.
const EFFECT_HIGH: f32 = 58.0;

/// What the piece in front makes of it: each figure now, and what it was when the page was opened; in its place what cannot
/// be taken, while it is typed.
fn effect_ui(ui: &mut Ui, p: &StyleUi<'_>) {
    let c = p.cx.colours;
    let effect = p.page.effect();
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), EFFECT_HIGH), Sense::hover());
    let refused = p.page.typed.as_ref().and_then(|t| t.refused.clone());
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
        let name = format!("This piece, {}: {now}", told.what.to_lowercase());
        area.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &name));
    }
}

fn sections_ui(ui: &mut Ui, p: &StyleUi<'_>, own: &mut Vec<StyleAction>) {
    let c = p.cx.colours;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        for (n, section) in Section::ALL.into_iter().enumerate() {
            let weight = if p.page.section == section { Weight::Chosen } else { Weight::Plain };
            let tip = format!("{} (key {})", section.label(), n + 1);
            if button(ui, &c, section.label(), weight).on_hover_text(tip).clicked() {
                own.push(StyleAction::ShowSection(section));
            }
        }
    });
}

pub(super) fn note(ui: &mut Ui, p: &StyleUi<'_>, text: &str) {
    ui.label(RichText::new(text).font(words(14.0)).color(p.cx.colours.soft));
}

fn heading(ui: &mut Ui, p: &StyleUi<'_>, text: &str) {
    ui.add_space(2.0);
    ui.label(RichText::new(text).font(strong(16.0)).color(p.cx.colours.ink));
}

/// Figures with their own names.
fn named(p: &StyleUi<'_>, figures: &[StyleFigure]) -> Vec<(StyleFigure, String)> {
    figures.iter().map(|f| (*f, f.name(&p.shop.style))).collect()
}

fn shape_ui(ui: &mut Ui, p: &StyleUi<'_>, own: &mut Vec<StyleAction>) {
    use StyleFigure as F;
    note(ui, p, "Your shop\u{2019}s limits. None are published for wrist pieces.");
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
    figures_ui(ui, p, &named(p, &figures), own);
}

fn questions_ui(ui: &mut Ui, p: &StyleUi<'_>, own: &mut Vec<StyleAction>) {
    /// Questions stand beside each other in so many columns.
    const COLUMNS: usize = 3;
    let total: f64 = p.shop.style.weights.values().sum();
    note(ui, p, WEIGHTS_FROM);
    note(ui, p, &format!("Points total {total:.0}. Untick a check to switch it off."));
    let width = (ui.available_width() - 8.0 * (COLUMNS - 1) as f32) / COLUMNS as f32;
    for row in Question::ALL.chunks(COLUMNS) {
        ui.horizontal(|ui| {
            for question in row {
                question_ui(ui, p, *question, width, own);
            }
        });
    }
}

fn sizes_ui(ui: &mut Ui, p: &StyleUi<'_>, own: &mut Vec<StyleAction>) {
    let c = p.cx.colours;
    let style = std::sync::Arc::clone(&p.shop.style);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 4.0);
        for (n, size) in style.sizes.iter().enumerate() {
            let weight = if n == p.page.size { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, &size.name, weight).clicked() {
                own.push(StyleAction::Size(n));
            }
        }
    });
    let n = p.page.size;
    let Some(size) = style.sizes.get(n) else { return };
    let mut figures = named(p, &[StyleFigure::SizeLength(n), StyleFigure::SizeWidth(n)]);
    for (nth, held) in size.holds.iter().enumerate() {
        let name = p.shop.stock.botanical(&held.stock).map_or_else(|| held.stock.to_string(), |b| b.name.clone());
        figures.push((StyleFigure::Held(n, nth), format!("{name}, {}", held.colour)));
    }
    figures_ui(ui, p, &figures, own);
    ui.add_space(6.0);
    heading(ui, p, "Save this piece as a size");
    ui.horizontal(|ui| {
        new_name_ui(ui, p, 220.0, own);
        if button(ui, &c, "Save as size", Weight::Plain).clicked() {
            own.push(StyleAction::KeepAsSize);
        }
        if button(ui, &c, &format!("Delete {}", size.name), Weight::Plain).clicked() {
            own.push(StyleAction::TakeOutSize);
        }
    });
    note(ui, p, "A size of the same name is replaced. Undo brings it back.");
}

fn minutes_ui(ui: &mut Ui, p: &StyleUi<'_>, own: &mut Vec<StyleAction>) {
    use StyleFigure as F;
    note(ui, p, "Your own minutes: base and bow once, then each flower, leaf or trim.");
    let mut figures = vec![F::WristBase, F::LapelBase, F::BowMinutes];
    figures.extend(Role::ALL.map(F::Each));
    figures_ui(ui, p, &named(p, &figures), own);
}

fn money_ui(ui: &mut Ui, p: &StyleUi<'_>, own: &mut Vec<StyleAction>) {
    use StyleFigure as F;
    let c = p.cx.colours;
    let prices = &p.shop.style.prices;
    figures_ui(ui, p, &named(p, &[F::FreshTimes, F::HardTimes]), own);
    ui.horizontal(|ui| {
        for how in MakingHow::ALL {
            let weight = if MakingHow::of(prices.making) == how { Weight::Chosen } else { Weight::Plain };
            if button(ui, &c, how.label(), weight).clicked() && weight == Weight::Plain {
                own.push(StyleAction::How(how));
            }
        }
    });
    note(ui, p, making_words(prices.making));
    figures_ui(ui, p, &named(p, &[F::Making, F::RoundUpTo, F::Deposit, F::Rush, F::Spare]), own);
    note(ui, p, "Currency and tax stand on the Shop page (F5).");
}
