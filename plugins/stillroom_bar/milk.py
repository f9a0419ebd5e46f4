"""Milk clarification: an acid drink curdles milk, and the curd takes haze and harshness with it.

Volumes add; what the curd keeps back is an estimate of the trade.  Casein falls out at about
pH 4.6, so the drink must be more acid than that.  Milk's protein stays in the clear drink.
"""

from __future__ import annotations

from stillroom import Calculator, Lines, choice, include, limit, var

from .serves import PEOPLE
from .things import said

CURDLES = 4.6
"""pH at which casein falls out (its isoelectric point, dairy chemistry handbooks: 4.6 to 4.7)."""

_SOURCE = "common practice, no source"
MILKS = [
    {"id": "whole", "words": "whole milk, full fat milk, cow's milk, pasteurised milk", "source": _SOURCE},
    {"id": "skimmed", "words": "skimmed milk, skim milk, semi skimmed milk, low fat milk", "source": _SOURCE},
    {"id": "goat", "words": "goat milk, goat's milk, sheep milk, ewe's milk", "source": _SOURCE},
    {
        "id": "raw",
        "words": "raw milk, unpasteurised milk, unpasteurized milk",
        "source": "from memory of FDA Food Code 3-202.14",
        "caution": said("raw-milk"),
    },
    {
        "id": "lactose-free",
        "words": "lactose free milk",
        "source": _SOURCE,
        "caution": "Lactose-free milk still holds milk protein: it is no help to a guest with a milk "
        "allergy.",
    },
    {
        "id": "plant",
        "words": "oat milk, almond milk, soy milk, soya milk, coconut milk, plant milk, vegan milk, oat "
        "drink",
        "source": _SOURCE,
        "caution": "A plant drink holds no casein: soya curdles and clears a little, oat and almond hardly "
        "do. Try a glass "
        "first, and name its own allergens.",
    },
]

ALLERGEN = said("milk")
STEPS = (
    "Measure {milk} of milk, cold, into a tub that holds {total}.",
    "Pour the {drink} of acid drink slowly into the milk, not the milk into the drink, and stir once.",
    "Let the curd stand, cold and covered, for an hour unless you say otherwise (half an hour "
    "to a night: common practice).",
    "Strain through a fine cloth or paper without pressing; pour the first cloudy runnings back over the "
    "curd until "
    "they come clear.",
    "Bottle, label with the date and with milk, and keep it at 5 °C or below.",
)

DRINK = var(
    "drink",
    "milliliter",
    "drink, punch, cocktail, mix, batch, base, grog, mixed drink, liquid, booze",
    things="any",
    role="from",
)
MILK_PART = var("milk", "milliliter", "milk", named_by="kind.words", things="milk")
TOTAL = var(
    "total",
    "milliliter",
    "whole mixture, mixture, combined, combined volume, total volume, total vol, drink and milk, "
    "punch and milk, milk included, milk and all, counting the milk, milk counted, counting milk, "
    "before straining, pot, vessel, total, together, "
    "altogether, all together, drink plus milk, together must be, everything, charge, "
    "tub, jar holds, container holds, bucket holds, crock holds, both fit, both together, drink and milk both",
    role="into",
)
RATIO = var(
    "ratio",
    "dimensionless",
    "ratio, drink to milk ratio, proportion, parts",
    ratio="drink:milk",
    default=4,
    note="4 drink to 1 milk by volume: common practice, no source",
    bounds=(0.1, 100),
    usual=(2, 8),
    keeps=True,
)
LOSS = var(
    "loss",
    "percent",
    "loss, lost, curd, kept back, stays in the curd, stays in the cloth, stays in the filter, left in the cloth, "
    "left in the filter, stays behind, caught in the filter, caught in the cloth",
    bounds=(0, 90),
    role="lost",
    default=15,
    note="15 % of the total stays in the curd, 10 to 25 %: common practice, no source",
)
KIND = choice("kind", MILKS, default="whole", words="kind of milk")

MILK_PUNCH = Calculator(
    "milk_punch",
    "Milk to clarify a drink",
    KIND,
    DRINK,
    MILK_PART,
    TOTAL,
    RATIO,
    var(
        "clear",
        "milliliter",
        "yield, clear do, clear will, clear left, clear comes, of clear, clear drink, clear liquid, clear punch, "
        "clear milk punch, clarified drink, "
        "end up, finished, "
        "strained, left",
        role="to",
    ),
    LOSS,
    var(
        "rest",
        "hour",
        "rest, stand, sit, wait, resting time, curdle",
        default=1,
        note="half an hour to overnight: common practice, no source",
    ),
    equations=["total = drink + milk", "drink = ratio * milk", "clear = total * (1 - loss)"],
    limits=[limit("loss <= 0.6", "doubt", "{loss} would stay behind, and clarifying keeps a tenth to a third: check "
                  "the amounts.")],
    only="milk, clarify, clarified, clarification, clarifying, curd, curdle, milk punch, clear punch",
    words="milk, clarify, clarified, clarification, clarifying, milk punch, milk wash, curd, curdle",
    asked="milk, drink, ratio, total, clear",
    method=list(STEPS),
    cautions=[ALLERGEN],
    conventions=["by volume; the drink is mixed and acid (pH below 4.6), before any ice"],
    examples=[
        ("2.5 l of punch to clarify, how much milk?", "625 milliliter"),
        ("drink and milk together must fill 6 l at 4:1, how much milk?", "1200 milliliter"),
    ],
    source="common practice, no source",
)

BY_NATURE = "volumes add; the drink is mixed and acid (pH below 4.6), before any ice"
ONLY = "milk, clarify, clarified, clarification, clarifying, curd, curdle, milk punch, clear punch"

CARTONS = Calculator(
    "milk_cartons",
    "Cartons of milk to buy, to clarify a drink",
    include(MILK_PUNCH),
    var("carton", "milliliter", "carton, comes in, milk comes in, milk comes by, sold in, cartons of",
        role="per"),
    var("cartons", "count", "carton, whole carton, pack", whole="up"),
    equations=["milk = cartons * carton"],
    only="carton, comes in, milk comes in, comes by, milk comes by, sold in",
    also="milk",
    words="milk, clarify, clarified, clarification, clarifying, milk punch, carton, cartons, buy, whole cartons",
    asked="cartons, milk",
    method=["Buy {cartons} of {carton} for {milk} of milk.", *STEPS[1:]],
    cautions=[ALLERGEN],
    examples=[("clarifying 10 l of punch, milk comes in 1 l cartons: how many cartons to buy?", "3 count")],
)

OF_SPEC = Calculator(
    "milk_for_spec",
    "Milk to clarify a drink of several ingredients",
    KIND,
    var("drink", "milliliter", "drink, punch, the lot", hidden=True),
    MILK_PART,
    TOTAL,
    RATIO,
    equations=["total = drink + milk", "drink = ratio * milk"],
    lines=Lines(sums={"drink": "volume"}, minimum=3),
    only=ONLY,
    also="clarify it, clarify this, clarify that, clarify all, clarify the lot, clarify them, be clarified, "
        "it clarified, "
    "all clarified",
    words="milk, clarify, clarified, clarification, clarifying, milk punch, whole punch, all of it clarified, all that",
    asked="milk, total",
    method=list(STEPS),
    cautions=[ALLERGEN],
    conventions=[BY_NATURE],
    examples=[("rum 500 ml, lemon juice 250 ml, tea 750 ml: milk to clarify it?", "375 milliliter")],
    source=_SOURCE,
)

FOR_SERVICE = Calculator(
    "milk_for_service",
    "Milk for so many serves of clear milk punch",
    KIND,
    MILK_PART,
    RATIO,
    LOSS,
    var("serves", "count", PEOPLE, role="to", whole="down"),
    var("serve", "milliliter", "serve, serving, portion, each, apiece, a glass, per guest", bounds=(5, 1000),
        role="each", shy=True),
    var("drink", "milliliter", "drink to clarify", hidden=True),
    var("total", "milliliter", "drink and milk", hidden=True),
    var("clear", "milliliter", "clear punch in all", hidden=True),
    equations=["total = drink + milk", "drink = ratio * milk", "clear = total * (1 - loss)", "clear = serves * serve"],
    only="serve, serving, people, guest, portion, glass, each",
    also="how much milk, milk required, milk needed, of milk, milk to use, milk in ml, milk in litres",
    words="milk, clarify, clarified, milk punch, clear milk punch, finished, serves, each",
    asked="milk, serves",
    method=["{serves} serves of {serve} are {clear} of clear punch.", *STEPS],
    conventions=[BY_NATURE],
    cautions=[ALLERGEN],
    examples=[("clear milk punch, 60 serves of 80 ml each, 20 % lost, drink to milk 4:1: how much milk?",
               "1200 milliliter")],
    source=_SOURCE,
)

SHARE = Calculator(
    "milk_by_share",
    "Milk as a share of a drink, or of drink and milk together",
    KIND,
    DRINK,
    MILK_PART,
    TOTAL,
    var("of_drink", "percent", "of the drink, drink volume, of the drink volume, from the drink, "
        "from the drink volume, "
        "of the punch, of drink, share of milk",
        bounds=(0, 100)),
    var("of_total", "percent", "total volume, of the total, of the total volume, of everything, of the whole, "
        "of the pot, of all of it",
        bounds=(0, 100)),
    equations=["total = drink + milk", "milk = of_drink * drink", "milk = of_total * total"],
    limits=[limit("of_total < 1", "refuse", "Then it would all be milk.")],
    only=ONLY,
    also="percent, per cent, %, fifth of, quarter of, third of, tenth of",
    words="milk, clarify, clarified, clarification, of the drink, of the total, of everything, milk punch",
    asked="milk, drink, total",
    method=list(STEPS),
    cautions=[ALLERGEN],
    conventions=[BY_NATURE],
    examples=[
        ("milk is to be 20 % of the total volume of 5 l of punch and milk: how much milk?", "1 liter"),
    ],
    source=_SOURCE,
)

MILK_STRENGTH = Calculator(
    "milk_strength",
    "Strength of a drink after milk clarification",
    KIND,
    DRINK,
    MILK_PART,
    TOTAL,
    RATIO,
    var("abv", "abv", "strength, abv, alcohol, before", role="from", bounds=(0, 100)),
    var(
        "clear_abv",
        "abv",
        "strength after, abv after, final strength, strength, abv, alcohol",
        role="to",
        bounds=(0, 100),
    ),
    equations=["total = drink + milk", "drink = ratio * milk", "clear_abv * total = abv * drink"],
    only="milk, clarify, clarified, clarification, clarifying, curd, curdle, milk punch, clear punch",
    words="clarify, clarified, clarification, strength, abv, alcohol, weaker",
    asked="clear_abv, abv, ratio",
    method=["{abv} in the drink is {clear_abv} once {ratio} parts of it have met one part of milk."],
    cautions=[ALLERGEN],
    conventions=["volumes add, and the curd keeps back liquid of the same strength as the clear drink"],
    examples=[("punch at 25 % ABV, milk clarified at 4:1: strength after?", "20 percent")],
    source="mass balance of ethanol by volume",
)

CURDLING = Calculator(
    "curdling",
    "Is the drink acid enough to curdle milk?",
    KIND,
    var(
        "ph",
        "dimensionless",
        "ph, acidity, drink, punch",
        bounds=(0, 14),
        default=CURDLES,
        note="casein falls out at pH 4.6 and below: dairy chemistry handbooks",
    ),
    var("margin", "dimensionless", "margin, below, to spare", bounds=(None, None)),
    equations=["margin = curdling_ph - ph"],
    constants={"curdling_ph": (CURDLES, "dimensionless")},
    limits=[
        limit(
            "ph <= curdling_ph",
            "caution",
            "At pH {ph} the milk will not curdle well: casein needs pH 4.6 or below. Add acid or citrus "
            "first.",
        )
    ],
    only="ph, curdle, curdling, split, acid enough",
    words="curdle, curdling, acid enough, ph, split, milk, clarify, enough acid",
    asked="margin, ph",
    method=[
        "Test a glass first: it should break at once into curd and clear whey.",
        "If it stays creamy, add acid or citrus to the drink, not to the milk.",
    ],
    cautions=[ALLERGEN],
    examples=[("below what pH does milk curdle for clarification?", "4.6 dimensionless")],
    source="isoelectric point of casein, pH 4.6: dairy chemistry handbooks; milk itself is pH 6.5 to 6.7",
)

CALCULATORS = (MILK_PUNCH, CARTONS, OF_SPEC, FOR_SERVICE, SHARE, MILK_STRENGTH, CURDLING)
