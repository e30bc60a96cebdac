//! The quote slip out of the window: made into the shop's folder to be printed and sent, with its day kept in the order, so
//! that "holds until" is still true when the client comes back.

use std::path::PathBuf;

use super::counter_words::Mine;
use super::papers::paper_of;
use super::today::today;
use super::window::Window;
use crate::book::{Change, Day, Order};
use crate::export::pdf::{Job, pdf_of, pngs_of, quote_slip};
use crate::paperwork::{stem_list, worked_price};
use crate::store;

/// Pixels to the inch of the slip as a picture: fine enough for a phone; our choice.
const SLIP_DPI: u32 = 150;

impl Window {
    /// Makes the slip as PDF and PNG and keeps the order with the day of it. The day counts only when the slip was made.
    pub(super) fn make_quote_slip(&mut self) {
        self.leave_taps();
        self.take_what_is_typed();
        self.session.end_run();
        let Some(day) = today(self.pricing.days_off) else {
            self.say(Mine::NO_DAY);
            return;
        };
        match self.slip_of(day) {
            Err(why) => self.say(&why),
            Ok(path) => {
                self.change(&Change::QuotedOn(Some(day)));
                if self.keep() {
                    let name = path.file_name().unwrap_or_default().to_string_lossy();
                    self.tell_done(Mine::slip_made(&name));
                }
            }
        }
    }

    /// Writes the slip of the order as told on this day; where its PDF is, or why there is none, as a sentence.
    fn slip_of(&self, day: Day) -> Result<PathBuf, String> {
        let (stock, style) = (self.session.stock(), self.session.style());
        let told = self.session.order().apply(&Change::QuotedOn(Some(day)), stock);
        let order: &Order = &told.map_err(|refusal| refusal.to_string())?;
        let size = order.size.as_ref().and_then(|name| style.size(name));
        let stems = &stem_list(&order.piece, size, stock, style);
        let price = &worked_price(stems.fresh_cents, stems.hard_cents, stems.minutes, &style.prices);
        let paper = paper_of(&style.prices.currency);
        let slip = quote_slip(&Job { shop: self.shop.name(), order, stock, style, stems, price, paper });
        let pdf = self.shop.new_slip_file(order).map_err(|refusal| refusal.to_string())?;
        let mut files = vec![(pdf.clone(), pdf_of(&slip)?)];
        files.extend(pngs_of(&slip, SLIP_DPI).into_iter().take(1).map(|png| (pdf.with_extension("png"), png)));
        for (path, bytes) in files {
            store::write_bytes(&path, &bytes).map_err(|refusal| refusal.to_string())?;
        }
        Ok(pdf)
    }
}
