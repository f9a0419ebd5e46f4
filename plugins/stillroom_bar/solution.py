"""Solutions by weight and by volume: make one, thin it down, strengthen it, dilute a stock.

Mass adds up, volume does not: a volume is weighed through the density of the solution at
20 °C, where a table of it is published.  Where there is none, a percent of a volume is reckoned
in grams per 100 ml of finished liquid (w/v), which needs no density.
"""

from __future__ import annotations

from stillroom import Calculator, Function, choice, limit, var

from .physics import brine, solutions, sucrose
from .things import choices_of

ANHYDROUS = 192.124 / 210.139
"""Mass of citric acid in a mass of its monohydrate."""

SOLUTES = [
    {**row, "powder": row["powder"].replace(";", ","), "solution": row["solution"].replace(";", ",")}
    for row in choices_of("solutes", "id")
]


def density(solute: str, percent: float) -> float:
    """g/ml at 20 °C of a solution of ``percent`` w/w.  ValueError where no table reaches."""
    w = percent / 100
    if solute in MEASURED and percent > MEASURED[solute][1]:
        raise ValueError(
            f"The density of this solution is published only up to {MEASURED[solute][1]:.3g} %: make it by weight, "
            "or give the strength in g per litre (w/v)."
        )
    if solute == "salt":
        return brine.density(w)
    if solute == "sugar":
        return sucrose.density(w)
    if solute == "citric-monohydrate":
        return solutions.density("citric", w * ANHYDROUS)
    return solutions.density(solute, w)


MEASURED: dict[str, tuple[float, float]] = {
    "salt": (0.0, 100 * brine.STRONGEST),
    "sugar": (0.0, 100 * sucrose.STRONGEST),
    "citric-monohydrate": (0.0, 100 * solutions.strongest("citric") / ANHYDROUS),
    **{acid: (0.0, 100 * solutions.strongest(acid)) for acid in solutions.known()},
}
"""Percent w/w up to which the density of each solution is measured."""

DENSITY = Function(
    "density_of",
    density,
    ("choice", "percent_ww"),
    "gram / milliliter",
    MEASURED,
    "density at 20 °C: NaCl, Poradnik fizykochemiczny (WNT 1974); sucrose, ICUMSA SPS-4; acids, Engineering ToolBox "
    "and Lange and Sinks 1930",
    version="2",
)

UNMEASURED = [row for row in SOLUTES if row["id"] not in MEASURED]

BY_VOLUME = Function(
    "by_volume",
    lambda solute, volume: volume,
    ("choice", "milliliter"),
    "milliliter",
    {row["id"]: (0.0, 1e9) for row in UNMEASURED},
    "no published density: percent is grams in 100 ml of finished solution (w/v)",
)

TOO_STRONG = limit(
    "strength <= solubility",
    "refuse",
    "Water at 20 °C holds no more {solute} than {solubility} by mass (w/w): that strength cannot be made.",
)
CRYSTALS = limit(
    "strength <= clear_to",
    "caution",
    "Above {clear_to} (°Bx) {solute} dissolves only with heat, and may crystallise as it cools.",
)


WEAKENS = limit("target <= strength", "refuse", "Water only weakens: {strength} cannot become {target} by adding it.")
SOLUTE = choice("solute", SOLUTES, fills={"solubility": "solubility", "clear_to": "clear_to"}, words="solute")
WATER_VOLUME = var("water_volume", "milliliter", "volume of water, millilitres of water", things="water", role="add")
WATER_WEIGHT = "water = water_volume * water_density"
WATER = {"water_density": (0.9982, "gram / milliliter")}
"""Water at 20 °C (ICUMSA SPS-4)."""

SOLUBILITY = var("solubility", "percent_ww", hidden=True)
CLEAR_TO = var("clear_to", "percent_ww", hidden=True)

SOLUTION = Calculator(
    "solution",
    "A solution by weight or by volume",
    SOLUTE,
    var("solute_mass", "gram", "solute, powder, weigh out, dissolve", named_by="solute.powder", state="dry"),
    var("water", "gram", "water"),
    WATER_VOLUME,
    var(
        "mass",
        "gram",
        "solution, finished solution, total mass, final mass, total, batch, stock, all in, in all, made",
        named_by="solute.solution",
        role="need",
    ),
    var(
        "volume",
        "milliliter",
        "finished solution, finished volume, final volume, volume, batch, drop, drink, per drink, each drink",
        named_by="solute.solution",
        role="need",
    ),
    var("strength", "percent_ww", "strength, percent, concentration, percentage", bounds=(0, 100)),
    var("content", "gram / liter", "w/v, content, concentration, weight per volume"),
    var("density", "gram / milliliter", "density, specific gravity"),
    SOLUBILITY,
    CLEAR_TO,
    equations=[
        "mass = solute_mass + water",
        "solute_mass = strength * mass",
        "mass = density * volume",
        "solute_mass = content * volume",
        "density = density_of(solute, strength)",
        WATER_WEIGHT,
    ],
    limits=[TOO_STRONG, CRYSTALS],
    functions=[DENSITY],
    constants=WATER,
    words="solution, dissolve, dissolved, stock solution, make up",
    asked="solute_mass, strength, water, mass, volume, content",
    method=[
        "Weigh {solute_mass} of {solute} and {water} of water.",
        "Stir until it is clear.",
        "Bottle it clean, label it with the strength and the date, and keep it cold.",
    ],
    examples=[
        ("how much salt for 300 ml of 20% saline?", "68.9 gram"),
        ("I dissolved 45 g of salt in 180 g of water, what strength is it?", "20 percent"),
    ],
    source="mass balance",
)

BY_RATIO = Calculator(
    "solution_by_ratio",
    "A solution by parts of powder and water",
    choice(
        "solute",
        [row for row in SOLUTES if row["id"] != "sugar"],
        fills={"solubility": "solubility", "clear_to": "clear_to"},
        words="solute",
    ),
    var("solute_mass", "gram", "solute, powder", named_by="solute.powder", state="dry"),
    var("water", "gram", "water"),
    var("mass", "gram", "solution, finished solution, total, batch", named_by="solute.solution", role="need"),
    var("ratio", "dimensionless", "ratio, parts", ratio="solute_mass:water", habit=False),
    var("strength", "percent_ww", "strength, percent", bounds=(0, 100)),
    SOLUBILITY,
    CLEAR_TO,
    equations=["mass = solute_mass + water", "solute_mass = ratio * water", "solute_mass = strength * mass"],
    limits=[TOO_STRONG],
    words="ratio, parts, saline, brine, solution",
    asked="solute_mass, water, mass, strength",
    method=["Weigh {solute_mass} of {solute} and {water} of water: {strength}."],
    conventions=["parts by weight"],
    examples=[("500 g of saline at 1 part salt to 4 parts water: how much salt?", "100 gram")],
    source="mass balance",
)

MADE_UP = Calculator(
    "made_up",
    "A solution made up to a volume, where no density is published",
    choice("solute", UNMEASURED, fills={"solubility": "solubility"}, words="solute"),
    var("solute_mass", "gram", "solute, powder", named_by="solute.powder", state="dry"),
    var(
        "volume",
        "milliliter",
        "solution, finished solution, finished volume, volume, batch, stock",
        named_by="solute.solution",
    ),
    var("strength", "percent_wv", "strength, percent, concentration, percentage, solution"),
    SOLUBILITY,
    equations=["solute_mass = strength * by_volume(solute, volume)"],
    limits=[
        limit(
            "strength <= solubility * gram_per_ml",
            "caution",
            "Water at 20 °C holds no more {solute} than {solubility} by mass (w/w): it may not all dissolve.",
        )
    ],
    functions=[BY_VOLUME],
    constants={"gram_per_ml": (1.0, "gram / milliliter")},
    words="solution, dissolve, dissolved, stock solution, make up",
    asked="solute_mass, strength, volume",
    method=[
        "Weigh {solute_mass} of {solute} into a jug and dissolve it in part of the water.",
        "Fill up with water to {volume}.",
    ],
    conventions=["no density is published for this solution: percent is grams in 100 ml of it (w/v)"],
    examples=[("tartaric acid solution, 10 %, 500 ml: how much powder?", "50 gram")],
    source="definition of w/v",
)

THIN = Calculator(
    "thin",
    "Water to bring a strong solution down",
    SOLUTE,
    var("mass", "gram", "solution, strong solution, batch", role="have", named_by="solute.solution"),
    var("volume", "milliliter", "volume of the solution", role="have", things="saline"),
    var("strength", "percent_ww", "strength", role="from", bounds=(0, 100)),
    var("water", "gram", "water", role="add"),
    WATER_VOLUME,
    var("finished", "gram", "finished solution, ends up, end up with, afterwards"),
    var("target", "percent_ww", "target, strength", role="to", bounds=(0, 100)),
    SOLUBILITY,
    CLEAR_TO,
    equations=[
        "finished = mass + water",
        "mass * strength = finished * target",
        "mass = volume * density_of(solute, strength)",
        WATER_WEIGHT,
    ],
    limits=[TOO_STRONG, CRYSTALS, WEAKENS],
    functions=[DENSITY],
    constants=WATER,
    words="thin, thin down, weaken, let down, cut, too strong, came out, correct, bring down, water down, lower, dilute",
    asked="water, target, finished, mass, strength",
    method=["Stir {water} of water into {mass} of the solution: {finished} at {target}."],
    examples=[("1 kg of saline came out at 25 %, I want 20 %: how much water?", "250 gram")],
    source="mass balance",
)

STOCK = Calculator(
    "stock",
    "How much of a stock makes a weaker solution",
    SOLUTE,
    var("stock", "gram", "stock, stock solution, concentrate", role="have"),
    var("stock_volume", "milliliter", "stock volume, volume of stock", role="have"),
    var("strength", "percent_ww", "stock, stock solution, concentrate", role="from", bounds=(0, 100)),
    var("water", "gram", "water", role="add"),
    WATER_VOLUME,
    var("mass", "gram", "finished solution, total, batch, working solution", role="need", named_by="solute.solution"),
    var("volume", "milliliter", "finished volume, total volume", role="need", things="saline"),
    var("target", "percent_ww", "target, strength", role="to", bounds=(0, 100)),
    SOLUBILITY,
    CLEAR_TO,
    equations=[
        "mass = stock + water",
        "stock * strength = mass * target",
        "stock = stock_volume * density_of(solute, strength)",
        "mass = volume * density_of(solute, target)",
        WATER_WEIGHT,
    ],
    limits=[TOO_STRONG, CRYSTALS, WEAKENS],
    functions=[DENSITY],
    constants=WATER,
    only="stock, concentrate, concentrated, dilute, diluting, dilution",
    words="stock, stock solution, concentrate, dilute, diluting, working solution, from a stock",
    asked="stock, water, mass, target, strength",
    method=["Weigh {stock} of the stock.", "Add {water} of water and stir: {mass} at {target}."],
    examples=[("from a 24 % saline stock I need 500 g at 10 %, how much stock?", "208.3 gram")],
    source="mass balance",
)

STRENGTHEN = Calculator(
    "strengthen",
    "Powder to bring a weak solution up",
    SOLUTE,
    var("weak", "gram", "solution, weak solution, batch", role="have", named_by="solute.solution"),
    var("weak_volume", "milliliter", "volume of the solution, weak volume", role="have", things="saline,acid,syrup"),
    var("weak_strength", "percent_ww", "strength", role="from", bounds=(0, 100)),
    var("solute_added", "gram", "solute, powder", role="add", named_by="solute.powder", state="dry"),
    var("mass", "gram", "finished solution, total", role="to", named_by="solute.solution"),
    var("strength", "percent_ww", "target, strength", role="to", bounds=(0, 100)),
    SOLUBILITY,
    CLEAR_TO,
    equations=[
        "mass = weak + solute_added",
        "weak * weak_strength + solute_added = mass * strength",
        "weak = weak_volume * density_of(solute, weak_strength)",
    ],
    limits=[
        TOO_STRONG,
        CRYSTALS,
        limit(
            "weak_strength <= strength",
            "refuse",
            "More {solute} only strengthens: {weak_strength} cannot become {strength} by adding it. Add water instead.",
        ),
    ],
    functions=[DENSITY],
    words="strengthen, too weak, came out too weak, bring up, raise, correct, add more, top up, fortify, stronger",
    asked="solute_added, strength, mass, weak, weak_strength",
    method=["Stir {solute_added} of {solute} into {weak} of the solution until it is clear: {mass} at {strength}."],
    examples=[("I have 1 kg of saline at 10 % and want it at 20 %: how much salt do I add?", "125 gram")],
    source="mass balance",
)

STOCK_BY_VOLUME = Calculator(
    "stock_by_volume",
    "Stock of a strength in grams per litre, made up to a volume",
    var("stock", "milliliter", "stock, strong solution, concentrate", role="have"),
    var("content", "gram / liter", "stock, strength", role="from"),
    var("water", "milliliter", "water", role="add"),
    var("volume", "milliliter", "finished solution, total, batch, working solution", role="need"),
    var("target", "gram / liter", "target, strength", role="to"),
    equations=["stock * content = volume * target", "volume = stock + water"],
    limits=[limit("target <= content", "refuse", "Water only weakens: {content} cannot become {target} by adding it.")],
    only="stock, concentrate, dilute, thin, weaken",
    words="dilute, diluting, stock, thin, weaken, w/v, grams per litre",
    asked="stock, water, volume, target, content",
    method=["Measure {stock} of the stock and fill up with water to {volume}."],
    conventions=["water fills up to the volume: it is that volume less the stock's, contraction not counted"],
    examples=[("how much of a 200 g/l stock do I need for 500 ml at 20 g/l?", "50 milliliter")],
    source="mass balance of the solute",
)

CALCULATORS = (SOLUTION, BY_RATIO, MADE_UP, THIN, STRENGTHEN, STOCK, STOCK_BY_VOLUME)
