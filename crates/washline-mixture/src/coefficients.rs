//! Coefficients of the published formulas and tables, as printed.

/// OIML R 22:1975 (International alcoholometric tables; Wagenbreth & Blanke 1971; Council
/// Directive 76/766/EEC, Annex): kg/m3 at 20 °C by powers of the mass fraction p.
pub(crate) const OIML_A: [f64; 12] = [
    998.201_23,
    -192.976_949_5,
    389.123_895_8,
    -1_668.103_923,
    13_522.154_41,
    -88_292.783_88,
    306_287.404_2,
    -613_838.123_4,
    747_017.299_8,
    -547_846.135_4,
    223_446.033_4,
    -39_032.854_26,
];

/// OIML R 22: pure water, by powers 1.. of (t - 20 °C).
pub(crate) const OIML_B: [f64; 6] = [
    -0.206_185_13,
    -0.005_268_254_2,
    3.613_001_3e-5,
    -3.895_770_2e-7,
    7.169_354e-9,
    -9.973_923_1e-11,
];

/// OIML R 22: the mixed terms, a row for each power 1.. of (t - 20 °C), by powers 1.. of p.
pub(crate) const OIML_C: [&[f64]; 5] = [
    &[
        0.169_344_346_153_008_7,
        -10.469_147_434_551_69,
        71.963_534_695_465_23,
        -704.747_805_427_279_2,
        3_924.090_430_035_045,
        -12_101.646_590_687_47,
        22_486.465_504_007_88,
        -26_055.629_821_881_64,
        18_523.739_220_694_67,
        -7_420.201_433_430_137,
        1_285.617_841_998_974,
    ],
    &[
        -0.011_930_130_050_570_1,
        0.251_739_963_380_346_1,
        -2.170_575_700_536_993,
        13.530_349_888_430_29,
        -50.299_887_585_470_14,
        109.635_566_657_757,
        -142.275_394_642_115_5,
        108.043_594_285_623,
        -44.141_532_368_173_92,
        7.442_971_530_188_783,
    ],
    &[
        -0.000_680_299_573_350_380_3,
        0.018_768_377_902_896_64,
        -0.200_256_181_373_415_6,
        1.022_992_966_719_22,
        -2.895_696_483_903_638,
        4.810_060_584_300_675,
        -4.672_147_440_794_683,
        2.458_043_105_903_461,
        -0.541_122_762_143_681_2,
    ],
    &[
        4.075_376_675_622_027e-6,
        -8.763_058_573_471_11e-6,
        6.515_031_360_099_368e-6,
        -1.515_784_836_987_21e-6,
    ],
    &[-2.788_074_354_782_409e-8, 1.345_612_883_493_354e-8],
];

/// ICUMSA SPS-4 (Bubnik, Kadlec, Urban, Bruhns, Sugar Technologists Manual, Bartens 1995,
/// p. 164): kg/m3 above water, a row for each power 0.. of (t - 20 °C)/100, by powers 1..
/// of the mass fraction.
pub(crate) const ICUMSA: [&[f64]; 5] = [
    &[385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.289],
    &[-46.272, -7.172, 1.1597, 5.1126, 17.5254],
    &[59.7712, 7.2491, 12.363, -35.4791],
    &[-47.2207, -21.6977, 27.6301],
    &[18.3184, 12.3081],
];

/// The water under [`ICUMSA`] (same source): numerator by powers of t, and the one
/// coefficient of the denominator.
pub(crate) const ICUMSA_WATER: ([f64; 6], f64) = (
    [999.839_52, 16.952_577, -7.990_512_7e-3, -46.241_757e-6, 105.846_01e-9, -281.030_06e-12],
    16.887_236e-3,
);

/// Solubility of sucrose in percent by mass, by powers of t (Bubnik & Kadlec 1995).
pub(crate) const SUCROSE_SOLUBILITY: [f64; 5] =
    [64.447, 0.082_22, 0.001_616_9, -1.558e-6, -4.63e-8];

/// Lowering of the freezing point of ethanol–water in K, by powers 1.. of the mass
/// fraction. Fitted to 66 % by mass, the first term held at the cryoscopic constant's, to
/// the curves of the CRC Handbook, 102nd ed. (2021) and of CoolProp 8.0.0 (`INCOMP::MEA`,
/// after Melinder); within 0.33 K of the first, 0.11 K of the second.
pub(crate) const ETHANOL_FREEZING: [f64; 7] =
    [40.375, -18.036_24, 497.023_6, 1_177.632, -9_457.342, 15_909.59, -8_562.095];

/// Where [`ETHANOL_FREEZING`] ends, as mass fraction.
pub(crate) const ETHANOL_FREEZING_END: f64 = 0.66;

/// Growth of sucrose's lowering over the ideal, by powers 1.. of the molality. Fitted to
/// the CRC Handbook, 102nd ed. (2021), to 42 % by mass; within 0.01 K of it.
pub(crate) const SUCROSE_FREEZING: [f64; 2] = [0.096_617, 0.010_549];

/// Heat capacity of ethanol–water: mass fraction, kJ/(kg K) at 5 °C, rise per K. Taken from
/// CoolProp 8.0.0 (`INCOMP::MEA`, after Melinder, to 60 % by mass; `Ethanol` at 100 %).
pub(crate) const HEAT_CAPACITY: [(f64, f64, f64); 10] = [
    (0.00, 4.2052, -0.0024),
    (0.05, 4.3103, -0.0046),
    (0.10, 4.3764, -0.0049),
    (0.15, 4.3929, -0.0039),
    (0.20, 4.3595, -0.0020),
    (0.30, 4.1789, 0.0026),
    (0.40, 3.9315, 0.0068),
    (0.50, 3.6877, 0.0095),
    (0.60, 3.3916, 0.0110),
    (1.00, 2.2896, 0.0069),
];

/// Excess enthalpy of ethanol–water at 25 °C, J/mol, as x (1 - x) (a0 + a1 x^0.5 +
/// a2 x^1.5 + a3 x^2.5 + a4 x^4.5), x the mole fraction of ethanol. J. A. Larkin, J. Chem.
/// Thermodynamics 7 (1975) 137–148, by two public copies; spread ± 5 %.
pub(crate) const EXCESS_ENTHALPY: [f64; 5] = [
    at_25_c(-3.638_68e5, 1.838_29e3, -2.327_63),
    at_25_c(9.259_82e5, -4.835_86e3, 6.372_28),
    at_25_c(-14.048_94e5, 7.516_61e3, -10.112_80),
    at_25_c(10.913_18e5, -5.894_98e3, 7.988_68),
    at_25_c(-2.799_86e5, 1.505_57e3, -2.031_27),
];

/// Larkin's coefficients are quadratics in the absolute temperature.
const fn at_25_c(constant: f64, slope: f64, square: f64) -> f64 {
    const KELVIN: f64 = 298.15;
    constant + (slope + square * KELVIN) * KELVIN
}

/// The polynomial with `coefficients`, lowest power first, at `x`: Horner's rule in pairs,
/// which halves the chain of products each of which waits for the last.
pub(crate) fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    let square = x * x;
    coefficients.chunks(2).rev().fold(0.0, |sum, pair| {
        let here = match pair {
            [even, odd] => even + odd * x,
            [even] => *even,
            _ => 0.0,
        };
        sum * square + here
    })
}
