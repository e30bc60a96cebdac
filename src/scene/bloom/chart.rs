//! The chart of all forms, side by side, each in a colour it is often bought in; blooms that open from bud to open.

use kurbo::{Affine, Point, Rect, Shape as _, Vec2};

use super::{Openness, bloom, opens};
use crate::colour::Rgb;
use crate::scene::{Group, Key, Scene};
use crate::stock::Form;

/// Single cells to a row; a bloom that opens takes two.
const COLUMNS: u32 = 12;
const CELL_MM: f64 = 39.0;
const BLOOM_MM: f64 = 33.0;
/// The stages of a bloom that opens: where in its two cells, and how large, mm.
const STAGES: [(Openness, f64, f64); 3] =
    [(Openness::Bud, 10.0, 18.0), (Openness::Half, 31.5, 22.0), (Openness::Open, 60.5, BLOOM_MM)];

/// Every form: first the blooms that open, as bud, half open and open, then all others, in the order of [`Form::ALL`].
pub fn form_chart() -> Scene {
    let (opening, others): (Vec<Form>, Vec<Form>) = Form::ALL.into_iter().partition(|form| opens(*form));
    let rows_of = |count: usize, per_row: u32| u32::try_from(count).unwrap_or(0).div_ceil(per_row);
    let first = rows_of(opening.len(), COLUMNS / 2);
    let rows = first + rows_of(others.len(), COLUMNS);
    let frame = Rect::new(-f64::from(rows) * CELL_MM, 0.0, 0.0, f64::from(COLUMNS) * CELL_MM);
    let mut ground = Group::new(Key::Ground, Affine::IDENTITY);
    // A little past the frame, so that its last row of pixels is covered whole.
    ground.fill(frame.inflate(2.0, 2.0).to_path(0.1), Rgb::hex(0xf6f0e9).paint(1.0));
    let mut groups = vec![ground];
    let corner = |i: u32, per_row: u32, from_row: u32| {
        let (row, column) = (from_row + i / per_row, i % per_row);
        Point::new(-(f64::from(row) + 0.5) * CELL_MM, f64::from(column) * f64::from(COLUMNS / per_row) * CELL_MM)
    };
    for (form, i) in opening.into_iter().zip(0_u32..) {
        let at = corner(i, COLUMNS / 2, 0);
        groups.extend(STAGES.map(|(openness, aside, size)| shown_at(form, at + Vec2::new(0.0, aside), size, openness)));
    }
    for (form, i) in others.into_iter().zip(0_u32..) {
        let at = corner(i, COLUMNS, first) + Vec2::new(0.0, CELL_MM / 2.0);
        groups.push(shown_at(form, at, BLOOM_MM, Openness::Open));
    }
    Scene { frame, groups }
}

fn shown_at(form: Form, centre: Point, size_mm: f64, openness: Openness) -> Group {
    let (colour, breadth) = shown(form);
    let seed = crate::scene::chance::seed_of("chart", 1);
    let mut group = bloom(form, seed, size_mm, breadth, colour, openness);
    group.transform = Affine::translate(centre.to_vec2()) * group.transform;
    group
}

/// The colour and the width over length in which a form is shown on the chart.
fn shown(form: Form) -> (Rgb, f64) {
    let (colour, breadth) = match form {
        Form::Rose => (0xe3979c, 1.0),
        Form::SprayRose => (0xf3c6b4, 1.0),
        Form::Ranunculus => (0xf3b283, 1.0),
        Form::Carnation => (0x9c2344, 1.0),
        Form::Lisianthus => (0xc3aede, 1.0),
        Form::Freesia => (0xf4e19c, 1.0),
        Form::Anemone => (0x7d5bb5, 1.0),
        Form::Daisy | Form::Stephanotis | Form::Waxflower | Form::BabysBreath => (0xfdfbf5, 1.0),
        Form::ButtonMum => (0xe9e6a4, 1.0),
        Form::Craspedia => (0xecc02d, 1.0),
        Form::Dendrobium => (0xf3e4f1, 1.0),
        Form::Cymbidium => (0xd5dc9a, 1.0),
        Form::Alstroemeria => (0xe98aa0, 1.0),
        Form::Nerine => (0xec8fb6, 1.0),
        Form::StarFloret => (0x9cc3e3, 1.0),
        Form::Delphinium => (0x5b7fd0, 1.0),
        Form::Hydrangea => (0xa9bde4, 1.0),
        Form::SweetPea => (0xe9a9cd, 1.0),
        Form::Muscari => (0x4a5bb0, 0.38),
        Form::Astrantia => (0xe6c3cc, 1.0),
        Form::Scabiosa => (0xa9a5dc, 1.0),
        Form::Berry => (0xb5382f, 1.0),
        Form::Thistle => (0x6d8bb5, 1.0),
        Form::Statice => (0x7e5cb0, 1.0),
        Form::Heather => (0xd277a8, 0.3),
        Form::Lavender => (0x8f7cc4, 0.3),
        Form::Veronica => (0x8d83d2, 0.22),
        Form::Goldenrod => (0xe7bd35, 1.0),
        Form::Succulent => (0x93b39c, 1.0),
        Form::Brunia => (0xb9c4b4, 1.0),
        Form::BroadLeaf => (0x487a48, 0.6),
        Form::NarrowLeaf => (0x3f7045, 0.34),
        Form::RoundLeaf => (0x93ab9f, 0.56),
        Form::Frond => (0x47783c, 0.6),
        Form::IvyLeaf => (0x3f6a3d, 0.85),
        Form::Rosette => (0x5b8a4d, 1.0),
        Form::FeltLeaf => (0xbac6bd, 0.5),
        Form::Needle => (0x6b8a72, 0.34),
        Form::GrassLoop => (0x6c9a4a, 0.4),
        Form::Plume => (0x6ba052, 0.46),
        Form::Pearl => (0xf4ece2, 1.0),
        Form::Stone => (0xcfe0ee, 1.0),
    };
    (Rgb::hex(colour), breadth)
}
