//! Values, key by key.

use crate::read::{mended, table};

#[test]
fn amounts() {
    table(
        "prep",
        &[
            ("yields: 715 ml", "yields: 715 ml"),
            ("yields: 715 ml (1 bottle)", "yields: 715 ml = 1 bottle"),
            ("yields: 24 rolls", "yields: 24"),
            ("yields: 12", "yields: 12"),
            ("yields: about 700 ml", "yields: ~700 ml"),
            ("yields: 22,5 ml", "yields: 22.5 ml ! decimal-comma"),
            ("yields: 600-700 g", "yields: 600..700 g"),
            ("yields: 1 l of syrup", "yields: bad ! unreadable-amount"),
            ("yields: lots", "yields: bad ! unreadable-amount"),
            ("yields: 0 ml", "yields: bad ! unreadable-amount"),
            ("yields: 1,000 ml", "yields: bad ! unreadable-amount"),
            ("loss: 15 %", "loss: 15"),
            ("loss: 15", "loss: 15"),
            ("loss: 15 % of mass", "loss: bad ! unreadable-amount"),
            ("serves: 4", "serves: 4"),
            ("serves: 4-6", "serves: 4..6"),
            ("serves: 0", "serves: bad ! unreadable-amount"),
            ("serves: 1.5", "serves: bad ! unreadable-amount"),
            ("serves: a few", "serves: bad ! unreadable-amount"),
        ],
    );
}

#[test]
fn keeping_times() {
    table(
        "prep",
        &[
            ("keeps: 2 weeks chilled", "keeps: 336 h chilled"),
            ("keeps: 2 weeks", "keeps: 336 h"),
            ("keeps: 2-3 days, chilled, dark", "keeps: 72 h chilled | dark"),
            ("keeps: 1 day chilled and dark", "keeps: 24 h chilled | dark"),
            ("keeps: 6 months frozen", "keeps: 4320 h frozen"),
            ("keeps: 1 year ambient", "keeps: 8760 h ambient"),
            ("keeps: 12 h", "keeps: 12 h"),
            ("keeps: overnight", "keeps: 12 h"),
            ("keeps: 4 weeks in the fridge", "keeps: 672 h ! unknown-value"),
            ("keeps: 6 months frozn", "keeps: 4320 h ! unknown-value"),
            ("keeps: 6 months somewhere", "keeps: 4320 h ! unknown-value"),
            ("keeps: forever", "keeps: bad ! unreadable-amount"),
            ("keeps: 0 days", "keeps: bad ! unreadable-amount"),
        ],
    );
}

#[test]
fn properties() {
    table(
        "prep",
        &[
            ("abv: 43 %", "abv: 43"),
            ("abv: 43", "abv: 43"),
            ("abv: 43 % abv", "abv: 43"),
            ("abv: 43 % vol", "abv: 43"),
            ("abv: 86 proof", "abv: 43"),
            ("abv: 0 %", "abv: 0"),
            ("abv: 120 %", "abv: bad ! unknown-value"),
            ("abv: -3 %", "abv: bad ! unreadable-amount"),
            ("abv: strong", "abv: bad ! unreadable-amount"),
            ("abv: 40-43 %", "abv: bad ! unreadable-amount"),
            ("brix: 66", "brix: 66"),
            ("brix: 66 brix", "brix: 66"),
            ("brix: 66 °Bx", "brix: 66"),
            ("brix: 66 %", "brix: 66"),
            ("sugar: 30 g/100 ml", "sugar: 30"),
            ("sugar: 300 g/l", "sugar: 30"),
            ("sugar: 30 %", "sugar: 30"),
            ("sugar: 0 g/100 ml", "sugar: 0"),
            ("sugar: 30", "sugar: bad ! missing-unit"),
            ("sugar: 22,5 %", "sugar: 22.5 ! decimal-comma"),
            ("acid: 6 %", "acid: 6"),
            ("acid: 6", "acid: bad ! missing-unit"),
            ("salt: 20 %", "salt: 20"),
            ("density: 1.23", "density: 1.23"),
            ("density: 1.23 g/ml", "density: 1.23"),
            ("density: 1230 g/l", "density: 1.23"),
            ("density: 1230 kg/m3", "density: 1.23"),
            ("ph: 2.4", "ph: 2.4"),
            ("ph: pH 2.4", "ph: 2.4"),
            ("ph: 2,4", "ph: 2.4 ! decimal-comma"),
            ("ph: 15", "ph: bad ! unknown-value"),
        ],
    );
}

#[test]
fn stock() {
    table(
        "stock",
        &[
            ("fat: 36 %", "fat: 36"),
            ("dash: 0.9 ml", "dash: 0.9 ml"),
            ("dash: 0.9", "dash: bad ! missing-unit"),
            ("pack: 700 ml", "pack: 1 x 700 ml"),
            ("pack: 12 x 330 ml", "pack: 12 x 330 ml"),
            ("pack: 12x330ml", "pack: 12 x 330 ml"),
            ("pack: 12 × 330 ml", "pack: 12 x 330 ml"),
            ("pack: 1 kg", "pack: 1 x 1 kg"),
            ("pack: 6", "pack: bad ! missing-unit"),
            ("pack: 0 x 330 ml", "pack: bad ! unreadable-amount"),
            ("pack: big", "pack: bad ! unreadable-amount"),
            ("waste: 5 %", "waste: 5"),
            ("cost: 24.50 EUR", "cost: 24.5 EUR"),
            ("cost: 24,50 €", "cost: 24.5 € ! decimal-comma"),
            ("cost: €24.50", "cost: 24.5 €"),
            ("cost: £12", "cost: 12 £"),
            ("cost: 12 £", "cost: 12 £"),
            ("cost: A$ 30", "cost: 30 A$"),
            ("cost: USD 5", "cost: 5 USD"),
            ("cost: 0 EUR", "cost: 0 EUR"),
            ("cost: 12", "cost: bad ! missing-unit"),
            ("cost: 12 euros", "cost: bad ! unreadable-amount"),
            ("cost: cheap", "cost: bad ! unreadable-amount"),
            ("also: pear brandy, poire", "also: pear brandy | poire"),
            ("kind: pear brandy", "kind: text"),
            ("source: the orchard, 2024", "source: text"),
            ("store: cellar", "store: text"),
            ("contains: none", "contains: none"),
            ("may-contain: nuts, milk", "may-contain: nuts | milk"),
        ],
    );
}

#[test]
fn glasses_and_ice() {
    table(
        "drink",
        &[
            ("glass: coupe", "glass: coupe"),
            ("glass: coupe, chilled", "glass: coupe, chilled"),
            ("glass: coupe 160 ml", "glass: coupe of 160 ml"),
            ("glass: coupe 160ml, chilled", "glass: coupe of 160 ml, chilled"),
            ("glass: chilled coupe", "glass: coupe, chilled"),
            ("glass: small coupe 140 ml", "glass: coupe of 140 ml, small"),
            ("glass: collins (400 ml)", "glass: collins of 400 ml"),
            ("glass: collins, 400 ml", "glass: collins of 400 ml"),
            ("glass: highball 12 fl oz", "glass: highball of 12 oz"),
            ("glass: large wine glass", "glass: large wine glass"),
            ("glass: none", "glass: none"),
            ("vessel: tin 800 ml", "vessel: tin of 800 ml"),
            ("ice: cubed", "ice: cubed"),
            ("ice: crushed", "ice: crushed"),
            ("ice: none", "ice: none"),
            ("ice: None", "ice: none"),
            ("ice: large cube", "ice: large cube"),
            ("ice: large cube 5 cm", "ice: large cube 5 cm"),
            ("ice: large cube (5 cm)", "ice: large cube (5 cm)"),
            ("ice: sphere, 60 mm", "ice: sphere | 60 mm"),
            ("ice: dry ice", "ice: dry ice"),
            ("ice: cubes", "ice: cubes"),
            ("ice: nugget", "ice: nugget"),
            ("ice: gravel", "ice: gravel ! unknown-value"),
            ("ice: crusht", "ice: crusht ! unknown-value"),
        ],
    );
}

#[test]
fn drinks() {
    table(
        "drink",
        &[
            ("serve: up", "serve: up"),
            ("serve: Rocks", "serve: Rocks"),
            ("serve: on the rocks", "serve: on the rocks ! unknown-value"),
            ("serve: rock", "serve: rock ! unknown-value"),
            ("serve: sideways", "serve: sideways ! unknown-value"),
            ("serves: 2", "serves: 2"),
            ("portion: 120 ml", "portion: 120 ml"),
            ("part: 30 ml", "part: 30 ml"),
            ("part: 30", "part: bad ! missing-unit"),
            ("part: a lot", "part: bad ! unreadable-amount"),
            ("total: 90 ml", "total: 90 ml"),
            ("strength: 18 %", "strength: 18"),
            ("price: 12 GBP", "price: 12 GBP"),
            ("price: 12.50", "price: bad ! missing-unit"),
            ("family: sour", "family: sour"),
            ("family: sour, daisy", "family: sour | daisy"),
            ("family: none", "family: none"),
            ("status: draft", "status: draft"),
            ("status: retired", "status: retired"),
            ("status: drafft", "status: drafft ! unknown-value"),
            ("contains: none", "contains: none"),
            ("contains: egg, milk", "contains: egg | milk"),
            ("free-from: alcohol, animal", "free-from: alcohol | animal"),
            ("Free From: alcohol", "free-from: alcohol"),
            ("may contain: nuts", "may-contain: nuts"),
            ("variant-of: Harbour Light", "variant-of: text"),
            ("credit: the house", "credit: text"),
            ("menu: bright, and 22,5 of everything", "menu: text"),
            ("note: anything: at all", "note: text"),
            ("tags: spring, long", "tags: spring | long"),
            ("garnish: none", "garnish: none"),
            ("garnish: pear slice", "garnish: pear slice"),
            (
                "garnish: orange twist, expressed; 2 cherries",
                "garnish: orange twist, expressed; 2: cherries",
            ),
            (
                "garnish: 3 mint leaves; half orange slice",
                "garnish: 3: mint leaves; 0.5: orange slice",
            ),
            ("garnish: a sprig of mint", "garnish: 1 sprig: mint"),
            ("garnish: cherry;", "garnish: cherry"),
            (
                "waive: too-sweet because the guest asked",
                "waive: too-sweet because the guest asked",
            ),
            (
                "waive: too-sweet, no-garnish-said because house style",
                "waive: too-sweet | no-garnish-said because house style",
            ),
            ("waive: too-sweet Because: why not", "waive: too-sweet because why not"),
            ("waive: too-sweet", "waive: too-sweet because nothing"),
            ("waive: because no", "waive:  because no"),
        ],
    );
}

#[test]
fn books() {
    table(
        "book",
        &[
            ("house: The Copper Heron", "house: text"),
            ("market: eu, uk", "market: eu | uk"),
            ("units: ml, dash, g", "units: ml | dash | g"),
            ("units: ml, dollop", "units: ml | dollop ! unknown-value"),
            ("note: hello", "note: text"),
        ],
    );
}

#[test]
fn faults() {
    table(
        "drink",
        &[
            ("glass:", "glass: bad ! empty-value"),
            ("note:", "note: bad ! empty-value"),
            ("garnish:   # nothing", "garnish: bad ! empty-value"),
            ("glas: coupe", "?: text ! unknown-field"),
            ("galss: coupe", "?: text ! unknown-field"),
            ("garnsh: mint", "?: text ! unknown-field"),
            ("allergens: egg", "?: text ! unknown-field"),
            ("glassware: coupe", "?: text ! unknown-field"),
            ("shelf life: 2 days", "?: text ! unknown-field"),
            ("yields: 700 ml", "yields: 700 ml ! unknown-field"),
            ("kind: gin", "kind: text ! unknown-field"),
            ("abv: 20 %", "abv: 20 ! unknown-field"),
            ("drnk: Foo", "?: text ! unknown-field"),
            ("cocktail: Foo", "?: text ! unknown-field"),
            ("method: shake", "?: text ! unknown-field"),
            ("ingredients: gin", "?: text ! unknown-field"),
            ("whatever: x", "?: text ! unknown-field"),
            ("a b c d: e", "1: b c d: e"),
            ("Shake hard: with ice", "unread ! syntax"),
        ],
    );
}

/// The line after the first mend of its first problem.
#[test]
fn first_mends() {
    let rows = [
        ("prep", "yields: 22,5 ml", "yields: 22.5 ml"),
        ("prep", "yields: 1,000 ml", "yields: 1000 ml"),
        ("prep", "keeps: 4 weeks in the fridge", "keeps: 4 weeks chilled"),
        ("prep", "keeps: 6 months frozn", "keeps: 6 months frozen"),
        ("prep", "sugar: 22,5 %", "sugar: 22.5 %"),
        ("prep", "ph: 2,4", "ph: 2.4"),
        ("stock", "cost: 24,50 €", "cost: 24.50 €"),
        ("drink", "ice: crusht", "ice: crushed"),
        ("drink", "serve: on the rocks", "serve: rocks"),
        ("drink", "serve: rock", "serve: rocks"),
        ("drink", "status: drafft", "status: draft"),
        ("drink", "glas: coupe", "glass: coupe"),
        ("drink", "galss: coupe", "glass: coupe"),
        ("drink", "garnsh: mint", "garnish: mint"),
        ("drink", "allergens: egg", "contains: egg"),
        ("drink", "glassware: coupe", "glass: coupe"),
        ("drink", "abv: 20 %", "strength: 20 %"),
        ("drink", "drnk: Foo", "drink: Foo"),
        ("drink", "cocktail: Foo", "drink: Foo"),
        ("drink", "Shake hard: with ice", "- Shake hard: with ice"),
    ];
    for (heading, line, expected) in rows {
        assert_eq!(mended(heading, line), expected, "{line}");
    }
}
