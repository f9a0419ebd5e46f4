"""What fruit gives and what to buy: juice, peel and flesh, by the fruit, by the kilo and by the case.

The table's figures are typical of ripe fruit pressed by hand; a figure of one's own always wins.
Fruit to buy is rounded up; what a given number of fruit yields is not rounded.
"""

from __future__ import annotations

from stillroom import Calculator, choice, include, limit, var

from .serves import PEOPLE
from .things import choices_of

COUNTS = "fruit, number of fruit, how many fruit, qty, quantity"
TRADE = "common practice, no source"
VARIES = "Fruit varies with season, ripeness and size: press a few and measure before you order."
JUICE_ROWS = choices_of("fruit_yield", "fruit", "juice_low", "juice_high", "ml a fruit")
FRUIT_ROWS = choices_of("fruit_yield", "fruit")
FRUIT_NAMES = ", ".join(row["words"] for row in JUICE_ROWS)
NAMED = [word.strip() for word in FRUIT_NAMES.split(",")]


def an(word: str) -> str:
    """The article before a word."""
    return "an" if word[0] in "aeiou" else "a"


BINNED = ("throw, throw away, throw out, thrown out, chuck, chucked, bin, binned, in the bin, toss, tossed, "
          "rubbish, no good, unusable")
"""What is said of the part that nobody can use."""
PER_FRUIT = (
    "juice per fruit, yield per fruit, per fruit, a piece, from one, each one, one gives, each gives, give, giving, "
    + ", ".join(f"per {x}, {an(x)} {x}, one {x}, {x} give" for x in NAMED)
)
"""A fruit as the measure of something: ``28 ml a lime``."""
OF_FRUIT = "get, getting, doing, juice each, squeeze, " + ", ".join(
    (PER_FRUIT, *(f"every {x}, each {x}, many {x}" for x in NAMED))
)
"""What says that the fruit are meant, and not juice that is there."""

JUICE = Calculator(
    "juice_by_fruit",
    "Juice from so many fruit, and fruit to buy for so much juice",
    choice("kind", JUICE_ROWS, fills={"each": "juice", "largest": "juice_high"}, words="fruit"),
    var("fruit", "count", COUNTS, named_by="kind.words", things="fruit", whole="up"),
    var("juice", "milliliter", "juice, total, in total, altogether, yield, gave, obtain", things="juice", role="need"),
    var("each", "milliliter", "juice, " + PER_FRUIT, role="each"),
    var("largest", "milliliter", hidden=True),
    equations=["juice = fruit * each"],
    limits=[
        limit("each <= 3 * largest", "doubt", "No {kind} gives {each} of juice."),
        limit("each >= 0.03 * largest", "doubt", "No {kind} gives as little as {each} of juice."),
    ],
    only="juice, juiced, press, pressed, squeeze, squeezed, yield, yields, fruit, give, gives, giving, " + FRUIT_NAMES,
    words="juice, press, squeeze, squeezed, pressed, fresh juice, buy, yield",
    asked="fruit, juice, each",
    method=[
        "Press {fruit} fruit ({kind}) for {juice} of juice.",
        "Press one and measure it first: the juice of a fruit varies by half.",
    ],
    cautions=[VARIES],
    examples=[
        ("limes giving 28 ml each, I need 2.5 l of juice: how many limes?", "90 count"),
        ("54 grapefruit at 95 ml apiece, juice in total?", "5130 milliliter"),
    ],
    source="juice = fruit x juice of one fruit",
)

FOR_SERVICE = Calculator(
    "fruit_for_service",
    "Fruit for so many drinks with juice in each",
    include(JUICE),
    var("serves", "count", PEOPLE, role="to", whole="down"),
    var("juice", "milliliter", "juice in all", hidden=True),
    var("each", "milliliter", PER_FRUIT, role="each"),
    var("pour", "milliliter", "juice in each, put in one, in one, in a drink, put in each, in each drink, "
        "in every drink, a drink, per drink, in each, "
        "in every one, inside each, "
        "per serve, takes, pour, serve, drinks", role="each", bounds=(0, 500)),
    equations=["juice = serves * pour"],
    only=PEOPLE + ", in each, in every one, pour",
    also="fruit, citrus, " + ", ".join(NAMED),
    words="juice in each, per drink, drinks, serves",
    asked="fruit, serves, juice",
    method=["{serves} drinks with {pour} of juice take {juice}: {fruit} fruit ({kind}) at {each} each."],
    cautions=[VARIES],
    examples=[
        ("30 drinks with 20 ml of lime juice in each, a lime gives 25 ml: how many limes?", "24 count"),
        ("50 lemons at 40 ml each, a drink takes 25 ml of juice, how many drinks?", "80 count"),
    ],
    source="juice = serves x juice of one serve",
)

STRAINED = Calculator(
    "fruit_for_strained_juice",
    "Fruit to press for so much juice after straining",
    include(JUICE, pressed="juice"),
    var("pressed", "milliliter", "pressed juice, juice unstrained, volume to press, litres to press, ml to press, "
        "how much to press, juice to press, " + ", ".join(f"pressed {x} juice" for x in NAMED) + ", "
        " have to press, must press, need to press, should press, to be pressed, "
        "before straining, must i press, do i press, to squeeze", shy=True),
    var("juice", "milliliter", "juice, strained juice, clean juice, after straining, left, is left, "
        "comes through", things="juice", role="need"),
    var("lost", "percent", "lost, loss, loses, lose, straining, strain, sieve, pulp, stays in the sieve, "
        "left in the sieve", bounds=(0, 100), role="lost"),
    equations=["juice = pressed * (1 - lost)"],
    limits=[limit("lost < 1", "refuse", "With {lost} lost in the sieve no juice is left.")],
    only="strain, strained, straining, sieve, sieved, sieving, filter, filtering, pulp",
    words="juice, strain, straining, sieve, pulp, lost, press, buy",
    asked="fruit, juice, pressed",
    method=["Press {fruit} fruit for {pressed}: straining leaves {juice}."],
    cautions=[VARIES],
    examples=[("lemons give 45 ml each, straining loses 5 %, how many lemons for 3 l of juice?", "71 count")],
    source="juice = fruit x juice of one x (1 - lost)",
)

WITH_WASTE = Calculator(
    "juice_with_waste",
    "Fruit to buy for so much juice when some is bad",
    include(JUICE, good="fruit"),
    var("good", "count", "good fruit, sound fruit", whole="up"),
    var("fruit", "count", COUNTS, named_by="kind.words", things="fruit", whole="up"),
    var("waste", "percent", "waste, bad, spoiled, mouldy, thrown away, lost", bounds=(0, 100), role="lost"),
    equations=["good = fruit * (1 - waste)"],
    limits=[limit("waste < 1", "refuse", "With {waste} wasted no fruit is left to press.")],
    words="juice, waste, bad fruit, spoiled, buy",
    only="waste, bad, spoiled, mouldy, thrown away, lost",
    asked="fruit, juice, each",
    method=["Buy {fruit}: with {waste} bad, {good} are left to press."],
    examples=[("limes give 25 ml each and 10 % are bad, how many limes for 4 l of juice?", "178 count")],
)

PEEL = Calculator(
    "peel_by_fruit",
    "Peel from so many fruit, and fruit to peel for so much",
    choice("kind", FRUIT_ROWS, fills={"each": "peel"}, words="fruit"),
    var("fruit", "count", COUNTS, named_by="kind.words", things="fruit", whole="up"),
    var("peel", "gram", "peel, zest, total peel, skin, rind", things="peel", state="dry"),
    var("each", "gram", "peel off each, a piece, zest per fruit, " + PER_FRUIT, role="each", state="dry"),
    equations=["peel = fruit * each"],
    limits=[limit("each >= least", "doubt", "No fruit has as little peel as {each}."),
            limit("each <= most", "doubt", "No fruit has as much peel as {each}.")],
    constants={"least": (0.5, "gram"), "most": (90, "gram")},
    words="peel, zest, peeler, peeled, peels, rind",
    only="peel, zest, peeler, peeled, rind, skin",
    asked="fruit, peel, each",
    method=["Peel {fruit} fruit ({kind}) for {peel} of peel: thin strips, no white pith."],
    examples=[("a case is 72 oranges, 9 g of peel off each: total peel?", "648 gram")],
    source="peel = fruit x peel of one fruit",
)

PEEL_WITH_LOSS = Calculator(
    "peel_with_loss",
    "Peel from so many fruit when some of it is thrown away",
    include(PEEL),
    var("lost", "percent", "lost, loss, discarded, thrown away, of the peel discarded, waste, " + BINNED,
        bounds=(0, 100), role="lost"),
    var("usable", "gram", "usable, usable peel, good peel, good zest, good skin, good rind, clean peel, left",
        state="dry"),
    equations=["usable = peel * (1 - lost)"],
    only="lost, loss, discarded, discard, thrown away, waste, usable, " + BINNED,
    also="peel, zest, rind, skin",
    words="usable peel, discarded, peel, zest, thrown away",
    asked="usable, fruit",
    method=["{fruit} fruit give {peel}, of which {usable} can be used."],
    cautions=[VARIES],
    examples=[("100 lemons at 10 g of peel each, 5 % of the peel is discarded: usable peel?", "950 gram")],
)

PEEL_BY_WEIGHT = Calculator(
    "peel_per_kilo",
    "Peel from a weight of fruit",
    var("weight", "kilogram", "fruit, weight, kilos, bought", things="fruit", role="from", state="dry"),
    var("peel", "gram", "peel, zest, skin, rind", things="peel", state="dry"),
    var("rate", "gram / kilogram", "peel per kilo, zest per kilo, per kilo, a kilo, per kg, per kg of fruit",
        role="per"),
    equations=["peel = rate * weight"],
    only="peel, zest, peeler, peeled, rind, skin",
    also="per kilo, a kilo, per kg, kg of, kilos of, per pound",
    words="peel, zest, per kilo, per kg, from a weight",
    asked="peel, rate, weight",
    method=["{weight} of fruit give {peel} of peel."],
    cautions=[VARIES],
    examples=[("1.5 kg of lemons gave 90 g of zest, how many grams of zest per kg of fruit?", "60 gram / kilogram")],
    source="peel = rate x weight",
)

PEEL_LEFT = Calculator(
    "peel_from_juice",
    "The peel that a batch of juice leaves",
    include(JUICE, juice_each="each"),
    var("peel", "gram", "peel, zest, skin, rind", things="peel", state="dry"),
    var("peel_each", "gram", "peel per fruit, peel off each, peel, zest, skin, " + PER_FRUIT, role="each",
        state="dry"),
    choice("kind", JUICE_ROWS, fills={"juice_each": "juice", "peel_each": "peel"}, words="fruit"),
    equations=["peel = fruit * peel_each"],
    only="peel, zest, skin, rind, husk",
    also="juice, juiced, juicing, press, pressed, squeeze",
    words="peel left from juice, peels left over, peel before juicing, leftover peel, husks",
    asked="peel, juice, fruit",
    method=[
        "Peel the fruit before you press it: {juice} of juice takes {fruit} fruit ({kind}) and leaves {peel} of peel."
    ],
    examples=[("peel left from 3.2 l of orange juice at 80 ml and 18 g of peel each?", "720 gram")],
    source="peel = fruit x peel of one fruit",
)

JUICE_BY_WEIGHT = Calculator(
    "juice_per_kilo",
    "Juice from a weight of fruit",
    var(
        "weight", "kilogram", "fruit, weight, kilos, case, bought, kilos to order, kilos to buy, "
        "order", things="fruit,spice,herb", role="from", state="dry"
    ),
    var("juice", "milliliter", "juice, yield, delivered, pressed", things="juice"),
    var("rate", "milliliter / kilogram", "juice per kilo, per kilogram, a kilo, per pound, one kilo, a kilogram, yield",
        role="per"),
    equations=["juice = rate * weight"],
    only="juice, juiced, press, pressed, squeeze, squeezed, yield, yields, per kilo, per kilogram, per kg, a kilo, "
    "per pound",
    words="juice, pressed, juiced, squeezed, per kilo, yield",
    asked="rate, juice, weight",
    method=["Press {weight} of fruit for {juice} of juice."],
    examples=[
        ("from 4.2 kg of lemons we pressed 1.55 litres, how many ml a kilo?", "369.047619 milliliter / kilogram")
    ],
    source="juice = rate x weight",
)

JUICE_IN_PROPORTION = Calculator(
    "juice_in_proportion",
    "Fruit for more juice, by what a pressing gave",
    var("weight", "kilogram", "pressed, juiced, squeezed, used", things="fruit", role="from", state="dry"),
    var("gave", "milliliter", "got, and got, gave, yielded, came out, it was", things="juice", role="from"),
    var("juice", "milliliter", "order for, for, need, want, expect, to expect, juice, get, give, "
        "would give", role="to"),
    var("order", "kilogram", "order, buy, need, kilos, there is, there's, walk-in, in the walk-in, "
        "more", role="to", state="dry"),
    equations=["order * gave = weight * juice"],
    only="pressed, juiced, squeezed, yielded, " + FRUIT_NAMES,
    also="gave, got, yielded, gives, yields",
    words="pressed, got, gave, yielded, order, buy, expect, there's, walk-in",
    asked="order, juice",
    method=["{weight} gave {gave}, so {juice} takes {order}."],
    cautions=[VARIES],
    examples=[("we pressed 10 kg of apples and got 6 l of juice, how many kilos do I order for 15 l?", "25 kilogram")],
    source="in proportion to what was pressed",
)

JUICE_SHARE = Calculator(
    "juice_share",
    "Juice as a share of the fruit's weight",
    var("weight", "kilogram", "fruit, weight, in, bought, fruit weight", things="fruit", role="from", state="dry"),
    var(
        "share", "percent", "share, weight, of the weight, of its weight, juice, yield, yield of mass", bounds=(0, 100)
    ),
    var("juice", "kilogram", "juice, juice out, out", things="juice"),
    var("lost", "percent", "rubbish, pulp, skin, peel, husk, pomace, waste, lost, loss, not juice, "
        "" + BINNED, bounds=(0, 100),
        role="lost", shy=True),
    equations=["juice = share * weight", "share = 1 - lost"],
    limits=[limit("share <= 1", "refuse", "No fruit gives more than its own weight in juice: {share} is above 100 %.")],
    only="juice, juiced, press, pressed, squeeze, squeezed",
    words="juice, share of weight, percent of the weight, of mass, by weight, yield, fruit",
    asked="share, juice, weight",
    method=["{juice} of juice takes {weight} of fruit."],
    examples=[("limes: 18.4 kg in, 6.9 kg juice out, yield in % of mass?", "37.5 percent")],
    source="juice = share x weight",
)

JUICE_SHARE_OF_FRUIT = Calculator(
    "fruit_for_juice_by_weight",
    "Fruit to buy for a weight of juice, from the share of its weight that is juice",
    choice("kind", FRUIT_ROWS, fills={"each": "mass"}, words="fruit"),
    var("fruit", "count", COUNTS, named_by="kind.words", things="fruit", whole="up"),
    var("each", "gram", "weigh each, fruit weight, weigh, weight of one, unit, a piece", role="each", state="dry"),
    var(
        "share", "percent", "share, weight, of the weight, of its weight, juice, yield, yield of mass", bounds=(0, 100)
    ),
    var("juice", "kilogram", "juice, juice out, out", things="juice"),
    equations=["juice = share * each * fruit"],
    limits=[limit("share <= 1", "refuse", "No fruit gives more than its own weight in juice: {share} is above 100 %.")],
    only="juice, juiced, press, pressed, squeeze, squeezed",
    words="juice, share of weight, percent of the weight, by weight, yield, whole fruit, how many fruit",
    asked="fruit, juice, share",
    method=["{fruit} fruit of {each} give {juice} of juice."],
    examples=[
        (
            "pineapples weigh 1.4 kg each and 45 % of the weight comes out as juice, whole pineapples for 5 kg juice?",
            "8 count",
        ),
    ],
    source="juice = share x weight of one x fruit",
)

TRIM = Calculator(
    "trimming",
    "Weight to buy for so much clean fruit",
    var(
        "bought",
        "kilogram",
        "bought, buy, order, purchase, whole fruit, gross, untrimmed, i peeled",
        things="fruit",
        role="from",
        state="dry",
    ),
    var("lost", "percent", "waste, loss, lose, trim, trim loss, skin and stone, peeling, throw", bounds=(0, 100),
        role="lost"),
    var("share", "percent", "share, edible, usable, percent left, percentage left, usable share, yield, "
        "is left", bounds=(0, 100), shy=True),
    var("binned", "kilogram", "bin, binned, waste, trimmings, scraps, thrown away", state="dry", role="lost"),
    var("clean", "kilogram", "clean, flesh, trimmed, peeled, after trim, after trimming, usable, to use, "
        "net, pulp", state="dry", role="need"),
    equations=["clean = bought * (1 - lost)", "binned = bought - clean", "share = 1 - lost"],
    limits=[limit("lost < 1", "refuse", "With {lost} lost nothing is left: a loss is below 100 %.")],
    only="trim, trimmed, flesh, waste, skin, stone, core, clean, pulp, lost, loss, lose, usable, peeled, binned, "
        "edible, "
    "throw, thrown",
    words="trim, trimmed, flesh, waste, peel, peeled, skin, stone, core, clean, order, binned, edible, throw",
    asked="bought, clean, binned, lost",
    method=["Buy {bought}; trimming leaves {clean}."],
    examples=[
        ("mango loses 38 % for skin and stone, 5 kg of clean flesh needed, how many kg to buy?", "8.064516129 kilogram")
    ],
    source="clean = bought x (1 - lost)",
)

TRIM_FRUIT = Calculator(
    "trimming_by_fruit",
    "Clean flesh from so many fruit",
    choice("kind", FRUIT_ROWS, fills={"each": "mass"}, words="fruit"),
    var("fruit", "count", COUNTS, named_by="kind.words", things="fruit", whole="up"),
    var("each", "gram", "weight of one, fruit weight, each, weigh", role="each", state="dry"),
    var("lost", "percent", "waste, loss, trim, trim loss, skin and stone, peeling", bounds=(0, 100), role="lost"),
    var("clean", "kilogram", "clean, flesh, flesh total, trimmed, usable, pulp", state="dry", role="need"),
    equations=["clean = fruit * each * (1 - lost)"],
    limits=[limit("lost < 1", "refuse", "With {lost} lost nothing is left: a loss is below 100 %.")],
    only="trim, trimmed, flesh, waste, skin, stone, core, clean, pulp, lost, loss",
    words="trim, trimmed, flesh, waste, peel, skin, stone, core, clean, each",
    asked="fruit, clean, lost",
    method=["{fruit} fruit of {each} give {clean} clean."],
    examples=[("pineapple is 1.8 kg each, waste is 45 percent, 8 fruit: flesh in kg?", "7.92 kilogram")],
    source="clean = fruit x weight of one x (1 - lost)",
)

CALCULATORS = (
    JUICE,
    FOR_SERVICE,
    STRAINED,
    WITH_WASTE,
    PEEL,
    PEEL_WITH_LOSS,
    PEEL_BY_WEIGHT,
    PEEL_LEFT,
    JUICE_BY_WEIGHT,
    JUICE_IN_PROPORTION,
    JUICE_SHARE,
    JUICE_SHARE_OF_FRUIT,
    TRIM,
    TRIM_FRUIT,
)
