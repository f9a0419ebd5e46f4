"""Dilution: the water that stirring or shaking adds, water by measure, and the ice that melts.

Dilution is water per volume of the drink before it; its share of the finished drink is given too.
The two curves of dilution by strength are the trade's, fitted to drinks of 15 to 35 % ABV stirred
or shaken in the usual way; ice, time and tin shift them.
"""

from __future__ import annotations

from stillroom import Calculator, Function, Lines, choice, include, limit, var

from .physics import ethanol, heat
from .strength import ADD, DENSITY
from .things import HOLDS

FITS = {"stirred": (-1.21, 1.246, 0.145), "shaken": (-1.567, 1.742, 0.203)}
"""Coefficients of a², a and 1 in the dilution of a drink of strength a; common practice, no source."""

METHODS = [
    {"id": "stirred", "words": "stirred, stir, stirring, stired, stird, stirs, stirred down, mixing glass, "
        "stirring glass", "source":
     "dilution by stirring, -1.21 a² + 1.246 a + 0.145, a = strength as a fraction; common practice, no source"},
    {"id": "shaken", "words": "shaken, shake, shaking, shook, shakes, shaked, shkn, hard shake, shaker, "
        "into the shaker, in the shaker, in the tin", "source":
     "dilution by shaking, -1.567 a² + 1.742 a + 0.203, a = strength as a fraction; common practice, no source"},
]
OF_AFTER = (
    "of the finished drink, of the finished batch, of the finished bottle, of the finished, of the final, "
    "of the total, of final, of total, of the whole, of the whole drink, of what is in the glass, of what comes out"
)
WATER = [{"id": "water", "words": "plain water, tap water, pure water", "strength": 0, "source": "no ethanol in it"}]
OF_BEFORE = "dilution is water per volume before it; its share is of the finished drink"


def _fit(method: str, abv: float) -> float:
    a = abv / 100
    square, line, rest = FITS[method]
    return 100 * (square * a * a + line * a + rest)


FIT = Function("fit", _fit, ("choice", "percent_vv"), "percent", (0.0, 100.0),
               "dilution curves by strength; common practice, no source")
GIVEN_UP = Function(
    "given_up", lambda abv, t_from, t_to: heat.specific_heat(ethanol.mass_fraction(abv / 100)) * (t_from - t_to),
    ("percent_vv", "degree_Celsius", "degree_Celsius"), "joule / gram", (-15.0, 60.0), heat.SOURCE)
TAKEN_UP = Function(
    "taken_up", lambda t_ice, t_to: heat.to_melt(t_ice) + heat.WATER * t_to,
    ("degree_Celsius", "degree_Celsius"), "joule / gram", (-15.0, 60.0), heat.SOURCE)

DILUTION = Calculator(
    "dilution", "What stirring or shaking on ice does to a drink",
    choice("method", METHODS, words="stirred, shaken, method"),
    var("volume", "milliliter", "drink, cocktail, mix, build, sour, batch, before ice, before the ice, going in, "
        "in the shaker, in the mixing glass, into the shaker, measure into the shaker, undiluted, spirit, "
        "build before, before it meets ice, of the mix",
        role="from",
        things="spirit"),
    var("abv", "abv", "starting strength, initial strength, initial abv, undiluted, before ice, before the ice, "
        "going in, alcohol, abv, strength, proof, spirit, mix, undiluted mix, strength before", role="from",
        bounds=(0, 100), things="spirit"),
    var("water", "milliliter", "water, water picked up, water taken up, water gained, melt", role="add"),
    var("final_volume", "milliliter", "final volume, in the glass, in the coupe, volume in the glass, volume out, "
        "left with, glass after, after, strained, straining, after straining, comes out, came out, come out, "
        "coming out, come to, after shake, after the shake, afterwards, resulting volume, got then, end up, "
        "end up with, becomes, volume after, vol after, serve, served, to serve, be in it, be in the glass, "
        "glass holds, glass takes, glass fits, coupe holds, coupe takes, glass has room for, coupe only holds, "
        "glass only holds, out of the tin, brim, brim full", role="to"),
    var("final_abv", "abv", "abv, strength, alcohol, proof, in the glass, afterwards, diluted, final strength",
        role="to", bounds=(0, 100)),
    var("dilution", "percent", "dilution, dilution percent, stirred dilution, shaken dilution, of initial volume, "
        "of the undiluted drink, of what went in, of the build",
        bounds=(0, None)),
    var("share", "percent", "share, " + OF_AFTER, bounds=(0, 100)),
    equations=["dilution = fit(method, abv)", "water = dilution * volume", "final_volume = volume + water",
               "water = share * final_volume", "abv * volume = final_abv * final_volume"],
    limits=[limit("final_abv <= abv", "refuse",
                  "Adding water cannot raise the strength from {abv} to {final_abv}."),
            limit("abv >= 0.15", "caution",
                  "The curves fit 15 to 35 % ABV: at {abv} take the figure as a guess, and measure."),
            limit("abv <= 0.35", "caution",
                  "The curves fit 15 to 35 % ABV: at {abv} take the figure as a guess, and measure.")],
    functions=[FIT],
    only=(
        "ice, stir, shake, stirred, shaken, shook, shkn, shaked, stired, stird, dilution, dilute, diluted, strain, "
        "strained, shaker, stirring, shaking, blended, built"
    ),
    words="on ice, over ice, ice, dilution, water picked up, strain, strained, dilute, water down, watered down",
    asked="water, final_abv, final_volume, dilution",
    conventions=[OF_BEFORE, ADD],
    examples=[("stirred, 90 ml at 30% abv, how much water is picked up?", "36.9 ml"),
              ("I shake 105 ml at 25.7 % ABV, what is the strength in the glass?", "16.6 percent")],
    source="dilution curves; common practice, no source")

BATCH = Calculator(
    "prediluted_batch", "Water for a batch, as stirring or shaking would add it",
    include(DILUTION),
    var("serves", "count", "serves, servings, drinks, guests, people, portions, cocktails, sours, martinis, glasses, "
        "bottles", bounds=(0, None)),
    var("serve", "milliliter", "serve, drink, each, apiece, per drink", role="each"),
    var("volume", "milliliter", "undiluted", hidden=True),
    var("water", "milliliter", "water, dilution water", role="add", shy=True),
    var("final_volume", "milliliter", "final volume, finished batch, batch, in all, come to, liquid, "
        "after the shaking, after the stirring, out of the shaker", role="to", shy=True),
    equations=["volume = serves * serve"],
    only=(
        "stir, shake, stirred, shaken, shook, shkn, pre-dilute, predilute, prediluted, pre-diluted, stirring, "
        "shaking, dilute, diluted, dilution, freezer, pre-batch"
    ),
    words="batch, pre-dilute, predilute, bottled, bottle, stirring would, shaking would, water already in, "
        "add the water, freezer, pre-batch, serves",
    asked="water, final_volume, final_abv",
    method=["Add {water} of water to {volume} of undiluted mix: {final_volume} in all; chill before serving."],
    examples=[("40 serves of 90 ml at 28 % ABV, add the water that stirring would: how much water?", "1436 ml")],
    source="dilution curves; common practice, no source")

SPEC = Calculator(
    "diluted_spec", "Water that stirring or shaking adds to a drink of several ingredients",
    include(DILUTION),
    var("serves", "count", "serves, servings, drinks, guests, people, portions, cocktails, sours, martinis, glasses, "
        "bottles", default=1,
        note="one serve", bounds=(0, None)),
    var("serve", "milliliter", "one drink", hidden=True),
    var("serve_ethanol", "milliliter", "ethanol", hidden=True),
    var("volume", "milliliter", "undiluted", hidden=True),
    var("abv", "abv", "undiluted, before ice, before the ice, before stirring, before shaking, abv before ice, "
        "abv before the ice, abv before stirring, abv before shaking, strength before ice", role="from", shy=True,
        bounds=(0, 100)),
    var("final_abv", "abv", "abv, strength, alcohol, proof, in the glass, afterwards, diluted, final strength, "
        "after stirring, after shaking", role="to", bounds=(0, 100)),
    equations=["volume = serves * serve", "serve_ethanol = abv * serve"],
    lines=Lines({"serve": "volume", "serve_ethanol": "volume * abv"}, columns={"abv": "abv"}, fills={"abv": "abv"},
                holds=HOLDS, needs=("abv",), minimum=2),
    only="stir, shake, stirred, shaken, shook, shkn, stirring, shaking, dilution, pre-dilute, predilute, prediluted, "
        "freezer, pre-batch",
    words="ice, stir, shake, how strong, strength, abv, abv in the glass, final abv, how much water, pre-dilute, "
        "bottled, batch, serves, stirring would, shaking would, strain",
    asked="water, final_abv, final_volume",
    method=["Undiluted it is {volume} at {abv}; {water} of water makes it {final_volume} at {final_abv}."],
    examples=[("50 ml gin at 47 % and 25 ml vermouth at 16 %, stirred: abv in the glass?", "25.5 percent")],
    source="dilution curves; common practice, no source")

MEASURED = Calculator(
    "measured_dilution", "Dilution from volumes, or water by measure",
    var("volume", "milliliter", "drink, batch, mix, undiluted, undiluted mix, undiluted build, before, "
        "before the water, before water, "
        "before the ice, went in, going in, had gone in, in the shaker, in shaker, in the mixing glass, "
        "went into the shaker, went into the mixing glass, cocktail, build, amounts to", role="from"),
    var("final_volume", "milliliter", "coming out, came out, come out, comes out, leaves, out at, out, after, "
        "straining, strained, after straining, keg, finished, final volume, filled, in the glass, becomes, end up, "
        "end up with, fill, come to, got then, bottle, jar, brim, glass, coupe, finished bottle", role="to"),
    var("water", "milliliter", "water, measured water", role="add"),
    var("dilution", "percent", "dilution, dil, diluted by, of what went in, of its volume, its volume, "
        "of its own volume, its own volume, of its vol, its vol, of this volume, of that volume, of the batch, "
        "of the mix, of the initial volume, of the undiluted drink, on the mix, on the batch, on the drink, "
        "water was added, on what went in", bounds=(0, None)),
    var("share", "percent", "share, " + OF_AFTER, bounds=(0, 100)),
    var("abv", "abv", "undiluted, alcohol, before the ice, before ice, mixed to, mix at, starting strength, "
        "initial strength, initial, original, mix, strength before, mix before, "
        "undiluted strength", role="from", bounds=(0, 100)),
    var("final_abv", "abv", "abv, strength, alcohol, drinks, in the glass, off the ice, diluted strength, "
        "leaves the glass at, leaves the mixing glass at, leaves the shaker at, pours at, pour at, pour it at, "
        "when poured, served with, serve it at, after the ice, off the ice, in the glass, becomes, proof", role="to",
        bounds=(0, 100)),
    equations=["water = dilution * volume", "final_volume = volume + water", "water = share * final_volume",
               "abv * volume = final_abv * final_volume"],
    limits=[limit("final_abv <= abv", "refuse",
                  "Adding water cannot raise the strength from {abv} to {final_abv}."),
            limit("final_volume >= volume", "refuse",
                  "Dilution adds water: {final_volume} after is less than {volume} before.")],
    only="water, ice, dilution, dil, dilute, diluted, pre-dilute, predilute, prediluted, shaker, thinned, "
        "mixing glass, had gone in, went in",
    words="dilution, dilute, diluted, pre-dilute, water, measured water, going into the shaker, coming out, batch, "
        "freezer, percentage of what went in, gets water, milk, infusion, added liquid",
    asked="water, final_abv, dilution, final_volume",
    conventions=[OF_BEFORE, ADD],
    examples=[("batch of 3 l at 22 % dilution, how much water?", "660 ml"),
              ("120 ml going into the shaker and 172 ml coming out, dilution in percent?", "43.3 percent")],
    source="volume and ethanol balance")

MELT = Calculator(
    "ice_melt", "The ice that melts to chill a drink",
    choice("liquid", WATER, fills={"abv": "strength"}, words="liquid"),
    var("volume", "milliliter", "drink, cocktail, mix, spirit, volume, plain water, tap water"),
    var("abv", "abv", "abv, strength, drink", bounds=(0, 69)),
    var("warm", "degree_Celsius", "drink, room temperature, starts at, from, before", role="from", bounds=(-15, 60)),
    var("cold", "degree_Celsius", "to, down to, chilled, end, equilibrium, final temperature", role="to",
        bounds=(-15, 60)),
    var("ice_temperature", "degree_Celsius", "ice, ice at, ice temperature", bounds=(-40, 0), default=0,
        note="wet ice at 0 °C"),
    var("melted", "gram", "ice, ice melted, melted ice", state="dry"),
    var("water", "milliliter", "water, dilution water, melt water", role="add", shy=True),
    var("dilution", "percent", "dilution", bounds=(0, None)),
    equations=["spirit_density(abv) * volume * given_up(abv, warm, cold) = melted * taken_up(ice_temperature, cold)",
               "melted = water_density * water", "water = dilution * volume"],
    limits=[limit("cold <= warm", "refuse", "Ice cannot warm a drink from {warm} to {cold}."),
            limit("cold >= freezing", "caution",
                  "A drink on ice seldom gets below -7 °C: it is then near its own freezing point.")],
    functions=[DENSITY, GIVEN_UP, TAKEN_UP],
    constants={"water_density": (0.9982012, "gram / milliliter"), "freezing": (-7, "degree_Celsius")},
    only="melt, melts, melted, melting, heat balance, equilibrium, chill, chilled, cool, cold",
    words="melt, melts, heat balance, chill, chilled, cool, how cold, ice melted, equilibrium",
    asked="melted, cold, water, dilution",
    conventions=["no heat from the room, the tin or the glass; no water clinging to the ice"],
    examples=[("how much ice melts to chill 100 ml of a 30 % ABV drink from 20 °C to 0 °C?", "24.77 gram")],
    source="heat balance: latent heat of ice, specific heats of water and of ethanol with water")

WATER_MELT = Calculator(
    "ice_melt_in_water", "The ice that melts to chill water",
    var("volume", "milliliter", "water, plain water, tap water, chill, cool", things="water"),
    var("warm", "degree_Celsius", "room temperature, starts at, from, before, tap", role="from", bounds=(-15, 60)),
    var("cold", "degree_Celsius", "to, down to, chilled, end, equilibrium, final temperature", role="to",
        bounds=(0, 60)),
    var("ice_temperature", "degree_Celsius", "ice, ice at, ice temperature, ice already at", bounds=(-40, 0), default=0,
        note="wet ice at 0 °C"),
    var("melted", "gram", "ice, ice melted, melted ice, ice melt", state="dry"),
    equations=["water_density * volume * given_up(none, warm, cold) = melted * taken_up(ice_temperature, cold)"],
    limits=[limit("cold <= warm", "refuse", "Ice cannot warm water from {warm} to {cold}.")],
    functions=[GIVEN_UP, TAKEN_UP],
    constants={"water_density": (0.9982012, "gram / milliliter"), "none": (0, "percent_vv")},
    only="water",
    also="melt, melts, melted, melting, ice",
    words="melt, melts, chill, chilled, cool, ice melted, plain water",
    asked="melted, volume",
    conventions=["no heat from the room or the vessel; no water clinging to the ice"],
    examples=[("how much ice melts to chill 1 litre of plain water from 20 °C to 0 °C?", "250.5 gram")],
    source="heat balance: latent heat of ice, specific heat of water")

POURS = Calculator(
    "prediluted_pours", "Pours from a mix with the water that stirring or shaking would add",
    include(DILUTION),
    var("pour", "milliliter", "pour, pours, serve, glass, each, a drink, per drink, measure", role="each"),
    var("pours", "count", "pour, serve, drink, glass, guest, whole one, full one, cocktail", whole="down"),
    equations=["final_volume = pours * pour"],
    only="pre-dilute, predilute, prediluted, pre-diluted, stirring would, shaking would",
    also="pour, pours, serve, serves, glass, drink, guest, portion",
    words="pre-dilute, predilute, prediluted, pre-diluted, pour, pours, stirring would, shaking would, freezer",
    asked="pours",
    method=["{volume} with {water} of water is {final_volume}: {pours} pours of {pour}."],
    conventions=[OF_BEFORE, ADD],
    examples=[("3 l undiluted at 30 %, prediluted as stirred: how many pours of 100 ml?", "42 count")],
    source="dilution curves; common practice, no source")

CALCULATORS = (DILUTION, BATCH, SPEC, POURS, MEASURED, MELT, WATER_MELT)
