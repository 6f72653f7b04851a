//! Steps: acts, techniques and clauses.

use crate::read::{mended, table};

#[test]
fn service() {
    table(
        "drink",
        &[
            (
                "- shake hard with cubed ice for 12 s, double strain",
                "hard shake ice:cubed 12s / double strain",
            ),
            (
                "- shake with cubed ice for 12 s, double strain into a chilled coupe",
                "shake ice:cubed 12s / double strain into:a chilled coupe",
            ),
            (
                "- Shake with ice. Strain over fresh ice into a rocks glass.",
                "shake ice:plain / strain ice:plain into:a rocks glass",
            ),
            (
                "- stir with plenty of ice for 30 seconds until ice cold, strain",
                "stir ice:plain 30s until:ice cold / strain",
            ),
            (
                "- dry shake, shake with ice, fine strain",
                "dry shake / shake ice:plain / fine strain",
            ),
            (
                "- dry-shake without ice for 10 sec; shake hard; double-strain",
                "dry shake no-ice 10s / hard shake / double strain",
            ),
            ("- shake without ice", "dry shake no-ice"),
            ("- Reverse dry shake", "reverse dry shake"),
            ("- shake hard", "hard shake"),
            ("- shake very hard", "hard shake"),
            ("- whip shake with crushed ice, open pour", "whip shake ice:crushed / open pour"),
            ("- dirty dump", "open pour"),
            ("- build over a large cube, stir 10 s", "build ice:largecube / stir 10s"),
            ("- build in the glass over cubed ice, top with soda", "build ice:cubed / top"),
            ("- throw six times, strain", "throw / strain"),
            ("- roll, strain into the tin", "roll / strain into:the tin"),
            ("- swizzle with crushed ice until frosted", "swizzle ice:crushed until:frosted"),
            ("- crown with crushed ice", "?crown ice:crushed"),
            ("- fill with crushed ice", "fill ice:crushed"),
            ("- add cubed ice, stir", "add ice:cubed / stir"),
            ("- blend with crushed ice for 20 s", "blend ice:crushed 20s"),
            ("- flash blend with ice 3 s", "flash blend ice:plain 3s"),
            ("- muddle the mint, add the rest", "muddle / add"),
            ("- add the gin and vermouth, stir for 20-30 s", "add / stir 20..30s"),
            ("- shake all but the soda", "shake"),
            ("- strain over one large ice cube", "strain ice:largecube"),
            ("- strain over a sphere", "strain ice:sphere"),
            ("- strain over the rocks", "strain ice:plain"),
            ("- serve over ice cream", "serve"),
            ("- add a pellet of dry ice", "add ice:dry"),
            ("- drop in dry ice, serve", "add ice:dry / serve"),
            ("- pour into the tin and shake", "pour into:the tin / shake"),
            ("- express the oil of a lemon peel over the drink and discard", "express / discard"),
            ("- flame an orange peel, garnish", "flame / garnish"),
            ("- rinse the glass with absinthe, discard", "rinse / discard"),
            ("- layer the cream, then dust with nutmeg", "layer / dust"),
            ("- then gently pour", "pour"),
            ("- finally, top with tonic", "top"),
            ("- carefully float the rum", "float"),
            ("- stir to 35 ml", "stir stated:35 ml"),
            ("- stir down to 90 ml", "stir stated:90 ml"),
            ("- stir down 40 %", "stir stated:40%"),
            ("- stir down by 40 %", "stir stated:40%"),
            ("- shake to 120 ml", "shake stated:120 ml"),
            ("- no ice", "?no no-ice"),
        ],
    );
}

#[test]
fn preparation() {
    table(
        "prep",
        &[
            ("- warm to 50 C, stir until even", "warm 50C / stir until:even"),
            ("- warm gently to 50°C", "warm 50C"),
            ("- heat to 80-85 °C, hold 20 min", "heat 82.5C / rest 1200s"),
            ("- heat to 180 F", "heat 82.2C"),
            ("- freeze at -18 °C overnight", "freeze 43200s -18C"),
            ("- freeze at \u{2212}18C", "freeze -18C"),
            ("- sous vide at 57 C for 2 h", "sous vide 7200s 57C"),
            ("- cook sous vide at 57.5 °C for 1 1/2 hours", "sous vide 5400s 57.5C"),
            ("- bring to a boil, simmer for 10 minutes", "boil / simmer 600s"),
            ("- reduce to 500 ml", "reduce"),
            ("- cool, bottle, label, refrigerate", "cool / bottle / label / refrigerate"),
            ("- bottle, label, date", "bottle / label / date"),
            ("- chill overnight", "refrigerate 43200s"),
            ("- infuse 24 h, strain through a coffee filter", "infuse 86400s / strain"),
            ("- infuse for 2-3 days at 20 C, agitate daily", "infuse 172800..259200s 20C"),
            ("- macerate half an hour", "macerate 1800s"),
            ("- rest for 10\u{2013}12 min", "rest 600..720s"),
            ("- steep for an hour", "steep 3600s"),
            ("- wash, peel and juice", "wash / peel / juice"),
            ("- peel 12 lemons, juice them", "peel / juice"),
            ("- zest the lemons and dry the zest", "zest / dry"),
            ("- milk-wash, filter", "milk wash / filter"),
            ("- fat wash at -18 C for 12 h, skim", "fat wash 43200s -18C / skim"),
            ("- add sugar, zest and dry vermouth", "add"),
            ("- carbonate at 2 C", "carbonate 2C"),
        ],
    );
}

#[test]
fn other_words() {
    table(
        "drink",
        &[
            ("- glub the gin, shake", "?glub / shake"),
            ("- everything into a tin", "?everything into:a tin"),
            ("- 2 hours later, strain", "? 7200s / strain"),
            ("- 30 ml gin", "? ! wrong-bullet"),
            ("- 2 limes", "?"),
            ("-", " ! empty-step"),
            ("-   # nothing", " ! empty-step"),
            ("\u{2013} shake hard", "hard shake ! wrong-bullet"),
            ("\u{2014} shake", "shake ! wrong-bullet"),
            ("\u{2022} stir, strain", "stir / strain ! wrong-bullet"),
            ("* stir", "stir ! wrong-bullet"),
            ("-shake", "shake ! wrong-bullet"),
            ("1. Shake hard", "hard shake ! wrong-bullet"),
            ("2) strain", "strain ! wrong-bullet"),
            ("\u{2022} 30 ml gin", "30 ml: gin ! wrong-bullet"),
            ("1. 30 ml gin", "30 ml: gin ! wrong-bullet"),
            ("+ shake", "shake ! wrong-bullet"),
        ],
    );
}

/// The line after the first mend of its first problem.
#[test]
fn first_mends() {
    let rows = [
        ("drink", "- 30 ml gin", "30 ml gin"),
        ("drink", "\u{2013} shake hard", "- shake hard"),
        ("drink", "\u{2014} shake", "- shake"),
        ("drink", "\u{2022} stir, strain", "- stir, strain"),
        ("drink", "* stir", "- stir"),
        ("drink", "-shake", "- shake"),
        ("drink", "1. Shake hard", "- Shake hard"),
        ("drink", "2) strain", "- strain"),
        ("drink", "\u{2022} 30 ml gin", "30 ml gin"),
        ("drink", "1. 30 ml gin", "30 ml gin"),
        ("drink", "+ shake", "- shake"),
    ];
    for (heading, line, expected) in rows {
        assert_eq!(mended(heading, line), expected, "{line}");
    }
}
