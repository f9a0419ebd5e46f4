"""Syrups: making, thinning, strengthening, blending and swapping them.

Everything is weighed: sugar and water add up by mass, degrees Brix are grams of sugar in 100 g of
syrup. A volume is weighed through the ICUMSA density of sucrose solutions at 20 °C, which honey,
agave and maple follow closely enough for a bar.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from stillroom import Calculator, Lines, choice, limit, var

from . import brix
from .brix import DENSITY, DENSITY_AT, STRONGEST, WATER
from .tables import load
from .things import HOLDS

MASS = "mass balance of sugar and water"
BY_MASS = "ratios are sugar to water by mass; simple is 1:1, rich is 2:1"
AT_20 = "volumes are at 20 °C, through the density of sucrose solutions"
HEAVY = ("Above 67 °Bx water at 20 °C cannot hold all the sugar: it takes heat to make and may "
         "crystallise as it cools.")

WATERY = "Less than 1 °Bx is water and no syrup: check the amounts."


def _styles(column: str) -> list[dict[str, Any]]:
    """Simple and rich, with the ratio that they stand for."""
    return [
        {"id": "simple", "words": "simple, simple syrup, 1:1 syrup, plain syrup, one to one syrup", column: 1.0,
         "defines": "yes", "source": "equal weights; common practice, no source"},
        {"id": "rich", "words": "rich, rich syrup, rich simple, 2:1 syrup, two to one syrup, heavy syrup", column: 2.0,
         "defines": "yes", "source": "two of sugar to one of water by weight; common practice, no source"},
    ]


SHORT = {"rich-syrup": ("rich", "rich one", "the rich"), "simple-syrup": ("simple", "the simple")}


def _sweeteners(brix: str, keep: frozenset[str] | None = None) -> Iterator[Mapping[str, Any]]:
    """Rows of the sweeteners' table that bring their own water, and the two syrups, by their °Bx."""
    for row in load("sweeteners"):
        sugar = row["sugar"]
        exact = {"simple-syrup": 50.0, "rich-syrup": 200 / 3}.get(str(row["id"]), sugar)
        words = row["words"]
        assert isinstance(words, tuple)
        if keep is None or row["id"] in keep:
            yield {"id": row["id"], "words": [*words, *SHORT.get(str(row["id"]), ())], brix: exact,
                   "source": row["source"]}


WET = frozenset({"honey", "agave", "maple-syrup", "molasses", "golden-syrup", "corn-syrup", "dark-corn-syrup",
                 "malt-syrup", "sorghum-syrup", "cane-syrup", "invert-sugar", "dextrose", "trehalose",
                 "demerara-sugar", "brown-sugar", "maple-sugar", "palm-sugar"})
BOTH = frozenset({"simple-syrup", "rich-syrup"})
POURED = frozenset({"simple-syrup", "rich-syrup", "honey", "agave", "maple-syrup", "golden-syrup", "corn-syrup",
                    "cane-syrup", "grenadine", "invert-sugar", "molasses"})


SYRUP = Calculator(
    "syrup", "A sugar syrup from a ratio or a Brix",
    choice("style", _styles("ratio"), fills={"ratio": "ratio"}, words="syrup"),
    var("mass", "gram", "syrup, finished syrup, sucrose syrup, sugar syrup, "
        "batch, syrup mass, mass, weight, it weigh, syrup weigh, bx weigh, "
        "brix weigh", things="syrup", role="need",
        named_by="style.words"),
    var("volume", "milliliter", "syrup, finished syrup, sucrose syrup, sugar syrup, batch, "
        "volume", things="syrup", role="need",
        named_by="style.words", state="liquid"),
    var("sugar", "gram", "sugar, white sugar, caster sugar, granulated sugar, sucrose, table sugar", state="dry"),
    var("water", "gram", "water, hot water", shy=True),
    var("ratio", "dimensionless", "ratio, sugar to water, sugar-to-water, sugar-to-water ratio, sugar to water ratio, "
        "proportion, parts of sugar, parts of sucrose, per part of water", ratio="sugar:water", bounds=(0, 9)),
    var("brix", "brix", "brix, strength, sweetness, concentration, refractometer, refractometer reading, "
        "refractometer read, refractometer show, on the refractometer", bounds=(0, STRONGEST)),
    var("density", "gram / milliliter", "density, specific weight", shy=True),
    var("content", "gram / liter", "sugar per litre, sugar concentration, grams per litre, sucrose concentration"),
    var("temperature", "degree_Celsius", "temperature, syrup temperature, warm, hot", bounds=(0, 80), default=20,
        note="volumes and densities are at 20 °C"),
    equations=["mass = sugar + water", "sugar = ratio * water", "sugar = brix * mass", "mass = density * volume",
               "density = syrup_density_at(temperature, brix)", "sugar = content * volume"],
    limits=[limit("brix <= 0.67", "caution", HEAVY), limit("brix >= 0.01", "refuse", WATERY)],
    functions=[DENSITY_AT],
    only=(
        "syrup, brix, sugar, honey, agave, maple, simple, rich, sucrose, sweet, sweetener, °bx, bx, gomme, "
        "gum syrup, cordial, grenadine, orgeat, demerara, muscovado, turbinado"
    ),
    words="syrup, simple syrup, sugar syrup, demerara, muscovado, make, making, need, dissolve",
    asked="sugar, brix, water, volume, mass",
    method=["Weigh {sugar} of sugar and {water} of water.", "Warm gently and stir until clear, then cool."],
    conventions=[BY_MASS],
    examples=[("what do I weigh in sugar for one litre of 1:1 simple?", "615 gram"),
              ("brix of a 1.5:1 syrup", "60 percent")],
    source=MASS)

POURED_WATER = Calculator(
    "syrup_poured_water", "A syrup of weighed sugar and poured water",
    var("sugar", "gram", "sugar, white sugar, caster sugar, granulated sugar", state="dry"),
    var("water", "milliliter", "poured water, hot water, boiling water", things="water"),
    var("brix", "brix", "brix", bounds=(0, STRONGEST)),
    var("mass", "gram", "syrup", role="to"),
    var("volume", "milliliter", "syrup", role="to"),
    equations=["mass = sugar + water_density * water", "sugar = brix * mass", "mass = syrup_density(brix) * volume"],
    limits=[limit("brix <= 0.67", "caution", HEAVY), limit("brix >= 0.01", "refuse", WATERY)],
    functions=[DENSITY], constants=WATER,
    only=(
        "syrup, brix, sugar, honey, agave, maple, simple, rich, sucrose, sweet, sweetener, °bx, bx, gomme, "
        "gum syrup, cordial, grenadine, orgeat"
    ),
    also="water",
    words="pour, poured water, dissolve",
    asked="brix, volume, mass", conventions=["water is weighed through its density at 20 °C, 0.9982 g/ml", AT_20],
    examples=[("500 g of sugar dissolved in 400 ml of water, what brix?", "55.6 percent")],
    source=MASS)

THIN = Calculator(
    "thin_syrup", "Water to bring a syrup down to a Brix",
    choice("present", _sweeteners("brix", POURED), fills={"brix_before": "brix"}, words="syrup"),
    var("mass", "gram", "syrup, honey, batch, cordial, tub, have", role="from"),
    var("volume", "milliliter", "syrup, honey, batch, cordial, tub, have", role="from"),
    var("brix_before", "brix", "brix, measured, syrup, honey, agave, maple, refractometer, meter, reads, it reads, "
        "reading", bounds=(0, STRONGEST),
        role="from"),
    var("ratio_before", "dimensionless", "ratio", ratio="sugar:water_in_it", bounds=(0, 9),
        role="from", shy=True),
    var("brix_after", "brix", "brix, target, strength", bounds=(0.1, STRONGEST), role="to"),
    var("water_added", "gram", "water, waiter, top up, add", role="add"),
    var("water_volume", "milliliter", "water, top up, add", role="add"),
    var("mass_after", "gram", "thinned syrup, end up, after", role="to"),
    var("volume_after", "milliliter", "thinned syrup, end up, after", role="to"),
    var("sugar", "gram", "sugar", hidden=True), var("water_in_it", "gram", "water", hidden=True),
    equations=["sugar = brix_before * mass", "mass = sugar + water_in_it", "sugar = ratio_before * water_in_it",
               "sugar = brix_after * mass_after", "mass_after = mass + water_added",
               "mass = syrup_density(brix_before) * volume", "mass_after = syrup_density(brix_after) * volume_after",
               "water_added = water_density * water_volume"],
    limits=[limit("brix_after <= brix_before", "refuse",
                  "Water only thins a syrup: it cannot raise {brix_before} to {brix_after}. Add sugar instead."),
            limit("brix_after <= 0.67", "caution", HEAVY),
            limit("mass_after <= 10 * mass", "doubt", "From {mass} to {mass_after} is hardly meant.")],
    functions=[DENSITY], constants=WATER,
    only=(
        "syrup, brix, sugar, honey, agave, maple, simple, rich, sucrose, sweet, sweetener, °bx, bx, gomme, "
        "gum syrup, cordial, grenadine, orgeat"
    ),
    also=("water, waiter, thin, thinning, dilute, diluted, down, weaken, too strong, too sweet, loosen, cut, "
         "lower, correct, melt, with, honey, agave, maple, ratio, refractometer, meter, reading"),
    words="thin, thinning, thin down, dilute, bring down, take down, take it down, let down, knock down, "
    "correct, too strong, too sweet, loosen, "
          "honey syrup, water down",
    asked="water_added, brix_after, mass_after",
    method=["Add {water_added} of water and stir; check the °Bx at 20 °C."],
    conventions=[AT_20],
    examples=[("thinning down 500 g of 60 °Bx to 50 °Bx, grams of water to add?", "100 gram")],
    source=MASS)

THIN_TO = Calculator(
    "thin_syrup_to_ratio", "Water to bring a syrup of one ratio down to another",
    choice("present", _sweeteners("brix", BOTH), fills={"brix_before": "brix"}, words="syrup"),
    choice("wanted", _sweeteners("brix", BOTH), fills={"brix_after": "brix"}, words="target, role:into"),
    var("mass", "gram", "syrup, batch, tub, have", role="from"),
    var("volume", "milliliter", "syrup, batch, tub, have", role="from", state="liquid"),
    var("ratio_before", "dimensionless", "ratio", ratio="sugar:water_in_it", bounds=(0, 9), role="from"),
    var("ratio_after", "dimensionless", "ratio, target", ratio="sugar:water_then", bounds=(0, 9), role="to"),
    var("water_added", "gram", "water, top up, add", role="add"),
    var("mass_after", "gram", "thinned syrup, end up, after", role="to"),
    var("volume_after", "milliliter", "thinned syrup, end up, after", role="to"),
    *(var(name, unit, hidden=True) for name, unit in (
        ("brix_before", "brix"), ("brix_after", "brix"), ("sugar", "gram"), ("water_in_it", "gram"),
        ("water_then", "gram"))),
    equations=["sugar = brix_before * mass", "mass = sugar + water_in_it", "sugar = ratio_before * water_in_it",
               "sugar = brix_after * mass_after", "mass_after = sugar + water_then", "sugar = ratio_after * water_then",
               "mass_after = mass + water_added", "mass = syrup_density(brix_before) * volume",
               "mass_after = syrup_density(brix_after) * volume_after"],
    limits=[limit("ratio_after <= ratio_before", "refuse",
                  "Water only thins a syrup: {ratio_before} of sugar to one of water cannot become {ratio_after}. "
                  "Add sugar instead.")],
    functions=[DENSITY], only="syrup, simple, rich, sugar", also="to, into, down, want, make it, instead, turn, water",
    words="thin, thin down, bring down, water down, into, turn, stretch, cut",
    asked="water_added, mass_after",
    method=["Add {water_added} of water and stir."], conventions=[BY_MASS, AT_20],
    examples=[("thin 1.5 kg of rich syrup to 1:1, how much water?", "500 gram")],
    source=MASS)

STRENGTHEN = Calculator(
    "strengthen_syrup", "Sugar to bring a syrup up to a Brix",
    var("mass", "gram", "syrup, batch, cordial, base, juice, tub, have, there are", role="from"),
    var("volume", "milliliter", "syrup, batch, cordial, base, juice, tub, have", role="from"),
    var("brix_before", "brix", "brix, refractometer, measured, reading, shows", bounds=(0, STRONGEST),
        role="from"),
    var("brix_after", "brix", "brix, target, strength", bounds=(0, STRONGEST), role="to"),
    var("sugar_added", "gram", "sugar, caster sugar, white sugar, sucrose", role="add", state="dry"),
    var("mass_after", "gram", "strengthened syrup, end up, after", role="to"),
    var("volume_after", "milliliter", "strengthened syrup, end up, after", role="to"),
    equations=["mass_after = mass + sugar_added", "brix_after * mass_after = brix_before * mass + sugar_added",
               "mass = syrup_density(brix_before) * volume",
               "mass_after = syrup_density(brix_after) * volume_after"],
    limits=[limit("brix_after >= brix_before", "refuse",
                  "Sugar only strengthens a syrup: it cannot bring {brix_before} down to {brix_after}. "
                  "Add water instead."),
            limit("brix_after <= 0.67", "caution", HEAVY),
            limit("mass_after <= 10 * mass", "doubt", "From {mass} to {mass_after} is hardly meant.")],
    functions=[DENSITY],
    only=(
        "syrup, brix, sugar, honey, agave, maple, simple, rich, sucrose, sweet, sweetener, °bx, bx, gomme, "
        "gum syrup, cordial, grenadine, orgeat"
    ),
    also=("sugar, sucrose, strengthen, stronger, lift, raise, up, sweeter, sweeten, too weak, too thin, boost, "
         "correct, put it right, caster"),
    words="strengthen, lift, raise, bring up, correct, put it right, too weak, too thin, stir in, sweeten, boost",
    asked="sugar_added, brix_after, mass_after",
    method=["Stir in {sugar_added} of sugar until it is clear; check the °Bx at 20 °C."],
    conventions=[AT_20],
    examples=[("refractometer shows 40 on 800 g of syrup, I want 50 brix, how much sugar do I stir in?", "160 gram")],
    source=MASS)

BLEND = Calculator(
    "blend_syrups", "Two syrups into one",
    var("first_mass", "gram", "first syrup, syrup", role="from"),
    var("first_volume", "milliliter", "first syrup, syrup", role="from"),
    var("first_brix", "brix", "first syrup", bounds=(0, STRONGEST), role="from"),
    var("second_mass", "gram", "second syrup, other syrup", role="add"),
    var("second_volume", "milliliter", "second syrup, other syrup", role="add"),
    var("second_brix", "brix", "second syrup, other syrup", bounds=(0, STRONGEST), role="add"),
    var("mass", "gram", "blend, mixture, lot, in all, final mass", role="to"),
    var("volume", "milliliter", "blend, mixture, lot, in all, final volume", role="to"),
    var("brix", "brix", "blend, mix, brix, lot, comes out, end up, it read, read afterwards", bounds=(0, STRONGEST),
        role="to"),
    equations=["mass = first_mass + second_mass",
               "brix * mass = first_brix * first_mass + second_brix * second_mass",
               "first_mass = syrup_density(first_brix) * first_volume",
               "second_mass = syrup_density(second_brix) * second_volume",
               "mass = syrup_density(brix) * volume"],
    limits=[limit("brix <= max(first_brix, second_brix)", "refuse",
                  "A blend is no stronger than the stronger of its syrups."),
            limit("brix >= min(first_brix, second_brix)", "refuse",
                  "A blend is no weaker than the weaker of its syrups."),
            limit("brix <= 0.67", "caution", HEAVY)],
    functions=[DENSITY],
    only=(
        "syrup, brix, sugar, honey, agave, maple, simple, rich, sucrose, sweet, sweetener, °bx, bx, gomme, "
        "gum syrup, cordial, grenadine, orgeat"
    ),
    also="blend, mix, mixed, combine, combined, together, tip, tipped, pour, poured, into, both, lot, second, "
        "other, goes in, +",
    words="blend, blend syrups, combine, mix, put together, two syrups, pour together, add both, brix of the lot",
    asked="brix, mass, volume", conventions=[AT_20],
    examples=[("I mix 1 kg of 40 brix syrup with 500 g of 67 brix syrup, what brix comes out?", "49 percent")],
    source=MASS)

TOGETHER = Calculator(
    "syrup_mix", "The Brix of syrups, sugar and water put together",
    var("mass", "gram", "lot, mix, blend, in all", hidden=True),
    var("sugar", "gram", "sugar in all", hidden=True),
    var("brix", "brix", "brix, blend, mix, lot, comes out, end up", bounds=(0, 100), things="syrup, sugar"),
    equations=["sugar = brix * mass"],
    lines=Lines({"mass": "mass", "sugar": "mass * brix"}, columns={"brix": "brix"}, fills={"brix": "sugar"},
                holds={"brix": HOLDS["sugar"] + ", sugar"}, needs=("brix",), minimum=2),
    limits=[limit("brix <= 0.67", "caution", HEAVY)],
    only=(
        "syrup, brix, sugar, honey, agave, maple, simple, rich, sucrose, sweet, sweetener, °bx, bx, gomme, "
        "gum syrup, cordial, grenadine, orgeat"
    ),
    also="brix, bx, bricks, sweet, sweetness, sugar content",
    words="blend, combine, mix, put together, add both, brix of the lot, pour together",
    asked="brix", conventions=["everything is weighed, a volume through its density where the tables have one"],
    examples=[("1 kg of 40 brix syrup and 500 g of 67 brix syrup put together, what brix?", "49 percent")],
    source=MASS)

SWAP = Calculator(
    "swap_syrup", "One syrup in another's place, with the same sugar",
    choice("called", _sweeteners("brix", POURED), fills={"called_brix": "brix"}, words="called for, role:given up"),
    choice("instead", _sweeteners("brix", POURED), fills={"instead_brix": "brix"}, words="instead, role:taken"),
    var("called_volume", "milliliter", "syrup, recipe, card, spec, calls for, called for", role="from",
        named_by="called.words"),
    var("called_brix", "brix", "syrup, called for, recipe", bounds=(0, STRONGEST), role="from"),
    var("instead_volume", "milliliter", "instead, substitute, replacement, other syrup, take, use", role="to"),
    var("instead_brix", "brix", "instead, substitute, other syrup", bounds=(0, STRONGEST), role="to"),
    var("sugar", "gram", "grams of sugar, weight of sugar, sugar weight, how much sugar, sugar in it", state="dry"),
    var("called_ratio", "dimensionless", "called for, recipe, ratio", ratio="called_sugar:called_water", bounds=(0, 9),
        role="from"),
    var("instead_ratio", "dimensionless", "instead, ratio", ratio="instead_sugar:instead_water", bounds=(0, 9),
        role="have"),
    *(var(f"{which}_{what}", "gram", what, hidden=True) for which in ("called", "instead")
      for what in ("sugar", "water")),
    equations=["called_brix * (1 + called_ratio) = called_ratio", "instead_brix * (1 + instead_ratio) = instead_ratio",
               "sugar = called_brix * syrup_density(called_brix) * called_volume",
               "sugar = instead_brix * syrup_density(instead_brix) * instead_volume"],
    functions=[DENSITY],
    only=(
        "syrup, brix, sugar, honey, agave, maple, simple, rich, sucrose, sweet, sweetener, °bx, bx, gomme, "
        "gum syrup, cordial, grenadine, orgeat"
    ),
    also="swap, swapping, sub, subbing, substitute, substituting, change, switch, recipe, spec, card, out of, "
        "instead, same, equal, replace, replaces, replaced, replacing, equivalent, in place, "
         "that's left, left, only have, stock, only stock, nothing but, stands in, stand in, shelf, match, carry, "
         "carries",
    words="swap, swapping, sub, substitute, substituting, switch, out of, instead, same sugar, "
        "same amount of sugar, equal sugar, replace, equivalent, in place, "
          "all that's left, only have, only stock, nothing but, same sweetness, stands in, stand in",
    asked="instead_volume, called_volume, sugar",
    conventions=[AT_20, "equal grams of sugar; sweetness of the sugars themselves is not compared"],
    examples=[("replace 25 ml of simple syrup with rich syrup, how many ml for the same sugar?", "17.38 ml")],
    source=MASS)

SWEETENER = Calculator(
    "sweetener_syrup", "A syrup from honey, agave, maple or another sweetener with water of its own",
    choice("sweetener", _sweeteners("brix", WET), fills={"sweetener_brix": "brix"}, words="sweetener"),
    var("sweetener_mass", "gram", "sweetener, honey, agave, maple, treacle", named_by="sweetener.words"),
    var("sweetener_brix", "brix", "sweetener, honey, measured, brix on the meter, own brix", bounds=(1, 100),
        role="from"),
    var("water", "gram", "water, hot water"),
    var("water_volume", "milliliter", "water, hot water"),
    var("mass", "gram", "syrup, total, finished syrup, batch", role="to"),
    var("volume", "milliliter", "syrup, total, finished syrup, batch", role="to"),
    var("ratio", "dimensionless", "ratio, honey to water, sweetener to water", ratio="sweetener_mass:water"),
    var("brix", "brix", "syrup, brix, end up, target", bounds=(0, STRONGEST), role="to"),
    equations=["mass = sweetener_mass + water", "brix * mass = sweetener_brix * sweetener_mass",
               "sweetener_mass = ratio * water", "mass = syrup_density(brix) * volume",
               "water = water_density * water_volume"],
    limits=[limit("brix <= sweetener_brix", "refuse",
                  "Water only thins {sweetener}: {sweetener_brix} cannot become {brix}."),
            limit("brix <= 0.67", "caution", HEAVY)],
    functions=[DENSITY], constants=WATER,
    only="honey, agave, maple, sweetener, nectar, molasses, treacle, golden syrup",
    words="honey syrup, agave syrup, maple, sweetener, make, wildflower honey, hot water",
    asked="water, brix, sweetener_mass",
    method=["Stir {sweetener_mass} of {sweetener} into {water} of warm water."],
    conventions=["the sweetener brings its own water; its sugars count as sucrose for the density", AT_20],
    examples=[("I have 600 g of honey at 82 brix and want a 55 brix honey syrup, how much water?", "294.5 gram")],
    source=MASS)

REDUCE = Calculator(
    "reduce_syrup", "A syrup cooked down to a Brix",
    var("mass", "gram", "syrup, juice, concentrate, feed, at the start, have, pot", role="from"),
    var("brix_before", "brix", "brix, syrup, juice", bounds=(0, STRONGEST), role="from"),
    var("brix_after", "brix", "brix, target, cooked down, until it reads, reduced until", bounds=(0.1, STRONGEST),
        role="to"),
    var("mass_after", "gram", "left in the pot, stays, in the pot, end up, after, reduced, remains, product",
        role="to"),
    var("boiled_off", "gram", "boil off, boiled off, evaporate, evaporated, steam, water, water lost, "
        "mass of water, gone off, has gone", role="lost"),
    equations=["brix_before * mass = brix_after * mass_after", "mass = mass_after + boiled_off"],
    limits=[limit("brix_after >= brix_before", "refuse",
                  "Cooking down only strengthens: {brix_before} cannot become {brix_after}."),
            limit("brix_after <= 0.67", "caution", HEAVY)],
    only="cook, cooked, cook down, boil, boil down, boil off, reduce, reduced, reduction, simmer, evaporate, "
        "evaporated, "
         "evaporation, pot",
    words="cook, cook down, boil down, reduce, reduced, reduced until, simmer, evaporate, evaporated, evaporation, "
        "reduction, "
          "until it reads",
    asked="mass_after, boiled_off, brix_after",
    method=["Simmer until {boiled_off} has boiled off: {mass_after} is left.", "Check the °Bx at 20 °C."],
    examples=[("I cook 3 kg of syrup from 40 brix to 55 brix, what weight stays in the pot?", "2182 gram")],
    source=MASS)

GUM = Calculator(
    "gum_syrup", "Gum syrup: sugar, water and gum arabic",
    var("mass", "gram", "gum syrup, gomme, gomme syrup", role="need"),
    var("gum", "gram", "gum arabic, gum, acacia, gum acacia, acacia gum", state="dry"),
    var("sugar", "gram", "sugar, white sugar", state="dry"),
    var("water", "gram", "water"),
    var("ratio", "dimensionless", "ratio, sugar to water", ratio="sugar:water"),
    var("dose", "percent_ww", "gum, dose, gum arabic", bounds=(0, 40), usual=(1, 20), default=5,
        note="gum arabic, of the finished syrup; common practice, no source"),
    equations=["mass = sugar + water + gum", "sugar = ratio * water", "gum = dose * mass"],
    only="gum, gomme, gum arabic, acacia",
    words="gum syrup, gomme, gomme syrup, gum arabic, acacia",
    asked="gum, sugar, water",
    method=["Wet {gum} of gum arabic with its own weight or more of the water and rest it overnight.",
            "Make a syrup of {sugar} of sugar and the rest of {water} of water, stir the gum in, strain."],
    conventions=[BY_MASS],
    examples=[("how much gum arabic for 1 kg of 2:1 gum syrup?", "50 gram")],
    source=MASS)

CALCULATORS = (SYRUP, POURED_WATER, THIN, THIN_TO, STRENGTHEN, BLEND, TOGETHER, SWAP, SWEETENER, REDUCE, GUM,
               *brix.CALCULATORS)
