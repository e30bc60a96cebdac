//! The options of a picture: where it goes, how large, from where, on which skin, before which dress.

use std::path::{Path, PathBuf};

use super::args::Args;
use super::cli_error::CliError;
use super::loaded_order::LoadedOrder;
use crate::colour::Rgb;
use crate::export::pdf::picture_pdf;
use crate::export::{USUAL_WIDTH_PX, captioned, largest_width_px, png_of, svg_of};
use crate::scene::{
    COIN_MM, Ground, PictureOptions, Scene, SideViewOptions, Skin, form_chart, picture, side_by_side, side_view,
    with_scale,
};
use crate::units::{ceil_u32, floor_u32};

/// How a picture is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureFormat {
    /// Pixels.
    Png,
    /// Paths.
    Svg,
    /// A page of its own size.
    Pdf,
}

/// From where the piece is seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PictureView {
    /// From above, on the arm.
    #[default]
    Above,
    /// From the hand toward the elbow, with its height.
    Side,
    /// The piece alone, laid flat.
    Flat,
}

/// How many pixels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Resolution {
    /// So many across.
    WidthPx(u32),
    /// So many to the inch at life size.
    Dpi(u32),
}

/// How a picture is drawn and where it goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PictureArgs {
    /// Where it goes.
    pub to: PathBuf,
    /// How it is written.
    pub kind: PictureFormat,
    /// How many pixels, when it has any.
    pub resolution: Resolution,
    /// From where.
    pub view: PictureView,
    /// The tones of the arms: the first piece's first, the last named for all that follow.
    pub skins: Vec<Skin>,
    /// The colours of the dresses, likewise; none for those that the orders name, else paper.
    pub dresses: Vec<Rgb>,
    /// Whether there is nothing under it, so that it can go over something else.
    pub clear: bool,
    /// Words below it, for the client.
    pub caption: Option<String>,
    /// Whether a coin and a ruler lie beside it.
    pub coin: bool,
    /// Whether the height that the house allows is drawn; for the shop view.
    pub limit: bool,
}

/// Widths that a picture may have, pixels.
const WIDTHS_PX: std::ops::RangeInclusive<u32> = 16..=12_000;
/// Pixels to the inch that may be asked for.
const DPIS: std::ops::RangeInclusive<u32> = 20..=2400;
/// Millimetres in an inch.
const MM_PER_INCH: f64 = 25.4;

impl PictureArgs {
    /// The picture of the pieces of these orders, as bytes of its file: one alone, more side by side at one scale.
    pub(super) fn bytes(&self, orders: &[LoadedOrder]) -> Result<Vec<u8>, CliError> {
        let mut scenes: Vec<Scene> = orders.iter().enumerate().map(|(i, loaded)| self.scene(loaded, i)).collect();
        let scene = match (scenes.pop(), scenes.is_empty()) {
            (Some(only), true) => only,
            (last, _) => {
                scenes.extend(last);
                side_by_side(&scenes).scene
            }
        };
        let title = orders.iter().map(|loaded| loaded.order.title()).collect::<Vec<_>>().join(", ");
        let scene = if self.coin { with_scale(scene, COIN_MM) } else { scene };
        self.written(scene, &title)
    }

    /// The picture of the piece that is the `i`th of those asked for.
    fn scene(&self, loaded: &LoadedOrder, i: usize) -> Scene {
        let skin = self.skins.get(i).or(self.skins.last()).copied().unwrap_or(loaded.order.shown.skin);
        let shown = loaded.order.taste.dress.hex.filter(|_| loaded.order.shown.cloth);
        let dress = self.dresses.get(i).or(self.dresses.last()).copied().or(shown);
        let (piece, stock, wrist) = (&loaded.order.piece, &loaded.stock, &loaded.order.wrist);
        let ground = if self.clear { Ground::Clear } else { Ground::before(dress) };
        let arm = match self.view {
            PictureView::Above => true,
            PictureView::Flat => false,
            PictureView::Side => {
                let limit_mm = self.limit.then_some(loaded.style.shape.height_mm);
                return side_view(piece, stock, wrist, &SideViewOptions { skin, ground, limit_mm });
            }
        };
        picture(piece, stock, wrist, &PictureOptions { skin, ground, arm, ..PictureOptions::default() })
    }

    /// The chart of all forms, as bytes of its file.
    pub(super) fn chart_bytes(&self) -> Result<Vec<u8>, CliError> {
        self.written(form_chart(), "Forms")
    }

    fn written(&self, scene: Scene, title: &str) -> Result<Vec<u8>, CliError> {
        let words = self.caption.as_deref();
        let drawn = |scene| words.into_iter().fold(scene, captioned);
        match self.kind {
            PictureFormat::Png => {
                let scene = drawn(scene);
                Ok(png_of(&scene, self.resolution.width_px(&scene).map_err(CliError::Failed)?))
            }
            PictureFormat::Svg => Ok(svg_of(&drawn(scene)).into_bytes()),
            PictureFormat::Pdf => Ok(picture_pdf(scene, title, words)?),
        }
    }
}

impl Resolution {
    /// The width in pixels, or why this picture cannot have it: it would be too large, and is not cut.
    fn width_px(self, scene: &Scene) -> Result<u32, String> {
        let most = largest_width_px(scene).min(*WIDTHS_PX.end());
        let inches = scene.frame.height() / MM_PER_INCH;
        match self {
            Self::WidthPx(px) if px > most => {
                Err(format!("Too large to draw: {px} pixels wide, the most is {most}. Use --width-px {most}."))
            }
            Self::WidthPx(px) => Ok(px),
            Self::Dpi(dpi) => {
                let px = ceil_u32((inches * f64::from(dpi)).round()).max(*WIDTHS_PX.start());
                let most_dpi = floor_u32(f64::from(most) / inches);
                let refusal = || {
                    format!(
                        "Too large to draw: {px} pixels wide at {dpi} dpi. Use --width-px {most}, or --dpi {most_dpi}."
                    )
                };
                if px > most { Err(refusal()) } else { Ok(px) }
            }
        }
    }
}

/// The options, or what is wrong with them. `what` is what the picture is called.
pub(super) fn picture_args(args: &Args, what: &str) -> Result<PictureArgs, String> {
    let to = args.place("to").ok_or_else(|| format!("{what} needs a file to save to: add --to OUT.png."))?;
    let kind = kind_of(&to)?;
    let dresses = args.texts("dress").iter().map(|text| dress_of(text)).collect::<Result<_, _>>()?;
    let view = args.text("view").map_or(Ok(PictureView::default()), |word| view_of(&word))?;
    let skins = args.texts("skin").iter().map(|word| skin_of(word)).collect::<Result<_, _>>()?;
    let (coin, limit, clear) = (args.has("coin"), args.has("limit"), args.has("clear"));
    if clear && args.has("dress") {
        return Err("Choose one of --clear and --dress.".to_owned());
    }
    if clear && args.words.len() > 2 {
        return Err("--clear takes one order: several share one background.".to_owned());
    }
    if limit && view != PictureView::Side {
        return Err("--limit needs the side view: add --view side.".to_owned());
    }
    let caption = args.text("caption");
    Ok(PictureArgs { to, kind, resolution: resolution(args)?, view, skins, dresses, clear, caption, coin, limit })
}

fn resolution(args: &Args) -> Result<Resolution, String> {
    match (args.number("width-px", WIDTHS_PX)?, args.number("dpi", DPIS)?) {
        (Some(_), Some(_)) => Err("Choose one of --width-px and --dpi.".to_owned()),
        (Some(px), None) => Ok(Resolution::WidthPx(px)),
        (None, Some(dpi)) => Ok(Resolution::Dpi(dpi)),
        (None, None) => Ok(Resolution::WidthPx(USUAL_WIDTH_PX)),
    }
}

fn kind_of(to: &Path) -> Result<PictureFormat, String> {
    let ending = to.extension().map(|e| e.to_string_lossy().to_lowercase());
    match ending.as_deref() {
        Some("png") => Ok(PictureFormat::Png),
        Some("svg") => Ok(PictureFormat::Svg),
        Some("pdf") => Ok(PictureFormat::Pdf),
        _ => Err("A picture is PNG, SVG or PDF: end the name after --to in .png, .svg or .pdf.".to_owned()),
    }
}

fn view_of(word: &str) -> Result<PictureView, String> {
    match word {
        "above" => Ok(PictureView::Above),
        "side" => Ok(PictureView::Side),
        "flat" => Ok(PictureView::Flat),
        _ => Err("--view is one of above, side, flat.".to_owned()),
    }
}

pub(super) fn skin_of(word: &str) -> Result<Skin, String> {
    let known = || Skin::ALL.map(Skin::word).join(", ");
    Skin::ALL.into_iter().find(|s| s.word() == word).ok_or_else(|| format!("--skin is one of {}.", known()))
}

pub(super) fn dress_of(text: &str) -> Result<Rgb, String> {
    Rgb::parse(text).ok_or_else(|| "--dress needs a colour such as '#1b2a4a'.".to_owned())
}
