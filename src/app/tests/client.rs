//! The client's side without a screen: nothing that the shop keeps to itself is told on any screen of it.

use std::sync::Arc;

use crate::app::action::Action;
use crate::app::pages::order_fields::Blank;
use crate::app::pages::page::Page;
use crate::app::pages::price::Wish;
use crate::app::tests::dark::{Dark, shop_in};
use crate::app::widgets::tap_board::{Entry, Wish as Taps};
use crate::piece::PartId;
use crate::session::Session;
use crate::store::samples;

/// The words of a text, each between spaces, so that a name is not found inside another word.
fn in_words(text: &str) -> String {
    let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty()).collect();
    format!(" {} ", words.join(" "))
}

/// Words of what the shop keeps to itself; the aunt stands in its notes.
const SHOPS_OWN: [&str; 13] = [
    "cost",
    "worked",
    "margin",
    "wholesale",
    "profit",
    "below",
    "loses",
    "of 100",
    "not kept",
    "crowded",
    "hidden by",
    "quarrelsome",
    "stems",
];

/// Who wears the pieces of the sample orders.
fn everybody() -> Vec<String> {
    let everybody: Vec<String> = samples::orders()
        .filter_map(|s| s.text.split("wearer: \"").nth(1)?.split('"').next().map(str::to_lowercase))
        .filter(|name| name.len() > 2)
        .collect();
    assert!(everybody.len() > 5, "{everybody:?}");
    everybody
}

/// Everything that the shop keeps to itself, and the names of everybody else, on every screen that the client can see.
#[test]
fn no_screen_of_the_clients_side_tells_a_cost_a_mark_or_another_name() {
    let others = everybody();
    for sample in ["01-petite", "05-bare-spots", "08-boutonniere", "11-teal-gown", "09-showpiece"] {
        let folder = tempfile::tempdir().unwrap();
        let shop = shop_in(folder.path());
        let file = samples::orders().find(|s| s.path.contains(sample)).unwrap().path;
        let file = folder.path().join(file);
        let suppliers: Vec<String> =
            shop.stock().botanicals().iter().map(|b| b.supplier.to_lowercase()).filter(|s| s.len() > 2).collect();
        let (session, _) = Session::open(&file, Arc::clone(shop.stock()), Arc::clone(shop.style())).unwrap();
        // What stands in her own order is hers to see.
        let own = in_words(&std::fs::read_to_string(&file).unwrap().to_lowercase());
        let mut dark = Dark::of(shop, session, &[]);
        let mine = dark.seen().texts.join("\n").to_lowercase();
        assert!(mine.contains("costs") && mine.contains("of 100"), "the test looks at the wrong words: {mine}");
        dark.do_action(Action::change(crate::book::Change::Notes("quarrelsome aunt".to_owned())));
        dark.do_action(Action::TurnScreen);
        let toggle = Action::Layouts(crate::app::sheet::layouts::Wish::Toggle);
        let taps = Action::Taps;
        let at_price = |wish| Action::Price(wish);
        let no_latex = Action::change(crate::book::Change::NoLatex(true));
        let asked = crate::book::Asked { price: crate::units::Cents(1000), reason: "below what it takes".to_owned() };
        let asked = Action::change(crate::book::Change::Asked(Some(asked)));
        let band = Action::Ways(crate::app::pages::variants::Wish::Band(Some(crate::stock::BandKind::Metal)));
        let screens: [(&str, Vec<Action>); 21] = [
            ("the sheet", vec![]),
            ("the orders, which stay shut", vec![Action::ShowOrders]),
            ("what is bought together, which stays shut", vec![Action::ShowTogether]),
            ("lengths in inches", vec![Action::Lengths(Some(crate::units::LengthUnit::FractionInch))]),
            ("a bloom chosen", vec![Action::SelectAll]),
            ("what could be added", vec![Action::Select(PartId(1)), Action::AskForMore]),
            ("the looks", vec![Action::ShowLooks]),
            ("the order", vec![Action::Turn(Page::Questions)]),
            ("the keys on the screen", vec![taps(Taps::Switch), taps(Taps::Enter(Entry::Blank(Blank::Wearer), false))]),
            ("side by side", vec![Action::Turn(Page::Sizes)]),
            ("another way", vec![Action::Turn(Page::Ways), band]),
            ("the price", vec![Action::Turn(Page::Price), at_price(Wish::Why)]),
            ("another price", vec![asked]),
            ("a yes", vec![at_price(Wish::Yes)]),
            ("changed since the yes", vec![Action::change(crate::book::Change::Rush(true)), no_latex]),
            ("what is stopped beside the sizes", vec![Action::Turn(Page::Sizes)]),
            ("the boutonniere", vec![Action::OnSheet(crate::session::Front::Partners)]),
            ("the house style, which stays shut", vec![Action::Turn(Page::House)]),
            ("the colour", vec![Action::Turn(Page::Colour)]),
            ("the layouts", vec![Action::Turn(Page::Sheet), Action::TurnScreen, toggle, Action::TurnScreen]),
            ("the keys", vec![Action::Turn(Page::Sheet), Action::ShowHelp]),
        ];
        for (screen, actions) in screens {
            for action in actions {
                dark.do_action(action);
            }
            let seen = dark.seen();
            let told: Vec<String> = seen.texts.iter().chain(&seen.names).map(|t| t.to_lowercase()).collect();
            assert!(told.len() > 10, "{screen} shows nothing");
            for word in SHOPS_OWN {
                // A size may cost her more than her purse: that is her own price.
                let shown = told.iter().find(|t| t.contains(word) && !t.contains(" over $"));
                assert_eq!(shown, None, "{sample}, {screen}: the client is told {word}");
            }
            for name in others.iter().chain(&suppliers).filter(|name| !own.contains(&in_words(name))) {
                let is_told = |t: &&String| in_words(t).contains(&in_words(name));
                assert_eq!(told.iter().find(is_told), None, "{sample}, {screen}: the client is told of {name}");
            }
            let asked = dark.window.asked_for_more;
            assert!(asked || dark.window.pointed_at.is_none(), "{screen}: a mark nobody asked for");
        }
    }
}
