//! The table of cautions, and what decides which of them apply.

use crate::{
    check::{Setup, record::Consumable},
    trade::Process,
};

/// What decides which cautions apply.
pub(super) struct Scene<'a> {
    pub(super) setup: &'a Setup,
    pub(super) process: Option<Process>,
    pub(super) consumable: Option<&'a Consumable>,
}

/// One caution of the table.
pub(super) struct Row {
    pub(super) code: &'static str,
    pub(super) applies: fn(&Scene<'_>) -> bool,
    pub(super) text: &'static str,
    pub(super) source: &'static str,
}

/// Every caution but the one about eyes and face, in the order they are said.
pub(super) const ROWS: &[Row] = &[
    Row {
        code: "fume",
        applies: |_| true,
        text: "Keep the head out of the plume and extract it at the arc. Fume of steel fillers holds \
               manganese (US ceiling 5 mg/m3 as Mn). Mechanical ventilation is needed below 10,000 ft3 \
               (284 m3) per welder, under a ceiling below 16 ft (5 m), or where air cannot move freely.",
        source: "29 CFR 1910.1000, Table Z-1; 29 CFR 1910.252(c)(2); plume: common practice, no source",
    },
    Row {
        code: "coated-metal",
        applies: |_| true,
        text: "Zinc, lead, cadmium, beryllium or mercury, in coatings, paint or the metal, gives off toxic fume; \
               cadmium can kill days later. Strip coatings 4 in (100 mm) back from the weld; where that \
               cannot be, local exhaust or air-line respirators.",
        source: "29 CFR 1910.252(c)(6)-(10); 29 CFR 1926.354(c)(3); from memory",
    },
    Row {
        code: "solvent-vapour",
        applies: |_| true,
        text: "The rays of the arc turn the vapour of chlorinated solvents into phosgene, which harms hours later: \
               no degreasing within reach of the arc, and no solvent left on the metal.",
        source: "29 CFR 1910.252(c)(11), from memory",
    },
    Row {
        code: "chromium-and-nickel",
        applies: |scene| scene.chromium_possible(),
        text: "Stainless filler or metal gives off hexavalent chromium (US limit 5 ug/m3 over 8 h) and \
               nickel: local extraction, and respirators where measurements ask for them. Heed this \
               unless filler and metal are known to be free of both.",
        source: "29 CFR 1910.1026; 29 CFR 1910.252(c); nickel: from memory",
    },
    Row {
        code: "thoriated-tungsten",
        applies: |scene| scene.process.is_none_or(Process::has_tungsten),
        text: "Dust of thoriated tungsten is radioactive and must not be breathed in: use other tungsten, or grind \
               under extraction and collect the dust.",
        source: "common practice, no source",
    },
    Row {
        code: "ozone",
        applies: |scene| scene.ozone_possible(),
        text: "A bright arc under argon makes ozone (US limit 0.1 ppm over 8 h), most of all on aluminium and \
               stainless steel, and some way off the arc too: extract it.",
        source: "29 CFR 1910.1000, Table Z-1, from memory; where it forms: common practice, no source",
    },
    Row {
        code: "electric-shock",
        applies: |_| true,
        text: "Dry gloves, dry ground, whole cables; never change an electrode or touch the wire with \
               bare or wet hands. Damp, hot or cramped places raise the danger.",
        source: "WAC 296-155-405 (holders and cables); gloves, damp and cramped places: common \
                 practice, no source",
    },
    Row {
        code: "burns-and-radiation",
        applies: |_| true,
        text: "The arc burns bare skin within minutes, spatter and hot metal at once: flame-resistant \
               clothing, gloves, boots, safety glasses under the helmet, screens for those nearby.",
        source: "common practice, no source",
    },
    Row {
        code: "fire-watch",
        applies: |_| true,
        text: "Clear or cover what burns within 35 ft (10.7 m); else a fire watch with an extinguisher \
               stays at least half an hour after the last arc. Many sites ask for an hour and a permit.",
        source: "29 CFR 1910.252(a)(2)(iii); one hour: from memory of NFPA 51B",
    },
    Row {
        code: "closed-vessels",
        applies: |_| true,
        text: "Used drums, tanks and pipes explode: no arc on them before they are cleaned of all that burns or \
               gives off vapour, vented and cut off from lines. Vent every hollow part before it is heated.",
        source: "29 CFR 1910.252(a)(3), from memory",
    },
    Row {
        code: "gas-cylinders",
        applies: |scene| scene.gas_possible(),
        text: "Chain cylinders upright, cap them when moved, close valves when idle. Argon and carbon \
               dioxide are heavier than air and collect in pits and vessels, where they suffocate \
               without warning; carbon dioxide in the arc also forms carbon monoxide.",
        source: "29 CFR 1910.253(b); chaining and caps from memory; asphyxiation: common practice, no \
                 source",
    },
    Row {
        code: "confined-space",
        applies: |_| true,
        text: "In a tank, vessel or box: test the air before and during work (oxygen 19.5 to 23.5 %), \
               ventilate, post an attendant, take gas hoses and guns out during breaks.",
        source: "29 CFR 1910.146 (from memory)",
    },
    Row {
        code: "hydrogen-cracking",
        applies: |scene| scene.hydrogen_matters(),
        text: "Hardenable steel cracks cold, hours or days later: dry consumables, a clean joint, the \
               preheat of the procedure all through the joint, and inspection after the waiting time \
               the code asks for.",
        source: "EN 1011-2:2001 (from memory)",
    },
    Row {
        code: "judgement",
        applies: |_| true,
        text: "These figures support, and do not replace, the governing code, local rules and a \
               qualified person's judgement. If in doubt, stop.",
        source: "this service",
    },
];

impl Scene<'_> {
    /// Everything but fillers all known to be unalloyed or low-alloy steel, on parts not known to
    /// be stainless. Chromium-molybdenum fillers hold up to 10 % chromium and count as possible.
    fn chromium_possible(&self) -> bool {
        !self.consumable.is_some_and(Consumable::is_plain_steel) || self.any_metal(STAINLESS)
    }

    /// TIG and plasma arcs, and those of inert gas on wire, which aluminium is welded with.
    fn ozone_possible(&self) -> bool {
        let inert_wire = |process| {
            matches!(
                process,
                Process::MigSolidWire | Process::MigFluxCored | Process::MigMetalCored
            )
        };
        self.process.is_none_or(|process| process.has_tungsten() || inert_wire(process))
    }

    fn gas_possible(&self) -> bool {
        self.process.is_none_or(Process::gas_shielded)
            || self.setup.filler.gas.is_some_and(|gas| gas.group().is_some())
    }

    /// Everything but parts that are all known to be austenitic steel or no steel (ISO/TR 15608:
    /// groups 8 and 21 up).
    fn hydrogen_matters(&self) -> bool {
        let parts = &self.setup.job.base_metals;
        self.setup.job.lacking_part().is_some()
            || parts.iter().any(|part| part.group.is_none())
            || self.any_metal(HARDENABLE)
    }

    fn any_metal(&self, groups: &[u8]) -> bool {
        let mut stated = self.setup.job.base_metals.iter().filter_map(|part| part.group);
        stated.any(|stated| groups.contains(&stated.group()))
    }
}

/// Groups of stainless steel (ISO/TR 15608).
const STAINLESS: &[u8] = &[7, 8, 10];

/// Groups of steel that can crack from hydrogen (ISO/TR 15608).
const HARDENABLE: &[u8] = &[1, 2, 3, 4, 5, 6, 7, 9, 10, 11];
