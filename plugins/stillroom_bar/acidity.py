"""Acids by what they neutralise: one in another's place, a titration, the pH of a solution."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from stillroom import Calculator, Function, choice, limit, var

from .physics import acids
from .tables import load

EQUAL = "equal acid means equal alkali neutralised (titratable acidity); they do not taste equally sour"
NAMES = {"citric-monohydrate": "citric monohydrate"}


def _powders(column: str) -> Iterator[Mapping[str, Any]]:
    """The acids by grams for each mole of titratable hydrogen, and by molar mass."""
    for row in load("acids"):
        mass, groups = row["molar_mass"], row["groups"]
        assert isinstance(mass, float) and isinstance(groups, float)
        yield {"id": row["id"], "words": row["words"], column: mass / groups, "mass": mass, "source": row["source"]}


def _ph(acid: str, strength: float) -> float:
    return acids.ph([(NAMES.get(acid, acid), 10 * strength)])


PH = Function("ph_of", _ph, ("choice", "percent_wv"), "dimensionless",
              {str(r["id"]): (0.0, 50.0) for r in load("acids") if NAMES.get(str(r["id"]), r["id"]) in acids.ACIDS},
              acids.SOURCE)

EQUIVALENT = Calculator(
    "acid_equivalent", "One acid in another's place, at the same titratable acidity",
    choice("acid", _powders("equivalent"), fills={"equivalent": "equivalent"}, words="acid, role:given up"),
    choice("instead", _powders("equivalent"), fills={"instead_equivalent": "equivalent"},
           words="instead, role:taken"),
    var("mass", "gram", "acid, specified, calls for, formula", role="from", named_by="acid.words", state="dry"),
    var("equivalent", "gram / mole", "equivalent weight", hidden=True),
    var("instead_mass", "gram", "instead, substitute, replacement, supplies", role="to", named_by="instead.words",
        state="dry"),
    var("instead_equivalent", "gram / mole", "equivalent weight", hidden=True),
    equations=["mass / equivalent = instead_mass / instead_equivalent"],
    only="instead, sub, substituting, swapping, recipe, only have, replace, replaces, replaced, equivalent, "
        "swap, substitute, same titratable acidity, monohydrate, "
        "anhydrous, "
         "stands in, stand in, in place",
    words="instead, sub, substituting, swapping, only have, replace, replaced, replaced by, equivalent, swap, "
        "substitute, same titratable acidity, "
        "monohydrate, anhydrous, grade, "
          "stands in for",
    asked="instead_mass, mass", conventions=[EQUAL],
    examples=[("320 g of tartaric acid replaced by malic acid, how much malic acid?", "285.9 gram")],
    source="molar masses and acid groups")

TITRATION = Calculator(
    "titration", "Acidity from a titration with alkali",
    choice("acid", _powders("equivalent"), fills={"equivalent": "equivalent"}, default="citric",
           note="reckoned as anhydrous citric acid", words="acid"),
    var("sample", "milliliter", "sample, juice, aliquot"),
    var("alkali", "milliliter", "alkali, sodium hydroxide, naoh, titrant, base, lye, used", role="add"),
    var("normality", "dimensionless", "normality, normal, molar, molarity, naoh, sodium hydroxide", bounds=(0, 20),
        default=0.1, note="0.1 N sodium hydroxide, the usual strength"),
    var("equivalent", "gram / mole", "equivalent weight", hidden=True),
    var("acidity", "percent_wv", "acidity, titratable acidity, ta, acid", bounds=(0, 100)),
    equations=["acidity * sample = alkali * normality * normal * equivalent"],
    constants={"normal": (1, "mole / liter")},
    only="titration, titrate, titrated, naoh, sodium hydroxide, alkali, burette",
    words="titration, titrate, titrated, sodium hydroxide, naoh, titratable acidity, alkali, phenolphthalein",
    asked="acidity, alkali",
    cautions=["Sodium hydroxide burns skin and eyes: gloves, glasses, and never near service."],
    conventions=["titrated to pH 8.1 to 8.2"],
    examples=[("10 ml of juice took 94 ml of 0.1 N naoh to titrate, what is the acidity?", "6.02 percent")],
    source="AOAC 942.15, titratable acidity of fruit products, from memory")

SOURNESS = Calculator(
    "acid_ph", "The pH of an acid in water, estimated",
    choice("acid", [r for r in _powders("equivalent") if r["id"] in PH.domain], words="acid"),  # type: ignore[operator]
    var("strength", "percent_wv", "strength, acid, solution, concentration, acidity", bounds=(0, 50)),
    var("ph", "dimensionless", "ph, p.h.", bounds=(0, 7)),
    equations=["ph = ph_of(acid, strength)"],
    limits=[limit("strength <= thin", "caution",
                  "An estimate for thin solutions: above 10 % the true pH may be off by several tenths.")],
    functions=[PH], constants={"thin": (10, "percent_wv")}, words="ph, acid solution, sour", asked="ph, strength",
    cautions=["Juice is buffered by its own salts and reads higher than plain acid in water: measure it, and take "
              "no estimate as proof that a food is safe to keep."],
    conventions=["ideal solution at 25 °C"],
    examples=[("what is the ph of a 1 % w/v citric acid solution?", "2.23 dimensionless")],
    source="dissociation constants (pKa) at 25 °C")

CALCULATORS = (EQUIVALENT, TITRATION, SOURNESS)
