//! A thread that unpacks a photo and reads colours from it, so that no frame waits for either.
//!
//! What was asked for last is done; a photo that is no longer wanted is dropped half-way. The thread ends with its [`Reader`].

use std::ops::ControlFlow;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};

use egui::{Color32, ColorImage, Context};

use crate::colour::{GreyCard, Photo, PhotoRegion, Reading, Rgb, read_region};
use crate::store::read_photo;

/// Where a photo comes from.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Source {
    /// A file, opened or dropped.
    File(PathBuf),
    /// A picture that was pasted.
    Pasted(Arc<ColorImage>),
}

impl Source {
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
pub(crate) struct Ask {
    pub(crate) photo: Arc<Photo>,
    /// Pixels from the left and the top.
    pub(crate) at: (u32, u32),
    /// From shade (0) to light (1).
    pub(crate) light: f64,
    pub(crate) card: Option<GreyCard>,
}

enum Errand {
    Unpack(u64, Source),
    Read(Ask),
}

/// What the thread tells.
pub(crate) enum Told {
    /// So much of a photo is unpacked, 0 to 1.
    Share(f64),
    Unpacked(Unpacked),
    /// It cannot be read: why, and what to do.
    Refused(String),
    Read(FabricRead),
    /// The thread is gone, whatever ended it.
    Gone,
}

/// A photo, and how it is shown.
pub(crate) struct Unpacked {
    pub(crate) photo: Arc<Photo>,
    pub(crate) shown: ColorImage,
}

/// What was read at a place.
pub(crate) struct FabricRead {
    pub(crate) at: (u32, u32),
    /// None when nothing can be told.
    pub(crate) reading: Option<Reading>,
    /// Clear over the fabric that was read, and pale over the rest; as large as the photo is shown.
    pub(crate) veil: ColorImage,
}

/// The thread, and the way to it and back.
pub(crate) struct Reader {
    errands: Sender<Errand>,
    told: Receiver<Told>,
    /// The number of the photo that is wanted.
    wanted: Arc<AtomicU64>,
}

impl Reader {
    /// Starts the thread; it wakes the window when it has something to tell.
    pub(crate) fn new(ctx: &Context) -> Self {
        let (errands, heard) = channel();
        let (tell, told) = channel();
        let wanted = Arc::new(AtomicU64::new(0));
        let worker = Worker { tell, wanted: Arc::clone(&wanted), ctx: ctx.clone(), last: None };
        std::thread::spawn(move || worker.work(&heard));
        Self { errands, told, wanted }
    }

    /// Asks for a photo; the one before is dropped.
    pub(crate) fn unpack(&self, source: Source) {
        let number = self.wanted.fetch_add(1, Ordering::Relaxed) + 1;
        drop(self.errands.send(Errand::Unpack(number, source))); // a thread that is gone is told of by `heard`
    }

    /// The photo that is being unpacked is no longer wanted.
    pub(crate) fn stop(&self) {
        self.wanted.fetch_add(1, Ordering::Relaxed);
    }

    /// Asks for a colour; what was asked before and has not been begun is dropped.
    pub(crate) fn read(&self, ask: Ask) {
        drop(self.errands.send(Errand::Read(ask))); // as above
    }

    /// Everything told since it was last asked.
    pub(crate) fn heard(&self) -> Vec<Told> {
        let mut all = Vec::new();
        loop {
            match self.told.try_recv() {
                Ok(told) => all.push(told),
                Err(TryRecvError::Empty) => return all,
                Err(TryRecvError::Disconnected) => {
                    all.push(Told::Gone);
                    return all;
                }
            }
        }
    }
}

impl Drop for Reader {
    fn drop(&mut self) {
        self.stop();
    }
}

struct Worker {
    tell: Sender<Told>,
    wanted: Arc<AtomicU64>,
    ctx: Context,
    /// The fabric that was found last, so that the slider has not to find it again.
    last: Option<(Arc<Photo>, (u32, u32), PhotoRegion)>,
}

impl Worker {
    fn work(mut self, heard: &Receiver<Errand>) {
        while let Ok(first) = heard.recv() {
            let mut all: Vec<Errand> = std::iter::once(first).chain(heard.try_iter()).collect();
            let photo = all.iter().rposition(|e| matches!(e, Errand::Unpack(..)));
            match all.swap_remove(photo.unwrap_or(all.len() - 1)) {
                Errand::Unpack(number, source) => self.unpack(number, &source),
                Errand::Read(ask) => self.read(&ask),
            }
        }
    }

    fn say(&self, told: Told) {
        drop(self.tell.send(told)); // the window may be gone by now
        self.ctx.request_repaint_of(egui::ViewportId::ROOT);
    }

    fn unpack(&self, number: u64, source: &Source) {
        /// Shares less far apart are not told.
        const STEP: f64 = 0.02;
        let mut told = -1.0;
        let mut progress = |share: f64| {
            if self.wanted.load(Ordering::Relaxed) != number {
                return ControlFlow::Break(());
            }
            if share >= told + STEP {
                told = share;
                self.say(Told::Share(share));
            }
            ControlFlow::Continue(())
        };
        let read = match source {
            Source::File(path) => read_photo(path, &mut progress).map_err(|refusal| refusal.to_string()),
            Source::Pasted(image) => Ok(pasted(image, &mut progress)),
        };
        if self.wanted.load(Ordering::Relaxed) != number {
            return;
        }
        self.say(match read {
            Ok(Some(photo)) => Told::Unpacked(Unpacked { shown: shown(&photo), photo: Arc::new(photo) }),
            Ok(None) => {
                Told::Refused(format!("There is nothing to be seen in {}. Choose another photo.", source.name()))
            }
            Err(sentence) => Told::Refused(sentence),
        });
    }

    fn read(&mut self, ask: &Ask) {
        let known = self.last.take().filter(|(of, at, _)| Arc::ptr_eq(of, &ask.photo) && *at == ask.at);
        let fabric = known.map_or_else(|| PhotoRegion::fabric(&ask.photo, ask.at.0, ask.at.1), |(.., region)| region);
        let reading = read_region(&ask.photo, &fabric, ask.light, ask.card.as_ref());
        self.say(Told::Read(FabricRead { at: ask.at, reading, veil: veil(&ask.photo, &fabric) }));
        self.last = Some((Arc::clone(&ask.photo), ask.at, fabric));
    }
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
    use crate::colour::USUAL_LIGHT;

    fn wait(reader: &Reader) -> Told {
        loop {
            match reader.told.recv().unwrap() {
                Told::Share(_) => {}
                other => return other,
            }
        }
    }

    fn halves() -> Arc<ColorImage> {
        let pixel =
            |k: usize| if k % 40 < 24 { Color32::from_rgb(0x8b, 0x14, 0x27) } else { Color32::from_rgb(20, 90, 100) };
        Arc::new(ColorImage::new([40, 30], (0..1200).map(pixel).collect()))
    }

    #[test]
    fn what_was_pasted_is_unpacked_and_its_fabric_read_and_shown() {
        let reader = Reader::new(&Context::default());
        reader.unpack(Source::Pasted(halves()));
        let Told::Unpacked(Unpacked { photo, shown }) = wait(&reader) else { panic!("no photo") };
        assert_eq!((photo.width(), photo.height(), shown.size), (40, 30, [40, 30]));
        reader.read(Ask { photo, at: (5, 5), light: USUAL_LIGHT, card: None });
        let Told::Read(read) = wait(&reader) else { panic!("nothing read") };
        assert_eq!(read.reading.unwrap().rgb, Rgb::hex(0x8b1427));
        let clear = read.veil.pixels.iter().filter(|p| **p == Color32::TRANSPARENT).count();
        assert!((clear as f64 / 1200.0 - 0.6).abs() < 0.03, "{clear} of 1200 are the fabric");
    }

    #[test]
    fn a_photo_no_longer_wanted_is_dropped_and_the_next_one_comes() {
        let reader = Reader::new(&Context::default());
        reader.unpack(Source::Pasted(Arc::new(ColorImage::filled([3000, 2000], Color32::WHITE))));
        reader.unpack(Source::Pasted(halves()));
        let Told::Unpacked(Unpacked { photo, .. }) = wait(&reader) else { panic!("no photo") };
        assert_eq!(photo.width(), 40, "the first was not waited for");
    }

    #[test]
    fn what_is_no_photo_is_refused_with_a_sentence() {
        let folder = tempfile::tempdir().unwrap();
        let broken = folder.path().join("dress.jpg");
        std::fs::write(&broken, b"\xff\xd8\xff\xe0 and no more").unwrap();
        let reader = Reader::new(&Context::default());
        for path in [broken, folder.path().join("nothing.png")] {
            reader.unpack(Source::File(path));
            let Told::Refused(sentence) = wait(&reader) else { panic!("not refused") };
            assert!(sentence.ends_with('.') && sentence.len() > 30, "{sentence}");
        }
    }
}
