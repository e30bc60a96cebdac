//! The client's page: the picture, what is in it, the price, what to be careful of. No cost, no supplier, no mark.

use kurbo::{Point, Rect};

use super::column::{Column, RISE, whole_name};
use super::sheet::{Align, Document, HAIR, INK, SOFT};
use super::{Job, picture, words};
use crate::export::lettering::{Face, Run};
use crate::export::price_text;
use crate::paperwork::{BillLine, bill_of_materials, cautions_of};
use crate::stock::STANDING_LINE;

/// Sizes, mm; our choice.
const NAME_MM: f64 = 11.0;
const WORDS_MM: f64 = 4.6;
const SMALL_MM: f64 = 3.5;
/// Shares of the sheet that the picture may take: of its width, of its height.
const PICTURE_SHARES: (f64, f64) = (0.6, 0.66);
/// Room between picture and words.
const GUTTER_MM: f64 = 7.0;

/// The client's page of an order.
pub fn client_page(job: &Job<'_>) -> Document {
    let mut column = Column::new(words::title(words::CLIENT_PAGE, job.order), job.paper);
    head(&mut column, job);
    let inside = column.inside();
    let size = (inside.width() * PICTURE_SHARES.0, inside.height() * PICTURE_SHARES.1);
    let within = Rect::from_origin_size((inside.x0, column.y), size);
    let taken = picture::worn(column.sheet(), job, within);
    column.sheet().frame(taken, 0.3, HAIR);
    column.write_between(taken.x1 + GUTTER_MM, inside.x1);
    contents(&mut column, job);
    column.write_between(inside.x0, inside.x1);
    if column.n_sheets() == 1 {
        column.y = column.y.max(taken.y1 + GUTTER_MM);
    }
    cautions(&mut column, job);
    column.into_document()
}

/// Name and price on one line, the occasion and the shop below.
fn head(column: &mut Column, job: &Job<'_>) {
    let inside = column.inside();
    let y = column.y + NAME_MM * RISE;
    let mut wide = inside.width();
    if !job.stems.lines.is_empty() {
        let price = Run::new(&price_text(job.price.rounded, &job.style.prices.currency), Face::Title);
        let width = price.width_mm(NAME_MM);
        column.sheet().run(price, Point::new(inside.x1 - width, y), NAME_MM, INK);
        wide -= width + 6.0;
    }
    let within = Rect::from_origin_size((inside.x0, column.y), (wide, NAME_MM * 1.15));
    let name = words::wearer(job.order);
    let high = whole_name(column.sheet(), &name, Face::Title, NAME_MM, within);
    column.skip(high.max(NAME_MM * 1.15));
    let y = column.y + WORDS_MM * RISE;
    let shop = Run::cut(job.shop, Face::Text, WORDS_MM, inside.width() / 2.0);
    let wide = inside.width() - shop.width_mm(WORDS_MM) - 6.0;
    column.sheet().tinted(&shop.text, Face::Text, WORDS_MM, Point::new(inside.x1, y), Align::Right, SOFT);
    let occasion = Run::cut(&words::occasion(job.order), Face::Text, WORDS_MM, wide);
    column.sheet().run(occasion, Point::new(inside.x0, y), WORDS_MM, INK);
    column.skip(WORDS_MM * 1.7);
}

/// What is in it, in words: heads, greens, bow and band; nothing of glue and boxes.
fn contents(column: &mut Column, job: &Job<'_>) {
    column.heading(words::IN_IT, WORDS_MM * 1.1, WORDS_MM * 3.0);
    column.paragraph(&words::for_which(job.order), Face::Text, WORDS_MM, 0.0, INK);
    let bill = bill_of_materials(&job.order.piece, job.stems, job.stock);
    for line in bill.iter().filter(|line| line.role.is_some()) {
        flower(column, job, line);
    }
    let piece = &job.order.piece;
    let ribbon = piece.bow.as_ref().and_then(|bow| Some((bow, job.stock.ribbon(&bow.ribbon)?)));
    if let Some((bow, ribbon)) = ribbon {
        let rgb = ribbon.colour(&bow.colour).map(|c| c.rgb);
        spotted(column, rgb, &words::bow_for_client(bow, &ribbon.name));
    }
    if let Some(band) = piece.band.as_ref().and_then(|id| job.stock.band(id)) {
        spotted(column, Some(band.rgb), &words::band_for_client(&band.name));
    }
    if bill.iter().all(|line| line.role.is_none()) {
        column.paragraph(words::NOTHING_YET, Face::Text, WORDS_MM, 0.0, SOFT);
    }
    column.skip(2.0);
}

fn flower(column: &mut Column, job: &Job<'_>, line: &BillLine) {
    let keeps = job.stock.botanical(&line.stock).filter(|b| b.mass_g > 0.0).map(|b| b.keeps.word());
    let keeps = keeps.map_or_else(String::new, |word| format!(" \u{b7} {word}"));
    spotted(column, line.rgb, &format!("{} \u{d7} {}{keeps}", line.count, words::what(line)));
}

/// Words with a spot of colour before them.
fn spotted(column: &mut Column, rgb: Option<crate::colour::Rgb>, text: &str) {
    const INDENT_MM: f64 = 8.0;
    column.make_room(WORDS_MM * 1.3);
    if let Some(rgb) = rgb {
        let corner = Point::new(column.inside().x0, column.y + WORDS_MM * 0.25);
        column.sheet().swatch(Rect::from_origin_size(corner, (5.4, WORDS_MM * 0.8)), rgb);
    }
    column.paragraph(text, Face::Text, WORDS_MM, INDENT_MM, INK);
}

fn cautions(column: &mut Column, job: &Job<'_>) {
    column.heading(words::TO_BE_CAREFUL_OF, WORDS_MM, SMALL_MM * 4.0);
    for (caution, names) in cautions_of(job.stems, job.order, job.stock) {
        if let Some(sentence) = words::client_caution(caution) {
            column.paragraph(&words::caution(&names, sentence), Face::Text, SMALL_MM, 0.0, INK);
        }
    }
    column.paragraph(words::NEAR_FLAMES, Face::Text, SMALL_MM, 0.0, INK);
    column.paragraph(STANDING_LINE, Face::Text, SMALL_MM, 0.0, SOFT);
    column.paragraph(words::COLOURS_ON_PAPER, Face::Text, SMALL_MM, 0.0, SOFT);
}
