"""Cream siphons: how much liquid, how many chargers, how many fills.

The rule goes by the rated size: one 8 g N2O charger up to half a litre, two up to a litre.  Liquid
never above the rated volume, chargers never above the rule or the maker's limit.
"""

from __future__ import annotations

from stillroom import Calculator, Function, choice, include, limit, var

from .things import choices_of, said

HALF, LARGEST = 0.5, 1.0
"""Litres: up to HALF one charger, up to LARGEST two (common practice, no source)."""


def chargers_for(size: float) -> float:
    """Chargers for one fill of a siphon rated at ``size`` litres.  ValueError above a litre."""
    if size > LARGEST * 1.0001:
        raise ValueError(
            "The rule of chargers ends with the 1 litre siphon: for a larger one follow its maker."
        )
    return 1.0 if size <= HALF * 1.0001 else 2.0


RULE = Function(
    "rule",
    chargers_for,
    ("liter",),
    "count",
    (0.01, LARGEST),
    "one 8 g N2O charger for 0.5 l and less, two for 1 l: common practice, no source",
)

CAUTION = (
    said("pressure")
    + " Food-grade N2O chargers only, at the maker's number and never more; chill the siphon and its "
    "liquid first, and "
    "never unscrew the head while gas is left."
)
NITROUS = said("n2o")

SIZE = var(
    "size",
    "liter",
    "siphon, whipper, size, cream siphon, cream whipper, dispenser, cream dispenser, "
    "whipped cream dispenser, whipped cream canister, rated, rated size, canister",
    role="into",
    bounds=(0.05, 10),
    keeps=True,
)
RATED = choice(
    "siphon_size",
    [
        {
            "id": "pint",
            "words": "pint siphon, pint whipper, pint cream siphon, pint cream whipper, pint dispenser, pt siphon, "
            "pt whipper, pint canister, pint cream canister, pint one, "
            "pint size, pint sized, pint-size, pint-sized",
            "litres": HALF,
            "source": "a pint siphon is rated 0.5 l: common practice, no source",
        },
        {
            "id": "quart",
            "words": "quart siphon, quart whipper, quart cream siphon, quart cream whipper, quart dispenser, "
            "qt siphon, qt whipper, quart canister, quart cream canister, "
            "quart whipped cream dispenser, quart one, quart size, quart sized, quart-size, quart-sized",
            "litres": LARGEST,
            "source": "a quart siphon is rated 1 l: common practice, no source",
        },
        {
            "id": "litre",
            "words": "the litre siphon, the liter siphon, the litre whipper",
            "litres": LARGEST,
            "source": "a litre is a litre",
        },
    ],
    fills={"size": "litres"},
    words="size, siphon size",
)
KEEPS = var("keeps", "day", hidden=True, default=max(float(r["high"]) for r in choices_of("keeping", "kind")
                                                     if r["kind"] == "foam-base"))
"""How long a foam base keeps cold in its siphon, at most: the table of keeping times."""
TOO_LARGE = limit(
    "size <= largest",
    "refuse",
    "The rule of chargers ends with the 1 l siphon, and this one is {size}: follow its maker.",
)
OVERFULL = limit(
    "liquid <= size",
    "refuse",
    "Never fill a siphon above its rated {size}: {liquid} leaves no room for the gas.",
)
CONSTANTS = {"largest": (LARGEST, "liter")}

CHARGERS = Calculator(
    "siphon_chargers",
    "Chargers for fills of a cream siphon",
    RATED,
    SIZE,
    var(
        "fills",
        "count",
        "fill, filling, siphon, whipper, time, refill, full siphon, charge",
        default=1,
        note="one fill",
        whole="down",
        shy=True,
    ),
    var("per_fill", "count", hidden=True),
    var(
        "liquid",
        "milliliter",
        "liquid, base, foam base, inside, in it, mix, cream, cream mix, i fill, fill, at once, in one go, one fill",
        things="cream,juice",
    ),
    var(
        "chargers",
        "count",
        "charger, cartridge, capsule, bulb, n2o charger, gas charger, cream charger, total",
        whole="up",
    ),
    var("box", "count", "per box, to a box, in a box, a box, box has, box is, box holds, per pack, pack of, "
    "in a pack, in one pack, in a packet, in one packet, "
        "per packet, packet of, come in, "
        "packed", role="per"),
    var("boxes", "count", "box, pack, packet, carton, sleeve", whole="up"),
    var(
        "charger",
        "gram",
        "charger, grams per charger, charger size",
        role="each",
        default=8,
        note="the usual small charger holds 8 g of N2O",
        shy=True,
    ),
    KEEPS,
    var("gas", "gram", "gas, nitrous, nitrous oxide, of n2o, much n2o, grams n2o, total gas, total n2o, n2o mass, "
        "n2o total", bounds=(0, 10_000)),
    equations=[
        "per_fill = rule(size)",
        "chargers = per_fill * fills",
        "chargers = boxes * box",
        "gas = chargers * charger",
    ],
    limits=[TOO_LARGE, OVERFULL],
    functions=[RULE],
    constants=CONSTANTS,
    only=(
        "siphon, whipper, charger, n2o, nitrous, cartridge, pint siphon, quart siphon, cream whipper, "
        "espuma, chargers"
    ),
    words="siphon, whipper, charger, cream siphon, n2o, nitrous, cartridge, box, fill, gas, foam",
    asked="chargers, boxes, fills, gas",
    method=["Fills of a {size} siphon: {fills}. Chargers for them: {chargers}; shake after each one."],
    cautions=[CAUTION, NITROUS],
    examples=[
        ("how many chargers does a full quart siphon want?", "2 count"),
        ("30 fills of a 1 l siphon, chargers come 24 to a box: how many boxes?", "3 count"),
    ],
    source="one 8 g charger for 0.5 l and less, two for 1 l: common practice, no source; the maker's limit "
    "comes first",
)

SEVERAL = Calculator(
    "several_siphons",
    "Chargers for several siphons, each filled several times",
    RATED,
    SIZE,
    var("siphons", "count", "siphon, whipper, syphon, cream siphon", bounds=(1, 1000), whole="up"),
    var("times", "count", "time, times each, filled each", bounds=(1, 1000)),
    var("per_fill", "count", hidden=True),
    var("chargers", "count", "charger, cartridge, capsule, bulb, n2o charger, gas charger, cream charger, total",
        whole="up"),
    equations=["per_fill = rule(size)", "chargers = per_fill * siphons * times"],
    limits=[TOO_LARGE],
    functions=[RULE],
    constants=CONSTANTS,
    only="siphon, whipper, siphons, whippers",
    also="times each, time each, each filled, filled each",
    words="siphons, whippers, each, filled, times each, altogether, chargers, all full",
    asked="chargers, siphons, times",
    method=["{siphons} siphons of {size}, filled {times} times each: {chargers} chargers; shake after each one."],
    cautions=[CAUTION, NITROUS],
    examples=[("four 0.5 l cream siphons filled three times each: how many chargers?", "12 count")],
    source="one 8 g charger for 0.5 l and less, two for 1 l: common practice, no source; the maker's limit "
    "comes first",
)

FOAM = Calculator(
    "foam_for_drinks",
    "Foam base for so many drinks",
    var("base", "milliliter", "base, foam base, foam, base in all, base total", role="need", things="cream,juice"),
    var("portions", "count", "drink, portion, serve, guest, cocktail, glass, dessert", whole="down"),
    var("portion", "milliliter", "base each, foam base each, a drink, per drink, each, of base, foam", bounds=(0, 200),
        role="each"),
    equations=["base = portions * portion"],
    only="foam, foam base, espuma, base",
    words="base each, base total, on drinks",
    asked="base, portions, portion",
    method=["{portions} drinks with {portion} of foam base each take {base}."],
    examples=[("foam on 40 drinks, 20 ml of base each, how much base is that?", "800 milliliter")],
    source="base = drinks x base of one",
)

GAS_COST = Calculator(
    "siphon_gas_cost",
    "What the gas of a cream siphon costs",
    include(CHARGERS),
    var("price", "currency", "apiece, each, a charger, per charger, charger costs, one charger", role="each"),
    var("box_price", "currency", "box, box costs, a box, invoiced, pack, paid"),
    var("cost", "currency", "cost, cost us, spend, gas cost, cost of the gas, spend on gas"),
    equations=["cost = chargers * price", "box_price = box * price"],
    only="cost, costs, price, spend, invoiced, $, €, £, euro, dollar",
    also="siphon, whipper, charger, chargers",
    words="cost, gas cost, spend on gas, charger, siphon, apiece, invoiced",
    asked="cost, price",
    method=["{chargers} chargers at {price} each cost {cost}."],
    cautions=[CAUTION, NITROUS],
    examples=[("chargers cost 0.80 apiece, 10 fills of the 0.5 l siphon: what do I spend on gas?", "8 currency")],
)

SERVICE = Calculator(
    "siphon_service",
    "Siphons, fills and chargers for a batch or a number of portions",
    RATED,
    SIZE,
    var("base", "milliliter", "base, batch, foam base, foam, mix, in all, total, liquid", role="need"),
    var(
        "fill",
        "milliliter",
        "in each siphon, each filled, filled with",
        role="into",
        default="size",
        note="each siphon filled to its rated size",
    ),
    var(
        "portions",
        "count",
        "portion, drink, serve, guest, cocktail, glass, dessert, plate",
        role="need",
        whole="down",
    ),
    var("portion", "milliliter", "portion, per drink, per glass, each portion, base, foam", role="each"),
    var("portions_per_fill", "count", "from each fill, each siphon, each fill, per fill, siphon fill, "
        "fill yield, a fill, one fill, gets me", role="each"),
    var("load", "count", hidden=True),
    var("per_fill", "count", hidden=True),
    KEEPS,
    var("fills", "count", "siphon, whipper, refill, fill, full fill, siphons at once", whole="up", shy=True),
    var("chargers", "count", "charger, cartridge, capsule, bulb, n2o charger, cream charger", whole="up"),
    equations=[
        "base = portions * portion",
        "base = load * fill",
        "portions = load * portions_per_fill",
        "per_fill = rule(size)",
    ],
    steps=["fills := ceil(load)", "chargers := fills * per_fill"],
    limits=[
        TOO_LARGE,
        limit(
            "fill <= size",
            "refuse",
            "Never fill a siphon above its rated {size}: {fill} leaves no room for the gas.",
        ),
    ],
    functions=[RULE],
    constants=CONSTANTS,
    only=(
        "siphon, whipper, canister, charger, n2o, nitrous, cartridge, pint siphon, quart siphon, cream whipper, "
        "espuma"
    ),
    words="siphon, whipper, portion, batch, service, fills, how many siphons, foam, chargers, each fill, fill at once, "
    "to hold it all, for all of it, between siphons",
    asked="fills, chargers, portions",
    method=["Fills of a {size} siphon: {fills}. Chargers for them: {chargers}; shake after each one."],
    cautions=[CAUTION, NITROUS],
    examples=[
        ("how many pint siphons for 60 oz of foam base?", "4 count"),
        ("50 portions of 30 ml each from a 1 l siphon: how many chargers?", "4 count"),
    ],
    source="one 8 g charger for 0.5 l and less, two for 1 l: common practice, no source; the maker's limit "
    "comes first",
)

FILL = Calculator(
    "siphon_fill",
    "How much a siphon takes, and the portions in it",
    RATED,
    SIZE,
    var(
        "full",
        "milliliter",
        "most, maximum, at most, limit, fill limit, fill line, how far, how full, capacity, hold, holds, when full, "
        "max fill, the most liquid, liquid, base, max, maximal, maximum liquid, max liquid",
    ),
    var(
        "liquid",
        "milliliter",
        "liquid, base, foam base, inside, in it, mix, cream",
        things="cream,juice",
        role="with",
        default="size",
        note="filled to its rated size",
    ),
    var(
        "portion", "milliliter", "portion, serve, per drink, per glass, base, liquid base, foam, of the liquid",
        role="each"
    ),
    var("portions", "count", "portion, serve, drink, glass, guest, dessert, coffee, plate, cocktail", whole="down"),
    equations=["full = size", "liquid = portions * portion"],
    limits=[OVERFULL],
    only=(
        "siphon, whipper, canister, cream dispenser, charger, n2o, nitrous, cartridge, pint siphon, quart siphon, "
        "cream whipper, espuma"
    ),
    words="siphon, whipper, fill, most, maximum, capacity, portion, pour, how much liquid, mark, one fill, full, "
    "to the mark, to the maximum, to the limit, to the line, one filling, from one fill, does one fill, "
        "can i put, fit in, too much base, how far, how full, canister, cream canister",
    asked="full, portions, liquid",
    method=["Never more than {full}: the rest of the vessel is for the gas."],
    cautions=[CAUTION],
    examples=[
        ("what is the most base I may pour in a pint whipper?", "500 milliliter"),
        ("0.5 l siphon with 480 ml of base in it, 32 ml a portion: how many portions?", "15 count"),
    ],
    source="never above the rated size: makers' instructions; sizes: common practice, no source",
)

CALCULATORS = (CHARGERS, SEVERAL, FOAM, GAS_COST, SERVICE, FILL)
