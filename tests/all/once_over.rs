//! Laws of the once-over: it never fails, mirrors see the same, and a fault made worse never earns more.

use std::sync::Arc;

use posywright::geometry::{Oval, Point, Vec2};
use posywright::once_over::{OnceOver, Subject, look_over, look_over_at_once};
use posywright::piece::{Edit, Footprint, HouseStyle, Level, NewPart, PartId, Piece, Question, Side, Wishes, Wrist};
use posywright::set_out::fix;
use posywright::stock::{Role, Stock};
use posywright::store::{built_in_stock, built_in_style, order_from_text, samples};
use posywright::units::Length;

use crate::support::{bloom, empty, five, put};

struct Shop {
    stock: Stock,
    style: HouseStyle,
    wrist: Wrist,
}

impl Shop {
    fn new() -> Self {
        Self { stock: built_in_stock(), style: built_in_style(), wrist: Wrist::usual() }
    }

    fn subject<'a>(&'a self, piece: &'a Piece) -> Subject<'a> {
        Subject { piece, stock: &self.stock, style: &self.style, wrist: &self.wrist }
    }

    fn look(&self, piece: &Piece) -> OnceOver {
        look_over(self.subject(piece))
    }

    fn points(&self, piece: &Piece, question: Question) -> f64 {
        let over = self.look(piece);
        over.findings.iter().find(|f| f.question == question).map_or(f64::NAN, |f| f.points())
    }
}

/// Small numbers from a seed, always the same (`SplitMix64`, from memory).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        f64::from(u32::try_from((z ^ (z >> 31)) >> 32).unwrap_or(0)) / f64::from(u32::MAX)
    }

    fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.roll()
    }
}

fn any_piece(dice: &mut Dice, stock: &Stock) -> Piece {
    let piece = empty(dice.between(30.0, 160.0), dice.between(20.0, 120.0));
    let n = (dice.roll() * 24.0).floor();
    with_any_parts(piece, n, dice, stock)
}

fn with_any_parts(mut piece: Piece, n: f64, dice: &mut Dice, stock: &Stock) -> Piece {
    let mut k = 0.0;
    while k < n {
        let pick = (dice.roll() * 59.99).floor();
        let botanical = stock.botanicals().iter().zip(0_u32..).find(|(_, i)| f64::from(*i) == pick).map(|(b, _)| b);
        let Some(botanical) = botanical else { break };
        let at = Point::new(dice.between(-90.0, 90.0), dice.between(-60.0, 60.0));
        let mut new = NewPart::usual(botanical, Arc::from("white"), at);
        new.turn_rad = dice.between(0.0, 6.3);
        new.level = if dice.roll() < 0.3 { Level::Top } else { new.level };
        new.size_mm = (dice.roll() < 0.3).then(|| dice.between(1.0, 120.0));
        piece = piece.apply(&Edit::Place(new)).unwrap_or(piece);
        k += 1.0;
    }
    piece
}

#[test]
fn any_piece_gets_a_mark_and_every_remedy_can_be_tried() {
    let shop = Shop::new();
    let mut dice = Dice(7);
    for n in 0..1500 {
        let piece = any_piece(&mut dice, &shop.stock);
        let over = shop.look(&piece);
        assert!((0.0..=100.0).contains(&over.score), "piece {n}: {}", over.score);
        for found in &over.findings {
            assert!(found.figure.is_finite() && (0.0..=1.0).contains(&found.score), "piece {n}: {found:?}");
            is_plain(&found.says());
            for remedy in &found.remedies {
                let label = remedy.label();
                assert!(label.chars().count() <= 24 && label.split(' ').count() <= 3, "{label}");
                if let Some(edit) = fix(shop.subject(&piece), remedy) {
                    drop(piece.apply(&edit));
                }
            }
        }
    }
}

/// A whole sentence that fits a line, with nothing in it that no one says.
fn is_plain(says: &str) {
    assert!(says.ends_with('.') && says.chars().count() <= 90, "{} letters: {says}", says.chars().count());
    for word in ["NaN", "inf", "in the middle", "likes", "reckon", "0.00", " -", "  "] {
        assert!(!says.contains(word), "{says}");
    }
}

#[test]
fn every_sentence_is_short_in_inches_too() {
    let mut shop = Shop::new();
    shop.wrist.girth = Length::parse("6 1/16").unwrap_or_else(|| panic!("no length"));
    let mut dice = Dice(23);
    for _ in 0..400 {
        let piece = any_piece(&mut dice, &shop.stock);
        shop.look(&piece).findings.iter().for_each(|found| is_plain(&found.says()));
    }
}

/// What DEVELOPERS.md says of adding a question, held against the sources: beside its line in the table and its own file there
/// is a default weight and a pair in the gallery, and no other file below the window names a single question but the two that
/// say why.
#[test]
fn a_question_is_entered_at_one_place() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let recipe = std::fs::read_to_string(root.join("DEVELOPERS.md")).unwrap_or_default();
    for place in ["`piece/question.rs`", "`once_over/`", "`assets/style.ron`", "`tests/all/gallery.rs`"] {
        assert!(recipe.contains(place), "DEVELOPERS.md does not name {place}");
    }
    let style = built_in_style();
    let mut named = Vec::new();
    for question in Question::ALL {
        let id = question.id();
        let file = std::fs::read_to_string(root.join(format!("src/once_over/{id}.rs"))).unwrap_or_default();
        assert!(file.contains("fn answer(") && file.contains("impl Sentence for"), "{id} has no file of its own");
        assert!(file.contains("#[cfg(test)]"), "{id} has no cases");
        assert!(style.weight(question) > 0.0, "{id} has no weight");
        assert!(!question.title().is_empty() && question.title().chars().count() <= 24, "{id}");
        for half in ["fault.ron", "mended.ron"] {
            assert!(root.join(format!("tests/gallery/{id}-{half}")).is_file(), "{id} has no {half}");
        }
        named.push(format!("Question::{question:?}"));
    }
    let naming: Vec<String> = sources(&root.join("src"))
        .into_iter()
        .filter(|(path, _)| !path.starts_with("app/") && path != "piece/question.rs")
        .filter(|(_, code)| named.iter().any(|name| has_word(code, name)))
        .map(|(path, _)| path)
        .collect();
    // Of an empty oval the outline alone speaks; the surrogate weighs what it can imitate.
    assert_eq!(naming, ["once_over/mod.rs", "set_out/surrogate.rs"]);
}

fn has_word(code: &str, word: &str) -> bool {
    code.match_indices(word).any(|(at, _)| !code[at + word.len()..].starts_with(|c: char| c.is_alphanumeric()))
}

/// All source files by their path, without comments and tests, sorted.
fn sources(root: &std::path::Path) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut folders = vec![root.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
            } else if let Ok(text) = std::fs::read_to_string(&path) {
                let code = text.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
                let lines = code.lines().filter(|l| !l.trim_start().starts_with("//"));
                let inside = path.strip_prefix(root).map(|p| p.display().to_string()).unwrap_or_default();
                found.push((inside, lines.collect::<Vec<_>>().join("\n")));
            }
        }
    }
    found.sort();
    found
}

#[test]
fn two_cores_see_what_one_sees() {
    let shop = Shop::new();
    let mut dice = Dice(41);
    for n in [0.0, 10.0, 39.0, 40.0, 60.0, 100.0, 250.0] {
        let piece = with_any_parts(empty(160.0, 90.0), n, &mut dice, &shop.stock);
        assert_eq!(look_over_at_once(shop.subject(&piece)), shop.look(&piece), "{n} parts");
    }
}

// In two halves so that they run side by side.
#[test]
fn any_piece_is_measured_as_plain_sums_say() {
    plain_sums_agree(100_000);
}

#[test]
fn any_other_piece_is_measured_as_plain_sums_say() {
    plain_sums_agree(200_000);
}

/// Steps on each piece. `POSYWRIGHT_LONG=1` takes ten times as many: a hundred thousand looks in both halves.
fn n_steps() -> u32 {
    if std::env::var_os("POSYWRIGHT_LONG").is_some() { 2000 } else { 200 }
}

/// Twenty-five pieces, each changed step by step: a part is set somewhere else, now and then upon another.
fn plain_sums_agree(seed: u64) {
    let shop = Shop::new();
    let mut dice = Dice(seed);
    for n in 0..25_u32 {
        let mut piece = any_piece(&mut dice, &shop.stock);
        for step in 0..n_steps() {
            let ids: Vec<_> = piece.parts().iter().map(|p| (p.id, p.centre)).collect();
            let place = |dice: &mut Dice| (dice.roll() * ids.len() as f64).floor();
            let at = |wanted: f64| ids.iter().zip(0_u32..).find(|(_, k)| f64::from(*k) == wanted).map(|(p, _)| *p);
            let (one, other) = (place(&mut dice), place(&mut dice));
            if let Some(((id, from), (_, upon))) = at(one).zip(at(other)) {
                let loose = Point::new(dice.between(-90.0, 90.0), dice.between(-60.0, 60.0));
                let to = if dice.roll() < 0.3 { upon } else { loose };
                piece = piece.apply(&Edit::Move(vec![id], to - from)).unwrap_or(piece);
            }
            let over = shop.look(&piece);
            points_add_up(&over, &format!("piece {n}, step {step}"));
            measures_are_plain_sums(&shop, &piece, &over, &format!("piece {n}, step {step}"));
        }
    }
}

/// The score is points over weights, and what costs most stands first.
fn points_add_up(over: &OnceOver, which: &str) {
    let (mut points, mut weights) = (0.0, 0.0);
    for f in &over.findings {
        assert!(f.figure.is_finite() && (0.0..=1.0).contains(&f.score) && f.weight > 0.0, "{which}: {f:?}");
        points += f.weight * f.score;
        weights += f.weight;
    }
    assert!((over.score - 100.0 * points / weights).abs() < 1e-9, "{which}: {}", over.score);
    let lost = |f: &posywright::once_over::Finding| f.weight * (1.0 - f.score);
    assert!(over.findings.windows(2).all(|two| lost(&two[0]) >= lost(&two[1]) - 1e-9), "{which}");
}

/// Mass, extents, fullness and gaps a second way: by sums over the parts, and by trying each gap against each part.
fn measures_are_plain_sums(shop: &Shop, piece: &Piece, over: &OnceOver, which: &str) {
    let m = &over.measures;
    let parts = || piece.parts().iter().map(|p| (p, p.shape_in(&shop.stock)));
    let grams: f64 = piece.parts().iter().filter_map(|p| shop.stock.botanical(&p.stock)).map(|b| b.mass_g).sum();
    assert!((m.mass_g - grams).abs() < 1e-9, "{which}: {} g", m.mass_g);
    let reach = |angle: f64| parts().map(|(_, shape)| shape.support(angle)).fold(f64::NEG_INFINITY, f64::max);
    let turn = std::f64::consts::FRAC_PI_2;
    if !piece.parts().is_empty() {
        let (along, across) = (reach(0.0) + reach(2.0 * turn), reach(turn) + reach(-turn));
        assert!((m.along_mm - along).abs() < 1e-6 && (m.across_mm - across).abs() < 1e-6, "{which}: {along}, {across}");
    }
    let heads = || parts().filter(|(p, _)| matches!(p.role, Role::Bloom | Role::Accent));
    let oval_mm2 = std::f64::consts::PI / 4.0 * piece.footprint.length_mm * piece.footprint.width_mm;
    let full = heads().map(|(_, shape)| shape.area()).sum::<f64>() / oval_mm2;
    assert!((m.fullness - full).abs() < 1e-9 * (1.0 + full), "{which}: {} for {full}", m.fullness);
    assert!((0.0..=1.0 + 1e-9).contains(&m.base_covered) && m.cover_fraction() <= 1.0 + 1e-9, "{which}");
    assert!(m.relief.hidden.iter().all(|(_, share)| (-1e-9..=1.0 + 1e-9).contains(share)), "{which}");
    for (k, gap) in m.room.iter().enumerate() {
        assert!(piece.oval().depth(gap.centre) >= gap.radius - 1e-6, "{which}: gap {k} lies out of the oval");
        assert!(
            parts().all(|(_, s)| s.distance(gap.centre) >= gap.radius - 1e-6),
            "{which}: something lies in gap {k}"
        );
    }
}

#[test]
fn the_other_wrist_sees_the_same() {
    let shop = Shop::new();
    let mut dice = Dice(11);
    for n in 0..300 {
        let piece = any_piece(&mut dice, &shop.stock);
        let mirrored = piece.apply(&Edit::Mirror).unwrap_or_else(|r| panic!("{r}"));
        let (one, other) = (shop.look(&piece), shop.look(&mirrored));
        assert!((one.score - other.score).abs() < 1e-3, "piece {n}: {} and {}", one.score, other.score);
    }
}

/// Points of one question while a fault is made worse step by step.
fn never_earns_more(question: Question, steps: impl Iterator<Item = Piece>) {
    let shop = Shop::new();
    let points: Vec<f64> = steps.map(|piece| shop.points(&piece, question)).collect();
    assert!(points.len() >= 8 && points.iter().all(|p| p.is_finite()), "{question:?}: {points:?}");
    assert!(points.windows(2).all(|w| w[1] <= w[0] + 1e-6), "{question:?} earned more for worse: {points:?}");
    assert!(points[0] > points[points.len() - 1], "{question:?} did not see the fault: {points:?}");
}

fn steps() -> impl Iterator<Item = f64> {
    (0..=12).map(f64::from)
}

fn spread_out(times: f64) -> Piece {
    let piece = five();
    let places = piece.parts().iter().map(|p| (p.id, Point::new(p.centre.x, p.centre.y * times))).collect();
    piece.apply(&Edit::MoveEach(places)).unwrap_or_else(|r| panic!("{r}"))
}

#[test]
fn wider_never_earns_more() {
    for question in [Question::WidthOnWrist, Question::Outline, Question::Protrusion] {
        never_earns_more(question, steps().map(|k| spread_out(1.0 + k * 0.35)));
    }
}

#[test]
fn narrower_than_narrow_never_earns_more() {
    let row = |reach: f64| {
        [-1.0, -0.5, 0.0, 0.5, 1.0].into_iter().fold(empty(90.0, 54.0), |p, t| bloom(&p, (t * reach, 0.0)))
    };
    never_earns_more(Question::Outline, steps().map(|k| row(17.0 + 6.0 * k)));
}

#[test]
fn askew_never_earns_more() {
    let turned = |degrees: f64| {
        let turn = degrees.to_radians();
        let piece = five();
        let rotate = |p: Point| Point::new(p.x * turn.cos() - p.y * turn.sin(), p.x * turn.sin() + p.y * turn.cos());
        let places = piece.parts().iter().map(|p| (p.id, rotate(p.centre))).collect();
        piece.apply(&Edit::MoveEach(places)).unwrap_or_else(|r| panic!("{r}"))
    };
    never_earns_more(Question::AlongTheArm, steps().map(|k| turned(k * 7.0)));
}

#[test]
fn an_accent_farther_from_its_even_place_never_earns_more() {
    let oval = Oval::from_axes(90.0, 54.0);
    let at = |degrees: f64| {
        let a = f64::to_radians(degrees);
        (0.72 * oval.a * a.cos(), 0.72 * oval.b * a.sin())
    };
    let ring = |off: f64| {
        [0.0, 72.0 + off, 144.0, 216.0, 288.0]
            .into_iter()
            .fold(five(), |p, d| put(&p, "hypericum", Role::Accent, at(d), 12.0, Level::Raised))
    };
    never_earns_more(Question::EvenSpread, steps().map(|k| ring(5.0 * k)));
}

#[test]
fn more_room_never_earns_more() {
    let holes = |n_kept: usize| {
        let full: Vec<(f64, f64)> =
            (-3..=3).flat_map(|i| (-2..=2).map(move |j| (f64::from(i) * 13.0, f64::from(j) * 11.0))).collect();
        full.into_iter().take(n_kept).fold(empty(90.0, 54.0), |p, at| bloom(&p, at))
    };
    never_earns_more(Question::RoomHere, (1..=17).rev().map(|k| holes(k * 2)));
    never_earns_more(Question::Mechanics, (1..=14).rev().map(|k| holes(k * 2)));
}

#[test]
fn fuller_than_full_and_thinner_than_thin_never_earn_more() {
    let crowded = |n: f64| steps().take_while(|k| *k < n).fold(five(), |p, k| bloom(&p, (3.0 * k - 10.0, 0.0)));
    never_earns_more(Question::Fullness, steps().map(crowded));
    let thin = |length: f64| Edit::Reshape(Footprint { length_mm: length, width_mm: 54.0, offset_mm: 50.0 });
    let stretched = |k: f64| five().apply(&thin(140.0 + 20.0 * k)).unwrap_or_else(|r| panic!("{r}"));
    never_earns_more(Question::Fullness, steps().map(stretched));
}

#[test]
fn lopsided_hidden_high_heavy_and_crosswise_never_earn_more() {
    let shifted = |k: f64| {
        let piece = five();
        let ids: Vec<PartId> = piece.parts().iter().map(|p| p.id).collect();
        piece.apply(&Edit::Move(ids, Vec2::new(2.5 * k, 0.0))).unwrap_or_else(|r| panic!("{r}"))
    };
    never_earns_more(Question::Balance, steps().map(shifted));
    let under = |k: f64| put(&five(), "spray-rose", Role::Bloom, (31.0 + 24.0 - 2.0 * k, 0.0), 28.0, Level::Top);
    never_earns_more(Question::Hidden, steps().map(under));
    let heap = |n: f64| steps().take_while(|k| *k < n).fold(five(), |p, _| bloom(&p, (0.0, 0.0)));
    never_earns_more(Question::Height, steps().map(heap));
    let heavy = |n: f64| {
        steps()
            .take_while(|k| *k < 4.0 * n)
            .fold(five(), |p, k| put(&p, "rose", Role::Bloom, (5.0 * k, 0.0), 60.0, Level::Raised))
    };
    never_earns_more(Question::Weight, steps().map(heavy));
    let leaf = |k: f64| {
        let with = put(&five(), "italian-ruscus", Role::Leaf, (30.0, 10.0), 45.0, Level::Flat);
        with.apply(&Edit::Rotate(vec![PartId(6)], (7.5 * k).to_radians())).unwrap_or_else(|r| panic!("{r}"))
    };
    never_earns_more(Question::Leaves, steps().map(leaf));
}

#[test]
fn a_question_set_aside_is_not_asked_and_costs_nothing() {
    let shop = Shop::new();
    let lopsided =
        [(30.0, 0.0), (24.0, 10.0), (26.0, -10.0)].into_iter().fold(empty(90.0, 54.0), |p, at| bloom(&p, at));
    let asked = shop.look(&lopsided);
    let aside = lopsided
        .apply(&Edit::Ignore(Question::Balance, "lopsided on purpose".to_owned()))
        .unwrap_or_else(|r| panic!("{r}"));
    let left = shop.look(&aside);
    assert!(asked.findings.iter().any(|f| f.question == Question::Balance && !f.is_well()));
    assert!(left.findings.iter().all(|f| f.question != Question::Balance));
    let rest = || asked.findings.iter().filter(|f| f.question != Question::Balance);
    let score = 100.0 * rest().map(|f| f.points()).sum::<f64>() / rest().map(|f| f.weight).sum::<f64>();
    assert!((left.score - score).abs() < 1e-9 && (left.score - asked.score).abs() > 1e-3);
    assert_eq!(aside.apply(&Edit::CheckAgain(Question::Balance)).as_ref(), Ok(&lopsided));
}

/// Three blooms all toward the elbow: what that breaks is set aside, with a reason, and the rest is marked as ever.
#[test]
fn a_piece_that_is_lopsided_on_purpose_can_score_well_and_keeps_the_reason() {
    let shop = Shop::new();
    let text = r#"(version: 1, wrist: (side: left, girth: 155), piece: (worn: wrist, oval: (length: 92, width: 52),
        wishes: (set_aside: ["balance", "axis_ends"], reasons: {"balance": "lopsided on purpose"}),
        parts: [
            (id: 1, stock: "spray-rose", at: (16, 0), level: top),
            (id: 2, stock: "spray-rose", at: (36, 8), size: 26),
            (id: 3, stock: "spray-rose", at: (34, -14), size: 26),
            (id: 4, stock: "waxflower", at: (2, 14)),
            (id: 5, stock: "waxflower", at: (4, -16)),
            (id: 6, stock: "italian-ruscus", at: (-14, 6), turn: 180),
            (id: 7, stock: "italian-ruscus", at: (-14, -8), turn: 180),
            (id: 8, stock: "italian-ruscus", at: (-28, 0), turn: 180),
        ]))"#;
    let order = order_from_text(text, "lopsided.ron", &shop.stock).unwrap_or_else(|r| panic!("{r}"));
    let back = posywright::store::order_to_text(&order);
    assert_eq!(order_from_text(&back, "again.ron", &shop.stock).as_ref(), Ok(&order), "{back}");
    assert_eq!(order.piece.wishes.ignored.get(&Question::Balance).map(String::as_str), Some("lopsided on purpose"));
    assert_eq!(order.piece.wishes.ignored.get(&Question::AxisEnds).map(String::as_str), Some(""));
    let aside = shop.look(&order.piece).score;
    let again = order.piece.apply(&Edit::CheckAgain(Question::Balance)).unwrap_or_else(|r| panic!("{r}"));
    assert!(aside >= 95.0 && shop.look(&again).score < aside - 3.0, "{aside}");
}

#[test]
fn a_single_bloom_can_score_well() {
    let shop = Shop::new();
    let one = put(&empty(70.0, 40.0), "rose", Role::Bloom, (0.0, 0.0), 42.0, Level::Top);
    let leaves = [(26.0, 0.0), (-26.0, 180.0)].into_iter().zip(2..).fold(one, |p, ((x, turn), id)| {
        let with = put(&p, "italian-ruscus", Role::Leaf, (x, 0.0), 34.0, Level::Flat);
        with.apply(&Edit::Rotate(vec![PartId(id)], f64::to_radians(turn))).unwrap_or_else(|r| panic!("{r}"))
    });
    let over = shop.look(&leaves);
    let words: Vec<String> = over.findings.iter().filter(|f| !f.is_well()).map(|f| f.says()).collect();
    assert!(over.score >= 85.0, "{}: {words:?}", over.score);
}

/// Eight blooms where the custom wants odd numbers: seven or nine are offered. Where 4 and 9 are avoided, nine is not.
#[test]
fn a_custom_of_numbers_is_asked_first() {
    let shop = Shop::new();
    let eight = (0..8).fold(empty(120.0, 60.0), |p, k| bloom(&p, (f64::from(k) * 12.0 - 42.0, 0.0)));
    let labels = |piece: &Piece| -> Vec<&str> {
        let over = shop.look(piece);
        let found = over.findings.iter().find(|f| f.question == Question::OddCounts).map(|f| f.remedies.clone());
        found.unwrap_or_default().iter().map(|r| r.label()).collect()
    };
    assert_eq!(labels(&eight), ["Add one", "Remove one"]);
    let mut avoided = eight.clone();
    avoided.wishes = Wishes { avoided_counts: [4, 9].into(), ..Wishes::default() };
    assert_eq!(labels(&avoided), ["Remove one"]);
    let mut welcome = eight;
    welcome.wishes = Wishes { even_is_welcome: true, ..Wishes::default() };
    assert!(labels(&welcome).is_empty());
}

#[test]
fn a_left_handed_wearer_changes_neither_mark_nor_counts() {
    let shop = Shop::new();
    let sample = samples::orders().find(|s| s.path.contains("09")).unwrap_or_else(|| panic!("no sample"));
    let order = order_from_text(sample.text, sample.path, &shop.stock).unwrap_or_else(|r| panic!("{r}"));
    let right =
        order.apply(&posywright::book::Change::Side(Side::Right), &shop.stock).unwrap_or_else(|r| panic!("{r}"));
    let (one, other) = (shop.look(&order.piece), shop.look(&right.piece));
    assert!((one.score - other.score).abs() < 1e-6);
    assert_eq!(one.measures.n_blooms(), other.measures.n_blooms());
}

/// Width allowed is a share of this wrist: 0.40 of 122, 150 and 178 mm.
#[test]
fn the_width_allowed_follows_the_wrist() {
    let mut shop = Shop::new();
    for (girth, limit) in [(122.0, 48.8), (135.0, 54.0), (150.0, 60.0), (178.0, 71.2)] {
        shop.wrist.girth = Length::from_mm(girth);
        assert!((shop.look(&five()).measures.width_limit_mm - limit).abs() < 1e-9);
    }
}
