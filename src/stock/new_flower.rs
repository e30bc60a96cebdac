//! A flower of the shop's own, made from one of the forms.

use std::sync::Arc;

use super::{
    Botanical, Form, Keeps, Origins, Role, Shelf, Stock, StockChange, StockColour, StockField, StockId, StockItem,
};
use crate::colour::Rgb;
use crate::units::{Cents, fold};

/// What is asked about a new flower; everything else is as with the first flower of its form until it is changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewFlower {
    /// Trade name.
    pub name: String,
    /// What a bunch costs, as typed.
    pub cost: String,
    /// Stems in a bunch, as typed.
    pub stems: String,
    /// Heads on a stem, as typed.
    pub heads: String,
    /// How it is drawn.
    pub form: Form,
    /// The part it usually plays.
    pub role: Role,
}

impl Default for NewFlower {
    fn default() -> Self {
        let (stems, heads) = ("10".to_owned(), "1".to_owned());
        Self { name: String::new(), cost: String::new(), stems, heads, form: Form::ALL[0], role: Role::Bloom }
    }
}

impl NewFlower {
    /// The flower as a line of `stock`; why not, in a sentence, where something is missing. Its cautions are empty: nobody has
    /// looked for them yet.
    pub fn make(&self, stock: &Stock) -> Result<StockItem, String> {
        let typed = [
            (StockField::Name, &self.name),
            (StockField::Cost, &self.cost),
            (StockField::StemsPerBunch, &self.stems),
            (StockField::PerStem, &self.heads),
        ];
        let blank = StockItem::Botanical(Arc::new(self.like(stock)));
        let made = typed
            .into_iter()
            .try_fold(blank, |item, (field, words)| item.changed(&StockChange::Field(field, words.clone())))?;
        let same = stock.botanicals().iter().find(|b| fold(&b.name) == fold(made.name()));
        match same {
            Some(same) => Err(format!("{} is in your list already.", same.name)),
            None => Ok(made),
        }
    }

    /// A flower as large and as heavy as the first of its form, about which nothing else is known.
    fn like(&self, stock: &Stock) -> Botanical {
        let like = stock.botanicals().iter().find(|b| b.form == self.form);
        let (size_mm, breadth) =
            like.map_or(([20.0, 30.0, 40.0], if self.form.is_long() { 0.4 } else { 1.0 }), |b| (b.size_mm, b.breadth));
        Botanical {
            id: free_id(&self.name, stock),
            name: String::new(),
            botanical: String::new(),
            role: self.role,
            form: self.form,
            size_mm,
            breadth,
            height_mm: like.map_or(15.0, |b| b.height_mm),
            per_stem: 1,
            stems_per_bunch: 1,
            bunch: Cents(0),
            supplier: String::new(),
            colours: like.map_or_else(white, |b| b.colours.clone()),
            mass_g: like.map_or(2.0, |b| b.mass_g),
            months: [true; 12],
            storage_c: like.map_or([1.0, 3.0], |b| b.storage_c),
            chills_below_c: like.and_then(|b| b.chills_below_c),
            keeps: Keeps::Fair,
            cautions: Vec::new(),
            wire: like.and_then(|b| b.wire),
            cut_from: None,
            origins: Origins::default(),
            shelf: Shelf::default(),
        }
    }
}

fn white() -> Vec<StockColour> {
    vec![StockColour { name: "white".to_owned(), rgb: Rgb::hex(0x00f7_f4ec) }]
}

/// An id for a new flower of this name that none in stock has: small letters, digits and hyphens.
fn free_id(name: &str, stock: &Stock) -> StockId {
    /// Letters of a name that go into its id; ids have at most 60.
    const LETTERS: usize = 40;
    let plain = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
    let letters: String = fold(name).chars().map(plain).take(LETTERS).collect();
    let words: Vec<&str> = letters.split('-').filter(|word| !word.is_empty()).collect();
    let base = if words.is_empty() { "own".to_owned() } else { words.join("-") };
    let nth = |n: u32| StockId::new(&if n == 1 { base.clone() } else { format!("{base}-{n}") });
    (1..10_000).map(nth).find(|id| stock.botanical(id).is_none()).unwrap_or_else(|| StockId::new("own"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stock() -> Stock {
        crate::store::built_in_stock()
    }

    fn flower(name: &str) -> NewFlower {
        NewFlower { name: name.to_owned(), cost: "12.50".to_owned(), form: Form::Anemone, ..NewFlower::default() }
    }

    #[test]
    fn a_new_flower_has_an_id_of_its_own_and_the_size_of_its_form() {
        for (name, id) in [
            ("Hellebore, double", "hellebore-double"),
            ("Zs\u{f3}fia\u{2019}s p\u{151}sy", "zsofia-s-posy"),
            ("\u{82b1}", "own"),
            ("Spray-rose", "spray-rose-2"),
        ] {
            let made = flower(name).make(&stock()).unwrap();
            assert_eq!((made.id().as_str(), made.cost()), (id, Cents(1250)), "{name}");
            let like = stock().botanicals().iter().find(|b| b.form == Form::Anemone).unwrap().size_mm;
            assert_eq!(made.botanical().unwrap().size_mm, like);
            assert!(!made.shelf().has_example_price && made.cautions() == Some(&[]));
        }
    }

    #[test]
    fn what_is_missing_or_there_already_is_said() {
        let without = |change: fn(&mut NewFlower)| {
            let mut flower = flower("Hellebore");
            change(&mut flower);
            flower.make(&stock())
        };
        for refused in [
            without(|f| f.name.clear()),
            without(|f| f.cost.clear()),
            without(|f| f.stems = "0".to_owned()),
            without(|f| f.heads = "many".to_owned()),
            without(|f| f.name = "SPR\u{c4}Y rose".to_owned()),
        ] {
            assert!(refused.is_err_and(|why| why.ends_with('.')));
        }
    }
}
