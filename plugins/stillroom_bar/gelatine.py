"""Gelatine: from one bloom strength to another, and from grams to leaves."""

from __future__ import annotations

from stillroom import Calculator, choice, limit, var

RULES = [
    {
        "id": "square-root",
        "words": "square root, square root rule, root, sqrt",
        "exponent": 0.5,
        "source": "dose times the square root of the bloom stays the same: from memory of the gelatine "
        "makers' handbook",
    },
    {
        "id": "linear",
        "words": "linear, linear rule, proportional, straight line",
        "exponent": 1,
        "source": "dose times the bloom stays the same: a vendor's conversion (10 g of 240 bloom is 12 g "
        "of 200)",
    },
]

BLOOM = Calculator(
    "bloom",
    "Gelatine of another bloom",
    choice(
        "rule",
        RULES,
        fills={"exponent": "exponent"},
        default="square-root",
        words="rule",
        note="by the square root of the bloom",
    ),
    var("recipe_mass", "gram", "gelatine, gelatin, recipe, says, wants, asks for, calls for", state="dry"),
    var(
        "recipe_bloom",
        "bloom",
        "recipe, recipe bloom, recipe says, says, asks for, calls for, called for, wants",
        role="from",
        bounds=(1, 500),
        usual=(80, 300),
    ),
    var("mass", "gram", "mine, ours, of mine, of ours, weigh", state="dry"),
    var(
        "bloom",
        "bloom",
        "mine, ours, mine is, mine has, ours is, my gelatine, my bloom, i have, left me, on hand, in stock",
        role="have",
        bounds=(1, 500),
        usual=(80, 300),
    ),
    var("exponent", "dimensionless", hidden=True, bounds=(0.1, 2)),
    equations=["recipe_mass * recipe_bloom ** exponent = mass * bloom ** exponent"],
    only="bloom, bronze, silver, gold, platinum",
    words="bloom, gelatine, gelatin, convert, instead, swap, replace, strength, square root, linear",
    asked="mass, recipe_mass, bloom",
    method=["{recipe_mass} of {recipe_bloom} set as firm as {mass} of {bloom}."],
    conventions=["gelatine of another bloom sets a little differently: try it once before service"],
    examples=[
        ("recipe says 10 g gelatine of 200 bloom, mine is 160 bloom: how many grams?", "11.18 gram"),
        (
            "recipe says 10 g gelatine of 240 bloom, mine is 200 bloom, linear rule: how many grams?",
            "12 gram",
        ),
    ],
    source="bloom: 6 2/3 % gel at 10 °C under a 12.7 mm plunger pressed 4 mm, after 16 to 18 h (makers' "
    "test sheets)",
)

LEAVES = Calculator(
    "gelatine_leaves",
    "Leaves of gelatine for a weight of it",
    var("leaves", "count", "leaf, leaves, sheet, sheets", whole="up"),
    var("leaf", "gram", "leaf, sheet, weight of a leaf, one leaf", role="each", state="dry"),
    var("gelatine", "gram", "gelatine, gelatin, total", state="dry"),
    var("liquid", "milliliter", "liquid, batch, base", things="any"),
    var("dose", "percent_wv", "dose, grams per litre, percent"),
    equations=["gelatine = leaves * leaf", "gelatine = dose * liquid"],
    limits=[
        limit(
            "dose >= least",
            "caution",
            "{dose} is less than the usual 0.6 to 1.7 % (6 to 17 g/l) for gelatine.",
        ),
        limit(
            "dose <= most",
            "caution",
            "{dose} is more than the usual 0.6 to 1.7 % (6 to 17 g/l) for gelatine.",
        ),
    ],
    constants={"least": (0.6, "percent_wv"), "most": (1.7, "percent_wv")},
    only="leaf, leaves, sheet, sheets",
    words="leaf, leaves, sheet, sheets, gelatine, gelatin, set",
    asked="leaves, gelatine, dose",
    method=[
        "Soak {leaves} leaves of {leaf} in cold water for ten minutes, squeeze, and melt them into warm "
        "liquid."
    ],
    cautions=["A leaf has no weight of its own: grades run from 1.7 to 5 g. Read it on the packet."],
    examples=[("gelatine at 12 g/l for 1 l, one leaf weighs 2 g: how many leaves?", "6 count")],
    source="arithmetic; usual dose: common practice, no source",
)

CALCULATORS = (BLOOM, LEAVES)
