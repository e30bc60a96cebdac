//! The house style as a file: the built-in one, and a shop's own that changes it field by field.
//!
//! Every field may be left out and then stays as it is in the built-in style; `sizes`, `weights` and the lists of
//! sundries are replaced as a whole. The fields are those of `assets/style.ron`.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::bow_lines::BowLine;
use super::figures::{Amount, Count, Share, Size, Text};
use super::keywords::Keyword;
use super::price_lines::{self, PricesLine};
use super::reading::{Versioned, line_with, name_of, parse};
use super::saving::{FileStamp, RealDisk, save};
use super::store_error::{Cause, StoreError};
use crate::piece::{
    HouseStyle, Making, MakingMinutes, PieceSize, Planned, PriceRule, Question, ShapeRules, USUAL_DEPOSIT,
    USUAL_HOLDS_DAYS, USUAL_RUSH, Worn, for_each_question,
};
use crate::stock::{Role, Stock, StockId};
use crate::units::{Cents, Currency};

/// The style that comes with the program.
const BUILT_IN: &str = include_str!("../../assets/style.ron");

/// A lighter one for weddings.
const LINDEN: &str = include_str!("../../assets/style-linden.ron");

/// The style that comes with the program, for the built-in list.
pub fn built_in_style() -> HouseStyle {
    // A test proves that it reads; should it ever not, a style without sizes leaves a program that still opens.
    style_from_text(BUILT_IN, "style.ron", &bare(), &super::built_in_stock()).unwrap_or_else(|_| bare())
}

/// All styles that come with the program, the house style first.
pub fn built_in_styles() -> Vec<HouseStyle> {
    let house = built_in_style();
    let linden = style_from_text(LINDEN, "style-linden.ron", &house, &super::built_in_stock());
    [Some(house), linden.ok()].into_iter().flatten().collect()
}

/// `base`, changed by what `text` says. Names are looked up in `stock`; `name` is what the file is called in a refusal.
pub fn style_from_text(text: &str, name: &str, base: &HouseStyle, stock: &Stock) -> Result<HouseStyle, StoreError> {
    let file: StyleFile = parse(text, name)?;
    let mut style = base.clone();
    file.change(&mut style, stock);
    match fault(&style, stock) {
        Some((field, value, cause)) => Err(StoreError::at(name, line_with(text, field, &value), cause)),
        None => Ok(style),
    }
}

/// The style as a file holds it, whole.
pub fn style_to_text(style: &HouseStyle) -> String {
    super::writing::pretty(&StyleFile::of(style), 3)
}

/// Saves the style in this file: completely, or the last version stays. `stamp` is as for an order.
pub fn save_style(
    path: &Path,
    style: &HouseStyle,
    stock: &Stock,
    stamp: Option<&FileStamp>,
) -> Result<FileStamp, StoreError> {
    let text = style_to_text(style);
    let name = name_of(path);
    let refuse = |why: String| Err(StoreError::new(&name, Cause::NotTheSame(why)));
    match style_from_text(&text, &name, &bare(), stock) {
        Ok(back) if back == *style => save(&RealDisk, path, text.as_bytes(), stamp),
        Ok(_) => refuse("a figure would be lost".to_owned()),
        Err(refusal) => refuse(refusal.why()),
    }
}

/// A style that asks nothing and offers nothing.
fn bare() -> HouseStyle {
    HouseStyle {
        name: "House".to_owned(),
        shape: ShapeRules {
            width_of_girth: 0.4,
            length_to_width: [1.4, 2.2],
            height_mm: 45.0,
            room_mm: 9.0,
            fullness: [0.6, 1.05],
            hidden_share: 0.4,
            protrusion_mm: 12.0,
            mass_g: 60.0,
            uneven_from: 1.25,
        },
        weights: BTreeMap::new(),
        sizes: Vec::new(),
        minutes: MakingMinutes { wrist_base: 0.0, lapel_base: 0.0, bow: 0.0, each: BTreeMap::new() },
        prices: PriceRule {
            fresh_times: 1.0,
            hard_times: 1.0,
            making: Making::ByMinute(0.0),
            round_up_to: Cents(1),
            currency: Currency::before("$"),
            tax: None,
            deposit: USUAL_DEPOSIT,
            rush: USUAL_RUSH,
            holds_days: USUAL_HOLDS_DAYS,
        },
        wrist_sundries: Vec::new(),
        lapel_sundries: Vec::new(),
        spare: 0.0,
    }
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct StyleFile {
    version: u64,
    name: Option<Text>,
    shape: Option<ShapeLine>,
    weights: Option<WeightsLine>,
    minutes: Option<MinutesLine>,
    prices: Option<PricesLine>,
    spare: Option<Share>,
    wrist_sundries: Option<Vec<Text>>,
    lapel_sundries: Option<Vec<Text>>,
    sizes: Option<Vec<SizeLine>>,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct ShapeLine {
    width_of_girth: Option<Share>,
    length_to_width: Option<(Share, Share)>,
    height: Option<Size>,
    room: Option<Size>,
    fullness: Option<(Share, Share)>,
    hidden_share: Option<Share>,
    protrusion: Option<Size>,
    mass_g: Option<Amount>,
    uneven_from: Option<Share>,
}

/// A line with a weight for every question, under the question's own name.
macro_rules! weights_line {
    ($($id:ident $variant:ident $observed:ident $title:literal $asks:literal;)+) => {
        #[derive(Deserialize, Serialize)]
        #[serde(deny_unknown_fields)]
        struct WeightsLine {
            $(#[serde(skip_serializing_if = "Option::is_none")] $id: Option<Amount>,)+
        }

        impl WeightsLine {
            fn given(&self) -> [(Question, Option<Amount>); Question::ALL.len()] {
                [$((Question::$variant, self.$id)),+]
            }

            fn of(style: &HouseStyle) -> Self {
                let weight = |q: Question| style.weights.get(&q).map(|&w| Amount::new(w));
                Self { $($id: weight(Question::$variant)),+ }
            }
        }
    };
}

for_each_question!(weights_line);

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct MinutesLine {
    wrist_base: Option<Amount>,
    lapel_base: Option<Amount>,
    bow: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    bloom: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    accent: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    filler: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    leaf: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    trim: Option<Amount>,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct SizeLine {
    name: Text,
    #[serde(default = "on_the_wrist")]
    worn: Keyword<Worn>,
    oval: SizeOvalLine,
    #[serde(skip_serializing_if = "Option::is_none")]
    bow: Option<BowLine>,
    #[serde(default)]
    holds: Vec<PlannedLine>,
}

fn on_the_wrist() -> Keyword<Worn> {
    Keyword(Worn::Wrist)
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct SizeOvalLine {
    length: Size,
    width: Size,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct PlannedLine {
    stock: Text,
    colour: Option<Text>,
    count: Count,
}

impl Versioned for StyleFile {
    const KIND: &'static str = "style";
}

impl StyleFile {
    fn change(&self, style: &mut HouseStyle, stock: &Stock) {
        if let Some(name) = &self.name {
            style.name.clone_from(&name.0);
        }
        if let Some(shape) = &self.shape {
            shape.change(&mut style.shape);
        }
        if let Some(weights) = &self.weights {
            style.weights = weights.given().into_iter().filter_map(|(q, w)| Some((q, w?.0))).collect();
        }
        if let Some(minutes) = &self.minutes {
            minutes.change(&mut style.minutes);
        }
        if let Some(prices) = &self.prices {
            prices.change(&mut style.prices);
        }
        let ids = |list: &Vec<Text>| list.iter().map(|id| StockId::new(&id.0)).collect();
        style.spare = self.spare.map_or(style.spare, |s| s.0);
        style.wrist_sundries = self.wrist_sundries.as_ref().map_or_else(|| style.wrist_sundries.clone(), ids);
        style.lapel_sundries = self.lapel_sundries.as_ref().map_or_else(|| style.lapel_sundries.clone(), ids);
        if let Some(sizes) = &self.sizes {
            style.sizes = sizes.iter().map(|s| s.size(stock)).collect();
        }
    }

    fn of(style: &HouseStyle) -> Self {
        let texts = |ids: &[StockId]| Some(ids.iter().map(|id| Text(id.to_string())).collect());
        Self {
            version: Self::NEWEST,
            name: Some(Text(style.name.clone())),
            shape: Some(ShapeLine::of(&style.shape)),
            weights: Some(WeightsLine::of(style)),
            minutes: Some(MinutesLine::of(&style.minutes)),
            prices: Some(PricesLine::of(&style.prices)),
            spare: Some(Share::new(style.spare)),
            wrist_sundries: texts(&style.wrist_sundries),
            lapel_sundries: texts(&style.lapel_sundries),
            sizes: Some(style.sizes.iter().map(SizeLine::of).collect()),
        }
    }
}

impl ShapeLine {
    fn change(&self, shape: &mut ShapeRules) {
        let pair = |p: Option<(Share, Share)>, old: [f64; 2]| p.map_or(old, |(from, to)| [from.0, to.0]);
        shape.width_of_girth = self.width_of_girth.map_or(shape.width_of_girth, |s| s.0);
        shape.length_to_width = pair(self.length_to_width, shape.length_to_width);
        shape.height_mm = self.height.map_or(shape.height_mm, |s| s.0);
        shape.room_mm = self.room.map_or(shape.room_mm, |s| s.0);
        shape.fullness = pair(self.fullness, shape.fullness);
        shape.hidden_share = self.hidden_share.map_or(shape.hidden_share, |s| s.0);
        shape.protrusion_mm = self.protrusion.map_or(shape.protrusion_mm, |s| s.0);
        shape.mass_g = self.mass_g.map_or(shape.mass_g, |s| s.0);
        shape.uneven_from = self.uneven_from.map_or(shape.uneven_from, |s| s.0);
    }

    fn of(shape: &ShapeRules) -> Self {
        let pair = |[from, to]: [f64; 2]| Some((Share::new(from), Share::new(to)));
        Self {
            width_of_girth: Some(Share::new(shape.width_of_girth)),
            length_to_width: pair(shape.length_to_width),
            height: Some(Size::new(shape.height_mm)),
            room: Some(Size::new(shape.room_mm)),
            fullness: pair(shape.fullness),
            hidden_share: Some(Share::new(shape.hidden_share)),
            protrusion: Some(Size::new(shape.protrusion_mm)),
            mass_g: Some(Amount::new(shape.mass_g)),
            uneven_from: Some(Share::new(shape.uneven_from)),
        }
    }
}

impl MinutesLine {
    fn change(&self, minutes: &mut MakingMinutes) {
        minutes.wrist_base = self.wrist_base.map_or(minutes.wrist_base, |m| m.0);
        minutes.lapel_base = self.lapel_base.map_or(minutes.lapel_base, |m| m.0);
        minutes.bow = self.bow.map_or(minutes.bow, |m| m.0);
        let each = [
            (Role::Bloom, self.bloom),
            (Role::Accent, self.accent),
            (Role::Filler, self.filler),
            (Role::Leaf, self.leaf),
            (Role::Trim, self.trim),
        ];
        minutes.each.extend(each.into_iter().filter_map(|(role, m)| Some((role, m?.0))));
    }

    fn of(minutes: &MakingMinutes) -> Self {
        let each = |role: Role| minutes.each.get(&role).map(|&m| Amount::new(m));
        Self {
            wrist_base: Some(Amount::new(minutes.wrist_base)),
            lapel_base: Some(Amount::new(minutes.lapel_base)),
            bow: Some(Amount::new(minutes.bow)),
            bloom: each(Role::Bloom),
            accent: each(Role::Accent),
            filler: each(Role::Filler),
            leaf: each(Role::Leaf),
            trim: each(Role::Trim),
        }
    }
}

impl SizeLine {
    fn size(&self, stock: &Stock) -> PieceSize {
        PieceSize {
            name: self.name.0.clone(),
            worn: self.worn.0,
            length_mm: self.oval.length.0,
            width_mm: self.oval.width.0,
            holds: self.holds.iter().map(|p| p.planned(stock)).collect(),
            bow: self.bow.as_ref().map(|b| b.bow(stock)),
        }
    }

    fn of(size: &PieceSize) -> Self {
        Self {
            name: Text(size.name.clone()),
            worn: Keyword(size.worn),
            oval: SizeOvalLine { length: Size::new(size.length_mm), width: Size::new(size.width_mm) },
            bow: size.bow.as_ref().map(BowLine::of),
            holds: size.holds.iter().map(PlannedLine::of).collect(),
        }
    }
}

impl PlannedLine {
    fn planned(&self, stock: &Stock) -> Planned {
        let id = StockId::new(&self.stock.0);
        let first = || stock.botanical(&id).and_then(|b| b.colours.first()).map_or("", |c| c.name.as_str());
        let colour: Arc<str> = Arc::from(self.colour.as_ref().map_or_else(first, |c| c.0.as_str()));
        Planned { stock: id, colour, count: self.count.whole() }
    }

    fn of(planned: &Planned) -> Self {
        Self {
            stock: Text(planned.stock.to_string()),
            colour: Some(Text(planned.colour.to_string())),
            count: Count::new(f64::from(planned.count)),
        }
    }
}

/// What is wrong with a style: the field and the value by which its line is found, and the cause.
fn fault(style: &HouseStyle, stock: &Stock) -> Option<(&'static str, String, Cause)> {
    shape_fault(style).or_else(|| sizes_fault(style, stock)).or_else(|| sundries_fault(style, stock))
}

fn shape_fault(style: &HouseStyle) -> Option<(&'static str, String, Cause)> {
    let fault = |field, sentence: &str| Some((field, String::new(), Cause::Value(sentence.to_owned())));
    let shape = &style.shape;
    if shape.width_of_girth <= 0.0 {
        fault("width_of_girth", "the width is more than 0")
    } else if shape.length_to_width[0] > shape.length_to_width[1] {
        fault("length_to_width", "the limits are from, to, in that order")
    } else if shape.fullness[0] > shape.fullness[1] {
        fault("fullness", "the limits are from, to, in that order")
    } else if shape.uneven_from < 1.0 {
        fault("uneven_from", "the largest angle over the ideal one is at least 1")
    } else {
        price_lines::fault(&style.prices).and_then(|(field, sentence)| fault(field, sentence))
    }
}

fn sizes_fault(style: &HouseStyle, stock: &Stock) -> Option<(&'static str, String, Cause)> {
    for (i, size) in style.sizes.iter().enumerate() {
        let quoted = format!("\"{}\"", size.name);
        if style.sizes[..i].iter().any(|s| s.name == size.name) {
            return Some(("name", quoted, Cause::Twice { what: "name", name: size.name.clone() }));
        }
        if let Some(cause) = size.bow.as_ref().and_then(|b| super::bow_lines::fault(b, stock)) {
            return Some(("name", quoted, cause));
        }
        for planned in &size.holds {
            if let Some(cause) = super::bow_lines::flower_fault(&planned.stock, &planned.colour, stock) {
                return Some(("stock", format!("\"{}\"", planned.stock), cause));
            }
        }
    }
    None
}

fn sundries_fault(style: &HouseStyle, stock: &Stock) -> Option<(&'static str, String, Cause)> {
    let fields = [("wrist_sundries", &style.wrist_sundries), ("lapel_sundries", &style.lapel_sundries)];
    fields.into_iter().find_map(|(field, ids)| {
        let unknown = ids.iter().find(|id| stock.sundry(id).is_none())?;
        let near = super::nearest::nearest(unknown.as_str(), stock.sundries().iter().map(|s| s.id.as_str()));
        Some((field, String::new(), Cause::NotInStock { what: "sundry", found: unknown.to_string(), near }))
    })
}
