"""Hydrocolloids: what sets, thickens, foams and clouds, dosed by the litre or by weight.

A percent is ten grams to the litre when the liquid is poured, and a percent of the liquid's mass when it
is weighed.  There is no usual dose to fall back on: it is always asked for, and compared with the
range that is usual for that powder.
"""

from __future__ import annotations

from stillroom import Calculator, choice, include, limit, var

from .things import rows_of, said

ALLERGENS = {"soybeans": "soy", "eggs": "egg", "milk": "milk"}


def _hydration(row: dict[str, str]) -> str:
    low, high = row["hydrate_from"], row["hydrate_to"]
    return f"Hydrate it at {low} to {high} °C." if low else ""


POWDERS = [
    {
        **row,
        "words": row["words"].replace(";", ","),
        "hydration": _hydration(row),
        "caution": said(ALLERGENS[row["allergens"]]) if row["allergens"] else "",
    }
    for row in rows_of("hydrocolloids")
]

POWDER = choice("powder", POWDERS, fills={"least": "low", "most": "high"}, words="powder, gum, hydrocolloid")
BY_WEIGHT_RANGE = (var("least", "percent", hidden=True), var("most", "percent", hidden=True))
POURED_RANGE = (var("least", "percent_wv", hidden=True), var("most", "percent_wv", hidden=True))
USUAL = (
    limit(
        "dose >= least",
        "caution",
        "{dose} is less than the usual {least} to {most} for {powder}: try a little first.",
    ),
    limit(
        "dose <= most",
        "caution",
        "{dose} is more than the usual {least} to {most} for {powder}: try a little first.",
    ),
)
NAMES = ", ".join(row["words"] for row in POWDERS)
ONLY = (
    "set, thicken, thickener, gel, jelly, foam, stabilise, stabilize, hydrocolloid, gum, powder, foamer, "
    "fining, cloud, " + NAMES
)
METHOD = ("{powder.handling}", "{powder.hydration}", "{powder.setting}")

HYDROCOLLOID = Calculator(
    "hydrocolloid",
    "Powder to set, thicken or foam a poured liquid",
    POWDER,
    var("powder_mass", "gram", "powder, gum, mass, weigh out, weigh", named_by="powder.words", state="dry"),
    var("liquid", "milliliter", "liquid, batch, base, cordial", things="any"),
    var(
        "dose",
        "percent_wv",
        "dose, dosage, percent, grams per litre, g/l, concentration",
        named_by="powder.words",
    ),
    *POURED_RANGE,
    equations=["powder_mass = dose * liquid"],
    limits=USUAL,
    only=ONLY,
    words="set, thicken, gel, jelly, foam, dose, dosing, treat, stabilise, hydrate, cloud, hydrocolloid, "
    "body, " + NAMES,
    asked="powder_mass, dose, liquid",
    method=["Weigh {powder_mass} of {powder} for {liquid}.", *METHOD],
    examples=[
        ("how much agar for 1.2 l of tomato juice at 0.8 %?", "9.6 gram"),
        ("2.4 g of xanthan in 1.6 l of syrup, what dose in g/l?", "1.5 gram / liter"),
    ],
    source="a percent of a poured liquid is 10 g per litre (common practice, no source)",
)

BY_WEIGHT = Calculator(
    "hydrocolloid_by_weight",
    "Powder to set, thicken or foam a weighed liquid",
    POWDER,
    var("powder_mass", "gram", "powder, gum", named_by="powder.words", state="dry"),
    var("liquid", "gram", "liquid, batch, base, liquid mass", things="any", state="liquid"),
    var(
        "dose",
        "percent",
        "dose, dosage, percent, concentration, of the liquid, of the mass, of liquid mass, liquid mass",
        named_by="powder.words",
    ),
    *BY_WEIGHT_RANGE,
    equations=["powder_mass = dose * liquid"],
    limits=USUAL,
    only=ONLY,
    words="set, thicken, gel, jelly, foam, dose, dosing, treat, stabilise, hydrate, cloud, hydrocolloid, "
    "by weight, " + NAMES,
    asked="powder_mass, dose, liquid",
    method=["Weigh {powder_mass} of {powder} for {liquid}.", *METHOD],
    conventions=["the dose is a percent of the liquid's mass, before the powder goes in"],
    examples=[("low acyl gellan at 0.2 % of 2.75 kg of liquid: how much gellan?", "5.5 gram")],
    source="a percent of a weighed liquid is of its mass (common practice, no source)",
)

STOCK_GEL = Calculator(
    "stock_gel",
    "A stock of gum in water, to dose by squeezing instead of weighing crumbs",
    choice("powder", POWDERS, words="powder, gum"),
    var("powder_mass", "gram", "gum, powder", named_by="powder.words", state="dry"),
    var("water", "gram", "water"),
    var("stock", "gram", "stock, stock gel, gel, stock solution, finished gel"),
    var("strength", "percent_ww", "stock, stock gel, gel, strength, of the finished gel", bounds=(0, 100)),
    var("liquid", "milliliter", "liquid, batch, base", things="any"),
    var("dose", "percent_wv", "dose, dosage", role="to"),
    equations=[
        "stock = powder_mass + water",
        "powder_mass = strength * stock",
        "powder_mass = dose * liquid",
    ],
    only="stock, stock gel, gel",
    words="stock gel, stock, gel, squeeze, premix, gum stock",
    asked="stock, powder_mass, water",
    method=[
        "A stock at {strength}: {powder_mass} of gum in {water} of water, {stock} in all.",
        "Blend until it is smooth, let the bubbles rise, and keep it cold.",
    ],
    conventions=["the dose is on the liquid before the stock's own water comes in"],
    examples=[
        ("how much 3 % xanthan stock gel brings 1.8 g of xanthan?", "60 gram"),
        ("a 2 % stock gel of xanthan, 900 g of finished gel: how much water?", "882 gram"),
    ],
    source="mass balance",
)


STABILISERS = [row for row in POWDERS if row["setting"].startswith(("Thickens", "Emulsifies"))]
FOAMERS = [row for row in POWDERS if row not in STABILISERS]

def _foam_base(
    name: str, title: str, unit: str, dose: str, state: str, example: tuple[str, str], source: str
) -> Calculator:
    """Two powders in one liquid, which is poured (doses in percent w/v) or weighed (in percent w/w)."""
    return Calculator(
        name,
        title,
        choice("foamer", FOAMERS, fills={"foamer_most": "high"}, words="foamer"),
        choice("stabiliser", STABILISERS, fills={"stabiliser_most": "high"}, words="stabiliser"),
        var("liquid", unit, "liquid, foam base, base, juice, batch, siphon", things="any", state=state, role="need"),
        var("foamer_mass", "gram", "weigh, weigh out, weight", named_by="foamer.words", state="dry"),
        var("foamer_dose", dose, named_by="foamer.words"),
        var("stabiliser_mass", "gram", "weigh, weigh out, weight", named_by="stabiliser.words", state="dry"),
        var("stabiliser_dose", dose, named_by="stabiliser.words"),
        var("foamer_most", dose, hidden=True),
        var("stabiliser_most", dose, hidden=True),
        equations=["foamer_mass = foamer_dose * liquid", "stabiliser_mass = stabiliser_dose * liquid"],
        limits=[
            limit("liquid <= most", "doubt", "{liquid} of foam base is more than any siphon or mixer is filled for."),
            limit(
                "foamer_dose <= foamer_most",
                "caution",
                "{foamer_dose} is over the usual {foamer_most} for {foamer}.",
            ),
            limit(
                "stabiliser_dose <= stabiliser_most",
                "caution",
                "{stabiliser_dose} is over the usual {stabiliser_most} for {stabiliser}.",
            ),
            limit(
                "foamer_dose <= 5 * foamer_most",
                "doubt",
                "{foamer_dose} of {foamer} is more than five times the usual {foamer_most}: check the figure.",
            ),
            limit(
                "stabiliser_dose <= 5 * stabiliser_most",
                "doubt",
                "{stabiliser_dose} of {stabiliser} is more than five times the usual {stabiliser_most}: check "
                "the figure.",
            ),
        ],
        only="foam, foam base, espuma, siphon, whipper, froth, " + ", ".join(row["words"] for row in STABILISERS),
        also=", ".join(row["words"] for row in STABILISERS) if unit == "gram" else "",
        words="foam, foam base, espuma, powders",
        asked="foamer_mass, stabiliser_mass",
        method=[
            "{foamer_mass} of {foamer}. {foamer.handling} {foamer.hydration}",
            "{stabiliser_mass} of {stabiliser}. {stabiliser.handling} {stabiliser.hydration}",
            "Strain before it goes into a siphon: a lump blocks the valve.",
        ],
        constants={"most": (100_000, unit)},
        cautions=[said("pressure")],
        examples=[example],
        source=source,
)


FOAM_BASE = _foam_base(
    "foam_base",
    "A foam base: a powder that sets or foams and one that thickens, each with its own dose",
    "milliliter", "percent_wv", "liquid",
    ("foam base of 700 ml: gelatine at 12 g/l and xanthan at 2 g/l, how much of each?", "8.4 gram"),
    "a percent of a poured liquid is 10 g per litre (common practice, no source)",
)
FOAM_BASE_WEIGHED = _foam_base(
    "foam_base_weighed",
    "A foam base, its liquid weighed: a powder that sets or foams and one that thickens",
    "gram", "percent_ww", "dry",
    ("600 g of juice for a foam with 1.5 % methylcellulose and 0.25 % xanthan: how much of each?", "9 gram"),
    "a percent of a weighed liquid is a percent of its mass (common practice, no source)",
)

THICKENED = Calculator(
    "two_thickeners",
    "Two thickeners in one liquid, each with its own dose",
    choice("first", STABILISERS, fills={"first_most": "high"}, words="thickener"),
    choice("second", STABILISERS, fills={"second_most": "high"}, words="other thickener"),
    var("liquid", "milliliter", "liquid, base, juice, batch, cordial, tank", things="any"),
    var("first_mass", "gram", named_by="first.words", state="dry"),
    var("first_dose", "percent_wv", named_by="first.words"),
    var("second_mass", "gram", named_by="second.words", state="dry"),
    var("second_dose", "percent_wv", named_by="second.words"),
    var("first_most", "percent_wv", hidden=True),
    var("second_most", "percent_wv", hidden=True),
    equations=["first_mass = first_dose * liquid", "second_mass = second_dose * liquid"],
    limits=[
        limit("first_dose <= first_most", "caution", "{first_dose} is over the usual {first_most} for {first}."),
        limit("second_dose <= second_most", "caution", "{second_dose} is over the usual {second_most} for {second}."),
    ],
    only=", ".join(row["words"] for row in STABILISERS),
    also="and, blend, both",
    words="thickener, thickener blend, blend, both, both weights, of each",
    asked="first_mass, second_mass",
    method=["{first_mass} of {first}. {first.handling}", "{second_mass} of {second}. {second.handling}"],
    examples=[("xanthan 0.2 % and guar 0.1 % in 3 l of cordial, both weights?", "6 gram")],
    source="a percent of a poured liquid is 10 g per litre (common practice, no source)",
)

ROOM, CHILLED = 20, 4
COLD = {"methylcellulose": CHILLED, "hpmc": CHILLED}
HYDRATING = [
    row
    if row["hydration"]
    else {**row, "hydrate_from": COLD.get(row["id"], ROOM), "assumes": row["handling"]}
    for row in POWDERS
]
"""Those that need no heat hydrate at room temperature, or chilled (common practice, no source)."""

HYDRATION = Calculator(
    "hydration",
    "How hot a hydrocolloid must get to hydrate",
    choice(
        "powder",
        HYDRATING,
        fills={"hydrates_from": "hydrate_from", "hydrates_to": "hydrate_to"},
        words="powder, gum",
    ),
    var(
        "hydrates_from", "degree_Celsius", "temperature, hydration temperature, hydrate", bounds=(None, None)
    ),
    var("hydrates_to", "degree_Celsius", "highest temperature", bounds=(None, None)),
    only="hydrate, hydration, temperature, hot, how hot, activate, heat",
    words="hydrate, hydration, temperature, how hot, activate",
    asked="hydrates_from, hydrates_to",
    method=["{powder.handling}", "{powder.hydration}", "{powder.setting}"],
    examples=[("at what temperature does agar hydrate?", "90 degree_Celsius")],
    source="common practice; the maker's sheet for the powder comes first",
)

PORTIONS = Calculator(
    "hydrocolloid_portions",
    "Powder for so many portions",
    include(HYDROCOLLOID),
    var("liquid", "milliliter", "liquid in all", hidden=True),
    var("portions", "count", "portion, cup, glass, jelly, shot, serve, guest, mould, n", whole="down"),
    var("portion", "milliliter", "portion, each, cup, glass, mould, apiece", role="each"),
    equations=["liquid = portions * portion"],
    only="portion, cup, jelly, jellies, shot, glass, mould, serve, each, apiece",
    words="portion, cup, jelly, each, " + NAMES,
    asked="powder_mass, portions",
    method=["{portions} of {portion} are {liquid}: weigh {powder_mass} of {powder}.", *METHOD],
    examples=[("24 jelly cups of 30 ml each, agar at 1 %: how much agar?", "7.2 gram")],
)

PACKAGE = "sachet, packet, pack, tub, jar, bag, tin, pouch"

PACKAGES = Calculator(
    "hydrocolloid_packages",
    "Sachets of powder to open for a liquid",
    include(HYDROCOLLOID),
    var("package", "gram", f"{PACKAGE}, sachet holds, packet has, comes in", role="per", state="dry"),
    var("packages", "count", PACKAGE, whole="up"),
    equations=["powder_mass = packages * package"],
    only=PACKAGE,
    also=NAMES,
    words="sachet, packet, comes in, open, tear open, whole, buy, " + NAMES,
    asked="packages, powder_mass",
    method=["Weigh {powder_mass} of {powder} for {liquid}: {packages} packages of {package}.", *METHOD],
    examples=[("agar in 20 g sachets, 5 l of juice at 10 g/l: how many sachets?", "3 count")],
)

SCALE = Calculator(
    "hydrocolloid_scale",
    "A dose in percent and in grams per litre",
    choice("powder", POWDERS, words="powder, gum"),
    var("dose", "percent_wv", "dose, dosage, percent, percentage, concentration"),
    var("per_liter", "gram / liter", "grams per litre, per litre, g/l, gram per liter"),
    equations=["dose = per_liter"],
    only="percentage, what percent, which percent, in percent, as percent, in g/l, as g/l, to g/l, "
    "in grams per litre, in grams per liter, how many grams per litre, how many grams per liter",
    also="dose, dosage, gum, powder, thickener, " + NAMES,
    words="percent, percentage, in g/l, grams per litre, dose, dosage, " + NAMES,
    asked="per_liter, dose",
    method=["{dose} of a poured liquid is {per_liter}."],
    examples=[("0.2 % gellan in g/l", "2 gram / liter")],
    source="a percent of a poured liquid is 10 g per litre (common practice, no source)",
)

CALCULATORS = (
    HYDROCOLLOID,
    PACKAGES,
    SCALE,
    PORTIONS,
    BY_WEIGHT,
    STOCK_GEL,
    FOAM_BASE,
    FOAM_BASE_WEIGHED,
    THICKENED,
    HYDRATION,
)
