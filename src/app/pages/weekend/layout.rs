//! How the weekend stands on its page: the occasions in a row, below them three columns: pieces and calls, the bench, the
//! market.

use egui::{Color32, RichText, ScrollArea, Ui, vec2};

use super::{WeekendAction, WeekendPage};
use crate::app::context::{Context, Requests};
use crate::app::parts::page_head::{head_ui, shortened};
use crate::app::view::ShopView;
use crate::app::widgets::controls::{Weight, button};
use crate::app::widgets::theme::{GRID, ROUND, strong, title, words};
use crate::app::workers::weekend_worker::{WeekendSeen, title_of};
use crate::export::{no_plan_words, price_text, stage_word};
use crate::paperwork::{BenchDay, Makers, MarketList, PieceCount, Stage, Weekend};
use crate::units::{Cents, counted, minutes_text};

/// Letters of an occasion's name on its button.
const NAME_LETTERS: usize = 28;
/// So many calls are named; the rest is counted.
const MOST_CALLS: usize = 40;

pub(super) fn page_ui(
    ui: &mut Ui,
    cx: &Context<'_>,
    shop: &ShopView,
    page: &WeekendPage,
    requests: &mut Requests<WeekendAction>,
) {
    let seen = page.seen.as_ref().map(|seen| seen.get(shop).as_ref());
    head_ui(ui, cx, "Weekend", &line(cx, page, seen), &mut requests.shared);
    let Some(seen) = seen else { return };
    occasions_ui(ui, cx, page, seen, requests);
    ui.add_space(GRID);
    let Some(day) = &seen.day else { return };
    ui.columns_const(|[pieces, bench, market]| {
        in_column(pieces, cx, "pieces", |ui| pieces_ui(ui, cx, &seen.weekend));
        in_column(bench, cx, "bench", |ui| bench_ui(ui, cx, page, &seen.weekend, day, requests));
        in_column(market, cx, "market", |ui| market_ui(ui, cx, seen));
    });
}

/// A column on a card of its own, its rows as close as they can be read.
fn in_column(ui: &mut Ui, cx: &Context<'_>, name: &str, add: impl FnOnce(&mut Ui)) {
    let card = egui::Frame::new().fill(cx.colours.card).corner_radius(ROUND).inner_margin(12.0);
    card.show(ui, |ui| {
        ScrollArea::vertical().id_salt(name).auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing = vec2(6.0, 5.0);
            ui.spacing_mut().interact_size.y = 0.0;
            add(ui);
        });
    });
}

fn line(cx: &Context<'_>, page: &WeekendPage, seen: Option<&WeekendSeen>) -> String {
    if !page.said.is_empty() {
        return page.said.clone();
    }
    let Some(seen) = seen else { return "Reading the orders\u{2026}".to_owned() };
    match &seen.chosen {
        None => "No order names an event or a party yet.".to_owned(),
        Some(chosen) => {
            let unread = if seen.n_unread == 0 { String::new() } else { format!(", {} cannot be read", seen.n_unread) };
            let n = counted(seen.n_orders, "order", "orders");
            format!("{}: {n}{unread}", title_of(chosen, cx.written))
        }
    }
}

/// The occasions, and what makes the papers of the one that is looked at.
fn occasions_ui(
    ui: &mut Ui,
    cx: &Context<'_>,
    page: &WeekendPage,
    seen: &WeekendSeen,
    requests: &mut Requests<WeekendAction>,
) {
    let c = &cx.colours;
    ScrollArea::horizontal().id_salt("occasions").auto_shrink([false, true]).show(ui, |ui| {
        ui.horizontal(|ui| {
            if seen.chosen.is_some() && !page.is_busy() {
                let tip = "Labels, market list and bench day, into the shop\u{2019}s papers";
                if button(ui, c, "Make its papers", Weight::Main).on_hover_text(tip).clicked() {
                    requests.own.push(WeekendAction::MakePapers);
                }
            }
            for occasion in &seen.occasions {
                let is_chosen = seen.chosen.as_ref() == Some(occasion);
                let weight = if is_chosen { Weight::Chosen } else { Weight::Plain };
                let name = shortened(occasion.name(), NAME_LETTERS);
                let tip = title_of(occasion, cx.written);
                if button(ui, c, &name, weight).on_hover_text(tip).clicked() && !is_chosen {
                    requests.own.push(WeekendAction::Choose(occasion.id().to_owned()));
                }
            }
        });
    });
}

fn pieces_ui(ui: &mut Ui, cx: &Context<'_>, weekend: &Weekend) {
    let c = &cx.colours;
    heading(ui, cx, "Pieces");
    for of in &weekend.pieces {
        row(ui, cx, &piece_words(of, "no size yet"), &of.count.to_string(), c.ink);
    }
    for of in &weekend.boutonnieres {
        row(ui, cx, &piece_words(of, "Boutonniere"), &of.count.to_string(), c.ink);
    }
    heading(ui, cx, "Money");
    let money = |sum: Cents| price_text(sum, &cx.client.currency);
    row(ui, cx, "Orders come to", &money(weekend.price), c.ink);
    row(ui, cx, "Paid", &money(weekend.paid), c.ink);
    row(ui, cx, "Still to come in", &money(weekend.due()), c.rose);
    let n = weekend.calls.len();
    heading(ui, cx, &if n == 0 { "Nobody to call".to_owned() } else { format!("To call: {n}") });
    for call in weekend.calls.iter().take(MOST_CALLS) {
        say(ui, &call.title, c.ink);
        say(ui, &format!("needs {}", call.needs()), c.rose);
    }
    if n > MOST_CALLS {
        say(ui, &format!("and {} more", n - MOST_CALLS), c.soft);
    }
}

fn piece_words(of: &PieceCount, unnamed: &str) -> String {
    let size = if of.size.is_empty() { unnamed } else { &of.size };
    if of.colour.is_empty() { size.to_owned() } else { format!("{size}, {}", of.colour) }
}

fn bench_ui(
    ui: &mut Ui,
    cx: &Context<'_>,
    page: &WeekendPage,
    weekend: &Weekend,
    day: &BenchDay,
    requests: &mut Requests<WeekendAction>,
) {
    let c = &cx.colours;
    let minutes = |n: u32| minutes_text(f64::from(n));
    heading(ui, cx, "Bench day");
    makers_ui(ui, cx, page.makers, requests);
    row(ui, cx, "Promised", &minutes(day.promised), c.ink);
    if day.ahead > 0 {
        row(ui, cx, "Bows, on a day before", &minutes(day.ahead), c.ink);
    }
    row(ui, cx, "There are", &minutes(day.available), c.ink);
    if day.short() > 0 {
        row(ui, cx, "Short", &minutes(day.short()), c.rose);
    } else {
        row(ui, cx, "Free", &minutes(day.free()), c.leaf);
    }
    if let Err(why) = &day.plan {
        say(ui, &no_plan_words(why), c.rose);
    }
    heading(ui, cx, "Can be made days ahead");
    for sum in day.stages.iter().filter(|sum| sum.can_move()) {
        row(ui, cx, &stage_name(sum.stage), &format!("{} in {}", sum.count, minutes(sum.minutes)), c.ink);
    }
    heading(ui, cx, "On the day");
    for sum in day.stages.iter().filter(|sum| !sum.can_move()) {
        row(ui, cx, &stage_name(sum.stage), &format!("{} in {}", sum.count, minutes(sum.minutes)), c.ink);
    }
    heading(ui, cx, "One more");
    for (size, takes) in &weekend.one_more {
        let over = (day.on_the_day() + takes).saturating_sub(day.available);
        let (told, ink) = match over {
            0 => (format!("{}: fits", minutes(*takes)), c.leaf),
            over => (format!("{}: over by {}", minutes(*takes), minutes(over)), c.rose),
        };
        row(ui, cx, size, &told, ink);
    }
}

/// The word for a stage at the head of its row.
fn stage_name(stage: Stage) -> String {
    let mut letters = stage_word(stage).chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// One maker more or fewer, an hour more or fewer, bows before or not.
fn makers_ui(ui: &mut Ui, cx: &Context<'_>, makers: Makers, requests: &mut Requests<WeekendAction>) {
    /// Longest day, minutes; our choice.
    const LONGEST: u32 = 14 * 60;
    let c = &cx.colours;
    let mut changed = makers;
    ui.horizontal_wrapped(|ui| {
        if button(ui, c, "Fewer makers", Weight::Plain).clicked() {
            changed.count = makers.count.saturating_sub(1);
        }
        if button(ui, c, "More makers", Weight::Plain).clicked() {
            changed.count = makers.count + 1;
        }
        if button(ui, c, "Shorter day", Weight::Plain).clicked() {
            changed.minutes_each = makers.minutes_each.saturating_sub(60).max(60);
        }
        if button(ui, c, "Longer day", Weight::Plain).clicked() {
            changed.minutes_each = (makers.minutes_each + 60).min(LONGEST);
        }
        let bows = if makers.bows_ahead { Weight::Chosen } else { Weight::Plain };
        if button(ui, c, "Bows ahead", bows).clicked() {
            changed.bows_ahead = !makers.bows_ahead;
        }
    });
    let who = counted(makers.count as usize, "maker", "makers");
    let each = minutes_text(f64::from(makers.minutes_each));
    row(ui, cx, "At the bench", &format!("{who}, {each} each"), c.ink);
    if changed != makers {
        requests.own.push(WeekendAction::Makers(changed));
    }
}

fn market_ui(ui: &mut Ui, cx: &Context<'_>, seen: &WeekendSeen) {
    let c = &cx.colours;
    heading(ui, cx, "Market list");
    match &seen.market {
        None => {}
        Some(Err(why)) => say(ui, why, c.rose),
        Some(Ok(list)) => list_ui(ui, cx, list),
    }
}

fn list_ui(ui: &mut Ui, cx: &Context<'_>, list: &MarketList) {
    let c = &cx.colours;
    let money = |sum: Cents| price_text(sum, &cx.client.currency);
    for to in &list.suppliers {
        let name = if to.name.is_empty() { "No supplier named" } else { &to.name };
        row_of(ui, cx, name, &money(to.packs_cost + to.delivery), c.ink, true);
        if let Some(day) = to.order_by {
            let is_past = cx.today.is_some_and(|today| day < today);
            let told = day.with_weekday(cx.written.date);
            let (told, ink) = if is_past {
                (format!("too late: order by {told}"), c.rose)
            } else {
                (format!("order by {told}"), c.soft)
            };
            say(ui, &told, ink);
        }
        let mine = list.lines.iter().flat_map(|line| line.buys.iter().map(move |buy| (line, buy)));
        for (line, buy) in mine.filter(|(_, buy)| buy.supplier == to.name) {
            let packs = counted(buy.packs as usize, "bunch", "bunches");
            let told = format!("{packs}, {} left over", counted(line.leftover_heads as usize, "head", "heads"));
            row(ui, cx, &format!("{}, {}", line.name, line.colour), &told, c.ink);
        }
    }
    heading(ui, cx, "It comes to");
    row(ui, cx, "Flowers and greens", &money(list.flowers), c.ink);
    if list.deliveries != Cents(0) {
        row(ui, cx, "Deliveries", &money(list.deliveries), c.ink);
    }
    row(ui, cx, "All materials", &money(list.materials()), c.ink);
    if list.sales > Cents(0) {
        let share = 100.0 * list.materials().0 as f64 / list.sales.0 as f64;
        row(ui, cx, "of the sales", &format!("{share:.1} %"), c.ink);
    }
    if let Some(alone) = list.alone {
        row(ui, cx, "Bought piece by piece", &format!("{} more", money(alone - list.flowers)), c.ink);
    }
    for line in list.lines.iter().filter(|line| line.out_of_season.is_some()) {
        let month = line.out_of_season.unwrap_or_default();
        say(ui, &format!("{} is out of season in {month}.", line.name), c.rose);
    }
}

fn heading(ui: &mut Ui, cx: &Context<'_>, text: &str) {
    ui.add_space(GRID / 2.0);
    ui.label(RichText::new(text).font(title(21.0)).color(cx.colours.ink));
}

fn say(ui: &mut Ui, text: &str, ink: Color32) {
    ui.label(RichText::new(text).font(words(16.0)).color(ink));
}

fn row(ui: &mut Ui, cx: &Context<'_>, what: &str, told: &str, ink: Color32) {
    row_of(ui, cx, what, told, ink, false);
}

/// A word at the left, a figure at the right.
fn row_of(ui: &mut Ui, cx: &Context<'_>, what: &str, told: &str, ink: Color32, is_strong: bool) {
    let font = if is_strong { strong(16.0) } else { words(16.0) };
    ui.horizontal(|ui| {
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            ui.label(RichText::new(told).font(font.clone()).color(ink));
            ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                ui.add(egui::Label::new(RichText::new(what).font(font).color(cx.colours.ink)).truncate());
            });
        });
    });
}
