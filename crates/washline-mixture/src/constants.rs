//! Every constant the figures rest on, with its source and its spread.
//!
//! What nature fixes is a plain number, its spread in words. What a bar varies is a
//! [`Spread`]: the likely value and the range that holds it 95 times in 100.

use washline_measure::Estimate;

/// A likely value and the range that holds it 95 times in 100.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// The low end.
    pub low: f64,
    /// The value to use.
    pub likely: f64,
    /// The high end.
    pub high: f64,
}

impl Spread {
    /// The value with its standard uncertainty, a quarter of the width.
    #[must_use]
    pub fn estimate(self) -> Estimate {
        Estimate::of_range(self.likely, self.low, self.high)
    }
}

/// Density of ethanol at 20 °C in g/ml, the one that strength is counted by.
/// Source: OIML R 22:1975, p = 1, t = 20 °C (789.24 kg/m3). Spread: by definition, none.
pub const ETHANOL_G_PER_ML: f64 = 0.789_239_1;

/// Molar masses in g/mol. Source: IUPAC atomic masses. Spread: under 0.01.
pub const MOLAR_WATER: f64 = 18.015;
/// See [`MOLAR_WATER`].
pub const MOLAR_ETHANOL: f64 = 46.068;
/// See [`MOLAR_WATER`].
pub const MOLAR_SUCROSE: f64 = 342.296;
/// Citric acid without its crystal water; see [`MOLAR_WATER`].
pub const MOLAR_CITRIC: f64 = 192.124;
/// Citric acid with its crystal water; see [`MOLAR_WATER`].
pub const MOLAR_CITRIC_MONOHYDRATE: f64 = 210.14;
/// See [`MOLAR_WATER`].
pub const MOLAR_MALIC: f64 = 134.087;
/// See [`MOLAR_WATER`].
pub const MOLAR_TARTARIC: f64 = 150.087;
/// See [`MOLAR_WATER`].
pub const MOLAR_LACTIC: f64 = 90.078;
/// See [`MOLAR_WATER`].
pub const MOLAR_ACETIC: f64 = 60.052;
/// See [`MOLAR_WATER`].
pub const MOLAR_PHOSPHORIC: f64 = 97.994;
/// See [`MOLAR_WATER`].
pub const MOLAR_SALT: f64 = 58.443;

/// Volume of a gram of crystal sucrose, ml. Source: density 1.587 g/ml, CRC Handbook,
/// from memory. Spread: ± 0.002.
pub const CRYSTAL_SUCROSE_ML_PER_G: f64 = 1.0 / 1.587;
/// Brix up to which dissolved sugar follows the sucrose polynomial; what is beyond
/// counts as crystal. Syrups stay liquid past saturation, and honey stands here.
pub const LIQUID_BRIX: f64 = 80.0;
/// Apparent volume of a gram of dissolved citric acid, ml. Source: densities of citric
/// acid solutions at 5, 10, 20, 30 % by mass (1.0189, 1.0402, 1.0858, 1.1346 g/ml; CRC
/// Handbook by a public copy), which give 0.595 to 0.600. Spread: ± 0.02 over
/// the acids of fruit.
pub const ACID_ML_PER_G: f64 = 0.597;
/// Apparent volume of a gram of dissolved salt, ml. Source: density of 4 % sodium
/// chloride 1026.8 kg/m3 at 20 °C (Poradnik fizykochemiczny, WNT 1974), which gives
/// 0.304. Spread: 0.29 dilute to 0.35 near saturation.
pub const SALT_ML_PER_G: f64 = 0.304;
/// Volume of a gram of fat, ml. Source: density of edible oils 0.91–0.93 g/ml at 20 °C,
/// from memory. Spread: ± 0.01.
pub const FAT_ML_PER_G: f64 = 1.0 / 0.92;
/// Partial volume of a gram of protein in water, ml. Source: biochemistry handbooks,
/// from memory. Spread: ± 0.02.
pub const PROTEIN_ML_PER_G: f64 = 0.73;
/// Volume of a gram of other dissolved solids, taken as that of carbohydrate, ml.
/// Source: common practice, no source. Spread: ± 0.05.
pub const OTHER_ML_PER_G: f64 = 0.62;

/// Energy of a gram, kcal and kJ. Source: Regulation (EU) No 1169/2011, Annex XIV. The
/// two rows are not proportional: each figure is computed by its own. Spread: none, by law.
pub const ENERGY_ETHANOL: (f64, f64) = (7.0, 29.0);
/// See [`ENERGY_ETHANOL`].
pub const ENERGY_CARBOHYDRATE: (f64, f64) = (4.0, 17.0);
/// See [`ENERGY_ETHANOL`].
pub const ENERGY_PROTEIN: (f64, f64) = (4.0, 17.0);
/// See [`ENERGY_ETHANOL`].
pub const ENERGY_FAT: (f64, f64) = (9.0, 37.0);
/// Organic acid; see [`ENERGY_ETHANOL`].
pub const ENERGY_ACID: (f64, f64) = (3.0, 13.0);

/// Latent heat of melting ice at 0 °C, kJ/g. Source: IAPWS-95 and IAPWS-06, 333.43 kJ/kg.
/// Spread: ± 0.02 kJ/kg.
pub const ICE_LATENT_KJ_PER_G: f64 = 0.333_43;
/// Heat capacity of ice between -20 and 0 °C, kJ/(g K). Source: IAPWS-06, 1.950 at -20 °C
/// to 2.097 kJ/(kg K) at 0 °C; the middle. Spread: ± 0.07 kJ/(kg K) over the range.
pub const ICE_KJ_PER_G_K: f64 = 0.002_03;
/// Heat capacity of sucrose in solution at 0 °C, kJ/(g K), and its rise per K. Source:
/// slope by Brix of the formula of Bubnik & Kadlec, Sugar Technologists Manual, 1995, from
/// memory; the crystal's is 1.14 (Mohos, Confectionery and Chocolate Engineering, 2010).
/// Spread: ± 0.15 kJ/(kg K).
pub const SUGAR_KJ_PER_G_K: (f64, f64) = (0.001_22, 0.000_007_5);
/// Heat capacity of dissolved acid, salt and other solids, kJ/(g K). Source: Choi & Okos
/// 1986 (carbohydrate 1.55, ash 1.09 kJ/(kg K) at 0 °C), from memory. Spread: ± 0.4.
pub const SOLIDS_KJ_PER_G_K: f64 = 0.001_4;
/// Heat capacity of fat and protein, kJ/(g K). Source: Choi & Okos 1986 (1.98 and
/// 2.01 kJ/(kg K) at 0 °C), from memory. Spread: ± 0.1.
pub const FAT_AND_PROTEIN_KJ_PER_G_K: f64 = 0.002;

/// Lowering of the freezing point by an ideal solute, K kg/mol. Source: physical chemistry
/// handbooks, from memory. Spread: ± 0.003.
pub const CRYOSCOPIC_K_KG_PER_MOL: f64 = 1.86;
/// Lowering by citric acid, which dissociates a little, K kg/mol. Source: 10 % by mass
/// (0.578 mol/kg) freezes at -1.12 °C, CRC Handbook by a public copy.
/// Spread: ± 0.05.
pub const ACID_K_KG_PER_MOL: f64 = 1.94;
/// Lowering by salt, K kg/mol, and its growth by the square of the molality. Source: 5, 10,
/// 20 % by mass freeze at -3.0, -6.6, -16.5 °C, CRC Handbook 56th ed. by a public
/// copy. Spread: ± 0.1.
pub const SALT_K_KG_PER_MOL: (f64, f64) = (3.39, 0.0075);

/// Heat capacity of the steel tins of one shake, kJ/K. Common practice, no source
/// (350–500 g of steel at 0.5 kJ/(kg K)).
pub const TIN_KJ_PER_K: Spread = Spread { low: 0.17, likely: 0.20, high: 0.25 };
/// Heat capacity of a mixing glass, kJ/K. Common practice, no source (500 g of glass).
pub const MIXING_GLASS_KJ_PER_K: Spread = Spread { low: 0.3, likely: 0.4, high: 0.5 };
/// Share of a scoop of cubes that is water on their faces. Common practice, no source.
pub const WATER_ON_CUBES: Spread = Spread { low: 0.03, likely: 0.04, high: 0.08 };
/// Share of a scoop of crushed ice that is water. Common practice, no source.
pub const WATER_ON_CRUSHED: Spread = Spread { low: 0.10, likely: 0.15, high: 0.20 };
/// Grams of ice to a gram of drink in a shake or a stir. Common practice, no source; 120 g
/// to a drink of 90 to 120 ml is the least that is measured with (Arnold 2014).
pub const ICE_TO_DRINK: Spread = Spread { low: 1.0, likely: 1.2, high: 2.5 };
/// How far a stir goes toward equilibrium with its ice. Common practice, no source: a
/// stirred drink is served some degrees above where a long stir would end.
pub const STIR_APPROACH: Spread = Spread { low: 0.65, likely: 0.8, high: 1.0 };

/// Room temperature, at which lines are poured unless they say otherwise, °C. Common
/// practice, no source.
pub const ROOM_C: Spread = Spread { low: 17.0, likely: 20.0, high: 23.0 };

/// Spread of the stirring formula, as a share of the pour. Common practice, no source.
pub const STIRRED_RESIDUAL: Spread = Spread { low: -0.10, likely: 0.0, high: 0.10 };
/// Spread of the shaking formula, as a share of the pour. Common practice, no source.
pub const SHAKEN_RESIDUAL: Spread = Spread { low: -0.05, likely: 0.0, high: 0.05 };
/// Seconds in which a shake goes two thirds of its way. Common practice, no source:
/// after 12 s hardly anything changes.
pub const SHAKE_SECONDS: f64 = 4.0;
/// Seconds in which a stir goes two thirds of its way. Common practice, no source.
pub const STIR_SECONDS: f64 = 20.0;

/// Times within which the formulas stand as they are, s. Common practice, no source.
pub const ORDINARY_SECONDS: (f64, f64) = (10.0, 40.0);
/// Seconds past those in which a drink goes two thirds of what is left to equilibrium.
/// Common practice, no source.
pub const LATE_SECONDS: f64 = 60.0;
/// Poured strengths, as fractions, at which the formulas were measured and physics allows
/// them. Source: the published tables' drinks (Arnold 2014, pp. 123–126).
pub const MEASURED_STRENGTH: (f64, f64) = (0.12, 0.43);

/// Dissociation of citric acid at 25 °C, pKa. Source: A. Apelblat, Citric Acid, Springer
/// 2014 (3.128, 4.761, 6.388–6.396). Spread: ± 0.02.
pub const CITRIC_PKA: [f64; 3] = [3.128, 4.761, 6.396];
/// Share of a juice's titratable acid that comes with a mineral partner on top of it
/// (potassium citrate). Source: potassium and acid of lemon and lime juice, USDA SR28
/// (103 and 117 mg of potassium in 100 g), which give 3 to 4 % of the equivalents; orange
/// juice is far above. Spread: 0.02–0.3.
pub const BUFFER_SHARE: f64 = 0.04;
