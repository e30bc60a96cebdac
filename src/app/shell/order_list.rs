//! The list of the shop's orders: reading it, changing an order of it, beginning a new one from it.

use std::path::PathBuf;
use std::sync::Arc;

use crate::app::action::{CopyFor, ListedStep, StepWay};
use crate::app::page_list::PageId;
use crate::app::shell::shop_files::change_order;
use crate::app::shell::window::Window;
use crate::app::typing::field::Field;
use crate::app::workers::paper_worker::paper_of;
use crate::book::Order;
use crate::command::Command;
use crate::export::pdf::{party_bill_paper, pdf_of};
use crate::paperwork::party_bill;
use crate::session::Session;
use crate::stock::Stock;
use crate::store::{Shop, read_order, write_bytes};

impl Window {
    /// Reads the orders of the shop for their page. The one that was open before is selected.
    pub(crate) fn list_orders(&mut self) {
        self.pages.Orders.n_left = self.autosave.left.len();
        let shop = self.shop.clone();
        self.with_files_of_window(
            move |desk| {
                desk.index.refresh(&shop);
                (Arc::new(desk.index.rows().cloned().collect()), desk.index.repeated_numbers())
            },
            |w, _, (rows, repeated)| w.pages.Orders.take_rows(rows, repeated),
        );
    }

    /// Changes an order of the list in its file; the open one as it is open, so that it can be undone there too.
    pub(crate) fn change_listed(&mut self, step: ListedStep, way: StepWay) {
        let change = if way == StepWay::Back { step.back.clone() } else { step.change.clone() };
        if self.session.path() == Some(&step.path) {
            return self.change_open(&Command::Change(change), step, way);
        }
        let shop = self.shop.clone();
        let path = step.path.clone();
        self.with_files_of_window(
            move |_| change_order(&path, &change, &shop),
            move |w, _, done| {
                match done {
                    Ok(()) => w.pages.Orders.changed(step, way),
                    Err(why) => w.say(&why),
                }
                w.list_orders();
            },
        );
    }

    /// The open order is saved with the change when nothing else of it waits to be saved.
    fn change_open(&mut self, command: &Command, step: ListedStep, way: StepWay) {
        let was_saved = self.session.is_saved();
        if !self.run_command(command) {
            return;
        }
        self.pages.Orders.changed(step, way);
        if was_saved {
            self.save_then(|w, _, _| w.list_orders());
        } else {
            self.say("Changed in the open order, which is not saved yet.");
        }
    }

    /// Makes one bill for the orders of a party, as they are saved.
    pub(crate) fn bill_party(&mut self, party: String, files: Vec<PathBuf>) {
        let shop = self.shop.clone();
        self.with_files_of_window(
            move |_| write_party_bill(&party, &files, &shop),
            |w, _, made| match made {
                Ok(path) => w.say_done(format!("Bill saved: {}", path.display())),
                Err(why) => w.say(&why),
            },
        );
    }

    /// Begins a new order from a saved one. It has no file of its own before it is saved.
    pub(crate) fn copy_listed(&mut self, path: PathBuf, who: CopyFor) {
        let (stock, style) = (Arc::clone(self.shop.stock()), Arc::clone(self.shop.style()));
        self.with_files(
            move |_| read_order(&path, &stock).map(|read| (copy(&read.order, who, &stock), stock)),
            move |w, ctx, made| match made {
                Ok((order, stock)) => {
                    w.replace_session(Session::unsaved(order, None, stock, style), &[]);
                    w.show_page(ctx, PageId::Order);
                    if who == CopyFor::AnotherWearer {
                        w.typing.focus = Some(Field::Wearer);
                    }
                    w.say_done("A new order, not saved yet");
                }
                Err(refusal) => w.say(&refusal.to_string()),
            },
        );
    }
}

/// Where the bill is, or why there is none, as a sentence. An order that cannot be read leaves no bill that is short of it.
fn write_party_bill(party: &str, files: &[PathBuf], shop: &Shop) -> Result<PathBuf, String> {
    let read = files.iter().map(|file| read_order(file, shop.stock()));
    let orders: Vec<Order> =
        read.map(|read| read.map(|saved| saved.order)).collect::<Result<_, _>>().map_err(|why| why.to_string())?;
    let bill = party_bill(party, &orders.iter().collect::<Vec<_>>(), shop.style(), shop.stock());
    let paper = party_bill_paper(&bill, shop.letterhead(), paper_of(&bill.currency.sign));
    let pdf = pdf_of(&paper).map_err(|why| why.to_string())?;
    let path = shop.party_bill_file(party).map_err(|why| why.to_string())?;
    write_bytes(&path, &pdf).map(|()| path).map_err(|why| why.to_string())
}

fn copy(order: &Order, who: CopyFor, stock: &Stock) -> Order {
    match who {
        CopyFor::SameWearer => order.again(),
        CopyFor::AnotherWearer => order.for_another(stock),
    }
}
