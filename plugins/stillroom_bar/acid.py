"""Acids and juices: how sour a juice is, bringing it to a target, one acid or juice in another's place.

Acidity is grams of acid in 100 ml (w/v). The powder's own bulk is not counted: grams added are the
difference in acidity times the volume of juice. Juices vary with fruit and season; a figure of
one's own, from a titration, is better than any table.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from stillroom import Calculator, Lines, choice, limit, var

from . import acidity
from .tables import load
from .things import HOLDS

NO_BULK = "acid is in grams per 100 ml (w/v) and the powder's own bulk is not counted"
TYPICAL = "a typical strength: juice varies with fruit and season"
POWDER = "Acid powder stings eyes and cuts: food grade, gloves, and a lid on the shaker."
TWO_TO_ONE = (200 / 3, 100 / 3)
"""Percent of citric and malic acid in lime strength; common practice, no source."""


def _juices(column: str) -> Iterator[Mapping[str, Any]]:
    """The juices by their acidity, g/100 ml."""
    for row in load("juices"):
        yield {"id": row["juice"], "words": row["words"], column: row["acid"], "source": row["source"]}


def _strengths(named: bool = True) -> Iterator[Mapping[str, Any]]:
    """The juices as something to be matched; lime strength is two parts citric to one malic.

    ``named``: does the juice by its full name say that it is to be matched (``lime juice``, not just ``lime``)?
    """
    for row in load("juices"):
        words = row["words"]
        assert isinstance(words, tuple)
        name = words[0]
        citric, malic = TWO_TO_ONE if row["juice"] == "lime" else (None, None)
        yield {"id": row["juice"], "source": row["source"], "acid": row["acid"], "citric": citric, "malic": malic,
               "words": [f"{name} strength", f"{name} acidity", f"acidity of {name}", f"acidity of {name} juice",
                         f"to {name}", f"match {name}", f"like {name}", f"as {name}", f"as sour as {name}",
                         f"{name} level", f"{name} juice strength", f"{name} sourness", f"strength of {name}",
                         f"as mild as {name}", f"up to {name}", f"{name} acid level",
                         *(w for w in words if named or "juice" not in w)]}


FRUIT = ["juice", *(word for row in load("juices") for word in row["words"])]  # type: ignore[union-attr]
"""What says that a juice is meant, and not a solution of powder."""

POWDERS = [
    {"id": "citric", "words": "citric, citric acid, citric only, citric acid only, citric alone", "citric": 100,
     "malic": 0, "other": 0, "source": "a named acid is used alone; common practice, no source"},
    {"id": "malic", "words": "malic, malic acid, malic only, malic alone", "citric": 0, "malic": 100, "other": 0,
     "source": "a named acid is used alone; common practice, no source"},
    {"id": "two_to_one", "words": "citric and malic, malic and citric, citric malic, citric/malic, citric + malic, "
     "citric plus malic, citric & malic, two parts citric to one malic, both acids",
     "citric": TWO_TO_ONE[0], "malic": TWO_TO_ONE[1], "other": 0,
     "source": "two parts citric to one malic; common practice, no source"},
    {"id": "tartaric", "words": "tartaric, tartaric acid", "citric": 0, "malic": 0, "other": 100,
     "source": "a named acid is used alone; common practice, no source"},
    {"id": "lactic", "words": "lactic, lactic acid", "citric": 0, "malic": 0, "other": 100,
     "source": "a named acid is used alone; common practice, no source"},
]

JUICE = Calculator(
    "juice_acid", "The acid in a juice",
    choice("juice", _juices("acidity"), fills={"acidity": "acidity"}, words="juice"),
    var("volume", "milliliter", "juice, volume, pour", named_by="juice.words", things="juice"),
    var("acidity", "percent_wv", "acidity, acid strength, sourness, titratable acidity", bounds=(0, 100)),
    var("acid", "gram", "acid, total acid", state="dry", role="of"),
    equations=["acid = acidity * volume"],
    only=(
        "acid, acidity, sour, tart, sharp, citric, malic, tartaric, lactic, acids, acidulate, acidify, "
        "phosphoric, ascorbic, lime strength, mild"
    ),
    also=FRUIT,
    words="acid, acid content, juice, sour, contains, carries, hold, out of",
    asked="acid, volume, acidity", conventions=[NO_BULK],
    examples=[("how many grams of acid are in 250 ml of lemon juice?", "15 gram"),
              ("need 9 grams of acid out of lemon juice, how many ml is that?", "150 ml")],
    source="mass balance")

def _natural() -> Iterator[Mapping[str, Any]]:
    """The juices whose acids are known apart: lime is two parts citric to one malic, lemon citric."""
    shares = {"lime": TWO_TO_ONE, "lemon": (100, 0)}
    for row in load("juices"):
        if row["juice"] in shares:
            citric, malic = shares[str(row["juice"])]
            yield {"id": row["juice"], "words": row["words"], "acidity": row["acid"], "citric": citric, "malic": malic,
                   "source": row["source"]}


KINDS = Calculator(
    "juice_acids", "The citric and the malic acid in a juice",
    choice("juice", _natural(), fills={"acidity": "acidity", "citric_share": "citric", "malic_share": "malic"},
           words="juice"),
    var("volume", "milliliter", "juice, volume, pour", named_by="juice.words", things="juice"),
    var("acidity", "percent_wv", "acidity, acid strength, titratable acidity", bounds=(0, 100), shy=True),
    var("citric", "gram", "citric, citric acid", state="dry"),
    var("malic", "gram", "malic, malic acid", state="dry"),
    var("acid", "gram", "acid in all", state="dry", hidden=True),
    var("citric_share", "percent_ww", "citric share", hidden=True),
    var("malic_share", "percent_ww", "malic share", hidden=True),
    equations=["acid = acidity * volume", "citric = citric_share * acid", "malic = malic_share * acid"],
    only="of the acid, of its acid, of the acids, of its acids, natural, naturally, by nature, brings along, "
         "is citric, is malic, already in it",
    also=FRUIT,
    words="of the acid, of its acid, natural, naturally, citric, malic, is citric, is malic",
    asked="citric, malic", conventions=[NO_BULK, TYPICAL],
    examples=[("of the acid in 300 ml of lime juice, how much is malic?", "6 gram")],
    source="mass balance")

ADJUST = Calculator(
    "acid_adjust", "Acid to bring a juice up to a target",
    choice("juice", _juices("present"), fills={"present": "present"}, words="juice"),
    choice("like", _strengths(named=False), words="strength, acidity, match, like",
           fills={"target": "acid", "citric_share": "citric", "malic_share": "malic"}),
    choice("powder", POWDERS, words="acid",
           fills={"citric_share": "citric", "malic_share": "malic", "other_share": "other"}),
    var("volume", "milliliter", "juice, volume, batch, base, have", named_by="juice.words", things="juice"),
    var("present", "percent_wv", "present, measured, own acidity, starting acidity", role="from",
        bounds=(0, 100)),
    var("target", "percent_wv", "target, acidity, strength, how sour, total acidity, acid percent, acid %, "
        "acid % now", role="to", bounds=(0, 100)),
    var("acid", "gram", "acid, powder, acid powder, total acid, citric, malic, citric acid, malic acid, "
        "tartaric acid", role="add", state="dry", bounds=(None, None)),
    var("citric", "gram", "part of citric, share of citric", state="dry", bounds=(None, None), shy=True),
    var("malic", "gram", "part of malic, share of malic", state="dry", bounds=(None, None), shy=True),
    var("lack", "gram", "lack of acid", hidden=True, bounds=(None, None)),
    var("citric_share", "percent_ww", "citric share", hidden=True, default=100,
        note="citric acid, as no other was named"),
    var("malic_share", "percent_ww", "malic share", hidden=True, default=0),
    var("other_share", "percent_ww", "share of another acid", hidden=True, default=0),
    equations=["lack = (target - present) * volume", "citric = citric_share * lack", "malic = malic_share * lack",
               "acid = (citric_share + malic_share + other_share) * lack"],
    limits=[limit("target >= present", "refuse",
                  "Adding acid cannot lower the acidity from {present} to {target}: cut it with water or a "
                  "milder juice.")],
    only=(
        "acid, acidity, sour, tart, sharp, citric, malic, tartaric, lactic, acids, acidulate, acidify, "
        "phosphoric, ascorbic, lime strength, mild"
    ),
    words="acid adjust, acid adjusted, adjust, bring, juice, to lime strength, lime strength, sour, sharpen, match, "
          "raise, taking up, acidulate, acidify, reach",
    asked="acid, target, volume",
    method=["Weigh {acid} of acid in all, of which {citric} citric and {malic} malic, for {volume} of juice.",
            "Stir or blend until it is clear, and taste."],
    cautions=[POWDER], conventions=[NO_BULK],
    examples=[("how much acid for 500 ml of grapefruit juice to lime strength?", "20 gram")],
    source="mass balance")

CUT = Calculator(
    "acid_dilute", "Water to bring something sour down to a target",
    choice("juice", _juices("before"), fills={"acidity_before": "before"}, words="juice"),
    var("volume", "milliliter", "juice, cordial, sour mix, batch, have, volume", role="from",
        named_by="juice.words", things="juice"),
    var("acidity_before", "percent_wv", "acid, acidity, juice, cordial, w/v, sour mix", role="from", bounds=(0, 100)),
    var("acidity_after", "percent_wv", "acid, acidity, target, w/v", role="to", bounds=(0, 100)),
    var("water", "milliliter", "water, more water", role="add"),
    var("volume_after", "milliliter", "total, end up, finished, after", role="to"),
    equations=["volume_after = volume + water", "acidity_before * volume = acidity_after * volume_after"],
    limits=[limit("acidity_after <= acidity_before", "refuse",
                  "Water cannot raise the acidity from {acidity_before} to {acidity_after}: add acid instead.")],
    only=(
        "acid, acidity, sour, tart, sharp, citric, malic, tartaric, lactic, acids, acidulate, acidify, "
        "phosphoric, ascorbic, lime strength, mild"
    ),
    also=("water, waiter, dilute, diluted, cut, thin, too sharp, too sour, milder, lower, weaken, down"),
    words="cut with water, cut, dilute, water down, too sharp, too sour, milder, sharp, sour",
    asked="water, acidity_after", conventions=["volumes add", NO_BULK],
    examples=[("1.5 l of lemon juice at 6 % acid cut with water to 2.5 %, how much water?", "2100 ml")],
    source="mass balance")

BLEND = Calculator(
    "juice_blend", "The acidity of several juices together",
    var("volume", "milliliter", "blend", hidden=True),
    var("acid", "gram", "acid, total acid, acid content, acid in all", state="dry"),
    var("acidity", "percent_wv", "acidity, acid strength, blend, mix, how sour", bounds=(0, 100),
        things="juice"),
    var("juice_acid", "gram", "acid of the juice", hidden=True),
    var("powder_acid", "gram", "acid powder", hidden=True),
    equations=["acid = acidity * volume", "acid = juice_acid + powder_acid"],
    lines=Lines({"volume": "volume", "juice_acid": "volume * acidity", "powder_acid": "mass * powder"},
                columns={"acidity": "percent_wv", "powder": "percent_ww"},
                fills={"acidity": "acid", "powder": "pure_acid"},
                holds={"acidity": HOLDS["acid"], "powder": HOLDS["powder"]}, needs=("acidity",), minimum=2),
    only=(
        "acid, acidity, sour, tart, sharp, citric, malic, tartaric, lactic, acids, acidulate, acidify, "
        "phosphoric, ascorbic, lime strength, mild"
    ),
    words="blend, juices, mix, acidity of the blend, poured together, sour mix, total acid",
    asked="acidity, acid", conventions=["volumes add", NO_BULK],
    examples=[("300 ml lime juice + 700 ml pineapple juice, acidity of the blend?", "2.36 percent")],
    source="mass balance")

INTO = Calculator(
    "juice_into_juice", "One juice into another, to a target acidity",
    choice("juice", _juices("present"), fills={"present": "present"}, words="juice"),
    choice("other", _juices("other"), fills={"other_acidity": "other"}, words="other juice"),
    var("volume", "milliliter", "juice, base, have", role="with", named_by="juice.words", things="juice"),
    var("added", "milliliter", "other juice, blend, stir in, add, goes into", role="add", named_by="other.words",
        things="juice"),
    var("total", "milliliter", "in all, end up, finished, altogether", role="to"),
    var("present", "percent_wv", "own acidity, starting acidity", bounds=(0, 100), shy=True),
    var("other_acidity", "percent_wv", "acidity of the other", bounds=(0, 100), shy=True),
    var("target", "percent_wv", "target, acid, acidity, blend, mixture, mix, sit at, hits, until", role="to",
        bounds=(0, 100)),
    equations=["total = volume + added", "present * volume + other_acidity * added = target * total"],
    limits=[limit("target <= max(present, other_acidity)", "refuse",
                  "A blend is no sourer than its sourer juice: {target} cannot be reached, it takes acid powder."),
            limit("target >= min(present, other_acidity)", "refuse",
                  "A blend is no milder than its milder juice: {target} cannot be reached, it takes water.")],
    only=(
        "acid, acidity, sour, tart, sharp, sourer, more sour, milder, mild"
    ),
    also="blend, blended, mix, mixed, mixture, stir, add, with, into",
    words="blend, blended, mix, mixture, stir in, more sour, with another juice, cut with juice",
    asked="added, target, volume, total", conventions=["volumes add", TYPICAL],
    examples=[("how much lemon juice must be blended with 1 l of pineapple juice for the mixture to sit at 2 % acid?",
               "300 ml")],
    source="mass balance")



def _split(one: str, other: str, example: tuple[str, str]) -> Calculator:
    """A total of two acids, parted by a ratio that names its order."""
    name = "acid_split" if (one, other) == ("citric", "malic") else f"acid_split_{one}_{other}"
    return Calculator(
        name, f"A total of acid split into {one} and {other}",
        var("total", "gram", "total acid, acid, acid blend, total, in total, altogether, mixture, mix, together",
            state="dry", role="need"),
        var(one, "gram", f"{one}, {one} acid", state="dry"),
        var(other, "gram", f"{other}, {other} acid", state="dry"),
        var("ratio", "dimensionless", f"{one} to {other}, ratio, split", ratio=f"{one}:{other}", habit=False),
        equations=[f"total = {one} + {other}", f"{one} = ratio * {other}"],
        only="split, part, parts, divide, ratio, proportion, total, in total, total acid, altogether, blend, mixture, "
             "by mass, by weight, by wt",
        also=other,
        words=f"split, parts, divide, {one} to {other}, parts {one}, parts {other}, acid blend",
        asked=f"{one}, {other}, total",
        method=[f"Weigh {{{one}}} of {one} and {{{other}}} of {other} acid: {{total}} in all."],
        conventions=["parts are by weight"], cautions=[POWDER], examples=[example], source="mass balance")


SPLITS = (
    _split("citric", "malic", ("total acid 36 g, two parts citric to one part malic by weight: how much citric?",
                               "24 gram")),
    _split("citric", "tartaric", ("total acid 50 g, four parts citric to one part tartaric by weight: how much citric?",
                                  "40 gram")),
    _split("malic", "tartaric", ("total acid 48 g, two parts malic to one part tartaric by weight: how much malic?",
                                 "32 gram")),
)

PARTS = Calculator(
    "acid_parts", "A total of acid in parts of citric, malic and tartaric",
    var("total", "gram", "total acid, acid, acid blend, blend", state="dry", role="of"),
    var("citric_part", "dimensionless", "citric, part citric, parts citric", bounds=(0, 1000)),
    var("malic_part", "dimensionless", "malic, part malic, parts malic", bounds=(0, 1000)),
    var("tartaric_part", "dimensionless", "tartaric, part tartaric, parts tartaric", bounds=(0, 1000)),
    var("citric", "gram", "citric, citric acid", state="dry"),
    var("malic", "gram", "malic, malic acid", state="dry"),
    var("tartaric", "gram", "tartaric, tartaric acid", state="dry"),
    equations=["citric * (citric_part + malic_part + tartaric_part) = citric_part * total",
               "malic * (citric_part + malic_part + tartaric_part) = malic_part * total",
               "total = citric + malic + tartaric"],
    only="tartaric",
    words="parts, acid blend, by weight, part citric, part malic, part tartaric",
    asked="citric, malic, tartaric, total",
    method=["Weigh {citric} of citric, {malic} of malic and {tartaric} of tartaric acid: {total} in all."],
    conventions=["parts are by weight"], cautions=[POWDER],
    examples=[("2 kg of acid blend in parts by weight: citric 5, malic 3, tartaric 2, how much citric?",
               "1000 gram")],
    source="mass balance")

SAME = Calculator(
    "same_acid", "One juice in another's place, with the same acid",
    choice("juice", _juices("acidity"), fills={"acidity": "acidity"}, words="juice"),
    choice("other", _juices("other"), fills={"other_acidity": "other"}, words="other juice"),
    var("volume", "milliliter", "juice, takes, calls for, spec", role="from", named_by="juice.words"),
    var("other_volume", "milliliter", "other juice, brings, instead, carries", role="to", named_by="other.words"),
    var("acidity", "percent_wv", "acidity of the juice, own acidity", bounds=(0, 100), shy=True),
    var("other_acidity", "percent_wv", "acidity of the other", bounds=(0, 100), shy=True),
    equations=["acidity * volume = other_acidity * other_volume"],
    only="same acid, as much acid, equal acid, equal total acid, same total acid, substitution, in place of, "
        "match, matches, match the acid, instead, replace, replaces, swap, "
         "substitute, same sourness, as sour, equivalent to, equivalent in acid, equal to, acid content",
    words="same acid, match the acid, equivalent to, in terms of acid, acid content, equivalent in acid, as much acid, "
          "carries as much acid, instead of, in place of, replace, swap, substitute, substitution, equal acid, "
          "equal total acid, same total acid",
    asked="other_volume, volume", conventions=[NO_BULK, TYPICAL],
    examples=[("which volume of lime juice brings the same acid as 480 ml of grapefruit juice?", "160 ml")],
    source="mass balance")

SOLUTION_FOR = Calculator(
    "acid_for_juice", "An acid solution in the place of a juice, with the same acid",
    choice("juice", _juices("acidity"), fills={"acidity": "acidity"}, words="juice"),
    var("volume", "milliliter", "juice, takes, calls for, spec", role="from", named_by="juice.words", things="juice"),
    var("solution", "milliliter", "solution, citric solution, acid solution, pour, stock", role="to"),
    var("strength", "percent_wv", "solution, citric solution, acid solution, stock, w/v", bounds=(0, 100), role="have"),
    var("acidity", "percent_wv", "juice, acidity", bounds=(0, 100)),
    var("acid", "gram", "acid, acid powder", state="dry"),
    equations=["acid = acidity * volume", "acid = strength * solution"],
    only=(
        "solution, acid solution, citric solution, stock, stand in, stand-in, replace, instead, carries, same acid, "
        "as much acid, acid water"
    ),
    also=FRUIT,
    words="same acid, acid solution, citric solution, stand in, stand-in, instead of juice, out of lemons, "
          "out of limes, replace juice, carries the same acid, citric, malic, tartaric",
    asked="solution, volume, strength", conventions=[NO_BULK],
    examples=[("a sour takes 45 ml lemon juice; what pour of citric solution at 15% w/v carries the same acid?",
               "18 ml")],
    source="mass balance")

STAND_IN = Calculator(
    "acid_solution", "An acid solution by volume, or as a stand-in for a juice",
    choice("like", _strengths(), fills={"strength": "acid"}, words="strength, like, stand in for"),
    var("acid", "gram", "acid, citric, citric acid, malic acid, tartaric acid, powder", state="dry"),
    var("volume", "milliliter", "solution, finished, acid water, made up to, made, volume, stock", role="to"),
    var("strength", "percent_wv", "strength, w/v, percent, concentration, acidity", bounds=(0, 100)),
    equations=["acid = strength * volume"],
    limits=[limit("strength <= most", "caution",
                  "Near its solubility: citric acid dissolves to about 59 % by weight, malic to 36 %, at 20 °C.")],
    constants={"most": (40, "percent_wv")},
    only=(
        "acid, acidity, sour, tart, sharp, citric, malic, tartaric, lactic, acids, acidulate, acidify, "
        "phosphoric, ascorbic, lime strength, mild"
    ),
    words="acid solution, solution, made up to, in water, w/v, acid water, stand in, stand-in, fake juice, stock, "
          "citric solution, malic solution",
    asked="acid, strength, volume",
    method=["Dissolve {acid} of acid in most of the water and make it up to {volume}."],
    conventions=["volume of the finished solution, in grams per 100 ml (w/v)"], cautions=[POWDER],
    examples=[("48 g of citric acid made up to 1.2 l finished, what % w/v?", "4 percent")],
    source="mass balance")

TWO_ACIDS = Calculator(
    "acid_water", "Acid water of citric and malic acid, made up to a volume",
    var("acid", "gram", "acid in all", state="dry", hidden=True),
    var("citric", "gram", "citric, citric acid", state="dry"),
    var("malic", "gram", "malic, malic acid", state="dry"),
    var("ratio", "dimensionless", "citric to malic, ratio, split", ratio="citric:malic", habit=False),
    var("volume", "milliliter", "acid water, solution, finished, made up to, make up to, fill with water, fill up, "
        "volume, "
        "stock, until", role="to"),
    var("strength", "percent_wv", "strength, w/v, concentration, acidity, acid water", bounds=(0, 100)),
    var("content", "gram / liter", "acid per litre, acid per liter, total acid per liter, total acid per litre, g/l, "
        "grams per litre", shy=True),
    equations=["acid = citric + malic", "citric = ratio * malic", "acid = strength * volume",
               "acid = content * volume"],
    limits=[limit("strength <= most", "caution",
                  "Near its solubility: citric acid dissolves to about 59 % by weight, malic to 36 %, at 20 °C.")],
    constants={"most": (40, "percent_wv")},
    only="acid water, acid solution, solution, dissolve, dissolved, made up to, fill with water, w/v",
    also="malic",
    words="acid water, acid solution, dissolve, dissolved, fill with water, made up to, citric, malic, parts",
    asked="citric, malic, strength, volume",
    method=["Dissolve {citric} of citric and {malic} of malic acid in most of the water and make it up to {volume}."],
    conventions=["volume of the finished solution, in grams per 100 ml (w/v)", "parts are by weight"],
    cautions=[POWDER],
    examples=[("1 l of acid water at 6 % w/v, two parts citric to one part malic: how much citric?", "40 gram"),
              ("18 g citric acid and 6 g malic acid dissolved and made up to 400 ml: what strength in % w/v?",
               "6 percent")],
    source="mass balance")

CALCULATORS = (JUICE, KINDS, ADJUST, CUT, BLEND, INTO, *SPLITS, PARTS, SAME, SOLUTION_FOR, STAND_IN, TWO_ACIDS,
               *acidity.CALCULATORS)
