//! Photos made up in the test: folds, shade, shine, a warm room.

use std::ops::ControlFlow;

use posywright::colour::{GreyCard, Photo, PhotoRegion, Rgb, USUAL_LIGHT, main_colours, read_region, xyz_of};

const WIDTH: u32 = 640;
const HEIGHT: u32 = 480;
const WALL: Rgb = Rgb::hex(0x9a958c);

/// A fixed noise from -1 to 1 for each pixel.
fn noise(x: u32, y: u32, k: u32) -> f64 {
    let mixed = (x.wrapping_mul(73_856_093) ^ y.wrapping_mul(19_349_663) ^ k.wrapping_mul(83_492_791))
        .wrapping_mul(2_654_435_769);
    f64::from(mixed >> 8) / f64::from(1_u32 << 23) - 1.0
}

/// Light of a fabric at a place: vertical folds from full light down to a third, with a narrow shine on each.
fn folds(x: u32, y: u32) -> (f64, f64) {
    let across = f64::from(x) / 60.0 * std::f64::consts::TAU + 0.4 * (f64::from(y) / 90.0).sin();
    let lit = 0.36 + 0.64 * (0.5 + 0.5 * across.cos()).powf(0.7);
    let shine = (0.5 + 0.5 * (across - 0.15).cos()).powf(220.0);
    (lit, shine)
}

/// A dress of this colour in the middle, in folds, before a wall; `room` scales the light of the three channels.
fn dressed(dress: Rgb, room: [f64; 3]) -> Photo {
    let pixel = |x: u32, y: u32| {
        let is_dress = (120..520).contains(&x) && y > 60;
        let is_card = x < 90 && y > 380;
        let (lit, shine) = if is_dress { folds(x, y) } else { (1.0, 0.0) };
        let base = if is_dress {
            dress.linear()
        } else if is_card {
            Rgb::hex(0x767676).linear()
        } else {
            WALL.linear()
        };
        let channel = |i: usize| {
            let grain = 1.0 + 0.03 * noise(x, y, u32::try_from(i).unwrap());
            (base[i] * lit * grain + 0.8 * shine) * room[i]
        };
        Rgb::from_linear([channel(0), channel(1), channel(2)])
    };
    Photo::made_of(WIDTH, HEIGHT, pixel, &mut |_| ControlFlow::Continue(())).unwrap()
}

/// The fabrics of an evening: pale, saturated, dark.
const DRESSES: [u32; 6] = [0xc99093, 0x8b1427, 0x2858bd, 0x1f4630, 0xb79bcf, 0xe5cfae];

/// By construction the fabric in full light is the truth; the plain median sits in the shade of the folds.
#[test]
fn a_lit_fabric_is_read_through_folds_and_shine() {
    for hex in DRESSES {
        let (dress, photo) = (Rgb::hex(hex), dressed(Rgb::hex(hex), [1.0; 3]));
        let fabric = PhotoRegion::fabric(&photo, 320, 260);
        let share = fabric.share(&photo);
        let truth = 400.0 * 419.0 / f64::from(WIDTH * HEIGHT);
        assert!(share > 0.6 * truth && share < 1.05 * truth, "{hex:06x}: {share:.2} of {truth:.2}");
        let read = read_region(&photo, &fabric, USUAL_LIGHT, None).unwrap();
        let median = read_region(&photo, &fabric, 0.5, None).unwrap();
        let (off, plain) = (read.rgb.difference(dress), median.rgb.difference(dress));
        assert!(off < 3.5, "{hex:06x}: {off:.2}");
        assert!(off < plain, "{hex:06x}: {off:.2}, plain median {plain:.2}");
        // Hue hardly moves along the slider.
        let hue = |c: Rgb| c.oklch()[2];
        let turn = (hue(read.ends[0]) - hue(dress)).abs();
        assert!(turn.min(360.0 - turn) < 8.0, "{hex:06x}: {turn:.1} degrees");
        assert!(read.ends[0].oklab()[0] < read.ends[1].oklab()[0], "shade is darker than light");
    }
}

#[test]
fn the_slider_goes_from_shade_to_light() {
    let photo = dressed(Rgb::hex(0x8b1427), [1.0; 3]);
    let fabric = PhotoRegion::fabric(&photo, 320, 260);
    let lightness: Vec<f64> =
        (0..=10).map(|k| read_region(&photo, &fabric, f64::from(k) / 10.0, None).unwrap().oklab[0]).collect();
    assert!(lightness.windows(2).all(|w| w[0] <= w[1]) && lightness[10] > lightness[0] + 0.08, "{lightness:?}");
}

/// A room whose light makes grey orange, and half a stop too dark: the card in the corner mends both.
#[test]
fn a_grey_card_in_the_photo_mends_the_light_of_the_room() {
    for hex in DRESSES {
        let (dress, photo) = (Rgb::hex(hex), dressed(Rgb::hex(hex), [0.85, 0.65, 0.42]));
        let seen = read_region(&photo, &PhotoRegion::tap(&photo, 40, 430), 0.5, None).unwrap();
        let card = GreyCard::seen_as(seen.rgb).unwrap();
        assert!(card.cast() > 0.05, "{}", card.cast());
        let fabric = PhotoRegion::fabric(&photo, 320, 260);
        let plain = read_region(&photo, &fabric, USUAL_LIGHT, None).unwrap().rgb.difference(dress);
        let mended = read_region(&photo, &fabric, USUAL_LIGHT, Some(&card)).unwrap().rgb.difference(dress);
        assert!(plain > 4.0 && mended < 6.0 && mended < plain / 2.0, "{hex:06x}: {plain:.2} to {mended:.2}");
    }
}

#[test]
fn the_main_colours_of_a_photo_hold_the_dress_and_the_wall_and_never_change() {
    let photo = dressed(Rgb::hex(0x2858bd), [1.0; 3]);
    let found = main_colours(&photo, &PhotoRegion::whole(&photo), 5);
    assert_eq!(found, main_colours(&photo, &PhotoRegion::whole(&photo), 5));
    let shares: f64 = found.iter().map(|m| m.share).sum();
    assert!((shares - 1.0).abs() < 1e-9 && found.windows(2).all(|w| w[0].share >= w[1].share));
    for wanted in [WALL, Rgb::hex(0x2858bd)] {
        let nearest = found.iter().map(|m| m.rgb.difference(wanted)).fold(f64::MAX, f64::min);
        assert!(nearest < 8.0, "{wanted:?}: {nearest:.1}");
    }
}

#[test]
fn blown_out_fabric_says_so() {
    let photo = dressed(Rgb::hex(0xf9f8f5), [1.6; 3]);
    let read = read_region(&photo, &PhotoRegion::disc(&photo, 320, 260, 120), USUAL_LIGHT, None).unwrap();
    assert!(read.clipped > 0.4, "{}", read.clipped);
    assert!(xyz_of(read.rgb)[1] > 0.6);
}
