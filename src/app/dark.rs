//! The window without a screen, for tests: what it would paint, and what it would tell a screen reader.

use std::sync::Arc;

use super::action::Action;
use super::window::Window;
use crate::session::Session;
use crate::store::{Shop, order_from_text, samples};

/// A window without a screen: what it would paint, and what it would tell a screen reader.
struct Dark {
    ctx: egui::Context,
    window: Window,
}

struct Seen {
    texts: Vec<String>,
    names: Vec<String>,
}

impl Dark {
    fn showing(sample: &str) -> Self {
        let ctx = egui::Context::default();
        ctx.enable_accesskit();
        let shop = Shop::built_in();
        let found = samples::orders().find(|s| s.path.contains(sample)).unwrap();
        let order = order_from_text(found.text, found.path, shop.stock()).unwrap();
        let (stock, style) = (Arc::clone(shop.stock()), Arc::clone(shop.style()));
        let session = Session::with(order, stock, style);
        let window = Window::in_light(&ctx, shop, session, &[], |_| None);
        Self { ctx, window }
    }

    fn frame(&mut self) -> Seen {
        let size = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(1366.0, 740.0));
        let input = egui::RawInput { screen_rect: Some(size), ..Default::default() };
        let ctx = self.ctx.clone();
        let mut out = ctx.run_ui(input, |ui| {
            let actions = self.window.lay(ui);
            for action in actions {
                self.window.run(&ctx, action);
            }
        });
        out.textures_delta.clear();
        let mut texts = Vec::new();
        out.shapes.iter().for_each(|s| gather(&s.shape, &mut texts));
        let update = out.platform_output.accesskit_update.take();
        let nodes = update.map(|u| u.nodes).unwrap_or_default();
        let names = nodes.iter().filter_map(|(_, n)| n.label().map(str::to_owned)).collect();
        Seen { texts, names }
    }

    /// What is seen once everything has settled.
    fn seen(&mut self) -> Seen {
        self.frame();
        self.frame();
        self.frame()
    }
}

fn gather(shape: &egui::Shape, texts: &mut Vec<String>) {
    match shape {
        egui::Shape::Text(text) => texts.push(text.galley.text().to_owned()),
        egui::Shape::Vec(shapes) => shapes.iter().for_each(|s| gather(s, texts)),
        _ => {}
    }
}

#[test]
fn every_bloom_is_a_node_with_a_name() {
    let mut dark = Dark::showing("03-full");
    let seen = dark.seen();
    for name in ["Spray rose 1", "Spray rose 7", "Waxflower 3", "Italian ruscus 8", "Wrist sheet", "Keep"] {
        assert!(seen.names.iter().any(|n| n == name), "{name} is not among {:?}", seen.names);
    }
}

#[test]
fn the_clients_side_shows_no_cost_no_mark_and_no_other_order() {
    for sample in ["01-petite", "05-bare-spots", "08-boutonniere", "09-showpiece"] {
        let mut dark = Dark::showing(sample);
        let mine = dark.seen().texts.join("\n").to_lowercase();
        assert!(mine.contains("costs") && mine.contains("of 100"), "the test looks at the wrong words: {mine}");
        dark.window.run(&dark.ctx.clone(), Action::TurnScreen);
        dark.window.run(&dark.ctx.clone(), Action::ShowOrders);
        let seen = dark.seen();
        for word in ["cost", "worked", "margin", "of 100", "once-over", "not kept", "crowded", "harbour hall"] {
            let shown = seen.texts.iter().chain(&seen.names).find(|t| t.to_lowercase().contains(word));
            assert_eq!(shown, None, "{sample}: the client sees {word}");
        }
    }
}

#[test]
fn no_word_of_the_window_blames() {
    let mut dark = Dark::showing("04-too-wide");
    dark.window.run(&dark.ctx.clone(), Action::Girth("nonsense".to_owned()));
    dark.window.run(&dark.ctx.clone(), Action::ShowHelp);
    for text in dark.seen().texts {
        let lower = text.to_lowercase();
        for word in ["error", "invalid", " user", "fail"] {
            assert!(!lower.contains(word), "{text}");
        }
    }
}

#[test]
fn a_tiny_window_with_a_chosen_bloom_still_paints() {
    let mut dark = Dark::showing("03-full");
    dark.window.run(&dark.ctx.clone(), Action::SelectAll);
    for (width, height) in [(1366.0, 740.0), (500.0, 400.0), (320.0, 240.0), (90.0, 60.0)] {
        let size = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(width, height));
        let input = egui::RawInput { screen_rect: Some(size), ..Default::default() };
        let mut out = dark.ctx.clone().run_ui(input, |ui| drop(dark.window.lay(ui)));
        out.textures_delta.clear();
    }
}
