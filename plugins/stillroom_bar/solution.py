"""Solutions by weight and by volume: saline, acid solutions, correcting one, diluting a stock.

Mass adds up, volume does not: a volume is weighed through the density of the solution at
20 °C, from published tables for salt and for sucrose.  Another solute by volume is reckoned in
grams per litre of finished liquid (w/v), which needs no density.
"""

from __future__ import annotations

from stillroom import Calculator, Function, choice, limit, var

from .physics import brine, sucrose

SOLUTES = [
    {
        "id": "salt",
        "words": "salt, table salt, sea salt, kosher salt, nacl, sodium chloride, fine salt, rock salt",
        "solution": "saline, brine, salt solution, saltwater, salt water, saline solution, salty water",
        "limit": 26.4,
        "source": "NaCl at 20 °C: Poradnik fizykochemiczny (WNT 1974), density; 26.4 % w/w, solubility",
    },
    {
        "id": "sugar",
        "words": "sugar, sucrose, white sugar, caster sugar, granulated sugar, table sugar",
        "solution": "sugar solution, sucrose solution, sugar water",
        "limit": None,
        "source": "ICUMSA SPS-4 density of sucrose solutions",
    },
    {
        "id": "citric",
        "words": "citric acid, citric",
        "solution": "citric solution, citric acid solution, citric stock",
        "limit": 59.0,
        "source": "solubility 59 % w/w at 20 °C: from memory of the Merck Index",
    },
    {
        "id": "malic",
        "words": "malic acid, malic",
        "solution": "malic solution, malic acid solution, malic stock",
        "limit": 36.0,
        "source": "solubility: from memory of the Merck Index",
    },
    {
        "id": "tartaric",
        "words": "tartaric acid, tartaric",
        "solution": "tartaric solution, tartaric acid solution",
        "limit": 58.0,
        "source": "solubility: from memory of the CRC Handbook",
    },
    {
        "id": "lactic",
        "words": "lactic acid, lactic",
        "solution": "lactic solution, lactic acid solution",
        "limit": None,
        "source": "miscible with water; common practice",
    },
    {
        "id": "ascorbic",
        "words": "ascorbic acid, ascorbic, vitamin c",
        "solution": "ascorbic solution",
        "limit": 25.0,
        "source": "solubility: from memory of the Merck Index",
    },
    {
        "id": "other",
        "words": "powder, solute, msg, bicarbonate, bicarb, potassium sorbate, sodium citrate",
        "solution": "solution, stock",
        "limit": None,
        "source": "by mass only; common practice, no source",
    },
]


def density(solute: str, percent: float) -> float:
    """g/ml at 20 °C of a solution of ``percent`` w/w.  Raises ValueError where there is no table."""
    if solute == "salt":
        return brine.density(percent / 100)
    if solute == "sugar":
        return sucrose.density(percent / 100)
    raise ValueError(
        f"I have no published density for a {solute} solution: weigh it, or give the strength in g per "
        f"litre (w/v)."
    )


DENSITY = Function(
    "density_of",
    density,
    ("choice", "percent_ww"),
    "gram / milliliter",
    {"salt": (0.0, 26.4), "sugar": (0.0, 85.0)},
    "density at 20 °C: NaCl table (Poradnik fizykochemiczny, WNT 1974); sucrose ICUMSA SPS-4",
)

SOLUTION = Calculator(
    "solution",
    "A solution by weight or by volume",
    choice("solute", SOLUTES, fills={"solubility": "limit"}),
    var("solute_mass", "gram", "solute, powder", named_by="solute.words", state="dry"),
    var("water", "gram", "water"),
    var("mass", "gram", "solution, finished solution, total, batch", named_by="solute.solution"),
    var(
        "volume",
        "milliliter",
        "solution, finished solution, finished volume, volume, batch, stock",
        named_by="solute.solution",
    ),
    var("strength", "percent_ww", "strength, percent, concentration, percentage", bounds=(0, 100)),
    var("content", "gram / liter", "w/v, grams per litre, concentration"),
    var("density", "gram / milliliter", "density"),
    var("solubility", "percent_ww", "solubility", hidden=True),
    equations=[
        "mass = solute_mass + water",
        "solute_mass = strength * mass",
        "mass = density * volume",
        "solute_mass = content * volume",
        "density = density_of(solute, strength)",
    ],
    limits=[
        limit(
            "strength <= solubility",
            "refuse",
            "Water at 20 °C holds no more {solute} than {solubility} by mass: that strength cannot be made.",
        ),
        limit("strength <= 1", "refuse", "No solution is stronger than 100 %."),
    ],
    functions=[DENSITY],
    words="solution, dissolve, dissolved, brine, saline, stock solution",
    asked="solute_mass, strength, water, mass",
    method=[
        "Weigh {solute_mass} of {solute} and {water} of water.",
        "Stir until it is clear; keep it cold and covered.",
    ],
    examples=[
        ("how much salt for 300 ml of 20% saline?", "68.9 gram"),
        ("I dissolved 45 g of salt in 180 g of water, what strength is it?", "20 percent"),
    ],
    source="mass balance",
)

CALCULATORS = (SOLUTION,)
