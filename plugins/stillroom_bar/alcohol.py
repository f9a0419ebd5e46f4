"""Units of alcohol: standard drinks of a country, grams and millilitres of ethanol.

Ethanol weighs 0.78924 g/ml at 20 °C (OIML R 22).  A standard drink without a country is the
US one until a chat says otherwise.  A count of drinks says nothing about who may drive.
"""

from __future__ import annotations

from stillroom import Calculator, Lines, choice, include, limit, var

from .things import HOLDS, choices_of, said

COUNTRIES = choices_of("alcohol_units", "id")
ETHANOL = "OIML R 22: ethanol weighs 0.78924 g/ml at 20 °C"
MEASURE = {"least": (7.5, "gram"), "most": (25, "gram")}
"""Grams of ethanol in a standard drink: those in use are 7.9 to 20 g (the table of countries)."""
A_UNIT = [
    limit("unit_mass >= least", "doubt", "That makes {unit_mass} of ethanol a standard drink: "
        "no country has so small a one."),
    limit("unit_mass <= most", "doubt", "That makes {unit_mass} of ethanol a standard drink: "
        "no country has so large a one."),
]
TITLE = "standard drink, drink, alcohol unit, unit of alcohol"

UNITS = Calculator(
    "alcohol_units",
    "Standard drinks and ethanol in a drink",
    choice(
        "country",
        COUNTRIES,
        fills={"unit_mass": "ethanol"},
        default="us",
        words="country",
        keeps=True,
        note="US standard drinks, as no country was named",
    ),
    var(
        "volume",
        "milliliter",
        "bottle, cans, glass, measure, volume, pour, drink, keg, spirit, wine, beer, punch, cocktail",
        things="spirit,wine,beer,liqueur,drink",
    ),
    var(
        "strength",
        "percent_vv",
        "strength, abv, proof, percent, spirit, how strong, punch, cocktail, percent of alcohol, % of alcohol, "
        "alcohol percent, alcohol content",
        bounds=(0, 100),
        things="spirit,wine,beer,liqueur,drink",
    ),
    var("units", "count", TITLE, named_by="country.words"),
    var("ethanol", "gram", "ethanol, alcohol, pure alcohol, grams of alcohol, alc, grams of ethanol, ethanol mass, "
        "mass of ethanol, mass of alcohol", state="liquid"),
    var("unit_mass", "gram", "a standard drink is, one standard drink is, a unit is, one standard drink, "
        "unit defined as", role="each", shy=True),
    equations=[
        "ethanol = volume * strength * ethanol_density",
        "ethanol = units * unit_mass",
    ],
    limits=[
        limit("strength <= 1", "refuse", "No strength is above 100 % ABV."),
        limit("units <= 300", "doubt",
              "That is {units} standard drinks, more than a keg of beer holds: check the figure."),
        *A_UNIT,
    ],
    constants={"ethanol_density": (0.78924, "gram / milliliter"), **MEASURE},
    only="unit, units, standard drink, standard drinks, alcohol, ethanol, std drink, std drinks, drinks, alc",
    words="standard drink, std drink, alcohol unit, unit of alcohol, units, ethanol, alcohol, grams of alcohol, "
    "grams of ethanol, strength, abv, holds, label",
    asked="units, ethanol, volume, strength",
    method=["{volume} at {strength} holds {ethanol} of ethanol."],
    cautions=[said("drink-and-drive"), said("alcohol")],
    examples=[
        ("uk units in a 70cl bottle of 40%?", "28 count"),
        ("grams of ethanol in 5 cl of gin at 47 %?", "18.54714 gram"),
    ],
    source=ETHANOL,
)

PURE = Calculator(
    "pure_alcohol",
    "Millilitres of pure alcohol in a drink",
    var(
        "volume",
        "milliliter",
        "bottle, cans, glass, measure, volume, pour, spirit, wine, beer, punch, cocktail, drink",
        things="spirit,wine,beer,liqueur,drink",
    ),
    var(
        "strength",
        "percent_vv",
        "strength, abv, proof, percent, spirit, how strong, punch, cocktail",
        bounds=(0, 100),
        things="spirit,wine,beer,liqueur,drink",
    ),
    var("pure", "milliliter", "pure alcohol, pure ethanol, volume of ethanol, volume of alcohol, alcohol, ethanol, "
        "pure alc, "
        "ethanol in ml"),
    equations=["pure = volume * strength"],
    limits=[limit("strength <= 1", "refuse", "No strength is above 100 % ABV.")],
    words="pure alcohol, pure ethanol, volume of alcohol, volume of ethanol, ml of alcohol, ml of ethanol",
    only="pure alcohol, pure alc, pure ethanol, ethanol, volume of alcohol, ml of alcohol",
    asked="pure, volume, strength",
    method=["{volume} at {strength} holds {pure} of pure alcohol."],
    cautions=[said("drink-and-drive")],
    examples=[("how many ml of pure alcohol are in 700 ml of a 40 % spirit?", "280 milliliter")],
    source="pure alcohol = volume x strength",
)

PER_SERVE = Calculator(
    "units_per_serve",
    "Standard drinks in one serve of a batch",
    include(UNITS),
    var("units", "count", hidden=True),
    var("serves", "count", "serve, serving, portion, glass, cup, cocktail, people", whole="down"),
    var(
        "units_each",
        "count",
        "units per serve, standard drinks per serve, units each, in each, each cup, every cup, per cup, "
        "per drink, unit, standard drink",
        named_by="country.words",
        role="each",
    ),
    var("per_serve_ethanol", "gram", "ethanol per serve, ethanol each, grams of ethanol, ethanol, alcohol, "
        "pure alcohol", role="each", state="liquid"),
    equations=["units = serves * units_each", "ethanol = serves * per_serve_ethanol"],
    words="per serve, each serve, per portion, per glass, batch, standard drinks per",
    only="per serve, each serve, per portion, per glass, per cup, every cup, each cup, per drink, per cocktail, batch, "
    "serve, serves, portion",
    asked="units_each, serves, volume",
    method=["{volume} for {serves} serves: {units_each} each."],
    examples=[("a 3 l batch at 20 % makes 25 serves, uk units per serve?", "2.4 count")],
)

OF_POURS = Calculator(
    "units_of_pours",
    "Standard drinks in so many pours",
    include(UNITS),
    var("volume", "milliliter", "all the pours", hidden=True),
    var("pours", "count", "pour, shot, measure", whole="up"),
    var("pour", "milliliter", "pour, shot, measure, each", role="each"),
    equations=["volume = pours * pour"],
    only="pour, shot, measure",
    words="pours, shots, measures, units, make, standard drinks",
    asked="units, pours, ethanol",
    method=["{pours} of {pour} at {strength} hold {ethanol} of ethanol."],
    cautions=[said("drink-and-drive"), said("alcohol")],
    examples=[("how many 25 ml pours of 40 % vodka make 5 uk units?", "5 count")],
)

SPEC_UNITS = Calculator(
    "units_of_spec",
    "Standard drinks in a drink of several ingredients",
    choice(
        "country",
        COUNTRIES,
        fills={"unit_mass": "ethanol"},
        default="us",
        words="country",
        keeps=True,
        note="US standard drinks, as no country was named",
    ),
    var("ethanol_volume", "milliliter", "pure alcohol, volume of ethanol", hidden=True),
    var("ethanol", "gram", "ethanol, alcohol, grams of alcohol"),
    var("units", "count", TITLE, named_by="country.words"),
    var("unit_mass", "gram", "a standard drink is, one standard drink is, a unit is, unit defined as", role="each"),
    equations=["ethanol = ethanol_volume * ethanol_density", "ethanol = units * unit_mass"],
    limits=A_UNIT,
    constants={"ethanol_density": (0.78924, "gram / milliliter"), **MEASURE},
    lines=Lines(
        sums={"ethanol_volume": "volume * abv"},
        columns={"abv": "percent_vv"},
        fills={"abv": "abv"},
        holds=HOLDS,
        needs=("abv",),
        minimum=2,
    ),
    only="unit, units, standard drink, alcohol, ethanol, standard drinks",
    words="standard drink, alcohol unit, units, does one contain, in the drink",
    asked="units, ethanol",
    cautions=[said("drink-and-drive"), said("alcohol")],
    examples=[("50 ml gin at 40 % and 25 ml vermouth at 16 %: uk units in the drink?", "2.4 count")],
    source=ETHANOL,
)

CALCULATORS = (UNITS, PURE, PER_SERVE, OF_POURS, SPEC_UNITS)
