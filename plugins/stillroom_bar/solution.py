"""Solutions by weight and by volume: saline, acids, any powder in water.

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
            f"The density of this solution is published only up to {MEASURED[solute][1]:.3g} %: make it by "
            f"weight, "
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
    "density at 20 °C: NaCl, Poradnik fizykochemiczny (WNT 1974); sucrose, ICUMSA SPS-4; acids, "
    "Engineering ToolBox "
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


SOLUTE = choice("solute", SOLUTES, fills={"solubility": "solubility", "clear_to": "clear_to"}, words="solute")
WATER_VOLUME = var(
    "water_volume", "milliliter", "volume of water, millilitres of water", things="water", role="add", shy=True
)
WATER_WEIGHT = "water = water_volume * water_density"
WATER = {"water_density": (0.9982, "gram / milliliter")}
"""Water at 20 °C (ICUMSA SPS-4)."""

SOLUBILITY = var("solubility", "percent_ww", hidden=True)
CLEAR_TO = var("clear_to", "percent_ww", hidden=True)

SOLUTION = Calculator(
    "solution",
    "A solution by weight or by volume",
    SOLUTE,
    var("solute_mass", "gram", "solute, acid, powder, weigh out, do i weigh, do we weigh, dissolve, to add, "
        "tip in", named_by="solute.powder", state="dry"),
    var(
        "mass",
        "gram",
        "solution, finished solution, total mass, final mass, total, batch, stock, all in, in all, made, "
        "finished weight, "
        "final weight, weight, whole thing, should come to, net, net weight, mass of solution, tot, "
        "altogether, it weigh, that weigh, saline weigh",
        named_by="solute.solution",
        role="need",
    ),
    var(
        "volume",
        "milliliter",
        "finished solution, finished volume, final volume, volume, take up, takes up, occupy, squeeze bottle, "
        "dropper bottle, batch, drop, drink, per drink, each drink, topped up, "
        "filled up",
        named_by="solute.solution",
        role="need",
    ),
    var("water", "gram", "water"),
    WATER_VOLUME,
    var("strength", "percent_ww", "strength, percent, concentration, percentage", bounds=(0, 100)),
    var("content", "gram / liter", "w/v, content, concentration, weight per volume"),
    var("density", "gram / milliliter", "density, specific gravity", shy=True),
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
    words="solution, dissolve, dissolved, stock solution, make up, weigh, weight, take up, takes up, occupy, express, "
    "express as, → g/l, as g/l, in g/l, at 20",
    asked="solute_mass, strength, water, mass, volume, content",
    method=[
        "Weigh {solute_mass} of {solute} and {water} of water.",
        "Stir until it is clear.",
        "Bottle it clean, label it with the strength and the date, and keep it cold.",
    ],
    examples=[
        ("how much salt for 300 ml of 20% saline?", "68.9 gram"),
        ("I dissolved 45 g of salt in 180 g of water, what strength is it?", "20 percent"),
        ("what does 500 ml of 10 % saline weigh?", "535.35 gram"),
        ("NaCl solution 10 % w/w at 20 °C, express as g/l", "107.07 gram / liter"),
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
    var("mass", "gram", "solution, finished solution, total, total weight, total mass, batch",
        named_by="solute.solution", role="need"),
    var("water", "gram", "water"),
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
        named_by="solute.solution", role="to",
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

CALCULATORS = (SOLUTION, BY_RATIO, MADE_UP)
