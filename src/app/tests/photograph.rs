//! The page of the photograph: a first look soon, then the fine one, from another side, saved for the client.

use egui::Key;

use crate::app::tests::harness::TestWindow;

#[test]
fn a_photo_comes_coarse_and_then_fine_from_the_side_that_was_asked_for_and_is_saved() {
    let mut w = TestWindow::on_sample("08-boutonniere");
    w.window_mut().pages.Photograph.wide = 60.0;
    w.press(Key::F10);
    assert!(w.says("Growing finer"), "{}", w.seen().all());
    w.tap("From above");
    w.wait_for("Photo of the piece: From above");
    w.wait_for("in the light of a window");
    w.tap("Save photo");
    w.wait_for("Photo saved:");
    let said = w.seen().all();
    let path =
        said.split("Photo saved: ").nth(1).and_then(|rest| rest.split(".png").next()).unwrap().to_owned() + ".png";
    let file = image::open(&path).unwrap();
    assert_eq!(file.width() * 5, file.height() * 4, "a quarter higher than wide");
    // The client sees the same page: nothing of it is for the shop alone.
    w.press(Key::F2);
    assert!(w.says("Save photo"), "{}", w.seen().all());
}
