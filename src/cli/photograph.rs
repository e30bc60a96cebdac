//! The photograph of a piece from the command line.

use std::path::PathBuf;
use std::thread;
use std::time::Duration;

use super::args::Args;
use super::cli_error::CliError;
use super::loaded_order::LoadedOrder;
use super::picture_args::{dress_of, skin_of};
use crate::colour::Rgb;
use crate::export::{PHOTO_WIDTH_PX, PhotoFinish, photograph_png};
use crate::light::PhotoProgress;
use crate::model::{Shot, Viewpoint};
use crate::piece::Skin;
use crate::units::floor_u32;

/// How a photograph is taken and where it goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PhotographArgs {
    /// The order.
    pub file: PathBuf,
    /// Where the photograph goes.
    pub to: PathBuf,
    /// Pixels across.
    pub width_px: u32,
    /// From where.
    pub view: Viewpoint,
    /// How fine.
    pub finish: PhotoFinish,
    /// The tone of the arm; the order's where none is named.
    pub skin: Option<Skin>,
    /// The cloth behind it; the order's where none is named.
    pub dress: Option<Rgb>,
}

/// Widths that a photograph may have, pixels.
const WIDTHS_PX: std::ops::RangeInclusive<u32> = 64..=4800;
/// Time between two looks at how far it has come.
const TICK: Duration = Duration::from_millis(100);

/// The options, or what is wrong with them.
pub(super) fn photograph_args(args: &Args) -> Result<PhotographArgs, String> {
    let to = args.place("to").ok_or("photograph needs a file to save to: add --to OUT.png.")?;
    if to.extension().is_none_or(|ending| !ending.eq_ignore_ascii_case("png")) {
        return Err("A photograph is a PNG: end the name after --to in .png.".to_owned());
    }
    Ok(PhotographArgs {
        file: args.one_file("photograph")?,
        to,
        width_px: args.number("width-px", WIDTHS_PX)?.unwrap_or(PHOTO_WIDTH_PX),
        view: args.text("view").map_or(Ok(Viewpoint::default()), |word| view_of(&word))?,
        finish: args.text("finish").map_or(Ok(PhotoFinish::default()), |word| finish_of(&word))?,
        skin: args.text("skin").map(|word| skin_of(&word)).transpose()?,
        dress: args.text("dress").map(|text| dress_of(&text)).transpose()?,
    })
}

fn view_of(word: &str) -> Result<Viewpoint, String> {
    let known = || Viewpoint::ALL.map(Viewpoint::word).join(", ");
    Viewpoint::ALL.into_iter().find(|v| v.word() == word).ok_or_else(|| format!("--view is one of {}.", known()))
}

fn finish_of(word: &str) -> Result<PhotoFinish, String> {
    let known = || PhotoFinish::ALL.map(PhotoFinish::word).join(", ");
    PhotoFinish::ALL.into_iter().find(|f| f.word() == word).ok_or_else(|| format!("--finish is one of {}.", known()))
}

impl PhotographArgs {
    /// The photograph as bytes of its file; `progress` hears of every tenth part of the way.
    pub(super) fn bytes(&self, loaded: &LoadedOrder, progress: &mut dyn FnMut(&str)) -> Result<Vec<u8>, CliError> {
        let order = &loaded.order;
        let shown = order.taste.dress.hex.filter(|_| order.shown.cloth);
        let shot = Shot {
            piece: &order.piece,
            stock: &loaded.stock,
            wrist: &order.wrist,
            skin: self.skin.unwrap_or(order.shown.skin),
            cloth: self.dress.or(shown),
            from: self.view,
        };
        let done = PhotoProgress::default();
        let bytes = thread::scope(|scope| {
            let taking = scope.spawn(|| photograph_png(&shot, self.width_px, self.finish, &done));
            let mut told = 0;
            while !taking.is_finished() {
                thread::sleep(TICK);
                let tenths = floor_u32(f64::from(done.share()) * 10.0);
                if tenths > told {
                    told = tenths;
                    progress(&format!("{} %\n", tenths * 10));
                }
            }
            taking.join().ok().flatten()
        });
        bytes.ok_or_else(|| CliError::Failed("The photograph could not be taken.".to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(line: &str) -> Result<PhotographArgs, String> {
        photograph_args(&Args::read(line.split(' ').map(Into::into))?)
    }

    #[test]
    fn options_are_read_and_what_cannot_be_meant_is_said() {
        let plain = read("photograph a.ron --to o.png").unwrap();
        assert_eq!((plain.width_px, plain.view, plain.finish), (1000, Viewpoint::ThreeQuarter, PhotoFinish::Fine));
        assert_eq!((plain.skin, plain.dress), (None, None));
        let all = "photograph a.ron --to o.PNG --view wearer --finish quick --width-px 64 --skin deep --dress #1b2a4a";
        let all = read(all).unwrap();
        assert_eq!((all.width_px, all.view, all.finish), (64, Viewpoint::Wearer, PhotoFinish::Quick));
        assert_eq!((all.skin, all.dress), (Some(Skin::Deep), Some(Rgb::hex(0x1b2a4a))));
        for (line, said) in [
            ("photograph a.ron", "add --to OUT.png"),
            ("photograph a.ron --to o.svg", "end the name after --to in .png"),
            ("photograph a.ron --to o.png --view flat", "above, three-quarter, wearer, side"),
            ("photograph a.ron --to o.png --finish best", "quick, fine, finest"),
            ("photograph a.ron --to o.png --width-px 9999", "--width-px"),
            ("photograph --to o.png", "photograph"),
        ] {
            let refusal = read(line).unwrap_err();
            assert!(refusal.contains(said), "{line}: {refusal}");
        }
    }

    #[test]
    fn a_photograph_is_a_file_of_the_size_that_was_asked_for_and_says_how_far_it_is() {
        let loaded = LoadedOrder::read("samples/orders/08-boutonniere.ron".as_ref(), None).unwrap();
        let options = read("photograph a.ron --to o.png --finish quick --width-px 64").unwrap();
        let mut heard = Vec::new();
        let bytes = options.bytes(&loaded, &mut |line: &str| heard.push(line.to_owned())).unwrap();
        let picture = image::load_from_memory(&bytes).unwrap().to_rgb8();
        assert_eq!(picture.dimensions(), (64, 80));
        // A cream rose over a dark lapel: something bright and something dark.
        let brightness = |p: &image::Rgb<u8>| u32::from(p.0[1]);
        assert!(
            picture.pixels().map(brightness).max() > Some(150) && picture.pixels().map(brightness).min() < Some(60)
        );
        assert!(heard.iter().all(|line| line.ends_with(" %\n")));
        let again = options.bytes(&loaded, &mut |_: &str| {}).unwrap();
        assert_eq!(bytes, again, "the same order gives the same bytes");
    }
}
