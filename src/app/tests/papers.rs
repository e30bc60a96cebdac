//! Papers made from the window.

use crate::app::action::{Action, Notice};
use crate::app::tests::dark::{Dark, dark_in};
use crate::app::typing::field::Field;
use crate::app::workers::paper_worker::PaperWorker;

#[test]
fn all_papers_are_made_of_what_is_saved_and_the_folder_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let (mut dark, _) = dark_in(folder.path(), "01-petite");
    dark.do_action(Action::Write(Field::Wearer, "Solveig".to_owned()));
    dark.do_action(Action::MakePapers);
    assert!(dark.window.session.is_saved());
    let ctx = dark.ctx.clone();
    while let Some(event) = dark.window.papers.as_mut().and_then(PaperWorker::wait) {
        dark.window.take_papers(&ctx, event);
    }
    let Some(Notice::Done(said)) = &dark.window.notice else {
        panic!("the folder is not told: {:?}", dark.window.notice)
    };
    assert!(said.contains("papers/01-petite"), "{said}");
    let made: Vec<String> = std::fs::read_dir(folder.path().join("papers/01-petite"))
        .unwrap()
        .map(|f| f.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    for paper in
        ["client.pdf", "quote-slip.pdf", "bench-card.pdf", "template.pdf", "bill-of-materials.csv", "picture.png"]
    {
        assert!(made.iter().any(|name| name.ends_with(paper)), "no {paper} in {made:?}");
    }
    let stems = std::fs::read_to_string(folder.path().join("papers/01-petite/01-petite-stems.txt")).unwrap();
    assert!(stems.contains("Solveig"), "{stems}");
}

#[test]
fn without_a_place_for_them_it_says_why() {
    let mut dark = Dark::showing("01-petite");
    dark.do_action(Action::MakePapers);
    assert!(dark.window.papers.is_none() && matches!(dark.window.notice, Some(Notice::Card { .. })));
}
