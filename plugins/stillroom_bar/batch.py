"""Batches: a spec to so many serves, to a vessel, by a factor; bottles to buy, pours in a keg.

A spec is read as one drink unless it says for how many it is.  Volumes are added.  Water for dilution is counted per volume before it; ``4 % lost`` divides by 0.96.
Serves that a supply allows are rounded down, bottles to buy up.
"""

from __future__ import annotations

from stillroom import Calculator, Lines, include, limit, var


TRADE = "common practice, no source"
PEOPLE = "serve, serving, drink, cocktail, portion, people, person, guest, pax, glass, head, cover"
VESSEL = "batch, total, in total, bottle, keg, jug, container, vessel, canister, tub, siphon, tank, bucket, pitcher"
ADDED = "volumes are added; mixing spirit and water shrinks them by a percent or two at most"

SPEC = Lines(
    sums={"spec_volume": "volume"},
    each={"share": "amount * factor"},
    columns={"supply": "amount"},
    least={"factor": "supply / amount"},
    words={"supply": "have, left, only, short, supply, there is, got"},
)

BATCH = Calculator(
    "batch",
    "A spec scaled up or down",
    var("serves", "count", PEOPLE, role="to", whole="down"),
    var("feeds", "count", "feeds, spec serves, recipe serves, makes, is for, originally for", role="from", default=1,
        note="the spec is for one"),
    var("factor", "dimensionless", "factor, times, multiply, scale by, batch factor, double, triple, half"),
    var("spec_volume", "milliliter", "one drink, spec, recipe, serve size, volume of one"),
    var("total", "milliliter", VESSEL, role="into"),
    equations=["factor * feeds = serves", "total = factor * spec_volume"],
    lines=SPEC,
    words="scale, batch, serves, make, spec, recipe, times, for people, double, fill, punch",
    asked="total, factor, serves",
    method=["Measure each line times {factor}: {total} in all."],
    source="each line x (serves / serves of the spec)",
)

DILUTED = Calculator(
    "batch_with_dilution",
    "A spec scaled with its water for dilution",
    var("serves", "count", PEOPLE, role="to", whole="down"),
    var("feeds", "count", "feeds, spec serves, recipe serves, makes, is for", role="from", default=1, note="the spec is for one"),
    var("factor", "dimensionless", "factor, times, multiply, batch factor"),
    var("spec_volume", "milliliter", "one drink, spec, recipe, volume of one"),
    var("mixed", "milliliter", "undiluted, before water, without water", hidden=True),
    var("dilution", "percent", "dilution, diluted, added water, water added", bounds=(0, 300), usual=(5, 60), role="add"),
    var("water", "milliliter", "water, water to add, dilution water", things="water"),
    var("total", "milliliter", VESSEL + ", with water, diluted batch", role="into"),
    equations=["factor * feeds = serves", "mixed = factor * spec_volume", "water = dilution * mixed", "total = mixed + water"],
    lines=SPEC,
    words="dilution, diluted, batch, freezer, ready to pour, bottled, pre-diluted, water, scale, serves",
    asked="water, total, serves",
    method=["Measure each line times {factor}, then add {water} of water: {total} in all."],
    conventions=["dilution is water added per volume before it", ADDED],
    source="each line x factor; water = dilution x volume before it",
)

LOSSES = Calculator(
    "batch_with_loss",
    "A spec scaled to allow for what is lost",
    var("serves", "count", PEOPLE, role="to", whole="down"),
    var("feeds", "count", "feeds, spec serves, recipe serves, makes, is for", role="from", default=1, note="the spec is for one"),
    var("lost", "percent", "lost, loss, lose, waste, spill, spillage, allowance", bounds=(0, 100), role="lost"),
    var("factor", "dimensionless", "factor, times, multiply, batch factor"),
    var("spec_volume", "milliliter", "one drink, spec, recipe, volume of one"),
    var("total", "milliliter", VESSEL, role="into"),
    equations=["factor * feeds * (1 - lost) = serves", "total = factor * spec_volume"],
    limits=[limit("lost < 1", "refuse", "With {lost} lost nothing is left to serve.")],
    lines=SPEC,
    words="lost, loss, spill, allowance, scale, batch, serves",
    asked="total, factor, serves",
    method=["Measure each line times {factor}: {total}, of which {lost} is lost."],
    source="lost share divides: amount / (1 - lost)",
)

BOTTLED = Calculator(
    "batch_into_bottles",
    "A spec scaled to fill bottles",
    include(BATCH),
    var("bottles", "count", "bottle, small bottle, miniature, fill bottles", whole="down"),
    var("bottle", "milliliter", "bottle size, each bottle, size, bottle holds", role="each"),
    var("total", "milliliter", "total, in all, batch"),
    equations=["total = bottles * bottle"],
    lines=SPEC,
    words="bottles to fill, fill bottles, bottled, into bottles, bottling",
    asked="total, bottles, factor",
    method=["Measure each line times {factor}: {total} fills {bottles} bottles."],
)

DRINK = Calculator(
    "drink",
    "Strength, sugar and acid of a drink from its spec",
    var("volume", "milliliter", "volume before dilution, undiluted", hidden=True),
    var("ethanol", "milliliter", "pure alcohol, ethanol", hidden=True),
    var("sugar_mass", "gram", "grams of sugar, total sugar, sugar in it"),
    var("acid_mass", "gram", "grams of acid, total acid, acid in it"),
    var("dilution", "percent", "dilution, diluted, water added", bounds=(0, 300), default=0, role="add", note="no water counted"),
    var("total", "milliliter", "total volume, finished volume, volume, glass, finished drink"),
    var("strength", "percent_vv", "strength, abv, how strong, alcohol, proof, final strength", bounds=(0, 100)),
    var("sugar", "percent_wv", "sugar, sweetness, sugar content", bounds=(0, 120)),
    var("acid", "percent_wv", "acid, acidity, acid content", bounds=(0, 60)),
    equations=[
        "total = volume * (1 + dilution)",
        "ethanol = strength * total",
        "sugar_mass = sugar * total",
        "acid_mass = acid * total",
    ],
    limits=[limit("strength <= 1", "refuse", "No drink is stronger than 100 % ABV.")],
    lines=Lines(
        sums={"volume": "volume", "ethanol": "volume * abv", "sugar_mass": "mass * sugar", "acid_mass": "volume * acid"},
        columns={"abv": "percent_vv", "sugar": "percent_ww", "acid": "percent_wv"},
        fills={"abv": "abv", "sugar": "sugar", "acid": "acid"},
        holds={"abv": "spirit,wine,liqueur,beer,bitters", "sugar": "liqueur,juice,syrup,soda,wine,beer", "acid": "juice,wine,acid"},
        needs=("abv",),
        words={"abv": "strength, abv, proof", "sugar": "sugar, brix, sweetness", "acid": "acid, acidity"},
    ),
    words="strength of the drink, abv of this, how strong, balance, sugar and acid, sweetness, acidity of the drink",
    asked="strength, total, sugar, acid",
    conventions=[ADDED],
    source="what the lines hold over their volume with the water",
)

POURS = Calculator(
    "pours",
    "Serves from a keg, a bottle or what is left",
    var("supply", "milliliter", "keg, bottle, vessel, left, have, tank, supply, can, jug, batch, cask", things="any", role="have"),
    var("each", "milliliter", "pour, serve, measure, glass, a drink, per drink, each, serve size", role="each"),
    var("serves", "count", PEOPLE + ", pour, full pour, complete pour", whole="down"),
    equations=["supply = serves * each"],
    words="pour, pours, keg, serves, how many drinks, full, complete, out of, left",
    asked="serves, supply, each",
    method=["{supply} gives {serves} whole serves of {each}."],
    examples=[
        ("how many complete 125 ml pours in a 19 L keg?", "152 count"),
        ("640 ml of lime left, 22 ml a drink, how many drinks?", "29 count"),
    ],
    source="serves = supply / each, rounded down",
)

POURS_LOST = Calculator(
    "pours_with_loss",
    "Serves from a keg of which some is lost",
    var("supply", "milliliter", "keg, bottle, vessel, have, tank, supply, can, cask", things="any", role="have"),
    var("lost", "percent", "lost, loss, lose, foam, foams away, waste, in the lines, spill", bounds=(0, 100), role="lost"),
    var("usable", "milliliter", "usable, what is left, pourable"),
    var("each", "milliliter", "pour, serve, measure, glass, a drink, per drink, each, serve size", role="each"),
    var("serves", "count", PEOPLE + ", pour, full pour, complete pour", whole="down"),
    equations=["usable = supply * (1 - lost)", "usable = serves * each"],
    limits=[limit("lost < 1", "refuse", "With {lost} lost nothing is left to pour.")],
    words="pour, pours, keg, serves, lost, loss, foam, how many drinks, full, tap",
    asked="serves, supply, usable",
    method=["Of {supply} {usable} can be poured: {serves} serves of {each}."],
    examples=[("10 litre keg, 180 ml serve, 6% foams away, how many drinks?", "52 count")],
    source="serves = supply x (1 - lost) / each, rounded down",
)

PORTIONS = Calculator(
    "portions_by_weight",
    "Portions from a weight",
    var("supply", "gram", "have, left, supply, bag, tub, jar", things="any", role="have", state="dry"),
    var("each", "gram", "portion, per drink, a drink, each, serve", role="each", state="dry"),
    var("serves", "count", PEOPLE, whole="down"),
    equations=["supply = serves * each"],
    words="portion, how many drinks, serves, left, by weight",
    asked="serves, supply, each",
    method=["{supply} gives {serves} portions of {each}."],
    examples=[("900 g of sugar left, 12 g a drink, how many drinks?", "75 count")],
    source="serves = supply / each, rounded down",
)

BOTTLES = Calculator(
    "bottles_to_buy",
    "Bottles to buy for a service",
    var("serves", "count", PEOPLE, role="to", whole="down"),
    var("each", "milliliter", "measure, pour, in each, a drink, per drink, apiece, shot", things="spirit,wine,liqueur", role="each"),
    var("need", "milliliter", "total, needed, in all, altogether"),
    var("bottle", "milliliter", "bottle, bottle size, size, can, carton", role="per"),
    var("bottles", "count", "bottle, can, carton, whole bottle", whole="up"),
    equations=["need = serves * each", "need = bottles * bottle"],
    words="bottle, bottles, buy, order, cellar, fetch, stock, bring up",
    asked="bottles, need, serves",
    method=["{serves} at {each} is {need}: {bottles} bottles of {bottle}."],
    examples=[("85 drinks with 4.5 cl vodka in each, 70 cl bottles to fetch, whole ones?", "6 count")],
    source="bottles = serves x each / bottle, rounded up",
)

CASES = Calculator(
    "cases_to_buy",
    "Cases to buy for so many bottles",
    var("bottles", "count", "bottle, can, piece", whole="up"),
    var("in_case", "count", "in a case, per case, to a case, case of, a case holds", role="per"),
    var("cases", "count", "case, box, crate", whole="up"),
    equations=["bottles = cases * in_case"],
    words="case, cases, crate, box, order",
    asked="cases, bottles",
    method=["{cases} cases of {in_case}."],
    examples=[("40 bottles, 12 to a case, how many cases?", "4 count")],
    source="cases = bottles / bottles in one, rounded up",
)


def one_line(name: str, unit: str, state: str, example: tuple[str, str]) -> Calculator:
    """A single ingredient from so many people to others, measured in ``unit``."""
    return Calculator(
        name,
        "One ingredient for more or fewer",
        var("amount", unit, "amount, recipe says, was, for them", things="any", role="from", state=state),
        var("feeds", "count", "feeds, serves, recipe for, for " + PEOPLE, role="from"),
        var("serves", "count", PEOPLE, role="to"),
        var("needed", unit, "needed, need, becomes, for all", things="any", role="to", state=state),
        equations=["needed * feeds = amount * serves"],
        words="scale, recipe, serves, feeds, people, instead of, tonight",
        asked="needed, serves, amount",
        method=["{amount} for {feeds} is {needed} for {serves}."],
        examples=[example],
        source="needed = amount x serves / serves of the recipe",
    )


BATCHES = Calculator(
    "batches",
    "Batches to make for a service",
    var("made", "count", "batch, batches, went through, last night, used", role="from", default=1, note="of one batch"),
    var("gave", "count", "serves, gave, makes, for, a batch gives", role="from"),
    var("serves", "count", PEOPLE + ", tonight, booking, bookings", role="to"),
    var("batches", "count", "batch, whole batch, make", whole="up"),
    equations=["batches * gave = made * serves"],
    words="batch, batches, whole batches, tonight, last night, bookings, prep",
    asked="batches, serves",
    method=["{batches} batches for {serves}."],
    examples=[("last night 3 batches made 60 serves, tonight 145 are booked: how many whole batches?", "8 count")],
    source="batches = serves / serves of a batch, rounded up",
)

CALCULATORS = (
    BATCH,
    DILUTED,
    LOSSES,
    BOTTLED,
    DRINK,
    POURS,
    POURS_LOST,
    PORTIONS,
    BOTTLES,
    CASES,
    one_line("scale_volume", "milliliter", "liquid", ("300 ml of rum feeds 12, how much rum for 30 people?", "750 milliliter")),
    one_line("scale_weight", "gram", "dry", ("200 g of sugar feeds 8, how much sugar for 20 people?", "500 gram")),
    BATCHES,
)
