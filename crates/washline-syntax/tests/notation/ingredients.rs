//! Ingredient lines: every form of an amount, and what follows it.

use crate::read::{mended, table};

#[test]
fn numbers() {
    table(
        "drink",
        &[
            ("60 ml gin", "60 ml: gin"),
            ("22.5 ml lemon juice", "22.5 ml: lemon juice"),
            (".75 oz gin", "0.75 oz: gin"),
            ("0.75 oz gin", "0.75 oz: gin"),
            ("3/4 oz gin", "0.75 oz: gin"),
            ("3 / 4 oz gin", "0.75 oz: gin"),
            ("3\u{2044}4 oz gin", "0.75 oz: gin"),
            ("1 1/2 oz gin", "1.5 oz: gin"),
            ("1-1/2 oz gin", "1.5 oz: gin"),
            ("1 - 1/2 oz gin", "1.5 oz: gin"),
            ("1\u{2013}1/2 oz gin", "1.5 oz: gin"),
            ("2-3/4 oz gin", "2.75 oz: gin"),
            ("½ oz gin", "0.5 oz: gin"),
            ("1½ oz gin", "1.5 oz: gin"),
            ("1 ½ oz gin", "1.5 oz: gin"),
            ("1-½ oz gin", "1.5 oz: gin"),
            ("⅔ oz gin", "2/3 oz: gin"),
            ("1⅛ oz gin", "1.125 oz: gin"),
            ("1.250 l water", "1.25 l: water"),
            ("007 ml gin", "7 ml: gin"),
            ("999999999 ml water", "999999999 ml: water"),
            ("0.000001 l water", "0.000001 l: water"),
        ],
    );
}

#[test]
fn ranges_approximations_and_words() {
    table(
        "drink",
        &[
            ("10-15 ml gin", "10..15 ml: gin"),
            ("10\u{2013}15 ml gin", "10..15 ml: gin"),
            ("10\u{2014}15 ml gin", "10..15 ml: gin"),
            ("10 \u{2013} 15 ml gin", "10..15 ml: gin"),
            ("10 to 15 ml gin", "10..15 ml: gin"),
            ("1 or 2 dashes bitters", "1..2 dashes: bitters"),
            ("1/2-3/4 oz gin", "0.5..0.75 oz: gin"),
            ("1 1/2-2 oz gin", "1.5..2 oz: gin"),
            ("1-2 1/2 oz gin", "1..2.5 oz: gin"),
            ("two to three dashes bitters", "2..3 dashes: bitters"),
            ("~8 mint leaves", "~8: mint leaves"),
            ("\u{2248}8 mint leaves", "~8: mint leaves"),
            ("about 30 ml gin", "~30 ml: gin"),
            ("ca. 30 ml gin", "~30 ml: gin"),
            ("ca 30 ml gin", "~30 ml: gin"),
            ("approx. 30 ml gin", "~30 ml: gin"),
            ("a pinch of salt", "1 pinch: salt"),
            ("an egg white", "1: egg white"),
            ("one egg", "1: egg"),
            ("Twelve lemons", "12: lemons"),
            ("half a lime", "0.5: lime"),
            ("half an orange", "0.5: orange"),
            ("half oz gin", "0.5 oz: gin"),
            ("half lime", "0.5: lime"),
            ("one half oz gin", "0.5 oz: gin"),
            ("A dash of bitters", "1 dash: bitters"),
        ],
    );
}

#[test]
fn units() {
    table(
        "drink",
        &[
            ("60ml gin", "60 ml: gin"),
            ("60mL gin", "60 ml: gin"),
            ("6cl gin", "6 cl: gin"),
            ("6 cL gin", "6 cl: gin"),
            ("1 L water", "1 l: water"),
            ("2 litres water", "2 l: water"),
            ("1 dl cream", "1 dl: cream"),
            ("1.5oz gin", "1.5 oz: gin"),
            ("1½oz gin", "1.5 oz: gin"),
            ("1 fl oz gin", "1 oz: gin"),
            ("1 fl. oz. gin", "1 oz: gin"),
            ("1 US fl oz gin", "1 oz: gin"),
            ("2 ounces gin", "2 oz: gin"),
            ("2 fluid ounces gin", "2 oz: gin"),
            ("1 imp oz gin", "1 imp oz: gin"),
            ("2 oz wt sugar", "2 oz wt: sugar"),
            ("1 oz. gin", "1 oz: gin"),
            ("1 tsp sugar", "1 tsp: sugar"),
            ("1 Tbsp sugar", "1 tbsp: sugar"),
            ("2 tblsp sugar", "2 tbsp: sugar"),
            ("1 cup sugar", "1 cup: sugar"),
            ("1 pint ale", "1 pint: ale"),
            ("1 quart water", "1 quart: water"),
            ("1 gallon water", "1 gallon: water"),
            ("1 gill rum", "1 gill: rum"),
            ("2 dashes bitters", "2 dashes: bitters"),
            ("3 drops saline", "3 drops: saline"),
            ("1 dropper saline", "1 dropper: saline"),
            ("2 sprays absinthe", "2 sprays: absinthe"),
            ("1 bsp syrup", "1 bsp: syrup"),
            ("1 barspoon syrup", "1 bsp: syrup"),
            ("2 bar spoons syrup", "2 bsp: syrup"),
            ("1 bar spoon syrup", "1 bsp: syrup"),
            ("1 splash soda", "1 splash: soda"),
            ("1 shot espresso", "1 shot: espresso"),
            ("1 jigger gin", "1 jigger: gin"),
            ("1 pony brandy", "1 pony: brandy"),
            ("1 wineglass sherry", "1 wineglass: sherry"),
            ("1 capful rum", "1 capful: rum"),
            ("2 parts gin", "2 parts: gin"),
            ("300 mg quinine", "300 mg: quinine"),
            ("30 g salt", "30 g: salt"),
            ("2 kilo sugar", "2 kg: sugar"),
            ("1 kg sugar", "1 kg: sugar"),
            ("1 lb butter", "1 lb: butter"),
            ("3 pcs ginger", "3 pieces: ginger"),
            ("2 leaves basil", "2 leaves: basil"),
            ("2 sprigs mint", "2 sprigs: mint"),
            ("1 knob butter", "1 knob: butter"),
            ("1 bottle sparkling wine", "1 bottle: sparkling wine"),
            ("2 cans cola", "2 cans: cola"),
            ("60 ML gin", "60 ml: gin"),
        ],
    );
}

#[test]
fn counts_and_names() {
    table(
        "drink",
        &[
            ("1 egg white", "1: egg white"),
            ("8 mint leaves", "8: mint leaves"),
            ("1 sugar cube", "1: sugar cube"),
            ("3 cucumber slices", "3: cucumber slices"),
            ("40 cloves", "40: cloves"),
            ("6 berries", "6: berries"),
            ("3 cloves, crushed", "3: cloves, crushed"),
            ("2 halves", "2: halves"),
            ("2 egg whites, fresh", "2: egg whites, fresh"),
            ("60 ml 151 rum", "60 ml: 151 rum"),
            ("30 ml half and half", "30 ml: half and half"),
            ("1 half-and-half", "1: half-and-half"),
            ("1 double espresso", "1: double espresso"),
            ("1/3 cognac", "1/3: cognac"),
            ("2 dashes of bitters", "2 dashes: bitters"),
            ("1 slice of lime", "1 slice: lime"),
            ("60 ml (2 oz) of gin", "60 ml = 2 oz: gin"),
            ("60 ml gin #1", "60 ml: gin #1"),
            ("60 ml gin # cold", "60 ml: gin"),
            (r"60 ml gin \# 1", r"60 ml: gin \# 1"),
            ("60 ml bourbon or rye whiskey", "60 ml: bourbon or rye whiskey"),
        ],
    );
}

#[test]
fn sums_and_seconds() {
    table(
        "drink",
        &[
            ("3/4 oz + 1 bsp gin", "0.75 oz + 1 bsp: gin"),
            ("3/4 oz+1 bsp gin", "0.75 oz + 1 bsp: gin"),
            ("1 oz + 1/2 oz + 1 bsp gin", "1 oz + 0.5 oz + 1 bsp: gin"),
            ("60 ml (2 oz) gin", "60 ml = 2 oz: gin"),
            ("60 ml gin (2 oz)", "60 ml = 2 oz: gin"),
            ("60 ml gin (2 oz), cold", "60 ml = 2 oz: gin, cold"),
            ("60 ml gin, cold (2 oz)", "60 ml = 2 oz: gin, cold"),
            ("60 ml gin, cold, (2 oz)", "60 ml = 2 oz: gin, cold"),
            ("52.5 ml  (1 3/4 oz)  pear brandy", "52.5 ml = 1.75 oz: pear brandy"),
            ("1 can (330 ml) cola", "1 can = 330 ml: cola"),
            ("1 can cola (330 ml)", "1 can = 330 ml: cola"),
            ("60 ml (about 2 oz) gin", "60 ml = ~2 oz: gin"),
            ("60 ml (1 1/2-2 oz) gin", "60 ml = 1.5..2 oz: gin"),
            ("2 limes (a handful)", "2 = 1 handful: limes"),
        ],
    );
}

#[test]
fn qualifiers() {
    table(
        "drink",
        &[
            ("60 ml gin, cold, dry", "60 ml: gin, cold, dry"),
            ("60 ml gin (dry, cold), fresh", "60 ml: gin, dry, cold, fresh"),
            ("60 ml (good) gin", "60 ml: gin, good"),
            ("60 ml gin (good) (old)", "60 ml: gin, good, old"),
            ("30 ml rum, 57 %", "30 ml: rum, 57 %"),
            ("30 ml rum, 22,5 %", "30 ml: rum, 22,5 %"),
            ("30 ml rum (151 proof)", "30 ml: rum, 151 proof"),
            ("30 ml syrup (2:1)", "30 ml: syrup, 2:1"),
            ("30 ml syrup (66 brix)", "30 ml: syrup, 66 brix"),
            ("30 ml whisky (10 year)", "30 ml: whisky, 10 year"),
            ("30 ml whisky (12-year-old)", "30 ml: whisky, 12-year-old"),
            ("30 ml gin (", "30 ml: gin ("),
            ("30 ml gin (dry, cold", "30 ml: gin (dry, cold"),
            ("30 ml gin ()", "30 ml: gin"),
            ("30 ml gin,", "30 ml: gin"),
        ],
    );
}

#[test]
fn roles() {
    table(
        "drink",
        &[
            ("90 ml soda water, to top", "90 ml: soda water, to top <top>"),
            ("90 ml soda water, top", "90 ml: soda water, top <top>"),
            ("90 ml soda water to top", "90 ml: soda water <top>"),
            ("15 ml cream, float", "15 ml: cream, float <float>"),
            ("15 ml cream, as a float", "15 ml: cream, as a float <float>"),
            ("5 ml absinthe, rinse", "5 ml: absinthe, rinse <rinse>"),
            ("5 ml absinthe rinse", "5 ml: absinthe <rinse>"),
            ("2 sprays absinthe, for mist", "2 sprays: absinthe, for mist <mist>"),
            ("1 lime wheel, for garnish", "1: lime wheel, for garnish <garnish>"),
            ("1 pinch salt, to taste", "1 pinch: salt, to taste <taste>"),
            ("1 egg white, optional", "1: egg white, optional <optional>"),
            ("1 egg white (optional)", "1: egg white, optional <optional>"),
            ("30 ml beer, on the side", "30 ml: beer, on the side <side>"),
            ("15 ml cream, float, optional", "15 ml: cream, float, optional <optional>"),
            ("2 tsp salt, for the rim", "2 tsp: salt, for the rim <rim>"),
        ],
    );
}

#[test]
fn amount_words() {
    table(
        "drink",
        &[
            ("top soda water", "top: soda water <top>"),
            ("Top: no", "unread ! syntax"),
            ("top up with soda water", "top: soda water <top>"),
            ("top with soda water", "top: soda water <top>"),
            ("top (90 ml) soda water", "top = 90 ml: soda water <top>"),
            ("top soda water (90 ml)", "top = 90 ml: soda water <top>"),
            ("fill ginger beer", "fill: ginger beer <top>"),
            ("fill up with ginger beer", "fill: ginger beer <top>"),
            ("rinse absinthe", "rinse: absinthe <rinse>"),
            ("rinse (5 ml) of absinthe", "rinse = 5 ml: absinthe <rinse>"),
            ("float cream", "float: cream <float>"),
            ("mist absinthe", "mist: absinthe <mist>"),
            ("rim salt", "rim: salt <rim>"),
            ("rim (half) salt", "rim = 0.5: salt <rim>"),
            ("to taste salt", "to taste: salt <taste>"),
            ("top-shelf gin", "unread ! syntax"),
        ],
    );
}

#[test]
fn turned() {
    table(
        "drink",
        &[
            ("soda water, to top", "top: soda water <top> turned ! turned-line"),
            ("soda water, top", "top: soda water <top> turned ! turned-line"),
            ("soda water to top", "top: soda water <top> turned ! turned-line"),
            ("soda water, chilled, to top", "top: soda water, chilled <top> turned ! turned-line"),
            ("absinthe rinse", "rinse: absinthe <rinse> turned ! turned-line"),
            ("Dry vermouth rinse", "rinse: Dry vermouth <rinse> turned ! turned-line"),
            ("cream float", "float: cream <float> turned ! turned-line"),
            ("salt rim", "rim: salt <rim> turned ! turned-line"),
            ("half salt rim", "rim = 0.5: salt <rim> turned ! turned-line"),
            ("1/2 salt rim", "rim = 0.5: salt <rim> turned ! turned-line"),
            ("salt, to taste", "to taste: salt <taste> turned ! turned-line"),
            ("salt to taste", "to taste: salt <taste> turned ! turned-line"),
            ("chilled soda, to top", "top: chilled soda <top> turned ! turned-line"),
            ("splash soda", "1 splash: soda ! turned-line"),
            ("splash of soda", "1 splash: soda ! turned-line"),
            ("dash bitters", "1 dash: bitters ! turned-line"),
            ("drop saline", "1 drop: saline ! turned-line"),
            ("pinch of salt", "1 pinch: salt ! turned-line"),
            ("barspoon syrup", "1 bsp: syrup ! turned-line"),
            ("handful mint", "1 handful: mint ! turned-line"),
            ("bunch mint", "1 bunch: mint ! turned-line"),
        ],
    );
}

#[test]
fn parts() {
    table(
        "drink",
        &[
            ("juice of 1/2 lime", "juice of 0.5: lime"),
            ("juice of half a lime", "juice of 0.5: lime"),
            ("the juice of a lime", "juice of 1: lime"),
            ("juice of 1/2 lime (15 ml)", "juice of 0.5 = 15 ml: lime"),
            ("juice from 2 limes", "juice of 2: limes"),
            ("half a lime, juiced", "juice of 0.5: lime, juiced"),
            ("2 limes, juiced", "juice of 2: limes, juiced"),
            ("zest of 12 lemons", "zest of 12: lemons"),
            ("peel of 1 orange", "peel of 1: orange"),
            ("white of 1 egg", "white of 1: egg"),
            ("whites of 2 eggs", "white of 2: eggs"),
            ("yolk of 1 egg", "yolk of 1: egg"),
            ("2 oranges, peeled", "2: oranges, peeled"),
        ],
    );
}

#[test]
fn vague() {
    table(
        "drink",
        &[
            ("a few mint leaves", "few: mint leaves"),
            ("a few leaves of mint", "few leaves: mint"),
            ("few dashes bitters", "few dashes: bitters"),
            ("some mint", "few: mint"),
            ("several berries", "few: berries"),
            ("a little sugar", "few: sugar"),
        ],
    );
}

#[test]
fn shared() {
    table(
        "drink",
        &[
            (
                "15 ml each lemon and lime juice",
                "15 ml: each of lemon | lime juice ! shared-amount",
            ),
            (
                "15 ml each of gin, vermouth, and amaro",
                "15 ml: each of gin | vermouth | amaro ! shared-amount",
            ),
            ("15 ml each: gin & rum", "15 ml: each of gin | rum ! shared-amount"),
            (
                "15 ml (1/2 oz) each gin and rum",
                "15 ml = 0.5 oz: each of gin | rum ! shared-amount",
            ),
            (
                "1 dash each orange and aromatic bitters",
                "1 dash: each of orange | aromatic bitters ! shared-amount",
            ),
            (
                "equal parts gin, sweet vermouth and red bitter",
                "1 part: each of gin | sweet vermouth | red bitter ! shared-amount",
            ),
            ("equal parts of gin and rum", "1 part: each of gin | rum ! shared-amount"),
        ],
    );
}

#[test]
fn doubts() {
    table(
        "drink",
        &[
            ("22,5 ml lemon juice", "22.5 ml: lemon juice ! decimal-comma"),
            ("0,5 l water", "0.5 l: water ! decimal-comma"),
            ("5/6 mint leaves", "5/6: mint leaves ! doubtful-fraction"),
            ("5/6 leaves mint", "5/6 leaf: mint ! doubtful-fraction"),
            ("6/8 dashes bitters", "0.75 dash: bitters ! doubtful-fraction"),
            ("2/3 cubes sugar", "2/3 cube: sugar ! doubtful-fraction"),
            ("1/2 leaf gelatine", "0.5 leaf: gelatine"),
            ("3/4 sprig mint", "0.75 sprig: mint ! doubtful-fraction"),
            ("5/6 oz gin", "5/6 oz: gin"),
            ("60 ml (2,5 oz) gin", "60 ml = 2.5 oz: gin ! decimal-comma"),
        ],
    );
}

#[test]
fn no_name() {
    table(
        "drink",
        &[
            ("60 ml", "60 ml:  ! missing-name"),
            ("60 ml # gin", "60 ml:  ! missing-name"),
            ("60 ml (2 oz)", "60 ml = 2 oz:  ! missing-name"),
            ("60 ml, fresh", "60 ml: , fresh ! missing-name"),
            ("2 dashes", "2 dashes:  ! missing-name"),
            ("top", "top:  <top> ! missing-name"),
            ("top (90 ml)", "top = 90 ml:  <top> ! missing-name"),
            ("a few", "few:  ! missing-name"),
            ("juice of 1/2", "juice of 0.5:  ! missing-name"),
            ("1", "1:  ! missing-name"),
        ],
    );
}

/// The line after the first mend of its first problem.
#[test]
fn first_mends() {
    let rows = [
        ("drink", "Top: no", "- Top: no"),
        ("drink", "soda water, to top", "top soda water"),
        ("drink", "soda water, top", "top soda water"),
        ("drink", "soda water to top", "top soda water"),
        ("drink", "soda water, chilled, to top", "top soda water, chilled"),
        ("drink", "absinthe rinse", "rinse absinthe"),
        ("drink", "Dry vermouth rinse", "rinse Dry vermouth"),
        ("drink", "cream float", "float cream"),
        ("drink", "salt rim", "rim salt"),
        ("drink", "half salt rim", "rim (half) salt"),
        ("drink", "1/2 salt rim", "rim (1/2) salt"),
        ("drink", "salt, to taste", "to taste salt"),
        ("drink", "salt to taste", "to taste salt"),
        ("drink", "chilled soda, to top", "top chilled soda"),
        ("drink", "splash soda", "1 splash soda"),
        ("drink", "splash of soda", "1 splash of soda"),
        ("drink", "dash bitters", "1 dash bitters"),
        ("drink", "drop saline", "1 drop saline"),
        ("drink", "pinch of salt", "1 pinch of salt"),
        ("drink", "barspoon syrup", "1 barspoon syrup"),
        ("drink", "handful mint", "1 handful mint"),
        ("drink", "bunch mint", "1 bunch mint"),
        ("drink", "15 ml each lemon and lime juice", "15 ml lemon juice / 15 ml lime juice"),
        (
            "drink",
            "15 ml each of gin, vermouth, and amaro",
            "15 ml gin / 15 ml vermouth / 15 ml amaro",
        ),
        ("drink", "15 ml each: gin & rum", "15 ml gin / 15 ml rum"),
        ("drink", "15 ml (1/2 oz) each gin and rum", "15 ml (1/2 oz) gin / 15 ml (1/2 oz) rum"),
        (
            "drink",
            "1 dash each orange and aromatic bitters",
            "1 dash orange bitters / 1 dash aromatic bitters",
        ),
        (
            "drink",
            "equal parts gin, sweet vermouth and red bitter",
            "1 part gin / 1 part sweet vermouth / 1 part red bitter",
        ),
        ("drink", "equal parts of gin and rum", "1 part gin / 1 part rum"),
        ("drink", "22,5 ml lemon juice", "22.5 ml lemon juice"),
        ("drink", "0,5 l water", "0.5 l water"),
        ("drink", "5/6 mint leaves", "5-6 mint leaves"),
        ("drink", "5/6 leaves mint", "5-6 leaves mint"),
        ("drink", "6/8 dashes bitters", "6-8 dashes bitters"),
        ("drink", "2/3 cubes sugar", "2-3 cubes sugar"),
        ("drink", "3/4 sprig mint", "3-4 sprig mint"),
        ("drink", "60 ml (2,5 oz) gin", "60 ml (2.5 oz) gin"),
        ("drink", "60 ml, fresh", "60 ml fresh"),
    ];
    for (heading, line, expected) in rows {
        assert_eq!(mended(heading, line), expected, "{line}");
    }
}
