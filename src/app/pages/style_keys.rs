//! Keys of the page "House style": the sections by their numbers.

use egui::{Key, Modifiers, Ui};

use crate::app::action::Action;
use crate::app::pages::style::{Section, Wish};
use crate::app::sheet::wrist_sheet::take_key;

pub(crate) fn read_keys(ui: &Ui, actions: &mut Vec<Action>) {
    const NUMBERS: [Key; 6] = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6];
    for (key, section) in NUMBERS.into_iter().zip(Section::ALL) {
        if take_key(ui, Modifiers::NONE, key) {
            actions.push(Action::House(Wish::Show(section)));
        }
    }
}
