//! What sort of thing an ingredient is.

use crate::vocabulary::vocabulary;

vocabulary! {
    /// What sort of thing an ingredient is.
    Sort {
        /// Distilled, unsweetened: gin, rum, brandy, grain alcohol.
        Spirit = "spirit",
        /// Sweetened spirit, cream and egg liqueurs, bitter aperitifs and amari.
        Liqueur = "liqueur",
        /// Dashing bitters.
        Bitters = "bitters",
        /// Vermouth, quinquina, americano.
        AromatisedWine = "aromatised-wine",
        /// Sherry, port, madeira.
        FortifiedWine = "fortified-wine",
        /// Still wine, sake.
        Wine = "wine",
        /// Sparkling wine.
        SparklingWine = "sparkling-wine",
        /// Beer, stout.
        Beer = "beer",
        /// Cider, perry.
        Cider = "cider",
        /// Juice.
        Juice = "juice",
        /// Fruit puree, nectar.
        Puree = "puree",
        /// Syrup, cordial, honey and other liquid sugar.
        Syrup = "syrup",
        /// Dry sugar.
        Sugar = "sugar",
        /// Powdered or dissolved acid, vinegar, verjus.
        Acid = "acid",
        /// Salt, saline.
        Salt = "salt",
        /// Carbonated and without alcohol.
        Soda = "soda",
        /// Still water.
        Water = "water",
        /// Ice.
        Ice = "ice",
        /// Milk, cream, butter, yoghurt, ice cream.
        Dairy = "dairy",
        /// Plant milks and creams.
        PlantMilk = "plant-milk",
        /// Egg and its parts.
        Egg = "egg",
        /// Whole or cut fruit.
        Fruit = "fruit",
        /// Whole or cut vegetable.
        Vegetable = "vegetable",
        /// Leaf herb.
        Herb = "herb",
        /// Dried spice, bark, seed, root.
        Spice = "spice",
        /// Edible or ornamental flower.
        Flower = "flower",
        /// Nut or seed.
        Nut = "nut",
        /// Tea, tisane, as leaves or brewed.
        Tea = "tea",
        /// Coffee, as grounds or brewed.
        Coffee = "coffee",
        /// Cocoa and chocolate.
        Chocolate = "chocolate",
        /// Savoury sauce, stock, brine.
        Sauce = "sauce",
        /// Oil and fat.
        Fat = "fat",
        /// Gum, gelatin, starch, enzyme, finings.
        Gum = "gum",
        /// Extract, essence, flower water, tincture.
        Extract = "extract",
        /// Dry ice, liquid nitrogen, gas.
        Gas = "gas",
        /// Anything else.
        Other = "other",
    }
}
