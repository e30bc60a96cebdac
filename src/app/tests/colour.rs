//! The page Colour, other eyes and the second window, without a screen.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::{Color32, ColorImage, Event, Key};

use crate::app::action::Action;
use crate::app::page_list::PageId;
use crate::app::pages::PageAction;
use crate::app::pages::colour::photo::PhotoAction;
use crate::app::pages::colour::{ColourAction, said_of};
use crate::app::parts::price_shown::PriceShown;
use crate::app::shell::client_window;
use crate::app::tests::dark::{Dark, DarkAction};
use crate::app::tests::seen::Seen;
use crate::app::view_options::ClientWindowState;
use crate::book::{Change, DressColour};
use crate::colour::{Rgb, Vision};
use crate::store::{Shop, order_from_text, samples};

fn room(sample: &str) -> Dark {
    let mut dark = Dark::showing(sample);
    dark.seen();
    dark.press(Key::D);
    assert_eq!(dark.window.page, PageId::Colour);
    dark
}

fn dress(dark: &Dark) -> DressColour {
    dark.window.session.order().taste.dress.clone()
}

fn told(seen: &Seen) -> String {
    seen.texts.iter().chain(&seen.names).cloned().collect::<Vec<_>>().join("\n")
}

/// Names of what is listed, from the top: what is painted after the last of the kinds, and is told to a screen reader with more
/// behind it.
fn rows(dark: &mut Dark) -> Vec<String> {
    let Seen { texts, names } = dark.seen();
    let listed = |text: &String| names.iter().any(|n| n.starts_with(&format!("{text}: ")) && text.contains(", "));
    texts.into_iter().skip_while(|text| text != "Trim").filter(listed).collect()
}

/// A dark red dress beside a blue-green wall, with a grey card in its corner that a warm light falls on.
fn photo() -> Arc<ColorImage> {
    let pixel = |k: usize| match (k % 60, k / 60) {
        (x, y) if x < 12 && y < 12 => Color32::from_rgb(0x9a, 0x76, 0x50),
        (x, _) if x < 36 => Color32::from_rgb(0x8b, 0x14, 0x27),
        _ => Color32::from_rgb(20, 90, 100),
    };
    Arc::new(ColorImage::new([60, 40], (0..2400).map(pixel).collect()))
}

/// Frames until the thread has told what `until` waits for.
fn wait(dark: &mut Dark, until: impl Fn(&Dark, &Seen) -> bool) {
    for _ in 0..20_000 {
        let seen = dark.frame(Vec::new());
        if until(dark, &seen) {
            return;
        }
        std::thread::yield_now();
    }
    panic!("it never came: {:?}", dark.seen().texts);
}

fn with_photo(sample: &str) -> Dark {
    let mut dark = Dark::showing(sample);
    dark.frame(vec![Event::PasteImage(photo())]);
    assert_eq!(dark.window.page, PageId::Colour, "a pasted photo opens the page");
    wait(&mut dark, |d, _| d.window.pages.Colour.reading().is_some());
    // The page finds its height in the frames after.
    (0..3).for_each(|_| drop(dark.seen()));
    dark
}

fn reading(dark: &Dark) -> Rgb {
    dark.window.pages.Colour.reading().unwrap().rgb
}

#[test]
fn a_swatch_is_one_step_and_a_second_tap_takes_it_back() {
    let mut dark = room("06-empty");
    let before = dress(&dark);
    dark.tap("navy");
    assert_eq!(dress(&dark), DressColour { hex: Some(Rgb::hex(0x1c2849)), words: "navy".to_owned() });
    assert!(told(&dark.seen()).contains("#1c2849"));
    dark.tap("navy");
    assert_eq!(dress(&dark), DressColour::default());
    dark.do_action(Action::Undo);
    dark.do_action(Action::Undo);
    assert_eq!(dress(&dark), before);
}

#[test]
fn a_colour_typed_letter_by_letter_is_one_step_and_a_pasted_one_too() {
    let mut dark = room("06-empty");
    dark.do_action(Action::change(Change::Dress(DressColour::default())));
    dark.tap("Dress colour");
    dark.write("#8b1427");
    dark.press(Key::Enter);
    assert_eq!(dress(&dark).hex, Some(Rgb::hex(0x8b1427)));
    assert!(dark.seen().texts.iter().any(|t| t == "Dark red"), "named in plain words");
    dark.do_action(Action::Undo);
    assert_eq!(dress(&dark), DressColour::default());
    dark.frame(vec![Event::Paste(" #2fa8b0\n".to_owned())]);
    assert_eq!(dress(&dark).hex, Some(Rgb::hex(0x2fa8b0)));
    dark.frame(vec![Event::Paste("what the mother said".to_owned())]);
    assert_eq!(dress(&dark).hex, Some(Rgb::hex(0x2fa8b0)), "words that are no colour change nothing");
    dark.do_action(Action::Undo);
    assert_eq!(dress(&dark), DressColour::default());
}

#[test]
fn without_a_dress_the_page_asks_and_with_one_it_ranks_what_is_like_it() {
    let mut dark = room("06-empty");
    dark.do_action(Action::change(Change::Dress(DressColour::default())));
    let bare = told(&dark.seen());
    assert!(bare.contains("Pick a dress colour") && bare.contains("Not known yet"), "{bare}");
    dark.tap("wine");
    let all = rows(&mut dark);
    assert!(all[0].contains("burgundy"), "the most like stands first: {all:?}");
    dark.tap("Ribbons");
    let ribbons = rows(&mut dark);
    assert!(ribbons != all && ribbons.iter().all(|r| !r.starts_with("Spray rose")), "{ribbons:?}");
    let weaves = ["Satin", "Velvet", "Organza", "Grosgrain", "Lace"];
    assert!(ribbons.iter().all(|r| weaves.iter().any(|weave| r.starts_with(weave))), "{ribbons:?}");
    assert!(ribbons[0].ends_with("burgundy"), "{ribbons:?}");
    for row in &ribbons {
        assert_eq!(ribbons.iter().filter(|r| *r == row).count(), 1, "{row} stands once, whatever its widths");
    }
    let mine = told(&dark.seen());
    assert!(mine.contains("Blends in") && mine.contains("no match") && mine.contains("hall lighting"), "{mine}");
    dark.press(Key::F2);
    let hers = told(&dark.seen());
    assert!(!hers.contains("Blends in") && hers.contains("no match") && hers.contains("hall lighting"), "{hers}");
}

#[test]
fn a_bloom_of_the_list_comes_into_the_hand_in_its_colour_and_a_ribbon_ties_the_bow() {
    let mut dark = room("03-full");
    dark.tap("wine");
    let node = |dark: &mut Dark, row: &str| {
        let whole = format!("{row}: ");
        dark.seen().names.into_iter().find(|n| n.starts_with(&whole)).unwrap()
    };
    dark.tap("Ribbons");
    let bow = |dark: &Dark| dark.window.session.order().piece.bow.clone().unwrap();
    let before = bow(&dark);
    let first = rows(&mut dark)[0].clone();
    assert!(!first.ends_with(&format!(", {}", before.colour)), "{first} is on the bow already");
    let first_node = node(&mut dark, &first);
    dark.tap(&first_node);
    assert!(first.ends_with(&format!(", {}", bow(&dark).colour)), "{first}");
    dark.do_action(Action::Undo);
    assert_eq!(bow(&dark), before);
    dark.tap("Blooms");
    let row = rows(&mut dark)[0].clone();
    let rose = node(&mut dark, &row);
    dark.tap(&rose);
    assert_eq!(dark.window.page, PageId::Sheet);
    let crate::sheet::Held::FromTray { new, .. } = &dark.window.sheet.hand.held else { panic!("an empty hand") };
    let name = &dark.window.session.stock().botanical(&new.stock).unwrap().name;
    assert_eq!(row, format!("{name}, {}", new.colour));
}

#[test]
fn warnings_are_sentences_on_my_side_and_at_most_one_invitation_on_the_clients() {
    let mut dark = room("03-full");
    let colours = |dark: &Dark| {
        let order = dark.window.session.order();
        crate::paperwork::piece_colours(&order.piece, dark.window.session.stock(), order.taste.dress.hex)
    };
    let rgb = colours(&dark)[0].rgb;
    dark.do_action(Action::change(Change::Dress(DressColour { hex: Some(rgb), words: String::new() })));
    let mine = told(&dark.seen());
    assert!(mine.contains("Blends in: ") && mine.contains(" with "), "{mine}");
    dark.press(Key::F2);
    let hers = told(&dark.seen());
    assert!(!hers.to_lowercase().contains("blends in") && !hers.contains("hard to see"), "{hers}");
    assert!(said_of(&colours(&dark), true).len() <= 1);
}

#[test]
fn a_pasted_photo_is_read_where_it_is_tapped_and_one_step_makes_it_the_dress() {
    let mut dark = with_photo("06-empty");
    let before = dress(&dark);
    assert_eq!(reading(&dark), Rgb::hex(0x8b1427), "the middle is read first");
    dark.do_action(PageAction::Colour(ColourAction::Photo(PhotoAction::Tap(50, 20))));
    wait(&mut dark, |d, _| reading(d) == Rgb::hex(0x145a64));
    dark.tap("Use this colour");
    assert_eq!(dress(&dark).hex, Some(Rgb::hex(0x145a64)));
    assert!(!dress(&dark).words.is_empty(), "it has a name in plain words");
    dark.do_action(Action::Undo);
    assert_eq!(dress(&dark), before);
}

#[test]
fn words_by_which_the_dress_is_known_stay_when_it_is_seen() {
    let mut dark = with_photo("06-empty");
    let said = DressColour { hex: None, words: "like the sea at dusk".to_owned() };
    dark.do_action(Action::change(Change::Dress(said)));
    dark.tap("Use this colour");
    assert_eq!(dress(&dark), DressColour { hex: Some(Rgb::hex(0x8b1427)), words: "like the sea at dusk".to_owned() });
}

#[test]
fn a_grey_card_takes_the_light_out_and_a_spot_that_is_none_is_told() {
    let mut dark = with_photo("06-empty");
    let plain = reading(&dark);
    dark.tap("Use grey card");
    dark.do_action(PageAction::Colour(ColourAction::Photo(PhotoAction::Tap(30, 30))));
    assert!(told(&dark.seen()).contains("Too much colour for a grey card"), "a red dress is no grey card");
    dark.do_action(PageAction::Colour(ColourAction::Photo(PhotoAction::Tap(5, 5))));
    wait(&mut dark, |d, _| reading(d) != plain);
    // What the card says, calculated apart from the page.
    let card = crate::colour::GreyCard::seen_as(Rgb::hex(0x9a7650)).unwrap();
    assert_eq!(reading(&dark), Rgb::from_oklab(card.correct_oklab(plain.oklab())));
    dark.tap("Ignore the card");
    wait(&mut dark, |d, _| reading(d) == plain);
}

#[test]
fn the_photo_is_tapped_by_keys_too() {
    let mut dark = with_photo("06-empty");
    dark.tap("Photo of the dress: tap the fabric");
    for _ in 0..40 {
        dark.press(Key::ArrowRight);
    }
    dark.press(Key::Enter);
    wait(&mut dark, |d, _| reading(d) == Rgb::hex(0x145a64));
}

/// A file as the system hands it over when it is dropped.
#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }
    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|why| why.to_string())
    }
}

fn drop_on(dark: &mut Dark, path: PathBuf) {
    let dropped_files: Vec<egui::DroppedFileHandle> = vec![Arc::new(Dropped(path))];
    dark.frame_of(egui::RawInput { dropped_files, ..Default::default() });
}

#[test]
fn a_broken_picture_that_is_dropped_gives_a_sentence_and_the_page_goes_on() {
    let folder = tempfile::tempdir().unwrap();
    let broken = folder.path().join("dress.png");
    std::fs::write(&broken, [0x89, b'P', b'N', b'G', 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]).unwrap();
    let mut dark = Dark::showing("06-empty");
    drop_on(&mut dark, broken);
    assert_eq!(dark.window.page, PageId::Colour, "a dropped photo opens the page");
    // While it is read its name stands there with an ellipsis, which is no full stop.
    let says = |seen: &Seen| seen.texts.iter().find(|t| t.contains("dress.png") && t.ends_with('.')).cloned();
    wait(&mut dark, |_, seen| says(seen).is_some());
    let says = says(&dark.seen()).expect("it stays");
    assert!(says.len() > 40, "{says}");
    dark.do_action(PageAction::Colour(ColourAction::ShowPhoto(false)));
    dark.tap("sage");
    assert_eq!(dress(&dark).words, "sage");
}

#[test]
fn another_order_takes_the_photo_of_this_one_away() {
    let mut dark = with_photo("03-full");
    dark.do_action(Action::New);
    dark.do_action(Action::LeaveUnsaved);
    assert!(dark.window.pages.Colour.reading().is_none());
}

#[test]
fn other_eyes_are_reached_by_key_and_marked_until_the_usual_ones_are_back() {
    let mut dark = Dark::showing("03-full");
    dark.seen();
    for vision in Vision::ALL {
        dark.press(Key::F6);
        assert_eq!(dark.window.options.eyes, Some(vision));
        let mark = format!("As {} see it: not its real colours", vision.whose());
        assert!(dark.seen().texts.contains(&mark), "{mark}");
    }
    dark.press(Key::F6);
    assert_eq!(dark.window.options.eyes, None);
    dark.press(Key::F6);
    dark.tap("Normal");
    assert_eq!(dark.window.options.eyes, None);
    assert!(!dark.seen().texts.iter().any(|t| t.contains("not its real colours")));
}

/// A window that can have a second one.
fn with_second(sample: &str) -> Dark {
    let mut dark = Dark::showing(sample);
    dark.ctx.set_embed_viewports(false);
    dark.seen();
    dark.press(Key::F4);
    dark.seen();
    dark
}

#[test]
fn the_second_window_shows_the_piece_and_its_price_and_nothing_of_mine() {
    let mut dark = with_second("09-showpiece");
    assert!(!dark.window.is_client_view, "this window stays on my side");
    let seen = dark.second(Vec::new());
    let text = seen.texts.join("\n");
    let quote = dark.window.session.quote();
    let price = crate::export::price_text(quote.total, &quote.currency);
    assert!(seen.texts.contains(&price) && text.contains("champagne bow"), "{text}");
    let suppliers: Vec<String> = dark
        .window
        .session
        .stock()
        .botanicals()
        .iter()
        .map(|b| b.supplier.to_lowercase())
        .filter(|s| s.len() > 2)
        .collect();
    assert!(!suppliers.is_empty());
    let told = told(&seen).to_lowercase();
    for word in ["cost", "worked", "margin", "before rounding", "of 100", "score", "not saved", "once-over", "min,"] {
        assert!(!told.contains(word), "{word}: {told}");
    }
    assert_eq!(suppliers.iter().find(|s| told.contains(*s)), None, "{told}");
}

#[test]
fn the_second_window_leaves_this_one_on_the_side_it_shows_and_tells_each_piece_with_its_price() {
    let mut dark = Dark::showing("02-classic");
    dark.ctx.set_embed_viewports(false);
    dark.do_action(Action::SwitchView);
    dark.press(Key::X);
    dark.press(Key::F4);
    dark.seen();
    assert!(dark.window.is_client_view, "nothing of mine comes up by itself");
    let quote = dark.window.session.quote();
    assert_eq!(quote.lines.len(), 2);
    let told = PriceShown::of(&dark.window.views.client);
    let texts = dark.second(Vec::new()).texts;
    assert!(told.lines.iter().chain([&told.name, &told.total]).all(|line| texts.contains(line)), "{told:?}: {texts:?}");
}

#[test]
fn the_second_window_follows_rests_for_another_order_and_closes_without_harm() {
    let mut dark = with_second("03-full");
    let before = dark.second(Vec::new()).texts;
    dark.do_action(Action::edit(crate::piece::Edit::Tie(None)));
    dark.seen();
    assert_ne!(dark.second(Vec::new()).texts, before, "it follows the piece");
    dark.do_action(Action::New);
    dark.do_action(Action::LeaveUnsaved);
    dark.seen();
    assert_eq!(dark.window.client_window.state, ClientWindowState::Paused);
    let name = dark.window.shop.name().to_owned();
    assert_eq!(dark.second(Vec::new()).texts, [name], "nobody is shown another order");
    dark.press(Key::F4);
    dark.seen();
    assert_eq!(dark.window.client_window.state, ClientWindowState::Showing);
    dark.second(vec![egui::ViewportEvent::Close]);
    dark.seen();
    assert_eq!(dark.window.client_window.state, ClientWindowState::Closed);
    assert!(!dark.has_second(), "it is gone");
    dark.press(Key::F4);
    dark.seen();
    assert!(dark.has_second(), "and can be opened again");
}

#[test]
fn where_there_can_be_no_second_window_it_is_said() {
    let mut dark = Dark::showing("03-full");
    assert!(dark.ctx.embed_viewports(), "a bare context has one window");
    dark.press(Key::F4);
    assert_eq!(dark.window.client_window.state, ClientWindowState::Closed);
    assert!(dark.seen().texts.iter().any(|t| t == client_window::NONE_HERE));
}

#[test]
fn the_second_window_is_remembered_and_rests_at_first() {
    let kept = |key: &str| (key == "second").then(|| "open".to_owned());
    assert_eq!(client_window::ClientWindow::restored(kept).state, ClientWindowState::Paused);
    assert_eq!(client_window::ClientWindow::restored(|_| None).state, ClientWindowState::Closed);
}

/// Every state of the page on the client's side, for all samples: no cost, no mark, no supplier, no figure of ours.
#[test]
fn the_page_tells_the_client_no_cost_no_mark_and_no_supplier() {
    for sample in ["01-petite", "08-boutonniere", "09-showpiece", "11-teal-gown"] {
        let shop = Shop::built_in();
        let found = samples::orders().find(|s| s.path.contains(sample)).unwrap();
        let order = order_from_text(found.text, found.path, shop.stock()).unwrap();
        let mut suppliers: Vec<String> = shop.stock().botanicals().iter().map(|b| b.supplier.to_lowercase()).collect();
        suppliers.retain(|s| s.len() > 2);
        drop(order);
        let mut dark = with_photo(sample);
        dark.press(Key::F2);
        let asked = |action| DarkAction::from(PageAction::Colour(action));
        for actions in [
            vec![asked(ColourAction::ShowPhoto(true))],
            vec![asked(ColourAction::Photo(PhotoAction::CardNext(true)))],
            vec![asked(ColourAction::ShowPhoto(false)), asked(ColourAction::List(Some("ribbon")))],
            vec![asked(ColourAction::List(None)), Action::Eyes(Some(Vision::Deutan)).into()],
        ] {
            for action in actions {
                dark.do_action(action);
            }
            let told = told(&dark.seen()).to_lowercase();
            assert!(told.len() > 300, "{sample}: nothing is shown");
            for word in [
                "cost",
                "worked",
                "before rounding",
                "margin",
                "wholesale",
                "of 100",
                " off",
                "blends in",
                "mark",
                "score",
            ] {
                assert!(!told.contains(word), "{sample}: the client is told {word}: {told}");
            }
            assert_eq!(suppliers.iter().find(|s| told.contains(*s)), None, "{sample}: {told}");
        }
    }
}
