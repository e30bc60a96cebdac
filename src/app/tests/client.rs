//! The client's side without a screen: nothing that the shop keeps to itself is shown on any screen of it.

use std::sync::Arc;

use crate::app::action::Action;
use crate::app::action::LayoutsAction;
use crate::app::page_list::PageId;
use crate::app::pages::PageAction;
use crate::app::pages::price::PriceAction;
use crate::app::pages::variations::VariationsAction;
use crate::app::tests::dark::{Dark, DarkAction, shop_in};
use crate::app::typing::field::Field;
use crate::app::typing::taps::{BoardField, TapKey};
use crate::piece::PartId;
use crate::session::{ActivePiece, Session};
use crate::sheet::SheetInput;
use crate::store::samples;

/// The words of a text, each between spaces, so that a name is not found inside another word.
fn in_words(text: &str) -> String {
    let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty()).collect();
    format!(" {} ", words.join(" "))
}

/// Words of what the shop keeps to itself; the aunt stands in its notes.
const SHOPS_OWN: [&str; 19] = [
    "cost",
    "worked",
    "before rounding",
    "score",
    "margin",
    "wholesale",
    "profit",
    "below",
    "below the shop price",
    "loses",
    "you lose",
    "of 100",
    "not saved",
    "shop price",
    "crowded",
    "hidden by",
    "% hidden",
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
        assert!(
            mine.contains("before rounding") && mine.contains("cost") && mine.contains("score"),
            "the test looks at the wrong words: {mine}"
        );
        dark.do_action(Action::change(crate::book::Change::Notes("quarrelsome aunt".to_owned())));
        dark.do_action(Action::SwitchView);
        let toggle = Action::Layouts(LayoutsAction::Toggle);
        let shares = PageAction::Price(PriceAction::ShowShares);
        let enter = Action::Taps(TapKey::Enter(BoardField::Order(Field::Wearer), false));
        let no_latex = Action::change(crate::book::Change::NoLatex(true));
        let asked = crate::book::Asked { price: crate::units::Cents(1000), reason: "below what it takes".to_owned() };
        let asked = Action::change(crate::book::Change::Asked(Some(asked)));
        let band = PageAction::Variations(VariationsAction::Band(Some(crate::stock::BandKind::Metal)));
        let screens: [(&str, Vec<DarkAction>); 21] = [
            ("the sheet", vec![]),
            ("the orders, which stay shut", vec![Action::ShowOrders.into()]),
            ("what is bought together, which stays shut", vec![Action::ShowSharedStems.into()]),
            ("lengths in inches", vec![Action::Lengths(Some(crate::units::LengthUnit::FractionInch)).into()]),
            ("a bloom chosen", vec![Action::Sheet(SheetInput::SelectAll).into()]),
            (
                "what could be added",
                vec![Action::Sheet(SheetInput::Select(vec![PartId(1)])).into(), Action::AskForMore.into()],
            ),
            ("the looks", vec![Action::ShowOptions.into()]),
            ("the order", vec![Action::Show(PageId::Order).into()]),
            ("the keys on the screen", vec![Action::Taps(TapKey::Switch).into(), enter.into()]),
            ("side by side", vec![Action::Show(PageId::Sizes).into()]),
            ("another way", vec![Action::Show(PageId::Variations).into(), band.into()]),
            ("the price", vec![Action::Show(PageId::Price).into(), shares.into()]),
            ("another price", vec![asked.into()]),
            ("a yes", vec![Action::Agree.into()]),
            ("changed since the yes", vec![Action::change(crate::book::Change::Rush(true)).into(), no_latex.into()]),
            ("what is stopped beside the sizes", vec![Action::Show(PageId::Sizes).into()]),
            ("the boutonniere", vec![Action::ShowPiece(ActivePiece::Boutonniere).into()]),
            ("the house style, which stays shut", vec![Action::Show(PageId::Style).into()]),
            ("the colour", vec![Action::Show(PageId::Colour).into()]),
            (
                "the layouts",
                vec![
                    Action::Show(PageId::Sheet).into(),
                    Action::SwitchView.into(),
                    toggle.into(),
                    Action::SwitchView.into(),
                ],
            ),
            ("the keys", vec![Action::Show(PageId::Sheet).into(), Action::ShowHelp.into()]),
        ];
        for (screen, actions) in screens {
            for action in actions {
                dark.do_action(action);
            }
            let seen = dark.seen();
            let told: Vec<String> = seen.texts.iter().chain(&seen.names).map(|t| t.to_lowercase()).collect();
            assert!(told.len() > 10, "{screen} shows nothing");
            for word in SHOPS_OWN {
                // A size may cost her more than her budget: that is her own price. The trays lie below the sheet.
                let is_hers = |t: &str| t.contains(" over $") || t == "tap a flower below, then tap the wrist.";
                let shown = told.iter().find(|t| t.contains(word) && !is_hers(t));
                assert_eq!(shown, None, "{sample}, {screen}: the client is told {word}");
            }
            for name in others.iter().chain(&suppliers).filter(|name| !own.contains(&in_words(name))) {
                let is_told = |t: &&String| in_words(t).contains(&in_words(name));
                assert_eq!(told.iter().find(is_told), None, "{sample}, {screen}: the client is told of {name}");
            }
            let asked = dark.window.sheet.checks.asked_for_more;
            assert!(asked || dark.window.sheet.checks.pointed_at.is_none(), "{screen}: a mark nobody asked for");
        }
    }
}
