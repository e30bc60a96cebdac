//! The picture through its public door: every form, every outlet, odd sizes.

use crate::support::pdf_streams::streams;
use kurbo::{Affine, Point, Rect, Shape as _};
use posywright::colour::Rgb;
use posywright::export::pdf::picture_pdf;
use posywright::export::{Finish, largest_width_px, png_of, raster, svg_of, view_of};
use posywright::geometry::WristSection;
use posywright::once_over::standing;
use posywright::piece::{Edit, Footprint, Level, NewPart, Piece, Side, Worn, Wrist};
use posywright::scene::{
    COIN_MM, Ground, Group, Key, Openness, Paint, PictureOptions, RulerDirection, Scene, SideViewOptions, Skin, Tint,
    bloom, coin, form_chart, opens, picture, ruler, side_by_side, side_view, with_scale,
};
use posywright::stock::{Form, Stock};

fn edge(group: &Group) -> Rect {
    group.edge_bounds(Affine::IDENTITY).expect("something with an edge")
}

fn bare_piece() -> Piece {
    Piece::empty(Worn::Wrist, Footprint { length_mm: 90.0, width_mm: 60.0, offset_mm: 30.0 })
}

fn bare_scene(options: &PictureOptions) -> Scene {
    picture(&bare_piece(), &Stock::default(), &Wrist::usual(), options)
}

#[test]
fn every_form_is_as_large_as_it_is_measured() {
    for form in Form::ALL {
        for seed in 0..6 {
            for openness in [Openness::Open, Openness::Half, Openness::Bud] {
                let breadth = if form.is_long() { 0.3 } else { 1.0 };
                let bounds = edge(&bloom(form, seed, 40.0, breadth, Rgb::hex(0xf3c6c4), openness));
                let (long, wide) = (bounds.width(), bounds.height());
                if form.is_long() {
                    assert!(
                        (long / 40.0 - 1.0).abs() < 0.03 && (wide / 12.0 - 1.0).abs() < 0.03,
                        "{form:?} {bounds:?}"
                    );
                } else {
                    assert!((long.max(wide) / 40.0 - 1.0).abs() < 0.03, "{form:?} {bounds:?}");
                    assert!(long.min(wide) > 24.0, "{form:?} is too thin to be round: {bounds:?}");
                }
                assert!(bounds.center().to_vec2().hypot() < 0.5, "{form:?} sits beside its centre: {bounds:?}");
            }
        }
    }
}

#[test]
fn the_same_bloom_is_drawn_the_same_and_another_seed_differs() {
    for form in Form::ALL {
        let draw = |seed| bloom(form, seed, 30.0, 0.4, Rgb::hex(0xfffdf6), Openness::Open);
        assert_eq!(draw(5), draw(5), "{form:?}");
        assert!(form.is_bead() || draw(5) != draw(6), "{form:?}");
    }
}

#[test]
fn odd_sizes_give_sensible_blooms() {
    for form in Form::ALL {
        for size in [f64::NAN, f64::INFINITY, 0.0, -3.0] {
            assert!(bloom(form, 1, size, 0.5, Rgb::hex(0), Openness::Open).items.is_empty());
        }
        for (size, breadth) in [(1e-6, 0.5), (1e300, 0.5), (20.0, f64::NAN), (20.0, 0.0), (20.0, 1e9)] {
            let group = bloom(form, 1, size, breadth, Rgb::hex(0xffffff), Openness::Half);
            assert!(edge(&group).is_finite(), "{form:?} {size} {breadth}");
            raster(&[&group], Affine::scale(3.0), 40, 40, Finish::Quick);
        }
    }
}

#[test]
fn odd_pixel_sizes_and_views_do_not_panic() {
    let scene = bare_scene(&PictureOptions::default());
    let groups: Vec<&Group> = scene.groups.iter().collect();
    assert!(raster(&groups, Affine::IDENTITY, 0, 10, Finish::Quick).rgba.is_empty());
    assert_eq!(raster(&groups, Affine::IDENTITY, 1_000_000, 1, Finish::Fine).width, 16_384);
    for view in [Affine::scale(1e12), Affine::scale(f64::NAN), Affine::scale(0.0), Affine::translate((1e30, 0.0))] {
        assert_eq!(raster(&groups, view, 8, 8, Finish::Quick).rgba.len(), 256);
    }
    for frame in [Rect::ZERO, Rect::new(0.0, 0.0, f64::NAN, 1.0), Rect::new(0.0, 0.0, 1e9, 1e-3)] {
        let odd = Scene { frame, groups: Vec::new() };
        let (_, width, height) = view_of(&odd, 10);
        assert!(width == 10 && (1..=16_384).contains(&height));
        assert!(!png_of(&odd, 10).is_empty() && svg_of(&odd).ends_with("</svg>\n"));
    }
}

#[test]
fn a_file_has_the_same_bytes_twice_prints_life_size_and_is_not_blank() {
    let scene = bare_scene(&PictureOptions::default());
    let bytes = png_of(&scene, 220);
    assert_eq!(bytes, png_of(&scene, 220));
    let at = bytes.windows(4).position(|w| w == b"pHYs").expect("life-size");
    let per_metre = u32::from_be_bytes([bytes[at + 4], bytes[at + 5], bytes[at + 6], bytes[at + 7]]);
    assert!((f64::from(per_metre) - 220.0 / scene.frame.height() * 1000.0).abs() <= 0.5);
    assert!(bytes.windows(4).any(|w| w == b"sRGB"));
    let image = image::load_from_memory(&bytes).unwrap().to_rgba8();
    assert_eq!(image.width(), 220);
    let first = *image.get_pixel(0, 0);
    assert!(image.pixels().any(|p| *p != first) && image.pixels().all(|p| p.0[3] == 255));
}

/// A scene that would be too high is made smaller as a whole: its last row still shows what lies at its end.
#[test]
fn a_tall_scene_is_made_smaller_and_never_cut() {
    let mut end = Group::new(Key::Ground, Affine::IDENTITY);
    end.fill(Rect::new(0.0, 0.0, 40.0, 1.0).to_path(0.1), Paint::Solid(Tint { rgb: Rgb::hex(0x123456), alpha: 1.0 }));
    let scene = Scene { frame: Rect::new(0.0, 0.0, 1000.0, 1.0), groups: vec![end] };
    assert_eq!(largest_width_px(&scene), 16);
    let image = image::load_from_memory(&png_of(&scene, 20)).unwrap().to_rgba8();
    assert_eq!((image.width(), image.height()), (16, 16_000));
    assert_eq!(image.get_pixel(8, 15_998).0, [0x12, 0x34, 0x56, 255]);
}

#[test]
fn a_clear_ground_stays_clear() {
    let scene = bare_scene(&PictureOptions { ground: Ground::Clear, arm: false, ..PictureOptions::default() });
    let image = image::load_from_memory(&png_of(&scene, 60)).unwrap().to_rgba8();
    assert!(image.pixels().all(|p| p.0[3] == 0));
}

#[test]
fn the_thumb_is_on_the_left_of_a_left_hand_and_on_the_right_of_a_right_one() {
    let mut wrist = Wrist::usual();
    let ground = |wrist: &Wrist| {
        let options = PictureOptions { ground: Ground::Clear, ..PictureOptions::default() };
        edge(&picture(&bare_piece(), &Stock::default(), wrist, &options).groups[0])
    };
    assert!(ground(&wrist).center().y < -2.0);
    wrist.side = Side::Right;
    assert!(ground(&wrist).center().y > 2.0);
}

#[test]
fn svg_tags_balance_and_measures_are_millimetres() {
    let scene = form_chart();
    let svg = svg_of(&scene);
    let mut open: Vec<&str> = Vec::new();
    for tag in svg.split('<').skip(1).filter_map(|rest| rest.split('>').next()) {
        let name = tag.split([' ', '/']).find(|part| !part.is_empty()).unwrap();
        if tag.starts_with('/') {
            assert_eq!(open.pop(), Some(name));
        } else if !tag.ends_with('/') && !tag.starts_with('?') {
            open.push(name);
        }
    }
    assert!(open.is_empty(), "{open:?}");
    assert!(svg.contains(&format!("width=\"{}mm\"", scene.frame.height())));
    assert!(!svg.contains("NaN") && !svg.contains("inf"));
    assert_eq!(svg, svg_of(&form_chart()));
}

#[test]
fn a_picture_as_pdf_is_a_page_of_its_own_size_and_the_same_twice() {
    let scene = bare_scene(&PictureOptions::default());
    let (width, height) = (scene.frame.height() * 72.0 / 25.4, scene.frame.width() * 72.0 / 25.4);
    let pdf = picture_pdf(scene.clone(), "A piece", None).unwrap();
    assert_eq!(pdf, picture_pdf(scene, "A piece", None).unwrap());
    let text: String = streams(&pdf).iter().map(|stream| String::from_utf8_lossy(stream)).collect();
    let after = text.split("/MediaBox").nth(1).expect("a page");
    let corners: Vec<f64> =
        after.split(['[', ']']).nth(1).unwrap().split_whitespace().map(|n| n.parse().unwrap()).collect();
    assert!((corners[2] - width).abs() < 0.01 && (corners[3] - height).abs() < 0.01, "{corners:?}");
}

/// The full sample, read through the program's own door.
fn sample(name: &str) -> (Piece, Wrist, std::sync::Arc<Stock>) {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("samples/orders").join(name);
    let bench = posywright::cli::LoadedOrder::read(&path, None).expect("the sample reads");
    (bench.order.piece, bench.order.wrist, bench.stock)
}

fn ground_of(scene: &Scene, key: Key) -> Rect {
    let groups = scene.groups.iter().filter(|g| g.key == key);
    groups.filter_map(|g| g.edge_bounds(Affine::IDENTITY)).reduce(|a, b| a.union(b)).expect("such a group")
}

#[test]
fn a_whole_piece_gives_the_same_bytes_twice_from_above_and_from_the_side() {
    let draw = || {
        let (piece, wrist, stock) = sample("03-full.ron");
        let above = picture(&piece, &stock, &wrist, &PictureOptions { skin: Skin::Olive, ..PictureOptions::default() });
        let side = side_view(&piece, &stock, &wrist, &SideViewOptions::default());
        [&above, &side].map(|scene| (png_of(scene, 240), svg_of(scene)))
    };
    assert_eq!(draw(), draw());
}

/// The side view is as high over the skin as the once-over says, within a tenth of a millimetre, and a head in the middle
/// touches that height.
#[test]
fn the_side_view_stands_as_high_as_the_once_over_says() {
    let footprint = Footprint { length_mm: 90.0, width_mm: 60.0, offset_mm: 30.0 };
    let wrist = Wrist::usual();
    let (full, _, stock) = sample("03-full.ron");
    for level in [Level::Flat, Level::Raised, Level::Top] {
        let mut part = full.parts()[0].clone();
        (part.centre, part.level) = (Point::ORIGIN, level);
        let rose = NewPart {
            stock: part.stock,
            colour: part.colour,
            role: part.role,
            centre: part.centre,
            turn_rad: 0.0,
            size_mm: None,
            level,
        };
        let piece = Piece::empty(Worn::Wrist, footprint).apply(&Edit::Place(rose)).unwrap();
        let stands = standing(&piece, &stock);
        let top = stands[0].base_mm + stands[0].thickness_mm;
        let scene = side_view(&piece, &stock, &wrist, &SideViewOptions::default());
        let section = WristSection::new(wrist.girth_mm(), Wrist::FLATNESS);
        let head = ground_of(&scene, Key::Part(piece.parts()[0].id));
        let reached = head.x1 - section.half_depth();
        assert!((reached - top).abs() < 0.1, "{level:?}: {reached} for {top}");
        assert!((head.height() / (2.0 * stands[0].disc.radius) - 1.0).abs() < 0.04, "{head:?}");
    }
}

#[test]
fn a_coin_and_a_centimetre_are_as_large_as_they_say() {
    let disc = edge(&coin(Point::new(3.0, 4.0), COIN_MM));
    assert!((disc.width() - 24.0).abs() < 0.05 && (disc.height() - 24.0).abs() < 0.05, "{disc:?}");
    let line = edge(&ruler(Point::ORIGIN, 80.0, RulerDirection::Up));
    assert!(line.x1 >= 80.0 && line.x1 < 82.0, "{line:?}");
    let scene = bare_scene(&PictureOptions::default());
    let scaled = with_scale(scene.clone(), COIN_MM);
    assert_eq!((scaled.frame.x1, scaled.frame.y0, scaled.frame.y1), (scene.frame.x1, scene.frame.y0, scene.frame.y1));
    assert!(scaled.frame.x0 < scene.frame.x0 - COIN_MM);
}

#[test]
fn pictures_side_by_side_keep_one_scale_and_room_for_words() {
    let scenes: Vec<Scene> = ["01-petite.ron", "03-full.ron"]
        .map(|name| {
            let (piece, wrist, stock) = sample(name);
            picture(&piece, &stock, &wrist, &PictureOptions::default())
        })
        .to_vec();
    let both = side_by_side(&scenes);
    assert_eq!(both.words.len(), 2);
    for (words, scene) in both.words.iter().zip(&scenes) {
        assert!((words.height() - scene.frame.height()).abs() < 1e-9, "one scale: as wide as it is alone");
        assert!(both.scene.frame.contains(words.origin()) && words.width() > 10.0);
    }
    assert!(both.words[0].y1 < both.words[1].y0);
    let nothing = side_by_side(&[Scene { frame: Rect::ZERO, groups: Vec::new() }]);
    assert!(nothing.words.is_empty() && nothing.scene.frame.is_finite());
}

#[test]
fn blooms_that_open_look_different_at_each_stage_and_others_do_not() {
    for form in Form::ALL {
        let [bud, half, open] = [Openness::Bud, Openness::Half, Openness::Open]
            .map(|stage| bloom(form, 3, 30.0, 0.4, Rgb::hex(0xe891a6), stage));
        assert_eq!(opens(form), bud != half && half != open && bud != open, "{form:?}");
        assert!(opens(form) || (bud == half && half == open), "{form:?}");
    }
}

/// How far two pictures of the same size differ: the mean over all channels, and the share of pixels in which a channel is
/// more than `far` off; both of 255.
fn difference(one: &[u8], other: &[u8], far: u8) -> (f64, f64) {
    assert_eq!(one.len(), other.len());
    let sum: u64 = one.iter().zip(other).map(|(a, b)| u64::from(a.abs_diff(*b))).sum();
    let apart = |(a, b): &(&[u8], &[u8])| a.iter().zip(*b).any(|(a, b)| a.abs_diff(*b) > far);
    let n_far = one.chunks(4).zip(other.chunks(4)).filter(apart).count();
    (sum as f64 / one.len() as f64, n_far as f64 * 4.0 / one.len() as f64)
}

/// One picture laid over another, both premultiplied, as the window's textures are.
fn laid_over(below: &mut [u8], above: &[u8]) {
    for (b, a) in below.chunks_mut(4).zip(above.chunks(4)) {
        let clear = 255 - u32::from(a[3]);
        for (under, over) in b.iter_mut().zip(a) {
            let sum = u32::from(*over) + (u32::from(*under) * clear + 127) / 255;
            *under = u8::try_from(sum).unwrap_or(u8::MAX);
        }
    }
}

#[test]
fn the_screen_and_the_file_show_the_same_picture() {
    let (piece, wrist, stock) = sample("09-showpiece.ron");
    let scene = picture(&piece, &stock, &wrist, &PictureOptions { skin: Skin::Brown, ..PictureOptions::default() });
    let file = image::load_from_memory(&png_of(&scene, 420)).unwrap().to_rgba8();
    let (view, width, height) = view_of(&scene, 420);
    assert_eq!((file.width(), file.height()), (width, height));
    let groups: Vec<&Group> = scene.groups.iter().collect();
    // In one go, as it is seen at rest: eight bits against floating point.
    let screen = raster(&groups, view, width, height, Finish::Quick);
    let (mean, n_far) = difference(&screen.rgba, file.as_raw(), 8);
    assert!(mean < 1.0 && n_far < 0.001, "mean {mean}, far {n_far}");
    // And in three layers, as it is seen while one bloom of the middle is dragged.
    let lifted = groups.len() / 2;
    let mut layers = [&groups[..lifted], &groups[lifted..=lifted], &groups[lifted + 1..]]
        .map(|part| raster(part, view, width, height, Finish::Quick).rgba)
        .into_iter();
    let mut whole = layers.next().unwrap();
    layers.for_each(|layer| laid_over(&mut whole, &layer));
    let (mean, n_far) = difference(&whole, file.as_raw(), 12);
    assert!(mean < 1.5 && n_far < 0.001, "mean {mean}, far {n_far}");
    // The measure can tell pictures apart: another skin is far off.
    let other = picture(&piece, &stock, &wrist, &PictureOptions { skin: Skin::Fair, ..PictureOptions::default() });
    let other: Vec<&Group> = other.groups.iter().collect();
    let (mean, n_far) = difference(&raster(&other, view, width, height, Finish::Quick).rgba, file.as_raw(), 8);
    assert!(mean > 5.0 && n_far > 0.1, "mean {mean}, far {n_far}");
}
