//! The smallest window of its kind, to hold the program's first picture and its frames against: one line of text.

fn main() -> eframe::Result {
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default().with_title("Posywright").with_inner_size([1366.0, 740.0]),
        dithering: false,
        ..Default::default()
    };
    eframe::run_native("bare", options, Box::new(|_| Ok(Box::new(Bare))))
}

struct Bare;

impl eframe::App for Bare {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        ui.label("a window");
    }
}
