//! What is drawn before there is a window.

use crate::app::picture::heads::HeadKey;
use crate::app::preload::Preloaded;
use crate::app::tests::dark::Dark;

#[test]
fn the_guess_is_what_the_usual_window_shows() {
    for sample in ["03-full", "09-showpiece"] {
        let mut dark = Dark::showing(sample);
        let Preloaded { heads, sheet } = Preloaded::begin(&dark.window.session);
        dark.frame(Vec::new());
        let (made, layers) = sheet.recv().unwrap();
        assert_eq!(made.view, dark.window.sheet.hand.view, "{sample}");
        assert!(!layers.is_empty());
        let tray: Vec<HeadKey> = heads.iter().map(|(which, _)| which).collect();
        assert_eq!(tray.len(), 11);
        assert!(tray.iter().all(|which| dark.window.images.heads.borrow().has(which)), "{sample}: {tray:?}");
    }
}
