"""Carbonation: volumes of CO2, the pressure that holds them, and the gas that it takes.

One volume is a litre of CO2 at 0 °C and 1 atm in a litre of drink, 1.977 g/l. Pressures are gauge, at
sea level, at equilibrium, in plain water: sugar and alcohol shift the solubility.
"""

from __future__ import annotations

from stillroom import Calculator, Function, Lines, choice, include, limit, var

from .physics import co2

VOLUMES = "volumes are CO2 at 0 °C and 1 atm per volume of drink, 1.977 g/l each"
WATER_ONLY = "Solubility is that of plain water: sugar and alcohol shift it, so set by taste from here."
PRESSURE = ("Gas under pressure: only a vessel that its maker rates for the pressure, with a relief valve and a "
            "regulator; let the gas out before opening.")
OVER = ("{pressure} is more than many fittings and bottles for drinks are rated for: check the maker's maximum "
        "pressure of every part.")
JAR = ("A jar, a carafe or a bottle that was not made for pressure can burst: gas under pressure belongs in a keg, "
       "a siphon or a bottle that its maker rates for it.")
GLASS = ("Glass under pressure can burst: only bottles made for carbonated drinks, without chips, filled cold, "
         "eyes and hands protected.")
DENSITY = {"co2_density": (co2.GRAMS_PER_VOLUME, "gram / liter")}

VESSELS = [
    {"id": "keg", "words": "keg, corny keg, cornelius keg, soda keg", "source": "common practice, no source"},
    {"id": "pet", "words": "pet bottle, plastic soda bottle, soda bottle", "caution":
     "Only a PET bottle made for carbonated drinks holds the pressure, cold and undamaged.",
     "source": "common practice, no source"},
    {"id": "glass", "words": "glass bottle, swing top, swing-top bottle, crown cap bottle, champagne bottle",
     "caution": GLASS, "source": "common practice, no source"},
    {"id": "jar", "words": "jam jar, mason jar, kilner jar, glass jar, jar, carafe, wine bottle, spirit bottle, "
     "decanter, milk bottle, mixing glass", "refuse": JAR, "source": "common practice, no source"},
]

HELD = Function("volumes_per_atm", co2.volumes_per_atm, ("degree_Celsius",), "co2_volume",
                (co2.LOWEST, co2.HIGHEST), co2.SOURCE)

PRESSURE_OF = Calculator(
    "carbonation", "The pressure for a carbonation, or the carbonation at a pressure",
    choice("vessel", VESSELS, words="vessel"),
    var("volumes", "co2_volume", "volumes, vols, vol, carbonation, fizz, volumes of co2, co2", bounds=(0, 20)),
    var("content", "gram / liter", "co2 content, grams per litre, g/l, co2", bounds=(0, 40)),
    var("temperature", "degree_Celsius", "temperature, water, cold, keg, walk-in, held at", bounds=(-1, 40)),
    var("pressure", "bar", "pressure, gauge pressure, gauge, regulator, manometer, psi, bar", bounds=(-1.01325, 60)),
    equations=["content = co2_density * volumes",
               "volumes * atmosphere = volumes_per_atm(temperature) * (pressure + atmosphere)"],
    limits=[limit("pressure >= 0", "caution",
                  "Below the air's own pressure: no gauge pressure is needed, and the drink slowly goes flat."),
            limit("pressure <= high", "caution", OVER)],
    functions=[HELD],
    constants={**DENSITY, "atmosphere": (1, "atmosphere"), "high": (4, "bar")},
    only=(
        "co2, volumes, volume, vol, vols, carbonate, carbonation, carbonated, fizz, fizzy, soda, tonic, "
        "sparkling, gas, psi, bar, gauge, regulator, charger, cartridge, bulb, seltzer"
    ),
    words="carbonate, carbonation, pressure, gauge, equilibrium, fizz, fizzy, sparkling, soda, regulator, keg, co2, "
          "psi, volumes, g/l",
    asked="pressure, volumes, content",
    cautions=[PRESSURE, WATER_ONLY], conventions=[VOLUMES, "gauge pressure at sea level, at equilibrium"],
    examples=[("plain water at 2 °C, what gauge pressure in bar gives 3.5 volumes?", "1.207 bar"),
              ("3.5 volumes of CO2 is how many g per litre?", "6.92 gram / liter")],
    source="Henry's law; CO2 density at 0 °C and 1 atm")

KEG = Calculator(
    "keg_gas", "The CO2 to force-carbonate a keg or a run of bottles",
    choice("vessel", VESSELS, words="vessel"),
    var("liquid", "milliliter", "keg, liquid, drink, water, tonic, bottles, batch, volume, highball, cocktail, "
        "mix", things="drink"),
    var("volumes", "co2_volume", "volumes, vols, vol, carbonation, fizz", bounds=(0, 20)),
    var("content", "gram / liter", "co2 content, grams per litre, g/l", bounds=(0, 40)),
    var("dissolved", "gram", "dissolved gas, dissolved co2, gas in the drink, dissolved"),
    var("lost", "percent", "lost, gas lost, loss, wasted, vented, vented away, escapes, escaped, blown off, goes off, "
        "hisses away", role="lost", bounds=(0, 99), default=0,
        note="no gas lost"),
    var("gas", "gram", "co2, gas, co2 demand, carbon dioxide, gas needed"),
    equations=["content = co2_density * volumes", "dissolved = content * liquid", "dissolved = gas - lost * gas"],
    constants=DENSITY,
    only=(
        "co2, volumes, volume, vol, vols, carbonate, carbonation, carbonated, fizz, fizzy, soda, tonic, "
        "sparkling, gas, psi, bar, gauge, regulator, charger, cartridge, bulb, seltzer"
    ),
    words="keg, force carbonate, co2, gas, bottles, demand, dissolved, carbonate, how much co2, cylinder, "
          "lost in filling",
    asked="gas, dissolved, volumes",
    cautions=[PRESSURE], conventions=[VOLUMES],
    examples=[("250 bottles of 330 ml at 4 volumes, 12 % of the gas lost in filling, how much CO2 in kg?",
               "0.741 kilogram")],
    source="mass balance; CO2 density at 0 °C and 1 atm")

CHARGERS = Calculator(
    "co2_chargers", "CO2 chargers for a volume of drink",
    include(KEG),
    var("charger", "gram", "charger, cartridge, bulb, capsule, each, hold, co2 charger, co2 cartridge, co2 bulb, "
        "co2 capsule", role="each", default=8, keeps=True,
        note="8 g a charger; common practice, no source"),
    var("chargers", "count", "chargers, cartridges, bulbs, capsules", whole="up", things="charger,cartridge"),
    equations=["gas = charger * chargers"],
    only="charger, chargers, cartridge, cartridges, bulb, bulbs, capsule, capsules, sparklet",
    words="chargers, cartridges, co2 chargers, bulbs, 8 g, rounded up",
    asked="chargers, volumes, gas",
    cautions=["Never more chargers than the maker of the vessel allows; most of a charger's gas may stay in the "
              "headspace or be lost in venting."],
    examples=[("cartridges hold 8 g of CO2 each, how many for 2 l at 4 volumes if none escapes?", "2 count")],
    source="mass balance; CO2 density at 0 °C and 1 atm")

CYLINDER = Calculator(
    "kegs_from_cylinder", "Kegs, bottles or litres that a cylinder of CO2 is good for",
    var("cylinder", "gram", "cylinder, gas bottle, bottle of co2, co2, tank, gas", role="have"),
    var("each", "milliliter", "keg, bottle, vessel, each keg", role="each"),
    var("volumes", "co2_volume", "volumes, vols, vol, carbonation", bounds=(0, 20)),
    var("content", "gram / liter", "co2 content, grams per litre, g/l, for each litre, for each liter, per litre",
        bounds=(0, 40)),
    var("per_keg", "gram", "gas of one keg", hidden=True),
    var("liquid", "liter", "water, sparkling water, litre, liter, on water", role="to"),
    var("kegs", "count", "keg, bottle, vessel, full keg, whole keg, good for", whole="down"),
    equations=["content = co2_density * volumes", "per_keg = content * each", "cylinder = kegs * per_keg",
               "cylinder = content * liquid"],
    constants=DENSITY,
    only="cylinder, gas bottle, bottle of co2, co2 bottle, tank of co2",
    words="cylinder, gas bottle, how many kegs, good for, last, co2, volumes, dissolves",
    asked="kegs, liquid, cylinder",
    method=["A keg of {each} at {volumes} takes {per_keg} of CO2: {cylinder} is good for {kegs}."],
    cautions=[PRESSURE, "Headspace, lines and purging take gas as well: a cylinder gives less than this."],
    conventions=[VOLUMES],
    examples=[("a cylinder with 6 kg of CO2, each 20 l keg gets 2.5 volumes: how many whole kegs is it good for?",
               "60 count")],
    source="mass balance; CO2 density at 0 °C and 1 atm")

KEGS = Calculator(
    "gas_for_kegs", "The CO2 dissolved in several kegs",
    choice("vessel", VESSELS, words="vessel"),
    var("kegs", "count", "keg, vessel, tank, outlet", whole="up"),
    var("each", "milliliter", "keg, vessel, each keg, one keg", role="each"),
    var("volumes", "co2_volume", "volumes, vols, vol, carbonation, fizz", bounds=(0, 20)),
    var("content", "gram / liter", "co2 content, grams per litre, g/l", bounds=(0, 40)),
    var("gas", "gram", "co2, gas, dissolved, carbon dioxide, gas needed", role="need"),
    equations=["content = co2_density * volumes", "gas = kegs * each * content"],
    constants=DENSITY,
    only="kegs, vessels, tanks",
    also="kegs together, each keg, kegs in all, kegs of, litre kegs, l kegs, liter kegs",
    words="kegs, together, in all, co2, gas, dissolved, volumes",
    asked="gas, kegs",
    method=["{kegs} kegs of {each} at {volumes} hold {gas} of CO2."],
    cautions=[PRESSURE], conventions=[VOLUMES, "no gas is lost"],
    examples=[("four 20 l kegs at 2.5 volumes, how many grams of CO2 are dissolved in the kegs together?",
               "395.4 gram")],
    source="mass balance; CO2 density at 0 °C and 1 atm")

HELD_IN_KEG = Calculator(
    "keg_at_pressure", "The CO2 that a keg holds at a pressure and a temperature",
    include(PRESSURE_OF),
    var("liquid", "milliliter", "keg, liquid, drink, water, batch"),
    var("gas", "gram", "dissolved, co2 dissolved, gas, grams of co2"),
    equations=["gas = content * liquid"],
    only="dissolved, grams of co2, g of co2, how much co2, kilos of co2",
    also="bar, psi, gauge, pressure",
    words="keg, equilibrium, dissolved, gauge, at equilibrium, pressure, co2, grams of co2",
    asked="gas, pressure",
    examples=[("a keg with 20 l of plain water at 4 °C and 2 bar gauge: grams of CO2 dissolved at equilibrium?",
               "174.066 gram")],
    source="Henry's law; CO2 density at 0 °C and 1 atm")

LOSSLESS = "Pouring and ice always cost some gas: a glass has less than this."
MIXED = [VOLUMES, "no gas is lost in mixing"]

TOPPED = Calculator(
    "carbonated_mix", "What is left of the fizz when soda meets something flat",
    var("soda", "milliliter", "soda, tonic, carbonated, sparkling, fizzy, soda water, ginger beer, cola", things="soda",
        role="with"),
    var("flat", "milliliter", "flat, base, flat base, still, flat mix, something flat, cordial, syrup",
        things="spirit, syrup, juice"),
    var("volume", "milliliter", "drink, glass, finished drink", role="to"),
    var("soda_volumes", "co2_volume", "soda, tonic, carbonated", role="from", bounds=(0, 20), things="soda"),
    var("volumes", "co2_volume", "finished drink, in the glass, drink, mix, fizz, at the end, finished, "
        "volumes, vols, result, in the result, blend, to hold",
        role="to", bounds=(0, 20)),
    var("content", "gram / liter", "co2 content, co2, carbon dioxide", bounds=(0, 40)),
    var("ratio", "dimensionless", "ratio, parts", ratio="flat:soda", habit=False, shy=True),
    equations=["volume = soda + flat", "flat = ratio * soda", "soda_volumes = volumes * (ratio + one)",
               "content = co2_density * volumes"],
    limits=[limit("volumes <= soda_volumes", "refuse",
                  "A blend holds no more gas than its soda: {soda_volumes} cannot make {volumes}.")],
    constants={**DENSITY, "one": (1, "dimensionless")},
    only=(
        "co2, volumes, volume, vol, vols, carbonate, carbonation, carbonated, fizz, fizzy, soda, tonic, "
        "sparkling, gas, psi, bar, gauge, regulator, charger, cartridge, bulb, seltzer"
    ),
    words="flat, topped, top up, soda, blend, no gas lost, nothing escapes, no loss, highball, on top of, mix, "
          "volumes in the glass, spritz, poured over",
    asked="volumes, soda, soda_volumes, content",
    cautions=[LOSSLESS], conventions=MIXED,
    examples=[("topped 40 ml of flat spirit mix with 100 ml of soda at 4.2 volumes, volumes in the finished drink?",
               "3 dimensionless")],
    source="gas balance")

SPEC_MIX = Calculator(
    "carbonated_spec", "The fizz of a spec, some of its lines carbonated",
    var("volume", "milliliter", "drink", hidden=True),
    var("gas", "milliliter", "gas", hidden=True),
    var("volumes", "co2_volume", "mix, drink, in the glass, fizz, volumes, vols", bounds=(0, 20)),
    var("content", "gram / liter", "co2 content, co2, carbon dioxide", bounds=(0, 40)),
    equations=["gas = volumes * volume", "content = co2_density * volumes"],
    lines=Lines({"volume": "volume", "gas": "volume * fizz"}, columns={"fizz": "co2_volume"}, minimum=2),
    constants=DENSITY,
    only=(
        "co2, volumes, volume, vol, vols, carbonate, carbonation, carbonated, fizz, fizzy, soda, tonic, "
        "sparkling, gas, psi, bar, gauge, regulator, charger, cartridge, bulb, seltzer"
    ),
    words="flat, soda, no gas lost, no loss, volumes of the mix, fizz",
    asked="volumes, content", cautions=[LOSSLESS], conventions=[*MIXED, "a line without volumes is flat"],
    examples=[("60 ml gin flat, 15 ml cordial flat, 150 ml tonic at 4 volumes: volumes of the mix, no loss?",
               "2.667 dimensionless")],
    source="gas balance")

SODA_SIPHON = Calculator(
    "soda_siphon", "CO2 chargers for a soda siphon",
    var("size", "liter", "soda siphon, siphon, soda syphon, syphon, bottle", keeps=True, role="into", bounds=(0, 3)),
    var("liquid", "liter", "water, liquid, fill", role="have"),
    var("chargers", "count", "chargers, co2 chargers, cartridges, capsules, bulbs", whole="up"),
    equations=["chargers = size / a_charger"],
    limits=[limit("liquid <= size", "refuse",
                  "Never fill a siphon above its rated volume, {size}: the gas under pressure needs headspace."),
            limit("chargers <= ceil(size / a_charger)", "refuse",
                  "One CO2 charger for each litre of the siphon's size and no more: the pressure would pass what "
                  "{size} is made for.")],
    constants={"a_charger": (1, "liter")},
    only="soda siphon, soda syphon, soda bottle, seltzer, soda, co2, carbonate, sparkling",
    words="soda siphon, soda syphon, siphon, syphon, seltzer, co2 charger, charge water",
    asked="chargers, size",
    cautions=[PRESSURE, "Keep to the siphon maker's own limits, and to CO2 chargers for a soda siphon."],
    conventions=["one CO2 charger a litre of siphon; common practice, no source"],
    method=["Fill with very cold water to no more than {size}, charge, shake well and rest it cold."],
    examples=[("how many CO2 chargers for a 1 l soda siphon?", "1 count")],
    source="common practice, no source")

SODA_FILLS = Calculator(
    "soda_siphon_fills", "CO2 chargers for several fills of a soda siphon",
    include(SODA_SIPHON, per_fill="chargers"),
    var("per_fill", "count", hidden=True),
    var("fills", "count", "fill, filling, time, refill, siphon, full siphon, soda siphon"),
    var("chargers", "count", "chargers, co2 chargers, cartridges, capsules, bulbs", whole="up"),
    var("box", "count", "per box, to a box, in a box, a box, box of, box has, box is, box holds, per pack, pack of",
        role="per"),
    var("boxes", "count", "box, pack, carton", whole="up"),
    equations=["chargers = fills * per_fill", "chargers = boxes * box"],
    only="soda siphon, soda syphon, seltzer, soda",
    words="soda siphon, soda syphon, fills, fillings, times, refills",
    asked="chargers, boxes, fills",
    method=["{fills} fills of a {size} siphon take {chargers} chargers, one a litre."],
    examples=[("8 fillings of a 1 l soda siphon: how many CO2 capsules?", "8 count")])

CALCULATORS = (PRESSURE_OF, KEG, CYLINDER, KEGS, HELD_IN_KEG, CHARGERS, TOPPED, SPEC_MIX, SODA_SIPHON, SODA_FILLS)
