//! The whole picture of a piece on its wrist.

use kurbo::{Affine, Point, Rect, Shape as _, Vec2};

use super::band::band;
use super::bloom::{Openness, lit_bloom};
use super::brush::{linear, oval, oval_radial, radial};
use super::chance::seed_of;
use super::draft::{Draft, LIGHT};
use super::hues::PLUM;
use super::ribbon;
use super::wrist::Arm;
use super::{Group, Key, Primitive, Scene};
use crate::colour::Rgb;
use crate::geometry::Shape;
use crate::piece::{Level, Part, Piece, STEM_MM, STEM_WIDTH_MM, Skin, Worn, Wrist};
use crate::stock::{Form, Role, Stock};

/// What lies under everything.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Ground {
    /// Warm paper.
    #[default]
    Paper,
    /// Nothing: the picture can be laid over something else.
    Clear,
    /// The cloth of the dress.
    Dress(Rgb),
}

impl Ground {
    /// The cloth of a dress where its colour is known, else paper.
    pub fn before(dress: Option<Rgb>) -> Self {
        dress.map_or(Self::Paper, Self::Dress)
    }
}

/// How a piece is to be shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PictureOptions {
    /// The tone of the arm.
    pub skin: Skin,
    /// What lies under it.
    pub ground: Ground,
    /// What of piece space is shown, mm; `None` for [`frame_for`].
    pub frame: Option<Rect>,
    /// Whether the arm is drawn.
    pub arm: bool,
}

impl Default for PictureOptions {
    fn default() -> Self {
        Self { skin: Skin::Plain, ground: Ground::Paper, frame: None, arm: true }
    }
}

/// The least that a frame shows along and across, mm, so that the wrist is seen to be one; our choice.
const LEAST_FRAME_MM: Vec2 = Vec2::new(150.0, 122.0);
/// How much of that is shown of what is worn on a lapel.
const LEAST_SHARE: f64 = 0.56;
/// Room left about the piece, mm.
const MARGIN_MM: f64 = 10.0;
/// Room below the longest finger, mm.
const BELOW_HAND_MM: f64 = 6.0;
/// How far paper and cloth run past the frame, mm, so that its last row of pixels is covered whole.
pub(super) const BLEED_MM: f64 = 2.0;
/// The most that a frame shows to each side of the centre, mm.
const FARTHEST_MM: f64 = 1000.0;
/// Stem tape, and how far apart its turns are, mm; by eye.
const TAPE: Rgb = Rgb::hex(0x6f8f5a);
const TURN_MM: f64 = 6.0;
const N_TURNS: u32 = 9;
/// Colour of something that is not in stock.
const UNKNOWN_COLOUR: Rgb = Rgb::hex(0xe8ddd6);

/// The picture of a piece on its wrist: ground, bow, then each part from below.
pub fn picture(piece: &Piece, stock: &Stock, wrist: &Wrist, options: &PictureOptions) -> Scene {
    let frame = options
        .frame
        .filter(|f| f.is_finite() && f.area() > 0.0)
        .unwrap_or_else(|| frame_for(piece, options.arm.then_some(wrist)));
    let mut groups = vec![ground(piece, stock, wrist, options, frame)];
    let parts = piece.from_below().into_iter().map(|part| part_group(part, stock));
    if let Some(at) = piece.binding_point(stock).filter(|_| !piece.parts().is_empty()) {
        // A bow that is bound to a stem lies over the foliage, at the binding point.
        groups.push(stem(at));
        groups.extend(parts);
        let ribbon = piece.bow.as_ref().map(|bow| ribbon::bow(bow, stock));
        let place = Affine::translate((at.x, at.y));
        groups.push(ribbon.map_or_else(|| Group::new(Key::Bow, place), |bow| Group { transform: place, ..bow }));
    } else {
        groups.push(bow(piece, stock));
        groups.extend(parts);
    }
    Scene { frame, groups }
}

/// A sensible frame: the piece with its bow, upright, and the hand where an arm is drawn.
pub fn frame_for(piece: &Piece, arm: Option<&Wrist>) -> Rect {
    let limit = |mm: f64| if mm.is_finite() { mm.clamp(0.0, FARTHEST_MM) } else { 0.0 };
    let (a, b) = (limit(piece.footprint.length_mm / 2.0), limit(piece.footprint.width_mm / 2.0));
    let mut all = Rect::new(-a, -b, a, b);
    if let Some(bow) = &piece.bow {
        let (reach, tail) = (limit(bow.loop_length_mm), if bow.tails > 0 { limit(bow.tail_length_mm) } else { 0.0 });
        all = all.union(Rect::new(-reach.max(tail), -reach, reach, reach));
    }
    for part in piece.parts() {
        let Point { x, y } = part.centre;
        if x.is_finite() && y.is_finite() {
            all = all.union(Rect::from_center_size(
                (x.clamp(-FARTHEST_MM, FARTHEST_MM), y.clamp(-FARTHEST_MM, FARTHEST_MM)),
                (20.0, 20.0),
            ));
        }
    }
    if piece.worn == Worn::Lapel {
        all.x0 = all.x0.min(-a - STEM_MM);
    }
    let mut frame = all.inflate(MARGIN_MM, MARGIN_MM);
    if piece.worn == Worn::Wrist
        && let Some(wrist) = arm
    {
        let arm = Arm::new(wrist, piece.footprint.offset_mm);
        frame.x0 = frame.x0.min(arm.crease() - arm.hand_mm() - BELOW_HAND_MM);
    }
    grown(frame, if piece.worn == Worn::Wrist { LEAST_FRAME_MM } else { LEAST_FRAME_MM * LEAST_SHARE })
}

/// At least the least frame, and no wider than it is high.
fn grown(frame: Rect, least: Vec2) -> Rect {
    let high = frame.width().max(least.x).max(frame.height() * least.x / least.y);
    let wide = frame.height().max(least.y);
    // What is missing along the arm is shared out between both ends, so that the piece stays in the middle.
    let more = (high - frame.width()).max(0.0) / 2.0;
    let y = frame.center().y;
    Rect::new(frame.x0 - more, y - wide / 2.0, frame.x1 + more, y + wide / 2.0)
}

fn ground(piece: &Piece, stock: &Stock, wrist: &Wrist, options: &PictureOptions, frame: Rect) -> Group {
    let mut draft = Draft::new(1, LIGHT);
    draft.group.key = Key::Ground;
    paper_over(&mut draft, options.ground, frame);
    let arm = Arm::new(wrist, piece.footprint.offset_mm);
    if options.arm && piece.worn == Worn::Wrist {
        arm.draw(&mut draft, frame, options.skin);
        if let Some(stocked) = piece.band.as_ref().and_then(|id| stock.band(id)) {
            band(&mut draft, stocked, &arm);
        }
    }
    let oval = piece.oval();
    let on_wrist = piece.worn == Worn::Wrist;
    if on_wrist && oval.a.is_finite() && oval.b.is_finite() && !piece.parts().is_empty() {
        let away = draft.lightward() * -2.0;
        let radii = Vec2::new(oval.a.min(FARTHEST_MM), oval.b.min(FARTHEST_MM)) * 1.16;
        draft.shadow(away.to_point(), radii, 0.0, PLUM, 0.5 * fullness(piece, stock));
    }
    draft.group
}

/// Paper or cloth over the whole frame.
pub(super) fn paper_over(draft: &mut Draft, ground: Ground, frame: Rect) {
    let tones = match ground {
        Ground::Clear => return,
        Ground::Paper => [Rgb::hex(0xfcf8f3), Rgb::hex(0xf3ece4), Rgb::hex(0xdfd3c9)],
        Ground::Dress(rgb) => [rgb.lighter(0.05), rgb, rgb.lighter(-0.10)],
    };
    let lit = frame.center() + draft.lightward() * (frame.width() * 0.12);
    let reach = frame.width().hypot(frame.height()) * 0.62;
    let list = [(0.0, tones[0].solid()), (0.5, tones[1].solid()), (1.0, tones[2].solid())];
    draft.group.fill(frame.inflate(BLEED_MM, BLEED_MM).to_path(0.1), radial(lit, reach, &list));
    if let Ground::Dress(rgb) = ground {
        folds(draft, rgb, frame);
    }
}

/// Soft folds of cloth, so that a dress is not taken for coloured paper.
fn folds(draft: &mut Draft, rgb: Rgb, frame: Rect) {
    let (light, dark) = (rgb.lighter(0.06), rgb.lighter(-0.10));
    for i in 0..5 {
        let y = frame.y0 + frame.height() * (f64::from(i) + 0.5 + draft.chance.bell(0.3)) / 5.0;
        let radii = Vec2::new(frame.width() * 0.8, frame.height() * 0.07);
        let centre = Point::new(frame.center().x + draft.chance.bell(30.0), y);
        let turn = draft.chance.bell(0.22);
        for (shift, tone) in [(0.0, dark), (radii.y * 0.9, light)] {
            let centre = centre + Vec2::new(0.0, shift);
            let list = [(0.0, tone.tint(0.4)), (1.0, tone.tint(0.0))];
            draft.group.fill(oval(centre, radii, turn), oval_radial(centre, radii, turn, &list));
        }
    }
}

/// How far the oval is covered, 0 to 1: a full piece is dark between its blooms, a beginning is not.
fn fullness(piece: &Piece, stock: &Stock) -> f64 {
    let area = |part: &Part| match part.shape_in(stock) {
        Shape::Disc(d) => std::f64::consts::PI * d.radius * d.radius,
        Shape::Lens(l) => l.length * l.width * 0.66,
    };
    let covered: f64 = piece.parts().iter().map(area).filter(|a| a.is_finite()).sum();
    (covered / piece.oval().area().max(1.0)).clamp(0.0, 1.0)
}

/// The wired and taped stem of a boutonniere, from its binding point down.
fn stem(at: Point) -> Group {
    let mut draft = Draft::new(2, LIGHT);
    draft.group.key = Key::Stem;
    let (half, end) = (STEM_WIDTH_MM / 2.0, Point::new(at.x - STEM_MM, at.y));
    draft.shadow(
        Point::new(at.x - STEM_MM / 2.0, at.y + half),
        Vec2::new(STEM_MM * 0.52, STEM_WIDTH_MM),
        0.0,
        PLUM,
        0.22,
    );
    let tone = TAPE;
    let list = [(0.0, -0.10), (0.35, 0.06), (0.6, 0.02), (1.0, -0.16)].map(|(at, by)| (at, tone.lighter(by).solid()));
    let around = Rect::new(end.x, end.y - half, at.x + half, at.y + half).to_rounded_rect(half * 0.8);
    draft.group.fill(around.to_path(0.05), linear(Point::new(at.x, at.y - half), Point::new(at.x, at.y + half), &list));
    // The turns of the tape.
    for turn in 1..N_TURNS {
        let x = at.x - f64::from(turn) * TURN_MM;
        let mut path = kurbo::BezPath::new();
        path.move_to((x, at.y - half));
        path.line_to((x - TURN_MM * 0.6, at.y + half));
        path.line_to((x - TURN_MM * 0.6 - 0.5, at.y + half));
        path.line_to((x - 0.5, at.y - half));
        path.close_path();
        draft.group.fill(path, tone.lighter(-0.12).paint(0.5));
    }
    draft.group
}

/// The bow, and over it the green heart that a full piece has between its blooms.
fn bow(piece: &Piece, stock: &Stock) -> Group {
    let mut group =
        piece.bow.as_ref().map_or_else(|| Group::new(Key::Bow, Affine::IDENTITY), |bow| ribbon::bow(bow, stock));
    let (full, oval_mm) = (fullness(piece, stock), piece.oval());
    let strength = super::hues::ease(0.85, 1.05, full);
    let radii = Vec2::new(oval_mm.a, oval_mm.b) * 0.8;
    if strength > 0.0 && radii.x.is_finite() && radii.y.is_finite() {
        let (deep, edge) = (Rgb::hex(0x1f3824), Rgb::hex(0x37573a));
        let list = [
            (0.0, deep.tint(strength)),
            (0.7, deep.tint(strength * 0.95)),
            (0.88, edge.tint(strength * 0.6)),
            (1.0, edge.tint(0.0)),
        ];
        group.fill(oval(Point::ZERO, radii, 0.0), oval_radial(Point::ZERO, radii, 0.0, &list));
    }
    group
}

/// One part: drawn in its own frame, lit as the page is, then turned and set in its place.
fn part_group(part: &Part, stock: &Stock) -> Group {
    let (form, colour) = shown(part, stock);
    let size = [part.size_in(stock), stock.botanical(&part.stock).map_or(1.0, |b| b.breadth)];
    let turn = if part.turn_rad.is_finite() { part.turn_rad } else { 0.0 };
    let seed = seed_of(part.stock.as_str(), part.id.0);
    let bloom = lit_bloom(form, seed, size, colour, openness(part), LIGHT - turn);
    let at = if part.centre.is_finite() { part.centre.to_vec2() } else { Vec2::ZERO };
    let mut group = Group::new(Key::Part(part.id), Affine::translate(at) * Affine::rotate(turn));
    if let Some(edge) = bloom.edge_bounds(Affine::IDENTITY) {
        raised_shadow(&mut group, edge, part.level, LIGHT - turn);
    }
    group.items.push(Primitive::Group(bloom));
    group
}

/// The form and the colour in which a part is drawn.
pub(super) fn shown(part: &Part, stock: &Stock) -> (Form, Rgb) {
    let botanical = stock.botanical(&part.stock);
    let colour = botanical.and_then(|b| b.colour(&part.colour)).map_or(UNKNOWN_COLOUR, |c| c.rgb);
    (botanical.map_or(Form::StarFloret, |b| b.form), colour)
}

/// The higher a part sits, the farther and wider its shadow falls, beside the one that every bloom has anyway.
fn raised_shadow(group: &mut Group, edge: Rect, level: Level, light: f64) {
    let (strength, off) = match level {
        Level::Flat => return,
        Level::Raised => (0.16, 0.12),
        Level::Top => (0.26, 0.2),
    };
    let short = edge.width().min(edge.height()) / 2.0;
    let centre = edge.center() - Vec2::from_angle(light) * (short * off * 1.6);
    let radii = Vec2::new(edge.width() / 2.0, edge.height() / 2.0) + Vec2::new(short, short) * (0.2 + off);
    let list = [(0.0, strength), (0.55, strength * 0.8), (0.8, strength * 0.32), (1.0, 0.0)];
    let list = list.map(|(at, alpha)| (at, PLUM.tint(alpha)));
    group.fill(oval(centre, radii, 0.0), oval_radial(centre, radii, 0.0, &list));
}

/// Blooms are shown open: that is how they are sold for wear.
fn openness(part: &Part) -> Openness {
    match part.role {
        Role::Bloom | Role::Accent | Role::Filler | Role::Leaf | Role::Trim => Openness::Open,
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::piece::{Footprint, PartId};
    use crate::stock::StockId;

    fn part(centre: Point, turn_rad: f64) -> Part {
        Part {
            id: PartId(3),
            stock: StockId::new("no-such-thing"),
            colour: Arc::from("white"),
            role: Role::Bloom,
            centre,
            turn_rad,
            size_mm: Some(20.0),
            level: Level::Flat,
            locked: false,
        }
    }

    #[test]
    fn a_moved_part_changes_its_transform_only() {
        let stock = Stock::default();
        let (here, there) = (part(Point::new(1.0, 2.0), 0.4), part(Point::new(-9.0, 5.0), 0.4));
        let (one, other) = (part_group(&here, &stock), part_group(&there, &stock));
        assert_eq!(one.key, Key::Part(PartId(3)));
        assert_eq!(one.items, other.items);
        assert_eq!(Affine::translate((-10.0, 3.0)) * one.transform, other.transform);
    }

    #[test]
    fn a_part_sits_where_it_is_put_and_odd_numbers_do_no_harm() {
        let stock = Stock::default();
        let edge = part_group(&part(Point::new(7.0, -4.0), 1.0), &stock).edge_bounds(Affine::IDENTITY).unwrap();
        assert!(edge.center().distance(Point::new(7.0, -4.0)) < 2.0, "{edge:?}");
        let odd = part_group(&part(Point::new(f64::NAN, 0.0), f64::INFINITY), &stock);
        assert!(odd.edge_bounds(Affine::IDENTITY).unwrap().is_finite());
    }

    #[test]
    fn a_frame_is_upright_and_shows_piece_bow_and_hand() {
        let footprint = Footprint { length_mm: 90.0, width_mm: 60.0, offset_mm: 30.0 };
        let mut piece = Piece::empty(Worn::Wrist, footprint);
        let frame = frame_for(&piece, Some(&Wrist::usual()));
        let flat = frame_for(&piece, None);
        assert!(flat.x0 > frame.x0 + 50.0, "no room for a hand that is not drawn: {flat:?}");
        assert!(frame.width() >= 140.0 && frame.height() >= 110.0 && frame.width() > frame.height());
        assert!(frame.x0 <= -30.0 - 120.0 && frame.x1 >= 45.0);
        piece.footprint = Footprint { length_mm: f64::NAN, width_mm: 1e300, offset_mm: f64::NEG_INFINITY };
        assert!(frame_for(&piece, Some(&Wrist::usual())).is_finite());
        let scene = picture(&piece, &Stock::default(), &Wrist::usual(), &PictureOptions::default());
        assert_eq!(scene.groups.len(), 2);
    }
}
