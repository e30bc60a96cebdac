//! What is typed about allergies, and what each word must stop. The sources stand beside the rows by their keys in
//! `assets/STOCK-SOURCES.md`; M is from memory. Which plant is of which family is botany as it is taught, from memory.

use std::collections::{BTreeMap, BTreeSet};

use posywright::book::{
    Avoided, Change, NeedChange, Needs, Order, Overruled, WearerKind, safety_lines, stop_flower, stopped_on_both,
};
use posywright::stock::{Stock, StockId, SundryKind, genera_of};
use posywright::store::{built_in_avoid_list, built_in_stock, order_from_text, order_to_text, stock_from_text};

fn needs(typed: &str) -> Needs {
    Needs { allergies: Some(vec![typed.to_owned()]), ..Needs::default() }
}

fn understood(typed: &str, stock: &Stock) -> Avoided {
    Avoided::of(&needs(typed), stock)
}

fn is_stopped(avoided: &Avoided, what: &str) -> bool {
    let kind = match what {
        "glue" => Some(SundryKind::Adhesive),
        "wire" => Some(SundryKind::Wire),
        "tape" => Some(SundryKind::Tape),
        "pins" => Some(SundryKind::Pin),
        "spray" => Some(SundryKind::Spray),
        _ => None,
    };
    match kind {
        Some(kind) => avoided.word_for_sundry(kind).is_some(),
        None => avoided.word_for(&StockId::new(what)).is_some(),
    }
}

const DAISIES: &str = "button-mum aster craspedia goldenrod dusty-miller";
const BUTTERCUPS: &str = "ranunculus anemone delphinium";
const ROSES: &str = "rose spray-rose rose-sweetheart";
const PINKS: &str = "carnation mini-carnation carnation-half carnation-quarter";
const GUMS: &str = "eucalyptus-silver-dollar eucalyptus-baby-blue eucalyptus-seeded eucalyptus-parvifolia";
const ORCHIDS: &str = "dendrobium mini-cymbidium";
const STRETCH: &str = "elastic-medium elastic-child pearl-medium";
const METAL: &str = "metal-medium metal-child";
const SEA_LAVENDERS: &str = "statice limonium";
const HAY_FEVER: &str = "button-mum aster craspedia goldenrod dusty-miller babys-breath statice limonium";

/// (what is typed, what it must stop, what it must not stop, where that was read)
const TABLE: &[(&str, &str, &str, &str)] = &[
    // The daisy family cross-reacts within itself and with ragweed and mugwort.
    ("daisies", DAISIES, ROSES, "DP, BO3"),
    ("Daisy", DAISIES, BUTTERCUPS, "DP, BO3"),
    ("daisy family", DAISIES, PINKS, "DP, BO3"),
    ("Compositae", DAISIES, ROSES, "BO3"),
    ("asteraceae", DAISIES, ROSES, "BO3"),
    ("compositae mix", DAISIES, GUMS, "DP"),
    ("ragweed", DAISIES, ROSES, "TH, DP"),
    ("Ambrosia", DAISIES, ROSES, "TH"),
    ("mugwort", DAISIES, ROSES, "DJ"),
    ("artemisia", DAISIES, ROSES, "DJ"),
    ("chrysanthemums", DAISIES, ROSES, "DP, HM, PI"),
    ("mums", DAISIES, ROSES, "DP"),
    ("button mums", DAISIES, ROSES, "DP"),
    ("asters", DAISIES, ROSES, "DP"),
    ("Monte Cassino aster", DAISIES, ROSES, "DP"),
    ("goldenrod", DAISIES, ROSES, "DJ"),
    ("golden rod", DAISIES, ROSES, "DJ"),
    ("solidago", DAISIES, ROSES, "DJ"),
    ("sunflowers", DAISIES, ROSES, "DP"),
    ("gerbera", DAISIES, ROSES, "HM, DP"),
    ("chamomile", DAISIES, ROSES, "DP"),
    ("camomile tea", DAISIES, ROSES, "DP"),
    ("dahlias", DAISIES, ROSES, "DP"),
    ("marigold", DAISIES, ROSES, "DP"),
    ("feverfew", DAISIES, ROSES, "DP"),
    ("yarrow", DAISIES, ROSES, "DP"),
    ("arnica", DAISIES, ROSES, "DP"),
    ("pyrethrum", DAISIES, ROSES, "OA"),
    ("billy buttons", DAISIES, ROSES, "BO3"),
    ("craspedia", DAISIES, ROSES, "BO3"),
    ("dusty miller", DAISIES, ROSES, "BO3"),
    ("Senecio", DAISIES, ROSES, "BO3"),
    ("sesquiterpene lactones", DAISIES, ROSES, "DP"),
    ("thistles", "thistle craspedia", ROSES, "BO3"),
    ("sea holly", "thistle astrantia", DAISIES, "CD"),
    // Tulips and alstroemeria share tuliposide A.
    ("tulips", "alstroemeria", ROSES, "TB, AD"),
    ("Tulipa", "alstroemeria", "nerine", "TB"),
    ("tuliposide", "alstroemeria", ROSES, "TB"),
    ("tulip fingers", "alstroemeria", ROSES, "TB"),
    ("alstroemeria", "alstroemeria", ROSES, "AD, BO2"),
    ("alstromeria", "alstroemeria", ROSES, "AD"),
    ("Peruvian lilies", "alstroemeria", ROSES, "AD"),
    ("lily family", "alstroemeria", ROSES, "TB, CD"),
    // Lilies are neither: nothing of the built-in list but what bears the name.
    ("lilies", "lily-grass", "alstroemeria rose", "HM"),
    ("daffodils", "nerine", ROSES, "BO6, DJ"),
    ("narcissus", "nerine", ROSES, "BO6"),
    ("amaryllis", "nerine", ROSES, "BO6"),
    ("garlic", "nerine", ROSES, "TB"),
    // Blooms by their own names, in many forms.
    ("roses", ROSES, "rosemary ranunculus", "HM"),
    ("ROSE", ROSES, "rosemary", "HM"),
    ("red roses", ROSES, PINKS, "HM"),
    ("rosa", ROSES, PINKS, "HM"),
    ("carnations", PINKS, "babys-breath", "LA, HM"),
    ("dianthus", PINKS, ROSES, "LA"),
    ("sweet william", PINKS, ROSES, "M"),
    ("pink family", "carnation babys-breath", ROSES, "LA, HM"),
    ("baby's breath", "babys-breath", "eucalyptus-baby-blue carnation", "HM, DJ"),
    ("Baby\u{2019}s-Breath", "babys-breath", "carnation", "HM"),
    ("babys breath", "babys-breath", "carnation", "HM"),
    ("babies breath", "babys-breath", "carnation", "HM"),
    ("gypsophila", "babys-breath", "carnation", "HM, OA"),
    ("gyp", "babys-breath", "carnation", "HM"),
    ("baby's breath makes her wheeze", "babys-breath", "statice", "HM"),
    ("freesias", "freesia", ROSES, "PI"),
    ("statice", SEA_LAVENDERS, "lavender", "HM, PI"),
    ("sea lavender", SEA_LAVENDERS, "lavender", "HM"),
    ("Limonium", SEA_LAVENDERS, ROSES, "HM"),
    ("ranunculus", BUTTERCUPS, ROSES, "BO1"),
    ("buttercups", BUTTERCUPS, ROSES, "BO1, CD"),
    ("anemones", BUTTERCUPS, ROSES, "BO1"),
    ("larkspur", BUTTERCUPS, ROSES, "BO1"),
    ("lisianthus", "lisianthus", ROSES, "M"),
    ("eustoma", "lisianthus", ROSES, "M"),
    ("orchids", ORCHIDS, ROSES, "M"),
    ("phalaenopsis", ORCHIDS, ROSES, "M"),
    ("hydrangeas", "hydrangea", ROSES, "M"),
    ("sweet peas", "sweet-pea", ROSES, "OA"),
    ("legumes", "sweet-pea", ROSES, "M"),
    ("mimosa", "sweet-pea", ROSES, "PI"),
    ("scabious", "scabiosa", ROSES, "M"),
    ("succulents", "succulent", ROSES, "M"),
    ("St John's wort", "hypericum", ROSES, "M"),
    ("hypericum berries", "hypericum", ROSES, "M"),
    ("celery", "thistle astrantia", ROSES, "CD"),
    ("hogweed", "thistle astrantia", ROSES, "CD"),
    ("milkweed", "tweedia stephanotis", ROSES, "M"),
    ("Madagascar jasmine", "stephanotis", ROSES, "HM"),
    ("bouvardia", "bouvardia", ROSES, "M"),
    ("gardenia", "bouvardia", ROSES, "M"),
    ("hyacinths", "muscari", ROSES, "CD, M"),
    ("asparagus", "plumosus tree-fern", ROSES, "M"),
    ("wax flower", "waxflower", ROSES, "FR, M"),
    ("waxflowers", "waxflower", ROSES, "FR, M"),
    ("Chamelaucium", "waxflower", ROSES, "M"),
    ("eucalyptus", GUMS, ROSES, "FR"),
    ("tea tree oil", GUMS, ROSES, "FR"),
    ("silver dollar eucalyptus", "eucalyptus-silver-dollar", ROSES, "M"),
    ("myrtle family", "myrtle waxflower", ROSES, "M"),
    ("heather", "heather", ROSES, "M"),
    ("lemon leaf", "salal", ROSES, "M"),
    ("lavender", "lavender rosemary", SEA_LAVENDERS, "FR"),
    ("mint", "lavender rosemary", ROSES, "FR"),
    ("rosemary", "rosemary", ROSES, "FR"),
    ("ivy", "ivy", ROSES, "CD"),
    ("poison ivy", "", "ivy rose", "CD"),
    ("ferns", "leatherleaf plumosus tree-fern", ROSES, "M"),
    ("leather leaf", "leatherleaf", ROSES, "M"),
    ("camellia", "camellia", ROSES, "M"),
    ("pittosporum", "pittosporum", ROSES, "M"),
    ("ruscus", "italian-ruscus israeli-ruscus", ROSES, "M"),
    ("grass", "bear-grass lily-grass", ROSES, "M"),
    ("peonies", "", "rose", "M"),
    // Slips of the finger.
    ("chrysanthamum", DAISIES, ROSES, "DP"),
    ("crysanthemums", DAISIES, ROSES, "DP"),
    ("gypsophilia", "babys-breath", "carnation", "HM"),
    ("ranunculas", BUTTERCUPS, ROSES, "BO1"),
    ("eucaliptus", GUMS, ROSES, "FR"),
    ("carnatoin", PINKS, ROSES, "LA"),
    ("hydranga", "hydrangea", ROSES, "M"),
    ("lavendar", "lavender", ROSES, "FR"),
    ("freesa", "freesia", ROSES, "PI"),
    ("latax", STRETCH, "ribbon-tie", "CP"),
    // Materials.
    ("latex", STRETCH, "ribbon-tie metal-medium rose", "CP"),
    ("rubber", STRETCH, "ribbon-tie metal-medium", "CP"),
    ("natural rubber", STRETCH, "ribbon-tie", "CP"),
    ("elastic", STRETCH, "ribbon-tie metal-medium", "CP"),
    ("spandex", STRETCH, "ribbon-tie", "CP"),
    ("nickel", METAL, "ribbon-tie elastic-medium", "NI"),
    ("nickle", METAL, "elastic-medium", "NI"),
    ("cheap jewelry", METAL, "ribbon-tie", "NI"),
    ("metal", "metal-medium wire pins", "ribbon-tie", "NI, CP"),
    ("cobalt", "metal-medium wire", "ribbon-tie", "CP"),
    ("glue", "glue", "wire rose", "RO, HG"),
    ("hot melt glue", "glue", "wire", "HG"),
    ("acrylates", "glue", "wire", "M"),
    ("plasters", "glue", "wire", "RO"),
    ("colophony", "glue tape", "wire", "RO"),
    ("rosin", "glue tape", "wire", "RO"),
    ("wire", "wire", "glue", "CP"),
    ("pins", "pins", "glue", "CP"),
    ("hairspray", "spray", "glue", "TA"),
    ("polyester", "ribbon-tie satin-15", "elastic-medium", "CP"),
    ("plastic", "pearl pearl-medium", "elastic-medium", "CP"),
    // Kinds of harm.
    ("hay fever", HAY_FEVER, "rose dendrobium", "DP, DJ, HM, OA"),
    ("hayfever", HAY_FEVER, "rose", "DP, DJ"),
    ("pollen", HAY_FEVER, "rose", "DP, DJ"),
    ("seasonal allergies", HAY_FEVER, "rose", "DP"),
    ("sneezing", HAY_FEVER, "rose", "DP"),
    ("asthma", "babys-breath rose freesia statice button-mum", "dendrobium succulent", "HM, PI, OA"),
    ("scent", "rose freesia lavender stephanotis", "dendrobium succulent", "FR, M"),
    ("fragrance mix", "rose lavender", "dendrobium", "FR"),
    ("perfume", "rose freesia lavender", "succulent", "FR, M"),
    ("migraine", "freesia lavender", "succulent", "M"),
    ("sap", "ranunculus nerine alstroemeria tweedia ivy", "rose succulent", "CD, BO1, BO2, BO4"),
    ("eczema", "ranunculus alstroemeria", "rose", "CD"),
    ("poisonous plants", "ranunculus", "rose", "PC, CK"),
    // Several at once, with remarks around them.
    ("allergic to roses and latex", "rose elastic-medium", "ribbon-tie carnation", "HM, CP"),
    ("roses; carnations / wire", "rose carnation wire", "babys-breath", "HM, LA"),
    ("she reacts badly to mums", DAISIES, ROSES, "DP"),
];

#[test]
fn a_table_of_words_each_stops_what_it_must_and_spares_the_rest() {
    assert!(TABLE.len() >= 120, "{}", TABLE.len());
    let stock = built_in_stock();
    let known = |what: &str| {
        let id = StockId::new(what);
        let is_sundry = ["glue", "wire", "tape", "pins", "spray"].contains(&what);
        is_sundry || stock.botanical(&id).is_some() || stock.band(&id).is_some() || stock.ribbon(&id).is_some()
    };
    let mut wrong = Vec::new();
    for (typed, stops, spares, source) in TABLE {
        assert!(!source.is_empty(), "{typed}");
        let avoided = understood(typed, &stock);
        if avoided.open().next().is_some() {
            wrong.push(format!("{typed}: {:?}", avoided.words));
        }
        for what in stops.split_whitespace().chain(spares.split_whitespace()) {
            assert!(known(what), "{typed}: no {what} in stock");
        }
        wrong
            .extend(stops.split_whitespace().filter(|w| !is_stopped(&avoided, w)).map(|w| format!("{typed}: not {w}")));
        wrong.extend(
            spares.split_whitespace().filter(|w| is_stopped(&avoided, w)).map(|w| format!("{typed}: also {w}")),
        );
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn what_nobody_knows_stays_open_and_is_never_guessed_at() {
    let stock = built_in_stock();
    for typed in [
        "penicillin",
        "nuts",
        "peanuts",
        "dust mites",
        "cats",
        "bees",
        "grapes",
        "apples",
        "heidis plant",
        "xyz",
        "nose",
        "hose",
        "white",
        "lemons",
    ] {
        let avoided = understood(typed, &stock);
        assert_eq!(avoided.open().count(), 1, "{typed}: {:?}", avoided.words);
        for flower in stock.botanicals() {
            assert!(avoided.word_for(&flower.id).is_none(), "{typed} {}", flower.id);
        }
    }
    // A slip between two things names both and takes neither; a known part is taken and the rest stays open.
    let both = understood("roses with heidiplant", &stock);
    assert!(is_stopped(&both, "rose"));
    assert_eq!(both.open().map(|word| word.unread.as_str()).collect::<Vec<_>>(), ["heidiplant"]);
    let slip = understood("chrysanthamum", &stock);
    assert!(slip.words[0].is_slip && slip.words[0].means == ["the daisy family"], "{:?}", slip.words);
    assert!(!understood("chrysanthemum", &stock).words[0].is_slip);
}

#[test]
fn the_designer_says_what_a_word_means_or_that_it_means_nothing_here() {
    let stock = built_in_stock();
    let order = Order::blank(None, &stock);
    let told = |changes: Vec<Change>| order.apply(&Change::Together(changes), &stock).unwrap();
    let typed = || Change::Allergies(Some(vec!["Heidi's plant".to_owned()]));
    let open = told(vec![typed()]);
    let word = Avoided::of(&open.needs, &stock).open().next().unwrap().unread.clone();
    let meaning = |meaning: Option<&str>| {
        Change::Need(NeedChange::Meaning { word: word.clone(), meaning: meaning.map(str::to_owned) })
    };
    assert_eq!(Avoided::of(&open.needs, &stock).open().count(), 1);
    assert!(open.missing_details(&stock).contains(&posywright::book::MissingDetail::Allergies), "not an answer yet");
    let settled = told(vec![typed(), meaning(Some("baby's breath"))]);
    assert_eq!(Avoided::of(&settled.needs, &stock).open().count(), 0);
    assert!(stop_flower(&settled, &StockId::new("babys-breath"), &stock).is_some());
    assert!(!settled.missing_details(&stock).contains(&posywright::book::MissingDetail::Allergies));
    let nothing = told(vec![typed(), meaning(Some(""))]);
    assert_eq!(Avoided::of(&nothing.needs, &stock).open().count(), 0);
    assert!(stop_flower(&nothing, &StockId::new("babys-breath"), &stock).is_none());
    let taken_back = told(vec![typed(), meaning(Some("")), meaning(None)]);
    assert_eq!(Avoided::of(&taken_back.needs, &stock).open().count(), 1);
}

/// A genus that is new in stock and in no family would be missed by "daisies" and its like.
#[test]
fn every_plant_in_stock_belongs_to_a_family_of_the_list() {
    let (stock, list) = (built_in_stock(), built_in_avoid_list());
    for plant in stock.botanicals() {
        let genera = genera_of(&plant.botanical);
        assert!(!genera.is_empty() || plant.botanical.starts_with("none"), "{}: {}", plant.id, plant.botanical);
        for genus in genera {
            assert!(list.families.contains_key(&genus), "{}: write the family of {genus} into avoid.ron", plant.id);
        }
    }
    assert_eq!(genera_of("Delphinium elatum, D. x belladonna"), ["Delphinium"]);
    assert_eq!(genera_of("Asparagus setaceus 'Pyramidalis'"), ["Asparagus"]);
    assert!(genera_of("none: not a plant").is_empty());
}

/// What a shop adds to its stock is found by family and by its own names, without a line in the list.
#[test]
fn a_shops_own_flower_is_stopped_by_its_family_and_by_its_name() {
    let own = r##"(version: 1, botanicals: [
        (id: "gerbera-mini", name: "Germini", botanical: "Gerbera jamesonii", role: bloom, form: daisy, size: (40, 50, 60),
            breadth: 1, height: 20, per_stem: 1, stems_per_bunch: 10, bunch: 9.00, colours: [("white", "#ffffff")]),
        (id: "cloudbush", name: "Cloudbush", botanical: "none: sold without a name", role: filler, form: babys_breath,
            size: (20, 25, 30), breadth: 1, height: 12, per_stem: 5, stems_per_bunch: 10, bunch: 9.00,
            colours: [("white", "#ffffff")])])"##;
    let stock = stock_from_text(own, "stock.ron", &built_in_stock()).unwrap();
    for (typed, id) in [
        ("daisies", "gerbera-mini"),
        ("germinis", "gerbera-mini"),
        ("Gerbera jamesonii", "gerbera-mini"),
        ("ragweed", "gerbera-mini"),
        ("cloud bush", "cloudbush"),
    ] {
        let avoided = understood(typed, &stock);
        assert!(is_stopped(&avoided, id) && avoided.open().next().is_none(), "{typed}: {:?}", avoided.words);
    }
}

#[test]
fn the_list_names_its_sources_and_no_word_twice() {
    let list = built_in_avoid_list();
    assert!(list.things.len() > 60, "it could not be read");
    let sources = include_str!("../../assets/STOCK-SOURCES.md");
    let mut seen: BTreeMap<String, &str> = BTreeMap::new();
    let mut twice = Vec::new();
    for thing in &list.things {
        for key in thing.source.split(", ") {
            let is_known = key == "M" || key == "CP" || sources.contains(&format!("**{key}**"));
            assert!(is_known, "{}: {key} is not explained", thing.name);
        }
        let families: BTreeSet<&String> = list.families.values().collect();
        assert!(thing.families.iter().all(|family| families.contains(family)), "{}", thing.name);
        for genus in &thing.genera {
            assert!(list.families.contains_key(genus), "{}: {genus}", thing.name);
        }
        for word in thing.words.iter().chain(&thing.if_alone) {
            if let Some(other) = seen.insert(word.clone(), &thing.name) {
                twice.push(format!("{word}: {other} and {}", thing.name));
            }
        }
    }
    assert!(twice.is_empty(), "{}", twice.join("\n"));
}

const VERSION_3: &str = include_str!("../files/order-3-needs.ron");

#[test]
fn needs_of_both_wearers_are_kept_and_only_they_raise_the_version() {
    let stock = built_in_stock();
    let order = order_from_text(VERSION_3, "order-3-needs.ron", &stock).unwrap();
    let again = order_from_text(&order_to_text(&order), "again", &stock).unwrap();
    assert_eq!(order, again);
    assert!(order_to_text(&order).contains("version: 3"));
    assert_eq!(order.needs.meanings["heidi's plant"], "waxflower");
    assert_eq!(order.needs.overruled[0].reason, "silk, brought by her");
    assert_eq!(order.partner_needs.kind, Some(WearerKind::Child { years: 5 }));
    let plain = Order {
        needs: Needs { allergies: Some(vec!["latex".into()]), ..Needs::default() },
        partner_needs: Needs::default(),
        partner_notes: String::new(),
        ..order.clone()
    };
    assert!(order_to_text(&plain).contains("version: 1"), "{}", order_to_text(&plain));
    for change in [
        Change::PartnerNotes("Right lapel.".into()),
        Change::PartnerNeed(NeedChange::NoLatex(true)),
        Change::Need(NeedChange::Meaning { word: "x".into(), meaning: Some(String::new()) }),
        Change::Need(NeedChange::Overrule(Overruled {
            what: "wrist".into(),
            cause: "arm to avoid".into(),
            reason: "her wish".into(),
        })),
    ] {
        assert!(order_to_text(&plain.apply(&change, &stock).unwrap()).contains("version: 3"), "{change:?}");
    }
}

/// What is overruled is still said, with the reason, everywhere; another cause stops it anew; taken back it stops again.
#[test]
fn what_is_used_all_the_same_is_said_with_its_reason_and_for_that_cause_alone() {
    let stock = built_in_stock();
    let order = order_from_text(VERSION_3, "order-3-needs.ron", &stock).unwrap();
    let lines = safety_lines(&order, &stock);
    let kept = lines.iter().find(|line| line.contains("Baby's breath")).unwrap();
    assert!(kept.contains("ALLERGY") && kept.ends_with("USED ALL THE SAME: silk, brought by her"), "{kept}");
    let hay_fever = Change::Allergies(Some(vec!["hay fever".into()]));
    let other = order.apply(&hay_fever, &stock).unwrap();
    assert!(safety_lines(&other, &stock).iter().all(|line| !line.contains("USED ALL THE SAME")), "another cause");
    let take_back = Overruled { what: "babys-breath".into(), cause: "Gypsophila".into(), reason: " ".into() };
    let back = order.apply(&Change::Need(NeedChange::Overrule(take_back)), &stock).unwrap();
    assert!(stopped_on_both(&back, &stock).iter().all(|stop| stop.overruled.is_none()));
}

/// A note and a need of the one never reach the other's piece.
#[test]
fn the_boutonniere_has_its_own_wearers_needs_and_notes() {
    let stock = built_in_stock();
    let order = order_from_text(VERSION_3, "order-3-needs.ron", &stock).unwrap();
    let theirs = order.boutonniere().unwrap();
    assert_eq!((theirs.notes.as_str(), order.notes.as_str()), ("Right lapel.", "Left wrist, low."));
    assert_eq!(theirs.needs, order.partner_needs);
    let rose = StockId::new("spray-rose");
    let hers = order.apply(&Change::Allergies(Some(vec!["roses".into()])), &stock).unwrap();
    assert!(stop_flower(&hers, &rose, &stock).is_some());
    assert!(stop_flower(&hers.boutonniere().unwrap(), &rose, &stock).is_none());
    let his = Change::PartnerNeed(NeedChange::Allergies(Some(vec!["roses".into()])));
    let his = order.apply(&his, &stock).unwrap();
    let stops = stopped_on_both(&his, &stock);
    let roses: Vec<bool> = stops.iter().filter(|s| s.cause == "roses").map(|s| s.is_partners).collect();
    assert_eq!(roses, [true], "{stops:?}");
    assert!(safety_lines(&his, &stock).iter().any(|line| line.starts_with("Boutonniere: ALLERGY: Spray rose")));
}
