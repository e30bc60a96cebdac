//! What can be changed about a line of the list, each with its bounds and what is said where it cannot be.

use std::sync::Arc;

use super::{Botanical, Caution, Keeps, MOST_LEAD_DAYS, Role, Shelf, StockColour, StockItem};
use crate::colour::Rgb;
use crate::units::{Cents, DecimalMark, Length, mm_text};

/// Something typed about a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StockField {
    /// Trade name.
    Name,
    /// Botanical name.
    Botanical,
    /// What a bunch, a step of ribbon, a band or one piece's worth costs.
    Cost,
    /// Stems in a bunch.
    StemsPerBunch,
    /// Heads, sprigs or leaves on a stem.
    PerStem,
    /// Least size, mm.
    Least,
    /// Usual size, mm.
    Usual,
    /// Most size, mm.
    Most,
    /// Who sells it.
    Supplier,
    /// Days from ordering it to having it.
    LeadDays,
    /// The name of its nth colour.
    ColourName(usize),
    /// How its nth colour looks.
    ColourHex(usize),
}

/// A change of a line.
#[derive(Clone, Debug, PartialEq)]
pub enum StockChange {
    /// Words in a field.
    Field(StockField, String),
    /// The part it plays.
    Role(Role),
    /// How long it looks fresh.
    Keeps(Keeps),
    /// In trade in this month, January 0, or no longer.
    Month(usize),
    /// To be careful of this, or no longer.
    Caution(Caution),
    /// One more colour.
    AddColour,
    /// One colour less.
    RemoveColour(usize),
    /// First in its tray, or no longer.
    Star,
    /// Out of the trays, or in again.
    Hide,
    /// The price it has is the shop's own.
    PriceIsRight,
}

/// The dearest bunch; our choice, that of the file.
const DEAREST: Cents = Cents(100_000_000);
/// Most stems in a bunch and heads on a stem; our choice, that of the file.
const MOST_COUNT: u32 = 1000;
/// Bounds of a size, mm; our choice, those of the file.
const SIZES_MM: [f64; 2] = [0.1, 500.0];
/// The longest name; our choice, two lines of a label.
const LONGEST_NAME: usize = 60;

impl StockField {
    /// The fields of a line but its colours, in the order in which they are asked.
    pub fn of(item: &StockItem) -> &'static [Self] {
        match item {
            StockItem::Botanical(_) => &[
                Self::Cost,
                Self::StemsPerBunch,
                Self::PerStem,
                Self::Least,
                Self::Usual,
                Self::Most,
                Self::LeadDays,
                Self::Supplier,
                Self::Name,
                Self::Botanical,
            ],
            StockItem::Ribbon(_) | StockItem::Band(_) | StockItem::Sundry(_) => {
                &[Self::Cost, Self::LeadDays, Self::Supplier, Self::Name]
            }
        }
    }

    /// What it is called beside its field.
    pub fn label(self, item: &StockItem) -> &'static str {
        match (self, item) {
            (Self::Name, _) => "Name",
            (Self::Botanical, _) => "Botanical name",
            (Self::Cost, StockItem::Botanical(_)) => "Cost a bunch",
            (Self::Cost, StockItem::Ribbon(r)) => {
                if r.step_mm == 914.4 {
                    "Cost a yard"
                } else {
                    "Cost a length"
                }
            }
            (Self::Cost, StockItem::Band(_)) => "Cost of one",
            (Self::Cost, StockItem::Sundry(_)) => "Cost a piece",
            (Self::StemsPerBunch, _) => "Stems a bunch",
            (Self::PerStem, _) => "Heads a stem",
            (Self::Least, _) => "Least size",
            (Self::Usual, _) => "Usual size",
            (Self::Most, _) => "Most size",
            (Self::Supplier, _) => "Supplier",
            (Self::LeadDays, _) => "Days to order",
            (Self::ColourName(_), _) => "Colour name",
            (Self::ColourHex(_), _) => "Colour",
        }
    }

    /// What stands in the field; a cost with the decimal mark of the shop.
    pub fn shown(self, item: &StockItem, decimal: DecimalMark) -> String {
        let size = |n: usize| item.botanical().map(|b| mm_text(b.size_mm[n])).unwrap_or_default();
        let colour = |n: usize| item.colours().get(n);
        match self {
            Self::Name => item.name().to_owned(),
            Self::Botanical => item.botanical().map(|b| b.botanical.clone()).unwrap_or_default(),
            Self::Cost => decimal.written(&item.cost().to_string()),
            Self::StemsPerBunch => item.botanical().map(|b| b.stems_per_bunch.to_string()).unwrap_or_default(),
            Self::PerStem => item.botanical().map(|b| b.per_stem.to_string()).unwrap_or_default(),
            Self::Least => size(0),
            Self::Usual => size(1),
            Self::Most => size(2),
            Self::Supplier => item.supplier().to_owned(),
            Self::LeadDays => match item.shelf().lead_days {
                0 => String::new(),
                days => days.to_string(),
            },
            Self::ColourName(n) => colour(n).map(|c| c.name.clone()).unwrap_or_default(),
            Self::ColourHex(n) => colour(n).map(|c| c.rgb.text()).unwrap_or_default(),
        }
    }
}

impl StockItem {
    /// The line after a change; why not, in a sentence, where it cannot be.
    pub fn changed(&self, change: &StockChange) -> Result<Self, String> {
        match change {
            StockChange::Field(StockField::Cost, words) => amount(words).map(|cost| self.at_own_price(cost)),
            StockChange::Field(StockField::Name, words) => self.renamed(words),
            StockChange::Field(StockField::Supplier, words) => short(words).map(|name| self.supplied_by(&name)),
            StockChange::Field(StockField::LeadDays, words) => {
                lead_days(words).map(|lead_days| self.shelved(Shelf { lead_days, ..self.shelf() }))
            }
            StockChange::Field(StockField::ColourName(n), words) => self.colour_named(*n, words),
            StockChange::Field(StockField::ColourHex(n), words) => self.colour_looking(*n, words),
            StockChange::Star => Ok(self.shelved(Shelf { is_starred: !self.shelf().is_starred, ..self.shelf() })),
            StockChange::Hide => Ok(self.shelved(Shelf { is_hidden: !self.shelf().is_hidden, ..self.shelf() })),
            StockChange::PriceIsRight => Ok(self.at_own_price(self.cost())),
            StockChange::AddColour => Ok(self.recoloured(|colours| colours.push(new_colour(colours)))),
            StockChange::RemoveColour(n) => self.without_colour(*n),
            StockChange::Caution(caution) => Ok(self.cautioned(*caution)),
            StockChange::Field(..) | StockChange::Role(_) | StockChange::Keeps(_) | StockChange::Month(_) => {
                let Self::Botanical(b) = self else { return Ok(self.clone()) };
                b.changed(change).map(|b| Self::Botanical(Arc::new(b)))
            }
        }
    }

    fn renamed(&self, words: &str) -> Result<Self, String> {
        let name = short(words)?;
        if name.is_empty() {
            return Err("It needs a name.".to_owned());
        }
        let mut item = self.clone();
        match &mut item {
            Self::Botanical(b) => Arc::make_mut(b).name = name,
            Self::Ribbon(r) => Arc::make_mut(r).name = name,
            Self::Band(b) => Arc::make_mut(b).name = name,
            Self::Sundry(s) => Arc::make_mut(s).name = name,
        }
        Ok(item)
    }

    fn cautioned(&self, caution: Caution) -> Self {
        let mut item = self.clone();
        let list = match &mut item {
            Self::Botanical(b) => &mut Arc::make_mut(b).cautions,
            Self::Band(b) => &mut Arc::make_mut(b).cautions,
            Self::Sundry(s) => &mut Arc::make_mut(s).cautions,
            Self::Ribbon(_) => return item,
        };
        match list.iter().position(|c| *c == caution) {
            Some(at) => drop(list.remove(at)),
            None => list.push(caution),
        }
        item
    }

    /// What to be careful of; none where nothing can be.
    pub fn cautions(&self) -> Option<&[Caution]> {
        match self {
            Self::Botanical(b) => Some(&b.cautions),
            Self::Band(b) => Some(&b.cautions),
            Self::Sundry(s) => Some(&s.cautions),
            Self::Ribbon(_) => None,
        }
    }

    fn recoloured(&self, change: impl FnOnce(&mut Vec<StockColour>)) -> Self {
        let mut item = self.clone();
        match &mut item {
            Self::Botanical(b) => change(&mut Arc::make_mut(b).colours),
            Self::Ribbon(r) => change(&mut Arc::make_mut(r).colours),
            Self::Band(_) | Self::Sundry(_) => {}
        }
        item
    }

    fn colour_named(&self, n: usize, words: &str) -> Result<Self, String> {
        let name = short(words)?;
        if name.is_empty() {
            return Err("A colour needs a name.".to_owned());
        }
        if self.colours().iter().enumerate().any(|(other, c)| other != n && c.name == name) {
            return Err(format!("It has a colour \u{201c}{name}\u{201d} already."));
        }
        Ok(self.recoloured(|colours| colours.iter_mut().skip(n).take(1).for_each(|c| name.clone_into(&mut c.name))))
    }

    fn colour_looking(&self, n: usize, words: &str) -> Result<Self, String> {
        let rgb = Rgb::parse(words).ok_or("Write a colour as # and six digits or letters, such as #f2cfc8.")?;
        Ok(self.recoloured(|colours| colours.iter_mut().skip(n).take(1).for_each(|c| c.rgb = rgb)))
    }

    fn without_colour(&self, n: usize) -> Result<Self, String> {
        if self.colours().len() < 2 {
            return Err("It needs at least one colour.".to_owned());
        }
        Ok(self.recoloured(|colours| {
            if n < colours.len() {
                colours.remove(n);
            }
        }))
    }
}

impl Botanical {
    fn changed(&self, change: &StockChange) -> Result<Self, String> {
        let mut b = self.clone();
        match change {
            StockChange::Field(StockField::Botanical, words) => b.botanical = short(words)?,
            StockChange::Field(StockField::StemsPerBunch, words) => {
                b.stems_per_bunch = count(words, "A bunch has at least one stem.")?;
            }
            StockChange::Field(StockField::PerStem, words) => {
                b.per_stem = count(words, "A stem has at least one head.")?;
            }
            StockChange::Field(StockField::Least, words) => b.size_mm[0] = size(words)?,
            StockChange::Field(StockField::Usual, words) => b.size_mm[1] = size(words)?,
            StockChange::Field(StockField::Most, words) => b.size_mm[2] = size(words)?,
            StockChange::Role(role) => b.role = *role,
            StockChange::Keeps(keeps) => b.keeps = *keeps,
            StockChange::Month(n) => {
                b.months.iter_mut().skip(*n).take(1).for_each(|m| *m = !*m);
                if !b.months.contains(&true) {
                    return Err("It needs at least one month. To stop selling it, hide it.".to_owned());
                }
            }
            // Those of every kind of goods.
            StockChange::Field(
                StockField::Cost
                | StockField::Name
                | StockField::Supplier
                | StockField::LeadDays
                | StockField::ColourName(_)
                | StockField::ColourHex(_),
                _,
            )
            | StockChange::Star
            | StockChange::Hide
            | StockChange::PriceIsRight
            | StockChange::AddColour
            | StockChange::RemoveColour(_)
            | StockChange::Caution(_) => {}
        }
        let [least, usual, most] = b.size_mm;
        if least > usual || usual > most {
            return Err("Sizes go up: least, usual, most.".to_owned());
        }
        Ok(b)
    }
}

/// A name as typed, without spaces about it.
fn short(words: &str) -> Result<String, String> {
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    if words.chars().count() > LONGEST_NAME {
        return Err(format!("At most {LONGEST_NAME} letters fit here."));
    }
    Ok(words)
}

/// A cost as typed, with a point or a comma before the cents.
fn amount(words: &str) -> Result<Cents, String> {
    match Cents::typed(words) {
        Some(Cents(0)) => Err("At 0 it would be given away. Write what it costs you.".to_owned()),
        Some(cost) if cost <= DEAREST => Ok(cost),
        Some(_) | None => Err("Write a cost such as 18 or 18.50 (18,50).".to_owned()),
    }
}

fn count(words: &str, none: &str) -> Result<u32, String> {
    match words.trim().parse::<u32>() {
        Ok(0) => Err(none.to_owned()),
        Ok(n) if n <= MOST_COUNT => Ok(n),
        _ => Err(format!("Write a whole number from 1 to {MOST_COUNT}.")),
    }
}

/// Nothing written is nothing known.
fn lead_days(words: &str) -> Result<u8, String> {
    let words = words.trim();
    let days = if words.is_empty() { Some(0) } else { words.parse().ok() };
    days.filter(|days| *days <= MOST_LEAD_DAYS).ok_or_else(|| format!("Write whole days, at most {MOST_LEAD_DAYS}."))
}

fn size(words: &str) -> Result<f64, String> {
    let mm = Length::parse(words).map(|l| l.mm()).filter(|mm| (SIZES_MM[0]..=SIZES_MM[1]).contains(mm));
    mm.ok_or_else(|| "Write a size such as 35, 3.5 cm or 1 3/8 in, at most 500 mm.".to_owned())
}

/// A colour under a name that is not taken, white until it is given another look.
fn new_colour(colours: &[StockColour]) -> StockColour {
    let nth = |n: usize| if n == 1 { "new colour".to_owned() } else { format!("new colour {n}") };
    let name =
        (1..=colours.len() + 1).map(nth).find(|name| colours.iter().all(|c| c.name != *name)).unwrap_or_default();
    StockColour { name, rgb: Rgb::hex(0x00ff_ffff) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stock::{StockId, StockKey, StockList};

    fn rose() -> StockItem {
        let stock = crate::store::built_in_stock();
        stock.item(&StockKey { list: StockList::Botanicals, id: StockId::new("spray-rose") }).unwrap()
    }

    fn typed(field: StockField, words: &str) -> Result<StockItem, String> {
        rose().changed(&StockChange::Field(field, words.to_owned()))
    }

    #[test]
    fn what_is_typed_is_taken_or_answered_with_a_sentence() {
        use StockField as F;
        for (field, words, shown) in [
            (F::Cost, "19,5", "19.50"),
            (F::Cost, "$1000000", "1000000.00"),
            (F::StemsPerBunch, " 25 ", "25"),
            (F::PerStem, "1000", "1000"),
            (F::Usual, "3.5 cm", "35"),
            (F::Least, "1 in", "25.4"),
            (F::Name, "  Spray   rose, mini ", "Spray rose, mini"),
            (F::Supplier, "", ""),
            (F::ColourName(0), "cream", "cream"),
            (F::ColourHex(0), "#0a0b0c", "#0a0b0c"),
        ] {
            assert_eq!(
                typed(field, words).map(|item| field.shown(&item, DecimalMark::Point)),
                Ok(shown.to_owned()),
                "{field:?} {words}"
            );
        }
        for (field, words) in [
            (F::Cost, "0"),
            (F::Cost, "0,00"),
            (F::Cost, "-3"),
            (F::Cost, "1000000.01"),
            (F::Cost, "cheap"),
            (F::Cost, ""),
            (F::StemsPerBunch, "0"),
            (F::StemsPerBunch, "2.5"),
            (F::PerStem, "-1"),
            (F::PerStem, "1001"),
            (F::Usual, "0"),
            (F::Usual, "20"),
            (F::Most, "501"),
            (F::Name, "   "),
            (F::ColourName(0), "blush"),
            (F::ColourHex(0), "teal-ish"),
        ] {
            let why = typed(field, words).expect_err(words);
            assert!(why.ends_with('.') && why.len() <= 90, "{field:?} {words}: {why}");
        }
    }

    #[test]
    fn a_price_is_an_example_until_it_is_changed_or_called_right() {
        assert!(rose().shelf().has_example_price);
        let right = rose().changed(&StockChange::PriceIsRight).unwrap();
        assert!(!right.shelf().has_example_price && right.cost() == rose().cost());
        assert!(!typed(StockField::Cost, "20").unwrap().shelf().has_example_price);
        for change in [StockChange::Star, StockChange::Hide, StockChange::Month(3)] {
            assert!(rose().changed(&change).unwrap().shelf().has_example_price, "{change:?}");
        }
    }

    #[test]
    fn a_second_tap_takes_the_first_back() {
        let all = [StockChange::Star, StockChange::Hide, StockChange::Month(11), StockChange::Caution(Caution::Dye)];
        for change in all {
            let once = rose().changed(&change).unwrap();
            assert_ne!(once, rose(), "{change:?}");
            assert_eq!(once.changed(&change).unwrap(), rose(), "{change:?}");
        }
    }

    #[test]
    fn the_last_colour_and_the_last_month_stay() {
        let mut item = rose();
        while item.colours().len() > 1 {
            item = item.changed(&StockChange::RemoveColour(0)).unwrap();
        }
        assert!(item.changed(&StockChange::RemoveColour(0)).is_err());
        for n in 0..11 {
            item = item.changed(&StockChange::Month(n)).unwrap();
        }
        assert!(item.changed(&StockChange::Month(11)).is_err());
        let twice = item.changed(&StockChange::AddColour).unwrap().changed(&StockChange::AddColour).unwrap();
        assert_eq!(twice.colours().len(), 3);
        assert_ne!(twice.colours()[1].name, twice.colours()[2].name);
    }
}
