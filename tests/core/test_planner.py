"""What a plan assumes and asks for: smallest sets, defaults in declared order, amounts that may be anything."""

from __future__ import annotations

import pytest
from stillroom import Calculator, choice, var
from stillroom.errors import Missing
from stillroom.planner import Planner, Question

from .samples import BRINE, HILL, INK, ROOM, TEA, ask, kernel_of, number

BLEND = Calculator(
    "blend",
    "Two solutions into one",
    var("first", "milliliter"),
    var("first_share", "percent"),
    var("second", "milliliter"),
    var("second_share", "percent"),
    var("whole", "milliliter"),
    var("share", "percent"),
    equations=["whole = first + second", "share * whole = first_share * first + second_share * second"],
)
DEFAULTS = Calculator(
    "defaults",
    "Which default goes first",
    var("a", "count"),
    var("b", "count", default=2),
    var("c", "count", default=3),
    var("d", "count", default="b * 10"),
    var("e", "count"),
    equations=["a = b * c", "e = a + d"],
)
SIDES = Calculator(
    "sides",
    "A choice that must be made",
    choice(
        "shape",
        [{"id": "round", "factor": 3.14, "source": "s"}, {"id": "square", "factor": 4, "source": "s"}],
        fills={"factor": "factor"},
    ),
    var("edge", "centimeter"),
    var("width", "centimeter"),
    var("factor", "count", hidden=True),
    equations=["edge = factor * width"],
)
KERNEL = kernel_of(TEA, BRINE, ROOM, INK, HILL, BLEND, DEFAULTS, SIDES)


@pytest.mark.parametrize(
    ("calculator", "given", "wanted", "sets"),
    [
        ("brine", "", "salt", {("brine", "strength"), ("water", "brine"), ("water", "strength")}),
        ("brine", "strength", "salt", {("water",), ("brine",)}),
        ("brine", "salt", "strength", {("water",), ("brine",)}),
        ("tea", "", "leaf", {("water",)}),
        ("blend", "first share whole", "second_share", {("first_share",)}),
        ("blend", "first first_share", "second", {("whole",), ("second_share", "share")}),
    ],
    ids=lambda v: str(sorted(v)) if isinstance(v, set) else str(v),
)
def test_too_little_is_answered_with_the_smallest_sets(
    calculator: str, given: str, wanted: str, sets: set[tuple[str, ...]]
) -> None:
    model = KERNEL.model(f"{calculator}.{calculator}")
    question = Question(frozenset(given.split()), (), (), (wanted,))
    with pytest.raises(Missing) as e:
        Planner(model, question).plan()
    smallest = min(map(len, e.value.sets))
    assert set(e.value.sets) == {s for s in sets if len(s) == smallest} and e.value.wanted == (wanted,)


def test_the_sentence_names_what_would_be_enough() -> None:
    answer = ask(KERNEL, "brine", {"strength": (10, "percent_ww")}, "salt")
    assert (answer.status, answer.missing) == ("asks", (("water",), ("brine",)))
    assert answer.reason == "To find salt I still need water; or brine."


def test_a_choice_is_asked_for_with_what_there_is_to_choose() -> None:
    answer = ask(KERNEL, "sides", {"width": (2, "centimeter")}, "edge")
    assert (answer.status, answer.missing, answer.choices) == ("asks", (("shape",),), ("round", "square"))


def test_a_chosen_row_is_assumed_and_yields_to_what_is_given() -> None:
    answer = ask(KERNEL, "ink", {"volume": (10, "milliliter")}, "mass", choices={"kind": "iron"})
    assert number(answer) == pytest.approx(12)
    assert answer.assumptions == ("density: 1.2 g/ml for iron (a table of ours)",)
    assert "Iron gall ink stains." in answer.cautions and "a table of ours" in answer.sources
    own = ask(
        KERNEL,
        "ink",
        {"volume": (10, "milliliter"), "density": (1.3, "gram / milliliter")},
        "mass",
        choices={"kind": "iron"},
    )
    assert number(own) == pytest.approx(13) and not own.assumptions


@pytest.mark.parametrize(
    ("given", "wanted", "value", "defaults"),
    [
        ({}, "a", 6, ("b", "c")),
        ({"b": 5}, "a", 15, ("c",)),
        ({"a": 12}, "b", 4, ("c",)),
        ({"a": 12}, "c", 6, ("b",)),
        ({"a": 12, "c": 4}, "b", 3, ()),
        ({"a": 12}, "e", 32, ("b", "d")),
        ({"a": 12, "c": 3}, "e", 52, ("d",)),
        ({"c": 7}, "b", 2, ("b",)),
    ],
    ids=str,
)
def test_defaults_come_last_and_in_declared_order(
    given: dict[str, float], wanted: str, value: float, defaults: tuple[str, ...]
) -> None:
    solver = KERNEL.solver("defaults.defaults")
    if wanted == "b" and given == {"c": 7}:
        with pytest.raises(Missing):  # something given bears on it, so its own default is no answer
            solver.solve(given, {}, (wanted,))
        return
    solution = solver.solve(given, {}, (wanted,))
    assert solution.values[wanted] == pytest.approx(value) and solution.plan.defaults == defaults
    assert {n for n, o in solution.origin.items() if o == "assumed"} == set(defaults)


def test_every_default_is_said() -> None:
    answer = ask(KERNEL, "tea", {"water": (2, "liter")}, "leaf")
    assert number(answer) == pytest.approx(16) and answer.assumptions == ("dose: 8 g/l (as it is usually made)",)


def test_a_share_follows_from_shares_whatever_the_amount() -> None:
    answer = ask(
        KERNEL,
        "blend",
        {"first_share": (10, "percent"), "second_share": (30, "percent"), "share": (15, "percent")},
        "first",
    )
    assert answer.status == "asks"
    plain = Calculator(
        "plain",
        "t",
        var("a", "gram"),
        var("b", "gram"),
        var("all", "gram"),
        var("part", "percent"),
        var("ratio", "dimensionless"),
        equations=["all = a + b", "a = part * all", "b = ratio * a"],
    )
    kernel = kernel_of(plain)
    assert number(ask(kernel, "plain", {"ratio": (3, "dimensionless")}, "part")) == pytest.approx(0.25)
    assert ask(kernel, "plain", {"ratio": (3, "dimensionless")}, "all").status == "asks"


def test_what_depends_on_the_amount_takes_a_default_instead() -> None:
    """A count may be any amount, but here it is a factor: its default answers, not a question for it."""
    plain = Calculator(
        "plain",
        "t",
        var("edge", "centimeter"),
        var("width", "centimeter"),
        var("factor", "count", default=3),
        equations=["edge = factor * width"],
    )
    kernel = kernel_of(plain)
    for _ in range(2):
        answer = ask(kernel, "plain", {"width": (2, "centimeter")}, "edge")
        assert number(answer) == pytest.approx(6) and answer.assumptions == ("factor: 3",)


def test_a_free_amount_is_neither_assumed_nor_shown() -> None:
    plain = Calculator(
        "plain",
        "t",
        var("a", "gram"),
        var("b", "gram"),
        var("part", "percent"),
        var("ratio", "dimensionless"),
        equations=["a = part * (a + b)", "b = ratio * a"],
    )
    answer = ask(kernel_of(plain), "plain", {"ratio": (1, "dimensionless")}, "part")
    assert [v.name for v in answer.values] == ["part", "ratio"] or {v.name for v in answer.values} == {"part", "ratio"}
    assert not answer.assumptions
