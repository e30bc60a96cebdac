//! The buying list and the bench plan against figures from a solver, against plain trial of everything, and at their edges.
//!
//! The figures are in `tests/reference/market/`, each file with its origin.

use std::path::Path;

use posywright::paperwork::{
    BenchPiece, BenchPlan, BenchStep, BuyingList, Effort, Figure, MINUTES_A_DAY, MOST_BENCH_STEPS, MOST_ITEMS,
    MOST_MONEY, MOST_OFFERS, MOST_PIECES, MOST_STEMS, MOST_SUPPLIERS, NoList, NoPlan, PackOffer, Shortage, Supplier,
    Wanted, bench_plan, buying_list,
};
use posywright::units::Cents;
use serde_json::Value;

fn read(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/market").join(name);
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

fn list<'a>(value: &'a Value, name: &str) -> &'a [Value] {
    value[name].as_array().unwrap_or_else(|| panic!("{name}"))
}

fn count(value: &Value) -> u32 {
    u32::try_from(value.as_u64().unwrap()).unwrap()
}

fn place(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap()).unwrap()
}

fn cents(value: &Value) -> Cents {
    Cents(value.as_i64().unwrap())
}

/// Small numbers that repeat from run to run (Knuth's MMIX generator).
struct Dice(u64);

impl Dice {
    /// From 0 to `n - 1`.
    fn below(&mut self, n: u32) -> u32 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        u32::try_from((self.0 >> 33) % u64::from(n)).unwrap()
    }

    fn money(&mut self, from: i64, n: u32) -> Cents {
        Cents(from + i64::from(self.below(n)))
    }
}

// ---- The buying list ----

struct Market {
    wanted: Vec<Wanted>,
    suppliers: Vec<Supplier>,
    offers: Vec<PackOffer>,
}

impl Market {
    fn list(&self) -> Result<BuyingList, NoList> {
        buying_list(&self.wanted, &self.suppliers, &self.offers)
    }
}

fn market(case: &Value) -> Market {
    let figures = list(case, "demand").iter().zip(list(case, "value")).zip(list(case, "keep"));
    let supplier = |s: &Value| Supplier { delivery: cents(&s["fee"]), minimum: cents(&s["minimum"]) };
    let offer = |o: &Value| PackOffer {
        item: place(&o["item"]),
        supplier: place(&o["supplier"]),
        stems: count(&o["pack"]),
        price: cents(&o["price"]),
        packs: count(&o["stock"]),
    };
    Market {
        wanted: figures
            .map(|((stems, worth), keep)| Wanted { stems: count(stems), keep: count(keep), spare_worth: cents(worth) })
            .collect(),
        suppliers: list(case, "suppliers").iter().map(supplier).collect(),
        offers: list(case, "offers").iter().map(offer).collect(),
    }
}

/// Paid and cost of a choice, calculated here from the rules; none if it breaks one.
fn calculated(market: &Market, packs: &[u32]) -> Option<(i64, i64)> {
    let (mut paid, mut worth) = (0, 0);
    for (s, supplier) in market.suppliers.iter().enumerate() {
        let mine = || market.offers.iter().zip(packs).filter(|(o, n)| o.supplier == s && **n > 0);
        let spent: i64 = mine().map(|(o, n)| o.price.0 * i64::from(*n)).sum();
        if mine().next().is_some() {
            paid += spent + supplier.delivery.0;
            if spent < supplier.minimum.0 {
                return None;
            }
        }
    }
    for (i, item) in market.wanted.iter().enumerate() {
        let mine = market.offers.iter().zip(packs).filter(|(o, _)| o.item == i);
        let bought: i64 = mine.map(|(o, n)| i64::from(o.stems) * i64::from(*n)).sum();
        let spare = bought - i64::from(item.stems);
        if spare < 0 {
            return None;
        }
        worth += spare.min(i64::from(item.keep)) * item.spare_worth.0;
    }
    let in_stock = market.offers.iter().zip(packs).all(|(o, n)| *n <= o.packs);
    in_stock.then_some((paid, paid - worth))
}

/// Fails unless the list keeps every rule and tells its own figures rightly.
#[track_caller]
fn keeps_the_rules(market: &Market, found: &BuyingList, name: &str) {
    let (paid, cost) = calculated(market, &found.packs).unwrap_or_else(|| panic!("{name} breaks a rule"));
    assert_eq!((found.paid, found.cost), (Cents(paid), Cents(cost)), "{name}");
    for (i, item) in market.wanted.iter().enumerate() {
        let mine = market.offers.iter().zip(&found.packs).filter(|(o, _)| o.item == i);
        let bought: u64 = mine.map(|(o, n)| u64::from(o.stems) * u64::from(*n)).sum();
        assert_eq!(bought, u64::from(item.stems) + found.spare[i], "{name}, item {i}");
    }
}

#[test]
fn every_list_of_the_table_costs_what_the_solver_found() {
    let table = read("buying.json");
    assert_eq!(list(&table, "cases").len(), 10);
    for case in list(&table, "cases") {
        let name = case["name"].as_str().unwrap();
        let market = market(case);
        let theirs: Vec<u32> = list(case, "one_best_packs").iter().map(count).collect();
        let optimum = cents(&case["optimum_cents"]);
        assert_eq!(calculated(&market, &theirs).map(|(_, cost)| Cents(cost)), Some(optimum), "{name}, their packs");
        let found = market.list().unwrap();
        assert_eq!((found.cost, found.cost_floor), (optimum, optimum), "{name}");
        keeps_the_rules(&market, &found, name);
    }
}

/// The least cost of all choices of packs, one after the other.
fn by_trying_all(market: &Market) -> Option<i64> {
    let mut packs = vec![0; market.offers.len()];
    let mut best = None;
    loop {
        if let Some((_, cost)) = calculated(market, &packs) {
            best = Some(best.map_or(cost, |least: i64| least.min(cost)));
        }
        let Some(next) = (0..packs.len()).find(|i| packs[*i] < market.offers[*i].packs) else { return best };
        packs[..next].fill(0);
        packs[next] += 1;
    }
}

fn small_market(dice: &mut Dice) -> Market {
    let n_items = 1 + dice.below(3);
    let n_suppliers = 1 + dice.below(3);
    let wanted = (0..n_items)
        .map(|_| Wanted { stems: dice.below(30), keep: dice.below(8), spare_worth: dice.money(0, 90) })
        .collect();
    let suppliers =
        (0..n_suppliers).map(|_| Supplier { delivery: dice.money(0, 500), minimum: dice.money(0, 4_000) }).collect();
    let offers = (0..2 + dice.below(5))
        .map(|_| PackOffer {
            item: usize::try_from(dice.below(n_items)).unwrap(),
            supplier: usize::try_from(dice.below(n_suppliers)).unwrap(),
            stems: 1 + dice.below(12),
            price: dice.money(0, 900),
            packs: dice.below(5),
        })
        .collect();
    Market { wanted, suppliers, offers }
}

#[test]
fn small_markets_cost_what_trying_every_choice_finds() {
    let mut dice = Dice(11);
    let (mut found_some, mut found_none, mut minimum_binds) = (0, 0, 0);
    for round in 0..400 {
        let market = small_market(&mut dice);
        match (by_trying_all(&market), market.list()) {
            (Some(least), Ok(list)) => {
                assert_eq!((list.cost, list.cost_floor), (Cents(least), Cents(least)), "round {round}");
                keeps_the_rules(&market, &list, &format!("round {round}"));
                let easy: Vec<Supplier> =
                    market.suppliers.iter().map(|s| Supplier { minimum: Cents(0), ..*s }).collect();
                minimum_binds +=
                    u32::from(buying_list(&market.wanted, &easy, &market.offers).unwrap().cost < list.cost);
                found_some += 1;
            }
            (None, Err(NoList::Short(_))) => found_none += 1,
            (least, list) => panic!("round {round}: {least:?} by trying all, {list:?}"),
        }
    }
    assert!(found_some > 100 && found_none > 50 && minimum_binds > 20, "{found_some} {found_none} {minimum_binds}");
}

/// Least costs of the markets below, cents, by `HiGHS` through scipy 1.17.1 (`optimize.milp`, `mip_rel_gap` 0).
const BOUND_BY_MINIMUMS: [i64; 20] = [
    58093, 43958, 53277, 43985, 49225, 48083, 38964, 45114, 45106, 39062, 53790, 42845, 42952, 52213, 47197, 42366,
    41819, 53076, 44221, 45605,
];

/// Minimum orders of a quarter to nine tenths of all that is bought: far harder than a shop's week.
#[test]
fn where_minimums_bind_hard_the_list_is_proven_or_tells_a_true_floor() {
    let mut dice = Dice(5);
    let mut proven = 0;
    for (round, optimum) in BOUND_BY_MINIMUMS.into_iter().enumerate() {
        let wanted: Vec<Wanted> = (0..12)
            .map(|_| Wanted { stems: 10 + dice.below(60), keep: dice.below(6), spare_worth: dice.money(10, 50) })
            .collect();
        let suppliers: Vec<Supplier> = (0..4)
            .map(|_| Supplier { delivery: dice.money(800, 1_500), minimum: dice.money(15_000, 20_000) })
            .collect();
        let mut offers = Vec::new();
        for item in 0..wanted.len() {
            for supplier in 0..4 {
                let stems = [5, 10, 20, 25][usize::try_from(dice.below(4)).unwrap()];
                let price = Cents(i64::from(stems) * (60 + i64::from(dice.below(60))));
                offers.push(PackOffer { item, supplier, stems, price, packs: 3 + dice.below(20) });
            }
        }
        let market = Market { wanted, suppliers, offers };
        let found = market.list().unwrap();
        keeps_the_rules(&market, &found, &format!("round {round}"));
        assert!(found.cost_floor.0 <= optimum && optimum <= found.cost.0, "round {round}");
        assert!(found.cost.0 * 100 <= optimum * 101, "round {round}: {}, {optimum} by the solver", found.cost.0);
        proven += u32::from(found.cost == found.cost_floor);
    }
    assert!(proven >= 18, "{proven} of 20");
}

fn rose(stems: u32) -> Wanted {
    Wanted { stems, ..Wanted::default() }
}

fn offer(item: usize, supplier: usize, stems: u32, price: i64, packs: u32) -> PackOffer {
    PackOffer { item, supplier, stems, price: Cents(price), packs }
}

#[test]
fn nothing_wanted_costs_nothing() {
    let dear = Supplier { delivery: Cents(900), minimum: Cents(5_000) };
    for (wanted, suppliers, offers) in [
        (vec![], vec![], vec![]),
        (vec![rose(0)], vec![], vec![]),
        (vec![rose(0), rose(0)], vec![dear], vec![offer(0, 0, 10, 850, 900)]),
    ] {
        let found = buying_list(&wanted, &suppliers, &offers).unwrap();
        assert_eq!((found.paid, found.cost, found.cost_floor), (Cents(0), Cents(0), Cents(0)));
        assert_eq!((found.packs, found.spare), (vec![0; offers.len()], vec![0; wanted.len()]));
    }
}

#[test]
fn what_cannot_be_had_is_named_with_the_stems_that_are_missing() {
    let wanted = [rose(43), rose(5), rose(12)];
    let offers = [offer(0, 0, 10, 850, 4), offer(1, 0, 5, 300, 1)];
    let short = |found: Result<BuyingList, NoList>| match found {
        Err(NoList::Short(shortages)) => shortages,
        other => panic!("{other:?}"),
    };
    let missing = |item, missing_stems| Shortage { item, missing_stems };
    assert_eq!(short(buying_list(&wanted, &[Supplier::default()], &offers)), [missing(0, 3), missing(2, 12)]);
    assert_eq!(short(buying_list(&wanted, &[], &[])), [missing(0, 43), missing(1, 5), missing(2, 12)]);
    let out_of_reach = Supplier { minimum: Cents(3_701), ..Supplier::default() };
    let all = [missing(0, 43), missing(1, 5), missing(2, 12)];
    assert_eq!(short(buying_list(&wanted, &[out_of_reach], &offers)), all, "all in stock is 37.00");
}

#[test]
fn a_minimum_that_only_more_than_is_useful_can_reach_is_reached_at_the_least_cost() {
    let supplier = Supplier { delivery: Cents(500), minimum: Cents(6_000) };
    let found = buying_list(&[rose(10)], &[supplier], &[offer(0, 0, 10, 850, 100)]).unwrap();
    assert_eq!((found.packs, found.paid), (vec![8], Cents(8 * 850 + 500)), "seven packs are 59.50");
    assert_eq!(found.spare, [70]);
    let cheap = [offer(0, 0, 10, 850, 100), offer(0, 0, 1, 7, 1_000)];
    let found = buying_list(&[rose(10)], &[supplier], &cheap).unwrap();
    let with_tens = |tens: i64| 850 * tens + 7 * (((6_000 - 850 * tens).max(0) + 6) / 7);
    let least = (0..=8).map(with_tens).min().unwrap();
    assert_eq!(found.paid, Cents(500 + least));
    assert_eq!(found.cost, found.cost_floor);
}

#[test]
fn figures_out_of_range_are_refused_by_name_and_the_largest_allowed_are_reckoned() {
    let one = [Supplier::default()];
    let tens = [offer(0, 0, 10, 850, 9)];
    let refused = |wanted: &[Wanted], suppliers: &[Supplier], offers: &[PackOffer], why: NoList| {
        assert_eq!(buying_list(wanted, suppliers, offers), Err(why));
    };
    refused(&[rose(u32::MAX)], &one, &tens, NoList::TooManyStems(Figure::Item(0)));
    refused(&[Wanted { keep: u32::MAX, ..rose(u32::MAX) }], &one, &tens, NoList::TooManyStems(Figure::Item(0)));
    refused(&[rose(1)], &one, &[offer(0, 0, u32::MAX, 850, 9)], NoList::TooManyStems(Figure::Offer(0)));
    refused(&[rose(1)], &one, &[offer(1, 0, 10, 850, 9)], NoList::StrangeOffer(0));
    refused(&[rose(1)], &one, &[offer(0, 1, 10, 850, 9)], NoList::StrangeOffer(0));
    refused(&[rose(1)], &one, &[tens[0], offer(0, 0, 0, 850, 9)], NoList::StrangeOffer(1));
    for money in [-1, MOST_MONEY.0 + 1, i64::MAX, i64::MIN] {
        let supplier = |delivery, minimum| [Supplier { delivery: Cents(delivery), minimum: Cents(minimum) }];
        refused(&[rose(1)], &one, &[offer(0, 0, 10, money, 9)], NoList::StrangeMoney(Figure::Offer(0)));
        refused(&[rose(1)], &supplier(money, 0), &tens, NoList::StrangeMoney(Figure::Supplier(0)));
        refused(&[rose(1)], &supplier(0, money), &tens, NoList::StrangeMoney(Figure::Supplier(0)));
        let item = Wanted { spare_worth: Cents(money), ..rose(1) };
        refused(&[item], &one, &tens, NoList::StrangeMoney(Figure::Item(0)));
    }
    refused(&vec![rose(0); MOST_ITEMS + 1], &one, &[], NoList::TooManyItems);
    refused(&[rose(1)], &one, &vec![tens[0]; MOST_OFFERS + 1], NoList::TooManyOffers);
    let many = vec![Supplier::default(); MOST_SUPPLIERS + 1];
    let everywhere: Vec<PackOffer> = (0..many.len()).map(|s| offer(0, s, 10, 850, 9)).collect();
    refused(&[rose(1)], &many, &everywhere, NoList::TooManySuppliers);
    refused(&[rose(MOST_STEMS)], &one, &vec![offer(0, 0, 1, 1, u32::MAX); MOST_OFFERS], NoList::TooMuchTogether);

    let largest = [offer(0, 0, 1, MOST_MONEY.0, u32::MAX), offer(0, 0, MOST_STEMS, MOST_MONEY.0, u32::MAX)];
    let terms = [Supplier { delivery: MOST_MONEY, minimum: MOST_MONEY }];
    let item = Wanted { stems: MOST_STEMS - 9, keep: 9, spare_worth: MOST_MONEY };
    let found = buying_list(&[item], &terms, &largest).unwrap();
    assert_eq!((found.packs, found.paid), (vec![0, 1], Cents(2 * MOST_MONEY.0)));
    assert_eq!(found.cost, Cents(-7 * MOST_MONEY.0));

    let farthing = [offer(0, 0, 1, 1, u32::MAX), offer(0, 1, 7, 3, u32::MAX)];
    let found = buying_list(&[rose(5)], &[terms[0], terms[0]], &farthing).unwrap();
    assert_eq!(
        (found.paid, found.cost_floor),
        (Cents(2 * MOST_MONEY.0), Cents(2 * MOST_MONEY.0)),
        "one minimum, reached"
    );
}

/// A minimum of a million, packs for a cent: more to weigh than there are steps for, and still a list that keeps the rules,
/// with an honest floor.
#[test]
fn a_list_that_cannot_be_proven_says_how_far_off_it_may_be() {
    let mut dice = Dice(3);
    let wanted: Vec<Wanted> = (0..12).map(|_| rose(40 + dice.below(60))).collect();
    let suppliers = vec![Supplier { delivery: Cents(1), minimum: Cents(9_999_999) }; 6];
    let offers: Vec<PackOffer> =
        (0..72).map(|i| offer(i / 6, i % 6, 1 + dice.below(30), 1 + i64::from(dice.below(2_999)), 1_000_000)).collect();
    let market = Market { wanted, suppliers, offers };
    let found = market.list().unwrap();
    keeps_the_rules(&market, &found, "a million");
    assert!(found.cost_floor <= found.cost);
    assert_eq!(market.list().unwrap(), found, "equal input, equal list");
}

#[test]
fn equal_markets_give_equal_lists() {
    for case in list(&read("buying.json"), "cases") {
        assert_eq!(market(case).list(), market(case).list());
    }
}

// ---- The bench plan ----

fn steps(piece: &Value) -> Vec<BenchStep> {
    let step = |s: &Value| BenchStep { hands: count(&s[0]), wait: count(&s[1]) };
    piece.as_array().unwrap().iter().map(step).collect()
}

fn pieces(case: &Value, ready_by: impl Fn(usize) -> u32) -> Vec<BenchPiece> {
    let each = list(case, "pieces").iter().enumerate();
    each.map(|(i, piece)| BenchPiece { steps: steps(piece), ready_by: ready_by(i) }).collect()
}

/// Fails unless the plan does every step once and in order, waits as long as is asked, is ready in time, and gives no maker
/// two steps at once.
#[track_caller]
fn can_be_worked(pieces: &[BenchPiece], makers: u32, plan: &BenchPlan, name: &str) {
    let n_steps: usize = pieces.iter().map(|p| p.steps.len()).sum();
    assert_eq!(plan.steps.len(), n_steps, "{name}");
    assert_eq!(plan.begin, plan.steps.iter().map(|s| s.start).min(), "{name}");
    assert!(plan.steps.is_sorted_by_key(|s| s.start), "{name}");
    for (i, piece) in pieces.iter().enumerate() {
        let mut ready = 0;
        for (k, step) in piece.steps.iter().enumerate() {
            let mut mine = plan.steps.iter().filter(|s| (s.piece, s.step) == (i, k));
            let planned = mine.next().unwrap_or_else(|| panic!("{name}: piece {i} misses step {k}"));
            assert!(mine.next().is_none() && planned.hands == step.hands && planned.start >= ready, "{name}");
            ready = planned.start + step.hands + step.wait;
        }
        assert!(ready <= piece.ready_by, "{name}: piece {i} is ready at {ready}");
    }
    for maker in 0..usize::try_from(makers).unwrap() {
        let mine: Vec<_> = plan.steps.iter().filter(|s| s.maker == maker).collect();
        assert!(mine.windows(2).all(|two| two[0].start + two[0].hands <= two[1].start), "{name}: maker {maker}");
    }
    assert!(plan.steps.iter().all(|s| s.maker < usize::try_from(makers).unwrap()), "{name}");
}

const BY_RULE: Effort = Effort { nodes: 0, nudges: 0, seed: 1 };
const NUDGED: Effort = Effort { nodes: 0, nudges: 300, seed: 1 };

#[test]
fn every_plan_of_the_table_begins_as_late_as_the_solver_found() {
    let table = read("bench.json");
    assert_eq!(list(&table, "cases").len(), 10);
    for case in list(&table, "cases") {
        let name = case["name"].as_str().unwrap();
        let (pieces, makers) = (pieces(case, |_| 960), count(&case["makers"]));
        let plan = bench_plan(&pieces, makers, Effort::default()).unwrap();
        let latest = Some(960 - count(&case["optimum"]));
        assert_eq!((plan.begin, plan.begin_bound), (latest, latest), "{name}");
        can_be_worked(&pieces, makers, &plan, name);
    }
}

#[test]
fn the_bound_is_no_worse_than_that_of_the_table_and_the_rule_lies_between_it_and_the_rule_of_the_table() {
    for case in list(&read("bench.json"), "cases") {
        let name = case["name"].as_str().unwrap();
        let (pieces, makers) = (pieces(case, |_| 960), count(&case["makers"]));
        for effort in [BY_RULE, NUDGED] {
            let plan = bench_plan(&pieces, makers, effort).unwrap();
            can_be_worked(&pieces, makers, &plan, name);
            let bound = 960 - plan.begin_bound.unwrap();
            assert!(bound >= count(&case["lower_bound"]) && bound <= count(&case["optimum"]), "{name}: {bound}");
            let minutes = 960 - plan.begin.unwrap();
            assert!(minutes >= count(&case["optimum"]) && minutes <= count(&case["list_rule"]), "{name}: {minutes}");
        }
    }
}

#[test]
fn pieces_picked_up_at_different_times_begin_as_late_as_the_solver_found() {
    let table = read("bench.json");
    assert_eq!(list(&table, "deadline_cases").len(), 3);
    for case in list(&table, "deadline_cases") {
        let name = case["name"].as_str().unwrap();
        let (pieces, makers) = (pieces(case, |i| count(&case["due"][i])), count(&case["makers"]));
        let plan = bench_plan(&pieces, makers, Effort::default()).unwrap();
        let latest = Some(count(&case["latest_start"]));
        assert_eq!((plan.begin, plan.begin_bound), (latest, latest), "{name}");
        can_be_worked(&pieces, makers, &plan, name);
    }
}

fn some_pieces(dice: &mut Dice, n_pieces: u32, most_steps: u32) -> Vec<BenchPiece> {
    let piece = |dice: &mut Dice| {
        let n_steps = 1 + dice.below(most_steps);
        let steps =
            (0..n_steps).map(|_| BenchStep { hands: dice.below(9), wait: dice.below(3) * dice.below(9) }).collect();
        BenchPiece { steps, ready_by: 900 + 5 * dice.below(4) }
    };
    (0..n_pieces).map(|_| piece(dice)).collect()
}

/// The latest begin by plain trial, forward, minute by minute: from `begin` on, every maker who is free may take any step
/// that can start, or none.
fn can_begin_at(pieces: &[BenchPiece], makers: usize, begin: u32) -> bool {
    type State = (u32, Vec<(usize, u32)>, Vec<u32>);
    fn can(pieces: &[BenchPiece], state: State, tried: &mut std::collections::BTreeSet<State>) -> bool {
        let (now, done, mut busy) = state;
        for until in &mut busy {
            *until = now.max(*until);
        }
        busy.sort_unstable();
        if done.iter().zip(pieces).all(|((k, _), p)| *k == p.steps.len()) {
            return true;
        }
        let late = |(k, ready): &(usize, u32), p: &BenchPiece| {
            now.max(*ready) + p.steps[*k..].iter().map(|s| s.hands + s.wait).sum::<u32>() > p.ready_by
        };
        if done.iter().zip(pieces).any(|(d, p)| d.0 < p.steps.len() && late(d, p))
            || !tried.insert((now, done.clone(), busy.clone()))
        {
            return false;
        }
        for (i, (k, ready)) in done.iter().enumerate() {
            if *k < pieces[i].steps.len() && *ready <= now && busy[0] <= now {
                let step = pieces[i].steps[*k];
                let (mut done, mut busy) = (done.clone(), busy.clone());
                done[i] = (k + 1, now + step.hands + step.wait);
                busy[0] = now + step.hands;
                if done[i].1 <= pieces[i].ready_by && can(pieces, (now, done, busy), tried) {
                    return true;
                }
            }
        }
        can(pieces, (now + 1, done, busy), tried)
    }
    can(pieces, (begin, vec![(0, begin); pieces.len()], vec![begin; makers]), &mut std::collections::BTreeSet::new())
}

#[test]
fn small_plans_begin_at_the_last_minute_that_plain_trial_allows() {
    let mut dice = Dice(21);
    for round in 0..40 {
        let n_pieces = 1 + dice.below(3);
        let pieces = some_pieces(&mut dice, n_pieces, 3);
        let makers = 1 + dice.below(2);
        let plan = bench_plan(&pieces, makers, Effort::default()).unwrap();
        can_be_worked(&pieces, makers, &plan, &format!("round {round}"));
        assert_eq!(plan.begin, plan.begin_bound, "round {round}");
        let (begin, makers) = (plan.begin.unwrap(), usize::try_from(makers).unwrap());
        assert!(can_begin_at(&pieces, makers, begin), "round {round}");
        assert!(!can_begin_at(&pieces, makers, begin + 1), "round {round}: {begin} is not the latest");
    }
}

#[test]
fn plans_of_many_pieces_can_be_worked_and_keep_below_their_bound() {
    let mut dice = Dice(8);
    for (n_pieces, makers) in [(10, 1), (10, 2), (20, 3), (40, 4)] {
        let pieces = some_pieces(&mut dice, n_pieces, 5);
        let name = format!("{n_pieces} pieces, {makers} makers");
        let plan = bench_plan(&pieces, makers, Effort::default()).unwrap();
        can_be_worked(&pieces, makers, &plan, &name);
        let plain = bench_plan(&pieces, makers, BY_RULE).unwrap();
        assert!(plan.begin <= plan.begin_bound && plan.begin >= plain.begin, "{name}");
        assert_eq!(bench_plan(&pieces, makers, Effort::default()).unwrap(), plan, "{name}: equal input, equal plan");
    }
}

fn piece(ready_by: u32, steps: &[(u32, u32)]) -> BenchPiece {
    BenchPiece { steps: steps.iter().map(|&(hands, wait)| BenchStep { hands, wait }).collect(), ready_by }
}

#[test]
fn nothing_to_do_has_no_begin_and_needs_nobody() {
    for pieces in [vec![], vec![piece(960, &[])], vec![piece(960, &[]), piece(0, &[])]] {
        assert_eq!(bench_plan(&pieces, 0, Effort::default()), Ok(BenchPlan::default()));
    }
}

#[test]
fn one_step_ends_with_its_wait_at_the_pick_up() {
    let plan = bench_plan(&[piece(960, &[(12, 30)])], u32::MAX, Effort::default()).unwrap();
    assert_eq!((plan.begin, plan.begin_bound), (Some(918), Some(918)));
    let whole_day = bench_plan(&[piece(MINUTES_A_DAY, &[(MINUTES_A_DAY, 0)])], 1, Effort::default()).unwrap();
    assert_eq!(whole_day.begin, Some(0));
}

#[test]
fn steps_without_hands_want_somebody_who_is_free() {
    let pieces = [piece(960, &[(0, 10), (20, 0)]), piece(960, &[(20, 0)]), piece(960, &[(0, 0), (0, 0)])];
    let plan = bench_plan(&pieces, 1, Effort::default()).unwrap();
    can_be_worked(&pieces, 1, &plan, "no hands");
    assert_eq!((plan.begin, plan.begin_bound), (Some(920), Some(920)));
}

#[test]
fn what_does_not_fit_the_day_is_refused_by_name() {
    let refused = |pieces: &[BenchPiece], makers: u32, why: NoPlan| {
        assert_eq!(bench_plan(pieces, makers, Effort::default()), Err(why));
    };
    let short = piece(960, &[(5, 5)]);
    refused(std::slice::from_ref(&short), 0, NoPlan::NoMaker);
    refused(&[short.clone(), piece(MINUTES_A_DAY + 1, &[(5, 5)])], 1, NoPlan::BeyondTheDay(1));
    refused(&[piece(u32::MAX, &[(5, 5)])], 1, NoPlan::BeyondTheDay(0));
    refused(&[piece(960, &[(u32::MAX, 5)])], 1, NoPlan::BeyondTheDay(0));
    refused(&[piece(960, &[(5, u32::MAX)])], 1, NoPlan::BeyondTheDay(0));
    refused(&[short.clone(), piece(60, &[(30, 20), (20, 0)])], 1, NoPlan::PieceTooLong { piece: 1, short_minutes: 10 });
    refused(&vec![short.clone(); MOST_PIECES + 1], 1, NoPlan::TooManyPieces);
    refused(&[piece(960, &vec![(0, 0); MOST_BENCH_STEPS + 1])], 1, NoPlan::TooManySteps);
    let all_day = vec![piece(MINUTES_A_DAY, &[(700, 0)]); 3];
    refused(&all_day, 1, NoPlan::TooLong { short_minutes: 660, surely_minutes: 660 });
}

#[test]
fn the_largest_bench_allowed_is_planned_or_refused_with_what_is_missing() {
    let five = [(1, 1), (1, 1), (1, 1), (1, 1), (1, 1)];
    let pieces = vec![piece(MINUTES_A_DAY, &five); MOST_PIECES];
    for makers in [1, 7, u32::MAX] {
        let plan = bench_plan(&pieces, makers, Effort::default()).unwrap();
        can_be_worked(&pieces, makers.min(200), &plan, "the largest");
    }
    let long = vec![piece(MINUTES_A_DAY, &[(280, 8), (280, 8), (280, 8), (280, 8), (280, 8)]); MOST_PIECES];
    match bench_plan(&long, 1, Effort::default()) {
        Err(NoPlan::TooLong { short_minutes, surely_minutes }) => {
            assert!(surely_minutes > 270_000 && short_minutes >= surely_minutes);
        }
        other => panic!("{other:?}"),
    }
}
