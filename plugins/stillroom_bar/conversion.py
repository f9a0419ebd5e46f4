"""One amount in another unit, and what stands between weight, volume and strength.

Any unit becomes any other of the same dimension.  Weight becomes volume only through a density: of a named
thing, of a spirit by its ABV; sugar and salt by the cup or spoon through a
published household weight.
"""

from __future__ import annotations

from stillroom import Calculator, Function, Lines, choice, var

from .measures import DROPPED
from .physics import ethanol
from .things import choices_of, rows_of

SAME = (
    # dimension, unit, bounds, topic words, what an amount may be of, example
    (
        "volume",
        "milliliter",
        (0, None),
        "volume, measure, drop, dash, barspoon, spoon, cup, ounce, jigger, dropper, in ml, in cl, in oz, in ounces, "
        "in litres, to ml, to oz, into ml",
        "any",
        ("3/4 oz of lemon juice in ml", "22.18 milliliter"),
    ),
    (
        "weight",
        "gram",
        (0, None),
        "weight, mass, weigh, scale, ounce, pound, in pounds, in kilo, in kilos, in grams",
        "any",
        ("3 oz by weight in grams", "85.05 gram"),
    ),
    ("pressure", "bar", (None, None), "pressure, regulator, gauge", "", ("18 psi in bar", "1.241 bar")),
    (
        "temperature",
        "degree_Celsius",
        (-273.15, None),
        "temperature, fridge, freezer, thermometer, walk-in, oven, hot, cold",
        "",
        ("38 °F in °C", "3.333 degree_Celsius"),
    ),
    ("time", "second", (None, None), "time, long, duration", "", ("90 minutes in hours", "1.5 hour")),
    (
        "spirit_strength",
        "abv",
        (0, 100),
        "strength, proof, abv, alcohol, spirit, label",
        "any",
        ("47 % alcohol in proof", "94 proof"),
    ),
    (
        "content",
        "gram / liter",
        (0, None),
        "content, concentration, w/v",
        "",
        ("15 % w/v in g/l", "150 gram / liter"),
    ),
    ("energy", "kilojoule", (None, None), "energy", "", ("500 joule in kilojoule", "0.5 kilojoule")),
)


def _same(
    dimension: str,
    unit: str,
    bounds: tuple[float | None, float | None],
    words: str,
    things: str,
    example: tuple[str, str],
) -> Calculator:
    return Calculator(
        f"convert_{dimension}",
        f"{dimension.replace('_', ' ').capitalize()} in another unit",
        *([DROPPED] if dimension == "volume" else []),
        var("amount", unit, f"amount, {words}", bounds=bounds, things=things, role="from"),
        var("result", unit, f"result, {words}", bounds=bounds, role="to"),
        equations=["result = amount"],
        words=f"convert, conversion, {words}",
        asked="result",
        method=["{amount} is {result}."],
        examples=[example],
        source="definitions of the units: SI Brochure, NIST Handbook 44 Appendix C, UK Weights and "
        "Measures Act 1985",
    )


TOGETHER = Calculator(
    "measures_together",
    "Several measures together, in one unit",
    var("total", "milliliter", "together, in all, altogether, total, sum"),
    lines=Lines(sums={"total": "volume"}, minimum=2),
    only="together, add up, adds up, sum",
    also="dash, dashes, drop, drops, barspoon, barspoons, bar spoon, bar spoons, teaspoon, tablespoon, tsp, tbsp, "
        "splash",
    words="together, add up, adds up, sum, dash, drop, barspoon, teaspoon, how many ml, in ml",
    asked="total",
    method=["Together they are {total}."],
    conventions=["volumes are added"],
    examples=[("7 drops of saline and 1 dash of bitters, together how many ml?", "1.15 milliliter")],
    source="sizes of the measures: NIST Handbook 44 Appendix C, USP <1101> for the drop; dash and barspoon: common "
    "practice, no source",
)

DENSE = [row for row in choices_of("substances", "id") if row["density"] and row["state"] != "piece"]

WEIGHT_OF_VOLUME = Calculator(
    "weight_of_volume",
    "Weight of a volume of something, or the volume of a weight",
    choice("thing", DENSE, fills={"density": "density"}, words="thing, ingredient"),
    var("mass", "gram", "weight, mass, weigh", things="any", named_by="thing.words"),
    var(
        "volume",
        "milliliter",
        "volume, millilitre, measure",
        things="any",
        named_by="thing.words",
        state="liquid",
    ),
    var("density", "gram / milliliter", "density", bounds=(0.1, 25), hidden=True),
    equations=["mass = density * volume"],
    only=(
        "weigh, weight, mass, heavy, density, specific gravity, take up, occupy, volume, in grams, in ml, "
        "in kg, in kilos, "
        "in cl, in litres, in liters, to ml, to grams, to litres, to kg, many ml, many millilitres, many grams, "
        "how much is, how much are, convert"
    ),
    words="weigh, weight, mass, density, volume, heavy, take up",
    asked="mass, volume, density",
    method=["{volume} of {thing} weigh {mass} at {density}."],
    examples=[
        ("what do 500 ml of milk weigh?", "515 gram"),
        ("how many ml are 515 g of milk?", "500 milliliter"),
    ],
    source="density of the thing at room temperature",
)

DENSITY = Calculator(
    "density",
    "The density of something, or its weight or volume through a density",
    var("mass", "gram", "weight, mass, weigh", things="any"),
    var("volume", "milliliter", "volume, millilitre, measure", things="any", state="liquid"),
    var(
        "density",
        "gram / milliliter",
        "density, specific gravity, grams per ml, grams per millilitre, how heavy, how dense",
        bounds=(0.1, 25),
    ),
    equations=["mass = density * volume"],
    only="density, specific gravity, grams per ml, grams per millilitre, dense, kilos per litre, kg per litre",
    words="density, specific gravity, weigh, weight, volume",
    asked="density, mass, volume",
    method=["{volume} weigh {mass}: {density}."],
    examples=[
        ("250 ml of cream weigh 252 g, what is its density?", "1.008 gram / milliliter"),
        ("density 1.32 g/ml, how much do 750 ml weigh?", "990 gram"),
    ],
    source="definition of density",
)

SPIRIT_WEIGHT = Calculator(
    "spirit_weight",
    "Weight of a spirit by its ABV",
    var("abv", "abv", "abv, strength, proof, alcohol by volume, spirit", bounds=(0, 100)),
    var("temperature", "degree_Celsius", "temperature", bounds=(-20, 40), default=20, note="at 20 °C"),
    var("density", "gram / milliliter", "density, specific gravity", bounds=(0.7, 1.1), hidden=True),
    var("mass", "gram", "spirit, weight, mass, weigh", things="spirit"),
    var("volume", "milliliter", "spirit volume", things="spirit", state="liquid"),
    equations=["density = density_of_spirit(temperature, abv)", "mass = density * volume"],
    functions=[
        Function(
            "density_of_spirit",
            lambda t, abv: ethanol.density_by_abv(abv / 100, t),
            ("degree_Celsius", "abv"),
            "gram / milliliter",
            (0.0, 100.0),
            ethanol.SOURCE,
        )
    ],
    only=(
        "spirit, abv, proof, alcohol, ethanol, vol, overproof, neutral, liquor, eau-de-vie, vodka, gin, rum, whisky, "
        "whiskey, bourbon, brandy, tequila, mezcal, cognac"
    ),
    also="weigh, weighs, weight, mass, kilo, kilos, kg, gram, grams, g, pound, pounds, lb, density, heavy, take up",
    words="spirit, weigh, weight, mass, density, vodka, take up",
    asked="mass, volume, density, abv",
    method=["{volume} of spirit at {abv} weigh {mass}: {density} at {temperature}."],
    conventions=["ethanol and water only, no sugar; ABV is always that at 20 °C"],
    examples=[("what does 5 l of vodka at 40 % ABV weigh in kg?", "4.74 kilogram")],
    source=ethanol.SOURCE,
)

SPOONS = {"cup": 236.5882365, "tablespoon": 14.78676478125, "teaspoon": 4.92892159375}


def _spooned() -> list[dict[str, object]]:
    """One row a dry thing, by the first measure that a household weight is published for."""
    poured = {
        word for row in rows_of("substances") if row["state"] == "liquid" for word in row["words"].split(";")
    }
    rows: dict[str, dict[str, object]] = {}
    for row in rows_of("household"):
        dry = not poured & set(row["words"].split(";"))
        if dry and row["measure"] in SPOONS and row["thing"] not in rows:
            told = f"a {row['measure']} weighs {row['mass']} g: {row['source']}"
            rows[row["thing"]] = {
                "id": row["thing"],
                "words": row["words"].replace(";", ","),
                "heap": float(row["mass"]) / SPOONS[row["measure"]],
                "source": told,
            }
    return list(rows.values())


def _counted() -> list[dict[str, object]]:
    return [
        {
            "id": row["thing"],
            "words": row["words"].replace(";", ","),
            "each": row["mass"],
            "source": f"one {row['measure']}: {row['source']}",
        }
        for row in rows_of("household")
        if row["measure"] not in SPOONS
    ]


HOUSEHOLD = Calculator(
    "household",
    "Dry things by the cup or spoon",
    choice("thing", _spooned(), fills={"heap": "heap"}, words="thing, ingredient"),
    var("mass", "gram", "weight, mass, weigh, gram", things="any", named_by="thing.words", state="dry"),
    var(
        "measure",
        "milliliter",
        "cup, spoon, teaspoon, tablespoon, barspoon, measure",
        things="any",
        named_by="thing.words",
    ),
    var("heap", "gram / milliliter", "heaped density, bulk density", bounds=(0.01, 5)),
    equations=["mass = heap * measure"],
    only="cup, spoon, teaspoon, tablespoon, barspoon, bar spoon, tsp, tbsp, cupful, spoonful",
    asked="mass, measure",
    method=["{measure} of {thing}, level, weigh about {mass}."],
    cautions=["A cup or spoon of a powder varies by a fifth or more: weigh it."],
    examples=[("how many grams is a cup and a half of granulated sugar?", "300 gram")],
    source="household weights: USDA FoodData Central",
)

PIECES = Calculator(
    "pieces",
    "What so many pieces weigh",
    choice("thing", _counted(), fills={"each": "each"}, words="thing, ingredient"),
    var("mass", "gram", "weight, mass, weigh, gram", things="any", named_by="thing.words", state="dry"),
    var("pieces", "count", "piece", things="any", named_by="thing.words", whole="up"),
    var("each", "gram", "each, apiece, a piece, one", role="each", state="dry"),
    equations=["mass = pieces * each"],
    only="weigh, weight, piece, pieces, gram, g, each",
    words="weigh, weight, piece",
    asked="mass, pieces, each",
    method=["{pieces} of {thing} at {each} weigh about {mass}."],
    examples=[("what do 6 egg whites weigh?", "204 gram")],
    source="household weights: USDA FoodData Central",
)

CALCULATORS = (
    *(_same(*row) for row in SAME),
    TOGETHER,
    WEIGHT_OF_VOLUME,
    DENSITY,
    SPIRIT_WEIGHT,
    HOUSEHOLD,
    PIECES,
)
