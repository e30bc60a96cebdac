//! Rasters the sheet's picture, so that no frame waits for it.
//!
//! A whole picture comes twice, quick and then fine; the fine one is left out when something newer is wanted.

use egui::Context;
use kurbo::{Affine, Rect};

use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy, WorkerTicket};
use crate::colour::{Eyes, Vision};
use crate::export::{Finish, Pixels, raster};
use crate::piece::PartId;
use crate::scene::{Group, Key, Scene};
use crate::sheet::View;
use crate::units::ceil_u32;

/// How much more than the sheet shows is drawn on every side, as a share of it: what panning brings in before it rests.
const MORE: f64 = 0.3;

/// A scene yet to be made; making it takes a few milliseconds too.
pub(crate) type SceneMaker = Box<dyn FnOnce() -> Scene + Send>;

/// In which finish a whole picture is drawn first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum FirstFinish {
    /// Nothing of it is shown yet.
    Quick,
    /// A quick one is shown already.
    Fine,
}

/// What is to be drawn.
pub(crate) struct PictureRequest {
    pub(crate) scene: SceneMaker,
    pub(crate) first: FirstFinish,
    pub(crate) view: View,
    pub(crate) pixels_per_point: f32,
    /// Parts that shall move by themselves, on a layer of their own.
    pub(crate) lifted: Vec<PartId>,
    /// Through which eyes it is seen.
    pub(crate) eyes: Option<Vision>,
}

/// One layer of a picture: no more of the sheet than there is something on.
pub(crate) struct PictureLayer {
    pub(crate) pixels: Pixels,
    /// Where it lies on screen, points, in the view it was drawn for.
    pub(crate) place: Rect,
    /// Whether it is what was lifted.
    pub(crate) moves: bool,
}

/// Draws the newest picture that was asked for.
pub(crate) struct PictureWorker(Worker<PictureRequest, Vec<PictureLayer>>);

/// What has come of the newest picture.
pub(crate) enum PictureEvent {
    Drawn(WorkerTicket, Vec<PictureLayer>),
    /// It cannot be drawn.
    Failed,
}

impl PictureWorker {
    pub(crate) fn new(ctx: &Context) -> Self {
        Self(Worker::new("picture", ctx, WorkerPolicy::NewestOnly, || draw))
    }

    /// Asks for a picture; an older one not begun yet is dropped.
    pub(crate) fn request(&mut self, request: PictureRequest) -> WorkerTicket {
        self.0.request(request)
    }

    /// The newest that was heard since it was last asked.
    pub(crate) fn poll(&mut self) -> Option<PictureEvent> {
        match self.0.poll().pop()? {
            WorkerEvent::Reported(ticket, layers) => Some(PictureEvent::Drawn(ticket, layers)),
            WorkerEvent::Failed(_) => Some(PictureEvent::Failed),
            WorkerEvent::Progress(..) => None,
        }
    }
}

/// Quick, unless that is shown already, and then fine, unless something newer is wanted or parts are lifted.
fn draw(request: PictureRequest, reporter: &JobReporter<Vec<PictureLayer>>) {
    let PictureRequest { scene, first, view, pixels_per_point, lifted, eyes } = request;
    let scene = scene();
    let report = |finish| {
        let mut layers = layers(&scene, &view, pixels_per_point, &lifted, finish);
        see_through(eyes, &mut layers);
        reporter.report(layers);
    };
    if first == FirstFinish::Quick {
        report(Finish::Quick);
    }
    if lifted.is_empty() && !reporter.is_overtaken() {
        report(Finish::Fine);
    }
}

/// Rasters a scene for a view, layer by layer, each as large as what can be seen of it.
pub(crate) fn layers(
    scene: &Scene,
    view: &View,
    pixels_per_point: f32,
    lifted: &[PartId],
    finish: Finish,
) -> Vec<PictureLayer> {
    let per_point = f64::from(pixels_per_point);
    let origin = view.area.origin().to_vec2();
    let whole = |points: f64| (points * per_point).round().max(1.0);
    let sheet = Rect::new(0.0, 0.0, whole(view.area.width()), whole(view.area.height()));
    let sheet = sheet.inflate(MORE * sheet.width(), MORE * sheet.height()).expand();
    let pixels_from_piece = Affine::scale(per_point) * Affine::translate(-origin) * view.screen_from_piece();
    let drawn = split(&scene.groups, lifted).into_iter().filter_map(|(groups, moves)| {
        let seen = groups.iter().filter_map(|g| g.bounds(pixels_from_piece));
        let part = seen.reduce(|a, b| a.union(b))?.expand().intersect(sheet);
        let (width, height) = (ceil_u32(part.width()), ceil_u32(part.height()));
        if width == 0 || height == 0 {
            return None;
        }
        let place = Affine::translate(-part.origin().to_vec2()) * pixels_from_piece;
        let pixels = raster(&groups, place, width, height, finish);
        let place = (Affine::translate(origin) * Affine::scale(1.0 / per_point)).transform_rect_bbox(part);
        Some(PictureLayer { pixels, place, moves })
    });
    drawn.collect()
}

/// What was drawn, as these eyes see it. Colours are taken out of their alpha for it, and put back.
pub(crate) fn see_through(eyes: Option<Vision>, layers: &mut [PictureLayer]) {
    let Some(eyes) = eyes.map(|vision| Eyes::new(vision, 1.0)) else { return };
    for layer in layers {
        let rgba = &mut layer.pixels.rgba;
        scale_by_alpha(rgba, |channel, alpha| (channel * 255 + alpha / 2) / alpha);
        eyes.see_picture(rgba);
        scale_by_alpha(rgba, |channel, alpha| (channel * alpha + 127) / 255);
    }
}

/// The channels of every pixel that is neither clear nor full.
fn scale_by_alpha(rgba: &mut [u8], scaled: impl Fn(u32, u32) -> u32) {
    for pixel in rgba.chunks_exact_mut(4).filter(|pixel| pixel[3] > 0 && pixel[3] < 255) {
        let alpha = u32::from(pixel[3]);
        for channel in &mut pixel[..3] {
            *channel = u8::try_from(scaled(u32::from(*channel), alpha)).unwrap_or(u8::MAX);
        }
    }
}

/// Groups below the lifted parts, the lifted parts, and the groups above; all in one when nothing is lifted.
fn split<'a>(groups: &'a [Group], lifted: &[PartId]) -> Vec<(Vec<&'a Group>, bool)> {
    let is_lifted = |g: &Group| matches!(g.key, Key::Part(id) if lifted.contains(&id));
    let Some(first) = groups.iter().position(is_lifted) else {
        return vec![(groups.iter().collect(), false)];
    };
    let below = groups[..first].iter().collect();
    let held = groups.iter().filter(|g| is_lifted(g)).collect();
    let above = groups[first..].iter().filter(|g| !is_lifted(g)).collect();
    vec![(below, false), (held, true), (above, false)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::workers::worker::PATIENCE;
    use kurbo::Shape as _;

    fn bare(lifted: Vec<PartId>) -> PictureRequest {
        let scene = || {
            let mut spot = Group::new(Key::Ground, Affine::IDENTITY);
            let tint = crate::scene::Tint { rgb: crate::colour::Rgb::hex(0x2f_6b3c), alpha: 1.0 };
            spot.fill(Rect::new(-1.0, -0.5, 1.0, 0.5).to_path(0.1), crate::scene::Paint::Solid(tint));
            Scene { frame: Rect::new(-10.0, -10.0, 10.0, 10.0), groups: vec![spot] }
        };
        let area = Rect::new(20.0, 30.0, 60.0, 70.0);
        let (view, first) = (View { area, ..View::new() }, FirstFinish::Quick);
        PictureRequest { scene: Box::new(scene), first, view, pixels_per_point: 2.0, lifted, eyes: None }
    }

    /// All pictures that come of one request.
    fn pictures(worker: &mut PictureWorker, request: PictureRequest) -> Vec<Vec<PictureLayer>> {
        let asked = worker.request(request);
        let heard = std::iter::from_fn(|| worker.0.wait(PATIENCE));
        let drawn = heard.map(|event| match event {
            WorkerEvent::Reported(ticket, layers) if ticket == asked => layers,
            _ => panic!("another picture, or none"),
        });
        drawn.collect()
    }

    #[test]
    fn a_picture_comes_quick_and_then_fine_at_the_pixels_of_the_screen_and_no_larger_than_it_is() {
        let drawn = pictures(&mut PictureWorker::new(&Context::default()), bare(Vec::new()));
        assert_eq!(drawn.len(), 2);
        for layers in drawn {
            let PictureLayer { pixels, place, .. } = &layers[0];
            // A spot of 2 by 1 mm, upright, at 4 points a millimetre and 2 pixels a point, in the middle of the sheet.
            assert_eq!((pixels.width, pixels.height), (8, 16));
            assert_eq!(*place, Rect::new(38.0, 46.0, 42.0, 54.0));
            assert!(pixels.rgba.chunks(4).all(|p| p == [0x2f, 0x6b, 0x3c, 255]));
        }
    }

    #[test]
    fn a_picture_shown_already_comes_fine_at_once_and_one_with_lifted_parts_quick_alone() {
        let mut worker = PictureWorker::new(&Context::default());
        assert_eq!(pictures(&mut worker, PictureRequest { first: FirstFinish::Fine, ..bare(Vec::new()) }).len(), 1);
        assert_eq!(pictures(&mut worker, bare(vec![PartId(1)])).len(), 1);
        assert_eq!(pictures(&mut worker, bare(Vec::new())).len(), 2);
    }

    #[test]
    fn a_picture_that_cannot_be_drawn_is_told_and_the_next_one_comes() {
        let mut worker = PictureWorker::new(&Context::default());
        worker.request(PictureRequest { scene: Box::new(|| panic!("no scene")), ..bare(Vec::new()) });
        assert!(matches!(worker.0.wait(PATIENCE), Some(WorkerEvent::Failed(_))));
        assert_eq!(pictures(&mut worker, bare(Vec::new())).len(), 2);
    }

    #[test]
    fn other_eyes_see_the_spot_as_its_plain_colour_looks_to_them() {
        let mut worker = PictureWorker::new(&Context::default());
        for vision in Vision::ALL {
            let drawn = pictures(&mut worker, PictureRequest { eyes: Some(vision), ..bare(Vec::new()) });
            let seen = Eyes::new(vision, 1.0).see(crate::colour::Rgb::hex(0x2f_6b3c));
            assert_ne!(seen, crate::colour::Rgb::hex(0x2f_6b3c));
            assert_eq!(drawn.len(), 2);
            for layers in drawn {
                let rgba = &layers[0].pixels.rgba;
                assert!(rgba.chunks(4).all(|p| p == [seen.r, seen.g, seen.b, 255]), "{vision:?}");
            }
        }
    }

    #[test]
    fn what_is_half_clear_keeps_its_colour_and_its_alpha() {
        let mut rgba = vec![100, 50, 20, 128, 0, 0, 0, 0, 7, 8, 9, 255];
        let before = rgba.clone();
        scale_by_alpha(&mut rgba, |channel, alpha| (channel * 255 + alpha / 2) / alpha);
        assert_eq!(rgba[..4], [199, 100, 40, 128]);
        scale_by_alpha(&mut rgba, |channel, alpha| (channel * alpha + 127) / 255);
        assert_eq!(rgba, before);
    }

    #[test]
    fn what_is_lifted_lies_between_what_was_below_and_what_was_above() {
        let groups: Vec<Group> = (0..5)
            .map(|n| Group::new(if n == 0 { Key::Ground } else { Key::Part(PartId(n)) }, Affine::IDENTITY))
            .collect();
        let keys = |lifted: &[PartId]| -> Vec<(Vec<Key>, bool)> {
            split(&groups, lifted).into_iter().map(|(g, moves)| (g.iter().map(|g| g.key).collect(), moves)).collect()
        };
        let part = |n| Key::Part(PartId(n));
        assert_eq!(
            keys(&[PartId(2), PartId(4)]),
            [(vec![Key::Ground, part(1)], false), (vec![part(2), part(4)], true), (vec![part(3)], false)]
        );
        assert_eq!(keys(&[]).len(), 1);
    }
}
