//! Owns the entries of the bibliography, in the order of their keys.

use super::Source;
use super::Status::{self, CommonPractice, FromMemory, Published, ReferenceLibrary, Standard};

const fn source(key: &'static str, status: Status, cites: &'static str) -> Source {
    Source { key, cites, status }
}

/// Every source a datum may cite.
pub const BIBLIOGRAPHY: &[Source] = &[
    source(
        "ashrae_fundamentals",
        Standard,
        "ASHRAE Handbook - Fundamentals, building materials: fired-clay brick, at room temperature",
    ),
    source(
        "ashrae_refrigeration",
        Published,
        "ASHRAE Handbook - Refrigeration, Thermal properties of foods, Table 3: composition and initial freezing point",
    ),
    source(
        "ashrae_refrigeration_recalled",
        FromMemory,
        "ASHRAE Handbook - Refrigeration, Thermal properties of foods, Table 3: recalled, not seen",
    ),
    source(
        "astm_c533",
        Standard,
        "ASTM C533 calcium silicate block, type I: 0.059 W/(m K) at 38 degC at most; hotter from memory",
    ),
    source(
        "baker_formula",
        ReferenceLibrary,
        "Computed from a baker's formula: flour (13 % water, 10.7 % protein, 1.4 % fat, 2.7 % fibre, 0.6 % ash), water, salt, yeast, oil",
    ),
    source(
        "blended",
        FromMemory,
        "Worked from like foods or from a recipe, its parts recalled; a label or a recipe of your own is better",
    ),
    source(
        "carrier_handbook",
        FromMemory,
        "Textbook tables of metals, glass and ceramics (Incropera, appendix A): recalled, not seen",
    ),
    source(
        "castable_typical",
        FromMemory,
        "Typical data of dense (60-70 % alumina) and insulating castables: recalled, +-15 %",
    ),
    source(
        "choi_okos_1986",
        Published,
        "Choi, Y. & Okos, M. R. (1986) Effects of temperature and composition on the thermal properties of foods, in Le Maguer & \
         Jelen (eds), Food Engineering and Process Applications 1:93-101",
    ),
    source(
        "cordierite_iec",
        FromMemory,
        "IEC 60672-3, groups C 511 and C 520 (k 1.3-1.8 W/(m K), cp 750-900 J/(kg K)): recalled, not seen",
    ),
    source("en_12524", Standard, "DIN EN 12524:2000 Building materials and products: ceramic tiles and stone"),
    source(
        "en_12524_recalled",
        FromMemory,
        "EN 12524 and EN ISO 10456 tables for sand and concrete: recalled, not seen",
    ),
    source(
        "en_15544",
        Standard,
        "EN 15544:2023 One-off tiled stoves: logs, air and fireclay as its scope and definitions state them",
    ),
    source("en_1995_1_2", FromMemory, "EN 1995-1-2, charring of timber, 0.5 to 0.8 mm/min: recalled, not seen"),
    source(
        "falciano_2023",
        Published,
        "Falciano, A., Moresi, M. & Masi, P. (2023) Foods 12(4):890: undersides of 90 s bakes at 100 +- 9 degC by infrared camera",
    ),
    source(
        "fia_2009",
        Published,
        "Miles, P. D. & Smith, W. B. (2009) Specific gravity and other properties of wood and bark, USDA FS Research Note NRS-38",
    ),
    source(
        "fibre_blanket",
        FromMemory,
        "Alumino-silicate fibre blanket of 128 kg/m3, typical of ASTM C201 tests: recalled, +-15 %",
    ),
    source(
        "gwdd_2026",
        Published,
        "Fischer, F. J. et al. (2026) Global Wood Density Database v2, New Phytologist, doi 10.1111/nph.70860",
    ),
    source(
        "iapws_if97",
        ReferenceLibrary,
        "IAPWS-IF97 water and steam: 2256.5 kJ/kg at 100 degC, 2441.7 kJ/kg at 25 degC; ice melts at 333.6 kJ/kg (IAPWS R10-06)",
    ),
    source(
        "incropera_emissivity",
        FromMemory,
        "Incropera & DeWitt, table A.11, and Hottel & Sarofim: emissivities, recalled",
    ),
    source(
        "iso_17225",
        FromMemory,
        "EN ISO 17225-1 annex B: typical deciduous wood C 49, H 6.2, O 44, N 0.1, ash 0.5 % dry",
    ),
    source(
        "iso_18125",
        FromMemory,
        "ISO 18125:2017, net calorific value as received; its constant agrees with steam tables to 0.05 %",
    ),
    source(
        "iso_6976",
        Standard,
        "ISO 6976:2016 calorific values of methane and propane, ideal gas, 15 degC and 101.325 kPa",
    ),
    source("kitchen_practice", CommonPractice, "What kitchens and oven builders do: common practice, no source"),
    source(
        "lemmon_2000",
        ReferenceLibrary,
        "Lemmon et al. (2000) and Lemmon & Jacobsen (2004), dry air at 101.325 kPa, by CoolProp 8.0.0",
    ),
    source("mineral_wool_typical", FromMemory, "Stone wool of about 120 kg/m3, typical data: recalled, +-20 %"),
    source(
        "soapstone_weak",
        FromMemory,
        "Soapstone: sellers print 6.4 W/(m K), geology handbooks 2.5 to 4: weak, twofold spread",
    ),
    source(
        "tchigeov_1979",
        FromMemory,
        "Tchigeov, G. (1979) Thermophysical processes in food refrigeration technology: ice share; recalled from the ASHRAE chapter",
    ),
    source(
        "tfz_wood",
        Published,
        "Technology and Support Centre Straubing, figures at several moistures, read second-hand: oak 18.0-18.3, beech 18.4-18.5 MJ/kg dry",
    ),
    source(
        "usda_recalled",
        FromMemory,
        "Composition in the manner of the USDA food tables: recalled, rounded, not seen",
    ),
    source(
        "vdi_2010",
        Published,
        "VDI Heat Atlas, 2nd ed. (2010), refractories: k and cp from 400 to 1200 degC; held below 400",
    ),
    source(
        "vermiculite_typical",
        FromMemory,
        "Pressed vermiculite board of about 700 kg/m3, typical maker-neutral data: recalled",
    ),
    source(
        "wood_default",
        Published,
        "Wood-fuel tables with the wording of the AIEL Wood Fuels Handbook (2008): 18.5 to 19 MJ/kg dry, broadleaves about 2 % below conifers, 2.44 MJ/kg to evaporate water",
    ),
];
