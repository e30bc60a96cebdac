//! Unpacks a photo and reads colours from it, so that no frame waits for either. What was asked for last is done; a photo
//! that is no longer wanted is dropped half-way.

use std::ops::ControlFlow;
use std::path::PathBuf;
use std::sync::Arc;

use egui::{Color32, ColorImage, Context};

use crate::app::workers::worker::{JobReporter, Worker, WorkerEvent, WorkerPolicy};
use crate::colour::{GreyCard, Photo, PhotoRegion, Reading, Rgb, read_region};
use crate::store::read_photo;

/// Where a photo comes from.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum PhotoSource {
    /// A file, opened or dropped.
    File(PathBuf),
    /// A picture that was pasted.
    Pasted(Arc<ColorImage>),
}

impl PhotoSource {
    /// What to call it.
    pub(crate) fn name(&self) -> String {
        match self {
            Self::File(path) => path.file_name().unwrap_or(path.as_os_str()).to_string_lossy().into_owned(),
            Self::Pasted(_) => "what was pasted".to_owned(),
        }
    }
}

/// A colour to be read: the fabric at a place of a photo.
#[derive(Clone, Debug)]
pub(crate) struct FabricPlace {
    pub(crate) photo: Arc<Photo>,
    /// Pixels from the left and the top.
    pub(crate) at: (u32, u32),
    /// From shade (0) to light (1).
    pub(crate) light: f64,
    pub(crate) card: Option<GreyCard>,
}

/// What is to be done.
pub(crate) enum PhotoRequest {
    Unpack(PhotoSource),
    Read(FabricPlace),
}

/// What has come of it.
pub(crate) enum PhotoEvent {
    /// So much of a photo is unpacked, 0 to 1.
    Progress(f64),
    Unpacked(UnpackedPhoto),
    /// It cannot be read: why, and what to do.
    Refused(String),
    Read(FabricRead),
    /// It broke off.
    Failed,
}

/// A photo, and how it is shown.
pub(crate) struct UnpackedPhoto {
    pub(crate) photo: Arc<Photo>,
    pub(crate) shown: ColorImage,
}

/// What was read at a place.
pub(crate) struct FabricRead {
    pub(crate) at: (u32, u32),
    /// None when nothing can be reported.
    pub(crate) reading: Option<Reading>,
    /// Clear over the fabric that was read, and pale over the rest; as large as the photo is shown.
    pub(crate) veil: ColorImage,
}

/// Does what was asked last.
pub(crate) struct PhotoWorker(Worker<PhotoRequest, PhotoEvent>);

impl PhotoWorker {
    pub(crate) fn new(ctx: &Context) -> Self {
        Self(Worker::new("photo", ctx, WorkerPolicy::NewestOnly, || {
            let mut last = None;
            move |request, reporter: &JobReporter<PhotoEvent>| match request {
                PhotoRequest::Unpack(source) => unpack(&source, reporter),
                PhotoRequest::Read(place) => reporter.report(PhotoEvent::Read(read(&place, &mut last))),
            }
        }))
    }

    /// Asks for a photo, and drops the one before; or for a colour, and drops what was asked before and has not been begun.
    pub(crate) fn request(&mut self, request: PhotoRequest) {
        self.0.request(request);
    }

    /// Everything heard since it was last asked.
    pub(crate) fn poll(&mut self) -> Vec<PhotoEvent> {
        self.0.poll().into_iter().map(photo_event).collect()
    }
}

fn photo_event(event: WorkerEvent<PhotoEvent>) -> PhotoEvent {
    match event {
        WorkerEvent::Progress(_, share) => PhotoEvent::Progress(share),
        WorkerEvent::Reported(_, event) => event,
        WorkerEvent::Failed(_) => PhotoEvent::Failed,
    }
}

fn unpack(source: &PhotoSource, reporter: &JobReporter<PhotoEvent>) {
    let mut progress = |share: f64| {
        reporter.progress(share);
        if reporter.is_overtaken() { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    };
    let unpacked = match source {
        PhotoSource::File(path) => read_photo(path, &mut progress).map_err(|refusal| refusal.to_string()),
        PhotoSource::Pasted(image) => Ok(pasted(image, &mut progress)),
    };
    if reporter.is_overtaken() {
        return;
    }
    reporter.report(match unpacked {
        Ok(Some(photo)) => PhotoEvent::Unpacked(UnpackedPhoto { shown: shown(&photo), photo: Arc::new(photo) }),
        Ok(None) => {
            PhotoEvent::Refused(format!("There is nothing to be seen in {}. Choose another photo.", source.name()))
        }
        Err(sentence) => PhotoEvent::Refused(sentence),
    });
}

/// The fabric that was found last, and where, so that the slider has not to find it again.
type LastFabric = Option<(Arc<Photo>, (u32, u32), PhotoRegion)>;

fn read(place: &FabricPlace, last: &mut LastFabric) -> FabricRead {
    let known = last.take().filter(|(of, at, _)| Arc::ptr_eq(of, &place.photo) && *at == place.at);
    let fabric = known.map_or_else(|| PhotoRegion::fabric(&place.photo, place.at.0, place.at.1), |(.., region)| region);
    let reading = read_region(&place.photo, &fabric, place.light, place.card.as_ref());
    let found = FabricRead { at: place.at, reading, veil: veil(&place.photo, &fabric) };
    *last = Some((Arc::clone(&place.photo), place.at, fabric));
    found
}

/// Over white, as paper shows through.
fn pasted(image: &ColorImage, progress: &mut dyn FnMut(f64) -> ControlFlow<()>) -> Option<Photo> {
    let [width, height] = image.size.map(|side| u32::try_from(side).unwrap_or(0));
    let pixel = |x: u32, y: u32| {
        let at = y as usize * image.size[0] + x as usize;
        let [r, g, b, alpha] = image.pixels.get(at).copied().unwrap_or(Color32::WHITE).to_array();
        let [r, g, b] = [r, g, b].map(|channel| channel.saturating_add(255 - alpha));
        Rgb { r, g, b }
    };
    Photo::made_of(width, height, pixel, progress)
}

/// The longer side of a photo as it is shown, pixels: more than its place on the page has.
const SHOWN: u32 = 1000;

/// The photo, small enough to be shown: every so manyth pixel, each the mean of those about it.
fn shown(photo: &Photo) -> ColorImage {
    let step = photo.width().max(photo.height()).div_ceil(SHOWN).max(1);
    let (across, down) = ((photo.width() / step).max(1), (photo.height() / step).max(1));
    let mean = |left: u32, top: u32| {
        let block = (0..step).flat_map(|y| (0..step).map(move |x| (left + x, top + y)));
        let mut sum = [0_u32; 3];
        let mut n = 0;
        for Rgb { r, g, b } in block.filter_map(|(x, y)| photo.at(x, y)) {
            n += 1;
            for (sum, channel) in sum.iter_mut().zip([r, g, b]) {
                *sum += u32::from(channel);
            }
        }
        let [r, g, b] = sum.map(|s| u8::try_from(s / n.max(1)).unwrap_or(u8::MAX));
        Color32::from_rgb(r, g, b)
    };
    let pixels = (0..down).flat_map(|y| (0..across).map(move |x| (x, y))).map(|(x, y)| mean(x * step, y * step));
    ColorImage::new([across as usize, down as usize], pixels.collect())
}

/// Cells of the veil along the longer side of a photo. No more than a region looks at, else it would have holes.
const VEIL: u32 = 250;

fn veil(photo: &Photo, fabric: &PhotoRegion) -> ColorImage {
    let pale = Color32::from_rgba_unmultiplied(255, 252, 246, 120);
    let side = photo.width().max(photo.height()).div_ceil(VEIL).max(1);
    let (across, down) = (photo.width().div_ceil(side), photo.height().div_ceil(side));
    let mut cells = vec![pale; across as usize * down as usize];
    for at in fabric.pixels() {
        let (x, y) = (at % photo.width(), at / photo.width());
        if let Some(cell) = cells.get_mut((y / side * across + x / side) as usize) {
            *cell = Color32::TRANSPARENT;
        }
    }
    ColorImage::new([across as usize, down as usize], cells)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::workers::worker::PATIENCE;
    use crate::colour::USUAL_LIGHT;

    /// The next thing heard but progress.
    fn wait(worker: &mut PhotoWorker) -> PhotoEvent {
        worker.0.wait_for_report()
    }

    fn unpack(worker: &mut PhotoWorker, source: PhotoSource) {
        worker.request(PhotoRequest::Unpack(source));
    }

    fn halves() -> Arc<ColorImage> {
        let pixel =
            |k: usize| if k % 40 < 24 { Color32::from_rgb(0x8b, 0x14, 0x27) } else { Color32::from_rgb(20, 90, 100) };
        Arc::new(ColorImage::new([40, 30], (0..1200).map(pixel).collect()))
    }

    #[test]
    fn what_was_pasted_is_unpacked_and_its_fabric_read_and_shown() {
        let mut worker = PhotoWorker::new(&Context::default());
        unpack(&mut worker, PhotoSource::Pasted(halves()));
        let PhotoEvent::Unpacked(UnpackedPhoto { photo, shown }) = wait(&mut worker) else { panic!("no photo") };
        assert_eq!((photo.width(), photo.height(), shown.size), (40, 30, [40, 30]));
        worker.request(PhotoRequest::Read(FabricPlace { photo, at: (5, 5), light: USUAL_LIGHT, card: None }));
        let PhotoEvent::Read(read) = wait(&mut worker) else { panic!("nothing read") };
        assert_eq!(read.reading.unwrap().rgb, Rgb::hex(0x8b1427));
        let clear = read.veil.pixels.iter().filter(|p| **p == Color32::TRANSPARENT).count();
        assert!((clear as f64 / 1200.0 - 0.6).abs() < 0.03, "{clear} of 1200 are the fabric");
    }

    #[test]
    fn a_photo_no_longer_wanted_is_dropped_and_the_next_one_comes() {
        let mut worker = PhotoWorker::new(&Context::default());
        unpack(&mut worker, PhotoSource::Pasted(Arc::new(ColorImage::filled([3000, 2000], Color32::WHITE))));
        unpack(&mut worker, PhotoSource::Pasted(halves()));
        let PhotoEvent::Unpacked(UnpackedPhoto { photo, .. }) = wait(&mut worker) else { panic!("no photo") };
        assert_eq!(photo.width(), 40, "the first was not waited for");
    }

    #[test]
    fn what_is_no_photo_is_refused_with_a_sentence() {
        let folder = tempfile::tempdir().unwrap();
        let broken = folder.path().join("dress.jpg");
        std::fs::write(&broken, b"\xff\xd8\xff\xe0 and no more").unwrap();
        let mut worker = PhotoWorker::new(&Context::default());
        for path in [broken, folder.path().join("nothing.png")] {
            unpack(&mut worker, PhotoSource::File(path));
            let PhotoEvent::Refused(sentence) = wait(&mut worker) else { panic!("not refused") };
            assert!(sentence.ends_with('.') && sentence.len() > 30, "{sentence}");
        }
    }

    #[test]
    fn progress_grows_to_the_end_of_a_photo() {
        let mut worker = PhotoWorker::new(&Context::default());
        unpack(&mut worker, PhotoSource::Pasted(Arc::new(ColorImage::filled([300, 200], Color32::WHITE))));
        let mut shares = Vec::new();
        while let Some(event) = worker.0.wait(PATIENCE) {
            match photo_event(event) {
                PhotoEvent::Progress(share) => shares.push(share),
                PhotoEvent::Unpacked(unpacked) => assert_eq!(unpacked.photo.width(), 300),
                _ => panic!("it cannot be read"),
            }
        }
        assert!(shares.len() > 10 && shares.is_sorted(), "{shares:?}");
    }

    #[test]
    fn a_photo_that_breaks_off_is_told_and_the_next_one_comes() {
        let mut worker = PhotoWorker(Worker::new("photo", &Context::default(), WorkerPolicy::NewestOnly, || {
            |request, reporter: &JobReporter<PhotoEvent>| match request {
                PhotoRequest::Unpack(PhotoSource::File(_)) => panic!("asked to break off"),
                PhotoRequest::Unpack(source) => super::unpack(&source, reporter),
                PhotoRequest::Read(_) => {}
            }
        }));
        unpack(&mut worker, PhotoSource::File(PathBuf::from("broken.png")));
        let failed = worker.0.wait(PATIENCE).map(photo_event);
        assert!(matches!(failed, Some(PhotoEvent::Failed)));
        unpack(&mut worker, PhotoSource::Pasted(halves()));
        assert!(matches!(wait(&mut worker), PhotoEvent::Unpacked(_)));
    }
}
