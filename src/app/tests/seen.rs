//! What is seen of a window without a screen, and what a screen reader is told.

/// What is seen, and what a screen reader is told.
pub(crate) struct Seen {
    pub(crate) texts: Vec<String>,
    pub(crate) names: Vec<String>,
}

impl Seen {
    /// All of it, a line each.
    pub(crate) fn all(&self) -> String {
        self.texts.iter().chain(&self.names).cloned().collect::<Vec<_>>().join("\n")
    }

    pub(crate) fn says(&self, words: &str) -> bool {
        self.texts.iter().chain(&self.names).any(|t| t.contains(words))
    }
}

/// All words of a shape.
pub(super) fn gather(shape: &egui::Shape, texts: &mut Vec<String>) {
    match shape {
        egui::Shape::Text(text) => texts.push(text.galley.text().to_owned()),
        egui::Shape::Vec(shapes) => shapes.iter().for_each(|s| gather(s, texts)),
        _ => {}
    }
}
