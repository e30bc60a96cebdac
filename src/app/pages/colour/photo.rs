//! A photo of the dress: shown, tapped on the fabric, corrected by a grey card, and moved from shade to light.

use std::sync::Arc;

use egui::{
    Align2, Color32, EventFilter, Key, Modifiers, Pos2, Rect, Response, RichText, Role, Sense, Slider, Stroke,
    StrokeKind, TextureHandle, TextureOptions, Ui, WidgetInfo, pos2, vec2,
};

use crate::app::action::Action;
use crate::app::context::{Context, Requests};
use crate::app::pages::colour::{ColourAction, named_with_hex};
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::plate::plate;
use crate::app::widgets::theme::{Colours, ROUND, TARGET, colour_of, strong, words};
use crate::app::workers::photo_worker::{FabricPlace, FabricRead, PhotoEvent, PhotoRequest, PhotoSource, PhotoWorker};
use crate::colour::{CardDoubt, GreyCard, Photo, PhotoRegion, Reading, Rgb, USUAL_LIGHT, read_region};
use crate::units::floor_u32;

/// The photo of an order; gone with it.
pub(super) struct DressPhoto {
    worker: Option<PhotoWorker>,
    stand: Stand,
    /// The next tap is for the grey card.
    card_next: bool,
    card: Option<((u32, u32), GreyCard)>,
    light: f64,
    /// Where the keys point.
    cross: (u32, u32),
    read: Option<(FabricRead, TextureHandle)>,
    /// What could not be done, or is doubtful.
    says: Option<String>,
}

/// How far a photo is.
enum Stand {
    Nothing,
    Unpacking(String, f64),
    Here(Arc<Photo>, TextureHandle),
}

impl Default for DressPhoto {
    fn default() -> Self {
        Self {
            worker: None,
            stand: Stand::Nothing,
            card_next: false,
            card: None,
            light: USUAL_LIGHT,
            cross: (0, 0),
            read: None,
            says: None,
        }
    }
}

/// Something asked of the photo.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum PhotoAction {
    /// Read this one.
    Unpack(PhotoSource),
    /// Leave it.
    PutAway,
    /// A tap, pixels from the left and the top.
    Tap(u32, u32),
    /// Whether the next tap is for the grey card.
    CardNext(bool),
    /// Without a card after all.
    NoCard,
    /// From shade (0) to light (1).
    Light(f64),
    /// Where the keys point, pixels from the left and the top.
    Point((u32, u32)),
}

/// From where on a share of clipped pixels makes a colour doubtful.
const DOUBTFUL: f64 = 0.5;

impl DressPhoto {
    pub(super) fn run(&mut self, ctx: &egui::Context, action: PhotoAction) {
        match action {
            PhotoAction::Unpack(source) => {
                let mut worker = self.worker.take().unwrap_or_else(|| PhotoWorker::new(ctx));
                let stand = Stand::Unpacking(source.name(), 0.0);
                worker.request(PhotoRequest::Unpack(source));
                *self = Self { worker: Some(worker), stand, ..Self::default() };
            }
            PhotoAction::PutAway => *self = Self::default(),
            PhotoAction::Tap(x, y) if self.card_next => self.take_card(x, y),
            PhotoAction::Tap(x, y) => {
                self.cross = (x, y);
                self.ask((x, y));
            }
            PhotoAction::CardNext(next) => self.card_next = next,
            PhotoAction::NoCard => {
                self.card = None;
                self.ask_again();
            }
            PhotoAction::Point(at) => self.cross = at,
            PhotoAction::Light(light) => {
                self.light = light;
                self.ask_again();
            }
        }
    }

    fn take_card(&mut self, x: u32, y: u32) {
        let Stand::Here(photo, _) = &self.stand else { return };
        self.cross = (x, y);
        let spot = PhotoRegion::tap(photo, x, y);
        let seen = read_region(photo, &spot, USUAL_LIGHT, None).map(|read| GreyCard::seen_as(read.rgb));
        match seen {
            Some(Ok(card)) => {
                self.card = Some(((x, y), card));
                self.card_next = false;
                self.says = None;
                self.ask_again();
            }
            Some(Err(doubt)) => self.says = Some(doubt.says().to_owned()),
            None => self.says = Some(CardDoubt::TooDark.says().to_owned()),
        }
    }

    fn ask(&mut self, at: (u32, u32)) {
        let (Stand::Here(photo, _), Some(worker)) = (&self.stand, &mut self.worker) else { return };
        let card = self.card.map(|(_, card)| card);
        worker.request(PhotoRequest::Read(FabricPlace { photo: Arc::clone(photo), at, light: self.light, card }));
    }

    fn ask_again(&mut self) {
        if let Some(at) = self.read.as_ref().map(|(read, _)| read.at) {
            self.ask(at);
        }
    }

    /// Takes up what was heard since the last frame. A new photo is read in its middle, where a dress mostly is.
    pub(super) fn poll(&mut self, ctx: &egui::Context) {
        for event in self.worker.as_mut().map(PhotoWorker::poll).unwrap_or_default() {
            match event {
                PhotoEvent::Progress(share) => {
                    if let Stand::Unpacking(_, so_far) = &mut self.stand {
                        *so_far = share;
                    }
                }
                PhotoEvent::Unpacked(unpacked) => {
                    let texture = ctx.load_texture("photo", unpacked.shown, TextureOptions::LINEAR);
                    let middle = (unpacked.photo.width() / 2, unpacked.photo.height() / 2);
                    self.stand = Stand::Here(unpacked.photo, texture);
                    self.cross = middle;
                    self.ask(middle);
                }
                PhotoEvent::Refused(sentence) => *self = Self { says: Some(sentence), ..Self::default() },
                PhotoEvent::Failed => {
                    let sentence = "The photo could not be read completely. Choose another one.".to_owned();
                    *self = Self { says: Some(sentence), ..Self::default() };
                }
                PhotoEvent::Read(read) => self.take_reading(ctx, read),
            }
        }
    }

    fn take_reading(&mut self, ctx: &egui::Context, read: FabricRead) {
        let doubt = match &read.reading {
            None => Some("Nothing can be read there. Tap the dress in the photo."),
            Some(reading) if reading.clipped > DOUBTFUL => {
                Some("Too bright or too dark there for a sure colour. Tap a part in even light.")
            }
            Some(_) => self.profile_doubt(),
        };
        // What was said of a spot that is no grey card stays until another is tapped.
        if !self.card_next || doubt.is_some() {
            self.says = doubt.map(str::to_owned);
        }
        let veil = ctx.load_texture("veil", read.veil.clone(), TextureOptions::LINEAR);
        self.read = Some((read, veil));
    }

    fn profile_doubt(&self) -> Option<&'static str> {
        match &self.stand {
            Stand::Here(photo, _) => photo.profile().doubt(),
            Stand::Nothing | Stand::Unpacking(..) => None,
        }
    }

    /// The colour that was read.
    pub(super) fn reading(&self) -> Option<Reading> {
        self.read.as_ref().and_then(|(read, _)| read.reading)
    }
}

pub(super) fn photo_ui(ui: &mut Ui, cx: &Context<'_>, photo: &DressPhoto, requests: &mut Requests<ColourAction>) {
    let c = cx.colours;
    match &photo.stand {
        Stand::Nothing => nothing_ui(ui, &c, photo.says.as_deref(), requests),
        Stand::Unpacking(name, share) => unpacking_ui(ui, &c, name, *share, requests),
        Stand::Here(here, texture) => {
            // Under the photo: what is said, the reading, the slider, two buttons.
            let high = (ui.available_height() - 3.0 * (TARGET + 6.0) - 26.0).max(90.0);
            view_ui(ui, &c, photo, here, texture, high, requests);
            says_ui(ui, &c, photo);
            reading_ui(ui, &c, photo, requests);
            light_ui(ui, &c, photo, requests);
            card_ui(ui, &c, photo, requests);
        }
    }
}

fn nothing_ui(ui: &mut Ui, c: &Colours, says: Option<&str>, requests: &mut Requests<ColourAction>) {
    if let Some(says) = says {
        ui.label(RichText::new(says).font(words(16.0)).color(c.rose));
    }
    let how = "Open, drop or paste (Ctrl+V) a photo of the dress, JPEG or PNG.";
    ui.label(RichText::new(how).font(words(16.0)).color(c.ink));
    if button(ui, c, "Open a photo\u{2026}", Weight::Main).clicked() {
        requests.shared.push(Action::AskForPhoto);
    }
    let cards = "A grey card in the photo corrects for the light in the room.";
    ui.label(RichText::new(cards).font(words(14.0)).color(c.soft));
}

fn unpacking_ui(ui: &mut Ui, c: &Colours, name: &str, share: f64, requests: &mut Requests<ColourAction>) {
    ui.label(RichText::new(format!("Reading {name}\u{2026}")).font(words(16.0)).color(c.ink));
    let (rect, bar) = ui.allocate_exact_size(vec2(ui.available_width(), 18.0), Sense::hover());
    bar.widget_info(|| WidgetInfo::labeled(Role::ProgressIndicator, true, format!("{:.0} of 100", share * 100.0)));
    plate(ui.painter(), rect, c.card, Stroke::new(1.0, c.line));
    let done =
        Rect::from_min_size(rect.min, vec2(rect.width() * crate::app::widgets::points::f32_of(share), rect.height()));
    ui.painter().rect_filled(done, ROUND, c.leaf);
    if button(ui, c, "Stop", Weight::Plain).clicked() {
        requests.own.push(ColourAction::Photo(PhotoAction::PutAway));
    }
}

/// The photo, what was read in it, and the tap.
fn view_ui(
    ui: &mut Ui,
    c: &Colours,
    place: &DressPhoto,
    photo: &Photo,
    texture: &TextureHandle,
    high: f32,
    requests: &mut Requests<ColourAction>,
) {
    let (all, response) = ui.allocate_exact_size(vec2(ui.available_width(), high), Sense::click());
    let name =
        if place.card_next { "Photo of the dress: tap the grey card" } else { "Photo of the dress: tap the fabric" };
    response.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, name));
    let scale = (all.width() / photo.width() as f32).min(all.height() / photo.height() as f32);
    let size = vec2(photo.width() as f32, photo.height() as f32) * scale;
    let rect = Rect::from_center_size(all.center(), size);
    let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
    let painter = ui.painter_at(all);
    painter.image(texture.id(), rect, whole, Color32::WHITE);
    if let Some((_, veil)) = &place.read {
        painter.image(veil.id(), rect, whole, Color32::WHITE);
    }
    let on_screen = |(x, y): (u32, u32)| rect.min + vec2(x as f32 + 0.5, y as f32 + 0.5) * scale;
    if let Some((at, _)) = place.card {
        ring(&painter, on_screen(at), c.leaf);
        painter.text(on_screen(at) + vec2(0.0, 13.0), Align2::CENTER_TOP, "card", strong(14.0), c.leaf);
    }
    if let Some((read, _)) = &place.read {
        ring(&painter, on_screen(read.at), c.rose);
    }
    let edge = if response.has_focus() { Stroke::new(2.5, c.ink) } else { Stroke::new(1.0, c.line) };
    painter.rect_stroke(rect, 0.0, edge, StrokeKind::Inside);
    let cross = keys_move(ui, &response, place.cross, photo);
    if response.has_focus() {
        let at = on_screen(cross);
        painter.line_segment([at - vec2(14.0, 0.0), at + vec2(14.0, 0.0)], Stroke::new(2.0, c.rose));
        painter.line_segment([at - vec2(0.0, 14.0), at + vec2(0.0, 14.0)], Stroke::new(2.0, c.rose));
    }
    if cross != place.cross {
        requests.own.push(ColourAction::Photo(PhotoAction::Point(cross)));
    }
    // Enter is a tap where the cross is; after a tap the arrows go on from there.
    let tapped = if response.clicked_by(egui::PointerButton::Primary) {
        response.request_focus();
        response.interact_pointer_pos().and_then(|pos| pixel_at(pos, rect, photo))
    } else {
        response.clicked().then_some(cross)
    };
    if let Some((x, y)) = tapped {
        requests.own.push(ColourAction::Photo(PhotoAction::Tap(x, y)));
    }
}

fn ring(painter: &egui::Painter, at: Pos2, ink: Color32) {
    painter.circle_stroke(at, 11.0, Stroke::new(4.5, Color32::from_white_alpha(210)));
    painter.circle_stroke(at, 11.0, Stroke::new(2.2, ink));
}

/// The pixel under a place on screen; none beside the photo.
fn pixel_at(pos: Pos2, rect: Rect, photo: &Photo) -> Option<(u32, u32)> {
    if !rect.contains(pos) {
        return None;
    }
    let share = (pos - rect.min) / rect.size();
    let along = |share: f32, side: u32| floor_u32(f64::from(share) * f64::from(side)).min(side.saturating_sub(1));
    Some((along(share.x, photo.width()), along(share.y, photo.height())))
}

/// With the keyboard on it, arrows move a cross over the photo, and Enter is a tap.
fn keys_move(ui: &Ui, response: &Response, from: (u32, u32), photo: &Photo) -> (u32, u32) {
    if !response.has_focus() {
        return from;
    }
    let arrows = EventFilter { tab: false, horizontal_arrows: true, vertical_arrows: true, escape: false };
    ui.memory_mut(|m| m.set_focus_lock_filter(response.id, arrows));
    let step = (photo.width().max(photo.height()) / 50).max(1);
    let (mut x, mut y) = from;
    let pressed = |key| ui.input_mut(|i| i.consume_key(Modifiers::NONE, key));
    if pressed(Key::ArrowLeft) {
        x = x.saturating_sub(step);
    }
    if pressed(Key::ArrowRight) {
        x = (x + step).min(photo.width().saturating_sub(1));
    }
    if pressed(Key::ArrowUp) {
        y = y.saturating_sub(step);
    }
    if pressed(Key::ArrowDown) {
        y = (y + step).min(photo.height().saturating_sub(1));
    }
    (x, y)
}

fn says_ui(ui: &mut Ui, c: &Colours, place: &DressPhoto) {
    let (says, ink) = match (&place.says, place.card_next) {
        (Some(says), _) => (says.as_str(), c.rose),
        (None, true) => ("Tap the middle of the grey card in the photo.", c.ink),
        (None, false) => ("Tap the dress. The fabric that is read stays clear, the rest turns pale.", c.soft),
    };
    ui.label(RichText::new(says).font(words(14.0)).color(ink));
}

/// What was read, and the step that makes it the dress's colour.
fn reading_ui(ui: &mut Ui, c: &Colours, place: &DressPhoto, requests: &mut Requests<ColourAction>) {
    ui.horizontal(|ui| {
        let Some(reading) = place.reading() else { return };
        patch(ui, c, reading.rgb, 60.0);
        ui.label(RichText::new(named_with_hex(reading.rgb)).font(words(16.0)).color(c.ink));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if button(ui, c, "Use this colour", Weight::Chosen).clicked() {
                requests.own.push(ColourAction::TakeReading);
            }
        });
    });
}

fn patch(ui: &mut Ui, c: &Colours, rgb: Rgb, width: f32) {
    let (rect, response) = ui.allocate_exact_size(vec2(width, TARGET), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, named_with_hex(rgb)));
    plate(ui.painter(), rect, colour_of(rgb), Stroke::new(1.0, c.soft));
}

/// Between the shade and the light of the folds.
fn light_ui(ui: &mut Ui, c: &Colours, place: &DressPhoto, requests: &mut Requests<ColourAction>) {
    let Some(reading) = place.reading() else { return };
    ui.horizontal(|ui| {
        ui.label(RichText::new("shade").font(words(14.0)).color(c.soft));
        patch(ui, c, reading.ends[0], 30.0);
        let mut light = place.light;
        ui.visuals_mut().widgets.inactive.bg_fill = c.kraft;
        ui.spacing_mut().slider_width = ui.available_width() - 90.0;
        let slider = ui.add(Slider::new(&mut light, 0.0..=1.0).show_value(false).step_by(0.025));
        let slider = slider.accessible_name("From shade to light");
        patch(ui, c, reading.ends[1], 30.0);
        ui.label(RichText::new("light").font(words(14.0)).color(c.soft));
        if slider.changed() {
            requests.own.push(ColourAction::Photo(PhotoAction::Light(light)));
        }
    });
}

fn card_ui(ui: &mut Ui, c: &Colours, place: &DressPhoto, requests: &mut Requests<ColourAction>) {
    ui.horizontal(|ui| {
        let weight = if place.card_next || place.card.is_some() { Weight::Chosen } else { Weight::Plain };
        let card = match (place.card_next, place.card.is_some()) {
            (true, _) => ("No card", PhotoAction::CardNext(false)),
            (false, true) => ("Ignore the card", PhotoAction::NoCard),
            (false, false) => ("Use grey card", PhotoAction::CardNext(true)),
        };
        if button(ui, c, card.0, weight).clicked() {
            requests.own.push(ColourAction::Photo(card.1));
        }
        if button(ui, c, "Another photo", Weight::Plain).clicked() {
            requests.shared.push(Action::AskForPhoto);
        }
        if button(ui, c, "Remove photo", Weight::Plain).clicked() {
            requests.own.push(ColourAction::Photo(PhotoAction::PutAway));
        }
    });
}
