//! Layouts on offer.

use super::*;
use crate::app::action::Action;
use crate::app::tests::dark::Dark;
use crate::piece::PartId;

/// A window with layouts on offer, the first of them found.
fn offering(sample: &str) -> Dark {
    let mut dark = Dark::showing(sample);
    dark.seen();
    dark.press(egui::Key::P);
    assert!(dark.window.offers_layouts());
    dark.window.wait_for_layouts(&dark.ctx.clone());
    dark
}

#[test]
fn a_layout_taken_is_one_step_and_what_is_locked_stays() {
    let mut dark = Dark::showing("05-bare-spots");
    let locked: Vec<PartId> = dark.window.session.order().piece.parts().iter().take(3).map(|p| p.id).collect();
    dark.do_action(Action::edit(Edit::Lock(locked.clone(), true)));
    let before = dark.window.session.order().piece.clone();
    dark.tap("Set out");
    dark.window.wait_for_layouts(&dark.ctx.clone());
    assert!(dark.window.offered.as_ref().is_some_and(|o| o.cards.len() >= 2));
    assert_eq!(dark.window.session.order().piece, before, "nothing is done by itself");
    dark.press(egui::Key::Num2);
    let after = dark.window.session.order().piece.clone();
    assert_ne!(after, before);
    for id in locked {
        assert_eq!(after.part(id), before.part(id));
    }
    assert!(!dark.window.offers_layouts());
    dark.press(egui::Key::Num2);
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.session.order().piece, before);
}

#[test]
fn esc_closes_the_layouts_and_changes_nothing() {
    let mut dark = offering("03-full");
    let before = dark.window.session.order().piece.clone();
    dark.press(egui::Key::Escape);
    assert!(!dark.window.offers_layouts());
    assert_eq!(dark.window.session.order().piece, before);
}

#[test]
fn the_client_sees_layouts_without_a_mark() {
    let mut dark = offering("05-bare-spots");
    let mine = dark.seen();
    assert!(mine.texts.iter().any(|t| t.contains("of 100, now")), "{:?}", mine.texts);
    assert!(mine.texts.iter().any(|t| t == "Tidy"));
    dark.do_action(Action::TurnScreen);
    let hers = dark.seen();
    assert!(hers.texts.iter().any(|t| t == "Layout 1"), "{:?}", hers.texts);
    for text in hers.texts.iter().chain(&hers.names) {
        for word in ["of 100", "points", "better", "good as", "Tidy", "crowded", "want an oval"] {
            assert!(!text.contains(word), "{text}");
        }
    }
    dark.press(egui::Key::Num1);
    assert!(dark.seen().texts.iter().all(|t| !t.contains("of 100")));
    dark.press(egui::Key::P);
    assert!(!dark.window.offers_layouts(), "it is opened on my side");
}

#[test]
fn a_better_layout_waits_beside_the_others_and_a_still_better_one_until_it_is_asked_for() {
    let mut dark = offering("05-bare-spots");
    let offered = dark.window.offered.as_mut().unwrap();
    let first = offered.cards[0].proposal.clone();
    let n_first = offered.cards.len();
    let better = |score_after| Proposal { score_after, ..first.clone() };
    let ctx = dark.ctx.clone();
    for mark in [98.0, 99.0] {
        let pixels = Pixels { width: 1, height: 1, rgba: vec![0; 4] };
        offered.take_up(&ctx, SearchEvent::Better(better(mark), pixels));
    }
    let marks = |dark: &Dark| {
        let cards = &dark.window.offered.as_ref().unwrap().cards;
        cards.iter().skip(n_first).map(|c| c.proposal.score_after).collect::<Vec<_>>()
    };
    assert_eq!(marks(&dark), [98.0]);
    assert!(dark.seen().texts.iter().any(|t| t == "A better one is ready"));
    dark.do_action(Action::Layouts(Wish::ShowBetter));
    assert_eq!(marks(&dark), [99.0]);
    dark.do_action(Action::Layouts(Wish::Stop));
    assert!(dark.window.offered.as_ref().is_some_and(|o| o.stage == Stage::Stopped));
}

#[test]
fn the_next_piece_is_offered_where_most_room_is_and_taken_by_its_number() {
    let mut dark = offering("05-bare-spots");
    dark.press(egui::Key::H);
    dark.window.wait_for_step(&dark.ctx.clone());
    let first = dark.window.offered.as_ref().unwrap().candidates()[0].clone();
    assert!(crate::app::sheet::layouts_panel::gap_mark(&dark.window).is_some());
    dark.press(egui::Key::A);
    dark.window.wait_for_step(&dark.ctx.clone());
    let elsewhere = dark.window.offered.as_ref().unwrap().candidates()[0].clone();
    assert_ne!(first.gap.centre, elsewhere.gap.centre);
    let (n_parts, before) = (dark.n_parts(), dark.window.session.order().piece.clone());
    dark.press(egui::Key::Num1);
    assert_eq!(dark.n_parts(), n_parts + 1);
    assert!(dark.window.offers_layouts(), "and the next place is offered");
    dark.do_action(Action::Undo);
    assert_eq!(dark.window.session.order().piece, before);
}

#[test]
fn a_small_betterment_is_one_step_or_says_that_there_is_none() {
    for (key, moves_only) in [(egui::Key::T, true), (egui::Key::F, false)] {
        let mut dark = offering("05-bare-spots");
        let before = dark.window.session.order().piece.clone();
        dark.press(key);
        dark.window.wait_for_step(&dark.ctx.clone());
        let after = dark.window.session.order().piece.clone();
        assert_ne!(after, before, "{key:?}: {:?}", dark.window.said);
        assert_eq!(moves_only, after.parts().len() == before.parts().len());
        dark.do_action(Action::Undo);
        assert_eq!(dark.window.session.order().piece, before);
    }
    let mut dark = offering("05-bare-spots");
    dark.window.do_found(Err(NoProposal::NothingBetter));
    assert!(dark.seen().texts.iter().any(|t| t.contains("as good as I can make it")));
}
