//! The shop page as it is painted: what is missing, the letterhead as papers print it, and under it the fields in groups.

use egui::{Align2, Image, RichText, ScrollArea, Sense, Stroke, TextEdit, Ui, vec2};

use super::{ShopAction, ShopField, ShopPage};
use crate::app::action::Action;
use crate::app::context::{Context, Requests};
use crate::app::parts::page_head::head_ui;
use crate::app::parts::tap_keys::watch_page_field;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{GRID, TARGET, strong, words};
use crate::book::{DateStyle, Day, Hour, HourStyle, Written};
use crate::piece::TaxHow;
use crate::store::ShopDetails;
use crate::units::{COMMON_CURRENCIES, Currency, DecimalMark};

/// A day by which the ways of writing are told apart.
const SAMPLE_DAY: &str = "2026-12-05";
/// Height kept for the letterhead, points.
const SAMPLE_HIGH: f32 = 124.0;

/// What the groups are painted from, and where what is asked for goes.
struct ShopForm<'a, 'b> {
    cx: &'a Context<'a>,
    page: &'a ShopPage,
    details: &'a ShopDetails,
    requests: &'b mut Requests<ShopAction>,
}

pub(super) fn page_ui(ui: &mut Ui, cx: &Context<'_>, page: &ShopPage, requests: &mut Requests<ShopAction>) {
    let Some(history) = &page.history else { return };
    head_ui(ui, cx, "Shop", "Changes are saved at once.", &mut requests.shared);
    let mut form = ShopForm { cx, page, details: history.now(), requests };
    form.missing_ui(ui);
    form.sample_ui(ui);
    ScrollArea::vertical().id_salt("shop form").auto_shrink([false, false]).show(ui, |ui| {
        let half = (ui.available_width() - 3.0 * GRID) / 2.0;
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0 * GRID;
            column_ui(ui, half, |ui| {
                form.clients_ui(ui);
                form.logo_ui(ui);
            });
            column_ui(ui, half, |ui| {
                form.currency_ui(ui);
                form.tax_ui(ui);
                form.hours_ui(ui);
            });
        });
    });
}

fn column_ui(ui: &mut Ui, width: f32, add: impl FnOnce(&mut Ui)) {
    ui.vertical(|ui| {
        ui.set_width(width);
        ui.spacing_mut().item_spacing = vec2(6.0, 4.0);
        add(ui);
    });
}

impl ShopForm<'_, '_> {
    fn missing_ui(&self, ui: &mut Ui) {
        let c = self.cx.colours;
        let missing = self.details.letterhead.missing();
        let (text, ink) = match &missing[..] {
            [] => ("So it stands at the top of every client\u{2019}s paper:".to_owned(), c.soft),
            missing => (missing.join(" "), c.rose),
        };
        ui.add(egui::Label::new(RichText::new(text).font(words(15.5)).color(ink)).truncate());
    }

    /// The letterhead on a strip of white paper, as wide as there is room and whole.
    fn sample_ui(&self, ui: &mut Ui) {
        let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), SAMPLE_HIGH), Sense::hover());
        let said = format!("Letterhead: {}", self.details.letterhead.or_your_shop());
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &said));
        plate(ui.painter(), rect, egui::Color32::WHITE, Stroke::new(1.0, self.cx.colours.line));
        let Some(texture) = self.page.sample.texture() else { return };
        let size = texture.size_vec2();
        // Within the edge, whose corners are round.
        let scale = ((rect.width() - 12.0) / size.x).min((rect.height() - 4.0) / size.y);
        let at = Align2::CENTER_CENTER.align_size_within_rect(size * scale, rect.shrink(2.0));
        Image::new((texture.id(), size)).paint_at(ui, at);
    }

    fn clients_ui(&mut self, ui: &mut Ui) {
        let fields = [
            ShopField::Name,
            ShopField::Address,
            ShopField::Phone,
            ShopField::Email,
            ShopField::Web,
            ShopField::TaxNumber,
        ];
        self.heading(ui, "What clients read");
        for field in fields {
            self.named_field(ui, field);
        }
        let on = self.details.letterhead.on_picture;
        ui.horizontal(|ui| {
            self.name_ui(ui, "Name under pictures");
            self.choice(ui, "No", !on, ShopAction::NameOnPictures(false));
            self.choice(ui, "Yes", on, ShopAction::NameOnPictures(true));
        });
    }

    fn hours_ui(&mut self, ui: &mut Ui) {
        self.heading(ui, "Days and hours");
        self.named_field(ui, ShopField::Hours);
        let now = self.details.written;
        ui.horizontal(|ui| {
            self.name_ui(ui, "Dates");
            for date in DateStyle::ALL {
                let day = Day::parse(SAMPLE_DAY).map(|day| day.written(date)).unwrap_or_default();
                self.choice(ui, &day, now.date == date, ShopAction::Written(Written { date, ..now }));
            }
        });
        ui.horizontal(|ui| {
            self.name_ui(ui, "Hours");
            for hour in HourStyle::ALL {
                let two = Hour::new(14, 0).map(|two| two.written(hour)).unwrap_or_default();
                self.choice(ui, &two, now.hour == hour, ShopAction::Written(Written { hour, ..now }));
            }
        });
    }

    fn logo_ui(&mut self, ui: &mut Ui) {
        self.heading(ui, "Logo");
        let c = self.cx.colours;
        let has_logo = self.details.letterhead.logo.is_some();
        ui.horizontal(|ui| {
            if button(ui, &c, "Choose picture\u{2026}", Weight::Plain).clicked() {
                self.requests.shared.push(Action::AskForLogo);
            }
            if has_logo && button(ui, &c, "Remove logo", Weight::Plain).clicked() {
                self.requests.own.push(ShopAction::RemoveLogo);
            }
            ui.label(RichText::new("PNG or JPEG; you can drop it here.").font(words(14.0)).color(c.soft));
        });
    }

    fn currency_ui(&mut self, ui: &mut Ui) {
        let now = self.details.money.as_ref().map(|money| money.currency.clone()).unwrap_or_default();
        self.heading(ui, "Currency");
        ui.horizontal_wrapped(|ui| {
            for common in COMMON_CURRENCIES {
                let chosen = common.sign == now.sign;
                let weight = if chosen { Weight::Chosen } else { Weight::Plain };
                if button(ui, &self.cx.colours, common.sign, weight).on_hover_text(common.codes).clicked() && !chosen {
                    self.requests.own.push(ShopAction::Currency(common.currency()));
                }
            }
            self.field(ui, ShopField::Sign, 64.0);
        });
        ui.horizontal(|ui| {
            self.name_ui(ui, "Prices");
            for after in [false, true] {
                for decimal in DecimalMark::ALL {
                    let written = Currency { after, decimal, ..now.clone() };
                    self.choice(ui, &written.with("36.50"), now == written, ShopAction::Currency(written));
                }
            }
        });
    }

    fn tax_ui(&mut self, ui: &mut Ui) {
        self.heading(ui, "Tax");
        let how = self.details.money.as_ref().and_then(|money| money.tax.as_ref()).map(|tax| tax.how);
        ui.horizontal(|ui| {
            let ways =
                [("No tax", None), ("Added on top", Some(TaxHow::Added)), ("In the price", Some(TaxHow::Included))];
            for (label, way) in ways {
                self.choice(ui, label, how == way, ShopAction::Taxed(way));
            }
        });
        if how.is_none() {
            let c = self.cx.colours;
            ui.label(RichText::new("Check the tax rules where you are.").font(words(14.0)).color(c.soft));
            return;
        }
        ui.horizontal(|ui| {
            self.name_ui(ui, "Name, percent");
            self.field(ui, ShopField::TaxName, 150.0);
            self.field(ui, ShopField::TaxPercent, 70.0);
            ui.label(RichText::new("%").font(words(16.0)).color(self.cx.colours.ink));
        });
    }

    fn heading(&self, ui: &mut Ui, text: &str) {
        ui.add_space(6.0);
        ui.label(RichText::new(text).font(strong(16.5)).color(self.cx.colours.ink));
    }

    /// What a row is called, as wide as those above and below it.
    fn name_ui(&self, ui: &mut Ui, name: &str) {
        let (rect, _) = ui.allocate_exact_size(vec2(NAME_WIDE, TARGET), Sense::hover());
        ui.painter().text(rect.left_center(), Align2::LEFT_CENTER, name, words(15.5), self.cx.colours.ink);
    }

    fn choice(&mut self, ui: &mut Ui, label: &str, chosen: bool, action: ShopAction) {
        let weight = if chosen { Weight::Chosen } else { Weight::Plain };
        if button(ui, &self.cx.colours, label, weight).clicked() && !chosen {
            self.requests.own.push(action);
        }
    }

    fn named_field(&mut self, ui: &mut Ui, field: ShopField) {
        ui.horizontal_top(|ui| {
            self.name_ui(ui, field.name());
            let width = ui.available_width() - 8.0;
            self.field(ui, field, width);
        });
    }

    fn field(&mut self, ui: &mut Ui, field: ShopField, width: f32) {
        let c = self.cx.colours;
        let typed = self.page.typed.as_ref().filter(|typed| typed.field == field);
        let refused = typed.is_some_and(|typed| typed.refused.is_some());
        let mut text = typed.map_or_else(|| field.shown(self.details), |typed| typed.words.clone());
        let edit = if field.has_lines() {
            TextEdit::multiline(&mut text).desired_rows(2)
        } else {
            TextEdit::singleline(&mut text)
        };
        let edit = edit
            .id(egui::Id::unique(("shop field", field.name())))
            .hint_text(field.hint())
            .font(words(16.5))
            .text_color(if refused { c.rose } else { c.ink })
            .desired_width(width)
            .min_size(vec2(width, TARGET))
            .align(Align2::LEFT_CENTER)
            .char_limit(field.longest());
        let response = ui.add(edit).accessible_name(field.name());
        if response.gained_focus() {
            response.scroll_to_me(None);
        }
        let happened = watch_page_field(&response, self.cx.typing, (field.name(), field.keys()), &text);
        self.requests.own.extend(happened.written.map(|words| ShopAction::Write(field, words)));
        self.requests.own.extend(happened.is_left.then_some(ShopAction::Leave));
        self.requests.own.extend(happened.keys.into_iter().map(ShopAction::Taps));
    }
}

/// Width of the names of rows, points.
const NAME_WIDE: f32 = 142.0;
