//! The piece in the round, photographed on her arm: from four sides, small at once and then fine; saved as a picture for the client.
//! For both sides: nothing of it is for the shop alone.

use std::sync::Arc;
use std::time::Duration;

use egui::{ColorImage, Image, Key, RichText, TextureHandle, TextureOptions, Ui, vec2};

use crate::app::action::Action;
use crate::app::context::{Context, Inputs, Requests};
use crate::app::pages::{Page, PageInfo};
use crate::app::parts::page_head::head_ui;
use crate::app::parts::stopped::stopped_in_short_ui;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::icons::Icon;
use crate::app::widgets::theme::words;
use crate::app::workers::photograph_worker::{PhotographRequest, PhotographWorker, TakenPhotograph};
use crate::colour::Rgb;
use crate::export::PHOTO_SHAPE;
use crate::history::Revision;
use crate::light::PhotoProgress;
use crate::model::Viewpoint;
use crate::piece::Skin;
use crate::units::ceil_u32;

/// Width of the photograph, points: as high as the page on the smallest screen.
const WIDE: f32 = 460.0;
/// Time between two looks at how far it has come.
const TICK: Duration = Duration::from_millis(200);

/// What a photograph was taken of, and from where.
type PhotographOf = (Revision, u32, Viewpoint, Skin, Option<Rgb>, u32);

/// The photograph that is shown.
pub(crate) struct PhotographPage {
    /// Width of the photograph, points.
    pub(crate) wide: f32,
    worker: Option<PhotographWorker>,
    from: Viewpoint,
    /// What was asked for, and how far it has come.
    asked: Option<(PhotographOf, Arc<PhotoProgress>)>,
    shown: Option<TextureHandle>,
    /// The file of what is shown, once it is fine.
    png: Option<Arc<Vec<u8>>>,
    has_failed: bool,
}

/// What can be asked of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PhotographAction {
    /// From another side.
    From(Viewpoint),
    /// Save it among the pictures of the shop.
    Save,
}

impl Default for PhotographPage {
    fn default() -> Self {
        Self {
            wide: WIDE,
            worker: None,
            from: Viewpoint::default(),
            asked: None,
            shown: None,
            png: None,
            has_failed: false,
        }
    }
}

impl Page for PhotographPage {
    type Action = PhotographAction;

    const INFO: PageInfo = PageInfo { on_rail: Some(("Photo", Icon::Photo)), key: Key::F10, is_for_shop: false };

    const IS_WIDE: bool = true;

    fn prepare(&mut self, inputs: &mut Inputs<'_>) {
        let session = &inputs.session;
        let shown = session.order().shown;
        let cloth = session.order().taste.dress.hex.filter(|_| shown.cloth);
        let width_px = ceil_u32(f64::from(self.wide * inputs.ctx.pixels_per_point()));
        let subject = (session.settled_revision(), session.generation(), self.from, shown.skin, cloth, width_px);
        if self.asked.as_ref().is_none_or(|(of, _)| *of != subject) {
            if let Some((_, progress)) = &self.asked {
                progress.stop();
            }
            let progress = Arc::new(PhotoProgress::default());
            let request = PhotographRequest {
                piece: session.piece().clone(),
                stock: Arc::clone(session.stock()),
                wrist: session.order().wrist.clone(),
                skin: shown.skin,
                cloth,
                from: self.from,
                width_px,
                progress: Arc::clone(&progress),
            };
            self.worker.get_or_insert_with(|| PhotographWorker::new(inputs.ctx)).request(request);
            (self.asked, self.png, self.has_failed) = (Some((subject, progress)), None, false);
        }
        match self.worker.as_mut().and_then(PhotographWorker::poll) {
            Some(Ok(TakenPhotograph { photograph, png })) => {
                let size = [photograph.width as usize, photograph.height as usize];
                let image = ColorImage::from_rgb(size, &photograph.rgb);
                self.shown = Some(inputs.ctx.load_texture("photograph", image, TextureOptions::LINEAR));
                self.png = png;
            }
            Some(Err(())) => self.has_failed = true,
            None => {}
        }
        if self.png.is_none() && !self.has_failed {
            inputs.ctx.request_repaint_after(TICK);
        }
    }

    fn ui(&self, ui: &mut Ui, cx: &Context<'_>, requests: &mut Requests<PhotographAction>) {
        head_ui(ui, cx, "Photo", &self.line(), &mut requests.shared);
        stopped_in_short_ui(ui, cx, &mut requests.shared);
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            for from in Viewpoint::ALL {
                let weight = if from == self.from { Weight::Chosen } else { Weight::Plain };
                if button(ui, &cx.colours, label(from), weight).clicked() {
                    requests.own.push(PhotographAction::From(from));
                }
            }
            ui.add_space(24.0);
            let save = ui.add_enabled_ui(self.png.is_some(), |ui| button(ui, &cx.colours, "Save photo", Weight::Main));
            if save.inner.clicked() {
                requests.own.push(PhotographAction::Save);
            }
        });
        ui.add_space(10.0);
        let high = ui.available_height().min(WIDE / PHOTO_SHAPE);
        ui.vertical_centered(|ui| match &self.shown {
            Some(texture) => {
                let image = Image::from_texture(texture).fit_to_exact_size(vec2(high * PHOTO_SHAPE, high));
                ui.add(image.corner_radius(6.0).alt_text(format!("Photo of the piece: {}", label(self.from))));
            }
            None => {
                ui.label(RichText::new("The first look comes in a moment.").font(words(16.0)).color(cx.colours.soft));
            }
        });
    }

    fn run(&mut self, action: PhotographAction, _inputs: &mut Inputs<'_>) -> Vec<Action> {
        match action {
            PhotographAction::From(from) => self.from = from,
            PhotographAction::Save => {
                return self.png.iter().map(|png| Action::SavePhotograph(Arc::clone(png))).collect();
            }
        }
        Vec::new()
    }

    fn rules_changed(&mut self) {
        self.asked = None;
    }
}

impl PhotographPage {
    /// How far it has come.
    fn line(&self) -> String {
        match &self.asked {
            _ if self.has_failed => "This photo cannot be taken. The sketch is as it was.".to_owned(),
            Some((_, progress)) if self.png.is_none() => {
                format!("Growing finer: {:.0} %", f64::from(progress.share()) * 100.0)
            }
            _ => "On her arm, in the light of a window".to_owned(),
        }
    }
}

fn label(from: Viewpoint) -> &'static str {
    match from {
        Viewpoint::Above => "From above",
        Viewpoint::ThreeQuarter => "From in front",
        Viewpoint::Wearer => "As she sees it",
        Viewpoint::Side => "From the side",
    }
}
