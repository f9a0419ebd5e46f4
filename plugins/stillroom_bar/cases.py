"""Fruit by the case: what so many cases give, and the cases to buy for so much juice or peel."""

from __future__ import annotations

from stillroom import Calculator, include, var

from .fruit import JUICE, PEEL, VARIES

PACKED = "case, box, crate, carton, tray"
TO_A_CASE = ", ".join(f"in a {x}, per {x}, to a {x}, a {x} holds, to the {x}, in each {x}" for x in PACKED.split(", "))

JUICE_BY_CASE = Calculator(
    "juice_by_case",
    "Cases of fruit to buy for so much juice",
    include(JUICE),
    var("cases", "count", PACKED, whole="up"),
    var("in_case", "count", TO_A_CASE, role="per"),
    equations=["fruit = cases * in_case"],
    words="case, box, crate, carton, cases, boxes",
    only=PACKED,
    asked="cases, juice, fruit",
    method=["Buy {cases} cases for {juice} of juice."],
    examples=[("limes come 48 to a case and give 25 ml each, how many cases for 4 l of juice?", "4 count")],
    source="fruit = cases x fruit in one",
)

PEEL_BY_CASE = Calculator(
    "peel_by_case",
    "Peel from so many cases of fruit",
    include(PEEL),
    var("cases", "count", PACKED, whole="up", default=1, note="one case"),
    var("in_case", "count", TO_A_CASE, role="per"),
    equations=["fruit = cases * in_case"],
    only=PACKED,
    also="peel, zest, rind, skin",
    words="peel, zest, rind, total peel",
    asked="peel, cases, fruit",
    method=["{cases} cases are {fruit} fruit ({kind}) and give {peel} of peel."],
    cautions=[VARIES],
    examples=[("two boxes of 36 oranges, 12 g of peel off each orange: how much peel?", "864 gram")],
    source="peel = cases x fruit in one x peel of one fruit",
)

CALCULATORS = (JUICE_BY_CASE, PEEL_BY_CASE)
