"""Batches: a spec to so many serves, to a vessel, by a factor; bottles to buy, pours in a keg.

A spec is read as one drink unless it says for how many it is.  Volumes are added.  Water for
dilution is counted per volume before it; ``4 % lost`` divides by 0.96.
Serves that a supply allows are rounded down, bottles to buy up.
"""

from __future__ import annotations

from stillroom import Calculator, Lines, include, limit, var

from . import serves
from .serves import PEOPLE
from .things import HOLDS

VESSEL = (
    "total volume, altogether, total, in all, all told, come to in all, batch, in total, bottle, keg, jug, container, "
    "vessel, canister, tub, siphon, tank, bucket, pitcher, demijohn, pail, cooler, bowl, dispenser, flask, together"
)
SERVES = var("serves", "count", PEOPLE, role="to", whole="down")
FEEDS = var(
    "feeds",
    "count",
    "feeds, one drink, drink is, a drink, per drink, spec serves, recipe serves, makes, is for",
    role="from",
    default=1,
    note="the spec is for one",
)
FACTOR = var("factor", "dimensionless", "factor, times, multiply by, multiplied by, batch factor", shy=True)
ADDED = "volumes are added; mixing spirit and water shrinks them by a percent or two at most"

SPEC = Lines(
    sums={"spec_volume": "volume"},
    each={"share": "amount * factor"},
    columns={"supply": "amount", "abv": "abv"},
    least={"factor": "supply / amount"},
    words={"supply": "have, left, only, short, supply, there is, got"},
    minimum=2,
)

BATCH = Calculator(
    "batch",
    "A spec scaled up or down",
    SERVES,
    var(
        "feeds",
        "count",
        "feeds, one drink, drink is, drink has, a drink, per drink, is one drink, spec serves, recipe serves, "
        "recipe has, recipe does, recipe makes, recipe feeds, recipe is for, recipe for, it makes, spec makes, "
        "servings with, is for",
        role="from",
        default=1,
        note="the spec is for one",
    ),
    var(
        "factor",
        "dimensionless",
        "factor, times, take it times, multiply by, multiplied by, scale by, batch factor, everything times, x",
        shy=True,
    ),
    var("spec_volume", "milliliter", "one drink, spec", hidden=True),
    var("total", "milliliter", VESSEL, role="into"),
    var("size", "milliliter", "drinks of, serves of, glasses of, portions of, cocktails of", shy=True),
    equations=["factor * feeds = serves", "total = factor * spec_volume", "total = serves * size"],
    lines=SPEC,
    words="scale, multiply, batch, serves, make, spec, recipe, times, for people, people, guests, double, fill, punch",
    asked="total, factor, serves",
    method=["Measure each line times {factor}: {total} in all."],
    examples=[("scale to 40 serves: 50 ml gin, 25 ml lemon juice, 20 ml honey syrup", "2000 milliliter")],
    source="each line x (serves / serves of the spec)",
)

BY_PARTS = Calculator(
    "batch_by_parts",
    "A drink by its parts, for so many serves of a size",
    SERVES,
    var("each", "milliliter", "a drink, per drink, each, drinks of, serves of, glasses of, per serve, serve size, "
        "per guest, size", role="each"),
    FACTOR,
    var("spec_volume", "milliliter", "one drink, spec", hidden=True),
    var("total", "milliliter", VESSEL, role="into"),
    equations=["total = factor * spec_volume", "total = serves * each"],
    lines=SPEC,
    only="part, parts",
    also=PEOPLE + ", each, a drink, per drink",
    words="part, parts, equal parts, serves, drinks of, batch, make",
    asked="total, serves, each",
    method=["{serves} of {each} are {total}: measure each line times {factor}."],
    conventions=[ADDED],
    examples=[("2 parts gin and 1 part vermouth for 40 drinks of 90 ml: how much gin?", "2400 milliliter")],
    source="each line x (serves x size / sum of the parts)",
)

DILUTED = Calculator(
    "batch_with_dilution",
    "A spec scaled with its water for dilution",
    SERVES,
    FEEDS,
    FACTOR,
    var("spec_volume", "milliliter", "one drink, spec", hidden=True),
    var("mixed", "milliliter", "undiluted, before water, without water", hidden=True),
    var(
        "dilution", "percent", "dilution, diluted, added water, water added", bounds=(0, 300), usual=(5, 60), role="add"
    ),
    var("water", "milliliter", "water, water to add, dilution water", things="water"),
    var("total", "milliliter", VESSEL + ", with water, diluted batch", role="into"),
    equations=[
        "factor * feeds = serves",
        "mixed = factor * spec_volume",
        "water = dilution * mixed",
        "total = mixed + water",
    ],
    lines=SPEC,
    words="dilution, diluted, batch, freezer, ready to pour, bottled, pre-diluted, water, scale, serves",
    only="dilution, diluted, dilute, dilution water, % water, percent water",
    asked="water, total, serves",
    method=["Measure each line times {factor}, then add {water} of water: {total} in all."],
    conventions=["dilution is water added per volume before it", ADDED],
    examples=[("50 ml gin, 25 ml vermouth for 40 serves with 20 % dilution: how much water?", "600 milliliter")],
    source="each line x factor; water = dilution x volume before it",
)

LOSSES = Calculator(
    "batch_with_loss",
    "A spec scaled to allow for what is lost",
    SERVES,
    FEEDS,
    var("lost", "percent", "lost, loss, lose, waste, spill, spillage, allowance, never leaves, leaves the lines, "
        "stays in the lines, stays in the keg, left in the lines, missing, goes missing, in the lines",
        bounds=(0, 100), role="lost"),
    FACTOR,
    var("spec_volume", "milliliter", "one drink, spec", hidden=True),
    var("total", "milliliter", VESSEL, role="into"),
    equations=["factor * feeds * (1 - lost) = serves", "total = factor * spec_volume"],
    limits=[limit("lost < 1", "refuse", "With {lost} lost nothing is left to serve.")],
    lines=SPEC,
    words="lost, loss, spill, allowance, scale, batch, serves",
    only="lost, loss, lose, waste, spill, spillage, allowance, never leaves, leaves the lines, in the lines, missing, "
        "stays in the lines, stays in the keg, left in the lines, goes missing",
    asked="total, factor, serves",
    method=["Measure each line times {factor}: {total}, of which {lost} is lost."],
    examples=[
        ("50 ml gin, 25 ml lemon juice, 25 ml simple syrup for 48 serves, 4 % lost: how much gin?", "2500 milliliter")
    ],
    source="lost share divides: amount / (1 - lost)",
)

BOTTLED = Calculator(
    "batch_into_bottles",
    "A spec scaled to fill bottles",
    include(BATCH),
    var("bottles", "count", "bottle, small bottle, miniature, fill bottles", whole="down"),
    var("bottle", "milliliter", "bottle size, each bottle, size, bottle holds, bottle, flask, jar", role="each"),
    var("total", "milliliter", "total, in all, batch"),
    equations=["total = bottles * bottle"],
    lines=SPEC,
    words="bottles to fill, fill bottles, bottled, into bottles, bottling",
    only="bottle, bottles, bottled, bottling",
    asked="total, bottles, factor",
    method=["Measure each line times {factor}: {total} fills {bottles} bottles."],
    examples=[
        ("50 ml gin and 25 ml vermouth bottled: 12 bottles of 200 ml each, how much gin?", "1600 milliliter"),
    ],
)

RECIPE = Calculator(
    "recipe_for_volume",
    "A recipe given for a volume, made for another",
    var("total", "milliliter", "make, making, need, batch, for, in all, base, want, spirit", things="spirit",
        role="need"),
    var(
        "yields",
        "milliliter",
        "recipe makes, recipe for, recipe is for, yields, gives, makes",
        role="from",
        default=1000,
        note="the recipe is for one litre",
    ),
    var("factor", "dimensionless", "factor, times, multiply by", shy=True),
    equations=["total = factor * yields"],
    lines=Lines(
        each={"share": "amount * factor"},
        columns={"supply": "amount"},
        least={"factor": "supply / amount"},
        words={"supply": "have, left, only, short, there is, got"},
        minimum=2,
    ),
    only="per litre, per liter, a litre, a liter, each litre, one litre, per l, for 1 l, for a litre, recipe makes, "
        "recipe for, recipe is for, yields",
    words="recipe, bill, per litre, per liter, for each litre, grams of each, how much of each, each line, scale",
    asked="factor, total",
    method=["Measure each line times {factor} for {total}."],
    examples=[("per litre of base: citric 32 g, malic 12 g. For 3.5 l of base, how much citric?", "112 gram")],
    source="each line x (volume wanted / volume of the recipe)",
)

DRINK = Calculator(
    "drink",
    "Sugar and acid of a drink from its spec, with its strength",
    var("volume", "milliliter", "volume before dilution, undiluted", hidden=True),
    var("ethanol", "milliliter", "pure alcohol, ethanol", hidden=True),
    var("sugar_mass", "gram", "grams of sugar, total sugar, sugar in it"),
    var("acid_mass", "gram", "grams of acid, total acid, acid in it"),
    var("juice_acid", "gram", "acid of the juice", hidden=True),
    var("powder_acid", "gram", "acid powder", hidden=True),
    var(
        "dilution",
        "percent",
        "dilution, diluted, water added",
        bounds=(0, 300),
        default=0,
        role="add",
        note="no water counted",
    ),
    var("total", "milliliter", "total volume, finished volume, volume, glass, finished drink"),
    var("strength", "percent_vv", "strength, abv, how strong, alcohol, proof, final strength", bounds=(0, 100)),
    var("sugar", "percent_wv", "sugar, sweetness, sugar content", bounds=(0, 120)),
    var("acid", "percent_wv", "acid, acidity, acid content", bounds=(0, 60)),
    equations=[
        "total = volume * (1 + dilution)",
        "ethanol = strength * total",
        "sugar_mass = sugar * total",
        "acid_mass = acid * total",
        "acid_mass = juice_acid + powder_acid",
    ],
    limits=[limit("strength <= 1", "refuse", "No drink is stronger than 100 % ABV.")],
    lines=Lines(
        sums={
            "volume": "volume",
            "ethanol": "volume * abv",
            "sugar_mass": "mass * sugar",
            "juice_acid": "volume * acid",
            "powder_acid": "mass * powder",
        },
        columns={"abv": "percent_vv", "sugar": "percent_ww", "acid": "percent_wv", "powder": "percent_ww"},
        fills={"abv": "abv", "sugar": "sugar", "acid": "acid", "powder": "pure_acid"},
        holds=HOLDS,
        needs=("abv", "sugar", "acid"),
        minimum=2,
        words={"abv": "strength, abv, proof", "sugar": "sugar, brix, sweetness", "acid": "acid, acidity"},
    ),
    only="abv, strength, strong, sweet, sour, acid, acidity, sugar, sweetness, balance, alcohol",
    words="balance, sugar and acid, sweetness, acidity, how sweet, how sour, sugar in the glass, acid in the glass",
    asked="sugar, acid, strength, total",
    conventions=[ADDED],
    examples=[
        ("60 ml gin, 30 ml lime juice and 30 ml grenadine: how many grams of sugar in it?", "17.4 gram"),
    ],
    source="what the lines hold over their volume with the water",
)

CALCULATORS = (BATCH, BY_PARTS, DILUTED, LOSSES, BOTTLED, RECIPE, DRINK, *serves.CALCULATORS)
