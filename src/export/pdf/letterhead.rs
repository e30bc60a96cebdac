//! The letterhead of a client's paper: the shop's sign and name at the left, how it is reached at the right.

use kurbo::{Point, Rect};

use super::column::{Column, LEADING, RISE, whole_name};
use super::for_client::SMALL_MM;
use super::sheet::{HAIR, PaperSize, SOFT};
use super::sheet_png::top_of;
use super::words;
use crate::book::Letterhead;
use crate::export::lettering::{Face, Run, wrapped};
use crate::export::pixels::Pixels;

/// Sizes, mm; our choice.
const NAME_MM: f64 = 7.0;
/// The most that a logo takes: wide, high.
const LOGO_MM: (f64, f64) = (42.0, 18.0);
/// Room below the hairline.
const BELOW_MM: f64 = 4.0;
/// The share of the sheet's width that the details may take.
const DETAILS_WIDE: f64 = 0.48;
/// More lines of details than these are cut: a letterhead is no page.
const MOST_LINES: usize = 7;

/// White above the letterhead where it is shown alone, mm.
const SAMPLE_TOP_MM: f64 = 4.0;

/// The letterhead alone, as it stands at the top of a paper: a strip of that paper so many pixels wide, with less white above.
pub fn letterhead_sample(shop: &Letterhead, paper: PaperSize, width_px: u32) -> Pixels {
    let mut column = Column::new(String::new(), paper);
    column.y = SAMPLE_TOP_MM;
    letterhead(&mut column, shop);
    let high_mm = column.y;
    top_of(&column.into_document(), high_mm, f64::from(width_px.max(1)) / paper.size_mm().0)
}

/// Writes the letterhead from where the column stands, and leaves the column below it.
pub(super) fn letterhead(column: &mut Column, shop: &Letterhead) {
    let (inside, top) = (column.inside(), column.y);
    let details = detail_lines(shop, inside.width() * DETAILS_WIDE);
    let high = details.len() as f64 * SMALL_MM * LEADING;
    for (i, run) in details.into_iter().enumerate() {
        let x = inside.x1 - run.width_mm(SMALL_MM);
        let y = top + SMALL_MM * (RISE + i as f64 * LEADING);
        column.sheet().run(run, Point::new(x, y), SMALL_MM, SOFT);
    }
    let mut wide = inside.width() * if high > 0.0 { 1.0 - DETAILS_WIDE } else { 1.0 } - 4.0;
    let (mut left, mut logo_high) = (inside.x0, 0.0);
    if let Some(logo) = &shop.logo {
        let (width, height) = logo.fitted(LOGO_MM.0.min(wide / 2.0), LOGO_MM.1);
        column.sheet().logo(logo, Rect::from_origin_size((left, top), (width, height)));
        (left, wide, logo_high) = (left + width + 4.0, wide - width - 4.0, height);
    }
    let within = Rect::from_origin_size((left, top), (wide, NAME_MM * 2.2));
    let taken = whole_name(column.sheet(), shop.or_your_shop(), Face::Title, NAME_MM, within);
    column.skip(taken.max(high).max(logo_high) + 1.5);
    let y = column.y;
    column.sheet().rule(Point::new(inside.x0, y), Point::new(inside.x1, y), 0.3, HAIR);
    column.skip(BELOW_MM);
}

/// Address, telephone and the rest, cut into lines of at most this width, mm.
fn detail_lines(shop: &Letterhead, wide: f64) -> Vec<Run> {
    let mut lines: Vec<Run> = details(shop, wide).iter().flat_map(|d| wrapped(d, Face::Text, SMALL_MM, wide)).collect();
    lines.truncate(MOST_LINES);
    lines
}

fn details(shop: &Letterhead, wide: f64) -> Vec<String> {
    let tax_number = shop.tax_number.trim();
    let tax_number = (!tax_number.is_empty()).then(|| words::tax_number(tax_number));
    let hours = shop.hours.iter().map(|line| line.trim().to_owned());
    let known = std::iter::once(shop.address_line()).chain(contact_lines(&shop.contacts(), wide));
    known.chain(tax_number).chain(hours).filter(|line| !line.is_empty()).collect()
}

/// Contacts beside each other, as many as a line takes.
fn contact_lines(contacts: &[&str], wide: f64) -> Vec<String> {
    let fits = |line: &String| Run::new(line, Face::Text).width_mm(SMALL_MM) <= wide;
    let mut lines: Vec<String> = Vec::new();
    for contact in contacts {
        let joined = lines.last().map(|line| format!("{line} \u{b7} {contact}")).filter(fits);
        match (joined, lines.last_mut()) {
            (Some(joined), Some(last)) => *last = joined,
            _ => lines.push((*contact).to_owned()),
        }
    }
    lines
}
