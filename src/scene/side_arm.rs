//! The arm of the side view: the hand toward the eye, the wrist, the band round it, the forearm that widens behind. mm.

use kurbo::{Affine, Point, Rect, Vec2};

use super::brush::{linear, oval, oval_radial};
use super::draft::{Draft, LIGHT};
use super::hues::{Hues, PLUM};
use super::outline::between;
use super::picture::paper_over;
use super::side_view::{SideViewOptions, on_skin};
use super::wrist::Arm;
use super::{Group, Key, Primitive};
use crate::colour::Rgb;
use crate::geometry::WristSection;
use crate::piece::Skin;
use crate::piece::{Piece, Worn, Wrist};
use crate::stock::{BandKind, Stock};

/// Farther than any hand, mm.
const FAR_MM: f64 = 400.0;
/// The crease is drawn so far before the piece, mm, whatever it is: what lies between is seen nearly on edge.
const CREASE_MM: f64 = 22.0;
/// How much of its length is seen of a hand that hangs at ease from a held-out arm; by eye.
const HANGING: f64 = 0.5;

/// Whose wrist it is, and its section under the piece.
#[derive(Clone, Copy, Debug)]
pub(super) struct WristInView<'a> {
    pub(super) section: &'a WristSection,
    pub(super) wrist: &'a Wrist,
}

impl WristInView<'_> {
    fn arm(&self) -> Arm {
        Arm::new(self.wrist, CREASE_MM)
    }

    /// How far down the tips of the fingers are seen, mm; of a lapel, its cloth.
    pub(super) fn lowest_mm(&self, piece: &Piece) -> f64 {
        if piece.worn == Worn::Lapel {
            return -self.section.half_depth();
        }
        let arm = self.arm();
        (arm.crease() - arm.hand_mm()) * HANGING
    }
}

/// Paper, forearm, band, wrist and hand.
pub(super) fn ground(
    view: &WristInView<'_>,
    piece: &Piece,
    stock: &Stock,
    options: &SideViewOptions,
    frame: Rect,
) -> Group {
    let section = view.section;
    let mut draft = Draft::new(3, LIGHT);
    draft.group.key = Key::Ground;
    paper_over(&mut draft, options.ground, frame);
    let radii = Vec2::new(section.half_depth(), section.half_width());
    if piece.worn == Worn::Lapel {
        cloth(&mut draft, radii, frame);
        return draft.group;
    }
    let tone = options.skin.rgb();
    let away = draft.lightward() * -4.0;
    draft.shadow(Point::new(-radii.x * 0.2, 0.0) + away, radii * 1.4, 0.0, PLUM, 0.3);
    forearm(&mut draft, radii, tone);
    // What the piece and the band keep from the light.
    draft.shadow(Point::new(-1.6, 1.0), radii * 1.16, 0.0, tone.lighter(-0.34), 0.55);
    if let Some(band) = piece.band.as_ref().and_then(|id| stock.band(id)) {
        band_ring(&mut draft, section, band.kind, band.rgb);
    }
    hand(&mut draft, &view.arm(), radii, options.skin);
    if !piece.parts().is_empty() {
        // Under the piece it is darker.
        let (at, size) = (Point::new(radii.x * 0.86, 0.0), Vec2::new(radii.x * 0.6, radii.y * 0.92));
        draft.shadow(at, size, 0.0, tone.lighter(-0.3), 0.5);
    }
    draft.group
}

/// What a boutonniere is pinned to: dark cloth over a shoulder, from edge to edge of the picture.
fn cloth(draft: &mut Draft, radii: Vec2, frame: Rect) {
    let tone = Rgb::hex(0x3c4049);
    let list = [(0.0, 0.1), (0.25, 0.04), (0.6, -0.03), (1.0, -0.09)].map(|(at, by)| (at, tone.lighter(by).solid()));
    // As round as it is measured under the piece, then on to both sides in one slope.
    let ends = frame.y0.abs().max(frame.y1.abs()) + 1.0;
    let top = |y: f64| radii.x * (2.0 - (1.0 + (y / radii.y).powi(2)).sqrt());
    let shoulder: Vec<Point> = (-12..=12).map(|k| f64::from(k) / 12.0 * ends).map(|y| Point::new(top(y), y)).collect();
    let foot = [Point::new(frame.x0 - 1.0, -ends), Point::new(frame.x0 - 1.0, ends)];
    let (high, low) = (Point::new(radii.x, 0.0), Point::new(frame.x0, 0.0));
    draft.group.fill(between(&shoulder, &foot), linear(high, low, &list));
    draft.shadow(Point::new(radii.x * 0.9, 0.0), Vec2::new(radii.x * 0.4, radii.y * 0.8), 0.0, PLUM, 0.4);
}

/// The forearm behind the wrist, section by section from the farthest: the nearer the lighter.
fn forearm(draft: &mut Draft, radii: Vec2, tone: Rgb) {
    const SECTIONS: u32 = 9;
    for i in 0..=SECTIONS {
        let near = f64::from(i) / f64::from(SECTIONS);
        let grow = Vec2::new(1.1 - 0.08 * near, 1.14 - 0.11 * near.powf(1.4));
        let by = -0.13 + 0.09 * near;
        let list = [
            (0.0, tone.lighter(by + 0.03).solid()),
            (0.62, tone.lighter(by + 0.01).solid()),
            (0.86, tone.lighter(by - 0.035).solid()),
            (1.0, tone.lighter(by - 0.085).solid()),
        ];
        let size = Vec2::new(radii.x * grow.x, radii.y * grow.y);
        let centre = Point::new(-radii.x * 0.1 * (1.0 - near), 0.0);
        let lit = centre + draft.lightward() * (radii.x * 0.5);
        draft.group.fill(oval(centre, size, 0.0), oval_radial(lit, size * 1.35, 0.0, &list));
    }
}

/// The top of the wrist and the hand that comes toward the eye, both in one light, so that nothing shows where they meet.
fn hand(draft: &mut Draft, arm: &Arm, radii: Vec2, skin: Skin) {
    let tone = skin.rgb();
    draft.group.fill(oval(Point::ZERO, radii, 0.0), arm.roundness(tone));
    let mut laid = Draft::new(5, LIGHT);
    arm.draw(&mut laid, Rect::new(-FAR_MM, -FAR_MM, -Arm::ABOVE_FRAME_MM, FAR_MM), skin);
    laid.group.transform = Affine::scale_non_uniform(HANGING, 1.0);
    draft.group.items.push(Primitive::Group(laid.group));
}

/// The band, seen on its edge, all the way round.
fn band_ring(draft: &mut Draft, section: &WristSection, kind: BandKind, rgb: Rgb) {
    let thick = match kind {
        BandKind::Elastic | BandKind::RibbonTie => 1.7,
        BandKind::Metal | BandKind::Slap => 2.0,
        BandKind::Rhinestone => 3.0,
        BandKind::Pearl => 5.0,
    };
    let (p, q) = (section.half_width(), section.half_depth());
    if kind == BandKind::Pearl {
        let count = crate::units::ceil_u32(section.girth() / (thick * 1.04)).clamp(6, 120);
        for i in 0..count {
            let arc = section.girth() * (f64::from(i) / f64::from(count) - 0.5);
            let centre = on_skin(section, arc).0 * Point::new(thick * 0.42, 0.0);
            draft.ball(centre, thick / 2.0, &Hues::of(rgb), 0.7);
        }
        return;
    }
    let radii = Vec2::new(q + thick, p + thick);
    // Its width, going away from the eye, and its near edge.
    let inner =
        [(0.0, rgb.lighter(-0.04).solid()), (0.5, rgb.lighter(-0.1).solid()), (1.0, rgb.lighter(-0.26).solid())];
    let far = Vec2::new(radii.x * 1.012, radii.y * 1.028);
    draft.group.fill(oval(Point::new(0.5, 0.0), far, 0.0), linear((radii.x, -p), (-radii.x, p), &inner));
    let list = [
        (0.0, rgb.lighter(0.1).solid()),
        (0.3, rgb.lighter(0.0).solid()),
        (0.5, rgb.lighter(0.06).solid()),
        (1.0, rgb.lighter(-0.18).solid()),
    ];
    draft.group.fill(oval(Point::ZERO, radii, 0.0), linear((radii.x, -p), (-radii.x, p), &list));
    draft.group.stroke(oval(Point::ZERO, radii, 0.0), 0.18, rgb.lighter(0.12).paint(0.6));
}
