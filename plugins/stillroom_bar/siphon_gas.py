"""The gas in a cream siphon: how many chargers it may take, and about what pressure they make."""

from __future__ import annotations

from stillroom import Calculator, Function, limit, var

from .physics import n2o
from .siphon import CAUTION, CONSTANTS, LARGEST, NITROUS, OVERFULL, RATED, RULE, SIZE, TOO_LARGE

CHECK = Calculator(
    "siphon_check",
    "May a siphon take this many chargers?",
    RATED,
    SIZE,
    var(
        "inside",
        "count",
        "charger, cartridge, bulb, put in, extra",
        role="into",
        default="allowed",
        note="as many as the rule allows",
    ),
    var(
        "allowed",
        "count",
        "allowed charger, charger allowed, most chargers, maximum number of chargers, max chargers",
    ),
    var("spare", "count", "spare, left, more chargers, more charger, many more, more may, more can, more in",
        bounds=(None, None)),
    var("liquid", "milliliter", "liquid, base, inside, in it, mix, cream, espuma, base in the, "
        "liquid in the, mix in the", things="cream,juice"),
    var(
        "charger",
        "gram",
        "charger, gram charger, charger size",
        role="each",
        default=8,
        note="the usual small charger holds 8 g of N2O",
        shy=True,
    ),
    equations=["allowed = rule(size)", "spare = allowed - inside"],
    limits=[
        TOO_LARGE,
        OVERFULL,
        limit(
            "inside <= rule(size)",
            "refuse",
            "No: {inside} chargers in a {size} siphon is above the rule of one up to 0.5 l and two up to 1 "
            "l. The "
            "pressure can burst it; never go over the maker's limit.",
        ),
    ],
    functions=[RULE],
    constants=CONSTANTS,
    only=(
        "siphon, whipper, charger, n2o, nitrous, cartridge, pint siphon, quart siphon, cream whipper, "
        "espuma"
    ),
    words="siphon, whipper, charger, ok, okay, safe, may i, can i, all right, allowed, too many, put, "
    "extra, in one, soft, charge with, can put, squeeze, go further, all in, "
    "limp, thin, weak, liquid, double",
    asked="allowed, spare",
    method=["Chargers in a {size} siphon: {allowed} at most."],
    cautions=[CAUTION, NITROUS],
    examples=[("what is the maximum number of chargers allowed in a 1 l siphon?", "2 count")],
    source="one 8 g charger for 0.5 l and less, two for 1 l: common practice, no source; the maker's limit "
    "comes first",
)

PRESSURE = Calculator(
    "siphon_pressure",
    "Pressure in a charged cream siphon, an estimate",
    RATED,
    var(
        "size", "liter", "siphon, whipper, size, rated size", role="into", bounds=(0.05, LARGEST), keeps=True
    ),
    var(
        "liquid",
        "milliliter",
        "liquid, base, mix, water",
        things="any",
        default="size",
        note="filled to its rated size",
        bounds=(0, 1000),
    ),
    var("headspace", "milliliter", "headspace, room, empty space, gas space", bounds=(1, 2000)),
    var(
        "inside",
        "milliliter",
        hidden=True,
        default="1.45 * size",
        bounds=(1, 2000),
        note="the vessel is taken as 1.45 times its rated size, head and all: an assumption, no source",
    ),
    var("chargers", "count", "charger, cartridge, bulb", bounds=(0, 10)),
    var("gas", "gram", "gas, n2o, nitrous", bounds=(0, 80)),
    var(
        "charger",
        "gram",
        "grams per charger, charger size",
        role="each",
        default=8,
        bounds=(1, 20),
        note="the usual small charger holds 8 g of N2O",
        shy=True,
    ),
    var(
        "temperature",
        "degree_Celsius",
        "temperature, fridge, cold, chilled",
        bounds=(n2o.LOWEST, n2o.HIGHEST),
        default=4,
        note="chilled to 4 °C",
        role="of",
    ),
    var("pressure", "bar", "pressure, shaken pressure", bounds=(0, 200)),
    var("before_shaking", "bar", "before shaking, unshaken, at first, peak", bounds=(0, 500)),
    equations=[
        "inside = liquid + headspace",
        "gas = chargers * charger",
        "pressure = shaken(gas, liquid, headspace, temperature)",
        "before_shaking = unshaken(gas, headspace, temperature)",
    ],
    limits=[
        OVERFULL,
        limit(
            "chargers <= rule(size)",
            "refuse",
            "No: {chargers} chargers in a {size} siphon is above the rule of one up to 0.5 l and two up to "
            "1 l. The "
            "pressure can burst it; never go over the maker's limit.",
        ),
    ],
    functions=[
        RULE,
        Function(
            "shaken",
            lambda g, liquid, room, t: n2o.shaken_pressure(g, liquid / 1000, room / 1000, t),
            ("gram", "milliliter", "milliliter", "degree_Celsius"),
            "bar",
            (n2o.LOWEST, n2o.HIGHEST),
            n2o.SOURCE,
        ),
        Function(
            "unshaken",
            lambda g, room, t: n2o.charged_pressure(g, room / 1000, t),
            ("gram", "milliliter", "degree_Celsius"),
            "bar",
            (n2o.LOWEST, n2o.HIGHEST),
            "ideal gas",
        ),
    ],
    only="pressure, gauge, headspace, head space, bar, psi",
    words="pressure, siphon, whipper, charged, gauge, estimate",
    asked="pressure, before_shaking",
    method=[
        "About {pressure} above the air once it is shaken at {temperature}; {before_shaking} if none of "
        "the gas dissolved.",
        "An estimate for water. Cream takes up more gas; only the maker's rating says what the vessel bears.",
    ],
    cautions=[CAUTION, NITROUS],
    conventions=["gauge pressure, the gas ideal and dissolved in water to equilibrium"],
    examples=[("pressure in a 0.5 l siphon with one charger at 4 °C?", "5.25 bar")],
    source=n2o.SOURCE,
)

CALCULATORS = (CHECK, PRESSURE)
