"""Strength: the ABV of a mix, proofing a spirit down, fortifying, and the strength by weight.

ABV is millilitres of ethanol in 100 ml at 20 °C. Spirit and water shrink as they mix, so proofing goes by
mass through the OIML densities. A mix with anything else in it (juice, sugar, wine, several
spirits) has no such table: there volumes are added, which is within a percent of the truth.
"""

from __future__ import annotations

from stillroom import Calculator, Function, Lines, include, limit, var

from .physics import ethanol
from .things import HOLDS

ABV_FULL = (0, 100)
ADD = "volumes add: no table covers spirit with juice, sugar or wine, and the error is small"
CONTRACTS = "spirit and water shrink on mixing, counted through the OIML densities at 20 °C"
FIRE = ("Strong spirit gives off vapour that burns (above about 50 % ABV at room temperature): no flame, no heat, "
        "air the room.")
LABEL = "A printed strength has a legal tolerance: check with the authority before you label bottles for sale."

DENSITY = Function("spirit_density", lambda abv: ethanol.density_by_abv(abv / 100), ("percent_vv",),
                   "gram / milliliter", (0.0, 100.0), ethanol.SOURCE)
DENSITY_AT = Function("spirit_density_at", lambda t, abv: ethanol.density_by_abv(abv / 100, t),
                      ("degree_Celsius", "percent_vv"), "gram / milliliter", (0.0, 100.0), ethanol.SOURCE)
BY_WEIGHT = Function("by_weight_of", lambda abv: 100 * ethanol.mass_fraction(abv / 100), ("percent_vv",),
                     "percent_ww", (0.0, 100.0), ethanol.SOURCE)
FREEZES = Function("freezes_at", lambda abv: ethanol.freezing_point(abv / 100), ("percent_vv",),
                   "degree_Celsius", (0.0, 100.0), ethanol.FREEZING_SOURCE)
WATER = {"water_density": (0.9982012, "gram / milliliter")}

MIX = Calculator(
    "mix_strength", "The strength of a mix",
    var("volume", "milliliter", "drink", hidden=True),
    var("ethanol", "milliliter", "pure alcohol, ethanol", shy=True),
    var("abv", "abv", "abv, strength, proof, alcohol, alc, % vol, how strong, per cent alcohol, degree, "
        "come out at, comes out at",
        bounds=ABV_FULL, things="spirit, wine, liqueur, beer, bitters, juice, syrup, mixer"),
    equations=["ethanol = abv * volume"],
    lines=Lines({"volume": "volume", "ethanol": "volume * abv"}, columns={"abv": "abv"}, fills={"abv": "abv"},
                holds=HOLDS, needs=("abv",), minimum=2),
    only="abv, strength, strong, proof, alcohol, alcoholic, alc, percent, degree, % vol, a b v, come out at, "
         "comes out at, limoncello, ethanol, pure alcohol",
    words="strength, abv, how strong, build, cocktail, drink, undiluted, before ice, before shaking, "
        "before stirring, proof, "
          "spritz, punch, bowl",
    asked="abv, ethanol", conventions=[ADD],
    examples=[("60 ml gin at 45%, 25 ml lemon juice and 20 ml syrup, abv before ice?", "25.7 percent")],
    source="ethanol balance by volume")

SPIRIT_IN = Calculator(
    "spirit_in_drink", "How much spirit a drink needs for its strength",
    var("spirit", "milliliter", "spirit, vodka, rum, gin, tequila, whisky", things="spirit,wine,liqueur"),
    var("spirit_abv", "abv", "spirit, proof, abv, the spirit is", role="from", bounds=ABV_FULL, things="spirit"),
    var("mixer", "milliliter", "mixer, rest, juice, syrup, soda, without alcohol, coconut water",
        things="juice,syrup,mixer,water"),
    var("volume", "milliliter", "drink, punch, serve, glass, batch, total, highball, cocktail, long drink, pitcher, "
        "jug, bowl", role="need"),
    var("abv", "abv", "drink, abv, strength, come to, land on, should have, degree", role="to", bounds=ABV_FULL),
    equations=["volume = spirit + mixer", "spirit_abv * spirit = abv * volume"],
    limits=[limit("abv <= spirit_abv", "refuse",
                  "A drink cannot be stronger than its spirit: {spirit_abv} cannot make {abv}."),
            limit("spirit <= volume", "doubt", "The spirit, {spirit}, would be more than the whole drink.")],
    only="drink, punch, serve, highball, glass, mixer, juice, cocktail, liqueur, syrup, tonic, soda, pitcher, bowl",
    also="abv, proof, %, percent, per cent, pct, strength, strong, alcohol, vol",
    words="spirit, how much spirit, drink, come to, land on, punch, serve, highball, liqueur, juice, out of",
    asked="spirit, abv, mixer", conventions=[ADD],
    examples=[("how many fl oz of a 100-proof spirit must go in a 6 oz drink for it to land on 18 % ABV?",
               "2.16 fluid_ounce")],
    source="ethanol balance by volume")

PROOF_DOWN = Calculator(
    "proof_down", "Water to bring a spirit down to a strength",
    var("spirit", "milliliter", "spirit, start, overproof, neutral spirit, neutral, base, base spirit, alcohol, "
        "ethanol", role="from", things="spirit", state="liquid"),
    var("abv_from", "abv", "spirit, strength, starting strength, original strength, original, initial strength, "
        "overproof, abv, proof", role="from", bounds=ABV_FULL, things="spirit"),
    var("abv_to", "abv", "target, strength, abv, proof, ends at", role="to", bounds=(0.01, 100)),
    var("final_volume", "milliliter", "final, final volume, finished, end up, yield, in all, in total, altogether, "
        "got in total, liquid, at the end, carafe, decanter, pitcher, jug", role="need", state="liquid"),
    var("water", "milliliter", "water", role="add", state="liquid"),
    equations=["spirit_density(abv_to) * final_volume = spirit_density(abv_from) * spirit + water_density * water",
               "abv_to * final_volume = abv_from * spirit"],
    limits=[limit("abv_to <= abv_from", "refuse",
                  "Water only lowers a strength: it cannot raise {abv_from} to {abv_to}. It takes a stronger spirit."),
            limit("abv_from <= 0.55", "caution", FIRE)],
    functions=[DENSITY], constants=WATER,
    only=(
        "spirit, abv, proof, vol, alcohol, ethanol, overproof, neutral, liquor, distillate, eau-de-vie, "
        "vodka, gin, rum, "
        "whisky, whiskey, bourbon, brandy, tequila, mezcal, cask, barrel, by volume, water, "
        "let down, letting down, proof down, bring down, cut, dilute, reduce"
    ),
    words="proof down, proofing, proof, reduce, reduced, cut, bring down, let down, dilute, down to, "
          "starting from, let it down, letting down, spirit and water, neutral spirit, high proof",
    asked="water, spirit, abv_to, final_volume",
    method=["Add {water} of water at 20 °C to {spirit} of spirit, in small steps, and let it rest.",
            "Measure again when it has cooled to 20 °C: mixing warms it."],
    conventions=[CONTRACTS], cautions=[LABEL],
    examples=[("proof down 500 ml of 60% rum to 40%, how much water?", "256.9 ml"),
              ("I need 2 litres at 35 % from 96 % neutral spirit, how much spirit?", "729.2 ml")],
    source="mass and ethanol balance")

BOTTLED = Calculator(
    "proof_down_bottled", "Bottles that a spirit fills once it is brought down to a strength",
    include(PROOF_DOWN),
    var("bottle", "milliliter", "bottle, bottle size, flask, each bottle", role="into", state="liquid"),
    var("bottles", "count", "bottle, full bottle, flask", whole="down"),
    equations=["final_volume = bottles * bottle"],
    only="bottle, bottles, flask, fill, fills, bottled",
    also="bottles, flasks",
    words="bottles, full bottles, fill, bottled, proof down, bring down, water, reduce, cask",
    asked="bottles, water, spirit",
    method=["Add {water} of water at 20 °C to {spirit} of spirit: {final_volume} fills {bottles} bottles of {bottle}."],
    conventions=[CONTRACTS], cautions=[LABEL],
    examples=[("20 l of spirit at 60 % brought down to 40 % with water, how many full 70 cl bottles does it fill?",
               "42 count")],
    source="mass and ethanol balance")

BY_SCALE = Calculator(
    "proof_down_by_weight", "Water to bring a spirit down, everything weighed",
    var("spirit", "gram", "spirit, start, neutral spirit, alcohol, ethanol", role="from", things="spirit",
        state="liquid"),
    var("abv_from", "abv", "spirit, strength, starting strength, abv, proof", role="from", bounds=ABV_FULL,
        things="spirit"),
    var("abv_to", "abv", "target, strength, abv, proof", role="to", bounds=(0.01, 100)),
    var("final_mass", "gram", "finished, end up, in all", role="need", state="liquid"),
    var("water", "gram", "water, mass of water", role="add", state="liquid"),
    equations=["final_mass = spirit + water", "by_weight_of(abv_to) * final_mass = by_weight_of(abv_from) * spirit"],
    limits=[limit("abv_to <= abv_from", "refuse",
                  "Water only lowers a strength: it cannot raise {abv_from} to {abv_to}. It takes a stronger spirit."),
            limit("abv_from <= 0.55", "caution", FIRE)],
    functions=[BY_WEIGHT],
    only=(
        "spirit, abv, proof, vol, alcohol, ethanol, overproof, neutral, liquor, distillate, eau-de-vie, "
        "vodka, gin, rum, "
        "whisky, whiskey, bourbon, brandy, tequila, mezcal, cask, barrel, by volume"
    ),
    words="weigh out, weigh-out, by weight, weigh, scale, reduce, reduced, proof down, bring down",
    asked="water, spirit, abv_to, final_mass",
    method=["Weigh {water} of water into {spirit} of spirit, in small steps, and let it rest."],
    conventions=["masses add: weighing needs no contraction"], cautions=[LABEL],
    examples=[("5 kg of neutral spirit at 96 % ABV reduced to 40 % ABV, mass of water in kg?", "9.09 kilogram")],
    source="mass balance of ethanol")

FORTIFY = Calculator(
    "fortify", "Two drinks of different strength into one",
    var("first", "milliliter", "first, base, wine, liqueur, weaker, drink", things="any"),
    var("first_abv", "abv", "first, base, wine, liqueur, weaker, drink", bounds=ABV_FULL, role="from", things="any"),
    var("second", "milliliter", "second, spirit, stronger, fortifying spirit, add", things="spirit", role="add"),
    var("second_abv", "abv", "second, spirit, stronger, fortifying spirit", bounds=ABV_FULL, things="spirit"),
    var("volume", "milliliter", "total, mix, blend, together, final volume, lot"),
    var("abv", "abv", "total, mix, blend, result, target, to, lot, whole, finished", bounds=ABV_FULL, role="to"),
    equations=["volume = first + second", "abv * volume = first_abv * first + second_abv * second"],
    limits=[limit("abv <= max(first_abv, second_abv)", "refuse",
                  "A mix is no stronger than its stronger part: {abv} cannot be reached."),
            limit("abv >= min(first_abv, second_abv)", "refuse",
                  "A mix is no weaker than its weaker part: {abv} cannot be reached.")],
    only=(
        "fortify, fortified, fortifying, stronger, raise, blend, boost, mix, overproof, strengthen, "
        "combine, lift, lifts, bring up, bring it"
    ),
    words="fortify, fortified, fortifying, blend, boost, raise the strength, stronger spirit, mix two, strengthen, "
          "lift, lifts, bring up, brings it up, volumes may be added",
    asked="second, abv, volume", conventions=[ADD],
    examples=[("1 l of wine at 12 % fortified to 18 % with spirit at 60 %, how much spirit?", "142.9 ml")],
    source="ethanol balance by volume")

SCALES = Calculator(
    "strength_scales", "A strength by volume, by weight and in proof",
    var("abv", "abv", "abv, by volume, % vol, vol, per cent", bounds=ABV_FULL),
    var("proof", "proof", "proof, us proof, degree proof", bounds=(0, 200)),
    var("by_weight", "percent_ww", "by weight, by mass, mass fraction, weight percent, percent of weight, "
        "per cent by mass, percent by mass, "
        "in percent of weight, w/w, ethanol mass fraction",
        bounds=(0, 100)),
    var("density", "gram / milliliter", "density, specific gravity"),
    var("temperature", "degree_Celsius", "temperature", bounds=(-20, 40), default=20, note="densities are at 20 °C",
        shy=True),
    equations=["proof = abv", "by_weight = by_weight_of(abv)", "density = spirit_density_at(temperature, abv)"],
    limits=[limit("abv <= 1", "refuse", "No spirit is over 100 % ABV, which is 200 proof."),
            limit("proof <= 1", "refuse", "No spirit is over 200 proof, which is 100 % ABV.")],
    functions=[BY_WEIGHT, DENSITY_AT],
    words="proof, convert, by weight, by volume, alcohol by weight, mass fraction, spirit, label, in proof, % vol",
    asked="abv, by_weight, proof",
    conventions=["US proof is twice the ABV; ABV is at 20 °C, ethanol and water only"],
    examples=[("ethanol mass fraction of a spirit at 45 % ABV?", "37.8 percent")],
    source="27 CFR 5.1 for proof")

HYDROMETER = Calculator(
    "hydrometer", "The strength of a spirit measured away from 20 °C",
    var("reading", "abv", "reading, hydrometer, alcoholmeter, alcoholometer, shows, reads, apparent", role="from",
        bounds=ABV_FULL),
    var("temperature", "degree_Celsius", "temperature, spirit, at", bounds=(-20, 40)),
    var("abv", "abv", "true strength, true abv, abv, real strength, real abv, actual strength, actual abv, at 20",
        role="to", bounds=ABV_FULL),
    var("density", "gram / milliliter", "density at that temperature, density", bounds=(0, 2)),
    equations=["density = spirit_density(reading)", "density = spirit_density_at(temperature, abv)"],
    functions=[DENSITY, DENSITY_AT],
    only="hydrometer, alcoholmeter, alcoholometer, true strength, true abv, real strength, real abv, actual strength, "
        "actual abv, alcolmeter",
    words="hydrometer, alcoholmeter, alcoholometer, true strength, real strength, actual strength, warm spirit, "
        "cold spirit",
    asked="abv, density",
    conventions=["an alcoholmeter for 20 °C in ethanol and water only; the glass's own expansion is left out"],
    limits=[limit("abv <= 1", "refuse", "No spirit is over 100 % ABV.")],
    cautions=["Sugar makes an alcoholmeter read low: it says nothing of a liqueur."],
    examples=[("my alcoholmeter reads 42 % in spirit at 28 °C, what is the true strength?", "38.7 percent")],
    source="density balance")

FREEZING = Calculator(
    "spirit_freezing", "The temperature at which a spirit begins to freeze",
    var("abv", "abv", "abv, spirit, strength, proof", bounds=ABV_FULL, things="spirit"),
    var("freezing_point", "degree_Celsius", "freezing point, freeze, freezes, freezing, begins to freeze, "
        "start freezing, starts freezing, "
        "temperature, ice", bounds=(-120, 5)),
    var("freezer", "degree_Celsius", "freezer, freezer temperature, at", bounds=(-40, 10), default=-18,
        note="a freezer runs at about -18 °C; common practice, no source"),
    var("margin", "kelvin", "margin, room, difference", bounds=(None, None)),
    equations=["freezing_point = freezes_at(abv)", "margin = freezer - freezing_point"],
    limits=[limit("freezer >= freezing_point", "caution",
                  "At {freezer} it will begin to freeze: glass can burst as ice forms.")],
    functions=[FREEZES],
    only="freeze, freezes, freezing, freezer, frozen, slush, slushy, freezing point",
    also="spirit, spirits, abv, %, percent, per cent, proof, alcohol, vodka, gin, rum, whisky, whiskey, tequila, "
        "liqueur, "
         "cocktail, drink, batch, mix, punch, martini, vermouth, wine",
    words="freeze, freezes, freezer, freezing point, frozen, slushy, will it freeze, ice",
    asked="freezing_point, abv, margin",
    conventions=["ethanol and water only; sugar lowers it a little further"],
    cautions=["The table is in whole degrees at every 10 % ABV."],
    examples=[("freezing point of a spirit at 40 % ABV?", "-23.1 degree_Celsius")],
    source="freezing points of ethanol and water")

LIQUEUR = Calculator(
    "liqueur", "A liqueur from spirit, sugar and water",
    var("spirit", "milliliter", "spirit, vodka, neutral spirit, infusion, brandy", things="spirit"),
    var("spirit_abv", "abv", "spirit, infusion", role="from", bounds=ABV_FULL, things="spirit"),
    var("sugar", "gram", "sugar, white sugar", state="dry"),
    var("water", "milliliter", "water"),
    var("volume", "milliliter", "finished, bottle", role="need"),
    var("abv", "abv", "liqueur, strength, target", role="to", bounds=ABV_FULL),
    var("sugar_content", "gram / liter", "sugar per litre, sweetness, sugar content, grams per litre"),
    equations=["volume = spirit + water + bulk * sugar", "abv * volume = spirit_abv * spirit",
               "sugar = sugar_content * volume"],
    limits=[limit("abv <= spirit_abv", "refuse",
                  "A liqueur cannot be stronger than its spirit: {spirit_abv} cannot make {abv}.")],
    constants={"bulk": (0.623, "milliliter / gram")},
    only="liqueur, limoncello, cordial, ratafia",
    words="liqueur, make a liqueur, sweeten, limoncello, cordial, spirit and sugar, liqueur strength",
    asked="abv, sugar, water, volume, spirit",
    method=["Dissolve {sugar} of sugar in {water} of water, cool, and stir into {spirit} of spirit."],
    conventions=["dissolved sugar takes 0.623 ml a gram (from the ICUMSA density at 50 °Bx)",
                 "no table covers spirit with sugar: volumes add, and the shrinking of spirit with water is left out"],
    cautions=["The strength of a liqueur is an estimate: only distillation measures it.", LABEL],
    examples=[("500 ml of spirit at 60 %, 200 g of sugar and 375 ml of water, how strong is the liqueur?",
               "30.0 percent")],
    source="ethanol balance by volume; ICUMSA SPS-4 for the bulk of sugar")

CALCULATORS = (MIX, SPIRIT_IN, PROOF_DOWN, BOTTLED, BY_SCALE, FORTIFY, SCALES, HYDROMETER, FREEZING, LIQUEUR)
