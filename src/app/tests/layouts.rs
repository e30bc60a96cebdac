//! Layouts on offer.

use crate::app::action::{Action, LayoutsAction};
use crate::app::sheet::layouts::SearchStage;
use crate::app::sheet::layouts_panel::gap_mark;
use crate::app::tests::dark::Dark;
use crate::app::view::ShopView;
use crate::app::workers::search_worker::SearchEvent;
use crate::export::Pixels;
use crate::piece::{Edit, PartId};
use crate::set_out::{NoProposal, Proposal};

/// What follows when the search reports this.
fn take_in(dark: &mut Dark, event: SearchEvent) -> Option<Action> {
    let ctx = dark.ctx.clone();
    dark.window.sheet.layouts.as_mut().unwrap().take_in(&ctx, event, false)
}

/// A window with layouts on offer, the first of them found.
fn offering(sample: &str) -> Dark {
    let mut dark = Dark::showing(sample);
    dark.seen();
    dark.press(egui::Key::P);
    assert!(dark.window.sheet.layouts.is_some());
    dark.wait_for_layouts();
    dark
}

#[test]
fn a_layout_taken_is_one_step_and_what_is_locked_stays() {
    let mut dark = Dark::showing("05-bare-spots");
    let locked: Vec<PartId> = dark.window.session.order().piece.parts().iter().take(3).map(|p| p.id).collect();
    dark.do_action(Action::edit(Edit::Lock(locked.clone(), true)));
    let before = dark.window.session.order().piece.clone();
    dark.tap("Arrange for me");
    dark.wait_for_layouts();
    assert!(dark.window.sheet.layouts.as_ref().is_some_and(|o| o.cards.len() >= 2));
    assert_eq!(dark.window.session.order().piece, before, "nothing is done by itself");
    dark.press(egui::Key::Num2);
    let after = dark.window.session.order().piece.clone();
    assert_ne!(after, before);
    for id in locked {
        assert_eq!(after.part(id), before.part(id));
    }
    assert!(dark.window.sheet.layouts.is_none());
    dark.press(egui::Key::Num2);
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.session.order().piece, before);
}

#[test]
fn esc_closes_the_layouts_and_changes_nothing() {
    let mut dark = offering("03-full");
    let before = dark.window.session.order().piece.clone();
    dark.press(egui::Key::Escape);
    assert!(dark.window.sheet.layouts.is_none());
    assert_eq!(dark.window.session.order().piece, before);
}

#[test]
fn the_client_sees_layouts_without_a_mark() {
    let mut dark = offering("05-bare-spots");
    let mine = dark.seen();
    assert!(mine.texts.iter().any(|t| t.starts_with("Score ") && t.contains(", now ")), "{:?}", mine.texts);
    assert!(mine.texts.iter().any(|t| t == "Tidy up"));
    dark.do_action(Action::SwitchView);
    let hers = dark.seen();
    assert!(hers.texts.iter().any(|t| t == "Layout 1"), "{:?}", hers.texts);
    for text in hers.texts.iter().chain(&hers.names) {
        for word in ["of 100", "Score", "points", "better", "good as", "Tidy", "crowded", "need an oval"] {
            assert!(!text.contains(word), "{text}");
        }
    }
    dark.press(egui::Key::Num1);
    assert!(dark.seen().texts.iter().all(|t| !t.contains("of 100") && !t.contains("Score")));
    dark.press(egui::Key::P);
    assert!(dark.window.sheet.layouts.is_none(), "it is opened on my side");
}

#[test]
fn a_better_layout_waits_beside_the_others_and_a_still_better_one_until_it_is_asked_for() {
    let mut dark = offering("05-bare-spots");
    let n_first = dark.window.sheet.layouts.as_ref().unwrap().cards.len();
    let better = |score_after| Proposal {
        edit: Edit::Remove(vec![PartId(1)]),
        says: "Without one".to_owned(),
        score_before: 90.0,
        score_after,
        n_tries: 1,
        crowded: None,
    };
    for score in [98.0, 99.0] {
        let pixels = Pixels { width: 1, height: 1, rgba: vec![0; 4] };
        assert_eq!(take_in(&mut dark, SearchEvent::Better(better(score), pixels)), None);
    }
    let scores = |dark: &mut Dark| {
        let seen_by = ShopView::of(&mut dark.window.session);
        let cards = &dark.window.sheet.layouts.as_ref().unwrap().cards;
        cards.iter().skip(n_first).map(|card| card.scores(&seen_by)).collect::<Vec<_>>()
    };
    assert_eq!(scores(&mut dark), [[98.0, 90.0]]);
    assert!(dark.seen().texts.iter().any(|t| t == "Show a better one"));
    dark.do_action(Action::Layouts(LayoutsAction::ShowBetter));
    assert_eq!(scores(&mut dark), [[99.0, 90.0]]);
    dark.do_action(Action::Layouts(LayoutsAction::Stop));
    assert!(dark.window.sheet.layouts.as_ref().is_some_and(|o| o.stage == SearchStage::Stopped));
}

#[test]
fn the_next_piece_is_offered_where_most_room_is_and_taken_by_its_number() {
    let mut dark = offering("05-bare-spots");
    dark.press(egui::Key::H);
    dark.wait_for_step();
    let first = dark.window.sheet.layouts.as_ref().unwrap().candidates()[0].clone();
    let seen_by = ShopView::of(&mut dark.window.session);
    assert!(gap_mark(dark.window.sheet.layouts.as_ref().unwrap(), &seen_by).is_some());
    dark.press(egui::Key::A);
    dark.wait_for_step();
    let elsewhere = dark.window.sheet.layouts.as_ref().unwrap().candidates()[0].clone();
    assert_ne!(first.gap.centre, elsewhere.gap.centre);
    let (n_parts, before) = (dark.n_parts(), dark.window.session.order().piece.clone());
    dark.press(egui::Key::Num1);
    assert_eq!(dark.n_parts(), n_parts + 1);
    assert!(dark.window.sheet.layouts.is_some(), "and the next place is offered");
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.session.order().piece, before);
}

#[test]
fn a_small_betterment_is_one_step_or_says_that_there_is_none() {
    for (key, moves_only) in [(egui::Key::T, true), (egui::Key::F, false)] {
        let mut dark = offering("05-bare-spots");
        let before = dark.window.session.order().piece.clone();
        dark.press(key);
        dark.wait_for_step();
        let after = dark.window.session.order().piece.clone();
        assert_ne!(after, before, "{key:?}: {:?}", dark.window.notice);
        assert_eq!(moves_only, after.parts().len() == before.parts().len());
        dark.do_action(Action::Undo);
        assert_eq!(dark.window.session.order().piece, before);
    }
    let mut dark = offering("05-bare-spots");
    let said = take_in(&mut dark, SearchEvent::StepDone(Err(NoProposal::NothingBetter)));
    dark.do_action(said.unwrap());
    assert!(dark.seen().texts.iter().any(|t| t.contains("No better layout found")));
}
