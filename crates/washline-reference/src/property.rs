//! Properties that rules and figures ask for.

use crate::vocabulary::vocabulary;

vocabulary! {
    /// A property that a rule or the figures ask for.
    Trait {
        /// Holds carbon dioxide under pressure; shaken, it bursts.
        Carbonated = "carbonated",
        /// Citrus juice or fruit.
        Citrus = "citrus",
        /// Clouds a drink: unclarified juice, puree.
        Cloudy = "cloudy",
        /// Raw egg, or a part of one.
        RawEgg = "raw-egg",
        /// Foams when shaken (egg white, aquafaba, foaming drops).
        Foams = "foams",
        /// Milk or cream that acid can curdle.
        Curdles = "curdles",
        /// Cream liqueur or egg liqueur.
        CreamLiqueur = "cream-liqueur",
        /// Needs pasteurisation if it is sold sealed (raw milk, raw juice, cider).
        RawPerishable = "raw-perishable",
        /// A distillate: what it was distilled from is no allergen where the law exempts it.
        Distillate = "distillate",
        /// Smoky or peaty: strong even in small amounts.
        Smoky = "smoky",
        /// Holds caffeine.
        Caffeine = "caffeine",
        /// Made with cinchona bark.
        Cinchona = "cinchona",
        /// Dry ice or liquid nitrogen.
        Cryogen = "cryogen",
        /// Activated charcoal.
        Charcoal = "charcoal",
        /// Poisonous as a garnish.
        ToxicPlant = "toxic-plant",
        /// Restricted or forbidden in own infusions.
        Restricted = "restricted",
        /// Poisons in the amounts that an infusion draws.
        Poisonous = "poisonous",
        /// Poisons raw: it must be cooked before it is drunk.
        NeedsHeat = "needs-heat",
        /// Garlic, herb or vegetable that can carry botulism spores into oil or weak syrup.
        LowAcidRisk = "low-acid-risk",
        /// Sugar so thick or dry that cold spirit does not dissolve it.
        SlowToDissolve = "slow-to-dissolve",
        /// A leaf, seed or fruit that leaves bits when muddled.
        LeavesBits = "leaves-bits",
        /// Can still ferment (tepache, kombucha, ginger bug).
        Ferments = "ferments",
        /// Hot when it is served (coffee, hot water, tea).
        Hot = "hot",
        /// Of animal origin: egg, dairy, honey, gelatin.
        Animal = "animal",
        /// Of meat or fish.
        MeatOrFish = "meat-or-fish",
        /// A plain syrup whose strength must be known: sugar and water.
        PlainSyrup = "plain-syrup",
        /// A dark or clear spirit; a clear drink of such is stirred.
        Clear = "clear",
        /// Bitter: an amaro, aperitif or bitters.
        Bitter = "bitter",
    }
}
