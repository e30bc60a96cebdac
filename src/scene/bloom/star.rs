//! Blooms with few petals that each can be told apart: the plain five-petal bloom, orchids.

use kurbo::{Affine, Point, Vec2};

use super::{around, placed};
use crate::colour::Rgb;
use crate::scene::brush::{linear, oval, oval_radial, radial};
use crate::scene::draft::Draft;
use crate::scene::hues::{Hues, POLLEN, WHITE};
use crate::scene::outline::Blade;

/// Five round petals about a small eye.
pub(crate) fn five_petals(draft: &mut Draft, hues: &Hues) {
    draft.cast(1.0, 0.42);
    let start = draft.chance.turn();
    for a in around(5, start) {
        let blade = Blade {
            length: 1.0 + draft.chance.about(0.05),
            half: 0.45,
            blunt: 0.55,
            foot: 0.3,
            notch: 0.03,
            bend: draft.chance.about(0.05),
            ..Blade::PETAL
        };
        draft.blade(Affine::rotate(a), &blade, hues, 5, 0.08);
    }
    let eye = Hues::of(POLLEN);
    draft.ball(Point::ZERO, 0.16, &eye, 0.3);
}

/// A dendrobium: three sepals, two broad petals, a lip toward -x.
pub(crate) fn dendrobium(draft: &mut Draft, hues: &Hues) {
    draft.cast(0.95, 0.42);
    let back = hues.lit(-0.018);
    for a in [0.0, 2.2, -2.2] {
        let blade = Blade {
            length: 1.0 + draft.chance.about(0.04),
            half: 0.25,
            peak: 0.5,
            blunt: 0.78,
            bend: draft.chance.about(0.05),
            ..Blade::PETAL
        };
        draft.blade(Affine::rotate(a), &blade, &back, 6, 0.07);
    }
    for side in [-1.0, 1.0] {
        let blade = Blade { half: 0.42, foot: 0.16, wave: 0.035, bend: 0.06 * side, ..Blade::PETAL };
        draft.blade(Affine::rotate(side * 1.2), &blade, hues, 9, 0.085);
    }
    lip(draft, &lip_hues(hues));
    column(draft, hues);
}

/// A lip is deeper than the petals; on a white bloom it stays white with a green-yellow throat in some, wine in most.
fn lip_hues(hues: &Hues) -> Hues {
    Hues::of(hues.throat.mixed(Rgb::hex(0x9b2a78), 0.72))
}

fn lip(draft: &mut Draft, hues: &Hues) {
    for side in [-1.0, 1.0] {
        let lobe = Blade { length: 0.36, half: 0.15, foot: 0.5, wave: 0.04, bend: -0.25 * side, ..Blade::PETAL };
        draft.blade(placed((-0.04, 0.0), std::f64::consts::PI + side * 0.85), &lobe, hues, 4, 0.05);
    }
    let front = Blade { length: 0.6, half: 0.23, peak: 0.66, blunt: 0.55, notch: 0.05, wave: 0.07, ..Blade::PETAL };
    draft.blade(placed((-0.02, 0.0), std::f64::consts::PI), &front, hues, 7, 0.06);
}

fn column(draft: &mut Draft, hues: &Hues) {
    for side in [-1.0, 1.0] {
        let ridge = oval(Point::new(-0.17, side * 0.035), Vec2::new(0.08, 0.032), 0.0);
        let gold = [(0.0, POLLEN.lighter(0.08).solid()), (1.0, POLLEN.lighter(-0.14).solid())];
        draft.group.fill(ridge, linear((-0.1, 0.0), (-0.26, 0.0), &gold));
    }
    let (centre, radii) = (Point::new(0.01, 0.0), Vec2::new(0.115, 0.078));
    let away = draft.lightward() * -0.03;
    draft.shadow(centre + away, radii * 1.5, 0.0, hues.shade, 0.5);
    let list = [(0.0, WHITE.solid()), (0.5, hues.rim.solid()), (1.0, hues.throat.solid())];
    let lit = centre + draft.lightward() * 0.04;
    draft.group.fill(oval(centre, radii, 0.0), oval_radial(lit, radii * 1.3, 0.0, &list));
    let cap = radial(Point::new(-0.08, 0.0), 0.05, &[(0.0, hues.throat.tint(0.6)), (1.0, hues.throat.tint(0.0))]);
    draft.group.fill(oval(Point::new(-0.08, 0.0), Vec2::new(0.05, 0.05), 0.0), cap);
}
