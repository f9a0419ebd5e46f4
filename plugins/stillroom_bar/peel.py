"""Peel sugar: citrus peel under sugar until it gives up its oil.  Time and yield are the trade's."""

from __future__ import annotations

from stillroom import Calculator, choice, limit, var

from .things import choices_of

FRUIT = [row for row in choices_of("fruit_yield", "fruit") if row["peel"]]
KEEP_COLD = (
    "Keep peel sugar covered and cold, date it, and use it within a week or two (common practice, no source)."
)
STANDS = 48
"""Hours that a peel sugar stands; common practice, no source."""
WASHED = "Scrub and dry the fruit first; unwaxed fruit gives more, and no pith less bitterness."

PEEL = var("peel", "gram", "peel, zest, rind, skin, peelings", things="peel", state="dry")
SUGAR = var(
    "sugar", "gram", "sugar, white sugar, caster sugar, granulated sugar", things="sugar", state="dry"
)
CUP = var(
    "cup_weight",
    "gram / milliliter",
    "weight of a cup",
    bounds=(0.1, 2),
    default=200 / 236.5882365,
    note="a US cup of granulated sugar weighs 200 g: USDA household weight; weigh it instead",
    shy=True,
)

RATIO = var(
    "ratio",
    "dimensionless",
    "ratio, sugar to peel ratio, proportion, parts",
    ratio="sugar:peel",
    default=1,
    note="1 sugar to 1 peel by weight: common practice, no source",
    bounds=(0.01, 100),
    usual=(0.5, 3),
    keeps=True,
)

PEEL_SUGAR = Calculator(
    "peel_sugar",
    "Sugar for citrus peel",
    choice("fruit", FRUIT, fills={"peel_each": "peel"}, words="fruit"),
    PEEL,
    SUGAR,
    RATIO,
    var("share", "percent", "percent of the peel, of the peel, of the peel's weight, share of the peel"),
    var(
        "combined",
        "gram",
        "combined, together, total, combined mass, combined weight, in all, altogether, all together, "
        "oleo total, oleo mix, "
        "mix, peel and sugar, sugar and peel, peel-and-sugar mix, whole lot, total weight, mixture",
    ),
    var(
        "fruits",
        "count",
        "fruit, citrus, piece",
        things="fruit",
        named_by="fruit.words",
        whole="up",
        role="need",
    ),
    var(
        "peel_each",
        "gram",
        "peel each, peel per fruit, peel apiece, peel of one, peel from each, of peel from each, peel from one",
        role="each",
        things="peel",
        state="dry",
        shy=True,
    ),
    var("stands", "hour", hidden=True, default=STANDS, note="48 h: common practice, no source"),
    equations=[
        "sugar = ratio * peel",
        "ratio = share",
        "combined = peel + sugar",
        "peel = fruits * peel_each",
    ],
    limits=[
        limit(
            "peel_each <= peel * 2",
            "doubt",
            "That is less than half of one fruit's peel: check the weights.",
        )
    ],
    only="peel, oleo, oleo saccharum, oleosaccharum, zest, rind, peel sugar, peelings",
    also="sugar, oleo, saccharum, oleosaccharum, macerate, muddle",
    words="peel sugar, oleo, oleo saccharum, oleosaccharum, peel, sugar, macerate, muddle, citrus oil",
    asked="sugar, peel, ratio, combined, fruits",
    method=[
        "{peel} of peel, pith cut away, and {sugar} of sugar.",
        "Press the peel into the sugar, seal, and leave it for 48 h (common practice), turning it once or "
        "twice.",
        "Loosen with a little juice or warm water and strain.",
    ],
    cautions=[WASHED, KEEP_COLD],
    examples=[
        ("180 g of lemon peel, how much sugar for the oleo?", "180 gram"),
        ("400 g of sugar for a 2 to 1 peel sugar, how much peel?", "200 gram"),
    ],
    source="common practice, no source",
)

BY_THE_CUP = Calculator(
    "peel_sugar_by_cup",
    "Peel for sugar that is measured by the cup",
    PEEL,
    var("sugar_by_cup", "milliliter", "sugar by the cup, cup of sugar", things="sugar", state="dry"),
    SUGAR,
    RATIO,
    CUP,
    equations=["sugar = ratio * peel", "sugar = cup_weight * sugar_by_cup"],
    only="cup, cups, cupful, spoon, tablespoon",
    words="peel sugar, oleo, oleo saccharum, oleosaccharum, peel, cup",
    asked="peel, sugar, sugar_by_cup",
    method=["{sugar_by_cup} of sugar, level, weigh about {sugar}: for {peel} of peel. A scale is better."],
    cautions=[WASHED, KEEP_COLD],
    examples=[
        ("2 cups of granulated sugar for the oleo, one to one by weight: how many grams of peel?", "400 gram")
    ],
    source="common practice, no source",
)

PEEL_TIME = Calculator(
    "peel_time",
    "How long a peel sugar stands",
    var(
        "time",
        "hour",
        "resting time, standing time, time needed, sit, stand, rest, how long, leave, leave it, sat, ready, take, "
        "take out",
        default=STANDS,
        note="48 h: common practice, no source",
        show="hour",
        keeps=True,
    ),
    var(
        "elapsed",
        "hour",
        "elapsed, so far, already, since, with sugar since, been sitting, been standing, started, sugared, covered, "
        "ago",
        role="from",
    ),
    var(
        "remaining",
        "hour",
        "remaining, remain, hours remain, left, more, more hours, to go, hours left, hours are left, done, until, "
        "ready, draw it off",
        bounds=(None, None),
    ),
    equations=["time = elapsed + remaining"],
    limits=[limit("remaining >= 0", "caution", "It has had its time already: strain it.")],
    only="peel, skin, oleo, oleo saccharum, oleosaccharum, zest, rind, peel sugar, peelings, oil syrup",
    words="peel sugar, oil syrup, skins, with the sugar, oleo, oleo saccharum, lemon peel, lime peel, orange peel, "
    "grapefruit peel, "
    "peel in sugar, peel in the sugar, "
    "in the sugar, in sugar, under sugar, strain it, peel under sugar, sugar on peel, sit, "
    "stand, rest, wait, ready, until, done, started, macerate, stay, sugared, since, ago, with sugar since, "
    "draw it off, sugar on the peel, on the peel",
    asked="time, remaining",
    method=["Leave it {time} from the start."],
    cautions=[KEEP_COLD],
    examples=[
        ("how long must a peel sugar sit?", "48 hour"),
        ("my oleo has been sitting for 28 hours, how many more hours?", "20 hour"),
    ],
    source="common practice, no source",
)

PEEL_SYRUP = Calculator(
    "peel_syrup",
    "Syrup to expect from a peel sugar",
    PEEL,
    SUGAR,
    var("combined", "gram", "combined, together, total"),
    var("syrup", "gram", "syrup, yield, oleo, expect, get, come out", role="to"),
    var(
        "yield_share",
        "percent",
        "yield, share",
        default=60,
        bounds=(0, 100),
        note="about 60 % of the combined weight comes off as syrup, 50 to 75 %: common practice, no source",
    ),
    equations=["combined = peel + sugar", "syrup = combined * yield_share"],
    only="peel, oleo, oleo saccharum, oleosaccharum, zest, rind, peel sugar, peelings",
    words="peel sugar, oleo, oleo saccharum, yield, syrup, expect, get out of, strain, strained",
    asked="syrup, combined",
    method=["Strain and press: about {syrup} of syrup. Rinse the peel with a little hot water for the rest."],
    cautions=[KEEP_COLD],
    examples=[("200 g of peel and 200 g of sugar, how much oleo syrup do I get?", "240 gram")],
    source="common practice, no source",
)

CALCULATORS = (PEEL_SUGAR, BY_THE_CUP, PEEL_TIME, PEEL_SYRUP)
