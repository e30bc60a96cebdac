//! The picture as the client saw it: on an arm of the tone that was chosen, before the cloth where that was shown, with the coin
//! where one lay beside it.

use super::{Ground, PictureOptions, Scene, picture, with_coin};
use crate::book::{Beside, Coin, Order};
use crate::piece::Piece;
use crate::stock::Stock;

/// A piece of an order as it was shown. The coin is the one that goes with `currency`; a ruler is not drawn: papers have a
/// scale of their own.
pub fn as_shown(piece: &Piece, order: &Order, stock: &Stock, currency: &str) -> Scene {
    let shown = order.shown;
    let dress = order.taste.dress.hex.filter(|_| shown.cloth);
    let options = PictureOptions { skin: shown.skin, ground: Ground::before(dress), ..PictureOptions::default() };
    let scene = picture(piece, stock, &order.wrist, &options);
    match shown.beside {
        Beside::Coin => with_coin(scene, Coin::of(currency).diameter_mm),
        Beside::Ruler | Beside::Nothing => scene,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::Shown;
    use crate::colour::Rgb;
    use crate::piece::Skin;

    fn scene(shown: Shown) -> Scene {
        let stock = Stock::default();
        let mut order = Order::blank(None, &stock);
        order.taste.dress.hex = Some(Rgb::hex(0x1b_2a4a));
        order.shown = shown;
        as_shown(&order.piece, &order, &stock, "$")
    }

    #[test]
    fn tone_cloth_and_coin_change_what_is_drawn_and_the_coin_has_its_own_strip() {
        let usual = scene(Shown::default());
        let others = [
            Shown { skin: Skin::Deep, ..Shown::default() },
            Shown { cloth: false, ..Shown::default() },
            Shown { beside: Beside::Coin, ..Shown::default() },
        ];
        for shown in others {
            assert_ne!(scene(shown).groups, usual.groups, "{shown:?}");
        }
        let nothing = scene(Shown { beside: Beside::Nothing, ..Shown::default() });
        assert_eq!(nothing.groups, usual.groups, "the ruler is the screen's own");
        // The picture grows downward, so that the coin hides nothing of it.
        assert!(scene(others[2]).frame.x0 < usual.frame.x0 - 20.0);
    }
}
