"""Infusions: how much of a solid to how much spirit, for how long, and what is left after.

A dose is grams per litre of spirit poured in.  The table's doses and times are where to begin,
for spirit at 40 to 50 % ABV and at room temperature; taste while it steeps.
"""

from __future__ import annotations

from stillroom import Calculator, Function, choice, include, limit, var

from .things import choices_of, said

TRADE = "common practice, no source"


def _steeped(row: dict[str, str]) -> dict[str, str]:
    """A row with its times as a step of the method; empty where the table has none."""
    low, high, warm = row["time_low"], row["time_high"], row["temperature"]
    return {**row, "steep": f"Steep it {low} to {high} h at about {warm} °C, tasting; then strain." if low else ""}


ROWS = [_steeped(row) for row in choices_of("infusions", "thing", "low", "high", "g/l")]
TIMES = [_steeped(row) for row in choices_of("infusions", "thing", "time_low", "time_high", "hours")]
FATS = ("butter", "coconut-oil", "bacon-fat", "olive-oil", "peanut", "sesame")
FAT_ROWS = [row for row in ROWS if row["id"] in FATS]
HEAT = choice(
    "heat",
    [
        {"id": "cold", "words": "cold infusion, cold infused", "source": TRADE},
        {
            "id": "heated",
            "words": "heat, heated, heating, hot, warm, warmed, warming, boil, boiling, simmer, simmering, "
                "cook, pan, hob, "
            "stove, burner, flame, flambe, bain marie, water bath, sous vide, double boiler, microwave, induction",
            "caution": said("fire"),
            "source": TRADE,
        },
    ],
    default="cold",
    words="heated or cold",
)
STRENGTH = (
    var("strength", "percent_vv", "strength, abv, proof, "
    "spirit", bounds=(0, 100), things="spirit", role="of", shy=True)
)
LIMITS = [
    limit(
        "strength >= 0.2",
        "caution",
        "At {strength} an infusion is weak enough to spoil: keep it at 5 °C or below and use it within days.",
    ),
    limit("strength <= 0.6", "caution", said("fire")),
]
SOLIDS = "fruit,peel,herb,spice,tea,coffee,nut"
LIQUIDS = "spirit,wine,liqueur"

DOSE = Calculator(
    "infusion",
    "Solids for an infusion",
    choice("solid", ROWS, fills={"dose": "typical"}, words="what is infused"),
    HEAT,
    var(
        "mass",
        "gram",
        "solid, botanical, botanical mass, leaf, weigh, weigh out, weigh in",
        named_by="solid.words",
        things=SOLIDS,
        state="dry",
    ),
    var(
        "spirit",
        "milliliter",
        "spirit, liquid, base, spirit charge, alcohol, bottle, spirit volume",
        things=LIQUIDS,
        role="into",
    ),
    var("dose", "gram / liter", "dose, dosage, rate, per litre, botanical dose, for every, how strong, "
        "to every", things=SOLIDS, role="per"),
    STRENGTH,
    equations=["mass = dose * spirit"],
    limits=LIMITS,
    words="infuse, infusion, steep, steeped, macerate, maceration, tincture, botanical, g/l",
    asked="mass, dose, spirit",
    method=[
        "Weigh {mass} of {solid} into {spirit}.",
        "{solid.steep}",
    ],
    examples=[
        ("cacao nibs 40 g/l into one 700ml bottle of rum", "28 gram"),
        ("85 g coffee beans were steeped in 1.7 l rum, what's that in g/L?", "50 gram / liter"),
    ],
    source="mass = dose x spirit",
)

BOTTLES = Calculator(
    "infusion_bottles",
    "Bottles of spirit that so much of a solid infuses",
    include(DOSE),
    var("bottle", "milliliter", "bottle, bottle size, size", role="per"),
    var("bottles", "count", "bottle, whole bottle", whole="down"),
    equations=["spirit = bottles * bottle"],
    only="bottle, bottles",
    also="how many bottles, how many whole, how many full, whole bottles, full bottles",
    words="infuse, infused, infusion, steep, dose, bottles, whole bottles, how many whole",
    asked="bottles, mass, spirit",
    method=["{mass} of {solid} at {dose} infuses {bottles} bottles of {bottle}."],
    examples=[("300 g of coffee beans at 50 g/l: how many whole 70 cl bottles of rum can I infuse?", "8 count")],
)

PACKS = Calculator(
    "infusion_packs",
    "Tea bags or packets of a solid for an infusion",
    include(DOSE),
    var("pack", "gram", "bag, tea bag, packet, sachet, pouch, apiece, each, hold, bag holds", role="each", state="dry"),
    var("packs", "count", "bag, tea bag, teabag, packet, sachet, pouch", whole="up"),
    equations=["mass = packs * pack"],
    only="bag, tea bag, teabag, packet, sachet, pouch",
    also="g/l, gram, g, dose, infuse, infusion, steep",
    words="tea bags, bags, packets, sachets, how many bags, infuse, steep",
    asked="packs, mass, spirit",
    method=["Steep {packs} of {pack} in {spirit}: {mass} of {solid}."],
    examples=[("tea bags of 2.5 g each, 10 g/l of black tea in 2 l of rum: how many bags?", "8 count")],
)

THINNED = Calculator(
    "thin_infusion",
    "Spirit to stretch an infusion that is too strong",
    var("volume", "milliliter", "infusion, have, got, of it", things=LIQUIDS, role="have"),
    var("dose", "gram / liter", "is, came out, present, infusion", role="from"),
    var("target", "gram / liter", "target, want, for, down to, bring to", role="to"),
    var("added", "milliliter", "add, more spirit, spirit, plain spirit", things=LIQUIDS, role="add"),
    var("total", "milliliter", "in all, end up, total, final volume, finished volume, volume after, "
        "final amount, in the end, volume in the end"),
    equations=["total = volume + added", "dose * volume = target * total"],
    limits=[limit("target <= dose", "refuse", "More spirit only weakens: {dose} cannot become {target} by adding it.")],
    only="too strong, stretch, thin, weaken, cut, dilute, let down",
    words="too strong, stretch, thin, weaken, let down, cut, g/l, infusion",
    asked="added, total",
    method=["Add {added} of the plain spirit to {volume}: {total} at {target}."],
    conventions=["volumes are added"],
    examples=[("our tea gin is too strong at 30 g/l, we have 2 l: how much gin to add for 20 g/l?", "1 liter")],
    source="mass balance of what was infused",
)

STEEPING = Calculator(
    "steeping",
    "How long to steep",
    choice(
        "solid",
        TIMES,
        fills={"shortest": "time_low", "longest": "time_high", "temperature": "temperature"},
        words="what is infused",
    ),
    var("shortest", "hour", "steep, how long, time, steeping time, shortest, leave"),
    var("longest", "hour", "longest, at most, no longer than"),
    var("temperature", "degree_Celsius", "temperature, warm, degrees", bounds=(-30, 120)),
    equations=[],
    only="steep, steeping, infuse, infusion, how long, leave, macerate, tea",
    words="steep, steeping, how long, leave in, take out, time",
    asked="shortest",
    method=["{solid.steep}"],
    examples=[("how long do I steep vanilla?", "48 hour")],
    source=TRADE,
)

BY = [
    {"id": "weight", "words": "by weight, by mass, by wt, weight, mass, w/w, m/m", "source": TRADE},
    {"id": "volume", "words": "by volume, by vol, volume, w/v, weight in volume, v/v", "source": TRADE},
]
MOST = 1e6  # grams or millilitres in one vessel: a bound for the search, far above any bar's


def _same(_by: str, amount: float) -> float:
    return amount


WEIGHED = Function("weighed", _same, ("choice", "gram"), "gram", {"weight": (0.0, MOST)})
POURED = Function(
    "poured",
    _same,
    ("choice", "milliliter"),
    "gram",
    {"volume": (0.0, MOST)},
    "by volume, a gram of the solid goes to a millilitre of spirit for each part",
)

BY_RATIO = Calculator(
    "infusion_by_parts",
    "Solids and spirit in parts",
    choice("by", BY, words="by weight or by volume"),
    choice("solid_kind", ROWS, words="what is infused"),
    HEAT,
    var(
        "solid",
        "gram",
        "solid, botanical, petal, leaf, part",
        named_by="solid_kind.words",
        things=SOLIDS,
        state="dry",
        bounds=(0, MOST),
    ),
    var("spirit", "gram", "spirit by weight, spirit, liquid, base", things=LIQUIDS, bounds=(0, MOST)),
    var("volume", "milliliter", "spirit, liquid, base, spirit volume, bottle", things=LIQUIDS, bounds=(0, MOST)),
    var("ratio", "dimensionless", "ratio, parts", ratio="solid:spirit", rising=True),
    var("counted", "gram", "spirit, liquid, base", hidden=True, bounds=(0, MOST)),
    var(
        "density",
        "gram / milliliter",
        "density",
        default=0.948,
        bounds=(0.7, 1.4),
        hidden=True,
        note="spirit at 40 % ABV and 20 °C, OIML R 22",
    ),
    equations=[
        "solid = ratio * counted",
        "counted = weighed(by, spirit)",
        "counted = poured(by, volume)",
        "spirit = density * volume",
    ],
    functions=[WEIGHED, POURED],
    only=(
        "part, parts, by weight, by volume, by mass, by wt, by vol, ratio, w/v, w/w, m/m, v/v, infuse, infusion, "
        "steep, steeped, macerate, "
        "maceration, tincture"
    ),
    words="infuse, infusion, parts, by weight, by volume, ratio, macerate, tincture",
    asked="solid, spirit, volume, ratio",
    method=["Weigh {solid} and steep it in {spirit} of spirit, which is {volume}."],
    examples=[
        ("by weight, 1 part raspberries to 3 parts spirit, the fruit weighs 400 g, spirit in grams?", "1200 gram"),
        ("1 part rose petals to 5 parts gin by volume, 500 ml gin, grams of petals?", "100 gram"),
    ],
    source=TRADE,
)

FAT_WASH = Calculator(
    "fat_wash",
    "Fat for washing a spirit",
    choice("kind", FAT_ROWS, fills={"dose": "typical"}, words="fat"),
    HEAT,
    var("fat", "gram", "fat, oil", named_by="kind.words", state="dry"),
    var("spirit", "milliliter", "spirit, liquid, base, bottle", things=LIQUIDS, role="into"),
    var(
        "dose",
        "gram / liter",
        "dose, rate, per litre",
        default=120,
        usual=(40, 250),
        role="per",
        note="common practice",
    ),
    equations=["fat = dose * spirit"],
    only="fat wash, fat, wash, washed, washing, butter, oil",
    words="fat wash, fat-wash, washed, wash, fat washing",
    asked="fat, dose, spirit",
    method=[
        "Melt {fat} and stir it into {spirit}.",
        "Rest it warm, freeze it, lift the fat off, strain through paper.",
    ],
    cautions=["The fat's allergen stays in the clear spirit: milk, nuts, sesame. Warm it away from any flame."],
    examples=[("brown butter fat wash at 150 g/l for 700 ml of bourbon, how much butter?", "105 gram")],
    source=TRADE,
)

BREWS = [
    {"id": "hot-tea", "words": "hot tea, tea", "dose": 10, "source": "common practice, no source: 2 to 3 g a cup"},
    {"id": "cold-tea", "words": "cold brew tea, cold tea, iced tea", "dose": 8, "source": TRADE},
    {"id": "filter-coffee", "words": "filter coffee, drip coffee, brewed coffee", "dose": 60, "source": TRADE},
    {"id": "cold-coffee", "words": "cold brew coffee, cold brew", "dose": 80, "source": TRADE},
    {"id": "herb-tea", "words": "herbal tea, tisane, herb tea, infusion in water", "dose": 10, "source": TRADE},
]

BREW = Calculator(
    "brew",
    "Leaf or coffee for a brew in water",
    choice("kind", BREWS, fills={"dose": "dose"}, words="brew"),
    choice("solid", ROWS, words="what is brewed"),
    var("leaf", "gram", "leaf, tea, coffee, grounds, leaves", named_by="kind.words", things="tea,coffee", state="dry"),
    var("water", "milliliter", "water, brew, liquor", things="water", role="into"),
    var("dose", "gram / liter", "dose, strength, per litre", role="per"),
    equations=["leaf = dose * water"],
    only="brew, brewing, brewed, water, cold brew, pot",
    words="brew, brewing, cold brew, tea in water, water, pot of tea",
    asked="leaf, dose, water",
    method=["Brew {leaf} in {water}; strain, cool and keep cold."],
    cautions=[said("caffeine")],
    examples=[("cold brew coffee at 80 g/l, how much coffee for 3 l of water?", "240 gram")],
    source="leaf = dose x water",
)

SOAKED = Calculator(
    "infusion_yield",
    "Spirit left after straining",
    var("spirit", "milliliter", "spirit, liquid, poured in, start, base", things=LIQUIDS, role="from"),
    var("solid", "gram", "solid, grounds, leaf, botanical", things=SOLIDS, state="dry"),
    var(
        "absorption",
        "milliliter / gram",
        "absorption, soak up, held per gram",
        default=2,
        usual=(0.5, 4),
        role="per",
        note="dry leaf and ground coffee hold about 2 ml a gram, common practice",
    ),
    var("strained", "milliliter", "left, strained, yield, out after, back after, out after, recovered, "
        "recover, volume recovered, get back, "
        "got back, came back, comes back, coming back, "
        "back out, ran off, drained off, "
        "after straining, come out, infused, "
        "infused gin, infused spirit, came out, comes out", role="have"),
    var("held", "milliliter", "lost, held, soaked up, absorbed, loss, retained, kept", role="lost"),
    var("share", "percent", "percent lost, loss, lost share, keep, keeps, kept, hold back, drink, drink up, "
        "swallow, soak up, take up, absorb",
        bounds=(0, 100)),
    equations=["held = absorption * solid", "strained = spirit - held", "held = share * spirit"],
    only="lost, loss, lose, loses, losing, soak, soaks, soak up, absorb, absorbs, absorbed, absorption, strained, "
        "straining, get back, hold, held, left, drink, drinks, drink up, swallow, swallows, take up, "
        "keep back, retain, retains, retained, recover, recovered",
    words="lost to the solids, soaks up, strained, straining, absorbed, get back, yield of an infusion",
    asked="strained, held, spirit, share",
    method=["Of {spirit} the solids keep {held}; {strained} is left."],
    examples=[
        (
            "1 l of vodka on 60 g of dry tea that soak up 2 ml per gram: how much is left after straining?",
            "880 milliliter",
        )
    ],
    source=TRADE,
)

AFTER = Calculator(
    "strength_after_fruit",
    "Strength after fresh fruit has given its water",
    var("spirit", "milliliter", "spirit, liquid, base", things=LIQUIDS, bounds=(0, MOST)),
    var("strength", "percent_vv", "strength, abv, proof, strength of the spirit", bounds=(0, 100), role="from"),
    var("fruit", "gram", "fruit", things="fruit,peel,herb", state="dry"),
    var(
        "share",
        "percent",
        "water, water share, water in the fruit, water content",
        bounds=(0, 100),
        default=87,
        usual=(60, 96),
        note="fresh fruit is about 87 % water, common practice",
        shy=True,
    ),
    var("water", "milliliter", "water, juice given off", shy=True),
    var("final", "percent_vv", "final strength, strength after, end up, finished, strength, abv, "
        "strength once, strength when, strength then", bounds=(0, 100), role="to"),
    equations=["water * one = share * fruit", "final * (spirit + water) = strength * spirit"],
    constants={"one": (1.0, "gram / milliliter")},
    only=(
        "fruit, berry, infuse, infusing, infusion, infused, steep, steeping, macerate, maceration, "
        "strawberry, raspberry, "
        "blackberry, blueberry, cherry, sloe, damson, plum, peach, apricot, pineapple, mango, apple, pear, "
        "quince, fig, "
        "currant, rhubarb, melon, watermelon, citrus, lemon, orange, peel, cucumber"
    ),
    words="strength after infusing, strength after, after straining, fruit infusion, fresh fruit, "
        "how strong, water in the fruit",
    asked="final, strength, spirit",
    conventions=["volumes are added, and all the fruit's water goes into the spirit"],
    cautions=["Below about 30 % ABV fresh fruit may spoil in the bottle: strain, chill and use it soon."],
    examples=[
        ("700 ml of spirit at 40 % on 300 g of strawberries that are 90 % water, strength after?", "28.865979 percent")
    ],
    source="ethanol stays, water is added",
)

CALCULATORS = (DOSE, BOTTLES, PACKS, THINNED, STEEPING, BY_RATIO, FAT_WASH, BREW, SOAKED, AFTER)
