//! What the window does for the stock page: the list in force, its file, and what orders hold of it.

use std::path::PathBuf;
use std::sync::Arc;

use crate::app::action::{Action, Notice, StockRequest, StockStep};
use crate::app::page_list::PageId;
use crate::app::shell::file_dialogs::FileQuestion;
use crate::app::shell::window::Window;
use crate::app::widgets::words::Mine;
use crate::export::stock_csv;
use crate::stock::{Lost, OwnStock, Stock, StockItem};
use crate::store::{Cause, holds_any, order_to_text, read_price_list, style_to_text, write_bytes};

impl Window {
    pub(crate) fn run_of_stock(&mut self, ctx: &egui::Context, request: StockRequest) {
        match request {
            StockRequest::Changed => self.show_new_stock(),
            StockRequest::Save(own, base) => self.save_stock(own, base),
            StockRequest::Merge(base) => self.merge_stock(base),
            StockRequest::AskForPrices => {
                let dialog = rfd::AsyncFileDialog::new().set_title("A supplier\u{2019}s price list");
                let answer = dialog.add_filter("CSV", &["csv", "tsv", "txt"]).pick_file();
                self.file_dialogs.ask(FileQuestion::PriceList, answer, ctx);
            }
            StockRequest::ReadPrices(path) => self.read_prices(path),
            StockRequest::AskWhereToExport => {
                let dialog = rfd::AsyncFileDialog::new().set_title("Save the list").add_filter("CSV", &["csv"]);
                let answer = dialog.set_file_name("stock.csv").save_file();
                self.file_dialogs.ask(FileQuestion::StockTo, answer, ctx);
            }
            StockRequest::Export(path) => self.export_stock(path),
            StockRequest::TakeUnlessHeld(step, lost) => self.take_unless_held(*step, lost),
        }
    }

    /// What was drawn or worked out with the list before is drawn and worked out anew.
    fn show_new_stock(&mut self) {
        self.images.forget();
        self.images.heads.get_mut().forget();
        self.pages.rules_changed();
        self.sheet.layouts = None;
    }

    fn save_stock(&mut self, own: Arc<OwnStock>, base: Arc<Stock>) {
        let list = match self.shop.stock_to_save((*own).clone(), Arc::clone(&base)) {
            Ok(list) => list,
            Err(refusal) => return self.say(&Mine::not_on_disk(&refusal.to_string())),
        };
        self.with_files_of_window(
            move |desk| desk.save_stock(list),
            move |w, _, saved| match saved {
                Ok((on_disk, copy)) => {
                    w.shop.stock_was_saved(on_disk);
                    w.pages.Stock.was_saved(own);
                    if let Some(copy) = copy {
                        w.say_done(format!("The list as it was is in {copy}"));
                    }
                }
                Err(refusal) if refusal.cause == Cause::Changed => {
                    let offer = Some(("Merge both".to_owned(), Box::new(Action::Stock(StockRequest::Merge(base)))));
                    w.notice = Some(Notice::Card { words: Mine::STOCK_CHANGED.to_owned(), offer });
                }
                Err(refusal) => w.say(&Mine::not_on_disk(&refusal.to_string())),
            },
        );
    }

    /// Takes in what another program wrote, line by line, and saves what was changed here over it.
    fn merge_stock(&mut self, base: Arc<Stock>) {
        let shop = self.shop.clone();
        self.with_files_of_window(
            move |desk| desk.read_stock_again(&shop, &base).map(|(stock, on_disk)| (stock, on_disk, base)),
            |w, ctx, read| match read {
                Ok((stock, on_disk, base)) => {
                    w.shop.stock_was_saved(on_disk);
                    let theirs = OwnStock::between(&base, &stock);
                    let mut todo: Vec<Action> = Vec::new();
                    w.with_inputs(ctx, |lent, inputs| lent.pages.Stock.merge(theirs, inputs, &mut todo));
                    for action in todo {
                        w.run(ctx, action);
                    }
                }
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    /// Reads a supplier's list and shows it on the stock page.
    fn read_prices(&mut self, path: PathBuf) {
        self.with_files_of_window(
            move |_| {
                let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
                read_price_list(&path).map(|table| (name, table))
            },
            |w, ctx, read| match read {
                Ok((name, table)) => {
                    w.show_page(ctx, PageId::Stock);
                    w.with_inputs(ctx, |lent, inputs| lent.pages.Stock.look_at_prices(name, table, inputs));
                }
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    fn export_stock(&mut self, path: PathBuf) {
        let stock = Arc::clone(self.session.stock());
        let path = if path.extension().is_some() { path } else { path.with_extension("csv") };
        self.with_files_of_window(
            move |_| {
                let items: Vec<StockItem> = stock.items().collect();
                write_bytes(&path, stock_csv(&items).as_bytes()).map(|()| path)
            },
            |w, _, written| match written {
                Ok(path) => w.say_done(format!("List saved: {}", path.display())),
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }

    /// Nothing that an order or a style holds is taken off the list: it could not be opened any more.
    fn take_unless_held(&mut self, step: StockStep, lost: Vec<Lost>) {
        let open = [order_to_text(self.session.order()), style_to_text(self.session.style())];
        let is_open = open.iter().any(|text| holds_any(text, &lost));
        let shop = self.shop.clone();
        self.with_files_of_window(
            move |_| (usize::from(is_open) + shop.holders_of(&lost), lost),
            move |w, ctx, (n, lost)| {
                if let Some(what) = lost.first().filter(|_| n > 0) {
                    return w.notice = Some(Notice::card(Mine::still_held(what)));
                }
                let mut todo: Vec<Action> = Vec::new();
                w.with_inputs(ctx, |lent, inputs| lent.pages.Stock.take_now(step, inputs, &mut todo));
                for action in todo {
                    w.run(ctx, action);
                }
            },
        );
    }
}
