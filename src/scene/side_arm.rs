//! The arm of the side view: the wrist end on, the forearm that widens behind it, the band round it. mm.

use kurbo::{Point, Rect, Vec2};

use super::brush::{linear, oval, oval_radial};
use super::draft::{Draft, LIGHT};
use super::hues::{Hues, PLUM};
use super::picture::paper_over;
use super::side_view::{SideLook, on_skin};
use super::{Group, Key};
use crate::colour::Rgb;
use crate::geometry::WristSection;
use crate::piece::Piece;
use crate::stock::{BandKind, Stock};

/// Paper, forearm, band and wrist.
pub(super) fn ground(section: &WristSection, piece: &Piece, stock: &Stock, look: &SideLook, frame: Rect) -> Group {
    let mut draft = Draft::new(3, LIGHT);
    draft.group.key = Key::Ground;
    paper_over(&mut draft, look.ground, frame);
    let radii = Vec2::new(section.half_depth(), section.half_width());
    let tone = look.skin.rgb();
    let away = draft.lightward() * -4.0;
    draft.shadow(Point::new(-radii.x * 0.35, 0.0) + away, radii * 1.62, 0.0, PLUM, 0.34);
    forearm(&mut draft, radii, tone);
    // What the piece and the band keep from the light.
    draft.shadow(Point::new(-1.6, 1.0), radii * 1.16, 0.0, tone.lighter(-0.34), 0.55);
    if let Some(band) = piece.band.as_ref().and_then(|id| stock.band(id)) {
        band_ring(&mut draft, section, band.kind, band.rgb);
    }
    wrist_end(&mut draft, radii, tone);
    draft.group
}

/// The forearm behind the wrist, section by section from the farthest: the nearer the lighter.
fn forearm(draft: &mut Draft, radii: Vec2, tone: Rgb) {
    const SECTIONS: u32 = 9;
    for i in 0..=SECTIONS {
        let near = f64::from(i) / f64::from(SECTIONS);
        let grow = Vec2::new(1.2 - 0.18 * near, 1.28 - 0.25 * near.powf(1.4));
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

/// The wrist end on, rounded off as a display hand's: nothing of what is inside.
fn wrist_end(draft: &mut Draft, radii: Vec2, tone: Rgb) {
    let list = [(0.0, 0.05), (0.3, 0.035), (0.58, 0.0), (0.82, -0.055), (1.0, -0.12)];
    let list = list.map(|(at, by)| (at, tone.lighter(by).solid()));
    let lit = (draft.lightward() * (radii.x * 0.42)).to_point();
    draft.group.fill(oval(Point::ZERO, radii, 0.0), oval_radial(lit, radii * 1.38, 0.0, &list));
    let turns = tone.lighter(-0.16);
    let rim = [(0.0, turns.tint(0.0)), (0.55, turns.tint(0.0)), (0.85, turns.tint(0.22)), (1.0, turns.tint(0.55))];
    draft.group.fill(oval(Point::ZERO, radii, 0.0), oval_radial(Point::ZERO, radii, 0.0, &rim));
    // A soft sheen lies on the upper side.
    let glow = tone.lighter(0.09);
    let sheen = [(0.0, glow.tint(0.55)), (0.5, glow.tint(0.22)), (1.0, glow.tint(0.0))];
    let (at, size) = (Point::new(radii.x * 0.3, -radii.y * 0.3), Vec2::new(radii.x * 0.42, radii.y * 0.46));
    draft.group.fill(oval(at, size, 0.0), oval_radial(at, size, 0.0, &sheen));
    // Under the piece it is darker.
    draft.shadow(Point::new(radii.x * 0.98, 0.0), Vec2::new(radii.x * 0.34, radii.y * 0.86), 0.0, PLUM, 0.3);
}

/// The band, seen on its edge, all the way round.
fn band_ring(draft: &mut Draft, section: &WristSection, kind: BandKind, rgb: Rgb) {
    let thick = match kind {
        BandKind::Elastic | BandKind::RibbonTie => 1.7,
        BandKind::Metal => 2.0,
        BandKind::Pearl => 5.0,
    };
    let (p, q) = (section.half_width(), section.half_depth());
    if kind == BandKind::Pearl {
        let count = crate::units::count_up(section.girth() / (thick * 1.04)).clamp(6, 120);
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
